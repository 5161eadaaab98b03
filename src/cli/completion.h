/* Scripts that let a shell complete commands, options and values, from the tables of commands and options. */
#ifndef LIVESIDE_CLI_COMPLETION_H
#define LIVESIDE_CLI_COMPLETION_H

#include "cli/options.h"

#include <stdio.h>

/* Writes the script for a shell to standard output.
 * Given: shell: bash, zsh or fish. Status: LS_OK; LS_USAGE; LS_IO. */
ls_status cli_completion_print(const char *shell, ls_error *error);

/* What is offered as the value of an option. */
typedef enum { CLI_OFFER_NONE, CLI_OFFER_NOTHING, CLI_OFFER_WORDS, CLI_OFFER_FILES, CLI_OFFER_FOLDERS } cli_offer;

/* NONE: the option has no value; NOTHING: it has one that cannot be guessed. */
cli_offer cli_option_offer(const cli_option_row *row);

/* Whether a command takes an option. */
int cli_command_takes(const cli_command *command, int option);

/* Prints the words of a row, every spelling, with spaces between. */
void cli_offer_words(FILE *stream, const char *words);

/* Prints text for the inside of single quotes, and not past its first sentence; the letters of `escaped` get a
 * backslash, and the quote is ended and begun again (sh) or gets one too (fish, where `escaped` has it). */
void cli_offer_text(FILE *stream, const char *text, const char *escaped);

/* Writers for cli_write; context unused. */
ls_status cli_completion_bash(FILE *stream, const void *context, ls_error *error);
ls_status cli_completion_zsh(FILE *stream, const void *context, ls_error *error);
ls_status cli_completion_fish(FILE *stream, const void *context, ls_error *error);

#endif
