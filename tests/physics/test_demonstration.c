/* The plan of a demonstration: idling lies between no thrust and dead, the advice follows the margin, and the
 * rudder block does what it says. */
#include "check.h"
#include "edited.h"
#include "fleet.h"

#include "liveside/airspeed.h"
#include "liveside/demonstration.h"

#include <math.h>
#include <string.h>

#define KT (1852.0 / 3600.0)
#define FT 0.3048

static ls_demonstration plan;

static void ask(const ls_aircraft *aircraft, ls_demonstration_request *request)
{
    memset(request, 0, sizeof *request);
    request->aircraft = aircraft;
    request->request.state = -1;
    request->request.search = LS_SEARCH_ALL;
    ls_condition_takeoff(aircraft, &request->request.condition);
    request->request.sets = ls_vmca_sets(aircraft, request->request.set);
    request->altitudes = 3;
    for (int i = 0; i < 3; i++) {
        request->altitude_m[i] = (3000 + 3000 * i) * FT;
    }
    request->margin_m_s = LS_DEMONSTRATION_MARGIN_M_S;
    request->rudder_share = 1.0;
}

static void solve(const ls_demonstration_request *request)
{
    ls_error error = {0};
    assert_int_equal(ls_demonstration_solve(request, &plan, &error), LS_OK);
}

static void idling_against_dead(void **state)
{
    (void)state;
    ls_aircraft whimbrel;
    ls_demonstration_request request;
    fleet_read("whimbrel", &whimbrel);
    ask(&whimbrel, &request);
    solve(&request);
    assert_int_equal(plan.points, 6);
    assert_int_equal(plan.failed, 1u); /* the critical one */
    assert_false(plan.idle_is_bounds);
    for (int i = 0; i < plan.points; i++) {
        const ls_demonstration_point *p = &plan.point[i];
        assert_true(p->idle_m_s[0] == p->idle_m_s[1]);
        check_between(
            "dead less idling, VMC, kt", (p->dead_m_s - p->idle_m_s[0]) / KT, 0.5, 6,
            "common practice: an idling engine drags less than a dead one windmilling, which must be turned");
        assert_true(p->feathered_m_s < p->dead_m_s);
        assert_true(p->entry_m_s > p->dead_m_s + 5 * KT);
        check_close("margin is heading less stall, kt", p->margin_m_s / KT, (p->idle_m_s[0] - p->stall_m_s) / KT,
                    1e-12, "round-off", "identity");
    }
    /* with height heading is lost slower, the stall stays: they come together */
    assert_true(plan.point[4].margin_m_s < plan.point[2].margin_m_s &&
                plan.point[2].margin_m_s < plan.point[0].margin_m_s);
}

static void only_bounds(void **state)
{
    (void)state;
    static edited_file twin; /* a propeller of coefficients says nothing of idling */
    ls_demonstration_request request;
    edited_read("tests/data/twin.yaml", NULL, NULL, &twin);
    assert_int_equal(twin.status, LS_OK);
    ask(&twin.aircraft, &request);
    solve(&request);
    assert_true(plan.idle_is_bounds);
    for (int i = 0; i < plan.points; i++) {
        assert_true(plan.point[i].idle_m_s[0] < plan.point[i].idle_m_s[1]);
        check_close("the upper bound is windmilling, kt", plan.point[i].idle_m_s[1] / KT,
                    plan.point[i].dead_m_s / KT, 1e-9, "the same solution", "identity");
    }
}

static void advice_follows_the_margin(void **state)
{
    (void)state;
    ls_aircraft whimbrel;
    ls_demonstration_request request;
    fleet_read("whimbrel", &whimbrel);
    ask(&whimbrel, &request);
    for (double margin_kt = 0; margin_kt <= 30; margin_kt += 5) {
        request.margin_m_s = margin_kt * KT;
        solve(&request);
        for (int i = 0; i < plan.points; i++) {
            const ls_demonstration_point *p = &plan.point[i];
            ls_demonstration_advice want = !(p->margin_m_s > 0.0)               ? LS_DEMONSTRATE_STALL_FIRST
                                           : p->margin_m_s < request.margin_m_s ? LS_DEMONSTRATE_TOO_CLOSE
                                                                                : LS_DEMONSTRATE;
            assert_int_equal(p->advice, want);
        }
    }
    /* heavy and high the stall comes first, light and low it does not */
    assert_int_equal(plan.point[5].advice, LS_DEMONSTRATE_STALL_FIRST);
    assert_true(plan.point[0].margin_m_s > 10 * KT);
}

/* Stopped at the share that the plan gives, heading is lost at the margin above the stall. */
static void block(void **state)
{
    (void)state;
    ls_aircraft whimbrel;
    ls_demonstration_request request;
    fleet_read("whimbrel", &whimbrel);
    ask(&whimbrel, &request);
    solve(&request);
    int tried = 0;
    ls_demonstration free_plan = plan;
    for (int i = 0; i < free_plan.points; i++) {
        const ls_demonstration_point *p = &free_plan.point[i];
        if (isnan(p->block)) {
            continue; /* all of the rudder does not hold it there */
        }
        tried++;
        request.rudder_share = p->block;
        solve(&request);
        check_close("heading lost above the stall with the rudder blocked, kt", plan.point[i].margin_m_s / KT, 5.0,
                    1e-4, "CAS of the stall to and fro", "identity");
    }
    assert_true(tried >= 2);
}

static void authority(void **state)
{
    (void)state;
    ls_aircraft whimbrel;
    ls_demonstration_request request;
    ls_model model;
    ls_airspeed speed;
    ls_trim trim;
    ls_margins margins;
    fleet_read("whimbrel", &whimbrel);
    ask(&whimbrel, &request);
    request.cas_m_s = 80 * KT;
    solve(&request);
    assert_int_equal(plan.authorities, 3);
    assert_string_equal(plan.authority[1].name, "VSSE");
    check_close("VSSE indicated, from its calibrated speed, kt",
                ls_indicated_airspeed(&whimbrel, plan.vsse_m_s, NULL) / KT, whimbrel.published.vsse_m_s / KT, 1e-5,
                "root tolerance", "identity");
    assert_int_equal(ls_model_make(&whimbrel, &plan.base, &model, NULL), LS_OK);
    assert_int_equal(ls_airspeed_from_cas(&model.air, 80 * KT, &speed, NULL), LS_OK);
    assert_int_equal(ls_trim_solve(&model, speed.TAS_m_s, plan.base.bank_rad, &trim, NULL), LS_OK);
    ls_margins_at(&model, &trim, &margins);
    check_close("rudder left at a speed", plan.authority[0].margins.left[LS_LIMIT_RUDDER],
                margins.left[LS_LIMIT_RUDDER], 1e-12, "the same trim", "identity");
    /* more is left the faster it flies */
    assert_true(plan.authority[1].margins.left[LS_LIMIT_RUDDER] > plan.authority[0].margins.left[LS_LIMIT_RUDDER]);
    assert_true(plan.authority[2].margins.left[LS_LIMIT_RUDDER] > plan.authority[1].margins.left[LS_LIMIT_RUDDER]);
    for (int i = 1; i < LS_DEMONSTRATION_SPEEDS; i++) {
        assert_int_equal(plan.use[i].status, LS_OK);
        assert_true(plan.use[i].margins.left[LS_LIMIT_RUDDER] > plan.use[i - 1].margins.left[LS_LIMIT_RUDDER]);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(idling_against_dead),
        cmocka_unit_test(only_bounds),
        cmocka_unit_test(advice_follows_the_margin),
        cmocka_unit_test(block),
        cmocka_unit_test(authority),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
