#include "cli/help.h"

#include "cli/append.h"
#include "cli/words.h"
#include "report/report.h"

#include <string.h>

enum { MARGIN = 2, TEXT_COLUMN = 30, PARAGRAPH = 1024, WORDS_TEXT = 160 };

const char *cli_group_heading(cli_group group)
{
    static const char *const heading[CLI_GROUPS] = {"The condition", "Limits", "What if", "The result"};
    return heading[group];
}

const char *cli_files_text(const cli_command *command)
{
    return command->files_max == 0   ? ""
           : command->files_max > 1  ? " FILE..."
           : command->files_min == 0 ? " [FILE]"
                                     : " FILE";
}

/* Prints words from a column on, broken at spaces; the first line has `used` columns already. */
static void print_from(FILE *stream, const char *text, int column, int used)
{
    if (used > 0 && used + 2 > column) {
        fputc('\n', stream);
        used = 0;
    }
    fprintf(stream, "%*s", column - used, "");
    int at = column;
    while (*text != '\0') {
        int length = (int)strcspn(text, " ");
        if (at > column && at + 1 + length > LS_TEXT_COLUMNS) {
            fprintf(stream, "\n%*s", column, "");
            at = column;
        } else if (at > column) {
            fputc(' ', stream);
            at++;
        }
        fprintf(stream, "%.*s", length, text);
        at += length;
        text += length;
        text += strspn(text, " ");
    }
    fputc('\n', stream);
}

/* A unit as it is read aloud. */
static const char *spoken(const char *unit)
{
    static const char *const names[][2] = {
        {"%", "percent"},
        {"ft", "feet"},
        {"m", "metres"},
        {"in", "inches"},
        {"lb", "pounds"},
        {"kg", "kilograms"},
        {"kt", "knots"},
        {"deg", "degrees"},
        {"lbf", "pounds-force"},
        {"N", "newtons"},
        {"degC", "degrees Celsius"},
        {"m/s", "metres a second"},
    };
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        if (strcmp(names[i][0], unit) == 0) {
            return names[i][1];
        }
    }
    return unit;
}

/* "Plain numbers are pounds, or kilograms with --units metric or si." */
static void append_units(cli_buffer *to, const cli_option_row *row)
{
    const char *us = row->unit[LS_UNITS_US];
    const char *metric = row->unit[LS_UNITS_METRIC];
    const char *si = row->unit[LS_UNITS_SI];
    cli_append(to, " Plain numbers are %s", spoken(us));
    if (strcmp(metric, us) != 0) {
        cli_append(to, ", or %s with --units metric%s", spoken(metric), strcmp(metric, si) == 0 ? " or si" : "");
    }
    if (strcmp(metric, si) != 0) {
        cli_append(to, ", or %s with --units si", spoken(si));
    }
    cli_append(to, ".");
}

void cli_option_notes(const cli_option_row *row, char *out, size_t size)
{
    char words[WORDS_TEXT];
    cli_buffer to = {out, size, 0};
    cli_append(&to, "%s", "");
    int lists_words = row->words != NULL && (row->kind == CLI_NUMBER || row->kind == CLI_WORD);
    if (lists_words) {
        cli_words_print(row->words, words, sizeof words);
        cli_append(&to, " %s %s.", row->kind == CLI_NUMBER ? "A number, or" : "One of", words);
    }
    if (row->dimension != LS_DIM_NUMBER) {
        append_units(&to, row);
    }
}

static void print_option(FILE *stream, int option)
{
    const cli_option_row *row = &cli_option_rows[option];
    char notes[PARAGRAPH], meaning[2 * PARAGRAPH];
    cli_option_notes(row, notes, sizeof notes);
    snprintf(meaning, sizeof meaning, "%s%s", row->meaning, notes);
    int used = fprintf(stream, "%*s--%s%s%s", MARGIN, "", row->name, row->argument != NULL ? " " : "",
                       row->argument != NULL ? row->argument : "");
    print_from(stream, meaning, TEXT_COLUMN, used);
}

static void print_group(FILE *stream, const cli_command *command, cli_group group)
{
    int shown = 0;
    for (int i = 0; i < CLI_OPTION_COUNT; i++) {
        if (cli_option_rows[i].group == group && ((command->options | CLI_ALWAYS) & CLI_BIT(i))) {
            if (shown++ == 0) {
                fprintf(stream, "\n%s\n", cli_group_heading(group));
            }
            print_option(stream, i);
        }
    }
}

ls_status cli_help_command(FILE *stream, const void *context, ls_error *error)
{
    (void)error;
    const cli_command *command = context;
    fprintf(stream, "%s\n\n", command->question);
    fprintf(stream, "  liveside %s [options]%s\n", command->name, cli_files_text(command));
    if (command->alias != NULL) {
        fprintf(stream, "  liveside %s is the same.\n", command->alias);
    }
    fputc('\n', stream);
    print_from(stream, command->summary, 0, 0);
    for (int group = 0; group < CLI_GROUPS; group++) {
        print_group(stream, command, (cli_group)group);
    }
    fprintf(stream, "\nFor example\n  %s\n\n", command->example);
    print_from(stream, LS_CAUTION, 0, 0);
    return LS_OK;
}

ls_status cli_help_overview(FILE *stream, const void *context, ls_error *error)
{
    (void)context;
    (void)error;
    fputs("liveside shows what happens to an aeroplane when one of its engines stops.\n\n", stream);
    fputs("  liveside COMMAND [options] FILE\n\n", stream);
    for (const cli_command *const *command = cli_commands; *command != NULL; command++) {
        fprintf(stream, "  %-15s%s\n", (*command)->name, (*command)->question);
    }
    fputc('\n', stream);
    print_from(stream,
               "'liveside COMMAND --help' explains one command. FILE is an aeroplane file, or the name of a demo "
               "aeroplane, such as whimbrel. Start with",
               0, 0);
    fputs("\n  liveside vmca whimbrel\n\n", stream);
    print_from(stream, LS_CAUTION, 0, 0);
    return LS_OK;
}

ls_status cli_help_version(FILE *stream, const void *context, ls_error *error)
{
    (void)context;
    (void)error;
    fputs("liveside " LS_VERSION "\nFree software, GPL-3.0-or-later. " LS_CAUTION_LINE "\n", stream);
    return LS_OK;
}
