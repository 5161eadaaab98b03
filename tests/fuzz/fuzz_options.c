/* Any lines as the arguments of a command, which the first byte chooses: never a crash; yes, or no with a reason;
 * what is taken is finite and within its range. */
#include "cli/condition.h"
#include "cli/input.h"
#include "cli/options.h"
#include "liveside/reader.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { ARGUMENTS_MAX = 24 };

int LLVMFuzzerInitialize(int *count, char ***arguments);
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static ls_aircraft aircraft, changed;
static ls_marks marks, changed_marks;

static void require(int holds)
{
    if (!holds) {
        abort();
    }
}

int LLVMFuzzerInitialize(int *count, char ***arguments)
{
    (void)count;
    (void)arguments;
    static ls_findings findings;
    ls_error error = {0};
    require(ls_aircraft_read("tests/data/twin.yaml", &aircraft, &marks, &findings, NULL, &error) == LS_OK);
    return 0;
}

static void refused_with_a_reason(ls_status status, const ls_error *error)
{
    require(status == LS_USAGE && error->status == LS_USAGE);
    require(error->text[0] != '\0' && strlen(error->text) < LS_ERROR_TEXT);
}

static void check_values(const cli_options *options)
{
    for (int i = 0; i < CLI_OPTION_COUNT; i++) {
        const cli_value *value = &options->value[i];
        const cli_option_row *row = &cli_option_rows[i];
        int is_number = row->kind == CLI_NUMBER || row->kind == CLI_SIDED;
        if (value->count > 0 && is_number && !isnan(value->si)) {
            double slack = 1e-9 * (fabs(row->low) + fabs(row->high));
            require(value->si >= row->low - slack && value->si <= row->high + slack);
        }
    }
}

static void check_request(const cli_options *options)
{
    ls_vmca_request request;
    ls_error error = {0};
    changed = aircraft;
    changed_marks = marks;
    char text[CLI_CONDITION_TEXT];
    ls_status status = cli_aircraft_set(options, &changed, &changed_marks, &error);
    status = status == LS_OK ? cli_request_make(options, &changed, &request, &error) : status;
    if (status != LS_OK) {
        refused_with_a_reason(status, &error);
        return;
    }
    require(isfinite(request.condition.mass_kg) && isfinite(request.bank_rad) && request.sets >= 1);
    cli_condition_text(&changed, &request.condition, options, request.search, text, sizeof text);
    require(strlen(text) < sizeof text);
}

static void check_options(const cli_command *command, int count, char *const *arguments)
{
    cli_options options, other;
    ls_error error = {0};
    ls_status status = cli_options_parse(command, count, arguments, &options, &error);
    if (status != LS_OK) {
        refused_with_a_reason(status, &error);
        return;
    }
    if (cli_given(&options, CLI_HELP)) {
        return;
    }
    check_values(&options);
    check_request(&options);
    if (count > 0) {
        ls_error why = {0};
        status = cli_options_change(&options, arguments[count - 1], &other, &why);
        if (status != LS_OK) {
            refused_with_a_reason(status, &why);
        } else {
            check_values(&other);
        }
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char *arguments[ARGUMENTS_MAX];
    int count = 0, commands = 0;
    if (size == 0) {
        return 0;
    }
    char *text = malloc(size);
    require(text != NULL);
    memcpy(text, data + 1, size - 1);
    text[size - 1] = '\0';
    while (cli_commands[commands] != NULL) {
        commands++;
    }
    char *rest = NULL;
    for (char *line = strtok_r(text, "\n", &rest); line != NULL && count < ARGUMENTS_MAX;
         line = strtok_r(NULL, "\n", &rest)) {
        arguments[count++] = line;
    }
    check_options(cli_commands[(uint8_t)(data[0] - '0') % commands], count, arguments);
    free(text);
    return 0;
}
