#include "cli/commands.h"
#include "cli/emit.h"
#include "cli/find.h"
#include "cli/input.h"
#include "liveside/estimate.h"
#include "liveside/reader.h"
#include "report/estimate_report.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Everything of one run; large, so it lives on the heap. The file's path, hash and findings, and the aeroplane
 * made of it, go together in `input`. */
typedef struct {
    ls_geometry_input geometry;
    cli_input input;
    ls_estimate estimate;
    ls_estimate_check check;
} job;

static ls_status write_aircraft(FILE *stream, const void *context, ls_error *error)
{
    const cli_input *input = context;
    (void)error;
    ls_aircraft_write(stream, &input->aircraft, &input->marks);
    return LS_OK;
}

ls_status cli_aircraft_save(const cli_run *run, const cli_input *input, ls_error *error)
{
    const char *path = cli_text(run->options, CLI_AIRCRAFT);
    if (path == NULL) {
        return LS_OK;
    }
    if (strcmp(path, input->path) == 0) {
        return ls_fail(error, LS_USAGE, "--aircraft %s would replace the file that was read", path);
    }
    return cli_write(path, write_aircraft, input, error);
}

static ls_status solve(const cli_run *run, job *it, ls_error *error)
{
    const char *name = run->options->file[0];
    ls_status status = cli_input_find(name, run->self, it->input.path, error);
    if (status == LS_OK) {
        status = ls_geometry_read(it->input.path, &it->geometry, &it->input.findings, it->input.sha256, error);
        ls_findings_print(stderr, it->input.path, &it->input.findings, LS_WARNING);
    }
    if (status == LS_OK) {
        status = ls_estimate_make(&it->geometry, &it->input.aircraft, &it->input.marks, &it->estimate, error);
    }
    status = status == LS_OK ? ls_estimate_fly(&it->input.aircraft, &it->geometry, &it->check, error) : status;
    return status == LS_OK ? cli_aircraft_save(run, &it->input, error) : status;
}

static ls_status report(const cli_run *run, job *it, ls_error *error)
{
    ls_estimate_view view = {.input = &it->geometry,
                             .aircraft = &it->input.aircraft,
                             .estimate = &it->estimate,
                             .check = &it->check,
                             .written = cli_text(run->options, CLI_AIRCRAFT),
                             .units = run->options->units};
    const cli_input *input = &it->input;
    ls_report *sheet = ls_report_new();
    if (sheet == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    ls_estimate_report(sheet, &view);
    ls_status status = cli_emit(run, sheet, &input, 1, NULL, error);
    ls_report_free(sheet);
    return status;
}

static ls_status run(const cli_run *run, ls_error *error)
{
    job *it = calloc(1, sizeof *it);
    if (it == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    ls_status status = solve(run, it, error);
    status = status == LS_OK ? report(run, it, error) : status;
    free(it);
    return status;
}

const cli_command cli_command_estimate = {
    .name = "estimate",
    .question = "How do I get a file from dimensions, or from a handbook?",
    .summary =
        "Estimates a whole aeroplane file by handbook methods, each number with its parts, method and spread, "
        "from a file of dimensions (level: geometry) or of a few handbook numbers (level: handbook). "
        "docs/tutorial.md goes through it. --aircraft writes the file that the other commands take.",
    .example = "liveside estimate dimensions.yaml --aircraft mytwin.yaml",
    .options = CLI_BIT(CLI_UNITS) | CLI_BIT(CLI_FORMAT) | CLI_BIT(CLI_OUTPUT) | CLI_BIT(CLI_AIRCRAFT),
    .files_min = 1,
    .files_max = 1,
    .run = run,
};
