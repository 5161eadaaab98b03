/* What a report is made of: shared by the builder and the three writers. */
#ifndef LIVESIDE_REPORT_INTERNAL_H
#define LIVESIDE_REPORT_INTERNAL_H

#include "report/report.h"

#include <stdarg.h>
#include <stddef.h>

typedef struct {
    char *words;   /* null for a number or an empty cell */
    double number; /* SI; NaN for an empty cell */
} ls_cell;

enum { LS_GROUPS_MAX = 8, LS_GROUP_NAME = 96 };

typedef struct {
    int from, count;
    char name[LS_GROUP_NAME];
} ls_group;

struct ls_table {
    char *key;
    char *title; /* null for none */
    unsigned where;
    const ls_column *column;
    int columns;
    ls_cell *cell; /* rows of `columns` cells */
    size_t rows, capacity;
    int filled; /* cells of the last row */
    int groups;
    ls_group group[LS_GROUPS_MAX];
    int failed; /* an allocation did */
};

typedef enum {
    LS_BLOCK_LINE,
    LS_BLOCK_ANSWER,
    LS_BLOCK_FACT, /* path is its name, number the columns of that */
    LS_BLOCK_HINT,
    LS_BLOCK_WARNING,
    LS_BLOCK_NUMBER,
    LS_BLOCK_WORDS,
    LS_BLOCK_FLAG,
    LS_BLOCK_TABLE
} ls_block_kind;

typedef struct {
    ls_block_kind kind;
    char *text; /* a line, words, or why a number is missing; null if its value is not finite for no told reason */
    char *path;
    ls_dimension dimension;
    const char *unit;
    double number;
    ls_table *table;
} ls_block;

struct ls_report {
    ls_block *block;
    size_t blocks, capacity;
    ls_table sink; /* what is handed out when there is no memory for a table */
    int failed;
};

/* Whether an allocation failed while the report was put together. */
int ls_report_failed(const ls_report *report);

/* A text made by a format, or a copy; null without memory. The caller frees it. */
char *ls_text_print(const char *format, va_list arguments);
char *ls_text_copy(const char *text);

/* The text made harmless for a terminal, or null without memory. The caller frees it. */
char *ls_text_safe(const char *text);

/* Room for one more element. Returned: array, perhaps moved, and capacity; null (array as it was) without memory.
 */
void *ls_array_grow(void *array, size_t count, size_t *capacity, size_t element_size);

const ls_cell *ls_table_cell(const ls_table *table, size_t row, int column);
void ls_table_empty(ls_table *table);

/* The unit of a value in data and its name there: "ft/min" and "climb" make "climb_ft_per_min". */
const ls_unit *ls_unit_shown(ls_unit_system system, ls_dimension dimension, const char *us_unit);
void ls_key_with_unit(const char *key, const ls_unit *unit, char *out, size_t size);

ls_status ls_report_write_text(const ls_report *report, const ls_run *run, int bold, FILE *stream,
                               ls_error *error);
ls_status ls_report_write_csv(const ls_report *report, const ls_run *run, FILE *stream, ls_error *error);
ls_status ls_report_write_json(const ls_report *report, const ls_run *run, int with_tables, FILE *stream,
                               ls_error *error);
ls_status ls_table_write_text(const ls_table *table, ls_unit_system system, FILE *stream, ls_error *error);

#endif
