/* What an aeroplane climbs with every engine running and with engines failed: best speeds, what bank and each drag
 * cost, ceilings, drift-down, and what is left to decide at a field. */
#ifndef LIVESIDE_PERFORMANCE_H
#define LIVESIDE_PERFORMANCE_H

#include "liveside/climb.h"
#include "liveside/trend.h"

enum { LS_CASE_REASON = 96, LS_CASE_STATES = LS_VMCA_STATES + 1 };

#define LS_SERVICE_RATE_ALL_M_S (100.0 * 0.3048 / 60.0) /* service ceiling on every engine: 100 ft/min */
#define LS_SERVICE_RATE_ONE_M_S (50.0 * 0.3048 / 60.0)  /* with an engine failed: 50 ft/min */
#define LS_LEAST_STALLS         1.2 /* no climb speed below this many stall speeds, as 14 CFR 23.67 (Amdt 23-50) */

/* What is asked. */
typedef struct {
    const ls_aircraft *aircraft;
    ls_condition condition; /* every engine running; the rest as wanted */
    int sets;               /* of failed engines; 0: every engine runs, and only that is solved */
    unsigned set[LS_VMCA_SETS];
    int state; /* ls_engine_state of the failed engines, or -1: feathered, or where that cannot be as each goes */
    int bank_given;  /* else the bank of the best climb within the limit */
    double bank_rad; /* toward the live side positive */
    double cas_m_s;  /* at which banks and costs are compared; 0: that of the best rate */
} ls_performance_request;

/* One failure, or none, with one state of its propellers. When status is not LS_OK the rest says nothing. */
typedef struct {
    ls_status status;
    char reason[LS_CASE_REASON];
    unsigned failed;       /* 0: every engine runs */
    ls_engine_state state; /* of the failed engines */
    int live_side;
    ls_condition condition;
    ls_climb_rule rule;
    ls_climb_best rate, gradient;
    double lost;                  /* share of the rate of climb on every engine */
    ls_ceiling service, absolute; /* the first by LS_SERVICE_RATE_ */
} ls_performance_case;

typedef struct {
    unsigned failed;
    int chosen;                                   /* in by_state: what the answer is about */
    ls_performance_case by_state[LS_CASE_STATES]; /* ls_vmca_states; then another one asked for */
} ls_performance_set;

typedef struct {
    ls_performance_case all;
    int sets;
    ls_performance_set set[LS_VMCA_SETS];
    int worst; /* the single failure that leaves the least climb; -1: no failure has an answer */
} ls_performance;

/* Solves every case.
 * Returned: performance; a case without an answer carries its status and reason.
 * Given: watch, may be null.
 * Status: LS_OK; LS_INTERRUPTED; that of the case with every engine running, when it has no answer. */
LS_API ls_status ls_performance_solve(const ls_performance_request *request, const ls_watch *watch,
                                      ls_performance *performance, ls_error *error);

/* The chosen case of the worst failure, or null. */
LS_API const ls_performance_case *ls_performance_worst(const ls_performance *performance);

/* One case alone, without its ceilings.
 * Given: condition, every engine running; all, the case on every engine for `lost`, or null. */
LS_API void ls_performance_case_solve(const ls_performance_request *request, const ls_condition *condition,
                                      unsigned failed, ls_engine_state state, const ls_performance_case *all,
                                      ls_performance_case *out);

/* The true airspeed at which a case's banks and costs are compared. Status: LS_NO_STATE (above Mach 1). */
LS_API ls_status ls_performance_speed(const ls_performance_request *request, const ls_performance_case *of,
                                      double *V_m_s, ls_error *error);

/* ---- against speed ---- */

enum { LS_CLIMB_SPEEDS = 41, LS_CLIMB_LINES = 1 + LS_CASE_STATES * LS_VMCA_SETS + LS_MAX_FLAPS };

typedef struct {
    unsigned failed;
    ls_engine_state state;
    int flap;
    double gear;
    int is_worst; /* of the worst failure */
    ls_status status[LS_CLIMB_SPEEDS];
    ls_climb_point point[LS_CLIMB_SPEEDS];
} ls_climb_line;

typedef struct {
    double cas_m_s[LS_CLIMB_SPEEDS];
    int lines;
    ls_climb_line line[LS_CLIMB_LINES];
} ls_climb_lines;

/* Every case, then the worst failure's chosen one with gear down and with each other flap.
 * Given: first_m_s and step_m_s of the calibrated airspeeds. */
LS_API void ls_climb_lines_solve(const ls_performance_request *request, const ls_performance *performance,
                                 double first_m_s, double step_m_s, ls_climb_lines *lines);

/* ---- against bank ---- */

enum { LS_CLIMB_BANK_POINTS = 31 };

/* When status is not LS_OK the rest says nothing. */
typedef struct {
    ls_status status;
    double bank_rad; /* toward the live side positive */
    ls_climb_point point;
    ls_account account;
} ls_climb_at_bank;

typedef struct {
    double V_m_s;
    ls_climb_at_bank level, no_sideslip, best, limit;
    ls_climb_at_bank by_bank[LS_CLIMB_BANK_POINTS]; /* 5 deg away to 10 deg toward the live side */
} ls_climb_by_bank;

/* Given: of, a case with an answer and a live side (else banks are to the right). */
LS_API void ls_climb_by_bank_solve(const ls_performance_case *of, const ls_aircraft *aircraft, double V_m_s,
                                   ls_climb_by_bank *banks);

/* ---- what each thing costs ---- */

enum { LS_COSTS = LS_MAX_FLAPS + 12 };

typedef struct {
    char name[LS_NAME_SIZE + 32];
    ls_status status;
    char reason[LS_CASE_REASON];
    double rate_m_s; /* of climb lost to it */
    double force_N;  /* the drag that would do the same */
    int is_held;     /* both ways can be held */
} ls_cost;

typedef struct {
    double V_m_s;
    int count;
    ls_cost cost[LS_COSTS];
} ls_costs;

/* What the propeller's states (against one without drag), gear, flaps, cowl flaps, bank and losses of the
 * installation cost at a speed, each trimmed anew. Given: of, a case with failed engines. */
LS_API void ls_costs_solve(const ls_performance_request *request, const ls_performance_case *of, double V_m_s,
                           ls_costs *costs);

/* ---- against altitude ---- */

typedef enum {
    LS_MARGIN_STALL,
    LS_MARGIN_VMC,
    LS_MARGIN_VSSE,
    LS_MARGIN_VXSE,
    LS_MARGIN_VYSE,
    LS_MARGINS
} ls_margin;

LS_API const char *ls_margin_name(ls_margin margin); /* "VXSE" */

enum { LS_HEIGHTS = 25, LS_CROSSINGS = LS_MARGINS * (LS_MARGINS - 1) / 2 };

typedef struct {
    double altitude_m;
    ls_status status; /* of the failed case */
    char reason[LS_CASE_REASON];
    double cas_m_s[LS_MARGINS]; /* NaN where there is none; VMC also below the stall */
    double vy_cas_m_s;          /* every engine running */
    double rate_one_m_s, rate_all_m_s;
    ls_climb_end end[2]; /* of VYSE and VXSE */
    unsigned flags;
} ls_height;

/* Two speeds that are equal at an altitude. */
typedef struct {
    ls_margin first, second; /* first is the lower one beneath the crossing */
    double altitude_m;
} ls_crossing;

typedef struct {
    int heights;
    ls_height height[LS_HEIGHTS];
    int crossings;
    ls_crossing crossing[LS_CROSSINGS];
} ls_heights;

/* The safety margins against altitude: stall (1 g, power off), VMC (as the engine goes by itself, at the bank
 * limit, this weight), VSSE as published, VXSE and VYSE of a case. Given: step_m between altitudes from sea level
 * up. */
LS_API void ls_heights_solve(const ls_performance_request *request, const ls_performance_case *of, double step_m,
                             int heights, ls_heights *out);

/* ---- drift-down ---- */

enum { LS_DRIFT_POINTS = 49 };

typedef enum {
    LS_DRIFT_DOWN,
    LS_DRIFT_CLIMBS, /* it still climbs at the altitude where the engine fails */
    LS_DRIFT_FAILED
} ls_drift_kind;

typedef struct {
    double altitude_m; /* pressure altitude */
    double V_m_s, cas_m_s, rate_m_s;
    double time_s, distance_m; /* since the failure; distance through still air */
} ls_drift_point;

typedef struct {
    ls_drift_kind kind;
    ls_status status;
    char reason[LS_CASE_REASON];
    double from_m, to_m;
    int levels; /* it ends where it sinks at LS_SERVICE_RATE_ONE_M_S; else at sea level, still sinking faster */
    ls_drift_point point[LS_DRIFT_POINTS]; /* LS_DRIFT_DOWN: from the top down, evenly in altitude */
    unsigned flags;
} ls_drift;

/* Drift-down at the speed of best rate. Given: of, a case with failed engines; from_m, pressure altitude. */
LS_API void ls_drift_solve(const ls_performance_case *of, const ls_aircraft *aircraft, double from_m,
                           ls_drift *drift);

/* ---- at a field ---- */

enum { LS_FIELD_CASES = 6, LS_FIELD_ALTITUDES = 6, LS_FIELD_DAYS = 5 };

typedef enum { LS_HEAVIEST_MAXIMUM, LS_HEAVIEST_FOUND, LS_HEAVIEST_NONE, LS_HEAVIEST_FAILED } ls_heaviest;

/* A way to be after the failure, at the speed of best rate for it. */
typedef struct {
    ls_performance_case solved;
    ls_heaviest
        heaviest; /* MAXIMUM: level flight is held at the file's greatest mass; NONE: not even at its least */
    double heaviest_kg;
} ls_field_case;

typedef struct {
    int cases;
    ls_field_case of[LS_FIELD_CASES]; /* gear down and up, windmilling and feathered; then with flaps up */
    double altitude_m[LS_FIELD_ALTITUDES], isa_offset_K[LS_FIELD_DAYS];
    double rate_m_s[LS_FIELD_ALTITUDES][LS_FIELD_DAYS]; /* of the chosen case; NaN without an answer */
} ls_field;

/* Given: of, the worst failure's chosen case. Each case has its absolute ceiling: the highest it holds level. */
LS_API void ls_field_solve(const ls_performance_request *request, const ls_performance_case *of, ls_field *field);

/* ---- against published figures ---- */

/* Computed at sea level, standard day, maximum mass, first flap setting of least deflection; NaN without an
 * answer. Speeds are in the file's kind of published speed. */
typedef struct {
    double vyse_m_s, vxse_m_s, vy_m_s, vx_m_s;
    double climb_m_s, climb_one_engine_m_s;
    double ceiling_m, ceiling_one_engine_m;
} ls_published_climb;

/* Given: request, of which the aircraft and the failures count. */
LS_API void ls_published_climb_solve(const ls_performance_request *request, ls_published_climb *computed);

/* A published speed as calibrated airspeed, by the kind that the file says its published speeds are.
 * Returned: NaN when it is not given, or the file's curve does not reach it. */
LS_API double ls_published_cas(const ls_aircraft *aircraft, double published_m_s);

#endif
