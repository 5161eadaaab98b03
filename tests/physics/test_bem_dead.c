/* A propeller on a dead engine: windmilling, stopped, feathered. */
#include "propeller_case.h"

static ls_disc disc;
static const double area_m2 = PI * 0.94 * 0.94;
static const double V_m_s = 80.0 * 0.5144444444444444;
static const char *const naca464 =
    "NACA Report 464 (Hartman): negative thrust rises as the blade angle falls, feathering cuts it";

static int prepare(void **state)
{
    (void)state;
    light_twin_disc(NULL, &disc);
    return 0;
}

static double drag_area_m2(double n_rev_s, double pitch_deg)
{
    double q = 0.5 * 1.225 * V_m_s * V_m_s;
    return -solve_axial(&disc, sea_level(V_m_s, n_rev_s, pitch_deg)).T_N / q;
}

/* The windmilling point with a motoring torque, or free with none. */
static void windmilling_drag_grows_as_pitch_falls(void **state)
{
    (void)state;
    const double motoring_N_m[2] = {0.0, 60.0};
    for (int i = 0; i < 2; i++) {
        double last = 0.0;
        for (double pitch_deg = 30.0; pitch_deg >= 10.0; pitch_deg -= 1.0) {
            double n = speed_for_torque(&disc, V_m_s, pitch_deg, -motoring_N_m[i], 60.0);
            if (n == 0.0) {
                assert_true(i == 1 && pitch_deg > 24.0); /* too coarse to turn the engine */
                continue;
            }
            double drag = drag_area_m2(n, pitch_deg);
            print_message("motoring %2.0f N m, pitch %.0f: %4.0f rpm, drag area %.3f m2\n", motoring_N_m[i],
                          pitch_deg, 60.0 * n, drag);
            check_between("growth of the windmilling drag area per deg finer, m2", drag - last, 1e-5, 0.5,
                          naca464);
            last = drag;
        }
    }
}

/* Down to 72 deg it falls all the way. Beyond, the twisted blade lifts one way inboard and the other way outboard,
 * and what little drag is left is mostly that of this lift, so the least lies some degrees short of no torque. */
static void stopped_drag_falls_toward_feather(void **state)
{
    (void)state;
    double last = 1e9;
    for (double pitch_deg = 20.0; pitch_deg <= 72.0; pitch_deg += 1.0) {
        double drag = drag_area_m2(0.0, pitch_deg);
        check_between("fall of the stopped drag area per deg coarser, m2", last - drag, 1e-5, 1e9, naca464);
        last = drag;
    }
    for (double pitch_deg = 73.0; pitch_deg <= 83.0; pitch_deg += 1.0) {
        check_between("stopped drag area near feather over that at 20 deg",
                      drag_area_m2(0.0, pitch_deg) / drag_area_m2(0.0, 20.0), 0.0, 1.0 / 8.0,
                      "Raymer eq. 12.39: 0.1 against 0.8 sigma A");
    }
}

/* The pitch at which the stopped propeller has no torque. */
static double feather_deg(void)
{
    double low = 60.0, high = 100.0;
    for (int i = 0; i < 50; i++) {
        double pitch_deg = 0.5 * (low + high);
        *(solve_axial(&disc, sea_level(V_m_s, 0.0, pitch_deg)).Q_N_m < 0.0 ? &low : &high) = pitch_deg;
    }
    return low;
}

static void feathered_propeller_stands_with_least_drag(void **state)
{
    (void)state;
    double pitch_deg = feather_deg(), drag = drag_area_m2(0.0, pitch_deg), solidity = 0.0;
    ls_blade blade = light_twin_blade();
    solidity = ls_blade_solidity(&blade);
    print_message("no torque at rest at %.2f deg; drag area %.4f m2 (Raymer 0.1 sigma A %.4f, Torenbeek %.4f)\n",
                  pitch_deg, drag, 0.1 * solidity * area_m2, 0.00125 * 2.0 * 1.88 * 1.88);
    print_message("stopped at 16 deg %.3f m2 (Raymer 0.8 sigma A %.3f); windmilling with 60 N m %.3f m2\n",
                  drag_area_m2(0.0, 16.0), 0.8 * solidity * area_m2,
                  drag_area_m2(speed_for_torque(&disc, V_m_s, 16.0, -60.0, 60.0), 16.0));
    check_between("pitch of no torque at rest, deg", pitch_deg, 78.0, 88.0,
                  "feather stops of light twins, 79 to 82.5 deg at 30 in (pilot's handbooks)");
    /* A comparison between two rules that differ by 2.5, each widened by as much again; nothing is fitted. */
    check_between("feathered drag area, m2", drag, 0.00125 * 2.0 * 1.88 * 1.88 / 2.5,
                  2.5 * 0.1 * solidity * area_m2, "Torenbeek eq. G-63 (second hand); Raymer eq. 12.39");
    check_between("drag stopped at 16 deg over 0.8 sigma A", drag_area_m2(0.0, 16.0) / (0.8 * solidity * area_m2),
                  0.5, 2.0, "Raymer eq. 12.39");
    /* A little to either side of the least drag the blade lifts and drags more. */
    assert_true(drag_area_m2(0.0, pitch_deg - 15.0) > drag && drag_area_m2(0.0, pitch_deg + 15.0) > drag);
}

static void coarse_windmill_drags_less_than_fine(void **state)
{
    (void)state;
    double fine = drag_area_m2(speed_for_torque(&disc, V_m_s, 16.0, -60.0, 60.0), 16.0);
    double coarse = drag_area_m2(speed_for_torque(&disc, V_m_s, 21.0, -60.0, 60.0), 21.0);
    assert_true(coarse < 0.9 * fine);
    double stopped = drag_area_m2(0.0, 16.0);
    check_between("windmilling over stopped at 16 deg", fine / stopped, 1.0, 3.0,
                  "up to about 3, secondary account of the Naval Aviators' textbook");
}

/* The fastest speed at which a given motoring torque is met is the stable one: torque rises through it with n. */
static void windmilling_is_stable(void **state)
{
    (void)state;
    double n = speed_for_torque(&disc, V_m_s, 16.0, -60.0, 60.0);
    assert_true(n > 10.0);
    assert_true(solve_axial(&disc, sea_level(V_m_s, n + 0.1, 16.0)).Q_N_m > -60.0);
    assert_true(solve_axial(&disc, sea_level(V_m_s, n - 0.1, 16.0)).Q_N_m < -60.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(windmilling_drag_grows_as_pitch_falls),
        cmocka_unit_test(stopped_drag_falls_toward_feather),
        cmocka_unit_test(feathered_propeller_stands_with_least_drag),
        cmocka_unit_test(coarse_windmill_drags_less_than_fine),
        cmocka_unit_test(windmilling_is_stable),
    };
    return cmocka_run_group_tests(tests, prepare, NULL);
}
