/* One engine with its propeller at a speed: what it does to the aeroplane, independent of incidence and sideslip.
 */
#ifndef LIVESIDE_POWERPLANT_H
#define LIVESIDE_POWERPLANT_H

#include "liveside/air.h"
#include "liveside/aircraft.h"

/* What an engine and its propeller are doing. */
typedef enum {
    LS_RUNNING,
    LS_WINDMILLING,
    LS_FEATHERED,
    LS_STOPPED, /* not turning, not feathered */
    LS_PARTIAL, /* running at a fraction of the power */
    LS_UNIT_STATES
} ls_unit_state;

LS_API const char *ls_unit_state_name(ls_unit_state state);

/* The state an engine goes to by itself when it fails: feathered where feathering is automatic, else windmilling
 * (a jet windmills). */
LS_API ls_unit_state ls_unit_state_after_failure(const ls_powerplant_data *powerplant);

enum {
    LS_UNIT_SPEED_OUTSIDE = 1, /* the advance ratio or speed lies outside the file's curve: extrapolated */
    LS_UNIT_TORQUE_LIMITED = 2 /* an electric motor on its torque limit */
};

/* Loads of one unit, mirrored by nothing: the trim applies handedness and direction.
 * With u the unit velocity of the aeroplane in body axes, a the shaft axis forward, p = (u.a) a - u the in-plane
 * air flow over V, h the hand: force = thrust a + normal p + h side (a x p); moment at the hub = h hub_first p
 * + hub_second (a x p) - h torque a. At positive incidence p points up, so the down-going blade's larger load
 * (hub_first > 0) yaws the nose left for h = +1. */
typedef struct {
    double thrust_N;
    double torque_Nm; /* that the propeller takes from the shaft; negative when the flow drives it */
    double normal_N;  /* in-plane force per unit of p, along p */
    double side_N;
    double hub_first_Nm;
    double hub_second_Nm;
    double shaft_power_W;
    double n_rev_s; /* propeller */
    double efficiency;
    unsigned flags;
} ls_unit_point;

/* Shaft power at full lever of an engine at rated speed, W.
 * Source: piston, Gagg and Ferrar's altitude law from indicated less friction torque; see docs/theory.md. */
LS_API double ls_engine_power(const ls_engine_data *engine, const ls_air *air, const ls_air *standard);

/* The unit's loads at true airspeed V.
 * Given: state; power, the fraction of the power available (running and partial), 0 to 1; air, and standard the
 * standard atmosphere at the same pressure altitude; V_m_s >= 0.
 * Status: LS_NO_STATE when the file has no data for the asked state (the message names the key). */
LS_API ls_status ls_unit_at(const ls_powerplant_data *powerplant, ls_unit_state state, double power,
                            const ls_air *air, const ls_air *standard, double V_m_s, ls_unit_point *point,
                            ls_error *error);

#endif
