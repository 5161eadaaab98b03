#include "num/derivative.h"

#include <math.h>

#define SETTLED 1e-9 /* of the slope */

/* Differences of second order over a step: central, or to the side where there is room. */
static void differences(ls_results_function *f, void *context, int results, double x, const double *at, double h,
                        int side, double *slope)
{
    double a[LS_DERIVATIVES_MAX], b[LS_DERIVATIVES_MAX];
    f(side == 0 ? x + h : x + side * h, a, context);
    f(side == 0 ? x - h : x + side * 2.0 * h, b, context);
    for (int i = 0; i < results; i++) {
        slope[i] = side == 0 ? (a[i] - b[i]) / (2.0 * h) : side * (4.0 * a[i] - b[i] - 3.0 * at[i]) / (2.0 * h);
    }
}

/* Takes the extrapolation of two steps if it moved less than the best so far. */
static void take(double coarse, double fine, double *last, ls_derivative *best)
{
    double better = (4.0 * fine - coarse) / 3.0;
    double moved = fabs(better - (isnan(*last) ? fine : *last));
    if (isnan(best->slope) || moved < best->error) {
        best->slope = better;
        best->error = moved;
    }
    *last = better;
}

void ls_derivative_find(ls_results_function *f, void *context, int results, double x, const double *at,
                        double step, int halvings, const double range[2], ls_derivative *out)
{
    double coarse[LS_DERIVATIVES_MAX], fine[LS_DERIVATIVES_MAX], last[LS_DERIVATIVES_MAX];
    int side = x + step > range[1] ? -1 : x - step < range[0] ? 1 : 0;
    for (int i = 0; i < results; i++) {
        out[i] = (ls_derivative){NAN, NAN};
        last[i] = NAN;
    }
    differences(f, context, results, x, at, step, side, coarse);
    for (int k = 0, settled = 0; k < halvings && !settled; k++) {
        step *= 0.5;
        differences(f, context, results, x, at, step, side, fine);
        settled = 1;
        for (int i = 0; i < results; i++) {
            take(coarse[i], fine[i], &last[i], &out[i]);
            settled &= !(out[i].error > SETTLED * fabs(out[i].slope));
            coarse[i] = fine[i];
        }
    }
}
