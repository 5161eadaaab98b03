/* The minimum control speed on the ground and what moves it. */
#ifndef LIVESIDE_GROUND_H
#define LIVESIDE_GROUND_H

#include "liveside/runway.h"
#include "liveside/vmca.h"

enum { LS_GROUND_CASES = 20, LS_GROUND_LABEL = 48 };

typedef struct {
    ls_vmca_request condition; /* which engine; loading as it stands in it */
    ls_runway_request roll;    /* delay, crosswind: condition, failed and state are filled in */
    double cas_m_s;            /* of the track; 0: the minimum control speed itself */
} ls_ground_request;

/* One thing changed. */
typedef struct {
    const char *what; /* "delay" */
    char label[LS_GROUND_LABEL];
    ls_vmcg vmcg;
} ls_ground_case;

typedef struct {
    ls_runway_request request; /* of the track */
    int live_side;
    ls_vmcg vmcg; /* as asked, of the engine with the highest */
    int has_other;
    ls_vmcg other; /* with the other side's engine failed, where that is the next highest */
    ls_runway track, slower,
        no_action; /* at the request's speed, 5 kt below it, and with nobody's feet on the pedals */
    int cases;
    ls_ground_case of[LS_GROUND_CASES];
} ls_ground;

/* Answers a request. Returned: ground, freed with ls_ground_free. Status: LS_OK, also where there is no minimum
 * control speed; that of ls_runway_run. */
LS_API ls_status ls_ground_solve(const ls_aircraft *aircraft, const ls_ground_request *request, ls_ground *ground,
                                 ls_error *error);
LS_API void ls_ground_free(ls_ground *ground);

#endif
