/* Which rules there are, and whom they are for. */
#include "liveside/rules.h"

#include "rules/rules_data.h"
#include "rules/rules_speed.h"

#include <string.h>

const ls_rule_basis *ls_rules_bases(int *count)
{
    *count = rule_bases_count;
    return rule_bases;
}

const ls_rule_basis *ls_rules_find(const char *name)
{
    for (int i = 0; i < rule_bases_count; i++) {
        if (strcmp(rule_bases[i].name, name) == 0) {
            return &rule_bases[i];
        }
    }
    return NULL;
}

const char *ls_rule_verdict_text(ls_rule_verdict verdict)
{
    static const char *const texts[LS_VERDICTS] = {"met", "not met", "not assessed", "not asked", "set", "value"};
    return (unsigned)verdict < LS_VERDICTS ? texts[verdict] : "unknown";
}

ls_dimension ls_rule_dimension(ls_rule_kind kind)
{
    switch (kind) {
    case LS_RULE_BANK:
    case LS_RULE_HEADING:
        return LS_DIM_ANGLE;
    case LS_RULE_PEDAL:
        return LS_DIM_FORCE;
    case LS_RULE_SET_LOADING:
        return LS_DIM_MASS;
    case LS_RULE_SPEED_FOUND:
    case LS_RULE_TAKEOFF_SPEED:
    case LS_RULE_VSSE:
        return LS_DIM_SPEED;
    case LS_RULE_GROUND:
        return LS_DIM_LENGTH;
    case LS_RULE_ROLL:
        return LS_DIM_TIME;
    case LS_RULE_SET_POWER:
    case LS_RULE_NO_POWER_CUT:
    case LS_RULE_CLIMB:
        return LS_DIM_FRACTION;
    default:
        return LS_DIM_NUMBER;
    }
}

/* The engine types of an aircraft, a bit each. */
static unsigned types_of(const ls_aircraft *aircraft)
{
    unsigned types = 0;
    for (int i = 0; i < aircraft->engines; i++) {
        types |= 1u << aircraft->powerplant[aircraft->engine[i].powerplant].engine.type;
    }
    return types;
}

/* The rules know piston, turboprop and jet engines, and one type on an aeroplane. */
static ls_rule_applies apply_types(unsigned types, unsigned allowed)
{
    int is_single = (types & (types - 1)) == 0;
    if (allowed == 0 || (is_single && types & allowed)) {
        return LS_APPLIES_YES;
    }
    return !is_single || types & 1u << LS_ENGINE_ELECTRIC ? LS_APPLIES_UNKNOWN : LS_APPLIES_NO;
}

static int is_in_range(double value, double above, double to)
{
    const double round_off = 1.0 + 1e-9;
    return (above == 0.0 || value > above * round_off) && (to == 0.0 || value <= to * round_off);
}

static ls_rule_applies apply_stall(const ls_aircraft *aircraft, const ls_rule_scope *scope)
{
    double stall_m_s;
    if (scope->landing_stall_above_m_s == 0.0 && scope->landing_stall_to_m_s == 0.0) {
        return LS_APPLIES_YES;
    }
    if (rule_stall(aircraft, rule_landing_flap(aircraft), 1.0, &stall_m_s, NULL) != LS_OK) {
        return LS_APPLIES_UNKNOWN;
    }
    return is_in_range(stall_m_s, scope->landing_stall_above_m_s, scope->landing_stall_to_m_s) ? LS_APPLIES_YES
                                                                                               : LS_APPLIES_NO;
}

ls_rule_applies ls_rules_apply(const ls_aircraft *aircraft, const ls_rule_scope *scope)
{
    unsigned types = types_of(aircraft);
    double mass_kg = aircraft->mass.maximum_kg;
    if (aircraft->engines < scope->engines_least ||
        (scope->engines_most != 0 && aircraft->engines > scope->engines_most) ||
        !is_in_range(mass_kg, scope->mass_above_kg, scope->mass_to_kg) ||
        (types == 1u << LS_ENGINE_PISTON && !is_in_range(mass_kg, scope->piston_above_kg, 0.0))) {
        return LS_APPLIES_NO;
    }
    ls_rule_applies by_type = apply_types(types, scope->types), by_stall = apply_stall(aircraft, scope);
    if (by_type == LS_APPLIES_NO || by_stall == LS_APPLIES_NO) {
        return LS_APPLIES_NO;
    }
    return by_type == LS_APPLIES_UNKNOWN || by_stall == LS_APPLIES_UNKNOWN || scope->unknown != NULL
               ? LS_APPLIES_UNKNOWN
               : LS_APPLIES_YES;
}
