/* The minimum control speed at a bank: the speed falls from 3 to 0.6 stall speeds in steps; a margin that passes
 * zero between two of them is bracketed and solved. */
#include "liveside/vmc.h"

#include "liveside/airspeed.h"
#include "num/root.h"

#include <math.h>
#include <string.h>

enum { STEPS = 28 };

#define RANGE_LOW    0.6 /* of the 1 g stall speed */
#define RANGE_HIGH   3.0
#define JOINT_M_S    (1e-5 * 1852.0 / 3600.0)
#define ROOT_TOL_M_S 1e-9
#define NEAR_ZERO    0.05 /* a local minimum of a margin below this is searched for a hidden crossing */
#define NEAR_JUMP    0.30 /* the same beside a jump, where a margin may dip between two speeds of the scan */

const char *ls_limit_name(ls_limit limit)
{
    static const char *const names[LS_LIMITS] = {"rudder travel", "pedal force", "aileron travel", "fin stall",
                                                 "wing stall"};
    return (unsigned)limit < LS_LIMITS ? names[limit] : "none";
}

void ls_margins_at(const ls_model *model, const ls_trim *trim, ls_margins *margins)
{
    const ls_aircraft *aircraft = model->aircraft;
    double travel_rad = trim->rudder_rad > 0.0 ? aircraft->rudder.left_rad : aircraft->rudder.right_rad;
    margins->left[LS_LIMIT_RUDDER] = 1.0 - fabs(trim->rudder_rad) / travel_rad;
    margins->left[LS_LIMIT_PEDAL] = isfinite(model->condition.pedal_limit_N) && !isnan(trim->pedal_force_N)
                                        ? 1.0 - fabs(trim->pedal_force_N) / model->condition.pedal_limit_N
                                        : NAN;
    margins->left[LS_LIMIT_AILERON] = 1.0 - fabs(trim->aileron_rad) / model->aileron_rad;
    margins->left[LS_LIMIT_FIN_STALL] = 1.0 - fabs(trim->beta_rad) / aircraft->fin.stall_sideslip_rad;
    margins->left[LS_LIMIT_WING_STALL] = 1.0 - trim->lift_coefficient / model->lift_max;
    margins->stall_power_on = 1.0 - trim->free_lift_coefficient / model->lift_max;
}

/* One speed of the scan. */
typedef struct {
    double V_m_s;
    ls_trim trim;
    ls_margins margins;
    unsigned stopped; /* units whose propeller windmills no longer, a bit each: where they change, drag jumps */
} sample;

typedef struct {
    const ls_model *model;
    double bank_rad;
    ls_limit limit; /* whose margin `margin_at` gives */
    sample at;      /* the last one solved; the next starts from it */
    int has_start;
    int trims;
    ls_status status; /* of the last failure */
    ls_error *error;
} search;

static ls_status load_at(search *s, double V_m_s, ls_powerplant_point *point, unsigned *stopped)
{
    ls_status status = s->model->loads(s->model, V_m_s, point, s->error);
    if (status != LS_OK) {
        s->at.trim.stop = LS_STOP_POWERPLANT;
        s->status = status;
        return status;
    }
    *stopped = 0;
    for (int i = 0; i < s->model->units; i++) {
        *stopped |= point->unit[i].flags & LS_PROPULSOR_STOPS ? 1u << i : 0u;
    }
    return LS_OK;
}

static ls_status solve_at(search *s, double V_m_s)
{
    ls_powerplant_point point;
    ls_trim start = s->at.trim;
    ls_status status = load_at(s, V_m_s, &point, &s->at.stopped);
    if (status != LS_OK) {
        return status;
    }
    s->trims++;
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
    search *s = context;
    return solve_at(s, V_m_s) == LS_OK ? s->at.margins.left[s->limit] : NAN;
}

/* What the scan has found so far of one limit. */
typedef struct {
    double V_m_s; /* highest crossing; NaN when none */
    double bracket_m_s;
    int is_jump; /* no root: the margin falls through zero at once, where a propeller stops */
} crossing;

static void solve_crossing(search *s, ls_limit limit, const sample *from, double low, double high, crossing *found)
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
static void solve_hidden(search *s, ls_limit limit, const sample *upper, const sample *lower, crossing *found)
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
static void look_for(search *s, ls_limit limit, const sample window[3], int filled, crossing *found)
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

static ls_limit exceeded_at(const ls_margins *margins)
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
    sample window[3];
    int filled;
} stretch;

/* Adds the speed solved last and looks for crossings; it is the start of the next again.
 * Returned: whether a control limit and the stall are known. */
static int add_speed(search *s, stretch *run, crossing found[LS_LIMITS])
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

/* Closes in, by halving, on the speed between two at which the first propeller stops or starts. */
static ls_status find_jump(search *s, const sample *upper, double low_m_s, sample *above, sample *below)
{
    ls_powerplant_point point;
    ls_status status = LS_OK;
    double high_m_s = upper->V_m_s;
    unsigned stopped = upper->stopped;
    while (high_m_s - low_m_s > ROOT_TOL_M_S && status == LS_OK) {
        double middle_m_s = 0.5 * (low_m_s + high_m_s);
        status = load_at(s, middle_m_s, &point, &stopped);
        *(stopped == upper->stopped ? &high_m_s : &low_m_s) = middle_m_s;
    }
    s->at = *upper;
    s->has_start = 1;
    status = status == LS_OK ? solve_at(s, high_m_s) : status;
    *above = s->at;
    status = status == LS_OK ? solve_at(s, low_m_s) : status;
    *below = s->at;
    return status;
}

/* As a propeller comes near stopping its drag changes like a square root of the speed, so that a margin may dip
 * below zero and come back between the last two speeds of a stretch. */
static void look_beside_jump(search *s, ls_limit limit, const stretch *run, crossing *found)
{
    double now = run->window[0].margins.left[limit], before = run->window[1].margins.left[limit];
    if (run->filled > 1 && isnan(found->V_m_s) && fmin(now, before) > 0.0 && fmin(now, before) < NEAR_JUMP) {
        solve_hidden(s, limit, &run->window[1], &run->window[0], found);
    }
}

/* Between the newest speed of a stretch and a slower one propellers stop: the stretch ends above each jump and a
 * new one begins below it. A margin that falls through zero there has no root, but what is slower is lost. */
static ls_status cross_jumps(search *s, stretch *run, crossing found[LS_LIMITS])
{
    sample slow = s->at;
    while (run->window[0].stopped != slow.stopped) {
        sample above, below;
        ls_status status = find_jump(s, &run->window[0], slow.V_m_s, &above, &below);
        if (status != LS_OK) {
            return status;
        }
        s->at = above;
        add_speed(s, run, found);
        for (int limit = 0; limit < LS_LIMITS; limit++) {
            look_beside_jump(s, (ls_limit)limit, run, &found[limit]);
            if (isnan(found[limit].V_m_s) && above.margins.left[limit] > 0.0 && below.margins.left[limit] <= 0.0) {
                found[limit] = (crossing){above.V_m_s, above.V_m_s - below.V_m_s, 1};
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

/* Finds each limit's highest crossing until a control limit and the stall are known or the range ends.
 * Returned: how many speeds were solved; crossings; the first sample in `top`. */
static int scan_down(search *s, double high_m_s, double low_m_s, int steps, double ratio, double step_m_s,
                     sample *top, crossing found[LS_LIMITS])
{
    stretch run = {.filled = 0};
    int solved = 0;
    double V_m_s = high_m_s;
    for (int i = 0; i <= steps && V_m_s >= low_m_s * (1.0 - 1e-12); i++) {
        if (solve_at(s, V_m_s) != LS_OK) {
            break;
        }
        solved++;
        if (i == 0) {
            *top = s->at;
            if (s->at.margins.left[exceeded_at(&s->at.margins)] <= 0.0) {
                break;
            }
        } else if (s->at.stopped != run.window[0].stopped && cross_jumps(s, &run, found) != LS_OK) {
            break;
        }
        if (add_speed(s, &run, found)) {
            break;
        }
        V_m_s = step_m_s > 0.0 ? high_m_s - (i + 1) * step_m_s : V_m_s * ratio;
    }
    return solved;
}

static double cas_of(const ls_model *model, double V_m_s)
{
    ls_airspeed speed;
    return isfinite(V_m_s) && ls_airspeed_from_tas(&model->air, V_m_s, &speed, NULL) == LS_OK ? speed.CAS_m_s
                                                                                              : NAN;
}

static void set_speeds(const ls_model *model, ls_vmc *vmc)
{
    vmc->cas_m_s = cas_of(model, vmc->V_m_s);
    vmc->eas_m_s = vmc->V_m_s * sqrt(model->air.sigma);
    vmc->control_cas_m_s = cas_of(model, vmc->control_V_m_s);
    vmc->stall_cas_m_s = cas_of(model, vmc->stall_V_m_s);
}

static void take_highest(const crossing found[LS_LIMITS], ls_vmc *vmc)
{
    vmc->control_V_m_s = NAN;
    vmc->control_limit = LS_LIMITS;
    for (int limit = 0; limit < LS_LIMIT_WING_STALL; limit++) {
        if (found[limit].V_m_s > vmc->control_V_m_s || (isnan(vmc->control_V_m_s) && !isnan(found[limit].V_m_s))) {
            vmc->control_V_m_s = found[limit].V_m_s;
            vmc->control_limit = (ls_limit)limit;
        }
    }
    vmc->stall_V_m_s = found[LS_LIMIT_WING_STALL].V_m_s;
    if (!isnan(vmc->control_V_m_s) && !(vmc->control_V_m_s < vmc->stall_V_m_s)) {
        vmc->kind = LS_VMC_CONTROL;
        vmc->limit = vmc->control_limit;
    } else if (!isnan(vmc->stall_V_m_s)) {
        vmc->kind = LS_VMC_STALLS_FIRST;
        vmc->limit = LS_LIMIT_WING_STALL;
    } else {
        vmc->kind = LS_VMC_NO_LIMIT;
        vmc->limit = LS_LIMITS;
        return;
    }
    vmc->V_m_s = found[vmc->limit].V_m_s;
    vmc->bracket_m_s = found[vmc->limit].bracket_m_s;
    vmc->at_jump = found[vmc->limit].is_jump;
    for (int limit = 0; limit < LS_LIMITS; limit++) {
        vmc->joint |= fabs(found[limit].V_m_s - vmc->V_m_s) <= JOINT_M_S ? 1u << limit : 0u;
    }
}

/* Whether a limit that is exceeded at the top stays so down to the stall, or to the end of the range. */
static int stays_exceeded(search *s, const sample *top, ls_limit over, double low_m_s, double ratio)
{
    s->at = *top;
    s->has_start = 1;
    for (double V_m_s = top->V_m_s * ratio; V_m_s >= low_m_s; V_m_s *= ratio) {
        if (solve_at(s, V_m_s) != LS_OK) {
            return 0;
        }
        if (s->at.margins.left[LS_LIMIT_WING_STALL] <= 0.0) {
            break;
        }
        if (s->at.margins.left[over] > 0.0) {
            return 0;
        }
    }
    return 1;
}

/* How the answer follows the pedal force allowed: the force held at speeds close by, the other way round. */
static double speed_by_force(search *s, const sample *answer)
{
    const double share = 1e-4; /* of the speed: the force is smooth there, and differences keep 8 digits */
    double force_N[2];
    for (int i = 0; i < 2; i++) {
        s->at = *answer;
        s->has_start = 1;
        if (solve_at(s, answer->V_m_s * (i == 0 ? 1.0 - share : 1.0 + share)) != LS_OK) {
            return NAN;
        }
        force_N[i] = fabs(s->at.trim.pedal_force_N);
    }
    return 2.0 * share * answer->V_m_s / (force_N[1] - force_N[0]);
}

static void set_answer(search *s, const sample *top, const crossing found[LS_LIMITS], double ratio, ls_vmc *vmc)
{
    ls_limit over = exceeded_at(&top->margins);
    if (top->margins.left[over] <= 0.0) {
        vmc->kind = LS_VMC_ABOVE_RANGE;
        vmc->limit = over;
        vmc->trim = top->trim;
        vmc->margins = top->margins;
        vmc->everywhere = stays_exceeded(s, top, over, vmc->low_V_m_s, ratio);
        return;
    }
    take_highest(found, vmc);
    if (vmc->kind == LS_VMC_NO_LIMIT) {
        if (s->status != LS_OK) {
            vmc->kind = LS_VMC_FAILED;
            vmc->stop = s->at.trim.stop;
        }
        return;
    }
    s->at = *top;
    s->has_start = 1;
    if (solve_at(s, vmc->V_m_s) == LS_OK) {
        ls_powerplant_point point;
        vmc->trim = s->at.trim;
        vmc->margins = s->at.margins;
        s->model->loads(s->model, vmc->V_m_s, &point, NULL);
        vmc->flags = point.flags;
        sample answer = s->at;
        vmc->m_s_per_N = vmc->limit == LS_LIMIT_PEDAL ? speed_by_force(s, &answer) : NAN;
    }
}

static ls_status find(const ls_model *model, double bank_rad, int steps, double step_m_s, ls_vmc *vmc,
                      ls_error *error)
{
    ls_error local = {0};
    search s = {.model = model, .bank_rad = bank_rad, .error = &local};
    crossing found[LS_LIMITS];
    sample top = {0};
    memset(vmc, 0, sizeof *vmc);
    vmc->V_m_s = vmc->control_V_m_s = vmc->stall_V_m_s = vmc->m_s_per_N = NAN;
    vmc->low_V_m_s = RANGE_LOW * model->stall_V_m_s;
    vmc->high_V_m_s = RANGE_HIGH * model->stall_V_m_s;
    for (int limit = 0; limit < LS_LIMITS; limit++) {
        found[limit] = (crossing){NAN, NAN, 0};
    }
    double ratio = pow(RANGE_LOW / RANGE_HIGH, 1.0 / steps);
    int solved = scan_down(&s, vmc->high_V_m_s, vmc->low_V_m_s, steps, ratio, step_m_s, &top, found);
    vmc->trims = s.trims;
    if (solved == 0) {
        vmc->kind = LS_VMC_FAILED;
        vmc->stop = s.at.trim.stop;
        vmc->control_limit = vmc->limit = LS_LIMITS;
    } else {
        set_answer(&s, &top, found, ratio, vmc);
    }
    vmc->trims = s.trims;
    set_speeds(model, vmc);
    if (vmc->kind != LS_VMC_FAILED) {
        return LS_OK;
    }
    if (local.status == LS_OK) {
        ls_fail(&local, LS_NOT_CONVERGED, "no trim in the speed range: %s", ls_stop_text(vmc->stop));
    }
    return ls_fail(error, local.status, "%s", local.text);
}

ls_status ls_vmc_at(const ls_model *model, double bank_rad, ls_vmc *vmc, ls_error *error)
{
    return find(model, bank_rad, STEPS, 0.0, vmc, error);
}

ls_status ls_vmc_scan(const ls_model *model, double bank_rad, ls_vmc *vmc, ls_error *error)
{
    const double step_m_s = 0.1 * 1852.0 / 3600.0;
    int steps = (int)((RANGE_HIGH - RANGE_LOW) * model->stall_V_m_s / step_m_s);
    return find(model, bank_rad, steps > 1 ? steps : 1, step_m_s, vmc, error);
}
