#include "report/internal.h"

#include "liveside/text.h"

#include <stdlib.h>
#include <string.h>

enum { HASH_TEXT = 32, FACT_NAME = 80 };

#define BOLD  "\033[1m"
#define PLAIN "\033[0m"

/* The columns of the first `bytes` bytes of a text. */
static int width_of(char *text, size_t bytes)
{
    char kept = text[bytes];
    text[bytes] = '\0';
    int width = ls_text_width(text);
    text[bytes] = kept;
    return width;
}

/* Prints one paragraph, broken at spaces. Given: hang, by which lines after the first are indented; negative: as
 * the first is. */
static void print_wrapped(char *text, int hang, FILE *stream)
{
    size_t indent = strspn(text, " ");
    int column = (int)indent;
    hang = hang < 0 ? column : hang;
    fprintf(stream, "%.*s", (int)indent, text);
    char *word = text + indent;
    int first = 1;
    while (*word != '\0') {
        size_t blanks = strspn(word, " ");
        size_t length = strcspn(word + blanks, " ");
        int width = width_of(word + blanks, length);
        if (!first && column + (int)blanks + width > LS_TEXT_COLUMNS) {
            fprintf(stream, "\n%*s", hang, "");
            column = hang;
            word += blanks;
            blanks = 0;
        }
        fprintf(stream, "%.*s", (int)(blanks + length), word);
        column += (int)blanks + width;
        word += blanks + length;
        first = 0;
    }
    fputc('\n', stream);
}

static ls_status print_line(const char *before, const char *text, int hang, FILE *stream, ls_error *error)
{
    size_t size = strlen(before) + strlen(text) + 1;
    char *whole = malloc(size);
    char *safe = NULL;
    if (whole != NULL) {
        snprintf(whole, size, "%s%s", before, text);
        safe = ls_text_safe(whole);
    }
    if (safe != NULL) {
        print_wrapped(safe, hang, stream);
    }
    ls_status status = safe != NULL ? LS_OK : ls_fail(error, LS_MEMORY, "out of memory while writing text");
    free(safe);
    free(whole);
    return status;
}

static ls_status print_warnings(const ls_report *report, FILE *stream, ls_error *error)
{
    ls_status status = LS_OK;
    int first = 1;
    for (size_t i = 0; i < report->blocks && status == LS_OK; i++) {
        if (report->block[i].kind == LS_BLOCK_WARNING) {
            fputs(first ? "\n" : "", stream);
            first = 0;
            status = print_line("Caution: ", report->block[i].text, -1, stream, error);
        }
    }
    return status;
}

/* One line as it is, however long: a command that was wrapped could not be copied. */
static ls_status print_unwrapped(const char *before, const char *text, const char *after, FILE *stream,
                                 ls_error *error)
{
    char *safe = ls_text_safe(text);
    if (safe == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory while writing text");
    }
    fprintf(stream, "%s%s%s\n", before, safe, after);
    free(safe);
    return LS_OK;
}

static ls_status print_foot(const ls_run *run, FILE *stream, ls_error *error)
{
    char hash[HASH_TEXT];
    fputc('\n', stream);
    ls_status status = LS_OK;
    for (int i = 0; i < run->inputs && status == LS_OK; i++) {
        snprintf(hash, sizeof hash, ", SHA-256 %.12s", run->input[i].sha256);
        status = print_unwrapped("", run->input[i].name, hash, stream, error);
    }
    if (status == LS_OK) {
        status = print_unwrapped("liveside " LS_VERSION ": ", run->command_line, "", stream, error);
    }
    fprintf(stream, "%s\n", LS_CAUTION_LINE);
    return status;
}

static ls_status print_fact(const ls_block *block, FILE *stream, ls_error *error)
{
    char name[FACT_NAME];
    int columns = (int)block->number;
    snprintf(name, sizeof name, "  %-*.*s", columns, FACT_NAME - 3, block->path);
    return print_line(name, block->text, 2 + columns, stream, error);
}

static ls_status print_block(const ls_block *block, ls_unit_system system, int bold, FILE *stream, ls_error *error)
{
    ls_status status = LS_OK;
    switch (block->kind) {
    case LS_BLOCK_LINE:
    case LS_BLOCK_HINT:
        return print_line("", block->text, -1, stream, error);
    case LS_BLOCK_FACT:
        return print_fact(block, stream, error);
    case LS_BLOCK_ANSWER:
        fputs(bold ? BOLD : "", stream);
        status = print_line("", block->text, -1, stream, error);
        fputs(bold ? PLAIN : "", stream);
        return status;
    case LS_BLOCK_TABLE:
        return block->table->where & LS_IN_TEXT ? ls_table_write_text(block->table, system, stream, error) : LS_OK;
    case LS_BLOCK_WARNING:
    case LS_BLOCK_NUMBER:
    case LS_BLOCK_WORDS:
    case LS_BLOCK_FLAG:
        break;
    }
    return status;
}

ls_status ls_report_write_text(const ls_report *report, const ls_run *run, int bold, FILE *stream, ls_error *error)
{
    ls_status status = LS_OK;
    for (size_t i = 0; i < report->blocks && status == LS_OK; i++) {
        status = print_block(&report->block[i], run->units, bold, stream, error);
    }
    if (status == LS_OK) {
        status = print_warnings(report, stream, error);
    }
    return status == LS_OK ? print_foot(run, stream, error) : status;
}
