#include "airframe/parameter_data.h"

#include "liveside/text.h"

#include <assert.h>
#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static const struct {
    const char *name;
    int capacity;
    size_t stride;
} list_table[] = {
    [LS_LIST_NONE] = {"", 1, 0},
    [LS_LIST_FLAPS] = {"flaps", LS_MAX_FLAPS, sizeof(ls_flap)},
    [LS_LIST_POWERPLANTS] = {"powerplants", LS_MAX_POWERPLANTS, sizeof(ls_powerplant_data)},
    [LS_LIST_ENGINES] = {"engines", LS_MAX_ENGINES, sizeof(ls_engine_mount)},
};

enum { LISTS = sizeof list_table / sizeof list_table[0] };

const ls_parameter *ls_parameters(int *count)
{
    *count = ls_parameter_row_count;
    return ls_parameter_rows;
}

ls_list ls_parameter_list(const ls_parameter *parameter)
{
    const char *bracket = strstr(parameter->path, "[]");
    for (int list = LS_LIST_NONE + 1; bracket != NULL && list < LISTS; list++) {
        size_t length = strlen(list_table[list].name);
        if (length == (size_t)(bracket - parameter->path) &&
            strncmp(parameter->path, list_table[list].name, length) == 0) {
            return (ls_list)list;
        }
    }
    return LS_LIST_NONE;
}

int ls_list_capacity(ls_list list)
{
    return list_table[list].capacity;
}

size_t ls_list_stride(ls_list list)
{
    return list_table[list].stride;
}

const char *ls_list_name(ls_list list)
{
    return list_table[list].name;
}

int ls_list_length(const ls_aircraft *aircraft, ls_list list)
{
    switch (list) {
    case LS_LIST_FLAPS:
        return aircraft->flaps;
    case LS_LIST_POWERPLANTS:
        return aircraft->powerplants;
    case LS_LIST_ENGINES:
        return aircraft->engines;
    case LS_LIST_NONE:
        break;
    }
    return 1;
}

void ls_list_set_length(ls_aircraft *aircraft, ls_list list, int length)
{
    switch (list) {
    case LS_LIST_FLAPS:
        aircraft->flaps = length;
        break;
    case LS_LIST_POWERPLANTS:
        aircraft->powerplants = length;
        break;
    case LS_LIST_ENGINES:
        aircraft->engines = length;
        break;
    case LS_LIST_NONE:
        break;
    }
}

void *ls_parameter_value(ls_aircraft *aircraft, const ls_parameter *parameter, int element)
{
    return (char *)aircraft + parameter->offset + (size_t)element * ls_list_stride(ls_parameter_list(parameter));
}

const void *ls_parameter_value_const(const ls_aircraft *aircraft, const ls_parameter *parameter, int element)
{
    return (const char *)aircraft + parameter->offset +
           (size_t)element * ls_list_stride(ls_parameter_list(parameter));
}

int ls_parameter_applies(const ls_aircraft *aircraft, const ls_parameter *parameter, int element)
{
    if (parameter->applies == 0) {
        return 1;
    }
    int is_mount = ls_parameter_list(parameter) == LS_LIST_ENGINES;
    const ls_powerplant_data *powerplant =
        &aircraft->powerplant[is_mount ? aircraft->engine[element].powerplant : element];
    unsigned engine = (unsigned)LS_FOR_PISTON << powerplant->engine.type;
    if (parameter->applies & (LS_FOR_SHAFT | LS_FOR_JET)) {
        return (parameter->applies & engine) != 0;
    }
    unsigned propeller = (unsigned)LS_FOR_COEFFICIENTS << powerplant->propeller.kind;
    return powerplant->engine.type != LS_ENGINE_JET && (parameter->applies & propeller) != 0;
}

/* The text between [ and ]: a number counted from 1, or the element's name. */
static int find_element(const ls_aircraft *aircraft, ls_list list, const char *text)
{
    int length = ls_list_length(aircraft, list);
    if (isdigit((unsigned char)text[0]) && text[1] == '\0') { /* no list is longer than 9 */
        int number = text[0] - '0';
        return number >= 1 && number <= length ? number - 1 : -1;
    }
    switch (list) {
    case LS_LIST_FLAPS:
        return ls_flap_find(aircraft, text);
    case LS_LIST_POWERPLANTS:
        return ls_powerplant_find(aircraft, text);
    case LS_LIST_ENGINES:
        return ls_engine_find(aircraft, text);
    case LS_LIST_NONE:
        break;
    }
    return -1;
}

/* Splits "flaps[up].lift_max" into "flaps[].lift_max" and "up". Returned: 0 when brackets do not match up. */
static int split_path(const char *path, char *plain, size_t plain_size, char *inside, size_t inside_size)
{
    const char *open = strchr(path, '[');
    const char *close = open != NULL ? strchr(open, ']') : NULL;
    inside[0] = '\0';
    if (open == NULL) {
        return snprintf(plain, plain_size, "%s", path) < (int)plain_size;
    }
    if (close == NULL || (size_t)(close - open) > inside_size) {
        return 0;
    }
    snprintf(inside, inside_size, "%.*s", (int)(close - open - 1), open + 1);
    return snprintf(plain, plain_size, "%.*s[]%s", (int)(open - path), path, close + 1) < (int)plain_size;
}

static ls_status no_such_path(const char *path, const char *plain, ls_error *error)
{
    enum { ROWS_MAX = 256 };
    const char *known[ROWS_MAX];
    int count = ls_parameter_row_count < ROWS_MAX ? ls_parameter_row_count : ROWS_MAX;
    for (int i = 0; i < count; i++) {
        known[i] = ls_parameter_rows[i].path;
    }
    int nearest = ls_text_nearest(plain, known, count);
    char shown[LS_NAME_SIZE * 2];
    ls_text_for_terminal(path, shown, sizeof shown);
    if (nearest >= 0) {
        return ls_fail(error, LS_USAGE, "no key '%s'; did you mean '%s'?", shown, known[nearest]);
    }
    return ls_fail(error, LS_USAGE, "no key '%s'", shown);
}

const ls_parameter *ls_parameter_find(const ls_aircraft *aircraft, const char *path, int *element, ls_error *error)
{
    char plain[128], inside[LS_NAME_SIZE];
    if (!split_path(path, plain, sizeof plain, inside, sizeof inside)) {
        no_such_path(path, path, error);
        return NULL;
    }
    for (int i = 0; i < ls_parameter_row_count; i++) {
        const ls_parameter *parameter = &ls_parameter_rows[i];
        if (strcmp(parameter->path, plain) != 0) {
            continue;
        }
        ls_list list = ls_parameter_list(parameter);
        *element = list == LS_LIST_NONE ? 0 : find_element(aircraft, list, inside);
        if (*element < 0) {
            ls_fail(error, LS_USAGE, "'%s': no such element of %s; give its name, or its number from 1", path,
                    ls_list_name(list));
            return NULL;
        }
        return parameter;
    }
    no_such_path(path, plain, error);
    return NULL;
}

static void set_default(ls_aircraft *aircraft, const ls_parameter *parameter, int element)
{
    void *value = ls_parameter_value(aircraft, parameter, element);
    int has_default = parameter->presence == LS_NEUTRAL || parameter->presence == LS_ASSUMED_VALUE;
    switch (parameter->kind) {
    case LS_KEY_NUMBER:
        *(double *)value = has_default ? parameter->fallback : NAN;
        break;
    case LS_KEY_CHOICE:
        *(int *)value = (int)parameter->fallback;
        break;
    case LS_KEY_TEXT:
    case LS_KEY_CURVE: /* the record is cleared already */
        break;
    }
}

void ls_aircraft_defaults(ls_aircraft *aircraft)
{
    memset(aircraft, 0, sizeof *aircraft);
    for (int i = 0; i < ls_parameter_row_count; i++) {
        const ls_parameter *parameter = &ls_parameter_rows[i];
        int capacity = ls_list_capacity(ls_parameter_list(parameter));
        for (int element = 0; element < capacity; element++) {
            set_default(aircraft, parameter, element);
        }
    }
}

/* The first mark of a key: keys follow one another, each with room for its list. */
static int first_mark(const ls_parameter *parameter)
{
    int first = 0;
    for (const ls_parameter *row = ls_parameter_rows; row != parameter; row++) {
        first += ls_list_capacity(ls_parameter_list(row));
    }
    assert(first + ls_list_capacity(ls_parameter_list(parameter)) <= LS_MARKS_MAX);
    return first;
}

ls_mark *ls_mark_of(ls_marks *marks, const ls_parameter *parameter, int element)
{
    return &marks->mark[first_mark(parameter) + element];
}

const ls_mark *ls_mark_of_const(const ls_marks *marks, const ls_parameter *parameter, int element)
{
    return &marks->mark[first_mark(parameter) + element];
}

static int is_uncertain(const ls_mark *mark)
{
    return mark->source == LS_SOURCE_GUESS || mark->source == LS_SOURCE_ESTIMATED ||
           mark->source == LS_SOURCE_ASSUMED;
}

int ls_parameter_is_of_motion(const ls_parameter *parameter)
{
    static const char *const blocks[] = {"inertia.", "rates.", "pilot.", "ground.", "powerplants[].transient."};
    for (size_t i = 0; i < sizeof blocks / sizeof blocks[0]; i++) {
        if (strncmp(parameter->path, blocks[i], strlen(blocks[i])) == 0) {
            return 1;
        }
    }
    return 0;
}

static int count_uncertain(const ls_aircraft *aircraft, const ls_marks *marks, int of_motion)
{
    int count = 0;
    for (int i = 0; i < ls_parameter_row_count; i++) {
        const ls_parameter *parameter = &ls_parameter_rows[i];
        int length = ls_list_length(aircraft, ls_parameter_list(parameter));
        if (strncmp(parameter->path, "published.", strlen("published.")) == 0 || /* compared with answers only */
            ls_parameter_is_of_motion(parameter) != of_motion) {
            continue;
        }
        for (int element = 0; element < length; element++) {
            count += ls_parameter_applies(aircraft, parameter, element) &&
                     is_uncertain(ls_mark_of_const(marks, parameter, element));
        }
    }
    return count;
}

int ls_marks_uncertain(const ls_aircraft *aircraft, const ls_marks *marks)
{
    return count_uncertain(aircraft, marks, 0);
}

int ls_marks_uncertain_motion(const ls_aircraft *aircraft, const ls_marks *marks)
{
    return count_uncertain(aircraft, marks, 1);
}
