/* Linear least squares with errors, correlations and conditioning; and Student's distribution. */
#ifndef LS_NUM_LEASTSQ_H
#define LS_NUM_LEASTSQ_H

#include "liveside/status.h"

enum { LS_LEASTSQ_MAX = 6 };

typedef struct {
    int rows, unknowns;
    double x[LS_LEASTSQ_MAX];
    double error[LS_LEASTSQ_MAX]; /* standard errors, from the scatter of the residuals */
    double covariance[LS_LEASTSQ_MAX][LS_LEASTSQ_MAX];
    double correlation[LS_LEASTSQ_MAX][LS_LEASTSQ_MAX];
    double deviation; /* of one residual: root of chi2 over (rows - unknowns) */
    double condition; /* of the matrix with its columns brought to unit length: large where they move together */
} ls_leastsq;

/* Solves a x = b in the least-squares sense.
 * Given: rows > unknowns >= 1, at most LS_LEASTSQ_MAX; a, rows x unknowns row by row.
 * Returned: fit; untouched on failure. Status: LS_OK; LS_NO_STATE (too few rows, not finite, or columns that are
 * dependent to working precision).
 * Source: Golub and Van Loan, Matrix Computations: orthogonal triangle (5.2), singular values (8.6.3). */
ls_status ls_leastsq_solve(int rows, int unknowns, const double *a, const double *b, ls_leastsq *fit,
                           ls_error *error);

/* How many standard errors a two-sided interval of a probability takes with these degrees of freedom (>= 1). */
double ls_student(double probability, double freedom);

#endif
