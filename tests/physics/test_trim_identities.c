/* What must hold of every trim, whatever the aeroplane: mirror symmetry, no asymmetry without cause, equilibrium.
 */
#include "check.h"
#include "fleet.h"

#include "liveside/vmc.h"

#include <math.h>

#define DEG (3.14159265358979323846 / 180.0)

static void mirrored(void **state)
{
    (void)state;
    uint64_t seed = 20261125;
    ls_aircraft whimbrel, right_way, mirror;
    int solved = 0, cases = check_scaled(1000);
    fleet_read("whimbrel", &whimbrel);
    for (int i = 0; i < cases; i++) {
        ls_condition condition, mirror_condition;
        ls_model model, mirror_model;
        ls_trim a, b;
        ls_error error = {0};
        fleet_vary(&whimbrel, &seed, &right_way);
        fleet_condition(&right_way, &seed, &condition);
        condition.rotation = (ls_rotation)check_random(&seed, 0, LS_ROTATIONS - 1e-9);
        fleet_mirror_aircraft(&right_way, &mirror);
        fleet_mirror_condition(&condition, &mirror_condition);
        assert_int_equal(ls_model_make(&right_way, &condition, &model, &error), LS_OK);
        assert_int_equal(ls_model_make(&mirror, &mirror_condition, &mirror_model, &error), LS_OK);
        double V_m_s = model.stall_V_m_s * check_random(&seed, 1.0, 2.5),
               bank_rad = check_random(&seed, -10, 10) * DEG;
        ls_status status = ls_trim_solve(&model, V_m_s, bank_rad, &a, NULL);
        assert_int_equal(ls_trim_solve(&mirror_model, V_m_s, -bank_rad, &b, NULL), status);
        if (status != LS_OK) {
            continue;
        }
        solved++;
        const char *reason = "round-off", *source = "identity: mirror symmetry";
        check_close("mirrored sideslip", b.beta_rad, -a.beta_rad, 1e-12, reason, source);
        check_close("mirrored rudder", b.rudder_rad, -a.rudder_rad, 1e-12, reason, source);
        check_close("mirrored aileron", b.aileron_rad, -a.aileron_rad, 1e-12, reason, source);
        check_close("mirrored incidence", b.alpha_rad, a.alpha_rad, 1e-12, reason, source);
        check_close("mirrored climb", b.climb_rad, a.climb_rad, 1e-12, reason, source);
        check_close("mirrored pedal force over 1 N", b.pedal_force_N, -a.pedal_force_N, 1e-9, reason, source);
        check_close("residual", a.residual, 0.0, 1e-10, "the trim's own tolerance", "identity: equilibrium");
    }
    assert_true(solved > 0.99 * cases);
}

static void mirrored_speed(void **state)
{
    (void)state;
    uint64_t seed = 7;
    ls_aircraft whimbrel, right_way, mirror;
    fleet_read("whimbrel", &whimbrel);
    for (int i = 0; i < check_scaled(200); i++) {
        ls_condition condition, mirror_condition;
        ls_model model, mirror_model;
        ls_vmc a, b;
        fleet_vary(&whimbrel, &seed, &right_way);
        fleet_condition(&right_way, &seed, &condition);
        fleet_mirror_aircraft(&right_way, &mirror);
        fleet_mirror_condition(&condition, &mirror_condition);
        assert_int_equal(ls_model_make(&right_way, &condition, &model, NULL), LS_OK);
        assert_int_equal(ls_model_make(&mirror, &mirror_condition, &mirror_model, NULL), LS_OK);
        double bank_rad = check_random(&seed, -5, 5) * DEG;
        assert_int_equal(ls_vmc_at(&model, bank_rad, &a, NULL), ls_vmc_at(&mirror_model, -bank_rad, &b, NULL));
        assert_int_equal(a.kind, b.kind);
        if (isfinite(a.V_m_s)) {
            check_close("mirrored minimum control speed, m/s", b.V_m_s, a.V_m_s, 1e-9, "root tolerance 1e-9 m/s",
                        "identity: mirror symmetry");
        }
    }
}

/* Every engine running, propellers mirrored, no fuel imbalance: wings level needs neither rudder nor aileron. */
static void symmetric_flight_needs_no_control(void **state)
{
    (void)state;
    ls_aircraft whimbrel;
    ls_condition condition;
    ls_model model;
    ls_trim trim;
    fleet_read("whimbrel", &whimbrel);
    ls_condition_takeoff(&whimbrel, &condition);
    condition.rotation = LS_ROTATION_TOPS_INBOARD;
    assert_int_equal(ls_model_make(&whimbrel, &condition, &model, NULL), LS_OK);
    for (double V_m_s = 35; V_m_s < 80; V_m_s += 9) {
        assert_int_equal(ls_trim_solve(&model, V_m_s, 0.0, &trim, NULL), LS_OK);
        check_close("rudder in symmetric flight", trim.rudder_rad, 0.0, 1e-12, "round-off", "identity");
        check_close("aileron in symmetric flight", trim.aileron_rad, 0.0, 1e-12, "round-off", "identity");
        check_close("sideslip in symmetric flight", trim.beta_rad, 0.0, 1e-12, "round-off", "identity");
    }
}

/* The listing is worked out apart from the solver: its sum is zero, but for the pitching moment. */
static void listing_sums_to_zero(void **state)
{
    (void)state;
    uint64_t seed = 99;
    ls_aircraft whimbrel, varied;
    fleet_read("whimbrel", &whimbrel);
    for (int i = 0; i < check_scaled(300); i++) {
        ls_condition condition;
        ls_model model;
        ls_trim trim;
        ls_balance balance;
        ls_powerplant_point point;
        fleet_vary(&whimbrel, &seed, &varied);
        fleet_condition(&varied, &seed, &condition);
        condition.effects_off = (unsigned)check_random(&seed, 0, LS_EFFECT_ALL + 0.999);
        assert_int_equal(ls_model_make(&varied, &condition, &model, NULL), LS_OK);
        double V_m_s = model.stall_V_m_s * check_random(&seed, 1.05, 2.0);
        if (ls_trim_solve(&model, V_m_s, check_random(&seed, -8, 8) * DEG, &trim, NULL) != LS_OK) {
            continue;
        }
        assert_int_equal(ls_powerplant_at(&model, V_m_s, &point, NULL), LS_OK);
        ls_trim_balance(&model, &point, &trim, &balance);
        double W = model.weight_N, Wb = W * model.b_m;
        const char *reason = "the trim's tolerance", *source = "identity: equilibrium";
        for (int axis = 0; axis < 3; axis++) {
            check_close("sum of forces over weight", balance.sum.force_N[axis] / W, 0.0, 1e-10, reason, source);
        }
        check_close("sum of rolling moments over W b", balance.sum.moment_Nm[0] / Wb, 0.0, 1e-10, reason, source);
        check_close("sum of yawing moments over W b", balance.sum.moment_Nm[2] / Wb, 0.0, 1e-10, reason, source);
    }
}

/* Climb angle from the path equals excess power over weight: (thrust and drag along u) . u = W sin(climb). */
static void climb_is_excess_power(void **state)
{
    (void)state;
    uint64_t seed = 5;
    ls_aircraft whimbrel;
    fleet_read("whimbrel", &whimbrel);
    for (int i = 0; i < check_scaled(100); i++) {
        ls_condition condition;
        ls_model model;
        ls_trim trim;
        ls_balance balance;
        ls_powerplant_point point;
        fleet_condition(&whimbrel, &seed, &condition);
        assert_int_equal(ls_model_make(&whimbrel, &condition, &model, NULL), LS_OK);
        double V_m_s = model.stall_V_m_s * check_random(&seed, 1.1, 1.8);
        assert_int_equal(ls_trim_solve(&model, V_m_s, check_random(&seed, -5, 5) * DEG, &trim, NULL), LS_OK);
        assert_int_equal(ls_powerplant_at(&model, V_m_s, &point, NULL), LS_OK);
        ls_trim_balance(&model, &point, &trim, &balance);
        double u[3] = {cos(trim.alpha_rad) * cos(trim.beta_rad), sin(trim.beta_rad),
                       sin(trim.alpha_rad) * cos(trim.beta_rad)};
        double excess_N = 0.0;
        for (int part = 1; part < balance.count; part++) { /* all but the weight, which stands first */
            for (int axis = 0; axis < 3; axis++) {
                excess_N += balance.part[part].force_N[axis] * u[axis];
            }
        }
        check_close("excess thrust over weight against sin(climb)", excess_N / model.weight_N, sin(trim.climb_rad),
                    1e-9, "the trim's tolerance", "identity: power balance");
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(mirrored),
        cmocka_unit_test(mirrored_speed),
        cmocka_unit_test(symmetric_flight_needs_no_control),
        cmocka_unit_test(listing_sums_to_zero),
        cmocka_unit_test(climb_is_excess_power),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
