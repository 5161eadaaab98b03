/* What momentum theory forbids, and the order and continuity that a propeller must show. */
#include "propeller_case.h"

static ls_disc disc;
static const double area_m2 = PI * 0.94 * 0.94;

static int prepare(void **state)
{
    (void)state;
    light_twin_disc(NULL, &disc);
    return 0;
}

/* The least power for a thrust: T (V + v), T = 2 rho A (V + v) v. */
static double ideal_power_W(double T_N, double V_m_s, double rho_kg_m3)
{
    return T_N * (0.5 * V_m_s + sqrt(0.25 * V_m_s * V_m_s + T_N / (2.0 * rho_kg_m3 * area_m2)));
}

static void momentum_theory_is_never_beaten(void **state)
{
    (void)state;
    uint64_t seed = 20260114;
    int runs = check_scaled(10000), propulsive = 0, windmills = 0;
    double least_over_ideal = 1e9, least_over_thrust_power = 1e9, most_of_betz = 0.0;
    for (int i = 0; i < runs; i++) {
        double V = i % 8 == 0 ? 0.0 : check_random(&seed, 0.0, 110.0), n = check_random(&seed, 1.0, 50.0);
        ls_disc_state at = sea_level(V, n, check_random(&seed, 5.0, 85.0));
        at.rho_kg_m3 = check_random(&seed, 0.4, 1.4);
        at.a_m_s = check_random(&seed, 300.0, 350.0);
        ls_disc_axial axial = solve_axial(&disc, at);
        double P_W = 2.0 * PI * n * axial.Q_N_m, betz_W = 16.0 / 27.0 * 0.5 * at.rho_kg_m3 * V * V * V * area_m2;
        if (axial.T_N > 0.0) {
            least_over_ideal = fmin(least_over_ideal, P_W / ideal_power_W(axial.T_N, V, at.rho_kg_m3));
            least_over_thrust_power = fmin(least_over_thrust_power, P_W - axial.T_N * V);
            propulsive++;
        } else if (P_W < 0.0) {
            most_of_betz = fmax(most_of_betz, -P_W / betz_W);
            windmills++;
        }
    }
    print_message(
        "%d propulsive states: least power %.4f of the ideal; %d windmilling: at most %.3f of Betz's limit\n",
        propulsive, least_over_ideal, windmills, most_of_betz);
    assert_true(propulsive > runs / 5 && windmills > runs / 20);
    check_between("least power over the ideal power", least_over_ideal, 1.0, 1.3, "actuator-disc momentum theory");
    check_between("least shaft power less thrust power, W", least_over_thrust_power, 0.0, 1e9,
                  "conservation of energy");
    check_between("most power from the wind over Betz's limit", most_of_betz, 0.0, 1.0, "Betz's limit, 16/27");
}

static double root_J(double pitch_deg, bool of_torque)
{
    double low = 0.1, high = 3.0;
    for (int i = 0; i < 50; i++) {
        double J = 0.5 * (low + high);
        ls_disc_axial axial = solve_axial(&disc, sea_level(J * 30.0 * 1.88, 30.0, pitch_deg));
        *((of_torque ? axial.Q_N_m : axial.T_N) > 0.0 ? &low : &high) = J;
    }
    return low;
}

static void thrust_reverses_before_torque(void **state)
{
    (void)state;
    for (double pitch_deg = 10.0; pitch_deg <= 40.0; pitch_deg += 5.0) {
        double J_T = root_J(pitch_deg, false), J_Q = root_J(pitch_deg, true);
        check_between("J of no torque over J of no thrust", J_Q / J_T, 1.001, 1.2, "drag of the blades");
    }
}

static void near_rest_goes_over_into_rest(void **state)
{
    (void)state;
    for (double pitch_deg = 12.0; pitch_deg <= 88.0; pitch_deg += 4.0) {
        ls_disc_axial rest = solve_axial(&disc, sea_level(41.0, 0.0, pitch_deg));
        ls_disc_axial creep = solve_axial(&disc, sea_level(41.0, 1e-6, pitch_deg));
        check_close("thrust as n -> 0, N", creep.T_N, rest.T_N, 0.01, "n of 1e-6 rev/s", "identity");
        check_close("torque as n -> 0, N m", creep.Q_N_m, rest.Q_N_m, 0.01, "n of 1e-6 rev/s", "identity");
        check_close("normal force slope as n -> 0", creep.N_N_s_m, rest.N_N_s_m, 0.01, "n of 1e-6 rev/s",
                    "identity");
        ls_disc_axial still = solve_axial(&disc, sea_level(0.0, 40.0, pitch_deg));
        ls_disc_axial taxi = solve_axial(&disc, sea_level(1e-6, 40.0, pitch_deg));
        check_close("thrust as V -> 0, N", taxi.T_N, still.T_N, 0.01, "V of 1e-6 m/s", "identity");
        check_close("torque as V -> 0, N m", taxi.Q_N_m, still.Q_N_m, 0.01, "V of 1e-6 m/s", "identity");
        check_close("hub moment slope as V -> 0", taxi.m1_N_s, still.m1_N_s, 0.01, "V of 1e-6 m/s", "identity");
    }
}

/* Thrust and torque change by little over small steps in J all the way from static to windmilling. */
static void no_jump_between_the_states(void **state)
{
    (void)state;
    for (double pitch_deg = 14.0; pitch_deg <= 38.0; pitch_deg += 6.0) {
        double worst = 0.0;
        ls_disc_axial last = solve_axial(&disc, sea_level(0.0, 20.0, pitch_deg));
        for (double V = 0.05; V < 110.0; V += 0.05) {
            ls_disc_axial axial = solve_axial(&disc, sea_level(V, 20.0, pitch_deg));
            worst = fmax(worst, fabs(axial.T_N - last.T_N));
            last = axial;
        }
        /* rho a c B/2 Omega r dr integrates to some 45 N per m/s without induction, plus the drag broadside. */
        check_between("greatest step of the thrust over 0.05 m/s, N", worst, 0.0, 5.0, "identity");
    }
}

static void loads_scale_with_density(void **state)
{
    (void)state;
    ls_disc_state at = sea_level(50.0, 40.0, 18.0);
    ls_disc_axial thick = solve_axial(&disc, at);
    at.rho_kg_m3 *= 0.5;
    ls_disc_axial thin = solve_axial(&disc, at);
    check_close("thrust at half the density", thin.T_N / thick.T_N, 0.5, 1e-12, "round-off", "identity");
    check_close("torque at half the density", thin.Q_N_m / thick.Q_N_m, 0.5, 1e-12, "round-off", "identity");
}

static void fine_stop_takes_rated_torque_at_rest(void **state)
{
    (void)state;
    const double rated_N_m = 134000.0 / (2.0 * PI * 45.0);
    double n = speed_for_torque(&disc, 0.0, 16.0, rated_N_m, 60.0);
    ls_disc_axial axial = solve_axial(&disc, sea_level(0.0, n, 16.0));
    double P_W = 2.0 * PI * n * axial.Q_N_m, ideal_N = cbrt(2.0 * 1.225 * area_m2 * P_W * P_W);
    double merit = pow(axial.T_N / ideal_N, 1.5);
    print_message("invented blade, 16 deg, at rest: %.0f rpm, %.0f N, figure of merit %.3f\n", 60.0 * n, axial.T_N,
                  merit);
    check_between("share of rated speed at rest on a 16 deg stop", n / 45.0, 0.95, 1.0, "sizing of the blade");
    check_between("figure of merit at rest", merit, 0.55, 0.80,
                  "light-aircraft propellers 0.55 to 0.75, from memory");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(momentum_theory_is_never_beaten), cmocka_unit_test(thrust_reverses_before_torque),
        cmocka_unit_test(near_rest_goes_over_into_rest),   cmocka_unit_test(no_jump_between_the_states),
        cmocka_unit_test(loads_scale_with_density),        cmocka_unit_test(fine_stop_takes_rated_torque_at_rest),
    };
    return cmocka_run_group_tests(tests, prepare, NULL);
}
