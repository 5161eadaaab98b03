#include "cli/commands.h"
#include "cli/condition.h"
#include "cli/emit.h"
#include "cli/plot.h"
#include "liveside/prepare.h"
#include "report/phrase.h"
#include "report/vmca_charts.h"
#include "report/vmca_report.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)

static const ls_column compare_columns[] = {
    {"change", "with", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"failed", "failed", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"before", "VMC\nbefore", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"after", "VMC\nafter", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"difference", "difference", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"limit", "limit after", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"reason", "", LS_WORDS, 0, LS_IN_DATA, NULL},
};

enum { COMPARE_COLUMNS = sizeof compare_columns / sizeof compare_columns[0] };

/* Everything of one run; large, so it lives on the heap. */
typedef struct {
    cli_input input;
    ls_vmca_request request;
    ls_vmca vmca;
    ls_vmca_view view;
    cli_input changed_input; /* --compare */
    ls_vmca changed;
    ls_column compare_column[COMPARE_COLUMNS];
    ls_chart chart; /* --plot */
    ls_bank_sweep banks;
    ls_altitude_sweep altitudes;
    ls_control_use use[LS_CONTROL_USE_POINTS];
} job;

static ls_status solve(const cli_options *options, cli_input *input, ls_vmca_request *request, ls_vmca *vmca,
                       ls_error *error)
{
    ls_status status = cli_request_make(options, &input->aircraft, request, error);
    if (status == LS_OK && request->set[0] == 0) {
        status = ls_fail(error, LS_USAGE, "--failed none: a minimum control speed needs a failed engine");
    }
    status = status == LS_OK ? cli_request_check_bank(request, &input->aircraft, error) : status;
    return status == LS_OK ? ls_vmca_solve(&input->aircraft, request, vmca, error) : status;
}

/* --full: every handedness, every state of the failed propeller, every bank of the table. */
static ls_status solve_grid(job *it, ls_error *error)
{
    int banks = it->vmca.set[0].banks, per_set = LS_ROTATIONS * LS_VMCA_STATES * banks;
    ls_vmca_case *grid = calloc((size_t)per_set * (size_t)it->vmca.sets, sizeof *grid);
    if (grid == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    ls_vmca_case *at = grid;
    for (int i = 0; i < per_set * it->vmca.sets; i++) {
        const ls_vmca_set *set = &it->vmca.set[i / per_set];
        ls_condition condition = set->condition;
        if (set->answer.status != LS_OK) {
            continue;
        }
        at->set = i / per_set;
        at->rotation = (ls_rotation)(i % per_set / (LS_VMCA_STATES * banks));
        at->state = ls_vmca_states[i / banks % LS_VMCA_STATES];
        condition.rotation = at->rotation;
        ls_condition_fail_as(&it->input.aircraft, set->failed, at->state, &condition);
        ls_vmca_point_solve(&it->input.aircraft, &condition, set->live_side, set->by_bank[i % banks].bank_rad,
                            &at->point);
        at++;
    }
    it->view.grid = grid;
    it->view.grid_count = (int)(at - grid);
    return LS_OK;
}

static void set_view(const cli_options *options, job *it)
{
    const ls_vmca_set *set = &it->vmca.set[ls_vmca_answer_set(&it->vmca)];
    it->view.aircraft = &it->input.aircraft;
    it->view.request = &it->request;
    it->view.vmca = &it->vmca;
    it->view.units = options->units;
    it->view.uncertain = ls_marks_uncertain(&it->input.aircraft, &it->input.marks);
    it->view.ball_rad = cli_ball_width(options);
    if (ls_vmca_meeting_altitude(&it->input.aircraft, &set->condition, set->condition.bank_rad, LS_AIR_H_MAX_M,
                                 &it->view.meeting_altitude_m, NULL) != LS_OK) {
        it->view.meeting_altitude_m = NAN;
    }
}

static double speed_of(const ls_vmca_point *point)
{
    return point->status == LS_OK ? point->vmc.cas_m_s : NAN;
}

static void compare_row(ls_table *table, const char *change, const char *failed, const ls_vmca_point *before,
                        const ls_vmca_point *after)
{
    char reason[LS_PHRASE] = "";
    if (!isfinite(speed_of(before)) || !isfinite(speed_of(after))) {
        const ls_vmca_point *missing = isfinite(speed_of(after)) ? before : after;
        snprintf(reason, sizeof reason, "%s: %s", missing == after ? "after" : "before", ls_phrase_limit(missing));
    }
    ls_table_row(table);
    ls_table_words(table, "%s", change);
    ls_table_words(table, "%s", failed);
    ls_table_number(table, speed_of(before));
    ls_table_number(table, speed_of(after));
    ls_table_number(table, speed_of(after) - speed_of(before));
    ls_table_words(table, "%s", ls_phrase_limit_short(after));
    ls_table_words(table, "%s", reason);
}

static int same_failures(const ls_vmca *one, const ls_vmca *other)
{
    int same = one->sets == other->sets;
    for (int i = 0; i < one->sets && same; i++) {
        same = one->set[i].failed == other->set[i].failed;
    }
    return same;
}

/* The same failure before and after; where the change is which engine fails, the one answer against the other. */
static void compare_rows(ls_table *table, const char *change, const job *it)
{
    char name[LS_PHRASE], other[LS_PHRASE], both[2 * LS_PHRASE + 8];
    if (same_failures(&it->vmca, &it->changed)) {
        for (int i = 0; i < it->vmca.sets; i++) {
            compare_row(table, change, ls_phrase_set(&it->input.aircraft, it->vmca.set[i].failed, name),
                        &it->vmca.set[i].answer, &it->changed.set[i].answer);
        }
        return;
    }
    const ls_vmca_set *before = &it->vmca.set[ls_vmca_answer_set(&it->vmca)];
    const ls_vmca_set *after = &it->changed.set[ls_vmca_answer_set(&it->changed)];
    snprintf(both, sizeof both, "%s; %s", ls_phrase_set(&it->input.aircraft, before->failed, name),
             ls_phrase_set(&it->input.aircraft, after->failed, other));
    compare_row(table, change, both, &before->answer, &after->answer);
}

/* One change, applied to options and aircraft and solved. */
static ls_status solve_changed(const cli_options *options, const char *change, job *it, ls_error *error)
{
    cli_options changed;
    ls_vmca_request request;
    ls_error why = {0};
    ls_status status = cli_options_change(options, change, &changed, &why);
    it->changed_input = it->input;
    if (status == LS_OK) {
        status = cli_aircraft_set(&changed, &it->changed_input.aircraft, &it->changed_input.marks, &why);
    }
    status =
        status == LS_OK ? ls_aircraft_prepare(&it->changed_input.aircraft, &it->input.aircraft, &why) : status;
    if (status == LS_OK) {
        status = solve(&changed, &it->changed_input, &request, &it->changed, &why);
        ls_aircraft_release(&it->changed_input.aircraft, &it->input.aircraft);
    }
    return status == LS_OK ? LS_OK : ls_fail(error, status, "--compare %s: %s", change, why.text);
}

static ls_status compare(const cli_options *options, job *it, ls_report *report, ls_error *error)
{
    const cli_value *asked = &options->value[CLI_COMPARE];
    ls_status status = LS_OK;
    if (asked->count == 0) {
        return LS_OK;
    }
    memcpy(it->compare_column, compare_columns, sizeof compare_columns);
    for (int i = 0; i < COMPARE_COLUMNS && it->view.uncertain; i++) {
        it->compare_column[i].decimals = 0;
    }
    ls_table *table = ls_report_table(report, "comparison", "With one thing changed", LS_IN_TEXT | LS_IN_JSON,
                                      it->compare_column, COMPARE_COLUMNS);
    for (int i = 0; i < asked->count && status == LS_OK; i++) {
        status = solve_changed(options, asked->text[i], it, error);
        if (status == LS_OK) {
            compare_rows(table, asked->text[i], it);
        }
    }
    ls_report_line(report, "%s", "");
    return status;
}

/* From the stall, or just below the answer, to twice the answer. */
static ls_status solve_use(job *it, const ls_vmca_set *set, ls_error *error)
{
    ls_model model;
    ls_status status = ls_model_make(&it->input.aircraft, &set->condition, &model, error);
    if (status == LS_OK) {
        double V_m_s = isfinite(set->answer.vmc.V_m_s) ? set->answer.vmc.V_m_s : 1.5 * model.stall_V_m_s;
        double low_m_s = fmin(0.9 * V_m_s, model.stall_V_m_s);
        ls_control_use_solve(&model, set->condition.bank_rad, low_m_s, 1.8 * V_m_s, LS_CONTROL_USE_POINTS,
                             it->use);
    }
    return status;
}

static ls_status plot(const cli_run *run, job *it, ls_report *sheet, ls_error *error)
{
    cli_plot plot;
    int slide = cli_given(run->options, CLI_SLIDE);
    const ls_vmca_set *set = &it->vmca.set[ls_vmca_answer_set(&it->vmca)];
    char condition[CLI_CONDITION_TEXT];
    cli_condition_text(&it->input.aircraft, &set->condition, run->options, 0, condition, sizeof condition);
    ls_status status = cli_plot_start(run, &it->input, condition, sheet, &plot, error);
    if (status != LS_OK || plot.folder == NULL) {
        return status;
    }
    ls_bank_sweep_solve(&it->input.aircraft, &it->vmca, -5 * DEG, 10 * DEG, &it->banks);
    ls_chart_of_banks(&it->chart, &it->view, &it->banks, slide);
    status = cli_plot_add(&plot, &it->chart,
                          "how much bank toward the live engine lowers the minimum control speed, for each way "
                          "that the propellers can turn",
                          error);
    if (status == LS_OK) {
        double top_m = isfinite(it->view.meeting_altitude_m) ? 1.25 * it->view.meeting_altitude_m : 6000.0;
        ls_altitude_sweep_solve(&it->input.aircraft, set, fmin(LS_AIR_H_MAX_M, top_m), &it->altitudes);
        ls_chart_of_altitude(&it->chart, &it->view, &it->altitudes, slide);
        status = cli_plot_add(
            &plot, &it->chart,
            "how the minimum control speed changes with altitude, and where the stall comes first", error);
    }
    status = status == LS_OK ? solve_use(it, set, error) : status;
    if (status == LS_OK) {
        ls_chart_of_control_use(&it->chart, &it->view, it->use, slide);
        status = cli_plot_add(&plot, &it->chart, "how much of each limit is used up as the speed falls", error);
    }
    return status;
}

static ls_status report(const cli_run *run, job *it, ls_error *error)
{
    char condition[CLI_CONDITION_TEXT];
    ls_condition shown = it->request.condition;
    cli_condition_text(&it->input.aircraft, &shown, run->options, it->request.search, condition, sizeof condition);
    ls_report *sheet = ls_report_new();
    if (sheet == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    ls_vmca_report(sheet, &it->view);
    const cli_input *input = &it->input;
    ls_status status = compare(run->options, it, sheet, error);
    ls_report_line(sheet, "Condition: %s", condition);
    status = status == LS_OK ? plot(run, it, sheet, error) : status;
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
    status = status == LS_OK ? solve(run->options, &it->input, &it->request, &it->vmca, error) : status;
    if (status == LS_OK) {
        set_view(run->options, it);
        status = cli_given(run->options, CLI_FULL) ? solve_grid(it, error) : LS_OK;
    }
    status = status == LS_OK ? report(run, it, error) : status;
    free(it->view.grid);
    cli_input_free(&it->input);
    free(it);
    return status;
}

const cli_command cli_command_vmca = {
    .name = "vmca",
    .alias = "vmc",
    .question = "How slow can it be held straight?",
    .summary =
        "Finds the minimum control speed with each engine failed: the answer first, with the critical engine "
        "and by how much, then a table against bank, for each way the propellers can turn, and for what the "
        "failed propeller does. Left out, weight and centre of gravity are the most unfavourable of the "
        "file's range, and the bank is the one of the lowest speed within the limit. A wing that stalls "
        "before control is lost is an answer too.",
    .example = "liveside vmca whimbrel --altitude 4000 --bank 3live",
    .options = CLI_FILE_BITS | CLI_CONDITION_BITS | CLI_BIT(CLI_COMPARE) | CLI_BIT(CLI_FULL) | CLI_BIT(CLI_BALL) |
               CLI_BIT(CLI_PLOT) | CLI_BIT(CLI_SLIDE),
    .files_min = 1,
    .files_max = 1,
    .run = run,
};
