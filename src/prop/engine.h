/* The engine as a torque on the propeller's shaft. */
#ifndef LS_PROP_ENGINE_H
#define LS_PROP_ENGINE_H

#include "liveside/powerplant.h"

/* Torque that the engine puts on the propeller shaft, negative when it has to be turned.
 * Given: state, LS_RUNNING, LS_PARTIAL, LS_IDLE, or any other for a dead engine; power, the fraction of the power
 * available; n_rev_s of the propeller, > 0. */
double ls_engine_torque(const ls_powerplant *powerplant, const ls_air *air, ls_engine_state state, double power,
                        double n_rev_s);

/* Torque that starts a stopped engine, at the propeller shaft. */
double ls_engine_break_out(const ls_powerplant *powerplant);

/* Indicated torque at full throttle over rated brake torque, piston. */
double ls_engine_indicated(const ls_powerplant *powerplant, const ls_air *air);

/* The manifold pressure of a piston engine that gives a torque at the propeller's shaft, Pa; NaN for other engines
 * and for a torque that no throttle setting gives. */
double ls_engine_manifold_pressure(const ls_powerplant *powerplant, const ls_air *air, double torque_Nm,
                                   double n_rev_s);

/* The other way round: the fraction of the power available, 0 to 1, that a manifold pressure gives at a speed of
 * the propeller; piston. A pressure above that of full throttle counts as full throttle. */
double ls_engine_power_at(const ls_powerplant *powerplant, const ls_air *air, double map_Pa, double n_rev_s);

/* Power at full lever and rated speed over rated power, turboprop. */
double ls_engine_turbine_share(const ls_engine_data *engine, const ls_air *air);

#endif
