#include "cli/completion.h"

/* Letters that mean something in a specification of _arguments or _describe. */
#define MARKS "\\[]:"

static const char head[] =
    "#compdef liveside\n"
    "# Completion of liveside for zsh; made by `liveside --completion zsh`.\n"
    "_liveside_aeroplanes()\n"
    "{\n"
    "    local -a names\n"
    "    names=(${(f)\"$(_call_program aeroplanes ${(q)liveside_program} --aeroplanes 2>/dev/null)\"})\n"
    "    _alternative \"aeroplanes:demo aeroplane:($names)\" 'files:file:_files'\n"
    "}\n"
    "_liveside()\n"
    "{\n"
    "    local liveside_program=$words[1]\n"
    "    local -a commands\n"
    "    commands=(\n";

static const char choice[] = "    )\n"
                             "    if ((CURRENT == 2)); then\n"
                             "        _describe command commands\n"
                             "        compadd -- help --help --version\n"
                             "        return\n"
                             "    fi\n"
                             "    shift words\n"
                             "    ((CURRENT--))\n"
                             "    case $words[1] in\n"
                             "    help)\n"
                             "        _describe command commands ;;\n";

static void print_option(FILE *stream, const cli_option_row *row)
{
    cli_offer offer = cli_option_offer(row);
    fprintf(stream, "            '%s--%s%s[", row->repeats ? "*" : "", row->name,
            offer == CLI_OFFER_NONE ? "" : "=");
    cli_offer_text(stream, row->meaning, MARKS);
    fputc(']', stream);
    if (offer != CLI_OFFER_NONE) {
        fputc(':', stream);
        cli_offer_text(stream, row->argument, MARKS);
    }
    if (offer == CLI_OFFER_WORDS) {
        fputs(":(", stream);
        cli_offer_words(stream, row->words);
        fputc(')', stream);
    } else if (offer != CLI_OFFER_NONE) {
        fputs(offer == CLI_OFFER_FILES ? ":_files" : offer == CLI_OFFER_FOLDERS ? ":_files -/" : ": ", stream);
    }
    fputs("' \\\n", stream);
}

static void print_command(FILE *stream, const cli_command *command)
{
    fprintf(stream, "    %s%s%s)\n        _arguments \\\n", command->name, command->alias != NULL ? "|" : "",
            command->alias != NULL ? command->alias : "");
    for (int i = 0; i < CLI_OPTION_COUNT; i++) {
        if (cli_command_takes(command, i)) {
            print_option(stream, &cli_option_rows[i]);
        }
    }
    fputs("            '*:FILE:_liveside_aeroplanes' ;;\n", stream);
}

ls_status cli_completion_zsh(FILE *stream, const void *context, ls_error *error)
{
    (void)context;
    (void)error;
    fputs(head, stream);
    for (const cli_command *const *command = cli_commands; *command != NULL; command++) {
        fprintf(stream, "        '%s:", (*command)->name);
        cli_offer_text(stream, (*command)->question, MARKS);
        fputs("'\n", stream);
    }
    fputs(choice, stream);
    for (const cli_command *const *command = cli_commands; *command != NULL; command++) {
        print_command(stream, *command);
    }
    /* The file may be run as the function itself, or be read once. */
    fputs("    esac\n}\nif [[ $funcstack[1] == _liveside ]]; then\n    _liveside \"$@\"\nelse\n"
          "    compdef _liveside liveside\nfi\n",
          stream);
    return LS_OK;
}
