#include "report/rules_report.h"

#include "report/phrase.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { CELL = 64 };

/* The name of the speed of a case: the one that the basis determines under it, or VMC. */
static const char *case_name(const ls_rule_basis *basis, ls_rule_case of)
{
    for (int i = 0; i < basis->count; i++) {
        if (basis->condition[i].kind == LS_RULE_SPEED_FOUND && basis->condition[i].of == of) {
            return basis->condition[i].speed;
        }
    }
    return of == LS_CASE_TAKEOFF ? "VMC" : "VMC, landing";
}

static void print_climb(const ls_rule_climb *climb, char *out, size_t size)
{
    static const char *const flaps[] = {"clean", "take-off", "approach"};
    if (climb->gear > 0.0) {
        snprintf(out, size, "climb, gear down");
    } else if (climb->height_m > 0.0) {
        snprintf(out, size, "climb %.0f ft %s", climb->height_m / 0.3048, flaps[climb->flap]);
    } else {
        snprintf(out, size, "climb %s", flaps[climb->flap]);
    }
}

const char *ls_rules_subject(const ls_rule_basis *basis, const ls_rule_condition *condition, char *out,
                             size_t size)
{
    static const char *const names[LS_RULE_KINDS] = {
        [LS_RULE_SET_POWER] = "power",
        [LS_RULE_SET_TRIM] = "trim",
        [LS_RULE_SET_FLAP] = "flap",
        [LS_RULE_SET_GEAR] = "landing gear",
        [LS_RULE_SET_PROPELLER] = "propeller",
        [LS_RULE_SET_LOADING] = "weight and balance",
        [LS_RULE_SET_GROUND] = "ground effect",
        [LS_RULE_SET_LIMITS] = "bank and pedal force",
        [LS_RULE_BANK] = "bank at",
        [LS_RULE_PEDAL] = "pedal force at",
        [LS_RULE_NO_POWER_CUT] = "power kept at",
        [LS_RULE_VSSE] = "VSSE",
        [LS_RULE_HEADING] = "change of heading",
        [LS_RULE_ROLL] = "time to roll 20 deg",
        [LS_RULE_PERFORMANCE] = "in words only",
    };
    switch (condition->kind) {
    case LS_RULE_STALL_MULTIPLE:
        snprintf(out, size, "VMC over %s", basis->stall_name);
        break;
    case LS_RULE_SPEED_FOUND:
        snprintf(out, size, "%s", condition->speed);
        break;
    case LS_RULE_TAKEOFF_SPEED:
        snprintf(out, size, "%s at least", condition->speed);
        break;
    case LS_RULE_CLIMB:
        print_climb(condition->climb, out, size);
        break;
    case LS_RULE_BANK:
    case LS_RULE_PEDAL:
    case LS_RULE_NO_POWER_CUT:
        snprintf(out, size, "%s %s", names[condition->kind], case_name(basis, condition->of));
        break;
    case LS_RULE_GROUND:
        snprintf(out, size, "VMCG%s", condition->limit > 0.0 ? ", deviation" : "");
        break;
    default:
        snprintf(out, size, "%s", names[condition->kind]);
    }
    return out;
}

/* A number of a kind as people read it. */
static void print_number(const ls_rules_view *view, ls_rule_kind kind, double si, int bound, char out[LS_PHRASE])
{
    char value[LS_PHRASE];
    ls_dimension dimension = ls_rule_dimension(kind);
    if (isnan(si)) {
        snprintf(out, LS_PHRASE, "-");
        return;
    }
    if (dimension == LS_DIM_NUMBER) {
        snprintf(value, sizeof value, "%.3f", si);
    } else if (dimension == LS_DIM_FRACTION) {
        snprintf(value, sizeof value, "%.3g %%", 100.0 * si);
    } else if (dimension == LS_DIM_SPEED) {
        ls_phrase_cas(si, view->units, view->uncertain > 0, value);
    } else if (dimension == LS_DIM_FORCE || dimension == LS_DIM_MASS) {
        ls_phrase_value(si, dimension, NULL, view->units, 0, value);
    } else {
        ls_phrase_value(si, dimension, NULL, view->units, 1, value);
    }
    snprintf(out, LS_PHRASE, "%s%.200s", bound > 0 ? "> " : bound < 0 ? "< " : "", value);
}

/* A gradient and its speed, short enough for the table: two digits, a third where the limit is near. */
static void print_climbed(const ls_rules_view *view, const ls_rules_line *line, char out[LS_PHRASE])
{
    char speed[LS_PHRASE];
    int digits = fabs(line->figure - line->required) < 1e-3 ? 3 : 2;
    ls_phrase_value(line->climb_cas_m_s, LS_DIM_SPEED, NULL, view->units, 0, speed);
    snprintf(out, LS_PHRASE, "%.*g %%, %.200s", digits, 100.0 * line->figure, speed);
}

static void print_found(const ls_rules_view *view, const ls_rules_line *line, char out[LS_PHRASE])
{
    if (line->verdict == LS_VERDICT_SET && isnan(line->figure)) {
        snprintf(out, LS_PHRASE, "%s", line->note[0] ? line->note : "as asked");
    } else if (!isnan(line->climb_cas_m_s) && !isnan(line->figure)) {
        print_climbed(view, line, out);
    } else {
        print_number(view, line->condition->kind, line->figure, line->bound, out);
    }
}

static void print_asked(const ls_rules_view *view, const ls_rules_line *line, char out[LS_PHRASE])
{
    const ls_rule_condition *condition = line->condition;
    if (condition->kind == LS_RULE_TAKEOFF_SPEED && line->verdict == LS_VERDICT_VALUE) {
        snprintf(out, LS_PHRASE, "%s", line->note);
    } else if (condition->kind == LS_RULE_CLIMB && line->required == 0.0) {
        snprintf(out, LS_PHRASE, "> 0");
    } else if (condition->kind < LS_RULE_STALL_MULTIPLE) {
        out[0] = '\0';
    } else {
        print_number(view, condition->kind, line->required, 0, out);
    }
}

static const ls_column text_columns[] = {
    {"paragraph", "paragraph", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"subject", "what", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"found", "found", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"asked", "asked", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"verdict", "", LS_WORDS, 0, LS_IN_TEXT, NULL},
};

static int is_shown(const ls_rules_view *view, const ls_rules_line *line)
{
    return view->full || (line->verdict != LS_VERDICT_SET && line->verdict != LS_VERDICT_NOT_APPLICABLE);
}

/* Verdicts that rest on what no file says have a star. */
static const char *verdict_text(const ls_rules_line *line)
{
    int is_unsure = line->applies == LS_APPLIES_UNKNOWN;
    switch (line->verdict) {
    case LS_VERDICT_VALUE:
        return is_unsure ? "may apply" : "";
    case LS_VERDICT_MET:
        return is_unsure ? "met *" : ls_rule_verdict_text(line->verdict);
    case LS_VERDICT_NOT_MET:
        return is_unsure ? "not met *" : ls_rule_verdict_text(line->verdict);
    default:
        return ls_rule_verdict_text(line->verdict);
    }
}

static int has_star(const ls_rules_result *result)
{
    int count = 0;
    for (int i = 0; i < result->lines; i++) {
        const ls_rules_line *line = &result->line[i];
        count += line->applies == LS_APPLIES_UNKNOWN &&
                 (line->verdict == LS_VERDICT_MET || line->verdict == LS_VERDICT_NOT_MET);
    }
    return count > 0;
}

static void add_text_table(ls_report *report, ls_rules_view *view, int index)
{
    const ls_rules_result *result = view->result[index];
    char *title = view->title[index];
    snprintf(title, sizeof view->title[index], "%s: %s", result->basis->name, result->basis->title);
    ls_table *table = ls_report_table(report, result->basis->name, title, LS_IN_TEXT, text_columns,
                                      (int)(sizeof text_columns / sizeof text_columns[0]));
    for (int i = 0; i < result->lines; i++) {
        const ls_rules_line *line = &result->line[i];
        char subject[CELL], found[LS_PHRASE], asked[LS_PHRASE];
        if (!is_shown(view, line)) {
            continue;
        }
        print_found(view, line, found);
        print_asked(view, line, asked);
        ls_table_row(table);
        ls_table_words(table, "%s", line->condition->paragraph);
        ls_table_words(table, "%s", ls_rules_subject(result->basis, line->condition, subject, sizeof subject));
        ls_table_words(table, "%s", found);
        ls_table_words(table, "%s", asked);
        ls_table_words(table, "%s", verdict_text(line));
    }
}

static const ls_column data_columns[] = {
    {"basis", "basis", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"paragraph", "paragraph", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"subject", "subject", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"verdict", "verdict", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"applies", "applies", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"figure", "figure", LS_DIM_NUMBER, 6, LS_IN_DATA, NULL},
    {"required", "required", LS_DIM_NUMBER, 6, LS_IN_DATA, NULL},
    {"unit", "unit", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"bound", "bound", LS_DIM_NUMBER, 0, LS_IN_DATA, NULL},
    {"failed", "failed", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"climb_speed", "climb speed", LS_DIM_SPEED, 1, LS_IN_DATA, NULL},
    {"note", "note", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"text", "text", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"reason", "left open", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"read", "read", LS_WORDS, 0, LS_IN_DATA, NULL},
};

static void add_data_row(ls_table *table, const ls_rules_view *view, const ls_rules_result *result,
                         const ls_rules_line *line)
{
    static const char *const applies[] = {"no", "yes", "the file does not say"};
    char subject[CELL], failed[LS_PHRASE];
    const ls_unit *unit = ls_unit_preferred(view->units, ls_rule_dimension(line->condition->kind));
    ls_table_row(table);
    ls_table_words(table, "%s", result->basis->name);
    ls_table_words(table, "%s", line->condition->paragraph);
    ls_table_words(table, "%s", ls_rules_subject(result->basis, line->condition, subject, sizeof subject));
    ls_table_words(table, "%s", ls_rule_verdict_text(line->verdict));
    ls_table_words(table, "%s", applies[line->applies]);
    ls_table_number(table, ls_unit_from_si(unit, line->figure));
    ls_table_number(table, ls_unit_from_si(unit, line->required));
    ls_table_words(table, "%s", unit->name);
    ls_table_number(table, line->bound);
    ls_table_words(table, "%s", ls_phrase_set(view->aircraft, line->failed, failed));
    ls_table_number(table, line->climb_cas_m_s);
    ls_table_words(table, "%s", line->note);
    ls_table_words(table, "%s", line->condition->text);
    ls_table_words(table, "%s", line->condition->not_shown);
    ls_table_words(table, "%s", line->condition->read);
}

static void add_data(ls_report *report, const ls_rules_view *view)
{
    ls_table *table = ls_report_table(report, "conditions", NULL, LS_IN_DATA, data_columns,
                                      (int)(sizeof data_columns / sizeof data_columns[0]));
    for (int i = 0; i < view->count; i++) {
        const ls_rules_result *result = view->result[i];
        for (int k = 0; k < result->lines; k++) {
            add_data_row(table, view, result, &result->line[k]);
        }
    }
}

static const ls_column basis_columns[] = {
    {"basis", "basis", LS_WORDS, 0, LS_IN_TEXT | LS_IN_JSON, NULL},
    {"failed", "failed", LS_WORDS, 0, LS_IN_TEXT | LS_IN_JSON, NULL},
    {"mass", "weight", LS_DIM_MASS, 0, LS_IN_TEXT | LS_IN_JSON, NULL},
    {"vmc", "VMC", LS_DIM_SPEED, 1, LS_IN_TEXT | LS_IN_JSON, NULL},
    {"bound", "bound", LS_DIM_NUMBER, 0, LS_IN_JSON, NULL},
    {"stall", "stall\n1 g", LS_DIM_SPEED, 1, LS_IN_TEXT | LS_IN_JSON, NULL},
    {"met", "met", LS_DIM_NUMBER, 0, LS_IN_TEXT | LS_IN_JSON, NULL},
    {"not_met", "not\nmet", LS_DIM_NUMBER, 0, LS_IN_TEXT | LS_IN_JSON, NULL},
    {"not_assessed", "not\nassessed", LS_DIM_NUMBER, 0, LS_IN_TEXT | LS_IN_JSON, NULL},
};

static void add_bases(ls_report *report, const ls_rules_view *view)
{
    unsigned where = view->count > 1 ? LS_IN_TEXT | LS_IN_JSON : LS_IN_JSON;
    ls_table *table = ls_report_table(report, "bases", "Side by side", where, basis_columns,
                                      (int)(sizeof basis_columns / sizeof basis_columns[0]));
    for (int i = 0; i < view->count; i++) {
        const ls_rules_result *result = view->result[i];
        const ls_rules_speed *speed = &result->speed[LS_CASE_TAKEOFF];
        char failed[LS_PHRASE];
        ls_table_row(table);
        ls_table_words(table, "%s", result->basis->name);
        ls_table_words(table, "%s", ls_phrase_set(view->aircraft, speed->failed, failed));
        ls_table_number(table, speed->condition.mass_kg);
        ls_table_number(table, speed->cas_m_s);
        ls_table_number(table, speed->bound);
        ls_table_number(table, result->stall_cas_m_s);
        ls_table_number(table, result->met);
        ls_table_number(table, result->not_met);
        ls_table_number(table, result->not_assessed);
    }
}

static void say_answer(ls_report *report, const ls_rules_result *result)
{
    int judged = result->met + result->not_met;
    const char *outside = result->applies == LS_APPLIES_NO ? " (not a rule for this aeroplane)" : "";
    if (judged == 0) {
        ls_report_answer(report, "%s%s: no limit in numbers to meet; %d not assessed.", result->basis->name,
                         outside, result->not_assessed);
    } else if (result->not_met == 0) {
        ls_report_answer(report, "%s%s: all %d conditions that steady flight can judge are met; %d not assessed.",
                         result->basis->name, outside, judged, result->not_assessed);
    } else {
        ls_report_answer(report, "%s%s: %d of the %d conditions that steady flight can judge %s not met.",
                         result->basis->name, outside, result->not_met, judged,
                         result->not_met == 1 ? "is" : "are");
    }
}

/* What the first of the failed engines does. */
static const char *failed_state(const ls_aircraft *aircraft, const ls_rules_speed *speed)
{
    int first = 0;
    while (first < aircraft->engines - 1 && !(speed->failed >> first & 1u)) {
        first++;
    }
    return ls_engine_state_name(speed->condition.state[first]);
}

static void say_speed(ls_report *report, const ls_rules_view *view, const ls_rules_result *result)
{
    const ls_rules_speed *speed = &result->speed[LS_CASE_TAKEOFF];
    char cas[LS_PHRASE], stall[LS_PHRASE], failed[LS_PHRASE], bank[LS_PHRASE], mass[LS_PHRASE], cg[LS_PHRASE];
    int side = ls_live_side(view->aircraft, &speed->condition);
    static const char *const bounds[] = {"below ", "", "above "};
    ls_report_line(report, "  VMC %s%s, %s failed, %s, %s, %s, CG %s; %s %s at maximum weight.",
                   bounds[speed->bound + 1], ls_phrase_cas(speed->cas_m_s, view->units, view->uncertain > 0, cas),
                   ls_phrase_set(view->aircraft, speed->failed, failed), failed_state(view->aircraft, speed),
                   ls_phrase_bank(side == 0 ? speed->condition.bank_rad : speed->bank_rad, side,
                                  view->aircraft->engines - 1, bank),
                   ls_phrase_value(speed->condition.mass_kg, LS_DIM_MASS, NULL, view->units, 0, mass),
                   ls_phrase_value(speed->condition.cg_aft_m, LS_DIM_LENGTH, "in", view->units, 1, cg),
                   result->basis->stall_name,
                   ls_phrase_cas(result->stall_cas_m_s, view->units, view->uncertain > 0, stall));
    for (int i = 0; i < result->lines; i++) {
        const ls_rules_line *line = &result->line[i];
        if (line->verdict == LS_VERDICT_NOT_MET && line->applies == LS_APPLIES_YES) {
            char subject[CELL], found[LS_PHRASE], asked[LS_PHRASE];
            print_found(view, line, found);
            print_asked(view, line, asked);
            ls_report_line(report, "  Not met, %s: %s is %s, asked %s%s%s.", line->condition->paragraph,
                           ls_rules_subject(result->basis, line->condition, subject, sizeof subject), found, asked,
                           line->note[0] ? "; " : "", line->note);
        }
    }
}

/* --full: each paragraph in words, with what stays open and what was read. */
static void say_paragraphs(ls_report *report, const ls_rules_result *result)
{
    ls_report_line(report, "The paragraphs of %s in our words:", result->basis->name);
    for (int i = 0; i < result->lines; i++) {
        const ls_rule_condition *row = result->line[i].condition;
        ls_report_line(report, "  %s  %s%s%s%s%s%s [%s]", row->paragraph, row->text,
                       row->scope.unknown != NULL ? " Only " : "",
                       row->scope.unknown != NULL ? row->scope.unknown : "", row->scope.unknown != NULL ? "." : "",
                       row->not_shown[0] ? " Left open: " : "", row->not_shown, row->read);
    }
    ls_report_line(report, "%s", "");
}

void ls_rules_report(ls_report *report, ls_rules_view *view)
{
    for (int i = 0; i < view->count; i++) {
        say_answer(report, view->result[i]);
        say_speed(report, view, view->result[i]);
    }
    if (view->count > 1) {
        ls_report_line(report, "%s", "");
    }
    add_bases(report, view);
    for (int i = 0; i < view->count; i++) {
        ls_report_line(report, "%s", "");
        add_text_table(report, view, i);
        if (has_star(view->result[i])) {
            ls_report_line(report, "%s", "* if it applies, which rests on what no file says: see --full");
        }
    }
    ls_report_line(report, "%s", "");
    for (int i = 0; view->full && i < view->count; i++) {
        say_paragraphs(report, view->result[i]);
    }
    add_data(report, view);
    for (int i = 0; i < view->count; i++) {
        const char *note = view->result[i]->basis->stall_note;
        if (i == 0 || strcmp(note, view->result[i - 1]->basis->stall_note) != 0) {
            ls_report_line(report, "%s.", note);
        }
    }
    ls_report_warning(report,
                      "This is no showing of compliance: steady flight only, one day, the file's numbers.");
}
