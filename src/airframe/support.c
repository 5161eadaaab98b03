#include "liveside/support.h"

#include "airframe/path.h"
#include "airframe/support_data.h"

#include <stdio.h>
#include <string.h>

/* What is missing and what is assumed, while one capability is looked at. */
typedef struct {
    int missing, assumed, applying;
    char missing_list[LS_SUPPORT_KEYS], assumed_list[LS_SUPPORT_KEYS];
} tally;

static void add_key(char list[LS_SUPPORT_KEYS], const ls_parameter *parameter, int element)
{
    char path[LS_FINDING_KEY];
    size_t used = strlen(list);
    ls_parameter_path(parameter, element, path, sizeof path);
    const char *comma = used > 0 ? ", " : "";
    if (used + strlen(comma) + strlen(path) + strlen(", ...") < LS_SUPPORT_KEYS) {
        snprintf(list + used, LS_SUPPORT_KEYS - used, "%s%s", comma, path);
    } else if (used < 3 || strcmp(list + used - 3, "...") != 0) {
        snprintf(list + used, LS_SUPPORT_KEYS - used, "%s...", comma);
    }
}

static int is_uncertain(ls_source source)
{
    return source == LS_SOURCE_GUESS || source == LS_SOURCE_ESTIMATED || source == LS_SOURCE_ASSUMED;
}

static void look_at(const ls_mark *mark, const ls_parameter *parameter, int element, ls_default_means means,
                    tally *t)
{
    int by_default = mark->source == LS_SOURCE_DEFAULT || mark->source == LS_SOURCE_GUESS;
    t->applying++;
    if (mark->source == LS_SOURCE_ABSENT || (by_default && means == LS_DEFAULT_IS_MISSING)) {
        t->missing++;
        add_key(t->missing_list, parameter, element);
    } else if (is_uncertain(mark->source) || (by_default && means == LS_DEFAULT_IS_ASSUMED)) {
        t->assumed++;
        add_key(t->assumed_list, parameter, element);
    }
}

/* Whether a key is the one that a need names, or within the block that it names. */
static int is_within(const char *path, const char *named)
{
    size_t length = strlen(named);
    return strncmp(path, named, length) == 0 && (path[length] == '\0' || named[length - 1] == '.');
}

/* A key that may be left out counts only where a need names it alone, not as one of a block. */
static int counts(const ls_parameter *parameter, const char *named)
{
    return strcmp(parameter->path, named) == 0 || parameter->presence != LS_OPTIONAL;
}

static void look_at_need(const ls_aircraft *aircraft, const ls_marks *marks, const ls_need *need, tally *t)
{
    int count;
    const ls_parameter *row = ls_parameters(&count);
    for (int i = 0; i < count; i++) {
        if (!is_within(row[i].path, need->path) || !counts(&row[i], need->path)) {
            continue;
        }
        int length = ls_list_length(aircraft, ls_parameter_list(&row[i]));
        for (int element = 0; element < length; element++) {
            if (ls_parameter_applies(aircraft, &row[i], element)) {
                look_at(ls_mark_of_const(marks, &row[i], element), &row[i], element, need->means, t);
            }
        }
    }
}

static void settle(const tally *t, ls_support_row *row)
{
    row->level = t->applying == 0 ? LS_SUPPORT_NOTHING
                 : t->missing > 0 ? LS_SUPPORT_NONE
                 : t->assumed > 0 ? LS_SUPPORT_ASSUMED
                                  : LS_SUPPORT_FULL;
    row->keys = t->missing > 0 ? t->missing : t->assumed;
    snprintf(row->list, sizeof row->list, "%s", t->missing > 0 ? t->missing_list : t->assumed_list);
}

void ls_aircraft_support(const ls_aircraft *aircraft, const ls_marks *marks, ls_support *support)
{
    memset(support, 0, sizeof *support);
    for (int i = 0; i < ls_capability_count && i < LS_SUPPORT_MAX; i++) {
        tally t = {0};
        for (const ls_need *need = ls_capabilities[i].need; need->path != NULL; need++) {
            look_at_need(aircraft, marks, need, &t);
        }
        support->row[i].name = ls_capabilities[i].name;
        settle(&t, &support->row[i]);
        support->rows++;
    }
}

const char *ls_support_text(ls_support_level level)
{
    switch (level) {
    case LS_SUPPORT_FULL:
        return "fully";
    case LS_SUPPORT_ASSUMED:
        return "with assumed values";
    case LS_SUPPORT_NONE:
        return "not";
    case LS_SUPPORT_NOTHING:
        return "does not arise";
    }
    return "unknown";
}
