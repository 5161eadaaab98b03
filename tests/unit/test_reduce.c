/* Reduction of test points: the points file, the three methods, intervals, refusals. */
#include "check.h"
#include "edited.h"
#include "fleet.h"
#include "flight.h"

#include "liveside/airspeed.h"
#include "liveside/failure.h"
#include "liveside/points_file.h"
#include "liveside/reduce.h"
#include "liveside/vmc.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define DEG  (3.14159265358979323846 / 180.0)
#define KT   (1852.0 / 3600.0)
#define DEMO "tests/data/reduce/whimbrel_points.csv"

enum { DEMO_SEED = 20 };

static struct {
    ls_aircraft aircraft, truth;
    ls_point flown[FLIGHT_ALL], reading[FLIGHT_ALL]; /* the dynamic ones last */
    ls_points points;
    ls_reduce_request request;
    ls_reduction reduction;
    double truth_cas_m_s; /* at the standard condition */
} flight;

static int set_up(void **state)
{
    (void)state;
    fleet_read("whimbrel", &flight.aircraft);
    flight_hide(&flight.aircraft, &flight.truth);
    flight_truth(&flight.truth, flight.flown);
    flight_sudden(&flight.truth, flight.flown + FLIGHT_POINTS);
    flight_noise noise = flight_usual_noise();
    flight.points = (ls_points){flight.reading, FLIGHT_POINTS};
    flight.request = (ls_reduce_request){.aircraft = &flight.aircraft,
                                         .points = &flight.points,
                                         .mass_kg = flight.aircraft.mass.maximum_kg,
                                         .bank_rad = 5.0 * DEG,
                                         .confidence = 0.95};
    ls_accuracies_usual(&flight.request.accuracies);
    flight.request.accuracies.speed_m_s = noise.speed_m_s;
    flight.request.accuracies.bank_rad = noise.bank_rad;
    flight.request.accuracies.rudder_rad = noise.rudder_rad;
    ls_condition condition;
    ls_model model;
    ls_vmc vmc;
    ls_condition_takeoff(&flight.truth, &condition);
    ls_condition_fail_as(&flight.truth, 1u, LS_WINDMILLING, &condition);
    condition.pedal_limit_N = INFINITY;
    assert_int_equal(ls_model_make(&flight.truth, &condition, &model, NULL), LS_OK);
    assert_int_equal(ls_vmc_at(&model, 5.0 * DEG, &vmc, NULL), LS_OK);
    flight.truth_cas_m_s = vmc.control_cas_m_s;
    return 0;
}

static ls_reduction *reduce(const ls_point *points, int count)
{
    ls_error error = {0};
    memcpy(flight.reading, points, (size_t)count * sizeof *points);
    flight.points.count = count;
    if (ls_reduce_points(&flight.request, &flight.reduction, &error) != LS_OK) {
        fail_msg("%s", error.text);
    }
    return &flight.reduction;
}

static ls_reduction *reduce_read(uint64_t *seed)
{
    static ls_point reading[FLIGHT_POINTS];
    flight_noise noise = flight_usual_noise();
    flight_read(flight.flown, FLIGHT_POINTS, &noise, seed, reading);
    return reduce(reading, FLIGHT_POINTS);
}

/* ---- the truth is found ---- */

/* Without noise, and with instruments that are as good, the hidden truth comes back to the digits of the
 * differences.
 */
static void exact_points_give_the_truth(void **state)
{
    (void)state;
    ls_reduce_request kept = flight.request;
    flight.request.accuracies = (ls_accuracies){.speed_m_s = 1e-4,
                                                .bank_rad = 1e-5,
                                                .rudder_rad = 1e-5,
                                                .mass_share = 1e-4,
                                                .T_K = 0.01,
                                                .altitude_m = 0.1,
                                                .power_share = 1e-4};
    ls_reduction *r = reduce(flight.flown, FLIGHT_POINTS);
    check_close("rudder scale from exact points", r->fit.scale[LS_SCALE_RUDDER].value, 0.94, 2e-4,
                "differences of 1e-3 in the scale", "the hidden truth: 0.94");
    check_close("sideslip scale from exact points", r->fit.scale[LS_SCALE_SIDESLIP].value, 1.10, 2e-4,
                "differences of 1e-3 in the scale", "the hidden truth: 1.10");
    check_close("standard VMC from exact points, kt", r->group[0].model.value / KT, flight.truth_cas_m_s / KT,
                0.01, "what the scales leave", "the truth flown at the standard condition");
    check_close("yaw.rudder over yaw.sideslip from exact points", r->yaw_ratio,
                flight.truth.derivatives.yaw_rudder / flight.truth.derivatives.yaw_sideslip, 2e-3,
                "incidence of the file, not of the truth", "the hidden truth");
    const ls_term *side = r->regression[LS_EQUATION_SIDE].term, *roll = r->regression[LS_EQUATION_ROLL].term;
    check_close("side.sideslip from exact points", side[0].value, flight.truth.derivatives.side_sideslip, 2e-3,
                "incidence of the file, not of the truth", "the hidden truth");
    check_close("side.rudder from exact points", side[1].value, flight.truth.derivatives.side_rudder, 2e-3,
                "incidence of the file, not of the truth", "the hidden truth");
    check_close("roll.sideslip from exact points", roll[0].value, flight.truth.derivatives.roll_sideslip, 2e-3,
                "roll.rudder kept at the file's", "the hidden truth");
    check_close("roll.aileron from exact points", roll[1].value, flight.truth.derivatives.roll_aileron, 2e-3,
                "roll.rudder kept at the file's", "the hidden truth");
    for (int i = 0; i < r->rows; i++) {
        check_close("residual of an exact point, kt", r->row[i].residual_m_s / KT, 0.0, 0.02,
                    "what the scales leave", "identity");
    }
    ls_reduce_free(r);
    flight.request = kept;
}

typedef struct {
    int covered, total;
} tally;

static void count(tally *t, double low, double high, double truth)
{
    t->total++;
    t->covered += low <= truth && truth <= high;
}

static void check_tally(const char *what, const tally *t)
{
    double share = (double)t->covered / t->total;
    /* 92.5 to 97.5 %, and the scatter of so many repetitions: three standard errors of a share of 95 %. */
    double scatter = t->total >= 800 ? 0.0 : 3.0 * sqrt(0.95 * 0.05 / t->total);
    print_message("%s: %.1f %% of %d\n", what, 100.0 * share, t->total);
    check_between(what, share, 0.925 - scatter, 0.975 + scatter, "a 95 % interval, over seeded repetitions");
}

static void intervals_cover_the_truth(void **state)
{
    (void)state;
    uint64_t seed = 7;
    tally speed = {0, 0}, rudder = {0, 0}, sideslip = {0, 0}, followed = {0, 0};
    int repetitions = check_scaled(1000);
    for (int i = 0; i < repetitions; i++) {
        ls_reduction *r = reduce_read(&seed);
        const ls_reduced_group *group = &r->group[0];
        const ls_scale *scale = r->fit.scale;
        const ls_extrapolation *far = &group->extrapolated[LS_EXTRAPOLATE_RUDDER];
        double t = 2.021; /* Student's, 40 degrees of freedom, from tables */
        count(&speed, group->model.low, group->model.high, flight.truth_cas_m_s);
        count(&rudder, scale[0].value - t * scale[0].error, scale[0].value + t * scale[0].error, 0.94);
        count(&sideslip, scale[1].value - t * scale[1].error, scale[1].value + t * scale[1].error, 1.10);
        count(&followed, far->low, far->high, flight.truth_cas_m_s);
        ls_reduce_free(r);
    }
    check_tally("share of intervals of VMC that hold the truth", &speed);
    check_tally("share of intervals of the rudder's scale that hold the truth", &rudder);
    check_tally("share of intervals of the sideslip's scale that hold the truth", &sideslip);
    check_tally("share of intervals of VMC followed from steady points that hold the truth", &followed);
}

/* ---- what points cannot tell ---- */

static void one_bank_tells_one_number(void **state)
{
    (void)state;
    static ls_point kept[FLIGHT_POINTS];
    int n = 0;
    for (int i = 0; i < FLIGHT_POINTS; i++) {
        if (flight.flown[i].bank_rad == 0.0) {
            kept[n++] = flight.flown[i];
        }
    }
    assert_true(n >= 9);
    ls_reduction *r = reduce(kept, n);
    assert_int_equal(r->fit.scale[LS_SCALE_RUDDER].is_estimated, 1);
    assert_int_equal(r->fit.scale[LS_SCALE_SIDESLIP].is_estimated, 0);
    assert_non_null(strstr(r->fit.scale[LS_SCALE_SIDESLIP].reason, "several banks"));
    assert_non_null(strstr(r->regression[LS_EQUATION_YAW].refused, "several banks"));
    ls_reduce_free(r);
}

static void yaw_derivatives_need_the_thrust(void **state)
{
    (void)state;
    uint64_t seed = 3;
    ls_reduction *r = reduce_read(&seed);
    const ls_regression *yaw = &r->regression[LS_EQUATION_YAW];
    assert_int_equal(yaw->term[0].is_estimated, 0);
    assert_true(isfinite(r->yaw_ratio) && r->yaw_ratio_error > 0.0);
    assert_int_equal(yaw->term[2].is_estimated, 0); /* yaw.aileron stays the file's */
    assert_non_null(strstr(yaw->term[2].reason, "nothing excites roll"));
    ls_reduce_free(r);
    flight.request.thrust_share = 0.05;
    r = reduce_read(&seed);
    yaw = &r->regression[LS_EQUATION_YAW];
    assert_int_equal(yaw->term[0].is_estimated, 1);
    assert_true(yaw->term[1].error >= 0.05 * fabs(yaw->term[1].value));
    check_between("yaw.rudder with the thrust moment vouched for, in its errors from the truth",
                  fabs(yaw->term[1].value - flight.truth.derivatives.yaw_rudder) / yaw->term[1].error, 0.0, 2.5,
                  "the hidden truth");
    ls_reduce_free(r);
    flight.request.thrust_share = 0.0;
}

/* Two centres of gravity and hardly any noise: the thrust moment's own scale is found, and it is the model's. */
static void two_centres_of_gravity_give_the_thrust(void **state)
{
    (void)state;
    static ls_point point[FLIGHT_POINTS];
    uint64_t seed = 5;
    flight_noise noise = {1e-3 * KT, 0.005 * DEG, 0.005 * DEG, 0.005 * DEG, 0.005 * DEG, 0.1, 1e-5, 0, 0};
    flight_read(flight.flown, FLIGHT_POINTS, &noise, &seed, point);
    ls_reduction *r = reduce(point, FLIGHT_POINTS);
    const ls_regression *yaw = &r->regression[LS_EQUATION_YAW];
    assert_int_equal(yaw->terms, 4);
    assert_string_equal(yaw->term[2].path, "thrust moment");
    check_close("scale of the thrust moment from two centres of gravity", yaw->term[2].value, 1.0, 0.03,
                "noise of 0.005 deg, and incidence of the file", "the truth flies the file's own thrust");
    ls_reduce_free(r);
}

static void without_sideslip_no_derivatives(void **state)
{
    (void)state;
    static ls_point point[FLIGHT_POINTS];
    memcpy(point, flight.flown, sizeof point);
    for (int i = 0; i < FLIGHT_POINTS; i++) {
        point[i].beta_rad = NAN;
    }
    ls_reduction *r = reduce(point, FLIGHT_POINTS);
    for (int i = 0; i < LS_EQUATIONS; i++) {
        assert_non_null(strstr(r->regression[i].refused, "sideslip"));
    }
    assert_true(isfinite(r->group[0].model.value));
    ls_reduce_free(r);
}

/* ---- which points count ---- */

static void rejected_with_a_reason_in_their_order(void **state)
{
    (void)state;
    static ls_point point[FLIGHT_POINTS];
    memcpy(point, flight.flown, sizeof point);
    snprintf(point[0].ended, sizeof point[0].ended, "stall");
    point[1].heading_rate_rad_s = 2.0 * DEG;
    snprintf(point[2].ended, sizeof point[2].ended, "abort");
    snprintf(point[3].failed, sizeof point[3].failed, "centre");
    point[4].rudder_rad = NAN;
    point[5].map_Pa *= 1.5;
    snprintf(point[7].ended, sizeof point[7].ended, "force");
    point[8].cas_m_s = NAN;
    ls_reduction *r = reduce(point, FLIGHT_POINTS);
    static const char *const reasons[] = {"stalled",   "heading",         "broken off",
                                          "no engine", "no rudder angle", "more power"};
    for (int i = 0; i < 6; i++) {
        assert_int_equal(r->row[i].use, LS_USE_REJECTED);
        assert_non_null(strstr(r->row[i].reason, reasons[i]));
    }
    assert_int_equal(r->row[6].use, LS_USE_LIMIT);
    assert_int_equal(r->row[7].use, LS_USE_STEADY);
    assert_non_null(strstr(r->row[7].reason, "pedal force"));
    assert_string_equal(r->row[8].reason, "not flown");
    assert_int_equal(r->rows, FLIGHT_POINTS);
    assert_int_equal(r->uses[LS_USE_REJECTED], 7);
    ls_reduce_free(r);
}

/* Where control is truly regained at the standard condition: of the truth, by the study of motion, which the
 * reduction does not use. */
static double true_dynamic_m_s(void)
{
    ls_condition condition;
    ls_motion_request motion;
    ls_dynamic_vmc answer;
    ls_condition_takeoff(&flight.truth, &condition);
    ls_motion_usual(&flight.truth, &condition, 1u, 1.0, &motion);
    motion.state = LS_WINDMILLING;
    motion.bank_rad = 5.0 * DEG;
    ls_dynamic_vmc_find(&flight.truth, &motion, flight.truth_cas_m_s, FLIGHT_DELAY_S, &answer);
    assert_int_equal(answer.status, LS_OK);
    return answer.cas_m_s;
}

static void dynamic_points_give_the_increment(void **state)
{
    (void)state;
    ls_reduction *r = reduce(flight.flown, FLIGHT_ALL);
    const ls_reduced_group *group = &r->group[0];
    double truth_m_s = true_dynamic_m_s();
    print_message("static %.1f, dynamic %.1f, regained to %.1f, lost to %.1f kt\n", flight.truth_cas_m_s / KT,
                  truth_m_s / KT, group->dynamic_cas_m_s / KT, group->dynamic_lost_cas_m_s / KT);
    assert_int_equal(group->dynamic_points, FLIGHT_DYNAMIC);
    check_between("true dynamic speed, between lost and regained, widened by what the altitude changes",
                  truth_m_s / KT, group->dynamic_lost_cas_m_s / KT - 1.5, group->dynamic_cas_m_s / KT + 1.5,
                  "the hidden truth flown at the standard condition");
    check_close("dynamic speed less the static one, kt", group->dynamic_cas_m_s / KT,
                (group->model.value + group->increment_m_s) / KT, 1e-9, "round-off", "identity");
    check_between("increment, kt", group->increment_m_s / KT, 1.0, 22.0, "the speeds that were flown");
    ls_reduce_free(r);
}

static void dynamic_points_are_judged(void **state)
{
    (void)state;
    static ls_point point[FLIGHT_ALL];
    memcpy(point, flight.flown, sizeof point);
    ls_point *sudden = point + FLIGHT_POINTS;
    snprintf(sudden[0].ended, sizeof sudden[0].ended, "steady");
    snprintf(sudden[1].ended, sizeof sudden[1].ended, "lost"); /* above others that were regained */
    for (int i = 2; i < FLIGHT_DYNAMIC; i++) {
        snprintf(sudden[i].ended, sizeof sudden[i].ended, "regained");
        sudden[i].heading_change_rad = 10.0 * DEG;
    }
    sudden[3].heading_change_rad = -25.0 * DEG;
    snprintf(point[0].ended, sizeof point[0].ended, "regained");
    ls_reduction *r = reduce(point, FLIGHT_ALL);
    const ls_reduced *row = r->row + FLIGHT_POINTS;
    assert_non_null(strstr(row[0].reason, "ends regained or lost"));
    assert_int_equal(row[0].use, LS_USE_REJECTED);
    assert_int_equal(r->row[0].use, LS_USE_REJECTED);
    assert_non_null(strstr(r->row[0].reason, "static point"));
    assert_non_null(strstr(row[3].reason, "more than 20 deg"));
    assert_true(isnan(r->group[0].dynamic_cas_m_s)); /* none above the one that was lost */
    ls_reduce_free(r);
    snprintf(sudden[1].ended, sizeof sudden[1].ended, "regained");
    r = reduce(point, FLIGHT_ALL);
    row = r->row + FLIGHT_POINTS;
    check_close("lowest regained above the one that swung too far, kt", r->group[0].dynamic_cas_m_s / KT,
                row[2].by_model_m_s / KT, 1e-12, "exact", "identity: regained 2 4 5 6, counted as lost 3");
    ls_reduce_free(r);
}

/* The mirror image of a flight gives the mirror image of the answer. */
static void mirrored_points_give_the_same_speed(void **state)
{
    (void)state;
    static ls_point point[FLIGHT_POINTS];
    static ls_aircraft mirrored;
    uint64_t seed = 9;
    ls_reduction *r = reduce_read(&seed);
    double value = r->group[0].model.value, coefficient = r->group[0].coefficient.value;
    double scale = r->fit.scale[1].value, ratio = r->yaw_ratio;
    ls_reduce_free(r);
    memcpy(point, flight.reading, sizeof point);
    for (int i = 0; i < FLIGHT_POINTS; i++) {
        snprintf(point[i].failed, sizeof point[i].failed, "right");
        point[i].bank_rad = -point[i].bank_rad;
        point[i].beta_rad = -point[i].beta_rad;
        point[i].rudder_rad = -point[i].rudder_rad;
        point[i].aileron_rad = -point[i].aileron_rad;
    }
    fleet_mirror_aircraft(&flight.aircraft, &mirrored);
    snprintf(mirrored.engine[0].name, sizeof mirrored.engine[0].name, "a");
    snprintf(mirrored.engine[1].name, sizeof mirrored.engine[1].name, "b");
    flight.request.aircraft = &mirrored;
    r = reduce(point, FLIGHT_POINTS);
    check_close("VMC of the mirrored flight, m/s", r->group[0].model.value, value, 1e-7, "steps of the fit",
                "mirror");
    check_close("the same by constant coefficient, m/s", r->group[0].coefficient.value, coefficient, 1e-9,
                "round-off", "mirror");
    check_close("sideslip's scale of the mirrored flight", r->fit.scale[1].value, scale, 1e-7, "steps of the fit",
                "mirror");
    check_close("yaw ratio of the mirrored flight", r->yaw_ratio, ratio, 1e-9, "round-off", "mirror");
    ls_reduce_free(r);
    flight.request.aircraft = &flight.aircraft;
}

/* ---- the demo file ---- */

/* A long record, reduced by all three methods. */
static void hundred_thousand_points_in_two_seconds(void **state)
{
    (void)state;
    ls_points many = {NULL, check_scaled(100000)};
    many.point = malloc((size_t)many.count * sizeof *many.point);
    assert_non_null(many.point);
    for (int i = 0; i < many.count; i++) {
        many.point[i] = flight.flown[i % FLIGHT_POINTS];
    }
    ls_reduce_request request = flight.request;
    ls_error error = {0};
    request.points = &many;
    clock_t start = clock();
    assert_int_equal(ls_reduce_points(&request, &flight.reduction, &error), LS_OK);
    double seconds = (double)(clock() - start) / CLOCKS_PER_SEC;
    print_message("%d points reduced: %.2f s of processor time\n", many.count, seconds);
    check_between("100,000 points reduced, s of processor time, all threads", seconds, 0.0,
                  getenv("LS_LIMIT_FACTOR") != NULL ? 10.0 : 2.0, "the requirement: under 2 s");
    assert_int_equal(flight.reduction.rows, many.count);
    ls_reduce_free(&flight.reduction);
    free(many.point);
}

static void write_demo(FILE *out, const void *context)
{
    flight_write(out, context, FLIGHT_ALL);
}

/* The points in tests/data are those of the simulator: `test_reduce --write` makes them anew. */
static char *demo_text(void)
{
    static ls_point reading[FLIGHT_ALL];
    uint64_t seed = DEMO_SEED;
    flight_noise noise = flight_usual_noise();
    flight_read(flight.flown, FLIGHT_ALL, &noise, &seed, reading);
    return edited_print(write_demo, reading);
}

static void demo_points_are_the_simulators(void **state)
{
    (void)state;
    ls_points read = {0};
    ls_findings findings = {0};
    ls_error error = {0};
    char *text = demo_text(), *file = edited_text(DEMO);
    assert_string_equal(text, file);
    assert_int_equal(ls_points_parse(file, strlen(file), "demo", &read, &findings, &error), LS_OK);
    assert_int_equal(read.count, FLIGHT_ALL);
    ls_reduction *r = reduce(read.point, read.count);
    check_between("VMC from the demo points less the hidden truth, kt",
                  (r->group[0].model.value - flight.truth_cas_m_s) / KT, -0.9, 0.9,
                  "the hidden truth; three times the 0.3 kt that the noise leaves");
    assert_true(r->group[0].model.high - r->group[0].model.low < 2.0 * KT);
    assert_true(r->budget_lines == 7 && r->budget_m_s > 0.5 * KT && r->budget_m_s < 3.0 * KT);
    ls_reduce_free(r);
    ls_points_free(&read);
    free(text);
    free(file);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(exact_points_give_the_truth),
        cmocka_unit_test(intervals_cover_the_truth),
        cmocka_unit_test(one_bank_tells_one_number),
        cmocka_unit_test(yaw_derivatives_need_the_thrust),
        cmocka_unit_test(two_centres_of_gravity_give_the_thrust),
        cmocka_unit_test(without_sideslip_no_derivatives),
        cmocka_unit_test(rejected_with_a_reason_in_their_order),
        cmocka_unit_test(dynamic_points_give_the_increment),
        cmocka_unit_test(dynamic_points_are_judged),
        cmocka_unit_test(mirrored_points_give_the_same_speed),
        cmocka_unit_test(hundred_thousand_points_in_two_seconds),
        cmocka_unit_test(demo_points_are_the_simulators),
    };
    if (argc > 1 && strcmp(argv[1], "--write") == 0) {
        set_up(NULL);
        char *text = demo_text();
        FILE *out = fopen(DEMO, "w");
        if (out != NULL) {
            fputs(text, out);
            fclose(out);
        }
        free(text);
        return out == NULL;
    }
    return cmocka_run_group_tests(tests, set_up, NULL);
}
