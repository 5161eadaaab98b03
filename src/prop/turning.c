#include "prop/turning.h"

#include "liveside/prop_table.h"
#include "num/curve.h"
#include "prop/engine.h"
#include "prop/wake.h"

#include <math.h>
#include <string.h>

static const double two_pi = 6.28318530717958647692;

void ls_turning_loads(const ls_powerplant *powerplant, const ls_air *air, double V_m_s, double pitch_rad,
                      double n_rev_s, ls_propulsor_point *point)
{
    const ls_propeller_data *propeller = &powerplant->data->propeller;
    ls_disc_state state = {.V_axial_m_s = V_m_s,
                           .n_rev_s = n_rev_s,
                           .pitch_rad = pitch_rad,
                           .rho_kg_m3 = air->rho_kg_m3,
                           .a_m_s = air->a_m_s};
    ls_disc_axial axial;
    memset(point, 0, sizeof *point);
    unsigned edge = ls_prop_table_at(propeller->table, &state, &axial);
    point->thrust_N = axial.T_N;
    point->torque_Nm = axial.Q_N_m;
    point->normal_N = axial.N_N_s_m * V_m_s;
    point->hub_first_Nm = axial.m1_N_s * V_m_s;
    point->n_rev_s = n_rev_s;
    point->pitch_rad = pitch_rad;
    point->shaft_power_W = two_pi * n_rev_s * axial.Q_N_m;
    point->efficiency = point->shaft_power_W > 0.0 ? axial.T_N * V_m_s / point->shaft_power_W : 0.0;
    double tip_m_s = hypot(V_m_s, 0.5 * two_pi * n_rev_s * propeller->diameter_m);
    point->flags =
        (edge != 0 ? LS_PROPULSOR_TABLE_EDGE : 0u) | (tip_m_s > 0.85 * air->a_m_s ? LS_PROPULSOR_TIP_MACH : 0u);
    ls_wake_from_momentum(propeller->diameter_m, air, V_m_s, point);
}

double ls_turning_inertia(const ls_powerplant_data *data)
{
    enum { STEPS = 40 };
    const double density_kg_m3 = 2750.0, area_over_ct = 0.70, with_hub = 1.1;
    const ls_propeller_data *propeller = &data->propeller;
    ls_curve_fit chord, thickness;
    if (!isnan(data->transient.inertia_kg_m2)) {
        return data->transient.inertia_kg_m2;
    }
    if (propeller->kind != LS_PROPELLER_BLADE_ELEMENT ||
        ls_curve_prepare(&propeller->chord, LS_CURVE_MONOTONE, &chord, NULL) != LS_OK ||
        ls_curve_prepare(&propeller->thickness, LS_CURVE_MONOTONE, &thickness, NULL) != LS_OK) {
        return NAN;
    }
    double R_m = 0.5 * propeller->diameter_m, sum = 0.0, width = (1.0 - propeller->root_r_R) / STEPS;
    for (int i = 0; i < STEPS; i++) {
        double x = propeller->root_r_R + (i + 0.5) * width;
        double c_R = ls_curve_at(&chord, x).value;
        sum += c_R * c_R * ls_curve_at(&thickness, x).value * x * x * width;
    }
    return with_hub * propeller->blades * density_kg_m3 * area_over_ct * pow(R_m, 5.0) * sum;
}

double ls_turning_decay(const ls_powerplant_data *data)
{
    static const double usual_s[] = {
        [LS_ENGINE_PISTON] = 0.2, [LS_ENGINE_TURBOPROP] = 0.8, [LS_ENGINE_ELECTRIC] = 0.1, [LS_ENGINE_JET] = 1.0};
    return isnan(data->transient.decay_s) ? usual_s[data->engine.type] : data->transient.decay_s;
}

double ls_turning_torque(const ls_powerplant *powerplant, const ls_air *air, double share, double power,
                         ls_engine_state after, double power_after, double n_rev_s)
{
    const double standing_rev_s = 0.5;
    double torque = 0.0;
    if (share > 0.0) {
        torque += share * ls_engine_torque(powerplant, air, LS_RUNNING, power, n_rev_s);
    }
    if (share < 1.0) {
        torque += (1.0 - share) * ls_engine_torque(powerplant, air, after, power_after, n_rev_s);
    }
    return torque < 0.0 && n_rev_s < standing_rev_s ? torque * n_rev_s / standing_rev_s : torque;
}

double ls_turning_lever(const ls_powerplant_data *data, int is_aft)
{
    double rated_rev_s = data->engine.n_rev_s * data->engine.gear_ratio;
    return is_aft ? fmin(rated_rev_s, data->propeller.lever_aft_rev_s) : rated_rev_s;
}

double ls_turning_coarse(const ls_propeller_data *propeller)
{
    double feather_rad = propeller->feathering != LS_FEATHERS_NEVER ? propeller->feather_pitch_rad : NAN;
    if (!isnan(propeller->coarse_pitch_rad)) {
        return propeller->coarse_pitch_rad;
    }
    return isnan(feather_rad) ? propeller->fine_pitch_rad : feather_rad;
}
