#include "report/input_words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

const char *ls_input_short(const ls_input *input, char out[LS_INPUT_WORDS])
{
    const char *open = strchr(input->name, '['), *close = strrchr(input->name, ']');
    const char *derivative = "derivatives.", *section = "propeller.section.";
    if (open != NULL && close > open && close[1] == '.') {
        int element = (int)(close - open) - 1 < 12 ? (int)(close - open) - 1 : 12;
        const char *tail = close + 2;
        tail += strncmp(tail, section, strlen(section)) == 0 ? strlen("propeller.") : 0;
        snprintf(out, LS_INPUT_WORDS, "%.*s: %.28s", element, open + 1, tail);
        return out;
    }
    int skipped = strncmp(input->name, derivative, strlen(derivative)) == 0 ? (int)strlen(derivative) : 0;
    snprintf(out, LS_INPUT_WORDS, "%.44s", input->name + skipped);
    return out;
}

static int is_curve(const ls_input *input)
{
    return input->parameter != NULL && input->parameter->kind == LS_KEY_CURVE;
}

/* A fraction is read in per cent, a centre of gravity in inches. */
const ls_unit *ls_input_unit(const ls_input *input, ls_unit_system units)
{
    int is_station = input->kind == LS_AXIS_CG || input->kind == LS_AXIS_CG_LATERAL;
    if (input->dimension == LS_DIM_FRACTION) {
        return ls_unit_find(LS_DIM_FRACTION, "%");
    }
    return is_station && units == LS_UNITS_US ? ls_unit_find(LS_DIM_LENGTH, "in")
                                              : ls_unit_preferred(units, input->dimension);
}

static const char *with_unit(double shown, int digits, const char *unit, char out[LS_PHRASE])
{
    const char *space = unit[0] != '\0' ? " " : "";
    if (fabs(shown) >= pow(10.0, digits) && fabs(shown) < 1e7) { /* %g would give powers of ten */
        snprintf(out, LS_PHRASE, "%.0f%s%s", shown, space, unit);
    } else {
        snprintf(out, LS_PHRASE, "%.*g%s%s", digits, fabs(shown) < 1e-12 ? 0.0 : shown, space, unit);
    }
    return out;
}

const char *ls_input_value(const ls_input *input, double value, ls_unit_system units, char out[LS_PHRASE])
{
    const ls_unit *unit = ls_input_unit(input, units);
    return is_curve(input) ? "(table)" : with_unit(ls_unit_from_si(unit, value), 4, unit->name, out);
}

/* A step is a difference: a temperature's is not shifted to another zero. */
const char *ls_input_step(const ls_input *input, double step, ls_unit_system units, char out[LS_PHRASE])
{
    const ls_unit *unit = ls_input_unit(input, units);
    return is_curve(input) ? with_unit(100.0 * step, 3, "%", out)
                           : with_unit(step / unit->factor, 3, unit->name, out);
}
