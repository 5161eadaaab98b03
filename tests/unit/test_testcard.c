/* Test cards: safe by construction, and what they expect is what the other studies find. */
#include "check.h"
#include "fleet.h"

#include "liveside/airspeed.h"
#include "liveside/motion.h"
#include "liveside/reduce.h"
#include "liveside/testcard.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)
#define KT  (1852.0 / 3600.0)
#define FT  0.3048

static struct {
    ls_aircraft aircraft;
    ls_card_request request;
    ls_card card, other;
    ls_error error;
} job;

static ls_status plan(const char *name, unsigned failed, int state, ls_card *card)
{
    fleet_read(name, &job.aircraft);
    memset(&job.error, 0, sizeof job.error);
    job.request = (ls_card_request){
        .aircraft = &job.aircraft, .floor_m = 5000.0 * FT, .stall_margin_m_s = 5.0 * KT, .delay_s = 1.0};
    ls_condition_takeoff(&job.aircraft, &job.request.condition);
    ls_condition_fail_as(&job.aircraft, failed, (ls_engine_state)state, &job.request.condition);
    job.request.condition.altitude_m = 6000.0 * FT;
    return ls_card_make(&job.request, card, &job.error);
}

static void no_step_is_below_a_margin(void **state)
{
    (void)state;
    static const char *const names[] = {"whimbrel", "sanderling", "redshank"};
    for (size_t k = 0; k < sizeof names / sizeof names[0]; k++) {
        assert_int_equal(plan(names[k], 1u, LS_WINDMILLING, &job.card), LS_OK);
        assert_true(job.card.series_count >= 7);
        for (int i = 0; i < job.card.series_count; i++) {
            const ls_card_series *series = &job.card.series[i];
            for (int n = series->first; n < series->first + series->count; n++) {
                const ls_point *point = &job.card.point[n];
                assert_true(point->stall_margin_m_s >= 5.0 * KT - 1e-9);
                assert_true(point->altitude_m >= job.request.floor_m);
                assert_true(n == series->first || point->expected_cas_m_s < point[-1].expected_cas_m_s);
                assert_true(isnan(point->cas_m_s) && point->ended[0] == '\0'); /* not flown yet */
            }
        }
    }
}

/* The dynamic points, flown again from the card alone. */
static void sudden_failures_are_as_the_motion_has_them(void **state)
{
    (void)state;
    assert_int_equal(plan("whimbrel", 1u, LS_WINDMILLING, &job.card), LS_OK);
    const ls_card_series *series = &job.card.series[job.card.series_count - 1];
    assert_true(series->is_dynamic && series->count >= 2);
    for (int n = series->first; n < series->first + series->count; n++) {
        const ls_point *point = &job.card.point[n];
        ls_motion_request request;
        ls_motion motion;
        ls_air air;
        ls_airspeed speed;
        ls_condition running;
        ls_condition_takeoff(&job.aircraft, &running);
        running.altitude_m = point->altitude_m;
        assert_int_equal(ls_air_at(point->altitude_m, 0.0, &air, NULL), LS_OK);
        assert_int_equal(ls_airspeed_from_cas(&air, point->expected_cas_m_s, &speed, NULL), LS_OK);
        ls_motion_usual(&job.aircraft, &running, 1u, speed.TAS_m_s, &request);
        request.state = LS_WINDMILLING;
        request.bank_rad = running.bank_limit_rad;
        request.duration_s = 90.0;
        request.until_straight = 1;
        assert_int_equal(ls_motion_run(&job.aircraft, &request, &motion, NULL), LS_OK);
        assert_int_equal(motion.end, LS_MOTION_STRAIGHT);
        check_close("expected heading change, deg", point->expected_heading_change_rad / DEG,
                    motion.heading_most_rad / DEG, 1e-6, "steps of the integration", "the study of motion");
        check_close("expected height loss, m", point->expected_height_loss_m, fmax(0.0, -motion.climbed_least_m),
                    1e-4, "steps of the integration", "the study of motion");
        check_between("heading change of a step that is flown, deg",
                      fabs(point->expected_heading_change_rad) / DEG, 0.1, 20.0, "14 CFR 23.149(b)");
        check_between("height left above the floor after breaking off, ft",
                      (point->altitude_m - job.card.break_off_m[n] - job.request.floor_m) / FT, 500.0, 4000.0,
                      "the card's own allowance");
        assert_true(point->expected_cas_m_s > series->vmc_cas_m_s);
        ls_motion_free(&motion);
    }
}

/* A pilot who is slower sees more of a swing, and the series ends sooner or at the same step. */
static void a_slow_pilot_swings_more(void **state)
{
    (void)state;
    assert_int_equal(plan("whimbrel", 1u, LS_WINDMILLING, &job.card), LS_OK);
    job.request.delay_s = 2.0;
    assert_int_equal(ls_card_make(&job.request, &job.other, &job.error), LS_OK);
    const ls_card_series *quick = &job.card.series[job.card.series_count - 1];
    const ls_card_series *slow = &job.other.series[job.other.series_count - 1];
    assert_true(slow->count >= 1 && slow->count <= quick->count);
    assert_true(fabs(job.other.point[slow->first].expected_heading_change_rad) >
                1.2 * fabs(job.card.point[quick->first].expected_heading_change_rad));
    job.request.delay_s = 4.0; /* nobody flies that */
    assert_int_equal(ls_card_make(&job.request, &job.other, &job.error), LS_OK);
    slow = &job.other.series[job.other.series_count - 1];
    assert_int_equal(slow->count, 0);
    assert_int_equal(slow->end, LS_CARD_SWING);
}

/* A card flown exactly as expected, and reduced: the file comes back. */
static void a_card_flown_as_expected_gives_the_file_back(void **state)
{
    (void)state;
    static ls_reduction reduction;
    assert_int_equal(plan("whimbrel", 1u, LS_WINDMILLING, &job.card), LS_OK);
    ls_points points = {job.card.point, job.card.count};
    for (int i = 0; i < points.count; i++) {
        ls_point *point = &points.point[i];
        int is_dynamic = strcmp(point->test, "dynamic") == 0;
        point->cas_m_s = point->expected_cas_m_s;
        point->rudder_rad = point->expected_rudder_rad;
        point->aileron_rad = point->expected_aileron_rad;
        point->beta_rad = point->expected_beta_rad;
        point->heading_change_rad = point->expected_heading_change_rad;
        snprintf(point->ended, sizeof point->ended, is_dynamic ? "regained" : "steady");
    }
    ls_reduce_request request = {.aircraft = &job.aircraft,
                                 .points = &points,
                                 .mass_kg = job.aircraft.mass.maximum_kg,
                                 .bank_rad = 5.0 * DEG,
                                 .confidence = 0.95};
    request.accuracies = (ls_accuracies){1e-4, 1e-5, 1e-5, 1e-4, 0.01, 0.1, 1e-4};
    assert_int_equal(ls_reduce_points(&request, &reduction, &job.error), LS_OK);
    assert_int_equal(reduction.uses[LS_USE_REJECTED], 0);
    assert_int_equal(reduction.groups, 1);
    check_close("rudder's scale", reduction.fit.scale[LS_SCALE_RUDDER].value, 1.0, 1e-5, "tolerance of the trim",
                "identity: the file's own points");
    check_close("sideslip's scale", reduction.fit.scale[LS_SCALE_SIDESLIP].value, 1.0, 1e-5,
                "tolerance of the trim", "identity: the file's own points");
    check_close("standard VMC, kt", reduction.group[0].model.value / KT, reduction.group[0].file_cas_m_s / KT,
                1e-3, "tolerance of the scales", "identity: the file's own speed");
    const ls_card_series *last = &job.card.series[job.card.series_count - 1];
    check_close("increment of the slowest sudden failure, kt", reduction.group[0].increment_m_s / KT,
                (job.card.point[job.card.count - 1].expected_cas_m_s - last->vmc_cas_m_s) / KT, 1e-3,
                "tolerance of the scales", "identity: the card's own step");
    ls_reduce_free(&reduction);
}

static void what_cannot_be_planned_is_said(void **state)
{
    (void)state;
    assert_int_equal(plan("whimbrel", 1u, LS_ZERO_THRUST, &job.card), LS_OK);
    const ls_card_series *last = &job.card.series[job.card.series_count - 1];
    assert_true(last->is_dynamic && last->count == 0);
    assert_int_equal(last->end, LS_CARD_UNKNOWN);
    job.request.floor_m = 7000.0 * FT;
    assert_int_equal(ls_card_make(&job.request, &job.card, &job.error), LS_USAGE);
    assert_non_null(strstr(job.error.text, "below the floor"));
    memset(&job.error, 0, sizeof job.error);
    assert_int_equal(plan("whimbrel", 3u, LS_WINDMILLING, &job.card), LS_USAGE);
    assert_non_null(strstr(job.error.text, "symmetric"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_step_is_below_a_margin),
        cmocka_unit_test(sudden_failures_are_as_the_motion_has_them),
        cmocka_unit_test(a_slow_pilot_swings_more),
        cmocka_unit_test(a_card_flown_as_expected_gives_the_file_back),
        cmocka_unit_test(what_cannot_be_planned_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
