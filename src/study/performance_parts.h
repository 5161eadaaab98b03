/* What the files of the performance study share. */
#ifndef LIVESIDE_STUDY_PERFORMANCE_PARTS_H
#define LIVESIDE_STUDY_PERFORMANCE_PARTS_H

#include "liveside/performance.h"

/* Copies an error's text, shortened. */
void ls_case_reason(char reason[LS_CASE_REASON], const ls_error *error);

/* The body-axes bank of one measured toward the live side; symmetric cases bank to the right. */
double ls_case_body_bank(double bank_rad, int live_side);

/* A condition with engines failed in a state; LS_ENGINE_STATES: as each goes by itself. */
ls_condition ls_case_condition(const ls_condition *condition, const ls_aircraft *aircraft, unsigned failed,
                               ls_engine_state state);

/* The best rate of a condition at a pressure altitude.
 * Given: near_eas_m_s, equivalent airspeed of an earlier answer, or 0. Returned: best; it is set to the new one.
 */
ls_status ls_case_best_rate(const ls_aircraft *aircraft, const ls_condition *condition, ls_climb_rule rule,
                            double altitude_m, double *near_eas_m_s, ls_climb_best *best, ls_error *error);

#endif
