/* What a propeller that has settled does to the aeroplane. */
#ifndef LS_PROP_PROPULSOR_H
#define LS_PROP_PROPULSOR_H

#include "prop/governor.h"

/* The point of a blade-element propeller but for what its wake does. In-plane loads are linear in the flow across
 * the disc: per unit of its share of V. Given: point, zero. */
void ls_propulsor_fill(const ls_powerplant *powerplant, ls_engine_state state, const ls_air *air, double V_m_s,
                       const ls_governed *governed, ls_propulsor_point *point);

/* The propeller speed that the lever asks for in a state. */
double ls_lever_speed(const ls_powerplant_data *data, ls_engine_state state);

#endif
