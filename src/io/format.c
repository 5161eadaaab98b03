#include "io/format.h"

#include "core/number.h"
#include "liveside/reader.h"

#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

/* An upper end of at least this is "no limit". */
static const double no_limit = 1e9;

/* printf uses the decimal point of the process's locale. */
static void restore_point(char *text)
{
    const char *point = localeconv()->decimal_point;
    char *found = strcmp(point, ".") != 0 ? strstr(text, point) : NULL;
    if (found != NULL) {
        size_t length = strlen(point);
        *found = '.';
        memmove(found + 1, found + length, strlen(found + length) + 1);
    }
}

/* Gives a number that printf wrote its point, and reads it; NaN if it cannot be read. */
static double read_back(char *text)
{
    double value = NAN;
    restore_point(text);
    ls_number_read(text, strlen(text), &value, NULL);
    return value;
}

const char *ls_number_text(double value, int digits, char out[LS_NUMBER_TEXT])
{
    if (!isfinite(value)) {
        snprintf(out, LS_NUMBER_TEXT, "not given");
        return out;
    }
    double magnitude = value != 0.0 ? floor(log10(fabs(value))) : 0.0;
    if (magnitude >= digits && magnitude < 7.0) {
        snprintf(out, LS_NUMBER_TEXT, "%.0f", value); /* 230000, not 2.3e+05 */
    } else {
        snprintf(out, LS_NUMBER_TEXT, "%.*g", digits, value == 0.0 ? 0.0 : value);
    }
    restore_point(out);
    return out;
}

const char *ls_number_exact(double value, char out[LS_NUMBER_TEXT])
{
    int short_enough = 15; /* most results of a computation need more: found out at once */
    snprintf(out, LS_NUMBER_TEXT, "%.*g", short_enough, value);
    for (int digits = read_back(out) == value ? 6 : short_enough + 1; digits <= 17; digits++) {
        snprintf(out, LS_NUMBER_TEXT, "%.*g", digits, value);
        if (read_back(out) == value) {
            break;
        }
    }
    return out;
}

/* The shortest number in a unit that reads back to the same SI value. Returned: 0 if there is none. */
static int exact_in(double si, const ls_unit *unit, char out[LS_NUMBER_TEXT])
{
    for (int digits = 6; digits <= 17; digits++) {
        snprintf(out, LS_NUMBER_TEXT, "%.*g", digits, ls_unit_from_si(unit, si));
        if (ls_unit_to_si(unit, read_back(out)) == si) {
            return 1;
        }
    }
    return 0;
}

const char *ls_quantity_exact(double si, ls_dimension dimension, char out[LS_NUMBER_TEXT])
{
    char number[LS_NUMBER_TEXT];
    size_t least = 0;
    const ls_unit *unit;
    for (int i = 0; (unit = ls_unit_at(dimension, i)) != NULL; i++) {
        if (exact_in(si, unit, number) && (least == 0 || strlen(number) < least)) {
            least = strlen(number);
            snprintf(out, LS_NUMBER_TEXT, "%.30s%s%.12s", number, unit->name[0] != '\0' ? " " : "", unit->name);
        }
    }
    return out;
}

const char *ls_quantity_text(double si, const ls_unit *unit, int digits, char out[LS_NUMBER_TEXT])
{
    ls_number_text(isfinite(si) ? ls_unit_from_si(unit, si) : si, digits, out);
    if (isfinite(si) && unit->name[0] != '\0') {
        size_t used = strlen(out);
        snprintf(out + used, LS_NUMBER_TEXT - used, " %.16s", unit->name);
    }
    return out;
}

const char *ls_choice_word(const char *choices, int index, char out[LS_NUMBER_TEXT])
{
    const char *word = choices;
    while (index-- > 0 && word != NULL) {
        word = strchr(word, '|');
        word = word != NULL ? word + 1 : NULL;
    }
    snprintf(out, LS_NUMBER_TEXT, "%.*s", word != NULL ? (int)strcspn(word, "|") : 0, word != NULL ? word : "");
    return out;
}

int ls_choice_find(const char *choices, const char *word)
{
    char candidate[LS_NUMBER_TEXT];
    for (int i = 0; *ls_choice_word(choices, i, candidate) != '\0'; i++) {
        if (strcmp(candidate, word) == 0) {
            return i;
        }
    }
    return -1;
}

const ls_unit *ls_unit_written(const char *text, ls_dimension dimension)
{
    char name[LS_NUMBER_TEXT];
    const char *at = text + strspn(text, " ");
    at += ls_number_length(at);
    at += strspn(at, " ");
    snprintf(name, sizeof name, "%.*s", (int)strcspn(at, " "), at);
    const ls_unit *unit = ls_unit_find(dimension, name);
    return unit != NULL ? unit : ls_unit_at(dimension, 0);
}

const char *ls_range_text(double low, double high, const ls_unit *unit, char out[LS_RANGE_TEXT])
{
    char first[LS_NUMBER_TEXT];
    char last[LS_NUMBER_TEXT];
    if (high >= no_limit) {
        snprintf(out, LS_RANGE_TEXT, "at least %s", ls_quantity_text(low, unit, 5, first));
    } else {
        snprintf(out, LS_RANGE_TEXT, "%s to %s", ls_number_text(ls_unit_from_si(unit, low), 5, first),
                 ls_quantity_text(high, unit, 5, last));
    }
    return out;
}

const char *ls_source_text(ls_source source)
{
    switch (source) {
    case LS_SOURCE_ABSENT:
        return "absent";
    case LS_SOURCE_DEFAULT:
        return "default";
    case LS_SOURCE_GUESS:
        return "guess";
    case LS_SOURCE_GIVEN:
        return "given";
    case LS_SOURCE_MEASURED:
        return "measured";
    case LS_SOURCE_PUBLISHED:
        return "published";
    case LS_SOURCE_ESTIMATED:
        return "estimated";
    case LS_SOURCE_ASSUMED:
        return "assumed";
    }
    return "unknown";
}
