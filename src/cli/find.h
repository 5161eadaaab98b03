/* Where aeroplanes are looked for by name. */
#ifndef LIVESIDE_CLI_FIND_H
#define LIVESIDE_CLI_FIND_H

#include "liveside/file.h"

#include <stdio.h>

/* Finds a name: a name without a slash as a file, then as aircraft/NAME.yaml, then in the installed folder.
 * Returned: path. Status: LS_OK; LS_IO when nothing is there, with the places looked at. */
ls_status cli_input_find(const char *name, const char *self, char path[LS_PATH_TEXT], ls_error *error);

/* Writer for cli_write: the names that can be given without a path, one a line, for the completion of shells;
 * context is the program's own argv[0]. A name with anything but letters, digits, '_', '-' and '.' is left out,
 * for shells expand what they are offered. */
ls_status cli_input_names(FILE *stream, const void *context, ls_error *error);

#endif
