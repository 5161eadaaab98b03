/* The propeller table against direct solutions of the disc. */
#include <string.h>

#include "liveside/prop_table.h"
#include "propeller_case.h"

enum { COLUMNS = 4, PITCHES = 24, MACHS = 4 };

static const char *const own = "our own direct solution";
static const char *const column_name[COLUMNS] = {"thrust", "torque", "normal force", "hub moment"};
static const double fine_deg = 16.0, feather_deg = 82.5, mach_max = 0.75, D = 1.88;

static ls_disc disc;
static ls_prop_table *table;

static ls_prop_table *build(double low_deg, double high_deg, ls_induction induction)
{
    ls_prop_range range = {.pitch_min_rad = low_deg * DEG, .pitch_max_rad = high_deg * DEG};
    ls_prop_table *made = NULL;
    ls_error error = {0};
    if (ls_prop_table_build(&disc, &range, induction, &made, &error) != LS_OK) {
        print_error("%s\n", error.text);
    }
    assert_non_null(made);
    return made;
}

static int prepare(void **state)
{
    (void)state;
    light_twin_disc(NULL, &disc);
    table = build(fine_deg, feather_deg, LS_INDUCTION_LOCAL);
    return 0;
}

static int finish(void **state)
{
    (void)state;
    ls_prop_table_free(table);
    return 0;
}

/* The four coefficients as the model defines them: loads over rho (V^2 + (0.75 pi n D)^2) and D^2 or D^3, those in
 * the plane per sine of incidence, that is slope times V. */
static void coefficients(ls_disc_state at, ls_disc_axial axial, double c[COLUMNS])
{
    double q = at.rho_kg_m3 * (pow(at.V_axial_m_s, 2) + pow(0.75 * PI * at.n_rev_s * D, 2)) * D * D;
    c[0] = axial.T_N / q;
    c[1] = axial.Q_N_m / (q * D);
    c[2] = axial.N_N_s_m * at.V_axial_m_s / q;
    c[3] = axial.m1_N_s * at.V_axial_m_s / (q * D);
}

static ls_disc_state state_at(double pitch_rad, double psi_rad, double mach)
{
    double W = 340.0 * mach;
    return (ls_disc_state){.V_axial_m_s = W * sin(psi_rad),
                           .n_rev_s = W * cos(psi_rad) / (0.75 * PI * D),
                           .pitch_rad = pitch_rad,
                           .rho_kg_m3 = 1.0,
                           .a_m_s = 340.0};
}

/* The largest coefficient of each row, on a grid of pitch and Mach number. */
static void find_row_largest(double largest[PITCHES][MACHS][COLUMNS])
{
    memset(largest, 0, sizeof(double[PITCHES][MACHS][COLUMNS]));
    for (int i = 0; i < PITCHES; i++) {
        double pitch_rad = (fine_deg + (feather_deg - fine_deg) * i / (PITCHES - 1)) * DEG;
        for (int m = 0; m < MACHS; m++) {
            for (int k = 0; k <= 30; k++) {
                ls_disc_state at = state_at(pitch_rad, 3.0 * k * DEG, fmax(mach_max * m / (MACHS - 1), 0.05));
                double c[COLUMNS];
                coefficients(at, solve_axial(&disc, at), c);
                for (int j = 0; j < COLUMNS; j++) {
                    largest[i][m][j] = fmax(largest[i][m][j], fabs(c[j]));
                }
            }
        }
    }
}

/* The smallest of the four rows around a point, to be on the strict side. */
static double row_largest(double largest[PITCHES][MACHS][COLUMNS], double pitch_rad, double mach, int j)
{
    double x = (pitch_rad / DEG - fine_deg) / (feather_deg - fine_deg) * (PITCHES - 1);
    double y = mach / mach_max * (MACHS - 1);
    int i = x >= PITCHES - 2 ? PITCHES - 2 : (int)x, m = y >= MACHS - 2 ? MACHS - 2 : (int)y;
    return fmin(fmin(largest[i][m][j], largest[i + 1][m][j]),
                fmin(largest[i][m + 1][j], largest[i + 1][m + 1][j]));
}

typedef struct {
    int points, off_any, off[COLUMNS];
    double worst[COLUMNS];
} tally;

static void compare(ls_disc_state at, double largest[PITCHES][MACHS][COLUMNS], tally *sum)
{
    double mach = hypot(at.V_axial_m_s, 0.75 * PI * at.n_rev_s * D) / at.a_m_s, direct[COLUMNS], looked[COLUMNS];
    ls_disc_axial axial;
    assert_int_equal(ls_prop_table_at(table, &at, &axial), 0);
    coefficients(at, axial, looked);
    coefficients(at, solve_axial(&disc, at), direct);
    int any = 0;
    for (int j = 0; j < COLUMNS; j++) {
        double error = fabs(looked[j] - direct[j]) / row_largest(largest, at.pitch_rad, mach, j);
        sum->off[j] += error > 0.005;
        any |= error > 0.005;
        sum->worst[j] = fmax(sum->worst[j], error);
    }
    sum->off_any += any;
    sum->points++;
}

static void table_agrees_with_direct_solutions(void **state)
{
    (void)state;
    static double largest[PITCHES][MACHS][COLUMNS];
    find_row_largest(largest);
    uint64_t seed = 20261125;
    int runs = check_scaled(10000);
    tally sum = {0};
    while (sum.points < runs) {
        ls_disc_state at = {.V_axial_m_s = check_random(&seed, 0.0, 130.0),
                            .n_rev_s = check_random(&seed, 0.0, 48.0),
                            .pitch_rad = check_random(&seed, fine_deg, feather_deg) * DEG,
                            .rho_kg_m3 = check_random(&seed, 0.5, 1.3),
                            .a_m_s = check_random(&seed, 310.0, 345.0)};
        if (hypot(at.V_axial_m_s, 0.75 * PI * at.n_rev_s * D) < mach_max * at.a_m_s) {
            compare(at, largest, &sum);
        }
    }
    for (int j = 0; j < COLUMNS; j++) {
        print_message("%s: %.2f %% of %d points off by over 0.5 %% of the row's largest, worst %.2f %%\n",
                      column_name[j], 100.0 * sum.off[j] / sum.points, sum.points, 100.0 * sum.worst[j]);
        check_between("share of points off by over 0.5 % of the row's largest", 1.0 * sum.off[j] / sum.points, 0.0,
                      0.01, own);
        check_between("worst point over the row's largest", sum.worst[j], 0.0, 0.02, own);
    }
    print_message("any of the four: %.2f %%\n", 100.0 * sum.off_any / sum.points);
}

static void feathered_and_stopped_are_close(void **state)
{
    (void)state;
    for (double pitch_deg = fine_deg; pitch_deg <= feather_deg; pitch_deg += 3.5) {
        ls_disc_state at = sea_level(41.0, 0.0, pitch_deg);
        ls_disc_axial direct = solve_axial(&disc, at), looked;
        assert_int_equal(ls_prop_table_at(table, &at, &looked), 0);
        check_close("stopped thrust, table over direct", looked.T_N / direct.T_N, 1.0, 0.005, "accuracy wanted",
                    own);
        check_close("stopped torque, N m", looked.Q_N_m, direct.Q_N_m, 0.005 * 89.0, "0.5 % of the largest", own);
    }
    ls_disc_state at = sea_level(41.0, 0.0, feather_deg);
    ls_disc_axial direct = solve_axial(&disc, at), looked;
    ls_prop_table_at(table, &at, &looked);
    check_close("feathered thrust, table over direct", looked.T_N / direct.T_N, 1.0, 0.003, "accuracy wanted",
                own);
}

static void working_points_are_close(void **state)
{
    (void)state;
    const double points[][3] = {{0, 44, 16},    {20, 45, 16},   {41, 45, 17.1},
                                {60, 45, 19.3}, {80, 40, 25.7}, {41, 22.4, 16}};
    for (int i = 0; i < 6; i++) {
        ls_disc_state at = sea_level(points[i][0], points[i][1], points[i][2]);
        ls_disc_axial direct = solve_axial(&disc, at), looked;
        assert_int_equal(ls_prop_table_at(table, &at, &looked), 0);
        check_close("thrust, table over direct", looked.T_N / direct.T_N, 1.0, 0.003, "accuracy wanted", own);
        check_close("torque, table over direct", looked.Q_N_m / direct.Q_N_m, 1.0, 0.005, "accuracy wanted", own);
        check_close("hub moment, table over direct", looked.m1_N_s / direct.m1_N_s, 1.0, 0.01, "accuracy wanted",
                    own);
    }
}

/* Small steps from static to stopped: no jump, and at rest nothing. */
static void table_has_no_jump(void **state)
{
    (void)state;
    ls_disc_axial looked, last;
    double worst = 0.0;
    ls_disc_state at = state_at(20.3 * DEG, 0.0, 0.4);
    ls_prop_table_at(table, &at, &last);
    for (double psi_deg = 0.01; psi_deg <= 90.0; psi_deg += 0.01) {
        at = state_at(20.3 * DEG, psi_deg * DEG, 0.4);
        ls_prop_table_at(table, &at, &looked);
        worst = fmax(worst, fabs(looked.T_N - last.T_N));
        last = looked;
    }
    /* From some 5000 N ahead to as much astern within 20 deg and back. */
    check_between("greatest step of the thrust over 0.01 deg of psi, N", worst, 0.0, 15.0, "identity");
    at = sea_level(0.0, 0.0, 20.0);
    assert_int_equal(ls_prop_table_at(table, &at, &looked), 0);
    assert_true(looked.T_N == 0.0 && looked.Q_N_m == 0.0 && looked.N_N_s_m == 0.0 && looked.m1_N_s == 0.0);
}

static void points_outside_are_held_and_told(void **state)
{
    (void)state;
    ls_disc_state at = sea_level(40.0, 44.0, 15.0), edge = sea_level(40.0, 44.0, 16.0);
    ls_disc_axial looked, held;
    assert_int_equal(ls_prop_table_at(table, &at, &looked), LS_PROP_PITCH_OUTSIDE);
    at = sea_level(200.0, 44.0, 40.0);
    assert_int_equal(ls_prop_table_at(table, &at, &looked), LS_PROP_MACH_OUTSIDE);
    at.pitch_rad = 1.6;
    assert_int_equal(ls_prop_table_at(table, &at, &looked), LS_PROP_MACH_OUTSIDE | LS_PROP_PITCH_OUTSIDE);
    edge.pitch_rad -= 1e-12; /* round-off at the stop is not outside */
    assert_int_equal(ls_prop_table_at(table, &edge, &held), 0);
}

static void fixed_pitch_needs_one_row(void **state)
{
    (void)state;
    ls_prop_table *fixed = build(18.0, 18.0, LS_INDUCTION_LOCAL);
    for (double V = 0.0; V <= 80.0; V += 8.0) {
        ls_disc_state at = sea_level(V, 38.0, 18.0);
        ls_disc_axial looked, direct = solve_axial(&disc, at),
                              still = solve_axial(&disc, sea_level(0.0, 38.0, 18.0));
        assert_int_equal(ls_prop_table_at(fixed, &at, &looked), 0);
        check_close("thrust at fixed pitch over that at rest", looked.T_N / still.T_N, direct.T_N / still.T_N,
                    0.003, "accuracy wanted", own);
    }
    ls_prop_table_free(fixed);
}

static void narrow_and_frozen_tables_build(void **state)
{
    (void)state;
    ls_prop_table *narrow = build(16.0, 16.5, LS_INDUCTION_FROZEN);
    ls_disc_state at = sea_level(45.0, 44.0, 16.2);
    ls_disc_axial looked, direct = {0};
    assert_int_equal(ls_disc_solve_axial(&disc, &at, LS_INDUCTION_FROZEN, &direct, NULL), LS_OK);
    assert_int_equal(ls_prop_table_at(narrow, &at, &looked), 0);
    check_close("hub moment with frozen induction, table over direct", looked.m1_N_s / direct.m1_N_s, 1.0, 0.005,
                "accuracy wanted", own);
    ls_prop_table_free(narrow);
}

static void impossible_ranges_are_refused(void **state)
{
    (void)state;
    ls_prop_range bad[4] = {
        {30.0 * DEG, 20.0 * DEG, 0.0}, {16.0, 82.0, 0.0}, {16.0 * DEG, NAN, 0.0}, {0.3, 0.4, 2.0}};
    for (int i = 0; i < 4; i++) {
        ls_error error = {0};
        ls_prop_table *untouched = table;
        assert_int_equal(ls_prop_table_build(&disc, &bad[i], LS_INDUCTION_LOCAL, &untouched, &error), LS_NO_STATE);
        assert_ptr_equal(untouched, table);
        assert_memory_equal(error.text, "propeller table: ", 17);
    }
    ls_prop_table_free(NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(table_agrees_with_direct_solutions), cmocka_unit_test(feathered_and_stopped_are_close),
        cmocka_unit_test(working_points_are_close),           cmocka_unit_test(table_has_no_jump),
        cmocka_unit_test(points_outside_are_held_and_told),   cmocka_unit_test(fixed_pitch_needs_one_row),
        cmocka_unit_test(narrow_and_frozen_tables_build),     cmocka_unit_test(impossible_ranges_are_refused),
    };
    return cmocka_run_group_tests(tests, prepare, finish);
}
