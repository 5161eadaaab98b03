#include "cli/commands.h"
#include "cli/condition.h"
#include "cli/emit.h"
#include "cli/plot.h"
#include "cli/progress.h"
#include "report/phrase.h"
#include "report/trend_report.h"
#include "report/vmca_charts.h"
#include "report/vmca_report.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* One aeroplane of the run. */
typedef struct {
    cli_input input;
    ls_vmca_request request;
    ls_vmca vmca;
    ls_trend_request ask;
    ls_trend trend;
} line;

typedef struct {
    int lines;
    line *line[CLI_FILES_MAX];
    ls_trend_view view;
    ls_chart chart;
} job;

/* The unit of a bare number: that of the option of the same name, else the one that people read. */
static const ls_unit *axis_unit(ls_axis_kind kind, ls_dimension dimension, void *context)
{
    static const int option[LS_AXIS_FILE] = {
        [LS_AXIS_BANK] = CLI_BANK,     [LS_AXIS_ALTITUDE] = CLI_ALTITUDE, [LS_AXIS_OAT] = CLI_OAT,
        [LS_AXIS_ISA] = CLI_ISA,       [LS_AXIS_WEIGHT] = CLI_WEIGHT,     [LS_AXIS_CG] = CLI_CG,
        [LS_AXIS_CG_LATERAL] = CLI_CG, [LS_AXIS_POWER] = CLI_POWER};
    const cli_options *options = context;
    if (kind < LS_AXIS_FILE && option[kind] != 0 && dimension == cli_option_rows[option[kind]].dimension) {
        return ls_unit_find(dimension, cli_option_rows[option[kind]].unit[options->units]);
    }
    return ls_unit_preferred(options->units, dimension);
}

/* Where the trend starts from: the answer of vmca, with its engine, bank, weight and centre of gravity. */
static ls_status set_base(const cli_options *options, line *it, ls_error *error)
{
    ls_status status = cli_request_make(options, &it->input.aircraft, &it->request, error);
    if (status == LS_OK && it->request.set[0] == 0) {
        status = ls_fail(error, LS_USAGE, "--failed none: a minimum control speed needs a failed engine");
    }
    status = status == LS_OK ? cli_request_check_bank(&it->request, &it->input.aircraft, error) : status;
    status = status == LS_OK ? ls_vmca_solve(&it->input.aircraft, &it->request, &it->vmca, error) : status;
    if (status == LS_OK) {
        const ls_vmca_set *set = &it->vmca.set[ls_vmca_answer_set(&it->vmca)];
        it->ask.aircraft = &it->input.aircraft;
        it->ask.condition = set->condition;
        it->ask.failed = set->failed;
        it->ask.bank_rad = set->answer.bank_rad;
    }
    return status;
}

static ls_status set_axes(const cli_options *options, line *it, ls_error *error)
{
    const cli_value *over = &options->value[CLI_OVER];
    if (over->count < 1 || over->count > 2) {
        return ls_fail(error, LS_USAGE, "over what? Give --over once or twice, as in: %s",
                       cli_command_trend.example);
    }
    it->ask.axes = over->count;
    for (int i = 0; i < over->count; i++) {
        ls_status status = ls_trend_axis_parse(over->text[i], &it->input.aircraft, axis_unit,
                                               (void *)(uintptr_t)options, &it->ask.axis[i], error);
        if (status != LS_OK) {
            return status;
        }
    }
    if (over->count == 2 && options->files > 1) {
        return ls_fail(error, LS_USAGE, "two axes go with one aeroplane");
    }
    if (over->count == 2 && strcmp(it->ask.axis[0].name, it->ask.axis[1].name) == 0) {
        return ls_fail(error, LS_USAGE, "--over %s: the same axis twice", it->ask.axis[0].name);
    }
    return LS_OK;
}

static ls_status solve(const cli_run *run, job *it, ls_error *error)
{
    cli_progress progress;
    ls_watch watch = {cli_progress_show, cli_progress_stop, &progress};
    ls_status status = LS_OK;
    cli_progress_begin(&progress, "trend");
    for (int i = 0; i < run->options->files && status == LS_OK; i++) {
        line *at = calloc(1, sizeof *at);
        if (at == NULL) {
            status = ls_fail(error, LS_MEMORY, "out of memory");
            break;
        }
        it->line[it->lines++] = at;
        status = cli_input_read(run, run->options->file[i], &at->input, error);
        status = status == LS_OK ? set_base(run->options, at, error) : status;
        status = status == LS_OK ? set_axes(run->options, at, error) : status;
        status = status == LS_OK ? ls_trend_solve(&at->ask, &watch, &at->trend, error) : status;
    }
    cli_progress_end(&progress);
    return status;
}

static void set_view(const cli_options *options, int is_partial, job *it)
{
    it->view.units = options->units;
    it->view.is_partial = is_partial;
    it->view.lines = it->lines;
    for (int i = 0; i < it->lines; i++) {
        line *at = it->line[i];
        it->view.line[i] = (ls_trend_line){&at->input.aircraft, &at->ask, &at->trend,
                                           ls_marks_uncertain(&at->input.aircraft, &at->input.marks)};
    }
    for (int i = 0; i < it->line[0]->ask.axes; i++) {
        const ls_trend_axis *axis = &it->line[0]->ask.axis[i];
        it->view.axis_unit[i] = axis_unit(axis->kind, axis->dimension, (void *)(uintptr_t)options);
    }
}

static ls_status report(const cli_run *run, job *it, ls_error *error)
{
    char condition[CLI_CONDITION_TEXT], bank[LS_PHRASE];
    const line *first = it->line[0];
    const cli_input *inputs[CLI_FILES_MAX];
    int side = ls_live_side(&first->input.aircraft, &first->ask.condition);
    cli_condition_text(&first->input.aircraft, &first->ask.condition, run->options, 0, condition,
                       sizeof condition);
    ls_phrase_bank(first->ask.bank_rad, side, first->input.aircraft.engines - ls_set_size(first->ask.failed),
                   bank);
    ls_report *sheet = ls_report_new();
    if (sheet == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    for (int i = 0; i < it->lines; i++) {
        inputs[i] = &it->line[i]->input;
    }
    ls_trend_report(sheet, &it->view);
    ls_report_line(sheet, "From: %s, %s%s.", condition, bank,
                   it->lines > 1 ? "; the other aeroplanes at their own answer's loading" : "");
    cli_plot plot;
    ls_status status = cli_plot_start(run, &first->input, condition, sheet, &plot, error);
    if (status == LS_OK && plot.folder != NULL && it->view.is_partial && first->ask.axes == 2) {
        ls_report_line(sheet, "No chart: the grid is not whole.");
    } else if (status == LS_OK && plot.folder != NULL) {
        ls_chart_of_trend(&it->chart, &it->view, cli_given(run->options, CLI_SLIDE));
        status = cli_plot_add(&plot, &it->chart, "the table above, drawn", error);
    }
    status = status == LS_OK ? cli_emit(run, sheet, inputs, it->lines, condition, error) : status;
    ls_report_free(sheet);
    return status;
}

static void print_axis(FILE *stream, const char *name, const ls_unit *unit, double low, double high,
                       const char *meaning)
{
    if (high >= 1e9) {
        fprintf(stream, "  %-42s %-8s at least %.5g\n", name, unit->name, ls_unit_from_si(unit, low));
    } else {
        fprintf(stream, "  %-42s %-8s %.5g to %.5g\n", name, unit->name, ls_unit_from_si(unit, low),
                ls_unit_from_si(unit, high));
    }
    fprintf(stream, "      %s\n", meaning);
}

static ls_status write_list(FILE *stream, const void *context, ls_error *error)
{
    (void)error;
    int count;
    const ls_parameter *parameters = ls_parameters(&count);
    void *options = (void *)(uintptr_t)context;
    fprintf(stream, "Every axis, with the unit of a bare number and its range.\n\nOf the condition:\n");
    for (int i = 0; i < LS_AXIS_FILE; i++) {
        const ls_axis_row *row = ls_axis((ls_axis_kind)i);
        print_axis(stream, row->name, axis_unit((ls_axis_kind)i, row->dimension, options), row->low, row->high,
                   row->meaning);
    }
    fprintf(stream, "\nOf the file (in [ ] put a name from the file, or its number from 1):\n");
    for (int i = 0; i < count; i++) {
        if (parameters[i].kind == LS_KEY_NUMBER) {
            print_axis(stream, parameters[i].path, axis_unit(LS_AXIS_FILE, parameters[i].dimension, options),
                       parameters[i].low, parameters[i].high, parameters[i].meaning);
        }
    }
    return LS_OK;
}

static ls_status run(const cli_run *run, ls_error *error)
{
    if (cli_given(run->options, CLI_LIST)) {
        return cli_write("-", write_list, run->options, error);
    }
    if (run->options->files == 0) {
        return ls_fail(error, LS_USAGE, "which aeroplane? As in: %s", cli_command_trend.example);
    }
    job *it = calloc(1, sizeof *it);
    if (it == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    ls_status status = solve(run, it, error);
    int is_partial = status == LS_INTERRUPTED && it->line[0]->trend.count > 0;
    if (is_partial && it->line[it->lines - 1]->trend.count == 0) {
        it->lines--; /* a file whose turn had just begun */
    }
    if (status == LS_OK || is_partial) {
        ls_error why = {0};
        set_view(run->options, is_partial, it);
        ls_status reported = report(run, it, &why);
        status = reported != LS_OK ? ls_fail(error, reported, "%s", why.text) : status;
    }
    for (int i = 0; i < CLI_FILES_MAX && it->line[i] != NULL; i++) {
        ls_trend_free(&it->line[i]->trend);
        cli_input_free(&it->line[i]->input);
        free(it->line[i]);
    }
    free(it);
    return status;
}

const cli_command cli_command_trend = {
    .name = "trend",
    .question = "How does it change with bank, height, weight, or anything else?",
    .summary =
        "Solves the minimum control speed along one axis, or over a grid of two: any number of the condition or "
        "of the file. It starts from the answer of vmca: the critical engine, the bank of the lowest speed "
        "within the limit, the most unfavourable weight and centre of gravity. Several aeroplanes stand side "
        "by side. A point without an answer is an empty cell with its reason.",
    .example = "liveside trend whimbrel --over altitude=0:12000:2000",
    .options = CLI_FILE_BITS | CLI_CONDITION_BITS | CLI_BIT(CLI_OVER) | CLI_BIT(CLI_LIST) | CLI_BIT(CLI_PLOT) |
               CLI_BIT(CLI_SLIDE),
    .files_min = 0,
    .files_max = CLI_FILES_MAX,
    .run = run,
};
