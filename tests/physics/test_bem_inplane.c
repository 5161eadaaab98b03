/* Loads in the disc plane and hub moments of a propeller at incidence. */
#include "propeller_case.h"

static ls_disc disc;
static const double area_m2 = PI * 0.94 * 0.94;

static int prepare(void **state)
{
    (void)state;
    light_twin_disc(NULL, &disc);
    return 0;
}

static double de_young_factor(double Tc)
{
    return 1.0 + 0.5 * (sqrt(1.0 + Tc) - 1.0) + Tc / (4.0 * (2.0 + Tc));
}

/* Ribner's factor of the inflow, with a the induced velocity over the speed. */
static double ribner_factor(double a)
{
    double wake = (1.0 + 2.0 * a) * (1.0 + 2.0 * a);
    return (1.0 + a) * (1.0 + a + wake) / (1.0 + wake);
}

static void two_published_inflow_factors_are_one(void **state)
{
    (void)state;
    for (double Tc = 0.0; Tc <= 8.0; Tc += 0.25) {
        check_close("inflow factor, de Young against Ribner", de_young_factor(Tc),
                    ribner_factor(0.5 * (sqrt(1.0 + Tc) - 1.0)), 1e-14, "round-off",
                    "de Young, J. Aircraft 2 (1965); Ribner, NACA Report 820, from memory");
    }
    check_close("inflow factor at Tc 1", de_young_factor(1.0), 1.29044, 5e-6, "printed digits",
                "de Young's formula, worked by hand");
}

/* Normal force slope on q A per rad of incidence: de Young's closed form for the blade at its 0.75 R. */
static double de_young_slope(double Tc, double pitch_deg)
{
    ls_blade blade = light_twin_blade();
    double sigma = 4.0 * blade.blades / (3.0 * PI) * 0.5 * ls_blade_at(&blade, 0.75).c_R;
    return 4.25 * sigma / (1.0 + 2.0 * sigma) * sin((pitch_deg + 8.0) * DEG) * de_young_factor(Tc);
}

static void normal_force_agrees_with_the_closed_form(void **state)
{
    (void)state;
    double lowest = 1e9, highest = 0.0;
    for (double pitch_deg = 15.0; pitch_deg <= 30.0; pitch_deg += 2.5) {
        for (double J = 0.5; J <= 1.6; J += 0.1) {
            const double n = 40.0;
            double V = J * n * 1.88, q = 0.5 * 1.225 * V * V;
            ls_disc_state at = sea_level(V, n, pitch_deg);
            ls_disc_axial axial = solve_axial(&disc, at);
            double alpha75_deg = solve_disc(&disc, at, LS_INDUCTION_LOCAL).alpha75_rad / DEG;
            if (axial.T_N <= 0.0 || alpha75_deg > 5.0) {
                continue; /* windmilling, or near the stall at 0.75 R */
            }
            double slope = axial.N_N_s_m * V / (q * area_m2), Tc = axial.T_N / (q * area_m2);
            double ratio = slope / de_young_slope(Tc, pitch_deg);
            lowest = fmin(lowest, ratio);
            highest = fmax(highest, ratio);
            print_message("pitch %.1f J %.1f Tc %.2f: normal force %.4f per rad, closed form %.4f, ratio %.2f\n",
                          pitch_deg, J, Tc, slope, de_young_slope(Tc, pitch_deg), ratio);
        }
    }
    check_between("lowest normal force over the closed form", lowest, 0.6, 1.4, "de Young, J. Aircraft 2 (1965)");
    check_between("highest normal force over the closed form", highest, 0.6, 1.4,
                  "de Young, J. Aircraft 2 (1965)");
}

static void nothing_in_the_plane_at_no_incidence(void **state)
{
    (void)state;
    for (int m = LS_INDUCTION_LOCAL; m <= LS_INDUCTION_SKEWED; m++) {
        ls_disc_loads loads = solve_disc(&disc, sea_level(50.0, 42.0, 18.0), (ls_induction)m);
        check_close("normal force, N", loads.N_N, 0.0, 1e-9, "round-off", "symmetry");
        check_close("side force, N", loads.S_N, 0.0, 1e-9, "round-off", "symmetry");
        check_close("first hub moment, N m", loads.m1_N_m, 0.0, 1e-9, "round-off", "symmetry");
        check_close("second hub moment, N m", loads.m2_N_m, 0.0, 1e-9, "round-off", "symmetry");
    }
}

static double hub_moment_N_m(double V, double n, double pitch_deg, double alpha_deg)
{
    ls_disc_state at = sea_level(V * cos(alpha_deg * DEG), n, pitch_deg);
    at.V_inplane_m_s = V * sin(alpha_deg * DEG);
    return solve_disc(&disc, at, LS_INDUCTION_LOCAL).m1_N_m;
}

static void hub_moment_grows_with_incidence_and_speed(void **state)
{
    (void)state;
    double last = 0.0;
    for (double alpha_deg = 1.0; alpha_deg <= 15.0; alpha_deg += 1.0) {
        double m1 = hub_moment_N_m(45.0, 44.0, 17.0, alpha_deg);
        assert_true(m1 > last);
        last = m1;
    }
    last = 0.0;
    for (double V = 10.0; V <= 60.0; V += 5.0) {
        double m1 = hub_moment_N_m(V, 44.0, 17.0, 8.0);
        assert_true(m1 > last);
        last = m1;
    }
}

/* More thrust at the same speed from a coarser pitch, or from faster rotation, the blade unstalled. */
static void hub_moment_grows_with_thrust(void **state)
{
    (void)state;
    double last_m1 = 0.0, last_T = 0.0;
    for (double n = 32.0; n <= 46.0; n += 2.0) {
        double T_N = solve_axial(&disc, sea_level(50.0, n, 17.0)).T_N, m1 = hub_moment_N_m(50.0, n, 17.0, 8.0);
        assert_true(T_N > last_T && m1 > last_m1);
        last_T = T_N;
        last_m1 = m1;
    }
    last_T = last_m1 = 0.0;
    for (double pitch_deg = 14.0; pitch_deg <= 22.0; pitch_deg += 1.0) {
        double T_N = solve_axial(&disc, sea_level(50.0, 44.0, pitch_deg)).T_N;
        double m1 = hub_moment_N_m(50.0, 44.0, pitch_deg, 8.0);
        assert_true(T_N > last_T && m1 > last_m1);
        last_T = T_N;
        last_m1 = m1;
    }
}

/* The thrust acts at m1/T to the side of the hub: display only, and small against an engine's arm. */
static void thrust_offset_is_a_few_hundredths_of_the_diameter(void **state)
{
    (void)state;
    double offset =
        hub_moment_N_m(45.0, 44.5, 17.0, 8.0) / solve_axial(&disc, sea_level(45.0, 44.5, 17.0)).T_N / 1.88;
    print_message("thrust offset at 45 m/s, 2670 rpm, 17 deg, 8 deg incidence: %.4f D\n", offset);
    check_between("thrust offset over the diameter", offset, 0.005, 0.04, "0.01 to 0.03 D, an estimate");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_published_inflow_factors_are_one),
        cmocka_unit_test(normal_force_agrees_with_the_closed_form),
        cmocka_unit_test(nothing_in_the_plane_at_no_incidence),
        cmocka_unit_test(hub_moment_grows_with_incidence_and_speed),
        cmocka_unit_test(hub_moment_grows_with_thrust),
        cmocka_unit_test(thrust_offset_is_a_few_hundredths_of_the_diameter),
    };
    return cmocka_run_group_tests(tests, prepare, NULL);
}
