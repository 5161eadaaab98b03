/* Reduction (c): the model's rudder effectiveness and weathercock stability scaled to the points by least squares,
 * and the standard speed of the scaled model with its confidence interval. Only ratios to the thrust moment enter:
 * the model's own thrust scales both, and cancels in the speed. */
#include "study/reduce_parts.h"

#include "num/leastsq.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ITERATIONS = 6 };

static const double step = 1e-3;          /* of a scale */
static const double condition_max = 40.0; /* above it two scales move together */

/* The points of the fit, and the system that is solved. */
typedef struct {
    int count;
    int *index; /* of the rows */
    double *a, *b, *weight;
    double scale[LS_SCALES];
    double drawn[LS_SCALES];              /* what the scatter of the readings adds to the normal equations' */
    double swollen[LS_SCALES][LS_SCALES]; /* right-hand side, and to their matrix */
    int unknowns;
} fitting;

static int counts(const ls_reduced *row)
{
    return row->use == LS_USE_LIMIT || row->use == LS_USE_STEADY;
}

static void choose_points(const ls_reduction *out, fitting *f, int *skipped)
{
    int candidates = 0, seen = 0;
    for (int i = 0; i < out->rows; i++) {
        candidates += counts(&out->row[i]);
    }
    int every = (candidates + LS_REDUCE_FIT_POINTS - 1) / LS_REDUCE_FIT_POINTS;
    for (int i = 0; i < out->rows; i++) {
        if (counts(&out->row[i]) && seen++ % every == 0) {
            f->index[f->count++] = i;
        }
    }
    *skipped = candidates - f->count;
}

static int fly(const ls_reducing *r, int row, ls_flown *flown)
{
    ls_condition condition;
    const ls_point *point = &r->request->points->point[row];
    if (ls_reduce_condition(r->request->aircraft, point, &condition) != NULL ||
        ls_reduce_fly(r->request->aircraft, point, &condition, flown) != NULL) {
        return 0;
    }
    ls_trim trim;
    if (r->out->row[row].use == LS_USE_LIMIT) {
        flown->rudder_rad = ls_reduce_travel(&flown->model, flown->live_side);
    }
    return isfinite(ls_reduce_rudder(&flown->model, flown, NULL, &trim)) &&
           trim.lift_coefficient <= flown->model.lift_max;
}

/* The rudder that the scaled model needs, and its slopes on the scales. */
typedef struct {
    double rudder, slope[LS_SCALES];
} need;

static need need_at(const fitting *f, const ls_flown *flown)
{
    ls_trim trim, other;
    ls_model model = flown->model;
    need at;
    ls_reduce_scale(&model, f->scale);
    at.rudder = ls_reduce_rudder(&model, flown, NULL, &trim);
    for (int k = 0; k < f->unknowns; k++) {
        double scale[LS_SCALES];
        memcpy(scale, f->scale, sizeof scale);
        scale[k] += step;
        model.derivatives = flown->model.derivatives;
        ls_reduce_scale(&model, scale);
        at.slope[k] = (ls_reduce_rudder(&model, flown, &trim, &other) - at.rudder) / step;
    }
    return at;
}

/* The same point with its bank, or its speed, read one standard deviation higher. */
static ls_flown banked(const ls_reducing *r, const ls_flown *flown)
{
    ls_flown other = *flown;
    other.bank_rad += r->request->accuracies.bank_rad;
    return other;
}

static ls_flown faster(const ls_reducing *r, const ls_flown *flown)
{
    ls_flown other = *flown;
    double V_m_s = flown->speed.TAS_m_s * (1.0 + r->request->accuracies.speed_m_s / flown->speed.CAS_m_s);
    if (ls_powerplant_at(&other.model, V_m_s, &other.loads, NULL) != LS_OK) {
        other.loads = flown->loads;
    }
    return other;
}

/* Residual, slopes and weight of one point: the weight is the reciprocal of what the instruments leave of doubt in
 * the residual. Bank and speed are in the slopes too, so their scatter would draw the scales; what it adds to the
 * normal equations on average is gathered, to be taken out again. Returned: 0 when the model has no trim there. */
static int add_point(const ls_reducing *r, fitting *f, int at, int row, const ls_flown *flown)
{
    ls_flown changed[2] = {banked(r, flown), faster(r, flown)};
    need base = need_at(f, flown), other[2] = {need_at(f, &changed[0]), need_at(f, &changed[1])};
    double by_rudder = r->out->row[row].use == LS_USE_LIMIT ? 0.0 : r->request->accuracies.rudder_rad;
    double variance = by_rudder * by_rudder + 1e-10;
    int good = isfinite(base.rudder) && isfinite(flown->rudder_rad);
    for (int m = 0; m < 2; m++) {
        variance += pow(other[m].rudder - base.rudder, 2);
    }
    double weight = 1.0 / sqrt(variance);
    for (int k = 0; k < f->unknowns; k++) {
        f->a[at * f->unknowns + k] = weight * base.slope[k];
        good = good && isfinite(weight * base.slope[k]);
    }
    f->b[at] = weight * (flown->rudder_rad - base.rudder);
    f->weight[at] = weight;
    for (int m = 0; good && m < 2; m++) {
        for (int k = 0; k < f->unknowns; k++) {
            double change = weight * (other[m].slope[k] - base.slope[k]);
            f->drawn[k] -= change * weight * (other[m].rudder - base.rudder);
            for (int j = 0; j < f->unknowns; j++) {
                f->swollen[k][j] += change * weight * (other[m].slope[j] - base.slope[j]);
            }
        }
    }
    return good;
}

static int build(const ls_reducing *r, fitting *f)
{
    int rows = 0;
    memset(f->drawn, 0, sizeof f->drawn);
    memset(f->swollen, 0, sizeof f->swollen);
    for (int i = 0; i < f->count; i++) {
        ls_flown flown;
        rows += fly(r, f->index[i], &flown) && add_point(r, f, rows, f->index[i], &flown);
    }
    return rows;
}

/* The covariance of the scales as it is without the scatter in the slopes: B C B', B the inverse of 1 - M^-1 x
 * what the matrix M was swollen by. */
static void correct_covariance(const fitting *f, ls_leastsq *fit)
{
    double variance = fit->deviation * fit->deviation + 1e-30, A[LS_SCALES][LS_SCALES], B[LS_SCALES][LS_SCALES],
           C[LS_SCALES][LS_SCALES];
    int n = f->unknowns;
    for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
            A[i][j] = i == j;
            for (int k = 0; k < n; k++) {
                A[i][j] -= fit->covariance[i][k] / variance * f->swollen[k][j];
            }
        }
    }
    double determinant = n == 1 ? A[0][0] : A[0][0] * A[1][1] - A[0][1] * A[1][0];
    if (!(determinant > 0.1)) {
        return; /* all scatter: the condition has been told */
    }
    B[0][0] = n == 1 ? 1.0 / determinant : A[1][1] / determinant;
    if (n > 1) {
        B[1][1] = A[0][0] / determinant;
        B[0][1] = -A[0][1] / determinant;
        B[1][0] = -A[1][0] / determinant;
    }
    for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
            C[i][j] = 0.0;
            for (int k = 0; k < n * n; k++) {
                C[i][j] += B[i][k / n] * fit->covariance[k / n][k % n] * B[j][k % n];
            }
        }
    }
    for (int i = 0; i < n; i++) {
        fit->error[i] = sqrt(C[i][i]);
        for (int j = 0; j < n; j++) {
            fit->covariance[i][j] = C[i][j];
        }
    }
}

/* Gauss and Newton's steps to the least squares. */
static ls_status iterate(const ls_reducing *r, fitting *f, ls_leastsq *fit, ls_error *error)
{
    ls_model_fit *out = &r->out->fit;
    for (out->iterations = 1; out->iterations <= ITERATIONS; out->iterations++) {
        int rows = build(r, f);
        ls_status status = ls_leastsq_solve(rows, f->unknowns, f->a, f->b, fit, error);
        if (status != LS_OK) {
            return status;
        }
        if (f->unknowns > 1 && fit->condition > condition_max) {
            return LS_OK; /* no step: the caller takes fewer unknowns */
        }
        double largest = 0.0;
        for (int k = 0; k < f->unknowns; k++) {
            double change = fit->x[k];
            for (int j = 0; j < f->unknowns; j++) { /* the inverse normal matrix is covariance over variance */
                change -= fit->covariance[k][j] / (fit->deviation * fit->deviation + 1e-30) * f->drawn[j];
            }
            f->scale[k] += change;
            largest = fmax(largest, fabs(change));
        }
        if (!(largest < 5.0) || !(f->scale[0] > 0.05)) {
            return ls_fail(error, LS_NOT_CONVERGED, "the scales run away");
        }
        if (largest < 1e-6) {
            return LS_OK;
        }
    }
    return LS_OK;
}

static void refuse_scale(ls_scale *scale, const char *reason)
{
    scale->is_estimated = 0;
    scale->value = 1.0;
    scale->error = NAN;
    snprintf(scale->reason, sizeof scale->reason, "%.*s", LS_REDUCE_REASON - 1, reason);
}

static void store(const fitting *f, const ls_leastsq *fit, ls_model_fit *out)
{
    double weights = 0.0;
    for (int i = 0; i < fit->rows; i++) {
        weights += f->weight[i];
    }
    out->points = fit->rows;
    out->condition = fit->condition;
    out->deviation_rad = fit->deviation * fit->rows / weights;
    out->correlation = f->unknowns > 1 ? fit->correlation[0][1] : NAN;
    for (int k = 0; k < f->unknowns; k++) {
        out->scale[k].is_estimated = 1;
        out->scale[k].value = f->scale[k];
        out->scale[k].error = fit->error[k];
    }
}

/* Both scales if the points can tell them apart, else the rudder's alone. */
static ls_status fit_scales(const ls_reducing *r, fitting *f, ls_leastsq *fit, ls_error *error)
{
    ls_model_fit *out = &r->out->fit;
    char reason[LS_REDUCE_REASON];
    ls_error why = {0};
    f->unknowns = LS_SCALES;
    f->scale[0] = f->scale[1] = 1.0;
    ls_status status = iterate(r, f, fit, &why);
    if (status == LS_OK && fit->condition < condition_max) {
        return status;
    }
    if (status == LS_OK) {
        snprintf(reason, sizeof reason,
                 "sideslip and rudder move together in these points (condition %.0f, at most %.0f): fly them at "
                 "several banks",
                 fit->condition, condition_max);
    } else {
        snprintf(reason, sizeof reason, "%.150s", why.text);
    }
    refuse_scale(&out->scale[LS_SCALE_SIDESLIP], reason);
    f->unknowns = 1;
    f->scale[0] = f->scale[1] = 1.0;
    return iterate(r, f, fit, error);
}

/* The standard speed of the file with its derivatives scaled; NaN. */
static double scaled_speed(const ls_standard *standard, const double scale[LS_SCALES], ls_limit *limit)
{
    ls_model model = standard->model;
    ls_vmc vmc;
    ls_reduce_scale(&model, scale);
    if (ls_vmc_at(&model, model.condition.bank_rad, &vmc, NULL) != LS_OK) {
        return NAN;
    }
    *limit = vmc.control_limit;
    return vmc.control_cas_m_s;
}

static void find_interval(const ls_reducing *r, const ls_leastsq *fit, const double scale[LS_SCALES], int g)
{
    const ls_standard *standard = &r->standard[g];
    ls_reduced_group *group = &r->out->group[g];
    double slope[LS_SCALES], variance = 0.0;
    ls_limit limit;
    ls_interval *interval = &group->model;
    *interval = (ls_interval){fit->rows, scaled_speed(standard, scale, &group->standard_limit), NAN, NAN, NAN};
    for (int k = 0; k < fit->unknowns; k++) {
        double up[LS_SCALES], down[LS_SCALES];
        memcpy(up, scale, sizeof up);
        memcpy(down, scale, sizeof down);
        up[k] += 0.01;
        down[k] -= 0.01;
        slope[k] = (scaled_speed(standard, up, &limit) - scaled_speed(standard, down, &limit)) / 0.02;
    }
    for (int i = 0; i < fit->unknowns; i++) {
        for (int j = 0; j < fit->unknowns; j++) {
            variance += slope[i] * slope[j] * fit->covariance[i][j];
        }
    }
    double half = ls_student(r->request->confidence, fit->rows - fit->unknowns) * sqrt(variance);
    interval->low = interval->value - half;
    interval->high = interval->value + half;
}

static void name_scales(ls_model_fit *out)
{
    out->scale[LS_SCALE_RUDDER].name = "rudder effectiveness";
    out->scale[LS_SCALE_SIDESLIP].name = "yaw by sideslip";
}

static void fit_and_use(ls_reducing *r, fitting *f)
{
    ls_leastsq fit = {0};
    ls_model_fit *out = &r->out->fit;
    ls_error why = {0};
    choose_points(r->out, f, &out->skipped);
    out->status = fit_scales(r, f, &fit, &why);
    r->scale[LS_SCALE_RUDDER] = r->scale[LS_SCALE_SIDESLIP] = 1.0;
    for (int g = 0; g < r->out->groups; g++) {
        r->out->group[g].model = (ls_interval){0, NAN, NAN, NAN, NAN};
    }
    if (out->status != LS_OK) {
        for (int k = 0; k < LS_SCALES; k++) {
            refuse_scale(&out->scale[k], why.text);
        }
        return;
    }
    correct_covariance(f, &fit);
    store(f, &fit, out);
    for (int g = 0; g < r->out->groups; g++) {
        find_interval(r, &fit, f->scale, g);
    }
    memcpy(r->scale, f->scale, sizeof r->scale);
}

ls_status ls_reduce_fit(ls_reducing *r, ls_error *error)
{
    size_t most = LS_REDUCE_FIT_POINTS < r->out->rows ? LS_REDUCE_FIT_POINTS : (size_t)r->out->rows;
    fitting f = {.index = malloc(most * sizeof *f.index),
                 .a = malloc(most * LS_SCALES * sizeof *f.a),
                 .b = malloc(most * sizeof *f.b),
                 .weight = malloc(most * sizeof *f.weight)};
    ls_status status = LS_MEMORY;
    name_scales(&r->out->fit);
    if (f.index != NULL && f.a != NULL && f.b != NULL && f.weight != NULL) {
        fit_and_use(r, &f);
        status = LS_OK;
    } else {
        ls_fail(error, status, "out of memory while reducing");
    }
    free(f.index);
    free(f.a);
    free(f.b);
    free(f.weight);
    return status;
}
