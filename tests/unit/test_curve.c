/* Tables: straight lines against a general-purpose library, the monotone cubic against its reference code. */
#include "check.h"

#include "num/curve.h"

#include <gsl/gsl_interp.h>
#include <math.h>
#include <string.h>

static ls_curve_fit prepare(const ls_curve *curve, ls_curve_method method)
{
    ls_curve_fit fit;
    ls_error error = {0};
    ls_status status = ls_curve_prepare(curve, method, &fit, &error);
    if (status != LS_OK) {
        print_error("%s\n", error.text);
    }
    assert_int_equal(status, LS_OK);
    return fit;
}

/* The measured data of Fritsch and Carlson's table 1, over which an ordinary spline swings wide. */
static const ls_curve rpn14 = {
    .rows = 9,
    .x = {7.99, 8.09, 8.19, 8.7, 9.2, 10.0, 12.0, 15.0, 20.0},
    .y = {0.0, 2.76429e-5, 4.37498e-2, 0.169183, 0.469428, 0.943740, 0.998636, 0.999919, 0.999994},
};

static ls_curve random_curve(uint64_t *seed, int is_rising)
{
    ls_curve curve = {.rows = 2 + (int)check_random(seed, 0.0, LS_CURVE_MAX - 1.0)};
    for (int i = 0; i < curve.rows; i++) {
        double step = check_random(seed, is_rising ? 0.0 : -1.0, 1.0);
        curve.x[i] = (i > 0 ? curve.x[i - 1] : -3.0) + check_random(seed, 0.001, 2.0);
        curve.y[i] = (i > 0 ? curve.y[i - 1] : 1.0) + (step < 0.2 && is_rising ? 0.0 : step);
    }
    return curve;
}

static void passes_through_its_points(void **state)
{
    (void)state;
    for (int method = LS_CURVE_LINEAR; method <= LS_CURVE_MONOTONE; method++) {
        ls_curve_fit fit = prepare(&rpn14, (ls_curve_method)method);
        for (int i = 0; i < rpn14.rows; i++) {
            ls_curve_point point = ls_curve_at(&fit, rpn14.x[i]);
            check_close("value at a row", point.value, rpn14.y[i], 0.0, "exact", "identity");
            assert_int_equal(point.outside, 0);
        }
    }
}

static void slopes_are_those_of_slatec(void **state)
{
    (void)state;
    static const double x[9] = {-2.2, -1.2, -1.0, -0.5, -0.01, 0.5, 1.0, 2.0, 2.2};
    static const double slope[9] = {0.0,
                                    3.80027352e-01,
                                    7.17253009e-01,
                                    5.82014161e-01,
                                    0.0,
                                    -5.68208031e-01,
                                    -5.13501618e-01,
                                    -7.77910977e-02,
                                    -2.45611117e-03};
    ls_curve curve = {.rows = 9};
    for (int i = 0; i < 9; i++) {
        curve.x[i] = x[i];
        curve.y[i] = exp(-x[i] * x[i]);
    }
    ls_curve_fit fit = prepare(&curve, LS_CURVE_MONOTONE);
    for (int i = 0; i < 9; i++) {
        check_close("slope at a row", ls_curve_at(&fit, x[i]).derivative, slope[i], 1e-7 * fabs(slope[i]),
                    "nine printed digits", "SLATEC, quick check 3 of PCHIM (F. N. Fritsch), Cray X/MP results");
    }
}

static void monotone_data_stay_monotone(void **state)
{
    (void)state;
    uint64_t seed = 7;
    int count = check_scaled(2000);
    for (int n = 0; n < count; n++) {
        ls_curve curve = random_curve(&seed, 1);
        ls_curve_fit fit = prepare(&curve, LS_CURVE_MONOTONE);
        for (int i = 0; i + 1 < curve.rows; i++) {
            double last = curve.y[i];
            for (int k = 1; k <= 10; k++) {
                double x = curve.x[i] + (curve.x[i + 1] - curve.x[i]) * k / 10.0;
                ls_curve_point point = ls_curve_at(&fit, x);
                check_between("rising data, value", point.value, last - 1e-14 * fabs(last),
                              curve.y[i + 1] + 1e-14 * fabs(last), "identity: no overshoot");
                check_between("rising data, slope", point.derivative, -1e-11, 1e9, "identity: no overshoot");
                last = point.value;
            }
        }
    }
}

static void turning_data_keep_between_their_rows(void **state)
{
    (void)state;
    uint64_t seed = 8;
    int count = check_scaled(2000);
    for (int n = 0; n < count; n++) {
        ls_curve curve = random_curve(&seed, 0);
        ls_curve_fit fit = prepare(&curve, LS_CURVE_MONOTONE);
        int i = (int)check_random(&seed, 0.0, curve.rows - 1.0);
        double x = check_random(&seed, curve.x[i], curve.x[i + 1]);
        check_between("value between two rows", ls_curve_at(&fit, x).value,
                      fmin(curve.y[i], curve.y[i + 1]) - 1e-12, fmax(curve.y[i], curve.y[i + 1]) + 1e-12,
                      "identity: no overshoot");
    }
}

/* A straight line comes back straight, within and beyond the table, by either method. */
static void is_exact_for_a_line(void **state)
{
    (void)state;
    ls_curve curve = {.rows = LS_CURVE_MAX};
    uint64_t seed = 3;
    for (int i = 0; i < curve.rows; i++) {
        curve.x[i] = i + check_random(&seed, 0.0, 0.9);
        curve.y[i] = 2.5 - 0.75 * curve.x[i];
    }
    for (int method = LS_CURVE_LINEAR; method <= LS_CURVE_MONOTONE; method++) {
        ls_curve_fit fit = prepare(&curve, (ls_curve_method)method);
        for (double x = -20.0; x < 90.0; x += 0.37) {
            ls_curve_point point = ls_curve_at(&fit, x);
            check_close("a line's value", point.value, 2.5 - 0.75 * x, 1e-12, "round-off", "identity");
            check_close("a line's slope", point.derivative, -0.75, 1e-12, "round-off", "identity");
        }
    }
}

static void derivative_is_that_of_the_value(void **state)
{
    (void)state;
    ls_curve_fit fit = prepare(&rpn14, LS_CURVE_MONOTONE);
    for (double x = 7.5; x < 21.0; x += 0.0317) {
        double h = 1e-6;
        double slope = (ls_curve_at(&fit, x + h).value - ls_curve_at(&fit, x - h).value) / (2.0 * h);
        check_close("derivative", ls_curve_at(&fit, x).derivative, slope, 3e-5, "truncation of the difference",
                    "central difference");
    }
    for (int i = 0; i < rpn14.rows; i++) {
        check_close("derivative from both sides of a row",
                    ls_curve_at(&fit, nextafter(rpn14.x[i], -1e9)).derivative,
                    ls_curve_at(&fit, nextafter(rpn14.x[i], 1e9)).derivative, 1e-10, "round-off",
                    "identity: continuous slope");
    }
}

static void linear_agrees_with_gsl(void **state)
{
    (void)state;
    uint64_t seed = 11;
    int count = check_scaled(2000);
    for (int n = 0; n < count; n++) {
        ls_curve curve = random_curve(&seed, 0);
        ls_curve_fit fit = prepare(&curve, LS_CURVE_LINEAR);
        gsl_interp *oracle = gsl_interp_alloc(gsl_interp_linear, (size_t)curve.rows);
        gsl_interp_init(oracle, curve.x, curve.y, (size_t)curve.rows);
        double x = check_random(&seed, curve.x[0], curve.x[curve.rows - 1]);
        check_close("linear interpolation", ls_curve_at(&fit, x).value,
                    gsl_interp_eval(oracle, curve.x, curve.y, x, NULL), 1e-13 * curve.rows, "round-off",
                    "GSL, gsl_interp_linear");
        gsl_interp_free(oracle);
    }
}

static void mirrored_tables_mirror(void **state)
{
    (void)state;
    ls_curve mirrored = {.rows = rpn14.rows};
    for (int i = 0; i < rpn14.rows; i++) {
        mirrored.x[i] = -rpn14.x[rpn14.rows - 1 - i];
        mirrored.y[i] = rpn14.y[rpn14.rows - 1 - i];
    }
    ls_curve_fit fit = prepare(&rpn14, LS_CURVE_MONOTONE);
    ls_curve_fit mirror = prepare(&mirrored, LS_CURVE_MONOTONE);
    for (double x = 7.0; x < 22.0; x += 0.031) {
        check_close("mirrored value", ls_curve_at(&mirror, -x).value, ls_curve_at(&fit, x).value, 1e-13,
                    "round-off", "identity");
    }
}

static void says_what_is_outside(void **state)
{
    (void)state;
    ls_curve curve = {.rows = 2, .x = {1.0, 3.0}, .y = {10.0, 30.0}};
    ls_curve_fit fit = prepare(&curve, LS_CURVE_MONOTONE);
    assert_int_equal(ls_curve_at(&fit, 0.999).outside, -1);
    assert_int_equal(ls_curve_at(&fit, 1.0).outside, 0);
    assert_int_equal(ls_curve_at(&fit, 3.0).outside, 0);
    assert_int_equal(ls_curve_at(&fit, 3.001).outside, 1);
    check_close("continued on the right", ls_curve_at(&fit, 4.0).value, 40.0, 1e-12, "round-off", "identity");
    check_close("continued on the left", ls_curve_at(&fit, 0.0).value, 0.0, 1e-12, "round-off", "identity");
    assert_true(isnan(ls_curve_at(&fit, NAN).value));
}

static void refuses_bad_tables(void **state)
{
    (void)state;
    static const struct {
        ls_curve curve;
        const char *text;
    } bad[] = {
        {{.rows = 0}, "a table needs 2 to 64 rows; this one has 0"},
        {{.rows = 1}, "a table needs 2 to 64 rows; this one has 1"},
        {{.rows = 65}, "a table needs 2 to 64 rows; this one has 65"},
        {{.rows = -3}, "a table needs 2 to 64 rows; this one has -3"},
        {{.rows = 3, .x = {1, 2, 2}},
         "row 3 of the table does not go on: 2 follows 2, and the first column must rise"},
        {{.rows = 3, .x = {1, 0.5, 2}},
         "row 2 of the table does not go on: 0.5 follows 1, and the first column must rise"},
        {{.rows = 2, .x = {1, 2}, .y = {0, NAN}}, "row 2 of the table is not finite"},
        {{.rows = 2, .x = {-INFINITY, 2}}, "row 1 of the table is not finite"},
        {{.rows = 2, .x = {0, 1e-300}, .y = {0, 1e300}}, "the table is too steep to be read at row 1"},
    };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        ls_curve_fit fit;
        memset(&fit, 0x5A, sizeof fit);
        ls_curve_fit before = fit;
        ls_error error = {0};
        assert_int_equal(ls_curve_prepare(&bad[i].curve, LS_CURVE_MONOTONE, &fit, &error), LS_FILE_REJECTED);
        assert_string_equal(error.text, bad[i].text);
        assert_memory_equal(&fit, &before, sizeof fit);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(passes_through_its_points),   cmocka_unit_test(slopes_are_those_of_slatec),
        cmocka_unit_test(monotone_data_stay_monotone), cmocka_unit_test(turning_data_keep_between_their_rows),
        cmocka_unit_test(is_exact_for_a_line),         cmocka_unit_test(derivative_is_that_of_the_value),
        cmocka_unit_test(linear_agrees_with_gsl),      cmocka_unit_test(mirrored_tables_mirror),
        cmocka_unit_test(says_what_is_outside),        cmocka_unit_test(refuses_bad_tables),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
