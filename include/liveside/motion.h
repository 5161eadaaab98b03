/* Motion after a sudden failure: six degrees of freedom, propellers that speed up and slow down, and a simple
 * pilot.
 *
 * Signs: model axes (x forward, y right, z down); bank right wing down, heading to the right and rates p, q, r
 * about x, y, z positive; rudder and aileron as in ls_derivatives. Heading, north and east count from the failure.
 */
#ifndef LIVESIDE_MOTION_H
#define LIVESIDE_MOTION_H

#include "liveside/trim.h"

/* What the nose does. The pitching moment is not modelled: the rate of pitch follows what the hold asks with a
 * lag.
 */
typedef enum {
    LS_HOLD_AIRSPEED, /* once the pilot acts: to the path that the power left can hold, and the speed kept */
    LS_HOLD_ATTITUDE, /* the pitch attitude of the start is kept */
    LS_HOLD_EXACT,    /* the speed never changes: power and path are in balance at every moment */
    LS_HOLDS
} ls_hold;

typedef struct {
    ls_condition condition; /* before the failure: every engine running; bank_rad is not used */
    unsigned failed;
    ls_engine_state state; /* where the failed engines go: LS_WINDMILLING, _LEVER_AFT, _FEATHERED (by themselves),
                              _STOPPED, _PARTIAL or _IDLE */
    double V_m_s;          /* true airspeed at the failure */
    double bank_rad;       /* that the pilot rolls to */
    ls_hold hold;
    double acceleration_m_s2; /* LS_HOLD_EXACT: of the airspeed */
    double delay_s;           /* until the pilot acts; infinite: never */
    double feather_s;         /* when feathering is selected; infinite: never */
    double recover_s;         /* when the live engines are throttled and the nose lowered; infinite: never */
    double recover_pitch_rad; /* attitude that the nose is lowered to */
    double recover_power;     /* what the live engines then give, 0: idle */
    double height_m;          /* above the ground at the start; infinite: no ground */
    double duration_s;
    double sample_s;          /* between samples; 0: 0.1 s */
    double tolerance;         /* of one step; 0: 1e-7 */
    int starts_failed;        /* the failure is over at the start: trimmed at bank_rad on the live engines */
    int is_step;              /* the failed propellers go to their new state at once */
    int instant_controls;     /* no rates of movement */
    int until_straight;       /* ends when straight flight has been held for LS_STRAIGHT_S */
    int until_beyond;         /* ends at 20 deg of heading change, at 45 deg of bank */
    ls_loads_function *loads; /* a known source in place of the engines, or null (for tests) */
    double nudge[3]; /* added at the start: sideslip in rad, roll and yaw rate in rad/s (for tests of stability) */
} ls_motion_request;

/* Straight flight: this long with the turn slower than this, and the bank within the condition's limit by less
 * than this. A turn of 0.1 deg/s would pass for 0.4 deg of bank at 80 kt, and so for half a knot. */
#define LS_STRAIGHT_S        5.0
#define LS_STRAIGHT_RAD_S    (0.01 * 3.14159265358979323846 / 180.0)
#define LS_STRAIGHT_BANK_RAD (0.02 * 3.14159265358979323846 / 180.0)
#define LS_HEADING_LIMIT_RAD (20.0 * 3.14159265358979323846 / 180.0)

typedef enum {
    LS_MOTION_TIME,       /* the time asked for is over */
    LS_MOTION_STRAIGHT,   /* straight flight regained and held */
    LS_MOTION_FIN_STALL,  /* control lost: the fin stalls */
    LS_MOTION_WING_STALL, /* control lost: the wing stalls */
    LS_MOTION_BANK,       /* control lost: 60 deg of bank */
    LS_MOTION_GROUND,     /* the ground is reached */
    LS_MOTION_BEYOND,     /* 20 deg of heading or 45 deg of bank passed, where the request ends there */
    LS_MOTION_DIVERGED,   /* the motion can no longer be followed */
    LS_MOTION_ENDS
} ls_motion_end;

LS_API const char *ls_motion_end_text(ls_motion_end end);

typedef struct {
    double t_s, V_m_s, cas_m_s;
    double alpha_rad, beta_rad;
    double p_rad_s, q_rad_s, r_rad_s;
    double bank_rad, theta_rad, heading_rad, turn_rad_s;
    double north_m, east_m, climbed_m;
    double rudder_rad, aileron_rad, pedal_force_N;
    double load_factor; /* normal specific force over g */
    double lift_coefficient;
    double failed_rev_s, failed_pitch_rad, failed_thrust_N, failed_torque_Nm; /* of the first failed engine */
    double live_thrust_N;
} ls_motion_sample;

typedef struct {
    ls_motion_end end;
    double end_s;
    int count;
    ls_motion_sample *sample; /* every sample_s, and the end */
    ls_motion_sample start, last;
    double heading_most_rad, heading_most_s; /* largest in magnitude, signed, and when */
    double bank_most_rad, beta_most_rad;     /* the same */
    double climbed_least_m, V_least_m_s, cas_least_m_s, alpha_most_rad;
    double drag_most_N, drag_most_s;     /* of the first failed propeller */
    double heading_limit_s;              /* when the heading has changed by 20 deg; NaN: never */
    double bank_limit_s;                 /* the same for 45 deg of bank */
    double rudder_stop_s, pedal_limit_s; /* when the pilot first runs into travel, into the force limit; NaN */
    double straight_s;                   /* when straight flight begins that is held; NaN */
    double feather_rev_s;                /* speed when feathering is selected; NaN */
    int feather_latched;                 /* too slow to feather then */
    double stopped_s;                    /* when the failed propeller stands; NaN */
    long steps;                          /* of the integration */
} ls_motion;

/* Follows a motion.
 * Returned: motion, freed with ls_motion_free. A motion that ends in loss of control is an answer, not a failure.
 * Status: LS_OK; LS_NOT_CONVERGED or LS_NO_STATE (no trimmed start; a failed state that has no transient);
 * LS_MEMORY.
 * Notes: Ixx p' - Ixz r' = L + Ixz p q - (Izz - Iyy) q r, Izz r' - Ixz p' = N - Ixz q r - (Iyy - Ixx) p q; rotors
 * with angular momentum h Ip W about their shafts: M -= h Ip W r, N += h Ip W q, and L = -h (Q + Ip W') for the
 * reaction. The air is that of the start, and so are the rate derivatives where they are estimated. Source: any
 * text on flight dynamics, e.g. Etkin and Reid, Dynamics of Flight, 3rd ed. (1996), ch. 4. */
LS_API ls_status ls_motion_run(const ls_aircraft *aircraft, const ls_motion_request *request, ls_motion *motion,
                               ls_error *error);
LS_API void ls_motion_free(ls_motion *motion);

/* A request with the usual values: windmilling or by itself feathered, airspeed held, action after 1 s, no
 * feathering, no recovery, no ground, 30 s. Given: condition, every engine running. */
LS_API void ls_motion_usual(const ls_aircraft *aircraft, const ls_condition *condition, unsigned failed,
                            double V_m_s, ls_motion_request *request);

/* Moments of inertia of an aeroplane at a mass. */
typedef struct {
    double xx_kg_m2, yy_kg_m2, zz_kg_m2, xz_kg_m2;
} ls_inertia;
LS_API ls_inertia ls_inertia_of(const ls_aircraft *aircraft, double mass_kg);

/* Rate derivatives, the file's or estimated at a lift coefficient. */
typedef struct {
    double side_roll, side_yaw, roll_roll, roll_yaw, yaw_roll, yaw_yaw;
} ls_rates;
/* Notes: for what the file leaves out: Cl_p = -CLa/12 (1 + 3 t)/(1 + t) with taper t = 0.5 less the loss of a
 * finite wing, Cl_r = CL/4, Cn_p = -CL/8, Cn_r = 2 (l/b)^2 CY_fin, CY_r = -2 (l/b) CY_fin, CY_p = 0, with the
 * fin's arm over the span -Cn_dr/CY_dr and its part of CY_beta taken as 0.7. Source: Nelson, Flight Stability and
 * Automatic Control, 2nd ed., table 3.4 (form, from memory); the finite-wing factor A/(A + 4) and the 0.7 are own
 * allowances. */
LS_API ls_rates ls_rates_of(const ls_model *model, double lift_coefficient);

#endif
