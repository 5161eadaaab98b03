/* The climb gradients that a basis asks of an aircraft. */
#include "rules/rules_data.h"
#include "rules/rules_speed.h"

#include <math.h>
#include <stddef.h>

/* The least extended setting whose stall speed is at most 1.10 times that of the landing setting (25.121(d)). */
static int approach_flap(const ls_aircraft *aircraft)
{
    int landing = rule_landing_flap(aircraft), found = landing;
    double landing_lift = aircraft->flap[landing].lift_max + aircraft->gear.lift_max_change;
    for (int i = 0; i < aircraft->flaps; i++) {
        /* same mass and air: stall speeds go with 1/sqrt(lift_max) */
        if (aircraft->flap[i].deflection_rad > 0.0 && landing_lift <= 1.10 * 1.10 * aircraft->flap[i].lift_max &&
            aircraft->flap[i].deflection_rad < aircraft->flap[found].deflection_rad) {
            found = i;
        }
    }
    return found;
}

/* The clean setting: the least deflection. */
static int clean_flap(const ls_aircraft *aircraft)
{
    int least = 0;
    for (int i = 1; i < aircraft->flaps; i++) {
        least = aircraft->flap[i].deflection_rad < aircraft->flap[least].deflection_rad ? i : least;
    }
    return least;
}

static int flap_of(const ls_aircraft *aircraft, ls_rule_climb_flap flap)
{
    switch (flap) {
    case LS_CLIMB_FLAP_TAKEOFF:
        return aircraft->takeoff.flap;
    case LS_CLIMB_FLAP_APPROACH:
        return approach_flap(aircraft);
    default:
        return clean_flap(aircraft);
    }
}

void rule_climb_set(const ls_aircraft *aircraft, const ls_rule_condition *condition, ls_rule_applies applies,
                    ls_rules_climb *out)
{
    const ls_rule_climb *climb = condition->climb;
    double stall_m_s;
    out->condition = condition;
    out->applies = applies;
    out->gradient =
        aircraft->engines >= 2 && aircraft->engines <= 4 ? climb->gradient[aircraft->engines - 2] : NAN;
    ls_condition_takeoff(aircraft, &out->flown);
    out->flown.altitude_m = climb->height_m;
    out->flown.flap = flap_of(aircraft, climb->flap);
    out->flown.gear = climb->gear;
    out->flown.is_continuous = climb->power == LS_CLIMB_POWER_CONTINUOUS;
    out->flown.bank_limit_rad = isnan(climb->bank_rad) ? out->flown.bank_limit_rad : climb->bank_rad;
    out->least_cas_m_s = NAN;
    out->most_cas_m_s = NAN;
    if (!isnan(climb->speed.stall_multiple) &&
        rule_stall(aircraft, out->flown.flap, climb->gear, &stall_m_s, NULL) == LS_OK) {
        double *cas_m_s = climb->speed.kind == LS_CLIMB_SPEED_AT_MOST ? &out->most_cas_m_s : &out->least_cas_m_s;
        *cas_m_s = climb->speed.stall_multiple * stall_m_s;
    }
}

int ls_rules_climb_required(const ls_aircraft *aircraft, const ls_rule_basis *basis, ls_rules_climb *climb,
                            int capacity)
{
    int count = 0;
    for (int i = 0; i < basis->count; i++) {
        const ls_rule_condition *condition = &basis->condition[i];
        if (condition->kind != LS_RULE_CLIMB) {
            continue;
        }
        ls_rule_applies applies = ls_rules_apply(aircraft, &condition->scope);
        if (applies != LS_APPLIES_NO) {
            if (count < capacity) {
                rule_climb_set(aircraft, condition, applies, &climb[count]);
            }
            count++;
        }
    }
    return count;
}
