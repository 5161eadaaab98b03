/* What each effect is worth in minimum control speed: switch it off, solve again. */
#include "study/breakdown_parts.h"

#include <math.h>
#include <stddef.h>
#include <stdio.h>

#define DEG (3.14159265358979323846 / 180.0)

const ls_effect_row ls_effect_rows[LS_EFFECTS] = {
    {LS_EFFECT_P_FACTOR, LS_CAUSE_P_FACTOR, "P-factor", "blade elements, or the file", "inflow: 25 to 35 %", 0, 0,
     0, 0.30},
    {LS_EFFECT_SLIPSTREAM, LS_CAUSE_SLIPSTREAM, "slipstream on wing", "Smelt and Davies (memory)",
     "wing_lift 50 to 100 %", offsetof(ls_aircraft, slipstream.wing_lift), 0.5, 1.0, 0},
    {LS_EFFECT_SWIRL, LS_CAUSE_SWIRL, "swirl on fin", "angular momentum", "an allowance: 0 to 30 %",
     offsetof(ls_aircraft, slipstream.fin_immersion), 0.0, 0.3, 0},
    {LS_EFFECT_TORQUE, LS_CAUSE_TORQUE, "torque", "less what the wing takes", "straightened 0 to 50 %",
     offsetof(ls_aircraft, swirl_straightened), 0.0, 0.5, 0},
    {LS_EFFECT_NORMAL_FORCE, LS_CAUSE_NORMAL, "in-plane force", "blade elements, or the file",
     "closed forms: 30 to 40 %", 0, 0, 0, 0.35},
    {LS_EFFECT_DEAD_DRAG, LS_CAUSE_DEAD_DRAG, "dead drag", "blade elements, or the file", "common practice: 30 %",
     0, 0, 0, 0.30},
};

double ls_breakdown_control(const ls_aircraft *aircraft, const ls_condition *condition)
{
    ls_model model;
    ls_vmc vmc;
    if (ls_model_make(aircraft, condition, &model, NULL) != LS_OK ||
        ls_vmc_at(&model, condition->bank_rad, &vmc, NULL) != LS_OK) {
        return NAN;
    }
    return vmc.control_cas_m_s;
}

/* Worth of the effects of `off`; NaN where one of the two speeds is none. */
static double worth_of(const ls_aircraft *aircraft, const ls_condition *condition, unsigned off)
{
    ls_condition without = *condition;
    without.effects_off |= off;
    return ls_breakdown_control(aircraft, condition) - ls_breakdown_control(aircraft, &without);
}

static ls_worth solve_worth(const ls_aircraft *aircraft, ls_aircraft *scratch, const ls_condition *condition,
                            const ls_effect_row *effect)
{
    ls_worth worth;
    worth.m_s = worth_of(aircraft, condition, effect->bit);
    double a_m_s = (1.0 - effect->share) * worth.m_s, b_m_s = (1.0 + effect->share) * worth.m_s;
    if (effect->key_offset != 0 && worth.m_s != 0.0) {
        double *key = (double *)(void *)((char *)scratch + effect->key_offset);
        *scratch = *aircraft;
        *key = effect->low;
        a_m_s = worth_of(scratch, condition, effect->bit);
        *key = effect->high;
        b_m_s = worth_of(scratch, condition, effect->bit);
    }
    worth.low_m_s = fmin(a_m_s, b_m_s);
    worth.high_m_s = fmax(a_m_s, b_m_s);
    return worth;
}

void ls_breakdown_worths(const ls_aircraft *aircraft, ls_aircraft *scratch, ls_breakdown_side *side)
{
    double sum_m_s = 0.0;
    unsigned all = 0;
    for (int i = 0; i < LS_EFFECTS; i++) {
        side->worth[i] = solve_worth(aircraft, scratch, &side->condition, &ls_effect_rows[i]);
        sum_m_s += side->worth[i].m_s;
        all |= ls_effect_rows[i].bit;
    }
    side->all_m_s = worth_of(aircraft, &side->condition, all);
    side->interaction_m_s = side->all_m_s - sum_m_s;
}
