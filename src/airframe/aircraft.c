#include "liveside/aircraft.h"

#include "num/curve.h"

#include <math.h>
#include <string.h>

int ls_given(double value)
{
    return !isnan(value);
}

int ls_aircraft_has_pedal(const ls_aircraft *aircraft)
{
    return ls_given(aircraft->pedal.gearing_rad_m) && ls_given(aircraft->pedal.area_m2) &&
           ls_given(aircraft->pedal.chord_m) && ls_given(aircraft->pedal.hinge_sideslip) &&
           ls_given(aircraft->pedal.hinge_rudder);
}

int ls_engine_hand(const ls_engine_mount *engine)
{
    return engine->rotation == 0 ? +1 : -1;
}

double ls_indicated_airspeed(const ls_aircraft *aircraft, double cas_m_s, int *outside)
{
    ls_curve_fit fit;
    ls_curve_point point = {cas_m_s, 1.0, 0};
    if (ls_curve_prepare(&aircraft->position_error, LS_CURVE_LINEAR, &fit, NULL) == LS_OK) {
        point = ls_curve_at(&fit, cas_m_s);
    }
    if (outside != NULL) {
        *outside = point.outside != 0;
    }
    return point.value;
}

int ls_flap_find(const ls_aircraft *aircraft, const char *name)
{
    for (int i = 0; i < aircraft->flaps; i++) {
        if (strcmp(aircraft->flap[i].name, name) == 0) {
            return i;
        }
    }
    return -1;
}

int ls_powerplant_find(const ls_aircraft *aircraft, const char *name)
{
    for (int i = 0; i < aircraft->powerplants; i++) {
        if (strcmp(aircraft->powerplant[i].name, name) == 0) {
            return i;
        }
    }
    return -1;
}

int ls_engine_find(const ls_aircraft *aircraft, const char *name)
{
    for (int i = 0; i < aircraft->engines; i++) {
        if (strcmp(aircraft->engine[i].name, name) == 0) {
            return i;
        }
    }
    return -1;
}

int ls_flap_clean(const ls_aircraft *aircraft)
{
    int clean = 0;
    for (int i = 1; i < aircraft->flaps; i++) {
        clean = aircraft->flap[i].deflection_rad < aircraft->flap[clean].deflection_rad ? i : clean;
    }
    return clean;
}
