/* Conversions between airspeeds against published examples, there and back, and at their limits. */
#include "check.h"

#include "liveside/airspeed.h"

#include <math.h>

static const double kt = 1852.0 / 3600.0;
static const double ft = 0.3048;

static ls_air air_at(double h_m, double dT_K)
{
    ls_air air;
    assert_int_equal(ls_air_at(h_m, dT_K, &air, NULL), LS_OK);
    return air;
}

static ls_airspeed from_cas(const ls_air *air, double CAS_m_s)
{
    ls_airspeed speed;
    assert_int_equal(ls_airspeed_from_cas(air, CAS_m_s, &speed, NULL), LS_OK);
    return speed;
}

static void agrees_with_published_conversions(void **state)
{
    (void)state;
    const char *open_library = "test values of the open-source library ISAtmosphere.jl";
    ls_air air = air_at(9000.0, 0.0);
    ls_airspeed speed = from_cas(&air, 128.611);
    check_close("TAS of 128.611 m/s CAS at 9000 m, m/s", speed.TAS_m_s, 201.01, 0.1, "its own tolerance",
                open_library);
    check_close("Mach of the same", speed.mach, 0.661667, 0.001, "its own tolerance", open_library);

    air = air_at(26788.0 * ft, 0.0);
    speed = from_cas(&air, 287.3 * kt);
    open_library = "test values of the open-source library atmospeed";
    check_close("EAS of 287.3 KCAS at 26788 ft, kt", speed.EAS_m_s / kt, 276.2, 0.1, "printed digits",
                open_library);
    check_close("TAS of 287.3 KCAS at 26788 ft, kt", speed.TAS_m_s / kt, 426.0, 0.1, "printed digits",
                open_library);

    air = air_at(1000.0, 0.0);
    speed = from_cas(&air, 25.7222);
    check_close("EAS of 25.7222 m/s CAS at 1000 m, m/s", speed.EAS_m_s, 25.7199, 0.0005,
                "its air is rounded to 4 digits", "MathWorks documentation, correctairspeed");

    air = air_at(15000.0 * ft, 0.0);
    speed = from_cas(&air, 100.0 * kt);
    check_close("TAS of 100 KCAS at 15000 ft, kt", speed.TAS_m_s / kt, 126.0, 0.5, "printed digits",
                "Wikipedia, Airspeed");

    assert_int_equal(ls_air_at_temperature(40000.0 * ft, 273.15 - 56.5, &air, NULL), LS_OK);
    speed = from_cas(&air, 250.0 * kt);
    check_close("TAS of 250 KCAS at FL400 and -56.5 degC, kt", speed.TAS_m_s / kt, 470.0, 2.5,
                "reading of a circular computer", "navigation course notes, worked example");
}

/* Pressure ratios of isentropic flow, gamma 1.4. */
static void impact_pressure_is_isentropic(void **state)
{
    (void)state;
    static const double table[][2] = {{0.3, 0.9395}, {0.5, 0.8430}, {0.6, 0.7840}, {0.8, 0.6560}, {0.9, 0.5913}};
    ls_air air = air_at(5000.0, 10.0);
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        ls_airspeed speed;
        assert_int_equal(ls_airspeed_from_mach(&air, table[i][0], &speed, NULL), LS_OK);
        check_close("static over total pressure", air.p_Pa / (air.p_Pa + speed.qc_Pa), table[i][1], 0.5e-4,
                    "printed digits", "NACA Report 1135, table I (from memory)");
    }
}

/* Sea-level standard: all three airspeeds are one, at any speed. */
static void airspeeds_agree_at_sea_level(void **state)
{
    (void)state;
    ls_air air = air_at(0.0, 0.0);
    for (double V_m_s = 0.0; V_m_s < 340.0; V_m_s += 17.0) {
        ls_airspeed speed = from_cas(&air, V_m_s);
        check_close("TAS, m/s", speed.TAS_m_s, V_m_s, 1e-12 * V_m_s, "round-off", "identity");
        check_close("EAS, m/s", speed.EAS_m_s, V_m_s, 1e-12 * V_m_s, "round-off", "identity");
        check_close("q, Pa", speed.q_Pa, 0.5 * 1.225 * V_m_s * V_m_s, 1e-6 * V_m_s * V_m_s,
                    "rho0 printed to 5 digits", "identity");
    }
}

/* qc = q (1 + M^2/4 + M^4/40 + M^6/1600 + ...), so qc exceeds q by the sum. */
static void impact_pressure_has_its_series(void **state)
{
    (void)state;
    ls_air air = air_at(3000.0, -15.0);
    for (double mach = 0.001; mach < 0.3; mach *= 1.7) {
        ls_airspeed speed;
        double m2 = mach * mach;
        assert_int_equal(ls_airspeed_from_mach(&air, mach, &speed, NULL), LS_OK);
        check_close("qc/q", speed.qc_Pa / speed.q_Pa, 1.0 + m2 / 4.0 + m2 * m2 / 40.0 + m2 * m2 * m2 / 1600.0,
                    2e-15 + m2 * m2 * m2 * m2 / 80000.0, "round-off and next term", "binomial series");
    }
}

static void goes_back_from_each(void **state)
{
    (void)state;
    uint64_t seed = 20260101;
    int count = check_scaled(100000);
    double worst = 0.0;
    for (int i = 0; i < count; i++) {
        ls_air air = air_at(check_random(&seed, -1900.0, 20000.0), check_random(&seed, -40.0, 40.0));
        double TAS_m_s = check_random(&seed, 0.0, 0.9) * air.a_m_s;
        ls_airspeed a, b, c, d;
        assert_int_equal(ls_airspeed_from_tas(&air, TAS_m_s, &a, NULL), LS_OK);
        assert_int_equal(ls_airspeed_from_cas(&air, a.CAS_m_s, &b, NULL), LS_OK);
        assert_int_equal(ls_airspeed_from_eas(&air, a.EAS_m_s, &c, NULL), LS_OK);
        assert_int_equal(ls_airspeed_from_mach(&air, a.mach, &d, NULL), LS_OK);
        worst = fmax(worst, fabs(b.TAS_m_s - TAS_m_s) / TAS_m_s);
        worst = fmax(worst, fabs(c.TAS_m_s - TAS_m_s) / TAS_m_s);
        worst = fmax(worst, fabs(d.TAS_m_s - TAS_m_s) / TAS_m_s);
    }
    check_close("worst relative change of TAS there and back", worst, 0.0, 1e-13, "round-off", "identity");
}

/* At walking pace q is a billionth of p; a plain power would lose nine digits. */
static void is_exact_at_walking_pace(void **state)
{
    (void)state;
    ls_air air = air_at(2000.0, 0.0);
    ls_airspeed speed = from_cas(&air, 0.01);
    check_close("EAS, m/s", speed.EAS_m_s, 0.01, 1e-12, "M^2/8, 1e-10 of it, is compressibility",
                "identity: EAS = CAS");
    speed = from_cas(&air, 0.0);
    assert_true(speed.TAS_m_s == 0.0 && speed.q_Pa == 0.0 && speed.mach == 0.0);
}

static void refuses_what_is_no_subsonic_speed(void **state)
{
    (void)state;
    ls_air air = air_at(0.0, 0.0);
    ls_airspeed speed = {.mach = 7.0};
    ls_error error = {0};
    assert_int_equal(ls_airspeed_from_cas(&air, -1.0, &speed, &error), LS_NO_STATE);
    assert_string_equal(error.text, "a calibrated airspeed of -1 m/s is not a speed; it must be 0 or more");
    assert_int_equal(ls_airspeed_from_cas(&air, NAN, &speed, NULL), LS_NO_STATE);
    assert_int_equal(ls_airspeed_from_cas(&air, 340.3, &speed, NULL), LS_NO_STATE);
    assert_int_equal(ls_airspeed_from_eas(&air, -0.1, &speed, NULL), LS_NO_STATE);
    assert_int_equal(ls_airspeed_from_tas(&air, INFINITY, &speed, NULL), LS_NO_STATE);
    assert_int_equal(ls_airspeed_from_mach(&air, 1.0, &speed, NULL), LS_NO_STATE);
    assert_int_equal(ls_airspeed_from_mach(&air, NAN, &speed, NULL), LS_NO_STATE);
    ls_air high = air_at(12000.0, 0.0);
    assert_int_equal(ls_airspeed_from_cas(&high, 250.0, &speed, NULL), LS_NO_STATE);
    assert_true(speed.mach == 7.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(agrees_with_published_conversions),
        cmocka_unit_test(impact_pressure_is_isentropic),
        cmocka_unit_test(airspeeds_agree_at_sea_level),
        cmocka_unit_test(impact_pressure_has_its_series),
        cmocka_unit_test(goes_back_from_each),
        cmocka_unit_test(is_exact_at_walking_pace),
        cmocka_unit_test(refuses_what_is_no_subsonic_speed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
