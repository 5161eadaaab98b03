/* A trim with its slopes by speed, and the limit condition as one square system: the steps of the fast solver. */
#ifndef LS_FLIGHT_LIMIT_STATE_H
#define LS_FLIGHT_LIMIT_STATE_H

#include "flight/equations.h"
#include "liveside/vmc.h"
#include "prop/follow.h"

/* What is followed from speed to speed: one record for each powerplant and state, shared by its units. */
typedef struct {
    const ls_model *model;
    double bank_rad;
    ls_vmc_workspace *work;
    int at_top; /* which of its two records is followed */
    int trims;
    ls_status status; /* of the last failure */
    ls_error *error;
} ls_limit_search;

/* The loads at a speed and, by their slopes, a little above. */
typedef struct {
    ls_powerplant_point here, ahead;
    double step_m_s;
    double moved_rad; /* the last step of the unit that moved most */
} ls_loads_pair;

/* A trim at a speed. `left` is the share left before each limit, NaN where there is no such limit. */
typedef struct {
    double V_m_s;
    double z[UNKNOWNS], z_by_V[UNKNOWNS];
    double sin_theta;
    double left[LS_LIMITS], left_by_V[LS_LIMITS];
    double use[LS_LIMITS]; /* of the limit, signed: left is 1 - |use|, but where the two sides differ */
    unsigned regime;       /* ls_limit_regime */
} ls_limit_state;

/* What the propellers stand on, four bits a unit: where it changes the margins have a kink, and where one of the
 * bits LS_REGIME_STOPS changes a jump, for a propeller windmills no longer. */
unsigned ls_limit_regime(const ls_model *model, const ls_powerplant_point *point);
#define LS_REGIME_STOPS 0x88888888u

/* Given: slopes, whether `ahead` is wanted. Returned: 0 with status set when a unit has no data. */
int ls_limit_loads(ls_limit_search *s, double V_m_s, int rounds, int slopes, ls_loads_pair *loads);

/* Trims at a speed, starting from another state or from nothing (null). Returned: 1; 0 when it does not converge.
 */
int ls_limit_state_at(ls_limit_search *s, double V_m_s, const ls_limit_state *from, ls_limit_state *state);

/* A guess of the trim at V from another state: angles times V^2 change linearly, incidence from zero lift. */
void ls_limit_start(const ls_limit_search *s, const ls_limit_state *from, double V_m_s, ls_limit_state *state);

/* The same without slopes: angles go with 1/V^2. */
void ls_limit_scale(const ls_limit_search *s, const ls_limit_state *from, double V_m_s, ls_limit_state *state);

/* A trim at the top of the range with little effort, good to some 1e-3 of a limit, from what is known of the
 * last solve. Returned: 1; 0 when that is not near enough. */
int ls_limit_glance(ls_limit_search *s, double V_m_s, ls_limit_state *state);

/* One Newton step of the trim at the state's own speed, from its z.
 * Given: slopes, whether they are worked out anew (else those of a speed very close by stay).
 * Returned: state, with limits after the step; moved_rad, the longest step of an angle. 0 on failure.
 */
int ls_limit_look(ls_limit_search *s, int slopes, ls_limit_state *state, double *moved_rad);

/* Moves a state along its slopes to a near speed. */
void ls_limit_move(double V_m_s, ls_limit_state *state);

/* What follows unit i. */
ls_follow *ls_limit_follow(ls_limit_search *s, int i);

/* The first unit that does the same as unit i, which is i when there is none before it. */
int ls_limit_same_unit(const ls_model *model, int i);

#endif
