/* The cases of `climb`: every engine, and each failure in each state of the failed propeller. */
#include "liveside/performance.h"

#include "liveside/airspeed.h"
#include "study/performance_parts.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define SAME_RATE_M_S 1e-6 /* mirror images are the same: the first of them stands for both */

void ls_case_reason(char reason[LS_CASE_REASON], const ls_error *error)
{
    snprintf(reason, LS_CASE_REASON, "%.*s", LS_CASE_REASON - 1, error->text);
}

double ls_case_body_bank(double bank_rad, int live_side)
{
    return live_side < 0 ? -bank_rad : bank_rad;
}

ls_condition ls_case_condition(const ls_condition *condition, const ls_aircraft *aircraft, unsigned failed,
                               ls_engine_state state)
{
    ls_condition out = *condition;
    if (failed != 0 && state == LS_ENGINE_STATES) {
        ls_condition_fail(aircraft, failed, &out);
    } else {
        ls_condition_fail_as(aircraft, failed, state, &out);
    }
    return out;
}

/* Every engine running flies with wings level; a failure at the bank asked for or at the best one. */
static ls_climb_rule rule_of(const ls_performance_request *request, unsigned failed, int live_side)
{
    ls_climb_rule rule = {LS_CLIMB_BANK_GIVEN, 0.0, LS_LEAST_STALLS};
    if (failed != 0 && request->bank_given) {
        rule.bank_rad = ls_case_body_bank(request->bank_rad, live_side);
    } else if (failed != 0) {
        rule.bank = LS_CLIMB_BANK_BEST;
    }
    return rule;
}

void ls_performance_case_solve(const ls_performance_request *request, const ls_condition *condition,
                               unsigned failed, ls_engine_state state, const ls_performance_case *all,
                               ls_performance_case *out)
{
    ls_model model;
    ls_error error = {0};
    memset(out, 0, sizeof *out);
    out->failed = failed;
    out->state = state;
    out->condition = ls_case_condition(condition, request->aircraft, failed, state);
    out->live_side = ls_live_side(request->aircraft, &out->condition);
    out->rule = rule_of(request, failed, out->live_side);
    out->lost = NAN;
    out->status = ls_model_make(request->aircraft, &out->condition, &model, &error);
    if (out->status == LS_OK) {
        out->status = ls_climb_best_speed(&model, out->rule, LS_CLIMB_RATE, 0.0, &out->rate, &error);
    }
    if (out->status == LS_OK) {
        out->status = ls_climb_best_speed(&model, out->rule, LS_CLIMB_GRADIENT, 0.0, &out->gradient, &error);
    }
    if (out->status != LS_OK) {
        ls_case_reason(out->reason, &error);
    } else if (all != NULL && all->status == LS_OK && all->rate.point.rate_m_s > 0.0) {
        out->lost = 1.0 - out->rate.point.rate_m_s / all->rate.point.rate_m_s;
    }
}

static void solve_ceilings(const ls_aircraft *aircraft, ls_performance_case *of)
{
    ls_error error = {0};
    double service_m_s = of->failed == 0 ? LS_SERVICE_RATE_ALL_M_S : LS_SERVICE_RATE_ONE_M_S;
    if (of->status != LS_OK) {
        return;
    }
    of->status = ls_climb_ceiling(aircraft, &of->condition, of->rule, service_m_s, 0.0, &of->service, &error);
    if (of->status == LS_OK) {
        double known_m = of->service.kind == LS_CEILING_FOUND ? fmax(0.0, of->service.altitude_m) : 0.0;
        of->status = ls_climb_ceiling(aircraft, &of->condition, of->rule, 0.0, known_m, &of->absolute, &error);
    }
    if (of->status != LS_OK) {
        ls_case_reason(of->reason, &error);
    }
}

/* Whether a state is one that is always solved. */
static int is_usual(int state)
{
    for (int i = 0; i < LS_VMCA_STATES; i++) {
        if ((int)ls_vmca_states[i] == state) {
            return 1;
        }
    }
    return 0;
}

/* What the answer is about: the state asked for, else feathered, else as the engine goes by itself. */
static int choose_state(const ls_performance_request *request, const ls_performance_set *set)
{
    for (int i = 0; i < LS_CASE_STATES; i++) {
        int is_asked = request->state >= 0 && (int)set->by_state[i].state == request->state;
        int is_feathered = request->state < 0 && set->by_state[i].state == LS_FEATHERED;
        if (is_asked || (is_feathered && set->by_state[i].status == LS_OK)) {
            return i;
        }
    }
    return 0; /* windmilling */
}

static void solve_set(const ls_performance_request *request, unsigned failed, const ls_performance_case *all,
                      ls_performance_set *set)
{
    set->failed = failed;
    for (int i = 0; i < LS_CASE_STATES; i++) {
        ls_performance_case *of = &set->by_state[i];
        int is_extra = i == LS_VMCA_STATES;
        if (is_extra && (request->state < 0 || is_usual(request->state))) {
            of->status = LS_NO_STATE;
            of->state = LS_ENGINE_STATES;
            snprintf(of->reason, sizeof of->reason, "not asked for");
            continue;
        }
        ls_engine_state state = is_extra ? (ls_engine_state)request->state : ls_vmca_states[i];
        ls_performance_case_solve(request, &request->condition, failed, state, all, of);
        solve_ceilings(request->aircraft, of);
    }
    set->chosen = choose_state(request, set);
}

/* The single failure with the least climb; where no single one is asked for, the least of all. */
static int find_worst(const ls_performance *performance)
{
    int worst = -1, singles = 0;
    for (int i = 0; i < performance->sets; i++) {
        singles += ls_set_size(performance->set[i].failed) == 1;
    }
    for (int i = 0; i < performance->sets; i++) {
        const ls_performance_set *set = &performance->set[i];
        const ls_performance_case *of = &set->by_state[set->chosen];
        if (of->status != LS_OK || (singles > 0 && ls_set_size(set->failed) != 1)) {
            continue;
        }
        if (worst < 0) {
            worst = i;
            continue;
        }
        const ls_performance_set *least = &performance->set[worst];
        double least_m_s = least->by_state[least->chosen].rate.point.rate_m_s;
        worst = of->rate.point.rate_m_s < least_m_s - SAME_RATE_M_S ? i : worst;
    }
    return worst;
}

ls_status ls_performance_solve(const ls_performance_request *request, const ls_watch *watch,
                               ls_performance *performance, ls_error *error)
{
    memset(performance, 0, sizeof *performance);
    performance->worst = -1;
    ls_performance_case_solve(request, &request->condition, 0, LS_ENGINE_STATES, NULL, &performance->all);
    solve_ceilings(request->aircraft, &performance->all);
    if (performance->all.status != LS_OK) {
        return ls_fail(error, performance->all.status, "%s", performance->all.reason);
    }
    performance->sets = request->sets;
    for (int i = 0; i < request->sets; i++) {
        if (watch != NULL && watch->stop != NULL && watch->stop(watch->context)) {
            return ls_fail(error, LS_INTERRUPTED, "stopped after %d of %d failures", i, request->sets);
        }
        solve_set(request, request->set[i], &performance->all, &performance->set[i]);
        if (watch != NULL && watch->progress != NULL) {
            watch->progress(watch->context, (i + 1.0) / request->sets);
        }
    }
    performance->worst = find_worst(performance);
    return LS_OK;
}

const ls_performance_case *ls_performance_worst(const ls_performance *performance)
{
    if (performance->worst < 0) {
        return NULL;
    }
    const ls_performance_set *set = &performance->set[performance->worst];
    return &set->by_state[set->chosen];
}

ls_status ls_performance_speed(const ls_performance_request *request, const ls_performance_case *of, double *V_m_s,
                               ls_error *error)
{
    ls_air air;
    ls_airspeed speed;
    if (!(request->cas_m_s > 0.0)) {
        *V_m_s = of->rate.point.V_m_s;
        return LS_OK;
    }
    ls_status status = ls_air_at(of->condition.altitude_m, of->condition.isa_offset_K, &air, error);
    status = status == LS_OK ? ls_airspeed_from_cas(&air, request->cas_m_s, &speed, error) : status;
    if (status == LS_OK) {
        *V_m_s = speed.TAS_m_s;
    }
    return status;
}
