#include "fleet.h"

#include "check.h"

#include "liveside/prepare.h"
#include "liveside/reader.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)

static void read_file(const char *name, ls_aircraft *aircraft)
{
    char path[256];
    ls_error error = {0};
    ls_marks *marks = calloc(1, sizeof *marks);
    ls_findings *findings = calloc(1, sizeof *findings);
    snprintf(path, sizeof path, "aircraft/%s.yaml", name);
    assert_non_null(marks);
    assert_non_null(findings);
    ls_status status = ls_aircraft_read(path, aircraft, marks, findings, NULL, &error);
    if (status != LS_OK) {
        print_error("%s: %s\n", path, error.text);
        ls_findings_print(stderr, path, findings, LS_NOTE);
    }
    free(marks);
    free(findings);
    assert_int_equal(status, LS_OK);
    assert_int_equal(ls_aircraft_prepare(aircraft, NULL, &error), LS_OK);
}

/* Each is read and its propellers tabulated once; the copies share the tables, which live as long as the program.
 */
void fleet_read(const char *name, ls_aircraft *aircraft)
{
    enum { FLEET_MAX = 8 };
    static struct {
        char name[64];
        ls_aircraft aircraft;
    } kept[FLEET_MAX];
    int i = 0;
    while (i < FLEET_MAX - 1 && kept[i].name[0] != '\0' && strcmp(kept[i].name, name) != 0) {
        i++;
    }
    if (kept[i].name[0] == '\0') {
        read_file(name, &kept[i].aircraft);
        snprintf(kept[i].name, sizeof kept[i].name, "%s", name);
    }
    assert_string_equal(kept[i].name, name);
    *aircraft = kept[i].aircraft;
}

static void scatter(uint64_t *seed, double share, double *value)
{
    *value *= check_random(seed, 1.0 - share, 1.0 + share);
}

void fleet_vary(const ls_aircraft *aircraft, uint64_t *seed, ls_aircraft *varied)
{
    *varied = *aircraft;
    ls_derivatives *d = &varied->derivatives;
    double *scattered[] = {&d->side_sideslip,        &d->side_rudder,           &d->roll_sideslip,
                           &d->roll_rudder,          &d->roll_aileron,          &d->yaw_sideslip,
                           &d->yaw_rudder,           &d->yaw_aileron,           &varied->drag.sideslip_per_rad2,
                           &varied->rudder.left_rad, &varied->rudder.right_rad, &varied->fin.stall_sideslip_rad};
    for (size_t i = 0; i < sizeof scattered / sizeof scattered[0]; i++) {
        scatter(seed, 0.15, scattered[i]);
    }
    varied->axes = check_random(seed, 0, 1) < 0.5 ? LS_AXES_STABILITY : LS_AXES_BODY;
    varied->included = (int)check_random(seed, 0, 2.999);
    for (int i = 0; i < varied->engines; i++) {
        scatter(seed, 0.1, &varied->engine[i].hub_right_m);
        varied->engine[i].tilt_rad = check_random(seed, -3, 3) * DEG;
        varied->engine[i].toe_rad = check_random(seed, -3, 3) * DEG;
        varied->engine[i].rotation = check_random(seed, 0, 1) < 0.5;
    }
}

void fleet_condition(const ls_aircraft *aircraft, uint64_t *seed, ls_condition *condition)
{
    ls_condition_takeoff(aircraft, condition);
    condition->altitude_m = check_random(seed, 0, 3000);
    condition->isa_offset_K = check_random(seed, -20, 30);
    condition->mass_kg = check_random(seed, aircraft->mass.minimum_kg, aircraft->mass.maximum_kg);
    condition->cg_aft_m = check_random(seed, aircraft->cg.forward_m, aircraft->cg.aft_m);
    condition->cg_right_m = check_random(seed, -aircraft->cg.lateral_m, aircraft->cg.lateral_m);
    condition->flap = (int)check_random(seed, 0, aircraft->flaps - 1e-9);
    condition->gear = check_random(seed, 0, 1);
    condition->power = check_random(seed, 0.6, 1.0);
    ls_condition_fail(aircraft, 1u << (int)check_random(seed, 0, aircraft->engines - 1e-9), condition);
}

void fleet_mirror_aircraft(const ls_aircraft *aircraft, ls_aircraft *mirrored)
{
    *mirrored = *aircraft;
    mirrored->rudder.left_rad = aircraft->rudder.right_rad;
    mirrored->rudder.right_rad = aircraft->rudder.left_rad;
    mirrored->pedal.hinge_zero = -aircraft->pedal.hinge_zero;
    mirrored->pedal.tab_rad = -aircraft->pedal.tab_rad;
    for (int i = 0; i < aircraft->engines; i++) {
        mirrored->engine[i].hub_right_m = -aircraft->engine[i].hub_right_m;
        mirrored->engine[i].toe_rad = -aircraft->engine[i].toe_rad;
        mirrored->engine[i].rotation = aircraft->engine[i].rotation == 0;
    }
}

void fleet_mirror_condition(const ls_condition *condition, ls_condition *mirrored)
{
    static const ls_rotation mirror[LS_ROTATIONS] = {LS_ROTATION_FILE, LS_ROTATION_ANTICLOCKWISE,
                                                     LS_ROTATION_CLOCKWISE, LS_ROTATION_TOPS_INBOARD,
                                                     LS_ROTATION_TOPS_OUTBOARD};
    *mirrored = *condition;
    mirrored->cg_right_m = -condition->cg_right_m;
    mirrored->bank_rad = -condition->bank_rad;
    mirrored->rotation = mirror[condition->rotation];
}
