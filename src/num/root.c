#include "num/root.h"

#include <float.h>
#include <math.h>
#include <stddef.h>

enum { ITERATIONS_DEFAULT = 200 };

const char *ls_root_stop_text(ls_root_stop stop)
{
    switch (stop) {
    case LS_ROOT_CONVERGED:
        return "converged";
    case LS_ROOT_BAD_BRACKET:
        return "the bracket is not an interval";
    case LS_ROOT_NO_SIGN_CHANGE:
        return "no sign change between the ends";
    case LS_ROOT_NOT_FINITE:
        return "the function was not finite";
    case LS_ROOT_JUMP:
        return "the function jumps over zero";
    case LS_ROOT_ITERATIONS:
        return "the limit of iterations was reached";
    }
    return "unknown";
}

static ls_status status_of(ls_root_stop stop)
{
    switch (stop) {
    case LS_ROOT_CONVERGED:
        return LS_OK;
    case LS_ROOT_NO_SIGN_CHANGE:
        return LS_NO_STATE;
    case LS_ROOT_BAD_BRACKET:
        return LS_INTERNAL;
    default:
        return LS_NOT_CONVERGED;
    }
}

static ls_root_options with_defaults(const ls_root_options *options)
{
    ls_root_options set = options != NULL ? *options : (ls_root_options){0};
    set.iterations = set.iterations > 0 ? set.iterations : ITERATIONS_DEFAULT;
    return set;
}

static int have_same_sign(double a, double b)
{
    return (a > 0.0 && b > 0.0) || (a < 0.0 && b < 0.0);
}

/* Brent's state: b is the best point, c the other end of the bracket, a the point before b. */
typedef struct {
    double a, b, c;
    double fa, fb, fc;
    double step, last_step;
} brent;

/* Puts c on the other side of the root from b, and the smaller function value at b. */
static void arrange(brent *s)
{
    if (have_same_sign(s->fb, s->fc)) {
        s->c = s->a;
        s->fc = s->fa;
        s->step = s->last_step = s->b - s->a;
    }
    if (fabs(s->fc) < fabs(s->fb)) {
        s->a = s->b;
        s->b = s->c;
        s->c = s->a;
        s->fa = s->fb;
        s->fb = s->fc;
        s->fc = s->fa;
    }
}

/* The step p/q of the secant, or of inverse quadratic interpolation where three points are known. */
static void interpolate(const brent *s, double half, double *p, double *q)
{
    double ratio = s->fb / s->fa;
    if (s->a == s->c) {
        *p = 2.0 * half * ratio;
        *q = 1.0 - ratio;
    } else {
        double u = s->fa / s->fc;
        double v = s->fb / s->fc;
        *p = ratio * (2.0 * half * u * (u - v) - (s->b - s->a) * (v - 1.0));
        *q = (u - 1.0) * (v - 1.0) * (ratio - 1.0);
    }
    if (*p > 0.0) {
        *q = -*q;
    } else {
        *p = -*p;
    }
}

/* Chooses the next step: interpolation while it stays well inside and shrinks, else halving. */
static void choose_step(brent *s, double half, double tol)
{
    double p, q;
    if (fabs(s->last_step) < tol || fabs(s->fa) <= fabs(s->fb)) {
        s->step = s->last_step = half;
        return;
    }
    interpolate(s, half, &p, &q);
    if (2.0 * p < fmin(3.0 * half * q - fabs(tol * q), fabs(s->last_step * q))) {
        s->last_step = s->step;
        s->step = p / q;
    } else {
        s->step = s->last_step = half;
    }
}

/* One evaluation with its bookkeeping; returns whether the function was finite. */
static int evaluate(ls_scalar_function *f, void *context, double x, double *value, int *evaluations)
{
    *value = f(x, context);
    (*evaluations)++;
    return isfinite(*value);
}

static void report_bracket(const brent *s, ls_root_report *report)
{
    int b_is_low = s->b <= s->c;
    report->x = s->b;
    report->residual = s->fb;
    report->low = b_is_low ? s->b : s->c;
    report->high = b_is_low ? s->c : s->b;
    report->f_low = b_is_low ? s->fb : s->fc;
    report->f_high = b_is_low ? s->fc : s->fb;
}

static ls_root_stop fail_at(double x, double value, ls_root_report *report)
{
    report->x = x;
    report->residual = value;
    return LS_ROOT_NOT_FINITE;
}

static ls_root_stop judge(double residual, const ls_root_options *options)
{
    return options->f_tol > 0.0 && fabs(residual) > options->f_tol ? LS_ROOT_JUMP : LS_ROOT_CONVERGED;
}

static ls_root_stop iterate(ls_scalar_function *f, void *context, const ls_root_options *options, brent *s,
                            ls_root_report *report)
{
    for (;;) {
        arrange(s);
        report_bracket(s, report);
        double tol = 2.0 * DBL_EPSILON * fabs(s->b) + 0.5 * options->x_tol;
        double half = 0.5 * (s->c - s->b);
        if (s->fb == 0.0 || fabs(half) <= tol) {
            return judge(s->fb, options);
        }
        if (report->iterations == options->iterations) {
            return LS_ROOT_ITERATIONS;
        }
        choose_step(s, half, tol);
        s->a = s->b;
        s->fa = s->fb;
        s->b += fabs(s->step) > tol ? s->step : copysign(fmax(tol, DBL_MIN), half);
        report->iterations++;
        if (!evaluate(f, context, s->b, &s->fb, &report->evaluations)) {
            return fail_at(s->b, s->fb, report);
        }
    }
}

static int is_interval(double low, double high)
{
    return isfinite(low) && isfinite(high) && low < high;
}

/* From the ends that stand in the report. */
static ls_root_stop narrow(ls_scalar_function *f, void *context, const ls_root_options *options,
                           ls_root_report *report)
{
    double low = report->low, high = report->high;
    if (have_same_sign(report->f_low, report->f_high)) {
        int low_is_best = fabs(report->f_low) <= fabs(report->f_high);
        report->x = low_is_best ? low : high;
        report->residual = low_is_best ? report->f_low : report->f_high;
        return LS_ROOT_NO_SIGN_CHANGE;
    }
    brent s = {.a = low, .b = high, .c = low, .fa = report->f_low, .fb = report->f_high, .fc = report->f_low};
    s.step = s.last_step = high - low;
    return iterate(f, context, options, &s, report);
}

static ls_root_stop find_root(ls_scalar_function *f, void *context, const ls_root_options *options,
                              ls_root_report *report)
{
    if (!is_interval(report->low, report->high)) {
        return LS_ROOT_BAD_BRACKET;
    }
    if (!evaluate(f, context, report->low, &report->f_low, &report->evaluations)) {
        return fail_at(report->low, report->f_low, report);
    }
    if (!evaluate(f, context, report->high, &report->f_high, &report->evaluations)) {
        return fail_at(report->high, report->f_high, report);
    }
    return narrow(f, context, options, report);
}

ls_status ls_root_find(ls_scalar_function *f, void *context, double low, double high,
                       const ls_root_options *options, ls_root_report *report)
{
    ls_root_options set = with_defaults(options);
    *report = (ls_root_report){.x = NAN, .residual = NAN, .low = low, .high = high, .f_low = NAN, .f_high = NAN};
    report->stop = find_root(f, context, &set, report);
    return status_of(report->stop);
}

ls_status ls_root_narrow(ls_scalar_function *f, void *context, const ls_root_report *ends,
                         const ls_root_options *options, ls_root_report *report)
{
    ls_root_options set = with_defaults(options);
    ls_root_report start = {.x = NAN,
                            .residual = NAN,
                            .low = ends->low,
                            .high = ends->high,
                            .f_low = ends->f_low,
                            .f_high = ends->f_high};
    *report = start;
    if (!is_interval(start.low, start.high)) {
        report->stop = LS_ROOT_BAD_BRACKET;
    } else if (!isfinite(start.f_low) || !isfinite(start.f_high)) {
        report->stop = isfinite(start.f_low) ? fail_at(start.high, start.f_high, report)
                                             : fail_at(start.low, start.f_low, report);
    } else {
        report->stop = narrow(f, context, &set, report);
    }
    return status_of(report->stop);
}

ls_status ls_root_bracket(ls_scalar_function *f, void *context, double start, double end, int steps, double *low,
                          double *high)
{
    double x = start;
    double value = f(x, context);
    for (int i = 1; i <= steps && isfinite(value); i++) {
        double next = i == steps ? end : start + (end - start) * i / steps;
        double next_value = f(next, context);
        if (isfinite(next_value) && !have_same_sign(value, next_value)) {
            *low = fmin(x, next);
            *high = fmax(x, next);
            return LS_OK;
        }
        x = next;
        value = next_value;
    }
    return isfinite(value) ? LS_NO_STATE : LS_NOT_CONVERGED;
}
