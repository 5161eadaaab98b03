#include "report/internal.h"

#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { KEY_TEXT = 128 };

/* Sets a member and takes the value; 0 when there was no memory for either. */
static int put(json_t *object, const char *key, json_t *value)
{
    return value != NULL && json_object_set_new(object, key, value) == 0;
}

/* A string without control characters; null without memory. */
static json_t *make_words(const char *text)
{
    char *safe = ls_text_safe(text);
    json_t *value = safe != NULL ? json_string(safe) : NULL;
    free(safe);
    return value;
}

static json_t *make_number(double value)
{
    return isfinite(value) ? json_real(value + 0.0) : json_null();
}

/* The object that a dotted path ends in, made on the way, and the last word of the path. Null without memory. */
static json_t *descend(json_t *object, const char *path, const char **last)
{
    const char *dot;
    while (object != NULL && (dot = strchr(path, '.')) != NULL) {
        char key[KEY_TEXT];
        snprintf(key, sizeof key, "%.*s", (int)(dot - path), path);
        json_t *inner = json_object_get(object, key);
        if (inner == NULL && !put(object, key, json_object())) {
            return NULL;
        }
        object = json_object_get(object, key);
        path = dot + 1;
    }
    *last = path;
    return object;
}

static int put_number(json_t *object, const char *key, const ls_unit *unit, double si, const char *reason)
{
    char name[KEY_TEXT], reason_name[KEY_TEXT];
    ls_key_with_unit(key, unit, name, sizeof name);
    double value = ls_unit_from_si(unit, si);
    int done = put(object, name, make_number(value));
    if (!isfinite(value) && reason != NULL) {
        snprintf(reason_name, sizeof reason_name, "%s_reason", key);
        done = done && put(object, reason_name, make_words(reason));
    }
    return done;
}

static int put_value(json_t *root, const ls_block *block, ls_unit_system system)
{
    const char *key = NULL;
    json_t *object = descend(root, block->path, &key);
    if (object == NULL) {
        return 0;
    }
    switch (block->kind) {
    case LS_BLOCK_NUMBER:
        return put_number(object, key, ls_unit_shown(system, block->dimension, block->unit), block->number,
                          block->text != NULL ? block->text : "not a finite number");
    case LS_BLOCK_WORDS:
        return put(object, key, make_words(block->text));
    case LS_BLOCK_FLAG:
        return put(object, key, json_boolean(block->number != 0));
    case LS_BLOCK_LINE:
    case LS_BLOCK_ANSWER:
    case LS_BLOCK_FACT:
    case LS_BLOCK_HINT:
    case LS_BLOCK_WARNING:
    case LS_BLOCK_TABLE:
        break;
    }
    return 1;
}

static int has_reasons(const ls_table *table)
{
    for (int i = 0; i < table->columns; i++) {
        if (strcmp(table->column[i].key, "reason") == 0) {
            return 1;
        }
    }
    return 0;
}

static json_t *make_row(const ls_table *table, size_t row, ls_unit_system system)
{
    json_t *object = json_object();
    const char *reason = has_reasons(table) ? NULL : "no value here";
    int done = object != NULL;
    for (int i = 0; i < table->columns && done; i++) {
        const ls_column *column = &table->column[i];
        const ls_cell *cell = ls_table_cell(table, row, i);
        if (!(column->where & LS_IN_JSON)) {
            continue;
        }
        if (column->dimension != LS_WORDS) {
            done = put_number(object, column->key, ls_column_unit(column, system), cell->number, reason);
        } else {
            done = put(object, column->key, cell->words != NULL ? make_words(cell->words) : json_null());
        }
    }
    if (!done) {
        json_decref(object);
        return NULL;
    }
    return object;
}

static int put_table(json_t *root, const ls_table *table, ls_unit_system system)
{
    json_t *rows = json_array();
    if (!put(root, table->key, rows)) {
        return 0;
    }
    for (size_t row = 0; row < table->rows; row++) {
        if (json_array_append_new(rows, make_row(table, row, system)) != 0) {
            return 0;
        }
    }
    return 1;
}

static int put_inputs(json_t *root, const ls_run *run)
{
    json_t *inputs = json_array();
    if (!put(root, "inputs", inputs)) {
        return 0;
    }
    for (int i = 0; i < run->inputs; i++) {
        json_t *input = json_object();
        if (json_array_append_new(inputs, input) != 0 || !put(input, "name", make_words(run->input[i].name)) ||
            !put(input, "sha256", make_words(run->input[i].sha256))) {
            return 0;
        }
    }
    return 1;
}

static int put_run(json_t *root, const ls_run *run)
{
    static const char *const system[LS_UNITS_COUNT] = {"us", "metric", "si"};
    return put(root, "program", json_string("liveside")) && put(root, "version", json_string(LS_VERSION)) &&
           put(root, "caution", json_string(LS_CAUTION)) &&
           put(root, "command_line", make_words(run->command_line)) && put_inputs(root, run) &&
           put(root, "units", json_string(system[run->units])) &&
           (run->condition == NULL || put(root, "condition", make_words(run->condition)));
}

static int put_warnings(json_t *root, const ls_report *report)
{
    json_t *warnings = json_array();
    int done = put(root, "warnings", warnings);
    for (size_t i = 0; i < report->blocks && done; i++) {
        if (report->block[i].kind == LS_BLOCK_WARNING) {
            done = json_array_append_new(warnings, make_words(report->block[i].text)) == 0;
        }
    }
    return done;
}

static int put_all(json_t *root, const ls_report *report, const ls_run *run, int with_tables)
{
    if (root == NULL || !put_run(root, run) || !put_warnings(root, report)) {
        return 0;
    }
    for (size_t i = 0; i < report->blocks; i++) {
        const ls_block *block = &report->block[i];
        if (block->path != NULL && !put_value(root, block, run->units)) {
            return 0;
        }
        int wanted = with_tables && block->kind == LS_BLOCK_TABLE && (block->table->where & LS_IN_JSON);
        if (wanted && !put_table(root, block->table, run->units)) {
            return 0;
        }
    }
    return 1;
}

ls_status ls_report_write_json(const ls_report *report, const ls_run *run, int with_tables, FILE *stream,
                               ls_error *error)
{
    ls_status status = LS_OK;
    json_t *root = json_object();
    if (!put_all(root, report, run, with_tables)) {
        status = ls_fail(error, LS_MEMORY, "out of memory while writing JSON");
    } else if (json_dumpf(root, stream, JSON_INDENT(2)) != 0 && !ferror(stream)) {
        status = ls_fail(error, LS_MEMORY, "out of memory while writing JSON");
    }
    fputc('\n', stream);
    json_decref(root);
    return status;
}
