/* Conditions judged one by one against the speeds that were found. */
#include "rules/rules_speed.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#define AT_LIMIT 1e-9 /* of the limit: a speed or force on it is within it */

void rule_note(ls_rules_line *line, const char *format, ...)
{
    va_list arguments;
    size_t used = strlen(line->note);
    va_start(arguments, format);
    vsnprintf(line->note + used, sizeof line->note - used, format, arguments);
    va_end(arguments);
}

static ls_rule_verdict verdict_of(int is_met)
{
    return is_met ? LS_VERDICT_MET : LS_VERDICT_NOT_MET;
}

int rule_is_at_most(double figure, double limit)
{
    return figure <= limit * (1.0 + AT_LIMIT);
}

/* Whether straight flight asks more of a control or of the fin than there is, even at the top of the range. */
static int lacks_control(const ls_rules_speed *speed)
{
    const double *left = speed->vmc.margins.left;
    return left[LS_LIMIT_RUDDER] <= 0.0 || left[LS_LIMIT_AILERON] <= 0.0 || left[LS_LIMIT_FIN_STALL] <= 0.0;
}

static void note_bound(const ls_rules_speed *speed, ls_rules_line *line)
{
    if (speed->bound > 0) {
        rule_note(line, "%s exceeded up to 3 times the stall speed", ls_limit_name(speed->vmc.limit));
    } else if (speed->vmc.kind == LS_VMC_STALLS_FIRST) {
        rule_note(line, "the wing stalls first: the speed lies below its stall");
    } else if (speed->bound < 0) {
        rule_note(line, "no limit is met down to 0.6 times the stall speed");
    } else {
        rule_note(line, "set by %s", ls_limit_name(speed->vmc.limit));
    }
}

static void judge_multiple(const ls_rules_result *result, const ls_rules_speed *speed, ls_rules_line *line)
{
    line->figure = speed->cas_m_s / result->stall_cas_m_s;
    line->bound = speed->bound;
    if (speed->bound < 0 && !rule_is_at_most(line->figure, line->required)) {
        line->verdict = LS_VERDICT_NOT_ASSESSED;
    } else {
        line->verdict = verdict_of(speed->bound <= 0 && rule_is_at_most(line->figure, line->required));
    }
    note_bound(speed, line);
}

static void judge_bank(const ls_rules_speed *speed, ls_rules_line *line)
{
    line->figure = fabs(speed->bank_rad);
    if (speed->bound <= 0) {
        line->verdict = verdict_of(rule_is_at_most(line->figure, line->required));
    } else if (lacks_control(speed)) {
        line->verdict = LS_VERDICT_NOT_MET;
        line->bound = +1;
        note_bound(speed, line);
    } else {
        rule_note(line, "no speed is found within the pedal force");
    }
}

static void judge_pedal(const ls_aircraft *aircraft, const ls_rules_speed *speed, ls_rules_line *line)
{
    if (!ls_aircraft_has_pedal(aircraft)) {
        rule_note(line, "no pedal data in the file");
        return;
    }
    line->figure = fabs(speed->vmc.trim.pedal_force_N);
    if (speed->vmc.kind == LS_VMC_NO_LIMIT) {
        line->figure = NAN;
        line->verdict = LS_VERDICT_MET; /* it is one of the limits that were not met */
        note_bound(speed, line);
    } else if (speed->bound <= 0) {
        line->verdict = verdict_of(rule_is_at_most(line->figure, line->required));
        note_bound(speed, line);
    } else if (!rule_is_at_most(line->figure, line->required)) {
        line->verdict = LS_VERDICT_NOT_MET;
        rule_note(line, "more than this even at 3 times the stall speed");
    } else {
        note_bound(speed, line);
    }
}

static void judge_power(const ls_aircraft *aircraft, const ls_rules_speed *speed, ls_rules_line *line)
{
    line->figure = speed->condition.power;
    line->verdict = LS_VERDICT_MET;
    if (speed->bound > 0) {
        line->figure = rule_power_held(aircraft, speed);
        line->verdict = LS_VERDICT_NOT_MET;
        rule_note(line, isnan(line->figure) ? "at this bank not even without power"
                                            : "what straight flight would leave at 3 times the stall speed");
    }
}

static void give_speed(const ls_rules_speed *speed, ls_rules_line *line)
{
    line->figure = speed->cas_m_s;
    line->bound = speed->bound;
    line->verdict = speed->bound <= 0 ? LS_VERDICT_VALUE : LS_VERDICT_NOT_ASSESSED;
    note_bound(speed, line);
}

static void give_takeoff_speed(const ls_rules_result *result, const ls_rules_speed *speed, ls_rules_line *line)
{
    const ls_rule_condition *condition = line->condition;
    double from_vmc = condition->vmc_multiple * speed->cas_m_s;
    double from_stall = condition->stall_multiple * result->stall_cas_m_s;
    if (speed->bound > 0) {
        note_bound(speed, line);
        return;
    }
    line->verdict = LS_VERDICT_VALUE;
    line->figure = fmax(from_vmc, from_stall);
    if (from_vmc > from_stall) {
        line->bound = speed->bound;
        rule_note(line, "%.2f VMC", condition->vmc_multiple);
    } else {
        rule_note(line, "%.2f %s", condition->stall_multiple, result->basis->stall_name);
    }
}

static void describe_setting(const ls_aircraft *aircraft, const ls_rules_speed *speed, ls_rules_line *line)
{
    const ls_condition *condition = &speed->condition;
    line->verdict = LS_VERDICT_SET;
    switch (line->condition->kind) {
    case LS_RULE_SET_POWER:
        line->figure = condition->power;
        break;
    case LS_RULE_SET_FLAP:
        rule_note(line, "%s", aircraft->flap[condition->flap].name);
        break;
    case LS_RULE_SET_GEAR:
        rule_note(line, "%s", condition->gear == 0.0 ? "up" : "down");
        break;
    case LS_RULE_SET_LOADING:
        line->figure = condition->mass_kg;
        break;
    case LS_RULE_SET_PROPELLER:
        for (int i = 0; i < aircraft->engines; i++) {
            if (speed->failed >> i & 1u) {
                rule_note(line, "%s%s", line->note[0] ? ", " : "", ls_engine_state_name(condition->state[i]));
            }
        }
        break;
    default:
        break;
    }
}

/* Conditions that rest on a speed of the model. */
static void judge_by_speed(const ls_aircraft *aircraft, const ls_rules_result *result, ls_rules_line *line)
{
    const ls_rules_speed *speed = &result->speed[line->condition->of];
    line->failed = speed->failed;
    if (speed->failed == 0 || speed->status != LS_OK) {
        rule_note(line, "%s", speed->failed == 0 ? "the aeroplane has no such case" : speed->reason);
        return;
    }
    switch (line->condition->kind) {
    case LS_RULE_STALL_MULTIPLE:
        judge_multiple(result, speed, line);
        break;
    case LS_RULE_BANK:
        judge_bank(speed, line);
        break;
    case LS_RULE_PEDAL:
        judge_pedal(aircraft, speed, line);
        break;
    case LS_RULE_NO_POWER_CUT:
        judge_power(aircraft, speed, line);
        break;
    case LS_RULE_SPEED_FOUND:
        give_speed(speed, line);
        break;
    case LS_RULE_TAKEOFF_SPEED:
        give_takeoff_speed(result, speed, line);
        break;
    default:
        describe_setting(aircraft, speed, line);
    }
}

static void judge(const ls_aircraft *aircraft, const ls_rules_result *result, const ls_rule_condition *condition,
                  ls_rules_line *line)
{
    memset(line, 0, sizeof *line);
    line->condition = condition;
    line->applies = ls_rules_apply(aircraft, &condition->scope);
    line->verdict = LS_VERDICT_NOT_ASSESSED;
    line->figure = NAN;
    line->climb_cas_m_s = NAN;
    line->required = condition->limit > 0.0 ? condition->limit : NAN;
    if (line->applies == LS_APPLIES_NO) {
        line->verdict = LS_VERDICT_NOT_APPLICABLE;
    } else if (condition->kind == LS_RULE_CLIMB) {
        rule_climb_judge(aircraft, result, line);
    } else if (condition->kind < LS_RULE_VSSE) {
        judge_by_speed(aircraft, result, line);
    }
}

static void count(ls_rules_result *result)
{
    for (int i = 0; i < result->lines; i++) {
        const ls_rules_line *line = &result->line[i];
        if (line->applies == LS_APPLIES_YES) {
            result->met += line->verdict == LS_VERDICT_MET;
            result->not_met += line->verdict == LS_VERDICT_NOT_MET;
            result->not_assessed += line->verdict == LS_VERDICT_NOT_ASSESSED;
        }
    }
}

/* Whether a basis speaks of a case that this aeroplane has. */
static int asks(const ls_aircraft *aircraft, const ls_rule_basis *basis, ls_rule_case of)
{
    for (int i = 0; i < basis->count; i++) {
        if (basis->condition[i].of == of &&
            ls_rules_apply(aircraft, &basis->condition[i].scope) != LS_APPLIES_NO) {
            return 1;
        }
    }
    return 0;
}

ls_status ls_rules_assess(const ls_aircraft *aircraft, const ls_rule_basis *basis, ls_rules_result *result,
                          ls_error *error)
{
    memset(result, 0, sizeof *result);
    result->basis = basis;
    result->applies = ls_rules_apply(aircraft, &basis->scope);
    if (aircraft->engines < 2) {
        return ls_fail(error, LS_NO_STATE,
                       "a minimum control speed needs two engines or more; this aeroplane has %d",
                       aircraft->engines);
    }
    ls_status status = rule_stall(aircraft, aircraft->takeoff.flap, 0.0, &result->stall_cas_m_s, error);
    status = status == LS_OK ? rule_solve_takeoff(aircraft, basis, result, error) : status;
    if (status != LS_OK) {
        return status;
    }
    if (asks(aircraft, basis, LS_CASE_LANDING)) {
        rule_solve_landing(aircraft, basis, &result->speed[LS_CASE_LANDING]);
    }
    if (asks(aircraft, basis, LS_CASE_TWO_OUT)) {
        rule_solve_two_out(aircraft, basis, &result->speed[LS_CASE_TWO_OUT]);
    }
    for (int i = 0; i < basis->count && i < LS_RULES_LINES; i++) {
        judge(aircraft, result, &basis->condition[i], &result->line[result->lines++]);
    }
    count(result);
    return LS_OK;
}
