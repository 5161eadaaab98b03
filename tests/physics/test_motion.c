/* Motion after a failure against what is known of it: published modes, linearised equations, energy, symmetry. */
#include "check.h"
#include "fleet.h"
#include "motion_case.h"

#include "liveside/vmc.h"

#include <math.h>
#include <string.h>

/* A Navion as a published example has it: derivatives in stability axes about level flight at 176 ft/s. Its loads
 * are a thrust that balances drag; a huge lift slope keeps incidence near zero and the axes together. */
static void navion_modes(void **state)
{
    (void)state;
    const char *source = "Nelson, Flight Stability and Automatic Control, 2nd ed., Navion example: roots -8.435, "
                         "-0.00877, -0.487 +- 2.335i (from memory)";
    ls_aircraft navion;
    navion_aircraft(&navion);
    ls_condition condition;
    ls_condition_takeoff(&navion, &condition);
    linear_modes modes = lateral_modes(&navion, &condition, 176.0 * 0.3048, navion_loads);
    check_close("Navion roll mode, 1/s", modes.roll, -8.435, 0.02, "derivatives of three digits", source);
    check_close("Navion spiral mode, 1/s", modes.spiral, -0.00877, 0.0015,
                "a small difference of products of three-digit derivatives", source);
    check_close("Navion Dutch roll, real part, 1/s", modes.dutch_real, -0.487, 0.005,
                "derivatives of three digits", source);
    check_close("Navion Dutch roll, imaginary part, 1/s", modes.dutch_imaginary, 2.335, 0.02,
                "derivatives of three digits", source);
}

/* The same aeroplane nudged: frequency and damping read off the motion, against the roots of its linearised
 * equations.
 */
static void free_motion_has_the_linear_modes(void **state)
{
    (void)state;
    ls_aircraft navion;
    ls_motion motion;
    ls_condition condition;
    navion_aircraft(&navion);
    ls_condition_takeoff(&navion, &condition);
    linear_modes modes = lateral_modes(&navion, &condition, 176.0 * 0.3048, navion_loads);
    ls_motion_request request = hands_off(&navion, &condition, 176.0 * 0.3048);
    request.loads = navion_loads;
    request.nudge[0] = 1e-3;
    request.sample_s = 0.1;
    request.duration_s = 5.0;
    request.tolerance = 1e-9;
    assert_int_equal(ls_motion_run(&navion, &request, &motion, NULL), LS_OK);
    oscillation seen = measure(&motion);
    check_close("Dutch roll frequency of the motion over the linear one", seen.frequency / modes.dutch_imaginary,
                1.0, 0.01, "the issue's 1 per cent", "identity: linearised equations");
    check_close("Dutch roll damping of the motion over the linear one", seen.damping / -modes.dutch_real, 1.0,
                0.01, "1 per cent", "identity: linearised equations");
    ls_motion_free(&motion);
}

/* The trim is an equilibrium of the equations of motion: it stays for a minute without a hand on the controls'
 * help (the pilot has nothing to do), every engine running or one dead. */
static void trimmed_start_stays(void **state)
{
    (void)state;
    static const char *const names[] = {"whimbrel", "sanderling", "redshank", "barnacle"};
    for (int i = 0; i < 8; i++) {
        ls_aircraft aircraft;
        ls_condition condition;
        ls_motion motion;
        ls_model model;
        fleet_read(names[i / 2], &aircraft);
        aircraft.included = i % 3;
        ls_condition_takeoff(&aircraft, &condition);
        assert_int_equal(ls_model_make(&aircraft, &condition, &model, NULL), LS_OK);
        ls_motion_request request;
        ls_motion_usual(&aircraft, &condition, i % 2 ? 1u : 0u, 1.5 * model.stall_V_m_s, &request);
        request.starts_failed = i % 2;
        request.bank_rad = i % 2 ? 3.0 * DEG : 0.0;
        request.delay_s = 0.0;
        request.hold = i / 4 ? LS_HOLD_AIRSPEED : LS_HOLD_ATTITUDE;
        request.duration_s = 60.0;
        assert_int_equal(ls_motion_run(&aircraft, &request, &motion, NULL), LS_OK);
        assert_int_equal(motion.end, LS_MOTION_TIME);
        const char *reason = "tolerance of the steps", *source = "identity: a trim is an equilibrium";
        check_close("heading after 60 s trimmed, rad", motion.last.heading_rad, 0.0, 1e-5, reason, source);
        check_close("bank after 60 s trimmed, rad", motion.last.bank_rad, request.bank_rad, 1e-5, reason, source);
        check_close("speed after 60 s trimmed, m/s", motion.last.V_m_s, request.V_m_s, 1e-4, reason, source);
        check_close("sideslip after 60 s trimmed, rad", motion.last.beta_rad, motion.start.beta_rad, 1e-5, reason,
                    source);
        ls_motion_free(&motion);
    }
}

/* After a step loss nothing has yet moved, so the nose turns as its first acceleration says. */
static void first_moments_of_a_step_loss(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    ls_condition condition;
    ls_motion motion;
    fleet_read("whimbrel", &aircraft);
    aircraft.inertia.product = 0.004;
    ls_condition_takeoff(&aircraft, &condition);
    condition.effects_off |= LS_EFFECT_TORQUE; /* no rotors: their reaction is not in N and L of the formula */
    ls_motion_request request;
    double V_m_s = 44.0;
    ls_motion_usual(&aircraft, &condition, 1u, V_m_s, &request);
    request.is_step = 1;
    request.delay_s = INFINITY;
    request.hold = LS_HOLD_ATTITUDE;
    request.sample_s = 0.02;
    request.duration_s = 0.1;
    assert_int_equal(ls_motion_run(&aircraft, &request, &motion, NULL), LS_OK);
    double L, N;
    moments_at_start(&aircraft, &request, &L, &N);
    ls_inertia I = ls_inertia_of(&aircraft, condition.mass_kg);
    double r_dot = (I.xx_kg_m2 * N + I.xz_kg_m2 * L) / (I.xx_kg_m2 * I.zz_kg_m2 - I.xz_kg_m2 * I.xz_kg_m2);
    double cos_theta = cos(motion.start.theta_rad);
    for (int k = 1; k < 4; k++) {
        const ls_motion_sample *s = &motion.sample[k];
        double wanted = 0.5 * s->t_s * s->t_s * r_dot / cos_theta; /* heading' = r cos(bank)/cos(pitch) */
        check_close("heading after a step loss over 0.5 t^2 r'", s->heading_rad / wanted, 1.0, 0.8 * s->t_s,
                    "damping grows with t", "identity: 0.5 t^2 (Ixx N + Ixz L)/(Ixx Izz - Ixz^2)");
    }
    ls_motion_free(&motion);
}

/* Left and right exchanged, the motion is exchanged. */
static void mirrored(void **state)
{
    (void)state;
    ls_aircraft whimbrel, mirror;
    ls_condition condition, mirror_condition;
    uint64_t seed = 61;
    fleet_read("whimbrel", &whimbrel);
    for (int i = 0; i < check_scaled(12); i++) {
        ls_motion a, b;
        ls_aircraft varied;
        fleet_vary(&whimbrel, &seed, &varied);
        fleet_condition(&varied, &seed, &condition);
        memset(condition.state, 0, sizeof condition.state);
        fleet_mirror_aircraft(&varied, &mirror);
        fleet_mirror_condition(&condition, &mirror_condition);
        ls_motion_request request, mirrored_request;
        ls_motion_usual(&varied, &condition, 1u, 50.0, &request);
        request.bank_rad = 4.0 * DEG;
        request.duration_s = 8.0;
        mirrored_request = request;
        mirrored_request.condition = mirror_condition;
        mirrored_request.bank_rad = -request.bank_rad;
        assert_int_equal(ls_motion_run(&varied, &request, &a, NULL), LS_OK);
        assert_int_equal(ls_motion_run(&mirror, &mirrored_request, &b, NULL), LS_OK);
        assert_int_equal(a.end, b.end);
        assert_int_equal(a.count, b.count);
        const char *reason = "round-off, grown by the steps", *source = "identity: mirror symmetry";
        check_close("mirrored heading, rad", b.last.heading_rad, -a.last.heading_rad, 1e-9, reason, source);
        check_close("mirrored bank, rad", b.last.bank_rad, -a.last.bank_rad, 1e-9, reason, source);
        check_close("mirrored speed, m/s", b.last.V_m_s, a.last.V_m_s, 1e-8, reason, source);
        check_close("mirrored height, m", b.last.climbed_m, a.last.climbed_m, 1e-7, reason, source);
        check_close("mirrored rudder, rad", b.last.rudder_rad, -a.last.rudder_rad, 1e-9, reason, source);
        ls_motion_free(&a);
        ls_motion_free(&b);
    }
}

/* Where the pilot has regained straight flight, it is the static trim's: two codes, one answer. */
static void ends_in_the_static_trim(void **state)
{
    (void)state;
    static const char *const names[] = {"whimbrel", "sanderling", "redshank"};
    for (int i = 0; i < 3; i++) {
        ls_aircraft aircraft;
        ls_condition condition;
        ls_motion motion;
        ls_model model;
        ls_trim trim;
        fleet_read(names[i], &aircraft);
        ls_condition_takeoff(&aircraft, &condition);
        assert_int_equal(ls_model_make(&aircraft, &condition, &model, NULL), LS_OK);
        ls_motion_request request;
        double V_m_s = 1.6 * model.stall_V_m_s;
        ls_motion_usual(&aircraft, &condition, 1u, V_m_s, &request);
        request.bank_rad = 4.0 * DEG;
        request.duration_s = 150.0;
        request.sample_s = 0.5;
        assert_int_equal(ls_motion_run(&aircraft, &request, &motion, NULL), LS_OK);
        assert_int_equal(motion.end, LS_MOTION_TIME);
        ls_condition_fail_as(&aircraft, 1u, request.state, &condition);
        assert_int_equal(ls_model_make(&aircraft, &condition, &model, NULL), LS_OK);
        assert_int_equal(ls_trim_solve(&model, motion.last.V_m_s, request.bank_rad, &trim, NULL), LS_OK);
        const char *reason = "slow modes die out in 150 s", *source = "identity: the static trim, apart";
        check_close("speed at the end, m/s", motion.last.V_m_s, V_m_s, 0.01, reason, source);
        check_close("rudder at the end, rad", motion.last.rudder_rad, trim.rudder_rad, 1e-4, reason, source);
        check_close("aileron at the end, rad", motion.last.aileron_rad, trim.aileron_rad, 1e-4, reason, source);
        check_close("sideslip at the end, rad", motion.last.beta_rad, trim.beta_rad, 1e-4, reason, source);
        check_close("attitude at the end, rad", motion.last.theta_rad, trim.theta_rad, 1e-4, reason, source);
        ls_motion_free(&motion);
    }
}

/* Energy: height and speed change as the work of thrust and drag says. The forces come from the trim's listing at
 * each sample, the motion from the integration. */
static void energy_of_free_response(void **state)
{
    (void)state;
    ls_aircraft navion;
    ls_motion motion;
    ls_condition condition;
    navion_aircraft(&navion);
    ls_condition_takeoff(&navion, &condition);
    ls_motion_request request = hands_off(&navion, &condition, 176.0 * 0.3048);
    navion.flap[0].drag_zero = 0.04;
    navion.flap[0].drag_induced = 0.06;
    request.hold = LS_HOLD_ATTITUDE;
    request.loads = navion_loads; /* it glides: all the work is the drag's */
    request.nudge[0] = 0.08;
    request.nudge[1] = 0.2;
    request.sample_s = 0.01;
    request.duration_s = 5.0;
    assert_int_equal(ls_motion_run(&navion, &request, &motion, NULL), LS_OK);
    double work_J = 0.0, mass = condition.mass_kg;
    for (int k = 1; k < motion.count; k++) { /* trapezium */
        double dt_s = motion.sample[k].t_s - motion.sample[k - 1].t_s;
        work_J += 0.5 * dt_s *
                  (glider_power(&navion, &request, &motion.sample[k]) +
                   glider_power(&navion, &request, &motion.sample[k - 1]));
    }
    const ls_motion_sample *a = &motion.start, *b = &motion.last;
    double gained_J = mass * (0.5 * (b->V_m_s * b->V_m_s - a->V_m_s * a->V_m_s) + LS_G0_M_S2 * b->climbed_m);
    check_close("energy gained over the work of the air", gained_J / work_J, 1.0, 1e-3, "trapezium rule at 0.01 s",
                "identity: conservation of energy");
    ls_motion_free(&motion);
}

/* Half the tolerance, the same numbers. */
static void tolerance_does_not_matter(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    ls_condition condition;
    ls_motion a, b;
    fleet_read("whimbrel", &aircraft);
    ls_condition_takeoff(&aircraft, &condition);
    for (int i = 0; i < 4; i++) {
        ls_motion_request request;
        ls_motion_usual(&aircraft, &condition, 1u, 40.0 + 2.0 * i, &request);
        request.bank_rad = 5.0 * DEG;
        request.feather_s = i % 2 ? 6.0 : INFINITY;
        assert_int_equal(ls_motion_run(&aircraft, &request, &a, NULL), LS_OK);
        request.tolerance = 0.5e-7;
        assert_int_equal(ls_motion_run(&aircraft, &request, &b, NULL), LS_OK);
        assert_int_equal(a.end, b.end);
        const char *reason = "the issue's 0.1 per cent", *source = "identity: convergence";
        check_close("heading change, half the tolerance over whole", b.heading_most_rad / a.heading_most_rad, 1.0,
                    1e-3, reason, source);
        check_close("bank, half over whole", b.bank_most_rad / a.bank_most_rad, 1.0, 1e-3, reason, source);
        check_close("sideslip, half over whole", b.beta_most_rad / a.beta_most_rad, 1.0, 1e-3, reason, source);
        check_close("propeller drag, half over whole", b.drag_most_N / a.drag_most_N, 1.0, 1e-3, reason, source);
        check_close("least speed, half over whole", b.V_least_m_s / a.V_least_m_s, 1.0, 1e-3, reason, source);
        ls_motion_free(&a);
        ls_motion_free(&b);
    }
}

/* Two seconds late, below the minimum control speed: a reason, and every number finite. */
static void loss_of_control_has_a_reason(void **state)
{
    (void)state;
    static const char *const names[] = {"whimbrel", "sanderling", "redshank", "barnacle"};
    for (int i = 0; i < 4; i++) {
        for (int hold = 0; hold < LS_HOLDS; hold++) {
            ls_aircraft aircraft;
            ls_condition condition;
            ls_motion motion;
            ls_model model;
            fleet_read(names[i], &aircraft);
            ls_condition_takeoff(&aircraft, &condition);
            condition.mass_kg = aircraft.mass.minimum_kg;
            assert_int_equal(ls_model_make(&aircraft, &condition, &model, NULL), LS_OK);
            ls_motion_request request;
            unsigned failed = aircraft.engines == 4 ? 3u : 1u;
            ls_motion_usual(&aircraft, &condition, failed, 1.1 * model.stall_V_m_s, &request);
            request.delay_s = INFINITY;
            request.hold = (ls_hold)hold;
            request.duration_s = 60.0;
            assert_int_equal(ls_motion_run(&aircraft, &request, &motion, NULL), LS_OK);
            assert_true(motion.end != LS_MOTION_STRAIGHT && motion.end != LS_MOTION_TIME);
            for (int k = 0; k < motion.count; k++) {
                const ls_motion_sample *s = &motion.sample[k];
                assert_true(isfinite(s->V_m_s + s->beta_rad + s->bank_rad + s->heading_rad + s->climbed_m +
                                     s->failed_rev_s + s->failed_thrust_N + s->rudder_rad));
            }
            double first_s = fmin(isnan(motion.heading_limit_s) ? INFINITY : motion.heading_limit_s, motion.end_s);
            check_between("time to 20 deg of heading, or to loss of control, at 1.1 VS without action, s", first_s,
                          0.5, 12.0, "a few seconds (common practice)");
            ls_motion_free(&motion);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(navion_modes),
        cmocka_unit_test(free_motion_has_the_linear_modes),
        cmocka_unit_test(trimmed_start_stays),
        cmocka_unit_test(first_moments_of_a_step_loss),
        cmocka_unit_test(mirrored),
        cmocka_unit_test(ends_in_the_static_trim),
        cmocka_unit_test(energy_of_free_response),
        cmocka_unit_test(tolerance_does_not_matter),
        cmocka_unit_test(loss_of_control_has_a_reason),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
