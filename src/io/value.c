#include "io/value.h"

#include "io/format.h"

#include "airframe/path.h"
#include "liveside/reader.h"
#include "liveside/text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define SOURCE_WORDS "measured|published|estimated|assumed"

/* One value being read: its key, and where it goes. */
typedef struct {
    const ls_parameter *parameter;
    void *to;
    int value, source, spread, shape; /* nodes; all but value may be LS_NO_NODE */
} wanted;

void ls_reading_reject(ls_reading *reading, int node, const char *format, ...)
{
    char path[LS_FINDING_KEY];
    char text[LS_FINDING_TEXT];
    const ls_node *at = &reading->tree.node[node];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    ls_findings_add(reading->findings, LS_REJECT, ls_tree_path(&reading->tree, node, path, sizeof path), at->line,
                    at->column, "%s", text);
}

const char *ls_reading_show(const char *text, char out[LS_SHOWN_TEXT])
{
    ls_text_for_terminal(text, out, LS_SHOWN_TEXT);
    return out;
}

/* The text of a node that must be a scalar, or null with a finding. An empty scalar has no value. */
const char *ls_value_text(ls_reading *reading, int node, const char *needed)
{
    const ls_node *at = &reading->tree.node[node];
    if (at->kind == LS_NODE_BROKEN) {
        return NULL;
    }
    if (at->kind != LS_NODE_SCALAR) {
        ls_reading_reject(reading, node, "%s is needed here, not a %s", needed,
                          at->kind == LS_NODE_MAP ? "block of keys" : "list");
        return NULL;
    }
    if (at->text[0] == '\0') {
        ls_reading_reject(reading, node, "no value is given; %s is needed", needed);
        return NULL;
    }
    return at->text;
}

/* Reads a number of a dimension from a scalar. Returned: 1 and si; 0 with a finding or, out of memory, with the
 * error. */
int ls_value_number(ls_reading *reading, int node, ls_dimension dimension, double *si)
{
    const char *text = ls_value_text(reading, node, ls_dimension_text(dimension));
    if (text == NULL) {
        return 0;
    }
    ls_error error = {0};
    if (ls_units_parse(text, dimension, si, &error) == LS_OK) {
        return 1;
    }
    if (error.status == LS_MEMORY) {
        ls_fail(reading->error, LS_MEMORY, "%s", error.text);
    } else {
        ls_reading_reject(reading, node, "%s", error.text);
    }
    return 0;
}

/* A number of the key's dimension within its range. */
static int ranged(ls_reading *reading, const ls_parameter *parameter, int node, double *si)
{
    double value;
    if (!ls_value_number(reading, node, parameter->dimension, &value)) {
        return 0;
    }
    /* A limit written in another unit than the table's may miss it by rounding. */
    double slack = 1e-12 * fabs(value);
    if (value < parameter->low - slack || value > parameter->high + slack) {
        char shown[LS_SHOWN_TEXT], range[LS_RANGE_TEXT];
        const char *text = reading->tree.node[node].text;
        ls_range_text(parameter->low, parameter->high, ls_unit_written(text, parameter->dimension), range);
        ls_reading_reject(reading, node, "'%s' is out of range: %s is allowed", ls_reading_show(text, shown),
                          range);
        return 0;
    }
    *si = value;
    return 1;
}

/* One row [x, y] of a curve. */
static int row(ls_reading *reading, const ls_parameter *parameter, int node, double *x, double *y)
{
    const ls_node *at = &reading->tree.node[node];
    if (at->kind == LS_NODE_BROKEN) {
        return 0;
    }
    if (at->kind != LS_NODE_LIST || at->items != 2) {
        ls_reading_reject(reading, node, "a row has two values, [%s, %s]", ls_dimension_text(parameter->argument),
                          ls_dimension_text(parameter->dimension));
        return 0;
    }
    int first = at->first;
    int second = reading->tree.node[first].next;
    int has_x = ls_value_number(reading, first, parameter->argument, x);
    return ranged(reading, parameter, second, y) && has_x;
}

static int read_rows(ls_reading *reading, const ls_parameter *parameter, int list, ls_curve *curve)
{
    int good = 1;
    double last = -INFINITY;
    const ls_node *node = reading->tree.node;
    for (int i = node[list].first; i != LS_NO_NODE; i = node[i].next) {
        double x, y;
        if (!row(reading, parameter, i, &x, &y)) {
            good = 0;
            continue;
        }
        if (x <= last) {
            ls_reading_reject(reading, i, "the first column must rise from row to row");
            good = 0;
        }
        last = x;
        curve->x[curve->rows] = x;
        curve->y[curve->rows++] = y;
    }
    return good;
}

static int read_curve(ls_reading *reading, const wanted *w)
{
    const ls_node *at = &reading->tree.node[w->value];
    if (at->kind == LS_NODE_BROKEN) {
        return 0;
    }
    if (at->kind != LS_NODE_LIST) {
        ls_reading_reject(reading, w->value, "a list of rows is needed, such as [[%s], [%s]]", "x1, y1", "x2, y2");
        return 0;
    }
    if (at->items < 2 || at->items > LS_CURVE_MAX) {
        ls_reading_reject(reading, w->value, "a table has 2 to %d rows; this one has %d", (int)LS_CURVE_MAX,
                          at->items);
        return 0;
    }
    ls_curve curve = {0};
    if (!read_rows(reading, w->parameter, w->value, &curve)) {
        return 0;
    }
    *(ls_curve *)w->to = curve;
    return 1;
}

static int read_text(ls_reading *reading, const wanted *w)
{
    size_t size = strcmp(w->parameter->path, "note") == 0 ? LS_NOTE_SIZE : LS_NAME_SIZE;
    const char *text = ls_value_text(reading, w->value, "a text");
    if (text == NULL) {
        return 0;
    }
    if (strlen(text) >= size) {
        ls_reading_reject(reading, w->value, "the text has %zu bytes; at most %zu are kept", strlen(text),
                          size - 1);
        return 0;
    }
    memcpy(w->to, text, strlen(text) + 1);
    return 1;
}

/* "a, b or c" from "a|b|c". */
static void list_choices(const char *choices, char *out, size_t size)
{
    char word[LS_NUMBER_TEXT], after[LS_NUMBER_TEXT];
    size_t used = 0;
    out[0] = '\0';
    for (int i = 0; *ls_choice_word(choices, i, word) != '\0' && used < size; i++) {
        int is_last = *ls_choice_word(choices, i + 1, after) == '\0';
        used += (size_t)snprintf(out + used, size - used, "%s%s", i == 0 ? "" : is_last ? " or " : ", ", word);
    }
}

/* The index of the word at a node in a list, or -1 with a finding. */
int ls_value_word(ls_reading *reading, int node, const char *choices)
{
    char listed[LS_FINDING_TEXT / 2], shown[LS_SHOWN_TEXT];
    list_choices(choices, listed, sizeof listed);
    const char *text = ls_value_text(reading, node, listed);
    int index = text != NULL ? ls_choice_find(choices, text) : -1;
    if (text != NULL && index < 0) {
        ls_reading_reject(reading, node, "'%s' is not one of %s", ls_reading_show(text, shown), listed);
    }
    return index;
}

static int read_choice(ls_reading *reading, const wanted *w)
{
    int index = ls_value_word(reading, w->value, w->parameter->choices);
    if (index >= 0) {
        *(int *)w->to = index;
    }
    return index >= 0;
}

static int read_number(ls_reading *reading, const wanted *w)
{
    return ranged(reading, w->parameter, w->value, w->to);
}

static int read_kind(ls_reading *reading, const wanted *w)
{
    switch (w->parameter->kind) {
    case LS_KEY_NUMBER:
        return read_number(reading, w);
    case LS_KEY_TEXT:
        return read_text(reading, w);
    case LS_KEY_CHOICE:
        return read_choice(reading, w);
    case LS_KEY_CURVE:
        return read_curve(reading, w);
    }
    return 0;
}

ls_source ls_value_source(ls_reading *reading, int node)
{
    int index = ls_value_word(reading, node, SOURCE_WORDS);
    return index >= 0 ? (ls_source)(LS_SOURCE_MEASURED + index) : LS_SOURCE_ABSENT;
}

static int ends_with_percent(const char *text)
{
    size_t length = strlen(text);
    while (length > 0 && text[length - 1] == ' ') {
        length--;
    }
    return length > 0 && text[length - 1] == '%';
}

/* The dimension in which the spread of a value is written. */
static ls_dimension spread_dimension(const ls_parameter *parameter, const char *text)
{
    if (parameter->kind == LS_KEY_CURVE || ends_with_percent(text)) {
        return LS_DIM_FRACTION;
    }
    return parameter->dimension == LS_DIM_TEMPERATURE ? LS_DIM_TEMPERATURE_DIFFERENCE : parameter->dimension;
}

/* A spread in per cent is of the value; that of a fraction is in the fraction's own points, and that of a curve
 * stays a share of each row. */
static int read_spread(ls_reading *reading, const wanted *w, double *spread)
{
    const ls_parameter *parameter = w->parameter;
    double read;
    if (parameter->kind == LS_KEY_TEXT || parameter->kind == LS_KEY_CHOICE) {
        ls_reading_reject(reading, w->spread, "a word has no spread");
        return 0;
    }
    const char *text = ls_value_text(reading, w->spread, "a spread");
    if (text == NULL) {
        return 0;
    }
    ls_dimension dimension = spread_dimension(parameter, text);
    if (!ls_value_number(reading, w->spread, dimension, &read)) {
        return 0;
    }
    if (read < 0.0) {
        ls_reading_reject(reading, w->spread, "a spread is not negative");
        return 0;
    }
    int is_share = dimension == LS_DIM_FRACTION && parameter->dimension != LS_DIM_FRACTION;
    *spread = is_share && parameter->kind == LS_KEY_NUMBER ? read * fabs(*(double *)w->to) : read;
    return 1;
}

static void read_shape(ls_reading *reading, const wanted *w, ls_shape *shape)
{
    int index = ls_value_word(reading, w->shape, LS_SHAPE_WORDS);
    if (index >= 0 && w->spread == LS_NO_NODE) {
        ls_reading_reject(reading, w->shape, "a shape belongs to a spread; give 'spread' too");
    }
    *shape = index >= 0 ? (ls_shape)index : LS_SHAPE_NORMAL;
}

/* Takes a map {value, source, spread, shape} apart. Returned: 0 when it holds no value. */
static int unwrap(ls_reading *reading, int node, wanted *w)
{
    ls_tree *tree = &reading->tree;
    w->value = ls_tree_child(tree, node, "value", strlen("value"));
    w->source = ls_tree_child(tree, node, "source", strlen("source"));
    w->spread = ls_tree_child(tree, node, "spread", strlen("spread"));
    w->shape = ls_tree_child(tree, node, "shape", strlen("shape"));
    for (int i = tree->node[node].first; i != LS_NO_NODE; i = tree->node[i].next) {
        int known = ls_tree_child(tree, node, tree->node[i].key, strlen(tree->node[i].key)) != i ||
                    i == w->value || i == w->source || i == w->spread || i == w->shape;
        tree->node[i].known = 1;
        if (!known) {
            const ls_node *at = &tree->node[i];
            char path[LS_FINDING_KEY];
            ls_findings_add(reading->findings, LS_REJECT, ls_tree_path(tree, i, path, sizeof path), at->key_line,
                            at->key_column,
                            "unknown key; beside a value stand only 'value', 'source', 'spread' and 'shape'");
        }
    }
    if (w->value == LS_NO_NODE) {
        ls_reading_reject(reading, node, "'value' is missing in this block");
    }
    return w->value != LS_NO_NODE;
}

ls_mark *ls_reading_mark(const ls_reading *reading, const ls_parameter *parameter, int element)
{
    ls_mark *mark = reading->mark;
    for (const ls_parameter *before = reading->row; before != parameter; before++) {
        mark += ls_list_capacity(ls_parameter_list(before));
    }
    return mark + element;
}

static void *value_of(const ls_reading *reading, const ls_parameter *parameter, int element)
{
    return (char *)reading->record + parameter->offset +
           (size_t)element * ls_list_stride(ls_parameter_list(parameter));
}

ls_status ls_value_read(ls_reading *reading, const ls_parameter *parameter, int element, int node)
{
    wanted w = {.parameter = parameter,
                .to = value_of(reading, parameter, element),
                .value = node,
                .source = LS_NO_NODE,
                .spread = LS_NO_NODE,
                .shape = LS_NO_NODE};
    int is_word = parameter->kind == LS_KEY_TEXT || parameter->kind == LS_KEY_CHOICE;
    ls_mark mark = {.source = is_word ? LS_SOURCE_GIVEN : reading->source};
    int good = reading->tree.node[node].kind != LS_NODE_MAP || unwrap(reading, node, &w);
    good = good && read_kind(reading, &w);
    if (w.source != LS_NO_NODE) {
        mark.source = ls_value_source(reading, w.source);
    }
    if (good && w.spread != LS_NO_NODE) {
        read_spread(reading, &w, &mark.spread);
    }
    if (w.shape != LS_NO_NODE) {
        read_shape(reading, &w, &mark.shape);
    }
    const ls_node *at = &reading->tree.node[w.value != LS_NO_NODE ? w.value : node];
    mark.line = at->line;
    mark.column = at->column;
    mark.source = good ? mark.source : LS_SOURCE_ABSENT;
    *ls_reading_mark(reading, parameter, element) = mark;
    return reading->error->status == LS_MEMORY ? LS_MEMORY : LS_OK;
}
