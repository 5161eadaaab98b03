#include "cli/commands.h"
#include "cli/emit.h"
#include "liveside/text.h"
#include "report/caution.h"
#include "report/rules_report.h"

#include <stdlib.h>

/* Everything of one run; large, so it lives on the heap. */
typedef struct {
    cli_input input;
    ls_rules_result result[LS_RULES_BASES_MAX];
    ls_rules_view view;
} job;

static ls_status no_such_basis(const char *name, ls_error *error)
{
    int count;
    const ls_rule_basis *bases = ls_rules_bases(&count);
    const char *names[LS_RULES_BASES_MAX];
    for (int i = 0; i < count && i < LS_RULES_BASES_MAX; i++) {
        names[i] = bases[i].name;
    }
    int guess = ls_text_nearest(name, names, count);
    if (guess >= 0) {
        return ls_fail(error, LS_USAGE, "--basis: no '%s'; did you mean %s?", name, names[guess]);
    }
    return ls_fail(error, LS_USAGE, "--basis: no '%s'; 'liveside rules --list' names them", name);
}

static ls_status add(job *it, const ls_rule_basis *basis, ls_error *error)
{
    ls_rules_result *result = &it->result[it->view.count];
    ls_status status = ls_rules_assess(&it->input.aircraft, basis, result, error);
    if (status == LS_OK) {
        it->view.result[it->view.count++] = result;
    }
    return status;
}

/* The bases that were named, or every one that could apply. */
static ls_status assess(const cli_options *options, job *it, ls_error *error)
{
    const cli_value *asked = &options->value[CLI_BASIS];
    int count;
    const ls_rule_basis *bases = ls_rules_bases(&count);
    ls_status status = LS_OK;
    for (int i = 0; i < asked->count && status == LS_OK; i++) {
        const ls_rule_basis *basis = ls_rules_find(asked->text[i]);
        status = basis == NULL ? no_such_basis(asked->text[i], error) : add(it, basis, error);
    }
    for (int i = 0; asked->count == 0 && i < count && status == LS_OK; i++) {
        if (ls_rules_apply(&it->input.aircraft, &bases[i].scope) != LS_APPLIES_NO) {
            status = add(it, &bases[i], error);
        }
    }
    if (status == LS_OK && it->view.count == 0) {
        return ls_fail(error, LS_NO_STATE, "none of the rules is for this aeroplane; name one with --basis");
    }
    return status;
}

static ls_status report(const cli_run *run, job *it, ls_error *error)
{
    const cli_input *input = &it->input;
    unsigned flags = 0;
    ls_report *sheet = ls_report_new();
    if (sheet == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    it->view.aircraft = &it->input.aircraft;
    it->view.units = run->options->units;
    it->view.uncertain = ls_marks_uncertain(&input->aircraft, &input->marks);
    it->view.full = cli_given(run->options, CLI_FULL);
    for (int i = 0; i < it->view.count; i++) {
        flags |= it->result[i].speed[LS_CASE_TAKEOFF].vmc.flags;
    }
    ls_rules_report(sheet, &it->view);
    ls_report_cautions(sheet, ls_marks_uncertain(&input->aircraft, &input->marks), 0.0, flags);
    ls_status status = cli_emit(run, sheet, &input, 1, "as each paragraph sets it; sea level, ISA", error);
    ls_report_free(sheet);
    return status;
}

static ls_status judge(const job *it, ls_error *error)
{
    int not_met = 0;
    for (int i = 0; i < it->view.count; i++) {
        not_met += it->result[i].not_met;
    }
    return not_met == 0 ? LS_OK
                        : ls_fail(error, LS_RULE_NOT_MET, "%d condition%s not met", not_met,
                                  not_met == 1 ? " is" : "s are");
}

static ls_status write_list(FILE *stream, const void *context, ls_error *error)
{
    int count;
    const ls_rule_basis *bases = ls_rules_bases(&count);
    (void)context;
    (void)error;
    for (int i = 0; i < count; i++) {
        fprintf(stream, "%-14s %s\n%-14s for %s\n", bases[i].name, bases[i].title, "", bases[i].applies_to);
    }
    return LS_OK;
}

static ls_status run(const cli_run *run, ls_error *error)
{
    if (cli_given(run->options, CLI_LIST)) {
        return cli_write("-", write_list, NULL, error);
    }
    if (run->options->files == 0) {
        return ls_fail(error, LS_USAGE, "which aeroplane? As in: %s", cli_command_rules.example);
    }
    job *it = calloc(1, sizeof *it);
    if (it == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    ls_status status = cli_input_read(run, run->options->file[0], &it->input, error);
    status = status == LS_OK ? assess(run->options, it, error) : status;
    status = status == LS_OK ? report(run, it, error) : status;
    status = status == LS_OK ? judge(it, error) : status;
    cli_input_free(&it->input);
    free(it);
    return status;
}

const cli_command cli_command_rules = {
    .name = "rules",
    .question = "What do the airworthiness rules ask, and is it met?",
    .summary =
        "Judges the aeroplane by the conditions on minimum control speed of the airworthiness rules, each with "
        "its "
        "paragraph number, in our words: the configuration is set as the paragraph says, with the most "
        "unfavourable weight and centre of gravity, and each condition is met, not met or not assessed, with its "
        "figure. Left out, --basis takes every rule that could apply, side by side. It is no showing of "
        "compliance. Ends with exit status 8 when a condition is not met.",
    .example = "liveside rules whimbrel --basis part23-amdt50",
    .options = CLI_FILE_BITS | CLI_BIT(CLI_BASIS) | CLI_BIT(CLI_LIST) | CLI_BIT(CLI_FULL),
    .files_min = 0,
    .files_max = 1,
    .run = run,
};
