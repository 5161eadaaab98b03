#include "airframe/path.h"
#include "cli/commands.h"
#include "cli/emit.h"
#include "io/format.h"
#include "liveside/reader.h"
#include "liveside/support.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    ls_report *report;
    const cli_input *input;
    ls_unit_system units;
} job;

static const char *plural(int count)
{
    return count == 1 ? "" : "s";
}

static void add_answer(const job *at, ls_status status)
{
    const int *total = at->input->findings.total;
    const char *verdict = status == LS_OK ? "The file stands" : "The file is rejected";
    if (status == LS_OK) {
        ls_report_line(at->report, "%s", at->input->aircraft.name);
    }
    ls_report_answer(at->report, "%s: %d error%s, %d warning%s, %d note%s.", verdict, total[LS_REJECT],
                     plural(total[LS_REJECT]), total[LS_WARNING], plural(total[LS_WARNING]), total[LS_NOTE],
                     plural(total[LS_NOTE]));
    ls_report_flag(at->report, "stands", status == LS_OK);
    ls_report_number(at->report, "errors", LS_DIM_NUMBER, NULL, total[LS_REJECT]);
    ls_report_number(at->report, "warnings_in_file", LS_DIM_NUMBER, NULL, total[LS_WARNING]);
    ls_report_number(at->report, "notes", LS_DIM_NUMBER, NULL, total[LS_NOTE]);
}

/* The table of capabilities writes "..." for what a run of them has in common. */
static const char *common_part(const char *name)
{
    return strncmp(name, "... ", 4) == 0 ? "minimum control speed " : "";
}

static const char *own_part(const char *name)
{
    return name + (common_part(name)[0] != '\0' ? 4 : 0);
}

static void add_support_lines(const job *at, const ls_support *support, ls_support_level level,
                              const char *heading)
{
    int shown = 0;
    for (int i = 0; i < support->rows; i++) {
        const ls_support_row *row = &support->row[i];
        if (row->level != level) {
            continue;
        }
        if (shown++ == 0) {
            ls_report_line(at->report, "%s", "");
            ls_report_line(at->report, "%s", heading);
        }
        const char *why = level == LS_SUPPORT_NONE      ? "; it lacks "
                          : level == LS_SUPPORT_ASSUMED ? "; assumed: "
                                                        : "";
        ls_report_line(at->report, "  %s%s%s%s", common_part(row->name), own_part(row->name), why,
                       why[0] != '\0' ? row->list : "");
    }
}

static void add_support(const job *at)
{
    static const ls_column columns[] = {
        {"capability", "", LS_WORDS, 0, LS_IN_JSON, NULL},
        {"support", "", LS_WORDS, 0, LS_IN_JSON, NULL},
        {"keys", "", LS_WORDS, 0, LS_IN_JSON, NULL},
    };
    ls_support support;
    ls_aircraft_support(&at->input->aircraft, &at->input->marks, &support);
    add_support_lines(at, &support, LS_SUPPORT_FULL, "Fully supported");
    add_support_lines(at, &support, LS_SUPPORT_ASSUMED, "Supported with assumed values");
    add_support_lines(at, &support, LS_SUPPORT_NONE, "Not supported");
    ls_table *table = ls_report_table(at->report, "support", NULL, LS_IN_JSON, columns, 3);
    for (int i = 0; i < support.rows; i++) {
        ls_table_row(table);
        ls_table_words(table, "%s%s", common_part(support.row[i].name), own_part(support.row[i].name));
        ls_table_words(table, "%s", ls_support_text(support.row[i].level));
        ls_table_words(table, "%s", support.row[i].list);
    }
}

static void add_finding_line(const job *at, const ls_finding *finding)
{
    char place[64] = "";
    if (finding->line > 0) {
        snprintf(place, sizeof place, ":%d:%d", finding->line, finding->column);
    }
    ls_report_line(at->report, "  %s%s: %s: %s%s%s", at->input->path, place, ls_severity_text(finding->severity),
                   finding->key, finding->key[0] != '\0' ? ": " : "", finding->text);
}

static void add_finding_lines(const job *at)
{
    const ls_findings *findings = &at->input->findings;
    int shown = 0, total = 0;
    for (int severity = LS_SEVERITY_COUNT - 1; severity >= 0; severity--) {
        total += findings->total[severity];
        for (int i = 0; i < findings->stored; i++) {
            if ((int)findings->item[i].severity != severity || shown == LS_FINDINGS_SHOWN) {
                continue;
            }
            if (shown++ == 0) {
                ls_report_line(at->report, "%s", "");
                ls_report_line(at->report, "Found");
            }
            add_finding_line(at, &findings->item[i]);
        }
    }
    if (total > shown) {
        ls_report_line(at->report, "  and %d more", total - shown);
    }
}

static void add_findings(const job *at, unsigned csv)
{
    static const ls_column columns[] = {
        {"severity", "", LS_WORDS, 0, LS_IN_DATA, NULL},  {"key", "", LS_WORDS, 0, LS_IN_DATA, NULL},
        {"line", "", LS_DIM_NUMBER, 0, LS_IN_DATA, NULL}, {"column", "", LS_DIM_NUMBER, 0, LS_IN_DATA, NULL},
        {"text", "", LS_WORDS, 0, LS_IN_DATA, NULL},
    };
    add_finding_lines(at);
    ls_table *table = ls_report_table(at->report, "findings", NULL, LS_IN_JSON | csv, columns, 5);
    for (int i = 0; i < at->input->findings.stored; i++) {
        const ls_finding *finding = &at->input->findings.item[i];
        ls_table_row(table);
        ls_table_words(table, "%s", ls_severity_text(finding->severity));
        ls_table_words(table, "%s", finding->key);
        ls_table_number(table, finding->line > 0 ? finding->line : NAN);
        ls_table_number(table, finding->line > 0 ? finding->column : NAN);
        ls_table_words(table, "%s", finding->text);
    }
}

static void value_text(const job *at, const ls_parameter *parameter, int element, char out[LS_NOTE_SIZE])
{
    char number[LS_NUMBER_TEXT];
    const void *value = ls_parameter_value_const(&at->input->aircraft, parameter, element);
    switch (parameter->kind) {
    case LS_KEY_NUMBER:
        ls_quantity_text(*(const double *)value, ls_unit_preferred(at->units, parameter->dimension), 5, number);
        snprintf(out, LS_NOTE_SIZE, "%s", number);
        break;
    case LS_KEY_CHOICE:
        snprintf(out, LS_NOTE_SIZE, "%s", ls_choice_word(parameter->choices, *(const int *)value, number));
        break;
    case LS_KEY_CURVE:
        snprintf(out, LS_NOTE_SIZE, "%d rows", ((const ls_curve *)value)->rows);
        break;
    case LS_KEY_TEXT:
        snprintf(out, LS_NOTE_SIZE, "%s", (const char *)value);
        break;
    }
}

/* One key: its value, where that comes from, its spread. */
static void add_key(const job *at, ls_table *table, const ls_parameter *parameter, int element)
{
    const ls_mark *mark = ls_mark_of_const(&at->input->marks, parameter, element);
    char path[LS_FINDING_KEY], value[LS_NOTE_SIZE], spread[LS_NUMBER_TEXT] = "";
    value_text(at, parameter, element, value);
    if (mark->spread > 0) {
        /* a spread is a difference: a temperature's must not be shifted to another zero */
        const ls_unit *unit = ls_unit_preferred(at->units, parameter->dimension);
        snprintf(spread, sizeof spread, "+- %.3g%s%s", mark->spread / unit->factor,
                 unit->name[0] != '\0' ? " " : "", unit->name);
    }
    ls_table_row(table);
    ls_table_words(table, "%s", ls_parameter_path(parameter, element, path, sizeof path));
    ls_table_words(table, "%s", mark->source == LS_SOURCE_ABSENT ? "not given" : value);
    ls_table_words(table, "%s", spread);
    ls_table_words(table, "%s", mark->source == LS_SOURCE_ABSENT ? "" : ls_source_text(mark->source));
}

static void add_keys(const job *at)
{
    static const ls_column columns[] = {
        {"key", "Key", LS_WORDS, 0, LS_IN_ALL, NULL},
        {"value", "Value", LS_WORDS, 0, LS_IN_ALL, NULL},
        {"spread", "Spread", LS_WORDS, 0, LS_IN_ALL, NULL},
        {"source", "Source", LS_WORDS, 0, LS_IN_ALL, NULL},
    };
    int count = 0;
    const ls_parameter *parameter = ls_parameters(&count);
    const ls_aircraft *aircraft = &at->input->aircraft;
    ls_report_line(at->report, "%s", "");
    ls_table *table = ls_report_table(at->report, "keys", NULL, LS_IN_ALL, columns, 4);
    for (int i = 0; i < count; i++, parameter++) {
        int length = ls_list_length(aircraft, ls_parameter_list(parameter));
        for (int element = 0; element < length; element++) {
            if (ls_parameter_applies(aircraft, parameter, element)) {
                add_key(at, table, parameter, element);
            }
        }
    }
}

/* Whether an element of a list, or the key itself, stands at its default. */
static int is_default(const job *at, const ls_parameter *parameter, int element)
{
    ls_source source = ls_mark_of_const(&at->input->marks, parameter, element)->source;
    return ls_parameter_applies(&at->input->aircraft, parameter, element) &&
           (source == LS_SOURCE_DEFAULT || source == LS_SOURCE_GUESS);
}

static void add_default(const job *at, ls_table *table, const char *path, const ls_parameter *parameter,
                        int element)
{
    char value[LS_NOTE_SIZE];
    value_text(at, parameter, element, value);
    ls_table_row(table);
    ls_table_words(table, "%s", path);
    ls_table_words(table, "%s", value);
    ls_table_words(table, "%s", ls_source_text(ls_mark_of_const(&at->input->marks, parameter, element)->source));
}

/* One row for a key that is at its default in every element, "flaps[].change.yaw_rudder", else one for each. */
static void add_defaults_of(const job *at, ls_table *table, const ls_parameter *parameter)
{
    char path[LS_FINDING_KEY];
    int length = ls_list_length(&at->input->aircraft, ls_parameter_list(parameter));
    int defaults = 0;
    for (int element = 0; element < length; element++) {
        defaults += is_default(at, parameter, element);
    }
    if (defaults == length && defaults > 0) {
        add_default(at, table, parameter->path, parameter, 0);
        return;
    }
    for (int element = 0; element < length; element++) {
        if (is_default(at, parameter, element)) {
            add_default(at, table, ls_parameter_path(parameter, element, path, sizeof path), parameter, element);
        }
    }
}

static void add_defaults(const job *at)
{
    static const ls_column columns[] = {
        {"key", "Left out", LS_WORDS, 0, LS_IN_ALL, NULL},
        {"value", "Taken as", LS_WORDS, 0, LS_IN_ALL, NULL},
        {"source", "Which is", LS_WORDS, 0, LS_IN_ALL, NULL},
    };
    int count = 0;
    const ls_parameter *parameter = ls_parameters(&count);
    ls_report_line(at->report, "%s", "");
    ls_table *table = ls_report_table(at->report, "defaults", NULL, LS_IN_TEXT | LS_IN_JSON, columns, 3);
    for (int i = 0; i < count; i++) {
        add_defaults_of(at, table, &parameter[i]);
    }
}

static ls_status check(const cli_run *run, cli_input *input, ls_error *error)
{
    ls_status status = cli_input_load(run, run->options->file[0], input, error);
    if (status == LS_OK) {
        status = cli_aircraft_set(run->options, &input->aircraft, &input->marks, error);
    }
    if (status != LS_OK && (status != LS_FILE_REJECTED || input->findings.stored == 0)) {
        return status;
    }
    ls_report *report = ls_report_new();
    if (report == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    job at = {report, input, run->options->units};
    int full = status == LS_OK && cli_given(run->options, CLI_FULL);
    add_answer(&at, status);
    if (status == LS_OK) {
        add_support(&at);
    }
    add_findings(&at, full ? 0 : LS_IN_CSV);
    if (full) {
        add_keys(&at);
    } else if (status == LS_OK) {
        add_defaults(&at);
    }
    const cli_input *inputs[] = {input};
    ls_error emit_error = {0};
    ls_status emitted = cli_emit(run, report, inputs, 1, NULL, &emit_error);
    ls_report_free(report);
    if (emitted != LS_OK) {
        *error = emit_error; /* nobody can read the verdict: that comes first */
    }
    return emitted != LS_OK ? emitted : status;
}

static ls_status run(const cli_run *run, ls_error *error)
{
    cli_input *input = malloc(sizeof *input);
    if (input == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    ls_status status = check(run, input, error);
    free(input);
    return status;
}

const cli_command cli_command_check = {
    .name = "check",
    .question = "Is my file right, and what does it support?",
    .summary =
        "Reads an aeroplane file and says what can be worked out from it fully, what only with assumed "
        "values, and what not; then everything that is wrong or doubtful, and every value that was left out "
        "with what is taken instead.",
    .example = "liveside check mytwin.yaml --full",
    .options = CLI_FILE_BITS | CLI_BIT(CLI_FULL),
    .files_min = 1,
    .files_max = 1,
    .run = run,
};
