/* The minimum control speed by Newton's method on the limit condition. */
#ifndef LS_FLIGHT_FAST_VMC_H
#define LS_FLIGHT_FAST_VMC_H

#include "flight/limit_state.h"

/* The highest speed at which one of a set of limits is met. */
typedef struct {
    ls_limit limit; /* LS_LIMITS: none is met down to the lowest speed */
    ls_limit_state state;
    double step_m_s; /* the last one */
} ls_limit_root;

/* Newton's method on the limit condition, one square system in the trim's unknowns and speed: with the trim's step
 * and slopes eliminated, each round gives the speed at which the first limit of a set is met. Nothing is proved of
 * the speeds above.
 * Given: root, its state a start (V_m_s and z); low, high: the range it must stay in. Returned: 1 with root; 0
 * where it does not converge. */
int ls_fast_root(ls_limit_search *s, unsigned limits, double low_m_s, double high_m_s, ls_limit_root *root);

/* Where a search stands: trims above the last root, falling in speed. */
enum { LS_FAST_NODES = 10 };
typedef struct {
    int count;
    int from_top; /* the first one stands at the top of the range */
    ls_limit_state node[LS_FAST_NODES];
} ls_fast_track;

/* The next root below the last node of the track (at first: the top of the range, made when count is 0).
 * Given: limits, LS_LIMIT bits looked for; low, high: the range.
 * Returned: 1 with root (also where none is met); 0 when anything is out of the ordinary: a trim that fails, a
 * limit exceeded at the top, two limits close together, a margin that might dip between two trims, a propeller
 * that does not stand where its governor would put it. The step-by-step search then decides. */
int ls_fast_next(ls_limit_search *s, unsigned limits, double low_m_s, double high_m_s, ls_fast_track *track,
                 ls_limit_root *root);

/* Whether no limit of a set is met from a speed up to the top of the range, by a trim there and the proofs of
 * ls_fast_next. It begins where the last root was (of work; without one it is not plain) and leaves its trim
 * there. Returned: 1; 0 where a limit is met, or where that is not plain. */
int ls_fast_clear_from(ls_limit_search *s, unsigned limits, double V_m_s, double high_m_s);

#endif
