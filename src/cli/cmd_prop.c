#include "cli/commands.h"
#include "cli/condition.h"
#include "cli/emit.h"
#include "cli/job.h"
#include "cli/plot.h"
#include "liveside/airspeed.h"
#include "liveside/propeller_study.h"
#include "report/prop_report.h"
#include "report/vmca_report.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#define DEG (3.14159265358979323846 / 180.0)

/* Everything of one run. */
typedef struct {
    cli_input input; /* first: cli_job_run fills it */
    ls_vmca_request request;
    ls_vmca vmca;
    int has_vmca;
    ls_prop_study study;
    ls_prop_flight flight;
    ls_dead_by_speed by_speed, by_speed_drawn;
    ls_dead_by_pitch by_pitch, by_pitch_drawn;
    ls_prop_incidence incidence, incidence_drawn;
    ls_prop_by_speed thrust, thrust_drawn;
    ls_zero_thrust zero;
    ls_idle_demonstration demonstration;
    ls_blade_counts counts;
    int blades_low, blades_high; /* --blades; 0: not asked */
    ls_prop_view view;
    ls_chart chart;
} job;

static const ls_vmca_set *answer_set(const job *it)
{
    return it->has_vmca ? &it->vmca.set[ls_vmca_answer_set(&it->vmca)] : NULL;
}

/* The first engine of the set that the answer is about, or of the file. */
static int studied_engine(const job *it)
{
    unsigned failed = it->has_vmca ? answer_set(it)->failed : it->request.set[0];
    int engine = 0;
    while (failed != 0 && !(failed >> engine & 1u)) {
        engine++;
    }
    return engine;
}

/* The speed asked for, else the minimum control speed, else 1.3 stall speeds. */
static double reference_speed(const cli_options *options, job *it)
{
    const ls_vmca_set *set = answer_set(it);
    if (cli_given(options, CLI_SPEED)) {
        return options->value[CLI_SPEED].si;
    }
    if (set != NULL && set->answer.status == LS_OK && isfinite(set->answer.vmc.cas_m_s)) {
        it->view.is_vmc = set->answer.vmc.kind == LS_VMC_CONTROL;
        return set->answer.vmc.cas_m_s;
    }
    ls_airspeed speed;
    const ls_model *model = &it->study.model;
    return ls_airspeed_from_tas(&model->air, 1.3 * model->stall_V_m_s, &speed, NULL) == LS_OK ? speed.CAS_m_s
                                                                                              : NAN;
}

static ls_status read_blades(const cli_options *options, job *it, ls_error *error)
{
    const char *text = cli_text(options, CLI_BLADES);
    char *end = NULL;
    if (text == NULL) {
        return LS_OK;
    }
    long low = strtol(text, &end, 10), high = low;
    int is_read = end != text;
    if (is_read && *end == ':') {
        const char *second = end + 1;
        high = strtol(second, &end, 10);
        is_read = end != second;
    }
    if (!is_read || *end != '\0' || low < LS_PROP_BLADES_MIN || high > LS_PROP_BLADES_MAX || low > high) {
        return ls_fail(error, LS_USAGE, "--blades %s: give FROM:TO within %d to %d, as in 2:6", text,
                       LS_PROP_BLADES_MIN, LS_PROP_BLADES_MAX);
    }
    it->blades_low = (int)low;
    it->blades_high = (int)high;
    return LS_OK;
}

/* Tables in round steps of the reader's unit. */
static void solve_by_speed(const cli_options *options, job *it)
{
    const ls_unit *unit = ls_unit_preferred(options->units, LS_DIM_SPEED);
    double step = options->units == LS_UNITS_SI ? 5.0 : 10.0;
    double stall = ls_unit_from_si(unit, it->study.model.stall_V_m_s * sqrt(it->study.model.air.sigma));
    double first_m_s = ls_unit_to_si(unit, step * floor(0.5 * stall / step)), step_m_s = ls_unit_to_si(unit, step);
    int count = (int)ceil(2.4 * stall / step) - (int)floor(0.5 * stall / step) + 1;
    ls_dead_by_speed_solve(&it->study, first_m_s, step_m_s, count, &it->by_speed);
    ls_prop_by_speed_solve(&it->study, 0.0, 2.0 * step_m_s, (int)ceil(1.3 * stall / step) + 1, &it->thrust);
}

static void solve_zero(const cli_options *options, job *it)
{
    const ls_unit *unit = ls_unit_preferred(options->units, LS_DIM_SPEED);
    const ls_unit *height = ls_unit_preferred(options->units, LS_DIM_ALTITUDE);
    int is_si = options->units == LS_UNITS_SI;
    double step = is_si ? 5.0 : 10.0, first = step * round(ls_unit_from_si(unit, it->view.cas_m_s) / step);
    ls_zero_thrust_solve(&it->study, ls_unit_to_si(height, is_si ? 1500.0 : 4000.0), 3, ls_unit_to_si(unit, first),
                         ls_unit_to_si(unit, step), 4, &it->zero);
}

static double true_speed(const job *it)
{
    ls_airspeed speed;
    return ls_airspeed_from_cas(&it->study.model.air, it->view.cas_m_s, &speed, NULL) == LS_OK ? speed.TAS_m_s
                                                                                               : NAN;
}

static void set_view(const cli_options *options, job *it)
{
    it->view.study = &it->study;
    it->view.flight = &it->flight;
    it->view.by_speed = &it->by_speed;
    it->view.by_pitch = &it->by_pitch;
    it->view.incidence = &it->incidence;
    it->view.thrust = &it->thrust;
    it->view.zero = &it->zero;
    it->view.demonstration = &it->demonstration;
    it->view.counts = it->blades_low > 0 ? &it->counts : NULL;
    it->view.uncertain = ls_marks_uncertain(&it->input.aircraft, &it->input.marks);
    it->view.units = options->units;
}

static ls_status solve(const cli_run *run, void *of, ls_error *error)
{
    job *it = of;
    const cli_options *options = run->options;
    ls_status status = read_blades(options, it, error);
    status = status == LS_OK ? cli_request_make(options, &it->input.aircraft, &it->request, error) : status;
    if (status != LS_OK) {
        return status;
    }
    /* Without a minimum control speed there is still a propeller: the reasons then stand in its column. */
    it->has_vmca =
        it->request.set[0] != 0 && ls_vmca_solve(&it->input.aircraft, &it->request, &it->vmca, NULL) == LS_OK;
    status =
        ls_prop_study_make(&it->input.aircraft, &it->request.condition, studied_engine(it), &it->study, error);
    if (status != LS_OK) {
        return status;
    }
    set_view(options, it);
    it->view.cas_m_s = reference_speed(options, it);
    double V_m_s = true_speed(it);
    ls_prop_flight_solve(&it->study, &it->flight);
    solve_by_speed(options, it);
    solve_zero(options, it);
    ls_dead_by_pitch_solve(&it->study, V_m_s, 15, &it->by_pitch);
    ls_prop_incidence_solve(&it->study, V_m_s, 4.0 * DEG, 6, &it->incidence);
    ls_idle_demonstration_solve(&it->study, answer_set(it), V_m_s, &it->demonstration);
    if (it->blades_low > 0) {
        ls_blade_counts_solve(&it->study, &it->flight, it->blades_low, it->blades_high, &it->counts);
    }
    return LS_OK;
}

/* ---- charts ---- */

static void solve_drawn(job *it)
{
    double stall_m_s = it->study.model.stall_V_m_s * sqrt(it->study.model.air.sigma), V_m_s = true_speed(it);
    ls_dead_by_speed_solve(&it->study, 0.3 * stall_m_s, 2.2 * stall_m_s / (LS_PROP_SPEEDS - 1), LS_PROP_SPEEDS,
                           &it->by_speed_drawn);
    ls_prop_by_speed_solve(&it->study, 0.0, 2.6 * stall_m_s / (LS_PROP_SPEEDS - 1), LS_PROP_SPEEDS,
                           &it->thrust_drawn);
    ls_dead_by_pitch_solve(&it->study, V_m_s, LS_PROP_PITCHES, &it->by_pitch_drawn);
    ls_prop_incidence_solve(&it->study, V_m_s, 1.0 * DEG, LS_PROP_INCIDENCES, &it->incidence_drawn);
}

/* One of the charts, by its number; what it shows, or null after the last. */
static const char *build_chart(job *it, int number, int slide)
{
    switch (number) {
    case 0:
        ls_chart_of_unit(&it->chart, &it->view, &it->thrust_drawn, &it->by_speed_drawn, slide);
        return "blade angle and RPM against speed: when the unit governs, and when it is on the stop";
    case 1:
        ls_chart_of_triangles(&it->chart, &it->view, slide);
        return "the blade at three quarters of the radius, its airflow and its forces, to scale";
    case 2:
        ls_chart_of_dead_by_speed(&it->chart, &it->view, &it->by_speed_drawn, slide);
        return "the dead propeller's drag and RPM against speed, lever forward and aft";
    case 3:
        ls_chart_of_dead_by_pitch(&it->chart, &it->view, &it->by_pitch_drawn, slide);
        return "the same against the blade angle, from the fine stop to feather";
    case 4:
        ls_chart_of_demonstration(&it->chart, &it->view, slide);
        return "what idle, zero thrust and feather are worth beside a dead engine";
    case 5:
        ls_chart_of_zero_thrust(&it->chart, &it->view, slide);
        return "manifold pressure, or torque, and RPM for no thrust";
    case 6:
        ls_chart_of_thrust(&it->chart, &it->view, &it->thrust_drawn, slide);
        return "thrust against speed, and the most that any propeller could give";
    case 7:
        ls_chart_of_efficiency(&it->chart, &it->view, &it->thrust_drawn, slide);
        return "efficiency of fixed pitches, the governed propeller over them";
    case 8:
        ls_chart_of_incidence(&it->chart, &it->view, &it->incidence_drawn, slide);
        return "how far the thrust line moves, and the side load";
    case 9:
        if (it->view.counts != NULL) {
            ls_chart_of_blades(&it->chart, &it->view, slide);
            return "efficiency and power taken against the number of blades";
        }
        return NULL;
    default:
        return NULL;
    }
}

static ls_status plot(const cli_run *run, job *it, const char *condition, ls_report *sheet, ls_error *error)
{
    cli_plot plot;
    const char *shows;
    ls_status status = cli_plot_start(run, &it->input, condition, sheet, &plot, error);
    if (status != LS_OK || plot.folder == NULL) {
        return status;
    }
    solve_drawn(it);
    for (int i = 0; status == LS_OK && (shows = build_chart(it, i, cli_given(run->options, CLI_SLIDE))) != NULL;
         i++) {
        status = cli_plot_add(&plot, &it->chart, shows, error);
    }
    return status;
}

static ls_status report(const cli_run *run, void *of, ls_error *error)
{
    job *it = of;
    char condition[CLI_CONDITION_TEXT];
    const cli_input *input = &it->input;
    cli_condition_text(&it->input.aircraft, &it->request.condition, run->options, 0, condition, sizeof condition);
    ls_report *sheet = ls_report_new();
    if (sheet == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    ls_prop_report(sheet, &it->view);
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

const cli_command cli_command_prop = {
    .name = "prop",
    .alias = "propeller",
    .question = "What are the propeller and its constant-speed unit doing?",
    .summary =
        "Follows one propeller through a flight and through a failure: blade angle, RPM, manifold pressure, "
        "thrust "
        "and what the constant-speed unit is doing; what a dead propeller drags against speed and against the "
        "blade angle; how to set a running one to no thrust, and how far an idling engine is from a dead one; "
        "thrust and efficiency against speed; P-factor. The propeller is that of the critical engine, or of the "
        "engine that --failed names; a dead one is looked at at the minimum control speed, or at --speed.",
    .example = "liveside prop whimbrel --blades 2:6 --plot charts",
    .options = CLI_FILE_BITS | (CLI_CONDITION_BITS & ~(CLI_BIT(CLI_PROPELLER) | CLI_BIT(CLI_PARTIAL_POWER))) |
               CLI_BIT(CLI_SPEED) | CLI_BIT(CLI_BLADES) | CLI_BIT(CLI_PLOT) | CLI_BIT(CLI_SLIDE),
    .files_min = 1,
    .files_max = 1,
    .run = run,
};
