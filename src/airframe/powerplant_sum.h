/* The sum of propulsion loads, for those who know what each unit does. */
#ifndef LS_AIRFRAME_POWERPLANT_SUM_H
#define LS_AIRFRAME_POWERPLANT_SUM_H

#include "liveside/model.h"

/* Sums the units of a point and their slipstreams. Given: point with V_m_s and unit[] filled and the rest zero.
 * Notes: without the part that the derivatives may hold already, which ls_powerplant_at takes out. */
void ls_powerplant_sum(const ls_model *model, ls_powerplant_point *point);

#endif
