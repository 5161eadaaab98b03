/* `estimate`: from a geometry or a handbook page to an aeroplane file that the program takes. */
#include "check.h"
#include "edited.h"

#include "liveside/estimate.h"
#include "liveside/estimate_check.h"
#include "liveside/reader.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define GEOMETRY "tests/data/estimate/whimbrel_geometry.yaml"
#define HANDBOOK "tests/data/estimate/handbook_page.yaml"

static struct {
    ls_geometry_input input;
    ls_findings findings;
    ls_error error;
    ls_status status;
    ls_aircraft aircraft;
    ls_marks marks;
    ls_estimate estimate;
} job;

static void parse(const char *text)
{
    memset(&job, 0, sizeof job);
    job.status = ls_geometry_parse(text, strlen(text), "file", &job.input, &job.findings, &job.error);
}

/* Reads a file with one text replaced by another. */
static void read_edited(const char *path, const char *old, const char *new)
{
    char *text = edited_text(path), *changed = NULL;
    if (old != NULL) {
        const char *at = strstr(text, old);
        assert_non_null(at);
        size_t size = strlen(text) + strlen(new) + 1;
        changed = malloc(size);
        assert_non_null(changed);
        snprintf(changed, size, "%.*s%s%s", (int)(at - text), text, new, at + strlen(old));
    }
    parse(changed != NULL ? changed : text);
    free(changed);
    free(text);
}

static void make(const char *path, const char *old, const char *new)
{
    read_edited(path, old, new);
    if (job.status != LS_OK) {
        char *text = edited_findings("file", &job.findings);
        print_error("%s\n%s", job.error.text, text);
        free(text);
        fail();
    }
    job.status = ls_estimate_make(&job.input, &job.aircraft, &job.marks, &job.estimate, &job.error);
}

static const ls_estimate_line *line(const char *path)
{
    for (int i = 0; i < job.estimate.lines; i++) {
        if (strcmp(job.estimate.line[i].path, path) == 0) {
            return &job.estimate.line[i];
        }
    }
    fail_msg("no line %s", path);
    return NULL;
}

/* The invented twin's own file was written first; its three-view follows it. Two standard deviations. */
static void whimbrel_from_its_dimensions(void **state)
{
    (void)state;
    static const char *const paths[] = {"derivatives.side.sideslip", "derivatives.side.rudder",
                                        "derivatives.roll.sideslip", "derivatives.roll.rudder",
                                        "derivatives.roll.aileron",  "derivatives.yaw.sideslip",
                                        "derivatives.yaw.rudder",    "derivatives.yaw.aileron",
                                        "flaps[].lift_max",          "flaps[].lift_slope",
                                        "flaps[].lift_zero",         "flaps[].drag_zero",
                                        "flaps[].drag_induced",      "fin.arm",
                                        "inertia.roll_radius",       "inertia.pitch_radius",
                                        "inertia.yaw_radius"};
    edited_file file;
    make(GEOMETRY, NULL, NULL);
    assert_int_equal(job.status, LS_OK);
    edited_read("aircraft/whimbrel.yaml", NULL, NULL, &file);
    for (size_t i = 0; i < sizeof paths / sizeof paths[0]; i++) {
        int count;
        const ls_parameter *row = ls_parameters(&count);
        while (strcmp(row->path, paths[i]) != 0) {
            row++;
        }
        const ls_estimate_line *found = line(paths[i]);
        double filed = *(const double *)ls_parameter_value_const(&file.aircraft, row, 0);
        print_message("%-28s estimated %8.4f +- %.4f, file %8.4f\n", paths[i], found->value, found->spread, filed);
        check_between(
            "estimate less file, in spreads", fabs(found->value - filed) / found->spread, 0.0, 2.0,
            "the estimate's own statement: +- is a standard deviation; the file of the invented aeroplane");
    }
}

static void parts_add_up(void **state)
{
    (void)state;
    make(GEOMETRY, NULL, NULL);
    int with_parts = 0;
    for (int i = 0; i < job.estimate.lines; i++) {
        const ls_estimate_line *at = &job.estimate.line[i];
        double sum = 0.0;
        int parts = 0;
        for (int part = 0; part < LS_ON_PARTS; part++) {
            parts += !isnan(at->part[part]);
            sum += isnan(at->part[part]) ? 0.0 : at->part[part];
        }
        with_parts += parts > 0;
        if (parts > 0) {
            check_close("sum of the parts of a derivative", sum, at->value, 1e-14, "round-off", "identity");
        }
        assert_true(at->spread >= 0.0 && isfinite(at->value));
    }
    assert_int_equal(with_parts, 8);
    check_close("rudder: yaw over side force, times span, m",
                -line("derivatives.yaw.rudder")->value / line("derivatives.side.rudder")->value * 11.0,
                job.estimate.basis.fin_arm_m * cos(job.estimate.basis.alpha_rad) +
                    job.estimate.basis.fin_up_m * sin(job.estimate.basis.alpha_rad),
                1e-12, "round-off", "Roskam: Cn_dr = -CY_dr (l_v cos a + z_v sin a)/b");
}

static void written(FILE *out, const void *context)
{
    (void)context;
    ls_aircraft_write(out, &job.aircraft, &job.marks);
}

/* The written file reads back to the same numbers and spreads, and flies. */
static void becomes_a_file(const char *path)
{
    edited_file file;
    static ls_estimate_check check;
    make(path, NULL, NULL);
    assert_int_equal(job.status, LS_OK);
    char *text = edited_print(written, NULL);
    edited_parse(text, strlen(text), &file);
    if (file.status != LS_OK) {
        char *found = edited_findings("file", &file.findings);
        print_error("%s\n%s\n%s", file.error.text, found, text);
        free(found);
        fail();
    }
    free(text);
    check_close("yaw by sideslip, read back", file.aircraft.derivatives.yaw_sideslip,
                job.aircraft.derivatives.yaw_sideslip, 0.0, "exact", "identity");
    int element;
    const ls_parameter *row = ls_parameter_find(&file.aircraft, "derivatives.yaw.sideslip", &element, &job.error);
    const ls_mark *mark = ls_mark_of_const(&file.marks, row, element);
    assert_int_equal(mark->source, LS_SOURCE_ESTIMATED);
    check_close("its spread, read back", mark->spread, line("derivatives.yaw.sideslip")->spread, 0.0, "exact",
                "identity");
    assert_int_equal(ls_estimate_fly(&file.aircraft, &job.input, &check, &job.error), LS_OK);
    assert_int_equal(check.vmca_status, LS_OK);
    assert_true(check.vmca.sets == 2);
}

static void both_levels_become_files(void **state)
{
    (void)state;
    becomes_a_file(GEOMETRY);
    becomes_a_file(HANDBOOK);
}

/* Drag was found from the all-engine climb with an efficiency of 0.78: the aeroplane flown with its own propellers
 * climbs alike, and greatest lift gives the stall speed back. */
static void handbook_gives_its_own_numbers_back(void **state)
{
    (void)state;
    static ls_estimate_check check;
    make(HANDBOOK, NULL, NULL);
    assert_int_equal(job.status, LS_OK);
    double V = 66.0 * 1852.0 / 3600.0;
    check_close("stall speed of the estimate, m/s",
                sqrt(2.0 * job.aircraft.mass.maximum_kg * 9.80665 /
                     (1.225 * job.aircraft.wing.area_m2 * job.aircraft.flap[0].lift_max)),
                V, 1e-3, "density to four digits", "the page's stall speed, 66 kt");
    assert_int_equal(ls_estimate_fly(&job.aircraft, &job.input, &check, &job.error), LS_OK);
    check_between("all-engine climb over the page's", check.climb_m_s / job.input.handbook.climb_m_s, 0.85, 1.2,
                  "the page's 1350 ft/min; 0.78 of efficiency assumed, 0.05 in doubt");
    check_between("one-engine climb, ft/min", check.climb_one_m_s / 0.00508, 30.0, 430.0,
                  "the page's 230 ft/min, a check: +- 200");
}

static void at_most_25_handbook_keys(void **state)
{
    (void)state;
    int count;
    ls_geometry_parameters(LS_LEVEL_HANDBOOK, &count);
    assert_true(count <= 25);
    const ls_parameter *row = ls_geometry_parameters(LS_LEVEL_GEOMETRY, &count);
    assert_true(count <= LS_GEOMETRY_KEYS);
    for (int i = 0; i < count; i++) {
        assert_true(row[i].applies == 0 && strstr(row[i].path, "[]") == NULL && row[i].kind != LS_KEY_CURVE);
    }
}

static void refused(const char *path, const char *old, const char *new, int at_line, const char *text)
{
    read_edited(path, old, new);
    assert_int_equal(job.status, LS_FILE_REJECTED);
    for (int i = 0; i < job.findings.stored; i++) {
        const ls_finding *found = &job.findings.item[i];
        if (strstr(found->text, text) != NULL && (at_line == 0 || found->line == at_line)) {
            return;
        }
    }
    char *all = edited_findings("file", &job.findings);
    print_error("%s", all);
    free(all);
    fail_msg("nothing said '%s' on line %d", text, at_line);
}

static void bad_files_are_refused_in_place(void **state)
{
    (void)state;
    refused(GEOMETRY, "  taper: 0.70\n", "", 0, "missing");
    refused(GEOMETRY, "taper: 0.70", "tapir: 0.70", 13, "did you mean 'taper'");
    refused(GEOMETRY, "span: 11.0 m", "span: 11.0", 11, "unit");
    refused(GEOMETRY, "forward: 2.16 m", "forward: 2.36 m", 8, "exceeds cg.reference");
    refused(GEOMETRY, "right: 1.90 m", "right: 6.90 m", 0, "half of wing.span");
    refused(HANDBOOK, "mass: 3900 lb", "mass: 3900 lbf", 5, "unit");
    refused(HANDBOOK, "fin_arm: 15.2 ft\n", "", 0, "missing");
    refused(HANDBOOK, "level: handbook", "level: manual", 2, "not one of");
}

static void warnings_outside_the_range(void **state)
{
    (void)state;
    make(GEOMETRY, "sweep: 38 deg", "sweep: 55 deg");
    int found = 0;
    for (int i = 0; i < job.estimate.findings.stored; i++) {
        found += strcmp(job.estimate.findings.item[i].key, "fin.sweep") == 0;
    }
    assert_int_equal(found, 1);
    make(GEOMETRY, "depth_three_quarter: 0.85 m", "depth_three_quarter: 0.30 m");
    found = 0;
    for (int i = 0; i < job.estimate.findings.stored; i++) {
        found += strstr(job.estimate.findings.item[i].text, "two body methods differ") != NULL;
    }
    assert_int_equal(found, 1);
}

static void impossible_dimensions_are_said(void **state)
{
    (void)state;
    make(HANDBOOK, "climb: 1350 ft/min", "climb: 4350 ft/min");
    assert_int_equal(job.status, LS_NO_STATE);
    assert_non_null(strstr(job.error.text, "zero-lift drag"));
    make(GEOMETRY, "span: 1.75 m", "span: 0.40 m");
    assert_int_equal(job.status, LS_NO_STATE);
    assert_non_null(strstr(job.error.text, "make no aeroplane"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(whimbrel_from_its_dimensions), cmocka_unit_test(parts_add_up),
        cmocka_unit_test(both_levels_become_files),     cmocka_unit_test(handbook_gives_its_own_numbers_back),
        cmocka_unit_test(at_most_25_handbook_keys),     cmocka_unit_test(bad_files_are_refused_in_place),
        cmocka_unit_test(warnings_outside_the_range),   cmocka_unit_test(impossible_dimensions_are_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
