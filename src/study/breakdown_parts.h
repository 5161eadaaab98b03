/* What the files of the breakdown share. */
#ifndef LS_STUDY_BREAKDOWN_PARTS_H
#define LS_STUDY_BREAKDOWN_PARTS_H

#include "liveside/breakdown.h"

/* Chooses the two failures to compare. Returned: how many, 0 for one engine only. */
int ls_breakdown_pair(const ls_aircraft *aircraft, const ls_vmca_request *request,
                      unsigned failed[LS_BREAKDOWN_SIDES]);

/* Sets the conditions of the two failures: engines, bank toward each live side, common weight and centre of
 * gravity. Status: LS_NO_STATE (one engine only). */
ls_status ls_breakdown_start(const ls_aircraft *aircraft, const ls_vmca_request *request, ls_breakdown *breakdown,
                             ls_error *error);

/* Groups the listed forces of a solved side by cause. */
void ls_breakdown_moments(const ls_model *model, ls_breakdown_side *side);

/* Switches each effect off and solves again. Given: scratch, an aircraft to change. */
void ls_breakdown_worths(const ls_aircraft *aircraft, ls_aircraft *scratch, ls_breakdown_side *side);

/* Bank without sideslip and with ailerons alone at the speed of best climb. Given: mass and centre of gravity in
 * side->attitudes. */
void ls_breakdown_attitudes(const ls_aircraft *aircraft, ls_breakdown_side *side);

/* A condition's minimum control speed at its own bank; speed of the control limit, CAS, NaN when there is none. */
double ls_breakdown_control(const ls_aircraft *aircraft, const ls_condition *condition);

#endif
