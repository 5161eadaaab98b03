#include "liveside/units.h"

#include "number.h"
#include "units_data.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static const char *const dimension_text[LS_DIMENSION_COUNT] = {
#define DIMENSION_TEXT(name, text, si) text,
    LS_DIMENSION_LIST(DIMENSION_TEXT)
#undef DIMENSION_TEXT
};

const char *ls_dimension_text(ls_dimension dimension)
{
    return (unsigned)dimension < LS_DIMENSION_COUNT ? dimension_text[dimension] : "an unknown dimension";
}

/* The dimension whose rows of the table serve this one. */
static ls_dimension table_dimension(ls_dimension dimension)
{
    switch (dimension) {
    case LS_DIM_ALTITUDE:
        return LS_DIM_LENGTH;
    case LS_DIM_CLIMB_RATE:
        return LS_DIM_SPEED;
    default:
        return dimension;
    }
}

const ls_unit *ls_unit_at(ls_dimension dimension, int index)
{
    ls_dimension wanted = table_dimension(dimension);
    for (int i = 0; i < ls_units_table_count; i++) {
        if (ls_units_table[i].dimension == wanted && index-- == 0) {
            return &ls_units_table[i];
        }
    }
    return NULL;
}

const ls_unit *ls_unit_find(ls_dimension dimension, const char *name)
{
    ls_dimension wanted = table_dimension(dimension);
    for (int i = 0; i < ls_units_table_count; i++) {
        if (ls_units_table[i].dimension == wanted && strcmp(ls_units_table[i].name, name) == 0) {
            return &ls_units_table[i];
        }
    }
    return NULL;
}

const ls_unit *ls_unit_preferred(ls_unit_system system, ls_dimension dimension)
{
    const char *name = system < LS_UNITS_SI ? ls_units_preferred[dimension][system] : NULL;
    const ls_unit *unit = name != NULL ? ls_unit_find(dimension, name) : ls_unit_at(dimension, 0);
    assert(unit != NULL);
    return unit;
}

int ls_unit_system_find(const char *name, ls_unit_system *system)
{
    static const char *const names[LS_UNITS_COUNT] = {"us", "metric", "si"};
    for (int i = 0; i < LS_UNITS_COUNT; i++) {
        if (strcmp(name, names[i]) == 0) {
            *system = (ls_unit_system)i;
            return 1;
        }
    }
    return 0;
}

double ls_unit_from_si(const ls_unit *unit, double si)
{
    return si / unit->factor - unit->offset;
}

double ls_unit_to_si(const ls_unit *unit, double value)
{
    return (value + unit->offset) * unit->factor;
}

double ls_units_to(ls_dimension dimension, const char *unit, double si)
{
    const ls_unit *found = ls_unit_find(dimension, unit);
    assert(found != NULL);
    return found != NULL ? ls_unit_from_si(found, si) : NAN;
}

double ls_units_from(ls_dimension dimension, const char *unit, double value)
{
    const ls_unit *found = ls_unit_find(dimension, unit);
    assert(found != NULL);
    return found != NULL ? ls_unit_to_si(found, value) : NAN;
}

/* printf writes "-0.0" for what rounds to zero from below; nobody reads that as an answer. */
static const char *without_negative_zero(const char *number)
{
    return number[0] == '-' && strspn(number + 1, "0.") == strlen(number + 1) ? number + 1 : number;
}

size_t ls_units_format(double si, const ls_unit *unit, int decimals, char *out, size_t size)
{
    char number[400]; /* the longest double has 309 digits before the point */
    double value = ls_unit_from_si(unit, si);
    if (!isfinite(value) || ls_number_print(value, decimals, number, sizeof number) != LS_OK) {
        return (size_t)snprintf(out, size, "not finite");
    }
    const char *blank = unit->name[0] == '\0' || unit->name[0] == '%' ? "" : " ";
    return (size_t)snprintf(out, size, "%s%s%s", without_negative_zero(number), blank, unit->name);
}
