#include "liveside/model.h"

#include "airframe/powerplant_sum.h"
#include "airframe/slipstream.h"
#include "liveside/parameter.h"
#include "num/curve.h"

#include <math.h>
#include <stddef.h>
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

/* c = a x b */
static inline void cross(const double a[3], const double b[3], double c[3])
{
    c[0] = a[1] * b[2] - a[2] * b[1];
    c[1] = a[2] * b[0] - a[0] * b[2];
    c[2] = a[0] * b[1] - a[1] * b[0];
}

/* With p = (u.a) a - u, u = e_j gives p = a_j a - e_j and a x p = -a x e_j. */
static void mount_directions(ls_mounted_engine *unit)
{
    const double *a = unit->axis;
    for (int j = 0; j < 3; j++) {
        double p[3] = {a[j] * a[0], a[j] * a[1], a[j] * a[2]}, turned[3], moment[3], turned_moment[3];
        p[j] -= 1.0;
        cross(a, p, turned);
        cross(unit->hub_m, p, moment);
        cross(unit->hub_m, turned, turned_moment);
        for (int i = 0; i < 3; i++) {
            unit->along[i][j] = p[i];
            unit->along_moment[i][j] = moment[i];
            unit->across[i][j] = turned[i];
            unit->across_moment[i][j] = turned_moment[i];
        }
    }
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
    mount_directions(unit);
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
    memset(model, 0, offsetof(ls_model, rudder_effect)); /* what follows is filled as far as it is used */
    model->rudder_effect.table.rows = 0;
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
        memset(&model->unit[i], 0, sizeof model->unit[i]);
        mount_unit(aircraft, condition, i, &model->unit[i]);
        mount_losses(&aircraft->powerplant[aircraft->engine[i].powerplant], condition, model->air.sigma,
                     &model->unit[i]);
    }
    model->weight_N = condition->mass_kg * LS_G0_M_S2;
    model->stall_V_m_s = sqrt(2.0 * model->weight_N / (model->air.rho_kg_m3 * model->S_m2 * model->lift_max));
    return LS_OK;
}

/* Eight of the nine side by side. */
static inline void add_scaled(const double matrix[3][3], double scale, double sum[3][3])
{
    const double *restrict from = matrix[0];
    double *restrict to = sum[0];
    for (int k = 0; k < 8; k++) {
        to[k] += scale * from[k];
    }
    to[8] += scale * from[8];
}

/* Adds loads in the plane of a unit's disc, and what the wing's upwash makes of them: it comes from below, as
 * incidence does. */
static void add_in_plane(const double force[3][3], const double moment[3][3], double scale, double upwash,
                         ls_powerplant_point *sum)
{
    add_scaled(force, scale, sum->force_u_N);
    add_scaled(moment, scale, sum->moment_u_Nm);
    for (int i = 0; i < 3; i++) {
        sum->upwash_force_N[i] += upwash * scale * force[i][2];
        sum->upwash_moment_Nm[i] += upwash * scale * moment[i][2];
    }
}

static void add_hub_moment(const double direction[3][3], double scale, double upwash, ls_powerplant_point *sum)
{
    add_scaled(direction, scale, sum->moment_u_Nm);
    for (int i = 0; i < 3; i++) {
        sum->upwash_moment_Nm[i] += upwash * scale * direction[i][2];
    }
}

static void in_plane_loads(const ls_mounted_engine *unit, const ls_propulsor_point *load, unsigned effects_off,
                           ls_powerplant_point *sum)
{
    if (!(effects_off & LS_EFFECT_NORMAL_FORCE)) {
        add_in_plane(unit->along, unit->along_moment, load->normal_N, unit->upwash, sum);
        if (load->side_N != 0.0) {
            add_in_plane(unit->across, unit->across_moment, unit->hand * load->side_N, unit->upwash, sum);
        }
    }
    if (!(effects_off & LS_EFFECT_P_FACTOR)) {
        add_hub_moment(unit->along, unit->hand * load->hub_first_Nm, unit->upwash, sum);
        if (load->hub_second_Nm != 0.0) {
            add_hub_moment(unit->across, load->hub_second_Nm, unit->upwash, sum);
        }
    }
}

/* One unit's loads as constant and as linear in the unit velocity u. The moment of each force acts at the hub. */
static void unit_loads(const ls_model *model, const ls_mounted_engine *unit, const ls_propulsor_point *load,
                       ls_powerplant_point *sum)
{
    unsigned effects_off = model->condition.effects_off;
    double reaction = 1.0 - model->aircraft->swirl_straightened;
    int is_dead = unit->state != LS_RUNNING && unit->state != LS_PARTIAL;
    double thrust_N = is_dead && (effects_off & LS_EFFECT_DEAD_DRAG) ? 0.0 : load->thrust_N;
    thrust_N -= ls_installation_loss(unit, thrust_N);
    double torque_Nm = effects_off & LS_EFFECT_TORQUE ? 0.0 : reaction * load->torque_Nm;
    double force[3], moment[3];
    for (int i = 0; i < 3; i++) {
        force[i] = thrust_N * unit->axis[i];
    }
    cross(unit->hub_m, force, moment);
    for (int i = 0; i < 3; i++) {
        sum->force0_N[i] += force[i];
        sum->moment0_Nm[i] += moment[i] - unit->hand * torque_Nm * unit->axis[i];
    }
    in_plane_loads(unit, load, effects_off, sum);
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

ls_engine_state ls_included_state(const ls_aircraft *aircraft)
{
    return aircraft->included == LS_INCLUDE_POWER ? LS_RUNNING : LS_WINDMILLING;
}

/* Derivatives that were measured with propellers turning hold the sideslip part of their loads: take it out. */
static void take_out_included(const ls_model *model, const ls_propulsor_point *load, ls_powerplant_point *point)
{
    ls_powerplant_point included = {0};
    for (int i = 0; i < model->units; i++) {
        unit_loads(model, &model->unit[i], &load[i], &included);
    }
    point->force_u_N[1][1] -= included.force_u_N[1][1];
    point->moment_u_Nm[0][1] -= included.moment_u_Nm[0][1];
    point->moment_u_Nm[2][1] -= included.moment_u_Nm[2][1];
}

void ls_powerplant_sum(const ls_model *model, double V_m_s, const ls_propulsor_point *included,
                       ls_powerplant_point *point)
{
    memset(point, 0, offsetof(ls_powerplant_point, unit));
    point->V_m_s = V_m_s;
    point->flags = 0;
    for (int i = 0; i < model->units; i++) {
        unit_loads(model, &model->unit[i], &point->unit[i], point);
        if (model->unit[i].cooling_area_m2 != 0.0) {
            add_cooling(model, &model->unit[i], point);
        }
        point->flags |= point->unit[i].flags;
    }
    ls_slipstream_at(model, V_m_s, point);
    if (included != NULL && model->aircraft->included != LS_INCLUDE_NONE) {
        take_out_included(model, included, point);
    }
}

ls_status ls_powerplant_at(const ls_model *model, double V_m_s, ls_powerplant_point *point, ls_error *error)
{
    ls_propulsor_point included[LS_MAX_ENGINES];
    ls_engine_state with = ls_included_state(model->aircraft);
    memset(point, 0, sizeof *point);
    for (int i = 0; i < model->units; i++) {
        const ls_mounted_engine *unit = &model->unit[i];
        const ls_powerplant *powerplant = &model->powerplant[unit->powerplant];
        ls_status status =
            model->propulsor(powerplant, unit->state, unit->power, &model->air, V_m_s, &point->unit[i], error);
        if (status == LS_OK && model->aircraft->included != LS_INCLUDE_NONE) {
            status = model->propulsor(powerplant, with, 1.0, &model->air, V_m_s, &included[i], error);
        }
        if (status != LS_OK) {
            return status;
        }
    }
    ls_powerplant_sum(model, V_m_s, included, point);
    return LS_OK;
}
