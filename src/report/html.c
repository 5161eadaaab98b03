#include "report/html.h"

#include "report/internal.h"

#include "liveside/text.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { PIECE = 256, NUMBER_TEXT = 64 };

#define NO_VALUE "\xE2\x80\x93"

/* A piece of the text at a time, whole characters each, so that a text of any length needs no memory. */
void ls_html_text(FILE *stream, const char *text)
{
    while (*text != '\0') {
        char piece[PIECE + 1], safe[6 * PIECE + 1];
        snprintf(piece, sizeof piece, "%s", text);
        if (strlen(text) > PIECE) {
            ls_text_trim_utf8(piece);
        }
        size_t taken = strlen(piece) > 0 ? strlen(piece) : 1;
        ls_text_for_html(piece, safe, sizeof safe);
        fputs(safe, stream);
        text += taken;
    }
}

/* ---- tables ---- */

static int is_shown(const ls_table *table, int column)
{
    return (table->column[column].where & LS_IN_TEXT) != 0;
}

static int is_words(const ls_table *table, int column)
{
    return table->column[column].dimension == LS_WORDS;
}

static const ls_group *group_of(const ls_table *table, int column)
{
    for (int i = 0; i < table->groups; i++) {
        if (column >= table->group[i].from && column < table->group[i].from + table->group[i].count) {
            return &table->group[i];
        }
    }
    return NULL;
}

/* The heading's words in one line; under a group only its last line. */
static void print_heading(const ls_table *table, int column, int in_group, ls_unit_system units, FILE *stream)
{
    const char *heading = table->column[column].heading, *line = strrchr(heading, '\n');
    const char *unit = is_words(table, column) ? "" : ls_column_unit(&table->column[column], units)->name;
    heading = in_group && line != NULL ? line + 1 : heading;
    ls_html_text(stream, heading);
    if (unit[0] != '\0') {
        fputs(" <span class=\"unit\">", stream);
        ls_html_text(stream, unit);
        fputs("</span>", stream);
    }
}

static void print_column_heading(const ls_table *table, int column, int rows, ls_unit_system units, FILE *stream)
{
    const char *heading = table->column[column].heading;
    int in_group = group_of(table, column) != NULL, is_empty = heading[0] == '\0' && is_words(table, column);
    const char *kind = is_words(table, column) ? "" : " class=\"number\"";
    fprintf(stream, is_empty ? "<td%s" : "<th scope=\"col\"%s", kind);
    if (rows > 1 && !in_group) {
        fprintf(stream, " rowspan=\"%d\"", rows);
    }
    fputc('>', stream);
    print_heading(table, column, in_group, units, stream);
    fputs(is_empty ? "</td>" : "</th>", stream);
}

/* The names of groups, over those of their columns, where there are groups. */
static void print_headings(const ls_table *table, ls_unit_system units, FILE *stream)
{
    int rows = table->groups > 0 ? 2 : 1;
    fputs("<thead>\n", stream);
    for (int row = 0; row < rows; row++) {
        fputs("<tr>", stream);
        for (int i = 0; i < table->columns; i++) {
            const ls_group *group = group_of(table, i);
            if (!is_shown(table, i)) {
                continue;
            }
            if (row == 0 && rows == 2 && group != NULL) {
                if (group->from == i) {
                    fprintf(stream, "<th scope=\"colgroup\" colspan=\"%d\">", group->count);
                    ls_html_text(stream, group->name);
                    fputs("</th>", stream);
                }
            } else if (row == 0 || group != NULL) {
                print_column_heading(table, i, row == 0 ? rows : 1, units, stream);
            }
        }
        fputs("</tr>\n", stream);
    }
    fputs("</thead>\n", stream);
}

static void print_cell(const ls_table *table, size_t row, int column, int is_first, ls_unit_system units,
                       FILE *stream)
{
    static const ls_unit bare = {"", LS_DIM_NUMBER, 1.0, 0.0};
    const ls_column *c = &table->column[column];
    const ls_cell *cell = ls_table_cell(table, row, column);
    int is_head = is_first && (cell->words == NULL || cell->words[0] != '\0');
    fputs(is_head ? "<th scope=\"row\"" : "<td", stream);
    fputs(is_words(table, column) ? ">" : " class=\"number\">", stream);
    if (is_words(table, column)) {
        ls_html_text(stream, cell->words != NULL ? cell->words : "");
    } else if (isfinite(cell->number)) {
        char number[NUMBER_TEXT];
        double value = ls_unit_from_si(ls_column_unit(c, units), cell->number);
        int decimals = ls_units_decimals(units, (ls_dimension)c->dimension, c->us_unit, c->decimals);
        ls_units_format(value, &bare, decimals, number, sizeof number);
        ls_html_text(stream, number);
    } else {
        fputs(NO_VALUE, stream);
    }
    fputs(is_head ? "</th>" : "</td>", stream);
}

static void print_table(const ls_table *table, ls_unit_system units, FILE *stream)
{
    fputs("<div class=\"table\"><table>\n", stream);
    if (table->title != NULL) {
        fputs("<caption>", stream);
        ls_html_text(stream, table->title);
        fputs("</caption>\n", stream);
    }
    print_headings(table, units, stream);
    fputs("<tbody>\n", stream);
    for (size_t row = 0; row < table->rows; row++) {
        int first = 1;
        fputs("<tr>", stream);
        for (int i = 0; i < table->columns; i++) {
            if (is_shown(table, i)) {
                print_cell(table, row, i, first, units, stream);
                first = 0;
            }
        }
        fputs("</tr>\n", stream);
    }
    fputs("</tbody>\n</table></div>\n", stream);
}

/* ---- blocks ---- */

/* What an open list holds, so that neighbours of a kind stand in one. */
typedef enum { NO_LIST, FACTS, NOTES } list;

typedef struct {
    const ls_html_options *options;
    FILE *stream;
    list open;
    int figures_done;
} writer;

static void change_list(writer *to, list wanted)
{
    static const char *const begin[] = {"", "<dl class=\"facts\">\n", "<ul class=\"notes\">\n"};
    static const char *const end[] = {"", "</dl>\n", "</ul>\n"};
    if (to->open != wanted) {
        fputs(end[to->open], to->stream);
        fputs(begin[wanted], to->stream);
        to->open = wanted;
    }
}

static void print_between(writer *to, const char *before, const char *text, const char *after)
{
    fputs(before, to->stream);
    ls_html_text(to->stream, text);
    fputs(after, to->stream);
}

static void print_figures(writer *to)
{
    if (!to->figures_done && to->options->figures != NULL) {
        change_list(to, NO_LIST);
        fputs(to->options->figures, to->stream);
    }
    to->figures_done = 1;
}

static int is_left_out(const writer *to, const ls_table *table)
{
    char word[NUMBER_TEXT];
    snprintf(word, sizeof word, " %s ", table->key);
    return !(table->where & LS_IN_TEXT) || table->rows == 0 ||
           (to->options->left_out != NULL && strstr(to->options->left_out, word) != NULL);
}

/* A line of a list is indented in text. */
static void print_line(writer *to, const char *text)
{
    int is_note = text[0] == ' ';
    change_list(to, is_note ? NOTES : NO_LIST);
    if (text[0] != '\0') {
        print_between(to, is_note ? "<li>" : "<p>", text + strspn(text, " "), is_note ? "</li>\n" : "</p>\n");
    }
}

static void print_block(writer *to, const ls_block *block)
{
    switch (block->kind) {
    case LS_BLOCK_LINE:
        print_line(to, block->text);
        break;
    case LS_BLOCK_ANSWER:
        change_list(to, NO_LIST);
        print_between(to, "<p class=\"answer\">", block->text, "</p>\n");
        break;
    case LS_BLOCK_FACT:
        change_list(to, FACTS);
        print_between(to, "<div><dt>", block->path, "</dt>");
        print_between(to, "<dd>", block->text, "</dd></div>\n");
        break;
    case LS_BLOCK_TABLE:
        if (!is_left_out(to, block->table)) {
            change_list(to, NO_LIST);
            print_figures(to);
            print_table(block->table, to->options->units, to->stream);
        }
        break;
    case LS_BLOCK_WARNING: /* after everything, as in text */
    case LS_BLOCK_HINT:
    case LS_BLOCK_NUMBER:
    case LS_BLOCK_WORDS:
    case LS_BLOCK_FLAG:
        break;
    }
}

ls_status ls_report_write_html(const ls_report *report, const ls_html_options *options, FILE *stream,
                               ls_error *error)
{
    writer to = {.options = options, .stream = stream};
    if (ls_report_failed(report)) {
        return ls_fail(error, LS_MEMORY, "out of memory while the report was put together");
    }
    for (size_t i = 0; i < report->blocks; i++) {
        print_block(&to, &report->block[i]);
    }
    change_list(&to, NO_LIST);
    print_figures(&to);
    for (size_t i = 0; i < report->blocks; i++) {
        if (report->block[i].kind == LS_BLOCK_WARNING) {
            print_between(&to, "<p class=\"mind\"><strong>Caution:</strong> ", report->block[i].text, "</p>\n");
        }
    }
    return LS_OK;
}
