/* From the top of the range down: a trim with its slopes tells where each limit would be met; a trim there tells
 * it better; from near enough, Newton's method on the limit condition goes to the root. Between the trims the
 * controls times dynamic pressure change little and are interpolated by cubics, which shows that no margin
 * vanishes above the root; where that is not plain another trim is put in. */
#include "flight/fast_vmc.h"

#include <math.h>
#include <string.h>

enum { ROUNDS = 12, BETWEEN = 5, HALVINGS = 2, LOOKS = 3 };

#define NEAR_ROOT    0.03 /* share of V: from so near a state moves along its slopes */
#define SLOPES_HOLD  2e-4 /* share of V: after so short a step the slopes are the same to a few times it */
#define SETTLED      1e-9 /* share of V, rad: what a last step may leave */
#define LEAST_CURVE  2.0  /* what a step leaves is at least this times its square */
#define SETTLED_HELD 1e-7 /* the same of a step with slopes that were held */
#define CLEAR        0.06 /* a margin that needs no further proof */
#define FARTHEST     0.3  /* of the last speed: no root is sought farther down at once */
#define LONGEST      0.55 /* of the last speed: no step down goes farther */
#define JOINT_M_S    1e-3 /* two limits nearer than this are told apart by the search */
#define LEAST_SLOPE  0.25
#define SEEN         0.012 /* rad: a look that moves so little leaves a few times its square */
#define SEEN_SQUARE  30.0  /* that a margin is clear of, with 1e-3 to spare */

/* What is interpolated: use times V^2, with its slope; an angle's own sign, so that it is smooth through zero. */
static void weighted(const ls_limit_state *at, int limit, double *value, double *slope)
{
    double use = at->use[limit], square = at->V_m_s * at->V_m_s;
    double sign = limit == LS_LIMIT_WING_STALL || use > 0.0 ? 1.0 : -1.0;
    *value = use * square;
    *slope = 2.0 * use * at->V_m_s - sign * at->left_by_V[limit] * square;
}

/* The largest share of V below 1 at which use = u + k (x - 1) over x^2 reaches `side`; 0 when there is none. */
static double reach(double u, double k, double side)
{
    double half = 0.5 * side * k, square = half * half + side * (u - k);
    return half < 1.0 && square >= 0.0 ? fmax(0.0, half + sqrt(square)) : 0.0;
}

/* The speed at which a limit would be met if use times V^2 went on along its slope; 0 when it would not. */
static double predict(const ls_limit_state *at, int limit)
{
    double value, slope, per_square = 1.0 / (at->V_m_s * at->V_m_s);
    weighted(at, limit, &value, &slope);
    double u = value * per_square, k = slope * at->V_m_s * per_square, positive = reach(u, k, 1.0);
    return at->V_m_s * (limit == LS_LIMIT_WING_STALL ? positive : fmax(positive, reach(u, k, -1.0)));
}

/* The limit that is met first as speed falls, and where. */
static ls_limit next_limit(const ls_limit_state *at, unsigned limits, double *V_m_s)
{
    ls_limit next = LS_LIMITS;
    *V_m_s = 0.0;
    for (int i = 0; i < LS_LIMITS; i++) {
        double predicted = limits >> i & 1u ? predict(at, i) : 0.0;
        if (predicted > *V_m_s) {
            *V_m_s = predicted;
            next = (ls_limit)i;
        }
    }
    return next;
}

/* The least that may be left at V for the limit to count as clear: much, or as much as it had below and rising. */
static double enough(const ls_limit_state *low, int limit, double V_m_s)
{
    double rising = LEAST_SLOPE * fmax(0.0, low->left_by_V[limit]) * (V_m_s - low->V_m_s);
    return fmin(CLEAR, fmax(0.0, low->left[limit]) + rising);
}

/* What is left of a limit at V if use times V^2 went on along its slope at a state. */
static double left_along(const ls_limit_state *at, int limit, double V_m_s)
{
    double value, slope;
    weighted(at, limit, &value, &slope);
    double use = (value + slope * (V_m_s - at->V_m_s)) / (V_m_s * V_m_s);
    return 1.0 - (limit == LS_LIMIT_WING_STALL ? use : fabs(use));
}

/* The same where a kink lies between the trims: the margin follows one of their two slopes, and dips where they
 * meet at the most. */
static int is_clear_at_kink(const ls_limit_state *low, const ls_limit_state *high, int limit)
{
    for (int k = 1; k <= BETWEEN; k++) {
        double V_m_s = low->V_m_s + k * (high->V_m_s - low->V_m_s) / (BETWEEN + 1);
        double left = fmin(left_along(low, limit, V_m_s), left_along(high, limit, V_m_s));
        if (!(left > 0.0 && left >= enough(low, limit, V_m_s))) {
            return 0;
        }
    }
    return 1;
}

/* Whether a limit is plainly not met between two trims. */
static int is_clear(const ls_limit_state *low, const ls_limit_state *high, int limit)
{
    double y0, s0, y1, s1, width = high->V_m_s - low->V_m_s;
    if (isnan(low->use[limit])) {
        return 1;
    }
    if (low->left[limit] < CLEAR && !(low->left_by_V[limit] > 0.0)) {
        return 0;
    }
    if (low->regime != high->regime) {
        return is_clear_at_kink(low, high, limit);
    }
    weighted(low, limit, &y0, &s0);
    weighted(high, limit, &y1, &s1);
    double chord = (y1 - y0) / width;
    for (int k = 1; k <= BETWEEN; k++) {
        double t = (double)k / (BETWEEN + 1), V = low->V_m_s + t * width;
        double y = y0 + t * width * (s0 + t * ((3.0 * chord - 2.0 * s0 - s1) + t * (s0 + s1 - 2.0 * chord)));
        double use = y / (V * V), left = 1.0 - (limit == LS_LIMIT_WING_STALL ? use : fabs(use));
        if (!(left > 0.0 && left >= enough(low, limit, V))) {
            return 0;
        }
    }
    return 1;
}

static int all_clear(const ls_limit_state *low, const ls_limit_state *high, unsigned limits)
{
    for (int i = 0; i < LS_LIMITS; i++) {
        if ((limits >> i & 1u) && !is_clear(low, high, i)) {
            return 0;
        }
    }
    return 1;
}

/* Proves the stretch between two trims, halving it where one cubic does not. */
static int prove(ls_limit_search *s, const ls_limit_state *low, const ls_limit_state *high, unsigned limits,
                 int depth)
{
    ls_limit_state middle;
    if (all_clear(low, high, limits)) {
        return 1;
    }
    if (depth == 0 || !ls_limit_state_at(s, sqrt(low->V_m_s * high->V_m_s), high, &middle)) {
        return 0;
    }
    for (int i = 0; i < LS_LIMITS; i++) {
        if ((limits >> i & 1u) && middle.left[i] <= 0.0) {
            return 0;
        }
    }
    return prove(s, &middle, high, limits, depth - 1) && prove(s, low, &middle, limits, depth - 1);
}

static int confirm_units(ls_limit_search *s, double V_m_s)
{
    for (int i = 0; i < s->model->units; i++) {
        const ls_mounted_engine *unit = &s->model->unit[i];
        ls_follow_unit follow = {&s->model->powerplant[unit->powerplant], &s->model->air, unit->state,
                                 unit->power};
        if (ls_limit_same_unit(s->model, i) == i && !ls_follow_confirm(&follow, V_m_s, ls_limit_follow(s, i))) {
            return 0;
        }
    }
    return 1;
}

/* The limit, of a set, of which least is left at a state but for one; NaN counts as much. */
static ls_limit least_left(const ls_limit_state *at, unsigned limits)
{
    ls_limit least = LS_LIMITS;
    for (int i = 0; i < LS_LIMITS; i++) {
        if ((limits >> i & 1u) && (least == LS_LIMITS || at->left[i] < at->left[least])) {
            least = isnan(at->left[i]) ? least : (ls_limit)i;
        }
    }
    return least;
}

/* Whether a step, of V as a share and of the angles, was the last one needed. What it leaves goes with its square,
 * by as much as it left itself of the step before. */
static int is_last(double step, double before, int held)
{
    return held ? step < SETTLED_HELD : step * step * fmax(LEAST_CURVE, step / (before * before)) < SETTLED;
}

int ls_fast_root(ls_limit_search *s, unsigned limits, double low_m_s, double high_m_s, ls_limit_root *root)
{
    ls_limit_state *state = &root->state;
    int held = 0;        /* the slopes of the round before: not twice */
    double before = 0.0; /* the step of that round */
    for (int round = 0; round < ROUNDS; round++) {
        double moved_rad, V_m_s;
        int slopes = round == 0 || root->step_m_s > SLOPES_HOLD * state->V_m_s || held;
        held = !slopes;
        if (!ls_limit_look(s, slopes, state, &moved_rad)) {
            return 0;
        }
        root->limit = next_limit(state, limits, &V_m_s);
        root->step_m_s = fabs(V_m_s - state->V_m_s);
        double step = fmax(root->step_m_s / V_m_s, moved_rad);
        if (is_last(step, before, held)) {
            ls_limit_move(V_m_s, state);
            return V_m_s > low_m_s && V_m_s < high_m_s;
        }
        before = step;
        if (root->step_m_s < NEAR_ROOT * V_m_s) {
            ls_limit_move(V_m_s, state);
        } else {
            ls_limit_state from = *state;
            ls_limit_start(s, &from, fmax(V_m_s, LONGEST * from.V_m_s), state);
        }
        if (!(state->V_m_s >= low_m_s && state->V_m_s <= high_m_s)) {
            return 0;
        }
    }
    return 0;
}

/* Whether the root may be left as it is: no other limit is met within a hair's breadth of it. */
static int stands_alone(const ls_limit_root *root, unsigned limits)
{
    for (int i = 0; i < LS_LIMITS; i++) {
        double left = root->state.left[i], slope = fmax(1e-3, fabs(root->state.left_by_V[i]));
        if ((limits >> i & 1u) && i != (int)root->limit && left < slope * JOINT_M_S) {
            return 0;
        }
    }
    return root->state.left_by_V[root->limit] > 0.0;
}

/* The stretches from a state up through the trims of the track, in none of which a propeller may stop. */
static int prove_above(ls_limit_search *s, const ls_limit_state *low, const ls_fast_track *track, unsigned limits)
{
    for (int i = track->count - 1; i >= 0; i--) {
        if (((low->regime ^ track->node[i].regime) & LS_REGIME_STOPS) ||
            !prove(s, low, &track->node[i], limits, HALVINGS)) {
            return 0;
        }
        low = &track->node[i];
    }
    return 1;
}

static int accept(ls_limit_search *s, unsigned limits, ls_fast_track *track, ls_limit_root *root)
{
    const ls_limit_state *at = &root->state;
    if (!stands_alone(root, limits) || !confirm_units(s, at->V_m_s) || !prove_above(s, at, track, limits)) {
        return 0;
    }
    track->count = 1;
    track->from_top = 0;
    track->node[0] = *at;
    return 1;
}

/* The top of the range, where no limit may be exceeded yet: mostly it is clear at a glance. */
static int begin(ls_limit_search *s, unsigned limits, double high_m_s, ls_fast_track *track)
{
    ls_limit_state *top = &track->node[0];
    if (track->count > 0) {
        return 1;
    }
    s->at_top = 1;
    int found = s->work->root_stalls > 0.0 && ls_limit_glance(s, high_m_s, top) &&
                top->left[least_left(top, limits)] > 2.0 * CLEAR;
    found = found || ls_limit_state_at(s, high_m_s, NULL, top);
    s->at_top = 0;
    memcpy(s->work->top_rad, top->z, found ? sizeof s->work->top_rad : 0);
    track->count = 1;
    track->from_top = 1;
    return found && top->left[least_left(top, limits)] > 0.0;
}

/* A state to begin with at V: by the slopes of the last trim, or where the first limit was met the last time. */
static void begin_at(ls_limit_search *s, const ls_fast_track *track, double low_m_s, double V_m_s,
                     ls_limit_state *state)
{
    const ls_limit_state *last = &track->node[track->count - 1];
    double known_m_s = s->work->root_stalls * s->model->stall_V_m_s;
    if (track->from_top && known_m_s > low_m_s && known_m_s < last->V_m_s) {
        state->V_m_s = known_m_s;
        memcpy(state->z, s->work->root_rad, sizeof state->z);
    } else {
        ls_limit_start(s, last, V_m_s, state);
    }
}

/* From the last trim of the track straight to the root below it. */
static int solve_from(ls_limit_search *s, unsigned limits, double low_m_s, double V_m_s, ls_fast_track *track,
                      ls_limit_root *root)
{
    int from_top = track->from_top;
    double high_m_s = track->node[track->count - 1].V_m_s;
    begin_at(s, track, low_m_s, V_m_s, &root->state);
    int found = ls_fast_root(s, limits, low_m_s, high_m_s, root) && accept(s, limits, track, root);
    if (found && from_top) {
        s->work->root_stalls = root->state.V_m_s / s->model->stall_V_m_s;
        memcpy(s->work->root_rad, root->state.z, sizeof s->work->root_rad);
    }
    return found;
}

int ls_fast_next(ls_limit_search *s, unsigned limits, double low_m_s, double high_m_s, ls_fast_track *track,
                 ls_limit_root *root)
{
    if (!begin(s, limits, high_m_s, track)) {
        return 0;
    }
    while (track->count < LS_FAST_NODES) {
        const ls_limit_state *last = &track->node[track->count - 1];
        double V_m_s;
        root->limit = next_limit(last, limits, &V_m_s);
        if (V_m_s > fmax(low_m_s, FARTHEST * last->V_m_s)) {
            return solve_from(s, limits, low_m_s, V_m_s, track, root);
        }
        if (last->V_m_s <= low_m_s * (1.0 + 1e-12)) {
            root->limit = LS_LIMITS;
            track->count--;
            return prove_above(s, &track->node[track->count], track, limits);
        }
        ls_limit_state *next = &track->node[track->count];
        double next_m_s = fmax(low_m_s, fmin(fmax(V_m_s, LONGEST * last->V_m_s), 0.9 * last->V_m_s));
        if (!ls_limit_state_at(s, next_m_s, last, next) || next->left[least_left(next, limits)] <= 0.0) {
            return 0;
        }
        track->count++;
    }
    return 0;
}

int ls_fast_clear_from(ls_limit_search *s, unsigned limits, double V_m_s, double high_m_s)
{
    ls_fast_track track = {.count = 0};
    ls_limit_state at, last = {.V_m_s = s->work->root_stalls * s->model->stall_V_m_s};
    double moved_rad = INFINITY;
    if (!(last.V_m_s > 0.0) || !begin(s, limits, high_m_s, &track)) {
        return 0;
    }
    memcpy(last.z, s->work->root_rad, sizeof last.z);
    ls_limit_scale(s, &last, V_m_s, &at);
    for (int look = 0; look < LOOKS && moved_rad > SEEN; look++) {
        if (!ls_limit_look(s, 1, &at, &moved_rad)) {
            return 0;
        }
    }
    double left = at.left[least_left(&at, limits)];
    if (moved_rad > SEEN || !(left > 1e-3 + SEEN_SQUARE * moved_rad * moved_rad) || !confirm_units(s, V_m_s) ||
        !prove_above(s, &at, &track, limits)) {
        return 0;
    }
    s->work->root_stalls = V_m_s / s->model->stall_V_m_s;
    memcpy(s->work->root_rad, at.z, sizeof s->work->root_rad);
    return 1;
}
