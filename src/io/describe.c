#include "io/describe.h"

#include "io/format.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* How many significant digits a value's number has in a unit, to six. */
static int digits_in(const ls_unit *unit, double si)
{
    char number[LS_NUMBER_TEXT];
    int digits = 0, zeros = 0;
    for (const char *c = ls_number_text(ls_unit_from_si(unit, si), 6, number); *c != '\0'; c++) {
        if (*c >= '1' && *c <= '9') {
            digits += zeros + 1;
            zeros = 0;
        } else if (*c == '0' && digits > 0) {
            zeros++; /* counts only if another digit follows */
        }
    }
    return digits;
}

/* Of the units that people use, the one that writes two values in fewest digits: 150 lbf, not 667.233 N. */
static const ls_unit *shortest_unit(ls_dimension dimension, double a, double b)
{
    static const ls_unit_system order[] = {LS_UNITS_METRIC, LS_UNITS_US, LS_UNITS_SI};
    const ls_unit *best = NULL;
    int least = 0;
    for (size_t i = 0; i < sizeof order / sizeof order[0]; i++) {
        const ls_unit *unit = ls_unit_preferred(order[i], dimension);
        int digits = digits_in(unit, a) + digits_in(unit, b);
        if (best == NULL || digits < least) {
            best = unit;
            least = digits;
        }
    }
    return best;
}

static const char *fallback_text(const ls_parameter *parameter, const ls_unit *unit, char out[LS_NUMBER_TEXT])
{
    if (parameter->kind == LS_KEY_CHOICE) {
        return ls_choice_word(parameter->choices, (int)parameter->fallback, out);
    }
    const ls_unit *used = unit != NULL ? unit : shortest_unit(parameter->dimension, parameter->fallback, 0.0);
    return ls_quantity_text(parameter->fallback, used, 6, out);
}

const char *ls_describe_presence(const ls_parameter *parameter, const ls_unit *unit, char out[LS_DESCRIPTION])
{
    char value[LS_NUMBER_TEXT];
    switch (parameter->presence) {
    case LS_REQUIRED:
        snprintf(out, LS_DESCRIPTION, "required");
        break;
    case LS_NEUTRAL:
        snprintf(out, LS_DESCRIPTION, "default %s", fallback_text(parameter, unit, value));
        break;
    case LS_ASSUMED_VALUE:
        if (isnan(parameter->fallback)) {
            snprintf(out, LS_DESCRIPTION, "estimated when left out");
            break;
        }
        snprintf(out, LS_DESCRIPTION, "guessed as %s when left out", fallback_text(parameter, unit, value));
        break;
    case LS_OPTIONAL:
        snprintf(out, LS_DESCRIPTION, "optional");
        break;
    case LS_WITH_BLOCK:
        snprintf(out, LS_DESCRIPTION, "required when the block is given");
        break;
    }
    return out;
}

/* "stability, body" from "stability|body". */
static void list_words(const char *choices, char out[LS_DESCRIPTION])
{
    char word[LS_NUMBER_TEXT];
    size_t used = 0;
    for (int i = 0; *ls_choice_word(choices, i, word) != '\0' && used < LS_DESCRIPTION; i++) {
        used += (size_t)snprintf(out + used, LS_DESCRIPTION - used, "%s%s", i > 0 ? ", " : "", word);
    }
}

const char *ls_describe_range(const ls_parameter *parameter, const ls_unit *unit, char out[LS_DESCRIPTION])
{
    out[0] = '\0';
    if (parameter->kind == LS_KEY_CHOICE) {
        list_words(parameter->choices, out);
    } else if (parameter->kind != LS_KEY_TEXT) {
        char range[LS_RANGE_TEXT];
        const ls_unit *used =
            unit != NULL ? unit : shortest_unit(parameter->dimension, parameter->low, parameter->high);
        snprintf(out, LS_DESCRIPTION, "%s", ls_range_text(parameter->low, parameter->high, used, range));
    }
    return out;
}

const char *ls_describe_applies(const ls_parameter *parameter, char out[LS_DESCRIPTION])
{
    static const struct {
        unsigned bits;
        const char *name;
    } names[] = {
        {LS_FOR_SHAFT, "engines with a propeller"},
        {LS_FOR_PISTON, "piston engines"},
        {LS_FOR_TURBOPROP, "turboprop engines"},
        {LS_FOR_ELECTRIC, "electric engines"},
        {LS_FOR_JET, "jet engines"},
        {LS_FOR_COEFFICIENTS, "propellers by coefficients"},
        {LS_FOR_BLADE_ELEMENT, "propellers by blade elements"},
    };
    unsigned left = parameter->applies;
    size_t used = 0;
    out[0] = '\0';
    for (size_t i = 0; i < sizeof names / sizeof names[0] && used < LS_DESCRIPTION; i++) {
        if ((left & names[i].bits) == names[i].bits) {
            used +=
                (size_t)snprintf(out + used, LS_DESCRIPTION - used, "%s%s", used > 0 ? ", " : "", names[i].name);
            left &= ~names[i].bits;
        }
    }
    return out;
}
