#include "liveside/model.h"

#include "airframe/powerplant_sum.h"
#include "airframe/slipstream.h"
#include "liveside/parameter.h"
#include "num/curve.h"

#include <math.h>
#include <string.h>

const char *ls_rotation_name(ls_rotation rotation)
{
    static const char *const names[LS_ROTATIONS] = {"as built", "all clockwise", "all anticlockwise",
                                                    "tops inboard", "tops outboard"};
    return (unsigned)rotation < LS_ROTATIONS ? names[rotation] : "unknown";
}

void ls_condition_takeoff(const ls_aircraft *aircraft, ls_condition *condition)
{
    memset(condition, 0, sizeof *condition);
    condition->mass_kg = aircraft->mass.maximum_kg;
    condition->cg_aft_m = aircraft->cg.reference_m;
    condition->flap = aircraft->takeoff.flap;
    condition->power = 1.0;
    condition->partial = 0.5;
    condition->pedal_limit_N = aircraft->limits.pedal_force_N;
    condition->bank_limit_rad = aircraft->limits.bank_rad;
}

void ls_condition_fail_as(const ls_aircraft *aircraft, unsigned failed, ls_engine_state state,
                          ls_condition *condition)
{
    for (int i = 0; i < aircraft->engines; i++) {
        condition->state[i] = failed >> i & 1u ? state : LS_RUNNING;
    }
}

void ls_condition_fail(const ls_aircraft *aircraft, unsigned failed, ls_condition *condition)
{
    for (int i = 0; i < aircraft->engines; i++) {
        const ls_powerplant_data *powerplant = &aircraft->powerplant[aircraft->engine[i].powerplant];
        condition->state[i] = failed >> i & 1u ? ls_engine_state_after_failure(powerplant) : LS_RUNNING;
    }
}

unsigned ls_condition_failed(const ls_aircraft *aircraft, const ls_condition *condition)
{
    unsigned failed = 0;
    for (int i = 0; i < aircraft->engines; i++) {
        failed |= condition->state[i] != LS_RUNNING ? 1u << i : 0u;
    }
    return failed;
}

int ls_live_side(const ls_aircraft *aircraft, const ls_condition *condition)
{
    double arm_m = 0.0;
    for (int i = 0; i < aircraft->engines; i++) {
        arm_m += condition->state[i] == LS_RUNNING ? aircraft->engine[i].hub_right_m : 0.0;
    }
    return (arm_m > 1e-6) - (arm_m < -1e-6);
}

/* Seen from behind, a clockwise propeller's top moves right: inboard on the left wing. */
static int hand_of(const ls_engine_mount *mount, ls_rotation rotation)
{
    int side = (mount->hub_right_m > 0.0) - (mount->hub_right_m < 0.0);
    switch (rotation) {
    case LS_ROTATION_CLOCKWISE:
        return +1;
    case LS_ROTATION_ANTICLOCKWISE:
        return -1;
    case LS_ROTATION_TOPS_INBOARD:
        return side != 0 ? -side : ls_engine_hand(mount);
    case LS_ROTATION_TOPS_OUTBOARD:
        return side != 0 ? side : ls_engine_hand(mount);
    default:
        return ls_engine_hand(mount);
    }
}

/* What friction in the slipstream takes of the thrust.
 * Source: Raymer, Aircraft Design: A Conceptual Approach, propeller installation (from memory): efficiency times
 * 1 - (1.558 / D^2) (rho / rho0) Sum(Cf Swet). Momentum theory: the slipstream's dynamic pressure exceeds the free
 * stream's by T / A, so that it takes 4 / pi = 1.273 in place of 1.558 rho / rho0. */
static double installed_share(const ls_powerplant_data *powerplant, double sigma)
{
    const ls_propeller_data *propeller = &powerplant->propeller;
    return powerplant->engine.type == LS_ENGINE_JET
               ? 0.0
               : 1.558 * sigma * propeller->washed_area_m2 / (propeller->diameter_m * propeller->diameter_m);
}

double ls_installation_loss(const ls_mounted_engine *unit, double thrust_N)
{
    return unit->installed_share * fmax(0.0, thrust_N);
}

/* Losses of the installation, each with its switch. An idling engine is as warm as a running one. */
static void mount_losses(const ls_powerplant_data *powerplant, const ls_condition *condition, double sigma,
                         ls_mounted_engine *unit)
{
    int runs = unit->state == LS_RUNNING || unit->state == LS_PARTIAL;
    int is_cold = !runs && unit->state != LS_IDLE && unit->state != LS_ZERO_THRUST;
    if (runs && !(condition->effects_off & LS_EFFECT_INSTALLATION)) {
        unit->installed_share = installed_share(powerplant, sigma);
    }
    if (is_cold && powerplant->engine.type != LS_ENGINE_JET && !(condition->effects_off & LS_EFFECT_COOLING)) {
        unit->cooling_area_m2 = powerplant->engine.cooling_area_m2;
    }
    unit->power *= condition->is_continuous ? powerplant->engine.continuous : 1.0;
}

static void mount_unit(const ls_aircraft *aircraft, const ls_condition *condition, int index,
                       ls_mounted_engine *unit)
{
    const ls_engine_mount *mount = &aircraft->engine[index];
    double cos_tilt = cos(mount->tilt_rad);
    unit->axis[0] = cos_tilt * cos(mount->toe_rad);
    unit->axis[1] = cos_tilt * sin(mount->toe_rad);
    unit->axis[2] = -sin(mount->tilt_rad);
    unit->hub_m[0] = condition->cg_aft_m - mount->hub_aft_m;
    unit->hub_m[1] = mount->hub_right_m - condition->cg_right_m;
    unit->hub_m[2] = mount->hub_down_m;
    unit->hand = hand_of(mount, condition->rotation);
    unit->state = condition->state[index];
    unit->power = unit->state == LS_PARTIAL ? condition->partial * condition->power : condition->power;
    unit->powerplant = mount->powerplant;
    ls_slipstream_mount(aircraft, index, unit);
}

static void add_flap(const ls_flap *flap, const ls_derivatives *clean, ls_derivatives *sum)
{
    *sum = *clean;
    sum->side_sideslip += flap->delta_side_sideslip;
    sum->side_rudder += flap->delta_side_rudder;
    sum->roll_sideslip += flap->delta_roll_sideslip;
    sum->roll_rudder += flap->delta_roll_rudder;
    sum->roll_aileron += flap->delta_roll_aileron;
    sum->yaw_sideslip += flap->delta_yaw_sideslip;
    sum->yaw_rudder += flap->delta_yaw_rudder;
    sum->yaw_aileron += flap->delta_yaw_aileron;
}

static void set_airframe(const ls_aircraft *aircraft, const ls_condition *condition, ls_model *model)
{
    const ls_flap *flap = &aircraft->flap[condition->flap];
    model->S_m2 = aircraft->wing.area_m2;
    model->b_m = aircraft->wing.span_m;
    model->chord_m = ls_given(aircraft->wing.chord_m) ? aircraft->wing.chord_m : model->S_m2 / model->b_m;
    model->lift_zero = flap->lift_zero;
    model->lift_slope = flap->lift_slope_per_rad;
    model->lift_max = flap->lift_max + condition->gear * aircraft->gear.lift_max_change;
    model->drag_base = flap->drag_zero + condition->gear * aircraft->gear.drag +
                       condition->cowl_flaps * aircraft->drag.cowl_flaps;
    model->drag_induced = flap->drag_induced;
    model->drag_least_at = flap->drag_least_at;
    add_flap(flap, &aircraft->derivatives, &model->derivatives);
    model->stability_axes = aircraft->axes == LS_AXES_STABILITY;
    model->cg_aft_m = condition->cg_aft_m - aircraft->cg.reference_m;
    model->cg_right_m = condition->cg_right_m;
    model->aileron_rad = aircraft->aileron.travel_rad * aircraft->aileron.usable;
}

/* The file gives effective over actual deflection; the trim wants effective deflection, and its slope. */
static ls_status set_rudder(const ls_aircraft *aircraft, ls_model *model, ls_error *error)
{
    ls_curve effective = aircraft->rudder.effect;
    if (effective.rows == 0) {
        return LS_OK;
    }
    if (effective.x[0] > 0.0 && effective.rows < LS_CURVE_MAX) { /* it begins at zero deflection */
        memmove(effective.x + 1, effective.x, sizeof effective.x - sizeof effective.x[0]);
        memmove(effective.y + 1, effective.y, sizeof effective.y - sizeof effective.y[0]);
        effective.x[0] = 0.0;
        effective.rows++;
    }
    for (int i = 0; i < effective.rows; i++) {
        effective.y[i] *= effective.x[i];
    }
    return ls_curve_prepare(&effective, LS_CURVE_MONOTONE, &model->rudder_effect, error);
}

static int is_usable(const ls_condition *condition)
{
    return condition->mass_kg > 0.0 && isfinite(condition->mass_kg) && isfinite(condition->cg_aft_m) &&
           isfinite(condition->cg_right_m) && isfinite(condition->power) && isfinite(condition->bank_rad);
}

ls_status ls_model_make(const ls_aircraft *aircraft, const ls_condition *condition, ls_model *model,
                        ls_error *error)
{
    if (!is_usable(condition)) {
        return ls_fail(error, LS_NO_STATE,
                       "the condition holds a number that is not finite, or a mass that is not positive");
    }
    memset(model, 0, sizeof *model);
    model->aircraft = aircraft;
    model->condition = *condition;
    model->loads = ls_powerplant_at;
    model->propulsor = ls_propulsor_at;
    ls_status status = ls_air_at(condition->altitude_m, condition->isa_offset_K, &model->air, error);
    for (int i = 0; i < aircraft->powerplants && status == LS_OK; i++) {
        status = ls_powerplant_prepare(&aircraft->powerplant[i], &model->powerplant[i], error);
    }
    if (status == LS_OK) {
        status = set_rudder(aircraft, model, error);
    }
    if (status != LS_OK) {
        return status;
    }
    set_airframe(aircraft, condition, model);
    model->powerplants = aircraft->powerplants;
    model->units = aircraft->engines;
    for (int i = 0; i < aircraft->engines; i++) {
        mount_unit(aircraft, condition, i, &model->unit[i]);
        mount_losses(&aircraft->powerplant[aircraft->engine[i].powerplant], condition, model->air.sigma,
                     &model->unit[i]);
    }
    model->weight_N = condition->mass_kg * LS_G0_M_S2;
    model->stall_V_m_s = sqrt(2.0 * model->weight_N / (model->air.rho_kg_m3 * model->S_m2 * model->lift_max));
    return LS_OK;
}

/* c = a x b */
static void cross(const double a[3], const double b[3], double c[3])
{
    c[0] = a[1] * b[2] - a[2] * b[1];
    c[1] = a[2] * b[0] - a[0] * b[2];
    c[2] = a[0] * b[1] - a[1] * b[0];
}

/* One unit's loads as constant and as linear in the unit velocity u. With p = (u.a) a - u, column j of the linear
 * part is what u = e_j gives: p_j = a_j a - e_j. The moment of each force acts at the hub. */
static void unit_loads(const ls_model *model, const ls_mounted_engine *unit, const ls_propulsor_point *load,
                       ls_powerplant_point *sum)
{
    unsigned effects_off = model->condition.effects_off;
    double reaction = 1.0 - model->aircraft->swirl_straightened;
    double hand = unit->hand;
    int is_dead = unit->state != LS_RUNNING && unit->state != LS_PARTIAL;
    double thrust_N = is_dead && (effects_off & LS_EFFECT_DEAD_DRAG) ? 0.0 : load->thrust_N;
    thrust_N -= ls_installation_loss(unit, thrust_N);
    double torque_Nm = effects_off & LS_EFFECT_TORQUE ? 0.0 : reaction * load->torque_Nm;
    double in_plane = effects_off & LS_EFFECT_NORMAL_FORCE ? 0.0 : 1.0;
    double hub = effects_off & LS_EFFECT_P_FACTOR ? 0.0 : 1.0;
    double force[3], moment[3];
    for (int i = 0; i < 3; i++) {
        force[i] = thrust_N * unit->axis[i];
    }
    cross(unit->hub_m, force, moment);
    for (int i = 0; i < 3; i++) {
        sum->force0_N[i] += force[i];
        sum->moment0_Nm[i] += moment[i] - hand * torque_Nm * unit->axis[i];
    }
    for (int j = 0; j < 3; j++) {
        double p[3], across[3];
        for (int i = 0; i < 3; i++) {
            p[i] = unit->axis[j] * unit->axis[i] - (i == j ? 1.0 : 0.0);
        }
        cross(unit->axis, p, across);
        for (int i = 0; i < 3; i++) {
            force[i] = in_plane * (load->normal_N * p[i] + hand * load->side_N * across[i]);
        }
        cross(unit->hub_m, force, moment);
        for (int i = 0; i < 3; i++) {
            sum->force_u_N[i][j] += force[i];
            moment[i] += hub * (hand * load->hub_first_Nm * p[i] + load->hub_second_Nm * across[i]);
            sum->moment_u_Nm[i][j] += moment[i];
            if (j == 2) { /* the upwash comes from below, as incidence does */
                sum->upwash_force_N[i] += unit->upwash * force[i];
                sum->upwash_moment_Nm[i] += unit->upwash * moment[i];
            }
        }
    }
}

/* Cooling drag along the air flow, -q A u at the hub. */
static void add_cooling(const ls_model *model, const ls_mounted_engine *unit, ls_powerplant_point *sum)
{
    double q_Pa = 0.5 * model->air.rho_kg_m3 * sum->V_m_s * sum->V_m_s;
    for (int j = 0; j < 3; j++) {
        double force[3] = {0.0, 0.0, 0.0}, moment[3];
        force[j] = -q_Pa * unit->cooling_area_m2;
        cross(unit->hub_m, force, moment);
        for (int i = 0; i < 3; i++) {
            sum->force_u_N[i][j] += force[i];
            sum->moment_u_Nm[i][j] += moment[i];
        }
    }
}

/* Derivatives that were measured with propellers turning hold the sideslip part of their loads: take it out. */
static ls_status take_out_included(const ls_model *model, double V_m_s, ls_powerplant_point *point,
                                   ls_error *error)
{
    ls_engine_state state = model->aircraft->included == LS_INCLUDE_POWER ? LS_RUNNING : LS_WINDMILLING;
    ls_powerplant_point included;
    memset(&included, 0, sizeof included);
    for (int i = 0; i < model->units; i++) {
        ls_propulsor_point load;
        const ls_mounted_engine *unit = &model->unit[i];
        ls_status status =
            model->propulsor(&model->powerplant[unit->powerplant], state, 1.0, &model->air, V_m_s, &load, error);
        if (status != LS_OK) {
            return status;
        }
        unit_loads(model, unit, &load, &included);
    }
    point->force_u_N[1][1] -= included.force_u_N[1][1];
    point->moment_u_Nm[0][1] -= included.moment_u_Nm[0][1];
    point->moment_u_Nm[2][1] -= included.moment_u_Nm[2][1];
    return LS_OK;
}

void ls_powerplant_sum(const ls_model *model, ls_powerplant_point *point)
{
    for (int i = 0; i < model->units; i++) {
        unit_loads(model, &model->unit[i], &point->unit[i], point);
        add_cooling(model, &model->unit[i], point);
        point->flags |= point->unit[i].flags;
    }
    ls_slipstream_at(model, point->V_m_s, point);
}

ls_status ls_powerplant_at(const ls_model *model, double V_m_s, ls_powerplant_point *point, ls_error *error)
{
    memset(point, 0, sizeof *point);
    point->V_m_s = V_m_s;
    for (int i = 0; i < model->units; i++) {
        const ls_mounted_engine *unit = &model->unit[i];
        ls_status status = model->propulsor(&model->powerplant[unit->powerplant], unit->state, unit->power,
                                            &model->air, V_m_s, &point->unit[i], error);
        if (status != LS_OK) {
            return status;
        }
    }
    ls_powerplant_sum(model, point);
    return model->aircraft->included == LS_INCLUDE_NONE ? LS_OK : take_out_included(model, V_m_s, point, error);
}
