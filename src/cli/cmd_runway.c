#include "cli/commands.h"
#include "cli/condition.h"
#include "cli/emit.h"
#include "cli/job.h"
#include "cli/plot.h"
#include "report/ground_report.h"

#include <math.h>

/* Everything of one run. */
typedef struct {
    cli_input input; /* first: cli_job_run fills it */
    ls_ground_request request;
    ls_ground ground;
    ls_ground_view view;
    ls_chart chart; /* --plot */
} job;

/* Left out, the loading is what flight-test practice finds least favourable: lightest, centre of gravity aft. */
static ls_status set_request(const cli_options *options, job *it, ls_error *error)
{
    const ls_aircraft *aircraft = &it->input.aircraft;
    ls_vmca_request *condition = &it->request.condition;
    ls_status status = cli_request_make(options, aircraft, condition, error);
    if (status != LS_OK) {
        return status;
    }
    if (condition->set[0] == 0) {
        return ls_fail(error, LS_USAGE, "--failed none: something must fail");
    }
    if (condition->search & LS_SEARCH_MASS) {
        condition->condition.mass_kg = aircraft->mass.minimum_kg;
    }
    if (condition->search & LS_SEARCH_CG) {
        condition->condition.cg_aft_m = aircraft->cg.aft_m;
    }
    condition->condition.gear = cli_given(options, CLI_GEAR) ? condition->condition.gear : 1.0;
    const cli_value *wind = &options->value[CLI_CROSSWIND];
    it->request.roll.delay_s = cli_given(options, CLI_DELAY) ? options->value[CLI_DELAY].si : 1.0;
    it->request.roll.crosswind_m_s = wind->count == 0 ? 0.0 : wind->word == CLI_WIND_LEFT ? -wind->si : wind->si;
    it->request.cas_m_s = cli_given(options, CLI_SPEED) ? options->value[CLI_SPEED].si : 0.0;
    if (cli_given(options, CLI_DELAY) && options->value[CLI_DELAY].word == CLI_DELAY_NEVER) {
        return ls_fail(error, LS_USAGE, "--delay never: a minimum control speed needs a pilot");
    }
    return LS_OK;
}

static ls_status plot(const cli_run *run, job *it, const char *condition, ls_report *sheet, ls_error *error)
{
    cli_plot plot;
    ls_status status = cli_plot_start(run, &it->input, condition, sheet, &plot, error);
    if (status != LS_OK || plot.folder == NULL) {
        return status;
    }
    ls_chart_of_tracks(&it->chart, &it->view, cli_given(run->options, CLI_SLIDE));
    return cli_plot_add(&plot, &it->chart, "the tracks, and the 30 ft that are allowed", error);
}

static ls_status report(const cli_run *run, void *of, ls_error *error)
{
    job *it = of;
    char condition[CLI_CONDITION_TEXT];
    const cli_input *input = &it->input;
    ls_condition after = it->ground.request.condition;
    ls_condition_fail_as(&it->input.aircraft, it->ground.request.failed, it->ground.request.state, &after);
    cli_condition_text(&it->input.aircraft, &after, run->options, 0, condition, sizeof condition);
    it->view =
        (ls_ground_view){.aircraft = &it->input.aircraft,
                         .ground = &it->ground,
                         .units = run->options->units,
                         .uncertain = ls_marks_uncertain(&it->input.aircraft, &it->input.marks),
                         .uncertain_motion = ls_marks_uncertain_motion(&it->input.aircraft, &it->input.marks)};
    ls_report *sheet = ls_report_new();
    if (sheet == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    ls_ground_report(sheet, &it->view);
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
    return status == LS_OK ? ls_ground_solve(&it->input.aircraft, &it->request, &it->ground, error) : status;
}

static void release(void *of)
{
    job *it = of;
    ls_ground_free(&it->ground);
}

static ls_status run(const cli_run *run, ls_error *error)
{
    static const cli_job steps = {sizeof(job), solve, report, release};
    return cli_job_run(run, &steps, error);
}

const cli_command cli_command_runway = {
    .name = "runway",
    .question = "Does it stay on the runway when an engine stops?",
    .summary =
        "Follows the take-off roll after a failure, rudder alone and nose-wheel steering not credited: the "
        "track, and the lowest speed at which it strays by no more than 30 ft before the path is parallel to "
        "the centreline again (VMCG), with delay, crosswind, weight, centre of gravity, power and tyres "
        "changed. Left out, the engine is the one with the highest speed, the gear is down, the weight is the "
        "lightest and the centre of gravity aft. With --speed the track is of a failure at that speed.",
    .example = "liveside runway whimbrel --delay 0.8 --crosswind 10left",
    .options = CLI_FILE_BITS | (CLI_CONDITION_BITS & ~(CLI_BIT(CLI_BANK) | CLI_BIT(CLI_BANK_LIMIT))) |
               CLI_BIT(CLI_SPEED) | CLI_BIT(CLI_DELAY) | CLI_BIT(CLI_CROSSWIND) | CLI_BIT(CLI_PLOT) |
               CLI_BIT(CLI_SLIDE),
    .files_min = 1,
    .files_max = 1,
    .run = run,
};
