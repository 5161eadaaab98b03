/* Derivatives by differences whose step is halved until they settle. */
#ifndef LS_NUM_DERIVATIVE_H
#define LS_NUM_DERIVATIVE_H

enum { LS_DERIVATIVES_MAX = 4, LS_HALVINGS_MAX = 8 };

/* Several results of one variable at once; NaN where there is none. */
typedef void ls_results_function(double x, double *results, void *context);

typedef struct {
    double slope;
    double error; /* how far the last halving moved it */
} ls_derivative;

/* The derivatives of `results` functions at x.
 * Given: at, their values there; step > 0, the first; halvings, 1 to LS_HALVINGS_MAX: fewer are done where all
 * settle; range of x, at whose ends the differences are one-sided. Returned: out, NaN where a value
 * was missing. Source: Richardson's extrapolation of differences of second order, (4 D(h/2) - D(h)) / 3; the
 * halving that moved the result least is taken, as in C. J. F. Ridders, Advances in Engineering Software 4
 * (1982) 75. */
void ls_derivative_find(ls_results_function *f, void *context, int results, double x, const double *at,
                        double step, int halvings, const double range[2], ls_derivative *out);

#endif
