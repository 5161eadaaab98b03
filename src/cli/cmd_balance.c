#include "cli/balance_report.h"
#include "cli/commands.h"
#include "cli/condition.h"
#include "cli/emit.h"
#include "liveside/airspeed.h"

#include <math.h>
#include <stdlib.h>

/* Which engine fails and at which loading: the critical one and the least favourable, where nothing else is asked.
 */
static ls_status choose(const cli_options *options, const cli_input *input, cli_balance *it, ls_error *error)
{
    ls_vmca_request request;
    ls_status status = cli_request_make(options, &input->aircraft, &request, error);
    if (status != LS_OK) {
        return status;
    }
    request.bank_given = 1;
    int nothing_failed = request.sets == 1 && request.set[0] == 0;
    if (nothing_failed || (request.sets == 1 && request.search == 0)) {
        it->failed = request.set[0];
        return cli_request_fail(&request, &input->aircraft, it->failed, request.bank_rad, &it->condition, error);
    }
    ls_vmca *vmca = calloc(1, sizeof *vmca);
    if (vmca == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    status = ls_vmca_solve(&input->aircraft, &request, vmca, error);
    if (status == LS_OK) {
        int critical = vmca->critical[request.condition.rotation];
        const ls_vmca_set *set = &vmca->set[critical > 0 ? critical : 0];
        it->failed = set->failed;
        it->critical = critical >= 0 && request.sets > 1;
        request.condition.mass_kg = set->condition.mass_kg;
        request.condition.cg_aft_m = set->condition.cg_aft_m;
        request.condition.cg_right_m = set->condition.cg_right_m;
        status = cli_request_fail(&request, &input->aircraft, it->failed, request.bank_rad, &it->condition, error);
    }
    free(vmca);
    return status;
}

static ls_status solve(const cli_options *options, const cli_input *input, cli_balance *it, ls_error *error)
{
    ls_status status = ls_model_make(&input->aircraft, &it->condition, &it->model, error);
    if (status == LS_OK) {
        status = ls_airspeed_from_cas(&it->model.air, options->value[CLI_SPEED].si, &it->speed, error);
    }
    if (status == LS_OK) {
        status = ls_powerplant_at(&it->model, it->speed.TAS_m_s, &it->point, error);
    }
    if (status != LS_OK) {
        return status;
    }
    if (ls_trim_at(&it->model, &it->point, it->condition.bank_rad, NULL, &it->trim) != LS_OK) {
        return ls_fail(error, LS_NOT_CONVERGED,
                       "no balance was found at this speed: %s after %d steps, residual %.1e",
                       ls_stop_text(it->trim.stop), it->trim.iterations, it->trim.residual);
    }
    ls_margins_at(&it->model, &it->trim, &it->margins);
    ls_trim_balance(&it->model, &it->point, &it->trim, &it->balance);
    return LS_OK;
}

static ls_status emit(const cli_run *run, const cli_input *input, const cli_balance *it, ls_error *error)
{
    char condition[CLI_CONDITION_TEXT];
    cli_condition_text(&input->aircraft, &it->condition, run->options, 0, condition, sizeof condition);
    ls_report *report = ls_report_new();
    if (report == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    cli_balance_report(report, run->options, input, it, condition);
    ls_status status = cli_emit(run, report, &input, 1, condition, error);
    ls_report_free(report);
    return status;
}

/* The limit with the least left, or -1 when none applies. */
int cli_balance_tightest(const cli_balance *it)
{
    int tightest = -1;
    for (int i = 0; i < LS_LIMITS; i++) {
        double left = it->margins.left[i];
        if (!isnan(left) && (tightest < 0 || left < it->margins.left[tightest])) {
            tightest = i;
        }
    }
    return tightest;
}

static ls_status judge(const cli_balance *it, ls_error *error)
{
    int tightest = cli_balance_tightest(it);
    if (tightest >= 0 && it->margins.left[tightest] < -1e-9) {
        return ls_fail(error, LS_NO_STATE, "it cannot be held there: %s is exceeded",
                       ls_limit_name((ls_limit)tightest));
    }
    return LS_OK;
}

static ls_status run(const cli_run *run, ls_error *error)
{
    if (!cli_given(run->options, CLI_SPEED)) {
        return ls_fail(error, LS_USAGE, "at which speed? Give --speed, as in: %s", cli_command_balance.example);
    }
    cli_input *input = calloc(1, sizeof *input);
    cli_balance *it = calloc(1, sizeof *it);
    ls_status status = LS_OK;
    if (input == NULL || it == NULL) {
        status = ls_fail(error, LS_MEMORY, "out of memory");
    }
    status = status == LS_OK ? cli_input_read(run, run->options->file[0], input, error) : status;
    status = status == LS_OK ? choose(run->options, input, it, error) : status;
    status = status == LS_OK ? solve(run->options, input, it, error) : status;
    status = status == LS_OK ? emit(run, input, it, error) : status;
    status = status == LS_OK ? judge(it, error) : status;
    if (input != NULL) {
        cli_input_free(input);
    }
    free(it);
    free(input);
    return status;
}

const cli_command cli_command_balance = {
    .name = "balance",
    .question = "What holds it straight at one speed, and what is left?",
    .summary = "Works out steady straight flight at a speed and a bank with an engine failed: the controls as a "
               "pilot sees them, what is left before each limit, and every force and moment with its source. "
               "Left out, the bank is wings level, the engine the critical one, and weight and centre of gravity "
               "the least favourable for control. Ends with exit status 4 when a limit is exceeded.",
    .example = "liveside balance whimbrel --speed 85 --bank 5live",
    .options =
        CLI_FILE_BITS | (CLI_CONDITION_BITS & ~CLI_BIT(CLI_BANK_LIMIT)) | CLI_BIT(CLI_SPEED) | CLI_BIT(CLI_BALL),
    .files_min = 1,
    .files_max = 1,
    .run = run,
};
