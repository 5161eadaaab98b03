/* Every force and moment of a trim, worked out source by source and apart from the solver, so that their sum
 * checks it. Airframe forces act at the reference point, propulsion at the hubs; moments are about the centre of
 * gravity. */
#include "liveside/trim.h"

#include "airframe/slipstream.h"
#include "num/curve.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

typedef struct {
    const ls_model *model;
    const ls_powerplant_point *point;
    const ls_trim *trim;
    double u[3], qS_N, qSb_Nm;
    int engine; /* that the parts now added belong to, or -1 */
    ls_balance *out;
} listing;

const char *ls_cause_name(ls_cause cause)
{
    static const char *const names[LS_CAUSES] = {"thrust",
                                                 "dead engine's drag",
                                                 "P-factor",
                                                 "in-plane force",
                                                 "torque",
                                                 "slipstream on wing",
                                                 "swirl on fin",
                                                 "sideslip",
                                                 "rudder",
                                                 "aileron",
                                                 "weight off centre",
                                                 "in the derivatives"};
    return (unsigned)cause < LS_CAUSES ? names[cause] : "unknown";
}

static void cross(const double a[3], const double b[3], double c[3])
{
    c[0] = a[1] * b[2] - a[2] * b[1];
    c[1] = a[2] * b[0] - a[0] * b[2];
    c[2] = a[0] * b[1] - a[1] * b[0];
}

/* Adds a force at a point and a moment on top of its own; both may be null. */
static void add(listing *l, ls_cause cause, const char *name, const double at_m[3], const double force_N[3],
                const double moment_Nm[3])
{
    static const double none[3] = {0, 0, 0};
    ls_part *part = &l->out->part[l->out->count];
    if (l->out->count == LS_PARTS_MAX) {
        return;
    }
    l->out->count++;
    part->cause = cause;
    part->engine = l->engine;
    snprintf(part->name, sizeof part->name, "%s", name);
    memcpy(part->force_N, force_N != NULL ? force_N : none, sizeof part->force_N);
    cross(at_m != NULL ? at_m : none, part->force_N, part->moment_Nm);
    for (int i = 0; i < 3; i++) {
        part->moment_Nm[i] += moment_Nm != NULL ? moment_Nm[i] : 0.0;
        l->out->sum.force_N[i] += part->force_N[i];
        l->out->sum.moment_Nm[i] += part->moment_Nm[i];
    }
}

/* Side force along y and roll and yaw coefficients of one cause, turned into body axes. */
static void add_lateral(listing *l, ls_cause cause, const char *name, double CY, double Cl, double Cn)
{
    double cos_a = l->model->stability_axes ? cos(l->trim->alpha_rad) : 1.0;
    double sin_a = l->model->stability_axes ? sin(l->trim->alpha_rad) : 0.0;
    double reference_m[3] = {l->model->cg_aft_m, -l->model->cg_right_m, 0.0};
    double force[3] = {0.0, l->qS_N * CY, 0.0};
    double moment[3] = {l->qSb_Nm * (Cl * cos_a - Cn * sin_a), 0.0, l->qSb_Nm * (Cl * sin_a + Cn * cos_a)};
    add(l, cause, name, reference_m, force, moment);
}

static double effective_rudder(const ls_model *model, double rudder_rad)
{
    if (model->rudder_effect.table.rows == 0) {
        return rudder_rad;
    }
    return copysign(ls_curve_at(&model->rudder_effect, fabs(rudder_rad)).value, rudder_rad);
}

static void add_airframe(listing *l)
{
    const ls_model *model = l->model;
    const ls_trim *trim = l->trim;
    const ls_derivatives *d = &model->derivatives;
    const ls_aircraft *aircraft = model->aircraft;
    double reference_m[3] = {model->cg_aft_m, -model->cg_right_m, 0.0};
    double CL = model->lift_zero + model->lift_slope * trim->alpha_rad, above = CL - model->drag_least_at;
    double CD = model->drag_base + model->drag_induced * above * above +
                aircraft->drag.sideslip_per_rad2 * trim->beta_rad * trim->beta_rad +
                aircraft->drag.rudder_per_rad2 * trim->rudder_rad * trim->rudder_rad +
                aircraft->drag.aileron_per_rad2 * trim->aileron_rad * trim->aileron_rad;
    double lift[3] = {l->qS_N * CL * sin(trim->alpha_rad), 0.0, -l->qS_N * CL * cos(trim->alpha_rad)};
    double drag[3], rudder_rad = effective_rudder(model, trim->rudder_rad);
    for (int i = 0; i < 3; i++) {
        drag[i] = -l->qS_N * CD * l->u[i];
    }
    double W = model->weight_N, cos_t = cos(trim->theta_rad);
    double weight[3] = {-W * sin(trim->theta_rad), W * cos_t * sin(trim->bank_rad),
                        W * cos_t * cos(trim->bank_rad)};
    add(l, LS_CAUSE_OFFSET, "weight", NULL, weight, NULL);
    add(l, LS_CAUSE_OFFSET, "lift", reference_m, lift, NULL);
    add(l, LS_CAUSE_OFFSET, "drag", reference_m, drag, NULL);
    add_lateral(l, LS_CAUSE_SIDESLIP, "sideslip", d->side_sideslip * trim->beta_rad,
                d->roll_sideslip * trim->beta_rad, d->yaw_sideslip * trim->beta_rad);
    add_lateral(l, LS_CAUSE_RUDDER, "rudder", d->side_rudder * rudder_rad, d->roll_rudder * rudder_rad,
                d->yaw_rudder * rudder_rad);
    add_lateral(l, LS_CAUSE_AILERON, "aileron", d->side_aileron * trim->aileron_rad,
                d->roll_aileron * trim->aileron_rad, d->yaw_aileron * trim->aileron_rad);
}

/* The lift that one unit's slipstream adds, at its place along the span. Returned: the lift. */
static double add_wash(listing *l, int index)
{
    char text[sizeof l->out->part[0].name];
    double alpha_rad = l->trim->alpha_rad;
    ls_wash wash = ls_wash_of(l->model, index, &l->point->unit[index], l->trim->V_m_s);
    double lift_N = wash.lift0_N + wash.lift1_N * alpha_rad;
    double at_m[3] = {l->model->cg_aft_m, wash.right0_m + wash.right1_m * alpha_rad, 0.0};
    double force[3] = {lift_N * sin(alpha_rad), 0.0, -lift_N * cos(alpha_rad)};
    l->engine = index;
    snprintf(text, sizeof text, "%s: slipstream lift", l->model->aircraft->engine[index].name);
    add(l, LS_CAUSE_SLIPSTREAM, text, at_m, force, NULL);
    return lift_N;
}

/* What the slipstreams do to wing and fin. Their induced drag is that of all the lift less that of the wing alone.
 */
static void add_slipstreams(listing *l)
{
    const ls_model *model = l->model;
    const ls_derivatives *d = &model->derivatives;
    double reference_m[3] = {model->cg_aft_m, -model->cg_right_m, 0.0}, drag[3], lift_N = 0.0, fin_rad = 0.0;
    for (int i = 0; i < model->units; i++) {
        lift_N += add_wash(l, i);
        fin_rad += ls_swirl_at_fin(model, i, &l->point->unit[i]);
    }
    l->engine = -1;
    double CL = lift_N / l->qS_N, above = l->trim->free_lift_coefficient - model->drag_least_at;
    for (int i = 0; i < 3; i++) {
        drag[i] = -l->qS_N * model->drag_induced * CL * (2.0 * above + CL) * l->u[i];
    }
    double rudder_rad = ls_fin_as_rudder(d, fin_rad);
    add(l, LS_CAUSE_SLIPSTREAM, "slipstream: induced drag", reference_m, drag, NULL);
    add_lateral(l, LS_CAUSE_SWIRL, "slipstream: swirl on the fin", d->side_rudder * rudder_rad,
                d->roll_rudder * rudder_rad, d->yaw_rudder * rudder_rad);
}

static double dot(const double a[3], const double b[3])
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/* What the installation takes, where the file says so. */
static void add_losses(listing *l, int index, double thrust_N)
{
    const ls_mounted_engine *engine = &l->model->unit[index];
    const char *name = l->model->aircraft->engine[index].name;
    double q_Pa = 0.5 * l->model->air.rho_kg_m3 * l->trim->V_m_s * l->trim->V_m_s;
    double loss_N = ls_installation_loss(engine, thrust_N), cooling_N = q_Pa * engine->cooling_area_m2;
    double loss[3], cooling[3];
    char text[sizeof l->out->part[0].name];
    for (int i = 0; i < 3; i++) {
        loss[i] = -loss_N * engine->axis[i];
        cooling[i] = -cooling_N * l->u[i];
    }
    if (loss_N > 0.0) {
        snprintf(text, sizeof text, "%s: installation", name);
        add(l, LS_CAUSE_THRUST, text, engine->hub_m, loss, NULL);
    }
    if (cooling_N > 0.0) {
        snprintf(text, sizeof text, "%s: cooling drag", name);
        add(l, LS_CAUSE_DEAD_DRAG, text, engine->hub_m, cooling, NULL);
    }
}

/* The parts of one engine: thrust (or drag), in-plane force, P-factor, torque reaction. */
static void add_engine(listing *l, int index)
{
    const ls_mounted_engine *engine = &l->model->unit[index];
    const ls_propulsor_point *load = &l->point->unit[index];
    const char *name = l->model->aircraft->engine[index].name;
    unsigned off = l->model->condition.effects_off;
    double zero_rad = l->model->lift_zero / l->model->lift_slope;
    double u[3] = {l->u[0], l->u[1], l->u[2] + engine->upwash * (l->trim->alpha_rad + zero_rad)};
    double along = dot(u, engine->axis), p[3], across[3], thrust[3], plane[3], hub[3], torque[3];
    int is_live = engine->state == LS_RUNNING || engine->state == LS_PARTIAL;
    double thrust_N = !is_live && (off & LS_EFFECT_DEAD_DRAG) ? 0.0 : load->thrust_N;
    double torque_Nm =
        off & LS_EFFECT_TORQUE ? 0.0 : (1.0 - l->model->aircraft->swirl_straightened) * load->torque_Nm;
    char text[sizeof l->out->part[0].name];
    l->engine = index;
    for (int i = 0; i < 3; i++) {
        p[i] = along * engine->axis[i] - u[i];
    }
    cross(engine->axis, p, across);
    for (int i = 0; i < 3; i++) {
        thrust[i] = thrust_N * engine->axis[i];
        plane[i] =
            off & LS_EFFECT_NORMAL_FORCE ? 0.0 : load->normal_N * p[i] + engine->hand * load->side_N * across[i];
        hub[i] = off & LS_EFFECT_P_FACTOR
                     ? 0.0
                     : engine->hand * load->hub_first_Nm * p[i] + load->hub_second_Nm * across[i];
        torque[i] = -engine->hand * torque_Nm * engine->axis[i];
    }
    snprintf(text, sizeof text, "%s: %s", name, is_live ? "thrust" : "drag");
    add(l, is_live ? LS_CAUSE_THRUST : LS_CAUSE_DEAD_DRAG, text, engine->hub_m, thrust, NULL);
    add_losses(l, index, thrust_N);
    snprintf(text, sizeof text, "%s: in-plane force", name);
    add(l, LS_CAUSE_NORMAL, text, engine->hub_m, plane, NULL);
    snprintf(text, sizeof text, "%s: P-factor", name);
    add(l, LS_CAUSE_P_FACTOR, text, NULL, NULL, hub);
    snprintf(text, sizeof text, "%s: torque", name);
    add(l, LS_CAUSE_TORQUE, text, NULL, NULL, torque);
}

/* What the file's derivatives hold of the propellers, taken out once: the rest of the powerplant's sum. */
static void add_included(listing *l, int first)
{
    double force[3], moment[3];
    double from_zero_rad = l->trim->alpha_rad + l->model->lift_zero / l->model->lift_slope;
    if (l->model->aircraft->included == LS_INCLUDE_NONE) {
        return;
    }
    for (int i = 0; i < 3; i++) {
        force[i] = l->point->force0_N[i] + dot(l->point->force_u_N[i], l->u) +
                   l->point->upwash_force_N[i] * from_zero_rad;
        moment[i] = l->point->moment0_Nm[i] + dot(l->point->moment_u_Nm[i], l->u) +
                    l->point->upwash_moment_Nm[i] * from_zero_rad;
        for (int k = first; k < l->out->count; k++) {
            force[i] -= l->out->part[k].force_N[i];
            moment[i] -= l->out->part[k].moment_Nm[i];
        }
    }
    add(l, LS_CAUSE_INCLUDED, "propeller part of the derivatives", NULL, force, moment);
}

void ls_trim_balance(const ls_model *model, const ls_powerplant_point *point, const ls_trim *trim,
                     ls_balance *balance)
{
    double q_Pa = 0.5 * model->air.rho_kg_m3 * trim->V_m_s * trim->V_m_s;
    listing l = {.model = model, .point = point, .trim = trim, .engine = -1, .out = balance};
    memset(balance, 0, sizeof *balance);
    l.u[0] = cos(trim->alpha_rad) * cos(trim->beta_rad);
    l.u[1] = sin(trim->beta_rad);
    l.u[2] = sin(trim->alpha_rad) * cos(trim->beta_rad);
    l.qS_N = q_Pa * model->S_m2;
    l.qSb_Nm = l.qS_N * model->b_m;
    add_airframe(&l);
    int first = balance->count;
    for (int i = 0; i < model->units; i++) {
        add_engine(&l, i);
    }
    l.engine = -1;
    add_included(&l, first);
    add_slipstreams(&l);
    snprintf(balance->sum.name, sizeof balance->sum.name, "sum");
}
