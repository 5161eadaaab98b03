/* A unit followed from one speed to a near one by Newton's method on the torque balance, with the slopes of its
 * loads by speed: what the fast solver of minimum control speeds asks instead of the searches of the governor. */
#ifndef LS_PROP_FOLLOW_H
#define LS_PROP_FOLLOW_H

#include "liveside/powerplant.h"

/* What is followed. */
typedef struct {
    const ls_powerplant *powerplant;
    const ls_air *air;
    ls_engine_state state;
    double power;
} ls_follow_unit;

/* ls_follow's regime; its delta_rad is pitch less psi at 0.75 R. */
enum {
    LS_FOLLOW_START, /* nothing known: the governor is asked first */
    LS_FOLLOW_HOLDS, /* the unit holds the lever's speed */
    LS_FOLLOW_STOP,  /* on the fine stop, below that speed */
    LS_FOLLOW_EXACT  /* nothing to be followed: every point is asked directly */
};

/* The unit at a speed.
 * Given: step_m_s > 0; rounds, how many lookups may be spent; follow, from a speed not far off or the start.
 * Returned: here, at V_m_s, to second order in `moved`; ahead, at V_m_s + step_m_s by the slopes, unless it is
 * null; moved_rad, how far the last round went; follow. Status: that of ls_propulsor_at. */
ls_status ls_follow_at(const ls_follow_unit *unit, double V_m_s, double step_m_s, int rounds, ls_follow *follow,
                       ls_propulsor_point *here, ls_propulsor_point *ahead, double *moved_rad, ls_error *error);

/* Whether the governor, which searches from the fine stop up or from the lever's speed down, ends where `follow`
 * stands at V_m_s: the same steps are looked at, without its root search. */
int ls_follow_confirm(const ls_follow_unit *unit, double V_m_s, const ls_follow *follow);

#endif
