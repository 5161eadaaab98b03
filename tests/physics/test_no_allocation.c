/* A minimum control speed, or a climb, is solved without a single allocation. */
#include "alloc_fail.h"
#include "check.h"
#include "fleet.h"

#include "liveside/climb.h"

static void climb_allocates_nothing(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    ls_condition condition;
    ls_model model;
    ls_climb_best best;
    ls_ceiling ceiling;
    ls_climb_rule rule = {LS_CLIMB_BANK_BEST, 0.0, 1.2};
    alloc_fail_or_skip();
    fleet_read("whimbrel", &aircraft);
    ls_condition_takeoff(&aircraft, &condition);
    ls_condition_fail(&aircraft, 1u, &condition);
    alloc_fail_at(0);
    assert_int_equal(ls_model_make(&aircraft, &condition, &model, NULL), LS_OK);
    assert_int_equal(ls_climb_best_speed(&model, rule, LS_CLIMB_RATE, 0.0, &best, NULL), LS_OK);
    assert_int_equal(ls_climb_ceiling(&aircraft, &condition, rule, 0.0, 0.0, &ceiling, NULL), LS_OK);
    assert_int_equal(alloc_count(), 0);
    alloc_fail_stop();
}

static void vmc_allocates_nothing(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    ls_condition condition, worst;
    ls_model model;
    ls_vmc vmc;
    double bank_rad;
    alloc_fail_or_skip();
    fleet_read("whimbrel", &aircraft);
    ls_condition_takeoff(&aircraft, &condition);
    ls_condition_fail(&aircraft, 1u, &condition);
    alloc_fail_at(0);
    assert_int_equal(ls_model_make(&aircraft, &condition, &model, NULL), LS_OK);
    assert_int_equal(ls_vmc_at(&model, 0.05, &vmc, NULL), LS_OK);
    assert_int_equal(ls_vmc_scan(&model, 0.05, &vmc, NULL), LS_OK);
    assert_int_equal(ls_vmc_zero_sideslip_bank(&model, &bank_rad, &vmc, NULL), LS_OK);
    assert_int_equal(ls_vmc_worst(&aircraft, &condition, LS_SEARCH_ALL, 0.05, &worst, &vmc, NULL), LS_OK);
    assert_int_equal(alloc_count(), 0);
    alloc_fail_stop();
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(vmc_allocates_nothing),
                                       cmocka_unit_test(climb_allocates_nothing)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
