/* The rudder pedals: force, and how far a force reaches. */
#ifndef LS_FLIGHT_PEDAL_H
#define LS_FLIGHT_PEDAL_H

#include "liveside/model.h"

/* Right pedal positive: the force the pilot holds against a hinge moment that drives the trailing edge left; NaN
 * without pedal data. Given: fin_rad, sideslip at the fin.
 * Source: Pamadi, Performance, Stability, Dynamics, and Control of Airplanes, eq. 3.331 (form). */
double ls_pedal_force(const ls_model *model, double q_Pa, double fin_rad, double rudder_rad);

/* The rudder angles between travel and pedal-force limit. Returned: low <= high where there are any; where the
 * limit leaves none, both the angle nearest to what it allows. */
void ls_pedal_range(const ls_model *model, double q_Pa, double fin_rad, double *low_rad, double *high_rad);

#endif
