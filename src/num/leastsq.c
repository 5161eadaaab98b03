#include "num/leastsq.h"

#include <gsl/gsl_cdf.h>
#include <math.h>

/* GSL's own solver is not used: where memory runs out inside it, it reads through a null pointer. This one takes
 * row after row and needs no memory. */

enum { N = LS_LEASTSQ_MAX };

typedef struct {
    int rows, unknowns;
    double length[N];       /* of the columns before they were brought to unit length */
    double R[N + 1][N + 1]; /* upper triangle; the last column is the right-hand side's, its end the residual's */
    double inverse[N][N];   /* of the triangle */
} equations;

/* Lengths of the columns. Returned: 0 when something is not finite, or a column is zero. */
static int measure(equations *s, const double *a, const double *b)
{
    int n = s->unknowns, good = 1;
    for (int i = 0; i < s->rows; i++) {
        good = good && isfinite(b[i]);
        for (int j = 0; j < n; j++) {
            s->length[j] = hypot(s->length[j], a[i * n + j]);
        }
    }
    for (int j = 0; j < n; j++) {
        good = good && isfinite(s->length[j]) && s->length[j] > 0.0;
    }
    return good;
}

/* Turns a row of the system into the triangle. Source: Givens rotations, Golub and Van Loan, Matrix Computations,
 * section 5.2. */
static void take_row(equations *s, double row[N + 1])
{
    int n = s->unknowns;
    for (int k = 0; k <= n; k++) {
        double length = hypot(s->R[k][k], row[k]);
        if (row[k] == 0.0) {
            continue;
        }
        double c = s->R[k][k] / length, d = row[k] / length;
        for (int j = k; j <= n; j++) {
            double above = s->R[k][j];
            s->R[k][j] = c * above + d * row[j];
            row[j] = c * row[j] - d * above;
        }
    }
}

static void triangulate(equations *s, const double *a, const double *b)
{
    int n = s->unknowns;
    for (int i = 0; i < s->rows; i++) {
        double row[N + 1];
        for (int j = 0; j < n; j++) {
            row[j] = a[i * n + j] / s->length[j];
        }
        row[n] = b[i];
        take_row(s, row);
    }
}

/* Smallest over largest singular value of the triangle: its columns turned in pairs until they are orthogonal.
 * Source: one-sided Jacobi, Golub and Van Loan, Matrix Computations, section 8.6.3. */
static double reciprocal_condition(const equations *s)
{
    double column[N][N] = {{0}}, least = INFINITY, most = 0.0;
    int n = s->unknowns;
    for (int j = 0; j < n; j++) {
        for (int i = 0; i <= j; i++) {
            column[j][i] = s->R[i][j];
        }
    }
    for (int sweep = 0; sweep < 30; sweep++) {
        for (int pair = 0; pair < n * n; pair++) {
            double *p = column[pair / n], *q = column[pair % n], pp = 0.0, qq = 0.0, pq = 0.0;
            for (int i = 0; i < n; i++) {
                pp += p[i] * p[i];
                qq += q[i] * q[i];
                pq += p[i] * q[i];
            }
            if (pair / n >= pair % n || fabs(pq) <= 1e-300) {
                continue;
            }
            double zeta = (qq - pp) / (2.0 * pq), t = copysign(1.0, zeta) / (fabs(zeta) + hypot(1.0, zeta));
            double c = 1.0 / hypot(1.0, t);
            for (int i = 0; i < n; i++) {
                double was = p[i];
                p[i] = c * (was - t * q[i]);
                q[i] = c * (q[i] + t * was);
            }
        }
    }
    for (int j = 0; j < n; j++) {
        double square = 0.0;
        for (int i = 0; i < n; i++) {
            square += column[j][i] * column[j][i];
        }
        least = fmin(least, sqrt(square));
        most = fmax(most, sqrt(square));
    }
    return most > 0.0 ? least / most : 0.0;
}

static void invert(equations *s)
{
    for (int j = 0; j < s->unknowns; j++) {
        for (int i = s->unknowns - 1; i >= 0; i--) {
            double sum = i == j;
            for (int k = i + 1; k < s->unknowns; k++) {
                sum -= s->R[i][k] * s->inverse[k][j];
            }
            s->inverse[i][j] = sum / s->R[i][i];
        }
    }
}

/* Values and covariance in the unknowns' own units. */
static void unload(const equations *s, ls_leastsq *fit)
{
    int n = s->unknowns;
    double variance = s->R[n][n] * s->R[n][n] / (s->rows - n);
    fit->rows = s->rows;
    fit->unknowns = n;
    fit->deviation = sqrt(variance);
    for (int i = 0; i < n; i++) {
        fit->x[i] = 0.0;
        for (int j = 0; j < n; j++) {
            fit->x[i] += s->inverse[i][j] * s->R[j][n] / s->length[i];
            fit->covariance[i][j] = 0.0;
            for (int k = 0; k < n; k++) {
                fit->covariance[i][j] += s->inverse[i][k] * s->inverse[j][k];
            }
            fit->covariance[i][j] *= variance / s->length[i] / s->length[j];
        }
        fit->error[i] = sqrt(fit->covariance[i][i]);
    }
    for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
            double scale = fit->error[i] * fit->error[j];
            fit->correlation[i][j] = scale > 0.0 ? fit->covariance[i][j] / scale : (double)(i == j);
        }
    }
}

static ls_status solve(equations *s, const double *a, const double *b, ls_leastsq *fit, ls_error *error)
{
    if (!measure(s, a, b)) {
        return ls_fail(error, LS_NO_STATE, "least squares: a value is not finite, or a column is zero throughout");
    }
    triangulate(s, a, b);
    double rcond = reciprocal_condition(s);
    if (!(rcond > 1e-13)) {
        return ls_fail(error, LS_NO_STATE, "least squares: the columns are dependent (condition above 1e13)");
    }
    fit->condition = 1.0 / rcond;
    invert(s);
    unload(s, fit);
    return LS_OK;
}

ls_status ls_leastsq_solve(int rows, int unknowns, const double *a, const double *b, ls_leastsq *fit,
                           ls_error *error)
{
    equations s = {.rows = rows, .unknowns = unknowns};
    if (rows <= unknowns || unknowns < 1 || unknowns > LS_LEASTSQ_MAX) {
        return ls_fail(error, LS_NO_STATE, "least squares: %d points are too few for %d unknowns", rows, unknowns);
    }
    return solve(&s, a, b, fit, error);
}

double ls_student(double probability, double freedom)
{
    return gsl_cdf_tdist_Pinv(0.5 + probability / 2.0, freedom);
}
