/* Climb gradients flown with each engine failed in turn, and judged. */
#include "rules/rules_speed.h"

#include "liveside/airspeed.h"
#include "liveside/climb.h"

#include <math.h>
#include <string.h>

/* Calibrated climb speeds that a paragraph allows; NaN: no bound. */
typedef struct {
    double least_m_s, most_m_s;
} speed_range;

/* The take-off speed that the basis calls so: the highest of the rows that may apply; NaN where it is not known.
 */
static double takeoff_cas_m_s(const ls_aircraft *aircraft, const ls_rules_result *result, const char *name)
{
    const ls_rules_speed *vmc = &result->speed[LS_CASE_TAKEOFF];
    double cas_m_s = NAN;
    for (int i = 0; vmc->bound <= 0 && i < result->basis->count; i++) {
        const ls_rule_condition *row = &result->basis->condition[i];
        if (row->kind == LS_RULE_TAKEOFF_SPEED && strncmp(row->speed, name, strlen(name)) == 0 &&
            ls_rules_apply(aircraft, &row->scope) != LS_APPLIES_NO) {
            cas_m_s =
                fmax(cas_m_s, fmax(row->vmc_multiple * vmc->cas_m_s, row->stall_multiple * result->stall_cas_m_s));
        }
    }
    return cas_m_s;
}

static double tas_of(const ls_model *model, double cas_m_s)
{
    ls_airspeed speed;
    return ls_airspeed_from_cas(&model->air, cas_m_s, &speed, NULL) == LS_OK ? speed.TAS_m_s : NAN;
}

static ls_engine_state failed_state(const ls_powerplant_data *powerplant, ls_rule_climb_propeller asked)
{
    int can_feather =
        powerplant->engine.type != LS_ENGINE_JET && powerplant->propeller.feathering != LS_FEATHERS_NEVER;
    return asked == LS_CLIMB_LEAST_DRAG && can_feather ? LS_FEATHERED : ls_engine_state_after_failure(powerplant);
}

/* The climb at the fastest speed allowed: at the bank of the steepest climb, or, where that cannot be held there,
 * with all the bank that is allowed toward the live engines. */
static ls_status fly_at(const ls_model *model, ls_climb_rule rule, double V_m_s, ls_climb_best *best,
                        ls_error *error)
{
    const ls_condition *condition = &model->condition;
    ls_status status = ls_climb_at(model, rule, V_m_s, &best->point, error);
    if (status == LS_OK && !best->point.is_held) {
        rule.bank = LS_CLIMB_BANK_GIVEN;
        rule.bank_rad = ls_live_side(model->aircraft, condition) * condition->bank_limit_rad;
        status = ls_climb_at(model, rule, V_m_s, &best->point, error);
    }
    best->end = best->point.is_held ? LS_CLIMB_FASTEST : LS_CLIMB_NOT_HELD;
    return status;
}

/* The steepest climb with one engine failed, within the speeds allowed. */
static ls_status fly(const ls_aircraft *aircraft, const ls_condition *condition, speed_range range,
                     ls_climb_best *best, ls_error *error)
{
    ls_model model;
    ls_climb_rule rule = {LS_CLIMB_BANK_BEST, 0.0, 1.0};
    ls_status status = ls_model_make(aircraft, condition, &model, error);
    if (status != LS_OK) {
        return status;
    }
    rule.least_stalls = isnan(range.least_m_s) ? 1.0 : tas_of(&model, range.least_m_s) / model.stall_V_m_s;
    status = ls_climb_best_speed(&model, rule, LS_CLIMB_GRADIENT, 0.0, best, error);
    double most_m_s = isnan(range.most_m_s) ? INFINITY : tas_of(&model, range.most_m_s);
    if (status == LS_OK && best->point.V_m_s > most_m_s) {
        status = fly_at(&model, rule, most_m_s, best, error);
    }
    return status;
}

/* The failure with the least gradient. Returned: figure, failed and the point; a failure without a speed that can
 * be held counts as the least of all, with the figure NaN. */
static ls_status fly_each(const ls_aircraft *aircraft, const ls_rules_climb *climb, speed_range range,
                          ls_rules_line *line, ls_climb_best *least, ls_error *error)
{
    for (int i = 0; i < aircraft->engines; i++) {
        ls_climb_best best;
        ls_condition condition = climb->flown;
        condition.state[i] =
            failed_state(&aircraft->powerplant[aircraft->engine[i].powerplant], line->condition->climb->propeller);
        ls_status status = fly(aircraft, &condition, range, &best, error);
        if (status != LS_OK) {
            return status;
        }
        if (i == 0 || best.end == LS_CLIMB_NOT_HELD || best.point.gradient < least->point.gradient) {
            *least = best;
            line->failed = 1u << i;
        }
        if (best.end == LS_CLIMB_NOT_HELD) {
            break;
        }
    }
    line->figure = least->end == LS_CLIMB_NOT_HELD ? NAN : least->point.gradient;
    return LS_OK;
}

/* A figure that misses the limit at a weight or speed better than asked can still be judged; one that reaches it
 * there cannot, and the reverse. */
static void give_verdict(const ls_rule_climb *climb, ls_rules_line *line)
{
    int is_reached = line->required == 0.0 ? line->figure > 0.0 : rule_is_at_most(line->required, line->figure);
    line->verdict = is_reached ? LS_VERDICT_MET : LS_VERDICT_NOT_MET;
    if (climb->speed.kind == LS_CLIMB_SPEED_OTHER && is_reached) {
        line->verdict = LS_VERDICT_NOT_ASSESSED;
        rule_note(line, "; at the best speed: %s is not known", climb->speed.name);
    }
    if (climb->flap == LS_CLIMB_FLAP_APPROACH && !is_reached) {
        line->verdict = LS_VERDICT_NOT_ASSESSED;
        rule_note(line, "; at maximum weight: the landing weight is not known");
    }
}

void rule_climb_judge(const ls_aircraft *aircraft, const ls_rules_result *result, ls_rules_line *line)
{
    const ls_rule_climb *climb = line->condition->climb;
    ls_rules_climb asked;
    ls_climb_best least = {0};
    ls_error error = {0};
    rule_climb_set(aircraft, line->condition, line->applies, &asked);
    line->required = asked.gradient;
    speed_range range = {asked.least_cas_m_s, asked.most_cas_m_s};
    if (climb->speed.kind == LS_CLIMB_SPEED_TAKEOFF) {
        range.least_m_s = takeoff_cas_m_s(aircraft, result, climb->speed.name);
        if (isnan(range.least_m_s)) {
            rule_note(line, "%s is not known", climb->speed.name);
            return;
        }
    }
    if (fly_each(aircraft, &asked, range, line, &least, &error) != LS_OK) {
        rule_note(line, "%.*s", LS_RULES_NOTE - 1, error.text);
        return;
    }
    line->climb_cas_m_s = least.point.cas_m_s;
    if (least.end == LS_CLIMB_NOT_HELD) {
        line->verdict = LS_VERDICT_NOT_MET;
        rule_note(line, "no allowed speed can be held: %s", ls_limit_name(least.point.limit));
    } else if (isnan(line->required)) {
        line->verdict = LS_VERDICT_VALUE;
        rule_note(line, "to be determined, without a least value");
    } else {
        give_verdict(climb, line);
    }
}
