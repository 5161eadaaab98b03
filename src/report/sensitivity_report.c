#include "report/sensitivity_report.h"

#include "report/caution.h"
#include "report/input_words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define COUNT(columns) (int)(sizeof(columns) / sizeof(columns)[0])

/* Changes smaller than these are none: far below what anybody could read. */
static const double none[LS_RESULTS] = {1e-6, 1e-6, 1e-8};

static double larger(const ls_response *of)
{
    return fmax(isnan(of->down) ? 0.0 : fabs(of->down), isnan(of->up) ? 0.0 : fabs(of->up));
}

static int has_effect(const ls_sensitivity_row *row)
{
    int has = 0;
    for (int i = 0; i < LS_RESULTS; i++) {
        has |= larger(&row->of[i]) > none[i] || isnan(row->of[i].slope);
    }
    return has;
}

static void say_answer(ls_report *report, const ls_sensitivity_view *view)
{
    const ls_sensitivity *s = view->sensitivity;
    const ls_sensitivity_request *request = view->request;
    char name[LS_PHRASE], speed[LS_PHRASE], bank[LS_PHRASE], climb_at[LS_PHRASE], climb[LS_PHRASE],
        level[LS_PHRASE];
    int side = ls_live_side(view->aircraft, &request->condition);
    int live = view->aircraft->engines - ls_set_size(request->failed);
    ls_phrase_bank(request->bank_rad, side, live, bank);
    ls_report_answer(report, "%s, %s failed, %s: VMC %s, %s.", view->aircraft->name,
                     ls_phrase_set(view->aircraft, request->failed, name), bank,
                     ls_phrase_cas(s->base[LS_RESULT_VMC], view->units, view->uncertain, speed),
                     s->kind == LS_VMC_STALLS_FIRST ? "where the wing stalls with control left"
                                                    : ls_limit_name(s->limit));
    if (isnan(s->base[LS_RESULT_CLIMB])) {
        ls_report_line(report, "No climb to compare: %s.", s->reason);
        return;
    }
    ls_report_line(report, "The climb, with the same engine failed and no sideslip, at %s: %s, %s.",
                   ls_phrase_cas(s->cas_m_s, view->units, view->uncertain, climb_at),
                   ls_phrase_value(s->base[LS_RESULT_CLIMB], LS_DIM_CLIMB_RATE, NULL, view->units, 0, climb),
                   ls_phrase_bank(s->base[LS_RESULT_BANK], side, live, level));
}

/* The first row in words. */
static void say_most(ls_report *report, const ls_sensitivity_view *view)
{
    char step[LS_PHRASE], change[LS_PHRASE];
    const ls_sensitivity_row *row = &view->sensitivity->row[0];
    if (view->sensitivity->count == 0) {
        return;
    }
    const ls_response *of = &row->of[view->by];
    double most = fabs(of->up) >= larger(of) ? of->up : of->down;
    ls_report_line(report, "What matters most for the %s: %s; a step of %s changes it by %s.",
                   view->by == LS_RESULT_VMC ? "VMC" : ls_result_name(view->by), row->input->name,
                   ls_input_step(row->input, row->step, view->units, step),
                   ls_phrase_value(most, ls_result_dimension(view->by), NULL, view->units,
                                   view->by == LS_RESULT_CLIMB ? 0 : 2, change));
}

/* The rows that people read. */
static void table_for_people(ls_report *report, const ls_sensitivity_view *view)
{
    static const ls_column columns[] = {
        {"input", "input", LS_WORDS, 0, LS_IN_TEXT, NULL},
        {"step", "+- step", LS_WORDS, 0, LS_IN_TEXT, NULL},
        {"down", "VMC\ndown", LS_DIM_SPEED, 1, LS_IN_TEXT, NULL},
        {"up", "\nup", LS_DIM_SPEED, 1, LS_IN_TEXT, NULL},
        {"elasticity", "%/%", LS_DIM_NUMBER, 2, LS_IN_TEXT, NULL},
        {"climb", "climb\nup", LS_DIM_CLIMB_RATE, 0, LS_IN_TEXT, NULL},
    };
    int shown = 0;
    ls_report_line(report, "%s", "");
    ls_table *table = ls_report_table(report, "largest", NULL, LS_IN_TEXT, columns, COUNT(columns));
    for (int i = 0; i < view->sensitivity->count && (view->full || shown < LS_SENSITIVITY_ROWS); i++) {
        const ls_sensitivity_row *row = &view->sensitivity->row[i];
        char name[LS_INPUT_WORDS], step[LS_PHRASE];
        if (!has_effect(row)) {
            continue;
        }
        shown++;
        ls_table_row(table);
        ls_table_words(table, "%s", ls_input_short(row->input, name));
        ls_table_words(table, "%s%s", ls_input_step(row->input, row->step, view->units, step),
                       row->is_spread ? "*" : "");
        ls_table_number(table, row->of[LS_RESULT_VMC].down);
        ls_table_number(table, row->of[LS_RESULT_VMC].up);
        ls_table_number(table, row->of[LS_RESULT_VMC].elasticity);
        ls_table_number(table, row->of[LS_RESULT_CLIMB].up);
    }
    ls_report_line(report, "%s", "");
}

/* How many rows have no effect, a changed limit, a slope that did not settle. */
static void say_rest(ls_report *report, const ls_sensitivity_view *view)
{
    int idle = 0, changed = 0, rough = 0, spreads = 0, shown = 0;
    for (int i = 0; i < view->sensitivity->count; i++) {
        const ls_sensitivity_row *row = &view->sensitivity->row[i];
        const ls_response *of = &row->of[LS_RESULT_VMC];
        idle += !has_effect(row);
        changed += row->limit_changes;
        rough += has_effect(row) && larger(of) > none[0] && !(of->error <= 0.01 * fabs(of->slope));
        spreads += row->is_spread;
        shown += has_effect(row);
    }
    if (!view->full && shown > LS_SENSITIVITY_ROWS) {
        ls_report_line(report, "%d more: --full shows them all.", shown - LS_SENSITIVITY_ROWS);
    }
    if (spreads > 0) {
        ls_report_line(report, "*: the spread that the file states; the others go by a plain step.");
    }
    ls_report_line(report,
                   "%%/%%: per cent of VMC for one per cent of the input. %d of %d inputs have no effect here%s.",
                   idle, view->sensitivity->count, idle > 0 ? "; --format csv lists them" : "");
    ls_report_line(
        report,
        "Slopes are differences of halved steps; of %d the last halving still moved the slope of VMC by "
        "more than 1 %% (a limit or a propeller stop is near).",
        rough);
    if (changed > 0) {
        ls_report_line(report, "%d steps lead to another limit or to the stall.", changed);
    }
}

static double per_unit(const ls_sensitivity_view *view, const ls_sensitivity_row *row, ls_result result,
                       double slope)
{
    const ls_unit *of = ls_unit_preferred(view->units, ls_result_dimension(result));
    return slope / of->factor * ls_input_unit(row->input, view->units)->factor;
}

static void data_row(ls_table *table, const ls_sensitivity_view *view, const ls_sensitivity_row *row)
{
    const ls_unit *unit = ls_input_unit(row->input, view->units);
    ls_table_row(table);
    ls_table_words(table, "%s", row->input->name);
    ls_table_words(table, "%s", unit->name);
    ls_table_number(table, ls_unit_from_si(unit, row->input->base));
    ls_table_number(table, row->step / unit->factor);
    ls_table_words(table, "%s", row->is_spread ? "file" : "usual");
    for (int i = 0; i < LS_RESULTS; i++) {
        const ls_response *of = &row->of[i];
        ls_table_number(table, of->down);
        ls_table_number(table, of->up);
        ls_table_number(table, per_unit(view, row, (ls_result)i, of->slope));
        ls_table_number(table, per_unit(view, row, (ls_result)i, of->error));
        ls_table_number(table, of->elasticity);
    }
    ls_table_words(table, "%s", row->limit_changes ? "yes" : "no");
    ls_table_words(table, "%s", row->reason);
}

/* Every row; slopes per unit of the input. */
static void table_of_data(ls_report *report, const ls_sensitivity_view *view)
{
    static const ls_column columns[] = {
        {"input", "", LS_WORDS, 0, LS_IN_DATA, NULL},
        {"unit", "", LS_WORDS, 0, LS_IN_DATA, NULL},
        {"value", "", LS_DIM_NUMBER, 6, LS_IN_DATA, NULL},
        {"step", "", LS_DIM_NUMBER, 6, LS_IN_DATA, NULL},
        {"step_from", "", LS_WORDS, 0, LS_IN_DATA, NULL},
        {"vmc_down", "", LS_DIM_SPEED, 3, LS_IN_DATA, NULL},
        {"vmc_up", "", LS_DIM_SPEED, 3, LS_IN_DATA, NULL},
        {"vmc_slope", "", LS_DIM_NUMBER, 6, LS_IN_DATA, NULL},
        {"vmc_slope_error", "", LS_DIM_NUMBER, 6, LS_IN_DATA, NULL},
        {"vmc_elasticity", "", LS_DIM_NUMBER, 4, LS_IN_DATA, NULL},
        {"climb_down", "", LS_DIM_CLIMB_RATE, 1, LS_IN_DATA, NULL},
        {"climb_up", "", LS_DIM_CLIMB_RATE, 1, LS_IN_DATA, NULL},
        {"climb_slope", "", LS_DIM_NUMBER, 6, LS_IN_DATA, NULL},
        {"climb_slope_error", "", LS_DIM_NUMBER, 6, LS_IN_DATA, NULL},
        {"climb_elasticity", "", LS_DIM_NUMBER, 4, LS_IN_DATA, NULL},
        {"bank_down", "", LS_DIM_ANGLE, 3, LS_IN_DATA, NULL},
        {"bank_up", "", LS_DIM_ANGLE, 3, LS_IN_DATA, NULL},
        {"bank_slope", "", LS_DIM_NUMBER, 6, LS_IN_DATA, NULL},
        {"bank_slope_error", "", LS_DIM_NUMBER, 6, LS_IN_DATA, NULL},
        {"bank_elasticity", "", LS_DIM_NUMBER, 4, LS_IN_DATA, NULL},
        {"limit_changes", "", LS_WORDS, 0, LS_IN_DATA, NULL},
        {"reason", "", LS_WORDS, 0, LS_IN_DATA, NULL},
    };
    ls_table *table = ls_report_table(report, "numbers", NULL, LS_IN_DATA, columns, COUNT(columns));
    for (int i = 0; i < view->sensitivity->count; i++) {
        data_row(table, view, &view->sensitivity->row[i]);
    }
}

void ls_sensitivity_report(ls_report *report, const ls_sensitivity_view *view)
{
    const ls_sensitivity *s = view->sensitivity;
    say_answer(report, view);
    say_most(report, view);
    table_for_people(report, view);
    say_rest(report, view);
    ls_report_number(report, "base.vmc", LS_DIM_SPEED, NULL, s->base[LS_RESULT_VMC]);
    ls_report_number(report, "base.climb", LS_DIM_CLIMB_RATE, NULL, s->base[LS_RESULT_CLIMB]);
    ls_report_number(report, "base.climb_speed", LS_DIM_SPEED, NULL, s->cas_m_s);
    ls_report_number(report, "base.bank", LS_DIM_ANGLE, NULL, s->base[LS_RESULT_BANK]);
    table_of_data(report, view);
    ls_report_cautions(report, view->uncertain, view->request->bank_rad, 0);
}

void ls_chart_of_sensitivity(ls_chart *chart, const ls_sensitivity_view *view, int slide)
{
    const ls_unit *unit = ls_unit_preferred(view->units, ls_result_dimension(view->by));
    static const char *const labels[LS_RESULTS] = {"change of minimum control speed (CAS)",
                                                   "change of the rate of climb on one engine",
                                                   "change of the bank without sideslip"};
    ls_chart_start(chart, LS_CHART_BARS, "sensitivity");
    chart->slide = slide;
    chart->bars_overlaid = 1;
    snprintf(chart->title, sizeof chart->title, "%.100s: which number matters%s", view->aircraft->name,
             view->is_partial ? " (a partial run)" : "");
    snprintf(chart->x.label, sizeof chart->x.label, "%s", labels[view->by]);
    snprintf(chart->x.unit, sizeof chart->x.unit, "%s", unit->name);
    ls_chart_add_group(chart, "input down by its step");
    ls_chart_add_group(chart, "input up by its step");
    int rows = slide ? 8 : 16;
    for (int i = 0; i < view->sensitivity->count && i < rows; i++) {
        const ls_sensitivity_row *row = &view->sensitivity->row[i];
        char name[LS_INPUT_WORDS], step[LS_PHRASE], label[LS_CHART_LABEL];
        if (!(larger(&row->of[view->by]) > none[view->by])) {
            break;
        }
        snprintf(label, sizeof label, "%s, %.40s", ls_input_short(row->input, name),
                 ls_input_step(row->input, row->step, view->units, step));
        int at = ls_chart_add_row(chart, label);
        double change[2] = {row->of[view->by].down / unit->factor, row->of[view->by].up / unit->factor};
        for (int k = 0; k < 2; k++) {
            if (isfinite(change[k])) {
                int decimals = fabs(change[k]) < 10.0 ? 2 : fabs(change[k]) < 100.0 ? 1 : 0;
                snprintf(label, sizeof label, "%+.*f", decimals, change[k]);
                ls_chart_add_bar(chart, at, k, 0.0, change[k], label);
            }
        }
    }
}
