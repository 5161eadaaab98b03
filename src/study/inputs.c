#include "liveside/inputs.h"

#include "airframe/path.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define DEG  (3.14159265358979323846 / 180.0)
#define INCH 0.0254

/* The numbers of the condition, and where each stands in it. */
static const struct {
    ls_axis_kind kind;
    double usual_step; /* 0: a tenth of the value */
} condition_rows[] = {
    {LS_AXIS_BANK, 1.0 * DEG}, {LS_AXIS_ALTITUDE, 304.8}, {LS_AXIS_ISA, 10.0},
    {LS_AXIS_WEIGHT, 0.0},     {LS_AXIS_CG, INCH},        {LS_AXIS_CG_LATERAL, INCH},
    {LS_AXIS_POWER, 0.0},      {LS_AXIS_GEAR, 1.0},       {LS_AXIS_COWL_FLAPS, 1.0},
};
enum { CONDITION_ROWS = sizeof condition_rows / sizeof condition_rows[0] };

static double *condition_value(ls_axis_kind kind, ls_condition *condition, double *bank_rad)
{
    switch (kind) {
    case LS_AXIS_BANK:
        return bank_rad;
    case LS_AXIS_ALTITUDE:
        return &condition->altitude_m;
    case LS_AXIS_ISA:
        return &condition->isa_offset_K;
    case LS_AXIS_WEIGHT:
        return &condition->mass_kg;
    case LS_AXIS_CG:
        return &condition->cg_aft_m;
    case LS_AXIS_CG_LATERAL:
        return &condition->cg_right_m;
    case LS_AXIS_POWER:
        return &condition->power;
    case LS_AXIS_GEAR:
        return &condition->gear;
    default:
        return &condition->cowl_flaps;
    }
}

/* What the table of a blade-element propeller is made from; the rest of the propeller's numbers are read beside
 * it. */
static int rebuilds(const ls_parameter *parameter)
{
    static const char *const beside[] = {"thrust_change", "torque_change", "washed_area", "lever_aft_speed",
                                         "feather_latch"};
    const char *prefix = "powerplants[].propeller.";
    if (strncmp(parameter->path, prefix, strlen(prefix)) != 0 || (parameter->applies & LS_FOR_COEFFICIENTS)) {
        return 0;
    }
    for (size_t i = 0; i < sizeof beside / sizeof beside[0]; i++) {
        if (strcmp(parameter->path + strlen(prefix), beside[i]) == 0) {
            return 0;
        }
    }
    return 1;
}

static int is_blade_element(const ls_aircraft *aircraft, int element)
{
    return aircraft->powerplant[element].propeller.kind == LS_PROPELLER_BLADE_ELEMENT;
}

/* "flaps[up].lift_max": an entry of a list by the name that the file gives it. */
static void set_name(const ls_aircraft *aircraft, const ls_parameter *parameter, int element, char *out,
                     size_t size)
{
    ls_list list = ls_parameter_list(parameter);
    const char *name = list == LS_LIST_FLAPS         ? aircraft->flap[element].name
                       : list == LS_LIST_POWERPLANTS ? aircraft->powerplant[element].name
                       : list == LS_LIST_ENGINES     ? aircraft->engine[element].name
                                                     : "";
    if (name[0] == '\0' || strlen(parameter->path) + strlen(name) >= size) {
        ls_parameter_path(parameter, element, out, size);
    } else {
        snprintf(out, size, "%s[%s].%s", ls_list_name(list), name, ls_parameter_tail(parameter));
    }
}

static int has_value(const ls_parameter *parameter, const void *value)
{
    return parameter->kind == LS_KEY_CURVE ? ((const ls_curve *)value)->rows > 0
                                           : parameter->kind == LS_KEY_NUMBER && ls_given(*(const double *)value);
}

/* A whole number has no slope. */
static int is_counted(const ls_parameter *parameter)
{
    return strcmp(parameter->path, "powerplants[].propeller.blades") == 0;
}

static void add_parameter(const ls_aircraft *aircraft, const ls_marks *marks, const ls_parameter *parameter,
                          int element, ls_inputs *inputs)
{
    const void *value = ls_parameter_value_const(aircraft, parameter, element);
    if (!has_value(parameter, value) || !ls_parameter_applies(aircraft, parameter, element) ||
        is_counted(parameter) || inputs->count == LS_STUDY_INPUTS) {
        return;
    }
    const ls_mark *mark = ls_mark_of_const(marks, parameter, element);
    int is_curve = parameter->kind == LS_KEY_CURVE;
    ls_input *input = &inputs->input[inputs->count++];
    *input = (ls_input){.kind = LS_AXIS_FILE,
                        .parameter = parameter,
                        .element = element,
                        .dimension = is_curve ? LS_DIM_NUMBER : parameter->dimension,
                        .base = is_curve ? 1.0 : *(const double *)value,
                        .low = is_curve ? 0.2 : parameter->low,
                        .high = is_curve ? 5.0 : parameter->high,
                        .spread = mark->spread,
                        .shape = mark->shape};
    input->rebuilds = rebuilds(parameter) && is_blade_element(aircraft, element);
    set_name(aircraft, parameter, element, input->name, sizeof input->name);
}

static void add_condition(const ls_condition *condition, double bank_rad, ls_axis_kind kind, ls_inputs *inputs)
{
    ls_condition copy = *condition;
    const ls_axis_row *row = ls_axis(kind);
    ls_input *input = &inputs->input[inputs->count++];
    *input = (ls_input){.kind = kind,
                        .dimension = row->dimension,
                        .base = *condition_value(kind, &copy, &bank_rad),
                        .low = row->low,
                        .high = row->high};
    snprintf(input->name, sizeof input->name, "%s", row->name);
}

void ls_inputs_list(const ls_aircraft *aircraft, const ls_marks *marks, const ls_condition *condition,
                    double bank_rad, ls_inputs *inputs)
{
    int count;
    const ls_parameter *row = ls_parameters(&count);
    inputs->count = 0;
    for (int i = 0; i < CONDITION_ROWS; i++) {
        add_condition(condition, bank_rad, condition_rows[i].kind, inputs);
    }
    for (int i = 0; i < count; i++) {
        int length = ls_list_length(aircraft, ls_parameter_list(&row[i]));
        for (int element = 0; element < length; element++) {
            add_parameter(aircraft, marks, &row[i], element, inputs);
        }
    }
}

const ls_input *ls_inputs_find(const ls_inputs *inputs, const ls_aircraft *aircraft, const char *name,
                               ls_error *error)
{
    int element = 0;
    for (int i = 0; i < inputs->count; i++) {
        if (strcmp(inputs->input[i].name, name) == 0) {
            return &inputs->input[i];
        }
    }
    if (strchr(name, '.') == NULL) {
        char listed[LS_FINDING_TEXT];
        size_t used = 0;
        for (int i = 0; i < CONDITION_ROWS; i++) {
            used += (size_t)snprintf(listed + used, sizeof listed - used, "%s%s", i > 0 ? ", " : "",
                                     ls_axis(condition_rows[i].kind)->name);
        }
        ls_fail(error, LS_USAGE, "no input '%s'; it is a path of the file or one of %s", name, listed);
        return NULL;
    }
    const ls_parameter *parameter = ls_parameter_find(aircraft, name, &element, error);
    for (int i = 0; i < inputs->count && parameter != NULL; i++) {
        if (inputs->input[i].parameter == parameter && inputs->input[i].element == element) {
            return &inputs->input[i];
        }
    }
    if (parameter != NULL) {
        ls_fail(error, LS_USAGE, "'%s' is not a number of this aeroplane that a result could rest on", name);
    }
    return NULL;
}

static void scale_curve(const ls_curve *original, double factor, ls_curve *curve)
{
    for (int i = 0; i < original->rows; i++) {
        curve->y[i] = factor * original->y[i];
    }
}

void ls_input_apply(const ls_input *input, double value, const ls_aircraft *original, ls_aircraft *aircraft,
                    ls_condition *condition, double *bank_rad)
{
    if (input->kind != LS_AXIS_FILE) {
        *condition_value(input->kind, condition, bank_rad) = value;
    } else if (input->parameter->kind == LS_KEY_CURVE) {
        scale_curve(ls_parameter_value_const(original, input->parameter, input->element), value,
                    ls_parameter_value(aircraft, input->parameter, input->element));
    } else {
        *(double *)ls_parameter_value(aircraft, input->parameter, input->element) = value;
    }
}

/* An amount of a dimension that is neither large nor small, for a number that is zero. */
static double plain_step(ls_dimension dimension)
{
    switch (dimension) {
    case LS_DIM_ANGLE:
        return 1.0 * DEG;
    case LS_DIM_LENGTH:
        return INCH;
    case LS_DIM_ALTITUDE:
        return 304.8;
    default:
        return 0.001;
    }
}

double ls_input_usual_step(const ls_input *input)
{
    for (int i = 0; i < CONDITION_ROWS; i++) {
        if (condition_rows[i].kind == input->kind && condition_rows[i].usual_step > 0.0) {
            return condition_rows[i].usual_step;
        }
    }
    return input->base != 0.0 ? 0.1 * fabs(input->base) : plain_step(input->dimension);
}
