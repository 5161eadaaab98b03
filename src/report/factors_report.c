#include "report/factors_report.h"

#include "report/caution.h"
#include "report/phrase.h"

#include <math.h>
#include <stdio.h>

#define DEG (3.14159265358979323846 / 180.0)
#define KT  (1852.0 / 3600.0)

#define COUNT(columns) (int)(sizeof(columns) / sizeof(columns)[0])

static const char *taught_text(ls_taught taught)
{
    static const char *const names[] = {"lower", "same", "higher", "-"};
    return names[taught];
}

/* "0 to 4000 ft", "2756 to 3803 lb", or the words. */
static void step_text(const ls_factors_view *view, const ls_factor_result *row, char out[LS_PHRASE])
{
    const char *us_unit = row->dimension == LS_DIM_LENGTH ? "in" : NULL;
    char from[LS_PHRASE], to[LS_PHRASE];
    if (row->step[0] != '\0') {
        snprintf(out, LS_PHRASE, "%s", row->step);
    } else if (row->dimension == LS_DIM_FRACTION) {
        snprintf(out, LS_PHRASE, "%.0f to %.0f %%", 100 * row->from, 100 * row->to);
    } else if (row->dimension == LS_DIM_TEMPERATURE_DIFFERENCE) {
        snprintf(out, LS_PHRASE, "ISA %+.0f to %+.0f deg C", row->from, row->to);
    } else {
        int decimals = row->dimension == LS_DIM_LENGTH ? 1 : 0;
        ls_phrase_value(row->from, row->dimension, us_unit, view->units, decimals, from);
        ls_phrase_value(row->to, row->dimension, us_unit, view->units, decimals, to);
        char *unit = from;
        while (*unit != '\0' && *unit != ' ') {
            unit++;
        }
        *unit = '\0'; /* the unit stands once */
        snprintf(out, LS_PHRASE, "%.40s to %.40s", from, to);
    }
}

/* "v -2.7", "^ +1.2", "=  0.0" */
static void change_text(double change, int decimals, char out[LS_PHRASE])
{
    double shown = pow(10.0, -decimals);
    if (!isfinite(change)) {
        snprintf(out, LS_PHRASE, "-");
    } else if (fabs(change) < 0.5 * shown) {
        snprintf(out, LS_PHRASE, "= %.*f", decimals, 0.0);
    } else {
        snprintf(out, LS_PHRASE, "%s %+.*f", change > 0 ? "^" : "v", decimals, change);
    }
}

static const char *verdict_text(const ls_factor_result *row)
{
    if (row->vmc_state != LS_FACTOR_COMPUTED) {
        return "";
    }
    switch (row->agreement) {
    case LS_AGREES:
        return "agrees";
    case LS_DISAGREES:
        return "differs";
    case LS_WITHIN_DOUBT:
        return "in doubt";
    default:
        return "";
    }
}

static void text_row(ls_table *table, const ls_factors_view *view, const ls_factor_result *row)
{
    const ls_factor_row *factor = ls_factor(row->kind);
    const ls_unit *knots = ls_unit_preferred(view->units, LS_DIM_SPEED);
    const ls_unit *climb = ls_unit_preferred(view->units, LS_DIM_CLIMB_RATE);
    int climb_decimals = view->units == LS_UNITS_SI ? 2 : 0;
    char text[LS_PHRASE], doubt[LS_PHRASE];
    ls_table_row(table);
    ls_table_words(table, "%s", factor->name);
    step_text(view, row, text);
    ls_table_words(table, "%s", text);
    change_text(ls_unit_from_si(knots, row->vmc.change), 1, text);
    ls_table_words(table, "%s", row->vmc_state == LS_FACTOR_COMPUTED ? text : "no data");
    snprintf(doubt, sizeof doubt, "%.1f", ls_unit_from_si(knots, row->vmc.doubt));
    ls_table_words(table, "%s", isfinite(row->vmc.doubt) ? doubt : "");
    change_text(ls_unit_from_si(climb, row->climb.change), climb_decimals, text);
    ls_table_words(table, "%s", isfinite(row->climb.change) ? text : "-");
    ls_table_words(table, "%s", taught_text(factor->vmc));
    ls_table_words(table, "%s", verdict_text(row));
}

static void table_of_factors(ls_report *report, const ls_factors_view *view)
{
    static const ls_column columns[] = {
        {"factor", "factor", LS_WORDS, 0, LS_IN_TEXT, NULL},
        {"step", "step", LS_WORDS, 0, LS_IN_TEXT, NULL},
        {"vmc", "VMC", LS_WORDS, 0, LS_IN_TEXT, NULL},
        {"doubt", "+-", LS_WORDS, 0, LS_IN_TEXT, NULL},
        {"climb", "climb", LS_WORDS, 0, LS_IN_TEXT, NULL},
        {"taught", "taught", LS_WORDS, 0, LS_IN_TEXT, NULL},
        {"verdict", "this one", LS_WORDS, 0, LS_IN_TEXT, NULL},
    };
    char title[LS_PHRASE];
    snprintf(title, sizeof title, "Change of VMC (CAS, %s) and of climb (%s) over each step, by size",
             ls_unit_preferred(view->units, LS_DIM_SPEED)->name,
             ls_unit_preferred(view->units, LS_DIM_CLIMB_RATE)->name);
    ls_table *table = ls_report_table(report, "table", title, LS_IN_TEXT, columns, COUNT(columns));
    for (int i = 0; i < view->factors->rows; i++) {
        if (view->factors->row[i].vmc_state != LS_FACTOR_DOES_NOT_ARISE) {
            text_row(table, view, &view->factors->row[i]);
        }
    }
    ls_report_line(report, "%s", "");
}

/* What the table has no room for: why there is no number, and why this aeroplane disagrees. */
static void remarks(ls_report *report, const ls_factors_view *view)
{
    for (int i = 0; i < view->factors->rows; i++) {
        const ls_factor_result *row = &view->factors->row[i];
        const ls_factor_row *factor = ls_factor(row->kind);
        char step[LS_PHRASE];
        step_text(view, row, step);
        if (row->vmc_state == LS_FACTOR_NO_DATA) {
            ls_report_line(report, "%s: not modelled (no data); taught: %s. (%s)", factor->name,
                           taught_text(factor->vmc), row->reason);
        } else if (row->vmc_state == LS_FACTOR_DOES_NOT_ARISE) {
            ls_report_line(report, "%s, %s: does not arise; %s.", factor->name, step, row->reason);
        } else if (row->agreement == LS_WITHIN_DOUBT) {
            ls_report_line(report, "%s, %s: smaller than its uncertainty%s%s.", factor->name, step,
                           row->reason[0] != '\0' ? ": " : "", row->reason);
        } else if (row->reason[0] != '\0' && isfinite(view->factors->vmc_m_s)) {
            ls_report_line(report, "%s, %s: %s.", factor->name, step, row->reason);
        }
    }
    ls_report_line(report, "%s", "");
}

static void sources(ls_report *report, const ls_factors_view *view)
{
    int count;
    const ls_doubt_row *doubt = ls_doubts(&count);
    ls_report_line(report,
                   "What is taught: bank, feathering and the critical engine, FAA Airplane Flying Handbook, "
                   "FAA-H-8083-3C, ch. 13; all else common practice, without a source.");
    if (view->full) {
        ls_report_line(report, "%s", "The uncertainty (+-) is how far a change moves with:");
        for (int i = 0; i < count; i++) {
            if (doubt[i].is_share) {
                ls_report_line(report, "  %s, %.0f %% either way (%s)", doubt[i].path, 100 * doubt[i].high,
                               doubt[i].basis);
            } else {
                ls_report_line(report, "  %s, %.2g to %.2g (%s)", doubt[i].path, doubt[i].low, doubt[i].high,
                               doubt[i].basis);
            }
        }
        ls_report_line(report, "%s",
                       "or with the spread that the file states; the moves are added as independent.");
    }
}

static void say_answer(ls_report *report, const ls_factors_view *view)
{
    const ls_factors *f = view->factors;
    char name[LS_PHRASE], vmc[LS_PHRASE], bank[LS_PHRASE], altitude[LS_PHRASE], speed[LS_PHRASE], rate[LS_PHRASE];
    int live = view->aircraft->engines - ls_set_size(f->failed);
    ls_phrase_set(view->aircraft, f->failed, name);
    ls_phrase_bank(f->bank_rad, f->live_side, live, bank);
    if (isfinite(f->vmc_m_s)) {
        ls_report_answer(report, "%s, %s dead, %s: VMC %s%s.", view->aircraft->name, name, bank,
                         ls_phrase_cas(f->vmc_m_s, view->units, view->uncertain, vmc),
                         f->stalls_first ? ", below the stall" : "");
    } else {
        ls_report_answer(report, "%s, %s dead, %s: no control limit is met, so nothing raises or lowers one.",
                         view->aircraft->name, name, bank);
    }
    if (isfinite(f->climb_m_s)) {
        ls_report_line(report, "Best climb there, without sideslip: %s at %s; climbs are compared at that speed.",
                       ls_phrase_value(f->climb_m_s, LS_DIM_CLIMB_RATE, NULL, view->units, 0, rate),
                       ls_phrase_cas(f->climb_cas_m_s, view->units, view->uncertain, speed));
    }
    if (isfinite(f->meeting_m)) {
        double round_m = view->units == LS_UNITS_SI ? 100.0 : 30.48; /* to 100 ft */
        ls_report_line(report, "Going up, VMC meets the stall near %s.",
                       ls_phrase_value(round_m * round(f->meeting_m / round_m), LS_DIM_ALTITUDE, NULL, view->units,
                                       0, altitude));
    } else {
        ls_report_line(report, "VMC and stall do not meet going up%s.",
                       f->stalls_first ? ": the stall comes first at once" : "");
    }
    ls_report_line(report, "%s", "");
}

static const ls_column data_columns[] = {
    {"factor", "", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"step", "", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"vmc_from", "", LS_DIM_SPEED, 2, LS_IN_DATA, NULL},
    {"vmc_to", "", LS_DIM_SPEED, 2, LS_IN_DATA, NULL},
    {"vmc_change", "", LS_DIM_SPEED, 2, LS_IN_DATA, NULL},
    {"vmc_uncertainty", "", LS_DIM_SPEED, 2, LS_IN_DATA, NULL},
    {"climb_from", "", LS_DIM_CLIMB_RATE, 0, LS_IN_DATA, NULL},
    {"climb_to", "", LS_DIM_CLIMB_RATE, 0, LS_IN_DATA, NULL},
    {"climb_change", "", LS_DIM_CLIMB_RATE, 0, LS_IN_DATA, NULL},
    {"climb_uncertainty", "", LS_DIM_CLIMB_RATE, 0, LS_IN_DATA, NULL},
    {"taught_vmc", "", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"taught_climb", "", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"taught_source", "", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"verdict", "", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"reason", "", LS_WORDS, 0, LS_IN_DATA, NULL},
};

static void data(ls_report *report, const ls_factors_view *view)
{
    ls_table *table = ls_report_table(report, "factors", NULL, LS_IN_DATA, data_columns, COUNT(data_columns));
    for (int i = 0; i < view->factors->rows; i++) {
        const ls_factor_result *row = &view->factors->row[i];
        const ls_factor_row *factor = ls_factor(row->kind);
        const double number[] = {row->vmc.from,   row->vmc.to,   row->vmc.change,   row->vmc.doubt,
                                 row->climb.from, row->climb.to, row->climb.change, row->climb.doubt};
        char step[LS_PHRASE];
        step_text(view, row, step);
        ls_table_row(table);
        ls_table_words(table, "%s", factor->name);
        ls_table_words(table, "%s", step);
        for (size_t k = 0; k < sizeof number / sizeof number[0]; k++) {
            ls_table_number(table, number[k]);
        }
        ls_table_words(table, "%s", taught_text(factor->vmc));
        ls_table_words(table, "%s", taught_text(factor->climb));
        ls_table_words(table, "%s", factor->source);
        ls_table_words(table, "%s",
                       row->vmc_state == LS_FACTOR_NO_DATA          ? "not modelled (no data)"
                       : row->vmc_state == LS_FACTOR_DOES_NOT_ARISE ? "does not arise"
                                                                    : verdict_text(row));
        ls_table_words(table, "%s", row->reason);
    }
    ls_report_number(report, "vmc", LS_DIM_SPEED, NULL, view->factors->vmc_m_s);
    ls_report_number(report, "climb_cas", LS_DIM_SPEED, NULL, view->factors->climb_cas_m_s);
    ls_report_number(report, "climb", LS_DIM_CLIMB_RATE, NULL, view->factors->climb_m_s);
    if (isfinite(view->factors->meeting_m)) {
        ls_report_number(report, "vmc_meets_stall", LS_DIM_ALTITUDE, NULL, view->factors->meeting_m);
    } else {
        ls_report_missing(report, "vmc_meets_stall", LS_DIM_ALTITUDE, "they do not meet going up");
    }
}

void ls_factors_report(ls_report *report, const ls_factors_view *view)
{
    say_answer(report, view);
    table_of_factors(report, view);
    remarks(report, view);
    sources(report, view);
    data(report, view);
    ls_report_cautions(report, view->uncertain, view->factors->bank_rad, 0);
}

void ls_chart_of_factors(ls_chart *chart, const ls_factors_view *view, int slide)
{
    const ls_unit *knots = ls_unit_preferred(view->units, LS_DIM_SPEED);
    ls_chart_start(chart, LS_CHART_BARS, "factors");
    chart->slide = slide;
    snprintf(chart->title, sizeof chart->title, "%.100s: what moves the minimum control speed",
             view->aircraft->name);
    snprintf(chart->x.label, sizeof chart->x.label, "change of minimum control speed (CAS)");
    snprintf(chart->x.unit, sizeof chart->x.unit, "%s", knots->name);
    ls_chart_add_group(chart, "over the step");
    for (int i = 0; i < view->factors->rows; i++) {
        const ls_factor_result *row = &view->factors->row[i];
        char step[LS_PHRASE], label[LS_CHART_LABEL], text[LS_CHART_LABEL];
        if (!isfinite(row->vmc.change)) {
            continue;
        }
        step_text(view, row, step);
        snprintf(label, sizeof label, "%.40s, %.44s", ls_factor(row->kind)->name, step);
        change_text(ls_unit_from_si(knots, row->vmc.change), 1, step);
        snprintf(text, sizeof text, "%.20s", step + 2); /* without the arrow */
        ls_chart_add_bar(chart, ls_chart_add_row(chart, label), 0, 0.0, ls_unit_from_si(knots, row->vmc.change),
                         text);
    }
}
