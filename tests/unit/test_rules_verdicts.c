/* Verdicts on the aeroplanes of rules_jets.h, made to meet or to miss each condition. */
#include "rules_jets.h"

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
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
