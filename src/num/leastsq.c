#include "num/leastsq.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_multifit.h>
#include <math.h>

typedef struct {
    gsl_matrix *a, *covariance;
    gsl_vector *b, *x;
    gsl_multifit_linear_workspace *work;
} workspace;

static int allocate(workspace *w, size_t rows, size_t unknowns)
{
    w->a = gsl_matrix_alloc(rows, unknowns);
    w->covariance = gsl_matrix_alloc(unknowns, unknowns);
    w->b = gsl_vector_alloc(rows);
    w->x = gsl_vector_alloc(unknowns);
    w->work = gsl_multifit_linear_alloc(rows, unknowns);
    return w->a != NULL && w->covariance != NULL && w->b != NULL && w->x != NULL && w->work != NULL;
}

static void release(workspace *w)
{
    gsl_matrix_free(w->a);
    gsl_matrix_free(w->covariance);
    gsl_vector_free(w->b);
    gsl_vector_free(w->x);
    gsl_multifit_linear_free(w->work);
}

/* Copies the system with its columns brought to unit length. Returned: 0 when something is not finite, or a column
 * is zero. */
static int load(workspace *w, int rows, int unknowns, const double *a, const double *b, double *length)
{
    int good = 1;
    for (int j = 0; j < unknowns; j++) {
        length[j] = 0.0;
        for (int i = 0; i < rows; i++) {
            length[j] = hypot(length[j], a[i * unknowns + j]);
        }
        good = good && isfinite(length[j]) && length[j] > 0.0;
    }
    for (int i = 0; good && i < rows; i++) {
        gsl_vector_set(w->b, (size_t)i, b[i]);
        good = isfinite(b[i]);
        for (int j = 0; j < unknowns; j++) {
            gsl_matrix_set(w->a, (size_t)i, (size_t)j, a[i * unknowns + j] / length[j]);
        }
    }
    return good;
}

static void unload(const workspace *w, int rows, int unknowns, const double *length, double chi2, ls_leastsq *fit)
{
    fit->rows = rows;
    fit->unknowns = unknowns;
    fit->deviation = sqrt(chi2 / (rows - unknowns));
    for (int i = 0; i < unknowns; i++) {
        fit->x[i] = gsl_vector_get(w->x, (size_t)i) / length[i];
        fit->error[i] = sqrt(gsl_matrix_get(w->covariance, (size_t)i, (size_t)i)) / length[i];
    }
    for (int i = 0; i < unknowns; i++) {
        for (int j = 0; j < unknowns; j++) {
            fit->covariance[i][j] = gsl_matrix_get(w->covariance, (size_t)i, (size_t)j) / length[i] / length[j];
            double scale = fit->error[i] * fit->error[j];
            fit->correlation[i][j] = scale > 0.0 ? fit->covariance[i][j] / scale : (double)(i == j);
        }
    }
}

static ls_status solve(workspace *w, int rows, int unknowns, const double *a, const double *b, ls_leastsq *fit,
                       ls_error *error)
{
    double length[LS_LEASTSQ_MAX], chi2;
    if (!load(w, rows, unknowns, a, b, length)) {
        return ls_fail(error, LS_NO_STATE, "least squares: a value is not finite, or a column is zero throughout");
    }
    if (gsl_multifit_linear_svd(w->a, w->work) != 0) { /* as the columns are, without GSL's own scaling */
        return ls_fail(error, LS_NO_STATE, "least squares: the singular values do not converge");
    }
    double rcond = gsl_multifit_linear_rcond(w->work);
    if (!(rcond > 1e-13) || gsl_multifit_linear(w->a, w->b, w->x, w->covariance, &chi2, w->work) != 0) {
        return ls_fail(error, LS_NO_STATE, "least squares: the columns are dependent (condition above 1e13)");
    }
    fit->condition = 1.0 / rcond;
    unload(w, rows, unknowns, length, chi2, fit);
    return LS_OK;
}

ls_status ls_leastsq_solve(int rows, int unknowns, const double *a, const double *b, ls_leastsq *fit,
                           ls_error *error)
{
    workspace w = {0};
    if (rows <= unknowns || unknowns < 1 || unknowns > LS_LEASTSQ_MAX) {
        return ls_fail(error, LS_NO_STATE, "least squares: %d points are too few for %d unknowns", rows, unknowns);
    }
    ls_status status = LS_MEMORY;
    if (allocate(&w, (size_t)rows, (size_t)unknowns)) {
        status = solve(&w, rows, unknowns, a, b, fit, error);
    } else {
        ls_fail(error, status, "out of memory in least squares");
    }
    release(&w);
    return status;
}

double ls_student(double probability, double freedom)
{
    return gsl_cdf_tdist_Pinv(0.5 + probability / 2.0, freedom);
}
