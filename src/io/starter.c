/* The commented starter file, every key of the table in it. */
#include "liveside/reader.h"

#include "airframe/path.h"
#include "io/describe.h"
#include "io/emit.h"
#include "io/format.h"
#include "io/starter_data.h"

#include <string.h>

enum { STARTER_INDENT = 4, COMMENT_COLUMN = 36, LINE_LENGTH = 110, COMMENT = 4 * LS_DESCRIPTION };

static const char *starter_value(const ls_parameter *parameter, int element)
{
    for (int i = 0; i < ls_starter_value_count; i++) {
        if (strcmp(ls_starter_values[i].path, parameter->path) == 0) {
            return element == 0 ? ls_starter_values[i].first : ls_starter_values[i].second;
        }
    }
    return NULL;
}

/* "required; 1 to 100 m; reference span". Range and default are in the unit of the value. */
static void describe(const ls_parameter *parameter, const char *value, char out[COMMENT])
{
    char presence[LS_DESCRIPTION], range[LS_DESCRIPTION], applies[LS_DESCRIPTION];
    const ls_unit *unit =
        parameter->kind == LS_KEY_NUMBER && value != NULL ? ls_unit_written(value, parameter->dimension) : NULL;
    ls_describe_presence(parameter, unit, presence);
    ls_describe_range(parameter, unit, range);
    ls_describe_applies(parameter, applies);
    snprintf(out, COMMENT, "# %s; %s%s%s%s%s%s", presence, applies[0] != '\0' ? "for " : "", applies,
             applies[0] != '\0' ? "; " : "", range, range[0] != '\0' ? "; " : "", parameter->meaning);
}

/* A key without a value, for another engine type or instead of another key: it stands as a comment, with its
 * blocks named because they may stand as comments too. */
static void write_unused(ls_emitter *emitter, const ls_parameter *parameter)
{
    char comment[COMMENT];
    const char *tail = ls_parameter_tail(parameter), *first = strchr(tail, '.');
    describe(parameter, NULL, comment);
    fprintf(emitter->out, "%*s# %s: %s\n", first != NULL ? STARTER_INDENT : 0, "", tail, comment);
}

static void write_used(ls_emitter *emitter, const ls_parameter *parameter, int element, const char *value)
{
    FILE *out = emitter->out;
    char comment[COMMENT];
    describe(parameter, value, comment);
    int indent = ls_emit_indent(parameter);
    int end = indent + (int)(strlen(ls_key_name(parameter)) + strlen(": ") + strlen(value));
    int start = end < COMMENT_COLUMN ? COMMENT_COLUMN : end + 1;
    int is_beside = start + (int)strlen(comment) <= LINE_LENGTH;
    if (element == 0 && !is_beside) {
        fprintf(out, "%*s%s\n", indent, "", comment);
    }
    ls_emit_key(emitter, parameter, element);
    fputs(value, out);
    if (element == 0 && is_beside) {
        fprintf(out, "%*s%s", start - end, "", comment);
    }
    fputc('\n', out);
}

static void write_key(const ls_parameter *parameter, int element, void *context)
{
    ls_emitter *emitter = context;
    const char *value = starter_value(parameter, element);
    if (value == NULL && element > 0) {
        return;
    }
    if (value != NULL) {
        ls_emit_blocks(emitter, parameter, element);
        write_used(emitter, parameter, element, value);
    } else {
        write_unused(emitter, parameter);
    }
}

/* How many entries of a list have values. */
static int starter_length(ls_list list)
{
    int count;
    const ls_parameter *row = ls_parameters(&count);
    for (int i = 0; i < count; i++) {
        if (ls_parameter_list(&row[i]) == list) {
            return starter_value(&row[i], 1) != NULL ? 2 : 1;
        }
    }
    return 0;
}

void ls_aircraft_write_starter(FILE *out)
{
    static const ls_list lists[] = {LS_LIST_FLAPS, LS_LIST_POWERPLANTS, LS_LIST_ENGINES};
    ls_emitter emitter = {.out = out};
    ls_aircraft lengths = {0};
    for (int i = 0; i < 3; i++) {
        ls_list_set_length(&lengths, lists[i], starter_length(lists[i]));
    }
    fputs(ls_starter_opening, out);
    ls_keys_visit(&lengths, write_key, &emitter);
    fputs(ls_starter_ending, out);
}
