#include "io/emit.h"

#include "airframe/path.h"

#include <string.h>

enum { STEP = 2, ENTRY = 4 }; /* indentation of a block, and of the keys of a list's entry */

void ls_keys_visit(const ls_aircraft *aircraft, ls_key_visitor *visitor, void *context)
{
    int count;
    const ls_parameter *row = ls_parameters(&count);
    for (int first = 0; first < count;) {
        ls_list list = ls_parameter_list(&row[first]);
        int end = first + 1;
        while (end < count && ls_parameter_list(&row[end]) == list) {
            end++;
        }
        int length = ls_list_length(aircraft, list);
        for (int element = 0; element < length; element++) {
            for (int i = first; i < end; i++) {
                visitor(&row[i], element, context);
            }
        }
        first = end;
    }
}

const char *ls_key_name(const ls_parameter *parameter)
{
    const char *last = strrchr(parameter->path, '.');
    return last != NULL ? last + 1 : parameter->path;
}

/* How many blocks a key stands in, within its entry if it belongs to a list. */
static int depth(const ls_parameter *parameter)
{
    int points = 0;
    for (const char *c = ls_parameter_tail(parameter); *c != '\0'; c++) {
        points += *c == '.';
    }
    return points;
}

int ls_emit_indent(const ls_parameter *parameter)
{
    int base = ls_parameter_list(parameter) != LS_LIST_NONE ? ENTRY : 0;
    return base + STEP * depth(parameter);
}

static size_t top_length(const ls_parameter *parameter)
{
    return strcspn(parameter->path, ".[");
}

int ls_same_top(const ls_parameter *a, const ls_parameter *b)
{
    size_t length = top_length(a);
    int are_alone = a->path[length] == '\0' && b->path[top_length(b)] == '\0';
    return are_alone || (top_length(b) == length && strncmp(a->path, b->path, length) == 0);
}

/* Whether a key is the first of an entry of its list. */
static int begins_entry(const ls_emitter *emitter, const ls_parameter *parameter, int element)
{
    return ls_parameter_list(parameter) != LS_LIST_NONE &&
           (emitter->last == NULL || !ls_same_top(emitter->last, parameter) || emitter->last_element != element);
}

static int same_place(const ls_emitter *emitter, const ls_parameter *parameter, int element)
{
    return emitter->last != NULL && ls_same_top(emitter->last, parameter) &&
           (ls_parameter_list(parameter) == LS_LIST_NONE || emitter->last_element == element);
}

/* The length of the blocks that two keys of one place share at the start of their tails. */
static size_t shared_blocks(const ls_parameter *a, const ls_parameter *b)
{
    const char *one = ls_parameter_tail(a), *other = ls_parameter_tail(b);
    size_t shared = 0;
    for (size_t i = 0; one[i] == other[i] && one[i] != '\0'; i++) {
        shared = one[i] == '.' ? i + 1 : shared;
    }
    return shared;
}

void ls_emit_blocks(ls_emitter *emitter, const ls_parameter *parameter, int element)
{
    const char *tail = ls_parameter_tail(parameter);
    int is_listed = ls_parameter_list(parameter) != LS_LIST_NONE;
    int is_new = emitter->last == NULL || !ls_same_top(emitter->last, parameter);
    if (is_new && emitter->last != NULL) {
        fputc('\n', emitter->out);
    }
    if (is_new && is_listed) {
        fprintf(emitter->out, "%s:\n", ls_list_name(ls_parameter_list(parameter)));
    }
    size_t at = same_place(emitter, parameter, element) ? shared_blocks(emitter->last, parameter) : 0;
    int level = 0;
    for (size_t i = 0; i < at; i++) {
        level += tail[i] == '.';
    }
    for (const char *end; (end = strchr(tail + at, '.')) != NULL; level++) {
        fprintf(emitter->out, "%*s%.*s:\n", (is_listed ? ENTRY : 0) + STEP * level, "",
                (int)(end - tail - (long)at), tail + at);
        at = (size_t)(end - tail) + 1;
    }
}

int ls_emit_key(ls_emitter *emitter, const ls_parameter *parameter, int element)
{
    int indent = ls_emit_indent(parameter);
    int columns = begins_entry(emitter, parameter, element)
                      ? fprintf(emitter->out, "%*s- %s: ", indent - STEP, "", ls_key_name(parameter))
                      : fprintf(emitter->out, "%*s%s: ", indent, "", ls_key_name(parameter));
    emitter->last = parameter;
    emitter->last_element = element;
    return columns > 0 ? columns : 0;
}
