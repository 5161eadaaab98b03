/* The study of a failure: the dynamic minimum control speed beside the static one, the propeller's own transient,
 * what a pilot's help is worth. */
#include "check.h"
#include "fleet.h"

#include "liveside/failure.h"

#include <math.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)
#define KT  (1852.0 / 3600.0)

/* The critical engine at the loading of the request, five degrees toward the live one. */
static void choose(const ls_aircraft *aircraft, ls_motion_request *request, ls_vmc *fixed)
{
    ls_vmca_request ask = {.search = LS_SEARCH_ALL, .state = -1};
    ls_condition condition;
    unsigned failed = 0;
    double bank_rad = 0.0;
    ls_condition_takeoff(aircraft, &ask.condition);
    ask.sets = ls_vmca_sets(aircraft, ask.set);
    assert_int_equal(ls_failure_choose(aircraft, &ask, &failed, &condition, &bank_rad, fixed, NULL), LS_OK);
    ls_motion_usual(aircraft, &condition, failed, 1.3 * fixed->control_V_m_s, request);
    request->bank_rad = bank_rad;
}

/* Never below the static speed, at it with quick hands, and growing with the delay. */
static void beside_the_static_speed(void **state)
{
    (void)state;
    static const char *const names[] = {"whimbrel", "sanderling", "redshank"};
    for (int i = 0; i < 3; i++) {
        ls_aircraft aircraft;
        ls_motion_request request, quick;
        ls_vmc fixed;
        ls_dynamic_vmc answer;
        fleet_read(names[i], &aircraft);
        choose(&aircraft, &request, &fixed);
        quick = request;
        quick.is_step = quick.instant_controls = 1;
        ls_dynamic_vmc_find(&aircraft, &quick, fixed.control_V_m_s, 0.0, &answer);
        assert_int_equal(answer.status, LS_OK);
        check_between("dynamic less static VMC, no delay, instant controls, step loss, kt",
                      (answer.V_m_s - fixed.control_V_m_s) / KT, -0.1, 2.0,
                      "definition: straight flight regained is the static trim");
        double before = 0.0;
        for (int k = 0; k < LS_FAILURE_DELAYS; k++) {
            ls_dynamic_vmc_find(&aircraft, &request, fixed.control_V_m_s, ls_failure_delays[k], &answer);
            assert_int_equal(answer.status, LS_OK);
            assert_true(answer.is_lowest);
            check_between("dynamic less static VMC, any delay, kt", (answer.V_m_s - fixed.control_V_m_s) / KT,
                          -0.1, 60.0, "definition: straight flight regained is the static trim");
            assert_true(answer.V_m_s > before - 0.06 * KT); /* two bisections to 0.05 kt */
            assert_true(answer.reported_cas_m_s >= answer.cas_m_s - 1e-9);
            before = answer.V_m_s;
        }
        assert_true(before > fixed.control_V_m_s + 2.0 * KT);
    }
}

/* The governor drives the failed propeller to its fine stop, the speed decays and drag grows; feathering cuts it
 * and the propeller stands. What is common practice. */
static void propeller_transient(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    ls_motion_request request;
    ls_motion motion;
    ls_vmc fixed;
    fleet_read("whimbrel", &aircraft);
    choose(&aircraft, &request, &fixed);
    request.duration_s = 30.0;
    request.feather_s = 10.0;
    assert_int_equal(ls_motion_run(&aircraft, &request, &motion, NULL), LS_OK);
    const ls_propeller_data *propeller = &aircraft.powerplant[0].propeller;
    const ls_motion_sample *start = &motion.sample[0], *before = &motion.sample[99], *end = &motion.last;
    assert_true(start->failed_thrust_N > 0.0);
    check_close("blade angle 9.9 s after the failure, rad", before->failed_pitch_rad, propeller->fine_pitch_rad,
                1e-4, "on the stop", "common practice");
    assert_true(before->failed_rev_s < 0.8 * start->failed_rev_s);
    assert_true(before->failed_thrust_N < 0.0);
    check_close("feathered blade angle, rad", end->failed_pitch_rad, propeller->feather_pitch_rad, 1e-3,
                "on the stop", "common practice");
    check_close("feathered propeller speed, rev/s", end->failed_rev_s, 0.0, 0.2, "it stands", "common practice");
    check_between("drag feathered over the most windmilling", end->failed_thrust_N / motion.drag_most_N, 0.0, 0.35,
                  "NACA Report 464: feathering cuts drag greatly");
    /* before feathering it windmills where the static solution has it */
    ls_condition condition = request.condition;
    ls_model model;
    ls_powerplant_point point;
    ls_condition_fail_as(&aircraft, request.failed, LS_WINDMILLING, &condition);
    assert_int_equal(ls_model_make(&aircraft, &condition, &model, NULL), LS_OK);
    assert_int_equal(ls_powerplant_at(&model, before->V_m_s, &point, NULL), LS_OK);
    int failed = request.failed == 1u ? 0 : 1;
    check_close("windmilling speed reached over the settled one",
                before->failed_rev_s / point.unit[failed].n_rev_s, 1.0, 0.02, "not quite settled",
                "identity: the governor's own solution");
    ls_motion_free(&motion);
}

/* Too slow a propeller no longer feathers. */
static void latched(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    ls_motion_request request;
    ls_motion motion;
    ls_vmc fixed;
    fleet_read("whimbrel", &aircraft);
    for (int i = 0; i < aircraft.powerplants; i++) {
        aircraft.powerplant[i].propeller.feather_latch_rev_s = 30.0; /* 1,800 rpm */
    }
    choose(&aircraft, &request, &fixed);
    request.V_m_s = 1.1 * fixed.control_V_m_s;
    request.feather_s = 8.0;
    assert_int_equal(ls_motion_run(&aircraft, &request, &motion, NULL), LS_OK);
    assert_true(motion.feather_latched);
    assert_true(motion.last.failed_rev_s > 10.0);
    ls_motion_free(&motion);
    request.feather_s = 0.5;
    assert_int_equal(ls_motion_run(&aircraft, &request, &motion, NULL), LS_OK);
    assert_false(motion.feather_latched);
    assert_true(motion.last.failed_rev_s < 1.0);
    ls_motion_free(&motion);
}

/* Below the minimum control speed, throttling the live engine and lowering the nose stops the turn. */
static void recovery(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    ls_motion_request request;
    ls_motion motion;
    ls_recovery got, none;
    ls_vmc fixed;
    fleet_read("whimbrel", &aircraft);
    choose(&aircraft, &request, &fixed);
    request.V_m_s = fixed.control_V_m_s - 6.0 * KT;
    request.delay_s = 0.5;
    request.duration_s = 25.0;
    assert_int_equal(ls_motion_run(&aircraft, &request, &motion, NULL), LS_OK);
    ls_recovery_of(&motion, 1.0, &none);
    double turned_rad = fabs(motion.heading_most_rad);
    ls_motion_free(&motion);
    request.recover_s = 2.0;
    assert_int_equal(ls_motion_run(&aircraft, &request, &motion, NULL), LS_OK);
    ls_recovery_of(&motion, request.recover_s, &got);
    assert_true(got.is_regained);
    check_between("seconds to regain control after throttling", got.seconds, 1.0, 10.0,
                  "a few seconds (common practice)");
    assert_true(fabs(motion.heading_most_rad) < turned_rad);
    assert_true(got.lowest_m <= 0.0);
    ls_motion_free(&motion);
}

/* Slowing by a knot a second, the rudder runs out near the static speed; where the wing stalls first, it says so.
 */
static void demonstration(void **state)
{
    (void)state;
    static const char *const names[] = {"whimbrel", "sanderling", "barnacle"};
    for (int i = 0; i < 3; i++) {
        ls_aircraft aircraft;
        ls_motion_request request;
        ls_slowing shown;
        ls_vmc fixed, idling;
        ls_model model;
        fleet_read(names[i], &aircraft);
        choose(&aircraft, &request, &fixed);
        request.condition.mass_kg =
            i == 2 ? aircraft.mass.maximum_kg : request.condition.mass_kg; /* it stalls first */
        assert_int_equal(ls_slowing_run(&aircraft, &request, fixed.control_V_m_s, &shown, NULL), LS_OK);
        ls_condition condition = request.condition;
        ls_condition_fail_as(&aircraft, request.failed, LS_IDLE, &condition);
        assert_int_equal(ls_model_make(&aircraft, &condition, &model, NULL), LS_OK);
        assert_int_equal(ls_vmc_at(&model, request.bank_rad, &idling, NULL), LS_OK);
        assert_int_equal(shown.control_first, idling.kind == LS_VMC_CONTROL);
        if (shown.control_first) {
            check_close("speed at which the rudder runs out, slowing at 1 kt/s, less static, kt",
                        (shown.rudder_V_m_s - idling.V_m_s) / KT, 0.0, 1.5, "the lag of a pilot at 1 kt/s",
                        "identity: slow enough to be steady");
        } else {
            assert_int_equal(shown.motion.end, LS_MOTION_WING_STALL);
        }
        ls_motion_free(&shown.motion);
    }
}

/* The sooner the propeller is feathered, the more height is kept. */
static void drill(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    ls_motion_request request;
    ls_drill drill;
    ls_vmc fixed;
    fleet_read("whimbrel", &aircraft);
    choose(&aircraft, &request, &fixed);
    assert_int_equal(ls_drill_run(&aircraft, &request, &drill, NULL), LS_OK);
    for (int i = 1; i < LS_DRILL_ROWS; i++) {
        assert_true(drill.row[i].climbed_m < drill.row[i - 1].climbed_m);
    }
    assert_true(isnan(drill.row[LS_DRILL_ROWS - 1].stopped_s));
    assert_true(drill.row[0].stopped_s > drill.row[0].seconds);
}

/* A handbook propeller passes from its thrust to windmilling, and then to its feathered drag area over seconds. */
static void handbook_propeller(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    ls_motion_request request;
    ls_motion motion;
    ls_vmc fixed;
    fleet_read("whimbrel", &aircraft);
    ls_propeller_data *propeller = &aircraft.powerplant[0].propeller;
    propeller->kind = LS_PROPELLER_COEFFICIENTS;
    propeller->efficiency = (ls_curve){.rows = 4, .x = {0, 0.4, 0.8, 1.2}, .y = {0, 0.6, 0.8, 0.8}};
    propeller->windmilling_area_m2 = 0.45;
    propeller->feathered_area_m2 = 0.03;
    propeller->feathering = LS_FEATHERS_AUTOMATICALLY;
    aircraft.powerplant[0].transient.decay_s = 0.2;
    aircraft.powerplant[0].transient.feather_delay_s = 2.0;
    choose(&aircraft, &request, &fixed);
    assert_int_equal(request.state, LS_FEATHERED);
    request.duration_s = 12.0;
    assert_int_equal(ls_motion_run(&aircraft, &request, &motion, NULL), LS_OK);
    for (int k = 19; k <= 100; k += 81) {
        const ls_motion_sample *s = &motion.sample[k];
        double q_Pa = 0.5 * 1.225 * s->V_m_s * s->V_m_s, area_m2 = k == 19 ? 0.45 : 0.03;
        check_close("drag area of a handbook propeller, windmilling after 1.9 s and feathered after 10, m2",
                    -s->failed_thrust_N / q_Pa, area_m2, 1e-3, "exp(-1.9/0.2) of the thrust is left",
                    "the file's own area");
    }
    check_between("drag area halfway through feathering, m2",
                  -motion.sample[40].failed_thrust_N / (0.5 * 1.225 * pow(motion.sample[40].V_m_s, 2.0)), 0.1, 0.4,
                  "identity: between the two");
    ls_motion_free(&motion);
}

/* Every way to fail has a transient, or says that it has none. */
static void states(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    ls_motion_request request;
    ls_vmc fixed;
    fleet_read("whimbrel", &aircraft);
    choose(&aircraft, &request, &fixed);
    request.duration_s = 10.0;
    for (int s = 0; s < LS_ENGINE_STATES; s++) {
        ls_motion motion;
        ls_error error = {0};
        request.state = (ls_engine_state)s;
        int has_none = s == LS_RUNNING || s == LS_ZERO_THRUST;
        assert_int_equal(ls_motion_run(&aircraft, &request, &motion, &error), has_none ? LS_NO_STATE : LS_OK);
        if (!has_none) {
            assert_int_equal(motion.end, LS_MOTION_TIME);
            assert_true(isfinite(motion.last.failed_thrust_N));
        }
        if (s == LS_STOPPED) {
            assert_true(motion.last.failed_rev_s < 1.0);
        }
        if (s == LS_PARTIAL) {
            assert_true(motion.last.failed_thrust_N > 0.0);
        }
        ls_motion_free(&motion);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(beside_the_static_speed),
        cmocka_unit_test(propeller_transient),
        cmocka_unit_test(latched),
        cmocka_unit_test(recovery),
        cmocka_unit_test(demonstration),
        cmocka_unit_test(drill),
        cmocka_unit_test(states),
        cmocka_unit_test(handbook_propeller),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
