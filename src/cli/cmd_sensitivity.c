#include "cli/base.h"
#include "cli/commands.h"
#include "cli/condition.h"
#include "cli/emit.h"
#include "cli/plot.h"
#include "cli/progress.h"
#include "report/sensitivity_report.h"

#include <stdlib.h>

/* Everything of one run; large, so it lives on the heap. */
typedef struct {
    cli_input input;
    cli_base base;
    ls_inputs inputs;
    ls_sensitivity_request request;
    ls_sensitivity sensitivity;
    ls_sensitivity_view view;
    ls_chart chart;
} job;

static ls_status solve(const cli_options *options, job *it, ls_error *error)
{
    ls_status status = cli_base_find(options, &it->input.aircraft, &it->base, error);
    if (status != LS_OK) {
        return status;
    }
    it->request = (ls_sensitivity_request){.aircraft = &it->input.aircraft,
                                           .condition = it->base.condition,
                                           .failed = it->base.failed,
                                           .bank_rad = it->base.bank_rad};
    if (cli_given(options, CLI_SPEED)) {
        it->request.cas_m_s = options->value[CLI_SPEED].si;
    }
    if (cli_given(options, CLI_STEP)) {
        it->request.step_share = options->value[CLI_STEP].si;
    }
    ls_inputs_list(&it->input.aircraft, &it->input.marks, &it->request.condition, it->request.bank_rad,
                   &it->inputs);
    cli_progress progress;
    ls_watch watch = {cli_progress_show, cli_progress_stop, &progress};
    cli_progress_begin(&progress, "sensitivity");
    status = ls_sensitivity_solve(&it->request, &it->inputs, &watch, &it->sensitivity, error);
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
    ls_chart_of_sensitivity(&it->chart, &it->view, cli_given(run->options, CLI_SLIDE));
    return cli_plot_add(&plot, &it->chart, "the largest changes, each way", error);
}

static ls_status report(const cli_run *run, job *it, int is_partial, ls_error *error)
{
    char condition[CLI_CONDITION_TEXT];
    const cli_input *input = &it->input;
    const cli_options *options = run->options;
    cli_condition_text(&it->input.aircraft, &it->request.condition, options, 0, condition, sizeof condition);
    it->view = (ls_sensitivity_view){.aircraft = &it->input.aircraft,
                                     .request = &it->request,
                                     .sensitivity = &it->sensitivity,
                                     .by = cli_given(options, CLI_BY) ? (ls_result)options->value[CLI_BY].word
                                                                      : LS_RESULT_VMC,
                                     .units = options->units,
                                     .uncertain = ls_marks_uncertain(&it->input.aircraft, &it->input.marks),
                                     .full = cli_given(options, CLI_FULL),
                                     .is_partial = is_partial};
    ls_sensitivity_sort(&it->sensitivity, it->view.by);
    ls_report *sheet = ls_report_new();
    if (sheet == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    if (is_partial) {
        ls_report_warning(sheet, "The run was stopped: these are the %d of %d inputs worked out until then.",
                          it->sensitivity.count, it->inputs.count);
    }
    ls_report_flag(sheet, "partial", is_partial);
    ls_sensitivity_report(sheet, &it->view);
    ls_report_line(sheet, "Condition: %s.", condition);
    ls_status status = plot(run, it, condition, sheet, error);
    status = status == LS_OK ? cli_emit(run, sheet, &input, 1, condition, error) : status;
    ls_report_free(sheet);
    return status;
}

static ls_status run(const cli_run *run, ls_error *error)
{
    job *it = calloc(1, sizeof *it);
    if (it == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    ls_status status = cli_input_read(run, run->options->file[0], &it->input, error);
    status = status == LS_OK ? solve(run->options, it, error) : status;
    int is_partial = status == LS_INTERRUPTED && it->sensitivity.count > 0;
    if (status == LS_OK || is_partial) {
        ls_error why = {0};
        ls_status reported = report(run, it, is_partial, &why);
        status = reported != LS_OK ? ls_fail(error, reported, "%s", why.text) : status;
    }
    ls_sensitivity_free(&it->sensitivity);
    cli_input_free(&it->input);
    free(it);
    return status;
}

const cli_command cli_command_sensitivity = {
    .name = "sensitivity",
    .question = "Which number matters?",
    .summary = "Works out how the minimum control speed, the climb on one engine and the bank without sideslip "
               "follow every "
               "number of the file and of the condition: the change for a step of each, the slope with its "
               "accuracy, and the "
               "elasticity, the largest first. It starts from the answer of vmca. --speed is the climb's; left "
               "out, the best "
               "rate of climb. Blade geometry needs a new propeller table for every value, which takes its time.",
    .example = "liveside sensitivity whimbrel --step 5",
    .options = CLI_FILE_BITS | CLI_CONDITION_BITS | CLI_BIT(CLI_SPEED) | CLI_BIT(CLI_STEP) | CLI_BIT(CLI_BY) |
               CLI_BIT(CLI_FULL) | CLI_BIT(CLI_PLOT) | CLI_BIT(CLI_SLIDE),
    .files_min = 1,
    .files_max = 1,
    .run = run,
};
