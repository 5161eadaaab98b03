/* Good aeroplane files: values in SI, marks, defaults, and what is allowed in the form of a file. */
#include "check.h"
#include "edited.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define TWIN "tests/data/twin.yaml"
#define TINY "tests/data/tiny.yaml"
#define UNIT "exact factors of the units: 1959 yard and pound, g0 = 9.80665 m/s2, nautical mile 1852 m"

static edited_file file;

static void accepted(void)
{
    if (file.status != LS_OK || file.findings.stored != 0) {
        char *text = edited_findings("file", &file.findings);
        print_error("%s\n%s", file.error.text, text);
        free(text);
        fail();
    }
}

static const ls_mark *mark_of(const char *path)
{
    int element = 0;
    ls_error error = {0};
    const ls_parameter *parameter = ls_parameter_find(&file.aircraft, path, &element, &error);
    assert_non_null(parameter);
    return ls_mark_of_const(&file.marks, parameter, element);
}

static void numbers_are_in_si(void **state)
{
    (void)state;
    edited_read(TWIN, NULL, NULL, &file);
    accepted();
    const ls_aircraft *a = &file.aircraft;
    check_close("maximum mass, kg", a->mass.maximum_kg, 1725.0, 0.0, "exact", UNIT);
    check_close("lateral centre of gravity, m", a->cg.lateral_m, 0.05, 1e-16, "round-off", UNIT);
    check_close("flap deflection, rad", a->flap[1].deflection_rad, 0.2617993877991494, 1e-15, "round-off", UNIT);
    check_close("power of 180 hp, W", a->powerplant[0].engine.power_W, 134225.97689, 1e-4, "printed digits",
                "550 ft lbf/s x 180");
    check_close("2700 rpm, rev/s", a->powerplant[0].engine.n_rev_s, 45.0, 1e-12, "round-off", UNIT);
    check_close("28.8 inHg, Pa", a->powerplant[0].engine.map_Pa, 97527.99, 0.01, "printed digits",
                "conventional inch of mercury, 3386.389 Pa");
    check_close("time limit, s", a->powerplant[0].engine.time_limit_s, 300.0, 0.0, "exact", UNIT);
    check_close("78 kt, m/s", a->published.vmc_m_s, 78.0 * 1852.0 / 3600.0, 1e-13, "round-off", UNIT);
    check_close("hub of the left engine, m", a->engine[0].hub_right_m, -1.9, 0.0, "exact", UNIT);
}

static void words_lists_and_tables_are_read(void **state)
{
    (void)state;
    edited_read(TWIN, NULL, NULL, &file);
    accepted();
    const ls_aircraft *a = &file.aircraft;
    assert_string_equal(a->name, "Test twin");
    assert_int_equal(a->flaps, 2);
    assert_int_equal(a->powerplants, 1);
    assert_int_equal(a->engines, 2);
    assert_string_equal(a->flap[1].name, "approach");
    assert_int_equal(a->included, LS_INCLUDE_WINDMILLING);
    assert_int_equal(a->published.vmc_kind, 1);
    assert_int_equal(a->position_error.rows, 4);
    const ls_curve *effect = &a->rudder.effect;
    assert_int_equal(effect->rows, 4);
    check_close("last row of the rudder table, rad", effect->x[3], 0.4363323129985824, 1e-15, "round-off", UNIT);
    check_close("last row of the rudder table, effect", effect->y[3], 0.92, 0.0, "exact", UNIT);
}

static void marks_tell_source_spread_and_place(void **state)
{
    (void)state;
    edited_read(TWIN, NULL, NULL, &file);
    accepted();
    const ls_mark *mass = mark_of("mass.maximum");
    assert_int_equal(mass->source, LS_SOURCE_MEASURED);
    check_close("spread of the mass, kg", mass->spread, 10.0, 0.0, "exact", UNIT);
    assert_int_equal(mass->line, 7);
    assert_int_equal(mass->column, 20);
    assert_int_equal(mark_of("mass.minimum")->source, LS_SOURCE_ASSUMED); /* the file's own `source` */
    assert_int_equal(mark_of("derivatives.axes")->source, LS_SOURCE_GIVEN);
    assert_int_equal(mark_of("engines[left].name")->source, LS_SOURCE_GIVEN);
    assert_int_equal(mark_of("fin.sidewash")->source, LS_SOURCE_DEFAULT);
    assert_int_equal(mark_of("fin.sidewash")->line, 0);
    assert_int_equal(mark_of("powerplants[1].propeller.thrust")->source, LS_SOURCE_ABSENT);
    assert_int_equal(mark_of("powerplants[1].engine.thrust")->source, LS_SOURCE_ABSENT);
    check_close("spread of 10 % of 0.10 /rad", mark_of("derivatives.yaw.sideslip")->spread, 0.01, 1e-17,
                "round-off", UNIT);
    check_close("spread of a table, share", mark_of("rudder.effect")->spread, 0.05, 1e-17, "round-off", UNIT);
    assert_int_equal(mark_of("rudder.effect")->source, LS_SOURCE_ESTIMATED);
}

static void spreads_take_the_unit_of_their_value(void **state)
{
    (void)state;
    edited_read(TINY, "span: 11.0 m", "span: {value: 36 ft, spread: 6 in}", &file);
    accepted();
    check_close("spread of 6 in, m", mark_of("wing.span")->spread, 0.1524, 1e-15, "round-off", UNIT);
    edited_read(TINY, "travel: 20 deg", "travel: 20 deg, usable: {value: 80 %, spread: 5 %}", &file);
    accepted();
    check_close("spread of a fraction in its own points", mark_of("aileron.usable")->spread, 0.05, 1e-16,
                "round-off", UNIT);
    edited_read(TINY, "span: 11.0 m", "span: {value: 11.0 m, spread: 5}", &file);
    assert_int_equal(file.status, LS_FILE_REJECTED);
    assert_string_equal(file.findings.item[0].key, "wing.span.spread");
}

static void defaults_fill_what_is_left_out(void **state)
{
    (void)state;
    edited_read(TINY, NULL, NULL, &file);
    accepted();
    const ls_aircraft *a = &file.aircraft;
    check_close("fin stall sideslip when left out, rad", a->fin.stall_sideslip_rad, 0.3490658503988659, 1e-15,
                "round-off", "the table of keys: 20 deg");
    check_close("pedal force limit when left out, N", a->limits.pedal_force_N, 667.2333, 1e-4, "printed digits",
                "150 lbf, 14 CFR 23.149");
    assert_int_equal(mark_of("fin.stall_sideslip")->source, LS_SOURCE_GUESS);
    assert_int_equal(mark_of("engines[1].rotation")->source, LS_SOURCE_GUESS);
    assert_int_equal(mark_of("published.vmc_kind")->source, LS_SOURCE_ABSENT);
    assert_int_equal(mark_of("rudder.pedal.boost")->source, LS_SOURCE_ABSENT); /* its block is not there */
    assert_false(ls_aircraft_has_pedal(a));
    assert_false(ls_given(a->wing.chord_m));
    assert_int_equal(a->engine[1].powerplant, 0);
    assert_int_equal(a->takeoff.flap, 0);
    assert_int_equal(ls_marks_uncertain(a, &file.marks), 5);
}

static void names_become_indexes(void **state)
{
    (void)state;
    edited_read(TWIN, "  flap: up", "  flap: approach", &file);
    accepted();
    assert_int_equal(file.aircraft.takeoff.flap, 1);
    edited_read(TINY, "engines:",
                "  - name: spare\n"
                "    engine: {type: electric, power: 90 kW, speed: 2400 rpm, torque_limit: 400 N.m}\n"
                "    propeller: {diameter: 1.9 m, windmilling_area: 0.4 m2,\n"
                "                thrust: [[0 kt, 2000 N], [90 kt, 1200 N]]}\n"
                "engines:\n"
                "  - name: nose\n"
                "    powerplant: spare\n"
                "    hub: {aft: -1 m, right: 0 m}",
                &file);
    accepted();
    assert_int_equal(file.aircraft.powerplants, 2);
    assert_int_equal(file.aircraft.engine[0].powerplant, 1);
    assert_int_equal(file.aircraft.engine[1].powerplant, 0);
}

static void both_spellings_of_anticlockwise_are_one(void **state)
{
    (void)state;
    static const char *const spelling[] = {"anticlockwise", "counterclockwise"};
    for (int i = 0; i < 2; i++) {
        char line[64];
        snprintf(line, sizeof line, "rotation: %s", spelling[i]);
        edited_read(TWIN, "rotation: clockwise", line, &file);
        accepted();
        assert_int_equal(file.aircraft.engine[0].rotation, 1);
        assert_int_equal(ls_engine_hand(&file.aircraft.engine[0]), -1);
    }
}

static void keys_depend_on_the_engine_in_any_order(void **state)
{
    (void)state;
    /* The type comes after the keys that it decides about. */
    edited_read(TINY, "{type: piston, power: 180 hp, speed: 2700 rpm}",
                "{flat_to_density: 0.9, speed: 2000 rpm, power: 300 hp, type: turboprop}", &file);
    accepted();
    check_close("density to which the rating holds", file.aircraft.powerplant[0].engine.flat_to_sigma, 0.9, 0.0,
                "exact", UNIT);
    edited_read(TINY, "type: piston", "type: turboprop", &file);
    assert_int_equal(file.findings.total[LS_REJECT], 1);
    assert_string_equal(file.findings.item[0].key, "powerplants[1].engine.flat_to_density");
    /* Without a known type nothing is said of keys that depend on it. */
    edited_read(TINY, "type: piston", "type: rubber, torque_limit: 1 N.m", &file);
    assert_int_equal(file.findings.total[LS_REJECT], 1);
    assert_string_equal(file.findings.item[0].text, "'rubber' is not one of piston, turboprop, electric or jet");
}

static void jets_have_no_propeller(void **state)
{
    (void)state;
    char *text = edited_text("tests/data/bad/rotation-of-jet.yaml");
    char *line = strstr(text, "    rotation: clockwise\n");
    assert_non_null(line);
    memset(line, ' ', strlen("    rotation: clockwise"));
    edited_parse(text, strlen(text), &file);
    free(text);
    accepted();
    assert_int_equal(file.aircraft.powerplant[0].engine.type, LS_ENGINE_JET);
    assert_int_equal(mark_of("engines[1].rotation")->source, LS_SOURCE_ABSENT);
    assert_int_equal(mark_of("powerplants[1].propeller.kind")->source, LS_SOURCE_ABSENT);
}

/* Converts the ends of the lines and parses again. */
static void read_with_line_end(const char *end, const char *before)
{
    char *text = edited_text(TWIN);
    char *changed = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&changed, &size);
    assert_non_null(out);
    fputs(before, out);
    for (const char *c = text; *c != '\0'; c++) {
        if (*c == '\n') {
            fputs(end, out);
        } else {
            fputc(*c, out);
        }
    }
    fclose(out);
    edited_parse(changed, size, &file);
    free(changed);
    free(text);
}

static void any_line_end_and_a_byte_order_mark_are_accepted(void **state)
{
    (void)state;
    static edited_file plain;
    edited_read(TWIN, NULL, NULL, &plain);
    static const char *const ends[] = {"\n", "\r\n", "\r"};
    for (int i = 0; i < 3; i++) {
        read_with_line_end(ends[i], "\xEF\xBB\xBF");
        accepted();
        assert_memory_equal(&file.aircraft, &plain.aircraft, sizeof plain.aircraft);
        assert_memory_equal(&file.marks, &plain.marks, sizeof plain.marks);
    }
}

/* Text of the user's is data: it is kept as it is, and whoever shows it escapes it. */
static void hostile_names_are_kept(void **state)
{
    (void)state;
    static const char *const hostile[] = {
        "\"`$(touch /tmp/owned)` 'quoted' \\\"double\\\"\"",
        "'=cmd|'' /C calc''!A0'",
        "\"<script>alert(1)</script>\"",
        "'%n%n%s {{7*7}} @import -rf'",
        "\"\\\\033[2J \xE2\x9C\x88 \xF0\x9F\x9B\xA9\"",
    };
    static const char *const kept[] = {
        "`$(touch /tmp/owned)` 'quoted' \"double\"",
        "=cmd|' /C calc'!A0",
        "<script>alert(1)</script>",
        "%n%n%s {{7*7}} @import -rf",
        "\\033[2J \xE2\x9C\x88 \xF0\x9F\x9B\xA9",
    };
    for (int i = 0; i < 5; i++) {
        char line[128];
        snprintf(line, sizeof line, "name: %s", hostile[i]);
        edited_read(TINY, "name: Tiny", line, &file);
        accepted();
        assert_string_equal(file.aircraft.name, kept[i]);
    }
}

/* What the user wrote cannot drive the terminal that shows a message about it. */
static void messages_are_harmless(void **state)
{
    (void)state;
    edited_read(TINY, "aileron:", "\"\xE2\x80\x8B%s%n\": 1\naileron:", &file);
    assert_int_equal(file.status, LS_FILE_REJECTED);
    static ls_findings findings;
    ls_findings_add(&findings, LS_REJECT, "k\033[2J", 1, 1, "t\033[2J\n");
    char *text = edited_findings("n\033[2J", &findings);
    assert_string_equal(text, "n?[2J:1:1: error: k?[2J: t?[2J?\n");
    free(text);
}

static void findings_are_cut_after_twenty(void **state)
{
    (void)state;
    static ls_findings findings;
    for (int i = 0; i < 25; i++) {
        ls_findings_add(&findings, i < 3 ? LS_NOTE : i < 10 ? LS_WARNING : LS_REJECT, NULL, i + 1, 1, "x");
    }
    char *text = edited_findings("f", &findings);
    int lines = 0;
    for (const char *c = text; *c != '\0'; c++) {
        lines += *c == '\n';
    }
    assert_int_equal(lines, 21);
    assert_non_null(strstr(text, "f:11:1: error: x\n")); /* errors come first */
    assert_non_null(strstr(text, "2 more warnings and 3 more notes\n"));
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_are_in_si),
        cmocka_unit_test(words_lists_and_tables_are_read),
        cmocka_unit_test(marks_tell_source_spread_and_place),
        cmocka_unit_test(spreads_take_the_unit_of_their_value),
        cmocka_unit_test(defaults_fill_what_is_left_out),
        cmocka_unit_test(names_become_indexes),
        cmocka_unit_test(both_spellings_of_anticlockwise_are_one),
        cmocka_unit_test(keys_depend_on_the_engine_in_any_order),
        cmocka_unit_test(jets_have_no_propeller),
        cmocka_unit_test(any_line_end_and_a_byte_order_mark_are_accepted),
        cmocka_unit_test(hostile_names_are_kept),
        cmocka_unit_test(messages_are_harmless),
        cmocka_unit_test(findings_are_cut_after_twenty),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
