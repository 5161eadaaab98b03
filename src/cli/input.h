/* The aeroplane file that a command was given: found, read, checked, changed by --set. */
#ifndef LIVESIDE_CLI_INPUT_H
#define LIVESIDE_CLI_INPUT_H

#include "cli/options.h"
#include "liveside/file.h"
#include "liveside/parameter.h"

typedef struct {
    char path[LS_PATH_TEXT]; /* that was read */
    char sha256[LS_SHA256_TEXT];
    ls_aircraft aircraft;
    ls_marks marks;
    ls_findings findings;
    const ls_aircraft *shares; /* the tables of this one; null: they are its own */
} cli_input;

/* Finds and reads an aeroplane (a copy of the page's where the run has a page), applies --set, prints errors and
 * warnings to standard error, and makes the tables of its propellers; ends with cli_input_free whatever the
 * status. Status: LS_OK; LS_USAGE (--set); LS_FILE_REJECTED; LS_IO; LS_MEMORY. input is large: allocate it or make
 * it static to main, not on a small stack.
 */
ls_status cli_input_read(const cli_run *run, const char *name, cli_input *input, ls_error *error);

/* The same without --set and without a word: the findings are for the caller. */
ls_status cli_input_load(const cli_run *run, const char *name, cli_input *input, ls_error *error);

/* Frees the tables of a propeller; may be called on a zero-initialised input. */
void cli_input_free(cli_input *input);

/* Writes the aeroplane to the file of --aircraft, if that was given; never over the one that was read.
 * Status: LS_OK; LS_USAGE; LS_IO. */
ls_status cli_aircraft_save(const cli_run *run, const cli_input *input, ls_error *error);

/* Applies every --set of the options to an aircraft and checks it again.
 * Status: LS_OK; LS_USAGE (no such key, not a number or a choice, outside the key's range, or the aeroplane that
 * results is not one). */
ls_status cli_aircraft_set(const cli_options *options, ls_aircraft *aircraft, ls_marks *marks, ls_error *error);

#endif
