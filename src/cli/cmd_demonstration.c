#include "cli/commands.h"
#include "cli/condition.h"
#include "cli/emit.h"
#include "cli/job.h"
#include "cli/plot.h"
#include "report/demonstration_report.h"

/* Everything of one run. */
typedef struct {
    cli_input input; /* first: cli_job_run fills it */
    ls_demonstration_request request;
    ls_demonstration plan;
    ls_demonstration_view view;
    ls_chart chart; /* --plot */
} job;

/* High enough to recover by 3000 ft above the ground, and on upward to where the stall comes near. */
static const double usual_altitudes_m[] = {3000 * 0.3048, 5000 * 0.3048, 7000 * 0.3048, 9000 * 0.3048};

static ls_status solve(const cli_run *run, void *of, ls_error *error)
{
    job *it = of;
    const cli_options *options = run->options;
    ls_demonstration_request *request = &it->request;
    ls_status status = cli_request_make(options, &it->input.aircraft, &request->request, error);
    if (status == LS_OK && request->request.set[0] == 0) {
        return ls_fail(error, LS_USAGE, "--failed none: a demonstration needs an engine to idle");
    }
    if (status != LS_OK) {
        return status;
    }
    request->aircraft = &it->input.aircraft;
    request->altitudes = (int)(sizeof usual_altitudes_m / sizeof usual_altitudes_m[0]);
    for (int i = 0; i < request->altitudes; i++) {
        request->altitude_m[i] = usual_altitudes_m[i];
    }
    if (cli_given(options, CLI_ALTITUDE)) {
        request->altitudes = 1;
        request->altitude_m[0] = request->request.condition.altitude_m;
    }
    request->margin_m_s =
        cli_given(options, CLI_MARGIN) ? options->value[CLI_MARGIN].si : LS_DEMONSTRATION_MARGIN_M_S;
    request->rudder_share = cli_given(options, CLI_RUDDER_LIMIT) ? options->value[CLI_RUDDER_LIMIT].si : 1.0;
    request->cas_m_s = cli_given(options, CLI_SPEED) ? options->value[CLI_SPEED].si : 0.0;
    return ls_demonstration_solve(request, &it->plan, error);
}

static ls_status plot(const cli_run *run, job *it, const char *condition, ls_report *sheet, ls_error *error)
{
    cli_plot plot;
    ls_status status = cli_plot_start(run, &it->input, condition, sheet, &plot, error);
    if (status != LS_OK || plot.folder == NULL) {
        return status;
    }
    ls_chart_of_authority(&it->chart, &it->view, cli_given(run->options, CLI_SLIDE));
    return cli_plot_add(&plot, &it->chart, "what is left before each limit as the speed falls", error);
}

static ls_status report(const cli_run *run, void *of, ls_error *error)
{
    job *it = of;
    char condition[CLI_CONDITION_TEXT];
    const cli_input *input = &it->input;
    cli_condition_text(&it->input.aircraft, &it->plan.base, run->options, 0, condition, sizeof condition);
    it->view = (ls_demonstration_view){.aircraft = &it->input.aircraft,
                                       .request = &it->request,
                                       .plan = &it->plan,
                                       .units = run->options->units,
                                       .uncertain = ls_marks_uncertain(&it->input.aircraft, &it->input.marks)};
    ls_report *sheet = ls_report_new();
    if (sheet == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    ls_demonstration_report(sheet, &it->view);
    ls_report_line(sheet, "Authority and chart: %s.", condition);
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

const cli_command cli_command_demonstration = {
    .name = "demonstration",
    .question = "Where can loss of control be shown, and where not?",
    .summary =
        "Plans the showing of the minimum control speed in training: for each altitude and weight the entry "
        "speed, where heading is lost with the engine idling and with it really dead, and whether the stall "
        "comes first and by how much; where it is less than the margin it says not to demonstrate. The rudder "
        "can be limited as instructors do. Then how much rudder and aileron is left at VSSE, at the entry, and "
        "at --speed. Left out, altitudes run from 3000 to 9000 ft, weights are the least and the greatest, and "
        "the bank is the limit.",
    .example = "liveside demonstration whimbrel --rudder-limit 70",
    .options = CLI_FILE_BITS | (CLI_CONDITION_BITS & ~CLI_BIT(CLI_PROPELLER) & ~CLI_BIT(CLI_PARTIAL_POWER)) |
               CLI_BIT(CLI_SPEED) | CLI_BIT(CLI_RUDDER_LIMIT) | CLI_BIT(CLI_MARGIN) | CLI_BIT(CLI_PLOT) |
               CLI_BIT(CLI_SLIDE),
    .files_min = 1,
    .files_max = 1,
    .run = run,
};
