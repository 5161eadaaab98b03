#include "cli/completion.h"

/* Letters that mean something inside single quotes. */
#define MARKS "\\'"

static const char head[] =
    "# Completion of liveside for fish; made by `liveside --completion fish`.\n"
    "function __liveside_in --description 'The command is one of these'\n"
    "    set -l words (commandline -opc)\n"
    "    test (count $words) -gt 1; and contains -- $words[2] $argv\n"
    "end\n"
    "function __liveside_first --description 'No command yet'\n"
    "    test (count (commandline -opc)) -eq 1\n"
    "end\n"
    "function __liveside_aeroplanes --description 'Demo aeroplanes, and those in aircraft/'\n"
    "    set -l words (commandline -opc)\n"
    "    command $words[1] --aeroplanes 2>/dev/null\n"
    "end\n"
    "complete -c liveside -f\n"
    "complete -c liveside -n __liveside_first -l help -d 'Show the commands'\n"
    "complete -c liveside -n __liveside_first -l version -d 'Show the version'\n"
    "complete -c liveside -n __liveside_first -a help -d 'Explain a command'\n";

/* The names of commands that take an option; every one for -1. */
static void print_takers(FILE *stream, int option)
{
    for (const cli_command *const *command = cli_commands; *command != NULL; command++) {
        if (option < 0 || cli_command_takes(*command, option)) {
            fprintf(stream, " %s", (*command)->name);
            if ((*command)->alias != NULL) {
                fprintf(stream, " %s", (*command)->alias);
            }
        }
    }
}

static int has_takers(int option)
{
    for (const cli_command *const *command = cli_commands; *command != NULL; command++) {
        if (cli_command_takes(*command, option)) {
            return 1;
        }
    }
    return 0;
}

static void print_option(FILE *stream, int option)
{
    static const char *const value[] = {[CLI_OFFER_NONE] = "",
                                        [CLI_OFFER_NOTHING] = " -x",
                                        [CLI_OFFER_WORDS] = " -x -a '",
                                        [CLI_OFFER_FILES] = " -r -F",
                                        [CLI_OFFER_FOLDERS] = " -x -a '(__fish_complete_directories)'"};
    const cli_option_row *row = &cli_option_rows[option];
    cli_offer offer = cli_option_offer(row);
    fputs("complete -c liveside -n '__liveside_in", stream);
    print_takers(stream, option);
    fprintf(stream, "' -l %s%s", row->name, value[offer]);
    if (offer == CLI_OFFER_WORDS) {
        cli_offer_words(stream, row->words);
        fputc('\'', stream);
    }
    fputs(" -d '", stream);
    cli_offer_text(stream, row->meaning, MARKS);
    fputs("'\n", stream);
}

ls_status cli_completion_fish(FILE *stream, const void *context, ls_error *error)
{
    (void)context;
    (void)error;
    fputs(head, stream);
    for (const cli_command *const *command = cli_commands; *command != NULL; command++) {
        fprintf(stream, "complete -c liveside -n '__liveside_first; or __liveside_in help' -a %s -d '",
                (*command)->name);
        cli_offer_text(stream, (*command)->question, MARKS);
        fputs("'\n", stream);
    }
    fputs("complete -c liveside -n '__liveside_in", stream);
    print_takers(stream, -1);
    fputs("' -F -a '(__liveside_aeroplanes)'\n", stream);
    for (int i = 0; i < CLI_OPTION_COUNT; i++) {
        if (has_takers(i)) {
            print_option(stream, i);
        }
    }
    return LS_OK;
}
