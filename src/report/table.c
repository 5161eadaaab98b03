#include "report/internal.h"

#include "liveside/text.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { FIRST_CAPACITY = 16 };

void *ls_array_grow(void *array, size_t count, size_t *capacity, size_t element_size)
{
    if (count < *capacity) {
        return array;
    }
    size_t wanted = *capacity == 0 ? FIRST_CAPACITY : 2 * *capacity;
    if (wanted > SIZE_MAX / element_size) {
        return NULL;
    }
    void *grown = realloc(array, wanted * element_size);
    if (grown != NULL) {
        *capacity = wanted;
    }
    return grown;
}

void ls_table_row(ls_table *table)
{
    if (table->failed) {
        return;
    }
    size_t row_size = (size_t)table->columns * sizeof *table->cell;
    ls_cell *cell = ls_array_grow(table->cell, table->rows, &table->capacity, row_size);
    if (cell == NULL) {
        table->failed = 1;
        return;
    }
    table->cell = cell;
    for (int i = 0; i < table->columns; i++) {
        cell[table->rows * (size_t)table->columns + (size_t)i] = (ls_cell){NULL, NAN};
    }
    table->rows++;
    table->filled = 0;
}

/* The next cell to fill, or null when the table has failed. */
static ls_cell *next_cell(ls_table *table, int words)
{
    if (table->failed) {
        return NULL;
    }
    assert(table->rows > 0 && table->filled < table->columns);
    assert(words == (table->column[table->filled].dimension == LS_WORDS));
    (void)words;
    return &table->cell[(table->rows - 1) * (size_t)table->columns + (size_t)table->filled++];
}

void ls_table_number(ls_table *table, double si)
{
    ls_cell *cell = next_cell(table, 0);
    if (cell != NULL) {
        cell->number = si;
    }
}

void ls_table_words(ls_table *table, const char *format, ...)
{
    ls_cell *cell = next_cell(table, 1);
    if (cell == NULL) {
        return;
    }
    va_list arguments;
    va_start(arguments, format);
    cell->words = ls_text_print(format, arguments);
    va_end(arguments);
    table->failed |= cell->words == NULL;
}

void ls_table_skip(ls_table *table)
{
    if (!table->failed) {
        assert(table->rows > 0 && table->filled < table->columns);
        table->filled++;
    }
}

void ls_table_group(ls_table *table, int from, int count, const char *name)
{
    if (!table->failed) {
        assert(table->groups < LS_GROUPS_MAX && from >= 0 && from + count <= table->columns);
        ls_group *group = &table->group[table->groups++];
        *group = (ls_group){.from = from, .count = count};
        snprintf(group->name, sizeof group->name, "%s", name);
        ls_text_trim_utf8(group->name);
    }
}

const ls_cell *ls_table_cell(const ls_table *table, size_t row, int column)
{
    return &table->cell[row * (size_t)table->columns + (size_t)column];
}

void ls_table_empty(ls_table *table)
{
    for (size_t i = 0; i < table->rows * (size_t)table->columns; i++) {
        free(table->cell[i].words);
    }
    free(table->cell);
    free(table->key);
    free(table->title);
    *table = (ls_table){0};
}

const ls_unit *ls_unit_shown(ls_unit_system system, ls_dimension dimension, const char *us_unit)
{
    if (us_unit != NULL && (system == LS_UNITS_US || dimension == LS_DIM_FRACTION)) {
        const ls_unit *unit = ls_unit_find(dimension, us_unit);
        assert(unit != NULL);
        return unit;
    }
    return ls_unit_preferred(system, dimension);
}

const ls_unit *ls_column_unit(const ls_column *column, ls_unit_system system)
{
    return ls_unit_shown(system, (ls_dimension)column->dimension, column->us_unit);
}

int ls_units_decimals(ls_unit_system system, ls_dimension dimension, const char *us_unit, int decimals)
{
    double usual = ls_unit_shown(LS_UNITS_US, dimension, us_unit)->factor;
    double shown = ls_unit_shown(system, dimension, us_unit)->factor;
    int digits = decimals + (int)lround(log10(shown / usual));
    return digits < 0 ? 0 : digits;
}

void ls_key_with_unit(const char *key, const ls_unit *unit, char *out, size_t size)
{
    size_t used = (size_t)snprintf(out, size, "%s%s", key, unit->name[0] == '\0' ? "" : "_");
    for (const char *c = unit->name; *c != '\0' && used < size; c++) {
        const char one[] = {*c == '.' ? '_' : *c, '\0'};
        const char *word = *c == '/' ? (c == unit->name ? "per_" : "_per_") : *c == '%' ? "percent" : one;
        used += (size_t)snprintf(out + used, size - used, "%s", word);
    }
}
