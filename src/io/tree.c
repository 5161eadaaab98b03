#include "io/tree.h"

#include "io/scan.h"

#include "liveside/reader.h"
#include "liveside/text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <yaml.h>

/* The state of one reading. */
typedef struct {
    ls_tree *tree;
    ls_findings *findings;
    ls_error *error;
    int open[LS_READ_DEPTH]; /* the maps and lists that are not ended yet, outermost first */
    int depth;
    char *key; /* of the value to come, within a map */
    int key_line, key_column;
} builder;

static int line_of(const yaml_event_t *event)
{
    return (int)event->start_mark.line + 1;
}

static int column_of(const yaml_event_t *event)
{
    return (int)event->start_mark.column + 1;
}

static ls_status out_of_memory(builder *b)
{
    return ls_fail(b->error, LS_MEMORY, "out of memory while reading the file");
}

static int innermost(const builder *b)
{
    return b->depth > 0 ? b->open[b->depth - 1] : LS_NO_NODE;
}

/* Adds a finding about the value that an event begins. */
static void complain(builder *b, const yaml_event_t *event, const char *text)
{
    char path[LS_FINDING_KEY] = "";
    if (innermost(b) != LS_NO_NODE) {
        ls_tree_path(b->tree, innermost(b), path, sizeof path);
    }
    if (b->key != NULL) {
        size_t used = strlen(path);
        snprintf(path + used, sizeof path - used, "%s%s", used > 0 ? "." : "", b->key);
    }
    ls_findings_add(b->findings, LS_REJECT, path, line_of(event), column_of(event), "%s", text);
}

static ls_status stop(builder *b, const yaml_event_t *event, const char *text)
{
    complain(b, event, text);
    return LS_FILE_REJECTED;
}

static void link_node(ls_tree *tree, int parent, int added)
{
    ls_node *node = &tree->node[added];
    ls_node *above = &tree->node[parent];
    node->index = above->items++;
    if (above->first == LS_NO_NODE) {
        above->first = added;
    } else {
        tree->node[above->last].next = added;
    }
    above->last = added;
}

static ls_status make_room(builder *b)
{
    ls_tree *tree = b->tree;
    if (tree->count < tree->capacity) {
        return LS_OK;
    }
    int capacity = tree->capacity == 0 ? 256 : tree->capacity * 2;
    ls_node *node = realloc(tree->node, (size_t)capacity * sizeof *node);
    if (node == NULL) {
        return out_of_memory(b);
    }
    tree->node = node;
    tree->capacity = capacity;
    return LS_OK;
}

/* Adds a node for the value that an event begins; the waiting key becomes its own. */
static ls_status add_node(builder *b, const yaml_event_t *event, ls_node_kind kind, char *text)
{
    if (b->tree->count == LS_READ_VALUES) {
        free(text);
        return stop(b, event, "the file holds too many values");
    }
    ls_status status = make_room(b);
    if (status != LS_OK) {
        free(text);
        return status;
    }
    int has_key = b->key != NULL;
    int added = b->tree->count++;
    b->tree->node[added] = (ls_node){
        .kind = kind,
        .line = line_of(event),
        .column = column_of(event),
        .key_line = has_key ? b->key_line : line_of(event),
        .key_column = has_key ? b->key_column : column_of(event),
        .key = b->key,
        .text = text,
        .parent = innermost(b),
        .first = LS_NO_NODE,
        .next = LS_NO_NODE,
        .last = LS_NO_NODE,
    };
    b->key = NULL;
    if (b->depth > 0) {
        link_node(b->tree, innermost(b), added);
    }
    return LS_OK;
}

/* Says what an unsafe character in a scalar is. YAML escapes smuggle them in, so that only the place where the
 * scalar starts is sure. */
static void complain_unsafe(builder *b, const yaml_event_t *event, long offset)
{
    char text[LS_FINDING_TEXT];
    char name[LS_CHARACTER_NAME];
    const char *value = (const char *)event->data.scalar.value;
    ls_scan_name(value + offset, event->data.scalar.length - (size_t)offset, name);
    snprintf(text, sizeof text, "the text that starts here holds %s as its character %d; write it without", name,
             ls_scan_characters(value, (size_t)offset) + 1);
    complain(b, event, text);
}

/* Takes a scalar as the key of the value to come. A second key of the same name is refused, and its value too. */
static ls_status take_key(builder *b, const yaml_event_t *event, char *text)
{
    int twin = ls_tree_child(b->tree, innermost(b), text, strlen(text));
    b->key = text;
    b->key_line = line_of(event);
    b->key_column = column_of(event);
    if (++b->tree->keys > LS_READ_KEYS) {
        return stop(b, event, "the file holds too many keys");
    }
    if (twin != LS_NO_NODE) {
        char message[LS_FINDING_TEXT];
        snprintf(message, sizeof message, "given twice; the first time on line %d", b->tree->node[twin].key_line);
        complain(b, event, message);
    }
    return LS_OK;
}

static int wants_key(const builder *b)
{
    return b->depth > 0 && b->tree->node[innermost(b)].kind == LS_NODE_MAP && b->key == NULL;
}

static int has_properties(const yaml_char_t *anchor, const yaml_char_t *tag)
{
    return anchor != NULL || tag != NULL;
}

static const char *const properties_text =
    "anchors (&) and tags (!) are not used in this file; put quotes round a text that starts with one";

static ls_status take_scalar(builder *b, const yaml_event_t *event)
{
    const char *value = (const char *)event->data.scalar.value;
    size_t length = event->data.scalar.length;
    int is_key = wants_key(b);
    ls_node_kind kind = LS_NODE_SCALAR;
    long unsafe = ls_text_find_unsafe(value, length);
    if (has_properties(event->data.scalar.anchor, event->data.scalar.tag)) {
        complain(b, event, properties_text);
        kind = LS_NODE_BROKEN;
    } else if (unsafe >= 0) {
        complain_unsafe(b, event, unsafe);
        kind = LS_NODE_BROKEN;
    }
    if (is_key && kind == LS_NODE_BROKEN) {
        return LS_FILE_REJECTED;
    }
    char *text = malloc(length + 1);
    if (text == NULL) {
        return out_of_memory(b);
    }
    memcpy(text, value, length);
    text[length] = '\0';
    return is_key ? take_key(b, event, text) : add_node(b, event, kind, text);
}

static ls_status take_start(builder *b, const yaml_event_t *event, ls_node_kind kind, const yaml_char_t *anchor,
                            const yaml_char_t *tag)
{
    if (wants_key(b)) {
        return stop(b, event, "a key must be a word");
    }
    if (b->depth == LS_READ_DEPTH) {
        return stop(b, event, "blocks and lists are nested too deeply");
    }
    if (b->depth == 0 && kind != LS_NODE_MAP) {
        return stop(b, event, "an aeroplane file starts with keys, such as 'name: ...'");
    }
    if (has_properties(anchor, tag)) {
        complain(b, event, properties_text);
    }
    ls_status status = add_node(b, event, kind, NULL);
    if (status == LS_OK) {
        b->open[b->depth++] = b->tree->count - 1;
    }
    return status;
}

static ls_status take_document(builder *b, const yaml_event_t *event)
{
    if (b->tree->count > 0) {
        return stop(b, event, "a second document starts here; one file holds one aeroplane");
    }
    if (event->data.document_start.version_directive != NULL ||
        event->data.document_start.tag_directives.start != event->data.document_start.tag_directives.end) {
        return stop(b, event, "directives (%) are not used in this file");
    }
    return LS_OK;
}

static ls_status take_alias(builder *b, const yaml_event_t *event)
{
    if (wants_key(b)) {
        return stop(b, event, "aliases (*) are not used in this file");
    }
    complain(b, event, "aliases (*) are not used in this file; write the value out");
    return add_node(b, event, LS_NODE_BROKEN, NULL);
}

static ls_status take_event(builder *b, const yaml_event_t *event)
{
    switch (event->type) {
    case YAML_DOCUMENT_START_EVENT:
        return take_document(b, event);
    case YAML_ALIAS_EVENT:
        return take_alias(b, event);
    case YAML_SCALAR_EVENT:
        return b->depth > 0 || event->data.scalar.length == 0
                   ? take_scalar(b, event)
                   : stop(b, event, "an aeroplane file starts with keys, such as 'name: ...'");
    case YAML_SEQUENCE_START_EVENT:
        return take_start(b, event, LS_NODE_LIST, event->data.sequence_start.anchor,
                          event->data.sequence_start.tag);
    case YAML_MAPPING_START_EVENT:
        return take_start(b, event, LS_NODE_MAP, event->data.mapping_start.anchor, event->data.mapping_start.tag);
    case YAML_SEQUENCE_END_EVENT:
    case YAML_MAPPING_END_EVENT:
        b->depth--;
        return LS_OK;
    default:
        return LS_OK;
    }
}

static ls_status explain(builder *b, const yaml_parser_t *parser)
{
    if (parser->error == YAML_MEMORY_ERROR) {
        return out_of_memory(b);
    }
    ls_findings_add(b->findings, LS_REJECT, NULL, (int)parser->problem_mark.line + 1,
                    (int)parser->problem_mark.column + 1, "this is not the form of an aeroplane file: %s%s%s",
                    parser->problem != NULL ? parser->problem : "it cannot be read",
                    parser->context != NULL ? " " : "", parser->context != NULL ? parser->context : "");
    return LS_FILE_REJECTED;
}

static ls_status take_events(builder *b, yaml_parser_t *parser)
{
    for (;;) {
        yaml_event_t event;
        if (!yaml_parser_parse(parser, &event)) {
            return explain(b, parser);
        }
        yaml_event_type_t type = event.type;
        ls_status status = take_event(b, &event);
        yaml_event_delete(&event);
        if (status != LS_OK || type == YAML_STREAM_END_EVENT) {
            return status;
        }
    }
}

static ls_status build(builder *b, const char *data, size_t size)
{
    yaml_parser_t parser;
    if (!yaml_parser_initialize(&parser)) {
        return out_of_memory(b);
    }
    yaml_parser_set_encoding(&parser, YAML_UTF8_ENCODING);
    yaml_parser_set_input_string(&parser, (const unsigned char *)data, size);
    ls_status status = take_events(b, &parser);
    yaml_parser_delete(&parser);
    free(b->key);
    return status;
}

ls_status ls_tree_read(const char *data, size_t size, ls_tree *tree, ls_findings *findings, ls_error *error)
{
    builder b = {.tree = tree, .findings = findings, .error = error};
    size_t mark = ls_scan_mark(data, size);
    if (!ls_scan_text(data + mark, size - mark, findings)) {
        return LS_FILE_REJECTED;
    }
    ls_status status = build(&b, data + mark, size - mark);
    if (status == LS_OK && (tree->count == 0 || tree->node[LS_ROOT_NODE].kind != LS_NODE_MAP)) {
        ls_findings_add(findings, LS_REJECT, NULL, 1, 1, "the file holds no keys");
        return LS_FILE_REJECTED;
    }
    return status;
}

void ls_tree_free(ls_tree *tree)
{
    for (int i = 0; i < tree->count; i++) {
        free(tree->node[i].key);
        free(tree->node[i].text);
    }
    free(tree->node);
    *tree = (ls_tree){0};
}

int ls_tree_child(const ls_tree *tree, int map, const char *key, size_t length)
{
    for (int i = tree->node[map].first; i != LS_NO_NODE; i = tree->node[i].next) {
        const char *name = tree->node[i].key;
        if (name != NULL && strncmp(name, key, length) == 0 && name[length] == '\0') {
            return i;
        }
    }
    return LS_NO_NODE;
}

const char *ls_tree_path(const ls_tree *tree, int node, char *out, size_t size)
{
    int chain[LS_READ_DEPTH + 1];
    int length = 0;
    for (int i = node; i != LS_ROOT_NODE; i = tree->node[i].parent) {
        chain[length++] = i;
    }
    size_t used = 0;
    out[0] = '\0';
    while (length-- > 0 && used < size) {
        const ls_node *at = &tree->node[chain[length]];
        used += at->key != NULL ? (size_t)snprintf(out + used, size - used, "%s%s", used > 0 ? "." : "", at->key)
                                : (size_t)snprintf(out + used, size - used, "[%d]", at->index + 1);
    }
    return out;
}
