/* The example in the help of each command, made ready to be run in process on a small aeroplane, so that a test
 * can go through every command that there is. */
#ifndef LIVESIDE_TESTS_EXAMPLES_H
#define LIVESIDE_TESTS_EXAMPLES_H

#include "cli/options.h"

enum { EXAMPLE_WORDS = 32, EXAMPLE_TEXT = 1024 };

typedef struct {
    const cli_command *command;
    char text[EXAMPLE_TEXT]; /* of the words, one after the other */
    int count;
    char *word[EXAMPLE_WORDS]; /* after the command's name */
    cli_options options;
    cli_run run;
} example;

/* Makes an example ready: its aeroplane becomes `file`, other files that it reads some of tests/data, what it
 * writes goes to `out` as text, its charts to the folder `plot` (null: none, though it may ask for them). `more`
 * are further words with spaces between, or "". It refers to itself: do not copy it. Fails the test when the words
 * are refused. */
void example_make(const cli_command *command, const char *file, const char *out, const char *plot,
                  const char *more, example *to);

/* Runs it, without its words on standard error. Returned: the status of the command. */
ls_status example_run(example *it, ls_error *error);

#endif
