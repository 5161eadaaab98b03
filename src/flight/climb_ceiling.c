/* Ceilings, by a scan over altitude and a root. */
#include "liveside/climb.h"

#include "num/root.h"

#include <math.h>
#include <string.h>

#define STEP_M         500.0
#define ALTITUDE_TOL_M 0.01

typedef struct {
    const ls_aircraft *aircraft;
    ls_condition condition;
    ls_climb_rule rule;
    double rate_m_s;
    double near_m_s;       /* equivalent airspeed of the last answer */
    ls_climb_best best;    /* at the last altitude */
    ls_climb_best nearest; /* of all altitudes the highest rate */
    ls_status status;
    ls_error *error;
} search;

/* How far the best rate lies above the one asked for. */
static double excess_at(double altitude_m, void *context)
{
    search *s = context;
    ls_model model;
    s->condition.altitude_m = altitude_m;
    s->status = ls_model_make(s->aircraft, &s->condition, &model, s->error);
    if (s->status == LS_OK) {
        double root_sigma = sqrt(model.air.sigma);
        s->status =
            ls_climb_best_speed(&model, s->rule, LS_CLIMB_RATE, s->near_m_s / root_sigma, &s->best, s->error);
        s->near_m_s = s->best.point.V_m_s * root_sigma;
    }
    if (s->status != LS_OK) {
        return NAN;
    }
    if (!(s->best.point.rate_m_s <= s->nearest.point.rate_m_s)) {
        s->nearest = s->best;
    }
    return s->best.point.rate_m_s - s->rate_m_s;
}

/* Whether the air of an altitude is within the atmosphere on this day. */
static int has_air(const search *s, double altitude_m)
{
    ls_air air;
    return ls_air_at(altitude_m, s->condition.isa_offset_K, &air, NULL) == LS_OK;
}

/* Steps from one altitude to another until the sign of the excess is the one looked for.
 * Returned: 1 with the last two altitudes, 0 when the range ends first, -1 on failure. */
static int step_to(search *s, double from_m, double to_m, int positive, double *before_m, double *at_m)
{
    double step_m = to_m > from_m ? STEP_M : -STEP_M;
    *before_m = from_m;
    for (*at_m = from_m; (to_m - *at_m) * step_m >= 0.0 && has_air(s, *at_m); *at_m += step_m) {
        double excess = excess_at(*at_m, s);
        if (isnan(excess)) {
            return -1;
        }
        if ((excess >= 0.0) == positive) {
            return 1;
        }
        *before_m = *at_m;
    }
    *at_m = *before_m;
    return 0;
}

static ls_status refine(search *s, double low_m, double high_m, ls_ceiling *ceiling)
{
    ls_root_options options = {.x_tol = ALTITUDE_TOL_M};
    ls_root_report report;
    if (ls_root_find(excess_at, s, low_m, high_m, &options, &report) != LS_OK || isnan(excess_at(report.x, s))) {
        return s->status != LS_OK ? s->status
                                  : ls_fail(s->error, LS_NOT_CONVERGED, "the search for a ceiling did not end: %s",
                                            ls_root_stop_text(report.stop));
    }
    ceiling->kind = LS_CEILING_FOUND;
    ceiling->altitude_m = report.x;
    ceiling->bracket_m = report.high - report.low;
    ceiling->best = s->best;
    return LS_OK;
}

static ls_status find(search *s, double known_m, ls_ceiling *ceiling)
{
    double before_m, at_m;
    if (!has_air(s, 0.0)) {
        return ls_fail(s->error, LS_NO_STATE, "no atmosphere at sea level on this day: no ceiling is looked for");
    }
    int found = step_to(s, known_m, LS_AIR_H_MAX_M, 0, &before_m, &at_m); /* up, until it is too little */
    if (found == 0) {
        ceiling->kind = LS_CEILING_ABOVE;
        ceiling->high_m = at_m;
        ceiling->best = s->best;
        return LS_OK;
    }
    if (found > 0 && at_m > known_m) {
        return refine(s, before_m, at_m, ceiling);
    }
    if (found > 0) { /* too little at sea level: look below it */
        found = step_to(s, 0.0, LS_AIR_H_MIN_M, 1, &before_m, &at_m);
        if (found > 0) {
            return refine(s, at_m, before_m, ceiling);
        }
    }
    if (found > 0 || s->status != LS_OK) {
        return s->status;
    }
    ceiling->kind = LS_CEILING_NEVER;
    ceiling->low_m = at_m;
    ceiling->best = s->nearest;
    return LS_OK;
}

ls_status ls_climb_ceiling(const ls_aircraft *aircraft, const ls_condition *condition, ls_climb_rule rule,
                           double rate_m_s, double known_m, ls_ceiling *ceiling, ls_error *error)
{
    ls_error local = {0};
    search s = {
        .aircraft = aircraft, .condition = *condition, .rule = rule, .rate_m_s = rate_m_s, .error = &local};
    ls_ceiling result;
    memset(&result, 0, sizeof result);
    s.nearest.point.rate_m_s = NAN;
    result.altitude_m = result.bracket_m = NAN;
    result.low_m = LS_AIR_H_MIN_M;
    result.high_m = LS_AIR_H_MAX_M;
    ls_status status = find(&s, known_m, &result);
    if (status != LS_OK) {
        return ls_fail(error, status, "%s", local.text);
    }
    *ceiling = result;
    return LS_OK;
}
