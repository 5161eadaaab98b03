#include "cli/commands.h"
#include "cli/condition.h"
#include "cli/emit.h"
#include "cli/job.h"
#include "cli/plot.h"
#include "cli/progress.h"
#include "report/climb_charts.h"
#include "report/climb_report.h"

#include <math.h>
#include <string.h>

/* Everything of one run. */
typedef struct {
    cli_input input; /* first: cli_job_run fills it */
    ls_vmca_request asked;
    ls_performance_request request;
    ls_performance performance;
    ls_climb_lines lines;
    ls_climb_by_bank banks;
    ls_costs costs;
    ls_heights heights;
    ls_drift drift;
    ls_field field;
    ls_published_climb published;
    ls_climb_view view;
    ls_chart chart; /* --plot */
} job;

/* Left out, weight and centre of gravity are the maximum and the reference, which the condition holds already. */
static ls_status set_request(const cli_options *options, job *it, ls_error *error)
{
    ls_performance_request *request = &it->request;
    ls_status status = cli_request_make(options, &it->input.aircraft, &it->asked, error);
    if (status != LS_OK) {
        return status;
    }
    request->aircraft = &it->input.aircraft;
    request->condition = it->asked.condition;
    request->condition.is_continuous =
        cli_given(options, CLI_RATING) && options->value[CLI_RATING].word == CLI_RATING_CONTINUOUS;
    request->sets = it->asked.set[0] != 0 ? it->asked.sets : 0;
    for (int i = 0; i < request->sets; i++) {
        request->set[i] = it->asked.set[i];
    }
    request->state = it->asked.state;
    request->bank_given = it->asked.bank_given;
    request->bank_rad = it->asked.bank_rad;
    request->cas_m_s = cli_given(options, CLI_SPEED) ? options->value[CLI_SPEED].si : 0.0;
    return LS_OK;
}

/* Where the drift-down begins: as asked, else at the service ceiling on every engine. */
static double drift_from(const cli_options *options, const job *it)
{
    const ls_ceiling *service = &it->performance.all.service;
    return cli_given(options, CLI_FROM)        ? options->value[CLI_FROM].si
           : service->kind == LS_CEILING_FOUND ? service->altitude_m
                                               : it->request.condition.altitude_m;
}

/* Speeds from the stall up in even steps of the reader's unit. */
static void solve_lines(const cli_options *options, job *it)
{
    ls_model model;
    const ls_unit *unit = ls_unit_preferred(options->units, LS_DIM_SPEED);
    double step = options->units == LS_UNITS_SI ? 1.0 : 2.5, low_m_s = it->performance.all.rate.low_m_s;
    if (ls_model_make(&it->input.aircraft, &it->performance.all.condition, &model, NULL) == LS_OK) {
        low_m_s = model.stall_V_m_s * sqrt(model.air.sigma);
    }
    double first = 2.0 * step * ceil(ls_unit_from_si(unit, low_m_s) / (2.0 * step));
    ls_climb_lines_solve(&it->request, &it->performance, ls_unit_to_si(unit, first), ls_unit_to_si(unit, step),
                         &it->lines);
}

/* Up to the service ceiling on every engine, or to 12 steps. */
static void solve_heights(const cli_options *options, const ls_performance_case *one, job *it)
{
    const ls_unit *unit = ls_unit_preferred(options->units, LS_DIM_ALTITUDE);
    const ls_ceiling *service = &it->performance.all.service;
    double step_m = ls_unit_to_si(unit, options->units == LS_UNITS_SI ? 500.0 : 2000.0);
    double top_m = service->kind == LS_CEILING_FOUND ? fmax(service->altitude_m, 0.0) : 12.0 * step_m;
    ls_heights_solve(&it->request, one, step_m, (int)fmin(LS_HEIGHTS, ceil(top_m / step_m) + 1.0), &it->heights);
}

static ls_status solve_one(const cli_options *options, const ls_performance_case *one, job *it, ls_error *error)
{
    double V_m_s;
    ls_status status = ls_performance_speed(&it->request, one, &V_m_s, error);
    if (status != LS_OK) {
        return status;
    }
    ls_climb_by_bank_solve(one, &it->input.aircraft, V_m_s, &it->banks);
    ls_costs_solve(&it->request, one, V_m_s, &it->costs);
    ls_field_solve(&it->request, one, &it->field);
    solve_heights(options, one, it);
    ls_drift_solve(one, &it->input.aircraft, drift_from(options, it), &it->drift);
    it->view.banks = &it->banks;
    it->view.costs = &it->costs;
    it->view.field = &it->field;
    it->view.heights = &it->heights;
    it->view.drift = &it->drift;
    return LS_OK;
}

static int publishes(const ls_aircraft *aircraft)
{
    return ls_given(aircraft->published.climb_m_s) || ls_given(aircraft->published.climb_one_engine_m_s) ||
           ls_given(aircraft->published.vy_m_s) || ls_given(aircraft->published.vx_m_s) ||
           ls_given(aircraft->published.vyse_m_s) || ls_given(aircraft->published.vxse_m_s) ||
           ls_given(aircraft->published.ceiling_m) || ls_given(aircraft->published.ceiling_one_engine_m);
}

static ls_status solve(const cli_run *run, void *of, ls_error *error)
{
    job *it = of;
    const cli_options *options = run->options;
    cli_progress progress;
    ls_watch watch = {cli_progress_show, cli_progress_stop, &progress};
    ls_status status = set_request(options, it, error);
    if (status != LS_OK) {
        return status;
    }
    cli_progress_begin(&progress, "climb");
    status = ls_performance_solve(&it->request, &watch, &it->performance, error);
    const ls_performance_case *one = ls_performance_worst(&it->performance);
    if (status == LS_OK && it->request.sets > 0 && one == NULL) {
        const ls_performance_set *set = &it->performance.set[0];
        status = ls_fail(error, set->by_state[set->chosen].status, "%s", set->by_state[set->chosen].reason);
    }
    if (status == LS_OK) {
        solve_lines(options, it);
        status = one != NULL ? solve_one(options, one, it, error) : LS_OK;
    }
    if (status == LS_OK && publishes(&it->input.aircraft)) {
        ls_published_climb_solve(&it->request, &it->published);
        it->view.published = &it->published;
    }
    cli_progress_end(&progress);
    return status;
}

static void set_view(const cli_options *options, job *it)
{
    it->view.request = &it->request;
    it->view.performance = &it->performance;
    it->view.lines = &it->lines;
    it->view.units = options->units;
    it->view.uncertain = ls_marks_uncertain(&it->input.aircraft, &it->input.marks);
    it->view.full = cli_given(options, CLI_FULL);
    it->view.ball_rad = cli_ball_width(options);
}

typedef void chart_builder(ls_chart *chart, const ls_climb_view *view, int slide);

static ls_status plot(const cli_run *run, job *it, const char *condition, ls_report *sheet, ls_error *error)
{
    static const struct {
        chart_builder *build;
        int needs_failure, needs_drift;
        int over_altitude; /* the condition's own does not count */
        const char *shows;
    } charts[] = {
        {ls_chart_of_climb_speeds, 0, 0, 0, "climb against speed, with what failed and how it is left"},
        {ls_chart_of_climb_banks, 1, 0, 0,
         "bank toward the live engine, and how little too much or too little costs"},
        {ls_chart_of_costs, 1, 0, 0, "what propeller, gear, flaps and bank take of the climb"},
        {ls_chart_of_climb_altitudes, 1, 0, 1, "how the speeds close up with height"},
        {ls_chart_of_drift, 1, 1, 1, "the descent to where one engine holds it"},
    };
    cli_plot plot;
    ls_status status = cli_plot_start(run, &it->input, condition, sheet, &plot, error);
    if (status != LS_OK || plot.folder == NULL) {
        return status;
    }
    for (size_t i = 0; i < sizeof charts / sizeof charts[0] && status == LS_OK; i++) {
        int has_failure = it->view.banks != NULL, has_drift = has_failure && it->drift.kind == LS_DRIFT_DOWN;
        if ((charts[i].needs_failure && !has_failure) || (charts[i].needs_drift && !has_drift)) {
            continue;
        }
        plot.condition = charts[i].over_altitude ? strchr(condition, ',') + 2 : condition;
        charts[i].build(&it->chart, &it->view, cli_given(run->options, CLI_SLIDE));
        status = cli_plot_add(&plot, &it->chart, charts[i].shows, error);
    }
    return status;
}

static ls_status report(const cli_run *run, void *of, ls_error *error)
{
    job *it = of;
    set_view(run->options, it);
    char condition[CLI_CONDITION_TEXT];
    const cli_input *input = &it->input;
    cli_condition_text(&it->input.aircraft, &it->request.condition, run->options, 0, condition, sizeof condition);
    ls_report *sheet = ls_report_new();
    if (sheet == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    ls_climb_report(sheet, &it->view);
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

const cli_command cli_command_climb = {
    .name = "climb",
    .question = "Will it climb on one engine, and what costs how much?",
    .summary =
        "Finds the best climb with every engine running and with each engine failed: speeds, bank, what share is "
        "lost; what bank, propeller, gear and flaps cost; ceilings, drift-down, and at this field what can be "
        "held level and what cannot. Left out, the weight is the maximum, the centre of gravity the reference, "
        "the failed propeller feathered where it can be, and the bank that of the best climb within the limit. "
        "No climb speed below 1.2 times the stall is looked for.",
    .example = "liveside climb whimbrel --altitude 5000 --isa 15",
    .options = CLI_FILE_BITS | CLI_CONDITION_BITS | CLI_BIT(CLI_SPEED) | CLI_BIT(CLI_RATING) | CLI_BIT(CLI_FROM) |
               CLI_BIT(CLI_FULL) | CLI_BIT(CLI_BALL) | CLI_BIT(CLI_PLOT) | CLI_BIT(CLI_SLIDE),
    .files_min = 1,
    .files_max = 1,
    .run = run,
};
