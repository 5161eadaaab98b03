/* A propeller at a speed of rotation and a blade angle of its own: what motion needs between the states where it
 * settles. */
#ifndef LS_PROP_TURNING_H
#define LS_PROP_TURNING_H

#include "liveside/powerplant.h"

/* Loads of a blade-element propeller. Given: V_m_s >= 0; pitch_rad at 0.75 R; n_rev_s >= 0. */
void ls_turning_loads(const ls_powerplant *powerplant, const ls_air *air, double V_m_s, double pitch_rad,
                      double n_rev_s, ls_propulsor_point *point);

/* Polar moment of inertia of propeller and engine, at the propeller's speed: the file's, else solid aluminium
 * blades with a tenth added for hub and engine. NaN for what has no blades. Notes: section area 0.70 c t, solid
 * sections of the usual kind; density 2,750 kg/m3 (handbook). An estimate. */
double ls_turning_inertia(const ls_powerplant_data *data);

/* Time constant of the engine's power after a failure: the file's, else piston 0.2 s, turboprop 0.8 s, electric
 * 0.1 s, jet 1 s: own estimates. */
double ls_turning_decay(const ls_powerplant_data *data);

/* Torque on the propeller's shaft while an engine goes from one state to another.
 * Given: share, what is left of the old state; n_rev_s >= 0. A dead engine's drag fades below half a turn a
 * second, where it stands. */
double ls_turning_torque(const ls_powerplant *powerplant, const ls_air *air, double share, double power,
                         ls_engine_state after, double power_after, double n_rev_s);

/* The speed of rotation that the governor holds with its lever forward, or aft. */
double ls_turning_lever(const ls_powerplant_data *data, int is_aft);

/* The coarse end of governing. */
double ls_turning_coarse(const ls_propeller_data *propeller);

#endif
