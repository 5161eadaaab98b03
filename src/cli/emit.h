/* From a finished report to standard output or the file that was asked for. */
#ifndef LIVESIDE_CLI_EMIT_H
#define LIVESIDE_CLI_EMIT_H

#include "cli/input.h"
#include "cli/options.h"
#include "report/report.h"

/* Writes a report as --format and --output ask, with the description beside CSV.
 * Given: inputs, n aeroplanes that the report rests on (n may be 0); condition, its line, or null.
 * Status: LS_OK; LS_IO; LS_MEMORY. */
ls_status cli_emit(const cli_run *run, const ls_report *report, const cli_input *const *inputs, int n,
                   const char *condition, ls_error *error);

/* Refuses to write over an aeroplane that was read. Status: LS_OK; LS_USAGE. */
ls_status cli_spare_inputs(const char *path, const cli_input *const *inputs, int n, ls_error *error);

/* The format asked for. */
ls_format cli_format(const cli_options *options);

/* Writes text that is not a report (help, a starter file, the manual page) to a path or "-".
 * Given: write, prints to the stream; context, handed on. */
ls_status cli_write(const char *path, ls_status (*write)(FILE *stream, const void *context, ls_error *error),
                    const void *context, ls_error *error);

#endif
