/* Plausibility of an aeroplane: each rule with an aeroplane that breaks it, found at its key, and the sets of
 * published derivatives that must pass or must not. */
#include "check.h"
#include "edited.h"

#include <stdlib.h>
#include <string.h>

#define TWIN "tests/data/twin.yaml"
#define TINY "tests/data/tiny.yaml"

static edited_file file;

typedef struct {
    const char *old, *new; /* an edit of the twin */
    ls_severity severity;
    const char *key;
    const char *text; /* how the finding starts */
} rule;

static const rule rules[] = {
    {"maximum: {value: 1725 kg, source: measured, spread: 10 kg}", "maximum: 172.5 t", LS_WARNING, "mass.maximum",
     "the wing loading is 1.01e+04 kg/m2; 15 to 900 kg/m2 is usual"},
    {"aft: 2.42 m", "aft: 3.42 m", LS_WARNING, "cg.aft",
     "the range of the centre of gravity is 1.24 m, over half a wing chord"},
    {"reference: 2.30 m", "reference: 23.0 m", LS_WARNING, "cg.reference",
     "the reference lies over half a wing chord outside"},
    {"span: {value: 11.0 m", "span: {value: 36 m", LS_WARNING, "wing.span",
     "the aspect ratio, span^2/area, is 76.2; 3 to 25 is usual"},
    {"chord: 1.58 m", "chord: 5.18 m", LS_WARNING, "wing.chord", "the chord over area/span is 3.35"},
    {"lift_max: 1.80", "lift_max: 0.50", LS_REJECT, "flaps[2].lift_max",
     "the greatest lift coefficient is not above lift_zero"},
    {"lift_max: 1.80", "lift_max: 1.40", LS_WARNING, "flaps[2].lift_max",
     "less lift than flaps[1] has with less deflection"},
    {"lift_slope: 4.8 /rad", "lift_slope: 4.8 /deg", LS_WARNING, "flaps[1].lift_slope",
     "the angle of attack at the stall is 0.271 deg"},
    {"drag_induced: 0.058", "drag_induced: 0.58", LS_WARNING, "flaps[1].drag_induced", "the span efficiency"},
    {"drag_zero: 0.032", "drag_zero: 0.0003", LS_WARNING, "flaps[1].drag_zero",
     "the best lift over drag is 120; 3 to 40 is usual"},
    {"stall: 63 kt", "stall: 43 kt", LS_WARNING, "published.stall",
     "the file's numbers give a stall speed of 62.9 kt, over 10 % from the published 43.0 kt"},
    {"[80 kt, 79 kt]", "[80 kt, 57 kt]", LS_REJECT, "airspeed.position_error",
     "the indicated airspeed must rise from row to row; row 2 does not"},
    {"[200 kt, 199 kt]", "[200 kt, 250 kt]", LS_WARNING, "airspeed.position_error",
     "indicated and calibrated airspeed differ by over 20 % in row 4"},
    {"arm: 4.9 m", "arm: 3.9 m", LS_WARNING, "fin.arm",
     "3.90 m, but span x yaw.rudder / side.rudder puts the rudder's force 4.92 m behind"},
    {"arm: 4.9 m", "arm: 16 m", LS_REJECT, "fin.arm", "16.00 m, but span x yaw.rudder / side.rudder"},
    {"[20 deg, 0.97]", "[20 deg, 0.70]", LS_REJECT, "rudder.effect",
     "deflection x effect must rise from row to row; row 3 gives less"},
    {"[0 deg, 1.00]", "[-5 deg, 1.00]", LS_REJECT, "rudder.effect", "a negative deflection in row 1"},
    {", [25 deg, 0.92]", "", LS_WARNING, "rudder.effect",
     "the table ends at 20.0 deg, short of the travel of 25.0 deg"},
    {"hinge_rudder: -0.28", "hinge_rudder: 0.28", LS_REJECT, "rudder.pedal.hinge_rudder",
     "0.28 /rad, but it must be negative"},
    {"hinge_sideslip: 0.10", "hinge_sideslip: -0.10", LS_WARNING, "rudder.pedal.hinge_sideslip",
     "-0.1 /rad, but it is usually positive"},
    {"yaw_sideslip: 0.005 /rad", "yaw_sideslip: -0.15 /rad", LS_REJECT, "flaps[2].change.yaw_sideslip",
     "gives -0.05 /rad with this flap, but it must be positive"},
    {"yaw_sideslip: 0.005 /rad", "yaw_sideslip: 0.25 /rad", LS_REJECT, "flaps[2].change.yaw_rudder",
     "its rudder force would act ahead of the sideslip force"},
    {"[0.2, 0.38]", "[0.2, 0.70]", LS_REJECT, "powerplants[1].propeller.efficiency",
     "rows 1 and 2 give a static thrust of 5553 N, above the momentum limit of 49"},
    {"[1.2, 0.82]", "[1.2, 0.99]", LS_REJECT, "powerplants[1].propeller.efficiency",
     "row 7, 0.99 at advance ratio 1.2, is above the momentum limit of 0.9"},
    {"[[0, 0], ", "[[0.1, 0.2], ", LS_REJECT, "powerplants[1].propeller.efficiency",
     "the first row must be [0, 0]"},
    {"windmilling_area: 0.45 m2", "windmilling_area: 4.5 m2", LS_WARNING,
     "powerplants[1].propeller.windmilling_area", "4.5 m2 is more than the area of the disc, 2.78 m2"},
    {"windmilling_area: 0.45 m2", "windmilling_area: 0.02 m2", LS_WARNING,
     "powerplants[1].propeller.feathered_area", "more drag feathered than windmilling"},
    {"stopped_area: 0.20 m2", "stopped_area: 0.02 m2", LS_WARNING, "powerplants[1].propeller.feathered_area",
     "more drag feathered than stopped"},
    {"feathering: manual", "feathering: none", LS_WARNING, "powerplants[1].propeller.feathered_area",
     "not used: propeller.feathering is 'none'"},
    {"speed: 2700 rpm", "speed: 27000 rpm", LS_WARNING, "powerplants[1].propeller.diameter",
     "the tip speed, pi x engine.speed x engine.gear_ratio x diameter, is 2.66e+03 m/s"},
    {"power: 180 hp", "power: 1.8 kW", LS_WARNING, "powerplants[1].engine.power",
     "the power over the area of the disc is 0.648 kW/m2"},
    {"28.8 inHg", "40 inHg", LS_REJECT, "powerplants[1].engine.manifold_pressure",
     "40.0 inHg is above the pressure at sea level"},
    {"right: 1.90 m", "right: 1.70 m", LS_WARNING, "engines[1].hub.right",
     "engine 'left' has no mirror image (same powerplant, place, tilt and toe)"},
    {"right: 1.90 m", "right: 5.90 m", LS_REJECT, "engines[2].hub.right", "5.90 m is beyond the wing tip, 5.50 m"},
    {"right: 1.90 m", "right: -1.90 m", LS_REJECT, "engines[2].hub.right",
     "this engine stands where engines[1] stands"},
};

enum { RULES = sizeof rules / sizeof rules[0] };

static int holds(const rule *r)
{
    for (int i = 0; i < file.findings.stored; i++) {
        const ls_finding *f = &file.findings.item[i];
        if (f->severity == r->severity && strcmp(f->key, r->key) == 0 &&
            strncmp(f->text, r->text, strlen(r->text)) == 0) {
            return 1;
        }
    }
    return 0;
}

static void each_rule_is_found_at_its_key(void **state)
{
    (void)state;
    int broken = 0;
    for (int i = 0; i < RULES; i++) {
        edited_read(TWIN, rules[i].old, rules[i].new, &file);
        if (!holds(&rules[i]) || (file.status == LS_OK) != (file.findings.total[LS_REJECT] == 0)) {
            char *text = edited_findings("twin", &file.findings);
            print_error("%s -> %s: expected %s: %s\ngot %s\n", rules[i].old, rules[i].new, rules[i].key,
                        rules[i].text, text);
            free(text);
            broken++;
        }
    }
    assert_int_equal(broken, 0);
}

static void findings_have_the_place_of_the_value(void **state)
{
    (void)state;
    edited_read(TWIN, "arm: 4.9 m", "arm: 3.9 m", &file);
    assert_int_equal(file.status, LS_OK); /* a warning lets the file pass */
    assert_int_equal(file.findings.stored, 1);
    char *text = edited_text(TWIN);
    int line = 1;
    for (const char *c = text; c < strstr(text, "arm: 4.9 m"); c++) {
        line += *c == '\n';
    }
    free(text);
    assert_int_equal(file.findings.item[0].line, line);
    assert_int_equal(file.findings.item[0].column, 8);
}

/* Puts a set of derivatives into the small file. */
static void read_derivatives(const char *side, const char *roll, const char *yaw)
{
    static const char *const axes = "  axes: stability\n";
    char *text = edited_text(TINY);
    char *changed = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&changed, &size);
    assert_non_null(out);
    const char *start = strstr(text, axes);
    assert_non_null(start);
    fprintf(out, "%.*s  axes: stability\n  side: {%s}\n  roll: {%s}\n  yaw: {%s}\n%s", (int)(start - text), text,
            side, roll, yaw, strstr(text, "rudder: {left"));
    fclose(out);
    edited_parse(changed, size, &file);
    free(changed);
    free(text);
}

/* J. Roskam, Airplane Flight Dynamics and Automatic Flight Controls, appendix B, as carried in public course data:
 * the light twin passes; the trainer's set has its rudder force ahead of the sideslip force. (The trainer's roll
 * derivatives are from memory; they play no part.) */
static void published_sets_pass_or_are_refused(void **state)
{
    (void)state;
    read_derivatives("sideslip: -0.577 /rad, rudder: 0.230 /rad",
                     "sideslip: -0.0965 /rad, rudder: 0.0192 /rad, aileron: 0.172 /rad",
                     "sideslip: 0.1683 /rad, rudder: -0.1152 /rad, aileron: -0.0676 /rad");
    assert_int_equal(file.status, LS_OK);
    assert_int_equal(file.findings.stored, 0);
    read_derivatives("sideslip: -0.346 /rad, rudder: 0.20 /rad", "sideslip: -0.0944 /rad, aileron: 0.181 /rad",
                     "sideslip: 0.1106 /rad, rudder: -0.0365 /rad");
    assert_int_equal(file.status, LS_FILE_REJECTED);
    assert_int_equal(file.findings.total[LS_REJECT], 1);
    assert_string_equal(file.findings.item[0].key, "derivatives.yaw.rudder");
    /* By hand: -0.346 x -0.0365 - 0.1106 x 0.20 = 0.012629 - 0.02212 = -0.009491. */
    assert_non_null(strstr(file.findings.item[0].text, "= -0.009491, which must be positive"));
}

/* Momentum theory by hand for 134,226 W in a disc of 2.7759 m2 at sea level: at rest
 * T = (2 rho A P^2)^(1/3) = 4966.6 N; at V = 0.4 n D = 33.84 m/s, eta^3/(1 - eta) = 2 rho A V^3/P = 1.9635, so
 * that eta = 0.7687. */
static void the_momentum_limit_is_where_it_is(void **state)
{
    (void)state;
    edited_read(TINY, "3200 N", "4960 N", &file);
    assert_int_equal(file.status, LS_OK);
    edited_read(TINY, "3200 N", "4975 N", &file);
    assert_int_equal(file.status, LS_FILE_REJECTED);
    edited_read(TWIN, "[0.4, 0.62]", "[0.4, 0.7680]", &file);
    assert_int_equal(file.status, LS_OK);
    edited_read(TWIN, "[0.4, 0.62]", "[0.4, 0.7695]", &file);
    assert_int_equal(file.status, LS_FILE_REJECTED);
}

/* A check after a change, as a study makes it, needs no file. */
static void a_changed_aircraft_can_be_checked_again(void **state)
{
    (void)state;
    static ls_findings findings;
    edited_read(TWIN, NULL, NULL, &file);
    assert_int_equal(file.status, LS_OK);
    ls_aircraft_check(&file.aircraft, &file.marks, &findings);
    assert_int_equal(findings.stored, 0);
    file.aircraft.derivatives.yaw_rudder = 0.085;
    ls_aircraft_check(&file.aircraft, &file.marks, &findings);
    assert_int_equal(ls_findings_rejects(&findings), 1);
    assert_string_equal(findings.item[0].key, "derivatives.yaw.rudder");
}

static void one_engine_is_warned_of(void **state)
{
    (void)state;
    edited_read(TINY, "  - name: right\n    hub: {aft: 0.60 m, right: 1.90 m}\n", "", &file);
    assert_int_equal(file.status, LS_OK);
    assert_int_equal(file.findings.total[LS_WARNING], 2); /* alone, and without a mirror image */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_rule_is_found_at_its_key),
        cmocka_unit_test(findings_have_the_place_of_the_value),
        cmocka_unit_test(published_sets_pass_or_are_refused),
        cmocka_unit_test(the_momentum_limit_is_where_it_is),
        cmocka_unit_test(a_changed_aircraft_can_be_checked_again),
        cmocka_unit_test(one_engine_is_warned_of),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
