/* What the airworthiness rules ask of minimum control speeds, as data with paragraph numbers, and an assessment of
 * an aeroplane's model against them. It is no showing of compliance. */
#ifndef LIVESIDE_RULES_H
#define LIVESIDE_RULES_H

#include "liveside/units.h"
#include "liveside/vmc.h"

/* Which aeroplanes a basis or a condition is for; a bound of 0 is none. */
typedef struct {
    int engines_least, engines_most;
    unsigned types;         /* 1 << ls_engine_type; 0 for any */
    double mass_above_kg;   /* of the maximum mass */
    double piston_above_kg; /* the same for piston engines only */
    double mass_to_kg;
    double landing_stall_above_m_s, landing_stall_to_m_s; /* VS0, calibrated */
    const char *unknown; /* a further fact that no aeroplane file holds ("commuter category"), or null */
} ls_rule_scope;

typedef enum { LS_APPLIES_NO, LS_APPLIES_YES, LS_APPLIES_UNKNOWN } ls_rule_applies;

typedef enum {
    /* How the analysis is set, as the paragraph says. */
    LS_RULE_SET_POWER,
    LS_RULE_SET_TRIM,
    LS_RULE_SET_FLAP,
    LS_RULE_SET_GEAR,
    LS_RULE_SET_PROPELLER, /* of the failed engine */
    LS_RULE_SET_LOADING,   /* weight and centre of gravity */
    LS_RULE_SET_GROUND,    /* no ground effect */
    LS_RULE_SET_LIMITS,    /* bank and force, where the paragraph itself has no numbers */
    /* What is judged. */
    LS_RULE_STALL_MULTIPLE, /* the speed over the stall speed at maximum take-off mass; at most `limit` */
    LS_RULE_BANK,           /* straight flight within this bank, rad */
    LS_RULE_PEDAL,          /* pedal force, N */
    LS_RULE_NO_POWER_CUT,   /* share of the power that the live engines keep; at least `limit` */
    /* Speeds that follow. */
    LS_RULE_SPEED_FOUND,   /* a minimum control speed to be determined, without a limit */
    LS_RULE_TAKEOFF_SPEED, /* a scheduled speed, at least the greater of two multiples */
    LS_RULE_VSSE,
    /* What a static analysis cannot judge. */
    LS_RULE_HEADING, /* change of heading, rad */
    LS_RULE_GROUND,  /* deviation on the ground, m */
    LS_RULE_ROLL,    /* time to roll, s */
    LS_RULE_PERFORMANCE,
    /* Judged by the climb with an engine failed. */
    LS_RULE_CLIMB,
    LS_RULE_KINDS
} ls_rule_kind;

/* Which minimum control speed a condition is about. */
typedef enum { LS_CASE_TAKEOFF, LS_CASE_LANDING, LS_CASE_TWO_OUT, LS_CASES } ls_rule_case;

typedef enum { LS_CLIMB_FLAP_UP, LS_CLIMB_FLAP_TAKEOFF, LS_CLIMB_FLAP_APPROACH } ls_rule_climb_flap;
typedef enum { LS_CLIMB_POWER_TAKEOFF, LS_CLIMB_POWER_CONTINUOUS, LS_CLIMB_POWER_GO_AROUND } ls_rule_climb_power;
typedef enum { LS_CLIMB_LEAST_DRAG, LS_CLIMB_AS_IT_GOES } ls_rule_climb_propeller;

/* What a paragraph says of the climb speed. */
typedef struct {
    enum {
        LS_CLIMB_SPEED_AT_LEAST, /* this multiple of the stall speed in the flown configuration */
        LS_CLIMB_SPEED_AT_MOST,
        LS_CLIMB_SPEED_TAKEOFF, /* the take-off speed that the basis calls so, or faster as the applicant chooses
                                 */
        LS_CLIMB_SPEED_OTHER,   /* a speed that this analysis does not find */
        LS_CLIMB_SPEED_ANY
    } kind;
    double stall_multiple; /* NaN where the kind has none */
    const char *name;
} ls_rule_climb_speed;

/* A climb gradient with an engine failed. */
typedef struct {
    double
        gradient[3]; /* at least this for two, three, four engines; 0 to be exceeded; NaN: to be determined only */
    double height_m; /* above the surface, or the pressure altitude */
    int is_altitude;
    ls_rule_climb_flap flap;
    double gear; /* 0 up to 1 down */
    ls_rule_climb_power power;
    ls_rule_climb_propeller propeller;
    double bank_rad; /* at most; NaN where the paragraph does not say */
    ls_rule_climb_speed speed;
} ls_rule_climb;

/* One requirement, in our own words. */
typedef struct {
    const char *paragraph; /* "23.149(b)(4)" */
    ls_rule_kind kind;
    ls_rule_case of;
    ls_rule_scope scope;
    double limit;        /* SI, as the kind says; 0 where there is none */
    double vmc_multiple; /* LS_RULE_TAKEOFF_SPEED; 0: not from this speed */
    double stall_multiple;
    const char *speed;          /* LS_RULE_TAKEOFF_SPEED and LS_RULE_SPEED_FOUND: "VR" */
    const ls_rule_climb *climb; /* LS_RULE_CLIMB */
    const char *text;           /* what the paragraph asks, paraphrased */
    const char *not_shown;      /* what this analysis leaves open of it; "" for nothing more */
    const char *read;           /* the text that was read, or "from memory" */
} ls_rule_condition;

typedef struct {
    const char *name;       /* ours: "part23-amdt50" */
    const char *title;      /* the document and amendment */
    const char *applies_to; /* which aeroplanes, in words */
    const char *stall_name; /* "VS1" */
    const char *stall_note; /* how it differs from the model's stall speed */
    ls_rule_scope scope;
    double bank_rad; /* limits that the speeds are found with */
    double pedal_force_N;
    int heaviest_first; /* take-off at maximum mass, lighter only where the wing stalls first; else any mass */
    int approach_flaps; /* landing and approach: every extended flap setting; else the landing setting alone */
    int count;
    const ls_rule_condition *condition;
} ls_rule_basis;

/* Every basis. Returned: the table, and how many. */
LS_API const ls_rule_basis *ls_rules_bases(int *count);

/* The basis of a name, or null. */
LS_API const ls_rule_basis *ls_rules_find(const char *name);

/* Whether a scope takes in an aircraft. UNKNOWN where that rests on what the file does not say. */
LS_API ls_rule_applies ls_rules_apply(const ls_aircraft *aircraft, const ls_rule_scope *scope);

typedef enum {
    LS_VERDICT_MET,
    LS_VERDICT_NOT_MET,
    LS_VERDICT_NOT_ASSESSED,
    LS_VERDICT_NOT_APPLICABLE,
    LS_VERDICT_SET,   /* the analysis was set so */
    LS_VERDICT_VALUE, /* a number that follows, without a limit to meet */
    LS_VERDICTS
} ls_rule_verdict;

LS_API const char *ls_rule_verdict_text(ls_rule_verdict verdict); /* "not met"; never null */

/* What the figure and the limit of a kind are measured in. */
LS_API ls_dimension ls_rule_dimension(ls_rule_kind kind);

enum { LS_RULES_LINES = 40, LS_RULES_NOTE = 200 };

/* A minimum control speed found as a basis says. */
typedef struct {
    ls_status status; /* when not LS_OK the rest says nothing but `reason` */
    char reason[LS_RULES_NOTE];
    unsigned failed;        /* 0: the basis or the aeroplane has no such case */
    ls_condition condition; /* with the most unfavourable loading */
    double bank_rad;        /* toward the live side positive */
    ls_vmc vmc;
    double cas_m_s;
    int bound; /* 0: the speed itself; -1: it lies below (the wing stalls first, or no limit is met); +1: above */
} ls_rules_speed;

/* A condition, judged. */
typedef struct {
    const ls_rule_condition *condition;
    ls_rule_applies applies;
    ls_rule_verdict verdict;
    double figure;        /* SI, as the kind says; a speed is calibrated; NaN when there is none */
    double required;      /* the same; NaN when there is none */
    int bound;            /* as in ls_rules_speed, of the figure */
    unsigned failed;      /* the engines whose failure rules; 0 when that does not arise */
    double climb_cas_m_s; /* speed of the climb that was judged; NaN when there is none */
    char note[LS_RULES_NOTE];
} ls_rules_line;

typedef struct {
    const ls_rule_basis *basis;
    ls_rule_applies applies;
    double stall_cas_m_s; /* 1 g, power off, maximum mass, take-off flap, gear up, sea level */
    int engines;
    ls_rules_speed takeoff[LS_MAX_ENGINES]; /* each engine failed in turn */
    ls_rules_speed speed[LS_CASES];         /* the failure that rules */
    int lines;
    ls_rules_line line[LS_RULES_LINES];
    int met, not_met, not_assessed; /* counted where the condition applies for certain */
} ls_rules_result;

/* Judges an aircraft by a basis, also where its scope does not take the aircraft in (`applies` says so).
 * Notes: sea level, standard day; the propeller of a failed engine goes as it goes by itself; the bank is the one
 * of the lowest speed within the basis's limit; mass and centre of gravity are searched for the most unfavourable.
 * Static: nothing is said of the motion after the failure. It is no showing of compliance.
 * Status: LS_OK, whatever the verdicts; LS_NO_STATE (fewer than two engines, no data for a failed propeller);
 * LS_NOT_CONVERGED; LS_FILE_REJECTED from the powerplant. */
LS_API ls_status ls_rules_assess(const ls_aircraft *aircraft, const ls_rule_basis *basis, ls_rules_result *result,
                                 ls_error *error);

/* A climb gradient that a basis asks of an aircraft. */
typedef struct {
    const ls_rule_condition *condition;
    ls_rule_applies applies; /* never LS_APPLIES_NO */
    double gradient;    /* for this number of engines: at least this, 0 to be exceeded; NaN: to be determined */
    ls_condition flown; /* every engine running; flap, gear, height and maximum mass as asked, standard day */
    double least_cas_m_s, most_cas_m_s; /* climb speeds that are multiples of the stall speed; else NaN */
} ls_rules_climb;

/* The climb gradients of a basis that apply, or may apply, to an aircraft, in the order of the data.
 * Given: capacity of climb. Returned: how many there are (more than capacity: the rest is left out). */
LS_API int ls_rules_climb_required(const ls_aircraft *aircraft, const ls_rule_basis *basis, ls_rules_climb *climb,
                                   int capacity);

#endif
