#include "cli/commands.h"
#include "cli/emit.h"
#include "cli/input.h"
#include "cli/plot.h"
#include "liveside/points_file.h"
#include "liveside/reader.h"
#include "liveside/reduce.h"
#include "report/reduce_report.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    cli_input input;        /* the aeroplane */
    cli_input points_input; /* path, hash and findings of the points */
    ls_points points;
    ls_reduce_request request;
    ls_reduction reduction;
    ls_chart chart;
} job;

/* ---- options ---- */

static const struct {
    const char *name;
    ls_dimension dimension;
    size_t offset;
} instruments[] = {
    {"speed", LS_DIM_SPEED, offsetof(ls_accuracies, speed_m_s)},
    {"bank", LS_DIM_ANGLE, offsetof(ls_accuracies, bank_rad)},
    {"rudder", LS_DIM_ANGLE, offsetof(ls_accuracies, rudder_rad)},
    {"weight", LS_DIM_FRACTION, offsetof(ls_accuracies, mass_share)},
    {"temperature", LS_DIM_TEMPERATURE_DIFFERENCE, offsetof(ls_accuracies, T_K)},
    {"altitude", LS_DIM_ALTITUDE, offsetof(ls_accuracies, altitude_m)},
    {"power", LS_DIM_FRACTION, offsetof(ls_accuracies, power_share)},
};

static ls_status set_accuracy(const char *text, ls_accuracies *accuracies, ls_error *error)
{
    size_t length = strcspn(text, "=");
    for (size_t i = 0; i < sizeof instruments / sizeof instruments[0]; i++) {
        ls_error why = {0};
        double *value = (double *)(void *)((char *)accuracies + instruments[i].offset), si;
        if (strncmp(text, instruments[i].name, length) != 0 || instruments[i].name[length] != '\0') {
            continue;
        }
        if (text[length] != '=' ||
            ls_units_parse(text + length + 1, instruments[i].dimension, &si, &why) != LS_OK) {
            return ls_fail(error, LS_USAGE, "--accuracy %s: %s", text,
                           why.text[0] != '\0' ? why.text : "NAME=VALUE is needed");
        }
        if (!(si > 0.0)) {
            return ls_fail(error, LS_USAGE, "--accuracy %s: it must be positive", text);
        }
        *value = si;
        return LS_OK;
    }
    return ls_fail(
        error, LS_USAGE,
        "--accuracy %s: no such reading; there are speed, bank, rudder, weight, temperature, altitude, power",
        text);
}

static ls_status make_request(const cli_options *options, job *it, ls_error *error)
{
    const ls_aircraft *aircraft = &it->input.aircraft;
    const cli_value *weight = &options->value[CLI_WEIGHT], *bank = &options->value[CLI_BANK];
    const cli_value *accuracy = &options->value[CLI_ACCURACY];
    ls_reduce_request *request = &it->request;
    *request = (ls_reduce_request){.aircraft = aircraft,
                                   .points = &it->points,
                                   .mass_kg = aircraft->mass.maximum_kg,
                                   .bank_rad = aircraft->limits.bank_rad,
                                   .confidence = 0.95};
    if (weight->count > 0) {
        request->mass_kg = weight->word == CLI_WEIGHT_MIN ? aircraft->mass.minimum_kg
                           : weight->word >= 0            ? aircraft->mass.maximum_kg
                                                          : weight->si;
    }
    if (bank->count > 0) {
        request->bank_rad = bank->word == CLI_TOWARD_LIVE ? bank->si : -bank->si;
    }
    if (cli_given(options, CLI_THRUST_DOUBT)) {
        request->thrust_share = options->value[CLI_THRUST_DOUBT].si;
    }
    ls_accuracies_usual(&request->accuracies);
    ls_status status = LS_OK;
    for (int i = 0; i < accuracy->count && status == LS_OK; i++) {
        status = set_accuracy(accuracy->text[i], &request->accuracies, error);
    }
    return status;
}

/* ---- the run ---- */

static ls_status read_points(const cli_run *run, job *it, ls_error *error)
{
    cli_input *file = &it->points_input;
    snprintf(file->path, sizeof file->path, "%.*s", (int)sizeof file->path - 1, run->options->file[1]);
    ls_status status = ls_points_read(file->path, &it->points, &file->findings, file->sha256, error);
    ls_findings_print(stderr, file->path, &file->findings, LS_WARNING);
    return status;
}

static ls_status save(const cli_run *run, job *it, ls_error *error)
{
    if (!cli_given(run->options, CLI_AIRCRAFT)) {
        return LS_OK;
    }
    if (!it->reduction.fit.scale[LS_SCALE_RUDDER].is_estimated) {
        return ls_fail(error, LS_NO_STATE, "no aeroplane is written, for these points say nothing of it: %s",
                       it->reduction.fit.scale[LS_SCALE_RUDDER].reason);
    }
    cli_input *updated = malloc(sizeof *updated);
    if (updated == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    *updated = it->input;
    ls_reduce_update(&it->reduction, &updated->aircraft, &updated->marks);
    ls_status status = cli_aircraft_save(run, updated, error);
    free(updated);
    return status;
}

static ls_status plot(const cli_run *run, job *it, const ls_reduce_view *view, ls_report *sheet, ls_error *error)
{
    cli_plot plot;
    ls_status status = cli_plot_start(run, &it->input, "reduced to sea level, standard day", sheet, &plot, error);
    if (status != LS_OK || plot.folder == NULL) {
        return status;
    }
    ls_chart_of_residuals(&it->chart, view, cli_given(run->options, CLI_SLIDE));
    return cli_plot_add(&plot, &it->chart, "what the model leaves of each point", error);
}

static ls_status report(const cli_run *run, job *it, ls_error *error)
{
    ls_reduce_view view = {.aircraft = &it->input.aircraft,
                           .request = &it->request,
                           .reduction = &it->reduction,
                           .written = cli_text(run->options, CLI_AIRCRAFT),
                           .units = run->options->units};
    const cli_input *inputs[] = {&it->input, &it->points_input};
    ls_report *sheet = ls_report_new();
    if (sheet == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    ls_reduce_report(sheet, &view);
    ls_status status = plot(run, it, &view, sheet, error);
    status = status == LS_OK ? cli_emit(run, sheet, inputs, 2, NULL, error) : status;
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
    status = status == LS_OK ? make_request(run->options, it, error) : status;
    status = status == LS_OK ? read_points(run, it, error) : status;
    status = status == LS_OK ? ls_reduce_points(&it->request, &it->reduction, error) : status;
    status = status == LS_OK ? save(run, it, error) : status;
    status = status == LS_OK ? report(run, it, error) : status;
    ls_reduce_free(&it->reduction);
    ls_points_free(&it->points);
    cli_input_free(&it->input);
    free(it);
    return status;
}

const cli_command cli_command_reduce = {
    .name = "reduce",
    .question = "What do measured points say?",
    .summary =
        "Reads an aeroplane file and a file of test points (as `testcard --format csv` prints it, filled in), and "
        "reduces each point to the standard condition (sea level, standard day, maximum weight and the file's "
        "bank "
        "limit, or --weight and --bank) by constant yawing-moment coefficient, by the cube-root "
        "power law and by the whole model; finds the standard speed with its interval, and the derivatives as far "
        "as the points tell them apart. --aircraft writes the aeroplane with what was found.",
    .example = "liveside reduce whimbrel flown.csv --plot charts",
    .options = CLI_FILE_BITS | CLI_BIT(CLI_WEIGHT) | CLI_BIT(CLI_BANK) | CLI_BIT(CLI_THRUST_DOUBT) |
               CLI_BIT(CLI_ACCURACY) | CLI_BIT(CLI_AIRCRAFT) | CLI_BIT(CLI_PLOT) | CLI_BIT(CLI_SLIDE),
    .files_min = 2,
    .files_max = 2,
    .run = run,
};
