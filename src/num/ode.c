#include "num/ode.h"

#include "num/root.h"

#include <float.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

struct ls_ode {
    const ls_ode_problem *problem;
    gsl_odeiv2_step *step;
    gsl_odeiv2_control control;
    gsl_odeiv2_evolve *evolve;
    gsl_odeiv2_system system;
    double h;
    double *before, *trial, *spread; /* state before a step, of a shorter one, and its error estimate */
    double t_before;
    long steps; /* before the last restart */
};

/* GSL's name for a function without rates makes it try a shorter step. */
static int rates(double t, const double y[], double dydt[], void *context)
{
    const ls_ode_problem *problem = ((ls_ode *)context)->problem;
    if (problem->rates(t, y, dydt, problem->context) != 0) {
        return GSL_EDOM;
    }
    for (int i = 0; i < problem->dimension; i++) {
        if (!isfinite(dydt[i])) {
            return GSL_EDOM;
        }
    }
    return GSL_SUCCESS;
}

/* The next step from the error of this one, against tolerance * (|y| + scale): as GSL's own scaled control does
 * it, which cannot be made safely when memory runs out (2.7 writes through a null pointer there). Source: GSL
 * reference manual 2.7, section 27.3, adaptive step-size control. */
static int adjust_step(void *state, size_t n, unsigned int order, const double y[], const double spread[],
                       const double dydt[], double *h)
{
    const ls_ode_problem *problem = ((const ls_ode *)state)->problem;
    const double safety = 0.9, most = 5.0;
    double worst = DBL_MIN;
    (void)dydt;
    for (size_t i = 0; i < n; i++) {
        double allowed = problem->tolerance * fabs(y[i]) + problem->tolerance * problem->scale[i];
        worst = fmax(worst, fabs(spread[i]) / fabs(allowed));
    }
    if (worst > 1.1) {
        *h *= fmax(safety / pow(worst, 1.0 / order), 1.0 / most);
        return GSL_ODEIV_HADJ_DEC;
    }
    if (worst < 0.5) {
        *h *= fmin(fmax(safety / pow(worst, 1.0 / (order + 1.0)), 1.0), most);
        return GSL_ODEIV_HADJ_INC;
    }
    return GSL_ODEIV_HADJ_NIL;
}

static const gsl_odeiv2_control_type step_control = {.name = "scaled", .hadjust = adjust_step};

ls_status ls_ode_new(const ls_ode_problem *problem, ls_ode **ode, ls_error *error)
{
    size_t n = (size_t)problem->dimension;
    ls_ode *made = calloc(1, sizeof *made);
    if (made == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    made->problem = problem;
    made->system = (gsl_odeiv2_system){rates, NULL, n, made};
    made->step = gsl_odeiv2_step_alloc(gsl_odeiv2_step_rkf45, n);
    made->control = (gsl_odeiv2_control){&step_control, made};
    made->evolve = gsl_odeiv2_evolve_alloc(n);
    made->before = calloc(3 * n, sizeof *made->before);
    if (made->step == NULL || made->evolve == NULL || made->before == NULL) {
        ls_ode_free(made);
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    made->trial = made->before + n;
    made->spread = made->trial + n;
    ls_ode_restart(made);
    *ode = made;
    return LS_OK;
}

void ls_ode_free(ls_ode *ode)
{
    if (ode == NULL) {
        return;
    }
    if (ode->step != NULL) {
        gsl_odeiv2_step_free(ode->step);
    }
    if (ode->evolve != NULL) {
        gsl_odeiv2_evolve_free(ode->evolve);
    }
    free(ode->before);
    free(ode);
}

long ls_ode_steps(const ls_ode *ode)
{
    return ode->steps + (long)(ode->evolve->count + ode->evolve->failed_steps);
}

void ls_ode_restart(ls_ode *ode)
{
    ode->h = 1e-3;
    ode->steps = ls_ode_steps(ode);
    gsl_odeiv2_step_reset(ode->step);
    gsl_odeiv2_evolve_reset(ode->evolve);
}

typedef struct {
    ls_ode *ode;
    int event;
} within;

/* The event function after a part of the last step, taken again from its start: one Runge-Kutta step of its own.
 */
static double event_within(double share, void *context)
{
    within *it = context;
    ls_ode *ode = it->ode;
    const ls_ode_problem *problem = ode->problem;
    double h = share * ode->h;
    memcpy(ode->trial, ode->before, (size_t)problem->dimension * sizeof *ode->trial);
    if (gsl_odeiv2_step_apply(ode->step, ode->t_before, h, ode->trial, ode->spread, NULL, NULL, &ode->system) !=
        GSL_SUCCESS) {
        return NAN;
    }
    return problem->event(ode->t_before + h, ode->trial, it->event, problem->context);
}

/* The first event within the step from t_before of length ode->h. Returned: its number, or -1; t and y moved
 * there.
 */
static int find_event(ls_ode *ode, const double *values, double *t, double *y)
{
    const ls_ode_problem *problem = ode->problem;
    int first = -1;
    double share = 1.0;
    for (int k = 0; k < problem->events; k++) {
        within it = {ode, k};
        ls_root_options options = {.x_tol = 1e-9};
        ls_root_report report;
        if (!(values[k] < 0.0) || !(problem->event(*t, y, k, problem->context) >= 0.0)) {
            continue;
        }
        double at = ls_root_find(event_within, &it, 0.0, 1.0, &options, &report) == LS_OK ? report.high : 1.0;
        if (first < 0 || at < share) {
            first = k;
            share = at;
        }
    }
    if (first >= 0 && share < 1.0) {
        within it = {ode, first};
        event_within(share, &it);
        *t = ode->t_before + share * ode->h;
        memcpy(y, ode->trial, (size_t)problem->dimension * sizeof *y);
    }
    return first;
}

ls_status ls_ode_advance(ls_ode *ode, double *t, double t_end, double *y, int *event, ls_error *error)
{
    const ls_ode_problem *problem = ode->problem;
    size_t size = (size_t)problem->dimension * sizeof *y;
    double values[LS_ODE_EVENTS_MAX];
    *event = -1;
    while (*t < t_end) {
        for (int k = 0; k < problem->events; k++) {
            values[k] = problem->event(*t, y, k, problem->context);
        }
        double next = ode->h;
        memcpy(ode->before, y, size);
        ode->t_before = *t;
        int done =
            gsl_odeiv2_evolve_apply(ode->evolve, &ode->control, ode->step, &ode->system, t, t_end, &next, y);
        if (done != GSL_SUCCESS || !(*t > ode->t_before)) {
            memcpy(y, ode->before, size);
            *t = ode->t_before;
            return ls_fail(error, LS_NOT_CONVERGED, "the motion cannot be followed beyond %.3f s", *t);
        }
        ode->h = *t - ode->t_before;
        *event = problem->events > 0 ? find_event(ode, values, t, y) : -1;
        ode->h = next;
        if (*event >= 0) {
            ls_ode_restart(ode);
            return LS_OK;
        }
    }
    return LS_OK;
}
