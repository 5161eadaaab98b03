/* A root, or a minimum, of a function of one variable within a bracket; no allocation. */
#ifndef LS_NUM_ROOT_H
#define LS_NUM_ROOT_H

#include "liveside/status.h"

typedef double ls_scalar_function(double x, void *context);

typedef enum {
    LS_ROOT_CONVERGED,      /* the bracket is as narrow as asked, or the function is zero */
    LS_ROOT_BAD_BRACKET,    /* an end is not finite, or low >= high */
    LS_ROOT_NO_SIGN_CHANGE, /* the function has the same sign at both ends */
    LS_ROOT_NOT_FINITE,     /* the function gave NaN or infinity */
    LS_ROOT_JUMP,           /* the bracket is narrow, yet the residual is above f_tol: a jump or a pole */
    LS_ROOT_ITERATIONS      /* the limit of iterations was reached */
} ls_root_stop;

/* Zero-initialised, everything has its default. */
typedef struct {
    double x_tol;   /* half-width of the last bracket, absolute; 0: round-off alone */
    double f_tol;   /* largest |residual| that counts as a root; 0: not checked */
    int iterations; /* limit; 0: 200 */
} ls_root_options;

typedef struct {
    ls_root_stop stop;
    int iterations;
    int evaluations;
    double x;             /* best point; where NOT_FINITE, the point that failed */
    double residual;      /* the function there */
    double low, high;     /* last bracket, low <= x <= high */
    double f_low, f_high; /* the function at its ends */
} ls_root_report;

/* The root of f in [low, high], f(low) and f(high) of opposite sign (or one of them zero).
 * Given: options, null for the defaults. Returned: report, always filled.
 * Status: LS_OK; LS_NO_STATE (no sign change); LS_NOT_CONVERGED (not finite, jump, iterations);
 * LS_INTERNAL (bad bracket).
 * Source: R. P. Brent, Algorithms for Minimization without Derivatives (1973), procedure zero (chapter 4 from
 * memory). */
ls_status ls_root_find(ls_scalar_function *f, void *context, double low, double high,
                       const ls_root_options *options, ls_root_report *report);

/* The same where the function is known at both ends, which are not evaluated again.
 * Given: ends, its low, high, f_low and f_high alone are read; may be the report itself. */
ls_status ls_root_narrow(ls_scalar_function *f, void *context, const ls_root_report *ends,
                         const ls_root_options *options, ls_root_report *report);

/* The first sign change of f from start towards end (either direction) on a scan of equal steps; hand the
 * bracket to ls_root_find.
 * Given: steps >= 1. Returned: low < high of the bracket; untouched on failure.
 * Status: LS_OK; LS_NO_STATE (none); LS_NOT_CONVERGED (the function was not finite before one was found). */
ls_status ls_root_bracket(ls_scalar_function *f, void *context, double start, double end, int steps, double *low,
                          double *high);

typedef struct {
    ls_root_stop stop; /* CONVERGED, BAD_BRACKET, NOT_FINITE or ITERATIONS */
    int iterations;
    int evaluations;
    double x;
    double value;
    double low, high; /* last bracket */
    int at_end;       /* -1, +1: the least value is that of the interval's low or high end; 0: inside */
} ls_minimum_report;

/* The minimum of f on [low, high], ends included; a local one if f has several.
 * Given: options (f_tol unused; x_tol 0: the square root of round-off), null for the defaults.
 * Returned: report, always filled. Status: as for ls_root_find, without LS_NO_STATE.
 * Source: R. P. Brent (1973), procedure localmin (chapter 5 from memory). */
ls_status ls_minimum_find(ls_scalar_function *f, void *context, double low, double high,
                          const ls_root_options *options, ls_minimum_report *report);

/* Why a search stopped, for people; never null. */
const char *ls_root_stop_text(ls_root_stop stop);

#endif
