/* Interpolation in a table of one variable: straight lines or a monotone cubic. */
#ifndef LS_NUM_CURVE_H
#define LS_NUM_CURVE_H

#include "liveside/curve.h"
#include "liveside/status.h"

typedef struct {
    double value;
    double derivative;
    int outside; /* -1 left of the table, +1 right of it, 0 within (ends included) */
} ls_curve_point;

/* Checks a table and works out its slopes.
 * Given: curve, 2 to LS_CURVE_MAX rows, finite, x strictly increasing.
 * Returned: fit; untouched on failure. Status: LS_OK; LS_FILE_REJECTED with the offending row (from 1).
 * Notes: MONOTONE has a continuous derivative and overshoots nowhere: between two rows it stays between
 * their values. Two rows make a straight line by either method.
 * Source: SLATEC routine DPCHIM (F. N. Fritsch), inner and end slopes; its references are F. N. Fritsch and
 * J. Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300, and F. N. Fritsch and R. E. Carlson, SIAM J. Numer. Anal.
 * 17 (1980) 238. */
ls_status ls_curve_prepare(const ls_curve *curve, ls_curve_method method, ls_curve_fit *fit, ls_error *error);

/* Value and derivative at x; outside the table the end's tangent is continued and flagged.
 * Given: fit, prepared; x, any (NaN gives NaN).
 * Notes: at an inner row of LINEAR the derivative is that of the interval to its right. */
ls_curve_point ls_curve_at(const ls_curve_fit *fit, double x);

#endif
