#include "liveside/estimate_check.h"

#include "liveside/airspeed.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)

static void find_vmc(const ls_aircraft *aircraft, ls_estimate_check *check)
{
    ls_error why = {0};
    ls_vmca_request request;
    memset(&request, 0, sizeof request);
    ls_condition_takeoff(aircraft, &request.condition);
    if (!ls_aircraft_has_pedal(aircraft)) {
        request.condition.pedal_limit_N = INFINITY;
    }
    request.search = LS_SEARCH_ALL;
    request.state = -1;
    request.sets = ls_vmca_sets(aircraft, request.set);
    check->vmca_status = ls_vmca_solve(aircraft, &request, &check->vmca, &why);
    snprintf(check->vmca_reason, sizeof check->vmca_reason, "%s", why.text);
}

/* Rate of climb at a speed and bank, or NaN. */
static double climb(const ls_model *model, double cas_m_s, double bank_rad)
{
    ls_airspeed speed;
    ls_trim trim;
    if (ls_airspeed_from_cas(&model->air, cas_m_s, &speed, NULL) != LS_OK ||
        ls_trim_solve(model, speed.TAS_m_s, bank_rad, &trim, NULL) != LS_OK) {
        return NAN;
    }
    return speed.TAS_m_s * sin(trim.climb_rad);
}

/* The state of least drag that the file has data for. */
static ls_engine_state least_drag(const ls_aircraft *aircraft)
{
    const ls_powerplant_data *powerplant = &aircraft->powerplant[aircraft->engine[0].powerplant];
    return powerplant->propeller.feathering == LS_FEATHERS_NEVER ? LS_WINDMILLING : LS_FEATHERED;
}

static void climb_on_one(const ls_aircraft *aircraft, const ls_condition *condition, ls_estimate_check *check)
{
    ls_model model;
    ls_condition failed = *condition;
    ls_condition_fail_as(aircraft, 1u, least_drag(aircraft), &failed);
    check->climb_one_m_s = NAN;
    if (ls_model_make(aircraft, &failed, &model, NULL) != LS_OK) {
        return;
    }
    for (int i = 0; i <= 10; i++) {
        double bank_rad = 0.5 * DEG * i * ls_live_side(aircraft, &failed);
        double rate_m_s = climb(&model, check->climb_one_speed_m_s, bank_rad);
        if (!(rate_m_s <= check->climb_one_m_s) && isfinite(rate_m_s)) {
            check->climb_one_m_s = rate_m_s;
            check->climb_one_bank_rad = fabs(bank_rad);
        }
    }
}

static double given_or(double given, double otherwise)
{
    return ls_given(given) ? given : otherwise;
}

ls_status ls_estimate_fly(const ls_aircraft *aircraft, const ls_geometry_input *input, ls_estimate_check *check,
                          ls_error *error)
{
    ls_condition condition;
    ls_model model;
    memset(check, 0, sizeof *check);
    ls_condition_takeoff(aircraft, &condition);
    ls_status status = ls_model_make(aircraft, &condition, &model, error);
    if (status != LS_OK) {
        return status;
    }
    int is_handbook = input->level == LS_LEVEL_HANDBOOK;
    double usual_m_s = 1.3 * model.stall_V_m_s;
    check->climb_speed_m_s = given_or(is_handbook ? input->handbook.climb_speed_m_s : NAN, usual_m_s);
    check->climb_one_speed_m_s = given_or(is_handbook ? input->handbook.climb_one_speed_m_s : NAN, usual_m_s);
    check->climb_m_s = climb(&model, check->climb_speed_m_s, 0.0);
    climb_on_one(aircraft, &condition, check);
    find_vmc(aircraft, check);
    return LS_OK;
}
