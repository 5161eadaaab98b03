#include "cli/commands.h"
#include "cli/condition.h"
#include "cli/emit.h"
#include "cli/job.h"
#include "cli/plot.h"
#include "report/failure_charts.h"
#include "report/failure_report.h"

#include <math.h>

/* Everything of one run. */
typedef struct {
    cli_input input; /* first: cli_job_run fills it */
    ls_failure_request request;
    ls_failure failure;
    ls_recovery recovery;
    ls_slowing demonstration;
    ls_drill drill;
    ls_failure_view view;
    ls_chart chart; /* --plot */
} job;

static double seconds(const cli_options *options, cli_option option, double otherwise)
{
    return cli_given(options, option) ? options->value[option].si : otherwise;
}

static void set_motion(const cli_options *options, const ls_aircraft *aircraft, ls_failure_request *request)
{
    ls_motion_request *motion = &request->motion;
    ls_motion_usual(aircraft, &request->condition.condition, 1u, 1.0, motion);
    const cli_value *delay = &options->value[CLI_DELAY];
    motion->delay_s = delay->count == 0 ? 1.0 : delay->word == CLI_DELAY_NEVER ? INFINITY : delay->si;
    motion->hold = cli_given(options, CLI_HOLD) ? (ls_hold)options->value[CLI_HOLD].word : LS_HOLD_AIRSPEED;
    motion->feather_s = seconds(options, CLI_FEATHER_AT, INFINITY);
    motion->recover_s = seconds(options, CLI_RECOVER_AT, INFINITY);
    motion->duration_s = seconds(options, CLI_DURATION, 30.0);
    motion->height_m = cli_given(options, CLI_HEIGHT) ? options->value[CLI_HEIGHT].si : INFINITY;
}

static ls_status set_request(const cli_options *options, job *it, ls_error *error)
{
    ls_status status = cli_request_make(options, &it->input.aircraft, &it->request.condition, error);
    if (status == LS_OK && it->request.condition.set[0] == 0) {
        return ls_fail(error, LS_USAGE, "--failed none: something must fail");
    }
    it->request.cas_m_s = options->value[CLI_SPEED].si;
    set_motion(options, &it->input.aircraft, &it->request);
    return status;
}

/* The parts that were asked for besides the failure itself. */
static ls_status solve_modes(const cli_options *options, job *it, ls_error *error)
{
    ls_status status = LS_OK;
    const ls_motion_request *flown = &it->failure.request;
    if (isfinite(flown->recover_s)) {
        ls_recovery_of(&it->failure.with_action, flown->recover_s, &it->recovery);
        it->view.recovery = &it->recovery;
    }
    if (cli_given(options, CLI_DEMONSTRATION)) {
        status =
            ls_slowing_run(&it->input.aircraft, flown, it->failure.fixed.control_V_m_s, &it->demonstration, error);
        it->view.demonstration = &it->demonstration;
    }
    if (status == LS_OK && cli_given(options, CLI_DRILL)) {
        status = ls_drill_run(&it->input.aircraft, flown, &it->drill, error);
        it->view.drill = &it->drill;
    }
    return status;
}

static void set_view(const cli_options *options, job *it)
{
    it->view.aircraft = &it->input.aircraft;
    it->view.failure = &it->failure;
    it->view.units = options->units;
    it->view.uncertain = ls_marks_uncertain(&it->input.aircraft, &it->input.marks);
    it->view.uncertain_motion = ls_marks_uncertain_motion(&it->input.aircraft, &it->input.marks);
}

typedef void chart_builder(ls_chart *chart, const ls_failure_view *view, int slide);

static ls_status plot(const cli_run *run, job *it, const char *condition, ls_report *sheet, ls_error *error)
{
    static const struct {
        chart_builder *build;
        const char *shows;
    } charts[] = {
        {ls_chart_of_attitude, "the swing, what stops it, and what comes of waiting"},
        {ls_chart_of_losses, "what it costs in airspeed and height"},
        {ls_chart_of_propeller, "the failed propeller slowing down, its drag, and what feathering does"},
        {ls_chart_of_delay, "the minimum control speed that a slow foot needs, beside the static one"},
    };
    cli_plot plot;
    ls_status status = cli_plot_start(run, &it->input, condition, sheet, &plot, error);
    for (size_t i = 0; i < sizeof charts / sizeof charts[0] && status == LS_OK && plot.folder != NULL; i++) {
        charts[i].build(&it->chart, &it->view, cli_given(run->options, CLI_SLIDE));
        status = cli_plot_add(&plot, &it->chart, charts[i].shows, error);
    }
    return status;
}

static ls_status report(const cli_run *run, void *of, ls_error *error)
{
    job *it = of;
    char condition[CLI_CONDITION_TEXT];
    const cli_input *input = &it->input;
    ls_condition after = it->failure.request.condition;
    ls_condition_fail_as(&it->input.aircraft, it->failure.request.failed, it->failure.request.state, &after);
    cli_condition_text(&it->input.aircraft, &after, run->options, 0, condition, sizeof condition);
    ls_report *sheet = ls_report_new();
    if (sheet == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    set_view(run->options, it);
    ls_failure_report(sheet, &it->view);
    ls_report_line(sheet, "Condition: %s.", condition);
    ls_status status = plot(run, it, condition, sheet, error);
    status = status == LS_OK ? cli_emit(run, sheet, &input, 1, condition, error) : status;
    ls_report_free(sheet);
    return status;
}

static ls_status solve(const cli_run *run, void *of, ls_error *error)
{
    job *it = of;
    ls_status status = set_request(run->options, it, error);
    status = status == LS_OK ? ls_failure_solve(&it->input.aircraft, &it->request, &it->failure, error) : status;
    return status == LS_OK ? solve_modes(run->options, it, error) : status;
}

static void release(void *of)
{
    job *it = of;
    ls_failure_free(&it->failure);
    ls_motion_free(&it->demonstration.motion);
}

static ls_status run(const cli_run *run, ls_error *error)
{
    static const cli_job steps = {sizeof(job), solve, report, release};
    if (!cli_given(run->options, CLI_SPEED)) {
        return ls_fail(error, LS_USAGE, "at which speed does it fail? Give --speed, as in: %s",
                       cli_command_failure.example);
    }
    return cli_job_run(run, &steps, error);
}

const cli_command cli_command_failure = {
    .name = "failure",
    .question = "An engine stops: what happens in the next seconds?",
    .summary =
        "Follows the aeroplane after a sudden failure, with a simple pilot who acts after a delay and without "
        "one: heading, bank, sideslip, rudder, the failed propeller, airspeed and height, and whether control "
        "is kept. Beside it the lowest speed at which that delay can be afforded (dynamic VMC), for other "
        "delays and speeds too. Left out, the engine is the critical one, and weight and centre of gravity "
        "the least favourable for control.",
    .example = "liveside failure whimbrel --speed 85 --delay 1.5",
    .options = CLI_FILE_BITS | CLI_CONDITION_BITS | CLI_BIT(CLI_SPEED) | CLI_BIT(CLI_DELAY) | CLI_BIT(CLI_HOLD) |
               CLI_BIT(CLI_FEATHER_AT) | CLI_BIT(CLI_RECOVER_AT) | CLI_BIT(CLI_DURATION) | CLI_BIT(CLI_HEIGHT) |
               CLI_BIT(CLI_DEMONSTRATION) | CLI_BIT(CLI_DRILL) | CLI_BIT(CLI_PLOT) | CLI_BIT(CLI_SLIDE),
    .files_min = 1,
    .files_max = 1,
    .run = run,
};
