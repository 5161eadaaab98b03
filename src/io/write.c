/* An aircraft as a file that reads back to the same values. */
#include "liveside/reader.h"

#include "airframe/path.h"
#include "io/emit.h"
#include "io/format.h"

#include <string.h>

typedef struct {
    ls_emitter emitter;
    const ls_aircraft *aircraft;
    const ls_marks *marks;
    ls_source common; /* of the numbers and tables, stated once at the top; LS_SOURCE_GIVEN for none */
    int counts[LS_SOURCE_ASSUMED + 1];
} writing;

static int is_stated(ls_source source)
{
    return source >= LS_SOURCE_GIVEN;
}

/* Whether a value must be written: the file gave it, or a study has changed it from its default. */
static int is_due(const ls_parameter *parameter, const void *value, const ls_mark *mark)
{
    switch (parameter->kind) {
    case LS_KEY_NUMBER: {
        double number = *(const double *)value;
        int has_default = parameter->presence == LS_NEUTRAL || parameter->presence == LS_ASSUMED_VALUE;
        return ls_given(number) && (is_stated(mark->source) || !has_default || number != parameter->fallback);
    }
    case LS_KEY_CHOICE:
        return is_stated(mark->source) || *(const int *)value != (int)parameter->fallback;
    case LS_KEY_TEXT:
        return *(const char *)value != '\0';
    case LS_KEY_CURVE:
        return ((const ls_curve *)value)->rows > 0;
    }
    return 0;
}

/* A YAML text in double quotes; control characters, which the reader refuses, as escapes. */
static void write_quoted(FILE *out, const char *text)
{
    fputc('"', out);
    for (const unsigned char *c = (const unsigned char *)text; *c != '\0'; c++) {
        if (*c == '"' || *c == '\\') {
            fprintf(out, "\\%c", *c);
        } else if (*c < 0x20 || *c == 0x7F) {
            fprintf(out, "\\x%02X", *c);
        } else {
            fputc(*c, out);
        }
    }
    fputc('"', out);
}

static void write_number(FILE *out, double si, ls_dimension dimension)
{
    char text[LS_NUMBER_TEXT];
    fputs(ls_quantity_exact(si, dimension, text), out);
}

static void write_curve(FILE *out, const ls_parameter *parameter, const ls_curve *curve)
{
    for (int i = 0; i < curve->rows; i++) {
        fputs(i == 0 ? "[[" : ", [", out);
        write_number(out, curve->x[i], parameter->argument);
        fputs(", ", out);
        write_number(out, curve->y[i], parameter->dimension);
        fputc(']', out);
    }
    fputc(']', out);
}

static void write_value(FILE *out, const ls_parameter *parameter, const void *value)
{
    char word[LS_NUMBER_TEXT];
    switch (parameter->kind) {
    case LS_KEY_NUMBER:
        write_number(out, *(const double *)value, parameter->dimension);
        break;
    case LS_KEY_TEXT:
        write_quoted(out, value);
        break;
    case LS_KEY_CHOICE:
        fputs(ls_choice_word(parameter->choices, *(const int *)value, word), out);
        break;
    case LS_KEY_CURVE:
        write_curve(out, parameter, value);
        break;
    }
}

static ls_dimension spread_dimension(const ls_parameter *parameter)
{
    if (parameter->kind == LS_KEY_CURVE) {
        return LS_DIM_FRACTION;
    }
    return parameter->dimension == LS_DIM_TEMPERATURE ? LS_DIM_TEMPERATURE_DIFFERENCE : parameter->dimension;
}

static int is_word(const ls_parameter *parameter)
{
    return parameter->kind == LS_KEY_TEXT || parameter->kind == LS_KEY_CHOICE;
}

/* Counts how often each source occurs among the numbers and tables. */
static void count_source(const ls_parameter *parameter, int element, void *context)
{
    writing *w = context;
    if (!is_word(parameter)) {
        w->counts[ls_mark_of_const(w->marks, parameter, element)->source]++;
    }
}

/* The source that most values have goes to the top, unless some values state none. */
static void write_common_source(writing *w)
{
    w->common = LS_SOURCE_GIVEN;
    for (int source = LS_SOURCE_MEASURED; source <= LS_SOURCE_ASSUMED; source++) {
        w->common = w->counts[source] > w->counts[w->common] ? (ls_source)source : w->common;
    }
    if (w->counts[LS_SOURCE_GIVEN] > 0) {
        w->common = LS_SOURCE_GIVEN;
    }
    if (w->common != LS_SOURCE_GIVEN) {
        fprintf(w->emitter.out, "source: %s\n", ls_source_text(w->common));
    }
}

static void write_key(const ls_parameter *parameter, int element, void *context)
{
    writing *w = context;
    FILE *out = w->emitter.out;
    const void *value = ls_parameter_value_const(w->aircraft, parameter, element);
    const ls_mark *mark = ls_mark_of_const(w->marks, parameter, element);
    if (!ls_parameter_applies(w->aircraft, parameter, element) || !is_due(parameter, value, mark)) {
        return;
    }
    char word[LS_NUMBER_TEXT];
    ls_source unstated = is_word(parameter) ? LS_SOURCE_GIVEN : w->common;
    int has_source = is_stated(mark->source) && mark->source != unstated;
    int is_map = has_source || mark->spread > 0.0;
    ls_emit_blocks(&w->emitter, parameter, element);
    ls_emit_key(&w->emitter, parameter, element);
    fputs(is_map ? "{value: " : "", out);
    write_value(out, parameter, value);
    if (has_source) {
        fprintf(out, ", source: %s", ls_source_text(mark->source));
    }
    if (mark->spread > 0.0) {
        fputs(", spread: ", out);
        write_number(out, mark->spread, spread_dimension(parameter));
        if (mark->shape != LS_SHAPE_NORMAL) {
            fprintf(out, ", shape: %s", ls_choice_word(LS_SHAPE_WORDS, (int)mark->shape, word));
        }
    }
    fputs(is_map ? "}\n" : "\n", out);
}

static void write_correlations(FILE *out, const ls_marks *marks)
{
    fputs(marks->correlations > 0 ? "uncertain:\n  correlations:\n" : "", out);
    for (int i = 0; i < marks->correlations; i++) {
        const ls_correlation *at = &marks->correlation[i];
        char path[2][LS_FINDING_KEY];
        for (int k = 0; k < 2; k++) {
            ls_parameter_path(at->parameter[k], at->element[k], path[k], sizeof path[k]);
        }
        fprintf(out, "    - {between: ['%s', '%s'], coefficient: %.17g}\n", path[0], path[1], at->coefficient);
    }
}

void ls_aircraft_write(FILE *out, const ls_aircraft *aircraft, const ls_marks *marks)
{
    writing w = {.emitter = {.out = out}, .aircraft = aircraft, .marks = marks};
    ls_keys_visit(aircraft, count_source, &w);
    write_common_source(&w);
    ls_keys_visit(aircraft, write_key, &w);
    write_correlations(out, marks);
}
