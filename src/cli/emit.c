#include "cli/emit.h"

#include "cli/page.h"
#include "cli/progress.h"
#include "liveside/text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define META ".meta.json"

typedef struct {
    const ls_report *report;
    const ls_run *run;
    ls_format format;
    int bold;
} job;

ls_format cli_format(const cli_options *options)
{
    return cli_given(options, CLI_FORMAT) ? (ls_format)options->value[CLI_FORMAT].word : LS_FORMAT_TEXT;
}

ls_status cli_write(const char *path, ls_status (*write)(FILE *stream, const void *context, ls_error *error),
                    const void *context, ls_error *error)
{
    ls_output output;
    ls_status status = ls_output_open(&output, path, error);
    if (status != LS_OK) {
        return status;
    }
    cli_signals_guard(&output);
    status = write(output.stream, context, error);
    if (status == LS_OK) {
        status = ls_output_commit(&output, error);
    } else {
        ls_output_abandon(&output);
    }
    cli_signals_guard(NULL);
    return status;
}

static ls_status write_report(FILE *stream, const void *context, ls_error *error)
{
    const job *it = context;
    return ls_report_write(it->report, it->run, it->format, it->bold, stream, error);
}

static ls_status write_description(FILE *stream, const void *context, ls_error *error)
{
    const job *it = context;
    return ls_report_describe(it->report, it->run, stream, error);
}

/* Bold type only for a person at a terminal who has not asked for plain text. */
static int may_be_bold(const char *path)
{
    const char *no_color = getenv("NO_COLOR");
    const char *term = getenv("TERM");
    return strcmp(path, "-") == 0 && isatty(STDOUT_FILENO) && (no_color == NULL || no_color[0] == '\0') &&
           term != NULL && strcmp(term, "dumb") != 0;
}

/* Nothing stands beside a device or a pipe. */
static int is_file_to_be(const char *path)
{
    struct stat about;
    return strcmp(path, "-") != 0 && (stat(path, &about) != 0 || S_ISREG(about.st_mode));
}

static ls_status describe_csv(const job *it, const char *path, ls_error *error)
{
    char beside[LS_PATH_TEXT + sizeof META];
    if (!is_file_to_be(path)) {
        return write_description(stderr, it, error);
    }
    snprintf(beside, sizeof beside, "%s" META, path);
    return cli_write(beside, write_description, it, error);
}

ls_status cli_spare_inputs(const char *path, const cli_input *const *inputs, int n, ls_error *error)
{
    struct stat target, input;
    for (int i = 0; i < n; i++) {
        if (stat(path, &target) == 0 && S_ISREG(target.st_mode) && stat(inputs[i]->path, &input) == 0 &&
            target.st_dev == input.st_dev && target.st_ino == input.st_ino) {
            return ls_fail(error, LS_USAGE, "--output %s would replace the aeroplane that was read", path);
        }
    }
    return LS_OK;
}

ls_status cli_emit(const cli_run *run, const ls_report *report, const cli_input *const *inputs, int n,
                   const char *condition, ls_error *error)
{
    const char *path = cli_given(run->options, CLI_OUTPUT) ? cli_text(run->options, CLI_OUTPUT) : "-";
    ls_run about = {.command_line = run->command_line, .condition = condition, .units = run->options->units};
    for (int i = 0; i < n && i < LS_INPUTS_MAX; i++) {
        about.input[about.inputs++] = (ls_run_input){inputs[i]->path, inputs[i]->sha256};
    }
    job it = {report, &about, cli_format(run->options), may_be_bold(path)};
    if (run->page != NULL) {
        return cli_page_take(run->page, report, run->options->units, error);
    }
    ls_status status = cli_spare_inputs(path, inputs, n, error);
    status = status == LS_OK ? cli_write(path, write_report, &it, error) : status;
    return status == LS_OK && it.format == LS_FORMAT_CSV ? describe_csv(&it, path, error) : status;
}
