#include "cli/commands.h"
#include "cli/condition.h"
#include "cli/emit.h"
#include "cli/page.h"
#include "cli/progress.h"
#include "liveside/lesson.h"
#include "liveside/text.h"
#include "report/aircraft_sheet.h"
#include "report/convert.h"
#include "report/page.h"
#include "report/vmca_report.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { PAGE_PARTS = 11, QUESTIONS = 9, ANSWERS, OVER = 128, TREND_STEPS = 8 };
enum { FORMAT_HTML, FORMAT_PDF };

#define PAGE_NAME "page.html"
#define PDF_NAME  "page.pdf"

/* Everything of one run; large, so it lives on the heap. */
typedef struct {
    const cli_run *run;
    cli_input input;
    cli_page page;
    int is_wanted[PAGE_PARTS];
    cli_options options; /* of the command that makes a part */
    ls_vmca_request asked;
    ls_vmca vmca;
    int has_vmca;
    ls_performance_request request;
    ls_performance performance;
    ls_lesson lesson;
    ls_question question[LS_QUESTIONS];
    int questions;
} job;

typedef ls_status part_maker(job *it, ls_error *error);

static part_maker make_aeroplane, make_trends, make_failure, make_questions, make_answers;

/* The parts, in their order: those of another command with what is shown of it, and those of this one's own. */
static const struct {
    ls_page_part is;
    const cli_command *command;
    const char *charts, *tables_left_out;
    part_maker *make;
} parts[PAGE_PARTS] = {
    {{"aeroplane", "The aeroplane"}, NULL, NULL, NULL, make_aeroplane},
    {{"control", "How slowly it can be held straight"}, &cli_command_vmca, NULL, NULL, NULL},
    {{"trends", "How that speed changes with the loading"}, &cli_command_trend, NULL, NULL, make_trends},
    {{"critical", "Which engine is critical, and why"}, &cli_command_explain, NULL, NULL, NULL},
    {{"factors", "What raises that speed and what lowers it"}, &cli_command_factors, NULL, NULL, NULL},
    {{"propeller", "What the propeller does"},
     &cli_command_prop,
     " prop-unit prop-triangles prop-dead-by-speed prop-idle-or-dead prop-p-factor ",
     " dead_by_pitch zero_thrust thrust ",
     NULL},
    {{"climb", "What is left of the climb"},
     &cli_command_climb,
     " climb-against-speed climb-against-bank climb-costs speeds-against-altitude ",
     NULL,
     NULL},
    {{"failure", "The first seconds after the failure"}, &cli_command_failure, NULL, NULL, make_failure},
    {{"rules", "What the rules ask"}, &cli_command_rules, NULL, NULL, NULL},
    {{"questions", "Questions"}, NULL, NULL, NULL, make_questions},
    {{"answers", "Answers"}, NULL, NULL, NULL, make_answers},
};

/* ---- which parts ---- */

static ls_status no_such_part(const char *name, ls_error *error)
{
    const char *known[PAGE_PARTS];
    for (int i = 0; i < PAGE_PARTS; i++) {
        known[i] = parts[i].is.id;
    }
    int guess = ls_text_nearest(name, known, ANSWERS);
    return guess >= 0 ? ls_fail(error, LS_USAGE, "--parts: no '%s'; did you mean %s?", name, known[guess])
                      : ls_fail(error, LS_USAGE, "--parts: no '%s'; 'liveside handout --help' lists them", name);
}

static ls_status choose_part(job *it, const char *name, ls_error *error)
{
    for (int i = 0; i < ANSWERS; i++) {
        if (strcmp(parts[i].is.id, name) == 0) {
            it->is_wanted[i] = 1;
            return LS_OK;
        }
    }
    return no_such_part(name, error);
}

/* Every part, or those named; the answers go with the questions. */
static ls_status choose_parts(job *it, ls_error *error)
{
    const char *text = cli_text(it->run->options, CLI_PARTS);
    ls_status status = LS_OK;
    for (int i = 0; i < PAGE_PARTS; i++) {
        it->is_wanted[i] = text == NULL;
    }
    while (text != NULL && status == LS_OK) {
        char name[OVER];
        size_t length = strcspn(text, ",");
        snprintf(name, sizeof name, "%.*s", (int)(length < sizeof name ? length : sizeof name - 1), text);
        ls_text_trim_utf8(name);
        status = choose_part(it, name, error);
        text = text[length] == ',' ? text + length + 1 : NULL;
    }
    it->is_wanted[ANSWERS] = it->is_wanted[QUESTIONS];
    return status;
}

/* ---- the parts ---- */

/* Runs another command into the page. */
static ls_status run_into_page(job *it, const cli_command *command, ls_error *error)
{
    cli_run run = *it->run;
    run.options = &it->options;
    run.page = &it->page;
    it->options.command = command;
    ls_status status = cli_page_open(&it->page, error);
    status = status == LS_OK ? command->run(&run, error) : status;
    cli_page_close(&it->page);
    return status;
}

static void start_options(job *it)
{
    const cli_options *own = it->run->options;
    it->options = (cli_options){.units = own->units, .files = 1, .file = {own->file[0]}};
    it->options.value[CLI_SET] = own->value[CLI_SET]; /* done already, but part of what is said */
}

static ls_status make_aeroplane(job *it, ls_error *error)
{
    ls_report *sheet = ls_report_new();
    if (sheet == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    ls_status status = cli_page_open(&it->page, error);
    if (status == LS_OK) {
        ls_aircraft_sheet(sheet, &it->input.aircraft, ls_marks_uncertain(&it->input.aircraft, &it->input.marks),
                          it->run->options->units);
        status = cli_page_take(&it->page, sheet, it->run->options->units, error);
        cli_page_close(&it->page);
    }
    ls_report_free(sheet);
    return status;
}

/* The least of 1, 2 and 5 times a power of ten that is not below a value. */
static double round_step(double value)
{
    double power = pow(10.0, floor(log10(value)));
    return value <= power         ? power
           : value <= 2.0 * power ? 2.0 * power
           : value <= 5.0 * power ? 5.0 * power
                                  : 10.0 * power;
}

/* Over a range of the file in round steps, in the unit of a bare number. */
static ls_status make_trend(job *it, cli_option option, double low_si, double high_si, ls_error *error)
{
    char over[OVER];
    const cli_option_row *row = &cli_option_rows[option];
    const ls_unit *unit = ls_unit_find(row->dimension, row->unit[it->options.units]);
    double low = ls_unit_from_si(unit, low_si), high = ls_unit_from_si(unit, high_si);
    if (!(high > low)) {
        return LS_OK;
    }
    double step = round_step((high - low) / TREND_STEPS), first = ceil(low / step - 1e-9) * step;
    double last = floor(high / step + 1e-9) * step;
    if (!(last > first)) {
        return LS_OK;
    }
    snprintf(over, sizeof over, "%s=%.9g:%.9g:%.9g", row->name, first, last, step);
    it->options.value[CLI_OVER] = (cli_value){.count = 1, .text = {over}};
    return run_into_page(it, &cli_command_trend, error);
}

static ls_status make_trends(job *it, ls_error *error)
{
    const ls_aircraft *aircraft = &it->input.aircraft;
    ls_status status = make_trend(it, CLI_WEIGHT, aircraft->mass.minimum_kg, aircraft->mass.maximum_kg, error);
    return status == LS_OK ? make_trend(it, CLI_CG, aircraft->cg.forward_m, aircraft->cg.aft_m, error) : status;
}

/* At the next round speed 15 % above the minimum control speed: a take-off or a climb that has just begun. */
static ls_status make_failure(job *it, ls_error *error)
{
    const ls_vmca_point *answer = it->has_vmca ? &it->vmca.set[ls_vmca_answer_set(&it->vmca)].answer : NULL;
    if (answer == NULL || answer->status != LS_OK || !isfinite(answer->vmc.cas_m_s)) {
        return ls_fail(error, LS_NO_STATE, "there is no minimum control speed to fly above");
    }
    const ls_unit *unit = ls_unit_preferred(it->options.units, LS_DIM_SPEED);
    double step = it->options.units == LS_UNITS_SI ? 2.0 : 5.0;
    double speed = step * ceil(1.15 * ls_unit_from_si(unit, answer->vmc.cas_m_s) / step);
    it->options.value[CLI_SPEED] =
        (cli_value){.count = 1, .text = {""}, .word = -1, .si = ls_unit_to_si(unit, speed)};
    return run_into_page(it, &cli_command_failure, error);
}

static ls_status make_questions(job *it, ls_error *error)
{
    if (it->questions == 0) {
        return ls_fail(error, LS_NO_STATE, "too little of this aeroplane is known to ask for");
    }
    ls_page_questions(it->question, it->questions, 0, it->page.stream);
    return LS_OK;
}

static ls_status make_answers(job *it, ls_error *error)
{
    (void)error;
    ls_page_questions(it->question, it->questions, 1, it->page.stream);
    return LS_OK;
}

/* What a part cannot tell is no failure of the page. */
static int is_of_the_aeroplane(ls_status status)
{
    return status == LS_NO_STATE || status == LS_NOT_CONVERGED || status == LS_USAGE;
}

static ls_status make_part(job *it, int index, ls_error *error)
{
    ls_error why = {0};
    it->page.charts = parts[index].charts;
    it->page.tables_left_out = parts[index].tables_left_out;
    start_options(it);
    ls_status status =
        parts[index].make != NULL ? parts[index].make(it, &why) : run_into_page(it, parts[index].command, &why);
    if (cli_interrupted()) {
        return ls_fail(error, LS_INTERRUPTED, "interrupted; nothing is written");
    }
    if (is_of_the_aeroplane(status)) {
        ls_page_does_not_apply(why.text, it->page.stream);
        return LS_OK;
    }
    return status == LS_OK || status == LS_RULE_NOT_MET ? LS_OK : ls_fail(error, status, "%s", why.text);
}

/* ---- the lesson ---- */

/* Whether there is an answer; anything but that the aeroplane has none is a failure. */
static int has_answer(ls_status solved, const ls_error *why, ls_status *status, ls_error *error)
{
    if (solved != LS_OK && !is_of_the_aeroplane(solved)) {
        *status = ls_fail(error, solved, "%s", why->text);
    }
    return solved == LS_OK;
}

static ls_status solve_questions(job *it, ls_error *error)
{
    const ls_aircraft *aircraft = &it->input.aircraft;
    ls_error why = {0};
    ls_status status = LS_OK;
    it->request = (ls_performance_request){
        .aircraft = aircraft, .condition = it->asked.condition, .sets = it->asked.sets, .state = it->asked.state};
    memcpy(it->request.set, it->asked.set, sizeof it->asked.set);
    int has_climb =
        has_answer(ls_performance_solve(&it->request, NULL, &it->performance, &why), &why, &status, error);
    ls_lesson_solve(aircraft, it->has_vmca ? &it->vmca : NULL, it->has_vmca ? ls_vmca_answer_set(&it->vmca) : 0,
                    &it->request, has_climb ? &it->performance : NULL, &it->lesson);
    ls_questions_view view = {aircraft, &it->lesson, it->options.units,
                              ls_marks_uncertain(aircraft, &it->input.marks)};
    it->questions = ls_questions_make(&view, it->question);
    return status;
}

/* What questions and the failure rest on; an aeroplane without an answer has none of it. */
static ls_status solve_lesson(job *it, ls_error *error)
{
    const ls_aircraft *aircraft = &it->input.aircraft;
    ls_error why = {0};
    start_options(it);
    it->options.command = &cli_command_vmca;
    ls_status status = cli_request_make(&it->options, aircraft, &it->asked, error);
    if (status == LS_OK) {
        it->has_vmca = has_answer(ls_vmca_solve(aircraft, &it->asked, &it->vmca, &why), &why, &status, error);
    }
    return status == LS_OK && it->is_wanted[QUESTIONS] ? solve_questions(it, error) : status;
}

/* ---- the page ---- */

static int is_shown(const job *it, int index)
{
    return it->is_wanted[index] && (index != ANSWERS || it->questions > 0);
}

static ls_status write_parts(job *it, ls_error *error)
{
    const ls_page_part *wanted[PAGE_PARTS] = {0};
    ls_run about = {.command_line = it->run->command_line,
                    .units = it->run->options->units,
                    .inputs = 1,
                    .input = {{it->input.path, it->input.sha256}}};
    ls_page page = {
        .aeroplane = it->input.aircraft.name, .note = it->input.aircraft.note, .run = &about, .part = wanted};
    ls_status status = LS_OK;
    for (int i = 0; i < PAGE_PARTS; i++) {
        if (is_shown(it, i)) {
            wanted[page.parts++] = &parts[i].is;
        }
    }
    ls_page_begin(&page, it->page.stream);
    for (int i = 0, shown = 0; i < PAGE_PARTS && status == LS_OK; i++) {
        if (is_shown(it, i)) {
            ls_page_part_begin(&page, shown++, it->page.stream);
            status = make_part(it, i, error);
            ls_page_part_end(it->page.stream);
        }
    }
    ls_page_end(&page, it->page.stream);
    return status;
}

/* The whole page in the folder of the drawings, so that nothing is written of one that fails. */
static ls_status make_page(job *it, ls_error *error)
{
    ls_error why = {0};
    ls_status status = cli_page_create(&it->page, PAGE_NAME, &it->page.stream, error);
    if (status != LS_OK) {
        return status;
    }
    status = solve_lesson(it, error);
    status = status == LS_OK ? write_parts(it, error) : status;
    ls_status finished = cli_page_finish(it->page.stream, &why);
    return status == LS_OK && finished != LS_OK ? ls_fail(error, finished, "%s", why.text) : status;
}

static ls_status write_bytes(FILE *stream, const void *context, ls_error *error)
{
    const ls_buffer *bytes = context;
    (void)error; /* a failed write shows when the file is closed */
    fwrite(bytes->data, 1, bytes->size, stream);
    return LS_OK;
}

static ls_status convert(const job *it, ls_error *error)
{
    cli_progress progress;
    ls_convert_job print = {.folder = it->page.folder,
                            .page = PAGE_NAME,
                            .pdf = PDF_NAME,
                            .search_path = getenv("PATH"),
                            .is_root = geteuid() == 0,
                            .stop = cli_interrupt_flag()};
    cli_progress_begin(&progress, "printing"); /* so that an interrupt ends the converter first */
    ls_status status = ls_convert_to_pdf(&print, error);
    cli_progress_end(&progress);
    return status;
}

static ls_status write_out(const job *it, ls_error *error)
{
    const cli_options *options = it->run->options;
    const char *path = cli_given(options, CLI_OUTPUT) ? cli_text(options, CLI_OUTPUT) : "-";
    ls_buffer bytes = {0};
    int is_pdf = cli_given(options, CLI_PAGE_FORMAT) && options->value[CLI_PAGE_FORMAT].word == FORMAT_PDF;
    ls_status status = is_pdf ? convert(it, error) : LS_OK;
    status = status == LS_OK ? cli_page_read(&it->page, is_pdf ? PDF_NAME : PAGE_NAME, &bytes, error) : status;
    status = status == LS_OK ? cli_write(path, write_bytes, &bytes, error) : status;
    ls_file_free(&bytes);
    return status;
}

static ls_status run(const cli_run *run, ls_error *error)
{
    job *it = calloc(1, sizeof *it);
    if (it == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    it->run = run;
    const cli_input *input = it->page.input = &it->input;
    ls_status status = choose_parts(it, error);
    status = status == LS_OK ? cli_input_read(run, run->options->file[0], &it->input, error) : status;
    if (status == LS_OK && cli_given(run->options, CLI_OUTPUT)) {
        status = cli_spare_inputs(cli_text(run->options, CLI_OUTPUT), &input, 1, error);
    }
    status = status == LS_OK ? cli_page_folder(&it->page, error) : status;
    status = status == LS_OK ? make_page(it, error) : status;
    status = status == LS_OK ? write_out(it, error) : status;
    cli_page_remove_folder(&it->page);
    cli_input_free(&it->input);
    free(it);
    return status;
}

const cli_command cli_command_handout = {
    .name = "handout",
    .alias = NULL,
    .question = "What can I hand out for a lesson or a briefing?",
    .summary =
        "Writes one page for a lesson, which needs no network and no script and prints on A4 or letter: the "
        "aeroplane, its minimum control speeds with charts, why one engine is critical with the forces drawn from "
        "above and from behind, the factors, the propeller, the climb, the seconds after a failure 15 percent "
        "above "
        "the minimum control speed, the rules, and questions from recall to reasoning with worked answers on a "
        "last "
        "page of their own. What an aeroplane has not is said.",
    .example = "liveside handout whimbrel -o whimbrel.html",
    .options = CLI_BIT(CLI_SET) | CLI_BIT(CLI_UNITS) | CLI_BIT(CLI_PARTS) | CLI_BIT(CLI_PAGE_FORMAT) |
               CLI_BIT(CLI_OUTPUT),
    .files_min = 1,
    .files_max = 1,
    .run = run,
};
