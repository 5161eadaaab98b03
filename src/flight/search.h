/* The search for limits in steps: the speed falls; a margin that passes zero between two speeds is bracketed and
 * solved. */
#ifndef LS_FLIGHT_SEARCH_H
#define LS_FLIGHT_SEARCH_H

#include "liveside/vmc.h"

/* One speed of the scan. */
typedef struct {
    double V_m_s;
    ls_trim trim;
    ls_margins margins;
    unsigned regime; /* of the propellers: where it changes there is a kink or a jump */
} ls_search_sample;

typedef struct {
    const ls_model *model;
    double bank_rad;
    ls_limit limit;      /* whose margin is looked at */
    ls_search_sample at; /* the last one solved; the next starts from it */
    int has_start;
    int trims;
    unsigned flags;   /* of the powerplant at the last speed */
    ls_status status; /* of the last failure */
    ls_error *error;
} ls_search;

/* What the scan has found so far of one limit. */
typedef struct {
    double V_m_s; /* highest crossing; NaN when none */
    double bracket_m_s;
    int is_jump; /* no root: the margin falls through zero at once, where a propeller stops */
} ls_crossing;

/* Solves one speed, from the one before. Returned: s->at; its status, kept too. */
ls_status ls_search_at(ls_search *s, double V_m_s);

/* Finds each limit's highest crossing until a control limit and the stall are known or the range ends.
 * Given: steps at most, each by `ratio`, or where step_m_s is not 0 by that.
 * Returned: how many speeds were solved; crossings; the first sample in `top`. */
int ls_search_down(ls_search *s, double high_m_s, double low_m_s, int steps, double ratio, double step_m_s,
                   ls_search_sample *top, ls_crossing found[LS_LIMITS]);

/* The limit of which least is left. */
ls_limit ls_margins_exceeded(const ls_margins *margins);

#endif
