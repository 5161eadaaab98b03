/* The geometry of a blade between its stations, solidity and activity factor, and blades that are refused. */
#include <string.h>

#include "propeller_case.h"

static void stations_come_back(void **state)
{
    (void)state;
    ls_blade blade = light_twin_blade();
    for (int i = 0; i < blade.count; i++) {
        ls_blade_station at = ls_blade_at(&blade, blade.station[i].r_R);
        check_close("chord at a station", at.c_R, blade.station[i].c_R, 1e-15, "round-off", "definition");
        check_close("angle at a station, rad", at.angle_rad, blade.station[i].angle_rad, 1e-15, "round-off",
                    "definition");
        check_close("thickness at a station", at.thickness, blade.station[i].thickness, 1e-15, "round-off",
                    "definition");
    }
}

static void interpolation_keeps_the_shape(void **state)
{
    (void)state;
    ls_blade blade = light_twin_blade();
    double angle = 2.0, chord_high = 0.0;
    for (double r = 0.10; r <= 1.05; r += 0.001) {
        ls_blade_station at = ls_blade_at(&blade, r);
        assert_true(at.angle_rad <= angle);
        angle = at.angle_rad;
        chord_high = fmax(chord_high, at.c_R);
    }
    check_close("widest chord, that of its station", chord_high, 0.187, 1e-6, "step of the scan", "identity");
    check_close("chord held inside the first station", ls_blade_at(&blade, 0.1).c_R, 0.112, 0.0, "exact",
                "definition");
}

static void straight_blade_is_exact(void **state)
{
    (void)state;
    ls_blade blade = {.blades = 3, .diameter_m = 2.0, .root_r_R = 0.2, .count = 3};
    double r[] = {0.2, 0.5, 1.0};
    for (int i = 0; i < 3; i++) {
        blade.station[i] = (ls_blade_station){r[i], 0.2 - 0.1 * r[i], 0.6 - 0.4 * r[i], 0.1};
    }
    check_close("chord between stations", ls_blade_at(&blade, 0.77).c_R, 0.2 - 0.077, 1e-15, "round-off",
                "identity");
    /* B/pi times the integral of 0.2 - 0.1 x from 0.2 to 1. */
    check_close("solidity", ls_blade_solidity(&blade), 3.0 / PI * (0.16 - 0.05 * 0.96), 1e-6, "midpoint rule",
                "closed form");
    double integral = 0.2 * (1.0 - pow(0.2, 4)) / 4.0 - 0.1 * (1.0 - pow(0.2, 5)) / 5.0;
    check_close("activity factor", ls_blade_activity_factor(&blade, 0.2), 100000.0 / 16.0 * 0.5 * integral, 1e-3,
                "midpoint rule", "closed form");
}

static void naca640_blade_has_its_activity_factor(void **state)
{
    (void)state;
    ls_blade blade = naca640_blade();
    check_close("activity factor from 0.3 R", ls_blade_activity_factor(&blade, 0.3), 81.6, 0.3,
                "another interpolation of the stations",
                "hand integration of the stations of AIAA 2014-2151 Fig. 20");
}

static void impossible_blades_are_refused(void **state)
{
    (void)state;
    ls_blade good = light_twin_blade(), bad[6];
    ls_error error = {0};
    assert_int_equal(ls_blade_check(&good, &error), LS_OK);
    for (int i = 0; i < 6; i++) {
        bad[i] = good;
    }
    bad[0].blades = 1;
    bad[1].station[4].r_R = bad[1].station[3].r_R;
    bad[2].station[2].c_R = 1.52; /* metres, or per cent, by mistake */
    bad[3].station[9].r_R = 0.99;
    bad[4].root_r_R = 0.0;
    bad[5].station[0].angle_rad = 39.0; /* degrees by mistake */
    const char *text[] = {"blade: 1 blades",
                          "blade station 5: radius over tip radius is 0.4",
                          "blade station 3: chord over tip radius is 1.52",
                          "blade: the last station is at r/R 0.99",
                          "blade: root radius",
                          "blade station 1: blade angle in rad is 39"};
    for (int i = 0; i < 6; i++) {
        error = (ls_error){0};
        assert_int_equal(ls_blade_check(&bad[i], &error), LS_FILE_REJECTED);
        assert_memory_equal(error.text, text[i], strlen(text[i]));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(stations_come_back),
        cmocka_unit_test(interpolation_keeps_the_shape),
        cmocka_unit_test(straight_blade_is_exact),
        cmocka_unit_test(naca640_blade_has_its_activity_factor),
        cmocka_unit_test(impossible_blades_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
