/* Differential equations: accuracy, events, and what must fail. */
#include "check.h"

#include "num/ode.h"

#include <math.h>

static int oscillator(double t, const double *y, double *rates, void *context)
{
    (void)t;
    (void)context;
    rates[0] = y[1];
    rates[1] = -y[0];
    return 0;
}

static double crossing(double t, const double *y, int event, void *context)
{
    (void)t;
    (void)context;
    return event == 0 ? y[0] - 0.5 : y[0] + 2.0; /* the second is never negative */
}

static const double scale[2] = {1.0, 1.0};

static void follows_a_circle(void **state)
{
    (void)state;
    ls_ode_problem problem = {.dimension = 2, .rates = oscillator, .scale = scale, .tolerance = 1e-10};
    ls_ode *ode = NULL;
    double y[2] = {0.0, 1.0}, t = 0.0;
    int event;
    assert_int_equal(ls_ode_new(&problem, &ode, NULL), LS_OK);
    for (int k = 1; k <= 50; k++) {
        assert_int_equal(ls_ode_advance(ode, &t, 0.4 * k, y, &event, NULL), LS_OK);
        assert_int_equal(event, -1);
        check_close("sine by integration", y[0], sin(t), 1e-8, "tolerance 1e-10, 20 s", "identity: y'' = -y");
        check_close("time reached", t, 0.4 * k, 0.0, "exact", "identity");
    }
    assert_true(ls_ode_steps(ode) > 50);
    ls_ode_free(ode);
}

/* sin t rises through 1/2 at pi/6 and every turn later; each is found once. */
static void finds_events(void **state)
{
    (void)state;
    const double pi = 3.14159265358979323846;
    ls_ode_problem problem = {
        .dimension = 2, .rates = oscillator, .scale = scale, .tolerance = 1e-10, .events = 2, .event = crossing};
    ls_ode *ode = NULL;
    double y[2] = {0.0, 1.0}, t = 0.0;
    int event, found = 0;
    assert_int_equal(ls_ode_new(&problem, &ode, NULL), LS_OK);
    while (t < 20.0) {
        assert_int_equal(ls_ode_advance(ode, &t, 20.0, y, &event, NULL), LS_OK);
        if (event >= 0) {
            assert_int_equal(event, 0);
            check_close("time of an event", t, pi / 6.0 + 2.0 * pi * found, 1e-7, "tolerance",
                        "identity: arcsine");
            assert_true(y[0] >= 0.5);
            found++;
        }
    }
    assert_int_equal(found, 4);
    ls_ode_free(ode);
}

/* y' = y^2 goes to infinity at t = 1. */
static int explosive(double t, const double *y, double *rates, void *context)
{
    (void)t;
    (void)context;
    rates[0] = y[0] * y[0];
    return 0;
}

static int nowhere(double t, const double *y, double *rates, void *context)
{
    (void)y;
    (void)context;
    rates[0] = 1.0;
    return t > 0.5;
}

static void must_fail(void **state)
{
    (void)state;
    ls_ode_rates *const rates[] = {explosive, nowhere};
    for (int k = 0; k < 2; k++) {
        ls_ode_problem problem = {.dimension = 1, .rates = rates[k], .scale = scale, .tolerance = 1e-8};
        ls_ode *ode = NULL;
        double y = 1.0, t = 0.0;
        int event;
        ls_error error = {0};
        assert_int_equal(ls_ode_new(&problem, &ode, NULL), LS_OK);
        assert_int_equal(ls_ode_advance(ode, &t, 2.0, &y, &event, &error), LS_NOT_CONVERGED);
        assert_true(isfinite(y) && t < 1.0 + 1e-6);
        assert_true(error.text[0] != '\0');
        ls_ode_free(ode);
    }
    ls_ode_free(NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(follows_a_circle),
        cmocka_unit_test(finds_events),
        cmocka_unit_test(must_fail),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
