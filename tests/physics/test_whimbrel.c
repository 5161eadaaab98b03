/* The Whimbrel behaves as handbooks teach, in bands; and the searches find what a plain look finds. */
#include "check.h"
#include "fleet.h"

#include "liveside/airspeed.h"
#include "liveside/vmca.h"

#include <math.h>

#define DEG (3.14159265358979323846 / 180.0)
#define KT  (1852.0 / 3600.0)
#define FT  0.3048
#define AFH "FAA Airplane Flying Handbook, FAA-H-8083-3C, ch. 13"

enum { LEFT = 1u, RIGHT = 2u };

static ls_aircraft whimbrel;

static int read_whimbrel(void **state)
{
    (void)state;
    fleet_read("whimbrel", &whimbrel);
    return 0;
}

static void start(unsigned failed, ls_condition *condition)
{
    ls_condition_takeoff(&whimbrel, condition);
    ls_condition_fail(&whimbrel, failed, condition);
}

/* Control-limited speed, CAS in knots, at a bank toward the right. */
static double control_kt(const ls_condition *condition, double bank_deg)
{
    ls_model model;
    ls_vmc vmc;
    ls_error error = {0};
    assert_int_equal(ls_model_make(&whimbrel, condition, &model, &error), LS_OK);
    assert_int_equal(ls_vmc_at(&model, bank_deg * DEG, &vmc, &error), LS_OK);
    assert_true(isfinite(vmc.control_cas_m_s));
    return vmc.control_cas_m_s / KT;
}

static void bank_helps(void **state)
{
    (void)state;
    ls_condition condition;
    start(LEFT, &condition);
    double level = control_kt(&condition, 0), at5 = control_kt(&condition, 5);
    check_between("wings level less 5 deg toward the live engine, kt", level - at5, 10, 20,
                  "band around what is taught: well above the published one, almost 20 kt (" AFH ", from memory)");
    check_between("the same a degree, kt/deg", (level - at5) / 5, 2, 4,
                  "band around what is taught: more than 3 kt a degree (" AFH ", from memory)");
    assert_true(control_kt(&condition, -5) > level);
}

/* The side force W sin(bank) does the work, so the slope goes with weight; wings level weight has no part in it.
 */
static void weight(void **state)
{
    (void)state;
    ls_condition heavy, light;
    start(LEFT, &heavy);
    light = heavy;
    light.mass_kg = whimbrel.mass.minimum_kg;
    double heavy_slope = (control_kt(&heavy, 0) - control_kt(&heavy, 2)) / 2;
    double light_slope = (control_kt(&light, 0) - control_kt(&light, 2)) / 2;
    check_close("ratio of slopes less ratio of weights", light_slope / heavy_slope, light.mass_kg / heavy.mass_kg,
                0.1, "the trend is meant: the slope also grows as the speed falls",
                "algebra: q K dr S b = N - (Cn_b/|CY_b|) b W sin(bank)");
    assert_true(control_kt(&heavy, 5) < control_kt(&light, 5));
    check_between("heavy less light, wings level, kt", control_kt(&heavy, 0) - control_kt(&light, 0), -1, 1,
                  "common practice: weight matters little with wings level");
}

static void centre_of_gravity(void **state)
{
    (void)state;
    ls_condition forward, aft;
    start(LEFT, &forward);
    forward.cg_aft_m = whimbrel.cg.forward_m;
    aft = forward;
    aft.cg_aft_m = whimbrel.cg.aft_m;
    assert_true(control_kt(&aft, 5) > control_kt(&forward, 5) + 0.05);
    check_close("wings level, aft less forward, kt", control_kt(&aft, 0), control_kt(&forward, 0), 1e-7,
                "root tolerance 1e-9 m/s", "identity: no side force, no arm");
    assert_true(control_kt(&aft, -5) < control_kt(&forward, -5) - 0.05);
}

static void propeller_state(void **state)
{
    (void)state;
    ls_condition windmilling, feathered;
    start(LEFT, &windmilling);
    feathered = windmilling;
    ls_condition_fail_as(&whimbrel, LEFT, LS_FEATHERED, &feathered);
    assert_int_equal(windmilling.state[0], LS_WINDMILLING);
    assert_true(control_kt(&windmilling, 5) > control_kt(&feathered, 5) + 0.5);
}

static void altitude(void **state)
{
    (void)state;
    ls_condition condition;
    double meeting_m, before = INFINITY;
    start(LEFT, &condition);
    for (double h_ft = 0; h_ft <= 6000; h_ft += 1000) {
        condition.altitude_m = h_ft * FT;
        double now = control_kt(&condition, 0);
        assert_true(now < before);
        before = now;
    }
    condition.altitude_m = 0;
    assert_int_equal(ls_vmca_meeting_altitude(&whimbrel, &condition, 0.0, 9000, &meeting_m, NULL), LS_OK);
    condition.altitude_m = meeting_m;
    ls_model model;
    ls_vmc vmc;
    assert_int_equal(ls_model_make(&whimbrel, &condition, &model, NULL), LS_OK);
    assert_int_equal(ls_vmc_at(&model, 0.0, &vmc, NULL), LS_OK);
    check_close("control limit less stall at the meeting altitude, kt",
                (vmc.control_cas_m_s - vmc.stall_cas_m_s) / KT, 0.0, 1e-3, "altitude found to 0.01 m", "identity");
}

static void handedness(void **state)
{
    (void)state;
    double speed[LS_ROTATIONS][2];
    for (int rotation = 0; rotation < LS_ROTATIONS; rotation++) {
        for (int side = 0; side < 2; side++) {
            ls_condition condition;
            start(side == 0 ? LEFT : RIGHT, &condition);
            condition.rotation = (ls_rotation)rotation;
            speed[rotation][side] = control_kt(&condition, side == 0 ? 5 : -5);
        }
    }
    assert_true(speed[LS_ROTATION_CLOCKWISE][0] > speed[LS_ROTATION_CLOCKWISE][1] + 0.1); /* left is critical */
    assert_true(speed[LS_ROTATION_ANTICLOCKWISE][1] > speed[LS_ROTATION_ANTICLOCKWISE][0] + 0.1);
    check_close("tops inboard: left less right, kt", speed[LS_ROTATION_TOPS_INBOARD][0],
                speed[LS_ROTATION_TOPS_INBOARD][1], 1e-6, "mirror images", AFH ": no critical engine");
    check_close("tops outboard: left less right, kt", speed[LS_ROTATION_TOPS_OUTBOARD][0],
                speed[LS_ROTATION_TOPS_OUTBOARD][1], 1e-6, "mirror images", AFH ": both critical");
    assert_true(speed[LS_ROTATION_TOPS_OUTBOARD][0] > speed[LS_ROTATION_TOPS_INBOARD][0] + 0.1);
}

static void stall_speed(void **state)
{
    (void)state;
    ls_condition condition;
    ls_model model;
    ls_airspeed speed;
    start(LEFT, &condition);
    assert_int_equal(ls_model_make(&whimbrel, &condition, &model, NULL), LS_OK);
    assert_int_equal(ls_airspeed_from_tas(&model.air, model.stall_V_m_s, &speed, NULL), LS_OK);
    check_between("stall speed at maximum mass, flaps up, KCAS", speed.CAS_m_s / KT, 61, 63,
                  "what its file says of itself, about 62 kt");
}

/* No weight or centre of gravity of the file's range is worse than the one that the search gives. */
static void worst_is_worst(void **state)
{
    (void)state;
    uint64_t seed = 3;
    static const double banks_deg[] = {-5, 0, 3, 5};
    for (size_t k = 0; k < sizeof banks_deg / sizeof banks_deg[0]; k++) {
        ls_condition condition, worst;
        ls_vmc vmc, other;
        start(LEFT, &condition);
        assert_int_equal(
            ls_vmc_worst(&whimbrel, &condition, LS_SEARCH_ALL, banks_deg[k] * DEG, &worst, &vmc, NULL), LS_OK);
        for (int i = 0; i < check_scaled(500); i++) {
            ls_model model;
            condition.mass_kg = check_random(&seed, whimbrel.mass.minimum_kg, whimbrel.mass.maximum_kg);
            condition.cg_aft_m = check_random(&seed, whimbrel.cg.forward_m, whimbrel.cg.aft_m);
            condition.cg_right_m = check_random(&seed, -whimbrel.cg.lateral_m, whimbrel.cg.lateral_m);
            assert_int_equal(ls_model_make(&whimbrel, &condition, &model, NULL), LS_OK);
            assert_int_equal(ls_vmc_at(&model, banks_deg[k] * DEG, &other, NULL), LS_OK);
            if (other.kind == LS_VMC_CONTROL) {
                assert_int_equal(vmc.kind, LS_VMC_CONTROL);
                assert_true(other.V_m_s <= vmc.V_m_s + 1e-6);
            }
        }
    }
}

/* The best bank against a fine grid; the zero-sideslip bank against its definition. */
static void best_banks(void **state)
{
    (void)state;
    ls_condition condition;
    ls_model model;
    ls_vmc vmc, zero;
    double best_rad, zero_rad, least_kt = INFINITY;
    start(LEFT, &condition);
    condition.bank_limit_rad = 5 * DEG;
    assert_int_equal(ls_model_make(&whimbrel, &condition, &model, NULL), LS_OK);
    assert_int_equal(ls_vmc_best_bank(&model, &best_rad, &vmc, NULL), LS_OK);
    for (double bank_deg = -5; bank_deg <= 5.0001; bank_deg += 0.05) {
        ls_vmc at;
        assert_int_equal(ls_vmc_at(&model, bank_deg * DEG, &at, NULL), LS_OK);
        least_kt = fmin(least_kt, at.cas_m_s / KT);
    }
    check_between("best bank's speed less the grid's least, kt", vmc.cas_m_s / KT - least_kt, -0.1, 1e-3,
                  "a grid of 0.05 deg");
    assert_int_equal(ls_vmc_zero_sideslip_bank(&model, &zero_rad, &zero, NULL), LS_OK);
    check_close("sideslip at that bank, deg", zero.trim.beta_rad / DEG, 0.0, 1e-6, "root tolerance 1e-9 rad",
                "identity");
    assert_true(zero_rad > 0.5 * DEG && zero_rad < 6 * DEG);
}

/* The scan in 0.1 kt steps is the oracle of the search, here on varied aeroplanes with every limit in play. */
static void search_agrees_with_scan(void **state)
{
    (void)state;
    uint64_t seed = 41;
    for (int i = 0; i < check_scaled(60); i++) {
        ls_aircraft varied;
        ls_condition condition;
        ls_model model;
        ls_vmc fast, slow;
        fleet_vary(&whimbrel, &seed, &varied);
        fleet_condition(&varied, &seed, &condition);
        condition.pedal_limit_N *= check_random(&seed, 0.3, 1.0);
        varied.aileron.usable = check_random(&seed, 0.15, 1.0);
        assert_int_equal(ls_model_make(&varied, &condition, &model, NULL), LS_OK);
        double bank_rad = check_random(&seed, -5, 5) * DEG;
        assert_int_equal(ls_vmc_at(&model, bank_rad, &fast, NULL), LS_OK);
        assert_int_equal(ls_vmc_scan(&model, bank_rad, &slow, NULL), LS_OK);
        assert_int_equal(fast.kind, slow.kind);
        assert_int_equal(fast.limit, slow.limit);
        if (isfinite(slow.V_m_s)) {
            check_close("search against scan, m/s", fast.V_m_s, slow.V_m_s, 1e-7, "root tolerance 1e-9 m/s",
                        "the plain 0.1 kt scan");
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bank_helps),        cmocka_unit_test(weight),
        cmocka_unit_test(centre_of_gravity), cmocka_unit_test(propeller_state),
        cmocka_unit_test(altitude),          cmocka_unit_test(handedness),
        cmocka_unit_test(stall_speed),       cmocka_unit_test(worst_is_worst),
        cmocka_unit_test(best_banks),        cmocka_unit_test(search_agrees_with_scan),
    };
    return cmocka_run_group_tests(tests, read_whimbrel, NULL);
}
