/* What a file supports: by its keys, by their sources, and by the kind of aeroplane. */
#include "liveside/support.h"

#include "check.h"
#include "edited.h"

#include <stdlib.h>
#include <string.h>

#define TWIN "tests/data/twin.yaml"
#define TINY "tests/data/tiny.yaml"

static edited_file file;
static ls_support support;

static const ls_support_row *row_of(const char *name)
{
    for (int i = 0; i < support.rows; i++) {
        if (strstr(support.row[i].name, name) != NULL) {
            return &support.row[i];
        }
    }
    fail_msg("no capability '%s'", name);
    return NULL;
}

static void read_twin(const char *path, const char *old, const char *new)
{
    edited_read(path, old, new, &file);
    assert_int_equal(file.status, LS_OK);
    ls_aircraft_support(&file.aircraft, &file.marks, &support);
}

static void missing_keys_are_named(void **state)
{
    (void)state;
    read_twin(TINY, NULL, NULL);
    const ls_support_row *pedal = row_of("pedal force");
    assert_int_equal(pedal->level, LS_SUPPORT_NONE);
    assert_non_null(strstr(pedal->list, "rudder.pedal.gearing, rudder.pedal.area"));
    assert_string_equal(row_of("feathered")->list, "powerplants[1].propeller.feathered_area");
    assert_string_equal(row_of("stopped")->list, "powerplants[1].propeller.stopped_area");
    assert_string_equal(row_of("indicated")->list, "airspeed.position_error");
    assert_string_equal(row_of("published")->list, "published.vmc");
    assert_int_equal(row_of("published")->keys, 1);
    /* With no thrust offset the sense of rotation has no effect to show. */
    assert_int_equal(row_of("rotation")->level, LS_SUPPORT_NONE);
    assert_string_equal(row_of("rotation")->list, "powerplants[1].propeller.thrust_offset");
}

static void assumptions_are_named(void **state)
{
    (void)state;
    read_twin(TINY, NULL, NULL);
    assert_int_equal(row_of("control travel")->level, LS_SUPPORT_FULL);
    assert_int_equal(row_of("stall of the wing")->level, LS_SUPPORT_FULL);
    assert_int_equal(row_of("fin")->level, LS_SUPPORT_ASSUMED); /* its angle is a guess */
    assert_string_equal(row_of("fin")->list, "fin.stall_sideslip");
    assert_int_equal(row_of("climb")->level, LS_SUPPORT_ASSUMED); /* "no drag of sideslip" is an assumption */
    read_twin(TINY, "rudder: 0.19 /rad", "rudder: {value: 0.19 /rad, source: estimated}");
    assert_int_equal(row_of("control travel")->level, LS_SUPPORT_ASSUMED);
    assert_string_equal(row_of("control travel")->list, "derivatives.side.rudder");
    assert_string_equal(ls_support_text(LS_SUPPORT_ASSUMED), "with assumed values");
}

static void everything_given_is_supported_fully(void **state)
{
    (void)state;
    edited_read(TWIN, NULL, NULL, &file);
    assert_int_equal(file.status, LS_OK);
    for (int i = 0; i < LS_MARKS_MAX; i++) {
        int is_doubtful = file.marks.mark[i].source >= LS_SOURCE_ESTIMATED;
        file.marks.mark[i].source = is_doubtful ? LS_SOURCE_MEASURED : file.marks.mark[i].source;
    }
    ls_aircraft_support(&file.aircraft, &file.marks, &support);
    for (int i = 0; i < support.rows; i++) {
        assert_int_equal(support.row[i].level, LS_SUPPORT_FULL);
        assert_string_equal(support.row[i].list, "");
    }
}

static void a_jet_has_nothing_to_feather(void **state)
{
    (void)state;
    char *text = edited_text("tests/data/bad/rotation-of-jet.yaml");
    memset(strstr(text, "    rotation: clockwise"), ' ', strlen("    rotation: clockwise"));
    edited_parse(text, strlen(text), &file);
    free(text);
    assert_int_equal(file.status, LS_OK);
    ls_aircraft_support(&file.aircraft, &file.marks, &support);
    assert_int_equal(row_of("feathered")->level, LS_SUPPORT_NOTHING);
    assert_int_equal(row_of("stopped")->level, LS_SUPPORT_NOTHING);
    assert_int_equal(row_of("rotation")->level, LS_SUPPORT_NOTHING);
    assert_int_equal(row_of("control travel")->level, LS_SUPPORT_FULL);
}

/* A list that does not fit ends with dots and keeps its count. */
static void long_lists_are_cut(void **state)
{
    (void)state;
    read_twin(TWIN, NULL, NULL);
    const ls_support_row *row = row_of("control travel");
    size_t length = strlen(row->list);
    assert_int_equal(row->level, LS_SUPPORT_ASSUMED);
    assert_true(row->keys > 15);
    assert_true(length < LS_SUPPORT_KEYS);
    assert_string_equal(row->list + length - 5, ", ...");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(missing_keys_are_named),
        cmocka_unit_test(assumptions_are_named),
        cmocka_unit_test(everything_given_is_supported_fully),
        cmocka_unit_test(a_jet_has_nothing_to_feather),
        cmocka_unit_test(long_lists_are_cut),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
