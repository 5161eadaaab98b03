/* A table of numbers and words, one definition for text, CSV and JSON. */
#ifndef LIVESIDE_REPORT_TABLE_H
#define LIVESIDE_REPORT_TABLE_H

#include "liveside/status.h"
#include "liveside/units.h"

/* Where a table or a column appears. People read "5.0 deg live"; data hold signed numbers: two columns. */
enum { LS_IN_TEXT = 1, LS_IN_CSV = 2, LS_IN_JSON = 4, LS_IN_DATA = 6, LS_IN_ALL = 7 };

enum { LS_WORDS = -1, LS_COLUMNS_MAX = 64 };

typedef struct {
    const char *key;     /* in data, the unit is added: "cas" becomes cas_kt */
    const char *heading; /* in text */
    int dimension;       /* ls_dimension of numbers, or LS_WORDS */
    int decimals;        /* in text, for the us system; other units get as many as say the same */
    unsigned where;      /* LS_IN_ bits */
    const char *us_unit; /* of the us system if not the usual one ("in" for a station), or null */
} ls_column;

typedef struct ls_table ls_table;

/* Begins a row; the calls below then fill its cells from left to right, and cells left out stay empty. */
void ls_table_row(ls_table *table);

/* Fills the next cell. A number that is not finite is an empty cell: "-" in text, nothing in CSV, null in JSON,
 * where "KEY_reason" goes with it unless the table has words under the key "reason". */
void ls_table_number(ls_table *table, double si);
void ls_table_words(ls_table *table, const char *format, ...) LS_PRINTF(2, 3);
void ls_table_skip(ls_table *table);

/* Names neighbouring columns together, where a page has a line of headings for that: the last line of each heading
 * then stands under the name. Given: from and count, of the columns; name is copied. */
void ls_table_group(ls_table *table, int from, int count, const char *name);

/* The unit that a column is shown in. */
const ls_unit *ls_column_unit(const ls_column *column, ls_unit_system system);

/* The digits after the point that say in a unit what `decimals` says in the us system's unit. */
int ls_units_decimals(ls_unit_system system, ls_dimension dimension, const char *us_unit, int decimals);

#endif
