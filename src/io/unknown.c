/* Keys that the table does not know, and what was probably meant. */
#include "io/keys.h"

#include "airframe/path.h"
#include "liveside/text.h"

#include <stdio.h>
#include <string.h>

enum { NAMES = 64, NAME = 48 };

/* The names that a block allows. */
typedef struct {
    char text[NAMES][NAME];
    const char *name[NAMES];
    int count;
} allowed;

static void allow(allowed *names, const char *name, size_t length)
{
    for (int i = 0; i < names->count; i++) {
        if (strlen(names->text[i]) == length && strncmp(names->text[i], name, length) == 0) {
            return;
        }
    }
    if (names->count < NAMES && length < NAME) {
        snprintf(names->text[names->count], NAME, "%.*s", (int)length, name);
        names->name[names->count] = names->text[names->count];
        names->count++;
    }
}

/* Gathers the keys of the block whose path in the table is prefix, "flaps[].change." or "". */
static void gather(const ls_reading *reading, const char *prefix, allowed *names)
{
    const ls_parameter *row = reading->row;
    size_t length = strlen(prefix);
    names->count = 0;
    for (int i = 0; i < reading->rows; i++) {
        if (strncmp(row[i].path, prefix, length) == 0) {
            allow(names, row[i].path + length, strcspn(row[i].path + length, ".["));
        }
    }
    if (length == 0) {
        allow(names, "source", strlen("source"));
        allow(names, "uncertain", strlen("uncertain"));
    }
}

/* A path of the table that ends with this name, for a key that stands in the wrong block; or null. */
static const char *elsewhere(const ls_reading *reading, const char *key)
{
    const ls_parameter *row = reading->row;
    for (int i = 0; i < reading->rows; i++) {
        const char *last = strrchr(row[i].path, '.');
        if (last != NULL && strcmp(last + 1, key) == 0) {
            return row[i].path;
        }
    }
    return NULL;
}

/* Writes what may help: the nearest name, the block the key belongs to, or the names that are allowed. */
static void hint(const ls_reading *reading, const char *key, const allowed *names, char *out, size_t size)
{
    int nearest = ls_text_nearest(key, names->name, names->count);
    const char *other = elsewhere(reading, key);
    if (nearest >= 0) {
        snprintf(out, size, "did you mean '%s'?", names->name[nearest]);
        return;
    }
    if (other != NULL) {
        snprintf(out, size, "did you mean '%s'?", other);
        return;
    }
    size_t used = (size_t)snprintf(out, size, "the keys here are ");
    for (int i = 0; i < names->count && used < size; i++) {
        used += (size_t)snprintf(out + used, size - used, "%s%s", i > 0 ? ", " : "", names->name[i]);
    }
}

static void refuse(ls_reading *reading, int node, const char *prefix)
{
    const ls_node *at = &reading->tree.node[node];
    allowed names;
    char path[LS_FINDING_KEY], help[LS_FINDING_TEXT];
    gather(reading, prefix, &names);
    hint(reading, at->key, &names, help, sizeof help);
    ls_findings_add(reading->findings, LS_REJECT, ls_tree_path(&reading->tree, node, path, sizeof path),
                    at->key_line, at->key_column, "unknown key; %s", help);
}

static void walk(ls_reading *reading, int block, const char *prefix);

/* The entries of a list that are beyond its capacity were refused already. */
static void walk_list(ls_reading *reading, int list, const char *prefix, int length)
{
    const ls_node *node = reading->tree.node;
    for (int i = node[list].first; i != LS_NO_NODE && node[i].index < length; i = node[i].next) {
        if (node[i].kind == LS_NODE_MAP) {
            walk(reading, i, prefix);
        }
    }
}

static int list_capacity(const char *prefix)
{
    for (ls_list list = LS_LIST_FLAPS; list <= LS_LIST_ENGINES; list++) {
        if (strcmp(ls_list_name(list), prefix) == 0) {
            return ls_list_capacity(list);
        }
    }
    return 0;
}

/* Goes through the keys of a block. prefix: the block's path in the table with its last point, or "". */
static void walk(ls_reading *reading, int block, const char *prefix)
{
    const ls_tree *tree = &reading->tree;
    for (int i = tree->node[block].first; i != LS_NO_NODE; i = tree->node[i].next) {
        const ls_node *at = &tree->node[i];
        char path[LS_FINDING_KEY];
        if (ls_tree_child(tree, block, at->key, strlen(at->key)) != i) {
            continue; /* refused as a duplicate */
        }
        if (!at->known) {
            refuse(reading, i, prefix);
            continue;
        }
        if (at->kind == LS_NODE_MAP) {
            snprintf(path, sizeof path, "%s%s.", prefix, at->key);
            walk(reading, i, path);
        } else if (at->kind == LS_NODE_LIST && prefix[0] == '\0') {
            snprintf(path, sizeof path, "%s[].", at->key);
            walk_list(reading, i, path, list_capacity(at->key));
        }
    }
}

void ls_keys_unknown(ls_reading *reading)
{
    walk(reading, LS_ROOT_NODE, "");
}
