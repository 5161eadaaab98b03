#include "cli/completion.h"

#include "cli/emit.h"

#include <string.h>

cli_offer cli_option_offer(const cli_option_row *row)
{
    if (row->kind == CLI_FLAG) {
        return CLI_OFFER_NONE;
    }
    if (row->words != NULL && row->kind != CLI_SIDED) {
        return CLI_OFFER_WORDS;
    }
    return strcmp(row->argument, "FILE") == 0     ? CLI_OFFER_FILES
           : strcmp(row->argument, "FOLDER") == 0 ? CLI_OFFER_FOLDERS
                                                  : CLI_OFFER_NOTHING;
}

int cli_command_takes(const cli_command *command, int option)
{
    return ((command->options | CLI_ALWAYS) & CLI_BIT(option)) != 0;
}

void cli_offer_words(FILE *stream, const char *words)
{
    for (; *words != '\0'; words++) {
        fputc(*words == '|' || *words == ',' ? ' ' : *words, stream);
    }
}

/* Up to the first mark that ends a sentence or a part of one, without it. */
static size_t first_sentence(const char *text)
{
    size_t length = 0;
    while (text[length] != '\0' &&
           !(strchr(".;", text[length]) != NULL && (text[length + 1] == ' ' || text[length + 1] == '\0'))) {
        length++;
    }
    return length;
}

void cli_offer_text(FILE *stream, const char *text, const char *escaped)
{
    size_t length = first_sentence(text);
    for (size_t i = 0; i < length; i++) {
        if (strchr(escaped, text[i]) != NULL) {
            fprintf(stream, "\\%c", text[i]);
        } else if (text[i] == '\'') {
            fputs("'\\''", stream);
        } else {
            fputc(text[i], stream);
        }
    }
}

ls_status cli_completion_print(const char *shell, ls_error *error)
{
    static const struct {
        const char *shell;
        ls_status (*write)(FILE *stream, const void *context, ls_error *error);
    } row[] = {{"bash", cli_completion_bash}, {"zsh", cli_completion_zsh}, {"fish", cli_completion_fish}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        if (strcmp(row[i].shell, shell) == 0) {
            return cli_write("-", row[i].write, NULL, error);
        }
    }
    return ls_fail(error, LS_USAGE, "--completion takes bash, zsh or fish, not '%s'", shell);
}
