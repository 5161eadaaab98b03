/* Climb gradients of the rules: on the aeroplanes of rules_jets.h in closed form, on the fleet by a scan. */
#include "rules_jets.h"

#include "liveside/climb.h"

/* ---- climb -----------------------------------------------------------------------------------------------------
 * Engines on the centreline, but for a hand's width, and a parabolic polar: with one of two jets of constant
 * thrust the steepest climb is at CL = sqrt(CD0/k), with sin = T/W - 2 sqrt(CD0 k) cos (textbook performance). */

static const double induced = 0.05;

/* The thrust of one jet for a climb angle, at the speed of least drag. */
static double thrust_at_best(double angle_rad, double drag_zero)
{
    return weight_N() * (sin(angle_rad) + 2.0 * sqrt(drag_zero * induced) * cos(angle_rad));
}

/* The same at a speed, given as the lift coefficient of level flight there. */
static double thrust_at_speed(double angle_rad, double drag_zero, double level_lift)
{
    return weight_N() * (sin(angle_rad) + drag_zero / level_lift + induced * level_lift * pow(cos(angle_rad), 2));
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

/* A hundredth of a percent decides. An approach climb that is missed at maximum weight says nothing of the landing
 * weight; a take-off climb at VLOF that is reached at a faster speed says nothing of VLOF. */
static void climb_gradient_met_and_missed(void **state)
{
    (void)state;
    const ls_rule_verdict MET = LS_VERDICT_MET, NOT_MET = LS_VERDICT_NOT_MET, OPEN = LS_VERDICT_NOT_ASSESSED;
    const struct {
        const char *basis, *paragraph, *source;
        double percent, stalls; /* most stall speeds of the landing setting (lift_max 2.2); 0: any speed */
        ls_rule_verdict reached, missed;
    } rows[] = {
        {"part25", "25.121(a)", CFR_25, 0.0, 0.0, OPEN, NOT_MET},
        {"part25", "25.121(b)", CFR_25, 2.4, 0.0, MET, NOT_MET},
        {"part25", "25.121(c)", CFR_25, 1.2, 0.0, MET, NOT_MET},
        {"part25", "25.121(d)", CFR_25, 2.1, 1.4, MET, OPEN},
        {"cs25", "CS 25.121(b)", "CS 25.121, from memory", 2.4, 0.0, MET, NOT_MET},
        {"cs25", "CS 25.121(c)", "CS 25.121, from memory", 1.2, 0.0, MET, NOT_MET},
        {"part23-amdt50", "23.67(b)(1)", "14 CFR 23.67 at Amdt 23-50, from memory", 0.0, 0.0, MET, NOT_MET},
        {"part23-amdt50", "23.67(b)(2)", CFR_23, 0.75, 0.0, MET, NOT_MET},
        {"part23-amdt50", "23.67(c)(1)", "14 CFR 23.67(c), from memory", 0.0, 0.0, MET, NOT_MET},
        {"part23-amdt50", "23.67(c)(2)", "14 CFR 23.67(c), from memory", 2.0, 0.0, MET, NOT_MET},
        {"part23-amdt50", "23.67(c)(3)", "14 CFR 23.67(c), from memory", 1.2, 0.0, MET, NOT_MET},
        {"part23-amdt50", "23.67(c)(4)", "14 CFR 23.67(c), from memory", 2.1, 1.5, MET, OPEN},
        {"part23-now", "23.2120(b)(1)", "14 CFR 23.2120(b)(1)", 1.5, 0.0, MET, NOT_MET},
        {"part23-now", "23.2120(b)(2)", "14 CFR 23.2120(b)(2)", 1.0, 0.0, MET, NOT_MET},
        {"part23-now", "23.2120(b)(3)", "14 CFR 23.2120(b)(3)", 2.0, 0.0, MET, OPEN},
    };
    const double drag_zero = 0.02;
    ls_aircraft aircraft;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        for (int miss = 0; miss < 2; miss++) {
            double gradient = rows[i].percent / 100.0 + (miss ? -1e-4 : 1e-4), angle_rad = atan(gradient);
            double level_lift = 2.2 / (rows[i].stalls * rows[i].stalls);
            make_climber(rows[i].stalls > 0.0 ? thrust_at_speed(angle_rad, drag_zero, level_lift)
                                              : thrust_at_best(angle_rad, drag_zero),
                         drag_zero, &aircraft);
            assess(&aircraft, rows[i].basis);
            const ls_rules_line *line = climb_line(rows[i].paragraph);
            check_close("asked, percent", 100.0 * line->required, rows[i].percent, 1e-9, "the number itself",
                        rows[i].source);
            check_close("climb gradient", line->figure, gradient, 3e-5, "drag of the sideslip and the controls",
                        EXACT);
            assert_int_equal(line->verdict, miss ? rows[i].missed : rows[i].reached);
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
    make_climber(thrust_at_speed(angle_rad, drag_zero, lift), drag_zero, &aircraft);
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
        cmocka_unit_test(climb_gradient_met_and_missed),
        cmocka_unit_test(climb_at_the_least_speed_allowed),
        cmocka_unit_test(climb_that_cannot_be_held),
        cmocka_unit_test(climb_of_the_fleet_by_scan),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
