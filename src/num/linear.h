/* A small dense linear system in place: the Newton steps of the trim and of the limits. */
#ifndef LS_NUM_LINEAR_H
#define LS_NUM_LINEAR_H

#include <math.h>

enum { LS_LINEAR_MAX = 6 };

/* Solves a x = b for several right-hand sides by elimination with row pivoting, all overwritten.
 * Given: n, 1 to LS_LINEAR_MAX; a, rows of LS_LINEAR_MAX: the matrix, then in columns n to n + sides - 1 the
 * right-hand sides (n + sides <= LS_LINEAR_MAX).
 * Returned: 1, the solutions in those columns; 0 when a is singular to working precision (nothing is of use then).
 * Notes: inline because n is known where it is called, so that the loops unroll. */
static inline int ls_linear_sides(int n, int sides, double a[][LS_LINEAR_MAX])
{
    int width = n + sides;
    for (int k = 0; k < n; k++) {
        int pivot = k;
        for (int i = k + 1; i < n; i++) {
            pivot = fabs(a[i][k]) > fabs(a[pivot][k]) ? i : pivot;
        }
        if (!(fabs(a[pivot][k]) > 1e-300)) {
            return 0;
        }
        if (pivot != k) {
            for (int j = k; j < width; j++) {
                double kept = a[k][j];
                a[k][j] = a[pivot][j];
                a[pivot][j] = kept;
            }
        }
        double inverse = 1.0 / a[k][k];
        a[k][k] = inverse;
        for (int i = k + 1; i < n; i++) {
            double factor = a[i][k] * inverse;
            for (int j = k + 1; j < width; j++) {
                a[i][j] -= factor * a[k][j];
            }
        }
    }
    for (int s = n; s < width; s++) {
        for (int i = n - 1; i >= 0; i--) {
            for (int j = i + 1; j < n; j++) {
                a[i][s] -= a[i][j] * a[j][s];
            }
            a[i][s] *= a[i][i];
        }
    }
    return 1;
}

/* Solves a x = b; a and b are overwritten, b with x. Given: n, 1 to LS_LINEAR_MAX - 1. Returned: as above. */
static inline int ls_linear_solve(int n, double a[][LS_LINEAR_MAX], double *b)
{
    for (int i = 0; i < n; i++) {
        a[i][n] = b[i];
    }
    int solved = ls_linear_sides(n, 1, a);
    for (int i = 0; i < n; i++) {
        b[i] = a[i][n];
    }
    return solved;
}

#endif
