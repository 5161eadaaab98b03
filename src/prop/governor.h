/* The constant-speed unit: blade pitch and speed of a blade-element propeller on its engine. */
#ifndef LS_PROP_GOVERNOR_H
#define LS_PROP_GOVERNOR_H

#include "liveside/powerplant.h"
#include "liveside/prop_table.h"

typedef struct {
    double pitch_rad, n_rev_s;
    ls_disc_axial axial;
    unsigned flags; /* LS_PROPULSOR_ bits */
} ls_governed;

/* Where a propeller settles at a speed.
 * Given: state, any but LS_FEATHERED, LS_STOPPED and LS_ZERO_THRUST; power; lever_rev_s, the speed that the unit
 * is set to hold. Notes: with enough torque the pitch is solved at the set speed; on the fine stop the speed is
 * the highest stable root of the torque balance below it; where there is none the propeller stops. */
void ls_governor_settle(const ls_powerplant *powerplant, ls_engine_state state, double power, const ls_air *air,
                        double V_m_s, double lever_rev_s, ls_governed *governed);

/* The propeller held at a pitch and not turning. */
void ls_governor_stand(const ls_powerplant *powerplant, const ls_air *air, double V_m_s, double pitch_rad,
                       ls_governed *governed);

/* Set so that thrust is zero at the lever's speed, or on the fine stop below it. */
void ls_governor_zero_thrust(const ls_powerplant *powerplant, const ls_air *air, double V_m_s, double lever_rev_s,
                             ls_governed *governed);

#endif
