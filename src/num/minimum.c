#include "num/root.h"

#include <float.h>
#include <math.h>
#include <stddef.h>

enum { ITERATIONS_DEFAULT = 200 };

/* (3 - sqrt 5)/2, what golden section cuts off. */
static const double golden = 0.38196601125010515;

/* Brent's state: [low, high] holds the minimum, x is the best point, w the second best, v the one before w. */
typedef struct {
    double low, high;
    double x, w, v;
    double fx, fw, fv;
    double step, last_step;
} brent;

static double golden_step(brent *s, double middle)
{
    s->last_step = s->x < middle ? s->high - s->x : s->low - s->x;
    return golden * s->last_step;
}

/* The step to the vertex of the parabola through x, w, v while it stays inside and shrinks, else a golden one. */
static double choose_step(brent *s, double middle, double tol)
{
    if (fabs(s->last_step) <= tol) {
        return golden_step(s, middle);
    }
    double r = (s->x - s->w) * (s->fx - s->fv);
    double q = (s->x - s->v) * (s->fx - s->fw);
    double p = (s->x - s->v) * q - (s->x - s->w) * r;
    q = 2.0 * (q - r);
    p = q > 0.0 ? -p : p;
    q = fabs(q);
    double before_last = s->last_step;
    if (!(fabs(p) < fabs(0.5 * q * before_last) && p > q * (s->low - s->x) && p < q * (s->high - s->x))) {
        return golden_step(s, middle);
    }
    s->last_step = s->step;
    double step = p / q;
    double at = s->x + step;
    int is_near_end = at - s->low < 2.0 * tol || s->high - at < 2.0 * tol;
    return is_near_end ? copysign(tol, middle - s->x) : step;
}

static void accept(brent *s, double u, double fu)
{
    if (fu <= s->fx) {
        *(u < s->x ? &s->high : &s->low) = s->x;
        s->v = s->w, s->fv = s->fw;
        s->w = s->x, s->fw = s->fx;
        s->x = u, s->fx = fu;
        return;
    }
    *(u < s->x ? &s->low : &s->high) = u;
    if (fu <= s->fw || s->w == s->x) {
        s->v = s->w, s->fv = s->fw;
        s->w = u, s->fw = fu;
    } else if (fu <= s->fv || s->v == s->x || s->v == s->w) {
        s->v = u, s->fv = fu;
    }
}

static ls_root_stop fail_at(double x, double value, ls_minimum_report *report)
{
    report->x = x;
    report->value = value;
    return LS_ROOT_NOT_FINITE;
}

static void report_best(const brent *s, ls_minimum_report *report)
{
    report->x = s->x;
    report->value = s->fx;
    report->low = s->low;
    report->high = s->high;
}

static ls_root_stop iterate(ls_scalar_function *f, void *context, double x_tol, int limit, brent *s,
                            ls_minimum_report *report)
{
    for (;;) {
        double middle = 0.5 * (s->low + s->high);
        double tol = sqrt(DBL_EPSILON) * fabs(s->x) + x_tol / 3.0 + DBL_MIN;
        report_best(s, report);
        if (fabs(s->x - middle) <= 2.0 * tol - 0.5 * (s->high - s->low)) {
            return LS_ROOT_CONVERGED;
        }
        if (report->iterations == limit) {
            return LS_ROOT_ITERATIONS;
        }
        s->step = choose_step(s, middle, tol);
        double u = s->x + (fabs(s->step) >= tol ? s->step : copysign(tol, s->step));
        double fu = f(u, context);
        report->iterations++;
        report->evaluations++;
        if (!isfinite(fu)) {
            return fail_at(u, fu, report);
        }
        accept(s, u, fu);
    }
}

/* Brent's search never looks at the ends; a minimum that lies there is taken here. */
static ls_root_stop compare_ends(ls_scalar_function *f, void *context, double low, double high,
                                 ls_minimum_report *report)
{
    double end[2] = {low, high};
    for (int i = 0; i < 2; i++) {
        double value = f(end[i], context);
        report->evaluations++;
        if (!isfinite(value)) {
            return fail_at(end[i], value, report);
        }
        if (value < report->value) {
            report->x = end[i];
            report->value = value;
            report->at_end = i == 0 ? -1 : 1;
        }
    }
    return LS_ROOT_CONVERGED;
}

static ls_root_stop find_minimum(ls_scalar_function *f, void *context, const ls_root_options *options,
                                 ls_minimum_report *report)
{
    double low = report->low;
    double high = report->high;
    if (!(isfinite(low) && isfinite(high) && low < high)) {
        return LS_ROOT_BAD_BRACKET;
    }
    brent s = {.low = low, .high = high};
    s.x = s.w = s.v = low + golden * (high - low);
    s.fx = s.fw = s.fv = f(s.x, context);
    report->evaluations++;
    if (!isfinite(s.fx)) {
        return fail_at(s.x, s.fx, report);
    }
    int limit = options != NULL && options->iterations > 0 ? options->iterations : ITERATIONS_DEFAULT;
    ls_root_stop stop = iterate(f, context, options != NULL ? options->x_tol : 0.0, limit, &s, report);
    return stop == LS_ROOT_CONVERGED ? compare_ends(f, context, low, high, report) : stop;
}

ls_status ls_minimum_find(ls_scalar_function *f, void *context, double low, double high,
                          const ls_root_options *options, ls_minimum_report *report)
{
    *report = (ls_minimum_report){.x = NAN, .value = NAN, .low = low, .high = high};
    report->stop = find_minimum(f, context, options, report);
    switch (report->stop) {
    case LS_ROOT_CONVERGED:
        return LS_OK;
    case LS_ROOT_BAD_BRACKET:
        return LS_INTERNAL;
    default:
        return LS_NOT_CONVERGED;
    }
}
