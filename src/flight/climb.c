/* Climb at a speed and at the best speed. The powerplant depends on speed alone, so that a search over bank at one
 * speed asks it once. */
#include "liveside/climb.h"

#include "liveside/airspeed.h"
#include "num/root.h"

#include <math.h>
#include <string.h>

enum { SPEEDS = 20 };

#define DEG           (3.14159265358979323846 / 180.0)
#define RANGE_LOW     0.95 /* of the 1 g stall speed */
#define RANGE_HIGH    3.0
#define MACH_HIGH     0.95
#define NEAR          0.10 /* how far on either side of an earlier answer is looked first */
#define SIDESLIP_BANK (15.0 * DEG)
#define BANK_NEAR     (1.0 * DEG) /* how far on either side of that of another speed is looked first */
#define BANK_TOL_RAD  1e-5        /* the climb is flat there: the rate is off by 1e-8 of itself */
#define SPEED_TOL_M_S 1e-4
#define LIMIT_TOL_M_S 1e-6

const char *ls_climb_end_text(ls_climb_end end)
{
    static const char *const texts[LS_CLIMB_ENDS] = {
        "slower and faster are worse", "the slowest speed that can be held", "the least speed allowed",
        "the fastest speed of the range", "no speed of the range can be held"};
    return (unsigned)end < LS_CLIMB_ENDS ? texts[end] : "unknown";
}

/* One speed, whose bank is searched. */
typedef struct {
    const ls_model *model;
    ls_powerplant_point powerplant;
    ls_trim trim; /* the last one solved; the next starts from it */
    int has_start;
} bank_search;

static ls_status trim_at(bank_search *s, double bank_rad)
{
    ls_trim start = s->trim;
    ls_status status = ls_trim_at(s->model, &s->powerplant, bank_rad, s->has_start ? &start : NULL, &s->trim);
    if (status != LS_OK && s->has_start) { /* a far start may mislead it */
        status = ls_trim_at(s->model, &s->powerplant, bank_rad, NULL, &s->trim);
    }
    s->has_start = status == LS_OK;
    return status;
}

static double descent_at(double bank_rad, void *context)
{
    bank_search *s = context;
    return trim_at(s, bank_rad) == LS_OK ? -s->trim.climb_rad : NAN;
}

static double sideslip_at(double bank_rad, void *context)
{
    bank_search *s = context;
    return trim_at(s, bank_rad) == LS_OK ? s->trim.beta_rad : NAN;
}

static ls_status no_trim(const bank_search *s, ls_error *error)
{
    return ls_fail(error, LS_NOT_CONVERGED, "no trim at %.1f m/s: %s", s->powerplant.V_m_s,
                   ls_stop_text(s->trim.stop));
}

static ls_status no_sideslip(bank_search *s, double *bank_rad, ls_error *error)
{
    ls_root_options options = {.x_tol = 1e-9};
    ls_root_report report;
    ls_status status = ls_root_find(sideslip_at, s, -SIDESLIP_BANK, SIDESLIP_BANK, &options, &report);
    if (status == LS_NO_STATE) {
        return ls_fail(error, status, "no bank within 15 deg is without sideslip at %.1f m/s",
                       s->powerplant.V_m_s);
    }
    *bank_rad = report.x;
    return status == LS_OK ? LS_OK : no_trim(s, error);
}

/* Looks about an earlier answer. Returned: whether the best bank lies inside. */
static int best_bank_near(bank_search *s, double near_rad, double limit_rad, double *bank_rad)
{
    double low_rad = fmax(-limit_rad, near_rad - BANK_NEAR), high_rad = fmin(limit_rad, near_rad + BANK_NEAR);
    ls_root_options options = {.x_tol = BANK_TOL_RAD};
    ls_minimum_report report;
    if (!(low_rad < high_rad) || ls_minimum_find(descent_at, s, low_rad, high_rad, &options, &report) != LS_OK ||
        report.at_end != 0 || report.x - low_rad < 10.0 * BANK_TOL_RAD ||
        high_rad - report.x < 10.0 * BANK_TOL_RAD) {
        return 0;
    }
    *bank_rad = report.x;
    return 1;
}

/* Given: near_rad, the answer at another speed, or NaN. */
static ls_status best_bank(bank_search *s, double near_rad, double *bank_rad, int *at_end, ls_error *error)
{
    double limit_rad = s->model->condition.bank_limit_rad;
    ls_root_options options = {.x_tol = BANK_TOL_RAD};
    ls_minimum_report report;
    if (!(limit_rad > 0.0)) {
        *bank_rad = 0.0;
        return LS_OK;
    }
    if (!isnan(near_rad) && best_bank_near(s, near_rad, limit_rad, bank_rad)) {
        return LS_OK;
    }
    if (ls_minimum_find(descent_at, s, -limit_rad, limit_rad, &options, &report) != LS_OK) {
        return no_trim(s, error);
    }
    *bank_rad = report.x;
    *at_end = report.at_end != 0 || fabs(report.x) > limit_rad - 10.0 * BANK_TOL_RAD;
    return LS_OK;
}

static ls_limit nearest_limit(const ls_margins *margins)
{
    ls_limit nearest = LS_LIMIT_RUDDER;
    for (int limit = 0; limit < LS_LIMITS; limit++) {
        nearest = margins->left[limit] < margins->left[nearest] ? (ls_limit)limit : nearest;
    }
    return nearest;
}

static ls_status climb_at(const ls_model *model, ls_climb_rule rule, double V_m_s, double near_bank_rad,
                          ls_climb_point *point, ls_error *error)
{
    bank_search s = {.model = model};
    ls_climb_point at = {.V_m_s = V_m_s, .bank_rad = rule.bank_rad};
    ls_airspeed speed;
    ls_status status = model->loads(model, V_m_s, &s.powerplant, error);
    if (status == LS_OK && rule.bank == LS_CLIMB_BANK_NO_SIDESLIP) {
        status = no_sideslip(&s, &at.bank_rad, error);
    } else if (status == LS_OK && rule.bank == LS_CLIMB_BANK_BEST) {
        status = best_bank(&s, near_bank_rad, &at.bank_rad, &at.bank_end, error);
    }
    status = status == LS_OK ? ls_airspeed_from_tas(&model->air, V_m_s, &speed, error) : status;
    if (status != LS_OK) {
        return status;
    }
    if (trim_at(&s, at.bank_rad) != LS_OK) {
        return no_trim(&s, error);
    }
    at.cas_m_s = speed.CAS_m_s;
    at.trim = s.trim;
    at.rate_m_s = V_m_s * sin(at.trim.climb_rad);
    at.gradient = tan(at.trim.climb_rad);
    at.flags = s.powerplant.flags;
    ls_margins_at(model, &at.trim, &at.margins);
    at.limit = nearest_limit(&at.margins);
    at.is_held = at.margins.left[at.limit] >= 0.0;
    *point = at;
    return LS_OK;
}

ls_status ls_climb_at(const ls_model *model, ls_climb_rule rule, double V_m_s, ls_climb_point *point,
                      ls_error *error)
{
    return climb_at(model, rule, V_m_s, NAN, point, error);
}

/* The search over speed. */
typedef struct {
    const ls_model *model;
    ls_climb_rule rule;
    ls_climb_aim aim;
    ls_climb_point at; /* the last one solved */
    int has_bank;      /* at.bank_rad is one to look near */
    int speeds;
    ls_status status; /* of the last failure */
    ls_error *error;
} search;

static ls_status solve_at(search *s, double V_m_s)
{
    s->speeds++;
    double near_bank_rad = s->has_bank ? s->at.bank_rad : NAN;
    s->status = climb_at(s->model, s->rule, V_m_s, near_bank_rad, &s->at, s->error);
    s->has_bank = s->status == LS_OK;
    return s->status;
}

static double value_of(const search *s, const ls_climb_point *point)
{
    return s->aim == LS_CLIMB_RATE ? point->rate_m_s : point->trim.climb_rad;
}

static double loss_at(double V_m_s, void *context)
{
    search *s = context;
    return solve_at(s, V_m_s) == LS_OK ? -value_of(s, &s->at) : NAN;
}

/* How much is left of the nearest limit; where no trim is found, the aeroplane is not held. */
static double least_left_at(double V_m_s, void *context)
{
    search *s = context;
    ls_error ignored = {0}, *kept = s->error;
    s->error = &ignored;
    ls_status status = solve_at(s, V_m_s);
    s->error = kept;
    if (status != LS_OK && status != LS_NOT_CONVERGED) {
        ls_fail(s->error, status, "%s", ignored.text);
        return NAN;
    }
    return status == LS_OK ? s->at.margins.left[s->at.limit] : -1.0;
}

static ls_status failed(const search *s)
{
    return s->status != LS_OK ? s->status
                              : ls_fail(s->error, LS_NOT_CONVERGED, "the search over speed did not end");
}

/* Refines between two speeds that hold the best one. Given: is_slowest, whether nothing below low can be held. */
static ls_status refine(search *s, double low_m_s, double high_m_s, int is_slowest, ls_climb_best *best)
{
    ls_root_options options = {.x_tol = SPEED_TOL_M_S};
    ls_minimum_report report;
    if (ls_minimum_find(loss_at, s, low_m_s, high_m_s, &options, &report) != LS_OK ||
        solve_at(s, report.x) != LS_OK) {
        return failed(s);
    }
    best->point = s->at;
    best->bracket_m_s = report.high - report.low;
    int at_least = report.at_end < 0 && low_m_s <= best->low_m_s + LIMIT_TOL_M_S;
    best->end = at_least                                                          ? LS_CLIMB_LEAST
                : report.at_end < 0 && is_slowest                                 ? LS_CLIMB_SLOWEST
                : report.at_end > 0 && high_m_s >= best->high_m_s - LIMIT_TOL_M_S ? LS_CLIMB_FASTEST
                                                                                  : LS_CLIMB_INSIDE;
    return LS_OK;
}

/* The slowest speed that can be held, between one that cannot and one that can. */
static ls_status slowest_held(search *s, double low_m_s, double high_m_s, double *V_m_s)
{
    ls_root_options options = {.x_tol = LIMIT_TOL_M_S};
    ls_root_report report;
    if (ls_root_find(least_left_at, s, low_m_s, high_m_s, &options, &report) != LS_OK) {
        return failed(s);
    }
    *V_m_s = report.high;
    return LS_OK;
}

/* Scans the whole range from the top down, then refines about the best speed that can be held. */
static ls_status search_range(search *s, ls_climb_best *best)
{
    double speed[SPEEDS], left[SPEEDS], value = -INFINITY;
    int at = -1;
    for (int i = SPEEDS - 1; i >= 0; i--) {
        speed[i] = best->low_m_s * pow(best->high_m_s / best->low_m_s, i / (SPEEDS - 1.0));
        left[i] = least_left_at(speed[i], s);
        if (isnan(left[i]) || (i == SPEEDS - 1 && s->status != LS_OK)) {
            return failed(s);
        }
        if (i == SPEEDS - 1) {
            best->point = s->at;
        }
        if (left[i] >= 0.0 && value_of(s, &s->at) > value) {
            value = value_of(s, &s->at);
            at = i;
        }
    }
    if (at < 0) {
        best->end = LS_CLIMB_NOT_HELD;
        return LS_OK;
    }
    double low_m_s = speed[at > 0 ? at - 1 : 0], high_m_s = speed[at < SPEEDS - 1 ? at + 1 : at];
    int is_slowest = at == 0 || left[at - 1] < 0.0;
    if (at > 0 && left[at - 1] < 0.0) {
        ls_status status = slowest_held(s, speed[at - 1], speed[at], &low_m_s);
        if (status != LS_OK) {
            return status;
        }
    }
    return refine(s, low_m_s, high_m_s, is_slowest, best);
}

/* Looks near an earlier answer. Returned: whether the best speed was found there; else look everywhere. */
static int search_near(search *s, double near_m_s, ls_climb_best *best)
{
    double low_m_s = fmax(best->low_m_s, (1.0 - NEAR) * near_m_s);
    double high_m_s = fmin(best->high_m_s, (1.0 + NEAR) * near_m_s);
    if (!(low_m_s < high_m_s)) {
        return 0;
    }
    int is_slowest = least_left_at(low_m_s, s) < 0.0;
    if (is_slowest && (!(near_m_s > low_m_s) || !(least_left_at(near_m_s, s) > 0.0) ||
                       slowest_held(s, low_m_s, near_m_s, &low_m_s) != LS_OK)) {
        return 0;
    }
    if (refine(s, low_m_s, high_m_s, is_slowest, best) != LS_OK) {
        return 0;
    }
    double V_m_s = best->point.V_m_s, margin_m_s = 10.0 * SPEED_TOL_M_S;
    int is_inside = V_m_s - low_m_s > margin_m_s && high_m_s - V_m_s > margin_m_s && best->point.is_held;
    return is_inside || best->end == LS_CLIMB_SLOWEST || best->end == LS_CLIMB_LEAST;
}

ls_status ls_climb_best_speed(const ls_model *model, ls_climb_rule rule, ls_climb_aim aim, double near_m_s,
                              ls_climb_best *best, ls_error *error)
{
    ls_error local = {0};
    search s = {.model = model, .rule = rule, .aim = aim, .error = &local};
    ls_climb_best found;
    memset(&found, 0, sizeof found);
    found.low_m_s = fmax(1.0, rule.least_stalls) * model->stall_V_m_s;
    found.high_m_s = fmin(RANGE_HIGH * model->stall_V_m_s, MACH_HIGH * model->air.a_m_s);
    if (!(found.low_m_s < found.high_m_s)) {
        return ls_fail(error, LS_NO_STATE, "the least speed lies above Mach %.2f", MACH_HIGH);
    }
    int is_done = near_m_s > 0.0 && search_near(&s, near_m_s, &found);
    local = (ls_error){0};
    ls_status status = is_done ? LS_OK : search_range(&s, &found);
    if (status != LS_OK) {
        return ls_fail(error, status, "%s", local.text);
    }
    found.speeds = s.speeds;
    *best = found;
    return LS_OK;
}
