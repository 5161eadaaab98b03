#include "flight/search.h"

#include "flight/limit_state.h"
#include "num/root.h"

#include <math.h>
#include <stddef.h>

#define ROOT_TOL_M_S 1e-9
#define NEAR_ZERO    0.05 /* a local minimum of a margin below this is searched for a hidden crossing */
#define NEAR_JUMP    0.30 /* the same beside a jump, where a margin may dip between two speeds of the scan */

static ls_status load_at(ls_search *s, double V_m_s, ls_powerplant_point *point, unsigned *regime)
{
    ls_status status = s->model->loads(s->model, V_m_s, point, s->error);
    if (status != LS_OK) {
        s->at.trim.stop = LS_STOP_POWERPLANT;
        s->status = status;
        return status;
    }
    *regime = ls_limit_regime(s->model, point);
    return LS_OK;
}

ls_status ls_search_at(ls_search *s, double V_m_s)
{
    ls_powerplant_point point;
    ls_trim start = s->at.trim;
    ls_status status = load_at(s, V_m_s, &point, &s->at.regime);
    if (status != LS_OK) {
        return status;
    }
    s->trims++;
    s->flags = point.flags;
    status = ls_trim_at(s->model, &point, s->bank_rad, s->has_start ? &start : NULL, &s->at.trim);
    if (status != LS_OK && s->has_start) { /* a far start may mislead it */
        s->trims++;
        status = ls_trim_at(s->model, &point, s->bank_rad, NULL, &s->at.trim);
    }
    s->has_start = status == LS_OK;
    s->status = status;
    s->at.V_m_s = V_m_s;
    ls_margins_at(s->model, &s->at.trim, &s->at.margins);
    return status;
}

static double margin_at(double V_m_s, void *context)
{
    ls_search *s = context;
    return ls_search_at(s, V_m_s) == LS_OK ? s->at.margins.left[s->limit] : NAN;
}

static void solve_crossing(ls_search *s, ls_limit limit, const ls_search_sample *from, double low, double high,
                           ls_crossing *found)
{
    ls_root_options options = {.x_tol = ROOT_TOL_M_S};
    ls_root_report report;
    s->limit = limit;
    s->at = *from;
    s->has_start = 1;
    if (ls_root_find(margin_at, s, low, high, &options, &report) == LS_OK) {
        found->V_m_s = report.x;
        found->bracket_m_s = report.high - report.low;
    }
}

/* Three scan speeds, the middle one lowest in margin: look between the outer ones for a minimum below zero. */
static void solve_hidden(ls_search *s, ls_limit limit, const ls_search_sample *upper,
                         const ls_search_sample *lower, ls_crossing *found)
{
    ls_root_options options = {.x_tol = 1e-6};
    ls_minimum_report least;
    s->limit = limit;
    s->at = *upper;
    s->has_start = 1;
    if (ls_minimum_find(margin_at, s, lower->V_m_s, upper->V_m_s, &options, &least) == LS_OK &&
        least.value <= 0.0) {
        solve_crossing(s, limit, upper, least.x, upper->V_m_s, found);
    }
}

/* window[0] is the newest (slowest) sample, window[2] the oldest. */
static void look_for(ls_search *s, ls_limit limit, const ls_search_sample window[3], int filled,
                     ls_crossing *found)
{
    double now = window[0].margins.left[limit], before = window[1].margins.left[limit];
    if (!isnan(found->V_m_s) || isnan(now) || isnan(before)) {
        return;
    }
    if (before > 0.0 && now <= 0.0) {
        solve_crossing(s, limit, &window[1], window[0].V_m_s, window[1].V_m_s, found);
    } else if (filled == 3 && before < NEAR_ZERO && before < now && before < window[2].margins.left[limit]) {
        solve_hidden(s, limit, &window[2], &window[0], found);
    }
}

ls_limit ls_margins_exceeded(const ls_margins *margins)
{
    ls_limit worst = LS_LIMIT_RUDDER;
    for (int limit = 0; limit < LS_LIMITS; limit++) {
        if (!(margins->left[limit] >= margins->left[worst])) {
            worst = isnan(margins->left[limit]) ? worst : (ls_limit)limit;
        }
    }
    return worst;
}

/* The last speeds of a stretch in which nothing jumps; window[0] is the newest. */
typedef struct {
    ls_search_sample window[3];
    int filled;
} stretch;

/* Adds the speed solved last and looks for crossings; it is the start of the next again.
 * Returned: whether a control limit and the stall are known. */
static int add_speed(ls_search *s, stretch *run, ls_crossing found[LS_LIMITS])
{
    int has_control = 0;
    run->window[2] = run->window[1];
    run->window[1] = run->window[0];
    run->window[0] = s->at;
    run->filled = run->filled < 3 ? run->filled + 1 : 3;
    for (int limit = 0; limit < LS_LIMITS; limit++) {
        if (run->filled > 1) {
            look_for(s, (ls_limit)limit, run->window, run->filled, &found[limit]);
        }
        has_control |= limit != LS_LIMIT_WING_STALL && !isnan(found[limit].V_m_s);
    }
    s->at = run->window[0];
    s->has_start = 1;
    return has_control && !isnan(found[LS_LIMIT_WING_STALL].V_m_s);
}

static int has_jump(const ls_search_sample *above, const ls_search_sample *below)
{
    return ((above->regime ^ below->regime) & LS_REGIME_STOPS) != 0;
}

/* Closes in, by halving, on the speed between two at which the first propeller changes what it stands on. */
static ls_status find_change(ls_search *s, const ls_search_sample *upper, double low_m_s, ls_search_sample *above,
                             ls_search_sample *below)
{
    ls_powerplant_point point;
    ls_status status = LS_OK;
    double high_m_s = upper->V_m_s;
    unsigned regime = upper->regime;
    while (high_m_s - low_m_s > ROOT_TOL_M_S && status == LS_OK) {
        double middle_m_s = 0.5 * (low_m_s + high_m_s);
        status = load_at(s, middle_m_s, &point, &regime);
        *(regime == upper->regime ? &high_m_s : &low_m_s) = middle_m_s;
    }
    s->at = *upper;
    s->has_start = 1;
    status = status == LS_OK ? ls_search_at(s, high_m_s) : status;
    *above = s->at;
    status = status == LS_OK ? ls_search_at(s, low_m_s) : status;
    *below = s->at;
    return status;
}

/* As a propeller comes near stopping its drag changes like a square root of the speed, so that a margin may dip
 * below zero and come back between the last two speeds of a stretch. */
static void look_beside_jump(ls_search *s, ls_limit limit, const stretch *run, ls_crossing *found)
{
    double now = run->window[0].margins.left[limit], before = run->window[1].margins.left[limit];
    if (run->filled > 1 && isnan(found->V_m_s) && fmin(now, before) > 0.0 && fmin(now, before) < NEAR_JUMP) {
        solve_hidden(s, limit, &run->window[1], &run->window[0], found);
    }
}

/* Between the newest speed of a stretch and a slower one propellers stop, or come onto a stop of their pitch: the
 * stretch ends above each such speed and a new one begins below it, so that a margin that dips at a kink shows.
 * One that falls through zero where a propeller stops has no root there, but what is slower is lost. */
static ls_status cross_changes(ls_search *s, stretch *run, ls_crossing found[LS_LIMITS])
{
    ls_search_sample slow = s->at;
    while (run->window[0].regime != slow.regime) {
        ls_search_sample above, below;
        ls_status status = find_change(s, &run->window[0], slow.V_m_s, &above, &below);
        if (status != LS_OK) {
            return status;
        }
        s->at = above;
        add_speed(s, run, found);
        for (int limit = 0; limit < LS_LIMITS && has_jump(&above, &below); limit++) {
            look_beside_jump(s, (ls_limit)limit, run, &found[limit]);
            if (isnan(found[limit].V_m_s) && above.margins.left[limit] > 0.0 && below.margins.left[limit] <= 0.0) {
                found[limit] = (ls_crossing){above.V_m_s, above.V_m_s - below.V_m_s, 1};
            }
        }
        s->at = below;
        run->filled = 0;
        add_speed(s, run, found);
    }
    s->at = slow;
    s->has_start = 1;
    return LS_OK;
}

int ls_search_down(ls_search *s, double high_m_s, double low_m_s, int steps, double ratio, double step_m_s,
                   ls_search_sample *top, ls_crossing found[LS_LIMITS])
{
    stretch run = {.filled = 0};
    int solved = 0;
    double V_m_s = high_m_s;
    for (int i = 0; i <= steps; i++) {
        if (ls_search_at(s, V_m_s) != LS_OK) {
            break;
        }
        solved++;
        if (i == 0) {
            *top = s->at;
            if (s->at.margins.left[ls_margins_exceeded(&s->at.margins)] <= 0.0) {
                break;
            }
        } else if (s->at.regime != run.window[0].regime && cross_changes(s, &run, found) != LS_OK) {
            break;
        }
        if (add_speed(s, &run, found)) {
            break;
        }
        V_m_s = fmax(low_m_s, step_m_s > 0.0 ? high_m_s - (i + 1) * step_m_s : V_m_s * ratio);
    }
    return solved;
}
