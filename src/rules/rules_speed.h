/* The minimum control speeds that a basis is about. */
#ifndef LIVESIDE_RULES_RULES_SPEED_H
#define LIVESIDE_RULES_RULES_SPEED_H

#include "liveside/rules.h"

/* Calibrated 1 g stall speed, power off, at maximum mass, sea level, standard day. */
ls_status rule_stall(const ls_aircraft *aircraft, int flap, double gear, double *cas_m_s, ls_error *error);

/* The setting of greatest deflection. */
int rule_landing_flap(const ls_aircraft *aircraft);

/* Fills takeoff[], engines and speed[LS_CASE_TAKEOFF]. Status: that of the first failure without an answer. */
ls_status rule_solve_takeoff(const ls_aircraft *aircraft, const ls_rule_basis *basis, ls_rules_result *result,
                             ls_error *error);

/* Fills speed[] of the landing and of two failed engines, for which a missing answer is part of the result. */
void rule_solve_landing(const ls_aircraft *aircraft, const ls_rule_basis *basis, ls_rules_speed *speed);
void rule_solve_two_out(const ls_aircraft *aircraft, const ls_rule_basis *basis, ls_rules_speed *speed);

/* The share of the power with which the speed would just come into the range that was searched. */
double rule_power_held(const ls_aircraft *aircraft, const ls_rules_speed *speed);

/* How a climb gradient is to be flown. */
void rule_climb_set(const ls_aircraft *aircraft, const ls_rule_condition *condition, ls_rule_applies applies,
                    ls_rules_climb *out);

/* Judges the gradient of a line: the least of each engine failed in turn, at the best speed that is allowed. The
 * minimum control speeds of the result are known by then. */
void rule_climb_judge(const ls_aircraft *aircraft, const ls_rules_result *result, ls_rules_line *line);

/* Adds to a line's note. */
void rule_note(ls_rules_line *line, const char *format, ...) LS_PRINTF(2, 3);

/* Whether a figure reaches a limit, or stays within it, to rounding. */
int rule_is_at_most(double figure, double limit);

#endif
