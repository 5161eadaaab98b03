/* Engines against published laws: power with height and temperature, friction, manifold pressure. */
#include "check.h"
#include "fleet.h"

#include "prop/engine.h"

#include <math.h>

#define FT   0.3048
#define INHG 3386.389
#define PI   3.14159265358979323846

static const char *const gagg_ferrar =
    "Gagg and Ferrar, P/P0 = 1.132 sigma - 0.132, as in Gudmundsson, General Aviation Aircraft Design, eq. 7-16";
static const char *const barnes_moss =
    "Barnes-Moss motoring pressure, 0.97 + 0.15 N + 0.05 N^2 bar, as in Heywood, Internal Combustion Engine "
    "Fundamentals, ch. 13 (coefficients second hand)";

static ls_aircraft whimbrel, sanderling;
static ls_powerplant atmospheric, boosted;

static int read_engines(void **state)
{
    (void)state;
    fleet_read("whimbrel", &whimbrel);
    fleet_read("sanderling", &sanderling);
    assert_int_equal(ls_powerplant_prepare(&whimbrel.powerplant[0], &atmospheric, NULL), LS_OK);
    assert_int_equal(ls_powerplant_prepare(&sanderling.powerplant[0], &boosted, NULL), LS_OK);
    return 0;
}

static ls_air air_at(double altitude_m, double offset_K)
{
    ls_air air;
    assert_int_equal(ls_air_at(altitude_m, offset_K, &air, NULL), LS_OK);
    return air;
}

static double share(const ls_powerplant *of, const ls_air *air)
{
    return ls_powerplant_power(of, air) / of->data->engine.power_W;
}

static void power_falls_with_height_as_gagg_and_ferrar(void **state)
{
    (void)state;
    for (double h_ft = 0; h_ft <= 20000; h_ft += 1000) {
        ls_air air = air_at(h_ft * FT, 0);
        check_close("power over that at sea level, to 20,000 ft at constant RPM", share(&atmospheric, &air),
                    1.132 * air.sigma - 0.132, 0.01, "1 % of sea-level power", gagg_ferrar);
    }
    static const double printed[][2] = {{5000, 0.8434}, {10000, 0.7040}, {15000, 0.5803}, {18000, 0.5131}};
    for (size_t i = 0; i < sizeof printed / sizeof printed[0]; i++) {
        ls_air air = air_at(printed[i][0] * FT, 0);
        check_close("the same, worked values", share(&atmospheric, &air), printed[i][1], 0.0015,
                    "the printed forms of the law agree to 0.0005", gagg_ferrar);
    }
}

/* At one pressure a warmer charge weighs less: indicated power goes with 1/T, friction stays. */
static void temperature_matters(void **state)
{
    (void)state;
    double friction = atmospheric.data->engine.friction_share;
    for (double h_ft = 0; h_ft <= 10000; h_ft += 5000) {
        ls_air standard = air_at(h_ft * FT, 0), hot = air_at(h_ft * FT, 25), cold = air_at(h_ft * FT, -25);
        check_close("indicated power on a hot day over that of a standard one",
                    (share(&atmospheric, &hot) + friction) / (share(&atmospheric, &standard) + friction),
                    standard.T_K / hot.T_K, 1e-12, "round-off", "ideal gas at constant manifold pressure");
        check_between("power lost to 25 degrees more, %",
                      100 * (1 - share(&atmospheric, &hot) / share(&atmospheric, &standard)), 5, 12,
                      "about 1 % for each 3 to 5 degrees (common practice)");
        assert_true(share(&atmospheric, &cold) > share(&atmospheric, &standard));
    }
}

static void turbocharger_holds_to_the_critical_altitude(void **state)
{
    (void)state;
    double critical_m = boosted.data->engine.critical_altitude_m;
    assert_true(critical_m > 3000);
    for (double h_m = 0; h_m < critical_m; h_m += 250) {
        ls_air air = air_at(h_m, 0);
        check_close("power of a turbocharged engine below its critical altitude, over rated",
                    share(&boosted, &air), 1.0, 1e-9, "round-off",
                    "rated manifold pressure is held (e.g. Beech 58P, TCDS A23CE: to 22,000 ft)");
    }
    ls_air critical = air_at(critical_m, 0);
    for (double h_m = critical_m; h_m < critical_m + 4000; h_m += 500) {
        ls_air air = air_at(h_m, 0);
        check_close("above it, over rated", share(&boosted, &air), 1.132 * air.sigma / critical.sigma - 0.132,
                    0.01, "1 % of rated power", gagg_ferrar);
    }
}

/* ---- friction ---- */

static double motoring_Nm(double rpm)
{
    ls_air air = air_at(0, 0);
    return -ls_engine_torque(&atmospheric, &air, LS_WINDMILLING, 1.0, rpm / 60.0);
}

static double barnes_moss_bar(double rpm)
{
    double N = rpm / 1000.0;
    return 0.97 + 0.15 * N + 0.05 * N * N;
}

/* A direct-drive engine of 180 hp at 2700 rpm has about 361 cubic inches, so a mean pressure of some 10 bar. */
static void friction_is_three_quarters_of_barnes_and_moss(void **state)
{
    (void)state;
    const double displacement_m3 = 361 * 1.6387064e-5;
    double mep_bar = 4 * PI * motoring_Nm(2700) / displacement_m3 / 1e5;
    print_message("motoring at 2700 rpm: %.1f N m, %.3f bar, Barnes-Moss %.3f bar\n", motoring_Nm(2700), mep_bar,
                  barnes_moss_bar(2700));
    check_between("motoring pressure over Barnes-Moss at 2700 rpm", mep_bar / barnes_moss_bar(2700), 0.65, 0.85,
                  barnes_moss);
    check_between("friction torque over rated torque", motoring_Nm(2700) / (134e3 / (2 * PI * 45)), 0.112, 0.152,
                  gagg_ferrar);
    for (double rpm = 500; rpm <= 2700; rpm += 100) {
        check_close("growth of the motoring torque with speed, over that at 2700 rpm",
                    motoring_Nm(rpm) / motoring_Nm(2700), barnes_moss_bar(rpm) / barnes_moss_bar(2700), 1e-3,
                    "coefficients kept to four digits", barnes_moss);
    }
}

/* ---- manifold pressure ---- */

static void manifold_pressure_and_power_go_both_ways(void **state)
{
    (void)state;
    uint64_t seed = 3;
    for (int i = 0; i < check_scaled(1000); i++) {
        const ls_powerplant *of = i % 2 == 0 ? &atmospheric : &boosted;
        ls_air air = air_at(check_random(&seed, 0, 6000), check_random(&seed, -20, 30));
        double n_rev_s = check_random(&seed, 0.5, 1.0) * of->data->engine.n_rev_s,
               power = check_random(&seed, 0, 1);
        double torque_Nm = ls_engine_torque(of, &air, LS_RUNNING, power, n_rev_s);
        double map_Pa = ls_engine_manifold_pressure(of, &air, torque_Nm, n_rev_s);
        check_close("power by manifold pressure", ls_engine_power_at(of, &air, map_Pa, n_rev_s), power, 1e-9,
                    "round-off", "identity");
    }
    ls_air air = air_at(0, 0);
    check_close("manifold pressure at the rating, inHg",
                ls_engine_manifold_pressure(&atmospheric, &air, 134e3 / (2 * PI * 45), 45) / INHG, 28.8, 0.01,
                "the file's", "the aeroplane file");
    assert_true(isnan(ls_engine_manifold_pressure(&atmospheric, &air, 600.0, 45))); /* more than full throttle */
}

static void an_ordinary_cruise_setting_gives_ordinary_power(void **state)
{
    (void)state;
    ls_air air = air_at(0, 0);
    double n_rev_s = 2300.0 / 60.0, power = ls_engine_power_at(&atmospheric, &air, 23.0 * INHG, n_rev_s);
    double torque_Nm = ls_engine_torque(&atmospheric, &air, LS_RUNNING, power, n_rev_s);
    check_between("power at 23 in and 2300 rpm, % of rated", 100 * torque_Nm * 2 * PI * n_rev_s / 134e3, 55, 70,
                  "about 23 in and 2300 rpm is an ordinary cruise setting, 60 to 65 % (common practice)");
    double closed = ls_engine_manifold_pressure(&atmospheric, &air, 0.0, 45) / INHG;
    check_between("manifold pressure without torque at rated speed, inHg", closed, 5, 10,
                  "P = P_r (N/N_r)(MAP - m0)/(MAP_r - m0), m0 about 5 to 7 in (from memory)");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(power_falls_with_height_as_gagg_and_ferrar),
        cmocka_unit_test(temperature_matters),
        cmocka_unit_test(turbocharger_holds_to_the_critical_altitude),
        cmocka_unit_test(friction_is_three_quarters_of_barnes_and_moss),
        cmocka_unit_test(manifold_pressure_and_power_go_both_ways),
        cmocka_unit_test(an_ordinary_cruise_setting_gives_ordinary_power),
    };
    return cmocka_run_group_tests(tests, read_engines, NULL);
}
