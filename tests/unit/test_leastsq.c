/* Least squares: certified values, GSL's own solvers by another way, closed cases, refusals. */
#include "check.h"

#include "num/leastsq.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_fit.h>
#include <gsl/gsl_multifit.h>
#include <math.h>
#include <string.h>

#define NIST "NIST Statistical Reference Datasets, Longley (data and certified values from memory)"

/* Deflator, product, unemployed, armed forces, population, year; employed. */
static const double longley[16][7] = {
    {83.0, 234289, 2356, 1590, 107608, 1947, 60323},  {88.5, 259426, 2325, 1456, 108632, 1948, 61122},
    {88.2, 258054, 3682, 1616, 109773, 1949, 60171},  {89.5, 284599, 3351, 1650, 110929, 1950, 61187},
    {96.2, 328975, 2099, 3099, 112075, 1951, 63221},  {98.1, 346999, 1932, 3594, 113270, 1952, 63639},
    {99.0, 365385, 1870, 3547, 115094, 1953, 64989},  {100.0, 363112, 3578, 3350, 116219, 1954, 63761},
    {101.2, 397469, 2904, 3048, 117388, 1955, 66019}, {104.6, 419180, 2822, 2857, 118734, 1956, 67857},
    {108.4, 442769, 2936, 2798, 120445, 1957, 68169}, {110.8, 444546, 4681, 2637, 121950, 1958, 66513},
    {112.6, 482704, 3813, 2552, 123366, 1959, 68655}, {114.2, 502601, 3931, 2514, 125368, 1960, 69564},
    {115.7, 518173, 4806, 2572, 127852, 1961, 69331}, {116.9, 554894, 4007, 2827, 130081, 1962, 70551}};

/* Six unknowns are the most here, so the constant goes by taking the means away: the slopes stay. */
static void certified_values(void **state)
{
    (void)state;
    static const double slope[6] = {15.0618722713733,  -0.0358191792925910, -2.02022980381683,
                                    -1.03322686717359, -0.0511041056535807, 1829.15146461355};
    static const double error[6] = {84.9149257747669,  0.0334910077722432, 0.488399681651699,
                                    0.214274163161675, 0.226073200069370,  455.478499142212};
    double mean[7] = {0}, a[16 * 6], b[16];
    for (int i = 0; i < 16; i++) {
        for (int j = 0; j < 7; j++) {
            mean[j] += longley[i][j] / 16;
        }
    }
    for (int i = 0; i < 16; i++) {
        b[i] = longley[i][6] - mean[6];
        for (int j = 0; j < 6; j++) {
            a[6 * i + j] = longley[i][j] - mean[j];
        }
    }
    ls_leastsq fit;
    assert_int_equal(ls_leastsq_solve(16, 6, a, b, &fit, NULL), LS_OK);
    for (int j = 0; j < 6; j++) {
        check_close("slope over its certified value", fit.x[j] / slope[j], 1.0, 1e-8,
                    "condition 110 of centred columns", NIST);
        /* one degree of freedom more than with the constant: 10 of residuals instead of 9 */
        check_close("standard error over its certified value", fit.error[j] * sqrt(10.0 / 9.0) / error[j], 1.0,
                    1e-8, "condition 110 of centred columns", NIST);
    }
}

static void agrees_with_gsl_by_another_way(void **state)
{
    (void)state;
    uint64_t seed = 1;
    for (int round = 0; round < check_scaled(50); round++) {
        enum { N = 30 };
        double a[2 * N], b[N], x[N], c0, c1, cov00, cov01, cov11, sum;
        for (int i = 0; i < N; i++) {
            x[i] = check_random(&seed, -3.0, 5.0);
            b[i] = 2.0 - 0.7 * x[i] + check_random(&seed, -1.0, 1.0);
            a[2 * i] = 1.0;
            a[2 * i + 1] = x[i];
        }
        ls_leastsq fit;
        assert_int_equal(ls_leastsq_solve(N, 2, a, b, &fit, NULL), LS_OK);
        gsl_fit_linear(x, 1, b, 1, N, &c0, &c1, &cov00, &cov01, &cov11, &sum);
        check_close("straight line, constant", fit.x[0], c0, 1e-12, "round-off", "gsl_fit_linear");
        check_close("straight line, slope", fit.x[1], c1, 1e-12, "round-off", "gsl_fit_linear");
        check_close("straight line, covariance", fit.covariance[0][1], cov01, 1e-12, "round-off",
                    "gsl_fit_linear");
        check_close("straight line, error of the slope", fit.error[1], sqrt(cov11), 1e-12, "round-off",
                    "gsl_fit_linear");
        check_close("straight line, deviation", fit.deviation, sqrt(sum / (N - 2)), 1e-12, "round-off",
                    "gsl_fit_linear");
    }
}

/* Several unknowns of very unlike size, nearly dependent at times. */
static void agrees_with_gsl_multifit(void **state)
{
    (void)state;
    uint64_t seed = 2;
    for (int round = 0; round < check_scaled(50); round++) {
        enum { ROWS = 40, UNKNOWNS = 4 };
        double a[ROWS * UNKNOWNS], b[ROWS], nearness = pow(10.0, -check_random(&seed, 0.0, 3.0)), chi2;
        for (int i = 0; i < ROWS; i++) {
            double *row = a + UNKNOWNS * i;
            row[0] = 1.0;
            row[1] = 1e3 * check_random(&seed, -1.0, 1.0);
            row[2] = 1e-3 * check_random(&seed, -1.0, 1.0);
            row[3] = row[1] + 1e3 * nearness * check_random(&seed, -1.0, 1.0);
            b[i] = check_random(&seed, -5.0, 5.0);
        }
        ls_leastsq fit;
        gsl_matrix *covariance = gsl_matrix_alloc(UNKNOWNS, UNKNOWNS);
        gsl_vector *x = gsl_vector_alloc(UNKNOWNS);
        gsl_multifit_linear_workspace *work = gsl_multifit_linear_alloc(ROWS, UNKNOWNS);
        gsl_matrix_view A = gsl_matrix_view_array(a, ROWS, UNKNOWNS);
        gsl_vector_view B = gsl_vector_view_array(b, ROWS);
        assert_int_equal(ls_leastsq_solve(ROWS, UNKNOWNS, a, b, &fit, NULL), LS_OK);
        gsl_multifit_linear(&A.matrix, &B.vector, x, covariance, &chi2, work);
        for (int j = 0; j < UNKNOWNS; j++) {
            double sigma = sqrt(gsl_matrix_get(covariance, (size_t)j, (size_t)j));
            check_close("unknown, in its standard errors", (fit.x[j] - gsl_vector_get(x, (size_t)j)) / sigma, 0.0,
                        1e-9, "round-off times condition", "gsl_multifit_linear");
            check_close("standard error, ratio", fit.error[j] / sigma, 1.0, 1e-9, "round-off times condition",
                        "gsl_multifit_linear");
        }
        check_close("sum of squares, ratio", fit.deviation * fit.deviation * (ROWS - UNKNOWNS) / chi2, 1.0, 1e-10,
                    "round-off", "gsl_multifit_linear");
        gsl_multifit_linear_free(work);
        gsl_vector_free(x);
        gsl_matrix_free(covariance);
    }
}

/* Two unit columns at an angle: the condition is the cotangent of half of it. */
static void condition_of_a_closed_case(void **state)
{
    (void)state;
    double angle = 0.2, a[6] = {1, cos(angle), 0, sin(angle), 0, 0}, b[3] = {1, 2, 3};
    ls_leastsq fit;
    assert_int_equal(ls_leastsq_solve(3, 2, a, b, &fit, NULL), LS_OK);
    check_close("condition of two columns 0.2 rad apart", fit.condition, 1.0 / tan(angle / 2.0), 1e-10,
                "round-off", "singular values sqrt(1 +- cos)");
    check_close("correlation of the two", fit.correlation[0][1], -cos(angle), 1e-12, "round-off",
                "inverse of the 2x2 normal matrix");
    check_close("second unknown", fit.x[1], 2.0 / sin(angle), 1e-12, "round-off", "by elimination");
    check_close("deviation: all of the third row", fit.deviation, 3.0, 1e-12, "round-off", "by elimination");
}

static void what_cannot_be_solved_is_refused(void **state)
{
    (void)state;
    ls_error error = {0};
    ls_leastsq fit = {.rows = 77};
    double a[6] = {1, 2, 2, 4, 3, 6}, b[3] = {1, 2, 3};
    assert_int_equal(ls_leastsq_solve(3, 2, a, b, &fit, &error), LS_NO_STATE);
    assert_non_null(strstr(error.text, "dependent"));
    assert_int_equal(ls_leastsq_solve(2, 2, a, b, &fit, NULL), LS_NO_STATE);
    a[0] = NAN;
    assert_int_equal(ls_leastsq_solve(3, 2, a, b, &fit, NULL), LS_NO_STATE);
    double zero[6] = {1, 0, 2, 0, 3, 0};
    assert_int_equal(ls_leastsq_solve(3, 2, zero, b, &fit, NULL), LS_NO_STATE);
    assert_int_equal(fit.rows, 77);
}

static void students_distribution(void **state)
{
    (void)state;
    static const struct {
        double freedom, value;
    } table[] = {{1, 12.706}, {2, 4.303}, {5, 2.571}, {10, 2.228}, {30, 2.042}, {120, 1.980}};
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        check_close("Student's 95 % value", ls_student(0.95, table[i].freedom), table[i].value, 0.0006,
                    "printed digits", "the usual table of Student's distribution");
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(certified_values),
        cmocka_unit_test(agrees_with_gsl_by_another_way),
        cmocka_unit_test(agrees_with_gsl_multifit),
        cmocka_unit_test(condition_of_a_closed_case),
        cmocka_unit_test(what_cannot_be_solved_is_refused),
        cmocka_unit_test(students_distribution),
    };
    gsl_set_error_handler_off();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
