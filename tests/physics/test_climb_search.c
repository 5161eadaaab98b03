/* The searches of climb against plain scans, the Whimbrel's bands, and what it all costs in time. */
#include "check.h"
#include "fleet.h"

#include "liveside/performance.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define DEG (3.14159265358979323846 / 180.0)
#define FT  0.3048
#define KT  (1852.0 / 3600.0)
#define FPM (FT / 60.0)
#define AFH "FAA-H-8083-3C, Airplane Flying Handbook, ch. 13"

enum { LEFT = 1u, RIGHT = 2u };

static const ls_climb_rule best_bank = {LS_CLIMB_BANK_BEST, 0.0, 1.0};

static const char *const fleet[] = {"whimbrel", "sanderling", "redshank", "barnacle"};

enum { FLEET = sizeof fleet / sizeof fleet[0] };

/* ---- searches against plain scans ---- */

/* The best of a grid of 0.05 kt among the speeds that can be held. */
static double grid_best(const ls_model *model, ls_climb_rule rule, ls_climb_aim aim, double low_m_s,
                        double high_m_s, double *V_m_s)
{
    double best = -INFINITY;
    for (double V = low_m_s; V <= high_m_s; V += 0.05 * KT) {
        ls_climb_point point;
        if (ls_climb_at(model, rule, V, &point, NULL) == LS_OK && point.is_held) {
            double value = aim == LS_CLIMB_RATE ? point.rate_m_s : point.gradient;
            *V_m_s = value > best ? V : *V_m_s;
            best = fmax(best, value);
        }
    }
    return best;
}

static void speeds_against_grid(void **state)
{
    (void)state;
    static const ls_engine_state states[] = {LS_RUNNING, LS_WINDMILLING, LS_FEATHERED, LS_STOPPED};
    for (int i = 0; i < 4 * FLEET; i++) {
        ls_aircraft aircraft;
        ls_condition condition;
        ls_model model;
        ls_climb_best best, near;
        fleet_read(fleet[i / 4], &aircraft);
        ls_condition_takeoff(&aircraft, &condition);
        ls_condition_fail_as(&aircraft, i % 4 == 0 ? 0u : LEFT, states[i % 4], &condition);
        assert_int_equal(ls_model_make(&aircraft, &condition, &model, NULL), LS_OK);
        for (int aim = 0; aim < 2; aim++) {
            double grid_m_s = NAN;
            ls_climb_rule rule = {i % 4 == 0 ? LS_CLIMB_BANK_GIVEN : LS_CLIMB_BANK_BEST, 0.0,
                                  aim == 0 ? 1.0 : 1.2};
            assert_int_equal(ls_climb_best_speed(&model, rule, (ls_climb_aim)aim, 0.0, &best, NULL), LS_OK);
            assert_true(best.point.is_held || best.end == LS_CLIMB_SLOWEST);
            double value = aim == 0 ? best.point.rate_m_s : best.point.gradient;
            double grid = grid_best(&model, rule, (ls_climb_aim)aim, best.low_m_s, best.high_m_s, &grid_m_s);
            check_between(aim == 0 ? "best rate above the grid's, m/s" : "best gradient above the grid's",
                          value - grid, -1e-6, aim == 0 ? 2e-3 : 1e-4, "a grid of 0.05 kt");
            check_close("best speed against the grid's, kt", best.point.V_m_s / KT, grid_m_s / KT, 0.3,
                        "the top is flat", "a grid of 0.05 kt");
            assert_int_equal(
                ls_climb_best_speed(&model, rule, (ls_climb_aim)aim, 1.04 * best.point.V_m_s, &near, NULL), LS_OK);
            check_close("search near an earlier answer against the whole range, m/s",
                        aim == 0 ? near.point.rate_m_s : near.point.gradient, value, 1e-6, "both flat at the top",
                        "the other search");
        }
    }
}

static void bank_against_grid(void **state)
{
    (void)state;
    ls_aircraft whimbrel;
    ls_condition condition;
    ls_model model;
    ls_climb_point best, zero;
    double grid = -INFINITY, V_m_s = 43.0;
    fleet_read("whimbrel", &whimbrel);
    ls_condition_takeoff(&whimbrel, &condition);
    ls_condition_fail_as(&whimbrel, RIGHT, LS_FEATHERED, &condition);
    assert_int_equal(ls_model_make(&whimbrel, &condition, &model, NULL), LS_OK);
    assert_int_equal(ls_climb_at(&model, best_bank, V_m_s, &best, NULL), LS_OK);
    for (double bank_deg = -5.0; bank_deg <= 5.0001; bank_deg += 0.01) {
        ls_climb_point point;
        ls_climb_rule rule = {LS_CLIMB_BANK_GIVEN, bank_deg * DEG, 0.0};
        assert_int_equal(ls_climb_at(&model, rule, V_m_s, &point, NULL), LS_OK);
        grid = fmax(grid, point.rate_m_s);
    }
    check_between("best bank's climb above the grid's, m/s", best.rate_m_s - grid, -1e-9, 1e-6,
                  "a grid of 0.01 deg");
    assert_true(best.bank_rad < 0.0 && !best.bank_end); /* toward the live left engine */
    ls_climb_rule no_sideslip = {LS_CLIMB_BANK_NO_SIDESLIP, 0.0, 0.0};
    assert_int_equal(ls_climb_at(&model, no_sideslip, V_m_s, &zero, NULL), LS_OK);
    check_close("sideslip at the bank of no sideslip, deg", zero.trim.beta_rad / DEG, 0.0, 1e-6,
                "root to 1e-9 rad", "its definition");
    condition.bank_limit_rad = 2.0 * DEG;
    assert_int_equal(ls_model_make(&whimbrel, &condition, &model, NULL), LS_OK);
    assert_int_equal(ls_climb_at(&model, best_bank, V_m_s, &best, NULL), LS_OK);
    assert_true(best.bank_end);
    check_close("best bank at a limit below it, deg", best.bank_rad / DEG, -2.0, 1e-3, "search to 1e-5 rad",
                "the limit");
}

/* The highest altitude of a scan in steps of 10 m at which the rate is reached. */
static double scan_ceiling(const ls_aircraft *aircraft, ls_condition condition, ls_climb_rule rule,
                           double rate_m_s, double from_m, double to_m)
{
    double highest = NAN;
    for (double h = from_m; h <= to_m; h += 10.0) {
        ls_model model;
        ls_climb_best best;
        condition.altitude_m = h;
        assert_int_equal(ls_model_make(aircraft, &condition, &model, NULL), LS_OK);
        assert_int_equal(ls_climb_best_speed(&model, rule, LS_CLIMB_RATE, 0.0, &best, NULL), LS_OK);
        highest = best.point.rate_m_s >= rate_m_s ? h : highest;
    }
    return highest;
}

static void ceilings_against_scan(void **state)
{
    (void)state;
    for (int i = 0; i < 2 * FLEET; i++) {
        ls_aircraft aircraft;
        ls_condition condition;
        ls_ceiling ceiling;
        unsigned failed = i % 2 == 0 ? 0u : LEFT;
        double rate_m_s = (i % 2 == 0 ? 100.0 : 50.0) * FPM;
        fleet_read(fleet[i / 2], &aircraft);
        ls_condition_takeoff(&aircraft, &condition);
        ls_condition_fail_as(&aircraft, failed, LS_FEATHERED, &condition);
        ls_climb_rule rule = {failed ? LS_CLIMB_BANK_BEST : LS_CLIMB_BANK_GIVEN, 0.0, LS_LEAST_STALLS};
        assert_int_equal(ls_climb_ceiling(&aircraft, &condition, rule, rate_m_s, 0.0, &ceiling, NULL), LS_OK);
        assert_int_equal(ceiling.kind, LS_CEILING_FOUND);
        check_close("rate of climb at the service ceiling, ft/min", ceiling.best.point.rate_m_s / FPM,
                    rate_m_s / FPM, 0.001, "altitude found to 0.01 m",
                    AFH ": 100 ft/min on every engine, 50 ft/min after a failure");
        double scan = scan_ceiling(&aircraft, condition, rule, rate_m_s, floor(ceiling.altitude_m) - 300.5,
                                   ceiling.altitude_m + 300.0);
        check_between("ceiling above the last altitude of a scan, m", ceiling.altitude_m - scan, -0.1, 10.1,
                      "a scan in steps of 10 m");
    }
}

/* Fastest and steepest climb are one at the absolute ceiling. */
static void speeds_meet(void **state)
{
    (void)state;
    ls_aircraft whimbrel;
    ls_condition condition;
    ls_ceiling ceiling;
    ls_model model;
    ls_climb_best rate, gradient;
    ls_climb_rule rule = {LS_CLIMB_BANK_BEST, 0.0, 1.0};
    fleet_read("whimbrel", &whimbrel);
    ls_condition_takeoff(&whimbrel, &condition);
    ls_condition_fail_as(&whimbrel, LEFT, LS_FEATHERED, &condition);
    assert_int_equal(ls_climb_ceiling(&whimbrel, &condition, rule, 0.0, 0.0, &ceiling, NULL), LS_OK);
    condition.altitude_m = ceiling.altitude_m;
    assert_int_equal(ls_model_make(&whimbrel, &condition, &model, NULL), LS_OK);
    assert_int_equal(ls_climb_best_speed(&model, rule, LS_CLIMB_RATE, 0.0, &rate, NULL), LS_OK);
    assert_int_equal(ls_climb_best_speed(&model, rule, LS_CLIMB_GRADIENT, 0.0, &gradient, NULL), LS_OK);
    check_close("VYSE less VXSE at the absolute ceiling, kt", (rate.point.V_m_s - gradient.point.V_m_s) / KT, 0.0,
                0.02, "both flat at the top",
                "D. F. Anderson and S. Eberhardt, Understanding Flight (2001), fig. 7.8");
}

/* ---- the Whimbrel ---- */

static void solve_whimbrel(ls_aircraft *whimbrel, ls_performance_request *request, ls_performance *performance)
{
    fleet_read("whimbrel", whimbrel);
    *request = (ls_performance_request){.aircraft = whimbrel, .state = -1, .sets = 2, .set = {LEFT, RIGHT}};
    ls_condition_takeoff(whimbrel, &request->condition);
    assert_int_equal(ls_performance_solve(request, NULL, performance, NULL), LS_OK);
}

static void whimbrel_bands(void **state)
{
    (void)state;
    ls_aircraft whimbrel;
    ls_performance_request request;
    static ls_performance performance;
    ls_climb_by_bank banks;
    ls_costs costs;
    solve_whimbrel(&whimbrel, &request, &performance);
    const ls_performance_case *one = ls_performance_worst(&performance);
    assert_non_null(one);
    assert_int_equal(one->state, LS_FEATHERED);
    check_between(
        "climb lost with an engine failed and feathered, %", 100.0 * one->lost, 75, 95,
        "the aeroplane's brief; a light twin of a published type history, 1248 and 235 ft/min, loses 81.2 %");
    const ls_performance_set *set = &performance.set[performance.worst];
    check_between("climb lost with the propeller windmilling, %", 100.0 * set->by_state[0].lost, 75, 95,
                  "the aeroplane's brief");
    ls_climb_by_bank_solve(one, &whimbrel, one->rate.point.V_m_s, &banks);
    ls_costs_solve(&request, one, one->rate.point.V_m_s, &costs);
    check_close("bank of best climb against bank of no sideslip, deg", banks.best.bank_rad / DEG,
                banks.no_sideslip.bank_rad / DEG, 1.0, "the aeroplane's brief", AFH ": zero sideslip climbs best");
    check_between("bank of no sideslip at VYSE, deg", banks.no_sideslip.bank_rad / DEG, 1.0, 3.5,
                  AFH ": 1.5 to 2.5 deg; the aeroplane's brief: 1 to 3.5 deg");
    check_between("ball at the bank of no sideslip, widths of 5 deg", banks.no_sideslip.bank_rad / (5.0 * DEG),
                  0.2, 0.8, AFH ": a third to a half out toward the live engine");
    double windmilling = NAN, wings_level = NAN, feathered = NAN;
    for (int i = 0; i < costs.count; i++) {
        windmilling =
            strcmp(costs.cost[i].name, "propeller windmilling") == 0 ? costs.cost[i].rate_m_s : windmilling;
        feathered = strcmp(costs.cost[i].name, "propeller feathered") == 0 ? costs.cost[i].rate_m_s : feathered;
        wings_level = strcmp(costs.cost[i].name, "wings level") == 0 ? costs.cost[i].rate_m_s : wings_level;
    }
    check_between("windmilling propeller's cost over that of wings level", windmilling / wings_level, 1.0, 10.0,
                  "common practice: feather first");
    assert_true(feathered < 0.2 * windmilling);
    check_close("cost of wings level against the climb table, m/s", wings_level,
                banks.best.point.rate_m_s - banks.level.point.rate_m_s, 1e-6, "the same trims", "identity");
}

/* Every engine is the reference: nothing lost without a failure; the ceilings are in order. */
static void whimbrel_order(void **state)
{
    (void)state;
    ls_aircraft whimbrel;
    ls_performance_request request;
    static ls_performance performance;
    ls_heights heights;
    ls_field field;
    solve_whimbrel(&whimbrel, &request, &performance);
    const ls_performance_case *one = ls_performance_worst(&performance);
    assert_true(one->service.altitude_m < one->absolute.altitude_m);
    assert_true(one->absolute.altitude_m < performance.all.service.altitude_m);
    ls_heights_solve(&request, one, 1000.0, 8, &heights);
    int found = 0;
    for (int i = 0; i < heights.crossings; i++) {
        if (heights.crossing[i].first == LS_MARGIN_VXSE && heights.crossing[i].second == LS_MARGIN_VYSE) {
            found = 1;
            check_close("altitude where VXSE meets VYSE less absolute ceiling, m", heights.crossing[i].altitude_m,
                        one->absolute.altitude_m, 15.0, "crossing found to 1 m from flat optima", "identity");
        }
    }
    assert_true(found);
    ls_field_solve(&request, one, &field);
    assert_int_equal(field.cases, 4);
    for (int i = 1; i < field.cases; i++) { /* gear down windmilling, feathered, gear up windmilling, feathered */
        assert_true(field.of[i].solved.rate.point.rate_m_s > field.of[i - 1].solved.rate.point.rate_m_s);
    }
    check_close("rate of the table at sea level on a standard day, m/s", field.rate_m_s[0][1],
                one->rate.point.rate_m_s, 1e-6, "the same search", "identity");
}

/* Where it cannot hold level the heaviest mass that can is found, and holds it exactly. */
static void heaviest(void **state)
{
    (void)state;
    ls_aircraft whimbrel;
    ls_performance_request request;
    static ls_performance performance;
    ls_field field;
    fleet_read("whimbrel", &whimbrel);
    request = (ls_performance_request){.aircraft = &whimbrel, .state = -1, .sets = 1, .set = {LEFT}};
    ls_condition_takeoff(&whimbrel, &request.condition);
    request.condition.altitude_m = 2000.0;
    request.condition.isa_offset_K = 20.0;
    assert_int_equal(ls_performance_solve(&request, NULL, &performance, NULL), LS_OK);
    ls_field_solve(&request, ls_performance_worst(&performance), &field);
    const ls_field_case *windmilling = &field.of[0];
    assert_true(windmilling->solved.rate.point.rate_m_s < 0.0);
    assert_int_equal(windmilling->heaviest, LS_HEAVIEST_FOUND);
    ls_condition condition = windmilling->solved.condition;
    condition.mass_kg = windmilling->heaviest_kg;
    ls_model model;
    ls_climb_best best;
    assert_int_equal(ls_model_make(&whimbrel, &condition, &model, NULL), LS_OK);
    assert_int_equal(ls_climb_best_speed(&model, windmilling->solved.rule, LS_CLIMB_RATE, 0.0, &best, NULL),
                     LS_OK);
    check_close("climb at the heaviest mass that holds level, ft/min", best.point.rate_m_s / FPM, 0.0, 1e-3,
                "mass found to 1 g", "its definition");
}

/* All that the command works out, in processor time; only at full size, for sanitizers and valgrind are slow. */
static void cost_in_time(void **state)
{
    (void)state;
    static ls_performance performance;
    static ls_climb_lines lines;
    for (int i = 0; i < FLEET && getenv("LS_TEST_SCALE") == NULL; i++) {
        ls_aircraft aircraft;
        ls_performance_request request = {.aircraft = &aircraft, .state = -1};
        ls_climb_by_bank banks;
        ls_costs costs;
        ls_heights heights;
        ls_field field;
        ls_drift drift;
        fleet_read(fleet[i], &aircraft);
        ls_condition_takeoff(&aircraft, &request.condition);
        request.sets = ls_vmca_sets(&aircraft, request.set);
        clock_t start = clock();
        assert_int_equal(ls_performance_solve(&request, NULL, &performance, NULL), LS_OK);
        const ls_performance_case *one = ls_performance_worst(&performance);
        ls_climb_lines_solve(&request, &performance, 70.0 * KT, 2.5 * KT, &lines);
        ls_climb_by_bank_solve(one, &aircraft, one->rate.point.V_m_s, &banks);
        ls_costs_solve(&request, one, one->rate.point.V_m_s, &costs);
        ls_heights_solve(&request, one, 2000.0 * FT, 13, &heights);
        ls_field_solve(&request, one, &field);
        ls_drift_solve(one, &aircraft, performance.all.service.altitude_m, &drift);
        check_between("processor time of the whole study, s", (double)(clock() - start) / CLOCKS_PER_SEC, 0.0, 1.0,
                      "the brief");
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(speeds_against_grid),
        cmocka_unit_test(bank_against_grid),
        cmocka_unit_test(ceilings_against_scan),
        cmocka_unit_test(speeds_meet),
        cmocka_unit_test(whimbrel_bands),
        cmocka_unit_test(whimbrel_order),
        cmocka_unit_test(heaviest),
        cmocka_unit_test(cost_in_time),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
