/* The loads of all units put together, for those who know what each unit does. */
#ifndef LS_AIRFRAME_POWERPLANT_SUM_H
#define LS_AIRFRAME_POWERPLANT_SUM_H

#include "liveside/model.h"

/* Given: point->unit filled; included, the units in the state that the derivatives already hold
 * (ls_included_state, full power), not looked at where they hold none; null: nothing is taken out.
 * Returned: the rest of point. */
void ls_powerplant_sum(const ls_model *model, double V_m_s, const ls_propulsor_point *included,
                       ls_powerplant_point *point);

ls_engine_state ls_included_state(const ls_aircraft *aircraft);

#endif
