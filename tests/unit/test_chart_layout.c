/* What is computed before a chart is written: texts' widths, scales, places of labels, contours. */
#include "chart_samples.h"

#include "report/chart_place.h"
#include "report/chart_text.h"

#include <stdlib.h>

static ls_page *page_of(ls_chart *chart)
{
    ls_error error = {0};
    ls_page *page = calloc(1, sizeof *page);
    assert_non_null(page);
    assert_int_equal(chart->error.status, LS_OK);
    assert_int_equal(ls_page_lay_out(page, chart, &error), LS_OK);
    ls_chart_free(chart);
    return page;
}

static void free_page(ls_page *page)
{
    free(page->point);
    free(page);
}

static void texts_break_at_spaces(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        double width_em;
        int most, lines;
        const char *line[3];
    } row[] = {
        {"", 10.0, 3, 0, {NULL}},
        {"one", 10.0, 3, 1, {"one"}},
        {"one two", 10.0, 3, 1, {"one two"}},
        {"one two", 2.5, 3, 2, {"one", "two"}},
        {" one  two ", 2.5, 3, 2, {"one", "two"}},
        {"  ", 2.5, 3, 0, {NULL}},
        {"one two three", 2.9, 2, 2, {"one", "two\xE2\x80\xA6"}},
        {"abcdefghij", 2.0, 3, 3, {"abc", "def", "ghij"}},
        {"\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9", 1.4, 3, 2, {"\xC3\xA9\xC3\xA9", "\xC3\xA9\xC3\xA9"}},
        {"\xFF\xFF", 0.1, 3, 2, {"\xFF", "\xFF"}},
        {"\x80", 0.0, 3, 1, {"\x80"}},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        char line[3][LS_CHART_TEXT];
        assert_int_equal(ls_chart_text_wrap(row[i].text, row[i].width_em, row[i].most, line), row[i].lines);
        for (int n = 0; n < row[i].lines; n++) {
            assert_string_equal(line[n], row[i].line[n]);
        }
    }
}

static void widths_are_those_of_the_font(void **state)
{
    (void)state;
    const char *source = "hmtx table of DejaVu Sans 2.37";
    check_close("width of M, em", ls_chart_text_width("M"), 0.863, 0.01, "rounded up to 0.01", source);
    check_close("width of i, em", ls_chart_text_width("i"), 0.278, 0.01, "rounded up to 0.01", source);
    check_close("width of 0123456789, em", ls_chart_text_width("0123456789"), 6.362, 0.1, "10 digits rounded up",
                source);
    check_close("width of a combining accent, em", ls_chart_text_width("e\xCC\x81"), 0.615, 0.01, "rounded up",
                source);
}

static void copies_whole_characters(void **state)
{
    (void)state;
    char out[4];
    ls_chart_text_copy(out, sizeof out, "ab\xC3\xA9");
    assert_string_equal(out, "ab");
    ls_chart_text_copy(out, sizeof out, "a\xC3\xA9");
    assert_string_equal(out, "a\xC3\xA9");
    ls_chart_text_copy(out, 1, "abc");
    assert_string_equal(out, "");
    ls_chart_text_copy(out, 2, "\x80\x80\x80");
    assert_string_equal(out, "");
}

static void scales_have_round_steps(void **state)
{
    (void)state;
    static const struct {
        double low, high;
        int tight, with_zero;
        double want_low, want_high, want_step;
    } row[] = {
        {-5.0, 10.0, 1, 0, -5.0, 10.0, 2.0},
        {62.0, 107.5, 0, 0, 60.0, 110.0, 10.0},
        {0.0, 12000.0, 1, 0, 0.0, 12000.0, 2000.0},
        {3.0, 97.0, 0, 0, 0.0, 110.0, 20.0},
        {-97.0, -3.0, 0, 0, -110.0, 0.0, 20.0},
        {50.0, 97.0, 0, 1, 0.0, 110.0, 20.0},
        {-0.004, 0.003, 0, 0, -0.0045, 0.0035, 0.001},
        {5.0, 5.0, 1, 0, 4.75, 5.25, 0.1},
        {0.0, 0.0, 1, 0, -1.0, 1.0, 0.2},
        {INFINITY, -INFINITY, 0, 0, 0.0, 1.0, 0.2},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        ls_chart_axis axis = {.with_zero = row[i].with_zero};
        ls_scale s = ls_scale_choose(&axis, row[i].low, row[i].high, 6.0, row[i].tight);
        check_close("low end of a scale", s.low, row[i].want_low, 1e-9, "round-off", "worked by hand");
        check_close("high end of a scale", s.high, row[i].want_high, 1e-9, "round-off", "worked by hand");
        check_close("step of a scale", s.step, row[i].want_step, 1e-9, "round-off", "worked by hand");
    }
}

static void scales_do_as_asked(void **state)
{
    (void)state;
    ls_chart_axis axis = {.low = 40.0, .high = 80.0, .step = 5.0};
    ls_scale s = ls_scale_choose(&axis, 0.0, 1e6, 6.0, 0);
    assert_true(s.low == 40.0 && s.high == 80.0 && s.step == 5.0);
    assert_int_equal(ls_scale_count(&s), 9);
    axis.step = 1e-9; /* more ticks than can be read: a step is chosen */
    s = ls_scale_choose(&axis, 0.0, 1.0, 6.0, 0);
    assert_true(s.step >= 5.0);
}

static void ticks_are_written_as_numbers(void **state)
{
    (void)state;
    static const struct {
        double low, high, step, value;
        int decimals;
        const char *want;
    } row[] = {
        {0, 100, 20, 40, 0, "40"},
        {-10, 10, 5, -5, 0,
         "\xE2\x88\x92"
         "5"},
        {0, 1, 0.25, 0.25, 2, "0.25"},
        {-1, 1, 0.5, -1e-17, 1, "0.0"},
        {0, 9000, 1000, 9000, 0, "9000"},
        {0, 12000, 1000, 9000, 0,
         "9\xE2\x80\x89"
         "000"},
        {0, 2e6, 1e6, 1e6, 0,
         "1\xE2\x80\x89"
         "000\xE2\x80\x89"
         "000"},
        {0, 1e12, 2e11, 2e11, 0, "2e+11"},
        {0, 1e-7, 2e-8, 2e-8, 8, "2e-08"},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        ls_scale s = {row[i].low, row[i].high, row[i].step, row[i].decimals};
        char text[LS_SCALE_TEXT];
        ls_scale_text(&s, row[i].value, text);
        assert_string_equal(text, row[i].want);
    }
}

static void boxes_know_their_distance(void **state)
{
    (void)state;
    ls_box box = {0.0, 0.0, 4.0, 2.0, 0.0};
    static const struct {
        ls_segment s;
        double gap;
    } row[] = {
        {{-1, 1, 5, 1, 0}, 0.0},       {{1, 1, 2, 1, 0}, 0.0},        {{5, 0, 5, 9, 0}, 1.0},
        {{7, 6, 9, 9, 0}, 5.0},        {{-3, 5, 9, 5, 0}, 3.0},       {{6, 0, 0, 6, 0}, 0.0},
        {{8, 0, 0, 8, 0}, 1.41421356}, {{5, 3, 5, 3, 0}, 1.41421356},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        check_close("distance of a segment from a box", ls_box_gap(&box, &row[i].s), row[i].gap, 1e-6,
                    "printed digits", "worked by hand");
    }
}

static void labels_spread_evenly(void **state)
{
    (void)state;
    double y[4] = {52.0, 50.0, 50.0, 48.0};
    ls_place_spread(y, 4, 10.0, 0.0, 100.0);
    for (int i = 0; i < 3; i++) {
        check_between("distance between labels", y[i] - y[i + 1], 9.9, 10.5, "identity: what was asked for");
    }
    check_close("their middle", 0.25 * (y[0] + y[1] + y[2] + y[3]), 50.0, 0.1, "200 rounds", "identity: symmetry");
    double low[2] = {1.0, 0.0};
    ls_place_spread(low, 2, 10.0, 0.0, 100.0);
    check_close("the lowest label keeps to the edge", low[1], 0.0, 0.1, "200 rounds",
                "identity: what was asked for");
}

/* The room of a text, a little less than what the layout reckons with. */
static ls_box box_of(const ls_page *page, const ls_page_text *t)
{
    double width = 0.96 * ls_chart_text_width(t->text) * t->size * page->em;
    double height = 0.9 * t->size * page->em;
    double x = t->align == LS_ALIGN_LEFT    ? t->x + 0.5 * width
               : t->align == LS_ALIGN_RIGHT ? t->x - 0.5 * width
                                            : t->x;
    ls_box box = ls_box_at(x, t->y, width, height);
    box.angle_rad = t->angle_rad;
    return box;
}

static void assert_texts_are_apart(const ls_page *page, const char *name)
{
    ls_place *place = calloc(1, sizeof *place);
    assert_non_null(place);
    ls_page_frame canvas = {.left = 0.0, .right = page->width, .bottom = 0.0, .top = page->height};
    for (int i = 0; i < page->texts; i++) {
        ls_box box = box_of(page, &page->text[i]);
        double cost = ls_place_cost(place, &canvas, &box, -1, 0.01);
        if (cost >= LS_PLACE_BAD) {
            fail_msg("%s: \"%s\" covers another text or the edge", name, page->text[i].text);
        }
        ls_place_add_box(place, box);
    }
    free(place);
}

static void no_text_covers_another(void **state)
{
    (void)state;
    for (int i = 0; i < SAMPLES; i++) {
        for (int slide = 0; slide < 2; slide++) {
            ls_chart chart;
            sample_table[i](&chart);
            chart.slide = slide;
            char name[LS_CHART_NAME];
            strcpy(name, chart.name);
            ls_page *page = page_of(&chart);
            assert_texts_are_apart(page, name);
            free_page(page);
        }
    }
}

/* The same for families of curves of any steepness, spacing and number. */
static void no_text_covers_another_in_random_charts(void **state)
{
    (void)state;
    uint64_t seed = 20;
    for (int n = check_scaled(60); n > 0; n--) {
        ls_chart chart;
        ls_chart_start(&chart, LS_CHART_CURVES, "random");
        sample_axis(&chart.y[0], "Minimum control speed", "kt CAS");
        double slope = check_random(&seed, -6.0, 2.0);
        double spacing = check_random(&seed, 0.0, 8.0);
        int curves = 1 + (int)check_random(&seed, 0.0, 6.0);
        for (int i = 0; i < curves; i++) {
            ls_chart_add_curve(&chart, i == 0 ? LS_CURVE_MAIN : LS_CURVE_OTHER, 0, "one of the options");
            for (int k = -20; k <= 40; k++) {
                double b = 0.25 * k;
                ls_chart_add_point(&chart, b, fmax(80.0 + i * spacing + slope * b + 0.05 * b * b, 62.0));
            }
        }
        ls_chart_add_region(&chart, LS_REGION_BELOW, 0, "wing stalled");
        ls_chart_add_point(&chart, -5.0, 62.0);
        ls_chart_add_point(&chart, 10.0, 62.0);
        ls_chart_add_vertical(&chart, 5.0, "5 deg");
        ls_chart_add_mark(&chart, 0, 5.0, fmax(80.0 + 5.0 * slope + 1.25, 62.0), "the answer");
        ls_page *page = page_of(&chart);
        assert_texts_are_apart(page, "random");
        free_page(page);
    }
}

static void a_region_covers_its_side(void **state)
{
    (void)state;
    static const ls_region_side side[] = {LS_REGION_BELOW, LS_REGION_ABOVE, LS_REGION_LEFT, LS_REGION_RIGHT};
    for (int i = 0; i < 4; i++) {
        ls_chart chart;
        ls_chart_start(&chart, LS_CHART_CURVES, "region");
        ls_chart_add_curve(&chart, LS_CURVE_MAIN, 0, "");
        ls_chart_add_point(&chart, 0.0, 0.0);
        ls_chart_add_point(&chart, 10.0, 10.0);
        ls_chart_add_region(&chart, side[i], 0, "here");
        ls_chart_add_point(&chart, i < 2 ? 0.0 : 4.0, i < 2 ? 4.0 : 0.0);
        ls_chart_add_point(&chart, i < 2 ? 10.0 : 4.0, i < 2 ? 4.0 : 10.0);
        ls_page *page = page_of(&chart);
        const ls_page_text *label = &page->text[page->texts - 1];
        assert_string_equal(label->text, "here");
        ls_chart_point p = ls_page_axes(&page->frame[0], label->x, label->y);
        double along = i < 2 ? p.y : p.x;
        assert_true(i % 2 == 0 ? along < 4.0 : along > 4.0);
        free_page(page);
    }
}

/* The area of a fill layer's polygons, by the shoelace formula. */
static double area_of(const ls_page *page, const ls_page_layer *layer)
{
    double twice = 0.0;
    int start = layer->first;
    for (int i = layer->first; i < layer->first + layer->count; i++) {
        if (!isfinite(page->point[i].x)) {
            start = i + 1;
            continue;
        }
        int ends = i + 1 == layer->first + layer->count || !isfinite(page->point[i + 1].x);
        const ls_chart_point *a = &page->point[i];
        const ls_chart_point *b = &page->point[ends ? start : i + 1];
        twice += a->x * b->y - b->x * a->y;
    }
    return 0.5 * fabs(twice);
}

static void start_map(ls_chart *chart, int nx, int ny)
{
    ls_chart_start(chart, LS_CHART_MAP, "map");
    assert_true(ls_chart_size_map(chart, nx, ny));
    for (int i = 0; i < nx; i++) {
        chart->map.x[i] = i;
    }
    for (int j = 0; j < ny; j++) {
        chart->map.y[j] = j;
    }
}

static void bands_fill_what_has_an_answer(void **state)
{
    (void)state;
    ls_chart chart;
    start_map(&chart, 6, 6);
    for (int i = 0; i < 36; i++) {
        chart.map.z[i] = 3.0 * (i % 6) + sin(i);
    }
    chart.map.z[0] = NAN; /* takes one cell of the 25 */
    ls_page *page = page_of(&chart);
    double area = 0.0;
    for (int i = 0; i < page->layers; i++) {
        area += strcmp(page->layer[i].name, "band") == 0 ? area_of(page, &page->layer[i]) : 0.0;
    }
    check_close("area of the bands", area, 24.0 * 1.2, 0.2, "strips are 1.2 of their height, but the uppermost",
                "identity: 24 cells");
    free_page(page);
}

static void contours_lie_on_their_level(void **state)
{
    (void)state;
    ls_chart chart;
    start_map(&chart, 9, 7);
    for (int i = 0; i < 63; i++) {
        int row = i / 9;
        chart.map.z[i] = 10.0 * (i % 9) + 20.0 * row;
    }
    chart.map.step = 25.0;
    ls_page *page = page_of(&chart);
    int contours = 0;
    for (int n = 0; n < page->layers; n++) {
        const ls_page_layer *layer = &page->layer[n];
        if (strcmp(layer->name, "contour") == 0) {
            contours++;
            for (int i = layer->first; i < layer->first + layer->count; i++) {
                const ls_chart_point *p = &page->point[i];
                if (isfinite(p->x)) {
                    check_close("a plane on its contour", 10.0 * p->x + 20.0 * p->y, 25.0 * contours, 1e-9,
                                "round-off", "identity: linear in each cell");
                }
            }
        }
    }
    assert_int_equal(contours, 7); /* 25 to 175 between 0 and 200 */
    free_page(page);
}

/* A saddle's two pieces cut off the corners that its middle does not belong with. */
static void a_saddle_is_parted_by_its_middle(void **state)
{
    (void)state;
    static const double z[4] = {0.0, 10.0, 10.0, 1.0};
    static const double step[2] = {4.0, 7.0}; /* the first level is below the middle, 5.25, or above it */
    for (int above = 0; above < 2; above++) {
        ls_chart chart;
        start_map(&chart, 2, 2);
        memcpy(chart.map.z, z, sizeof z);
        chart.map.step = step[above];
        ls_page *page = page_of(&chart);
        int n = 0;
        while (strcmp(page->layer[n].name, "contour") != 0) {
            n++;
        }
        const ls_chart_point *p = &page->point[page->layer[n].first];
        int pieces = 0;
        for (int i = 0; i + 1 < page->layer[n].count; i++) {
            if (isfinite(p[i].x) && isfinite(p[i + 1].x)) {
                double a = above ? p[i].x - p[i].y : p[i].x + p[i].y - 1.0;
                double b = above ? p[i + 1].x - p[i + 1].y : p[i + 1].x + p[i + 1].y - 1.0;
                assert_true(a * b > 0.0); /* one side of the diagonal through the other two corners */
                pieces++;
            }
        }
        assert_true(pieces >= 2);
        free_page(page);
    }
}

static void a_drawing_has_one_scale(void **state)
{
    (void)state;
    ls_chart chart;
    sample_drawing(&chart);
    ls_page *page = page_of(&chart);
    const ls_page_frame *f = &page->frame[0];
    check_close("pixels of a metre across and up", ls_page_x(f, 1.0) - ls_page_x(f, 0.0),
                ls_page_y(f, 1.0) - ls_page_y(f, 0.0), 1e-9, "round-off", "identity");
    assert_true(page->bare);
    free_page(page);
}

static void bars_that_would_hide_each_other_stand_apart(void **state)
{
    (void)state;
    for (int same_way = 0; same_way < 2; same_way++) {
        ls_chart chart;
        ls_chart_start(&chart, LS_CHART_BARS, "bars");
        chart.bars_overlaid = 1;
        int row = ls_chart_add_row(&chart, "row");
        ls_chart_add_group(&chart, "a");
        ls_chart_add_group(&chart, "b");
        ls_chart_add_bar(&chart, row, 0, 0.0, 2.0, "");
        ls_chart_add_bar(&chart, row, 1, 0.0, same_way ? 1.0 : -1.0, "");
        ls_page *page = page_of(&chart);
        double y[2] = {0.0, 0.0};
        for (int i = 0; i < 2; i++) {
            assert_string_equal(page->layer[i].name, "bars");
            y[i] = page->point[page->layer[i].first].y;
        }
        assert_int_equal(y[0] != y[1], same_way);
        free_page(page);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(texts_break_at_spaces),
        cmocka_unit_test(widths_are_those_of_the_font),
        cmocka_unit_test(copies_whole_characters),
        cmocka_unit_test(scales_have_round_steps),
        cmocka_unit_test(scales_do_as_asked),
        cmocka_unit_test(ticks_are_written_as_numbers),
        cmocka_unit_test(boxes_know_their_distance),
        cmocka_unit_test(labels_spread_evenly),
        cmocka_unit_test(no_text_covers_another),
        cmocka_unit_test(no_text_covers_another_in_random_charts),
        cmocka_unit_test(a_region_covers_its_side),
        cmocka_unit_test(bands_fill_what_has_an_answer),
        cmocka_unit_test(contours_lie_on_their_level),
        cmocka_unit_test(a_saddle_is_parted_by_its_middle),
        cmocka_unit_test(a_drawing_has_one_scale),
        cmocka_unit_test(bars_that_would_hide_each_other_stand_apart),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
