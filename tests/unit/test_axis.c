/* The cubic weights of a table axis: exact on parabolas, smooth at nodes, held beyond the ends. */
#include "check.h"
#include "prop/axis.h"

static double square_of(double x)
{
    return 2.0 - 3.0 * x + 0.5 * x * x;
}

/* Interpolates a function on the axis. */
static double value_at(const axis *a, double x, double (*f)(double))
{
    axis_place at = axis_at(a, x);
    double sum = 0.0;
    for (int i = 0; i < 4 && at.first + i < a->count; i++) {
        sum += at.weight[i / 2][i % 2] * f(a->node[at.first + i]);
    }
    return sum;
}

static void uneven(axis *a)
{
    static const double node[] = {-1.0, -0.4, 0.0, 0.1, 0.3, 0.9, 2.0};
    *a = (axis){.count = 7};
    for (int i = 0; i < 7; i++) {
        a->node[i] = node[i];
    }
    axis_prepare(a);
}

static void parabola_is_reproduced(void **state)
{
    (void)state;
    static axis a;
    uneven(&a);
    double worst = 0.0;
    for (double x = -1.0; x <= 2.0; x += 0.001) {
        double error = value_at(&a, x, square_of) - square_of(x);
        worst = error > worst ? error : -error > worst ? -error : worst;
    }
    check_between("greatest error on a parabola", worst, 0.0, 1e-13, "identity");
}

static double cube_of(double x)
{
    return x * x * x;
}

static void nodes_are_met_with_one_slope(void **state)
{
    (void)state;
    static axis a;
    uneven(&a);
    const double h = 1e-6;
    for (int i = 1; i < 6; i++) {
        double x = a.node[i];
        check_close("value at a node", value_at(&a, x, cube_of), cube_of(x), 1e-13, "round-off", "identity");
        double left = (value_at(&a, x, cube_of) - value_at(&a, x - h, cube_of)) / h;
        double right = (value_at(&a, x + h, cube_of) - value_at(&a, x, cube_of)) / h;
        check_close("slope on both sides of a node", right, left, 1e-4, "difference quotient", "identity");
    }
}

static void ends_hold_and_one_node_suffices(void **state)
{
    (void)state;
    static axis a, one = {.count = 1, .node = {0.25}};
    uneven(&a);
    axis_prepare(&one);
    check_close("beyond the end", value_at(&a, 5.0, cube_of), 8.0, 1e-12, "round-off", "definition");
    check_close("before the start", value_at(&a, -5.0, cube_of), -1.0, 1e-12, "round-off", "definition");
    check_close("single node", value_at(&one, 0.7, cube_of), cube_of(0.25), 1e-15, "round-off", "definition");
    assert_false(axis_holds(&a, 2.1));
    assert_true(axis_holds(&a, 2.0));
    assert_false(axis_holds(&one, 0.7));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(parabola_is_reproduced),
        cmocka_unit_test(nodes_are_met_with_one_slope),
        cmocka_unit_test(ends_hold_and_one_node_suffices),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
