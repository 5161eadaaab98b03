/* The worked answers against hand formulas of their own, from the numbers of the studies; and the texts of a page.
 * Units by definition: 1 kt = 1852/3600 m/s, 1 ft = 0.3048 m, 1 lbf = 4.4482216152605 N. */
#include "check.h"
#include "edited.h"
#include "fleet.h"

#include "report/figure.h"
#include "report/html.h"
#include "report/questions.h"
#include "report/vmca_report.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define KT      (1852.0 / 3600.0)
#define FPM     (0.3048 / 60.0)
#define LBF     4.4482216152605
#define DEG     (3.14159265358979323846 / 180.0)
#define BY_HAND "worked by hand in the test"
#define PRINTED "printed digits"

typedef struct {
    ls_aircraft aircraft;
    ls_vmca vmca;
    const ls_vmca_set *set;
    ls_performance_request request;
    ls_performance performance;
    ls_lesson lesson;
    ls_question question[LS_QUESTIONS];
    int questions;
} fixture;

static fixture at;

static void make(const char *name)
{
    ls_vmca_request request = {.state = -1, .search = LS_SEARCH_ALL};
    ls_error error = {0};
    fleet_read(name, &at.aircraft);
    ls_condition_takeoff(&at.aircraft, &request.condition);
    request.sets = ls_vmca_sets(&at.aircraft, request.set);
    assert_int_equal(ls_vmca_solve(&at.aircraft, &request, &at.vmca, &error), LS_OK);
    at.request = (ls_performance_request){
        .aircraft = &at.aircraft, .condition = request.condition, .sets = request.sets, .state = -1};
    memcpy(at.request.set, request.set, sizeof request.set);
    assert_int_equal(ls_performance_solve(&at.request, NULL, &at.performance, &error), LS_OK);
    int answer = ls_vmca_answer_set(&at.vmca);
    at.set = &at.vmca.set[answer];
    ls_lesson_solve(&at.aircraft, &at.vmca, answer, &at.request, &at.performance, &at.lesson);
    ls_questions_view view = {&at.aircraft, &at.lesson, LS_UNITS_US, 0};
    at.questions = ls_questions_make(&view, at.question);
}

static int make_whimbrel(void **state)
{
    (void)state;
    make("whimbrel");
    return 0;
}

/* The answer to the question that holds some words. */
static const char *answer_to(const char *words)
{
    for (int i = 0; i < at.questions; i++) {
        if (strstr(at.question[i].ask, words) != NULL) {
            return at.question[i].answer;
        }
    }
    print_error("no question with '%s'\n", words);
    fail();
    return "";
}

/* The number that follows some words of a text. */
static double number_after(const char *text, const char *words)
{
    const char *found = strstr(text, words);
    if (found == NULL) {
        print_error("no '%s' in: %s\n", words, text);
        fail();
    }
    return strtod(found + strlen(words), NULL);
}

static void climb_lost_is_the_share(void **state)
{
    (void)state;
    const ls_performance_case *one = ls_performance_worst(&at.performance);
    double all_m_s = at.performance.all.rate.point.rate_m_s, one_m_s = one->rate.point.rate_m_s;
    const char *answer = answer_to("What share of the climb is lost");
    check_close("climb lost, %", number_after(answer, " ft/min = "), 100.0 * (all_m_s - one_m_s) / all_m_s, 0.5,
                PRINTED, BY_HAND);
    check_close("power lost of a twin, %", number_after(answer, "where "), 50.0, 0.5, PRINTED, BY_HAND);
}

static void climb_out_takes_its_time(void **state)
{
    (void)state;
    const ls_climb_point *point = &ls_performance_worst(&at.performance)->rate.point;
    double up = sin(atan(point->gradient)), rate_m_s = point->V_m_s * up;
    const char *answer = answer_to("How steep is the climb");
    check_close("gradient, %", number_after(answer, " kt is "), 100.0 * tan(asin(point->rate_m_s / point->V_m_s)),
                0.051, PRINTED, BY_HAND);
    check_close("minutes for 1000 ft", number_after(answer, "at that rate take "), 1000.0 / (rate_m_s / FPM),
                0.051, PRINTED, BY_HAND);
    check_close("nautical miles for 1000 ft", number_after(answer, "at that gradient "),
                304.8 / point->gradient / 1852.0, 0.051, PRINTED, BY_HAND);
}

static void windmilling_drag_is_the_climb_over_the_speed(void **state)
{
    (void)state;
    const ls_lesson_climb *climb = &at.lesson.climb;
    const char *answer = answer_to("if that engine windmills");
    double lost_m_s = climb->one_m_s - climb->windmilling_m_s;
    double drag_lbf = lost_m_s / climb->V_m_s * at.aircraft.mass.maximum_kg * 9.80665 / LBF;
    check_close("climb lost to windmilling, ft/min", number_after(answer, "lost is "), lost_m_s / FPM, 0.5,
                PRINTED, BY_HAND);
    check_close("drag of windmilling, lbf", number_after(strstr(answer, " x "), " = "), drag_lbf, 0.051, PRINTED,
                BY_HAND);
    check_between("drag of windmilling, lbf", drag_lbf, 30.0, 80.0,
                  "the propeller's own drag near that speed, roughly");
}

static void moment_is_force_times_arm(void **state)
{
    (void)state;
    const char *answer = answer_to("How strongly does that yaw it");
    double thrust_lbf = number_after(answer, "Force times arm: "), arm_ft = number_after(answer, " lbf x ");
    check_close("yaw of the thrust, lbf ft", number_after(answer, " ft = "), thrust_lbf * arm_ft,
                0.5 + 0.05 * arm_ft + 0.0005 * thrust_lbf, PRINTED, "force times arm, from the printed numbers");
    check_close("arm of the live engine's thrust, ft", arm_ft, fabs(at.aircraft.engine[1].hub_right_m) / 0.3048,
                0.5, "P-factor and the offset of the centre of gravity move it", "the hub's place in the file");
    double tail_ft = number_after(at.question[7].ask, "if it acts ");
    check_close("rudder's force for the thrust alone, lbf", number_after(answer, "over its own arm, "),
                thrust_lbf * arm_ft / tail_ft, 0.5 + 0.05 / tail_ft * 250.0, PRINTED, BY_HAND);
}

static void banked_weight_is_its_sine(void **state)
{
    (void)state;
    const char *answer = answer_to("How much higher is the minimum control speed");
    check_close("W sin 5 deg, lbf", number_after(answer, "W sin 5 deg = "),
                at.set->condition.mass_kg * 9.80665 * sin(5 * DEG) / LBF, 0.5, PRINTED, BY_HAND);
    check_close("level less banked, kt", number_after(answer, "at 5 degrees: "),
                (at.set->level.vmc.cas_m_s - at.set->at_5_deg.vmc.cas_m_s) / KT, 0.051, PRINTED, BY_HAND);
    answer = answer_to("Why does weight help");
    check_close("heavy weight's part, lbf", number_after(answer, "light, "),
                at.aircraft.mass.maximum_kg * 9.80665 * sin(fabs(at.set->answer.bank_rad)) / LBF, 0.5, PRINTED,
                BY_HAND);
}

static void less_rudder_needs_the_square_root(void **state)
{
    (void)state;
    const char *answer = answer_to("An instructor blocks the rudder");
    check_close("1/sqrt(0.8)", number_after(answer, "1/sqrt(0.80) = "), 1.1180, 0.0006, PRINTED, BY_HAND);
    check_close("speed by hand, kt", number_after(answer, "times as high: "),
                at.set->answer.vmc.cas_m_s / KT * 1.1180339887, 0.051, PRINTED, BY_HAND);
}

/* Every question has words and an answer, easy ones first, on every aeroplane. */
static void questions_are_graded(void **state)
{
    (void)state;
    static const char *const names[] = {"sanderling", "redshank", "barnacle", "whimbrel"};
    static const char *const levels[] = {"recall", "understand", "apply", "reason"};
    for (int n = 0; n < 4; n++) {
        int level = 0;
        make(names[n]);
        check_between("questions", at.questions, 9, LS_QUESTIONS, "requirement: about ten");
        for (int i = 0; i < at.questions; i++) {
            while (level < 4 && strcmp(at.question[i].level, levels[level]) != 0) {
                level++;
            }
            assert_true(level < 4);
            assert_true(strlen(at.question[i].ask) > 40 && strlen(at.question[i].ask) < LS_QUESTION_TEXT - 1);
            assert_true(strlen(at.question[i].answer) > 40 && strlen(at.question[i].answer) < LS_ANSWER_TEXT - 1);
            assert_null(strstr(at.question[i].answer, "nan"));
        }
        assert_int_equal(level, 3);
    }
}

/* ---- texts of a page ---- */

static void print_text(FILE *stream, const void *context)
{
    ls_html_text(stream, context);
}

static void texts_are_escaped_at_any_length(void **state)
{
    (void)state;
    static char text[2000], want[9000];
    char *got = edited_print(print_text, "<a href=\"x\" on='y'>&`\x01\x1b\xc3\xa9\xff");
    assert_string_equal(got, "&lt;a href=&quot;x&quot; on=&#39;y&#39;&gt;&amp;`??\xc3\xa9?");
    free(got);
    for (int shift = 0; shift < 4; shift++) { /* so that every piece ends inside a character once */
        text[0] = want[0] = '\0';
        for (int i = 0; i < shift; i++) {
            strcat(text, "a");
            strcat(want, "a");
        }
        for (int i = 0; i < 300; i++) {
            strcat(text, i % 7 == 0 ? "<" : "\xe6\xbc\xa2");
            strcat(want, i % 7 == 0 ? "&lt;" : "\xe6\xbc\xa2");
        }
        got = edited_print(print_text, text);
        assert_string_equal(got, want);
        free(got);
    }
}

static void print_figure(FILE *stream, const void *context)
{
    ls_error error = {0};
    assert_int_equal(ls_figure_write(context, stream, &error), LS_OK);
}

static void drawings_share_a_page(void **state)
{
    (void)state;
    static ls_chart chart;
    ls_chart_start(&chart, LS_CHART_CURVES, "sample");
    snprintf(chart.title, sizeof chart.title, "<T> & \"t\"");
    ls_chart_add_curve(&chart, LS_CURVE_MAIN, 0, "VMC");
    ls_chart_add_point(&chart, 0.0, 81.4);
    ls_chart_add_point(&chart, 5.0, 72.7);
    ls_figure figure = {
        .number = 7,
        .chart = &chart,
        .shows = "what it <shows>",
        .svg = "<?xml?>\n<svg \n width=\"9\" viewBox=\"0 0 9 6\">\n<title>Gnuplot</title><desc>x</desc>"
               "<g id=\"a\" fill = 'none'><title>a</title><use xlink:href='#a' fill='#FFFFFF'/>"
               "<text>id='b' &lt;url(#c)</text></g></svg>"};
    char *got = edited_print(print_figure, &figure);
    assert_string_equal(
        got,
        "<figure id=\"figure-7\">\n<svg viewBox=\"0 0 9 6\" role=\"img\" aria-labelledby=\"f7-title f7-words\" "
        "xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\">\n"
        "<title id=\"f7-title\">&lt;T&gt; &amp; &quot;t&quot;</title>\n<desc id=\"f7-words\">"
        "&lt;T&gt; &amp; &quot;t&quot;. , against . VMC: from 81.4 at 0.00 to 72.7 at 5.00.</desc>\n"
        "<g id=\"f7-a\" fill='none'><use xlink:href='#f7-a' fill='#FFFFFF'/>"
        "<text>id='b' &lt;url(#c)</text></g></svg><figcaption><span class=\"label\">Figure 7.</span> "
        "What it &lt;shows&gt;.</figcaption>\n</figure>\n");
    free(got);
    ls_error error = {0};
    figure.svg = "<svg viewBox=\"0 0 1 1\"><script>x</script></svg>";
    FILE *nowhere = fopen("/dev/null", "w");
    assert_non_null(nowhere);
    assert_int_equal(ls_figure_write(&figure, nowhere, &error), LS_IO);
    fclose(nowhere);
    ls_chart_free(&chart);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(climb_lost_is_the_share),
        cmocka_unit_test(climb_out_takes_its_time),
        cmocka_unit_test(windmilling_drag_is_the_climb_over_the_speed),
        cmocka_unit_test(moment_is_force_times_arm),
        cmocka_unit_test(banked_weight_is_its_sine),
        cmocka_unit_test(less_rudder_needs_the_square_root),
        cmocka_unit_test(questions_are_graded),
        cmocka_unit_test(texts_are_escaped_at_any_length),
        cmocka_unit_test(drawings_share_a_page),
    };
    return cmocka_run_group_tests(tests, make_whimbrel, NULL);
}
