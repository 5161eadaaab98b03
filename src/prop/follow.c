#include "prop/follow.h"

#include "prop/engine.h"
#include "prop/prop_slopes.h"
#include "prop/propulsor.h"
#include "prop/table.h"
#include "prop/wake.h"

#include <math.h>
#include <string.h>

#define DEG        (3.14159265358979323846 / 180.0)
#define TIP_TURN   (0.75 * 3.14159265358979323846) /* speed at 0.75 R over n D */
#define FAR_RAD    0.05                            /* longest step of a round */
#define FAR_SHARE  0.25                            /* of V: farther off a slope is of no use */
#define SETTLED    1e-6                            /* rad: a step so small is taken without another lookup */
#define NOT_LOST   1e-3                            /* rad: a longer last step of several has not found its way */
#define PSI_LOW    (0.5 * DEG)
#define PSI_HIGH   (80.0 * DEG)
#define PITCH_STEP (4.0 * DEG) /* the governor's own steps */
#define SPEED_STEP 0.94

/* Loads of the disc at a V and a delta with their slopes by both, and the propeller's speed with its own. */
typedef struct {
    double value[PROP_COLUMNS], by_delta[PROP_COLUMNS], by_V[PROP_COLUMNS];
    double pitch_rad, n_rev_s, n_by_delta, n_by_V;
    unsigned edge;
} followed;

/* The helical speed W at 0.75 R and what else is reached through it. */
typedef struct {
    double W_m_s, W_by_delta, W_by_V;
    double pitch_by_delta, pitch_by_V; /* delta stands for itself: by_delta 1, by_V 0 */
} helix;

static const ls_propeller_data *propeller_of(const ls_follow_unit *unit)
{
    return &unit->powerplant->data->propeller;
}

static double lever_of(const ls_follow_unit *unit)
{
    return ls_lever_speed(unit->powerplant->data, unit->state);
}

static void read_table(const ls_follow_unit *unit, double delta_rad, const helix *h, followed *at)
{
    prop_slopes c;
    const ls_prop_table *table = propeller_of(unit)->table;
    double D = prop_table_diameter(table), per_a = 1.0 / unit->air->a_m_s, W = h->W_m_s;
    double mach_by_delta = h->W_by_delta * per_a, mach_by_V = h->W_by_V * per_a;
    double k[PROP_COLUMNS], k_by_W[PROP_COLUMNS]; /* what makes the coefficients loads */
    double area = unit->air->rho_kg_m3 * D * D, volume = area * D;
    k[PROP_THRUST] = area * W * W, k_by_W[PROP_THRUST] = 2.0 * area * W;
    k[PROP_TORQUE] = volume * W * W, k_by_W[PROP_TORQUE] = 2.0 * volume * W;
    k[PROP_NORMAL] = area * W, k_by_W[PROP_NORMAL] = area;
    k[PROP_HUB] = volume * W, k_by_W[PROP_HUB] = volume;
    at->edge = prop_slopes_at(table, at->pitch_rad, delta_rad, W * per_a, &c);
    for (int i = 0; i < PROP_COLUMNS; i++) {
        double by_delta = c.by_pitch[i] * h->pitch_by_delta + c.by_delta[i] + c.by_mach[i] * mach_by_delta;
        double by_V = c.by_pitch[i] * h->pitch_by_V + c.by_mach[i] * mach_by_V;
        at->value[i] = k[i] * c.value[i];
        at->by_delta[i] = k_by_W[i] * h->W_by_delta * c.value[i] + k[i] * by_delta;
        at->by_V[i] = k_by_W[i] * h->W_by_V * c.value[i] + k[i] * by_V;
    }
}

/* At the lever's speed the pitch is delta + psi(V). */
static void look_held(const ls_follow_unit *unit, double V_m_s, double psi_rad, double delta_rad, followed *at)
{
    double turn_m_s = TIP_TURN * lever_of(unit) * prop_table_diameter(propeller_of(unit)->table);
    double square = V_m_s * V_m_s + turn_m_s * turn_m_s, W = sqrt(square);
    helix h = {.W_m_s = W, .W_by_V = V_m_s / W, .pitch_by_delta = 1.0, .pitch_by_V = turn_m_s / square};
    at->pitch_rad = delta_rad + psi_rad;
    at->n_rev_s = lever_of(unit);
    at->n_by_delta = at->n_by_V = 0.0;
    read_table(unit, delta_rad, &h, at);
}

/* On the stop psi is pitch - delta, and the speed follows from it: V / tan(psi) at 0.75 R. */
static void look_on_stop(const ls_follow_unit *unit, double V_m_s, double delta_rad, followed *at)
{
    double psi_rad = propeller_of(unit)->fine_pitch_rad - delta_rad;
    double over_sine = 1.0 / sin(psi_rad), cotangent = cos(psi_rad) * over_sine, W = V_m_s * over_sine;
    double per_turn = 1.0 / (TIP_TURN * prop_table_diameter(propeller_of(unit)->table));
    helix h = {.W_m_s = W, .W_by_delta = W * cotangent, .W_by_V = over_sine};
    at->pitch_rad = propeller_of(unit)->fine_pitch_rad;
    at->n_rev_s = V_m_s * cotangent * per_turn;
    at->n_by_delta = W * over_sine * per_turn;
    at->n_by_V = cotangent * per_turn;
    read_table(unit, delta_rad, &h, at);
}

static double engine_torque(const ls_follow_unit *unit, double n_rev_s)
{
    return ls_engine_torque(unit->powerplant, unit->air, unit->state, unit->power, n_rev_s);
}

/* Slope of the engine's torque by speed, where the speed can change. */
static double engine_slope(const ls_follow_unit *unit, int regime, double n_rev_s, double torque_Nm)
{
    double step = 1e-6 * n_rev_s;
    return regime == LS_FOLLOW_STOP ? (engine_torque(unit, n_rev_s + step) - torque_Nm) / step : 0.0;
}

/* One step to the balance of torques, taken in the loads too. Returned: it, NaN where the balance is not stable.
 */
static double settle(const ls_follow_unit *unit, int regime, followed *at, double *delta_by_V)
{
    double given_Nm = engine_torque(unit, at->n_rev_s);
    double slope = engine_slope(unit, regime, at->n_rev_s, given_Nm);
    double excess_by_delta = at->by_delta[PROP_TORQUE] - slope * at->n_by_delta;
    double step = (given_Nm - at->value[PROP_TORQUE]) / excess_by_delta;
    *delta_by_V = (slope * at->n_by_V - at->by_V[PROP_TORQUE]) / excess_by_delta;
    if (!(excess_by_delta > 0.0 && isfinite(step))) {
        return NAN;
    }
    step = fmax(-FAR_RAD, fmin(FAR_RAD, step));
    for (int i = 0; i < PROP_COLUMNS; i++) {
        at->value[i] += at->by_delta[i] * step;
        at->by_V[i] += at->by_delta[i] * *delta_by_V;
    }
    at->pitch_rad += regime == LS_FOLLOW_HOLDS ? step : 0.0;
    at->n_rev_s += at->n_by_delta * step;
    at->n_by_V += at->n_by_delta * *delta_by_V;
    return step;
}

/* The governor's coarse end: the stop, or feather where there is none, or the one pitch of a fixed propeller. */
static double coarsest(const ls_propeller_data *propeller)
{
    double feather_rad = propeller->feathering != LS_FEATHERS_NEVER ? propeller->feather_pitch_rad : NAN;
    double end_rad = isnan(propeller->coarse_pitch_rad) ? feather_rad : propeller->coarse_pitch_rad;
    return isnan(end_rad) ? propeller->fine_pitch_rad : end_rad;
}

/* psi at the lever's speed. */
static double held_psi(const ls_follow_unit *unit, double V_m_s)
{
    return atan2(V_m_s, TIP_TURN * lever_of(unit) * prop_table_diameter(propeller_of(unit)->table));
}

/* On the other side of the fine stop: the regimes meet at the lever's speed and fine pitch. */
static int crosses_stop(const ls_follow_unit *unit, int regime, const followed *at)
{
    return regime == LS_FOLLOW_HOLDS ? at->pitch_rad < propeller_of(unit)->fine_pitch_rad
                                     : at->n_rev_s > lever_of(unit);
}

/* One lookup and one step. Returned: whether it stays within the ranges of its regime, or crosses to the other. */
static int look(const ls_follow_unit *unit, double V_m_s, double psi_rad, ls_follow *follow, followed *at,
                double *moved_rad)
{
    const ls_propeller_data *propeller = propeller_of(unit);
    double stop_psi_rad = propeller->fine_pitch_rad - follow->delta_rad;
    if (follow->regime == LS_FOLLOW_HOLDS) {
        look_held(unit, V_m_s, psi_rad, follow->delta_rad, at);
    } else if (stop_psi_rad > PSI_LOW && stop_psi_rad < PSI_HIGH) {
        look_on_stop(unit, V_m_s, follow->delta_rad, at);
    } else {
        return 0;
    }
    double step = settle(unit, follow->regime, at, &follow->delta_by_V);
    follow->delta_rad += step;
    *moved_rad = fabs(step);
    int held = follow->regime == LS_FOLLOW_HOLDS;
    return isfinite(step) && (at->edge == 0 || crosses_stop(unit, follow->regime, at)) &&
           !(held && at->pitch_rad > coarsest(propeller));
}

/* Moves delta until the torques balance, from where it would be by its slope. Returned: whether it can be
 * followed. */
static int move(const ls_follow_unit *unit, double V_m_s, int rounds, ls_follow *follow, followed *at,
                double *moved_rad)
{
    double psi_rad = held_psi(unit, V_m_s), on = V_m_s - follow->V_m_s;
    int turns = 0;
    follow->delta_rad += fabs(on) < FAR_SHARE * V_m_s ? follow->delta_by_V * on : 0.0;
    follow->V_m_s = V_m_s;
    for (int round = 0; round < rounds; round++) {
        if (!look(unit, V_m_s, psi_rad, follow, at, moved_rad)) {
            return 0;
        }
        if (crosses_stop(unit, follow->regime, at)) {
            if (turns++ == 2) {
                return 0;
            }
            follow->regime = follow->regime == LS_FOLLOW_HOLDS ? LS_FOLLOW_STOP : LS_FOLLOW_HOLDS;
            follow->delta_rad = propeller_of(unit)->fine_pitch_rad - psi_rad;
            rounds = rounds < round + 3 ? round + 3 : rounds;
            *moved_rad = INFINITY;
        } else if (*moved_rad < SETTLED) {
            break;
        }
    }
    return *moved_rad < (rounds > 1 ? NOT_LOST : INFINITY);
}

/* Whether there is a balance of torques to be followed. */
static int can_follow(const ls_follow_unit *unit, double V_m_s)
{
    int stands = unit->state == LS_FEATHERED || unit->state == LS_STOPPED || unit->state == LS_ZERO_THRUST;
    return unit->powerplant->data->engine.type != LS_ENGINE_JET &&
           propeller_of(unit)->kind == LS_PROPELLER_BLADE_ELEMENT && !stands && V_m_s > 0.0;
}

/* Where the governor stands now, to be followed from here. */
static void start(const ls_follow_unit *unit, double V_m_s, ls_follow *follow)
{
    ls_governed governed;
    const ls_propeller_data *propeller = propeller_of(unit);
    follow->regime = LS_FOLLOW_EXACT;
    ls_shaft shaft = {unit->powerplant, unit->air, unit->state, unit->power, V_m_s};
    if (ls_governor_settle(&shaft, lever_of(unit), &governed, NULL) != LS_OK) {
        return;
    }
    unsigned stop = LS_PROPULSOR_FINE_STOP,
             other = LS_PROPULSOR_COARSE_STOP | LS_PROPULSOR_STOPS | LS_PROPULSOR_TABLE_EDGE;
    if ((governed.flags & other) == 0) {
        follow->regime = governed.flags & stop ? LS_FOLLOW_STOP : LS_FOLLOW_HOLDS;
        double turn_m_s = TIP_TURN * governed.n_rev_s * prop_table_diameter(propeller->table);
        follow->delta_rad = governed.pitch_rad - atan2(V_m_s, turn_m_s);
        follow->V_m_s = V_m_s;
    }
}

static void fill(const ls_follow_unit *unit, double V_m_s, const followed *at, double step_m_s, int regime,
                 ls_propulsor_point *point)
{
    ls_governed governed = {.pitch_rad = at->pitch_rad,
                            .n_rev_s = at->n_rev_s + at->n_by_V * step_m_s,
                            .axial = {at->value[PROP_THRUST] + at->by_V[PROP_THRUST] * step_m_s,
                                      at->value[PROP_TORQUE] + at->by_V[PROP_TORQUE] * step_m_s,
                                      at->value[PROP_NORMAL] + at->by_V[PROP_NORMAL] * step_m_s,
                                      at->value[PROP_HUB] + at->by_V[PROP_HUB] * step_m_s},
                            .flags = regime == LS_FOLLOW_STOP ? LS_PROPULSOR_FINE_STOP : 0u};
    memset(point, 0, sizeof *point);
    ls_propulsor_fill(unit->powerplant, unit->state, unit->air, V_m_s + step_m_s, &governed, point);
    ls_wake_from_momentum(propeller_of(unit)->diameter_m, unit->air, V_m_s + step_m_s, point);
}

ls_status ls_follow_at(const ls_follow_unit *unit, double V_m_s, double step_m_s, int rounds, ls_follow *follow,
                       ls_propulsor_point *here, ls_propulsor_point *ahead, double *moved_rad, ls_error *error)
{
    followed at;
    *moved_rad = 0.0;
    if (!can_follow(unit, V_m_s)) {
        follow->regime = LS_FOLLOW_EXACT;
    } else if (follow->regime == LS_FOLLOW_START || follow->regime == LS_FOLLOW_EXACT) {
        start(unit, V_m_s, follow);
    }
    if (follow->regime != LS_FOLLOW_EXACT && !move(unit, V_m_s, rounds, follow, &at, moved_rad)) {
        start(unit, V_m_s, follow);
        if (follow->regime != LS_FOLLOW_EXACT && !move(unit, V_m_s, rounds, follow, &at, moved_rad)) {
            follow->regime = LS_FOLLOW_EXACT;
        }
    }
    if (follow->regime != LS_FOLLOW_EXACT) {
        fill(unit, V_m_s, &at, 0.0, follow->regime, here);
        if (ahead != NULL) {
            fill(unit, V_m_s, &at, step_m_s, follow->regime, ahead);
        }
        return LS_OK;
    }
    *moved_rad = 0.0;
    ls_status status = ls_propulsor_at(unit->powerplant, unit->state, unit->power, unit->air, V_m_s, here, error);
    return status == LS_OK && ahead != NULL ? ls_propulsor_at(unit->powerplant, unit->state, unit->power,
                                                              unit->air, V_m_s + step_m_s, ahead, error)
                                            : status;
}

/* Torque taken less torque given, as the governor sees it. */
static double excess(const ls_follow_unit *unit, double V_m_s, double pitch_rad, double n_rev_s)
{
    ls_disc_axial axial;
    ls_disc_state state = {.V_axial_m_s = V_m_s,
                           .n_rev_s = n_rev_s,
                           .pitch_rad = pitch_rad,
                           .rho_kg_m3 = unit->air->rho_kg_m3,
                           .a_m_s = unit->air->a_m_s};
    prop_table_thrust_torque(propeller_of(unit)->table, &state, &axial);
    return axial.Q_N_m - engine_torque(unit, n_rev_s);
}

/* The first pitch step that takes more than the engine gives must be the one that `pitch_rad` lies in. */
static int confirm_held(const ls_follow_unit *unit, double V_m_s, double pitch_rad)
{
    double fine_rad = propeller_of(unit)->fine_pitch_rad, low_rad = fine_rad, lever = lever_of(unit);
    if (excess(unit, V_m_s, fine_rad, lever) >= 0.0) {
        return 0;
    }
    for (;;) {
        double high_rad = fmin(coarsest(propeller_of(unit)), low_rad + PITCH_STEP);
        if (excess(unit, V_m_s, high_rad, lever) > 0.0) {
            return pitch_rad >= low_rad && pitch_rad <= high_rad;
        }
        if (high_rad >= pitch_rad) {
            return 0;
        }
        low_rad = high_rad;
    }
}

/* Where the governor's search down begins: a dead engine only brakes, so that nothing balances where the propeller
 * takes torque too. */
static double first_speed(const ls_follow_unit *unit, double V_m_s)
{
    double lever_rev_s = lever_of(unit);
    double drives_rev_s = prop_table_windmill_rev_s(propeller_of(unit)->table, V_m_s);
    int fires = unit->state == LS_RUNNING || unit->state == LS_PARTIAL || unit->state == LS_IDLE;
    return fires || !(drives_rev_s > 0.0 && drives_rev_s < lever_rev_s) ? lever_rev_s : drives_rev_s;
}

/* Every step from there down to n must slow the shaft, without a dip that might hide another balance,
 * and the next one must speed it up. */
static int confirm_on_stop(const ls_follow_unit *unit, double V_m_s, double n_rev_s)
{
    double pitch_rad = propeller_of(unit)->fine_pitch_rad, n = first_speed(unit, V_m_s);
    double before = INFINITY, last = excess(unit, V_m_s, pitch_rad, n);
    if (!(last >= 0.0)) {
        return 0;
    }
    while (n > 0.5 * n_rev_s) {
        n *= SPEED_STEP;
        double here = excess(unit, V_m_s, pitch_rad, n);
        if (here <= 0.0) {
            return n <= n_rev_s;
        }
        if (n < n_rev_s || (last < before && last < here)) {
            return 0;
        }
        before = last;
        last = here;
    }
    return 0;
}

int ls_follow_confirm(const ls_follow_unit *unit, double V_m_s, const ls_follow *follow)
{
    double psi_rad = propeller_of(unit)->fine_pitch_rad - follow->delta_rad;
    switch (follow->regime) {
    case LS_FOLLOW_HOLDS:
        return confirm_held(unit, V_m_s, follow->delta_rad + held_psi(unit, V_m_s));
    case LS_FOLLOW_STOP:
        return confirm_on_stop(unit, V_m_s,
                               V_m_s / (tan(psi_rad) * TIP_TURN * prop_table_diameter(propeller_of(unit)->table)));
    default:
        return follow->regime == LS_FOLLOW_EXACT;
    }
}
