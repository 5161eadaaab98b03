#include "cli/completion.h"

/* What stands before a word decides: an option that has a value, or nothing of the kind. Bash gives
 * `--name=value` as three words. */
static const char head[] =
    "# Completion of liveside for bash; made by `liveside --completion bash`.\n"
    "_liveside()\n"
    "{\n"
    "    local program=$1 current=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]}\n"
    "    local options='' words='' kind=file\n"
    "    COMPREPLY=()\n"
    "    if [[ $current == '=' ]]; then\n"
    "        current=''\n"
    "    elif [[ $before == '=' ]]; then\n"
    "        before=${COMP_WORDS[COMP_CWORD - 2]}\n"
    "    fi\n"
    "    if ((COMP_CWORD == 1)); then\n"
    "        kind=words words='";

static const char tail[] =
    "    *)\n"
    "        return 0 ;;\n"
    "    esac\n"
    "    fi\n"
    "    if [[ $kind == file && $current == -* ]]; then\n"
    "        kind=words words=$options\n"
    "    fi\n"
    "    case $kind in\n"
    "    words)\n"
    "        mapfile -t COMPREPLY < <(compgen -W \"$words\" -- \"$current\") ;;\n"
    "    file)\n"
    "        words=$(\"$program\" --aeroplanes 2>/dev/null)\n"
    "        compopt -o filenames\n"
    "        mapfile -t COMPREPLY < <(compgen -W \"$words\" -- \"$current\"; compgen -f -- \"$current\") ;;\n"
    "    path)\n"
    "        compopt -o filenames\n"
    "        mapfile -t COMPREPLY < <(compgen -f -- \"$current\") ;;\n"
    "    folder)\n"
    "        compopt -o filenames\n"
    "        mapfile -t COMPREPLY < <(compgen -d -- \"$current\") ;;\n"
    "    esac\n"
    "}\n"
    "complete -F _liveside liveside\n";

static void print_commands(FILE *stream)
{
    const char *between = "";
    for (const cli_command *const *command = cli_commands; *command != NULL; command++) {
        fprintf(stream, "%s%s", between, (*command)->name);
        between = " ";
    }
}

/* A branch for the options of a command whose value is of one kind. */
static void print_branch(FILE *stream, const cli_command *command, cli_offer offer, const char *does)
{
    const char *between = "        ";
    for (int i = 0; i < CLI_OPTION_COUNT; i++) {
        if (cli_command_takes(command, i) && cli_option_offer(&cli_option_rows[i]) == offer) {
            fprintf(stream, "%s--%s", between, cli_option_rows[i].name);
            between = " | ";
        }
    }
    if (between[1] == '|') {
        fprintf(stream, ") %s ;;\n", does);
    }
}

static void print_values(FILE *stream, const cli_command *command)
{
    for (int i = 0; i < CLI_OPTION_COUNT; i++) {
        const cli_option_row *row = &cli_option_rows[i];
        if (cli_command_takes(command, i) && cli_option_offer(row) == CLI_OFFER_WORDS) {
            fprintf(stream, "        --%s) kind=words words='", row->name);
            cli_offer_words(stream, row->words);
            fputs("' ;;\n", stream);
        }
    }
    print_branch(stream, command, CLI_OFFER_FILES, "kind=path");
    print_branch(stream, command, CLI_OFFER_FOLDERS, "kind=folder");
    print_branch(stream, command, CLI_OFFER_NOTHING, "return 0");
}

static void print_command(FILE *stream, const cli_command *command)
{
    fprintf(stream, "    %s%s%s)\n        options='", command->name, command->alias != NULL ? " | " : "",
            command->alias != NULL ? command->alias : "");
    const char *between = "";
    for (int i = 0; i < CLI_OPTION_COUNT; i++) {
        if (cli_command_takes(command, i)) {
            fprintf(stream, "%s--%s", between, cli_option_rows[i].name);
            between = " ";
        }
    }
    fputs("'\n        case $before in\n", stream);
    print_values(stream, command);
    fputs("        esac ;;\n", stream);
}

ls_status cli_completion_bash(FILE *stream, const void *context, ls_error *error)
{
    (void)context;
    (void)error;
    fputs(head, stream);
    print_commands(stream);
    fputs(" help --help --version'\n    else case ${COMP_WORDS[1]} in\n    help)\n        kind=words words='",
          stream);
    print_commands(stream);
    fputs("' ;;\n", stream);
    for (const cli_command *const *command = cli_commands; *command != NULL; command++) {
        print_command(stream, *command);
    }
    fputs(tail, stream);
    return LS_OK;
}
