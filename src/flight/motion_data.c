/* Inertia and rate derivatives, as given or estimated. */
#include "liveside/motion.h"

#include <math.h>

ls_inertia ls_inertia_of(const ls_aircraft *aircraft, double mass_kg)
{
    double b = aircraft->wing.span_m, mb2 = mass_kg * b * b;
    return (ls_inertia){mb2 * aircraft->inertia.roll_radius * aircraft->inertia.roll_radius,
                        mb2 * aircraft->inertia.pitch_radius * aircraft->inertia.pitch_radius,
                        mb2 * aircraft->inertia.yaw_radius * aircraft->inertia.yaw_radius,
                        mb2 * aircraft->inertia.product};
}

static double given_or(double value, double estimate)
{
    return isnan(value) ? estimate : value;
}

ls_rates ls_rates_of(const ls_model *model, double lift_coefficient)
{
    const double taper = 0.5, fin_share = 0.7;
    const ls_derivatives *d = &model->derivatives;
    double A = model->b_m * model->b_m / model->S_m2;
    double arm = -d->yaw_rudder / d->side_rudder; /* over the span */
    double CY_fin = fin_share * d->side_sideslip;
    double slope = fmin(model->lift_slope, 2.0 * 3.14159265358979323846);
    double Cl_p = -slope / 12.0 * (1.0 + 3.0 * taper) / (1.0 + taper) * A / (A + 4.0);
    ls_rates rates;
    rates.side_roll = given_or(model->aircraft->rates.side_roll, 0.0);
    rates.side_yaw = given_or(model->aircraft->rates.side_yaw, -2.0 * arm * CY_fin);
    rates.roll_roll = given_or(model->aircraft->rates.roll_roll, Cl_p);
    rates.roll_yaw = given_or(model->aircraft->rates.roll_yaw, 0.25 * lift_coefficient);
    rates.yaw_roll = given_or(model->aircraft->rates.yaw_roll, -0.125 * lift_coefficient);
    rates.yaw_yaw = given_or(model->aircraft->rates.yaw_yaw, 2.0 * arm * arm * CY_fin);
    return rates;
}
