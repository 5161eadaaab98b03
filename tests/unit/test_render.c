/* Drawing with the real gnuplot. */
#include "scratch.h"

#include "chart_samples.h"
#include "render_job.h"

static void need_gnuplot(void)
{
    if (system("command -v gnuplot >/dev/null 2>&1") != 0) {
        print_message("skipped: there is no gnuplot\n");
        skip();
    }
}

static void save(ls_chart *chart)
{
    ls_error error = {0};
    if (ls_chart_save(chart, ".", &error) != LS_OK) {
        fail_msg("%s", error.text);
    }
    ls_chart_free(chart);
}

static void draw(const char *name, unsigned formats)
{
    ls_error error = {0};
    ls_render_outcome outcome;
    ls_render_job job = job_of(".", name);
    job.formats = formats;
    if (ls_render(&job, &outcome, &error) != LS_OK) {
        fail_msg("%s", error.text);
    }
    assert_int_equal(outcome, LS_RENDER_DRAWN);
}

static void assert_pictures(const char *name)
{
    static char svg[1 << 20];
    char path[128];
    char png[16];
    snprintf(path, sizeof path, "%s.svg", name);
    slurp(path, svg, sizeof svg);
    assert_non_null(strstr(svg, "<svg"));
    assert_non_null(strstr(svg, "</svg>"));
    snprintf(path, sizeof path, "%s.png", name);
    assert_true(slurp(path, png, sizeof png) == 15);
    assert_memory_equal(png, "\x89PNG\r\n\x1a\n", 8);
}

static void draws_every_kind(void **state)
{
    (void)state;
    need_gnuplot();
    for (int slide = 0; slide < 2; slide++) {
        for (int i = 0; i < SAMPLES; i++) {
            ls_chart chart;
            char name[LS_CHART_NAME];
            sample_table[i](&chart);
            chart.slide = slide;
            strcat(chart.name, slide ? "-slide" : "");
            strcpy(name, chart.name);
            save(&chart);
            draw(name, LS_RENDER_ALL);
            assert_pictures(name);
        }
    }
    assert_int_equal(entries(), 2 * 3 * SAMPLES); /* script and two pictures each, nothing else */
}

static void draws_nothing_but_an_empty_frame(void **state)
{
    (void)state;
    need_gnuplot();
    for (int kind = 0; kind < LS_CHART_KINDS; kind++) {
        ls_chart chart;
        ls_chart_start(&chart, (ls_chart_kind)kind, "empty");
        if (kind == LS_CHART_MAP && ls_chart_size_map(&chart, 2, 2)) {
            chart.map.x[1] = chart.map.y[1] = 1.0; /* no value anywhere */
        }
        save(&chart);
        draw("empty", LS_RENDER_ALL);
        assert_pictures("empty");
    }
}

/* A script by itself, as a user runs it. */
static void a_script_draws_itself(void **state)
{
    (void)state;
    need_gnuplot();
    ls_chart chart;
    sample_bank(&chart);
    save(&chart);
    assert_int_equal(system("gnuplot vmc-against-bank.gp </dev/null >/dev/null 2>&1"), 0);
    assert_pictures("vmc-against-bank");
    assert_int_equal(entries(), 3);
}

/* What a text looks like in the SVG; control characters are question marks there. */
static int svg_holds(const char *svg, const char *text)
{
    char want[256];
    size_t n = 0;
    for (; *text != '\0' && n + 6 < sizeof want; text++) {
        const char *as = *text == '<' ? "&lt;" : *text == '&' ? "&amp;" : NULL;
        n += (size_t)snprintf(want + n, sizeof want - n, as != NULL ? "%s" : "%.1s", as != NULL ? as : text);
    }
    return strstr(svg, want) != NULL;
}

static void hostile_text_is_drawn_as_text(void **state)
{
    (void)state;
    static char svg[1 << 20];
    need_gnuplot();
    for (int i = 0; i < HOSTILES; i++) {
        for (int kind = 0; kind < LS_CHART_KINDS; kind++) {
            ls_chart chart;
            sample_hostile(&chart, (ls_chart_kind)kind, hostile_table[i]);
            save(&chart);
            draw("hostile", kind == 0 ? LS_RENDER_ALL : LS_RENDER_SVG);
            assert_int_equal(entries(), 3); /* script, SVG, and the PNG of the first kind */
            slurp("hostile.svg", svg, sizeof svg);
            assert_null(strstr(svg, "<script"));
            if (strpbrk(hostile_table[i], "\n\t\x1b\x7f\xff\xc2\xe2") == NULL) {
                assert_true(svg_holds(svg, hostile_table[i]));
            }
        }
    }
    assert_int_equal(access("pwned", F_OK), -1);
}

static void one_format_may_be_asked_for(void **state)
{
    (void)state;
    need_gnuplot();
    ls_chart chart;
    ls_error error = {0};
    ls_render_outcome outcome;
    sample_moments(&chart);
    save(&chart);
    ls_render_job job = job_of(".", "moments");
    job.formats = LS_RENDER_SVG;
    assert_int_equal(ls_render(&job, &outcome, &error), LS_OK);
    assert_int_equal(access("moments.svg", R_OK), 0);
    assert_int_equal(entries(), 2);
}

static int try_without_streams(void)
{
    ls_error error = {0};
    ls_render_outcome outcome;
    close(0);
    close(1);
    close(2);
    ls_render_job job = job_of(".", "factors");
    return ls_render(&job, &outcome, &error) == LS_OK && outcome == LS_RENDER_DRAWN ? 0 : 1;
}

static void draws_with_its_own_streams_closed(void **state)
{
    (void)state;
    need_gnuplot();
    ls_chart chart;
    sample_tornado(&chart);
    save(&chart);
    assert_child_passed(in_child(try_without_streams));
    assert_pictures("factors");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_FOLDER(draws_every_kind),
        IN_FOLDER(draws_nothing_but_an_empty_frame),
        IN_FOLDER(a_script_draws_itself),
        IN_FOLDER(hostile_text_is_drawn_as_text),
        IN_FOLDER(one_format_may_be_asked_for),
        IN_FOLDER(draws_with_its_own_streams_closed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
