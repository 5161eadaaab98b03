#include "study/uncertain_samples.h"

#include "liveside/airspeed.h"
#include "num/sampling.h"

#include <math.h>
#include <string.h>

#define CUT 2.0 /* spreads: where LS_SHAPE_TRUNCATED is cut off */

ls_status ls_sampling_plan_make(const ls_uncertainty_request *request, ls_sampling_plan *plan, ls_error *error)
{
    double packed[LS_UNCERTAIN_MAX * LS_UNCERTAIN_MAX];
    int n = request->inputs;
    memset(plan, 0, sizeof *plan);
    plan->request = request;
    for (int i = 0; i < n * n; i++) {
        packed[i] = request->correlation[i / n][i % n];
    }
    if (request->correlated && !ls_cholesky(n, packed)) {
        return ls_fail(error, LS_USAGE,
                       "the correlations contradict each other: no variables have them all at once");
    }
    for (int i = 0; i < n * n; i++) {
        plan->factor[i / n][i % n] = packed[i];
    }
    for (int k = 0; k < request->sets; k++) {
        plan->failed[k] = request->condition;
        if (request->state < 0) {
            ls_condition_fail(request->aircraft, request->set[k], &plan->failed[k]);
        } else {
            ls_condition_fail_as(request->aircraft, request->set[k], (ls_engine_state)request->state,
                                 &plan->failed[k]);
        }
        plan->side[k] = ls_live_side(request->aircraft, &plan->failed[k]);
    }
    return LS_OK;
}

/* How many spreads from its base a value of a shape lies, below which a share u of all values lies; z is the
 * normal variable of the same share. */
static double deviate(ls_shape shape, double u, double z)
{
    double inside;
    switch (shape) {
    case LS_SHAPE_UNIFORM:
        return sqrt(3.0) * (2.0 * u - 1.0);
    case LS_SHAPE_TRIANGULAR:
        return sqrt(6.0) * (u < 0.5 ? sqrt(2.0 * u) - 1.0 : 1.0 - sqrt(2.0 * (1.0 - u)));
    case LS_SHAPE_TRUNCATED:
        inside = 1.0 - 2.0 * ls_normal_share(-CUT);
        return ls_normal_quantile(ls_normal_share(-CUT) + inside * u);
    default:
        return z;
    }
}

/* The values of the inputs at a point. Returned: how many were clipped. */
static int draw(const ls_sampling_plan *plan, const double *point, double *value)
{
    const ls_uncertainty_request *request = plan->request;
    double z[LS_UNCERTAIN_MAX], own[LS_UNCERTAIN_MAX];
    int clipped = 0, n = request->inputs;
    for (int i = 0; i < n; i++) {
        int needs_normal = request->correlated || request->input[i].shape == LS_SHAPE_NORMAL;
        own[i] = needs_normal ? ls_normal_quantile(point[i]) : 0.0;
    }
    for (int i = 0; i < n; i++) {
        const ls_input *input = &request->input[i];
        z[i] = own[i];
        if (request->correlated) {
            z[i] = 0.0;
            for (int k = 0; k <= i; k++) {
                z[i] += plan->factor[i][k] * own[k];
            }
        }
        double u = request->correlated && input->shape != LS_SHAPE_NORMAL ? ls_normal_share(z[i]) : point[i];
        double x = input->base + input->spread * deviate(input->shape, u, z[i]);
        value[i] = fmin(input->high, fmax(input->low, x));
        clipped += value[i] != x;
    }
    return clipped;
}

enum { HAS_SPEED = 2 };

/* Which of two answers is the worse one; no limit at all is better than any speed. */
static int rank(const ls_vmc *vmc)
{
    switch (vmc->kind) {
    case LS_VMC_ABOVE_RANGE:
        return 3;
    case LS_VMC_NO_LIMIT:
        return 1;
    case LS_VMC_FAILED:
        return 4;
    default:
        return HAS_SPEED;
    }
}

static int is_worse(const ls_vmc *a, const ls_vmc *b)
{
    return rank(a) != rank(b) ? rank(a) > rank(b) : a->cas_m_s > b->cas_m_s;
}

/* The calibrated stall speed at maximum mass. */
static double stall_cas(const ls_model *model)
{
    ls_airspeed stall;
    double V_m_s = model->stall_V_m_s * sqrt(model->aircraft->mass.maximum_kg / model->condition.mass_kg);
    return ls_airspeed_from_tas(&model->air, V_m_s, &stall, NULL) == LS_OK ? stall.CAS_m_s : NAN;
}

/* One failure with the values of a sample. Returned: whether there is a model. */
static int make_model(const ls_sampling_plan *plan, int k, const double *value, ls_aircraft *aircraft,
                      ls_condition *condition, double *bank_rad, ls_model *model)
{
    const ls_uncertainty_request *request = plan->request;
    *condition = plan->failed[k];
    *bank_rad = request->bank_rad;
    for (int i = 0; i < request->inputs && value != NULL; i++) {
        ls_input_apply(&request->input[i], value[i], request->aircraft, aircraft, condition, bank_rad);
    }
    *bank_rad = plan->side[k] < 0 ? -*bank_rad : *bank_rad;
    return ls_model_make(aircraft, condition, model, NULL) == LS_OK;
}

/* The worst failure of a sample. The one that was the worst before is solved first: of the others it mostly needs
 * to be known only that their speeds lie below. The air is the same for all, so that true airspeeds can be
 * compared. Given: lead, that failure; returned: the worst now. */
static void solve(const ls_sampling_plan *plan, const double *value, ls_aircraft *aircraft,
                  ls_vmc_workspace work[LS_VMCA_SETS], int *lead, ls_sample *sample)
{
    ls_vmc worst = {.kind = LS_VMC_NO_LIMIT, .cas_m_s = NAN};
    double stall_m_s = NAN; /* the same for every failure */
    int first = *lead, sets = plan->request->sets;
    for (int n = 0; n < sets; n++) {
        int k = (first + n) % sets;
        ls_condition condition;
        double bank_rad;
        ls_model model;
        ls_vmc vmc = {.kind = LS_VMC_FAILED, .cas_m_s = NAN};
        if (make_model(plan, k, value, aircraft, &condition, &bank_rad, &model)) {
            stall_m_s = isnan(stall_m_s) ? stall_cas(&model) : stall_m_s;
            if (n > 0 && rank(&worst) == HAS_SPEED && ls_vmc_is_below(&model, bank_rad, worst.V_m_s, &work[k])) {
                continue;
            }
            ls_vmc_first(&model, bank_rad, 0, &work[k], &vmc, NULL);
        }
        if (n == 0 || is_worse(&vmc, &worst)) {
            worst = vmc;
            *lead = k;
        }
    }
    sample->kind = worst.kind;
    sample->cas_m_s = worst.kind == LS_VMC_ABOVE_RANGE ? INFINITY
                      : worst.kind == LS_VMC_NO_LIMIT  ? -INFINITY
                                                       : worst.cas_m_s;
    sample->exceeds_stall =
        worst.kind == LS_VMC_ABOVE_RANGE || (isfinite(worst.cas_m_s) && worst.cas_m_s > 1.2 * stall_m_s);
}

void ls_samples_solve(const ls_sampling_plan *plan, const double *points, int count, ls_sample *samples)
{
    const ls_uncertainty_request *request = plan->request;
    ls_aircraft aircraft = *request->aircraft;
    ls_vmc_workspace work[LS_VMCA_SETS];
    double value[LS_UNCERTAIN_MAX];
    int lead = 0;
    memset(work, 0, sizeof work);
    for (int i = 0; i < count; i++) {
        samples[i].clipped = points != NULL ? draw(plan, points + (size_t)i * (size_t)request->inputs, value) : 0;
        solve(plan, points != NULL ? value : NULL, &aircraft, work, &lead, &samples[i]);
    }
}
