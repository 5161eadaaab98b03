/* The manual page, in man(7) macros: docs/liveside.1 is this text. */
#include "cli/help.h"
#include "liveside/status.h"
#include "report/report.h"

#include <string.h>

enum { NOTES = 1024 };

/* Text for roff: hyphens stay hyphens, backslashes are printed, no line starts a request. */
static void print_text(FILE *stream, const char *text)
{
    if (*text == '.' || *text == '\'') {
        fputs("\\&", stream);
    }
    for (; *text != '\0'; text++) {
        if (*text == '-' || *text == '\\') {
            fputs(*text == '-' ? "\\-" : "\\e", stream);
        } else if (*text == '\'') {
            fputs("\\(aq", stream);
        } else {
            fputc(*text, stream);
        }
    }
}

static void print_paragraph(FILE *stream, const char *macro, const char *text)
{
    fprintf(stream, "%s\n", macro);
    print_text(stream, text);
    fputc('\n', stream);
}

static void print_option(FILE *stream, const cli_option_row *row)
{
    char notes[NOTES];
    cli_option_notes(row, notes, sizeof notes);
    fputs(".TP\n\\fB\\-\\-", stream);
    print_text(stream, row->name);
    fputs("\\fR", stream);
    if (row->argument != NULL) {
        fputs(" \\fI", stream);
        print_text(stream, row->argument);
        fputs("\\fR", stream);
    }
    fputc('\n', stream);
    print_text(stream, row->meaning);
    print_text(stream, notes);
    fputc('\n', stream);
}

static void print_option_names(FILE *stream, const cli_command *command)
{
    const char *before = "Options:";
    for (int i = 0; i < CLI_OPTION_COUNT; i++) {
        if (command->options & CLI_BIT(i)) {
            fprintf(stream, "%s \\fB\\-\\-", before);
            print_text(stream, cli_option_rows[i].name);
            fputs("\\fR", stream);
            before = ",";
        }
    }
    fputs(".\n", stream);
}

static void print_commands(FILE *stream)
{
    fputs(".SH COMMANDS\n", stream);
    for (const cli_command *const *at = cli_commands; *at != NULL; at++) {
        const cli_command *command = *at;
        fprintf(stream, ".SS liveside %s%s\n", command->name, cli_files_text(command));
        print_text(stream, command->question);
        fputc('\n', stream);
        print_text(stream, command->summary);
        fputc('\n', stream);
        if (command->alias != NULL) {
            fprintf(stream, "Also called \\fB%s\\fR.\n", command->alias);
        }
        fputs(".PP\n", stream);
        print_option_names(stream, command);
        fputs(".PP\nExample: \\fB", stream);
        print_text(stream, command->example);
        fputs("\\fR\n", stream);
    }
}

static uint64_t options_in_use(void)
{
    uint64_t used = CLI_ALWAYS;
    for (const cli_command *const *command = cli_commands; *command != NULL; command++) {
        used |= (*command)->options;
    }
    return used;
}

static void print_options(FILE *stream)
{
    uint64_t used = options_in_use();
    fputs(".SH OPTIONS\nOptions may stand before or after the file, as \\fB\\-\\-name value\\fR or "
          "\\fB\\-\\-name=value\\fR, and are not abbreviated.\nNumbers may carry a unit of their own: "
          "\\fB\\-\\-altitude \\(aq1500 m\\(aq\\fR.\n",
          stream);
    for (int group = 0; group < CLI_GROUPS; group++) {
        fprintf(stream, ".SS %s\n", cli_group_heading((cli_group)group));
        for (int i = 0; i < CLI_OPTION_COUNT; i++) {
            if (cli_option_rows[i].group == (cli_group)group && (used & CLI_BIT(i))) {
                print_option(stream, &cli_option_rows[i]);
            }
        }
    }
}

static void print_exit_codes(FILE *stream)
{
    static const struct {
        int code;
        const char *text;
    } row[] = {
#define EXIT_ROW(name, code, text) {code, text},
        LS_STATUS_LIST(EXIT_ROW)
#undef EXIT_ROW
    };
    fputs(".SH EXIT STATUS\n", stream);
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        fprintf(stream, ".TP\n.B %d\n%s\n", row[i].code, row[i].text);
    }
}

ls_status cli_manual_page(FILE *stream, const void *context, ls_error *error)
{
    (void)context;
    (void)error;
    fputs(".\\\" Made by 'liveside --manual-page'; edit src/cli, not this.\n", stream);
    fputs(".TH LIVESIDE 1 \"\" \"liveside " LS_VERSION "\" \"User Commands\"\n", stream);
    fputs(".SH NAME\nliveside \\- what happens to an aeroplane when one of its engines stops\n", stream);
    fputs(".SH SYNOPSIS\n.B liveside\n.I COMMAND\n[\\fIoptions\\fR]\n.I FILE\n", stream);
    print_paragraph(stream, ".SH DESCRIPTION",
                    "liveside works out, for an aeroplane described in a file, how slowly it can still be held "
                    "straight with an engine failed, which engine is the critical one, what limits it, and why.");
    print_paragraph(stream, ".PP",
                    "FILE is an aeroplane file; a name without a slash is looked for as a file, then as "
                    "aircraft/NAME.yaml, then among the demo aeroplanes that were installed. A file called - is "
                    "standard input.");
    print_paragraph(stream, ".PP", LS_CAUTION);
    print_commands(stream);
    print_options(stream);
    print_exit_codes(stream);
    print_paragraph(stream, ".SH ENVIRONMENT", "NO_COLOR: when set, nothing is printed in bold.");
    print_paragraph(
        stream, ".PP",
        "XDG_CACHE_HOME: propeller tables are kept in its folder liveside, or else in ~/.cache/liveside; "
        "they save time, and may be deleted.");
    return LS_OK;
}
