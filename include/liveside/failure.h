/* What a sudden failure asks of the pilot: one failure followed with and without action, the dynamic minimum
 * control speed, recovery, demonstration, and the feathering drill on a clock. */
#ifndef LIVESIDE_FAILURE_H
#define LIVESIDE_FAILURE_H

#include "liveside/motion.h"
#include "liveside/vmca.h"

enum { LS_FAILURE_DELAYS = 7, LS_FAILURE_SPEEDS = 6, LS_DRILL_ROWS = 7 };

/* What is asked. */
typedef struct {
    ls_vmca_request condition; /* which engine and loading: see ls_failure_choose */
    ls_motion_request motion;  /* condition, failed, state, V_m_s and bank_rad are filled in */
    double cas_m_s;
} ls_failure_request;

/* Which engine fails, and at which loading: of the request's sets of one engine (of all, where none is single) the
 * one with the highest minimum control speed at its least favourable loading, at the bank asked for or the limit.
 * Returned: failed; condition, every engine running, that loading in it; bank_rad in body axes; vmc, there.
 * Status: that of ls_vmc_worst. */
LS_API ls_status ls_failure_choose(const ls_aircraft *aircraft, const ls_vmca_request *request, unsigned *failed,
                                   ls_condition *condition, double *bank_rad, ls_vmc *vmc, ls_error *error);

/* The lowest speed at which straight flight is regained and held, one delay of the pilot. */
typedef struct {
    double delay_s;
    ls_status status;
    char reason[96];
    double V_m_s, cas_m_s;   /* true and calibrated; NaN: none in the range */
    double reported_cas_m_s; /* the higher of it and the static one */
    int is_lowest;           /* 0: it passes right down to the stall, whose speed it is */
    ls_motion_end below;     /* what happens just below it */
    double heading_most_rad; /* at it */
    int runs;
} ls_dynamic_vmc;

/* Finds it.
 * Given: base, whose hold, delay and speed are replaced (the airspeed is held exactly); static_V_m_s, true, at the
 * same condition and bank, NaN when none; delay_s. Returned: answer, always filled; its status is LS_MEMORY,
 * and there is no answer, when memory ran out. Notes: straight flight
 * regained and held LS_STRAIGHT_S within 90 s, the heading never off by more than 20 deg, the bank within its
 * limit at the end and never beyond 45 deg, travel and pedal force within theirs, the live engines' power as it
 * was. To 0.05 kt, by bisection below the lowest speed that passes on a coarse scan. */
LS_API void ls_dynamic_vmc_find(const ls_aircraft *aircraft, const ls_motion_request *base, double static_V_m_s,
                                double delay_s, ls_dynamic_vmc *answer);

/* One speed and delay of the sweep. */
typedef struct {
    ls_motion_end end;
    double heading_most_rad;
} ls_failure_cell;

typedef struct {
    ls_motion_request request; /* as flown */
    int live_side;             /* ls_live_side after the failure */
    ls_vmc fixed;              /* the static minimum control speed, same condition and bank */
    ls_motion with_action, no_action;
    ls_dynamic_vmc asked; /* for the delay asked for */
    ls_dynamic_vmc dynamic[LS_FAILURE_DELAYS];
    double speed_m_s[LS_FAILURE_SPEEDS], cas_m_s[LS_FAILURE_SPEEDS]; /* of the sweep, true and calibrated */
    ls_failure_cell cell[LS_FAILURE_SPEEDS][LS_FAILURE_DELAYS];
} ls_failure;

/* The delays of dynamic and cell, s. */
LS_API extern const double ls_failure_delays[LS_FAILURE_DELAYS];

/* Answers a request. Returned: failure, freed with ls_failure_free. Status: LS_OK; that of ls_failure_choose or
 * ls_motion_run. */
LS_API ls_status ls_failure_solve(const ls_aircraft *aircraft, const ls_failure_request *request,
                                  ls_failure *failure, ls_error *error);
LS_API void ls_failure_free(ls_failure *failure);

/* What came of throttling the live engines and lowering the nose. */
typedef struct {
    int is_regained;
    double seconds; /* from the throttling until control is regained: turn below 1 deg/s and bank below 10 deg, for
                       a second */
    double height_lost_m; /* from the throttling until then */
    double lowest_m;      /* from the failure to the lowest point by then, negative below it */
    double cas_m_s;       /* calibrated, then */
} ls_recovery;
LS_API void ls_recovery_of(const ls_motion *motion, double recover_s, ls_recovery *recovery);

/* The demonstration: the failed engine's throttle closed, full power on the live ones, the speed falling by 1 kt a
 * second, heading and bank held. */
typedef struct {
    ls_motion motion;
    ls_engine_state state; /* of the failed engine: idling, or windmilling where the file has no data for that */
    double rudder_V_m_s, rudder_cas_m_s; /* where the rudder is at its stop or at the force limit; NaN */
    int by_force;
    double turn_cas_m_s; /* where the turn passes 3 deg/s after that; NaN */
    double end_cas_m_s;
    int control_first; /* the rudder runs out before the wing or the fin stalls */
} ls_slowing;
LS_API ls_status ls_slowing_run(const ls_aircraft *aircraft, const ls_motion_request *base, double static_V_m_s,
                                ls_slowing *demonstration, ls_error *error);

/* One row of the drill: feathering selected after so many seconds to identify and verify. */
typedef struct {
    double seconds; /* infinite: never */
    ls_motion_end end;
    double end_s;
    double climbed_m, cas_m_s; /* after LS_DRILL_S, or at the end */
    double rev_s;              /* when feathering is selected; NaN */
    int latched;
    double stopped_s; /* when the propeller stands; NaN */
} ls_drill_row;
#define LS_DRILL_S 60.0
typedef struct {
    ls_drill_row row[LS_DRILL_ROWS];
    double latch_s; /* when it falls below the latch if it is never feathered; NaN */
} ls_drill;
LS_API ls_status ls_drill_run(const ls_aircraft *aircraft, const ls_motion_request *base, ls_drill *drill,
                              ls_error *error);

#endif
