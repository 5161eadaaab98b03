#include "io/uncertain.h"

#include "airframe/path.h"

#include <math.h>
#include <string.h>

/* Marks everything under a node as known: faults are found here. */
static void know(ls_tree *tree, int node)
{
    for (int i = tree->node[node].first; i != LS_NO_NODE; i = tree->node[i].next) {
        tree->node[i].known = 1;
        know(tree, i);
    }
}

/* Refuses the keys of a map that are not among the given ones. */
static void only(ls_reading *reading, int map, const char *first, const char *second)
{
    const ls_tree *tree = &reading->tree;
    for (int i = tree->node[map].first; i != LS_NO_NODE; i = tree->node[i].next) {
        const char *key = tree->node[i].key;
        if (strcmp(key, first) != 0 && (second == NULL || strcmp(key, second) != 0)) {
            ls_reading_reject(reading, i, "unknown key; here stands only '%s'%s%s%s", first,
                              second != NULL ? " and '" : "", second != NULL ? second : "",
                              second != NULL ? "'" : "");
        }
    }
}

static int is_kind(ls_reading *reading, int node, ls_node_kind kind, const char *needed)
{
    if (reading->tree.node[node].kind == kind) {
        return 1;
    }
    if (reading->tree.node[node].kind != LS_NODE_BROKEN) {
        ls_reading_reject(reading, node, "%s", needed);
    }
    return 0;
}

/* One of the two paths: it must name a value that has a spread. */
static int read_path(ls_reading *reading, int node, const ls_parameter **parameter, int *element)
{
    ls_error why = {0};
    const char *text = ls_value_text(reading, node, "the path of a value");
    if (text == NULL) {
        return 0;
    }
    *parameter = ls_parameter_find(&reading->aircraft, text, element, &why);
    if (*parameter == NULL) {
        ls_reading_reject(reading, node, "%s", why.text);
        return 0;
    }
    if (!(ls_mark_of(&reading->marks, *parameter, *element)->spread > 0.0)) {
        char shown[LS_SHOWN_TEXT];
        ls_reading_reject(reading, node, "'%s' has no spread; a correlation is between two values that have one",
                          ls_reading_show(text, shown));
        return 0;
    }
    return 1;
}

static int is_repeated(const ls_marks *marks, const ls_correlation *c)
{
    for (int i = 0; i < marks->correlations; i++) {
        const ls_correlation *other = &marks->correlation[i];
        for (int k = 0; k < 2; k++) {
            if (c->parameter[0] == other->parameter[k] && c->element[0] == other->element[k] &&
                c->parameter[1] == other->parameter[1 - k] && c->element[1] == other->element[1 - k]) {
                return 1;
            }
        }
    }
    return 0;
}

static int read_pair(ls_reading *reading, int node, ls_correlation *c)
{
    const ls_node *at = &reading->tree.node[node];
    if (!is_kind(reading, node, LS_NODE_LIST, "two paths are needed here: [PATH, PATH]")) {
        return 0;
    }
    if (at->items != 2) {
        ls_reading_reject(reading, node, "two paths are needed here, not %d", at->items);
        return 0;
    }
    int good = read_path(reading, at->first, &c->parameter[0], &c->element[0]);
    good &= read_path(reading, reading->tree.node[at->first].next, &c->parameter[1], &c->element[1]);
    if (good && c->parameter[0] == c->parameter[1] && c->element[0] == c->element[1]) {
        ls_reading_reject(reading, node, "a value goes together with itself anyway");
        return 0;
    }
    return good;
}

static void read_correlation(ls_reading *reading, int node)
{
    ls_tree *tree = &reading->tree;
    ls_correlation c = {.coefficient = NAN};
    if (!is_kind(reading, node, LS_NODE_MAP, "a correlation is {between: [PATH, PATH], coefficient: NUMBER}")) {
        return;
    }
    only(reading, node, "between", "coefficient");
    int between = ls_tree_child(tree, node, "between", strlen("between"));
    int coefficient = ls_tree_child(tree, node, "coefficient", strlen("coefficient"));
    if (between == LS_NO_NODE || coefficient == LS_NO_NODE) {
        ls_reading_reject(reading, node, "'%s' is missing in this block",
                          between == LS_NO_NODE ? "between" : "coefficient");
        return;
    }
    int good = read_pair(reading, between, &c);
    if (!ls_value_number(reading, coefficient, LS_DIM_NUMBER, &c.coefficient)) {
        return;
    }
    if (!(fabs(c.coefficient) < 1.0)) {
        ls_reading_reject(reading, coefficient, "a correlation lies between -1 and 1, both excluded");
    } else if (good && is_repeated(&reading->marks, &c)) {
        ls_reading_reject(reading, between, "the correlation of these two is given already");
    } else if (good && reading->marks.correlations == LS_CORRELATIONS_MAX) {
        ls_reading_reject(reading, node, "one correlation too many: at most %d are allowed", LS_CORRELATIONS_MAX);
    } else if (good) {
        reading->marks.correlation[reading->marks.correlations++] = c;
    }
}

void ls_uncertain_read(ls_reading *reading)
{
    ls_tree *tree = &reading->tree;
    int block = ls_tree_child(tree, LS_ROOT_NODE, "uncertain", strlen("uncertain"));
    if (block == LS_NO_NODE) {
        return;
    }
    tree->node[block].known = 1;
    know(tree, block);
    if (!is_kind(reading, block, LS_NODE_MAP, "a block of keys is needed here")) {
        return;
    }
    only(reading, block, "correlations", NULL);
    int list = ls_tree_child(tree, block, "correlations", strlen("correlations"));
    if (list == LS_NO_NODE || !is_kind(reading, list, LS_NODE_LIST, "a list of correlations is needed here")) {
        return;
    }
    for (int i = tree->node[list].first; i != LS_NO_NODE; i = tree->node[i].next) {
        read_correlation(reading, i);
    }
}
