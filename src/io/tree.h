/* A YAML text as a tree: the only place that knows libyaml. The subset is blocks of keys, lists and scalars;
 * anchors, aliases, tags, directives, a second document and keys that are not words are refused. */
#ifndef LS_IO_TREE_H
#define LS_IO_TREE_H

#include "liveside/findings.h"

#include <stddef.h>

typedef enum {
    LS_NODE_SCALAR,
    LS_NODE_MAP,
    LS_NODE_LIST,
    LS_NODE_BROKEN /* refused already: nothing more is to be said of it */
} ls_node_kind;

typedef struct {
    ls_node_kind kind;
    int line, column;         /* of the value, from 1 */
    int key_line, key_column; /* of its key; those of the value in a list and for the root */
    char *key;                /* null in a list and for the root */
    char *text;               /* of a scalar; no control characters; else null */
    int parent, first, next;  /* nodes; LS_NO_NODE for none */
    int last;                 /* child, while the tree is built */
    int items;                /* how many children */
    int index;                /* among the children of its parent, from 0 */
    int known;                /* set by the reader of the tree: the key has a meaning */
} ls_node;

enum { LS_NO_NODE = -1, LS_ROOT_NODE = 0 };

typedef struct {
    ls_node *node;
    int count, capacity, keys;
} ls_tree;

/* Reads a text into a tree; the root is a map.
 * Given: tree, zero-initialised. Returned: tree, to be freed with ls_tree_free whatever the status.
 * Status: LS_OK (findings may hold rejects; the tree can be looked through for more); LS_FILE_REJECTED (a
 * finding says why the text cannot be read on); LS_MEMORY. */
ls_status ls_tree_read(const char *data, size_t size, ls_tree *tree, ls_findings *findings, ls_error *error);

void ls_tree_free(ls_tree *tree);

/* The child of a map by the first length characters of key, or LS_NO_NODE. */
int ls_tree_child(const ls_tree *tree, int map, const char *key, size_t length);

/* The path of a node, "flaps[2].lift_max"; "" for the root. Returned: out. */
const char *ls_tree_path(const ls_tree *tree, int node, char *out, size_t size);

#endif
