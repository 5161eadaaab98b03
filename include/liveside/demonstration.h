/* A plan for showing the minimum control speed in training, and how much rudder and aileron is left at a speed. */
#ifndef LIVESIDE_DEMONSTRATION_H
#define LIVESIDE_DEMONSTRATION_H

#include "liveside/performance.h"

enum { LS_DEMONSTRATION_ALTITUDES = 5, LS_DEMONSTRATION_MASSES = 2, LS_DEMONSTRATION_SPEEDS = 61 };

#define LS_DEMONSTRATION_MARGIN_M_S                                                                              \
    (5.0 * 1852.0 / 3600.0)                                 /* loss of heading above the stall (common practice) \
                                                             */
#define LS_DEMONSTRATION_ABOVE_M_S (10.0 * 1852.0 / 3600.0) /* entry above VYSE or VSSE (common practice) */

/* What is asked. */
typedef struct {
    const ls_aircraft *aircraft;
    ls_vmca_request
        request; /* the engine to be idled, as for ls_breakdown_solve; weight where it is not searched */
    int altitudes;
    double altitude_m[LS_DEMONSTRATION_ALTITUDES];
    double margin_m_s;   /* below which it is not to be demonstrated */
    double rudder_share; /* of the travel that the instructor allows; 1: all */
    double cas_m_s;      /* for the margins; 0: none asked for */
} ls_demonstration_request;

typedef enum {
    LS_DEMONSTRATE,
    LS_DEMONSTRATE_TOO_CLOSE,   /* heading is lost less than the margin above the stall */
    LS_DEMONSTRATE_STALL_FIRST, /* the stall comes first */
    LS_DEMONSTRATE_UNKNOWN      /* an answer is missing */
} ls_demonstration_advice;

/* One altitude and weight. Speeds are CAS; NaN where there is none. */
typedef struct {
    double altitude_m, mass_kg;
    double entry_m_s;     /* a stated amount above the higher of best one-engine climb and VSSE */
    double idle_m_s[2];   /* heading is lost with the engine idling; two where the file gives only bounds of idle:
                             no thrust, and windmilling */
    double dead_m_s;      /* the same, really dead: windmilling */
    double feathered_m_s; /* and feathered */
    double stall_m_s;     /* trimmed, idling, power-off lift */
    double margin_m_s;    /* the lower idle speed less the stall */
    double block;         /* rudder, of the travel, in use at the margin above the stall; NaN: more than all */
    ls_demonstration_advice advice;
} ls_demonstration_point;

/* What is left at a speed with the engine really dead. */
typedef struct {
    const char *name; /* "asked", "VSSE", "entry" */
    double cas_m_s;   /* NaN: not known */
    ls_status status;
    ls_margins margins;
} ls_authority;

typedef struct {
    unsigned failed;
    int live_side;
    double bank_rad;    /* toward the live side positive */
    ls_condition base;  /* of the authorities: first altitude, lightest weight, engine dead */
    int idle_is_bounds; /* the file does not describe an idling engine */
    double vsse_m_s;    /* published, CAS; NaN when not given */
    int points;
    ls_demonstration_point point[LS_DEMONSTRATION_ALTITUDES * LS_DEMONSTRATION_MASSES];
    int authorities;
    ls_authority authority[3];
    ls_control_use use[LS_DEMONSTRATION_SPEEDS]; /* at the base, from below the slower limit upward */
} ls_demonstration;

/* Plans a demonstration.
 * Status: LS_OK; LS_NO_STATE (one engine only); LS_MEMORY. A point without an answer has NaN speeds and says
 * LS_DEMONSTRATE_UNKNOWN. */
LS_API ls_status ls_demonstration_solve(const ls_demonstration_request *request, ls_demonstration *demonstration,
                                        ls_error *error);

#endif
