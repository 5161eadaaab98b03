#include "cli/commands.h"
#include "cli/condition.h"
#include "cli/emit.h"
#include "cli/job.h"
#include "cli/plot.h"
#include "report/explain_charts.h"

#include <math.h>

/* Everything of one run. */
typedef struct {
    cli_input input; /* first: cli_job_run fills it */
    ls_vmca_request request;
    ls_breakdown breakdown;
    ls_explain_view view;
    ls_chart chart; /* --plot */
} job;

static ls_status solve(const cli_run *run, void *of, ls_error *error)
{
    job *it = of;
    const cli_options *options = run->options;
    double cas_m_s = cli_given(options, CLI_SPEED) ? options->value[CLI_SPEED].si : 0.0;
    ls_status status = cli_request_make(options, &it->input.aircraft, &it->request, error);
    if (status == LS_OK && it->request.set[0] == 0) {
        return ls_fail(error, LS_USAGE, "--failed none: to explain a failure an engine must fail");
    }
    return status == LS_OK ? ls_breakdown_solve(&it->input.aircraft, &it->request, cas_m_s, &it->breakdown, error)
                           : status;
}

static ls_status draw(cli_plot *plot, job *it, int slide, ls_error *error)
{
    int critical = it->breakdown.critical[LS_ROTATION_FILE], side = critical > 0 ? critical : 0;
    ls_chart_of_moments(&it->chart, &it->view, 0, slide);
    ls_status status = cli_plot_add(plot, &it->chart, "yaw by cause, one failure beside the other", error);
    if (status == LS_OK) {
        ls_chart_of_moments(&it->chart, &it->view, 1, slide);
        status = cli_plot_add(plot, &it->chart, "roll by cause, one failure beside the other", error);
    }
    if (status == LS_OK && it->breakdown.side[side].status == LS_OK) {
        ls_chart_from_above(&it->chart, &it->view, side, slide);
        status = cli_plot_add(plot, &it->chart, "the forces from above, to scale", error);
    }
    if (status == LS_OK && it->breakdown.side[side].status == LS_OK) {
        ls_chart_from_behind(&it->chart, &it->view, side, slide);
        status = cli_plot_add(plot, &it->chart, "the forces from behind, to scale", error);
    }
    return status;
}

static ls_status plot(const cli_run *run, job *it, const char *condition, ls_report *sheet, ls_error *error)
{
    cli_plot plot;
    ls_status status = cli_plot_start(run, &it->input, condition, sheet, &plot, error);
    if (status != LS_OK || plot.folder == NULL) {
        return status;
    }
    return draw(&plot, it, cli_given(run->options, CLI_SLIDE), error);
}

static ls_status report(const cli_run *run, void *of, ls_error *error)
{
    job *it = of;
    char condition[CLI_CONDITION_TEXT];
    const cli_input *input = &it->input;
    ls_condition shown = it->request.condition;
    shown.mass_kg = it->breakdown.side[0].condition.mass_kg;
    shown.cg_aft_m = it->breakdown.side[0].condition.cg_aft_m;
    cli_condition_text(&it->input.aircraft, &shown, run->options, 0, condition, sizeof condition);
    it->view = (ls_explain_view){.aircraft = &it->input.aircraft,
                                 .breakdown = &it->breakdown,
                                 .units = run->options->units,
                                 .uncertain = ls_marks_uncertain(&it->input.aircraft, &it->input.marks),
                                 .ball_rad = cli_ball_width(run->options)};
    ls_report *sheet = ls_report_new();
    if (sheet == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    ls_explain_report(sheet, &it->view);
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

const cli_command cli_command_explain = {
    .name = "explain",
    .question = "Which engine is critical, and why?",
    .summary =
        "Sets the failure of one engine beside that of its counterpart at one speed, weight and bank: yaw and "
        "roll "
        "by what causes them, what each effect of the propellers is worth in minimum control speed, the four ways "
        "the propellers can turn, and in a few sentences why one engine is critical or why neither is. Left out, "
        "the speed is the higher of the two minimum control speeds, the bank the limit, and weight and centre of "
        "gravity the least favourable.",
    .example = "liveside explain whimbrel --speed 85",
    .options = CLI_FILE_BITS | CLI_CONDITION_BITS | CLI_BIT(CLI_SPEED) | CLI_BIT(CLI_BALL) | CLI_BIT(CLI_PLOT) |
               CLI_BIT(CLI_SLIDE),
    .files_min = 1,
    .files_max = 1,
    .run = run,
};
