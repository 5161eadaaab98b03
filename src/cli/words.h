/* The values of options: words and numbers with units. */
#ifndef LIVESIDE_CLI_WORDS_H
#define LIVESIDE_CLI_WORDS_H

#include "cli/options.h"

#include <stddef.h>

/* Reads the value of an option from its text, by the option's row.
 * Returned: word and si of value; of an option that repeats, the words of all its texts are bits of `word`.
 * Status: LS_OK; LS_USAGE. */
ls_status cli_value_read(int option, ls_unit_system units, cli_value *value, ls_error *error);

/* The index of a text among words "a|b,other spelling of b|c", or -1. */
int cli_word_find(const char *words, const char *text);

/* The words as a reader takes them: "up, down", without other spellings. */
void cli_words_print(const char *words, char *out, size_t size);

/* A number of a row in the unit that a bare one takes: "3803 lb". */
void cli_number_print(const cli_option_row *row, ls_unit_system units, double si, char *out, size_t size);

#endif
