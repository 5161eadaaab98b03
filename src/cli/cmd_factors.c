#include "cli/commands.h"
#include "cli/condition.h"
#include "cli/emit.h"
#include "cli/job.h"
#include "cli/plot.h"
#include "cli/progress.h"
#include "report/factors_report.h"

/* Everything of one run. */
typedef struct {
    cli_input input; /* first: cli_job_run fills it */
    ls_vmca_request request;
    ls_factors factors;
    ls_factors_view view;
    ls_chart chart; /* --plot */
} job;

static ls_status solve(const cli_run *run, void *of, ls_error *error)
{
    job *it = of;
    const cli_options *options = run->options;
    ls_status status = cli_request_make(options, &it->input.aircraft, &it->request, error);
    if (status == LS_OK && it->request.set[0] == 0) {
        return ls_fail(error, LS_USAGE, "--failed none: these factors are of a failed engine");
    }
    if (status != LS_OK) {
        return status;
    }
    cli_progress progress;
    ls_watch watch = {cli_progress_show, cli_progress_stop, &progress};
    cli_progress_begin(&progress, "factors");
    status = ls_factors_solve(&it->input.aircraft, &it->input.marks, &it->request, &watch, &it->factors, error);
    cli_progress_end(&progress);
    return status;
}

static ls_status plot(const cli_run *run, job *it, const char *condition, ls_report *sheet, ls_error *error)
{
    cli_plot plot;
    ls_status status = cli_plot_start(run, &it->input, condition, sheet, &plot, error);
    if (status != LS_OK || plot.folder == NULL) {
        return status;
    }
    ls_chart_of_factors(&it->chart, &it->view, cli_given(run->options, CLI_SLIDE));
    return cli_plot_add(&plot, &it->chart, "each factor by size", error);
}

static ls_status report(const cli_run *run, void *of, ls_error *error)
{
    job *it = of;
    char condition[CLI_CONDITION_TEXT];
    const cli_input *input = &it->input;
    cli_condition_text(&it->input.aircraft, &it->factors.condition, run->options, 0, condition, sizeof condition);
    it->view = (ls_factors_view){.aircraft = &it->input.aircraft,
                                 .factors = &it->factors,
                                 .units = run->options->units,
                                 .uncertain = ls_marks_uncertain(&it->input.aircraft, &it->input.marks),
                                 .full = cli_given(run->options, CLI_FULL)};
    ls_report *sheet = ls_report_new();
    if (sheet == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    ls_factors_report(sheet, &it->view);
    ls_report_line(sheet, "Condition: %s.", condition);
    ls_status status = plot(run, it, condition, sheet, error);
    status = status == LS_OK ? cli_emit(run, sheet, &input, 1, condition, error) : status;
    ls_report_free(sheet);
    return status;
}

static ls_status run(const cli_run *run, ls_error *error)
{
    static const cli_job steps = {sizeof(job), solve, report, NULL};
    return cli_job_run(run, &steps, error);
}

const cli_command cli_command_factors = {
    .name = "factors",
    .question = "What raises and what lowers the minimum control speed?",
    .summary =
        "Works out every factor that is taught: for a stated step of each the change of minimum control speed "
        "and of the climb on one engine, what is usually taught, and where this aeroplane disagrees and why. "
        "What the file has no data for is said to be not modelled, and a change smaller than its uncertainty "
        "says so. Left out, the critical engine is dead, weight and centre of gravity are the least "
        "favourable, and the bank is the limit.",
    .example = "liveside factors whimbrel",
    .options = CLI_FILE_BITS | CLI_CONDITION_BITS | CLI_BIT(CLI_FULL) | CLI_BIT(CLI_PLOT) | CLI_BIT(CLI_SLIDE),
    .files_min = 1,
    .files_max = 1,
    .run = run,
};
