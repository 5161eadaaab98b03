/* The trim: a safeguarded Newton iteration on its equations. */
#include "liveside/trim.h"

#include "flight/equations.h"

#include <math.h>
#include <string.h>

#define TOLERANCE    1e-10
#define POLISHED     1e-13
#define ITERATIONS   40
#define LARGEST_STEP 0.35 /* rad, of incidence and attitude: keeps the iteration out of loops and dives */

const char *ls_stop_text(ls_stop stop)
{
    static const char *const texts[LS_STOPS] = {"converged",
                                                "too many iterations",
                                                "singular equations",
                                                "a number that is not finite",
                                                "no further progress",
                                                "no powerplant data",
                                                "no attitude balances the forces"};
    return (unsigned)stop < LS_STOPS ? texts[stop] : "unknown";
}

static double largest(const double *r)
{
    double most = 0.0;
    for (int i = 0; i < UNKNOWNS; i++) {
        if (!(fabs(r[i]) <= most)) { /* NaN too */
            most = fabs(r[i]);
        }
    }
    return most;
}

/* Incidence from lift against weight, everything else at zero: the lateral equations are linear at a given
 * incidence, so that the first Newton step is their closed solution. */
static void first_guess(const ls_trim_problem *p, double *z)
{
    double CL = p->model->weight_N * p->cos_phi / p->qS_N;
    double alpha = (CL - p->model->lift_zero) / p->model->lift_slope;
    memset(z, 0, UNKNOWNS * sizeof *z);
    z[ALPHA] = fmin(0.7, fmax(-0.3, alpha));
}

/* One safeguarded step from z with residual r: shortened to the largest step, then halved until it improves. */
static ls_stop step_from(const ls_trim_problem *p, double *z, double *r, double jacobian[][LS_LINEAR_MAX],
                         double *sin_theta)
{
    double before = largest(r), step[LS_LINEAR_MAX], trial[UNKNOWNS], next_r[UNKNOWNS];
    for (int i = 0; i < UNKNOWNS; i++) {
        step[i] = -r[i];
    }
    if (!ls_linear_solve(UNKNOWNS, jacobian, step)) {
        return LS_STOP_SINGULAR;
    }
    double scale = 1.0, longest = fabs(step[ALPHA]);
    if (!isfinite(largest(step))) {
        return LS_STOP_NOT_FINITE;
    }
    if (longest > LARGEST_STEP) {
        scale = LARGEST_STEP / longest;
    }
    for (int halving = 0; halving < 12; halving++, scale *= 0.5) {
        for (int i = 0; i < UNKNOWNS; i++) {
            trial[i] = z[i] + scale * step[i];
        }
        *sin_theta = ls_trim_equations(p, trial, next_r, jacobian);
        double after = largest(next_r);
        if (after < before || (halving == 0 && after < 0.5)) { /* a full step may pass over a small hill */
            memcpy(z, trial, sizeof trial);
            memcpy(r, next_r, sizeof next_r);
            return LS_STOP_CONVERGED;
        }
    }
    return LS_STOP_NO_PROGRESS;
}

/* Whether a point is a trim, X balanced too. */
static int is_trim(double residual, double sin_theta, double tolerance)
{
    return residual <= tolerance && fabs(sin_theta) < 0.01 * LS_ATTITUDE_END;
}

static ls_stop iterate(const ls_trim_problem *p, double *z, double *sin_theta, double *residual, int *iterations)
{
    double r[UNKNOWNS], jacobian[LS_LINEAR_MAX][LS_LINEAR_MAX];
    *sin_theta = ls_trim_equations(p, z, r, jacobian);
    *residual = largest(r);
    for (*iterations = 0; *iterations < ITERATIONS; ++*iterations) {
        if (!isfinite(*residual)) {
            return LS_STOP_NOT_FINITE;
        }
        if (is_trim(*residual, *sin_theta, POLISHED)) {
            return LS_STOP_CONVERGED;
        }
        if (*residual <= POLISHED) {
            return LS_STOP_ATTITUDE; /* another step would not move it */
        }
        double kept[UNKNOWNS], before = *residual, sin_before = *sin_theta;
        memcpy(kept, z, sizeof kept);
        ls_stop stop = step_from(p, z, r, jacobian, sin_theta);
        *residual = largest(r);
        if (is_trim(before, sin_before, TOLERANCE)) { /* the last step only polishes */
            if (!(*residual < before)) {
                memcpy(z, kept, sizeof kept);
                *residual = before;
                *sin_theta = sin_before;
            }
            return LS_STOP_CONVERGED;
        }
        if (stop != LS_STOP_CONVERGED) {
            return stop;
        }
    }
    return is_trim(*residual, *sin_theta, TOLERANCE) ? LS_STOP_CONVERGED : LS_STOP_ITERATIONS;
}

ls_status ls_trim_at(const ls_model *model, const ls_powerplant_point *point, double bank_rad,
                     const ls_trim *start, ls_trim *trim)
{
    double z[UNKNOWNS], sin_theta;
    ls_trim_problem p = ls_trim_problem_of(model, point, bank_rad);
    if (start != NULL) {
        z[ALPHA] = start->alpha_rad;
        z[BETA] = start->beta_rad;
        z[AILERON] = start->aileron_rad;
        z[RUDDER] = start->rudder_rad;
    } else {
        first_guess(&p, z);
    }
    memset(trim, 0, sizeof *trim);
    trim->V_m_s = point->V_m_s;
    trim->bank_rad = bank_rad;
    trim->stop = iterate(&p, z, &sin_theta, &trim->residual, &trim->iterations);
    ls_trim_fill(&p, z, sin_theta, trim);
    return trim->stop == LS_STOP_CONVERGED ? LS_OK : LS_NOT_CONVERGED;
}

ls_status ls_trim_solve(const ls_model *model, double V_m_s, double bank_rad, ls_trim *trim, ls_error *error)
{
    ls_powerplant_point point;
    ls_status status = model->loads(model, V_m_s, &point, error);
    if (status != LS_OK) {
        return status;
    }
    status = ls_trim_at(model, &point, bank_rad, NULL, trim);
    if (status != LS_OK) {
        return ls_fail(error, status, "no trim at %.1f m/s: %s (residual %.3g after %d iterations)", V_m_s,
                       ls_stop_text(trim->stop), trim->residual, trim->iterations);
    }
    return LS_OK;
}
