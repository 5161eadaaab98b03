/* Sampling, distributions and sensitivity indices against analytic values. */
#include "check.h"

#include "num/indices.h"
#include "num/sampling.h"

#include <math.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

/* f = sin x1 + 7 sin^2 x2 + 0.1 x3^4 sin x1, each x uniform in -pi to pi. */
static void ishigami(const double *points, int dimensions, int count, double *values, void *context)
{
    (void)context;
    for (int i = 0; i < count; i++, points += dimensions) {
        double x[3];
        for (int k = 0; k < 3; k++) {
            x[k] = pi * (2.0 * points[k] - 1.0);
        }
        values[i] = sin(x[0]) + 7.0 * sin(x[1]) * sin(x[1]) + 0.1 * pow(x[2], 4) * sin(x[0]);
    }
}

static const double g_a[8] = {0, 1, 4.5, 9, 99, 99, 99, 99};

static void g_function(const double *points, int dimensions, int count, double *values, void *context)
{
    (void)context;
    for (int i = 0; i < count; i++, points += dimensions) {
        values[i] = 1.0;
        for (int k = 0; k < dimensions; k++) {
            values[i] *= (fabs(4.0 * points[k] - 2.0) + g_a[k]) / (1.0 + g_a[k]);
        }
    }
}

static ls_indices_job job_of(int inputs, ls_cube_function *function)
{
    return (ls_indices_job){.inputs = inputs, .rows = 4096, .replicates = 16, .seed = 7, .function = function};
}

#define ISHIGAMI                                                                                    \
    "T. Ishigami and T. Homma, Proc. ISUMA 1990, 398; analytic indices in Saltelli et al., Global " \
    "Sensitivity Analysis: The Primer (2008), from their variance decomposition"

static void indices_of_ishigami(void **state)
{
    (void)state;
    const double a = 7.0, b = 0.1;
    double V1 = 0.5 * pow(1.0 + b * pow(pi, 4) / 5.0, 2), V2 = a * a / 8.0;
    double V13 = b * b * pow(pi, 8) * (1.0 / 18.0 - 1.0 / 50.0), V = V1 + V2 + V13;
    const double first[3] = {V1 / V, V2 / V, 0.0}, total[3] = {(V1 + V13) / V, V2 / V, V13 / V};
    ls_indices_job job = job_of(3, ishigami);
    ls_indices got;
    assert_int_equal(ls_indices_estimate(&job, &got, NULL), LS_OK);
    assert_int_equal(got.replicates, 16);
    check_close("Ishigami mean", got.mean, a / 2.0, 2e-3, "16 x 4096 shifted Sobol points", ISHIGAMI);
    check_close("Ishigami deviation", got.deviation, sqrt(V), 2e-3, "16 x 4096 shifted Sobol points", ISHIGAMI);
    for (int i = 0; i < 3; i++) {
        check_close("Ishigami first-order index", got.index[i].first, first[i], 4e-3, "of 16 x 4096 rows",
                    ISHIGAMI);
        check_close("Ishigami total index", got.index[i].total, total[i], 4e-3, "of 16 x 4096 rows", ISHIGAMI);
        /* An interval of 95 % misses one time in twenty: twice its width never should. */
        assert_true(fabs(got.index[i].first - first[i]) < 2.0 * got.index[i].first_half + 1e-9);
        assert_true(fabs(got.index[i].total - total[i]) < 2.0 * got.index[i].total_half + 1e-9);
        assert_true(got.index[i].first_half < 4e-3 && got.index[i].total_half < 4e-3);
    }
}

#define G_SOURCE                                                                                        \
    "g-function, I. M. Sobol; indices V_i = 1/(3 (1 + a_i)^2) as in Saltelli et al., Computer Physics " \
    "Communications 181 (2010) 259, section 6"

static void indices_of_g_function(void **state)
{
    (void)state;
    double V = 1.0, V_i[8];
    for (int i = 0; i < 8; i++) {
        V_i[i] = 1.0 / (3.0 * (1.0 + g_a[i]) * (1.0 + g_a[i]));
        V *= 1.0 + V_i[i];
    }
    V -= 1.0;
    ls_indices_job job = job_of(8, g_function);
    ls_indices got;
    assert_int_equal(ls_indices_estimate(&job, &got, NULL), LS_OK);
    for (int i = 0; i < 8; i++) {
        double total = V_i[i] * (1.0 + V) / (1.0 + V_i[i]) / V;
        check_close("g-function first-order index", got.index[i].first, V_i[i] / V, 5e-3, "of 16 x 4096 rows",
                    G_SOURCE);
        check_close("g-function total index", got.index[i].total, total, 5e-3, "of 16 x 4096 rows", G_SOURCE);
    }
}

/* Of a sum of terms the first-order indices add up to 1 and the total ones are the same. */
static void additive(const double *points, int dimensions, int count, double *values, void *context)
{
    (void)context;
    for (int i = 0; i < count; i++, points += dimensions) {
        values[i] = 1e6 + 3.0 * points[0] - 2.0 * points[1] * points[1] + exp(points[2]);
    }
}

static void additive_indices_add_up(void **state)
{
    (void)state;
    ls_indices_job job = job_of(3, additive);
    ls_indices got;
    double sum = 0.0;
    assert_int_equal(ls_indices_estimate(&job, &got, NULL), LS_OK);
    for (int i = 0; i < 3; i++) {
        sum += got.index[i].first;
        check_close("first-order less total index of a sum", got.index[i].first, got.index[i].total, 2e-3,
                    "of 16 x 4096 rows", "identity");
    }
    check_close("sum of the first-order indices of a sum", sum, 1.0, 2e-3, "of 16 x 4096 rows", "identity");
}

static void threads_make_no_difference(void **state)
{
    (void)state;
    ls_indices one, many;
    ls_indices_job job = job_of(3, ishigami);
    job.rows = 1000;
    job.threads = 1;
    assert_int_equal(ls_indices_estimate(&job, &one, NULL), LS_OK);
    job.threads = 3;
    assert_int_equal(ls_indices_estimate(&job, &many, NULL), LS_OK);
    assert_memory_equal(&one, &many, sizeof one);
    job.seed = 8;
    assert_int_equal(ls_indices_estimate(&job, &many, NULL), LS_OK);
    assert_true(one.index[0].first != many.index[0].first);
}

static void constant(const double *points, int dimensions, int count, double *values, void *context)
{
    (void)points;
    (void)dimensions;
    for (int i = 0; i < count; i++) {
        values[i] = *(double *)context;
    }
}

static void nothing_to_share_is_refused(void **state)
{
    (void)state;
    double value = 40.0;
    ls_error error = {0};
    ls_indices got;
    ls_indices_job job = job_of(2, constant);
    job.context = &value;
    assert_int_equal(ls_indices_estimate(&job, &got, &error), LS_NOT_CONVERGED);
    assert_non_null(strstr(error.text, "does not vary"));
    value = NAN;
    assert_int_equal(ls_indices_estimate(&job, &got, NULL), LS_NOT_CONVERGED);
}

static int stop_after(void *context)
{
    return --*(int *)context < 0;
}

static void stopped_indices_keep_whole_replicates(void **state)
{
    (void)state;
    int left = 40; /* asked once a block of 512 rows: five replicates of 8 blocks */
    ls_indices part;
    ls_indices_job job = job_of(3, ishigami);
    job.stop = stop_after;
    job.watch = &left;
    assert_int_equal(ls_indices_estimate(&job, &part, NULL), LS_INTERRUPTED);
    assert_int_equal(part.replicates, 5);
    assert_true(part.index[1].first > 0.3 && part.index[1].first < 0.6);
}

/* ---- points ---- */

static void sobol_points_fill_evenly(void **state)
{
    (void)state;
    enum { N = 4096, D = 6 };
    static double points[N * D];
    ls_sampler *sampler = ls_sampler_new(1, D, 5, 0);
    assert_non_null(sampler);
    ls_sampler_fill(sampler, N, points);
    ls_sampler_free(sampler);
    double worst = 0.0;
    for (int k = 0; k < D; k++) {
        int count[64] = {0};
        for (int i = 0; i < N; i++) {
            assert_true(points[i * D + k] > 0.0 && points[i * D + k] < 1.0);
            count[(int)(64 * points[i * D + k])]++;
        }
        for (int c = 0; c < 64; c++) {
            worst = fmax(worst, fabs(count[c] - N / 64.0));
        }
    }
    check_between("Sobol points, count in a 64th less N/64", worst, 0, 2,
                  "property of a digital net: equal counts, the shift moves at most one in and one out");
}

static void pieces_give_the_same_points(void **state)
{
    (void)state;
    for (int kind = 0; kind < 2; kind++) {
        double whole[30], pieces[30];
        ls_sampler *a = ls_sampler_new(kind, 3, 11, 2), *b = ls_sampler_new(kind, 3, 11, 2);
        ls_sampler_fill(a, 10, whole);
        ls_sampler_fill(b, 4, pieces);
        ls_sampler_fill(b, 6, pieces + 12);
        assert_memory_equal(whole, pieces, sizeof whole);
        ls_sampler_free(a);
        ls_sampler_free(b);
    }
}

/* Mean and variance of uniforms, and no correlation from one to the next, within four standard errors. */
static void random_points_are_uniform(void **state)
{
    (void)state;
    enum { N = 200000 };
    static double x[N];
    double mean = 0.0, square = 0.0, lag = 0.0;
    ls_sampler *sampler = ls_sampler_new(0, 1, 1, 0);
    ls_sampler_fill(sampler, N, x);
    ls_sampler_free(sampler);
    for (int i = 0; i < N; i++) {
        mean += x[i] / N;
        square += (x[i] - 0.5) * (x[i] - 0.5) / N;
        lag += i > 0 ? (x[i] - 0.5) * (x[i - 1] - 0.5) / N : 0.0;
    }
    check_close("mean of random points", mean, 0.5, 4 * sqrt(1.0 / 12 / N), "four standard errors",
                "uniform distribution");
    check_close("variance of random points", square, 1.0 / 12, 4 * sqrt(1.0 / 180 / N), "four standard errors",
                "uniform distribution");
    check_close("covariance of neighbours", lag, 0.0, 4.0 / 12 / sqrt(N), "four standard errors", "independence");
}

static void normal_and_student(void **state)
{
    (void)state;
    const char *tables = "Abramowitz and Stegun, Handbook of Mathematical Functions, tables 26.1, 26.5 and 26.10";
    check_close("normal share below 1", ls_normal_share(1.0), 0.841344746068543, 1e-14, "printed digits", tables);
    check_close("normal quantile of 0.975", ls_normal_quantile(0.975), 1.959963984540054, 1e-13, "printed digits",
                tables);
    check_close("Student's t, 15 degrees", ls_student_95(15), 2.131, 5e-4, "printed digits", tables);
    for (double z = -6; z <= 6; z += 0.25) {
        check_close("quantile of the share", ls_normal_quantile(ls_normal_share(z)), z, 1e-7,
                    "the share is near 1 at 6", "identity");
    }
}

static void cholesky_squares_back(void **state)
{
    (void)state;
    const double a[9] = {1.0, 0.6, -0.3, 0.6, 1.0, 0.2, -0.3, 0.2, 1.0};
    double L[9];
    memcpy(L, a, sizeof L);
    assert_true(ls_cholesky(3, L));
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j <= i; j++) {
            double sum = 0.0;
            for (int k = 0; k <= j; k++) {
                sum += L[3 * i + k] * L[3 * j + k];
            }
            check_close("Cholesky factor squared", sum, a[3 * i + j], 1e-15, "round-off", "identity");
        }
    }
    double bad[9] = {1, 0.9, -0.9, 0.9, 1, 0.9, -0.9, 0.9, 1};
    assert_false(ls_cholesky(3, bad));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(indices_of_ishigami),         cmocka_unit_test(indices_of_g_function),
        cmocka_unit_test(additive_indices_add_up),     cmocka_unit_test(threads_make_no_difference),
        cmocka_unit_test(nothing_to_share_is_refused), cmocka_unit_test(stopped_indices_keep_whole_replicates),
        cmocka_unit_test(sobol_points_fill_evenly),    cmocka_unit_test(pieces_give_the_same_points),
        cmocka_unit_test(random_points_are_uniform),   cmocka_unit_test(normal_and_student),
        cmocka_unit_test(cholesky_squares_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
