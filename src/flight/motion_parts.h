/* The parts of a motion: state, loads, propellers, pilot. */
#ifndef LS_FLIGHT_MOTION_PARTS_H
#define LS_FLIGHT_MOTION_PARTS_H

#include "liveside/motion.h"

/* The state: velocity and rates in body axes, attitude, place, controls, what the pilot has trimmed in,
 * propellers. */
enum {
    AT_U, /* m/s, body x */
    AT_V,
    AT_W,
    AT_P,
    AT_Q,
    AT_R,
    AT_BANK,
    AT_PITCH,
    AT_HEADING,
    AT_NORTH,
    AT_EAST,
    AT_CLIMBED,
    AT_RUDDER,
    AT_AILERON,
    AT_HEADING_TRIM, /* rad: rudder, aileron */
    AT_BANK_TRIM,
    BODY_STATES,
    PROPELLER_STATES = 2, /* rev/s, rad at 0.75 R */
    STATES_MAX = BODY_STATES + PROPELLER_STATES * LS_MAX_ENGINES
};

/* What is the same for the whole motion, and the phase it is in. */
typedef struct {
    const ls_motion_request *request;
    ls_model before, after; /* models with every engine running, and with the failed ones as they go */
    ls_inertia inertia;
    ls_rates rates;
    double delta_kg2_m4; /* Ixx Izz - Ixz^2 */
    ls_trim trim;        /* of the start */
    double heading_hold_rad;
    int acts, recovers, feathers; /* phases, set between the stretches of the integration */
    int can_feather;
    int moves[LS_MAX_ENGINES]; /* its propeller has states */
    double rotor_kg_m2[LS_MAX_ENGINES];
    ls_powerplant_point included; /* at the start's speed: what the derivatives hold already, negative */
    int has_included;
} ls_flight;

/* Everything at one state. */
typedef struct {
    double V_m_s, alpha_rad, beta_rad, q_Pa;
    double air[3];                      /* unit velocity */
    double force_N[3], roll_Nm, yaw_Nm; /* without weight, without what the rotors add */
    double turn_rad_s, pitch_rate_rad_s;
    double rudder_rad, aileron_rad, rudder_low_rad, rudder_high_rad, rudder_wanted_rad;
    double propeller_rate[LS_MAX_ENGINES][PROPELLER_STATES];
    ls_powerplant_point point;
} ls_moment;

/* Propulsion at a state: fills point and propeller_rate of `now`. Returned: 0, or 1 where a unit has no data. */
int ls_motion_propulsion(const ls_flight *flight, double t_s, const double *y, ls_moment *now);

/* What is left of a failed engine's power. */
double ls_motion_power_left(const ls_flight *flight, int unit, double t_s);

/* Controls at a state: rudder range, what the pilot wants, where the surfaces are. Given: now, air and propulsion.
 */
void ls_motion_controls(const ls_flight *flight, const double *y, ls_moment *now);

/* Rates of AT_RUDDER to AT_BANK_TRIM. */
void ls_motion_control_rates(const ls_flight *flight, const double *y, const ls_moment *now, double *rates);

/* The rate of pitch that the hold asks for. */
double ls_motion_pitch_wanted(const ls_flight *flight, const double *y, const ls_moment *now);

/* The air and the propulsion at a state, then the loads with the controls where `now` has them. Returned: as
 * ls_motion_moment. */
int ls_motion_air(const ls_flight *flight, double t_s, const double *y, ls_moment *now);
void ls_motion_loads(const ls_flight *flight, const double *y, ls_moment *now);

/* Everything at a state. Returned: 0, or 1 where it does not exist. */
int ls_motion_moment(const ls_flight *flight, double t_s, const double *y, ls_moment *now);

/* Rates of the whole state. Given: context, the flight. Returned: as ls_motion_moment. */
int ls_motion_rates(double t_s, const double *y, double *rates, void *context);

/* Prepares a flight and its first state. */
ls_status ls_motion_start(const ls_aircraft *aircraft, const ls_motion_request *request, ls_flight *flight,
                          double *y, ls_error *error);

/* The same without a trim: models, inertia, propellers. */
ls_status ls_motion_prepare(const ls_aircraft *aircraft, const ls_motion_request *request, ls_flight *flight,
                            double *y, ls_error *error);

/* The first failed engine, or -1. When feathering begins (infinite: never), and its beginning: whether it takes
 * hold, and the propeller's speed then (NaN: it has none). */
int ls_motion_first_failed(const ls_flight *flight);
double ls_motion_feather_time(const ls_flight *flight);
void ls_motion_begin_feathering(ls_flight *flight, const double *y, double *rev_s, int *latched);

/* How many variables of the state are in use. */
int ls_motion_dimension(const ls_flight *flight);

#endif
