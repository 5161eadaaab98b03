/* The constant-speed unit: blade pitch and speed of a blade-element propeller on its engine. */
#ifndef LS_PROP_GOVERNOR_H
#define LS_PROP_GOVERNOR_H

#include "liveside/powerplant.h"
#include "liveside/prop_table.h"

/* An engine and its propeller at a true airspeed. */
typedef struct {
    const ls_powerplant *powerplant;
    const ls_air *air;
    ls_engine_state state; /* of the engine: whether and how it turns the shaft */
    double power;          /* fraction of the power available */
    double V_m_s;
} ls_shaft;

typedef struct {
    double pitch_rad, n_rev_s;
    ls_disc_axial axial;
    double
        excess_Nm;  /* torque taken less torque given that the search left; where it stands still, what holds it */
    int lookups;    /* points of the table read on the way */
    unsigned flags; /* LS_PROPULSOR_ bits */
} ls_governed;

/* Where a propeller settles with its unit set to hold a speed.
 * Given: lever_rev_s, that speed. Notes: with enough torque the pitch is solved at the set speed; on the fine stop
 * the speed is the highest stable root of the torque balance below it; where there is none the propeller stops. On
 * the coarse stop it runs above the set speed.
 * Status: LS_OK; LS_NOT_CONVERGED with the reason (governed untouched). */
ls_status ls_governor_settle(const ls_shaft *shaft, double lever_rev_s, ls_governed *governed, ls_error *error);

/* The same with the pitch held: the highest stable root below a speed at which the shaft slows down, or at rest.
 * Given: pitch_rad; high_rev_s, > 0. Status: as above; also where the shaft would speed up at high_rev_s. */
ls_status ls_governor_hold(const ls_shaft *shaft, double pitch_rad, double high_rev_s, ls_governed *governed,
                           ls_error *error);

/* The propeller at a pitch and not turning. */
void ls_governor_stand(const ls_shaft *shaft, double pitch_rad, ls_governed *governed);

/* Set so that thrust is as wanted, zero or a small drag, at the lever's speed, or on the fine stop below it; the
 * shaft's state and power do not count. Given: thrust_N <= 0, at rest 0.
 * Status: LS_OK; LS_NO_STATE (no pitch within the stops gives it at that speed); LS_NOT_CONVERGED. */
ls_status ls_governor_set_thrust(const ls_shaft *shaft, double lever_rev_s, double thrust_N, ls_governed *governed,
                                 ls_error *error);

#endif
