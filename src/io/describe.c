#include "io/describe.h"

#include "io/format.h"

#include <stdio.h>
#include <string.h>

/* How long a value's number gets in a unit. */
static size_t length_in(const ls_unit *unit, double si)
{
    char number[LS_NUMBER_TEXT];
    return strlen(ls_number_text(ls_unit_from_si(unit, si), 6, number));
}

/* Of the units that people use, the one that writes two values shortest: 150 lbf, not 667.233 N. */
static const ls_unit *shortest_unit(ls_dimension dimension, double a, double b)
{
    const ls_unit *best = NULL;
    size_t least = 0;
    for (ls_unit_system system = LS_UNITS_US; system < LS_UNITS_COUNT; system++) {
        const ls_unit *unit = ls_unit_preferred(system, dimension);
        size_t length = length_in(unit, a) + length_in(unit, b);
        if (best == NULL || length <= least) {
            best = unit;
            least = length;
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
