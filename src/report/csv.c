#include "report/internal.h"

#include "io/format.h"
#include "liveside/text.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { KEY_TEXT = 128 };

static void print_number(FILE *stream, double value)
{
    char text[LS_NUMBER_TEXT];
    fputs(ls_number_exact(value + 0.0, text), stream); /* + 0.0 makes -0 plain 0 */
}

static ls_status print_words(FILE *stream, const char *words, ls_error *error)
{
    size_t size = ls_text_for_csv(words, NULL, 0) + 1;
    char *cell = malloc(size);
    if (cell == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory while writing CSV");
    }
    ls_text_for_csv(words, cell, size);
    fputs(cell, stream);
    free(cell);
    return LS_OK;
}

static void print_header(const ls_table *table, ls_unit_system system, FILE *stream)
{
    const char *separator = "";
    for (int i = 0; i < table->columns; i++) {
        const ls_column *column = &table->column[i];
        if (!(column->where & LS_IN_CSV)) {
            continue;
        }
        char key[KEY_TEXT];
        if (column->dimension == LS_WORDS) {
            snprintf(key, sizeof key, "%s", column->key);
        } else {
            ls_key_with_unit(column->key, ls_column_unit(column, system), key, sizeof key);
        }
        fprintf(stream, "%s%s", separator, key);
        separator = ",";
    }
    fputc('\n', stream);
}

static ls_status print_row(const ls_table *table, size_t row, ls_unit_system system, FILE *stream, ls_error *error)
{
    ls_status status = LS_OK;
    const char *separator = "";
    for (int i = 0; i < table->columns && status == LS_OK; i++) {
        const ls_column *column = &table->column[i];
        const ls_cell *cell = ls_table_cell(table, row, i);
        if (!(column->where & LS_IN_CSV)) {
            continue;
        }
        fputs(separator, stream);
        separator = ",";
        if (cell->words != NULL) {
            status = print_words(stream, cell->words, error);
        } else if (isfinite(cell->number)) {
            print_number(stream, ls_unit_from_si(ls_column_unit(column, system), cell->number));
        }
    }
    fputc('\n', stream);
    return status;
}

ls_status ls_report_write_csv(const ls_report *report, const ls_run *run, FILE *stream, ls_error *error)
{
    const ls_table *table = NULL;
    for (size_t i = 0; i < report->blocks; i++) {
        const ls_block *block = &report->block[i];
        if (block->kind == LS_BLOCK_TABLE && (block->table->where & LS_IN_CSV)) {
            assert(table == NULL);
            table = block->table;
        }
    }
    if (table == NULL) {
        return ls_fail(error, LS_INTERNAL, "this report has no table for CSV");
    }
    print_header(table, run->units, stream);
    ls_status status = LS_OK;
    for (size_t row = 0; row < table->rows && status == LS_OK; row++) {
        status = print_row(table, row, run->units, stream, error);
    }
    return status;
}
