/* The steps of a reduction. */
#ifndef LS_STUDY_REDUCE_PARTS_H
#define LS_STUDY_REDUCE_PARTS_H

#include "liveside/airspeed.h"
#include "liveside/reduce.h"

/* One point as the model sees it. Signs are those of the body until they are turned toward the live side. */
typedef struct {
    ls_model model; /* of the point's own condition */
    ls_powerplant_point loads;
    ls_airspeed speed;
    int live_side;
    double bank_rad;   /* toward the live side */
    double rudder_rad; /* measured, effective, away from the live side's own (the rudder that holds it) positive */
    double beta_rad, aileron_rad, force_N; /* measured, body signs; NaN */
} ls_flown;

/* How the standard condition of a group answers: yawing moment coefficient of the propulsion against speed. */
enum { LS_STANDARD_SPEEDS = 25 };

typedef struct {
    ls_model model;
    int live_side;
    double V_m_s[LS_STANDARD_SPEEDS], coefficient[LS_STANDARD_SPEEDS]; /* speeds rise */
    double power_W;                                                    /* of the live engines, at the middle */
    double slope; /* of the corrected coefficient on weight x bank */
} ls_standard;

typedef struct {
    const ls_reduce_request *request;
    ls_reduction *out;
    ls_standard *standard;   /* of each group */
    double scale[LS_SCALES]; /* of the fit */
} ls_reducing;

/* Puts a point's condition together: engines, flap, gear, weight, power. Returned: null, or why it cannot be. */
const char *ls_reduce_condition(const ls_aircraft *aircraft, const ls_point *point, ls_condition *condition);

/* Flies a point. Returned: null, or why it cannot be used. */
const char *ls_reduce_fly(const ls_aircraft *aircraft, const ls_point *point, const ls_condition *condition,
                          ls_flown *flown);

/* The rudder, effective and positive against the dead engine, that a model needs at a flown point; trim is filled.
 * Given: start, a trim nearby, or null. Returned: NaN when there is no trim. */
double ls_reduce_rudder(const ls_model *model, const ls_flown *flown, const ls_trim *start, ls_trim *trim);

/* Scales the derivatives of a model. */
void ls_reduce_scale(ls_model *model, const double scale[LS_SCALES]);

/* Moments of the propulsion about the centre of gravity and its side force, body axes; what slipstream rotation
 * does at the fin is not among them. */
void ls_reduce_propulsion(const ls_model *model, const ls_powerplant_point *loads, double alpha_rad,
                          double beta_rad, double force_N[3], double moment_Nm[3]);

/* Yawing moment of the propulsion in a trim, toward the dead side positive, over q S b. */
double ls_reduce_coefficient(const ls_model *model, const ls_powerplant_point *loads, const ls_trim *trim,
                             int live_side);

/* Effective deflection of a rudder angle (either sign). */
double ls_reduce_effective(const ls_model *model, double rudder_rad);

/* The rudder travel, effective, against a dead engine. */
double ls_reduce_travel(const ls_model *model, int live_side);

/* True airspeed at the standard condition at which a corrected coefficient is met; NaN. */
double ls_standard_speed(const ls_standard *standard, double corrected);
/* How a rudder angle falls with speed, its logarithm on that of speed, at a bank; negative. */
double ls_standard_exponent(const ls_standard *standard, double V_m_s, double bank_rad);

double ls_standard_cas(const ls_standard *standard, double V_m_s);

/* Bank's part of the coefficient: slope x weight x sin(bank) over q S. */
double ls_reduce_bank_part(const ls_model *model, double V_m_s, double bank_rad, double slope);

/* What a dynamic point says of itself. Returned: null, or why it cannot be used. */
const char *ls_reduce_judge_dynamic(const ls_point *point, ls_reduced *row);
/* How far above the static speed of its own condition it was flown; scales the model of `flown`. */
void ls_reduce_increment(const ls_reducing *r, ls_flown *flown, ls_reduced *row);
/* The dynamic speed of each group. */
void ls_reduce_dynamic(const ls_reducing *r);

void ls_interval_of(const double *value, int count, double confidence, ls_interval *interval);

ls_status ls_reduce_fit(ls_reducing *reducing, ls_error *error);
ls_status ls_reduce_regress(ls_reducing *reducing, ls_error *error);
ls_status ls_reduce_extrapolate(ls_reducing *reducing, ls_error *error);
ls_status ls_reduce_budget(ls_reducing *reducing, ls_error *error);

#endif
