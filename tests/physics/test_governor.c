/* The constant-speed unit: its searches against plain scans, its limits, and its warnings. */
#include "check.h"
#include "fleet.h"

#include "liveside/prepare.h"
#include "prop/engine.h"
#include "prop/governor.h"

#include <math.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)
#define KT  (1852.0 / 3600.0)

static const char *const names[] = {"whimbrel", "sanderling", "redshank", "barnacle"};
enum { FLEET = sizeof names / sizeof names[0] };

static ls_aircraft aircraft[FLEET];
static ls_powerplant powerplant[FLEET];

static int read_fleet(void **state)
{
    (void)state;
    for (int i = 0; i < FLEET; i++) {
        fleet_read(names[i], &aircraft[i]);
        assert_int_equal(ls_powerplant_prepare(&aircraft[i].powerplant[0], &powerplant[i], NULL), LS_OK);
    }
    return 0;
}

static double rated_rev_s(const ls_powerplant *of)
{
    return of->data->engine.n_rev_s * of->data->engine.gear_ratio;
}

static ls_air air_at(double altitude_m, double offset_K)
{
    ls_air air;
    assert_int_equal(ls_air_at(altitude_m, offset_K, &air, NULL), LS_OK);
    return air;
}

/* Torque taken less torque given, read from the table by its public function. */
static double excess(const ls_shaft *shaft, double pitch_rad, double n_rev_s)
{
    ls_disc_axial axial;
    ls_disc_state state = {.V_axial_m_s = shaft->V_m_s,
                           .n_rev_s = n_rev_s,
                           .pitch_rad = pitch_rad,
                           .rho_kg_m3 = shaft->air->rho_kg_m3,
                           .a_m_s = shaft->air->a_m_s};
    ls_prop_table_at(shaft->powerplant->data->propeller.table, &state, &axial);
    return axial.Q_N_m - ls_engine_torque(shaft->powerplant, shaft->air, shaft->state, shaft->power, n_rev_s);
}

/* ---- the searches ---- */

enum { SCAN = 3000 };

/* Nothing balances at a finer pitch than the one found. */
static void is_the_finest(const ls_shaft *shaft, const ls_governed *governed, double lever_rev_s)
{
    double fine_rad = shaft->powerplant->data->propeller.fine_pitch_rad;
    assert_true(governed->n_rev_s == lever_rev_s);
    assert_true(governed->pitch_rad >= fine_rad);
    for (int i = 0; i < 200; i++) {
        double pitch_rad = fine_rad + (governed->pitch_rad - fine_rad) * i / 200;
        assert_true(excess(shaft, pitch_rad, lever_rev_s) < 0.0);
    }
}

/* On the fine stop: no root above the one found, and the shaft returns to it. */
static void is_the_highest(const ls_shaft *shaft, const ls_governed *governed, double lever_rev_s)
{
    double fine_rad = shaft->powerplant->data->propeller.fine_pitch_rad, n = governed->n_rev_s;
    assert_true(governed->pitch_rad == fine_rad && n <= lever_rev_s);
    for (int i = 0; i < SCAN; i++) {
        double above = lever_rev_s + (n - lever_rev_s) * i / SCAN;
        assert_true(above - n < 1e-7 || excess(shaft, fine_rad, above) > 0.0);
    }
    if (n < lever_rev_s * (1.0 - 1e-6)) {
        assert_true(excess(shaft, fine_rad, n * (1.0 + 1e-7)) > excess(shaft, fine_rad, n * (1.0 - 1e-7)));
    }
}

static void nothing_turns_it(const ls_shaft *shaft, double lever_rev_s)
{
    double fine_rad = shaft->powerplant->data->propeller.fine_pitch_rad;
    for (int i = 0; i < SCAN; i++) {
        assert_true(excess(shaft, fine_rad, lever_rev_s * (1.0 - (double)i / SCAN)) > 0.0);
    }
}

static void draw_shaft(uint64_t *seed, const ls_powerplant *of, ls_air *air, ls_shaft *shaft, double *lever_rev_s)
{
    static const ls_engine_state states[] = {LS_RUNNING, LS_WINDMILLING, LS_LEVER_AFT, LS_IDLE, LS_WINDMILLING};
    ls_engine_state state = states[(int)check_random(seed, 0, 4.999)];
    *air = air_at(check_random(seed, 0, 6000), check_random(seed, -25, 30));
    *shaft = (ls_shaft){of, air, state, check_random(seed, 0.05, 1.0), check_random(seed, 0.0, 95.0)};
    *lever_rev_s = check_random(seed, 0.4, 1.0) * rated_rev_s(of);
}

static void settles_where_a_plain_scan_does(void **state)
{
    (void)state;
    uint64_t seed = 20;
    int count[4] = {0};
    double largest_Nm = 0.0;
    for (int i = 0; i < check_scaled(1500); i++) {
        ls_air air;
        ls_shaft shaft;
        ls_governed governed;
        double lever_rev_s;
        draw_shaft(&seed, &powerplant[i % FLEET], &air, &shaft, &lever_rev_s);
        assert_int_equal(ls_governor_settle(&shaft, lever_rev_s, &governed, NULL), LS_OK);
        if (governed.flags & LS_PROPULSOR_STOPS) {
            nothing_turns_it(&shaft, lever_rev_s);
            count[2]++;
            continue;
        }
        double left = excess(&shaft, governed.pitch_rad, governed.n_rev_s);
        check_close("torque left over, N m", left, 0.0, 2e-7, "root tolerances 1e-12 rad, 1e-11 rev/s, 1e-9 N m",
                    "identity");
        check_close("torque left over as reported, N m", governed.excess_Nm, left, 1e-9,
                    "below 1e-9 it counts as none", "identity");
        largest_Nm = fmax(largest_Nm, fabs(left));
        if (governed.flags & LS_PROPULSOR_COARSE_STOP) { /* full power at walking RPM: nothing absorbs it */
            assert_true(governed.n_rev_s > lever_rev_s && excess(&shaft, governed.pitch_rad, lever_rev_s) < 0.0);
            count[3]++;
        } else if (governed.flags & LS_PROPULSOR_FINE_STOP) {
            is_the_highest(&shaft, &governed, lever_rev_s);
            count[1]++;
        } else {
            is_the_finest(&shaft, &governed, lever_rev_s);
            count[0]++;
        }
        assert_true(governed.lookups < 90);
    }
    print_message(
        "governing %d, on the fine stop %d, stopped %d, on the coarse stop %d; torque left at most %.1e N m\n",
        count[0], count[1], count[2], count[3], largest_Nm);
    assert_true(count[0] > 0 && count[1] > 0);
}

/* A unit with a coarse stop that is too fine runs away: faster than set, and flagged. */
static void too_fine_a_coarse_stop_overspeeds(void **state)
{
    (void)state;
    ls_powerplant_data data = aircraft[0].powerplant[0];
    ls_powerplant own;
    ls_propulsor_point point;
    ls_air air = air_at(0, 0);
    data.propeller.coarse_pitch_rad = 18.0 * DEG;
    assert_int_equal(ls_powerplant_prepare(&data, &own, NULL), LS_OK);
    assert_int_equal(ls_propulsor_at(&own, LS_RUNNING, 1.0, &air, 90 * KT, &point, NULL), LS_OK);
    assert_false(point.flags & LS_PROPULSOR_COARSE_STOP);
    assert_true(point.n_rev_s == rated_rev_s(&own));
    assert_int_equal(ls_propulsor_at(&own, LS_RUNNING, 1.0, &air, 120 * KT, &point, NULL), LS_OK);
    assert_true(point.flags & LS_PROPULSOR_COARSE_STOP);
    assert_true(point.n_rev_s > 1.01 * rated_rev_s(&own));
    check_close("pitch on the coarse stop, deg", point.pitch_rad / DEG, 18.0, 1e-12, "held", "definition");
    ls_shaft shaft = {&own, &air, LS_RUNNING, 1.0, 120 * KT};
    check_close("torque left over on the coarse stop, N m", excess(&shaft, point.pitch_rad, point.n_rev_s), 0.0,
                1e-6, "root tolerance 1e-11 rev/s", "identity");
}

/* No search ends in silence: an engine that nothing can hold is an error with its reason. */
static void an_engine_that_nothing_holds_is_an_error(void **state)
{
    (void)state;
    ls_powerplant_data data = aircraft[0].powerplant[0];
    ls_powerplant own;
    ls_propulsor_point point;
    ls_error error = {0};
    ls_air air = air_at(0, 0);
    data.propeller.coarse_pitch_rad = 16.0 * DEG;
    data.engine.power_W *= 40.0;
    assert_int_equal(ls_powerplant_prepare(&data, &own, NULL), LS_OK);
    assert_int_equal(ls_propulsor_at(&own, LS_RUNNING, 1.0, &air, 40.0, &point, &error), LS_NOT_CONVERGED);
    assert_non_null(strstr(error.text, "coarse stop"));
    assert_non_null(strstr(error.text, "40.00 m/s"));
}

static void held_pitch_settles_or_says_why_not(void **state)
{
    (void)state;
    ls_governed governed;
    ls_error error = {0};
    ls_air air = air_at(0, 0);
    ls_shaft shaft = {&powerplant[0], &air, LS_WINDMILLING, 1.0, 80 * KT};
    double fine_rad = powerplant[0].data->propeller.fine_pitch_rad;
    ls_propulsor_point point;
    assert_int_equal(ls_governor_hold(&shaft, fine_rad, 90.0, &governed, NULL), LS_OK);
    assert_int_equal(ls_propulsor_at(&powerplant[0], LS_WINDMILLING, 1.0, &air, 80 * KT, &point, NULL), LS_OK);
    check_close("speed held at the fine stop less the unit's, rev/s", governed.n_rev_s, point.n_rev_s, 1e-9,
                "root tolerance 1e-11 rev/s", "identity");
    assert_int_equal(ls_governor_hold(&shaft, fine_rad, 5.0, &governed, &error), LS_NOT_CONVERGED);
    assert_non_null(strstr(error.text, "overspeeds"));
}

/* ---- zero thrust ---- */

static void zero_thrust_has_none(void **state)
{
    (void)state;
    uint64_t seed = 8;
    for (int i = 0; i < check_scaled(400); i++) {
        const ls_powerplant *of = &powerplant[i % FLEET];
        ls_air air = air_at(check_random(&seed, 0, 5000), check_random(&seed, -20, 30));
        ls_propulsor_point point;
        double V_m_s = check_random(&seed, 0.0, 85.0);
        assert_int_equal(ls_propulsor_at(of, LS_ZERO_THRUST, 1.0, &air, V_m_s, &point, NULL), LS_OK);
        check_close("thrust when set to none, N", point.thrust_N, 0.0, 1e-5,
                    "root tolerances 1e-12 rad, 1e-11 rev/s", "identity");
        assert_true(point.n_rev_s <= rated_rev_s(of) * (1.0 + 1e-12));
        assert_true(point.torque_Nm >= 0.0); /* thrust reverses before torque does: it still has to be driven */
    }
    ls_air air = air_at(0, 0);
    ls_propulsor_point rest;
    assert_int_equal(ls_propulsor_at(&powerplant[0], LS_ZERO_THRUST, 1.0, &air, 0.0, &rest, NULL), LS_OK);
    assert_true(rest.n_rev_s == 0.0 && rest.thrust_N == 0.0);
}

static void no_thrust_that_cannot_be_set_is_an_error(void **state)
{
    (void)state;
    ls_powerplant_data data = aircraft[0].powerplant[0];
    ls_powerplant own;
    ls_propulsor_point point;
    ls_error error = {0};
    ls_air air = air_at(0, 0);
    data.propeller.coarse_pitch_rad = data.propeller.fine_pitch_rad;
    assert_int_equal(ls_powerplant_prepare(&data, &own, NULL), LS_OK);
    assert_int_equal(ls_propulsor_at(&own, LS_ZERO_THRUST, 1.0, &air, 80.0, &point, &error), LS_NO_STATE);
    assert_non_null(strstr(error.text, "zero thrust"));
}

/* ---- sizing and warnings ---- */

static void run_up_is_on_the_fine_stop(void **state)
{
    (void)state;
    ls_air air = air_at(0, 0);
    for (int i = 0; i < FLEET; i++) {
        ls_propulsor_point point;
        if (powerplant[i].data->engine.type != LS_ENGINE_PISTON) {
            continue;
        }
        assert_int_equal(ls_propulsor_at(&powerplant[i], LS_RUNNING, 1.0, &air, 0.0, &point, NULL), LS_OK);
        assert_true(point.flags & LS_PROPULSOR_FINE_STOP);
        print_message("%s: %.0f of %.0f rpm at rest, blade angle %.1f deg, thrust %.0f N\n", names[i],
                      60 * point.n_rev_s, 60 * rated_rev_s(&powerplant[i]), point.pitch_rad / DEG, point.thrust_N);
        check_between("speed of rotation at rest on full power, over the rated one",
                      point.n_rev_s / rated_rev_s(&powerplant[i]), 0.95, 1.0,
                      "common practice: the run-up is on the fine stop and just short of the governed speed");
        check_between("fine stop, deg at 0.75 R", point.pitch_rad / DEG, 14.0, 18.0,
                      "12.8 to 15.2 deg at 30 in (pilot's handbooks of light twins), turned to 0.75 R");
        double area_m2 = 0.25 * 3.14159265358979323846 * pow(powerplant[i].data->propeller.diameter_m, 2);
        double ideal_N = cbrt(2.0 * air.rho_kg_m3 * area_m2 * point.shaft_power_W * point.shaft_power_W);
        check_between("static figure of merit", pow(point.thrust_N / ideal_N, 1.5), 0.55, 0.85,
                      "0.55 to 0.75 for light aeroplanes (from memory); 1 is momentum theory's limit");
    }
}

static unsigned flags_of(const ls_powerplant *of, ls_engine_state state, const ls_air *air, double V_m_s)
{
    ls_propulsor_point point;
    assert_int_equal(ls_propulsor_at(of, state, 1.0, air, V_m_s, &point, NULL), LS_OK);
    return point.flags;
}

static void tip_mach_is_warned_of_where_due(void **state)
{
    (void)state;
    uint64_t seed = 5;
    for (int i = 0; i < check_scaled(2000); i++) {
        const ls_powerplant *of = &powerplant[i % FLEET];
        ls_air air = air_at(check_random(&seed, 0, 7000), check_random(&seed, -40, 20));
        ls_propulsor_point point;
        double V_m_s = check_random(&seed, 0, 110);
        assert_int_equal(ls_propulsor_at(of, LS_RUNNING, 1.0, &air, V_m_s, &point, NULL), LS_OK);
        double tip_m_s = hypot(V_m_s, 3.14159265358979323846 * point.n_rev_s * of->data->propeller.diameter_m);
        assert_int_equal((point.flags & LS_PROPULSOR_TIP_MACH) != 0, tip_m_s / air.a_m_s > 0.85);
    }
    ls_air cold = air_at(5000, -40), warm = air_at(0, 0);
    assert_true(flags_of(&powerplant[0], LS_RUNNING, &cold, 60.0) & LS_PROPULSOR_TIP_MACH);
    assert_false(flags_of(&powerplant[0], LS_RUNNING, &warm, 40.0) & LS_PROPULSOR_TIP_MACH);
}

static void the_feather_latch_is_warned_of_where_due(void **state)
{
    (void)state;
    ls_air air = air_at(0, 0);
    const double latch_rev_s = powerplant[0].data->propeller.feather_latch_rev_s;
    int seen[2] = {0};
    for (double V_m_s = 5.0; V_m_s < 80.0; V_m_s += 0.5) {
        for (int state_index = 0; state_index < LS_ENGINE_STATES; state_index++) {
            ls_engine_state is = (ls_engine_state)state_index;
            ls_propulsor_point point;
            assert_int_equal(ls_propulsor_at(&powerplant[0], is, 1.0, &air, V_m_s, &point, NULL), LS_OK);
            int due = (is == LS_WINDMILLING || is == LS_LEVER_AFT) && point.n_rev_s < latch_rev_s;
            assert_int_equal((point.flags & LS_PROPULSOR_LATCHED) != 0, due);
            seen[due]++;
        }
    }
    assert_true(seen[0] > 0 && seen[1] > 0);
    for (double V_m_s = 5.0; V_m_s < 80.0; V_m_s += 5.0) { /* no latch, no warning */
        assert_false(flags_of(&powerplant[2], LS_WINDMILLING, &air, V_m_s) & LS_PROPULSOR_LATCHED);
    }
}

/* In ordinary flight the table is never left, nothing overspeeds, and a feathered propeller stands still. */
static void other_warnings_stay_away(void **state)
{
    (void)state;
    uint64_t seed = 6;
    for (int i = 0; i < check_scaled(2000); i++) {
        const ls_powerplant *of = &powerplant[i % FLEET];
        ls_air air = air_at(check_random(&seed, 0, 4000), check_random(&seed, -20, 30));
        double V_m_s = check_random(&seed, 0, 75);
        for (int state_index = 0; state_index < LS_ENGINE_STATES; state_index++) {
            ls_engine_state is = (ls_engine_state)state_index;
            unsigned flags = flags_of(of, is, &air, V_m_s);
            assert_false(flags & (LS_PROPULSOR_TABLE_EDGE | LS_PROPULSOR_COARSE_STOP | LS_PROPULSOR_SPEED_OUTSIDE |
                                  LS_PROPULSOR_TORQUE_LIMITED));
            assert_false(is == LS_FEATHERED && (flags & LS_PROPULSOR_TURNS));
            assert_false(is != LS_STOPPED && is != LS_FEATHERED && (flags & LS_PROPULSOR_TURNS));
            assert_false((flags & LS_PROPULSOR_STOPS) && is != LS_WINDMILLING && is != LS_LEVER_AFT);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(settles_where_a_plain_scan_does),
        cmocka_unit_test(too_fine_a_coarse_stop_overspeeds),
        cmocka_unit_test(an_engine_that_nothing_holds_is_an_error),
        cmocka_unit_test(held_pitch_settles_or_says_why_not),
        cmocka_unit_test(zero_thrust_has_none),
        cmocka_unit_test(no_thrust_that_cannot_be_set_is_an_error),
        cmocka_unit_test(run_up_is_on_the_fine_stop),
        cmocka_unit_test(tip_mach_is_warned_of_where_due),
        cmocka_unit_test(the_feather_latch_is_warned_of_where_due),
        cmocka_unit_test(other_warnings_stay_away),
    };
    return cmocka_run_group_tests(tests, read_fleet, NULL);
}
