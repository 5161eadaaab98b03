#include "cli/base.h"
#include "cli/commands.h"
#include "cli/condition.h"
#include "cli/emit.h"
#include "cli/plot.h"
#include "cli/progress.h"
#include "io/format.h"
#include "report/input_words.h"
#include "report/uncertainty_report.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { NAME = 128, SAMPLES = 100000, INDEX_ROWS = 512 };

/* Everything of one run; large, so it lives on the heap. */
typedef struct {
    cli_input input;
    cli_base base;
    ls_inputs inputs;
    ls_uncertainty_request request;
    ls_uncertainty result;
    ls_uncertainty_view view;
    ls_chart chart;
} job;

/* The listed input of a name, to be changed. */
static ls_input *find(job *it, const char *name, const char *option, ls_error *error)
{
    ls_error why = {0};
    const ls_input *found = ls_inputs_find(&it->inputs, &it->input.aircraft, name, &why);
    if (found == NULL) {
        ls_fail(error, LS_USAGE, "--%s: %s", option, why.text);
        return NULL;
    }
    return &it->inputs.input[found - it->inputs.input];
}

/* A spread in per cent of the value, of a fraction in points, of a table as a share; else with a unit, or bare. */
static ls_status read_spread(const char *text, ls_unit_system units, ls_input *input, ls_error *error)
{
    double bare, spread = NAN;
    ls_error why = {0};
    size_t length = strlen(text);
    int is_curve = input->parameter != NULL && input->parameter->kind == LS_KEY_CURVE;
    int is_share = length > 0 && text[length - 1] == '%';
    ls_dimension dimension = is_share || is_curve                     ? LS_DIM_FRACTION
                             : input->dimension == LS_DIM_TEMPERATURE ? LS_DIM_TEMPERATURE_DIFFERENCE
                                                                      : input->dimension;
    if (!is_share && ls_units_number(text, &bare, NULL, NULL) == LS_OK) {
        spread = bare * ls_input_unit(input, units)->factor;
    } else if (ls_units_parse(text, dimension, &spread, &why) != LS_OK) {
        return ls_fail(error, LS_USAGE, "--uncertain %s: %s", input->name, why.text);
    }
    spread *= is_share && !is_curve && input->dimension != LS_DIM_FRACTION ? fabs(input->base) : 1.0;
    if (!(spread > 0.0)) {
        return ls_fail(error, LS_USAGE, "--uncertain %s: a spread is more than 0; '%s' gives %g", input->name,
                       text, spread);
    }
    input->spread = spread;
    return LS_OK;
}

/* NAME=SPREAD[:SHAPE] */
static ls_status set_uncertain(job *it, const char *text, ls_unit_system units, ls_error *error)
{
    char name[NAME], spread[NAME];
    size_t length = strcspn(text, "="), value = text[length] == '=' ? strcspn(text + length + 1, ":") : 0;
    if (text[length] != '=' || length == 0 || length >= NAME || value == 0 || value >= NAME) {
        return ls_fail(error, LS_USAGE, "--uncertain takes NAME=SPREAD or NAME=SPREAD:SHAPE, not '%.60s'", text);
    }
    snprintf(name, sizeof name, "%.*s", (int)length, text);
    snprintf(spread, sizeof spread, "%.*s", (int)value, text + length + 1);
    ls_input *input = find(it, name, "uncertain", error);
    if (input == NULL) {
        return LS_USAGE;
    }
    const char *shape = text + length + 1 + value;
    if (shape[0] == ':') {
        int index = ls_choice_find(LS_SHAPE_WORDS, shape + 1);
        if (index < 0) {
            return ls_fail(error, LS_USAGE,
                           "--uncertain %s: no shape '%.40s'; it takes normal, uniform, triangular or "
                           "truncated",
                           name, shape + 1);
        }
        input->shape = (ls_shape)index;
    }
    return read_spread(spread, units, input, error);
}

static int place_of(const job *it, const ls_input *input)
{
    for (int i = 0; i < it->request.inputs; i++) {
        if (strcmp(it->request.input[i].name, input->name) == 0) {
            return i;
        }
    }
    return -1;
}

/* NAME,NAME=NUMBER */
static ls_status set_correlation(job *it, const char *text, ls_error *error)
{
    char name[2][NAME];
    double value;
    size_t comma = strcspn(text, ","), equals = strcspn(text, "=");
    if (text[comma] != ',' || text[equals] != '=' || comma > equals || comma >= NAME || equals - comma > NAME ||
        ls_units_number(text + equals + 1, &value, NULL, NULL) != LS_OK || !(fabs(value) < 1.0)) {
        return ls_fail(error, LS_USAGE,
                       "--correlate takes NAME,NAME=NUMBER with a number between -1 and 1, not '%.80s'", text);
    }
    snprintf(name[0], NAME, "%.*s", (int)comma, text);
    snprintf(name[1], NAME, "%.*s", (int)(equals - comma - 1), text + comma + 1);
    int place[2];
    for (int k = 0; k < 2; k++) {
        const ls_input *input = find(it, name[k], "correlate", error);
        if (input == NULL) {
            return LS_USAGE;
        }
        place[k] = place_of(it, input);
        if (place[k] < 0) {
            return ls_fail(error, LS_USAGE, "--correlate: '%s' is not uncertain", name[k]);
        }
    }
    if (place[0] == place[1]) {
        return ls_fail(error, LS_USAGE, "--correlate: '%s' twice", name[0]);
    }
    it->request.correlation[place[0]][place[1]] = it->request.correlation[place[1]][place[0]] = value;
    it->request.correlated = 1;
    return LS_OK;
}

/* The whole number of an option. */
static long whole(const cli_options *options, cli_option option, long otherwise)
{
    return cli_given(options, option) ? lround(options->value[option].si) : otherwise;
}

static void set_condition(const cli_options *options, job *it)
{
    ls_uncertainty_request *request = &it->request;
    request->aircraft = &it->input.aircraft;
    request->condition = it->base.condition;
    for (int i = 0; i < LS_MAX_ENGINES; i++) {
        request->condition.state[i] = LS_RUNNING;
    }
    request->state = it->base.request.state;
    request->bank_rad = it->base.bank_rad;
    for (int i = 0; i < it->base.request.sets; i++) {
        if (ls_set_size(it->base.request.set[i]) == 1 || it->base.request.sets == 1) {
            request->set[request->sets++] = it->base.request.set[i];
        }
    }
    request->sampling = options->value[CLI_SAMPLING].word == CLI_SAMPLING_SOBOL && cli_given(options, CLI_SAMPLING)
                            ? LS_SAMPLES_SOBOL
                            : LS_SAMPLES_RANDOM;
    request->samples = whole(options, CLI_SAMPLES, SAMPLES);
    request->seed = (uint64_t)whole(options, CLI_SEED, 1);
    request->threads = (int)whole(options, CLI_THREADS, 0);
    request->exceeds_m_s = cli_given(options, CLI_EXCEEDS) ? options->value[CLI_EXCEEDS].si : 0.0;
    request->index_rows = cli_given(options, CLI_INDICES) ? INDEX_ROWS : 0;
}

static ls_status set_inputs(const cli_options *options, job *it, ls_error *error)
{
    const cli_value *uncertain = &options->value[CLI_UNCERTAIN], *correlate = &options->value[CLI_CORRELATE];
    ls_status status = LS_OK;
    ls_inputs_list(&it->input.aircraft, &it->input.marks, &it->request.condition, it->request.bank_rad,
                   &it->inputs);
    for (int i = 0; i < uncertain->count && status == LS_OK; i++) {
        status = set_uncertain(it, uncertain->text[i], options->units, error);
    }
    ls_error why = {0};
    if (status == LS_OK && ls_uncertainty_gather(&it->inputs, &it->input.marks, &it->request, &why) != LS_OK) {
        status = ls_fail(
            error, LS_USAGE,
            "%s: write spreads into the file (the demo aeroplane sanderling has some), or give them, as in: %s",
            why.text, cli_command_uncertainty.example);
    }
    for (int i = 0; i < correlate->count && status == LS_OK; i++) {
        status = set_correlation(it, correlate->text[i], error);
    }
    return status;
}

static ls_status solve(const cli_options *options, job *it, ls_error *error)
{
    ls_status status = cli_base_find(options, &it->input.aircraft, &it->base, error);
    if (status != LS_OK) {
        return status;
    }
    set_condition(options, it);
    status = set_inputs(options, it, error);
    if (status != LS_OK) {
        return status;
    }
    cli_progress progress;
    ls_watch watch = {cli_progress_show, cli_progress_stop, &progress};
    cli_progress_begin(&progress, "uncertainty");
    status = ls_uncertainty_solve(&it->request, &watch, &it->result, error);
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
    ls_chart_of_uncertainty(&it->chart, &it->view, cli_given(run->options, CLI_SLIDE));
    return cli_plot_add(&plot, &it->chart, "how the speed is distributed", error);
}

static ls_status report(const cli_run *run, job *it, const char *partial, ls_error *error)
{
    char condition[CLI_CONDITION_TEXT], bank[LS_PHRASE];
    const cli_input *input = &it->input;
    cli_condition_text(&it->input.aircraft, &it->base.condition, run->options, 0, condition, sizeof condition);
    it->view = (ls_uncertainty_view){.aircraft = &it->input.aircraft,
                                     .request = &it->request,
                                     .result = &it->result,
                                     .units = run->options->units,
                                     .uncertain = ls_marks_uncertain(&it->input.aircraft, &it->input.marks),
                                     .is_partial = partial != NULL};
    ls_report *sheet = ls_report_new();
    if (sheet == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    if (partial != NULL) {
        ls_report_warning(sheet, "A partial result: the run was %s.", partial);
    }
    ls_report_flag(sheet, "partial", partial != NULL);
    ls_uncertainty_report(sheet, &it->view);
    ls_phrase_bank(it->base.bank_rad, ls_live_side(&it->input.aircraft, &it->base.condition),
                   it->input.aircraft.engines - ls_set_size(it->base.failed), bank);
    ls_report_line(sheet, "About: %s, %s.", condition, bank);
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
    int is_partial = status == LS_INTERRUPTED && it->result.samples > 0;
    if (status == LS_OK || is_partial) {
        ls_error why = {0};
        ls_status reported = report(run, it, is_partial ? error->text : NULL, &why);
        status = reported != LS_OK ? ls_fail(error, reported, "%s", why.text) : status;
    }
    cli_input_free(&it->input);
    free(it);
    return status;
}

const cli_command cli_command_uncertainty = {
    .name = "uncertainty",
    .question = "How sure is the answer?",
    .summary =
        "Draws many aeroplanes and conditions from the spreads of the inputs, as the file states them and as "
        "--uncertain adds, and shows how the minimum control speed is distributed: percentiles with their "
        "intervals, "
        "how likely it is to lie above a speed, and with --indices what share each input has. It starts from the "
        "answer "
        "of vmca; each sample counts the highest speed of the failures. Stopped by Ctrl-C it reports what it has.",
    .example = "liveside uncertainty whimbrel --uncertain derivatives.yaw.rudder='5 %' --uncertain weight='30 lb'",
    .options = CLI_FILE_BITS | CLI_CONDITION_BITS | CLI_BIT(CLI_UNCERTAIN) | CLI_BIT(CLI_CORRELATE) |
               CLI_BIT(CLI_SAMPLES) | CLI_BIT(CLI_SAMPLING) | CLI_BIT(CLI_SEED) | CLI_BIT(CLI_THREADS) |
               CLI_BIT(CLI_EXCEEDS) | CLI_BIT(CLI_INDICES) | CLI_BIT(CLI_PLOT) | CLI_BIT(CLI_SLIDE),
    .files_min = 1,
    .files_max = 1,
    .run = run,
};
