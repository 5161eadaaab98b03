/* What one propeller does: through a flight, on a dead engine, in flow from the side, and with other blades. */
#ifndef LIVESIDE_PROPELLER_STUDY_H
#define LIVESIDE_PROPELLER_STUDY_H

#include "liveside/disc.h"
#include "liveside/vmca.h"

enum {
    LS_PROP_SPEEDS = 81,
    LS_PROP_PITCHES = 61,
    LS_PROP_INCIDENCES = 21,
    LS_PROP_FIXED = 6, /* fixed pitches whose efficiency is compared */
    LS_PROP_HEIGHTS = 4,
    LS_PROP_ZERO_SPEEDS = 6,
    LS_PROP_STATES = 6,
    LS_PROP_BLADES_MIN = 2,
    LS_PROP_BLADES_MAX = 8
};

/* One engine of an aeroplane in a condition, prepared; refers to the aircraft, which must outlive it. */
typedef struct {
    const ls_aircraft *aircraft;
    int engine; /* whose propeller it is */
    ls_model model;
    const ls_powerplant *powerplant; /* in the model: do not copy this record */
    ls_blade blade;
    ls_disc disc;
    double solidity, activity_factor;
    double rated_rev_s; /* of the propeller */
} ls_prop_study;

/* Prepares a study.
 * Given: condition, whatever its engines do; engine, index. Returned: study.
 * Status: LS_NO_STATE (a jet, or a propeller of kind coefficients: the message says so); as ls_model_make. */
LS_API ls_status ls_prop_study_make(const ls_aircraft *aircraft, const ls_condition *condition, int engine,
                                    ls_prop_study *study, ls_error *error);

/* One working point. What does not apply is not a number. */
typedef struct {
    ls_status status;
    char reason[96]; /* why there is no point */
    ls_engine_state state;
    double V_m_s, cas_m_s;
    double lever_rev_s; /* the speed that the unit is set to hold */
    double n_rev_s, pitch_rad;
    double thrust_N, torque_Nm, power_W, efficiency, advance_ratio;
    double map_Pa; /* manifold pressure, piston engine that fires */
    double mach_tip;
    unsigned flags;
    double phi75_rad, alpha75_rad; /* inflow angle and incidence of the section at 0.75 R */
    double cl75, cd75, mach75;
    double u75_m_s, swirl75_m_s; /* induced velocities there */
} ls_prop_point;

typedef enum {
    LS_PHASE_RUN_UP,
    LS_PHASE_ROLL,
    LS_PHASE_CLIMB,
    LS_PHASE_CRUISE,
    LS_PHASE_CLOSED,
    LS_PHASE_FORWARD,
    LS_PHASE_AFT,
    LS_PHASE_FEATHERED,
    LS_PHASES
} ls_phase;

LS_API const char *ls_phase_name(ls_phase phase); /* "take-off roll" */

/* Of the flight's speeds, over the stall speed and the rating. */
#define LS_PROP_ROLL_STALLS  0.8
#define LS_PROP_CRUISE_MAP   0.80
#define LS_PROP_CRUISE_SPEED 0.85
#define LS_PROP_CRUISE_POWER 0.75 /* engines without manifold pressure */
#define LS_PROP_CLIMB_STALLS 1.2  /* the slowest that the best climb may be */

typedef struct {
    ls_prop_point phase[LS_PHASES];
} ls_prop_flight;

/* The propeller at standstill, at 0.8 stall speeds, at the best rate of climb on all engines (maximum continuous
 * power), in level flight on cruise power, and dead at the speed of the climb; all at the condition's height. */
LS_API void ls_prop_flight_solve(const ls_prop_study *study, ls_prop_flight *flight);

/* The unit's point at a true airspeed, in a state; power, a fraction of what is available. */
LS_API void ls_prop_point_solve(const ls_prop_study *study, ls_engine_state state, double power, double V_m_s,
                                ls_prop_point *point);

/* What a dead propeller does. */
typedef struct {
    ls_status status;
    double n_rev_s, pitch_rad, drag_N;
    unsigned flags;
} ls_dead_point;

typedef struct {
    int count;
    double V_m_s[LS_PROP_SPEEDS], cas_m_s[LS_PROP_SPEEDS];
    ls_dead_point forward[LS_PROP_SPEEDS], aft[LS_PROP_SPEEDS], idle[LS_PROP_SPEEDS];
    ls_dead_point stopped[LS_PROP_SPEEDS], feathered[LS_PROP_SPEEDS];
    double stops_cas_m_s;   /* below it the propeller cannot windmill; not a number: it turns at any speed */
    double latched_cas_m_s; /* below it, windmilling with the lever forward, it cannot be feathered */
    double aft_cas_m_s;     /* above it the lever aft coarsens the blades */
} ls_dead_by_speed;

/* Given: calibrated airspeeds, first and step; count at most LS_PROP_SPEEDS. */
LS_API void ls_dead_by_speed_solve(const ls_prop_study *study, double first_m_s, double step_m_s, int count,
                                   ls_dead_by_speed *dead);

typedef struct {
    int count;
    double V_m_s;
    double pitch_rad[LS_PROP_PITCHES];
    ls_dead_point windmilling[LS_PROP_PITCHES], stopped[LS_PROP_PITCHES];
    double stops_rad; /* the coarsest pitch at which it still windmills; not a number: all */
    double
        crossing_rad; /* above this pitch a windmilling propeller drags less than a stopped one; or not a number */
} ls_dead_by_pitch;

/* From the fine stop to feather, or to the coarse stop. Given: V_m_s, true; count, 2 to LS_PROP_PITCHES. */
LS_API void ls_dead_by_pitch_solve(const ls_prop_study *study, double V_m_s, int count, ls_dead_by_pitch *dead);

/* Loads of the running propeller in flow that crosses its disc, pitch and speed of rotation held. */
typedef struct {
    int count;
    ls_prop_point at; /* full power, no incidence */
    ls_status status;
    double incidence_rad[LS_PROP_INCIDENCES];
    double
        offset_m[LS_PROP_INCIDENCES]; /* of the thrust, toward the down-going blade; not a number near no thrust */
    double normal_N[LS_PROP_INCIDENCES], moment_Nm[LS_PROP_INCIDENCES];
    double offset_bound_m[LS_PROP_INCIDENCES]; /* the same with the induced flow frozen: the upper bound */
    double normal_bound_N[LS_PROP_INCIDENCES];
} ls_prop_incidence;

/* Given: V_m_s, true; step_rad of incidence; count at most LS_PROP_INCIDENCES. */
LS_API void ls_prop_incidence_solve(const ls_prop_study *study, double V_m_s, double step_rad, int count,
                                    ls_prop_incidence *incidence);

typedef struct {
    int count;
    double V_m_s[LS_PROP_SPEEDS], cas_m_s[LS_PROP_SPEEDS];
    ls_prop_point takeoff[LS_PROP_SPEEDS], continuous[LS_PROP_SPEEDS];
    double ideal_N[LS_PROP_SPEEDS]; /* momentum theory's limit at the shaft power of take-off */
    double fixed_pitch_rad[LS_PROP_FIXED];
    double fixed_efficiency[LS_PROP_FIXED][LS_PROP_SPEEDS]; /* at the rated speed of rotation; 0 or less: none */
} ls_prop_by_speed;

/* Given: calibrated airspeeds, first >= 0 and step; count at most LS_PROP_SPEEDS. */
LS_API void ls_prop_by_speed_solve(const ls_prop_study *study, double first_m_s, double step_m_s, int count,
                                   ls_prop_by_speed *by_speed);

/* The highest thrust that momentum theory allows at a shaft power: P = T (V + v), T = 2 rho A v (V + v). */
LS_API double ls_prop_ideal_thrust(double power_W, double V_m_s, double area_m2, double rho_kg_m3);

/* The settings at which a running propeller is like none, and like a feathered one. */
typedef struct {
    int heights, speeds;
    double altitude_m[LS_PROP_HEIGHTS], cas_m_s[LS_PROP_ZERO_SPEEDS];
    ls_prop_point zero[LS_PROP_HEIGHTS][LS_PROP_ZERO_SPEEDS];    /* no thrust */
    ls_prop_point feather[LS_PROP_HEIGHTS][LS_PROP_ZERO_SPEEDS]; /* the drag of the feathered propeller */
} ls_zero_thrust;

/* Given: altitudes from the condition's up in steps; calibrated airspeeds, first and step. */
LS_API void ls_zero_thrust_solve(const ls_prop_study *study, double altitude_step_m, int heights, double first_m_s,
                                 double step_m_s, int speeds, ls_zero_thrust *zero);

/* What it is worth whether the engine is dead or only idles: drag, and minimum control speed. */
typedef struct {
    int count;
    double V_m_s, cas_m_s;
    ls_engine_state state[LS_PROP_STATES];
    ls_prop_point point[LS_PROP_STATES];
    ls_vmca_point vmc[LS_PROP_STATES]; /* status not LS_OK without a set */
} ls_idle_demonstration;

/* Given: set, a solved answer in which the study's engine has failed, or null; V_m_s, true, for the drags. */
LS_API void ls_idle_demonstration_solve(const ls_prop_study *study, const ls_vmca_set *set, double V_m_s,
                                        ls_idle_demonstration *demonstration);

/* Other numbers of the same blade, at the same tip speed and power: pitch as that needs, no stops. */
enum { LS_BLADE_SETTINGS = 3 }; /* run-up, climb, cruise */

typedef struct {
    ls_status status;
    int blades;
    double solidity;
    double absorbed_W; /* in the climb, at the blade angle of the file's own propeller */
    double pitch_rad[LS_BLADE_SETTINGS], thrust_N[LS_BLADE_SETTINGS], efficiency[LS_BLADE_SETTINGS];
    double feathered_N; /* drag, at the climb's speed */
} ls_blade_count;

typedef struct {
    int count;
    double V_m_s[LS_BLADE_SETTINGS], cas_m_s[LS_BLADE_SETTINGS]; /* not numbers: no such point */
    double power_W[LS_BLADE_SETTINGS], n_rev_s[LS_BLADE_SETTINGS];
    ls_blade_count row[LS_PROP_BLADES_MAX - LS_PROP_BLADES_MIN + 1];
} ls_blade_counts;

/* Given: flight, for the speeds of climb and cruise; low and high number of blades within LS_PROP_BLADES_MIN to
 * LS_PROP_BLADES_MAX. */
LS_API void ls_blade_counts_solve(const ls_prop_study *study, const ls_prop_flight *flight, int low, int high,
                                  ls_blade_counts *counts);

#endif
