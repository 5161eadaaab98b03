/* Minimum control speeds with the limits of a basis: for each failure the most unfavourable loading, at the bank
 * of the lowest speed within the limit; of several failures and flap settings the worst rules. */
#include "rules/rules_speed.h"

#include "liveside/airspeed.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

int rule_landing_flap(const ls_aircraft *aircraft)
{
    int most = 0;
    for (int i = 1; i < aircraft->flaps; i++) {
        most = aircraft->flap[i].deflection_rad > aircraft->flap[most].deflection_rad ? i : most;
    }
    return most;
}

static double cas_of(const ls_model *model, double V_m_s)
{
    ls_airspeed speed;
    return ls_airspeed_from_tas(&model->air, V_m_s, &speed, NULL) == LS_OK ? speed.CAS_m_s : NAN;
}

ls_status rule_stall(const ls_aircraft *aircraft, int flap, double gear, double *cas_m_s, ls_error *error)
{
    ls_condition condition;
    ls_model model;
    ls_condition_takeoff(aircraft, &condition);
    condition.flap = flap;
    condition.gear = gear;
    ls_status status = ls_model_make(aircraft, &condition, &model, error);
    if (status == LS_OK) {
        *cas_m_s = cas_of(&model, model.stall_V_m_s);
    }
    return status;
}

static void start_condition(const ls_aircraft *aircraft, const ls_rule_basis *basis, ls_condition *condition)
{
    ls_condition_takeoff(aircraft, condition);
    condition->bank_limit_rad = basis->bank_rad;
    condition->pedal_limit_N = ls_aircraft_has_pedal(aircraft) ? basis->pedal_force_N : INFINITY;
}

/* The speed and, where it is only bounded, the bound. */
static void set_speed(const ls_model *model, ls_rules_speed *speed)
{
    switch (speed->vmc.kind) {
    case LS_VMC_CONTROL:
        speed->bound = 0;
        speed->cas_m_s = speed->vmc.cas_m_s;
        break;
    case LS_VMC_STALLS_FIRST:
        speed->bound = -1;
        speed->cas_m_s = speed->vmc.cas_m_s;
        break;
    case LS_VMC_ABOVE_RANGE:
        speed->bound = +1;
        speed->cas_m_s = cas_of(model, speed->vmc.high_V_m_s);
        break;
    default:
        speed->bound = -1;
        speed->cas_m_s = cas_of(model, speed->vmc.low_V_m_s);
    }
}

/* The most unfavourable loading depends on the bank and the best bank on the loading: they are found in turn. */
static ls_status search(const ls_aircraft *aircraft, const ls_condition *start, unsigned vary,
                        ls_rules_speed *speed, ls_error *error)
{
    ls_model model;
    int side = ls_live_side(aircraft, start) < 0 ? -1 : +1;
    double bank_rad = side * start->bank_limit_rad;
    for (int round = 0; round < 2; round++) {
        ls_status status = ls_vmc_worst(aircraft, start, vary, bank_rad, &speed->condition, &speed->vmc, error);
        status = status == LS_OK ? ls_model_make(aircraft, &speed->condition, &model, error) : status;
        if (status != LS_OK) {
            return status;
        }
        double best_rad;
        ls_vmc best;
        if (round == 1 || ls_vmc_best_bank(&model, &best_rad, &best, NULL) != LS_OK ||
            fabs(best_rad - bank_rad) < 1e-4) { /* at the limit, as nearly always */
            break;
        }
        bank_rad = best_rad;
    }
    speed->condition.bank_rad = bank_rad;
    speed->bank_rad = side * bank_rad;
    set_speed(&model, speed);
    return LS_OK;
}

static void solve(const ls_aircraft *aircraft, const ls_condition *condition, int heaviest_first,
                  ls_rules_speed *speed)
{
    ls_error error = {0};
    memset(speed, 0, sizeof *speed);
    speed->failed = ls_condition_failed(aircraft, condition);
    unsigned vary = heaviest_first ? LS_SEARCH_ALL & ~(unsigned)LS_SEARCH_MASS : LS_SEARCH_ALL;
    speed->status = search(aircraft, condition, vary, speed, &error);
    if (speed->status == LS_OK && heaviest_first && speed->bound < 0) {
        speed->status = search(aircraft, condition, LS_SEARCH_ALL, speed, &error);
    }
    snprintf(speed->reason, sizeof speed->reason, "%.*s", (int)sizeof speed->reason - 1, error.text);
}

/* How far off the centreline the live engines are, summed. */
static double asymmetry_m(const ls_aircraft *aircraft, const ls_rules_speed *speed)
{
    double arm_m = 0.0;
    for (int i = 0; i < aircraft->engines; i++) {
        arm_m += speed->failed >> i & 1u ? 0.0 : aircraft->engine[i].hub_right_m;
    }
    return fabs(arm_m);
}

/* A speed above the range is worse than one that a control limits, and that than one below the stall. Of two below
 * the stall, whose speeds say little of control, the more asymmetric one. */
static int is_worse(const ls_aircraft *aircraft, const ls_rules_speed *a, const ls_rules_speed *b)
{
    if (a->status != LS_OK || b->status != LS_OK) {
        return b->status == LS_OK; /* without one answer the worst is not known */
    }
    if (a->bound != b->bound) {
        return a->bound > b->bound;
    }
    double more_m = asymmetry_m(aircraft, a) - asymmetry_m(aircraft, b);
    return a->bound < 0 && fabs(more_m) > 1e-6 ? more_m > 0.0 : a->cas_m_s > b->cas_m_s;
}

static void keep_worse(const ls_aircraft *aircraft, const ls_rules_speed *candidate, ls_rules_speed *worst)
{
    if (worst->failed == 0 || is_worse(aircraft, candidate, worst)) {
        *worst = *candidate;
    }
}

ls_status rule_solve_takeoff(const ls_aircraft *aircraft, const ls_rule_basis *basis, ls_rules_result *result,
                             ls_error *error)
{
    result->engines = aircraft->engines;
    for (int i = 0; i < aircraft->engines; i++) {
        ls_condition condition;
        start_condition(aircraft, basis, &condition);
        ls_condition_fail(aircraft, 1u << i, &condition);
        solve(aircraft, &condition, basis->heaviest_first, &result->takeoff[i]);
        if (result->takeoff[i].status != LS_OK) {
            return ls_fail(error, result->takeoff[i].status, "%s", result->takeoff[i].reason);
        }
        keep_worse(aircraft, &result->takeoff[i], &result->speed[LS_CASE_TAKEOFF]);
    }
    return LS_OK;
}

/* Whether the landing or approach may be flown with a flap setting. */
static int is_approach_flap(const ls_aircraft *aircraft, const ls_rule_basis *basis, int flap)
{
    int landing = rule_landing_flap(aircraft);
    return flap == landing || (basis->approach_flaps && aircraft->flap[flap].deflection_rad > 0.0);
}

static void solve_approach(const ls_aircraft *aircraft, const ls_rule_basis *basis, ls_condition *condition,
                           ls_rules_speed *worst)
{
    condition->gear = 1.0;
    for (int flap = 0; flap < aircraft->flaps; flap++) {
        ls_rules_speed candidate;
        if (is_approach_flap(aircraft, basis, flap)) {
            condition->flap = flap;
            solve(aircraft, condition, 0, &candidate);
            keep_worse(aircraft, &candidate, worst);
        }
    }
}

void rule_solve_landing(const ls_aircraft *aircraft, const ls_rule_basis *basis, ls_rules_speed *speed)
{
    for (int i = 0; i < aircraft->engines; i++) {
        ls_condition condition;
        start_condition(aircraft, basis, &condition);
        ls_condition_fail(aircraft, 1u << i, &condition);
        solve_approach(aircraft, basis, &condition, speed);
    }
}

/* What the propeller of the engine that failed before the approach has been brought to. */
static ls_engine_state secured(const ls_powerplant_data *powerplant)
{
    return powerplant->engine.type == LS_ENGINE_JET || powerplant->propeller.feathering == LS_FEATHERS_NEVER
               ? ls_engine_state_after_failure(powerplant)
               : LS_FEATHERED;
}

static int on_opposite_sides(const ls_aircraft *aircraft, int a, int b)
{
    return aircraft->engine[a].hub_right_m * aircraft->engine[b].hub_right_m < 0.0;
}

void rule_solve_two_out(const ls_aircraft *aircraft, const ls_rule_basis *basis, ls_rules_speed *speed)
{
    for (int first = 0; first < aircraft->engines; first++) {
        for (int second = 0; second < aircraft->engines; second++) {
            if (first == second || on_opposite_sides(aircraft, first, second)) {
                continue;
            }
            ls_condition condition;
            start_condition(aircraft, basis, &condition);
            ls_condition_fail(aircraft, 1u << first | 1u << second, &condition);
            condition.state[first] = secured(&aircraft->powerplant[aircraft->engine[first].powerplant]);
            solve_approach(aircraft, basis, &condition, speed);
        }
    }
}

static int is_above_range(const ls_aircraft *aircraft, const ls_rules_speed *speed, double power)
{
    ls_model model;
    ls_vmc vmc;
    ls_condition condition = speed->condition;
    condition.power = power;
    return ls_model_make(aircraft, &condition, &model, NULL) != LS_OK ||
           ls_vmc_at(&model, condition.bank_rad, &vmc, NULL) != LS_OK || vmc.kind == LS_VMC_ABOVE_RANGE;
}

double rule_power_held(const ls_aircraft *aircraft, const ls_rules_speed *speed)
{
    double low = 0.0, high = 1.0;
    if (is_above_range(aircraft, speed, low)) {
        return NAN;
    }
    for (int i = 0; i < 40; i++) {
        double middle = 0.5 * (low + high);
        if (is_above_range(aircraft, speed, middle)) {
            high = middle;
        } else {
            low = middle;
        }
    }
    return low;
}
