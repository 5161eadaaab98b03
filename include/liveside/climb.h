/* Climb in steady straight flight: at a speed, at the best speed, and where the drag comes from. Rates are those
 * of true height at constant true airspeed. */
#ifndef LIVESIDE_CLIMB_H
#define LIVESIDE_CLIMB_H

#include "liveside/vmc.h"

/* How the bank of a climb is chosen. */
typedef enum {
    LS_CLIMB_BANK_GIVEN,
    LS_CLIMB_BANK_NO_SIDESLIP, /* searched within 15 deg either way */
    LS_CLIMB_BANK_BEST,        /* of the steepest climb, within the condition's bank limit either way */
    LS_CLIMB_BANKS
} ls_climb_bank;

typedef struct {
    ls_climb_bank bank;
    double bank_rad;     /* LS_CLIMB_BANK_GIVEN: right wing down positive */
    double least_stalls; /* the slowest speed that a search may give, in 1 g stall speeds; below 1 counts as 1 */
} ls_climb_rule;

typedef struct {
    double V_m_s, cas_m_s;
    double bank_rad; /* right wing down positive */
    double rate_m_s; /* V sin(climb angle) */
    double gradient; /* tan(climb angle) */
    ls_trim trim;
    ls_margins margins;
    int is_held;    /* no limit is exceeded */
    ls_limit limit; /* the one with least left */
    int bank_end;   /* the best bank lies at the bank limit */
    unsigned flags; /* LS_PROPULSOR_ bits */
} ls_climb_point;

/* The climb at a true airspeed.
 * Returned: point, also where a limit is exceeded (is_held says so); untouched on failure.
 * Status: LS_OK; LS_NO_STATE (no data for a failed propeller; no bank without sideslip); LS_NOT_CONVERGED.
 * Allocates nothing. */
LS_API ls_status ls_climb_at(const ls_model *model, ls_climb_rule rule, double V_m_s, ls_climb_point *point,
                             ls_error *error);

typedef enum { LS_CLIMB_RATE, LS_CLIMB_GRADIENT } ls_climb_aim;

/* Where the best speed lies. */
typedef enum {
    LS_CLIMB_INSIDE,   /* slower and faster are both worse */
    LS_CLIMB_SLOWEST,  /* at the slowest speed that can be held: point.limit says why */
    LS_CLIMB_LEAST,    /* at the least speed that the rule allows: slower would be better */
    LS_CLIMB_FASTEST,  /* at the top of the range searched */
    LS_CLIMB_NOT_HELD, /* no speed of the range can be held: the point is the top of the range */
    LS_CLIMB_ENDS
} ls_climb_end;

LS_API const char *ls_climb_end_text(ls_climb_end end);

typedef struct {
    ls_climb_point point;
    ls_climb_end end;
    double low_m_s, high_m_s; /* range searched, true airspeed */
    double bracket_m_s;       /* width of the last bracket */
    int speeds;               /* tried on the way */
} ls_climb_best;

/* The speed of best rate, or of steepest climb, among those that can be held.
 * Given: near_m_s, a true airspeed to look near first, or 0: the whole range, the rule's least speed to 3 stall
 * speeds (below Mach 0.95).
 * Returned: best; untouched on failure.
 * Status: LS_OK for every physical answer (end says which); else as ls_climb_at. Allocates nothing. */
LS_API ls_status ls_climb_best_speed(const ls_model *model, ls_climb_rule rule, ls_climb_aim aim, double near_m_s,
                                     ls_climb_best *best, ls_error *error);

/* The pressure altitude up to which the best rate of climb reaches a value. */
typedef enum {
    LS_CEILING_FOUND,
    LS_CEILING_ABOVE, /* reached at every altitude up to the top */
    LS_CEILING_NEVER  /* reached at no altitude */
} ls_ceiling_kind;

typedef struct {
    ls_ceiling_kind kind;
    double altitude_m;    /* FOUND */
    double low_m, high_m; /* range searched */
    double bracket_m;     /* width of the last bracket */
    ls_climb_best best;   /* there; where not FOUND, at the altitude that comes nearest */
} ls_ceiling;

/* Finds a ceiling: the lowest altitude at which the best rate falls through rate_m_s, from sea level up; where
 * that is not reached at sea level, below it to -2000 m. Given: condition, whose altitude does not count;
 * rate_m_s, of climb. Returned: ceiling; untouched on failure. Status: LS_OK for every physical answer; else as
 * ls_climb_at. */
LS_API ls_status ls_climb_ceiling(const ls_aircraft *aircraft, const ls_condition *condition, ls_climb_rule rule,
                                  double rate_m_s, double known_m, ls_ceiling *ceiling, ls_error *error);

/* The account of the forces along the flight path. */
typedef enum {
    LS_ACCOUNT_THRUST,  /* running engines, bare */
    LS_ACCOUNT_INSTALL, /* lost to what stands in the slipstream */
    LS_ACCOUNT_ZERO,    /* drag_zero of the clean flap setting */
    LS_ACCOUNT_INDUCED, /* of the clean setting's polar, at this lift */
    LS_ACCOUNT_FLAP,    /* this setting's polar less the clean one's */
    LS_ACCOUNT_GEAR,
    LS_ACCOUNT_COWL,
    LS_ACCOUNT_PROPELLER, /* failed engines */
    LS_ACCOUNT_COOLING,   /* failed engines */
    LS_ACCOUNT_SIDESLIP,  /* with its side force along the path */
    LS_ACCOUNT_RUDDER,    /* the same */
    LS_ACCOUNT_AILERON,   /* the same */
    LS_ACCOUNT_OTHER,     /* in-plane forces of propellers and what else the powerplant adds */
    LS_ACCOUNTS
} ls_account_item;

LS_API const char *ls_account_name(ls_account_item item);

typedef struct {
    double part_N[LS_ACCOUNTS]; /* along the flight path, forward positive: drags are negative */
    double sum_N;               /* weight times the sine of the climb angle, to the trim's tolerance */
} ls_account;

/* The forces along the path at a point of climb. Status: that of the model's powerplant. */
LS_API ls_status ls_climb_account(const ls_model *model, const ls_climb_point *point, ls_account *account,
                                  ls_error *error);

#endif
