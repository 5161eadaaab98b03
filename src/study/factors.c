/* The factors solved: both ends of each step, and how far the change moves with what is doubtful. */
#include "liveside/airspeed.h"
#include "study/breakdown_parts.h"
#include "study/factors_parts.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define KT (1852.0 / 3600.0)

static const double least_m_s = 0.05 * KT; /* smaller changes of speed count as none */
static const double same_m_s = 0.5 * KT;   /* what a pilot would still call the same */

/* Large records of one study, on the heap. */
typedef struct {
    const ls_aircraft *aircraft;
    const ls_marks *marks;
    const ls_watch *watch;
    ls_factors *factors;
    unsigned other; /* the failure of the engine on the other side, or 0 */
    ls_factor_end from, to;
    ls_aircraft kept_from, kept_to; /* while a doubtful number is moved */
    ls_breakdown pair;
} work;

static double body_bank(double bank_rad, int live_side)
{
    return live_side < 0 ? -bank_rad : bank_rad;
}

/* Fails the same number of engines as the base, in the same state. */
static ls_condition condition_of(const ls_factor_end *end, const ls_factors *factors)
{
    ls_condition condition = end->condition;
    if (end->failed != factors->failed) {
        int first = 0;
        while (!(factors->failed >> first & 1u)) {
            first++;
        }
        ls_condition_fail_as(&end->aircraft, end->failed, end->condition.state[first], &condition);
    }
    condition.bank_rad = body_bank(end->bank_rad, ls_live_side(&end->aircraft, &condition));
    return condition;
}

static double climb_of(const ls_factor_end *end, const ls_factors *factors, const ls_condition *condition)
{
    ls_model model;
    ls_airspeed speed;
    ls_climb_point point;
    ls_climb_rule rule = {.bank = end->fixed_bank ? LS_CLIMB_BANK_GIVEN : LS_CLIMB_BANK_NO_SIDESLIP,
                          .bank_rad = condition->bank_rad};
    if (!(factors->climb_cas_m_s > 0.0) || ls_model_make(&end->aircraft, condition, &model, NULL) != LS_OK ||
        ls_airspeed_from_cas(&model.air, factors->climb_cas_m_s, &speed, NULL) != LS_OK ||
        ls_climb_at(&model, rule, speed.TAS_m_s, &point, NULL) != LS_OK) {
        return NAN;
    }
    return point.rate_m_s;
}

static void solve_end(const ls_factor_end *end, const ls_factors *factors, double *vmc_m_s, double *climb_m_s)
{
    ls_condition condition = condition_of(end, factors);
    *vmc_m_s = ls_breakdown_control(&end->aircraft, &condition);
    *climb_m_s = climb_of(end, factors, &condition);
}

static void solve_step(work *w, ls_change *vmc, ls_change *climb)
{
    solve_end(&w->from, w->factors, &vmc->from, &climb->from);
    solve_end(&w->to, w->factors, &vmc->to, &climb->to);
    vmc->change = vmc->to - vmc->from;
    climb->change = climb->to - climb->from;
}

/* The step again with each doubtful number at both ends of its range: the moves are added as independent ones. */
static void solve_doubt(work *w, ls_factor_result *result)
{
    int count;
    double vmc = 0.0, climb = 0.0;
    w->kept_from = w->from.aircraft;
    w->kept_to = w->to.aircraft;
    ls_doubts(&count);
    for (int row = 0; row < count; row++) {
        double most_vmc = 0.0, most_climb = 0.0;
        for (int end = 0; end < 2; end++) {
            ls_change moved_vmc, moved_climb;
            if (!ls_doubt_apply(&w->kept_from, w->marks, row, end, &w->from.aircraft)) {
                continue;
            }
            ls_doubt_apply(&w->kept_to, w->marks, row, end, &w->to.aircraft);
            solve_step(w, &moved_vmc, &moved_climb);
            most_vmc = fmax(most_vmc, fabs(moved_vmc.change - result->vmc.change));
            most_climb = fmax(most_climb, fabs(moved_climb.change - result->climb.change));
        }
        vmc += most_vmc * most_vmc;
        climb += most_climb * most_climb;
    }
    w->from.aircraft = w->kept_from;
    w->to.aircraft = w->kept_to;
    result->vmc.doubt = isfinite(result->vmc.change) ? sqrt(vmc) : NAN;
    result->climb.doubt = isfinite(result->climb.change) ? sqrt(climb) : NAN;
}

static ls_agreement judge(const ls_factor_result *result, ls_taught taught)
{
    double change = result->vmc.change;
    if (taught == LS_TAUGHT_NOTHING) {
        return LS_NOTHING_TAUGHT;
    }
    int is_small = !(fabs(change) > fmax(result->vmc.doubt, least_m_s));
    if (taught == LS_TAUGHT_SAME) {
        return is_small || fabs(change) <= same_m_s ? LS_AGREES : LS_DISAGREES;
    }
    if (is_small) {
        return LS_WITHIN_DOUBT;
    }
    return (taught == LS_TAUGHT_LOWER && change < 0.0) || (taught == LS_TAUGHT_HIGHER && change > 0.0)
               ? LS_AGREES
               : LS_DISAGREES;
}

static void base_end(const work *w, ls_factor_end *end)
{
    end->aircraft = *w->aircraft;
    end->condition = w->factors->condition;
    end->bank_rad = w->factors->bank_rad;
    end->failed = w->factors->failed;
    end->fixed_bank = 0;
}

static void solve_factor(work *w, ls_factor_kind kind, ls_factor_result *result)
{
    const ls_factor_row *row = ls_factor(kind);
    memset(result, 0, sizeof *result);
    result->kind = kind;
    result->vmc = result->climb = (ls_change){NAN, NAN, NAN, NAN};
    base_end(w, &w->from);
    base_end(w, &w->to);
    ls_factor_set(kind, w->factors, w->other, &w->from, &w->to, result);
    if (result->vmc_state != LS_FACTOR_COMPUTED) {
        return;
    }
    solve_step(w, &result->vmc, &result->climb);
    solve_doubt(w, result);
    if (result->climb_state != LS_FACTOR_COMPUTED) {
        result->climb = (ls_change){NAN, NAN, NAN, NAN};
    }
    if (row->no_data != NULL) {
        result->vmc_state = LS_FACTOR_NO_DATA;
        result->vmc = (ls_change){NAN, NAN, NAN, NAN};
        snprintf(result->reason, sizeof result->reason, "%s", row->no_data);
        return;
    }
    if (isfinite(result->vmc.change)) {
        result->agreement = judge(result, row->vmc);
        ls_factor_explain(w->aircraft, w->factors, result);
    } else {
        result->agreement = LS_NOTHING_TAUGHT;
        snprintf(result->reason, sizeof result->reason, "no control limit is met at one of the ends");
    }
}

static double size_of(const ls_factor_result *result)
{
    return isfinite(result->vmc.change) ? fabs(result->vmc.change) : -1.0;
}

static void insert(ls_factors *factors, const ls_factor_result *result)
{
    int at = factors->rows++;
    for (; at > 0 && size_of(&factors->row[at - 1]) < size_of(result); at--) {
        factors->row[at] = factors->row[at - 1];
    }
    factors->row[at] = *result;
}

/* The critical engine of the pair, or the first. */
static ls_status choose(work *w, const ls_vmca_request *request, ls_error *error)
{
    ls_status status = ls_breakdown_start(w->aircraft, request, &w->pair, error);
    if (status != LS_OK) {
        return status;
    }
    double speed_m_s[LS_BREAKDOWN_SIDES] = {NAN, NAN};
    for (int i = 0; i < w->pair.sides; i++) {
        speed_m_s[i] = ls_breakdown_control(w->aircraft, &w->pair.side[i].condition);
    }
    int critical = w->pair.sides > 1 && speed_m_s[1] > speed_m_s[0];
    const ls_breakdown_side *side = &w->pair.side[critical];
    w->factors->failed = side->failed;
    w->factors->live_side = side->live_side;
    w->factors->condition = side->condition;
    w->factors->bank_rad = body_bank(side->condition.bank_rad, side->live_side);
    w->factors->vmc_m_s = speed_m_s[critical];
    w->other = w->pair.sides > 1 ? w->pair.side[!critical].failed : 0;
    return LS_OK;
}

/* Where the climbs are compared, and where control limit and stall meet. */
static void set_base(work *w)
{
    ls_model model;
    ls_climb_best best;
    ls_vmc vmc;
    ls_factors *factors = w->factors;
    ls_climb_rule rule = {.bank = LS_CLIMB_BANK_NO_SIDESLIP};
    factors->climb_cas_m_s = factors->climb_m_s = factors->meeting_m = NAN;
    if (ls_model_make(w->aircraft, &factors->condition, &model, NULL) != LS_OK) {
        return;
    }
    if (ls_climb_best_speed(&model, rule, LS_CLIMB_RATE, 0.0, &best, NULL) == LS_OK) {
        factors->climb_cas_m_s = best.point.cas_m_s;
        factors->climb_m_s = best.point.rate_m_s;
    }
    factors->stalls_first =
        ls_vmc_at(&model, factors->condition.bank_rad, &vmc, NULL) == LS_OK && vmc.kind == LS_VMC_STALLS_FIRST;
    if (ls_vmca_meeting_altitude(w->aircraft, &factors->condition, factors->condition.bank_rad, LS_AIR_H_MAX_M,
                                 &factors->meeting_m, NULL) != LS_OK) {
        factors->meeting_m = NAN;
    }
}

static ls_status solve_all(work *w, ls_error *error)
{
    for (int kind = 0; kind < LS_FACTORS; kind++) {
        ls_factor_result result;
        if (w->watch != NULL && w->watch->stop != NULL && w->watch->stop(w->watch->context)) {
            return ls_fail(error, LS_INTERRUPTED, "stopped after %d of %d factors", kind, LS_FACTORS);
        }
        solve_factor(w, (ls_factor_kind)kind, &result);
        insert(w->factors, &result);
        if (w->watch != NULL && w->watch->progress != NULL) {
            w->watch->progress(w->watch->context, (kind + 1.0) / LS_FACTORS);
        }
    }
    return LS_OK;
}

ls_status ls_factors_solve(const ls_aircraft *aircraft, const ls_marks *marks, const ls_vmca_request *request,
                           const ls_watch *watch, ls_factors *factors, ls_error *error)
{
    work *w = calloc(1, sizeof *w);
    if (w == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    memset(factors, 0, sizeof *factors);
    w->aircraft = aircraft;
    w->marks = marks;
    w->watch = watch;
    w->factors = factors;
    ls_status status = choose(w, request, error);
    if (status == LS_OK) {
        set_base(w);
        status = solve_all(w, error);
    }
    free(w);
    return status;
}
