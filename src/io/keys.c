#include "io/keys.h"

#include "airframe/path.h"
#include "liveside/reader.h"

#include <stdio.h>
#include <string.h>

/* The node of a list's name at the top of the file, or LS_NO_NODE. */
static int list_node(const ls_reading *reading, ls_list list)
{
    const char *name = ls_list_name(list);
    return ls_tree_child(&reading->tree, LS_ROOT_NODE, name, strlen(name));
}

/* The node of an element of a list. */
static int element_node(const ls_reading *reading, ls_list list, int element)
{
    int node = list_node(reading, list);
    for (int i = reading->tree.node[node].first; i != LS_NO_NODE; i = reading->tree.node[i].next) {
        if (reading->tree.node[i].index == element) {
            return i;
        }
    }
    return LS_NO_NODE;
}

/* Refuses what is not a block of keys, once. Returned: 1 for a block. */
static int must_be_block(ls_reading *reading, int node)
{
    ls_node *at = &reading->tree.node[node];
    if (at->kind == LS_NODE_MAP) {
        return 1;
    }
    if (at->kind != LS_NODE_BROKEN) {
        ls_reading_reject(reading, node, "a block of keys is needed here");
        at->kind = LS_NODE_BROKEN;
    }
    return 0;
}

static void check_list(ls_reading *reading, ls_list list)
{
    const char *name = ls_list_name(list);
    int node = list_node(reading, list);
    if (node == LS_NO_NODE) {
        const ls_node *root = &reading->tree.node[LS_ROOT_NODE];
        ls_findings_add(reading->findings, LS_REJECT, name, root->line, root->column,
                        "missing; a list with at least one entry is needed");
        return;
    }
    ls_node *at = &reading->tree.node[node];
    at->known = 1;
    if (at->kind == LS_NODE_BROKEN) {
        return;
    }
    int is_empty = at->kind == LS_NODE_LIST ? at->items == 0 : at->kind == LS_NODE_SCALAR && at->text[0] == '\0';
    if (is_empty) {
        ls_reading_reject(reading, node, "the list is empty; at least one entry is needed");
    } else if (at->kind != LS_NODE_LIST) {
        ls_reading_reject(reading, node, "a list is needed here, each entry of it beginning with '- name: ...'");
    } else if (at->items > ls_list_capacity(list)) {
        ls_reading_reject(reading, element_node(reading, list, ls_list_capacity(list)),
                          "one entry too many: at most %d are allowed", ls_list_capacity(list));
    }
    if (at->kind != LS_NODE_LIST) {
        at->kind = LS_NODE_BROKEN;
        return;
    }
    int length = at->items;
    ls_list_set_length(&reading->aircraft, list,
                       length < ls_list_capacity(list) ? length : ls_list_capacity(list));
}

void ls_keys_lists(ls_reading *reading)
{
    check_list(reading, LS_LIST_FLAPS);
    check_list(reading, LS_LIST_POWERPLANTS);
    check_list(reading, LS_LIST_ENGINES);
}

/* Whether a choice of an element has been read or has its default; not when it is missing or was refused. */
static int is_settled(const ls_reading *reading, const char *path, int element)
{
    const ls_parameter *row = ls_parameter_row(path);
    return ls_mark_of_const(&reading->marks, row, element)->source != LS_SOURCE_ABSENT;
}

ls_applying ls_keys_applying(const ls_reading *reading, const ls_parameter *parameter, int element)
{
    if (parameter->applies == 0) {
        return LS_APPLIES;
    }
    if (ls_parameter_list(parameter) == LS_LIST_ENGINES ||
        !is_settled(reading, "powerplants[].engine.type", element)) {
        return LS_APPLIES_PERHAPS; /* which powerplant an engine has is settled at the end */
    }
    int is_jet = reading->aircraft.powerplant[element].engine.type == LS_ENGINE_JET;
    int by_propeller = (parameter->applies & (LS_FOR_COEFFICIENTS | LS_FOR_BLADE_ELEMENT)) != 0;
    if (by_propeller && !is_jet && !is_settled(reading, "powerplants[].propeller.kind", element)) {
        return LS_APPLIES_PERHAPS;
    }
    return ls_parameter_applies(&reading->aircraft, parameter, element) ? LS_APPLIES : LS_APPLIES_NOT;
}

int ls_keys_find(ls_reading *reading, const ls_parameter *parameter, int element, int *holder,
                 const char **missing)
{
    ls_tree *tree = &reading->tree;
    ls_list list = ls_parameter_list(parameter);
    const char *part = ls_parameter_tail(parameter);
    int at = list == LS_LIST_NONE ? LS_ROOT_NODE : element_node(reading, list, element);
    for (;;) {
        if (!must_be_block(reading, at)) {
            *holder = LS_NO_NODE;
            return LS_NO_NODE;
        }
        size_t length = strcspn(part, ".");
        int child = ls_tree_child(tree, at, part, length);
        *holder = at;
        *missing = part;
        if (child == LS_NO_NODE) {
            return LS_NO_NODE;
        }
        tree->node[child].known = 1;
        if (part[length] == '\0') {
            return child;
        }
        at = child;
        part += length + 1;
    }
}

/* Whether a key is required of this element for certain. */
static int is_needed(const ls_reading *reading, const ls_parameter *parameter, int element)
{
    return parameter->presence == LS_REQUIRED && ls_keys_applying(reading, parameter, element) == LS_APPLIES;
}

/* Lists the required keys within the block that the first length characters of a path name.
 * Returned: the first of them. */
static const ls_parameter *list_needed(const ls_reading *reading, const char *path, size_t length, int element,
                                       char *out, size_t size)
{
    const ls_parameter *first = NULL;
    const ls_parameter *row = reading->row;
    size_t used = 0;
    out[0] = '\0';
    for (int i = 0; i < reading->rows; i++) {
        int within = strncmp(row[i].path, path, length) == 0 && row[i].path[length] == '.';
        if (!within || !is_needed(reading, &row[i], element)) {
            continue;
        }
        if (used < size) {
            used += (size_t)snprintf(out + used, size - used, "%s%s", first != NULL ? ", " : "",
                                     row[i].path + length + 1);
        }
        first = first != NULL ? first : &row[i];
    }
    return first;
}

/* The path of a part that is missing in a block. */
static void missing_path(const ls_reading *reading, int holder, const char *missing, size_t length, char *out,
                         size_t size)
{
    ls_tree_path(&reading->tree, holder, out, size);
    size_t used = strlen(out);
    snprintf(out + used, size - used, "%s%.*s", used > 0 ? "." : "", (int)length, missing);
}

void ls_keys_missing(ls_reading *reading, const ls_parameter *parameter, int element, int holder,
                     const char *missing)
{
    const ls_node *at = &reading->tree.node[holder];
    char path[LS_FINDING_KEY], listed[LS_FINDING_TEXT / 2];
    size_t length = strcspn(missing, ".");
    missing_path(reading, holder, missing, length, path, sizeof path);
    if (missing[length] == '\0') {
        ls_findings_add(reading->findings, LS_REJECT, path, at->key_line, at->key_column, "missing%s",
                        holder == LS_ROOT_NODE ? "" : " in the block that starts here");
        return;
    }
    size_t before = (size_t)(missing - parameter->path) + length;
    if (list_needed(reading, parameter->path, before, element, listed, sizeof listed) == parameter) {
        ls_findings_add(reading->findings, LS_REJECT, path, at->key_line, at->key_column,
                        "this block is missing%s; it needs %s",
                        holder == LS_ROOT_NODE ? "" : " in the block that starts here", listed);
    }
}

int ls_keys_same_block(const ls_parameter *a, const ls_parameter *b)
{
    size_t length = (size_t)(strrchr(a->path, '.') != NULL ? strrchr(a->path, '.') - a->path : 0);
    const char *last = strrchr(b->path, '.');
    return length > 0 && last != NULL && (size_t)(last - b->path) == length &&
           strncmp(a->path, b->path, length) == 0;
}
