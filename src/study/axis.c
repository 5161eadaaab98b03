/* The axes of a trend: what they are called, how they are read, and how a value is put in its place. */
#include "liveside/text.h"
#include "liveside/trend.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)

static const ls_axis_row axis_rows[LS_AXIS_FILE] = {
    [LS_AXIS_BANK] = {"bank", LS_DIM_ANGLE, -30 * DEG, 30 * DEG, "toward the live engine; negative away from it"},
    [LS_AXIS_ALTITUDE] = {"altitude", LS_DIM_ALTITUDE, -2000, 20000, "pressure altitude"},
    [LS_AXIS_OAT] = {"oat", LS_DIM_TEMPERATURE, 180, 340, "outside air temperature"},
    [LS_AXIS_ISA] = {"isa", LS_DIM_TEMPERATURE_DIFFERENCE, -70, 60, "temperature less the standard one"},
    [LS_AXIS_WEIGHT] = {"weight", LS_DIM_MASS, 50, 600e3, "mass, within the file's range"},
    [LS_AXIS_CG] = {"cg", LS_DIM_LENGTH, -50, 100, "centre of gravity aft of the datum, within the file's range"},
    [LS_AXIS_CG_LATERAL] = {"cg-lateral", LS_DIM_LENGTH, -2, 2, "centre of gravity right of the centreline"},
    [LS_AXIS_POWER] = {"power", LS_DIM_FRACTION, 0, 1, "part of the power available, live engines"},
    [LS_AXIS_FLAP] = {"flap", LS_DIM_NUMBER, 1, LS_MAX_FLAPS, "setting by its name, or its number from 1"},
    [LS_AXIS_GEAR] = {"gear", LS_DIM_NUMBER, 0, 1, "0 up to 1 down"},
    [LS_AXIS_COWL_FLAPS] = {"cowl-flaps", LS_DIM_NUMBER, 0, 1, "0 closed to 1 open"},
    [LS_AXIS_PROPELLER] = {"propeller", LS_DIM_NUMBER, 1, LS_VMCA_STATES,
                           "of the failed engine: windmilling (1), lever-aft (2), feathered (3), stopped (4)"},
    [LS_AXIS_ROTATION] = {"rotation", LS_DIM_NUMBER, 1, LS_ROTATIONS - 1,
                          "clockwise (1), anticlockwise (2), inboard (3), outboard (4)"},
};

static const char *const state_words[LS_VMCA_STATES] = {"windmilling", "lever-aft", "feathered", "stopped"};
static const char *const rotation_words[] = {"clockwise", "anticlockwise", "inboard", "outboard"};

const ls_axis_row *ls_axis(ls_axis_kind kind)
{
    return (unsigned)kind < LS_AXIS_FILE ? &axis_rows[kind] : NULL;
}

/* Which axis a name means: one of the table, or a number of the file by its path. */
static ls_status find_axis(const char *name, const ls_aircraft *aircraft, ls_trend_axis *axis, ls_error *error)
{
    const char *names[LS_AXIS_FILE];
    for (int i = 0; i < LS_AXIS_FILE; i++) {
        names[i] = axis_rows[i].name;
        if (strcmp(name, names[i]) == 0) {
            axis->kind = (ls_axis_kind)i;
            axis->dimension = axis_rows[i].dimension;
            return LS_OK;
        }
    }
    if (strchr(name, '.') == NULL) {
        int nearest = ls_text_nearest(name, names, LS_AXIS_FILE);
        char shown[LS_AXIS_TEXT];
        ls_text_for_terminal(name, shown, sizeof shown);
        return nearest >= 0
                   ? ls_fail(error, LS_USAGE, "no axis '%s'; did you mean '%s'?", shown, names[nearest])
                   : ls_fail(error, LS_USAGE, "no axis '%s': `liveside trend --list` names them all", shown);
    }
    axis->kind = LS_AXIS_FILE;
    axis->parameter = ls_parameter_find(aircraft, name, &axis->element, error);
    if (axis->parameter == NULL) {
        return LS_USAGE;
    }
    if (axis->parameter->kind != LS_KEY_NUMBER) {
        return ls_fail(error, LS_USAGE, "'%s' is not a number: a trend cannot run over it", name);
    }
    axis->dimension = axis->parameter->dimension;
    return LS_OK;
}

/* A word that stands for a number on this axis. Returned: 1 and the number, or 0. */
static int word_value(const ls_trend_axis *axis, const ls_aircraft *aircraft, const char *text, double *value)
{
    int found = -1;
    if (axis->kind == LS_AXIS_FLAP) {
        found = ls_flap_find(aircraft, text);
    } else if (axis->kind == LS_AXIS_GEAR) {
        found = strcmp(text, "up") == 0 ? 0 : strcmp(text, "down") == 0 ? 1 : -1;
        *value = found;
        return found >= 0;
    } else if (axis->kind == LS_AXIS_PROPELLER || axis->kind == LS_AXIS_ROTATION) {
        const char *const *words = axis->kind == LS_AXIS_PROPELLER ? state_words : rotation_words;
        int count = axis->kind == LS_AXIS_PROPELLER ? LS_VMCA_STATES : LS_ROTATIONS - 1;
        for (int i = 0; i < count; i++) {
            found = strcmp(text, words[i]) == 0 ? i : found;
        }
    }
    *value = found + 1;
    return found >= 0;
}

int ls_trend_axis_has_words(const ls_trend_axis *axis)
{
    return axis->kind == LS_AXIS_FLAP || axis->kind == LS_AXIS_PROPELLER || axis->kind == LS_AXIS_ROTATION;
}

static ls_status no_such_word(const ls_trend_axis *axis, const ls_aircraft *aircraft, const char *text,
                              ls_error *error)
{
    char list[LS_MAX_FLAPS * (LS_NAME_SIZE + 2)] = "", shown[LS_AXIS_TEXT];
    ls_trend_axis each = *axis;
    size_t used = 0;
    each.from = each.step = 1.0;
    for (int i = 0; ls_trend_axis_word(&each, aircraft, i) != NULL && used < sizeof list; i++) {
        used += (size_t)snprintf(list + used, sizeof list - used, "%s%s", i == 0 ? "" : ", ",
                                 ls_trend_axis_word(&each, aircraft, i));
    }
    ls_text_for_terminal(text, shown, sizeof shown);
    return ls_fail(error, LS_USAGE, "axis %s: no '%s'; it takes %s", axis->name, shown, list);
}

/* Given: is_step, whether it is the distance between values. */
static ls_status read_value(const ls_trend_axis *axis, const ls_aircraft *aircraft, const char *text,
                            const ls_unit *unit, int is_step, double *value, ls_error *error)
{
    double bare;
    if (word_value(axis, aircraft, text, value)) {
        return LS_OK;
    }
    if (ls_units_number(text, &bare, NULL, NULL) == LS_OK) {
        int is_percent = unit != NULL && strcmp(unit->name, "%") == 0;
        if (is_percent && !is_step && bare > 0.0 && bare <= 1.0) {
            return ls_fail(error, LS_USAGE, "axis %s: %s: say which, '%s %%' or '%g %%'", axis->name, text, text,
                           100.0 * bare);
        }
        *value = unit != NULL ? ls_unit_to_si(unit, bare) : bare;
        return LS_OK;
    }
    if (ls_trend_axis_has_words(axis)) {
        return no_such_word(axis, aircraft, text, error);
    }
    ls_error why = {0};
    if (ls_units_parse(text, axis->dimension, value, &why) != LS_OK) {
        return ls_fail(error, LS_USAGE, "axis %s: %s", axis->name, why.text);
    }
    return LS_OK;
}

/* Cuts text at its colons. Returned: how many parts, -1 when there are more than three or one is too long. */
static int cut(const char *text, char part[3][LS_AXIS_TEXT])
{
    int parts = 0;
    for (const char *at = text;; parts++) {
        size_t length = strcspn(at, ":");
        if (parts == 3 || length >= LS_AXIS_TEXT) {
            return -1;
        }
        snprintf(part[parts], LS_AXIS_TEXT, "%.*s", (int)length, at);
        if (at[length] == '\0') {
            return parts + 1;
        }
        at += length + 1;
    }
}

static ls_status set_points(ls_trend_axis *axis, double from, double to, double step, ls_error *error)
{
    if (step == 0.0 || !isfinite(from + to + step)) {
        return ls_fail(error, LS_USAGE, "axis %s: the step must not be zero", axis->name);
    }
    double steps = (to - from) / step;
    if (steps < 0.0) {
        return ls_fail(error, LS_USAGE, "axis %s: the step leads away from the end", axis->name);
    }
    if (steps >= LS_AXIS_POINTS_MAX) {
        return ls_fail(error, LS_USAGE, "axis %s: %.0f points; at most %d are allowed", axis->name, steps + 1,
                       LS_AXIS_POINTS_MAX);
    }
    axis->from = from;
    axis->step = step;
    axis->points = (int)floor(steps + 1e-9) + 1;
    return LS_OK;
}

ls_status ls_trend_axis_parse(const char *text, const ls_aircraft *aircraft, ls_axis_unit_function *unit,
                              void *context, ls_trend_axis *axis, ls_error *error)
{
    char part[3][LS_AXIS_TEXT];
    const char *equals = strchr(text, '=');
    memset(axis, 0, sizeof *axis);
    if (equals == NULL || equals == text || (size_t)(equals - text) >= sizeof axis->name) {
        return ls_fail(error, LS_USAGE, "an axis is NAME=FROM:TO:STEP, e.g. bank=0:5:1");
    }
    snprintf(axis->name, sizeof axis->name, "%.*s", (int)(equals - text), text);
    ls_status status = find_axis(axis->name, aircraft, axis, error);
    if (status != LS_OK) {
        return status;
    }
    int parts = cut(equals + 1, part);
    if (parts < 2) {
        return ls_fail(error, LS_USAGE, "axis %s: give FROM:TO:STEP or FROM:TO, as in bank=0:5:1", axis->name);
    }
    double value[3] = {0};
    axis->unit = unit != NULL ? unit(axis->kind, axis->dimension, context) : NULL;
    for (int i = 0; i < parts; i++) {
        int is_step = i == 2;
        ls_trend_axis as = *axis; /* the step of a temperature is a difference */
        if (is_step && axis->dimension == LS_DIM_TEMPERATURE) {
            as.dimension = LS_DIM_TEMPERATURE_DIFFERENCE;
            as.unit = unit != NULL ? unit(as.kind, as.dimension, context) : NULL;
        }
        status = read_value(&as, aircraft, part[i], as.unit, is_step, &value[i], error);
        if (status != LS_OK) {
            return status;
        }
    }
    double step = parts == 3                      ? value[2]
                  : ls_trend_axis_has_words(axis) ? copysign(1.0, value[1] - value[0])
                                                  : (value[1] - value[0]) / 10.0;
    return set_points(axis, value[0], value[1], step, error);
}

double ls_trend_axis_value(const ls_trend_axis *axis, int i)
{
    return axis->from + i * axis->step;
}

const char *ls_trend_axis_word(const ls_trend_axis *axis, const ls_aircraft *aircraft, int i)
{
    int index = (int)lround(ls_trend_axis_value(axis, i)) - 1;
    switch (axis->kind) {
    case LS_AXIS_FLAP:
        return index >= 0 && index < aircraft->flaps ? aircraft->flap[index].name : NULL;
    case LS_AXIS_PROPELLER:
        return index >= 0 && index < LS_VMCA_STATES ? state_words[index] : NULL;
    case LS_AXIS_ROTATION:
        return index >= 0 && index < LS_ROTATIONS - 1 ? rotation_words[index] : NULL;
    default:
        return NULL;
    }
}

static void value_text(double si, const ls_unit *unit, char *out, size_t size)
{
    double shown = ls_unit_from_si(unit, si);
    snprintf(out, size, "%.6g%s%s", fabs(shown) < 1e-9 ? 0.0 : shown, unit->name[0] != '\0' ? " " : "",
             unit->name);
}

static ls_status out_of_range(const ls_trend_axis *axis, double low, double high, double value, ls_error *error)
{
    const ls_unit *unit = axis->unit != NULL ? axis->unit : ls_unit_preferred(LS_UNITS_SI, axis->dimension);
    char got[48], least[48], most[48];
    value_text(value, unit, got, sizeof got);
    value_text(low, unit, least, sizeof least);
    value_text(high, unit, most, sizeof most);
    if (high >= 1e9) {
        return ls_fail(error, LS_USAGE, "%s is below %s, the least allowed", got, least);
    }
    return ls_fail(error, LS_USAGE, "%s is outside %s to %s", got, least, most);
}

/* The range of an axis for one aircraft. */
static void range_of(const ls_trend_axis *axis, const ls_aircraft *aircraft, double *low, double *high)
{
    if (axis->kind == LS_AXIS_FILE) {
        *low = axis->parameter->low;
        *high = axis->parameter->high;
    } else if (axis->kind == LS_AXIS_WEIGHT) {
        *low = aircraft->mass.minimum_kg;
        *high = aircraft->mass.maximum_kg;
    } else if (axis->kind == LS_AXIS_CG) {
        *low = aircraft->cg.forward_m;
        *high = aircraft->cg.aft_m;
    } else {
        *low = axis_rows[axis->kind].low;
        *high = axis->kind == LS_AXIS_FLAP ? aircraft->flaps : axis_rows[axis->kind].high;
    }
}

ls_status ls_trend_axis_apply(const ls_trend_axis *axis, double value, unsigned failed, ls_aircraft *aircraft,
                              ls_condition *condition, double *bank_rad, ls_error *error)
{
    double low, high;
    range_of(axis, aircraft, &low, &high);
    double slack = 1e-9 * (high - low);
    if (!(value >= low - slack && value <= high + slack)) {
        return out_of_range(axis, low, high, value, error);
    }
    switch (axis->kind) {
    case LS_AXIS_BANK:
        *bank_rad = value;
        break;
    case LS_AXIS_ALTITUDE:
        condition->altitude_m = value;
        break;
    case LS_AXIS_OAT:
        condition->isa_offset_K = value - ls_air_standard_temperature(condition->altitude_m);
        break;
    case LS_AXIS_ISA:
        condition->isa_offset_K = value;
        break;
    case LS_AXIS_WEIGHT:
        condition->mass_kg = value;
        break;
    case LS_AXIS_CG:
        condition->cg_aft_m = value;
        break;
    case LS_AXIS_CG_LATERAL:
        condition->cg_right_m = value;
        break;
    case LS_AXIS_POWER:
        condition->power = value;
        break;
    case LS_AXIS_FLAP:
        condition->flap = (int)lround(value) - 1;
        break;
    case LS_AXIS_GEAR:
        condition->gear = value;
        break;
    case LS_AXIS_COWL_FLAPS:
        condition->cowl_flaps = value;
        break;
    case LS_AXIS_PROPELLER:
        ls_condition_fail_as(aircraft, failed, ls_vmca_states[(int)lround(value) - 1], condition);
        break;
    case LS_AXIS_ROTATION:
        condition->rotation = (ls_rotation)lround(value);
        break;
    default:
        *(double *)ls_parameter_value(aircraft, axis->parameter, axis->element) = value;
        break;
    }
    return LS_OK;
}
