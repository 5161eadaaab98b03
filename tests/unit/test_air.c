/* The standard atmosphere against the printed standard, and days that differ from it. */
#include "check.h"

#include "liveside/air.h"

#include <math.h>

static const char *const iso = "ISO 2533:1975, table 5";

typedef struct {
    double h_m, T_K, p_hPa, rho_kg_m3, a_m_s, mu_Pa_s;
} row;

/* The standard prints six digits of pressure and density, three decimals of the speed of sound, five digits of
 * viscosity. Its last digit is not always the nearest: its own formula in 30 digits gives 995.3596 and 64.09994
 * hPa at 150 and 19 000 m. Two units of the last digit are allowed. */
static const row table[] = {
    {-2000, 301.15, 1277.74, 1.47808, 347.886, 1.8514e-5},
    {-1000, 294.65, 1139.29, 1.34700, 344.111, 1.8206e-5},
    {0, 288.15, 1013.25, 1.22500, 340.294, 1.7894e-5},
    {150, 287.175, 995.359, 1.20746, 339.718, 1.7847e-5},
    {4500, 258.9, 577.283, 0.776774, 322.56, 1.6447e-5},
    {5000, 255.65, 540.199, 0.736116, 320.529, 1.6281e-5},
    {6000, 249.15, 471.810, 0.659697, 316.428, 1.5947e-5},
    {9000, 229.65, 307.424, 0.466348, 303.793, 1.4922e-5},
    {10000, 223.15, 264.362, 0.412706, 299.463, 1.4571e-5},
    {19000, 216.65, 64.0998, 0.103071, 295.069, 1.4216e-5},
    {20000, 216.65, 54.7487, 0.0880345, 295.069, 1.4216e-5},
};

/* Two units of the last of n printed digits. */
static double last_digit(double value, int n)
{
    return 2.0 * pow(10.0, floor(log10(value)) - (n - 1));
}

static void matches_the_standard(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        const row *r = &table[i];
        ls_air air;
        assert_int_equal(ls_air_at(r->h_m, 0.0, &air, NULL), LS_OK);
        check_close("temperature, K", air.T_K, r->T_K, 1e-9, "exact in the standard", iso);
        check_close("pressure, hPa", air.p_Pa / 100.0, r->p_hPa, last_digit(r->p_hPa, 6), "printed digits", iso);
        check_close("density, kg/m3", air.rho_kg_m3, r->rho_kg_m3, last_digit(r->rho_kg_m3, 6), "printed digits",
                    iso);
        check_close("speed of sound, m/s", air.a_m_s, r->a_m_s, 0.001, "printed digits", iso);
        check_close("viscosity, Pa s", air.mu_Pa_s, r->mu_Pa_s, last_digit(r->mu_Pa_s, 5), "printed digits", iso);
        check_close("delta", air.delta * 1013.25, r->p_hPa, last_digit(r->p_hPa, 6), "printed digits", iso);
        check_close("sigma", air.sigma * 1.225, r->rho_kg_m3, last_digit(r->rho_kg_m3, 6), "printed digits", iso);
    }
}

static void tropopause_is_continuous(void **state)
{
    (void)state;
    ls_air below, above, at;
    ls_air_at(11000.0 - 1e-6, 0.0, &below, NULL);
    ls_air_at(11000.0 + 1e-6, 0.0, &above, NULL);
    ls_air_at(11000.0, 0.0, &at, NULL);
    check_close("pressure at 11 km, Pa", at.p_Pa, 22632.0, 0.5, "printed digits", "ISO 2533:1975 (from memory)");
    check_close("step over 2 um, Pa", below.p_Pa - above.p_Pa, 2e-6 * at.rho_kg_m3 * LS_G0_M_S2, 1e-9, "round-off",
                "identity: dp = -rho g dh");
}

static void pressure_obeys_hydrostatics(void **state)
{
    (void)state;
    for (double h_m = -1990.0; h_m < 19990.0; h_m += 333.0) {
        ls_air low, high, here;
        ls_air_at(h_m - 1.0, 0.0, &low, NULL);
        ls_air_at(h_m + 1.0, 0.0, &high, NULL);
        ls_air_at(h_m, 0.0, &here, NULL);
        check_close("dp/dh, Pa/m", (high.p_Pa - low.p_Pa) / 2.0, -here.rho_kg_m3 * LS_G0_M_S2, 1e-6,
                    "truncation of the difference", "identity: dp = -rho g dh");
    }
}

static void offset_changes_temperature_and_density_alone(void **state)
{
    (void)state;
    ls_air standard, warm, same;
    ls_air_at(1500.0, 0.0, &standard, NULL);
    assert_int_equal(ls_air_at(1500.0, 20.0, &warm, NULL), LS_OK);
    check_close("pressure, Pa", warm.p_Pa, standard.p_Pa, 0.0, "same", "identity");
    check_close("temperature, K", warm.T_K, standard.T_K + 20.0, 1e-12, "round-off", "identity");
    check_close("density ratio", warm.rho_kg_m3 / standard.rho_kg_m3, standard.T_K / warm.T_K, 1e-15, "round-off",
                "identity: gas law");
    assert_int_equal(ls_air_at_temperature(1500.0, warm.T_K, &same, NULL), LS_OK);
    check_close("density, kg/m3", same.rho_kg_m3, warm.rho_kg_m3, 0.0, "same", "identity");
    check_close("theta delta sigma", warm.sigma * warm.theta, warm.delta, 1e-15, "round-off", "identity: gas law");
}

static void viscosity_is_sutherlands(void **state)
{
    (void)state;
    check_close("viscosity at 273.15 K, Pa s", ls_air_viscosity(273.15), 1.716e-5, 0.004e-5,
                "0.2 %, two fits of the same measurements",
                "F. M. White, Viscous Fluid Flow, table 1-2 (from memory)");
    check_close("viscosity at 288.15 K, Pa s", ls_air_viscosity(288.15), 1.7894e-5, 0.5e-9, "printed digits", iso);
}

static void density_altitude_goes_back(void **state)
{
    (void)state;
    for (double h_m = -2000.0; h_m <= 20000.0; h_m += 500.0) {
        ls_air air;
        double found_m;
        ls_air_at(h_m, 0.0, &air, NULL);
        if (h_m < 20000.0) {
            assert_int_equal(ls_air_density_altitude(&air, &found_m, NULL), LS_OK);
            check_close("density altitude, m", found_m, h_m, 1e-7, "round-off", "identity");
        }
    }
}

/* The weather services' formula: pressure in inHg, temperature in degrees Rankine, answer in feet. */
static double weather_service_density_altitude_ft(double p_inHg, double T_R)
{
    return 145442.16 * (1.0 - pow(17.326 * p_inHg / T_R, 0.235));
}

static void density_altitude_is_that_of_the_weather_service(void **state)
{
    (void)state;
    static const double days[][2] = {{0.0, 20.0}, {5000.0, 20.0}, {5000.0, -15.0}, {8000.0, 25.0}};
    for (size_t i = 0; i < sizeof days / sizeof days[0]; i++) {
        ls_air air;
        double found_m;
        ls_air_at(days[i][0] * 0.3048, days[i][1], &air, NULL);
        assert_int_equal(ls_air_density_altitude(&air, &found_m, NULL), LS_OK);
        check_close("density altitude, ft", found_m / 0.3048,
                    weather_service_density_altitude_ft(air.p_Pa / 3386.389, air.T_K * 1.8), 20.0,
                    "its exponent has three digits", "US National Weather Service formula (from memory)");
    }
}

static void refuses_what_is_outside(void **state)
{
    (void)state;
    static const double bad[][2] = {{-2000.1, 0}, {20000.1, 0}, {NAN, 0},   {INFINITY, 0},
                                    {0.0, 62.0},  {0.0, -139},  {0.0, NAN}, {0.0, INFINITY}};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        ls_error error = {0};
        ls_air air = {.T_K = 7.0};
        assert_int_equal(ls_air_at(bad[i][0], bad[i][1], &air, &error), LS_NO_STATE);
        assert_true(air.T_K == 7.0);
        assert_true(error.text[0] != '\0');
    }
    ls_error error = {0};
    ls_air air;
    ls_air_at(-3000.0, 0.0, &air, &error);
    assert_string_equal(error.text,
                        "a pressure altitude of -3000.0 m is outside the standard atmosphere used here "
                        "(-2000 to 20000 m, -6562 to 65617 ft)");
}

static void refuses_a_density_altitude_outside(void **state)
{
    (void)state;
    ls_air air;
    double found_m = 7.0;
    ls_error error = {0};
    ls_air_at(20000.0, 30.0, &air, NULL);
    assert_int_equal(ls_air_density_altitude(&air, &found_m, &error), LS_NO_STATE);
    ls_air_at(-2000.0, -80.0, &air, NULL);
    assert_int_equal(ls_air_density_altitude(&air, &found_m, NULL), LS_NO_STATE);
    assert_true(found_m == 7.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(matches_the_standard),
        cmocka_unit_test(tropopause_is_continuous),
        cmocka_unit_test(pressure_obeys_hydrostatics),
        cmocka_unit_test(offset_changes_temperature_and_density_alone),
        cmocka_unit_test(viscosity_is_sutherlands),
        cmocka_unit_test(density_altitude_goes_back),
        cmocka_unit_test(density_altitude_is_that_of_the_weather_service),
        cmocka_unit_test(refuses_what_is_outside),
        cmocka_unit_test(refuses_a_density_altitude_outside),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
