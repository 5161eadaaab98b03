#include "report/internal.h"

#include "liveside/text.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { GAP = 2, NARROWEST = 5, HEADING_TEXT = 64 };

#define NO_VALUE "-"

typedef struct {
    const ls_table *table;
    ls_unit_system system;
    FILE *stream;
    int width[LS_COLUMNS_MAX]; /* 0 for a column that is not shown */
    int heading_lines;
} layout;

/* The n-th line of a heading, from the bottom up: short headings stand on the units. It may hold a name of the
 * user's. */
static void heading_line(const char *heading, int lines, int n, char out[HEADING_TEXT])
{
    int own = 1;
    for (const char *c = heading; *c != '\0'; c++) {
        own += *c == '\n';
    }
    int skip = n - (lines - own);
    out[0] = '\0';
    if (skip < 0) {
        return;
    }
    for (; skip > 0; skip--) {
        heading = strchr(heading, '\n') + 1;
    }
    char line[HEADING_TEXT];
    snprintf(line, sizeof line, "%.*s", (int)strcspn(heading, "\n"), heading);
    ls_text_trim_utf8(line);
    ls_text_for_terminal(line, out, HEADING_TEXT);
}

static const char *unit_text(const layout *at, int column)
{
    const ls_column *c = &at->table->column[column];
    return c->dimension == LS_WORDS ? "" : ls_column_unit(c, at->system)->name;
}

/* The text of a cell; the caller frees it. Null without memory. */
static char *cell_text(const layout *at, size_t row, int column)
{
    static const ls_unit bare = {"", LS_DIM_NUMBER, 1.0, 0.0};
    const ls_column *c = &at->table->column[column];
    const ls_cell *cell = ls_table_cell(at->table, row, column);
    if (c->dimension == LS_WORDS) {
        return ls_text_safe(cell->words != NULL ? cell->words : "");
    }
    if (!isfinite(cell->number)) {
        return ls_text_copy(NO_VALUE);
    }
    char number[HEADING_TEXT];
    double value = ls_unit_from_si(ls_column_unit(c, at->system), cell->number);
    int decimals = ls_units_decimals(at->system, (ls_dimension)c->dimension, c->us_unit, c->decimals);
    ls_units_format(value, &bare, decimals, number, sizeof number);
    return ls_text_copy(number);
}

static void widen(int *width, const char *text)
{
    int needed = ls_text_width(text);
    *width = needed > *width ? needed : *width;
}

static void measure_headings(layout *at)
{
    char line[HEADING_TEXT];
    at->heading_lines = 1;
    for (int i = 0; i < at->table->columns; i++) {
        if ((at->table->column[i].where & LS_IN_TEXT) && strchr(at->table->column[i].heading, '\n') != NULL) {
            at->heading_lines = 2;
        }
    }
    for (int i = 0; i < at->table->columns; i++) {
        if (!(at->table->column[i].where & LS_IN_TEXT)) {
            continue;
        }
        at->width[i] = 1;
        widen(&at->width[i], unit_text(at, i));
        for (int n = 0; n < at->heading_lines; n++) {
            heading_line(at->table->column[i].heading, at->heading_lines, n, line);
            widen(&at->width[i], line);
        }
    }
}

static ls_status measure_cells(layout *at, ls_error *error)
{
    for (size_t row = 0; row < at->table->rows; row++) {
        for (int i = 0; i < at->table->columns; i++) {
            if (at->width[i] == 0) {
                continue;
            }
            char *text = cell_text(at, row, i);
            if (text == NULL) {
                return ls_fail(error, LS_MEMORY, "out of memory while writing a table");
            }
            widen(&at->width[i], text);
            free(text);
        }
    }
    return LS_OK;
}

static int total_width(const layout *at)
{
    int total = -GAP;
    for (int i = 0; i < at->table->columns; i++) {
        total += at->width[i] > 0 ? at->width[i] + GAP : 0;
    }
    return total;
}

/* Takes width from the widest column of words until the table fits; numbers are never cut. */
static void fit(layout *at)
{
    while (total_width(at) > LS_TEXT_COLUMNS) {
        int widest = -1;
        for (int i = 0; i < at->table->columns; i++) {
            int words = at->table->column[i].dimension == LS_WORDS && at->width[i] > NARROWEST;
            if (words && (widest < 0 || at->width[i] > at->width[widest])) {
                widest = i;
            }
        }
        if (widest < 0) {
            return;
        }
        at->width[widest]--;
    }
}

/* Cuts a text to a width at a character, the last place marked. */
static void cut(char *text, int width)
{
    if (ls_text_width(text) <= width) {
        return;
    }
    size_t length = strlen(text);
    while (length > 0 && ls_text_width(text) >= width) {
        do {
            length--;
        } while (length > 0 && ((unsigned char)text[length] & 0xC0) == 0x80);
        text[length] = '\0';
    }
    strcat(text, "~"); /* one byte for at least one that was cut */
}

/* Adds one cell to a line that never ends in blanks: `pending` counts those not printed yet. */
static void print_cell(const layout *at, int column, const char *text, int *pending)
{
    int spare = at->width[column] - ls_text_width(text);
    int is_words = at->table->column[column].dimension == LS_WORDS;
    if (text[0] != '\0') {
        fprintf(at->stream, "%*s%s", *pending + (is_words ? 0 : spare), "", text);
        *pending = is_words ? spare : 0;
    } else {
        *pending += at->width[column];
    }
    *pending += GAP;
}

static int has_units(const layout *at)
{
    for (int i = 0; i < at->table->columns; i++) {
        if (at->width[i] > 0 && unit_text(at, i)[0] != '\0') {
            return 1;
        }
    }
    return 0;
}

static int has_headings(const layout *at)
{
    for (int i = 0; i < at->table->columns; i++) {
        if (at->width[i] > 0 && at->table->column[i].heading[0] != '\0') {
            return 1;
        }
    }
    return 0;
}

static void print_headings(const layout *at)
{
    char line[HEADING_TEXT];
    int lines = at->heading_lines + has_units(at);
    for (int n = has_headings(at) ? 0 : at->heading_lines; n < lines; n++) {
        int pending = 0;
        for (int i = 0; i < at->table->columns; i++) {
            if (at->width[i] == 0) {
                continue;
            }
            heading_line(at->table->column[i].heading, at->heading_lines, n < at->heading_lines ? n : 0, line);
            cut(line, at->width[i]);
            print_cell(at, i, n < at->heading_lines ? line : unit_text(at, i), &pending);
        }
        fputc('\n', at->stream);
    }
}

static ls_status print_rows(const layout *at, ls_error *error)
{
    for (size_t row = 0; row < at->table->rows; row++) {
        int pending = 0;
        for (int i = 0; i < at->table->columns; i++) {
            if (at->width[i] == 0) {
                continue;
            }
            char *text = cell_text(at, row, i);
            if (text == NULL) {
                return ls_fail(error, LS_MEMORY, "out of memory while writing a table");
            }
            cut(text, at->width[i]);
            print_cell(at, i, text, &pending);
            free(text);
        }
        fputc('\n', at->stream);
    }
    return LS_OK;
}

ls_status ls_table_write_text(const ls_table *table, ls_unit_system system, FILE *stream, ls_error *error)
{
    layout at = {.table = table, .system = system, .stream = stream};
    measure_headings(&at);
    if (measure_cells(&at, error) != LS_OK) {
        return error->status;
    }
    fit(&at);
    if (table->title != NULL) {
        char *title = ls_text_safe(table->title);
        if (title == NULL) {
            return ls_fail(error, LS_MEMORY, "out of memory while writing a table");
        }
        fprintf(stream, "%s\n", title);
        free(title);
    }
    print_headings(&at);
    return print_rows(&at, error);
}
