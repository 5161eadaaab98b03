/* Plausibility of the lateral-directional derivatives and of the rudder, for each flap setting. */
#include "airframe/check.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double degree = 3.14159265358979323846 / 180.0;

/* The sign that a derivative has on an aeroplane: refused, or only doubted, where it is another. Zero is refused
 * with it, but not doubted. */
typedef struct {
    const char *path, *change; /* of the derivative, and of its change at a flap setting; null where none */
    size_t offset, change_at;  /* in ls_derivatives, and in ls_flap */
    int sign;
    ls_severity severity;
    const char *why;
} expected_sign;

#define CLEAN(name) offsetof(ls_derivatives, name)
#define DELTA(name) offsetof(ls_flap, delta_##name)

static const expected_sign expected[] = {
    {"derivatives.side.sideslip", "flaps[].change.side_sideslip", CLEAN(side_sideslip), DELTA(side_sideslip), -1,
     LS_REJECT, "wind from the right pushes to the left"},
    {"derivatives.side.rudder", "flaps[].change.side_rudder", CLEAN(side_rudder), DELTA(side_rudder), +1,
     LS_REJECT, "trailing edge left pushes the tail to the right"},
    {"derivatives.roll.sideslip", "flaps[].change.roll_sideslip", CLEAN(roll_sideslip), DELTA(roll_sideslip), -1,
     LS_WARNING, "wind from the right lifts the right wing"},
    {"derivatives.roll.rudder", "flaps[].change.roll_rudder", CLEAN(roll_rudder), DELTA(roll_rudder), +1,
     LS_WARNING, "a force to the right on a fin above the centre of gravity rolls to the right"},
    {"derivatives.roll.aileron", "flaps[].change.roll_aileron", CLEAN(roll_aileron), DELTA(roll_aileron), +1,
     LS_REJECT, "positive aileron rolls to the right"},
    {"derivatives.yaw.sideslip", "flaps[].change.yaw_sideslip", CLEAN(yaw_sideslip), DELTA(yaw_sideslip), +1,
     LS_REJECT, "wind from the right turns the nose to the right"},
    {"derivatives.yaw.rudder", "flaps[].change.yaw_rudder", CLEAN(yaw_rudder), DELTA(yaw_rudder), -1, LS_REJECT,
     "trailing edge left turns the nose to the left"},
    {"derivatives.yaw.aileron", "flaps[].change.yaw_aileron", CLEAN(yaw_aileron), DELTA(yaw_aileron), -1,
     LS_WARNING, "rolling to the right drags the left wing back"},
};

enum { EXPECTED = sizeof expected / sizeof expected[0] };

static double clean_value(const ls_check *check, const expected_sign *e)
{
    return *(const double *)(const void *)((const char *)&check->aircraft->derivatives + e->offset);
}

static double change_value(const ls_check *check, const expected_sign *e, int flap)
{
    return *(const double *)(const void *)((const char *)&check->aircraft->flap[flap] + e->change_at);
}

static int is_wrong(const expected_sign *e, double value)
{
    double directed = e->sign * value;
    return e->severity == LS_REJECT ? directed <= 0.0 : directed < 0.0;
}

static void check_sign(const ls_check *check, const expected_sign *e)
{
    const char *word = e->sign > 0 ? "positive" : "negative";
    const char *must = e->severity == LS_REJECT ? "must be" : "is usually";
    double clean = clean_value(check, e);
    if (is_wrong(e, clean)) {
        ls_check_add(check, e->severity, e->path, 0, "%.4g /rad, but it %s %s: %s", clean, must, word, e->why);
        return;
    }
    for (int flap = 0; flap < check->aircraft->flaps; flap++) {
        double sum = clean + change_value(check, e, flap);
        if (is_wrong(e, sum)) {
            ls_check_add(check, e->severity, e->change, flap, "gives %.4g /rad with this flap, but it %s %s: %s",
                         sum, must, word, e->why);
        }
    }
}

/* The side-force and yaw derivatives at a flap setting; flap -1: clean. */
static ls_derivatives at_flap(const ls_aircraft *a, int flap)
{
    ls_derivatives d = a->derivatives;
    if (flap >= 0) {
        d.side_sideslip += a->flap[flap].delta_side_sideslip;
        d.side_rudder += a->flap[flap].delta_side_rudder;
        d.yaw_sideslip += a->flap[flap].delta_yaw_sideslip;
        d.yaw_rudder += a->flap[flap].delta_yaw_rudder;
    }
    return d;
}

/* The rudder must act behind the point where sideslip acts, or a steady sideslip cannot be held with it: the
 * determinant of side force and yaw changes its sign. */
static int acts_ahead(const ls_check *check, int flap)
{
    ls_derivatives d = at_flap(check->aircraft, flap);
    double determinant = d.side_sideslip * d.yaw_rudder - d.yaw_sideslip * d.side_rudder;
    int signs_are_right = d.side_sideslip < 0 && d.side_rudder > 0 && d.yaw_sideslip > 0 && d.yaw_rudder < 0;
    if (!signs_are_right || determinant > 0.0) {
        return 0;
    }
    ls_check_add(check, LS_REJECT, flap < 0 ? "derivatives.yaw.rudder" : "flaps[].change.yaw_rudder",
                 flap < 0 ? 0 : flap,
                 "its rudder force would act ahead of the sideslip force (arms of %.3f and %.3f of the span): "
                 "side.sideslip x yaw.rudder - yaw.sideslip x side.rudder = %.4g, which must be positive",
                 -d.yaw_rudder / d.side_rudder, -d.yaw_sideslip / d.side_sideslip, determinant);
    return 1;
}

static void check_determinant(const ls_check *check)
{
    if (acts_ahead(check, -1)) {
        return;
    }
    for (int flap = 0; flap < check->aircraft->flaps; flap++) {
        acts_ahead(check, flap);
    }
}

/* The rudder's force acts at the fin: its yaw over its side force is the fin's arm. */
static void check_arm(const ls_check *check)
{
    const ls_aircraft *a = check->aircraft;
    double implied_m = -a->wing.span_m * a->derivatives.yaw_rudder / a->derivatives.side_rudder;
    double ratio = implied_m / a->fin.arm_m;
    if (!(implied_m > 0.0) || !(ratio < 0.8 || ratio > 1.25)) {
        return;
    }
    int is_hopeless = ratio < 0.5 || ratio > 2.0;
    ls_check_add(check, is_hopeless ? LS_REJECT : LS_WARNING, "fin.arm", 0,
                 "%.2f m, but span x yaw.rudder / side.rudder puts the rudder's force %.2f m behind the centre of "
                 "gravity: is a unit or a derivative wrong?",
                 a->fin.arm_m, implied_m);
}

/* The trim asks for the deflection that has a wanted effect; there must be just one. */
static void check_effect(const ls_check *check)
{
    const ls_aircraft *a = check->aircraft;
    const ls_curve *effect = &a->rudder.effect;
    int rows = effect->rows;
    if (rows == 0) {
        return;
    }
    if (effect->x[0] < 0.0) {
        ls_check_add(check, LS_REJECT, "rudder.effect", 0,
                     "a negative deflection in row 1; the table holds for both directions, from zero");
        return;
    }
    for (int i = 1; i < rows; i++) {
        if (effect->x[i] * effect->y[i] <= effect->x[i - 1] * effect->y[i - 1]) {
            ls_check_add(check, LS_REJECT, "rudder.effect", 0,
                         "deflection x effect must rise from row to row; row %d gives less than the row before it",
                         i + 1);
            return;
        }
    }
    double travel_rad = fmax(a->rudder.left_rad, a->rudder.right_rad);
    if (travel_rad > effect->x[rows - 1] * (1.0 + 1e-9)) {
        ls_check_add(check, LS_WARNING, "rudder.effect", 0,
                     "the table ends at %.1f deg, short of the travel of %.1f deg; its last slope is carried on",
                     effect->x[rows - 1] / degree, travel_rad / degree);
    }
}

static void check_pedal(const ls_check *check)
{
    const ls_aircraft *a = check->aircraft;
    if (a->pedal.hinge_rudder >= 0.0) {
        ls_check_add(check, LS_REJECT, "rudder.pedal.hinge_rudder", 0,
                     "%.4g /rad, but it must be negative: the air pushes the rudder back", a->pedal.hinge_rudder);
    }
    if (a->pedal.hinge_sideslip < 0.0) {
        ls_check_add(check, LS_WARNING, "rudder.pedal.hinge_sideslip", 0,
                     "%.4g /rad, but it is usually positive: wind from the right floats the trailing edge to the "
                     "left",
                     a->pedal.hinge_sideslip);
    }
}

void ls_check_lateral(const ls_check *check)
{
    for (int i = 0; i < EXPECTED; i++) {
        check_sign(check, &expected[i]);
    }
    check_determinant(check);
    check_arm(check);
    check_effect(check);
    check_pedal(check);
}
