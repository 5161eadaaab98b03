/* The propeller disc solved directly: in-plane loads by slopes and by azimuths, elements, Mach number. */
#include <string.h>

#include "propeller_case.h"

static ls_disc disc;

static int prepare(void **state)
{
    (void)state;
    light_twin_disc(NULL, &disc);
    return 0;
}

/* Air from below: e is up, f = a x e points right. The blade on the right goes down for h = +1, meets the air
 * faster and pulls more: the moment h m1 about e (up) with m1 > 0 yaws the nose left, for z is down. */
static void positive_incidence_has_the_right_signs(void **state)
{
    (void)state;
    ls_disc_state at = sea_level(45.0, 42.0, 18.0);
    at.V_inplane_m_s = 45.0 * tan(6.0 * DEG);
    ls_disc_loads local = solve_disc(&disc, at, LS_INDUCTION_LOCAL);
    assert_true(local.T_N > 0.0 && local.Q_N_m > 0.0);
    assert_true(local.N_N > 0.0 && local.m1_N_m > 0.0);
    check_close("side force without skew, N", local.S_N, 0.0, 1e-9, "round-off", "symmetry");
    check_close("second hub moment without skew, N m", local.m2_N_m, 0.0, 1e-9, "round-off", "symmetry");
    /* The skewed wake lies toward e, above: it unloads the upper blades, so the disc pitches the nose up, a
     * moment along f; and the lighter upper blades, moving right, are held back to the left less. */
    ls_disc_loads skewed = solve_disc(&disc, at, LS_INDUCTION_SKEWED);
    assert_true(skewed.m2_N_m > 0.0 && skewed.S_N > 0.0);
    ls_disc_loads frozen = solve_disc(&disc, at, LS_INDUCTION_FROZEN);
    check_close("hub moment, skewed over frozen", skewed.m1_N_m / frozen.m1_N_m, 1.0, 0.01,
                "second order of the skew", "symmetry");
}

static void slopes_agree_with_the_azimuths(void **state)
{
    (void)state;
    const double points[][3] = {{0, 40, 16},  {20, 44, 15}, {60, 45, 19}, {60, 40, 25},
                                {41, 22, 16}, {41, 0, 82},  {41, 0, 16}};
    for (int i = 0; i < 7; i++) {
        for (int m = 0; m < 2; m++) {
            ls_disc_state at = sea_level(points[i][0], points[i][1], points[i][2]);
            ls_induction induction = m == 0 ? LS_INDUCTION_LOCAL : LS_INDUCTION_FROZEN;
            ls_disc_axial axial = {0};
            assert_int_equal(ls_disc_solve_axial(&disc, &at, induction, &axial, NULL), LS_OK);
            at.V_inplane_m_s = 0.01;
            ls_disc_loads loads = solve_disc(&disc, at, induction);
            check_close("thrust, N", loads.T_N, axial.T_N, 1e-4, "second order", "identity");
            check_close("torque, N m", loads.Q_N_m, axial.Q_N_m, 1e-4, "second order", "identity");
            check_close("normal force per m/s", loads.N_N / 0.01, axial.N_N_s_m, 1e-4, "second order", "identity");
            check_close("hub moment per m/s", loads.m1_N_m / 0.01, axial.m1_N_s, 1e-4, "second order", "identity");
        }
    }
}

/* With momentum balanced at each azimuth the thrust of an annulus depends on its own tangential speed alone, so
 * dT/dOmega = B INT r dN'/dVy dr, twice the hub moment per unit of in-plane speed. */
static void hub_moment_is_half_the_rate_of_thrust_with_rotation(void **state)
{
    (void)state;
    const double points[][3] = {{0, 40, 16}, {30, 45, 17}, {60, 40, 25}, {41, 22, 16}};
    for (int i = 0; i < 4; i++) {
        double h = 1e-3, V = points[i][0], n = points[i][1], pitch = points[i][2];
        double rate = (solve_axial(&disc, sea_level(V, n + h, pitch)).T_N -
                       solve_axial(&disc, sea_level(V, n - h, pitch)).T_N) /
                      (2.0 * h * 2.0 * PI);
        check_close("hub moment per m/s over dT/dOmega", solve_axial(&disc, sea_level(V, n, pitch)).m1_N_s / rate,
                    0.5, 1e-5, "difference quotient", "identity");
    }
}

static void frozen_induction_is_the_upper_bound(void **state)
{
    (void)state;
    ls_disc_state at = sea_level(45.0, 44.0, 17.0);
    ls_disc_axial local = {0}, frozen = {0};
    assert_int_equal(ls_disc_solve_axial(&disc, &at, LS_INDUCTION_LOCAL, &local, NULL), LS_OK);
    assert_int_equal(ls_disc_solve_axial(&disc, &at, LS_INDUCTION_FROZEN, &frozen, NULL), LS_OK);
    check_between("hub moment, frozen over local", frozen.m1_N_s / local.m1_N_s, 1.0, 1.6, "momentum theory");
    check_between("normal force, frozen over local", frozen.N_N_s_m / local.N_N_s_m, 1.0, 1.6, "momentum theory");
    print_message("frozen over local at 45 m/s, 2640 rpm, 17 deg: hub moment %.3f, normal force %.3f\n",
                  frozen.m1_N_s / local.m1_N_s, frozen.N_N_s_m / local.N_N_s_m);
}

static void still_air_loads_nothing(void **state)
{
    (void)state;
    ls_disc_axial axial = solve_axial(&disc, sea_level(0.0, 0.0, 16.0));
    ls_disc_loads loads = solve_disc(&disc, sea_level(0.0, 0.0, 16.0), LS_INDUCTION_LOCAL);
    assert_true(axial.T_N == 0.0 && axial.Q_N_m == 0.0 && axial.N_N_s_m == 0.0 && axial.m1_N_s == 0.0);
    assert_true(loads.T_N == 0.0 && loads.u_mean_m_s == 0.0 && loads.mach75 == 0.0);
}

static void few_elements_suffice(void **state)
{
    (void)state;
    static ls_disc fine;
    light_twin_disc(&(ls_disc_options){.count = 48}, &fine);
    const double points[][3] = {{0, 44, 16}, {30, 45, 16}, {60, 45, 19}, {80, 40, 25}, {41, 22, 16}, {41, 0, 20}};
    for (int i = 0; i < 6; i++) {
        ls_disc_state at = sea_level(points[i][0], points[i][1], points[i][2]);
        ls_disc_axial few = solve_axial(&disc, at), many = solve_axial(&fine, at);
        check_close("thrust, 12 elements over 48", few.T_N / many.T_N, 1.0, 0.003, "convergence wanted",
                    "our own finer solution");
        check_close("torque, 12 elements over 48", few.Q_N_m / many.Q_N_m, 1.0, 0.005, "convergence wanted",
                    "our own finer solution");
    }
}

static void switches_act_the_right_way(void **state)
{
    (void)state;
    static ls_disc no_tip, no_hub, no_mach;
    light_twin_disc(&(ls_disc_options){.no_tip_loss = true}, &no_tip);
    light_twin_disc(&(ls_disc_options){.no_hub_loss = true}, &no_hub);
    light_twin_disc(&(ls_disc_options){.no_mach = true}, &no_mach);
    ls_disc_state at = sea_level(30.0, 45.0, 16.0);
    double T_N = solve_axial(&disc, at).T_N;
    assert_true(solve_axial(&no_tip, at).T_N > 1.01 * T_N);
    assert_true(solve_axial(&no_hub, at).T_N > T_N);
    assert_true(solve_axial(&no_mach, at).T_N < 0.99 * T_N);
    at.a_m_s = 1000.0; /* hardly any Mach effect is left */
    check_close("thrust in very fast sound, N", solve_axial(&disc, at).T_N, solve_axial(&no_mach, at).T_N, 40.0,
                "Prandtl-Glauert at Mach 0.27 is 3 %", "identity");
}

static void diagnostics_are_those_at_75(void **state)
{
    (void)state;
    ls_disc_loads loads = solve_disc(&disc, sea_level(50.0, 40.0, 17.0), LS_INDUCTION_LOCAL);
    check_close("incidence plus inflow angle, deg", (loads.alpha75_rad + loads.phi75_rad) / DEG, 17.0, 1e-9,
                "round-off", "definition");
    double tip = PI * 40.0 * 1.88;
    check_close("tip Mach number", loads.mach_tip, hypot(50.0, tip) / 340.3, 1e-12, "round-off", "definition");
    check_close("Mach number at 0.75 R", loads.mach75, hypot(50.0, 0.75 * tip) / 340.3, 1e-12, "round-off",
                "definition");
    double phi = atan2(50.0 + loads.u75_m_s, 0.75 * tip - loads.swirl75_m_s);
    check_close("inflow angle from the velocities, deg", loads.phi75_rad / DEG, phi / DEG, 1e-9, "round-off",
                "velocity triangle");
    assert_true(loads.u75_m_s > 0.0 && loads.swirl75_m_s > 0.0);
    check_close("power, W", loads.P_W, 2.0 * PI * 40.0 * loads.Q_N_m, 1e-6, "round-off", "definition");
}

static void every_inflow_has_a_solution(void **state)
{
    (void)state;
    uint64_t seed = 7;
    int runs = check_scaled(2000);
    for (int i = 0; i < runs; i++) {
        double V = check_random(&seed, 0.0, 120.0), alpha = check_random(&seed, 0.0, 60.0) * DEG;
        double n = i % 5 == 0 ? 0.0 : check_random(&seed, 0.0, 48.0);
        ls_disc_state at = sea_level(V * cos(alpha), n, check_random(&seed, 10.0, 88.0));
        at.V_inplane_m_s = V * sin(alpha);
        ls_disc_loads loads = solve_disc(&disc, at, LS_INDUCTION_LOCAL);
        assert_true(isfinite(loads.T_N + loads.Q_N_m + loads.N_N + loads.m1_N_m));
    }
}

static void impossible_states_are_refused(void **state)
{
    (void)state;
    ls_disc_state bad[5];
    for (int i = 0; i < 5; i++) {
        bad[i] = sea_level(50.0, 40.0, 17.0);
    }
    bad[0].V_axial_m_s = -1.0;
    bad[1].n_rev_s = -1.0;
    bad[2].pitch_rad = 17.0; /* degrees by mistake */
    bad[3].rho_kg_m3 = NAN;
    bad[4].a_m_s = 0.0;
    for (int i = 0; i < 5; i++) {
        ls_error error = {0};
        ls_disc_axial axial = {.T_N = 7.0};
        ls_disc_loads loads = {.T_N = 7.0};
        assert_int_equal(ls_disc_solve_axial(&disc, &bad[i], LS_INDUCTION_LOCAL, &axial, &error), LS_NO_STATE);
        assert_int_equal(ls_disc_solve(&disc, &bad[i], LS_INDUCTION_LOCAL, 8, &loads, NULL), LS_NO_STATE);
        assert_true(axial.T_N == 7.0 && loads.T_N == 7.0);
        assert_non_null(strstr(error.text, "it must lie within"));
    }
    ls_disc_state good = sea_level(50.0, 40.0, 17.0);
    ls_disc_loads loads = {.T_N = 7.0};
    assert_int_equal(ls_disc_solve(&disc, &good, LS_INDUCTION_LOCAL, 7, &loads, NULL), LS_NO_STATE);
    assert_true(loads.T_N == 7.0);
}

static void impossible_options_are_refused(void **state)
{
    (void)state;
    ls_blade blade = light_twin_blade();
    ls_section section = clark_y();
    static ls_disc unused;
    const double r_R[4] = {0.3, 0.5, 0.7, 0.9};
    ls_disc_options few = {.count = 3}, half = {.count = 4, .r_R = r_R};
    assert_int_equal(ls_disc_prepare(&blade, &section, &few, &unused, NULL), LS_FILE_REJECTED);
    assert_int_equal(ls_disc_prepare(&blade, &section, &half, &unused, NULL), LS_FILE_REJECTED);
    section.cl_max = 0.0;
    assert_int_equal(ls_disc_prepare(&blade, &section, NULL, &unused, NULL), LS_FILE_REJECTED);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(positive_incidence_has_the_right_signs),
        cmocka_unit_test(slopes_agree_with_the_azimuths),
        cmocka_unit_test(hub_moment_is_half_the_rate_of_thrust_with_rotation),
        cmocka_unit_test(frozen_induction_is_the_upper_bound),
        cmocka_unit_test(still_air_loads_nothing),
        cmocka_unit_test(few_elements_suffice),
        cmocka_unit_test(switches_act_the_right_way),
        cmocka_unit_test(diagnostics_are_those_at_75),
        cmocka_unit_test(every_inflow_has_a_solution),
        cmocka_unit_test(impossible_states_are_refused),
        cmocka_unit_test(impossible_options_are_refused),
    };
    return cmocka_run_group_tests(tests, prepare, NULL);
}
