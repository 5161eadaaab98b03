#include "cli/append.h"
#include "cli/completion.h"
#include "cli/emit.h"
#include "cli/find.h"
#include "cli/help.h"
#include "cli/options.h"
#include "cli/progress.h"
#include "liveside/reader.h"
#include "liveside/text.h"

#include <ctype.h>
#include <gsl/gsl_errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { COMMAND_LINE = 4096, COMMANDS_MAX = 32 };

static int is_plain(const char *word)
{
    static const char *const marks = "_-+=%@:,./";
    if (*word == '\0') {
        return 0;
    }
    while (isalnum((unsigned char)*word) || (*word != '\0' && strchr(marks, *word) != NULL)) {
        word++;
    }
    return *word == '\0';
}

/* Adds a word as a shell would have to be given it. */
static void append_word(cli_buffer *to, const char *word)
{
    if (is_plain(word)) {
        cli_append(to, " %s", word);
        return;
    }
    cli_append(to, " '");
    for (; *word != '\0'; word++) {
        if (*word == '\'') {
            cli_append(to, "'\\''");
        } else {
            cli_append(to, "%c", *word);
        }
    }
    cli_append(to, "'");
}

static void join(int count, char *const *arguments, char *text, size_t size)
{
    cli_buffer to = {text, size, 0};
    cli_append(&to, "liveside");
    for (int i = 1; i < count; i++) {
        append_word(&to, arguments[i]);
    }
}

static ls_status no_such_command(const char *name, ls_error *error)
{
    const char *known[COMMANDS_MAX];
    int count = 0;
    for (; count < COMMANDS_MAX && cli_commands[count] != NULL; count++) {
        known[count] = cli_commands[count]->name;
    }
    int nearest = ls_text_nearest(name, known, count);
    if (nearest >= 0) {
        return ls_fail(error, LS_USAGE, "no command '%s'; did you mean 'liveside %s'?", name, known[nearest]);
    }
    return ls_fail(error, LS_USAGE, "no command '%s'; 'liveside' alone lists those there are", name);
}

static ls_status run_command(const cli_command *command, int count, char *const *arguments, ls_error *error)
{
    char command_line[COMMAND_LINE];
    cli_options options;
    ls_status status = cli_options_parse(command, count - 2, arguments + 2, &options, error);
    if (status != LS_OK) {
        return status;
    }
    if (cli_given(&options, CLI_HELP)) {
        return cli_write("-", cli_help_command, command, error);
    }
    join(count, arguments, command_line, sizeof command_line);
    cli_run run = {&options, command_line, arguments[0], NULL};
    status = command->run(&run, error);
    return status == LS_OK && cli_interrupted()
               ? ls_fail(error, LS_INTERRUPTED, "interrupted; the result is partial")
               : status;
}

static ls_status write_aircraft_page(FILE *stream, const void *context, ls_error *error)
{
    (void)context;
    (void)error;
    ls_aircraft_write_reference(stream);
    return LS_OK;
}

/* What the program says of itself. All but the first three are for the makefile and the completion of shells.
 * Returned: whether there is such a page. */
static int write_page(const char *name, const char *self, ls_status *status, ls_error *error)
{
    static const struct {
        const char *name;
        ls_status (*write)(FILE *stream, const void *context, ls_error *error);
    } page[] = {
        {"--help", cli_help_overview},
        {"-h", cli_help_overview},
        {"--version", cli_help_version},
        {"--manual-page", cli_manual_page},
        {"--aircraft-page", write_aircraft_page},
        {"--aeroplanes", cli_input_names},
    };
    for (size_t i = 0; i < sizeof page / sizeof page[0]; i++) {
        if (strcmp(name, page[i].name) == 0) {
            *status = cli_write("-", page[i].write, self, error);
            return 1;
        }
    }
    return 0;
}

/* `liveside --help`, `--version`, `help COMMAND`, or a command; and the pages that the makefile asks for. */
static ls_status choose(int count, char *const *arguments, ls_error *error)
{
    const char *first = count > 1 ? arguments[1] : "--help";
    ls_status status = LS_OK;
    if (strcmp(first, "help") == 0) {
        first = count > 2 ? arguments[2] : "--help";
        const cli_command *explained = cli_command_find(first);
        if (explained != NULL) {
            return cli_write("-", cli_help_command, explained, error);
        }
    }
    if (write_page(first, arguments[0], &status, error)) {
        return status;
    }
    if (strcmp(first, "--completion") == 0) {
        return cli_completion_print(count > 2 ? arguments[2] : "", error);
    }
    if (first[0] == '-') {
        return ls_fail(error, LS_USAGE, "a command comes first: liveside COMMAND [options] FILE");
    }
    const cli_command *command = cli_command_find(first);
    return command != NULL ? run_command(command, count, arguments, error) : no_such_command(first, error);
}

int main(int count, char **arguments)
{
    ls_error error = {0};
    cli_signals_install();
    gsl_set_error_handler_off(); /* its errors are answers here: without this it would abort the program */
    ls_status status = choose(count, arguments, &error);
    if (status != LS_OK) {
        char text[LS_ERROR_TEXT];
        ls_text_for_terminal(error.text[0] != '\0' ? error.text : ls_status_text(status), text, sizeof text);
        fprintf(stderr, "liveside: %s\n", text);
    }
    return ls_status_exit_code(status);
}
