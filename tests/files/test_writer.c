/* The starter file, an aircraft written and read again, the printed aeroplane, and docs/aircraft-file.md. */
#include "check.h"
#include "edited.h"

#include "liveside/support.h"

#include <stdlib.h>
#include <string.h>

#define TWIN     "tests/data/twin.yaml"
#define TINY     "tests/data/tiny.yaml"
#define DOCUMENT "docs/aircraft-file.md"

static edited_file file, again;

static void print_starter(FILE *out, const void *context)
{
    (void)context;
    ls_aircraft_write_starter(out);
}

static void print_file(FILE *out, const void *context)
{
    const edited_file *f = context;
    ls_aircraft_write(out, &f->aircraft, &f->marks);
}

static void print_aircraft(FILE *out, const void *context)
{
    const edited_file *f = context;
    ls_aircraft_print(out, &f->aircraft, &f->marks, LS_UNITS_METRIC);
}

static void print_defaults(FILE *out, const void *context)
{
    const edited_file *f = context;
    ls_aircraft_print_defaults(out, &f->aircraft, &f->marks, LS_UNITS_US);
}

/* A text must read without a word of complaint. */
static void read_clean(const char *text, edited_file *to)
{
    edited_parse(text, strlen(text), to);
    if (to->status != LS_OK || to->findings.stored > 0) {
        char *found = edited_findings("text", &to->findings);
        print_error("%s\n%s\n", found, text);
        free(found);
        fail();
    }
}

static void the_starter_file_is_a_whole_aeroplane(void **state)
{
    (void)state;
    char *text = edited_print(print_starter, NULL);
    read_clean(text, &file);
    assert_int_equal(file.aircraft.flaps, 2);
    assert_int_equal(file.aircraft.engines, 2);
    ls_support support;
    ls_aircraft_support(&file.aircraft, &file.marks, &support);
    for (int i = 0; i < support.rows; i++) {
        assert_int_not_equal(support.row[i].level, LS_SUPPORT_NONE);
    }
    free(text);
}

/* Every key of the table stands in the starter file, with its meaning, on a line of at most 160 columns. */
static void the_starter_file_names_every_key(void **state)
{
    (void)state;
    char *text = edited_print(print_starter, NULL);
    int count;
    const ls_parameter *row = ls_parameters(&count);
    for (int i = 0; i < count; i++) {
        char key[100];
        const char *last = strrchr(row[i].path, '.');
        snprintf(key, sizeof key, "%s: ", last != NULL ? last + 1 : row[i].path);
        assert_non_null(strstr(text, key));
        assert_non_null(strstr(text, row[i].meaning));
    }
    for (const char *line = text; *line != '\0'; line += strcspn(line, "\n") + 1) {
        assert_true(strcspn(line, "\n") <= 160);
    }
    free(text);
}

/* Same numbers, words, sources and spreads; only the places differ. */
static void must_be_same(const edited_file *a, const edited_file *b)
{
    assert_memory_equal(&a->aircraft, &b->aircraft, sizeof a->aircraft);
    for (int i = 0; i < LS_MARKS_MAX; i++) {
        assert_int_equal(a->marks.mark[i].source, b->marks.mark[i].source);
        assert_true(a->marks.mark[i].spread == b->marks.mark[i].spread);
    }
}

static void a_written_aircraft_reads_back(void **state)
{
    (void)state;
    static const char *const paths[] = {TWIN, TINY};
    for (int i = 0; i < 2; i++) {
        edited_read(paths[i], NULL, NULL, &file);
        char *text = edited_print(print_file, &file);
        read_clean(text, &again);
        must_be_same(&file, &again);
        free(text);
    }
    char *starter = edited_print(print_starter, NULL);
    read_clean(starter, &file);
    char *text = edited_print(print_file, &file);
    read_clean(text, &again);
    must_be_same(&file, &again);
    free(text);
    free(starter);
}

/* Doubles of any digits survive the writing, in whatever unit they are shown. */
static void random_numbers_read_back(void **state)
{
    (void)state;
    uint64_t seed = 20240611;
    int rounds = check_scaled(200);
    edited_read(TWIN, NULL, NULL, &file);
    for (int i = 0; i < rounds; i++) {
        ls_aircraft *a = &file.aircraft;
        a->wing.span_m = check_random(&seed, 10.0, 12.0);
        a->wing.area_m2 = check_random(&seed, 16.0, 18.0);
        a->rudder.left_rad = check_random(&seed, 0.3, 0.43);
        a->published.vmc_m_s = check_random(&seed, 30.0, 50.0);
        a->powerplant[0].engine.power_W = check_random(&seed, 120e3, 140e3);
        a->powerplant[0].engine.map_Pa = check_random(&seed, 90e3, 100e3);
        a->limits.pedal_force_N = check_random(&seed, 300.0, 700.0);
        char *text = edited_print(print_file, &file);
        edited_parse(text, strlen(text), &again);
        assert_int_equal(again.status, LS_OK);
        assert_memory_equal(&again.aircraft, a, sizeof *a);
        free(text);
    }
}

static void hostile_text_reads_back(void **state)
{
    (void)state;
    edited_read(TINY, NULL, NULL, &file);
    strcpy(file.aircraft.name, "- {a: \"b\\c\"} # 'x' `y` $(z) =1+1 <b>&amp;</b> \xE2\x9C\x88");
    strcpy(file.aircraft.engine[0].name, "*alias &anchor !tag | > %");
    char *text = edited_print(print_file, &file);
    read_clean(text, &again);
    assert_string_equal(again.aircraft.name, file.aircraft.name);
    assert_string_equal(again.aircraft.engine[0].name, file.aircraft.engine[0].name);
    free(text);
    strcpy(file.aircraft.name, "two\nlines"); /* cannot come from a file; stays one scalar, and is refused */
    text = edited_print(print_file, &file);
    edited_parse(text, strlen(text), &again);
    assert_int_equal(again.status, LS_FILE_REJECTED);
    assert_int_equal(again.findings.stored, 1);
    assert_string_equal(again.findings.item[0].key, "name");
    free(text);
}

static void the_printed_aeroplane_fits_a_terminal(void **state)
{
    (void)state;
    edited_read(TWIN, NULL, NULL, &file);
    strcpy(file.aircraft.name, "\033[31mred\033[0m");
    char *text = edited_print(print_aircraft, &file);
    for (const char *line = text; *line != '\0'; line += strcspn(line, "\n") + 1) {
        assert_true(strcspn(line, "\n") <= 80);
    }
    assert_null(strchr(text, '\033'));
    assert_non_null(strstr(text, "wing.area                                         17 m2  published\n"));
    assert_non_null(strstr(text, "mass.maximum                                    1725 kg  measured  +-10 kg\n"));
    assert_non_null(strstr(text, "rudder.effect                                    4 rows  estimated  +-5 %\n"));
    assert_non_null(strstr(text, "powerplants[1].propeller.thrust                       -  absent\n"));
    assert_non_null(strstr(text, "published.vmc                                     78 kt  assumed\n"));
    assert_null(strstr(text, "torque_limit")); /* means nothing to a piston engine */
    free(text);
}

static void defaults_are_listed_by_kind(void **state)
{
    (void)state;
    edited_read(TINY, "    hub: {aft: 0.60 m, right: -1.90 m}",
                "    hub: {aft: 0.60 m, right: -1.90 m}\n    rotation: clockwise", &file);
    char *text = edited_print(print_defaults, &file);
    const char *guesses = "Left out and guessed; results that rest on these are rounded:\n"
                          "  fin.stall_sideslip                               20 deg\n"
                          "  slipstream.wing_lift                                0.7\n"
                          "  slipstream.fin_immersion                            0.1\n"
                          "  engines[2].rotation                           clockwise\n"
                          "Left out, with the default that convention gives:\n";
    assert_int_equal(strncmp(text, guesses, strlen(guesses)), 0);
    assert_non_null(strstr(text, "  limits.pedal_force                              150 lbf\n"));
    assert_non_null(strstr(text, "  engines[].tilt                                    0 deg\n"));
    assert_null(strstr(text, "rudder.pedal")); /* the block is not there */
    assert_null(strstr(text, "vmc_kind"));
    free(text);
}

static void the_example_of_the_document_reads(void **state)
{
    (void)state;
    char *document = edited_text(DOCUMENT);
    char *start = strstr(document, "```yaml\n");
    assert_non_null(start);
    start += strlen("```yaml\n");
    *strstr(start, "```") = '\0';
    read_clean(start, &file);
    assert_string_equal(file.aircraft.name, "Example twin");
    free(document);
}

static void the_document_has_every_key_and_the_caution(void **state)
{
    (void)state;
    char *document = edited_text(DOCUMENT);
    int count;
    const ls_parameter *row = ls_parameters(&count);
    for (int i = 0; i < count; i++) {
        char cell[120];
        snprintf(cell, sizeof cell, "\n| `%s` | ", row[i].path);
        assert_non_null(strstr(document, cell));
        assert_non_null(strstr(document, row[i].meaning));
    }
    assert_non_null(strstr(document, "For training and study only; never for flight planning or to set a speed."));
    free(document);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_starter_file_is_a_whole_aeroplane),
        cmocka_unit_test(the_starter_file_names_every_key),
        cmocka_unit_test(a_written_aircraft_reads_back),
        cmocka_unit_test(random_numbers_read_back),
        cmocka_unit_test(hostile_text_reads_back),
        cmocka_unit_test(the_printed_aeroplane_fits_a_terminal),
        cmocka_unit_test(defaults_are_listed_by_kind),
        cmocka_unit_test(the_example_of_the_document_reads),
        cmocka_unit_test(the_document_has_every_key_and_the_caution),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
