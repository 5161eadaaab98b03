/* The requirement data: whole, with the published numbers, and for the right aeroplanes. */
#include "check.h"
#include "fleet.h"

#include "liveside/rules.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

#define DEG    (3.14159265358979323846 / 180.0)
#define LB     0.45359237
#define LBF    (LB * 9.80665)
#define FT     0.3048
#define KT     (1852.0 / 3600.0)
#define CFR_23 "14 CFR 23.149, 23.66, 23.67 at Amdt 23-50"
#define CFR_25 "14 CFR 25.149, 25.121"

/* ---- data ------------------------------------------------------------------------------------------------------
 */

static int is_paragraph(const char *text, const char *prefix)
{
    return strncmp(text, prefix, strlen(prefix)) == 0 && isdigit((unsigned char)text[strlen(prefix)]);
}

static void every_row_is_whole(void **state)
{
    (void)state;
    int bases;
    const ls_rule_basis *basis = ls_rules_bases(&bases);
    assert_true(bases >= 5);
    for (int i = 0; i < bases; i++) {
        assert_true(basis[i].name[0] && basis[i].title[0] && basis[i].applies_to[0]);
        assert_true(basis[i].count > 0 && basis[i].count <= LS_RULES_LINES);
        assert_ptr_equal(ls_rules_find(basis[i].name), &basis[i]);
        for (int other = 0; other < i; other++) {
            assert_string_not_equal(basis[i].name, basis[other].name);
        }
        for (int k = 0; k < basis[i].count; k++) {
            const ls_rule_condition *row = &basis[i].condition[k];
            assert_true(is_paragraph(row->paragraph, basis[i].name[0] == 'c' ? "CS " : ""));
            assert_true(row->text[0] && row->read[0]);
            assert_non_null(row->not_shown);
            assert_true((row->kind == LS_RULE_CLIMB) == (row->climb != NULL));
            assert_true(row->kind != LS_RULE_TAKEOFF_SPEED || (row->vmc_multiple >= 1.0 && row->speed != NULL));
            assert_true(row->kind < LS_RULE_STALL_MULTIPLE || row->kind > LS_RULE_NO_POWER_CUT ||
                        row->limit > 0.0);
        }
    }
    assert_null(ls_rules_find("part23"));
    assert_string_equal(ls_rule_verdict_text(LS_VERDICT_NOT_MET), "not met");
}

static void numbers_of_the_paragraphs(void **state)
{
    (void)state;
    static const struct {
        const char *basis, *paragraph;
        ls_rule_kind kind;
        double limit;
        const char *source;
    } rows[] = {
        {"part23-amdt50", "23.149(a)", LS_RULE_BANK, 5 * DEG, CFR_23},
        {"part23-amdt50", "23.149(b)", LS_RULE_STALL_MULTIPLE, 1.2, CFR_23},
        {"part23-amdt50", "23.149(e)", LS_RULE_PEDAL, 150 * LBF, CFR_23},
        {"part23-amdt50", "23.149(e)", LS_RULE_HEADING, 20 * DEG, CFR_23},
        {"cs23", "CS 23.149(b)", LS_RULE_STALL_MULTIPLE, 1.2, "CS-23 before Amdt 5, from memory"},
        {"part25", "25.149(b)", LS_RULE_BANK, 5 * DEG, CFR_25},
        {"part25", "25.149(c)", LS_RULE_STALL_MULTIPLE, 1.13, CFR_25},
        {"part25", "25.149(d)", LS_RULE_PEDAL, 150 * LBF, CFR_25},
        {"part25", "25.149(e)", LS_RULE_GROUND, 30 * FT, CFR_25},
        {"part25", "25.149(h)(3)", LS_RULE_ROLL, 5, CFR_25},
        {"cs25", "CS 25.149(h)(1)", LS_RULE_PEDAL, 667, "CS 25.149(h)(1)"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const ls_rule_basis *basis = ls_rules_find(rows[i].basis);
        int found = 0;
        for (int k = 0; k < basis->count; k++) {
            const ls_rule_condition *row = &basis->condition[k];
            if (strcmp(row->paragraph, rows[i].paragraph) == 0 && row->kind == rows[i].kind) {
                check_close("limit of a paragraph, SI", row->limit, rows[i].limit, 1e-12, "the number itself",
                            rows[i].source);
                found = 1;
            }
        }
        assert_true(found);
    }
    int bases;
    const ls_rule_basis *basis = ls_rules_bases(&bases);
    for (int i = 0; i < bases; i++) { /* the speeds are found with the limits that the rows ask */
        for (int k = 0; k < basis[i].count; k++) {
            const ls_rule_condition *row = &basis[i].condition[k];
            assert_true(row->kind != LS_RULE_BANK || row->limit == basis[i].bank_rad);
            assert_true(row->kind != LS_RULE_PEDAL || row->limit == basis[i].pedal_force_N);
        }
    }
}

static ls_aircraft aircraft;

static ls_rule_applies apply(const char *basis, const char *paragraph)
{
    const ls_rule_basis *b = ls_rules_find(basis);
    for (int i = 0; paragraph != NULL && i < b->count; i++) {
        if (strcmp(b->condition[i].paragraph, paragraph) == 0) {
            return ls_rules_apply(&aircraft, &b->condition[i].scope);
        }
    }
    assert_null(paragraph);
    return ls_rules_apply(&aircraft, &b->scope);
}

static void weights_and_engines(void **state)
{
    (void)state;
    static const struct {
        double mass_lb;
        int type;
        const char *basis, *paragraph;
        ls_rule_applies want;
    } rows[] = {
        {6000, LS_ENGINE_PISTON, "part23-amdt50", "23.149(c)", LS_APPLIES_NO},
        {6001, LS_ENGINE_PISTON, "part23-amdt50", "23.149(c)", LS_APPLIES_YES},
        {3000, LS_ENGINE_TURBOPROP, "part23-amdt50", "23.149(c)", LS_APPLIES_YES},
        {3000, LS_ENGINE_ELECTRIC, "part23-amdt50", "23.149(c)", LS_APPLIES_UNKNOWN},
        {6000, LS_ENGINE_PISTON, "part23-amdt50", "23.67(b)(2)", LS_APPLIES_NO},
        {6001, LS_ENGINE_PISTON, "part23-amdt50", "23.67(b)(2)", LS_APPLIES_YES},
        {6001, LS_ENGINE_PISTON, "part23-amdt50", "23.67(a)(2)", LS_APPLIES_NO},
        {12500, LS_ENGINE_TURBOPROP, "part23-amdt50", "23.51(a)(1)", LS_APPLIES_YES},
        {12501, LS_ENGINE_TURBOPROP, "part23-amdt50", "23.51(a)(1)", LS_APPLIES_NO},
        {12501, LS_ENGINE_TURBOPROP, "part23-amdt50", "23.51(c)(4)", LS_APPLIES_UNKNOWN},
        {19000, LS_ENGINE_TURBOPROP, "part23-amdt50", NULL, LS_APPLIES_YES},
        {19001, LS_ENGINE_TURBOPROP, "part23-amdt50", NULL, LS_APPLIES_NO},
        {12500, LS_ENGINE_JET, "part25", NULL, LS_APPLIES_NO},
        {12501, LS_ENGINE_JET, "part25", NULL, LS_APPLIES_YES},
        {30000, LS_ENGINE_PISTON, "cs25", NULL, LS_APPLIES_NO},
        {30000, LS_ENGINE_JET, "cs25", NULL, LS_APPLIES_YES},
        {30000, LS_ENGINE_JET, "part25", "25.149(g)", LS_APPLIES_NO},
        {3000, LS_ENGINE_ELECTRIC, "part23-now", NULL, LS_APPLIES_YES},
        {3000, LS_ENGINE_ELECTRIC, "cs23", NULL, LS_APPLIES_UNKNOWN},
    };
    fleet_read("whimbrel", &aircraft);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        aircraft.mass.maximum_kg = rows[i].mass_lb * LB;
        aircraft.powerplant[0].engine.type = rows[i].type;
        if (apply(rows[i].basis, rows[i].paragraph) != rows[i].want) {
            fail_msg("%s %s at %.0f lb", rows[i].basis, rows[i].paragraph, rows[i].mass_lb);
        }
    }
    aircraft.engines = 3;
    assert_int_equal(apply("part25", "25.149(g)"), LS_APPLIES_YES);
    aircraft.engines = 1;
    assert_int_equal(apply("part23-amdt50", NULL), LS_APPLIES_NO);
}

/* VS0 from weight, area and lift alone, put a hair to either side of 61 kt. */
static void landing_stall_of_61_kt(void **state)
{
    (void)state;
    fleet_read("whimbrel", &aircraft);
    int landing = ls_flap_find(&aircraft, "landing");
    for (int fast = 0; fast < 2; fast++) {
        double stall_m_s = 61 * KT * (fast ? 1.0001 : 0.9999);
        aircraft.flap[landing].lift_max = 2.0 * aircraft.mass.maximum_kg * LS_G0_M_S2 /
                                          (LS_AIR_RHO0_KG_M3 * aircraft.wing.area_m2 * stall_m_s * stall_m_s);
        assert_int_equal(apply("part23-amdt50", "23.67(a)(1)"), fast ? LS_APPLIES_YES : LS_APPLIES_NO);
        assert_int_equal(apply("part23-amdt50", "23.67(a)(2)"), fast ? LS_APPLIES_NO : LS_APPLIES_YES);
    }
}

static ls_rules_climb climb[LS_RULES_LINES];

static const ls_rules_climb *climb_of(const char *basis, const char *paragraph)
{
    int count = ls_rules_climb_required(&aircraft, ls_rules_find(basis), climb, LS_RULES_LINES);
    for (int i = 0; i < count; i++) {
        if (strcmp(climb[i].condition->paragraph, paragraph) == 0) {
            return &climb[i];
        }
    }
    return NULL;
}

static void climb_gradients(void **state)
{
    (void)state;
    static const struct {
        const char *basis, *paragraph;
        double percent[3], height_ft;
        const char *flap, *source;
        double gear;
    } rows[] = {
        {"part25", "25.121(a)", {0, 0.3, 0.5}, 0, "approach", CFR_25, 1},
        {"part25", "25.121(b)", {2.4, 2.7, 3.0}, 400, "approach", CFR_25, 0},
        {"part25", "25.121(c)", {1.2, 1.5, 1.7}, 1500, "up", CFR_25, 0},
        {"part25", "25.121(d)", {2.1, 2.4, 2.7}, 0, "approach", CFR_25, 0},
        {"cs25", "CS 25.121(b)", {2.4, 2.7, 3.0}, 400, "approach", "CS 25.121, from memory", 0},
        {"part23-amdt50",
         "23.67(b)(1)",
         {0, 0, 0},
         400,
         "approach",
         "14 CFR 23.67(b)(1) at Amdt 23-50, from memory",
         0},
        {"part23-amdt50", "23.67(b)(2)", {0.75, 0.75, 0.75}, 1500, "up", CFR_23, 0},
        {"part23-now", "23.2120(b)(1)", {1.5, 1.5, 1.5}, 5000, "up", "14 CFR 23.2120", 0},
        {"part23-now", "23.2120(b)(2)", {1, 1, 1}, 400, "approach", "14 CFR 23.2120", 0},
        {"part23-now", "23.2120(b)(3)", {2, 2, 2}, 400, "approach", "14 CFR 23.2120", 0},
    };
    fleet_read("whimbrel", &aircraft);
    aircraft.powerplant[0].engine.type = LS_ENGINE_TURBOPROP;
    aircraft.takeoff.flap = ls_flap_find(&aircraft, "approach");
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        for (int engines = 2; engines <= 4; engines++) {
            aircraft.engines = engines;
            const ls_rules_climb *it = climb_of(rows[i].basis, rows[i].paragraph);
            assert_non_null(it);
            check_close("least climb gradient, percent", 100.0 * it->gradient, rows[i].percent[engines - 2], 1e-12,
                        "the number itself", rows[i].source);
            check_close("its height, ft", it->flown.altitude_m / FT, rows[i].height_ft, 1e-9, "the number itself",
                        rows[i].source);
            assert_string_equal(aircraft.flap[it->flown.flap].name, rows[i].flap);
            assert_true(it->flown.gear == rows[i].gear);
        }
    }
    aircraft.engines = 5;
    assert_true(isnan(climb_of("part25", "25.121(b)")->gradient));
}

static void climb_of_a_light_twin(void **state)
{
    (void)state;
    fleet_read("whimbrel", &aircraft);
    int landing = ls_flap_find(&aircraft, "landing");
    aircraft.flap[landing].lift_max = 1.5; /* VS0 above 61 kt */
    const ls_rules_climb *it = climb_of("part23-amdt50", "23.67(a)(1)");
    assert_non_null(it);
    assert_int_equal(it->applies, LS_APPLIES_YES);
    check_close("gradient, percent", 100.0 * it->gradient, 1.5, 1e-12, "the number itself", CFR_23);
    check_close("pressure altitude, ft", it->flown.altitude_m / FT, 5000, 1e-9, "the number itself", CFR_23);
    double stall_m_s = sqrt(2.0 * aircraft.mass.maximum_kg * LS_G0_M_S2 /
                            (LS_AIR_RHO0_KG_M3 * aircraft.wing.area_m2 * aircraft.flap[0].lift_max));
    check_close("least climb speed, m/s", it->least_cas_m_s, 1.2 * stall_m_s, 1e-9, "round-off", CFR_23);
    assert_null(climb_of("part23-amdt50", "23.67(a)(2)"));
    assert_null(climb_of("part23-amdt50", "23.67(b)(1)"));
    assert_null(climb_of("part23-amdt50", "23.67(c)(2)"));
    assert_int_equal(climb_of("part23-now", "23.2120(b)(2)")->applies, LS_APPLIES_UNKNOWN);
    int all = ls_rules_climb_required(&aircraft, ls_rules_find("part23-amdt50"), climb, LS_RULES_LINES);
    assert_int_equal(ls_rules_climb_required(&aircraft, ls_rules_find("part23-amdt50"), climb, 1), all);
    aircraft.flap[landing].lift_max = 2.05;
    assert_true(isnan(climb_of("part23-amdt50", "23.67(a)(2)")->gradient)); /* to be determined only */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_row_is_whole),  cmocka_unit_test(numbers_of_the_paragraphs),
        cmocka_unit_test(weights_and_engines), cmocka_unit_test(landing_stall_of_61_kt),
        cmocka_unit_test(climb_gradients),     cmocka_unit_test(climb_of_a_light_twin),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
