/* Tables and values in the three formats, escapes in each, and what happens without memory or room. */
#include "alloc_fail.h"
#include "check.h"

#include "report/report.h"

#include <errno.h>
#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)
#define KT  (1852.0 / 3600.0)

static const ls_column columns[] = {
    {"engine", "Failed", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"cas", "Calibrated\nspeed", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"bank", "Bank", LS_DIM_ANGLE, 1, LS_IN_TEXT, NULL},
    {"cg", "CG", LS_DIM_LENGTH, 1, LS_IN_DATA, "in"},
    {"reason", "", LS_WORDS, 0, LS_IN_DATA, NULL},
};

enum { COLUMNS = sizeof columns / sizeof columns[0] };

static ls_report *make_report(void)
{
    ls_report *report = ls_report_new();
    if (report == NULL) {
        return NULL;
    }
    ls_report_answer(report, "VMC is %d.", 70);
    ls_report_number(report, "answer.cas", LS_DIM_SPEED, NULL, 70 * KT);
    ls_report_number(report, "answer.stall", LS_DIM_SPEED, NULL, NAN);
    ls_report_missing(report, "answer.pedal", LS_DIM_FORCE, "no pedal data");
    ls_report_words(report, "name", "%s", "a\x1b[31m\"b\"");
    ls_report_flag(report, "held", 1);
    ls_report_warning(report, "%s", "mind this");
    ls_table *table = ls_report_table(report, "rows", "A title", LS_IN_ALL, columns, COLUMNS);
    ls_table_row(table);
    ls_table_words(table, "%s", "left");
    ls_table_number(table, 70.05 * KT);
    ls_table_number(table, -0.01 * DEG);
    ls_table_number(table, 90 * 0.0254);
    ls_table_row(table);
    ls_table_words(table, "%s", "=cmd|' /C'!A0,\"x\"");
    ls_table_number(table, INFINITY);
    ls_table_number(table, 5 * DEG);
    ls_table_skip(table);
    ls_table_words(table, "%s", "stalls first");
    return report;
}

static const ls_run run = {.command_line = "liveside test",
                           .condition = "sea level",
                           .units = LS_UNITS_US,
                           .inputs = 1,
                           .input = {{"a\nfile.yaml", "0123456789abcdef0123456789abcdef"}}};

/* The report as text; the caller frees it. */
static char *written(const ls_report *report, const ls_run *about, ls_format format, int bold)
{
    char *text = NULL;
    size_t size = 0;
    ls_error error = {0};
    FILE *stream = open_memstream(&text, &size);
    assert_non_null(stream);
    assert_int_equal(ls_report_write(report, about, format, bold, stream, &error), LS_OK);
    assert_int_equal(fclose(stream), 0);
    return text;
}

static void text_is_aligned_and_safe(void **state)
{
    (void)state;
    ls_report *report = make_report();
    char *text = written(report, &run, LS_FORMAT_TEXT, 0);
    assert_string_equal(text, "VMC is 70.\n"
                              "A title\n"
                              "                   Calibrated\n"
                              "Failed                  speed  Bank\n"
                              "                           kt   deg\n"
                              "left                     70.0   0.0\n"
                              "=cmd|' /C'!A0,\"x\"           -   5.0\n"
                              "\n"
                              "Caution: mind this\n"
                              "\n"
                              "a?file.yaml, SHA-256 0123456789ab\n"
                              "liveside " LS_VERSION ": liveside test\n" LS_CAUTION_LINE "\n");
    free(text);
    text = written(report, &run, LS_FORMAT_TEXT, 1);
    assert_int_equal(strncmp(text, "\033[1mVMC is 70.\n\033[0m", 18), 0);
    free(text);
    ls_report_free(report);
}

static void csv_has_units_in_the_header_and_quoted_words(void **state)
{
    (void)state;
    ls_report *report = make_report();
    char *text = written(report, &run, LS_FORMAT_CSV, 0);
    assert_string_equal(text, "engine,cas_kt,cg_in,reason\n"
                              "\"left\",70.05,90,\n"
                              "\"'=cmd|' /C'!A0,\"\"x\"\"\",,,\"stalls first\"\n");
    free(text);
    ls_run si = run;
    si.units = LS_UNITS_SI;
    text = written(report, &si, LS_FORMAT_CSV, 0);
    assert_non_null(strstr(text, "engine,cas_m_per_s,cg_m,reason\n\"left\",36.03"));
    free(text);
    ls_report_free(report);
}

static const char *string_at(const json_t *root, const char *key)
{
    const char *text = json_string_value(json_object_get(root, key));
    return text != NULL ? text : "(none)";
}

static void json_reads_back(void **state)
{
    (void)state;
    ls_report *report = make_report();
    char *text = written(report, &run, LS_FORMAT_JSON, 0);
    json_error_t why;
    json_t *root = json_loads(text, JSON_REJECT_DUPLICATES, &why);
    assert_non_null(root);
    assert_string_equal(string_at(root, "caution"), LS_CAUTION);
    assert_string_equal(string_at(root, "name"), "a?[31m\"b\"");
    assert_string_equal(string_at(root, "condition"), "sea level");
    assert_true(json_is_true(json_object_get(root, "held")));
    assert_string_equal(json_string_value(json_array_get(json_object_get(root, "warnings"), 0)), "mind this");
    const json_t *answer = json_object_get(root, "answer");
    check_close("a speed through JSON, kt", json_real_value(json_object_get(answer, "cas_kt")), 70, 1e-12,
                "round-off", "identity");
    assert_true(json_is_null(json_object_get(answer, "stall_kt")));
    assert_string_equal(string_at(answer, "stall_reason"), "not a finite number");
    assert_true(json_is_null(json_object_get(answer, "pedal_lbf")));
    assert_string_equal(string_at(answer, "pedal_reason"), "no pedal data");
    const json_t *second = json_array_get(json_object_get(root, "rows"), 1);
    assert_true(json_is_null(json_object_get(second, "cas_kt")));
    assert_string_equal(string_at(second, "reason"), "stalls first");
    assert_null(json_object_get(second, "cas_reason"));
    assert_null(json_object_get(second, "bank_deg"));
    json_decref(root);
    free(text);
    ls_report_free(report);
}

static void a_description_has_no_tables(void **state)
{
    (void)state;
    ls_report *report = make_report();
    char *text = NULL;
    size_t size = 0;
    ls_error error = {0};
    FILE *stream = open_memstream(&text, &size);
    assert_int_equal(ls_report_describe(report, &run, stream, &error), LS_OK);
    fclose(stream);
    json_t *root = json_loads(text, 0, NULL);
    assert_non_null(root);
    assert_null(json_object_get(root, "rows"));
    assert_string_equal(string_at(root, "command_line"), "liveside test");
    json_decref(root);
    free(text);
    ls_report_free(report);
}

static void wide_words_are_cut_to_eighty_columns(void **state)
{
    (void)state;
    static const ls_column two[] = {
        {"a", "A", LS_WORDS, 0, LS_IN_ALL, NULL},
        {"b", "B", LS_DIM_NUMBER, 2, LS_IN_ALL, NULL},
    };
    ls_report *report = ls_report_new();
    ls_table *table = ls_report_table(report, "t", NULL, LS_IN_ALL, two, 2);
    char long_word[301] = "";
    for (int i = 0; i < 150; i++) {
        strcat(long_word, "\xC3\xA9"); /* two bytes, one column */
    }
    ls_table_row(table);
    ls_table_words(table, "%s", long_word);
    ls_table_number(table, -1.5);
    char *text = written(report, &run, LS_FORMAT_TEXT, 0);
    char *row = strchr(text, '\n') + 1;
    /* 73 columns of words (72 letters and the mark), a gap of two, five of the number: eighty. */
    assert_int_equal(strcspn(row, "\n"), 72 * 2 + 1 + 2 + 5);
    assert_non_null(strstr(row, "\xC3\xA9~  -1.50\n"));
    free(text);
    ls_report_free(report);
}

static void long_lines_are_wrapped_as_they_begin(void **state)
{
    (void)state;
    ls_report *report = ls_report_new();
    ls_report_line(report, "  %s %s", "one two three four five six seven eight nine ten eleven twelve thirteen xx",
                   "next");
    char *text = written(report, &run, LS_FORMAT_TEXT, 0);
    assert_non_null(strstr(text, " thirteen xx\n  next\n"));
    free(text);
    ls_report_free(report);
}

static void decimals_follow_the_unit(void **state)
{
    (void)state;
    assert_int_equal(ls_units_decimals(LS_UNITS_SI, LS_DIM_ANGLE, NULL, 1), 3);    /* deg to rad, 57:1 */
    assert_int_equal(ls_units_decimals(LS_UNITS_SI, LS_DIM_LENGTH, "in", 1), 3);   /* in to m, 39:1 */
    assert_int_equal(ls_units_decimals(LS_UNITS_METRIC, LS_DIM_MASS, NULL, 0), 0); /* lb to kg, 2.2:1 */
    assert_int_equal(ls_units_decimals(LS_UNITS_SI, LS_DIM_POWER, NULL, 1), 0);    /* hp to W, 1:746 */
    assert_int_equal(ls_units_decimals(LS_UNITS_US, LS_DIM_SPEED, NULL, 1), 1);
}

/* A full device: the write is refused by the stream, which the committing caller looks at. */
static void a_full_device_is_left_in_the_stream(void **state)
{
    (void)state;
    FILE *full = fopen("/dev/full", "w");
    if (full == NULL) {
        skip();
    }
    ls_report *report = make_report();
    ls_error error = {0};
    setvbuf(full, NULL, _IONBF, 0);
    for (int format = 0; format < LS_FORMATS; format++) {
        clearerr(full);
        assert_int_equal(ls_report_write(report, &run, (ls_format)format, 0, full, &error), LS_OK);
        assert_true(ferror(full));
    }
    fclose(full);
    ls_report_free(report);
}

static void every_failed_allocation_is_said(void **state)
{
    (void)state;
    alloc_fail_or_skip();
    FILE *sink = fopen("/dev/null", "w");
    assert_non_null(sink);
    fputc('\n', sink); /* the stream's own buffer */
    for (int format = 0; format < LS_FORMATS; format++) {
        long n = 1, tried = 0, before = alloc_live();
        do {
            ls_error error = {0};
            alloc_fail_at(n);
            ls_report *report = make_report();
            ls_status status = LS_MEMORY;
            if (report != NULL) {
                status = ls_report_write(report, &run, (ls_format)format, 0, sink, &error);
            }
            ls_report_free(report);
            long failed_at = alloc_fail_stop();
            assert_int_equal(status, failed_at != 0 ? LS_MEMORY : LS_OK);
            assert_int_equal(alloc_live(), before);
            tried += failed_at != 0;
            n = failed_at != 0 ? alloc_fail_next(n) : 0;
        } while (n > 0);
        assert_true(tried > 10);
    }
    fclose(sink);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(text_is_aligned_and_safe),
        cmocka_unit_test(csv_has_units_in_the_header_and_quoted_words),
        cmocka_unit_test(json_reads_back),
        cmocka_unit_test(a_description_has_no_tables),
        cmocka_unit_test(wide_words_are_cut_to_eighty_columns),
        cmocka_unit_test(long_lines_are_wrapped_as_they_begin),
        cmocka_unit_test(decimals_follow_the_unit),
        cmocka_unit_test(a_full_device_is_left_in_the_stream),
        cmocka_unit_test(every_failed_allocation_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
