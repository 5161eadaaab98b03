/* A running propeller that stands in for a dead one: the setting for it, and what the difference is worth. */
#include "study/propeller_parts.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- zero thrust ---- */

static void set_thrust(const ls_prop_study *study, const ls_air *air, double V_m_s, double thrust_N,
                       ls_prop_point *point)
{
    ls_shaft shaft = {study->powerplant, air, LS_ZERO_THRUST, 1.0, V_m_s};
    ls_governed governed;
    ls_error error = {0};
    if (ls_governor_set_thrust(&shaft, study->rated_rev_s, thrust_N, &governed, &error) != LS_OK) {
        prop_point_fail(&error, point);
        return;
    }
    prop_point_fill(study, air, &shaft, study->rated_rev_s, &governed, point);
}

static void solve_settings(const ls_prop_study *study, const ls_air *air, double V_m_s, ls_prop_point *zero,
                           ls_prop_point *feather)
{
    ls_propulsor_point feathered;
    ls_error error = {0};
    set_thrust(study, air, V_m_s, 0.0, zero);
    if (ls_propulsor_at(study->powerplant, LS_FEATHERED, 1.0, air, V_m_s, &feathered, &error) != LS_OK) {
        prop_point_fail(&error, feather);
        return;
    }
    set_thrust(study, air, V_m_s, fmin(0.0, feathered.thrust_N), feather);
}

void ls_zero_thrust_solve(const ls_prop_study *study, double altitude_step_m, int heights, double first_m_s,
                          double step_m_s, int speeds, ls_zero_thrust *zero)
{
    const ls_condition *condition = &study->model.condition;
    memset(zero, 0, sizeof *zero);
    zero->speeds = speeds < LS_PROP_ZERO_SPEEDS ? speeds : LS_PROP_ZERO_SPEEDS;
    for (int j = 0; j < zero->speeds; j++) {
        zero->cas_m_s[j] = first_m_s + j * step_m_s;
    }
    for (int i = 0; i < heights && i < LS_PROP_HEIGHTS; i++) {
        ls_air air;
        double altitude_m = condition->altitude_m + i * altitude_step_m;
        if (ls_air_at(altitude_m, condition->isa_offset_K, &air, NULL) != LS_OK) {
            break; /* above the atmosphere that is known: the table ends here */
        }
        zero->altitude_m[zero->heights++] = altitude_m;
        for (int j = 0; j < zero->speeds; j++) {
            solve_settings(study, &air, prop_tas(&air, zero->cas_m_s[j]), &zero->zero[i][j], &zero->feather[i][j]);
        }
    }
}

/* ---- idle against dead ---- */

void ls_idle_demonstration_solve(const ls_prop_study *study, const ls_vmca_set *set, double V_m_s,
                                 ls_idle_demonstration *demonstration)
{
    static const ls_engine_state states[LS_PROP_STATES] = {LS_WINDMILLING, LS_LEVER_AFT, LS_IDLE,
                                                           LS_STOPPED,     LS_FEATHERED, LS_ZERO_THRUST};
    memset(demonstration, 0, sizeof *demonstration);
    demonstration->count = LS_PROP_STATES;
    demonstration->V_m_s = V_m_s;
    demonstration->cas_m_s = prop_cas(&study->model.air, V_m_s);
    for (int i = 0; i < LS_PROP_STATES; i++) {
        ls_vmca_point *vmc = &demonstration->vmc[i];
        demonstration->state[i] = states[i];
        ls_prop_point_solve(study, states[i], 1.0, V_m_s, &demonstration->point[i]);
        vmc->status = LS_NO_STATE;
        snprintf(vmc->reason, sizeof vmc->reason, "no minimum control speed was asked for");
        if (set != NULL) {
            ls_condition condition = set->condition;
            ls_condition_fail_as(study->aircraft, set->failed, states[i], &condition);
            ls_vmca_point_solve(study->aircraft, &condition, set->live_side, set->answer.bank_rad, vmc);
        }
    }
}
