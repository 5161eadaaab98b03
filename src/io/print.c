/* The resolved aeroplane for people, and the defaults it uses. */
#include "liveside/reader.h"

#include "io/emit.h"
#include "io/format.h"

#include "airframe/path.h"
#include "liveside/text.h"

#include <math.h>
#include <string.h>

enum { DIGITS = 5, VALUE = LS_NOTE_SIZE + 1, PATH_WIDTH = 41, LINE_WIDTH = 80 };

typedef struct {
    FILE *out;
    const ls_aircraft *aircraft;
    const ls_marks *marks;
    ls_unit_system system;
    const ls_parameter *last;
} printing;

static const char *in_system(const printing *p, ls_dimension dimension, double si, char out[LS_NUMBER_TEXT])
{
    return ls_quantity_text(si, ls_unit_preferred(p->system, dimension), DIGITS, out);
}

/* The value of a key as text; the rows of a curve are counted. Returned: out, "-" where there is none. */
static const char *value_text(const printing *p, const ls_parameter *parameter, const void *value, char out[VALUE])
{
    char number[LS_NUMBER_TEXT];
    snprintf(out, VALUE, "-");
    switch (parameter->kind) {
    case LS_KEY_NUMBER:
        if (ls_given(*(const double *)value)) {
            snprintf(out, VALUE, "%s", in_system(p, parameter->dimension, *(const double *)value, number));
        } else if (parameter->presence == LS_ASSUMED_VALUE) {
            snprintf(out, VALUE, "estimated");
        }
        break;
    case LS_KEY_TEXT:
        if (*(const char *)value != '\0') {
            ls_text_for_terminal(value, out, VALUE);
        }
        break;
    case LS_KEY_CHOICE:
        snprintf(out, VALUE, "%s", ls_choice_word(parameter->choices, *(const int *)value, number));
        break;
    case LS_KEY_CURVE:
        if (((const ls_curve *)value)->rows > 0) {
            snprintf(out, VALUE, "%d rows", ((const ls_curve *)value)->rows);
        }
        break;
    }
    return out;
}

/* "+-0.5 ft", "+-5 %" of each row of a curve, or "". */
static const char *spread_text(const printing *p, const ls_parameter *parameter, const ls_mark *mark,
                               char out[LS_NUMBER_TEXT])
{
    char number[LS_NUMBER_TEXT];
    out[0] = '\0';
    if (mark->spread <= 0.0) {
        return out;
    }
    if (parameter->kind == LS_KEY_CURVE) {
        snprintf(out, LS_NUMBER_TEXT, "+-%s %%", ls_number_text(100.0 * mark->spread, 3, number));
    } else {
        ls_dimension dimension =
            parameter->dimension == LS_DIM_TEMPERATURE ? LS_DIM_TEMPERATURE_DIFFERENCE : parameter->dimension;
        const ls_unit *unit = ls_unit_preferred(p->system, dimension);
        snprintf(out, LS_NUMBER_TEXT, "+-%s", ls_quantity_text(mark->spread, unit, 3, number));
    }
    return out;
}

static void print_rows(const printing *p, const ls_parameter *parameter, const ls_curve *curve)
{
    char x[LS_NUMBER_TEXT], y[LS_NUMBER_TEXT];
    for (int i = 0; i < curve->rows; i++) {
        fprintf(p->out, "%*s %13s\n", PATH_WIDTH, in_system(p, parameter->argument, curve->x[i], x),
                in_system(p, parameter->dimension, curve->y[i], y));
    }
}

/* A blank line between the blocks of the file. */
static void separate(printing *p, const ls_parameter *parameter)
{
    if (p->last != NULL && !ls_same_top(p->last, parameter)) {
        fputc('\n', p->out);
    }
    p->last = parameter;
}

/* A text beside its path, broken between words where the line is full. */
static void print_text(FILE *out, const char *path, const char *text)
{
    int column = fprintf(out, "%-*s", PATH_WIDTH, path);
    while (*text != '\0') {
        int length = (int)strcspn(text, " ");
        if (column + 1 + length > LINE_WIDTH && column > PATH_WIDTH) {
            column = fprintf(out, "\n%*s", PATH_WIDTH, "") - 1;
        }
        column += fprintf(out, " %.*s", length, text);
        text += length;
        text += *text == ' ';
    }
    fputc('\n', out);
}

static void print_key(const ls_parameter *parameter, int element, void *context)
{
    printing *p = context;
    char path[LS_FINDING_KEY], value[VALUE], spread[LS_NUMBER_TEXT];
    if (!ls_parameter_applies(p->aircraft, parameter, element)) {
        return;
    }
    const void *at = ls_parameter_value_const(p->aircraft, parameter, element);
    const ls_mark *mark = ls_mark_of_const(p->marks, parameter, element);
    separate(p, parameter);
    ls_parameter_path(parameter, element, path, sizeof path);
    value_text(p, parameter, at, value);
    if (parameter->kind == LS_KEY_TEXT) {
        print_text(p->out, path, value);
        return;
    }
    if (mark->source == LS_SOURCE_ABSENT) {
        snprintf(value, sizeof value, "-");
    }
    spread_text(p, parameter, mark, spread);
    fprintf(p->out, "%-*s %13s  %s%s%s\n", PATH_WIDTH, path, value, ls_source_text(mark->source),
            spread[0] != '\0' ? "  " : "", spread);
    if (parameter->kind == LS_KEY_CURVE) {
        print_rows(p, parameter, at);
    }
}

void ls_aircraft_print(FILE *out, const ls_aircraft *aircraft, const ls_marks *marks, ls_unit_system system)
{
    printing p = {.out = out, .aircraft = aircraft, .marks = marks, .system = system};
    ls_keys_visit(aircraft, print_key, &p);
}

static int uses_default(const printing *p, const ls_parameter *parameter, int element, ls_source source)
{
    return ls_parameter_applies(p->aircraft, parameter, element) &&
           ls_mark_of_const(p->marks, parameter, element)->source == source;
}

/* One line for all entries of a list if every one uses the default, else one for each that does. */
static void print_default(const printing *p, const ls_parameter *parameter, ls_source source)
{
    char path[LS_FINDING_KEY], value[VALUE];
    int length = ls_list_length(p->aircraft, ls_parameter_list(parameter));
    int users = 0;
    for (int element = 0; element < length; element++) {
        users += uses_default(p, parameter, element, source);
    }
    for (int element = 0; element < length; element++) {
        if (uses_default(p, parameter, element, source)) {
            const void *at = ls_parameter_value_const(p->aircraft, parameter, element);
            int is_for_all = users == length;
            fprintf(p->out, "  %-*s %13s\n", PATH_WIDTH,
                    is_for_all ? parameter->path : ls_parameter_path(parameter, element, path, sizeof path),
                    value_text(p, parameter, at, value));
            if (is_for_all) {
                return;
            }
        }
    }
}

static int count_defaults(const printing *p, ls_source source, int of_motion)
{
    int count, users = 0;
    const ls_parameter *row = ls_parameters(&count);
    for (int i = 0; i < count; i++) {
        int length = ls_list_length(p->aircraft, ls_parameter_list(&row[i]));
        for (int element = 0; element < length && ls_parameter_is_of_motion(&row[i]) == of_motion; element++) {
            users += uses_default(p, &row[i], element, source);
        }
    }
    return users;
}

static void print_section(const printing *p, ls_source source, int of_motion, const char *heading)
{
    int count;
    const ls_parameter *row = ls_parameters(&count);
    if (count_defaults(p, source, of_motion) == 0) {
        return;
    }
    fprintf(p->out, "%s\n", heading);
    for (int i = 0; i < count; i++) {
        if (ls_parameter_is_of_motion(&row[i]) == of_motion) {
            print_default(p, &row[i], source);
        }
    }
}

void ls_aircraft_print_defaults(FILE *out, const ls_aircraft *aircraft, const ls_marks *marks,
                                ls_unit_system system)
{
    printing p = {.out = out, .aircraft = aircraft, .marks = marks, .system = system};
    print_section(&p, LS_SOURCE_GUESS, 0, "Left out and guessed; results that rest on these are rounded:");
    print_section(&p, LS_SOURCE_DEFAULT, 0, "Left out, with the default that convention gives:");
    print_section(&p, LS_SOURCE_GUESS, 1, "Left out and guessed or estimated; motion alone rests on these:");
    print_section(&p, LS_SOURCE_DEFAULT, 1, "Left out, with the default that convention gives, for motion:");
}
