/* Help and the manual page, both from the tables of commands and options. */
#ifndef LIVESIDE_CLI_HELP_H
#define LIVESIDE_CLI_HELP_H

#include "cli/options.h"

#include <stdio.h>

/* Writers for cli_write: the list of commands (context unused), one command (context is it), the version, and the
 * manual page in man(7) form. */
ls_status cli_help_overview(FILE *stream, const void *context, ls_error *error);
ls_status cli_help_command(FILE *stream, const void *context, ls_error *error);
ls_status cli_help_version(FILE *stream, const void *context, ls_error *error);
ls_status cli_manual_page(FILE *stream, const void *context, ls_error *error);

/* What an option's value may be and what unit a bare number has, as sentences; "" when there is nothing to say. */
void cli_option_notes(const cli_option_row *row, char *out, size_t size);

/* The heading of a group of options. */
const char *cli_group_heading(cli_group group);

/* "FILE", "[FILE]", "FILE...", "" by the number of files that a command takes. */
const char *cli_files_text(const cli_command *command);

#endif
