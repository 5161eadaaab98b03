/* Bank at the speed of best one-engine climb: without sideslip, and with the rudder left alone. */
#include "num/root.h"
#include "study/breakdown_parts.h"

#include <math.h>
#include <stdio.h>

#define DEG (3.14159265358979323846 / 180.0)

static const double farthest_bank_rad = 30.0 * DEG;

typedef struct {
    const ls_model *model;
    double V_m_s;
    ls_trim trim;
} bank_search;

static double rudder_at(double bank_rad, void *context)
{
    bank_search *s = context;
    return ls_trim_solve(s->model, s->V_m_s, bank_rad, &s->trim, NULL) == LS_OK ? s->trim.rudder_rad : NAN;
}

/* The bank, toward the live side, at which no rudder is needed. */
static double ailerons_only(const ls_model *model, int live_side, double V_m_s)
{
    bank_search search = {.model = model, .V_m_s = V_m_s};
    ls_root_options options = {.x_tol = 1e-7};
    ls_root_report report;
    double low, high;
    if (live_side == 0 ||
        ls_root_bracket(rudder_at, &search, 0.0, live_side * farthest_bank_rad, 15, &low, &high) != LS_OK ||
        ls_root_find(rudder_at, &search, low, high, &options, &report) != LS_OK) {
        return NAN;
    }
    rudder_at(report.x, &search);
    return fabs(search.trim.aileron_rad) <= model->aileron_rad ? report.x * live_side : NAN;
}

static ls_status climb_best(const ls_aircraft *aircraft, const ls_condition *condition, ls_model *model,
                            ls_climb_best *best, ls_error *error)
{
    ls_climb_rule rule = {.bank = LS_CLIMB_BANK_NO_SIDESLIP};
    ls_status status = ls_model_make(aircraft, condition, model, error);
    return status == LS_OK ? ls_climb_best_speed(model, rule, LS_CLIMB_RATE, 0.0, best, error) : status;
}

/* The failed propellers as they give least drag: feathered where the file has that, else as they were. */
static ls_status solve_climb(const ls_aircraft *aircraft, const ls_breakdown_side *side, ls_attitudes *at,
                             ls_model *model, ls_error *error)
{
    ls_condition condition = side->condition;
    condition.mass_kg = at->mass_kg;
    condition.cg_aft_m = at->cg_aft_m;
    ls_condition_fail_as(aircraft, side->failed, LS_FEATHERED, &condition);
    at->state = LS_FEATHERED;
    if (climb_best(aircraft, &condition, model, &at->best, NULL) == LS_OK) {
        return LS_OK;
    }
    for (int i = 0; i < aircraft->engines; i++) {
        condition.state[i] = side->condition.state[i];
        at->state = side->failed >> i & 1u ? condition.state[i] : at->state;
    }
    return climb_best(aircraft, &condition, model, &at->best, error);
}

void ls_breakdown_attitudes(const ls_aircraft *aircraft, ls_breakdown_side *side)
{
    ls_model model;
    ls_error error = {0};
    ls_attitudes *at = &side->attitudes;
    at->no_sideslip_rad = at->ailerons_only_rad = NAN;
    at->status = solve_climb(aircraft, side, at, &model, &error);
    if (at->status == LS_OK) {
        int sign = side->live_side < 0 ? -1 : 1;
        at->no_sideslip_rad = sign * at->best.point.bank_rad;
        at->ailerons_only_rad = ailerons_only(&model, side->live_side, at->best.point.V_m_s);
    }
    snprintf(at->reason, sizeof at->reason, "%.*s", (int)sizeof at->reason - 1, error.text);
}
