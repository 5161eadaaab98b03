#include "report/internal.h"

#include "liveside/text.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

char *ls_text_print(const char *format, va_list arguments)
{
    va_list again;
    va_copy(again, arguments);
    int length = vsnprintf(NULL, 0, format, again);
    va_end(again);
    char *text = length < 0 ? NULL : malloc((size_t)length + 1);
    if (text != NULL) {
        vsnprintf(text, (size_t)length + 1, format, arguments);
    }
    return text;
}

char *ls_text_copy(const char *text)
{
    size_t size = strlen(text) + 1;
    char *copy = malloc(size);
    return copy != NULL ? memcpy(copy, text, size) : NULL;
}

char *ls_text_safe(const char *text)
{
    size_t size = ls_text_for_terminal(text, NULL, 0) + 1;
    char *safe = malloc(size);
    if (safe != NULL) {
        ls_text_for_terminal(text, safe, size);
    }
    return safe;
}

ls_report *ls_report_new(void)
{
    ls_report *report = calloc(1, sizeof *report);
    if (report != NULL) {
        report->sink.failed = 1;
    }
    return report;
}

void ls_report_free(ls_report *report)
{
    if (report == NULL) {
        return;
    }
    for (size_t i = 0; i < report->blocks; i++) {
        ls_block *block = &report->block[i];
        free(block->text);
        free(block->path);
        if (block->table != NULL) {
            ls_table_empty(block->table);
            free(block->table);
        }
    }
    free(report->block);
    free(report);
}

/* A new block, or null when the report has failed. */
static ls_block *add_block(ls_report *report, ls_block_kind kind)
{
    if (report->failed) {
        return NULL;
    }
    ls_block *block = ls_array_grow(report->block, report->blocks, &report->capacity, sizeof *block);
    if (block == NULL) {
        report->failed = 1;
        return NULL;
    }
    report->block = block;
    block += report->blocks++;
    *block = (ls_block){.kind = kind, .number = NAN};
    return block;
}

static ls_block *add_at(ls_report *report, ls_block_kind kind, const char *path)
{
    ls_block *block = add_block(report, kind);
    if (block != NULL) {
        block->path = ls_text_copy(path);
        report->failed |= block->path == NULL;
    }
    return block;
}

static void print_into(ls_report *report, ls_block *block, const char *format, va_list arguments)
{
    if (block != NULL) {
        block->text = ls_text_print(format, arguments);
        report->failed |= block->text == NULL;
    }
}

void ls_report_line(ls_report *report, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    print_into(report, add_block(report, LS_BLOCK_LINE), format, arguments);
    va_end(arguments);
}

void ls_report_answer(ls_report *report, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    print_into(report, add_block(report, LS_BLOCK_ANSWER), format, arguments);
    va_end(arguments);
}

void ls_report_fact(ls_report *report, int columns, const char *name, const char *format, ...)
{
    va_list arguments;
    ls_block *block = add_at(report, LS_BLOCK_FACT, name);
    va_start(arguments, format);
    print_into(report, block, format, arguments);
    va_end(arguments);
    if (block != NULL) {
        block->number = columns;
    }
}

void ls_report_hint(ls_report *report, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    print_into(report, add_block(report, LS_BLOCK_HINT), format, arguments);
    va_end(arguments);
}

void ls_report_warning(ls_report *report, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    print_into(report, add_block(report, LS_BLOCK_WARNING), format, arguments);
    va_end(arguments);
}

void ls_report_words(ls_report *report, const char *path, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    print_into(report, add_at(report, LS_BLOCK_WORDS, path), format, arguments);
    va_end(arguments);
}

void ls_report_number(ls_report *report, const char *path, ls_dimension dimension, const char *us_unit, double si)
{
    ls_block *block = add_at(report, LS_BLOCK_NUMBER, path);
    if (block != NULL) {
        block->dimension = dimension;
        block->unit = us_unit;
        block->number = si;
    }
}

void ls_report_missing(ls_report *report, const char *path, ls_dimension dimension, const char *reason)
{
    ls_block *block = add_at(report, LS_BLOCK_NUMBER, path);
    if (block != NULL) {
        block->dimension = dimension;
        block->text = ls_text_copy(reason);
        report->failed |= block->text == NULL;
    }
}

void ls_report_flag(ls_report *report, const char *path, int value)
{
    ls_block *block = add_at(report, LS_BLOCK_FLAG, path);
    if (block != NULL) {
        block->number = value != 0;
    }
}

ls_table *ls_report_table(ls_report *report, const char *key, const char *title, unsigned where,
                          const ls_column *columns, int count)
{
    assert(count > 0 && count <= LS_COLUMNS_MAX);
    ls_block *block = add_block(report, LS_BLOCK_TABLE);
    ls_table *table = block != NULL ? calloc(1, sizeof *table) : NULL;
    if (table == NULL) {
        report->failed = 1;
        return &report->sink;
    }
    block->table = table;
    *table = (ls_table){.where = where, .column = columns, .columns = count};
    table->key = ls_text_copy(key);
    table->title = title != NULL ? ls_text_copy(title) : NULL;
    table->failed = table->key == NULL || (title != NULL && table->title == NULL);
    return table;
}

int ls_report_failed(const ls_report *report)
{
    int failed = report->failed;
    for (size_t i = 0; i < report->blocks; i++) {
        failed |= report->block[i].table != NULL && report->block[i].table->failed;
    }
    return failed;
}

ls_status ls_report_write(const ls_report *report, const ls_run *run, ls_format format, int bold, FILE *stream,
                          ls_error *error)
{
    if (ls_report_failed(report)) {
        return ls_fail(error, LS_MEMORY, "out of memory while the report was put together");
    }
    switch (format) {
    case LS_FORMAT_CSV:
        return ls_report_write_csv(report, run, stream, error);
    case LS_FORMAT_JSON:
        return ls_report_write_json(report, run, 1, stream, error);
    case LS_FORMAT_TEXT:
    case LS_FORMATS:
        break;
    }
    return ls_report_write_text(report, run, bold, stream, error);
}

ls_status ls_report_describe(const ls_report *report, const ls_run *run, FILE *stream, ls_error *error)
{
    if (ls_report_failed(report)) {
        return ls_fail(error, LS_MEMORY, "out of memory while the report was put together");
    }
    return ls_report_write_json(report, run, 0, stream, error);
}
