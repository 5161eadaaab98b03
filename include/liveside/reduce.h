/* Flight-test points to a standard minimum control speed, and what they say of the derivatives. */
#ifndef LIVESIDE_REDUCE_H
#define LIVESIDE_REDUCE_H

#include "liveside/parameter.h"
#include "liveside/points.h"
#include "liveside/vmc.h"

enum {
    LS_REDUCE_GROUPS = 8,
    LS_REDUCE_REASON = 160,
    LS_REDUCE_FIT_POINTS = 4000,
    LS_REDUCE_DYNAMIC_POINTS = 1000
};

/* What a point is good for. */
typedef enum {
    LS_USE_LIMIT,  /* flown to a control limit: a speed of its own */
    LS_USE_STEADY, /* above every limit: for the derivatives and for extrapolation */
    LS_USE_DYNAMIC,
    LS_USE_REJECTED,
    LS_USES
} ls_use;

/* One point, in the order of the file. Angles and coefficients are toward the live side positive. */
typedef struct {
    ls_use use;
    int limit; /* ls_limit that ended it, or -1 */
    int group;
    const char *reason; /* why rejected, or what to know of it; "" */
    double cas_m_s, eas_m_s, V_m_s, q_Pa;
    double power;       /* of the live engines, a share of what they can give there */
    double coefficient; /* yawing moment of the propulsion over q S b: what the rudder has to hold */
    double corrected;   /* the same less what bank and weight hold */
    double rudder_rad;  /* effective deflection, measured; at a rudder limit the travel */
    double model_rudder_rad, model_beta_rad, model_aileron_rad, model_force_N;
    double by_coefficient_m_s, by_power_m_s, by_model_m_s; /* standard CAS; NaN */
    double bank_m_s, weight_m_s; /* what the corrections for bank, then for weight, add to by_coefficient */
    double residual_m_s;         /* measured less model, as a speed */
    int is_regained;             /* dynamic: with a heading change of 20 deg at most */
    double increment_m_s; /* dynamic: CAS above the scaled model's static speed at the point's own condition */
} ls_reduced;

typedef struct {
    int points;
    double value, low, high; /* confidence interval */
    double deviation;        /* of one point */
} ls_interval;

/* A control followed from points above its limit down to the limit. */
typedef struct {
    int points;
    double used;               /* greatest share of the limit that was flown */
    double cas_m_s, low, high; /* standard condition; NaN: see reason */
    char reason[LS_REDUCE_REASON];
} ls_extrapolation;

enum { LS_EXTRAPOLATE_RUDDER, LS_EXTRAPOLATE_AILERON, LS_EXTRAPOLATE_FORCE, LS_EXTRAPOLATIONS };

/* Points of one failed engine, propeller state, flap and gear. */
typedef struct {
    unsigned failed;
    int state; /* ls_engine_state */
    int flap;
    double gear;
    int points, limit_points;
    ls_condition standard;
    ls_limit standard_limit; /* of the model there */
    double file_cas_m_s;     /* the aeroplane file's own answer at the standard condition; NaN */
    ls_interval coefficient, power_law, model;
    ls_extrapolation extrapolated[LS_EXTRAPOLATIONS];
    int dynamic_points;
    /* At the standard condition, the static speed there with the points' increments; NaN. */
    double dynamic_cas_m_s; /* lowest at which control was regained, of those above every speed at which it was
                               lost */
    double increment_m_s;   /* its own */
    double dynamic_lost_cas_m_s; /* highest at which it was lost */
} ls_reduced_group;

/* The scales on the file's derivatives that bring the model to the points. */
enum { LS_SCALE_RUDDER, LS_SCALE_SIDESLIP, LS_SCALES };

typedef struct {
    const char *name;
    int is_estimated;
    double value, error; /* 1 is the file's */
    char reason[LS_REDUCE_REASON];
} ls_scale;

typedef struct {
    ls_status status;
    int points, skipped; /* used; left out of a very long file, evenly */
    int iterations;
    double deviation_rad; /* of one rudder angle */
    double condition;
    double correlation;
    ls_scale scale[LS_SCALES];
} ls_model_fit;

/* One equation of the steady motion by linear least squares. */
enum { LS_REGRESSION_TERMS = 4 };

typedef struct {
    const char *path; /* of the file's derivative; "thrust moment" for its scale */
    double value, error, file;
    int is_estimated;
    char reason[LS_REDUCE_REASON]; /* why not */
} ls_term;

typedef struct {
    const char *name;
    int points;
    char refused[LS_REDUCE_REASON]; /* why the whole equation; "" */
    int terms;
    ls_term term[LS_REGRESSION_TERMS];
    double correlation[LS_REGRESSION_TERMS][LS_REGRESSION_TERMS];
    double condition, deviation;
} ls_regression;

enum { LS_EQUATION_YAW, LS_EQUATION_SIDE, LS_EQUATION_ROLL, LS_EQUATIONS };

/* What instruments are good for: standard deviations of one reading. */
typedef struct {
    double speed_m_s, bank_rad, rudder_rad, mass_share, T_K, altitude_m, power_share;
} ls_accuracies;

enum { LS_BUDGET_LINES = 7 };

typedef struct {
    const char *name;
    double accuracy;
    int dimension;
    double m_s; /* what it does to one point's standard speed */
} ls_budget_line;

typedef struct {
    const ls_aircraft *aircraft;
    const ls_points *points;
    double mass_kg,
        bank_rad;        /* of the standard condition, sea level on a standard day; bank toward the live side */
    double thrust_share; /* standard deviation of the thrust moment; 0: not given */
    double confidence;   /* 0.95 */
    ls_accuracies accuracies;
} ls_reduce_request;

typedef struct {
    ls_reduced *row; /* one for each point, owned: ls_reduce_free */
    int rows;
    int uses[LS_USES];
    int groups;
    ls_reduced_group group[LS_REDUCE_GROUPS];
    ls_model_fit fit;
    double yaw_ratio, yaw_ratio_error; /* yaw.rudder over yaw.sideslip: needs no thrust */
    ls_regression regression[LS_EQUATIONS];
    int budget_lines;
    ls_budget_line budget[LS_BUDGET_LINES];
    double budget_m_s; /* root of the sum of squares */
} ls_reduction;

/* Reads the usual accuracies of a light aeroplane with a test boom. */
LS_API void ls_accuracies_usual(ls_accuracies *accuracies);

/* Reduces points.
 * Given: request, its aircraft prepared. Returned: reduction, to be freed with ls_reduce_free whatever the status.
 * Status: LS_OK; LS_NO_STATE (not one point can be used: the message says why); LS_MEMORY.
 * Notes: (a) constant yawing-moment coefficient with bank and weight corrections; (b) the cube-root power law of
 * the flight-test guide, exact at zero bank and constant propulsive efficiency only; (c) the whole model, its
 * rudder and weathercock derivatives scaled to the points by least squares. */
LS_API ls_status ls_reduce_points(const ls_reduce_request *request, ls_reduction *reduction, ls_error *error);

LS_API void ls_reduce_free(ls_reduction *reduction);

/* The cube-root law: EAS at another altitude and power, from one that was measured. Source: FAA AC 23-8C, appendix
 * 3 (the form, from memory). */
LS_API double ls_reduce_power_law(double eas_m_s, double sigma, double power_W, double standard_sigma,
                                  double standard_power_W);

/* An aeroplane with the scales of a fit, and the marks for a file. */
LS_API void ls_reduce_update(const ls_reduction *reduction, ls_aircraft *aircraft, ls_marks *marks);

LS_API const char *ls_use_text(ls_use use);

/* The word of a propeller's state in a file of points; "" for none. The state of a word; -1. */
LS_API const char *ls_point_state_word(int state);
LS_API int ls_point_state(const char *word);

#endif
