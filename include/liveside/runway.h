/* The take-off roll when an engine fails: rudder alone keeps it on the runway.
 *
 * Signs: x along the runway, y to the right of the centreline, heading to the right and crosswind from the right
 * positive; rudder as in ls_derivatives. */
#ifndef LIVESIDE_RUNWAY_H
#define LIVESIDE_RUNWAY_H

#include "liveside/motion.h"

/* 30 ft. Source: 14 CFR 25.149(e). */
#define LS_RUNWAY_LIMIT_M (30.0 * 0.3048)

typedef struct {
    ls_condition condition; /* before the failure: every engine running, gear down */
    unsigned failed;
    ls_engine_state state;
    double V_m_s;   /* true airspeed along the runway at the failure */
    double delay_s; /* until the pilot acts; infinite: never */
    double crosswind_m_s;
    double duration_s;        /* 0: 20 s */
    double tolerance;         /* 0: 1e-7 */
    double sample_s;          /* 0: 0.1 s */
    int past_parallel;        /* goes on for the whole time */
    ls_loads_function *loads; /* as in ls_motion_request */
} ls_runway_request;

typedef enum {
    LS_RUNWAY_PARALLEL,  /* the path is again parallel to the centreline */
    LS_RUNWAY_DIVERGING, /* it is not when the time is over */
    LS_RUNWAY_FIN_STALL, /* control lost: the fin stalls */
    LS_RUNWAY_LOST,      /* the motion can no longer be followed, or it has turned by 60 deg */
    LS_RUNWAY_ENDS
} ls_runway_end;

LS_API const char *ls_runway_end_text(ls_runway_end end);

typedef struct {
    double t_s, x_m, y_m, V_m_s, cas_m_s, heading_rad, path_rad, beta_rad, r_rad_s;
    double rudder_rad, pedal_force_N, tyre_N; /* side force of the main wheels, to the right positive */
    double load_N;                            /* on the main wheels */
    double failed_rev_s, failed_thrust_N;
} ls_runway_sample;

typedef struct {
    ls_runway_end end;
    double end_s, parallel_s; /* when the path is parallel again; NaN */
    double y_most_m;          /* largest in magnitude from the centreline by then (or by the end), signed */
    double heading_most_rad;
    double rudder_stop_s, pedal_limit_s; /* as in ls_motion */
    double lifts_s;                      /* when the wheels first carry nothing: from there it is held down; NaN */
    double rudder_start_rad;             /* that holds it straight before the failure */
    int count;
    ls_runway_sample *sample;
} ls_runway;

/* Follows a roll from the failure until the path is parallel to the centreline again.
 * Returned: runway, freed with ls_runway_free. Status: LS_OK; LS_NO_STATE; LS_MEMORY.
 * Notes: a plane motion, wings level (ailerons may see to that), nose wheel rolling free; rudder alone, within
 * travel, pedal force and rate. Main wheels: side force mu N tanh(C s/mu) against the slip s of their axle, N
 * their share of weight less lift; with ground.cornering zero there is none. Source of the form: a tyre's side
 * force grows with slip and ends at friction, common practice. */
LS_API ls_status ls_runway_run(const ls_aircraft *aircraft, const ls_runway_request *request, ls_runway *runway,
                               ls_error *error);
LS_API void ls_runway_free(ls_runway *runway);

/* The lowest speed at which a failure leaves the path parallel again with no more than 30 ft of deviation. */
typedef struct {
    ls_status status;
    char reason[96];
    double V_m_s, cas_m_s; /* NaN: none in the range */
    int is_lowest;         /* 0: it passes down to the lowest speed looked at */
    ls_runway_end below;
    double y_most_m, parallel_s; /* at it */
} ls_vmcg;

/* Given: base, whose speed is about where the answer is thought to lie, or 0. Returned: vmcg, always filled;
 * its status is LS_MEMORY, and there is no answer, when memory ran out.
 * Notes: from 6 kt above that if it passes there, else from 1.8 stall speeds, down to 0.4 in steps of 4 kt, then
 * by bisection to 0.05 kt. */
LS_API void ls_vmcg_find(const ls_aircraft *aircraft, const ls_runway_request *base, ls_vmcg *vmcg);

/* Wheels of an aeroplane: the file's, or estimated. */
typedef struct {
    double main_behind_m; /* the centre of gravity */
    double main_share;    /* of the load */
} ls_wheels;
/* Notes: where they are not given, main wheels a tenth of the chord behind the aft limit of the centre of gravity,
 * nose wheel 0.22 spans ahead of them: own estimates. */
LS_API ls_wheels ls_wheels_of(const ls_aircraft *aircraft, double cg_aft_m);

#endif
