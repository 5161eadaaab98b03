/* Climb against speed and bank, and what each thing costs. */
#include "liveside/airspeed.h"
#include "study/performance_parts.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)

/* ---- against speed ---- */

static void solve_line(const ls_aircraft *aircraft, const ls_condition *condition, ls_climb_rule rule,
                       const ls_climb_lines *lines, ls_climb_line *line)
{
    ls_model model;
    ls_status status = ls_model_make(aircraft, condition, &model, NULL);
    line->flap = condition->flap;
    line->gear = condition->gear;
    for (int i = 0; i < LS_CLIMB_SPEEDS; i++) {
        ls_airspeed speed = {0};
        line->status[i] = status;
        if (status == LS_OK) {
            line->status[i] = ls_airspeed_from_cas(&model.air, lines->cas_m_s[i], &speed, NULL);
        }
        if (line->status[i] == LS_OK) {
            line->status[i] = ls_climb_at(&model, rule, speed.TAS_m_s, &line->point[i], NULL);
        }
    }
}

static void add_line(ls_climb_lines *lines, const ls_aircraft *aircraft, const ls_performance_case *of,
                     const ls_condition *condition, int is_worst)
{
    if (lines->lines == LS_CLIMB_LINES || of->status != LS_OK) {
        return;
    }
    ls_climb_line *line = &lines->line[lines->lines++];
    line->failed = of->failed;
    line->state = of->state;
    line->is_worst = is_worst;
    solve_line(aircraft, condition, of->rule, lines, line);
}

void ls_climb_lines_solve(const ls_performance_request *request, const ls_performance *performance,
                          double first_m_s, double step_m_s, ls_climb_lines *lines)
{
    const ls_aircraft *aircraft = request->aircraft;
    const ls_performance_case *worst = ls_performance_worst(performance);
    memset(lines, 0, sizeof *lines);
    for (int i = 0; i < LS_CLIMB_SPEEDS; i++) {
        lines->cas_m_s[i] = first_m_s + i * step_m_s;
    }
    add_line(lines, aircraft, &performance->all, &performance->all.condition, 0);
    for (int i = 0; i < performance->sets; i++) {
        for (int k = 0; k < LS_CASE_STATES; k++) {
            const ls_performance_case *of = &performance->set[i].by_state[k];
            add_line(lines, aircraft, of, &of->condition, i == performance->worst);
        }
    }
    if (worst == NULL) {
        return;
    }
    ls_condition other = worst->condition;
    other.gear = worst->condition.gear > 0.0 ? 0.0 : 1.0;
    add_line(lines, aircraft, worst, &other, 1);
    other = worst->condition;
    for (other.flap = 0; other.flap < aircraft->flaps; other.flap++) {
        if (other.flap != worst->condition.flap) {
            add_line(lines, aircraft, worst, &other, 1);
        }
    }
}

/* ---- against bank ---- */

static void solve_bank(const ls_model *model, ls_climb_rule rule, int live_side, double V_m_s,
                       ls_climb_at_bank *at)
{
    at->status = ls_climb_at(model, rule, V_m_s, &at->point, NULL);
    if (at->status == LS_OK) {
        at->status = ls_climb_account(model, &at->point, &at->account, NULL);
        at->bank_rad = ls_case_body_bank(at->point.bank_rad, live_side);
    }
}

static void solve_given_bank(const ls_model *model, double bank_rad, int live_side, double V_m_s,
                             ls_climb_at_bank *at)
{
    ls_climb_rule rule = {LS_CLIMB_BANK_GIVEN, ls_case_body_bank(bank_rad, live_side), 0.0};
    solve_bank(model, rule, live_side, V_m_s, at);
    at->bank_rad = bank_rad;
}

void ls_climb_by_bank_solve(const ls_performance_case *of, const ls_aircraft *aircraft, double V_m_s,
                            ls_climb_by_bank *banks)
{
    ls_model model;
    memset(banks, 0, sizeof *banks);
    banks->V_m_s = V_m_s;
    ls_status status = ls_model_make(aircraft, &of->condition, &model, NULL);
    if (status != LS_OK) { /* its case has an answer, so this cannot be */
        banks->level.status = banks->no_sideslip.status = banks->best.status = banks->limit.status = status;
        for (int i = 0; i < LS_CLIMB_BANK_POINTS; i++) {
            banks->by_bank[i].status = status;
        }
        return;
    }
    int side = of->live_side;
    ls_climb_rule zero = {LS_CLIMB_BANK_NO_SIDESLIP, 0.0, 0.0}, best = {LS_CLIMB_BANK_BEST, 0.0, 0.0};
    solve_given_bank(&model, 0.0, side, V_m_s, &banks->level);
    solve_given_bank(&model, of->condition.bank_limit_rad, side, V_m_s, &banks->limit);
    solve_bank(&model, zero, side, V_m_s, &banks->no_sideslip);
    solve_bank(&model, best, side, V_m_s, &banks->best);
    for (int i = 0; i < LS_CLIMB_BANK_POINTS; i++) {
        solve_given_bank(&model, (-5.0 + 15.0 * i / (LS_CLIMB_BANK_POINTS - 1)) * DEG, side, V_m_s,
                         &banks->by_bank[i]);
    }
}

/* ---- what each thing costs ---- */

typedef struct {
    const ls_performance_request *request;
    const ls_performance_case *of;
    double V_m_s;
    ls_costs *out;
} costing;

/* One way to fly. */
typedef struct {
    ls_condition condition;
    ls_climb_rule rule;
} way;

static way way_of(const costing *c)
{
    return (way){c->of->condition, c->of->rule};
}

static ls_status fly(const costing *c, const way *how, ls_climb_point *point, ls_error *error)
{
    ls_model model;
    ls_status status = ls_model_make(c->request->aircraft, &how->condition, &model, error);
    return status == LS_OK ? ls_climb_at(&model, how->rule, c->V_m_s, point, error) : status;
}

/* Climb without something less climb with it. */
static void add_cost(costing *c, const way *without, const way *with, const char *format, ...) LS_PRINTF(4, 5);

static void add_cost(costing *c, const way *without, const way *with, const char *format, ...)
{
    ls_climb_point better, worse;
    ls_error error = {0};
    if (c->out->count == LS_COSTS) {
        return;
    }
    ls_cost *cost = &c->out->cost[c->out->count++];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(cost->name, sizeof cost->name, format, arguments);
    va_end(arguments);
    cost->rate_m_s = cost->force_N = NAN;
    cost->status = fly(c, without, &better, &error);
    cost->status = cost->status == LS_OK ? fly(c, with, &worse, &error) : cost->status;
    if (cost->status != LS_OK) {
        ls_case_reason(cost->reason, &error);
        return;
    }
    cost->rate_m_s = better.rate_m_s - worse.rate_m_s;
    cost->force_N = cost->rate_m_s / c->V_m_s * without->condition.mass_kg * LS_G0_M_S2;
    cost->is_held = better.is_held && worse.is_held;
}

static void propeller_costs(costing *c)
{
    static const ls_engine_state states[] = {LS_WINDMILLING, LS_LEVER_AFT, LS_STOPPED, LS_FEATHERED};
    for (size_t i = 0; i < sizeof states / sizeof states[0]; i++) {
        way without = way_of(c), with;
        ls_condition_fail_as(c->request->aircraft, c->of->failed, states[i], &without.condition);
        with = without;
        without.condition.effects_off |= LS_EFFECT_DEAD_DRAG;
        add_cost(c, &without, &with, "propeller %s", ls_engine_state_name(states[i]));
    }
}

static void configuration_costs(costing *c)
{
    const ls_aircraft *aircraft = c->request->aircraft;
    way without = way_of(c), with = without;
    without.condition.gear = 0.0;
    with.condition.gear = 1.0;
    add_cost(c, &without, &with, "gear down");
    without = with = way_of(c);
    without.condition.flap = ls_flap_clean(aircraft);
    for (int i = 0; i < aircraft->flaps; i++) {
        if (i != without.condition.flap) {
            with.condition.flap = i;
            add_cost(c, &without, &with, "flap %s", aircraft->flap[i].name);
        }
    }
    if (aircraft->drag.cowl_flaps > 0.0) {
        without = with = way_of(c);
        without.condition.cowl_flaps = 0.0;
        with.condition.cowl_flaps = 1.0;
        add_cost(c, &without, &with, "cowl flaps open");
    }
}

static void bank_costs(costing *c)
{
    way without = way_of(c), with = without;
    double limit_rad = c->of->condition.bank_limit_rad;
    without.rule = (ls_climb_rule){LS_CLIMB_BANK_BEST, 0.0, 0.0};
    with.rule = (ls_climb_rule){LS_CLIMB_BANK_GIVEN, 0.0, 0.0};
    add_cost(c, &without, &with, "wings level");
    with.rule.bank_rad = ls_case_body_bank(limit_rad, c->of->live_side);
    add_cost(c, &without, &with, "%.3g deg of bank", limit_rad / DEG);
}

static void installation_costs(costing *c)
{
    way with = way_of(c), without = with;
    without.condition.effects_off |= LS_EFFECT_INSTALLATION;
    add_cost(c, &without, &with, "installation, live engine%s",
             c->request->aircraft->engines - ls_set_size(c->of->failed) > 1 ? "s" : "");
    without = with;
    without.condition.effects_off |= LS_EFFECT_COOLING;
    add_cost(c, &without, &with, "cooling, dead engine%s", ls_set_size(c->of->failed) > 1 ? "s" : "");
}

void ls_costs_solve(const ls_performance_request *request, const ls_performance_case *of, double V_m_s,
                    ls_costs *costs)
{
    costing c = {request, of, V_m_s, costs};
    memset(costs, 0, sizeof *costs);
    costs->V_m_s = V_m_s;
    propeller_costs(&c);
    configuration_costs(&c);
    bank_costs(&c);
    installation_costs(&c);
}
