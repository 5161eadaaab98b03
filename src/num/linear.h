/* A small dense linear system in place: the Newton step of the trim. */
#ifndef LS_NUM_LINEAR_H
#define LS_NUM_LINEAR_H

#include <math.h>

enum { LS_LINEAR_MAX = 6 };

/* Solves a x = b by elimination with row pivoting; a and b are overwritten, b with x.
 * Given: n, 1 to LS_LINEAR_MAX; a, rows of LS_LINEAR_MAX.
 * Returned: 1, or 0 when a is singular to working precision (b is then useless).
 * Notes: inline because n is known where it is called, so that the loops unroll. */
static inline int ls_linear_solve(int n, double a[][LS_LINEAR_MAX], double *b)
{
    for (int k = 0; k < n; k++) {
        int pivot = k;
        for (int i = k + 1; i < n; i++) {
            pivot = fabs(a[i][k]) > fabs(a[pivot][k]) ? i : pivot;
        }
        if (!(fabs(a[pivot][k]) > 1e-300)) {
            return 0;
        }
        if (pivot != k) {
            for (int j = k; j < n; j++) {
                double kept = a[k][j];
                a[k][j] = a[pivot][j];
                a[pivot][j] = kept;
            }
            double kept = b[k];
            b[k] = b[pivot];
            b[pivot] = kept;
        }
        double inverse = 1.0 / a[k][k];
        for (int i = k + 1; i < n; i++) {
            double factor = a[i][k] * inverse;
            for (int j = k + 1; j < n; j++) {
                a[i][j] -= factor * a[k][j];
            }
            b[i] -= factor * b[k];
        }
    }
    for (int i = n - 1; i >= 0; i--) {
        for (int j = i + 1; j < n; j++) {
            b[i] -= a[i][j] * b[j];
        }
        b[i] /= a[i][i];
    }
    return 1;
}

#endif
