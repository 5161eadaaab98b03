#include "flight/limit_state.h"

#include "airframe/powerplant_sum.h"

#include <math.h>
#include <string.h>

enum { TRIM_ROUNDS = 8 };

#define STEP_SHARE  1e-5 /* of V, for slopes */
#define TRIM_NEAR   1e-7 /* residual from which the next Newton step reaches round-off */
#define GLANCE_NEAR 3e-2 /* the same for a glance: the equations are nearly linear, it leaves less than 1e-3 */
#define GLANCE_RAD  0.01
#define FAR_ALPHA   0.2 /* rad */

static ls_follow_unit unit_of(const ls_limit_search *s, int powerplant, ls_engine_state state, double power)
{
    return (ls_follow_unit){&s->model->powerplant[powerplant], &s->model->air, state, power};
}

/* One unit at a speed. */
static int follow(ls_limit_search *s, ls_follow_unit unit, double V_m_s, int rounds, ls_follow *from,
                  ls_loads_pair *loads, ls_propulsor_point *here, ls_propulsor_point *ahead)
{
    double moved_rad;
    s->status = ls_follow_at(&unit, V_m_s, loads->step_m_s, rounds, from, here, ahead, &moved_rad, s->error);
    loads->moved_rad = fmax(loads->moved_rad, moved_rad);
    return s->status == LS_OK;
}

ls_follow *ls_limit_follow(ls_limit_search *s, int i)
{
    const ls_mounted_engine *unit = &s->model->unit[i];
    return s->at_top ? &s->work->top.unit[unit->powerplant][unit->state]
                     : &s->work->below.unit[unit->powerplant][unit->state];
}

/* Each unit, or a copy of an earlier one that does the same. */
static int follow_units(ls_limit_search *s, double V_m_s, int rounds, int slopes, ls_loads_pair *loads)
{
    const ls_mounted_engine *unit = s->model->unit;
    for (int i = 0; i < s->model->units; i++) {
        int same = ls_limit_same_unit(s->model, i);
        if (same < i) {
            loads->here.unit[i] = loads->here.unit[same];
            if (slopes) {
                loads->ahead.unit[i] = loads->ahead.unit[same];
            }
        } else if (!follow(s, unit_of(s, unit[i].powerplant, unit[i].state, unit[i].power), V_m_s, rounds,
                           ls_limit_follow(s, i), loads, &loads->here.unit[i],
                           slopes ? &loads->ahead.unit[i] : NULL)) {
            return 0;
        }
    }
    return 1;
}

int ls_limit_same_unit(const ls_model *model, int i)
{
    const ls_mounted_engine *unit = &model->unit[i];
    int k = 0;
    while (k < i && (model->unit[k].powerplant != unit->powerplant || model->unit[k].state != unit->state ||
                     model->unit[k].power != unit->power)) {
        k++;
    }
    return k;
}

/* Every unit in the state that the derivatives already hold: one for each powerplant. */
static int follow_included(ls_limit_search *s, double V_m_s, int rounds, int slopes, ls_loads_pair *loads,
                           ls_propulsor_point *here, ls_propulsor_point *ahead)
{
    const ls_model *model = s->model;
    ls_propulsor_point kept[2][LS_MAX_POWERPLANTS];
    if (model->aircraft->included == LS_INCLUDE_NONE) {
        return 1;
    }
    for (int i = 0; i < model->powerplants; i++) {
        if (!follow(s, unit_of(s, i, ls_included_state(model->aircraft), 1.0), V_m_s, rounds,
                    s->at_top ? &s->work->top.included[i] : &s->work->below.included[i], loads, &kept[0][i],
                    slopes ? &kept[1][i] : NULL)) {
            return 0;
        }
    }
    for (int i = 0; i < model->units; i++) {
        here[i] = kept[0][model->unit[i].powerplant];
        if (slopes) {
            ahead[i] = kept[1][model->unit[i].powerplant];
        }
    }
    return 1;
}

int ls_limit_loads(ls_limit_search *s, double V_m_s, int rounds, int slopes, ls_loads_pair *loads)
{
    ls_propulsor_point here[LS_MAX_ENGINES], ahead[LS_MAX_ENGINES];
    loads->step_m_s = STEP_SHARE * V_m_s;
    loads->moved_rad = 0.0;
    if (!follow_units(s, V_m_s, rounds, slopes, loads) ||
        !follow_included(s, V_m_s, rounds, slopes, loads, here, ahead)) {
        return 0;
    }
    ls_powerplant_sum(s->model, V_m_s, here, &loads->here);
    if (slopes) {
        ls_powerplant_sum(s->model, V_m_s + loads->step_m_s, ahead, &loads->ahead);
    }
    return 1;
}

/* The use of each limit, signed, and what is left. */
static void limits_at(const ls_trim_problem *p, const double *z, double use[LS_LIMITS], double left[LS_LIMITS])
{
    const ls_aircraft *aircraft = p->model->aircraft;
    double travel_rad = z[RUDDER] > 0.0 ? aircraft->rudder.left_rad : aircraft->rudder.right_rad;
    double pedal_N = p->model->condition.pedal_limit_N;
    use[LS_LIMIT_RUDDER] = z[RUDDER] / travel_rad;
    use[LS_LIMIT_PEDAL] = isfinite(pedal_N) ? ls_trim_pedal_force(p, z[BETA], z[RUDDER]) / pedal_N : NAN;
    use[LS_LIMIT_AILERON] = z[AILERON] / p->model->aileron_rad;
    use[LS_LIMIT_FIN_STALL] = z[BETA] / aircraft->fin.stall_sideslip_rad;
    use[LS_LIMIT_WING_STALL] = ls_trim_lift(p, z[ALPHA]) / p->model->lift_max;
    for (int i = 0; i < LS_LIMITS; i++) {
        left[i] = 1.0 - (i == LS_LIMIT_WING_STALL ? use[i] : fabs(use[i]));
    }
}

static double largest(const double *r)
{
    double most = 0.0;
    for (int i = 0; i < UNKNOWNS; i++) {
        most = fabs(r[i]) > most || isnan(r[i]) ? fabs(r[i]) : most;
    }
    return most;
}

void ls_limit_start(const ls_limit_search *s, const ls_limit_state *from, double V_m_s, ls_limit_state *state)
{
    double ratio = from->V_m_s / V_m_s, share = ratio * ratio, on = V_m_s - from->V_m_s;
    double base[UNKNOWNS] = {-s->model->lift_zero / s->model->lift_slope, 0.0, 0.0, 0.0};
    state->V_m_s = V_m_s;
    for (int i = 0; i < UNKNOWNS; i++) {
        double above = from->z[i] - base[i];
        state->z[i] = base[i] + share * (above + on * (2.0 * above / from->V_m_s + from->z_by_V[i]));
    }
    state->z[ALPHA] = fmin(0.7, state->z[ALPHA]);
}

void ls_limit_scale(const ls_limit_search *s, const ls_limit_state *from, double V_m_s, ls_limit_state *state)
{
    double ratio = from->V_m_s / V_m_s, share = ratio * ratio, zero = -s->model->lift_zero / s->model->lift_slope;
    *state = (ls_limit_state){.V_m_s = V_m_s};
    for (int i = 0; i < UNKNOWNS; i++) {
        state->z[i] = share * from->z[i];
    }
    state->z[ALPHA] = fmin(0.7, zero + share * (from->z[ALPHA] - zero));
}

static void start_alone(const ls_limit_search *s, const ls_trim_problem *p, double *z)
{
    double CL = s->model->weight_N * p->cos_phi / p->qS_N;
    z[ALPHA] = fmin(0.7, fmax(-0.3, (CL - s->model->lift_zero) / s->model->lift_slope));
    z[BETA] = z[AILERON] = z[RUDDER] = 0.0;
}

static int is_balanced(double sin_theta)
{
    return fabs(sin_theta) < 0.01 * LS_ATTITUDE_END;
}

/* The Newton step of the trim at the state, and where the residual is at most `near` its slopes by speed too: one
 * matrix, two right-hand sides. Returned: 0 when there is none. */
static int linearise(const ls_trim_problem *p, const ls_trim_problem *ahead, double speed_step_m_s, double near,
                     ls_limit_state *state, double step[UNKNOWNS], double *residual)
{
    double a[LS_LINEAR_MAX][LS_LINEAR_MAX], r[UNKNOWNS], r_ahead[UNKNOWNS], per_step = 1.0 / speed_step_m_s;
    state->sin_theta = ls_trim_equations(p, state->z, r, a);
    *residual = largest(r);
    int with_slopes = *residual <= near;
    if (with_slopes) {
        ls_trim_equations(ahead, state->z, r_ahead, NULL);
    }
    for (int i = 0; i < UNKNOWNS; i++) {
        a[i][UNKNOWNS] = -r[i];
        a[i][UNKNOWNS + 1] = with_slopes ? (r[i] - r_ahead[i]) * per_step : 0.0;
    }
    if (!(*residual < 1e3) || !ls_linear_sides(UNKNOWNS, 2, a)) {
        return 0;
    }
    for (int i = 0; i < UNKNOWNS; i++) {
        step[i] = a[i][UNKNOWNS];
        state->z_by_V[i] = a[i][UNKNOWNS + 1];
    }
    return 1;
}

static void set_limits(const ls_trim_problem *p, const ls_trim_problem *ahead, double speed_step_m_s,
                       ls_limit_state *state)
{
    double z_ahead[UNKNOWNS], use_ahead[LS_LIMITS], left_ahead[LS_LIMITS];
    for (int i = 0; i < UNKNOWNS; i++) {
        z_ahead[i] = state->z[i] + state->z_by_V[i] * speed_step_m_s;
    }
    limits_at(p, state->z, state->use, state->left);
    limits_at(ahead, z_ahead, use_ahead, left_ahead);
    for (int i = 0; i < LS_LIMITS; i++) {
        state->left_by_V[i] = (left_ahead[i] - state->left[i]) / speed_step_m_s;
    }
}

static void add_step(const double step[UNKNOWNS], double scale, ls_limit_state *state)
{
    for (int i = 0; i < UNKNOWNS; i++) {
        state->z[i] += scale * step[i];
    }
}

/* Newton steps at a speed until one of them leaves little enough for a margin. */
static int trim(ls_limit_search *s, const ls_loads_pair *loads, double near, ls_limit_state *state,
                const ls_limit_state *from)
{
    double step[UNKNOWNS], residual;
    ls_trim_problem p = ls_trim_problem_of(s->model, &loads->here, s->bank_rad);
    ls_trim_problem ahead = ls_trim_problem_of(s->model, &loads->ahead, s->bank_rad);
    if (from != NULL) {
        ls_limit_start(s, from, state->V_m_s, state);
    } else if (s->at_top && s->work->top_rad[ALPHA] != 0.0) {
        memcpy(state->z, s->work->top_rad, sizeof state->z);
    } else {
        start_alone(s, &p, state->z);
    }
    for (int round = 0; round < TRIM_ROUNDS; round++) {
        if (!linearise(&p, &ahead, loads->step_m_s, near, state, step, &residual)) {
            return 0;
        }
        add_step(step, fmin(1.0, FAR_ALPHA / fabs(step[ALPHA])), state);
        if (residual <= near) {
            set_limits(&p, &ahead, loads->step_m_s, state);
            s->trims++;
            return is_balanced(state->sin_theta);
        }
    }
    return 0;
}

unsigned ls_limit_regime(const ls_model *model, const ls_powerplant_point *point)
{
    const unsigned kinks = LS_PROPULSOR_TORQUE_LIMITED | LS_PROPULSOR_FINE_STOP | LS_PROPULSOR_COARSE_STOP;
    unsigned regime = 0;
    for (int i = 0; i < model->units; i++) {
        regime |= (point->unit[i].flags & (kinks | LS_PROPULSOR_STOPS)) / LS_PROPULSOR_TORQUE_LIMITED << 4 * i;
    }
    return regime;
}

int ls_limit_state_at(ls_limit_search *s, double V_m_s, const ls_limit_state *from, ls_limit_state *state)
{
    ls_loads_pair loads;
    state->V_m_s = V_m_s;
    if (!ls_limit_loads(s, V_m_s, 3, 1, &loads)) {
        return 0;
    }
    state->regime = ls_limit_regime(s->model, &loads.here);
    return trim(s, &loads, TRIM_NEAR, state, from);
}

int ls_limit_glance(ls_limit_search *s, double V_m_s, ls_limit_state *state)
{
    ls_loads_pair loads;
    state->V_m_s = V_m_s;
    if (!ls_limit_loads(s, V_m_s, 1, 1, &loads)) {
        return 0;
    }
    state->regime = ls_limit_regime(s->model, &loads.here);
    return loads.moved_rad < GLANCE_RAD && trim(s, &loads, GLANCE_NEAR, state, NULL);
}

int ls_limit_look(ls_limit_search *s, int slopes, ls_limit_state *state, double *moved_rad)
{
    ls_loads_pair loads;
    double step[UNKNOWNS], by_V[UNKNOWNS], residual;
    if (!ls_limit_loads(s, state->V_m_s, 1, slopes, &loads)) {
        return 0;
    }
    state->regime = ls_limit_regime(s->model, &loads.here);
    ls_trim_problem p = ls_trim_problem_of(s->model, &loads.here, s->bank_rad);
    ls_trim_problem ahead = slopes ? ls_trim_problem_of(s->model, &loads.ahead, s->bank_rad) : p;
    memcpy(by_V, state->z_by_V, sizeof by_V);
    s->trims++;
    if (!linearise(&p, &ahead, loads.step_m_s, slopes ? INFINITY : -1.0, state, step, &residual)) {
        return 0;
    }
    add_step(step, fmin(1.0, FAR_ALPHA / fabs(step[ALPHA])), state);
    if (slopes) {
        set_limits(&p, &ahead, loads.step_m_s, state);
    } else {
        memcpy(state->z_by_V, by_V, sizeof by_V);
        limits_at(&p, state->z, state->use, state->left);
    }
    *moved_rad = loads.moved_rad;
    for (int i = 0; i < UNKNOWNS; i++) {
        *moved_rad = fmax(*moved_rad, fabs(step[i]));
    }
    return is_balanced(state->sin_theta);
}

void ls_limit_move(double V_m_s, ls_limit_state *state)
{
    double on = V_m_s - state->V_m_s;
    state->V_m_s = V_m_s;
    for (int i = 0; i < UNKNOWNS; i++) {
        state->z[i] += state->z_by_V[i] * on;
    }
    for (int i = 0; i < LS_LIMITS; i++) {
        state->left[i] += state->left_by_V[i] * on;
    }
}
