/* The trim: a safeguarded Newton iteration on the five equations. */
#include "liveside/trim.h"

#include "flight/equations.h"
#include "flight/pedal.h"

#include <math.h>
#include <string.h>

#define TOLERANCE    1e-10
#define POLISHED     1e-13
#define ITERATIONS   40
#define LARGEST_STEP 0.35 /* rad, of incidence and attitude: keeps the iteration out of loops and dives */

const char *ls_stop_text(ls_stop stop)
{
    static const char *const texts[LS_STOPS] = {"converged",           "too many iterations",
                                                "singular equations",  "a number that is not finite",
                                                "no further progress", "no powerplant data"};
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
    z[THETA] = z[ALPHA];
}

/* One safeguarded step from z with residual r: shortened to the largest step, then halved until it improves. */
static ls_stop step_from(const ls_trim_problem *p, double *z, double *r, double jacobian[][LS_LINEAR_MAX])
{
    double before = largest(r), step[LS_LINEAR_MAX], trial[UNKNOWNS], next_r[UNKNOWNS];
    for (int i = 0; i < UNKNOWNS; i++) {
        step[i] = -r[i];
    }
    if (!ls_linear_solve(UNKNOWNS, jacobian, step)) {
        return LS_STOP_SINGULAR;
    }
    double scale = 1.0, longest = fmax(fabs(step[ALPHA]), fabs(step[THETA]));
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
        ls_trim_equations(p, trial, next_r, jacobian);
        double after = largest(next_r);
        if (after < before || (halving == 0 && after < 0.5)) { /* a full step may pass over a small hill */
            memcpy(z, trial, sizeof trial);
            memcpy(r, next_r, sizeof next_r);
            return LS_STOP_CONVERGED;
        }
    }
    return LS_STOP_NO_PROGRESS;
}

static ls_stop iterate(const ls_trim_problem *p, double *z, double *residual, int *iterations)
{
    double r[UNKNOWNS], jacobian[LS_LINEAR_MAX][LS_LINEAR_MAX];
    ls_trim_equations(p, z, r, jacobian);
    *residual = largest(r);
    for (*iterations = 0; *iterations < ITERATIONS; ++*iterations) {
        if (!isfinite(*residual)) {
            return LS_STOP_NOT_FINITE;
        }
        if (*residual <= POLISHED) {
            return LS_STOP_CONVERGED;
        }
        double kept[UNKNOWNS], before = *residual;
        memcpy(kept, z, sizeof kept);
        ls_stop stop = step_from(p, z, r, jacobian);
        *residual = largest(r);
        if (before <= TOLERANCE) { /* the last step only polishes */
            if (!(*residual < before)) {
                memcpy(z, kept, sizeof kept);
                *residual = before;
            }
            return LS_STOP_CONVERGED;
        }
        if (stop != LS_STOP_CONVERGED) {
            return stop;
        }
    }
    return *residual <= TOLERANCE ? LS_STOP_CONVERGED : LS_STOP_ITERATIONS;
}

static void fill(const ls_trim_problem *p, const double *z, ls_trim *trim)
{
    double u[3] = {cos(z[ALPHA]) * cos(z[BETA]), sin(z[BETA]), sin(z[ALPHA]) * cos(z[BETA])};
    double sin_t = sin(z[THETA]), cos_t = cos(z[THETA]);
    double down[3] = {-sin_t, cos_t * p->sin_phi, cos_t * p->cos_phi};
    trim->alpha_rad = z[ALPHA];
    trim->beta_rad = z[BETA];
    trim->aileron_rad = z[AILERON];
    trim->rudder_rad = z[RUDDER];
    trim->theta_rad = z[THETA];
    trim->climb_rad = -asin(fmax(-1.0, fmin(1.0, u[0] * down[0] + u[1] * down[1] + u[2] * down[2])));
    trim->free_lift_coefficient = p->model->lift_zero + p->model->lift_slope * z[ALPHA];
    trim->lift_coefficient =
        trim->free_lift_coefficient + (p->point->wash_lift_N[0] + p->point->wash_lift_N[1] * z[ALPHA]) / p->qS_N;
    trim->load_factor = cos_t * p->cos_phi;
    double fin_rad = z[BETA] * p->model->aircraft->fin.sidewash + p->point->fin_rad;
    trim->pedal_force_N = ls_pedal_force(p->model, p->qS_N / p->model->S_m2, fin_rad, z[RUDDER]);
}

ls_status ls_trim_at(const ls_model *model, const ls_powerplant_point *point, double bank_rad,
                     const ls_trim *start, ls_trim *trim)
{
    double z[UNKNOWNS];
    ls_trim_problem p = {model, point, 0.5 * model->air.rho_kg_m3 * point->V_m_s * point->V_m_s * model->S_m2,
                         sin(bank_rad), cos(bank_rad)};
    if (start != NULL) {
        z[ALPHA] = start->alpha_rad;
        z[BETA] = start->beta_rad;
        z[AILERON] = start->aileron_rad;
        z[RUDDER] = start->rudder_rad;
        z[THETA] = start->theta_rad;
    } else {
        first_guess(&p, z);
    }
    memset(trim, 0, sizeof *trim);
    trim->V_m_s = point->V_m_s;
    trim->bank_rad = bank_rad;
    trim->stop = iterate(&p, z, &trim->residual, &trim->iterations);
    fill(&p, z, trim);
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
