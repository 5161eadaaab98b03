/* Steady straight flight: the five-equation trim, and every force and moment in it. */
#ifndef LIVESIDE_TRIM_H
#define LIVESIDE_TRIM_H

#include "liveside/model.h"

typedef enum {
    LS_STOP_CONVERGED,
    LS_STOP_ITERATIONS,
    LS_STOP_SINGULAR,
    LS_STOP_NOT_FINITE,
    LS_STOP_NO_PROGRESS,
    LS_STOP_POWERPLANT,
    LS_STOP_ATTITUDE, /* all but the forces along x balance, and no attitude balances those */
    LS_STOPS
} ls_stop;

LS_API const char *ls_stop_text(ls_stop stop);

typedef struct {
    double V_m_s; /* true airspeed */
    double bank_rad;
    double alpha_rad, beta_rad, aileron_rad, rudder_rad, theta_rad;
    double climb_rad;             /* flight path above the horizon */
    double lift_coefficient;      /* of the whole wing, slipstream lift included */
    double free_lift_coefficient; /* of the wing outside the slipstreams: the power-off curve at this incidence */
    double pedal_force_N;         /* right pedal positive; NaN when the file has no pedal data */
    double load_factor;           /* specific force normal to the wing over g */
    ls_stop stop;
    int iterations;
    double residual; /* largest, forces over weight, moments over weight times span */
} ls_trim;

/* Finds the trim at a speed and bank.
 * Given: model; point, the powerplant at V; bank_rad; start, an earlier trim to start from or null.
 * Returned: trim, always filled, with the stop reason.
 * Status: LS_OK or LS_NOT_CONVERGED. Allocates nothing.
 * Notes: elevator is inside the trimmed lift curve; D acts along -V, CY along body y. */
LS_API ls_status ls_trim_at(const ls_model *model, const ls_powerplant_point *point, double bank_rad,
                            const ls_trim *start, ls_trim *trim);

/* ls_powerplant_at and ls_trim_at together. */
LS_API ls_status ls_trim_solve(const ls_model *model, double V_m_s, double bank_rad, ls_trim *trim,
                               ls_error *error);

enum { LS_PARTS_MAX = 6 * LS_MAX_ENGINES + 12 };

/* What a line of the force and moment list comes from. */
typedef enum {
    LS_CAUSE_THRUST,     /* running engines along their shafts */
    LS_CAUSE_DEAD_DRAG,  /* failed engines along theirs */
    LS_CAUSE_P_FACTOR,   /* hub moments in inclined flow */
    LS_CAUSE_NORMAL,     /* in-plane forces of the propellers */
    LS_CAUSE_TORQUE,     /* torque reaction */
    LS_CAUSE_SLIPSTREAM, /* lift on the wing, and its induced drag */
    LS_CAUSE_SWIRL,      /* slipstream rotation on the fin */
    LS_CAUSE_SIDESLIP,
    LS_CAUSE_RUDDER,
    LS_CAUSE_AILERON,
    LS_CAUSE_OFFSET,   /* weight, lift and drag: moments only where the centre of gravity is off the reference */
    LS_CAUSE_INCLUDED, /* the part of the propellers that the derivatives already hold */
    LS_CAUSES
} ls_cause;

LS_API const char *ls_cause_name(ls_cause cause);

/* One line of the force and moment list: body axes, about the centre of gravity. */
typedef struct {
    ls_cause cause;
    int engine; /* index, or -1: of the whole aeroplane */
    char name[LS_NAME_SIZE + 32];
    double force_N[3];
    double moment_Nm[3];
} ls_part;

typedef struct {
    int count;
    ls_part part[LS_PARTS_MAX];
    ls_part sum; /* residual: zero in X, Y, Z, L, N; M is what the elevator holds */
} ls_balance;

/* Every force and moment of a trim, by source. */
LS_API void ls_trim_balance(const ls_model *model, const ls_powerplant_point *point, const ls_trim *trim,
                            ls_balance *balance);

#endif
