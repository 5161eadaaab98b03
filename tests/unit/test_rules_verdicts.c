/* Verdicts on aeroplanes made to meet or to miss each condition.
 *
 * The aeroplane is invented: jets (or propellers of constant thrust) on a wing without drag and with a very steep
 * lift curve, so that incidence vanishes and the climb angle is asin(T/W). With roll out of the way its minimum
 * control speed is exact algebra: q S b K dr = N - (yaw_sideslip/|side_sideslip|) b W cos(climb) sin(bank), with
 * K = |yaw_rudder| - yaw_sideslip side_rudder/|side_sideslip|, N the thrust moment and dr the rudder travel. */
#include "check.h"
#include "fleet.h"

#include "liveside/climb.h"
#include "liveside/rules.h"

#include <math.h>
#include <string.h>

#define DEG     (3.14159265358979323846 / 180.0)
#define LB      0.45359237
#define LBF     (LB * 9.80665)
#define FT      0.3048
#define KT      (1852.0 / 3600.0)
#define EXACT   "algebra of the invented aeroplane"
#define BY_ROOT "root tolerance of the solver; incidence of 1e-9"
#define CFR_23  "14 CFR 23.149, 23.51, 23.67 at Amdt 23-50"
#define CFR_25  "14 CFR 25.149, 25.107, 25.121"

enum { TAKEOFF, LANDING };

static const double S_m2 = 30.0, b_m = 14.0, mass_kg = 5000.0, arm_m = 2.5;
static const double side_sideslip = -.60, side_rudder = .16, yaw_sideslip = .080, yaw_rudder = -.065;
static const double lift_max = 1.8;

static double weight_N(void)
{
    return mass_kg * LS_G0_M_S2;
}

static double stall_m_s(void)
{
    return sqrt(2.0 * weight_N() / (LS_AIR_RHO0_KG_M3 * S_m2 * lift_max));
}

/* Dynamic pressure at the rudder limit for a thrust moment and the thrust that is left. */
static double q_of(double moment_Nm, double thrust_N, double travel_rad)
{
    double K = -yaw_rudder - yaw_sideslip * side_rudder / -side_sideslip;
    double W_N = weight_N() * sqrt(1.0 - pow(thrust_N / weight_N(), 2)) * sin(5.0 * DEG);
    return (moment_Nm / b_m - yaw_sideslip / -side_sideslip * W_N) / (S_m2 * K * travel_rad);
}

static double speed_of(double moment_Nm, double thrust_N)
{
    return sqrt(2.0 * q_of(moment_Nm, thrust_N, 25.0 * DEG) / LS_AIR_RHO0_KG_M3);
}

/* The thrust of each of two engines that gives a speed over the stall speed. */
static double thrust_for(double multiple)
{
    double low_N = 0.01 * weight_N(), high_N = 0.9 * weight_N();
    for (int i = 0; i < 100; i++) {
        double middle_N = 0.5 * (low_N + high_N);
        double moment_Nm = middle_N * arm_m;
        if (q_of(moment_Nm, middle_N, 1.0) > 0.0 && speed_of(moment_Nm, middle_N) > multiple * stall_m_s()) {
            high_N = middle_N;
        } else {
            low_N = middle_N;
        }
    }
    return low_N;
}

static void add_flap(ls_aircraft *aircraft, const char *name, double deflection_rad, double most)
{
    ls_flap *flap = &aircraft->flap[aircraft->flaps++];
    strcpy(flap->name, name);
    flap->deflection_rad = deflection_rad;
    flap->lift_slope_per_rad = 1e9;
    flap->lift_max = most;
}

static void add_engine(ls_aircraft *aircraft, const char *name, double right_m)
{
    ls_engine_mount *engine = &aircraft->engine[aircraft->engines++];
    strcpy(engine->name, name);
    engine->hub_right_m = right_m;
    engine->hub_aft_m = 5.0;
}

static void make_jets(double thrust_N, ls_aircraft *aircraft)
{
    memset(aircraft, 0, sizeof *aircraft);
    aircraft->mass.maximum_kg = aircraft->mass.minimum_kg = mass_kg;
    aircraft->cg.reference_m = aircraft->cg.forward_m = aircraft->cg.aft_m = 5.0;
    aircraft->wing.area_m2 = S_m2;
    aircraft->wing.span_m = b_m;
    add_flap(aircraft, "take-off", 10 * DEG, lift_max);
    add_flap(aircraft, "landing", 35 * DEG, 2.2);
    aircraft->derivatives = (ls_derivatives){.side_sideslip = side_sideslip,
                                             .side_rudder = side_rudder,
                                             .roll_aileron = .17,
                                             .yaw_sideslip = yaw_sideslip,
                                             .yaw_rudder = yaw_rudder};
    aircraft->fin.stall_sideslip_rad = 1e3;
    aircraft->fin.sidewash = aircraft->fin.pressure = 1.0;
    aircraft->rudder.left_rad = aircraft->rudder.right_rad = 25.0 * DEG;
    aircraft->aileron.travel_rad = 1e3;
    aircraft->aileron.usable = 1.0;
    aircraft->pedal.gearing_rad_m = NAN;
    aircraft->swirl_straightened = 1.0;
    aircraft->limits.bank_rad = 5.0 * DEG;
    aircraft->powerplants = 1;
    aircraft->powerplant[0].engine =
        (ls_engine_data){.type = LS_ENGINE_JET, .thrust_N = thrust_N, .continuous = 1.0};
    add_engine(aircraft, "left", -arm_m);
    add_engine(aircraft, "right", arm_m);
}

/* The same with propellers whose thrust does not change with speed and whose drag is nil. */
static void make_propellers(int type, double thrust_N, ls_aircraft *aircraft)
{
    make_jets(thrust_N, aircraft);
    ls_powerplant_data *powerplant = &aircraft->powerplant[0];
    powerplant->engine = (ls_engine_data){.type = type,
                                          .power_W = 1e6,
                                          .continuous = 1.0,
                                          .n_rev_s = 30.0,
                                          .gear_ratio = 1.0,
                                          .flat_to_sigma = 0.5,
                                          .torque_limit_Nm = 1e9};
    powerplant->propeller = (ls_propeller_data){.diameter_m = 2.0, .blades = 2, .feathering = LS_FEATHERS_BY_HAND};
    powerplant->propeller.thrust_N.rows = 2;
    powerplant->propeller.thrust_N.x[1] = 300.0;
    powerplant->propeller.thrust_N.y[0] = powerplant->propeller.thrust_N.y[1] = thrust_N;
}

/* Pedal data that make the force on the rudder limit at a thrust moment a given one, whatever the speed. */
static void add_pedal(double force_N, double moment_Nm, double thrust_N, ls_aircraft *aircraft)
{
    const double hinge_sideslip = 0.1, hinge_rudder = -0.5, travel_rad = 25.0 * DEG;
    double q_Pa = q_of(moment_Nm, thrust_N, travel_rad);
    double W_N = weight_N() * sqrt(1.0 - pow(thrust_N / weight_N(), 2)) * sin(5.0 * DEG);
    double beta_rad = (W_N / (q_Pa * S_m2) - side_rudder * travel_rad) / -side_sideslip;
    aircraft->pedal.area_m2 = aircraft->pedal.chord_m = 1.0;
    aircraft->pedal.hinge_sideslip = hinge_sideslip;
    aircraft->pedal.hinge_rudder = hinge_rudder;
    aircraft->pedal.gearing_rad_m = force_N / (q_Pa * (hinge_sideslip * beta_rad - hinge_rudder * travel_rad));
}

static ls_rules_result result; /* large */

static void assess(const ls_aircraft *aircraft, const char *basis)
{
    ls_error error = {0};
    assert_non_null(ls_rules_find(basis));
    ls_status status = ls_rules_assess(aircraft, ls_rules_find(basis), &result, &error);
    if (status != LS_OK) {
        print_error("%s: %s\n", basis, error.text);
    }
    assert_int_equal(status, LS_OK);
}

/* The n-th line (from 0) of a kind and case. */
static const ls_rules_line *line_of(ls_rule_kind kind, ls_rule_case of, int n)
{
    for (int i = 0; i < result.lines; i++) {
        if (result.line[i].condition->kind == kind && result.line[i].condition->of == of && n-- == 0) {
            return &result.line[i];
        }
    }
    fail_msg("no such line");
    return NULL;
}

static ls_rule_verdict verdict_of(ls_rule_kind kind, ls_rule_case of)
{
    return line_of(kind, of, 0)->verdict;
}

/* ---- verdicts --------------------------------------------------------------------------------------------------
 */

static void multiple_of_the_stall_speed(void **state)
{
    (void)state;
    static const struct {
        const char *basis;
        double limit;
    } rows[] = {{"part23-amdt50", 1.2}, {"cs23", 1.2}, {"part25", 1.13}, {"cs25", 1.13}};
    ls_aircraft aircraft;
    for (int i = 0; i < 4; i++) {
        for (int miss = 0; miss < 2; miss++) {
            double multiple = rows[i].limit * (miss ? 1.0 + 1e-5 : 1.0 - 1e-5);
            make_jets(thrust_for(multiple), &aircraft);
            assess(&aircraft, rows[i].basis);
            const ls_rules_line *line = line_of(LS_RULE_STALL_MULTIPLE, LS_CASE_TAKEOFF, 0);
            check_close("stall speed, m/s", result.stall_cas_m_s, stall_m_s(), 1e-9, "round-off", EXACT);
            check_close("speed over stall speed", line->figure, multiple, 1e-7, BY_ROOT, EXACT);
            assert_int_equal(line->verdict, miss ? LS_VERDICT_NOT_MET : LS_VERDICT_MET);
            assert_int_equal(result.not_met, miss);
        }
    }
}

/* With so little rudder no speed up to three stall speeds holds straight flight at 5 deg of bank. The share of the
 * power that can be kept there follows from the same algebra. */
static void bank_and_power(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    double thrust_N = thrust_for(1.15);
    make_jets(thrust_N, &aircraft);
    assess(&aircraft, "part23-amdt50");
    assert_int_equal(verdict_of(LS_RULE_BANK, LS_CASE_TAKEOFF), LS_VERDICT_MET);
    check_close("bank used, deg", line_of(LS_RULE_BANK, LS_CASE_TAKEOFF, 0)->figure / DEG, 5.0, 1e-9,
                "at the limit", CFR_23);
    assert_int_equal(verdict_of(LS_RULE_NO_POWER_CUT, LS_CASE_TAKEOFF), LS_VERDICT_MET);
    aircraft.rudder.left_rad = aircraft.rudder.right_rad = 4.0 * DEG;
    aircraft.powerplant[0].engine.thrust_N = 2.0 * thrust_N;
    assess(&aircraft, "part23-amdt50");
    assert_int_equal(verdict_of(LS_RULE_BANK, LS_CASE_TAKEOFF), LS_VERDICT_NOT_MET);
    assert_int_equal(verdict_of(LS_RULE_NO_POWER_CUT, LS_CASE_TAKEOFF), LS_VERDICT_NOT_MET);
    assert_int_equal(verdict_of(LS_RULE_STALL_MULTIPLE, LS_CASE_TAKEOFF), LS_VERDICT_NOT_MET);
    assert_int_equal(line_of(LS_RULE_STALL_MULTIPLE, LS_CASE_TAKEOFF, 0)->bound, +1);
    assert_int_equal(verdict_of(LS_RULE_TAKEOFF_SPEED, LS_CASE_TAKEOFF), LS_VERDICT_NOT_ASSESSED);
    double share = line_of(LS_RULE_NO_POWER_CUT, LS_CASE_TAKEOFF, 0)->figure;
    double kept_N = share * 2.0 * thrust_N;
    check_close("dynamic pressure at the share of power that is left, over that at the stall",
                q_of(kept_N * arm_m, kept_N, 4.0 * DEG) / (weight_N() / (S_m2 * lift_max)), 9.0, 1e-6, BY_ROOT,
                EXACT);
}

static void pedal_force(void **state)
{
    (void)state;
    static const struct {
        double force_N;
        ls_rule_verdict us, europe;
    } rows[] = {{600.0, LS_VERDICT_MET, LS_VERDICT_MET},
                {667.1, LS_VERDICT_MET, LS_VERDICT_NOT_MET}, /* between 667 N and 150 lbf */
                {700.0, LS_VERDICT_NOT_MET, LS_VERDICT_NOT_MET}};
    ls_aircraft aircraft;
    double thrust_N = thrust_for(1.1);
    for (int i = 0; i < 3; i++) {
        make_jets(thrust_N, &aircraft);
        add_pedal(rows[i].force_N, thrust_N * arm_m, thrust_N, &aircraft);
        for (int europe = 0; europe < 2; europe++) {
            ls_rule_verdict want = europe ? rows[i].europe : rows[i].us;
            for (int large = 0; large < 2; large++) {
                assess(&aircraft, europe ? (large ? "cs25" : "cs23") : (large ? "part25" : "part23-amdt50"));
                const ls_rules_line *line = line_of(LS_RULE_PEDAL, LS_CASE_TAKEOFF, 0);
                assert_int_equal(line->verdict, want);
                check_close("pedal force, N", line->figure, rows[i].force_N, 1e-4, BY_ROOT, EXACT);
                assert_int_equal(verdict_of(LS_RULE_STALL_MULTIPLE, LS_CASE_TAKEOFF), want);
                if (large) {
                    assert_int_equal(verdict_of(LS_RULE_PEDAL, LS_CASE_LANDING), want); /* VMCL */
                }
            }
        }
    }
    make_jets(thrust_N, &aircraft);
    assess(&aircraft, "part23-amdt50");
    assert_int_equal(verdict_of(LS_RULE_PEDAL, LS_CASE_TAKEOFF), LS_VERDICT_NOT_ASSESSED); /* no data */
}

/* A landing flap that blankets the rudder. */
static void landing_configuration(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    make_jets(thrust_for(1.1), &aircraft);
    for (int spoilt = 0; spoilt < 2; spoilt++) {
        aircraft.flap[LANDING].delta_yaw_rudder = spoilt ? 0.040 : 0.0;
        ls_rule_verdict want = spoilt ? LS_VERDICT_NOT_MET : LS_VERDICT_MET;
        assess(&aircraft, "part23-amdt50");
        assert_int_equal(verdict_of(LS_RULE_BANK, LS_CASE_TAKEOFF), LS_VERDICT_MET);
        assert_int_equal(verdict_of(LS_RULE_BANK, LS_CASE_LANDING), want);
        assert_int_equal(result.not_met, spoilt);
        assess(&aircraft, "part25"); /* the take-off setting serves for the approach: the worse of the two rules */
        assert_int_equal(verdict_of(LS_RULE_BANK, LS_CASE_LANDING), want);
        assert_int_equal(result.speed[LS_CASE_LANDING].condition.gear, 1);
        assess(&aircraft, "part23-now");
        assert_int_equal(line_of(LS_RULE_SPEED_FOUND, LS_CASE_LANDING, 0)->verdict,
                         spoilt ? LS_VERDICT_NOT_ASSESSED : LS_VERDICT_VALUE);
    }
}

static void make_four(double thrust_N, ls_aircraft *aircraft)
{
    make_jets(thrust_N, aircraft);
    add_engine(aircraft, "left outer", -2.0 * arm_m);
    add_engine(aircraft, "right outer", 2.0 * arm_m);
}

/* VMCL fails the outer engine, VMCL-2 both of one side; each thrust moment by hand. */
static void two_engines_out(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    double thrust_N = 0.5 * thrust_for(1.1);
    make_four(thrust_N, &aircraft);
    add_pedal(500.0, 3.0 * thrust_N * arm_m, 2.0 * thrust_N, &aircraft);
    assess(&aircraft, "part25");
    const ls_rules_line *one = line_of(LS_RULE_SPEED_FOUND, LS_CASE_LANDING, 0);
    const ls_rules_line *both = line_of(LS_RULE_SPEED_FOUND, LS_CASE_TWO_OUT, 0);
    assert_true(one->failed == 4u || one->failed == 8u);
    assert_true(both->failed == 5u || both->failed == 10u);
    check_close("VMCL, m/s", one->figure, speed_of(2.0 * thrust_N * arm_m, 3.0 * thrust_N), 1e-6, BY_ROOT, EXACT);
    check_close("VMCL-2, m/s", both->figure, speed_of(3.0 * thrust_N * arm_m, 2.0 * thrust_N), 1e-6, BY_ROOT,
                EXACT);
    assert_int_equal(verdict_of(LS_RULE_BANK, LS_CASE_TWO_OUT), LS_VERDICT_MET);
    check_close("pedal force at VMCL-2, N", line_of(LS_RULE_PEDAL, LS_CASE_TWO_OUT, 0)->figure, 500.0, 1e-4,
                BY_ROOT, EXACT);
    assert_int_equal(verdict_of(LS_RULE_PEDAL, LS_CASE_TWO_OUT), LS_VERDICT_MET);
    aircraft.pedal.gearing_rad_m *= 1.4; /* 700 N with two out, less with one */
    assess(&aircraft, "part25");
    assert_int_equal(verdict_of(LS_RULE_PEDAL, LS_CASE_TWO_OUT), LS_VERDICT_NOT_MET);
    assert_int_equal(verdict_of(LS_RULE_PEDAL, LS_CASE_LANDING), LS_VERDICT_MET);
    aircraft.pedal.gearing_rad_m = NAN;
    aircraft.rudder.left_rad = aircraft.rudder.right_rad = 3.0 * DEG;
    assess(&aircraft, "cs25");
    assert_int_equal(verdict_of(LS_RULE_BANK, LS_CASE_TWO_OUT), LS_VERDICT_NOT_MET);
    make_jets(thrust_for(1.1), &aircraft);
    assess(&aircraft, "part25");
    assert_int_equal(verdict_of(LS_RULE_BANK, LS_CASE_TWO_OUT), LS_VERDICT_NOT_APPLICABLE);
    assert_int_equal(result.speed[LS_CASE_TWO_OUT].failed, 0);
}

/* VMCL-2: one propeller is feathered before the approach; it is worse when the outer one is left windmilling. */
static void one_feathered_one_windmilling(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    make_propellers(LS_ENGINE_TURBOPROP, 0.5 * thrust_for(1.1), &aircraft);
    add_engine(&aircraft, "left outer", -2.0 * arm_m);
    add_engine(&aircraft, "right outer", 2.0 * arm_m);
    aircraft.powerplant[0].propeller.windmilling_area_m2 = 0.3;
    aircraft.powerplant[0].propeller.feathered_area_m2 = 0.01;
    assess(&aircraft, "part25");
    const ls_rules_speed *both = &result.speed[LS_CASE_TWO_OUT];
    int side = both->failed == 5u ? 0 : 1;
    assert_int_equal(both->condition.state[side], LS_FEATHERED);
    assert_int_equal(both->condition.state[2 + side], LS_WINDMILLING);
}

/* Where the wing stalls first whichever engine fails, the outer engine's failure is the one that is shown. */
static void all_stall_first(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    make_four(0.1 * thrust_for(1.1), &aircraft);
    assess(&aircraft, "part25");
    const ls_rules_speed *speed = &result.speed[LS_CASE_TAKEOFF];
    assert_int_equal(speed->bound, -1);
    assert_true(speed->failed == 4u || speed->failed == 8u);
    assert_int_equal(verdict_of(LS_RULE_STALL_MULTIPLE, LS_CASE_TAKEOFF), LS_VERDICT_MET);
    assert_int_equal(line_of(LS_RULE_STALL_MULTIPLE, LS_CASE_TAKEOFF, 0)->bound, -1);
}

static double takeoff_speed(const char *paragraph)
{
    for (int i = 0; i < result.lines; i++) {
        if (strcmp(result.line[i].condition->paragraph, paragraph) == 0 &&
            result.line[i].verdict == LS_VERDICT_VALUE) {
            return result.line[i].figure / stall_m_s();
        }
    }
    return NAN;
}

static void takeoff_speeds(void **state)
{
    (void)state;
    static const struct {
        const char *basis, *paragraph;
        double multiple, want; /* of the stall speed: the minimum control speed, the scheduled speed */
        const char *source;
    } rows[] = {
        {"part23-amdt50", "23.51(a)(1)", 1.15, 1.05 * 1.15, CFR_23},
        {"part23-amdt50", "23.51(a)(1)", 1.02, 1.10, CFR_23},
        {"part23-amdt50", "23.51(b)(1)", 1.15, 1.10 * 1.15, CFR_23},
        {"part23-amdt50", "23.51(b)(1)", 1.02, 1.20, CFR_23},
        {"part23-amdt50", "23.51(a)(1)", 0.80, 1.10, CFR_23}, /* the wing stalls first */
        {"part25", "25.107(b)(1)", 1.10, 1.10 * 1.10, CFR_25},
        {"part25", "25.107(b)(1)", 1.02, 1.13, CFR_25},
        {"part25", "25.107(e)(1)(ii)", 1.10, 1.05 * 1.10, CFR_25},
    };
    ls_aircraft aircraft;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        make_jets(thrust_for(rows[i].multiple), &aircraft);
        assess(&aircraft, rows[i].basis);
        check_close("scheduled speed over stall speed", takeoff_speed(rows[i].paragraph), rows[i].want, 1e-6,
                    BY_ROOT, rows[i].source);
    }
}

/* V2MIN of four propellers: 1.10 VMC, or 1.10 times the stall that VMC lies below, which is more than 1.08 VSR. */
static void least_v2_of_four_propellers(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    for (int stalls_first = 0; stalls_first < 2; stalls_first++) {
        double thrust_N = (stalls_first ? 0.25 : 0.6) * thrust_for(1.02);
        make_propellers(LS_ENGINE_TURBOPROP, thrust_N, &aircraft);
        add_engine(&aircraft, "left outer", -2.0 * arm_m);
        add_engine(&aircraft, "right outer", 2.0 * arm_m);
        assess(&aircraft, "part25");
        double climb_rad = asin(3.0 * thrust_N / weight_N());
        double want = stalls_first ? sqrt(cos(5.0 * DEG) * cos(climb_rad))
                                   : speed_of(2.0 * thrust_N * arm_m, 3.0 * thrust_N) / stall_m_s();
        check_close("V2MIN of four propellers over stall speed", takeoff_speed("25.107(b)(2)"), 1.10 * want, 1e-6,
                    BY_ROOT, CFR_25);
        assert_true(isnan(takeoff_speed("25.107(b)(1)")));
    }
}

/* ---- the search, the failure, what cannot be -------------------------------------------------------------------
 */

static void loading_is_searched(void **state)
{
    (void)state;
    static ls_aircraft aircraft;
    uint64_t seed = 20240607;
    fleet_read("whimbrel", &aircraft);
    assess(&aircraft, "part23-amdt50");
    const ls_rules_speed *speed = &result.speed[LS_CASE_TAKEOFF];
    for (int i = check_scaled(300); i > 0; i--) {
        ls_condition condition = speed->condition;
        ls_model model;
        ls_vmc vmc;
        condition.mass_kg = check_random(&seed, aircraft.mass.minimum_kg, aircraft.mass.maximum_kg);
        condition.cg_aft_m = check_random(&seed, aircraft.cg.forward_m, aircraft.cg.aft_m);
        condition.cg_right_m = check_random(&seed, -aircraft.cg.lateral_m, aircraft.cg.lateral_m);
        assert_int_equal(ls_model_make(&aircraft, &condition, &model, NULL), LS_OK);
        assert_int_equal(ls_vmc_at(&model, condition.bank_rad, &vmc, NULL), LS_OK);
        check_between("speed at a random loading less that of the worst, m/s", vmc.cas_m_s - speed->cas_m_s, -50.0,
                      1e-7, "identity: nothing is worse than the worst");
    }
    ls_vmc slow;
    ls_model model;
    assert_int_equal(ls_model_make(&aircraft, &speed->condition, &model, NULL), LS_OK);
    assert_int_equal(ls_vmc_scan(&model, speed->condition.bank_rad, &slow, NULL), LS_OK);
    check_close("speed against the 0.1 kt scan, m/s", speed->cas_m_s, slow.cas_m_s, 1e-7, "root tolerance",
                "the plain scan");
}

/* 25.149(c)(4): maximum weight, and a lesser one only where the wing stalls first. */
static void weight_of_part_25(void **state)
{
    (void)state;
    static ls_aircraft aircraft;
    fleet_read("whimbrel", &aircraft);
    assess(&aircraft, "part25");
    check_close("mass, kg", result.speed[LS_CASE_TAKEOFF].condition.mass_kg, aircraft.mass.maximum_kg, 0.0,
                "exact", CFR_25);
    assert_int_equal(result.speed[LS_CASE_TAKEOFF].bound, 0);
    aircraft.mass.maximum_kg *= 1.8;
    assess(&aircraft, "part25");
    assert_true(result.speed[LS_CASE_TAKEOFF].condition.mass_kg < aircraft.mass.maximum_kg);
    assert_int_equal(result.speed[LS_CASE_TAKEOFF].bound, 0);
}

static void failed_propeller(void **state)
{
    (void)state;
    static ls_aircraft aircraft;
    ls_error error = {0};
    fleet_read("whimbrel", &aircraft);
    assess(&aircraft, "part23-amdt50");
    double windmilling_m_s = result.speed[LS_CASE_TAKEOFF].cas_m_s;
    assert_int_equal(result.speed[LS_CASE_TAKEOFF].condition.state[0], LS_WINDMILLING);
    assert_string_equal(line_of(LS_RULE_SET_PROPELLER, LS_CASE_TAKEOFF, 0)->note, "windmilling");
    aircraft.powerplant[0].propeller.feathering = LS_FEATHERS_AUTOMATICALLY;
    assess(&aircraft, "part23-amdt50");
    assert_int_equal(result.speed[LS_CASE_TAKEOFF].condition.state[0], LS_FEATHERED);
    assert_true(result.speed[LS_CASE_TAKEOFF].cas_m_s < windmilling_m_s);
    aircraft.powerplant[0].propeller.feather_pitch_rad = NAN;
    assert_int_equal(ls_rules_assess(&aircraft, ls_rules_find("part25"), &result, &error), LS_NO_STATE);
    assert_non_null(strstr(error.text, "cannot be feathered"));
    aircraft.engines = 1;
    error = (ls_error){0};
    assert_int_equal(ls_rules_assess(&aircraft, ls_rules_find("part25"), &result, &error), LS_NO_STATE);
    assert_non_null(strstr(error.text, "two engines"));
}

/* ---- climb -----------------------------------------------------------------------------------------------------
 * Engines on the centreline, but for a hand's width, and a parabolic polar: with one of two jets of constant
 * thrust the steepest climb is at CL = sqrt(CD0/k), with sin = T/W - 2 sqrt(CD0 k) cos (textbook performance). */

static const double induced = 0.05;

/* The thrust of one jet for a climb angle at a lift coefficient (0: that of the least drag). */
static double thrust_for_climb(double angle_rad, double drag_zero, double lift)
{
    double CL = lift > 0.0 ? lift : sqrt(drag_zero / induced);
    return weight_N() * (sin(angle_rad) + (drag_zero + induced * CL * CL) / CL * cos(angle_rad));
}

static void make_climber(double thrust_N, double drag_zero, ls_aircraft *aircraft)
{
    make_jets(thrust_N, aircraft);
    aircraft->engine[0].hub_right_m = -0.1;
    aircraft->engine[1].hub_right_m = 0.1;
    for (int i = 0; i < aircraft->flaps; i++) {
        aircraft->flap[i].drag_zero = drag_zero;
        aircraft->flap[i].drag_induced = induced;
    }
}

static const ls_rules_line *climb_line(const char *paragraph)
{
    for (int i = 0; i < result.lines; i++) {
        if (strcmp(result.line[i].condition->paragraph, paragraph) == 0) {
            return &result.line[i];
        }
    }
    fail_msg("no line %s", paragraph);
    return NULL;
}

static void climb_gradient_met_and_missed(void **state)
{
    (void)state;
    static const struct {
        const char *basis, *paragraph, *source;
        double percent;
    } rows[] = {{"part25", "25.121(b)", CFR_25, 2.4},
                {"part25", "25.121(c)", CFR_25, 1.2},
                {"part23-now", "23.2120(b)(1)", "14 CFR 23.2120(b)(1)", 1.5}};
    ls_aircraft aircraft;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        for (int miss = 0; miss < 2; miss++) {
            double gradient = rows[i].percent / 100.0 + (miss ? -1e-4 : 1e-4);
            make_climber(thrust_for_climb(atan(gradient), 0.02, 0.0), 0.02, &aircraft);
            assess(&aircraft, rows[i].basis);
            const ls_rules_line *line = climb_line(rows[i].paragraph);
            check_close("asked", 100.0 * line->required, rows[i].percent, 1e-9, "the number itself",
                        rows[i].source);
            check_close("climb gradient", line->figure, gradient, 2e-5, "drag of the sideslip and the controls",
                        EXACT);
            assert_int_equal(line->verdict, miss ? LS_VERDICT_NOT_MET : LS_VERDICT_MET);
        }
    }
}

/* Where the steepest climb would be slower than the paragraph allows, it is flown at the least speed allowed. */
static void climb_at_the_least_speed_allowed(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    double drag_zero = 0.16, lift = lift_max / (1.18 * 1.18),
           angle_rad = atan(0.03); /* CL of least drag is 1.79 */
    make_climber(thrust_for_climb(angle_rad, drag_zero, lift * cos(angle_rad)), drag_zero, &aircraft);
    /* lift is W cos(angle), so CL at a speed has that factor, and the drag over the weight follows from CL/cos */
    aircraft.powerplant[0].engine.thrust_N =
        weight_N() * (sin(angle_rad) + drag_zero / lift + induced * lift * pow(cos(angle_rad), 2));
    assess(&aircraft, "part25");
    const ls_rules_line *line = climb_line("25.121(c)");
    check_close("climb speed over the stall speed", line->climb_cas_m_s / stall_m_s(), 1.18, 1e-4,
                "compressibility of calibrated airspeed at 1500 ft", "14 CFR 25.107(g), from memory");
    check_close("gradient there", line->figure, tan(angle_rad), 4e-5, "CAS less EAS at 1500 ft; sideslip", EXACT);
    line = climb_line("25.121(a)"); /* VLOF is not known: reaching the limit at the best speed shows nothing */
    assert_int_equal(line->verdict, LS_VERDICT_NOT_ASSESSED);
    assert_true(line->figure > 0.0);
}

/* No speed of one engine can be held by a rudder without travel. */
static void climb_that_cannot_be_held(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    make_climber(0.2 * weight_N(), 0.02, &aircraft);
    aircraft.engine[0].hub_right_m = -4.0;
    aircraft.engine[1].hub_right_m = 4.0;
    aircraft.rudder.left_rad = aircraft.rudder.right_rad = 1e-3 * DEG;
    assess(&aircraft, "part23-now");
    const ls_rules_line *line = climb_line("23.2120(b)(1)");
    assert_int_equal(line->verdict, LS_VERDICT_NOT_MET);
    assert_true(isnan(line->figure));
    assert_non_null(strstr(line->note, "rudder"));
}

/* The figure is the least over the failures of the greatest over speeds, by a fine scan. */
static void climb_of_the_fleet_by_scan(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    fleet_read("whimbrel", &aircraft);
    assess(&aircraft, "part23-now");
    const ls_rules_line *line = climb_line("23.2120(b)(1)");
    double least = INFINITY;
    for (int failed = 0; failed < aircraft.engines; failed++) {
        ls_condition condition;
        ls_model model;
        double most = -INFINITY;
        ls_condition_takeoff(&aircraft, &condition);
        condition.altitude_m = 5000 * FT;
        condition.flap = 0; /* up */
        condition.is_continuous = 1;
        condition.state[failed] = LS_FEATHERED;
        assert_int_equal(ls_model_make(&aircraft, &condition, &model, NULL), LS_OK);
        for (double multiple = 1.0; multiple < 2.0; multiple += 0.005) {
            ls_climb_point point;
            ls_climb_rule rule = {LS_CLIMB_BANK_BEST, 0.0, 1.0};
            if (ls_climb_at(&model, rule, multiple * model.stall_V_m_s, &point, NULL) == LS_OK && point.is_held) {
                most = fmax(most, point.gradient);
            }
        }
        least = fmin(least, most);
    }
    check_close("gradient, by scan", line->figure, least, 1e-5, "the scan's step", "a scan of our own solver");
    check_close("and asked", line->required, 0.015, 1e-12, "the number itself", "14 CFR 23.2120(b)(1)");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(multiple_of_the_stall_speed),
        cmocka_unit_test(bank_and_power),
        cmocka_unit_test(pedal_force),
        cmocka_unit_test(landing_configuration),
        cmocka_unit_test(two_engines_out),
        cmocka_unit_test(all_stall_first),
        cmocka_unit_test(one_feathered_one_windmilling),
        cmocka_unit_test(takeoff_speeds),
        cmocka_unit_test(least_v2_of_four_propellers),
        cmocka_unit_test(loading_is_searched),
        cmocka_unit_test(weight_of_part_25),
        cmocka_unit_test(failed_propeller),
        cmocka_unit_test(climb_gradient_met_and_missed),
        cmocka_unit_test(climb_at_the_least_speed_allowed),
        cmocka_unit_test(climb_that_cannot_be_held),
        cmocka_unit_test(climb_of_the_fleet_by_scan),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
