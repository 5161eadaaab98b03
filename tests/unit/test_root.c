/* Roots and minima: against a general-purpose library, known constants, and functions made to mislead. */
#include "check.h"

#include "num/root.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_min.h>
#include <gsl/gsl_roots.h>
#include <math.h>
#include <string.h>

typedef struct {
    const char *name;
    ls_scalar_function *f;
    double low, high;
    int fewest; /* iterations that bisection to round-off would need, for comparison */
} problem;

static double cosine_less_x(double x, void *context)
{
    (void)context;
    return cos(x) - x;
}

static double cubic(double x, void *context)
{
    (void)context;
    return x * x * x - 2.0 * x - 5.0;
}

static double steep_exponential(double x, void *context)
{
    (void)context;
    return exp(20.0 * x) - 3.0;
}

static double flat_ninth_power(double x, void *context)
{
    (void)context;
    return pow(x - 0.3, 9.0) + 1e-4 * (x - 0.3);
}

static double kinked(double x, void *context)
{
    (void)context;
    return x < 0.7 ? 0.01 * (x - 0.7) : 50.0 * (x - 0.7);
}

static double step(double x, void *context)
{
    (void)context;
    return x < 0.25 ? -1.0 : 2.0;
}

static double pole(double x, void *context)
{
    (void)context;
    return 1.0 / (x - 0.4);
}

static double nan_inside(double x, void *context)
{
    (void)context;
    return x > 0.2 && x < 0.9 ? NAN : x - 0.5;
}

static double above_zero(double x, void *context)
{
    (void)context;
    return x * x + 1.0;
}

static double identity(double x, void *context)
{
    *(int *)context += 1;
    return x;
}

static const problem problems[] = {
    {"cos x - x", cosine_less_x, 0.0, 1.0, 53},
    {"x^3 - 2x - 5", cubic, 2.0, 3.0, 53},
    {"exp(20 x) - 3", steep_exponential, -2.0, 3.0, 53},
    {"(x - 0.3)^9 + 1e-4 (x - 0.3)", flat_ninth_power, -1.0, 1.4, 53},
    {"kink", kinked, 0.0, 2.0, 53},
};

/* GSL's Brent-Dekker solver, driven to the same tolerance. */
static double gsl_root(const problem *p)
{
    gsl_function f = {p->f, NULL};
    gsl_root_fsolver *solver = gsl_root_fsolver_alloc(gsl_root_fsolver_brent);
    gsl_root_fsolver_set(solver, &f, p->low, p->high);
    int status = GSL_CONTINUE;
    for (int i = 0; i < 500 && status == GSL_CONTINUE; i++) {
        gsl_root_fsolver_iterate(solver);
        status =
            gsl_root_test_interval(gsl_root_fsolver_x_lower(solver), gsl_root_fsolver_x_upper(solver), 0.0, 1e-15);
    }
    double root = gsl_root_fsolver_root(solver);
    gsl_root_fsolver_free(solver);
    return root;
}

static void roots_agree_with_gsl(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof problems / sizeof problems[0]; i++) {
        const problem *p = &problems[i];
        ls_root_report report;
        assert_int_equal(ls_root_find(p->f, NULL, p->low, p->high, NULL, &report), LS_OK);
        check_close(p->name, report.x, gsl_root(p), 4e-15, "round-off", "GSL, gsl_root_fsolver_brent");
        assert_int_equal(report.stop, LS_ROOT_CONVERGED);
        assert_true(report.low <= report.x && report.x <= report.high);
        assert_true(report.residual == 0.0 || report.high - report.low <= 1e-14);
        assert_true(report.f_low * report.f_high <= 0.0);
        assert_true(report.residual == p->f(report.x, NULL));
        assert_int_equal(report.evaluations, report.iterations + 2);
        assert_true(report.iterations < 2 * p->fewest);
    }
}

/* Wallis's cubic, the textbook example; and the fixed point of the cosine. */
static void roots_are_the_known_ones(void **state)
{
    (void)state;
    ls_root_report report;
    assert_int_equal(ls_root_find(cubic, NULL, 2.0, 3.0, NULL, &report), LS_OK);
    check_close("root of x^3 - 2x - 5", report.x, 2.0945514815423265, 1e-15, "printed digits",
                "Wallis's example (from memory)");
    assert_true(report.iterations < 12);
    assert_int_equal(ls_root_find(cosine_less_x, NULL, 0.0, 1.0, NULL, &report), LS_OK);
    check_close("root of cos x - x", report.x, 0.7390851332151607, 1e-15, "printed digits",
                "Dottie number (from memory)");
}

/* With the ends known the same path is walked, two evaluations shorter, and the record of the ends may be the
 * report's own; what is wrong with them is told as by ls_root_find. */
static void known_ends_are_not_evaluated_again(void **state)
{
    (void)state;
    ls_root_report whole, ends, report;
    assert_int_equal(ls_root_find(cubic, NULL, 2.0, 3.0, NULL, &whole), LS_OK);
    ends = (ls_root_report){.low = 2.0, .high = 3.0, .f_low = cubic(2.0, NULL), .f_high = cubic(3.0, NULL)};
    assert_int_equal(ls_root_narrow(cubic, NULL, &ends, NULL, &report), LS_OK);
    check_close("root with the ends known", report.x, whole.x, 0.0, "the same steps", "ls_root_find");
    assert_int_equal(report.evaluations, whole.evaluations - 2);
    assert_int_equal(ls_root_narrow(cubic, NULL, &ends, NULL, &ends), LS_OK);
    check_close("root, the report in place of the ends", ends.x, whole.x, 0.0, "the same steps", "ls_root_find");
    ends = (ls_root_report){.low = 2.0, .high = 3.0, .f_low = 1.0, .f_high = 2.0};
    assert_int_equal(ls_root_narrow(cubic, NULL, &ends, NULL, &report), LS_NO_STATE);
    assert_true(report.x == 2.0 && report.residual == 1.0);
    ends.f_high = NAN;
    assert_int_equal(ls_root_narrow(cubic, NULL, &ends, NULL, &report), LS_NOT_CONVERGED);
    assert_true(report.stop == LS_ROOT_NOT_FINITE && report.x == 3.0);
    ends.high = 2.0;
    assert_int_equal(ls_root_narrow(cubic, NULL, &ends, NULL, &report), LS_INTERNAL);
    assert_int_equal(report.stop, LS_ROOT_BAD_BRACKET);
}

static void tolerance_is_kept_and_saves_work(void **state)
{
    (void)state;
    ls_root_report exact, coarse;
    ls_root_options options = {.x_tol = 1e-3};
    ls_root_find(steep_exponential, NULL, -2.0, 3.0, NULL, &exact);
    assert_int_equal(ls_root_find(steep_exponential, NULL, -2.0, 3.0, &options, &coarse), LS_OK);
    check_close("root within its tolerance", coarse.x, log(3.0) / 20.0, 1e-3, "x_tol", "identity");
    assert_true(coarse.iterations < exact.iterations);
}

static void a_root_at_an_end_is_taken(void **state)
{
    (void)state;
    int calls = 0;
    ls_root_report report;
    assert_int_equal(ls_root_find(identity, &calls, 0.0, 1.0, NULL, &report), LS_OK);
    assert_true(report.x == 0.0);
    assert_int_equal(ls_root_find(identity, &calls, -1.0, 0.0, NULL, &report), LS_OK);
    assert_true(report.x == 0.0 && report.iterations == 0);
    assert_int_equal(calls, 4);
}

static void no_sign_change_is_refused(void **state)
{
    (void)state;
    ls_root_report report;
    assert_int_equal(ls_root_find(above_zero, NULL, -1.0, 3.0, NULL, &report), LS_NO_STATE);
    assert_int_equal(report.stop, LS_ROOT_NO_SIGN_CHANGE);
    assert_true(report.x == -1.0 && report.residual == 2.0 && report.f_high == 10.0);
    assert_int_equal(report.evaluations, 2);
}

static void nan_is_refused_wherever_it_comes(void **state)
{
    (void)state;
    ls_root_report report;
    assert_int_equal(ls_root_find(nan_inside, NULL, 0.0, 1.0, NULL, &report), LS_NOT_CONVERGED);
    assert_int_equal(report.stop, LS_ROOT_NOT_FINITE);
    assert_true(report.x > 0.2 && report.x < 0.9 && isnan(report.residual));
    assert_int_equal(ls_root_find(nan_inside, NULL, 0.5, 1.0, NULL, &report), LS_NOT_CONVERGED);
    assert_true(report.x == 0.5);
    assert_int_equal(ls_root_find(nan_inside, NULL, 0.0, 0.5, NULL, &report), LS_NOT_CONVERGED);
    assert_true(report.x == 0.5);
    assert_int_equal(ls_root_find(pole, NULL, 0.4, 0.5, NULL, &report), LS_NOT_CONVERGED);
    assert_int_equal(report.stop, LS_ROOT_NOT_FINITE);
}

static void bad_brackets_are_refused(void **state)
{
    (void)state;
    static const double bad[][2] = {{1.0, 1.0}, {2.0, 1.0}, {NAN, 1.0}, {0.0, NAN}, {-INFINITY, 1.0}};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        ls_root_report report;
        assert_int_equal(ls_root_find(cubic, NULL, bad[i][0], bad[i][1], NULL, &report), LS_INTERNAL);
        assert_int_equal(report.stop, LS_ROOT_BAD_BRACKET);
        assert_int_equal(report.evaluations, 0);
        assert_true(isnan(report.x));
        ls_minimum_report least;
        assert_int_equal(ls_minimum_find(cubic, NULL, bad[i][0], bad[i][1], NULL, &least), LS_INTERNAL);
    }
}

static void jumps_are_told_from_roots(void **state)
{
    (void)state;
    ls_root_report report;
    ls_root_options options = {.f_tol = 1e-6};
    assert_int_equal(ls_root_find(step, NULL, 0.0, 1.0, &options, &report), LS_NOT_CONVERGED);
    assert_int_equal(report.stop, LS_ROOT_JUMP);
    check_close("where it jumps", report.x, 0.25, 1e-15, "round-off", "identity");
    assert_true(report.f_low == -1.0 && report.f_high == 2.0);
    assert_int_equal(ls_root_find(pole, NULL, 0.0, 1.0, &options, &report), LS_NOT_CONVERGED);
    assert_int_equal(report.stop, LS_ROOT_JUMP);
    assert_int_equal(ls_root_find(cubic, NULL, 2.0, 3.0, &options, &report), LS_OK);
}

static void iterations_are_limited(void **state)
{
    (void)state;
    ls_root_report report;
    ls_root_options options = {.iterations = 3};
    assert_int_equal(ls_root_find(steep_exponential, NULL, -2.0, 3.0, &options, &report), LS_NOT_CONVERGED);
    assert_int_equal(report.stop, LS_ROOT_ITERATIONS);
    assert_int_equal(report.iterations, 3);
    assert_true(report.low < log(3.0) / 20.0 && log(3.0) / 20.0 < report.high);
}

static double random_cubic(double x, void *context)
{
    const double *c = context;
    return c[0] * (x - c[1]) * ((x - c[2]) * (x - c[2]) + c[3]);
}

/* A cubic with one real root, known beforehand. */
static void random_roots_are_found(void **state)
{
    (void)state;
    uint64_t seed = 5;
    int count = check_scaled(100000);
    int most = 0;
    for (int i = 0; i < count; i++) {
        double c[4] = {pow(10.0, check_random(&seed, -6.0, 6.0)), check_random(&seed, -9.0, 9.0),
                       check_random(&seed, -10.0, 10.0), check_random(&seed, 0.01, 3.0)};
        ls_root_report report;
        assert_int_equal(ls_root_find(random_cubic, c, -10.0, 10.0, NULL, &report), LS_OK);
        check_close("root of a random cubic", report.x, c[1], 1e-13, "round-off", "identity");
        most = report.iterations > most ? report.iterations : most;
    }
    assert_true(most <= 60);
}

static void scan_finds_the_first_bracket(void **state)
{
    (void)state;
    double low = 7.0, high = 7.0;
    ls_root_report report;
    assert_int_equal(ls_root_bracket(cosine_less_x, NULL, 0.0, 4.0, 40, &low, &high), LS_OK);
    check_close("low", low, 0.7, 1e-12, "round-off", "identity");
    check_close("high", high, 0.8, 1e-12, "round-off", "identity");
    assert_int_equal(ls_root_bracket(cosine_less_x, NULL, 4.0, 0.0, 40, &low, &high), LS_OK);
    assert_true(low < high);
    assert_int_equal(ls_root_find(cosine_less_x, NULL, low, high, NULL, &report), LS_OK);
    low = high = 7.0;
    assert_int_equal(ls_root_bracket(above_zero, NULL, 0.0, 4.0, 40, &low, &high), LS_NO_STATE);
    assert_int_equal(ls_root_bracket(nan_inside, NULL, 0.0, 1.0, 40, &low, &high), LS_NOT_CONVERGED);
    assert_int_equal(ls_root_bracket(nan_inside, NULL, 0.5, 1.0, 4, &low, &high), LS_NOT_CONVERGED);
    assert_true(low == 7.0 && high == 7.0);
}

static double parabola(double x, void *context)
{
    (void)context;
    return (x - 1.3) * (x - 1.3) + 4.0;
}

static double gamma_function(double x, void *context)
{
    (void)context;
    return lgamma(x);
}

static double absolute_kink(double x, void *context)
{
    (void)context;
    return fabs(x - 0.61);
}

static double wave(double x, void *context)
{
    (void)context;
    return cos(x) + 1.0;
}

static double flat(double x, void *context)
{
    (void)context;
    (void)x;
    return 2.0;
}

static const problem valleys[] = {
    {"parabola", parabola, -3.0, 4.0, 0},
    {"log gamma", gamma_function, 0.2, 6.0, 0},
    {"kink", absolute_kink, -1.0, 3.0, 0},
    {"cosine", wave, 0.0, 6.0, 0},
};

static double gsl_minimum(const problem *p)
{
    gsl_function f = {p->f, NULL};
    gsl_min_fminimizer *solver = gsl_min_fminimizer_alloc(gsl_min_fminimizer_brent);
    gsl_min_fminimizer_set(solver, &f, 0.5 * (p->low + p->high), p->low, p->high);
    int status = GSL_CONTINUE;
    for (int i = 0; i < 500 && status == GSL_CONTINUE; i++) {
        if (gsl_min_fminimizer_iterate(solver) != GSL_SUCCESS) {
            break;
        }
        status = gsl_min_test_interval(gsl_min_fminimizer_x_lower(solver), gsl_min_fminimizer_x_upper(solver),
                                       1e-9, 0.0);
    }
    double x = gsl_min_fminimizer_x_minimum(solver);
    gsl_min_fminimizer_free(solver);
    return x;
}

static void minima_agree_with_gsl(void **state)
{
    (void)state;
    gsl_error_handler_t *before = gsl_set_error_handler_off();
    for (size_t i = 0; i < sizeof valleys / sizeof valleys[0]; i++) {
        const problem *p = &valleys[i];
        ls_minimum_report report;
        assert_int_equal(ls_minimum_find(p->f, NULL, p->low, p->high, NULL, &report), LS_OK);
        check_close(p->name, report.x, gsl_minimum(p), 1e-6, "the square root of round-off, for both",
                    "GSL, gsl_min_fminimizer_brent");
        assert_int_equal(report.at_end, 0);
        assert_true(report.low <= report.x && report.x <= report.high);
        assert_true(report.value == p->f(report.x, NULL));
        assert_true(report.iterations < 60);
    }
    gsl_set_error_handler(before);
}

static void minima_are_the_known_ones(void **state)
{
    (void)state;
    ls_minimum_report report;
    assert_int_equal(ls_minimum_find(gamma_function, NULL, 0.2, 6.0, NULL, &report), LS_OK);
    check_close("least point of the gamma function", report.x, 1.46163214496836, 3e-7, "flat to round-off",
                "Abramowitz and Stegun, 6.1 (from memory)");
    ls_minimum_find(parabola, NULL, -3.0, 4.0, NULL, &report);
    check_close("vertex", report.x, 1.3, 1e-7, "square root of round-off", "identity");
}

static void minimum_at_an_end_is_flagged(void **state)
{
    (void)state;
    ls_minimum_report report;
    assert_int_equal(ls_minimum_find(parabola, NULL, 2.0, 5.0, NULL, &report), LS_OK);
    assert_true(report.x == 2.0 && report.at_end == -1);
    assert_int_equal(ls_minimum_find(parabola, NULL, -2.0, 1.0, NULL, &report), LS_OK);
    assert_true(report.x == 1.0 && report.at_end == 1);
    assert_int_equal(ls_minimum_find(flat, NULL, -2.0, 1.0, NULL, &report), LS_OK);
    assert_true(report.value == 2.0 && report.at_end == 0);
}

static void minimum_refuses_nan_and_limits_iterations(void **state)
{
    (void)state;
    ls_minimum_report report;
    ls_root_options options = {.iterations = 2};
    assert_int_equal(ls_minimum_find(nan_inside, NULL, 0.0, 1.0, NULL, &report), LS_NOT_CONVERGED);
    assert_int_equal(report.stop, LS_ROOT_NOT_FINITE);
    assert_int_equal(ls_minimum_find(pole, NULL, 0.4, 1.0, NULL, &report), LS_NOT_CONVERGED);
    assert_int_equal(ls_minimum_find(parabola, NULL, -3.0, 40.0, &options, &report), LS_NOT_CONVERGED);
    assert_int_equal(report.stop, LS_ROOT_ITERATIONS);
    assert_true(report.low <= 1.3 && 1.3 <= report.high);
}

static void reasons_have_texts(void **state)
{
    (void)state;
    for (int stop = LS_ROOT_CONVERGED; stop <= LS_ROOT_ITERATIONS; stop++) {
        assert_string_not_equal(ls_root_stop_text((ls_root_stop)stop), "unknown");
    }
    assert_string_equal(ls_root_stop_text((ls_root_stop)99), "unknown");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(roots_agree_with_gsl),
        cmocka_unit_test(roots_are_the_known_ones),
        cmocka_unit_test(known_ends_are_not_evaluated_again),
        cmocka_unit_test(tolerance_is_kept_and_saves_work),
        cmocka_unit_test(a_root_at_an_end_is_taken),
        cmocka_unit_test(no_sign_change_is_refused),
        cmocka_unit_test(nan_is_refused_wherever_it_comes),
        cmocka_unit_test(bad_brackets_are_refused),
        cmocka_unit_test(jumps_are_told_from_roots),
        cmocka_unit_test(iterations_are_limited),
        cmocka_unit_test(random_roots_are_found),
        cmocka_unit_test(scan_finds_the_first_bracket),
        cmocka_unit_test(minima_agree_with_gsl),
        cmocka_unit_test(minima_are_the_known_ones),
        cmocka_unit_test(minimum_at_an_end_is_flagged),
        cmocka_unit_test(minimum_refuses_nan_and_limits_iterations),
        cmocka_unit_test(reasons_have_texts),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
