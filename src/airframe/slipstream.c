#include "airframe/slipstream.h"

#include <math.h>

static const double section_slope = 2.0 * 3.14159265358979323846; /* thin aerofoil */

/* Whether another engine of the same side stands nearer the plane of symmetry. */
static int has_inner(const ls_aircraft *aircraft, double right_m)
{
    for (int i = 0; i < aircraft->engines; i++) {
        double other_m = aircraft->engine[i].hub_right_m;
        if (other_m * right_m > 0.0 && fabs(other_m) < fabs(right_m) - 1e-6) {
            return 1;
        }
    }
    return 0;
}

void ls_slipstream_mount(const ls_aircraft *aircraft, int engine, ls_mounted_engine *unit)
{
    const ls_engine_mount *mount = &aircraft->engine[engine];
    double radius_m = 0.5 * aircraft->powerplant[mount->powerplant].propeller.diameter_m;
    double ahead_m = aircraft->cg.reference_m - mount->hub_aft_m;
    unit->developed = radius_m > 0.0 ? 0.5 * (1.0 + ahead_m / hypot(ahead_m, radius_m)) : 0.0;
    unit->upwash = ahead_m > 0.0 ? aircraft->slipstream.upwash : 0.0;
    int tops_inboard = unit->hand * mount->hub_right_m < -1e-6;
    unit->immersion =
        tops_inboard && !has_inner(aircraft, mount->hub_right_m) ? aircraft->slipstream.fin_immersion : 0.0;
}

ls_wash ls_wash_of(const ls_model *model, int unit, const ls_propulsor_point *load, double V_m_s)
{
    const ls_mounted_engine *mount = &model->unit[unit];
    const ls_aircraft *aircraft = model->aircraft;
    double D_m = model->powerplant[mount->powerplant].data->propeller.diameter_m;
    double lambda = aircraft->slipstream.wing_lift; /* 0 is no slipstream lift at all */
    if (load->wake_m_s == 0.0 || lambda == 0.0 || (model->condition.effects_off & LS_EFFECT_SLIPSTREAM)) {
        return (ls_wash){0};
    }
    double v_m_s = load->wake_m_s * mount->developed, Vs_m_s = V_m_s + v_m_s;
    double Ds_m = D_m * sqrt((V_m_s + 0.5 * load->wake_m_s) / Vs_m_s);
    double gain_N = 0.5 * model->air.rho_kg_m3 * (Vs_m_s * Vs_m_s - V_m_s * V_m_s) * Ds_m * model->chord_m;
    double turn = 0.6 * section_slope * v_m_s / Vs_m_s;
    double zero_rad = model->lift_zero / model->lift_slope;
    double disc0_rad = aircraft->engine[unit].tilt_rad + mount->upwash * zero_rad, disc1 = 1.0 + mount->upwash;
    double centre_m = mount->hand * load->offset_m;
    return (ls_wash){gain_N * (lambda * model->lift_zero - turn * disc0_rad),
                     gain_N * (lambda * model->lift_slope - turn * disc1), mount->hub_m[1] + centre_m * disc0_rad,
                     centre_m * disc1};
}

double ls_swirl_at_fin(const ls_model *model, int unit, const ls_propulsor_point *load)
{
    const ls_mounted_engine *mount = &model->unit[unit];
    if (model->condition.effects_off & LS_EFFECT_SWIRL) {
        return 0.0;
    }
    return -mount->hand * mount->immersion * (1.0 - model->aircraft->swirl_straightened) * load->swirl_rad;
}

double ls_fin_as_rudder(const ls_derivatives *derivatives, double fin_rad)
{
    return fin_rad != 0.0 ? fin_rad * derivatives->yaw_sideslip / derivatives->yaw_rudder : 0.0;
}

void ls_slipstream_at(const ls_model *model, double V_m_s, ls_powerplant_point *point)
{
    for (int i = 0; i < model->units; i++) {
        ls_wash wash = ls_wash_of(model, i, &point->unit[i], V_m_s);
        point->wash_lift_N[0] += wash.lift0_N;
        point->wash_lift_N[1] += wash.lift1_N;
        point->wash_arm_Nm[0] += wash.lift0_N * wash.right0_m;
        point->wash_arm_Nm[1] += wash.lift1_N * wash.right0_m + wash.lift0_N * wash.right1_m;
        point->wash_arm_Nm[2] += wash.lift1_N * wash.right1_m;
        point->fin_rad += ls_swirl_at_fin(model, i, &point->unit[i]);
    }
}
