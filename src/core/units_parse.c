#include "liveside/text.h"
#include "liveside/units.h"

#include "number.h"
#include "units_data.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* What a message shows of the user's text. */
enum { SHOWN = 64, LISTED = 128, UNITS_LISTED = 8 };

static const char *skip_blanks(const char *text)
{
    return text + strspn(text, " \t");
}

static int starts_hexadecimal(const char *text)
{
    text += text[0] == '+' || text[0] == '-';
    return text[0] == '0' && (text[1] == 'x' || text[1] == 'X');
}

ls_status ls_units_number(const char *text, double *value, const char **end, ls_error *error)
{
    char shown[SHOWN];
    const char *start = skip_blanks(text);
    size_t length = ls_number_length(start);
    ls_text_for_terminal(text, shown, sizeof shown);
    if (length == 0 || starts_hexadecimal(start)) {
        return ls_fail(error, LS_FILE_REJECTED, "'%s' is not a decimal number", shown);
    }
    if (start[length] == ',') {
        return ls_fail(error, LS_FILE_REJECTED, "'%s' has a comma; write a decimal point and no thousands marks",
                       shown);
    }
    const char *rest = skip_blanks(start + length);
    if (end == NULL && *rest != '\0') {
        return ls_fail(error, LS_FILE_REJECTED, "'%s' is not a plain number", shown);
    }
    ls_status status = ls_number_read(start, length, value, error);
    if (status == LS_OK && end != NULL) {
        *end = start + length;
    }
    return status;
}

/* "m, ft, in, ..."; the units of a dimension as a message lists them. */
static void list_units(ls_dimension dimension, char out[LISTED])
{
    size_t used = 0;
    out[0] = '\0';
    for (int i = 0; i <= UNITS_LISTED; i++) {
        const ls_unit *unit = ls_unit_at(dimension, i);
        if (unit == NULL) {
            return;
        }
        const char *name = unit->name[0] != '\0' ? unit->name : "no unit";
        used += (size_t)snprintf(out + used, LISTED - used, "%s%s", i > 0 ? ", " : "",
                                 i < UNITS_LISTED ? name : "...");
    }
}

static const ls_unit *find_in_any_dimension(const char *name)
{
    for (int i = 0; i < ls_units_table_count; i++) {
        if (strcmp(ls_units_table[i].name, name) == 0) {
            return &ls_units_table[i];
        }
    }
    return NULL;
}

static const char *nearest_unit(ls_dimension dimension, const char *name)
{
    const char *names[32];
    int count = 0;
    for (const ls_unit *unit; count < 32 && (unit = ls_unit_at(dimension, count)) != NULL; count++) {
        names[count] = unit->name;
    }
    int nearest = ls_text_nearest(name, names, count);
    return nearest >= 0 && names[nearest][0] != '\0' ? names[nearest] : NULL;
}

/* The noun of a dimension without its article, "length" of "a length". */
static const char *bare_noun(ls_dimension dimension)
{
    return strchr(ls_dimension_text(dimension), ' ') + 1;
}

static ls_status reject_unit(ls_dimension dimension, const char *name, const char *shown, ls_error *error)
{
    const char *needed = ls_dimension_text(dimension);
    char listed[LISTED];
    char hint[SHOWN] = "";
    list_units(dimension, listed);
    const ls_unit *other = find_in_any_dimension(name);
    if (dimension == LS_DIM_NUMBER) {
        return ls_fail(error, LS_FILE_REJECTED, "'%s' follows the number; a plain number without a unit is needed",
                       shown);
    }
    if (other != NULL) {
        return ls_fail(error, LS_FILE_REJECTED, "'%s' is a unit of %s; %s is needed: %s", shown,
                       bare_noun(other->dimension), needed, listed);
    }
    const char *nearest = nearest_unit(dimension, name);
    if (nearest != NULL) {
        snprintf(hint, sizeof hint, " (did you mean '%s'?)", nearest);
    }
    return ls_fail(error, LS_FILE_REJECTED, "'%s' is not a known unit%s; %s is needed: %s", shown, hint, needed,
                   listed);
}

/* Copies the unit without the blanks round it; a unit too long to be one is cut, and then not found. */
static void copy_unit(const char *text, char out[SHOWN])
{
    const char *start = skip_blanks(text);
    size_t length = strlen(start);
    while (length > 0 && (start[length - 1] == ' ' || start[length - 1] == '\t')) {
        length--;
    }
    snprintf(out, SHOWN, "%.*s", length < SHOWN ? (int)length : SHOWN - 1, start);
}

static ls_status reject_missing_unit(const char *text, ls_dimension dimension, ls_error *error)
{
    char shown[SHOWN];
    char listed[LISTED];
    ls_text_for_terminal(text, shown, sizeof shown);
    list_units(dimension, listed);
    return ls_fail(error, LS_FILE_REJECTED, "'%s' has no unit; %s is needed: %s", shown,
                   ls_dimension_text(dimension), listed);
}

ls_status ls_units_parse(const char *text, ls_dimension dimension, double *si, ls_error *error)
{
    double value;
    const char *end;
    char name[SHOWN];
    char shown[SHOWN];
    ls_status status = ls_units_number(text, &value, &end, error);
    if (status != LS_OK) {
        return status;
    }
    copy_unit(end, name);
    const ls_unit *unit = ls_unit_find(dimension, name);
    if (unit == NULL && name[0] == '\0') {
        return reject_missing_unit(text, dimension, error);
    }
    if (unit == NULL) {
        ls_text_for_terminal(name, shown, sizeof shown);
        return reject_unit(dimension, name, shown, error);
    }
    double converted = ls_unit_to_si(unit, value);
    if (!isfinite(converted)) {
        ls_text_for_terminal(text, shown, sizeof shown);
        return ls_fail(error, LS_FILE_REJECTED, "'%s' is too large a value", shown);
    }
    *si = converted;
    return LS_OK;
}
