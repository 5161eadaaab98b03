/* The minimum control speed: the highest speed at which a limit is met. */
#ifndef LIVESIDE_VMC_H
#define LIVESIDE_VMC_H

#include "liveside/trim.h"

typedef enum {
    LS_LIMIT_RUDDER,
    LS_LIMIT_PEDAL,
    LS_LIMIT_AILERON,
    LS_LIMIT_FIN_STALL,
    LS_LIMIT_WING_STALL,
    LS_LIMITS
} ls_limit;

LS_API const char *ls_limit_name(ls_limit limit); /* "rudder travel" */

/* What is left before each limit, as a share of the limit: 1 untouched, 0 at it, negative beyond.
 * NaN where the limit does not exist. The stall is judged by all the lift that the wing has to give against its
 * power-off maximum: what a slipstream adds to the maximum is not relied on. */
typedef struct {
    double left[LS_LIMITS];
    double stall_power_on; /* of wing stall with the slipstreams' lift counted too: shown, never judged */
} ls_margins;

LS_API void ls_margins_at(const ls_model *model, const ls_trim *trim, ls_margins *margins);

typedef enum {
    LS_VMC_CONTROL,      /* a control or the fin reaches its limit first */
    LS_VMC_STALLS_FIRST, /* the wing stalls with control left */
    LS_VMC_NO_LIMIT,     /* nothing is met in the range */
    LS_VMC_ABOVE_RANGE,  /* a limit is exceeded already at the top of the range */
    LS_VMC_FAILED        /* no trim was found somewhere in the range; see stop */
} ls_vmc_kind;

typedef struct {
    ls_vmc_kind kind;
    ls_limit limit; /* the first met as speed falls; at ABOVE_RANGE the one exceeded */
    unsigned joint; /* bits of all limits met within 1e-5 kt */
    double V_m_s;   /* true airspeed of the answer; NaN when there is none */
    double cas_m_s, eas_m_s;
    ls_trim trim; /* at that speed */
    ls_margins margins;
    double
        control_V_m_s; /* highest speed at a control or fin limit, also below the stall; NaN when none in range */
    double control_cas_m_s;
    ls_limit control_limit;
    double stall_V_m_s; /* where the wing stalls in this trimmed condition; NaN when not in range */
    double stall_cas_m_s;
    double low_V_m_s, high_V_m_s; /* the range searched */
    double bracket_m_s;           /* width of the last bracket of the answer's root */
    int at_jump; /* no root: the dead propeller stops there, its drag jumps, and at any less speed control is lost
                  */
    int everywhere;   /* at ABOVE_RANGE: the limit is exceeded at every speed of the range down to the stall */
    double m_s_per_N; /* at the pedal-force limit: change of V_m_s with the force allowed; else NaN */
    int trims;        /* solved on the way */
    ls_stop stop;     /* why the last trim stopped, when FAILED */
    unsigned flags;   /* LS_PROPULSOR_ bits of the powerplant at the answer */
} ls_vmc;

/* Finds the minimum control speed of a model at a bank.
 * Notes: range 0.6 to 3 times the 1 g power-off stall speed; a limit crossed from below and back between two scan
 * speeds is looked for where a margin's minimum comes near zero.
 * Status: LS_OK for every physical answer (kind says which); LS_NOT_CONVERGED for LS_VMC_FAILED; LS_NO_STATE from
 * the powerplant. Allocates nothing. */
LS_API ls_status ls_vmc_at(const ls_model *model, double bank_rad, ls_vmc *vmc, ls_error *error);

/* What a run of solves keeps from one to the next: where the propellers stood. Zero-initialised it begins; plain
 * data, one a thread. The answers do not depend on it but for round-off. */
typedef struct {
    struct {
        ls_follow unit[LS_MAX_POWERPLANTS][LS_ENGINE_STATES], included[LS_MAX_POWERPLANTS];
    } top, below;                    /* at the top of the range, and lower */
    double top_rad[4];               /* angles of the trim at the top */
    double root_stalls, root_rad[4]; /* where the first limit was met, in 1 g stall speeds, and the angles there */
    long solves, searched;           /* all, and those that had to be searched for step by step */
} ls_vmc_workspace;

/* As ls_vmc_at, but the first limit alone: of control_V_m_s and stall_V_m_s the other one stays NaN, joint limits
 * apart. Given: work, null for none; bank_rad. Returned: vmc, its trim and margins where fill is not 0. */
LS_API ls_status ls_vmc_first(const ls_model *model, double bank_rad, int fill, ls_vmc_workspace *work,
                              ls_vmc *vmc, ls_error *error);

/* Whether the first limit plainly lies below a speed: none is met there or faster, proved as ls_vmc_first proves
 * its answer, for half the work. Given: V_m_s, true airspeed; work of an earlier ls_vmc_first of this failure.
 * Returned: 1; 0 where it does not, or where it is not plain. Allocates nothing. */
LS_API int ls_vmc_is_below(const ls_model *model, double bank_rad, double V_m_s, ls_vmc_workspace *work);

/* The same by a plain scan downward in steps of 0.1 kt: slow, the oracle of the tests. */
LS_API ls_status ls_vmc_scan(const ls_model *model, double bank_rad, ls_vmc *vmc, ls_error *error);

/* Whether one answer is less favourable than another: no speed that will do in the range, then control lost above
 * the stall, then the wing stalling first, then no limit at all; of the same kind, the higher speed. */
LS_API int ls_vmc_is_worse(const ls_vmc *one, const ls_vmc *other);

/* What ls_vmc_worst may vary. */
enum { LS_SEARCH_MASS = 1, LS_SEARCH_CG = 2, LS_SEARCH_LATERAL = 4, LS_SEARCH_ALL = 7 };

/* The weight and centre of gravity of the file's range that give the highest control-limited minimum control speed
 * (above the stall at that weight); where the wing stalls first everywhere, the highest of those speeds.
 * Given: condition, whose weight and centre of gravity hold where `search` (LS_SEARCH_ bits) does not vary them;
 * bank_rad.
 * Returned: worst, the condition with them set; vmc, the answer there. */
LS_API ls_status ls_vmc_worst(const ls_aircraft *aircraft, const ls_condition *condition, unsigned search,
                              double bank_rad, ls_condition *worst, ls_vmc *vmc, ls_error *error);

/* The bank within +-bank_limit of the condition that gives the lowest minimum control speed, and the bank, at its
 * own minimum control speed, of zero sideslip (searched toward the live side to 15 deg). Status: LS_NO_STATE when
 * there is none in the range (the record is untouched). */
LS_API ls_status ls_vmc_best_bank(const ls_model *model, double *bank_rad, ls_vmc *vmc, ls_error *error);
LS_API ls_status ls_vmc_zero_sideslip_bank(const ls_model *model, double *bank_rad, ls_vmc *vmc, ls_error *error);

#endif
