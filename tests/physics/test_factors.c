/* Every factor against the direction that is taught, on the demo aeroplanes; where one of them disagrees the
 * reason stands beside the check. */
#include "check.h"
#include "edited.h"
#include "fleet.h"

#include "liveside/doubt.h"
#include "liveside/factors.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define KT     (1852.0 / 3600.0)
#define FPM    (0.3048 / 60.0)
#define COMMON "common practice"
#define AFH    "FAA Airplane Flying Handbook, FAA-H-8083-3C, ch. 13"

static ls_factors found;

static void solve(const ls_aircraft *aircraft, int state, ls_factors *factors)
{
    ls_vmca_request request = {.state = state, .search = LS_SEARCH_ALL};
    ls_error error = {0};
    ls_condition_takeoff(aircraft, &request.condition);
    request.sets = ls_vmca_sets(aircraft, request.set);
    assert_int_equal(ls_factors_solve(aircraft, NULL, &request, NULL, factors, &error), LS_OK);
}

static const ls_factor_result *row_of(const ls_factors *factors, ls_factor_kind kind)
{
    for (int i = 0; i < factors->rows; i++) {
        if (factors->row[i].kind == kind) {
            return &factors->row[i];
        }
    }
    fail();
    return NULL;
}

static void as_taught_on_the_whimbrel(void **state)
{
    (void)state;
    static const struct {
        ls_factor_kind kind;
        const char *what;
        double low_kt, high_kt;
        const char *source; /* a text for each, so that the page of results lists each */
    } rows[] = {
        {LS_FACTOR_POWER, "Whimbrel, VMC, power 100 to 90 %: lower, kt", -6, -1, COMMON ": less power, lower"},
        {LS_FACTOR_ALTITUDE, "Whimbrel, VMC, 0 to 4000 ft: lower, kt", -9, -2, COMMON ": higher, lower"},
        {LS_FACTOR_TEMPERATURE, "Whimbrel, VMC, 20 degC warmer: lower, kt", -6, -1, COMMON ": warmer, lower"},
        {LS_FACTOR_WEIGHT_LEVEL, "Whimbrel, VMC, light to heavy, wings level: the same, kt", -0.5, 0.5,
         COMMON ": weight counts by bank alone"},
        {LS_FACTOR_WEIGHT_BANKED, "Whimbrel, VMC, light to heavy at 5 deg: lower, kt", -5, -1,
         COMMON ": heavier, lower"},
        {LS_FACTOR_CG, "Whimbrel, VMC, forward to aft at 5 deg: higher, kt", 0.5, 5, COMMON ": aft, higher"},
        {LS_FACTOR_BANK_TOWARD, "Whimbrel, VMC, level to 5 deg toward the live engine: lower, kt", -20, -5,
         AFH ": bank toward the live engine, lower"},
        {LS_FACTOR_BANK_AWAY, "Whimbrel, VMC, level to 5 deg toward the dead engine: higher, kt", 4, 20,
         AFH ": bank away, higher"},
        {LS_FACTOR_FLAP, "Whimbrel, VMC, flap up to approach: lower, kt", -5, -0.05, COMMON ": flap, lower"},
        {LS_FACTOR_FEATHERED, "Whimbrel, VMC, windmilling to feathered: lower, kt", -6, -1,
         AFH ": feathered, lower"},
        {LS_FACTOR_LEVER_AFT, "Whimbrel, VMC, lever of the dead propeller aft: lower, kt", -4, -0.01,
         COMMON ": lever aft, lower"},
        {LS_FACTOR_OTHER_ENGINE, "Whimbrel, VMC, critical to the other engine: lower, kt", -6, -0.5,
         AFH ": the critical engine is the worse"},
        {LS_FACTOR_TURBOCHARGED, "Whimbrel at 8000 ft, VMC, turbocharged: higher, kt", 2, 15,
         COMMON ": power held, higher"},
    };
    ls_aircraft whimbrel;
    fleet_read("whimbrel", &whimbrel);
    solve(&whimbrel, -1, &found);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const ls_factor_result *row = row_of(&found, rows[i].kind);
        assert_int_equal(row->vmc_state, LS_FACTOR_COMPUTED);
        check_between(rows[i].what, row->vmc.change / KT, rows[i].low_kt, rows[i].high_kt, rows[i].source);
        if (rows[i].kind == LS_FACTOR_LEVER_AFT) { /* it turns little faster there than the lever's least speed */
            assert_true(row->agreement == LS_AGREES || row->agreement == LS_WITHIN_DOUBT);
        } else {
            assert_int_equal(row->agreement, LS_AGREES);
        }
    }
    /* stopped: taught lower; at 15 deg of fine pitch the two drags are near each other */
    const ls_factor_result *stopped = row_of(&found, LS_FACTOR_STOPPED);
    assert_true(stopped->agreement == LS_AGREES || stopped->agreement == LS_WITHIN_DOUBT);
    assert_true(stopped->vmc.change < 0.0);
}

static void climbs(void **state)
{
    (void)state;
    ls_aircraft whimbrel;
    fleet_read("whimbrel", &whimbrel);
    solve(&whimbrel, -1, &found);
    static const ls_factor_kind less[] = {LS_FACTOR_POWER,        LS_FACTOR_ALTITUDE,  LS_FACTOR_TEMPERATURE,
                                          LS_FACTOR_WEIGHT_LEVEL, LS_FACTOR_BANK_AWAY, LS_FACTOR_FLAP,
                                          LS_FACTOR_GEAR,         LS_FACTOR_COWL_FLAPS};
    for (size_t i = 0; i < sizeof less / sizeof less[0]; i++) {
        check_between("change of one-engine climb, taught less, ft/min",
                      row_of(&found, less[i])->climb.change / FPM, -800, -10, COMMON);
    }
    check_between("change of one-engine climb, feathering, ft/min",
                  row_of(&found, LS_FACTOR_FEATHERED)->climb.change / FPM, 50, 400,
                  AFH ": feather for the least drag");
    check_between("change of one-engine climb, turbocharged at 8000 ft, ft/min",
                  row_of(&found, LS_FACTOR_TURBOCHARGED)->climb.change / FPM, 100, 600, COMMON);
}

/* No key describes them, so there is no number, and never a zero. */
static void without_data(void **state)
{
    (void)state;
    ls_aircraft whimbrel;
    fleet_read("whimbrel", &whimbrel);
    solve(&whimbrel, -1, &found);
    static const ls_factor_kind none[] = {LS_FACTOR_GROUND, LS_FACTOR_GEAR, LS_FACTOR_COWL_FLAPS};
    for (int i = 0; i < 3; i++) {
        const ls_factor_result *row = row_of(&found, none[i]);
        assert_int_equal(row->vmc_state, LS_FACTOR_NO_DATA);
        assert_true(isnan(row->vmc.change) && row->reason[0] != '\0');
        assert_true(row >= &found.row[found.rows - 3]); /* they stand last */
    }
    assert_true(isnan(row_of(&found, LS_FACTOR_GROUND)->climb.change));
    static edited_file twin; /* a propeller of coefficients */
    edited_read("tests/data/twin.yaml", NULL, NULL, &twin);
    assert_int_equal(twin.status, LS_OK);
    solve(&twin.aircraft, -1, &found);
    assert_int_equal(row_of(&found, LS_FACTOR_LEVER_AFT)->vmc_state, LS_FACTOR_NO_DATA);
}

static void ordered_by_size(void **state)
{
    (void)state;
    static const char *const names[] = {"whimbrel", "sanderling", "redshank", "barnacle"};
    for (int n = 0; n < 4; n++) {
        ls_aircraft aircraft;
        fleet_read(names[n], &aircraft);
        solve(&aircraft, -1, &found);
        assert_int_equal(found.rows, LS_FACTORS);
        int seen[LS_FACTORS] = {0};
        for (int i = 0; i < found.rows; i++) {
            seen[found.row[i].kind]++;
            if (i > 0 && isfinite(found.row[i].vmc.change)) {
                assert_true(fabs(found.row[i - 1].vmc.change) >= fabs(found.row[i].vmc.change));
            }
            if (isfinite(found.row[i].vmc.change)) {
                check_close("change is the difference of its ends, kt",
                            (found.row[i].vmc.to - found.row[i].vmc.from - found.row[i].vmc.change) / KT, 0.0,
                            1e-12, "round-off", "identity");
                assert_true(found.row[i].vmc.doubt >= 0.0);
            }
        }
        for (int kind = 0; kind < LS_FACTORS; kind++) {
            assert_int_equal(seen[kind], 1);
        }
    }
}

/* Where an aeroplane disagrees, and why. */
static void disagreements(void **state)
{
    (void)state;
    ls_aircraft redshank, sanderling;
    fleet_read("redshank", &redshank);
    solve(&redshank, -1, &found);
    const ls_factor_result *stopped = row_of(&found, LS_FACTOR_STOPPED);
    check_between(
        "Redshank, VMC, windmilling to stopped: taught lower, here higher, for its free turbine lets the "
        "propeller turn easily and its four blades stand across the flow when stopped, kt",
        stopped->vmc.change / KT, 0.5, 6, COMMON);
    assert_int_equal(stopped->agreement, LS_DISAGREES);
    assert_non_null(strstr(stopped->reason, "drags more"));
    assert_int_equal(row_of(&found, LS_FACTOR_TURBOCHARGED)->vmc_state, LS_FACTOR_DOES_NOT_ARISE);
    fleet_read("sanderling", &sanderling);
    solve(&sanderling, -1, &found);
    const ls_factor_result *other = row_of(&found, LS_FACTOR_OTHER_ENGINE);
    check_close(
        "Sanderling, VMC, one engine to the other: taught lower, here the same, for its propellers are mirror "
        "images, kt",
        other->vmc.change / KT, 0.0, 1e-6, "root tolerance 1e-9 m/s", AFH ": no critical engine");
    assert_int_equal(other->agreement, LS_WITHIN_DOUBT);
    assert_string_equal(other->reason, "no engine is critical");
    /* below its critical altitude only the indicated speed at constant power falls: less than the Whimbrel's */
    check_between("Sanderling, VMC, 0 to 4000 ft, power held by the turbocharger, kt",
                  row_of(&found, LS_FACTOR_ALTITUDE)->vmc.change / KT, -2.5, -0.3, COMMON);
}

static void meeting_of_control_and_stall(void **state)
{
    (void)state;
    ls_aircraft whimbrel;
    ls_model model;
    ls_vmc vmc;
    fleet_read("whimbrel", &whimbrel);
    solve(&whimbrel, -1, &found);
    ls_condition condition = found.condition;
    condition.altitude_m = found.meeting_m;
    assert_int_equal(ls_model_make(&whimbrel, &condition, &model, NULL), LS_OK);
    assert_int_equal(ls_vmc_at(&model, condition.bank_rad, &vmc, NULL), LS_OK);
    check_close("control limit less stall where they meet, kt", (vmc.control_cas_m_s - vmc.stall_cas_m_s) / KT,
                0.0, 1e-3, "altitude found to 0.01 m", "identity");
}

/* A doubt moves what it names, takes the file's spread where there is one, and keeps within the key's range. */
static void doubts(void **state)
{
    (void)state;
    static edited_file twin;
    static ls_aircraft low, high;
    int count, yaw = -1, immersion = -1;
    const ls_doubt_row *rows = ls_doubts(&count);
    edited_read("tests/data/twin.yaml", NULL, NULL, &twin);
    assert_int_equal(twin.status, LS_OK);
    for (int i = 0; i < count; i++) {
        int element;
        assert_non_null(ls_parameter_find(
            &twin.aircraft,
            strncmp(rows[i].path, "powerplants[]", 13) == 0 ? "powerplants[1].engine.friction" : rows[i].path,
            &element, NULL));
        yaw = strcmp(rows[i].path, "derivatives.yaw.sideslip") == 0 ? i : yaw;
        immersion = strcmp(rows[i].path, "slipstream.fin_immersion") == 0 ? i : immersion;
    }
    twin.aircraft.slipstream.fin_immersion = 0.1;
    assert_int_equal(ls_doubt_apply(&twin.aircraft, NULL, immersion, 1, &high), 1);
    assert_true(high.slipstream.fin_immersion == 0.3);
    double own = twin.aircraft.derivatives.yaw_sideslip;
    assert_int_equal(ls_doubt_apply(&twin.aircraft, NULL, yaw, 0, &low), 1);
    check_close("a tenth less", low.derivatives.yaw_sideslip, 0.9 * own, 1e-15, "round-off", "definition");
    int element;
    const ls_parameter *key = ls_parameter_find(&twin.aircraft, "derivatives.yaw.sideslip", &element, NULL);
    ls_mark_of(&twin.marks, key, 0)->spread = 0.004;
    assert_int_equal(ls_doubt_apply(&twin.aircraft, &twin.marks, yaw, 1, &high), 1);
    check_close("the file's own spread", high.derivatives.yaw_sideslip, own + 0.004, 1e-15, "round-off",
                "definition");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(as_taught_on_the_whimbrel),
        cmocka_unit_test(climbs),
        cmocka_unit_test(without_data),
        cmocka_unit_test(ordered_by_size),
        cmocka_unit_test(disagreements),
        cmocka_unit_test(meeting_of_control_and_stall),
        cmocka_unit_test(doubts),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
