/* A program that uses the library may have set a locale with a decimal comma: the files, pages and chart scripts
 * that the library writes are the same there. */
#include "check.h"

#include "comma_locale.h"

#include "liveside/chart.h"
#include "liveside/reader.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define TWIN "tests/data/twin.yaml"

static ls_aircraft aircraft;
static ls_marks marks;

static void write_file(FILE *out)
{
    ls_aircraft_write(out, &aircraft, &marks);
}

static void print_values(FILE *out)
{
    ls_aircraft_print(out, &aircraft, &marks, LS_UNITS_US);
    ls_aircraft_print_defaults(out, &aircraft, &marks, LS_UNITS_SI);
}

static void write_pages(FILE *out)
{
    ls_aircraft_write_starter(out);
    ls_aircraft_write_reference(out);
}

static void draw_curve(FILE *out)
{
    static ls_chart chart;
    ls_error error = {0};
    ls_chart_start(&chart, LS_CHART_CURVES, "comma");
    snprintf(chart.title, sizeof chart.title, "A title");
    snprintf(chart.x.label, sizeof chart.x.label, "bank");
    snprintf(chart.y[0].label, sizeof chart.y[0].label, "speed");
    ls_chart_add_curve(&chart, LS_CURVE_MAIN, 0, "curve");
    for (int i = 0; i < 20; i++) {
        ls_chart_add_point(&chart, 0.25 * i, 0.125 * i * i);
    }
    ls_chart_add_vertical(&chart, 2.5, "here");
    ls_status status = ls_chart_write(&chart, out, &error);
    ls_chart_free(&chart);
    assert_int_equal(status, LS_OK);
}

static void draw_map(FILE *out)
{
    static ls_chart chart;
    ls_error error = {0};
    ls_chart_start(&chart, LS_CHART_MAP, "comma-map");
    snprintf(chart.title, sizeof chart.title, "A title");
    snprintf(chart.x.label, sizeof chart.x.label, "bank");
    snprintf(chart.y[0].label, sizeof chart.y[0].label, "height");
    assert_true(ls_chart_size_map(&chart, 5, 5));
    for (int i = 0; i < 5; i++) {
        chart.map.x[i] = chart.map.y[i] = 0.25 * i;
    }
    for (int i = 0; i < 25; i++) {
        chart.map.z[i] = 0.5 * (i % 5) + 0.25 * (i / 5);
    }
    ls_status status = ls_chart_write(&chart, out, &error);
    ls_chart_free(&chart);
    assert_int_equal(status, LS_OK);
}

static char *text_of(void (*write)(FILE *out))
{
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    write(out);
    assert_int_equal(fclose(out), 0);
    return text;
}

static void compare(void (*write)(FILE *out), const char *what)
{
    char folder[64];
    char *plain = text_of(write);
    int is_comma = comma_locale_use(folder);
    char *comma = is_comma ? text_of(write) : NULL;
    comma_locale_end(folder);
    if (comma == NULL) {
        free(plain);
        print_message("skipped: no locale with a decimal comma can be made here (localedef)\n");
        skip();
    }
    size_t at = 0;
    while (plain[at] != '\0' && plain[at] == comma[at]) {
        at++;
    }
    if (plain[at] != comma[at]) {
        size_t from = at > 30 ? at - 30 : 0;
        fail_msg("%s: '%.60s' becomes '%.60s'", what, plain + from, comma + from);
    }
    assert_non_null(strchr(plain, '.'));
    free(plain);
    free(comma);
}

static int read_twin(void **state)
{
    static ls_findings findings;
    (void)state;
    return ls_aircraft_read(TWIN, &aircraft, &marks, &findings, NULL, NULL) != LS_OK;
}

static void aeroplane_files(void **state)
{
    (void)state;
    compare(write_file, "the file");
    compare(print_values, "the values");
    compare(write_pages, "the pages");
}

static void chart_scripts(void **state)
{
    (void)state;
    compare(draw_curve, "curves");
    compare(draw_map, "a map");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(aeroplane_files),
        cmocka_unit_test(chart_scripts),
    };
    return cmocka_run_group_tests(tests, read_twin, NULL);
}
