#include "liveside/points_file.h"

#include "core/number.h"
#include "io/scan.h"
#include "liveside/text.h"

#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { COLUMNS_MAX = 64, CELL = 256 };

/* A text being read, cell by cell. */
typedef struct {
    const char *at, *end;
    int line, column; /* of `at`, from 1 */
    ls_findings *findings;
} scanner;

typedef struct {
    char text[CELL];
    int line, column;
    int is_quoted, is_long, is_last; /* of its line */
} cell;

/* What stands in each column of the file: a column of the table, and the unit of its numbers. */
typedef struct {
    int columns;
    const ls_point_column *column[COLUMNS_MAX];
    const ls_unit *unit[COLUMNS_MAX];
} header;

static void reject(scanner *s, const char *key, int line, int column, const char *format, ...) LS_PRINTF(5, 6);

static void reject(scanner *s, const char *key, int line, int column, const char *format, ...)
{
    char text[LS_FINDING_TEXT];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    ls_findings_add(s->findings, LS_REJECT, key, line, column, "%s", text);
}

static int at_line_end(const scanner *s)
{
    return s->at >= s->end || *s->at == '\n' || *s->at == '\r';
}

static void step(scanner *s)
{
    s->column += ((unsigned char)*s->at & 0xC0) != 0x80; /* columns count characters */
    s->at++;
}

static void end_line(scanner *s)
{
    s->at += s->at < s->end && *s->at == '\r';
    s->at += s->at < s->end && *s->at == '\n';
    s->line++;
    s->column = 1;
}

/* A NUL would end the text early and hide what follows: it is kept as another control character, which is refused.
 */
static void keep(cell *c, size_t *used, char character)
{
    if (*used + 1 < CELL) {
        c->text[(*used)++] = character != '\0' ? character : '\x01';
    } else {
        c->is_long = 1;
    }
}

/* A quoted cell, to its closing quote; a doubled quote stands for one. */
static void read_quoted(scanner *s, cell *c, size_t *used)
{
    step(s);
    while (s->at < s->end) {
        if (*s->at == '"' && (s->at + 1 >= s->end || s->at[1] != '"')) {
            step(s);
            return;
        }
        if (*s->at == '"') {
            step(s);
        }
        if (*s->at == '\n' || *s->at == '\r') {
            break;
        }
        keep(c, used, *s->at);
        step(s);
    }
    reject(s, NULL, c->line, c->column, "this cell begins with a quote that is not closed on its line");
}

/* Reads the next cell and the comma after it. The apostrophe that keeps a spreadsheet from taking a text for a
 * formula goes. */
static void read_cell(scanner *s, cell *c)
{
    size_t used = 0;
    *c = (cell){.line = s->line, .column = s->column};
    if (!at_line_end(s) && *s->at == '"') {
        c->is_quoted = 1;
        read_quoted(s, c, &used);
    }
    while (!at_line_end(s) && *s->at != ',') {
        keep(c, &used, *s->at);
        step(s);
    }
    while (!c->is_quoted && used > 0 && c->text[used - 1] == ' ') {
        used--;
    }
    c->text[used] = '\0';
    ls_text_trim_utf8(c->text);
    if (c->text[0] == '\'' && c->text[1] != '\0' && strchr("=+-@\t", c->text[1]) != NULL) {
        memmove(c->text, c->text + 1, strlen(c->text));
    }
    c->is_last = at_line_end(s);
    if (!c->is_last) {
        step(s);
    }
}

/* ---- header ---- */

/* Whether a header's ending is a unit's name as the writers put it: /, . and % spelt out. */
static int is_unit(const char *ending, const ls_unit *unit)
{
    char name[LS_POINT_WORD];
    size_t used = 0;
    for (const char *c = unit->name; *c != '\0' && used < sizeof name; c++) {
        const char one[] = {*c == '.' ? '_' : *c, '\0'};
        const char *word = *c == '/' ? (c == unit->name ? "per_" : "_per_") : *c == '%' ? "percent" : one;
        used += (size_t)snprintf(name + used, sizeof name - used, "%s", word);
    }
    return strcmp(ending, name) == 0;
}

static const ls_unit *find_unit(const ls_point_column *column, const char *ending)
{
    const ls_unit *unit;
    for (int i = 0; (unit = ls_unit_at((ls_dimension)column->dimension, i)) != NULL; i++) {
        if (is_unit(ending, unit)) {
            return unit;
        }
    }
    return NULL;
}

static void refuse_header(scanner *s, const cell *c, const ls_point_column *near)
{
    int count;
    char shown[CELL];
    const char *keys[COLUMNS_MAX];
    const ls_point_column *table = ls_point_columns(&count);
    for (int i = 0; i < count; i++) {
        keys[i] = table[i].key;
    }
    ls_text_for_terminal(c->text, shown, 64);
    if (near != NULL) {
        reject(s, near->key, c->line, c->column, "column '%s' needs a unit of %s after its name, as in %s_%s",
               shown, ls_dimension_text((ls_dimension)near->dimension), near->key,
               ls_unit_preferred(LS_UNITS_US, (ls_dimension)near->dimension)->name);
        return;
    }
    int nearest = ls_text_nearest(c->text, keys, count);
    reject(s, NULL, c->line, c->column, "unknown column '%s'%s%s%s", shown, nearest >= 0 ? "; did you mean '" : "",
           nearest >= 0 ? keys[nearest] : "", nearest >= 0 ? "'?" : "");
}

static void take_header(scanner *s, const cell *c, header *h)
{
    int count;
    const ls_point_column *table = ls_point_columns(&count), *near = NULL;
    int at = h->columns++;
    h->column[at] = NULL;
    for (int i = 0; i < count; i++) {
        size_t length = strlen(table[i].key);
        int begins = strncmp(c->text, table[i].key, length) == 0;
        if (table[i].dimension == LS_POINT_TEXT ? strcmp(c->text, table[i].key) == 0
                                                : begins && c->text[length] == '_') {
            h->unit[at] = table[i].dimension == LS_POINT_TEXT ? NULL : find_unit(&table[i], c->text + length + 1);
            if (h->unit[at] != NULL || table[i].dimension == LS_POINT_TEXT) {
                h->column[at] = &table[i];
            }
        }
        near = begins && (c->text[length] == '\0' || c->text[length] == '_') && table[i].dimension != LS_POINT_TEXT
                   ? &table[i]
                   : near;
    }
    if (h->column[at] == NULL) {
        refuse_header(s, c, near);
    }
    for (int i = 0; i < at; i++) {
        if (h->column[at] != NULL && h->column[i] == h->column[at]) {
            reject(s, h->column[at]->key, c->line, c->column, "this column is given twice");
        }
    }
}

static int has_column(const header *h, const char *key)
{
    for (int i = 0; i < h->columns; i++) {
        if (h->column[i] != NULL && strcmp(h->column[i]->key, key) == 0) {
            return 1;
        }
    }
    return 0;
}

static void read_header(scanner *s, header *h)
{
    int count;
    const ls_point_column *table = ls_point_columns(&count);
    cell c;
    h->columns = 0;
    do {
        read_cell(s, &c);
        if (h->columns == COLUMNS_MAX) {
            reject(s, NULL, c.line, c.column, "too many columns: at most %d", COLUMNS_MAX);
            return;
        }
        take_header(s, &c, h);
    } while (!c.is_last);
    end_line(s);
    for (int i = 0; i < count; i++) {
        if (table[i].needed && !has_column(h, table[i].key)) {
            reject(s, table[i].key, 1, 1, "the column is missing: %s", table[i].meaning);
        }
    }
    if (!has_column(h, "cas") && !has_column(h, "ias")) {
        reject(s, "cas", 1, 1, "an airspeed column is missing: cas, or ias with correction");
    }
}

/* ---- points ---- */

static void take_word(scanner *s, const cell *c, const ls_point_column *column, char *to)
{
    size_t length = strlen(c->text);
    if (length >= column->size || c->is_long) {
        reject(s, column->key, c->line, c->column, "the text is too long: at most %zu bytes are kept",
               column->size - 1);
        return;
    }
    if (ls_text_find_unsafe(c->text, length) >= 0) {
        reject(s, column->key, c->line, c->column, "the text holds a character that is not plain text in UTF-8");
        return;
    }
    memcpy(to, c->text, length + 1);
    for (const char *word = column->choices; word != NULL && length > 0;) {
        size_t size = strcspn(word, "|");
        if (size == length && strncmp(word, c->text, size) == 0) {
            return;
        }
        if (word[size] == '\0') {
            char shown[LS_POINT_WORD];
            ls_text_for_terminal(c->text, shown, sizeof shown);
            reject(s, column->key, c->line, c->column, "'%s' is not one of %s", shown, column->choices);
            return;
        }
        word += size + 1;
    }
}

static void take_number(scanner *s, const cell *c, const ls_point_column *column, const ls_unit *unit, double *to)
{
    double value;
    char shown[LS_POINT_WORD];
    const char *text = c->text + strspn(c->text, " ");
    size_t length = ls_number_length(text);
    ls_text_for_terminal(c->text, shown, sizeof shown);
    if (length == 0 || text[length] != '\0' || ls_number_read(text, length, &value, NULL) != LS_OK) {
        reject(s, column->key, c->line, c->column, "'%s' is not a number (%s; the unit stands in the header)",
               shown, column->meaning);
        return;
    }
    double si = ls_unit_to_si(unit, value);
    if (!(si >= column->low && si <= column->high)) {
        reject(s, column->key, c->line, c->column, "%s %s is outside %.6g to %.6g", shown, unit->name,
               ls_unit_from_si(unit, column->low), ls_unit_from_si(unit, column->high));
        return;
    }
    *to = si;
}

static void take_cell(scanner *s, const cell *c, const ls_point_column *column, const ls_unit *unit,
                      ls_point *point)
{
    char *to = (char *)point + column->offset;
    if (c->text[0] == '\0' && column->needed == LS_POINT_ALWAYS) {
        reject(s, column->key, c->line, c->column, "empty: %s", column->meaning);
    } else if (column->dimension == LS_POINT_TEXT) {
        take_word(s, c, column, to);
    } else if (c->text[0] != '\0') {
        take_number(s, c, column, unit, (double *)(void *)to);
    }
}

/* Calibrated airspeed made of two readings, within the range of its own column. */
static void check_cas(scanner *s, const ls_point *point)
{
    int count;
    const ls_point_column *column = ls_point_columns(&count);
    while (column->offset != offsetof(ls_point, cas_m_s)) {
        column++;
    }
    if (!(point->cas_m_s >= column->low && point->cas_m_s <= column->high)) {
        reject(s, column->key, point->line, 1, "IAS and correction make a CAS of %.4g m/s, outside %.4g to %.4g",
               point->cas_m_s, column->low, column->high);
    }
}

static void check_point(scanner *s, ls_point *point)
{
    if (isnan(point->cas_m_s) && !isnan(point->ias_m_s)) {
        point->cas_m_s = point->ias_m_s + (isnan(point->correction_m_s) ? 0.0 : point->correction_m_s);
        check_cas(s, point);
    }
    if (isnan(point->cas_m_s) && point->ended[0] != '\0') { /* without either it was not flown */
        reject(s, "cas", point->line, 1, "no airspeed: cas, or ias with its correction");
    }
}

static void read_point(scanner *s, const header *h, ls_point *point)
{
    cell c;
    int at = 0, rejects = ls_findings_rejects(s->findings);
    ls_point_clear(point);
    point->line = s->line;
    do {
        read_cell(s, &c);
        if (at < h->columns && h->column[at] != NULL) {
            take_cell(s, &c, h->column[at], h->unit[at], point);
        }
        at++;
    } while (!c.is_last);
    if (at != h->columns) {
        reject(s, NULL, point->line, 1, "%d cells, but the header has %d columns", at, h->columns);
    } else if (ls_findings_rejects(s->findings) == rejects) {
        check_point(s, point);
    }
    end_line(s);
}

static ls_status make_room(ls_points *points, int *capacity)
{
    if (points->count < *capacity) {
        return LS_OK;
    }
    int wanted = *capacity == 0 ? 64 : 2 * *capacity;
    ls_point *point = realloc(points->point, (size_t)wanted * sizeof *point);
    if (point == NULL) {
        return LS_MEMORY;
    }
    points->point = point;
    *capacity = wanted;
    return LS_OK;
}

static ls_status read_points(scanner *s, const header *h, ls_points *points)
{
    int capacity = 0;
    while (s->at < s->end) {
        if (at_line_end(s)) { /* an empty line */
            end_line(s);
            continue;
        }
        if (points->count == LS_POINTS_MAX) {
            reject(s, NULL, s->line, 1, "too many points: at most %d", LS_POINTS_MAX);
            return LS_OK;
        }
        if (make_room(points, &capacity) != LS_OK) {
            return LS_MEMORY;
        }
        read_point(s, h, &points->point[points->count++]);
    }
    if (points->count == 0) {
        reject(s, NULL, s->line, 1, "the file has no points");
    }
    return LS_OK;
}

ls_status ls_points_parse(const char *data, size_t size, const char *name, ls_points *points,
                          ls_findings *findings, ls_error *error)
{
    header h = {0};
    ls_points read = {0};
    size_t mark = ls_scan_mark(data, size);
    scanner s = {data + mark, data + size, 1, 1, findings};
    read_header(&s, &h);
    ls_status status = ls_findings_rejects(findings) == 0 ? read_points(&s, &h, &read) : LS_OK;
    int rejects = ls_findings_rejects(findings);
    if (status == LS_MEMORY) {
        ls_fail(error, status, "out of memory while reading %s", name);
    } else if (rejects > 0) {
        status =
            ls_fail(error, LS_FILE_REJECTED, "%s is refused: %d error%s", name, rejects, rejects == 1 ? "" : "s");
    } else {
        *points = read;
        return LS_OK;
    }
    ls_points_free(&read);
    return status;
}

ls_status ls_points_read(const char *path, ls_points *points, ls_findings *findings, char sha256[LS_SHA256_TEXT],
                         ls_error *error)
{
    ls_buffer buffer = {0};
    ls_status status = ls_file_read(path, LS_POINTS_BYTES, &buffer, error);
    if (status != LS_OK) {
        return status;
    }
    if (sha256 != NULL) {
        ls_file_sha256(buffer.data, buffer.size, sha256);
    }
    const char *name = strcmp(path, "-") == 0 ? "standard input" : path;
    status = ls_points_parse(buffer.data, buffer.size, name, points, findings, error);
    ls_file_free(&buffer);
    return status;
}

void ls_points_free(ls_points *points)
{
    free(points->point);
    *points = (ls_points){0};
}
