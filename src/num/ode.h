/* Ordinary differential equations with error control, stopped where an event function rises through zero. */
#ifndef LS_NUM_ODE_H
#define LS_NUM_ODE_H

#include "liveside/status.h"

/* The rates of change of y. Returned: 0; anything else when there are none at this y. */
typedef int ls_ode_rates(double t, const double *y, double *rates, void *context);

/* A function of the state; the event happens where it rises through zero. */
typedef double ls_ode_event(double t, const double *y, int event, void *context);

enum { LS_ODE_EVENTS_MAX = 16 };

typedef struct {
    int dimension;
    ls_ode_rates *rates;
    void *context;
    int events; /* 0 to LS_ODE_EVENTS_MAX */
    ls_ode_event *event;
    const double *scale; /* the size of each variable that matters, > 0 */
    double tolerance;    /* of one step, over scale and over the variable itself */
} ls_ode_problem;

typedef struct ls_ode ls_ode;

/* Prepares a problem, which must outlive it. Returned: ode, to be freed with ls_ode_free; untouched on failure.
 * Status: LS_OK; LS_MEMORY.
 * Notes: embedded Runge-Kutta-Fehlberg of order 4 and 5 with adaptive steps, GSL's rkf45. */
ls_status ls_ode_new(const ls_ode_problem *problem, ls_ode **ode, ls_error *error);
void ls_ode_free(ls_ode *ode);

/* Forgets the step that has been in use: for a jump in the rates or the state. */
void ls_ode_restart(ls_ode *ode);

/* Advances t and y to t_end, or to the first event on the way.
 * Returned: event, its number, or -1 at t_end; t and y just past the event (within 1e-9 of the time).
 * Status: LS_OK; LS_NOT_CONVERGED where no step, however short, meets the tolerance or the rates are not finite: t
 * and y then are the last that were good. */
ls_status ls_ode_advance(ls_ode *ode, double *t, double t_end, double *y, int *event, ls_error *error);

/* Accepted and tried steps so far. */
long ls_ode_steps(const ls_ode *ode);

#endif
