#include "flight/pedal.h"

#include <math.h>

/* Force per hinge-moment coefficient. */
static double force_per_hinge(const ls_model *model, double q_Pa)
{
    const ls_aircraft *aircraft = model->aircraft;
    return aircraft->pedal.gearing_rad_m * q_Pa * aircraft->fin.pressure * aircraft->pedal.area_m2 *
           aircraft->pedal.chord_m * (1.0 - aircraft->pedal.boost);
}

/* Hinge moment with the rudder centred. */
static double hinge_at_zero(const ls_aircraft *aircraft, double fin_rad)
{
    return aircraft->pedal.hinge_zero + aircraft->pedal.hinge_sideslip * fin_rad +
           aircraft->pedal.hinge_tab * aircraft->pedal.tab_rad;
}

double ls_pedal_force(const ls_model *model, double q_Pa, double fin_rad, double rudder_rad)
{
    const ls_aircraft *aircraft = model->aircraft;
    if (!ls_aircraft_has_pedal(aircraft)) {
        return NAN;
    }
    return force_per_hinge(model, q_Pa) *
           (hinge_at_zero(aircraft, fin_rad) + aircraft->pedal.hinge_rudder * rudder_rad);
}

void ls_pedal_range(const ls_model *model, double q_Pa, double fin_rad, double *low_rad, double *high_rad)
{
    const ls_aircraft *aircraft = model->aircraft;
    double right = -aircraft->rudder.right_rad, left = aircraft->rudder.left_rad;
    *low_rad = right;
    *high_rad = left;
    if (!ls_aircraft_has_pedal(aircraft) || !isfinite(model->condition.pedal_limit_N) || !(q_Pa > 0.0)) {
        return;
    }
    double reach = model->condition.pedal_limit_N / (force_per_hinge(model, q_Pa) * -aircraft->pedal.hinge_rudder);
    double middle =
        hinge_at_zero(aircraft, fin_rad) / -aircraft->pedal.hinge_rudder; /* where no force is needed */
    *low_rad = fmin(left, fmax(right, middle - reach));
    *high_rad = fmax(right, fmin(left, middle + reach));
}
