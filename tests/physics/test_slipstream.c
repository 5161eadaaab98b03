/* What the slipstreams do to wing and fin: sizes against hand calculation, signs by hand, the derivatives of the
 * equations against differences, and no left-right difference where there can be none.
 *
 * Signs, seen from behind, clockwise propellers, left engine dead (the right one pulls the nose left):
 * P-factor: at incidence the down-going right-hand blade pulls harder, so the live engine's thrust moves right,
 * away from the centreline: nose left, adverse. With the right engine dead it moves toward the centreline.
 * Slipstream lift: it acts at the same place, so its rolling arm too is longer on the right wing: left wing down,
 *   toward the dead engine.
 * Swirl: the left engine's slipstream turns over the fin to the right, wind from the left, nose left: away from a
 *   dead right engine, so the right engine's failure is eased and the left one's is not.
 * Torque: the reaction rolls left, toward a dead left engine and away from a dead right one. */
#include "check.h"
#include "fleet.h"

#include "airframe/slipstream.h"
#include "flight/equations.h"
#include "liveside/vmc.h"
#include "prop/wake.h"

#include <math.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)
#define KT  (1852.0 / 3600.0)

enum { LEFT = 1u, RIGHT = 2u };

static const double pi = 3.14159265358979323846;
static ls_aircraft whimbrel;

static int read_whimbrel(void **state)
{
    (void)state;
    fleet_read("whimbrel", &whimbrel);
    return 0;
}

static void make_model(const ls_aircraft *aircraft, unsigned failed, ls_rotation rotation, unsigned off,
                       ls_model *model)
{
    ls_condition condition;
    ls_condition_takeoff(aircraft, &condition);
    ls_condition_fail(aircraft, failed, &condition);
    condition.rotation = rotation;
    condition.effects_off = off;
    assert_int_equal(ls_model_make(aircraft, &condition, model, NULL), LS_OK);
}

/* ---- the wake ---- */

static void wake_by_momentum(void **state)
{
    (void)state;
    ls_air air;
    ls_air_at(0.0, 0.0, &air, NULL);
    const char *source = "actuator-disc theory (from memory)";
    double A_m2 = pi, rho = air.rho_kg_m3; /* 2 m across */
    ls_propulsor_point still = {.thrust_N = 2.0 * rho * A_m2 * 10.0 * 10.0};
    ls_wake_from_momentum(2.0, &air, 0.0, &still);
    check_close("at rest: T = 2 rho A w^2 with w = 10 m/s leaves 2 w, m/s", still.wake_m_s, 20.0, 1e-12,
                "round-off", source);
    ls_propulsor_point fast = {.thrust_N = rho * A_m2 * 55.0 * 10.0, .torque_Nm = 600.0};
    ls_wake_from_momentum(2.0, &air, 50.0, &fast);
    check_close("T = rho A (V + 5) 10 leaves 10 m/s", fast.wake_m_s, 10.0, 1e-12, "round-off", source);
    ls_propulsor_point slow = {.thrust_N = -rho * A_m2 * 48.0 * 4.0};
    ls_wake_from_momentum(2.0, &air, 50.0, &slow);
    check_close("drag of rho A (V - 2) 4 takes 4 m/s", slow.wake_m_s, -4.0, 1e-12, "round-off", source);
    ls_propulsor_point wall = {.thrust_N = -10.0 * rho * A_m2 * 50.0 * 50.0};
    ls_wake_from_momentum(2.0, &air, 50.0, &wall);
    assert_true(wall.wake_m_s > -50.0 && wall.wake_m_s < -30.0);
    /* The angular momentum carried off, summed over rings of the contracted slipstream, is the torque. */
    double radius_m = sqrt(55.0 / 60.0), turn_m_s = 60.0 * tan(fast.swirl_rad), sum_Nm = 0.0;
    enum { RINGS = 2000 };
    for (int i = 0; i < RINGS; i++) {
        double r_m = radius_m * (i + 0.5) / RINGS;
        sum_Nm += rho * 60.0 * turn_m_s * r_m * 2.0 * pi * r_m * radius_m / RINGS;
    }
    check_close("angular momentum of the swirl, N m", sum_Nm, 600.0, 1e-3, "the sum's rings",
                "identity: angular momentum");
    ls_propulsor_point jet = {.thrust_N = 5000.0};
    ls_wake_from_momentum(0.0, &air, 50.0, &jet);
    assert_true(jet.wake_m_s == 0.0 && jet.swirl_rad == 0.0 && jet.offset_m == 0.0);
}

/* By hand: V 50, V_s 60 m/s at the wing, so s = 0.44, D_s = 2 sqrt(55/60) = 1.91485 m; CL 1.0 at alpha 0.15;
 * theta = 0.15 x 10/60 = 0.025, 0.6 x 2 pi x 0.025 = 0.0942478; q = 1531.25 Pa, c = 1.5 m:
 * dL = 1531.25 x 0.44 (0.7 x 1.0 - 0.0942478) x 1.91485 x 1.5 = 1172.26 N. */
static void wing_lift_by_hand(void **state)
{
    (void)state;
    ls_model model;
    ls_aircraft aircraft = whimbrel;
    aircraft.wing.chord_m = 1.5;
    aircraft.slipstream.wing_lift = 0.7;
    aircraft.slipstream.upwash = 0.0;
    aircraft.powerplant[0].propeller.diameter_m = 2.0;
    make_model(&aircraft, LEFT, LS_ROTATION_FILE, 0, &model);
    model.air.rho_kg_m3 = 1.225;
    model.lift_zero = 0.25;
    model.lift_slope = 5.0;
    model.unit[1].developed = 1.0;
    ls_propulsor_point load = {.wake_m_s = 10.0, .offset_m = 0.3};
    ls_wash wash = ls_wash_of(&model, 1, &load, 50.0);
    const char *source = "Smelt and Davies, R&M 1788, form from memory; worked by hand";
    check_close("slipstream lift, N", wash.lift0_N + 0.15 * wash.lift1_N, 1172.26, 0.01, "printed digits", source);
    /* the thrust centre: 1.90 m from the centreline, and 0.3 x 0.15 m more on the right for a clockwise propeller
     */
    check_close("where it acts, m right", wash.right0_m + 0.15 * wash.right1_m, 1.90 + 0.045, 1e-12, "round-off",
                "worked by hand");
    wash = ls_wash_of(&model, 0, &load, 50.0);
    check_close("and of the left engine, m right", wash.right0_m + 0.15 * wash.right1_m, -1.90 + 0.045, 1e-12,
                "round-off", "worked by hand");
    load.wake_m_s = -2.0;
    wash = ls_wash_of(&model, 0, &load, 50.0);
    assert_true(wash.lift0_N + 0.15 * wash.lift1_N < 0.0); /* a dragging propeller's wake takes lift away */
}

static void developed_with_distance(void **state)
{
    (void)state;
    ls_model model;
    ls_aircraft aircraft = whimbrel;
    double R_m = 0.5 * aircraft.powerplant[0].propeller.diameter_m;
    aircraft.engine[0].hub_aft_m = aircraft.cg.reference_m;       /* at the wing */
    aircraft.engine[1].hub_aft_m = aircraft.cg.reference_m + 2.0; /* a pusher */
    aircraft.slipstream.upwash = 0.3;
    make_model(&aircraft, LEFT, LS_ROTATION_FILE, 0, &model);
    check_close("half the far speed at the disc", model.unit[0].developed, 0.5, 1e-15, "round-off",
                "actuator-disc theory (from memory)");
    check_close("a pusher's inflow at the wing", model.unit[1].developed, 0.5 * (1 - 2.0 / hypot(2.0, R_m)), 1e-15,
                "round-off", "vortex tube, v = vi (1 + x/sqrt(x^2 + R^2)) (from memory)");
    assert_true(model.unit[1].upwash == 0.0);
}

/* ---- the fin ---- */

static double fin_deg(ls_rotation rotation, unsigned failed)
{
    ls_model model;
    ls_powerplant_point point;
    make_model(&whimbrel, failed, rotation, 0, &model);
    assert_int_equal(ls_powerplant_at(&model, 40.0, &point, NULL), LS_OK);
    return point.fin_rad / DEG;
}

static void swirl_reaches_the_fin_from_tops_inboard(void **state)
{
    (void)state;
    const double none_deg = 0.1; /* a windmilling propeller turns its wake a little, the other way */
    assert_true(fin_deg(LS_ROTATION_CLOCKWISE, RIGHT) < -0.2); /* left engine live: wind from the left */
    assert_true(fabs(fin_deg(LS_ROTATION_CLOCKWISE, LEFT)) < none_deg);
    assert_true(fin_deg(LS_ROTATION_ANTICLOCKWISE, LEFT) > 0.2);
    assert_true(fabs(fin_deg(LS_ROTATION_ANTICLOCKWISE, RIGHT)) < none_deg);
    assert_true(fin_deg(LS_ROTATION_TOPS_OUTBOARD, LEFT) == 0.0 &&
                fin_deg(LS_ROTATION_TOPS_OUTBOARD, RIGHT) == 0.0);
    check_close("both live, tops inboard: swirl at the fin, deg", fin_deg(LS_ROTATION_TOPS_INBOARD, 0), 0.0, 1e-15,
                "round-off", "identity: mirror symmetry");
    ls_model model;
    ls_propulsor_point load = {.swirl_rad = 0.09};
    make_model(&whimbrel, RIGHT, LS_ROTATION_CLOCKWISE, 0, &model);
    check_close("swirl at the fin: a tenth of three quarters of 0.09 rad, from the left",
                ls_swirl_at_fin(&model, 0, &load), -0.00675, 1e-15, "round-off", "worked by hand");
}

/* Only the engines next to the fuselage wash the fin. */
static void outer_engines_miss_the_fin(void **state)
{
    (void)state;
    ls_aircraft barnacle;
    ls_model model;
    fleet_read("barnacle", &barnacle);
    make_model(&barnacle, 0, LS_ROTATION_CLOCKWISE, 0, &model);
    assert_true(model.unit[0].immersion == 0.0 && model.unit[1].immersion > 0.0);
    assert_true(model.unit[2].immersion == 0.0 && model.unit[3].immersion == 0.0);
}

/* Sideslip at the fin has the yaw of sideslip, and side force and roll in the rudder's proportion. */
static void fin_as_rudder(void **state)
{
    (void)state;
    ls_derivatives d = {.side_rudder = 0.2, .roll_rudder = 0.01, .yaw_sideslip = 0.08, .yaw_rudder = -0.07};
    double rudder_rad = ls_fin_as_rudder(&d, 0.05);
    check_close("yaw of wind from the right at the fin", d.yaw_rudder * rudder_rad, 0.08 * 0.05, 1e-15,
                "round-off", "identity");
    assert_true(d.side_rudder * rudder_rad < 0.0); /* and it pushes left */
}

/* ---- the equations ---- */

static void derivatives_by_differences(void **state)
{
    (void)state;
    uint64_t seed = 2026;
    for (int n = 0; n < check_scaled(300); n++) {
        ls_aircraft varied;
        ls_condition condition;
        ls_model model;
        ls_powerplant_point point;
        fleet_vary(&whimbrel, &seed, &varied);
        varied.slipstream.upwash = check_random(&seed, 0, 0.5);
        varied.slipstream.wing_lift = check_random(&seed, 0.3, 1);
        fleet_condition(&varied, &seed, &condition);
        condition.effects_off = (unsigned)check_random(&seed, 0, 1.999) * LS_EFFECT_P_FACTOR;
        assert_int_equal(ls_model_make(&varied, &condition, &model, NULL), LS_OK);
        double V_m_s = model.stall_V_m_s * check_random(&seed, 0.8, 2.0),
               bank_rad = check_random(&seed, -8, 8) * DEG;
        assert_int_equal(ls_powerplant_at(&model, V_m_s, &point, NULL), LS_OK);
        ls_trim_problem p = {&model, &point, 0.5 * model.air.rho_kg_m3 * V_m_s * V_m_s * model.S_m2, sin(bank_rad),
                             cos(bank_rad)};
        double z[UNKNOWNS] = {check_random(&seed, -0.1, 0.25), check_random(&seed, -0.2, 0.2),
                              check_random(&seed, -0.2, 0.2), check_random(&seed, -0.3, 0.3),
                              check_random(&seed, -0.1, 0.2)};
        double jacobian[LS_LINEAR_MAX][LS_LINEAR_MAX], unused[LS_LINEAR_MAX][LS_LINEAR_MAX];
        double r[UNKNOWNS], up[UNKNOWNS], down[UNKNOWNS];
        ls_trim_equations(&p, z, r, jacobian);
        for (int j = 0; j < UNKNOWNS; j++) {
            double kept = z[j], h = 1e-5;
            z[j] = kept + h;
            ls_trim_equations(&p, z, up, unused);
            z[j] = kept - h;
            ls_trim_equations(&p, z, down, unused);
            z[j] = kept;
            for (int i = 0; i < UNKNOWNS; i++) {
                check_close("derivative of the trim equations", jacobian[i][j], (up[i] - down[i]) / (2 * h), 2e-7,
                            "central differences of 1e-5 rad", "differences of the equations");
            }
        }
    }
}

/* ---- the stall ---- */

/* The slipstream bears part of the weight; the judged stall does not rely on it, and the other margin shows it. */
static void stall_is_judged_power_off(void **state)
{
    (void)state;
    ls_model with, without;
    ls_trim on, off;
    ls_margins margins_on, margins_off;
    make_model(&whimbrel, LEFT, LS_ROTATION_FILE, 0, &with);
    make_model(&whimbrel, LEFT, LS_ROTATION_FILE, LS_EFFECT_SLIPSTREAM, &without);
    assert_int_equal(ls_trim_solve(&with, 36.0, 0.0, &on, NULL), LS_OK);
    assert_int_equal(ls_trim_solve(&without, 36.0, 0.0, &off, NULL), LS_OK);
    ls_margins_at(&with, &on, &margins_on);
    ls_margins_at(&without, &off, &margins_off);
    assert_true(on.free_lift_coefficient < on.lift_coefficient - 0.02);
    assert_true(off.free_lift_coefficient == off.lift_coefficient);
    check_close("judged stall margin with and without slipstream lift", margins_on.left[LS_LIMIT_WING_STALL],
                margins_off.left[LS_LIMIT_WING_STALL], 0.01,
                "thrust carries a little less weight at less incidence", "identity: the weight is the same");
    assert_true(margins_on.stall_power_on > margins_on.left[LS_LIMIT_WING_STALL] + 0.01);
}

/* ---- no difference where there can be none ---- */

static double control_kt(const ls_aircraft *aircraft, unsigned failed, unsigned off)
{
    ls_model model;
    ls_vmc vmc;
    make_model(aircraft, failed, LS_ROTATION_CLOCKWISE, off, &model);
    assert_int_equal(ls_vmc_at(&model, failed == LEFT ? 5 * DEG : -5 * DEG, &vmc, NULL), LS_OK);
    assert_true(isfinite(vmc.control_V_m_s));
    return vmc.control_V_m_s / KT;
}

/* Left failed less right failed, from one effect alone. */
static double difference_kt(const ls_aircraft *aircraft, unsigned effect)
{
    unsigned off = LS_EFFECT_ALL & ~(effect | LS_EFFECT_DEAD_DRAG);
    return control_kt(aircraft, LEFT, off) - control_kt(aircraft, RIGHT, off);
}

/* Torque and slipstream lift only roll: about the body axis and about the flight path. Then the ailerons answer
 * them, and the speed knows of it only by the ailerons' own yaw and side force. */
static void rolling_effects_act_through_aileron_yaw(void **state)
{
    (void)state;
    ls_aircraft plain = whimbrel;
    plain.drag.aileron_per_rad2 = 0.0;
    plain.slipstream.upwash = 0.0;
    static const struct {
        unsigned effect;
        int axes;
    } rows[] = {{LS_EFFECT_TORQUE, LS_AXES_BODY}, {LS_EFFECT_SLIPSTREAM, LS_AXES_STABILITY}};
    for (int i = 0; i < 2; i++) {
        plain.axes = rows[i].axes;
        plain.derivatives.yaw_aileron = 0.0;
        check_close("left less right, rolling effect, no aileron yaw, kt", difference_kt(&plain, rows[i].effect),
                    0.0, 1e-6, "root tolerance 1e-9 m/s", "identity: ailerons hold the roll and do nothing else");
        plain.derivatives.yaw_aileron = -0.008; /* little, so that the rudder stays the limit both ways */
        assert_true(difference_kt(&plain, rows[i].effect) > 1e-3); /* adverse aileron yaw: left is critical */
        plain.derivatives.yaw_aileron = +0.008;
        assert_true(difference_kt(&plain, rows[i].effect) < -1e-3);
    }
}

static void each_effect_makes_left_critical(void **state)
{
    (void)state;
    ls_aircraft body = whimbrel;
    body.axes = LS_AXES_BODY;
    assert_true(body.derivatives.yaw_aileron < 0.0);
    assert_true(difference_kt(&body, LS_EFFECT_P_FACTOR) > 1e-3);
    assert_true(difference_kt(&body, LS_EFFECT_TORQUE) > 1e-3);
    assert_true(difference_kt(&body, LS_EFFECT_SWIRL) > 1e-3);
    assert_true(difference_kt(&whimbrel, LS_EFFECT_SLIPSTREAM) > 1e-3);
    assert_true(difference_kt(&whimbrel, LS_EFFECT_P_FACTOR) > 1e-3);
    assert_true(difference_kt(&whimbrel, LS_EFFECT_SWIRL) > 1e-3);
    check_close("left less right with every handed effect off, kt", difference_kt(&whimbrel, 0), 0.0, 1e-6,
                "root tolerance 1e-9 m/s", "identity: mirror symmetry");
}

/* The torque of a shaft that points above the flight path also yaws about the path, away from the dead engine when
 * it rolls toward it: by sin(alpha) of the torque, against Cn_da/Cl_da of it for the ailerons. */
static void torque_yaws_about_the_flight_path(void **state)
{
    (void)state;
    ls_aircraft stability = whimbrel;
    stability.axes = LS_AXES_STABILITY;
    stability.derivatives.yaw_aileron = 0.0;
    assert_true(difference_kt(&stability, LS_EFFECT_TORQUE) < -1e-3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(wake_by_momentum),
        cmocka_unit_test(wing_lift_by_hand),
        cmocka_unit_test(developed_with_distance),
        cmocka_unit_test(swirl_reaches_the_fin_from_tops_inboard),
        cmocka_unit_test(outer_engines_miss_the_fin),
        cmocka_unit_test(fin_as_rudder),
        cmocka_unit_test(derivatives_by_differences),
        cmocka_unit_test(stall_is_judged_power_off),
        cmocka_unit_test(rolling_effects_act_through_aileron_yaw),
        cmocka_unit_test(each_effect_makes_left_critical),
        cmocka_unit_test(torque_yaws_about_the_flight_path),
    };
    return cmocka_run_group_tests(tests, read_whimbrel, NULL);
}
