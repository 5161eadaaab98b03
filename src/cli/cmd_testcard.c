#include "cli/commands.h"
#include "cli/condition.h"
#include "cli/emit.h"
#include "cli/input.h"
#include "cli/job.h"
#include "liveside/testcard.h"
#include "report/testcard_report.h"

#include <math.h>

#define KT (1852.0 / 3600.0)
#define FT 0.3048

typedef struct {
    cli_input input; /* first: cli_job_run fills it */
    ls_vmca_request asked;
    ls_card_request request;
    ls_card card;
    ls_card_view view;
} job;

static double number_or(const cli_options *options, cli_option option, double otherwise)
{
    return cli_given(options, option) ? options->value[option].si : otherwise;
}

/* The engine whose failure is worst, at maximum weight and wings level, unless one is named. */
static ls_status choose_failed(job *it, ls_error *error)
{
    const ls_aircraft *aircraft = &it->input.aircraft;
    double worst = -INFINITY;
    ls_condition *condition = &it->request.condition;
    for (int i = 0; i < it->asked.sets; i++) {
        ls_model model;
        ls_vmc vmc;
        ls_condition failed;
        ls_status status = cli_request_fail(&it->asked, aircraft, it->asked.set[i], 0.0, &failed, error);
        status = status == LS_OK ? ls_model_make(aircraft, &failed, &model, error) : status;
        if (status != LS_OK) {
            return status;
        }
        int solved = ls_vmc_at(&model, 0.0, &vmc, NULL) == LS_OK && !isnan(vmc.control_cas_m_s);
        if (i == 0 || (solved && vmc.control_cas_m_s > worst + 0.01)) {
            *condition = failed;
            worst = solved ? vmc.control_cas_m_s : worst;
        }
    }
    return LS_OK;
}

static ls_status solve(const cli_run *run, void *of, ls_error *error)
{
    job *it = of;
    const cli_options *options = run->options;
    ls_status status = cli_request_make(options, &it->input.aircraft, &it->asked, error);
    if (status == LS_OK && it->asked.set[0] == 0) {
        status = ls_fail(error, LS_USAGE, "--failed none: a minimum control speed needs a failed engine");
    }
    if (status == LS_OK && cli_given(options, CLI_DELAY) && options->value[CLI_DELAY].word == CLI_DELAY_NEVER) {
        status = ls_fail(error, LS_USAGE, "--delay never: nobody plans a test in which the pilot does nothing");
    }
    it->asked.condition.altitude_m = number_or(options, CLI_ALTITUDE, 6000.0 * FT);
    status = status == LS_OK ? choose_failed(it, error) : status;
    it->request.aircraft = &it->input.aircraft;
    it->request.floor_m = number_or(options, CLI_FLOOR, 5000.0 * FT);
    it->request.stall_margin_m_s = number_or(options, CLI_STALL_MARGIN, 5.0 * KT);
    it->request.delay_s = number_or(options, CLI_DELAY, 1.0);
    return status == LS_OK ? ls_card_make(&it->request, &it->card, error) : status;
}

static ls_status report(const cli_run *run, void *of, ls_error *error)
{
    job *it = of;
    const cli_input *input = &it->input;
    ls_report *sheet = ls_report_new();
    if (sheet == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    it->view = (ls_card_view){.aircraft = &it->input.aircraft,
                              .request = &it->request,
                              .card = &it->card,
                              .uncertain = ls_marks_uncertain(&it->input.aircraft, &it->input.marks),
                              .units = run->options->units};
    ls_card_report(sheet, &it->view);
    ls_status status = cli_emit(run, sheet, &input, 1, NULL, error);
    ls_report_free(sheet);
    return status;
}

static ls_status run(const cli_run *run, ls_error *error)
{
    static const cli_job steps = {sizeof(job), solve, report, NULL};
    return cli_job_run(run, &steps, error);
}

const cli_command cli_command_testcard = {
    .name = "testcard",
    .question = "How would it be measured in flight, safely?",
    .summary =
        "Plans a build-up for measuring the minimum control speed and how it goes with bank: speeds in "
        "decreasing steps at two altitudes, with the rudder, aileron, sideslip, force and stall margin to "
        "expect, and where to stop; then sudden failures stepped down toward the static speed, with the heading "
        "change "
        "and height loss to expect. Nothing below the stall margin or the floor. With --format csv it is the "
        "file that `reduce` reads, measured columns empty.",
    .example = "liveside testcard whimbrel --format csv --output card.csv",
    .options = CLI_FILE_BITS | CLI_BIT(CLI_FAILED) | CLI_BIT(CLI_PROPELLER) | CLI_BIT(CLI_ALTITUDE) |
               CLI_BIT(CLI_OAT) | CLI_BIT(CLI_ISA) | CLI_BIT(CLI_WEIGHT) | CLI_BIT(CLI_CG) | CLI_BIT(CLI_FLAP) |
               CLI_BIT(CLI_GEAR) | CLI_BIT(CLI_POWER) | CLI_BIT(CLI_PARTIAL_POWER) | CLI_BIT(CLI_BANK_LIMIT) |
               CLI_BIT(CLI_PEDAL_LIMIT) | CLI_BIT(CLI_FLOOR) | CLI_BIT(CLI_STALL_MARGIN) | CLI_BIT(CLI_DELAY),
    .files_min = 1,
    .files_max = 1,
    .run = run,
};
