#include "report/reduce_report.h"

#include "report/phrase.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)

enum { ROWS_SHOWN = 60 };

static void group_name(const ls_reduce_view *view, const ls_reduced_group *group, char out[LS_PHRASE])
{
    char set[LS_PHRASE];
    snprintf(out, LS_PHRASE, "%.100s failed, %s, flap %.60s, gear %s",
             ls_phrase_set(view->aircraft, group->failed, set),
             ls_engine_state_name((ls_engine_state)group->state), view->aircraft->flap[group->flap].name,
             group->gear > 0.5 ? "down" : "up");
}

/* ---- the answer ---- */

static void say_interval(ls_report *report, const ls_reduce_view *view, const char *what,
                         const ls_interval *interval)
{
    char value[LS_PHRASE], low[LS_PHRASE], high[LS_PHRASE];
    if (isnan(interval->value)) {
        ls_report_line(report, "  %s: none", what);
        return;
    }
    ls_phrase_cas(interval->value, view->units, 0, value);
    if (isnan(interval->low)) {
        ls_report_line(report, "  %s: %s from one point, without an interval", what, value);
        return;
    }
    ls_report_line(report, "  %s: %s, %.0f %% interval %s to %s, %d points", what, value,
                   100.0 * view->request->confidence, ls_phrase_speed(interval->low, view->units, 0, low),
                   ls_phrase_speed(interval->high, view->units, 0, high), interval->points);
}

static void data_interval(ls_report *report, int group, const char *what, const ls_interval *interval)
{
    char path[LS_PHRASE];
    snprintf(path, sizeof path, "group_%d.%s.cas", group + 1, what);
    ls_report_number(report, path, LS_DIM_SPEED, NULL, interval->value);
    snprintf(path, sizeof path, "group_%d.%s.low", group + 1, what);
    ls_report_number(report, path, LS_DIM_SPEED, NULL, interval->low);
    snprintf(path, sizeof path, "group_%d.%s.high", group + 1, what);
    ls_report_number(report, path, LS_DIM_SPEED, NULL, interval->high);
}

static void data_dynamic(ls_report *report, int index, const ls_reduced_group *group)
{
    char path[LS_PHRASE];
    snprintf(path, sizeof path, "group_%d.dynamic.cas", index + 1);
    ls_report_number(report, path, LS_DIM_SPEED, NULL, group->dynamic_cas_m_s);
    snprintf(path, sizeof path, "group_%d.dynamic.increment", index + 1);
    ls_report_number(report, path, LS_DIM_SPEED, NULL, group->increment_m_s);
    snprintf(path, sizeof path, "group_%d.dynamic.lost", index + 1);
    ls_report_number(report, path, LS_DIM_SPEED, NULL, group->dynamic_lost_cas_m_s);
}

static void say_dynamic(ls_report *report, const ls_reduce_view *view, const ls_reduced_group *group)
{
    char dynamic[LS_PHRASE], more[LS_PHRASE], lost[LS_PHRASE];
    if (group->dynamic_points == 0) {
        return;
    }
    if (isnan(group->dynamic_cas_m_s)) {
        ls_report_line(report, "  dynamic: control was regained at none of %d points that tell",
                       group->dynamic_points);
        return;
    }
    ls_phrase_cas(group->dynamic_cas_m_s, view->units, 0, dynamic);
    ls_phrase_speed(fabs(group->increment_m_s), view->units, 0, more);
    ls_report_line(report, "  dynamic: control regained down to %s, %s %s the static speed; the higher counts",
                   dynamic, more, group->increment_m_s > 0.0 ? "above" : "below");
    if (isfinite(group->dynamic_lost_cas_m_s)) {
        ls_phrase_cas(group->dynamic_lost_cas_m_s, view->units, 0, lost);
        ls_report_line(report, "  and lost, or the heading off by more than 20 deg, up to %s", lost);
    }
}

static void say_group(ls_report *report, const ls_reduce_view *view, int index)
{
    const ls_reduced_group *group = &view->reduction->group[index];
    char name[LS_PHRASE], mass[LS_PHRASE], bank[LS_PHRASE], cas[LS_PHRASE];
    double shown_m_s = isnan(group->model.value) ? group->coefficient.value : group->model.value;
    int is_dynamic = group->dynamic_cas_m_s > shown_m_s;
    shown_m_s = is_dynamic ? group->dynamic_cas_m_s : shown_m_s;
    group_name(view, group, name);
    ls_phrase_value(group->standard.mass_kg, LS_DIM_MASS, NULL, view->units, 0, mass);
    ls_phrase_bank(view->request->bank_rad, 1, 1, bank);
    ls_report_answer(report, "%s, %s: %sVMC %s at sea level, standard day, %s, %s.", view->aircraft->name, name,
                     is_dynamic ? "dynamic " : "",
                     isnan(shown_m_s) ? "not found" : ls_phrase_cas(shown_m_s, view->units, 0, cas), mass, bank);
    say_interval(report, view, "whole model, scaled to the points", &group->model);
    say_interval(report, view, "constant yawing-moment coefficient", &group->coefficient);
    say_interval(report, view, "cube-root power law (no bank or weight)", &group->power_law);
    if (!isnan(group->file_cas_m_s)) {
        ls_report_line(report, "  the aeroplane file alone: %s",
                       ls_phrase_cas(group->file_cas_m_s, view->units, 0, cas));
    }
    say_dynamic(report, view, group);
    data_interval(report, index, "model", &group->model);
    data_interval(report, index, "coefficient", &group->coefficient);
    data_interval(report, index, "power_law", &group->power_law);
    data_dynamic(report, index, group);
}

/* ---- extrapolation ---- */

static const ls_column follow_columns[] = {
    {"group", "group", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"control", "limit", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"points", "points", LS_DIM_NUMBER, 0, LS_IN_ALL, NULL},
    {"used", "used\nup to", LS_DIM_FRACTION, 0, LS_IN_ALL, "%"},
    {"cas", "VMC", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"low", "from", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"high", "to", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"reason", "why not", LS_WORDS, 0, LS_IN_DATA, NULL},
};

static void add_following(ls_report *report, const ls_reduce_view *view)
{
    static const char *const names[LS_EXTRAPOLATIONS] = {"rudder travel", "aileron travel", "pedal force"};
    ls_table *table = ls_report_table(
        report, "extrapolated", "Followed from steady points down to each limit, standard condition",
        LS_IN_TEXT | LS_IN_JSON, follow_columns, (int)(sizeof follow_columns / sizeof follow_columns[0]));
    for (int g = 0; g < view->reduction->groups; g++) {
        for (int i = 0; i < LS_EXTRAPOLATIONS; i++) {
            const ls_extrapolation *at = &view->reduction->group[g].extrapolated[i];
            char name[LS_PHRASE];
            group_name(view, &view->reduction->group[g], name);
            ls_table_row(table);
            ls_table_words(table, "%s", name);
            ls_table_words(table, "%s", names[i]);
            ls_table_number(table, at->points);
            ls_table_number(table, at->used);
            ls_table_number(table, at->cas_m_s);
            ls_table_number(table, at->low);
            ls_table_number(table, at->high);
            ls_table_words(table, "%s", at->reason);
            if (at->reason[0] != '\0') {
                ls_report_line(report, "  %s: %s.", names[i], at->reason);
            }
        }
    }
}

/* ---- derivatives ---- */

static const ls_column term_columns[] = {
    {"equation", "equation", LS_WORDS, 0, LS_IN_ALL, NULL}, {"key", "derivative", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"value", "value", LS_DIM_NUMBER, 4, LS_IN_ALL, NULL},  {"error", "+-", LS_DIM_NUMBER, 4, LS_IN_ALL, NULL},
    {"file", "file", LS_DIM_NUMBER, 4, LS_IN_ALL, NULL},    {"reason", "", LS_WORDS, 0, LS_IN_DATA, NULL},
};

static void say_refusals(ls_report *report, const ls_regression *equation)
{
    if (equation->refused[0] != '\0') {
        ls_report_line(report, "%s: refused; %s.", equation->name, equation->refused);
        return;
    }
    if (equation->terms > 1) {
        ls_report_line(report, "%s: %d points, correlation %.2f, condition %.1f, residual %.5f.", equation->name,
                       equation->points, equation->correlation[0][1], equation->condition, equation->deviation);
    }
    for (int i = 0; i < equation->terms; i++) {
        int is_new = i == 0 || strcmp(equation->term[i].reason, equation->term[i - 1].reason) != 0;
        if (equation->term[i].reason[0] != '\0' && is_new) {
            ls_report_line(report, "  %s: %s.", equation->term[i].path, equation->term[i].reason);
        }
    }
}

static void add_terms(ls_report *report, const ls_reduce_view *view)
{
    const ls_reduction *r = view->reduction;
    ls_table *table = ls_report_table(
        report, "estimates", "Derivatives by least squares, stability axes, per radian", LS_IN_TEXT | LS_IN_JSON,
        term_columns, (int)(sizeof term_columns / sizeof term_columns[0]));
    for (int e = 0; e < LS_EQUATIONS; e++) {
        const ls_regression *equation = &r->regression[e];
        for (int i = 0; i < equation->terms; i++) {
            const ls_term *term = &equation->term[i];
            ls_table_row(table);
            ls_table_words(table, "%s", equation->name);
            ls_table_words(table, "%s", term->path);
            ls_table_number(table, equation->refused[0] != '\0' && term->is_estimated ? NAN : term->value);
            ls_table_number(table, term->error);
            ls_table_number(table, term->file);
            ls_table_words(table, "%s", equation->refused[0] != '\0' ? equation->refused : term->reason);
        }
    }
    if (isfinite(r->yaw_ratio)) {
        ls_report_line(report, "yaw.rudder over yaw.sideslip: %.3f +- %.3f, whatever the thrust.", r->yaw_ratio,
                       r->yaw_ratio_error);
    }
    for (int e = 0; e < LS_EQUATIONS; e++) {
        say_refusals(report, &r->regression[e]);
    }
    ls_report_number(report, "yaw_ratio", LS_DIM_NUMBER, NULL, r->yaw_ratio);
    ls_report_number(report, "yaw_ratio_error", LS_DIM_NUMBER, NULL, r->yaw_ratio_error);
}

static void say_scales(ls_report *report, const ls_reduce_view *view)
{
    const ls_model_fit *fit = &view->reduction->fit;
    ls_report_line(report, "%s", "");
    ls_report_line(report, "What scales the file to the points (1: as it is; ratios to its thrust moment)");
    for (int i = 0; i < LS_SCALES; i++) {
        const ls_scale *scale = &fit->scale[i];
        if (scale->is_estimated) {
            ls_report_line(report, "  %s %.3f +- %.3f", scale->name, scale->value, scale->error);
        } else {
            ls_report_line(report, "  %s kept at the file's: %s", scale->name, scale->reason);
        }
    }
    if (fit->status == LS_OK) {
        char skipped[LS_PHRASE] = "";
        if (fit->skipped > 0) {
            snprintf(skipped, sizeof skipped, " (%d more left out of the fit, evenly)", fit->skipped);
        }
        ls_report_line(report, "  %d points%s, rudder residual %.2f deg, condition %.1f", fit->points, skipped,
                       fit->deviation_rad / DEG, fit->condition);
    }
}

/* ---- error budget ---- */

static const ls_column budget_columns[] = {
    {"reading", "reading", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"accuracy", "good to", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"effect", "VMC", LS_DIM_SPEED, 2, LS_IN_ALL, NULL},
};

static void add_budget(ls_report *report, const ls_reduce_view *view)
{
    const ls_reduction *r = view->reduction;
    char total[LS_PHRASE];
    if (r->budget_lines == 0) {
        return;
    }
    ls_table *table = ls_report_table(report, "budget", "What the instruments leave of doubt in one point",
                                      LS_IN_TEXT | LS_IN_JSON, budget_columns,
                                      (int)(sizeof budget_columns / sizeof budget_columns[0]));
    for (int i = 0; i < r->budget_lines; i++) {
        const ls_budget_line *line = &r->budget[i];
        char good[LS_PHRASE];
        int is_share = line->dimension == LS_DIM_FRACTION;
        ls_phrase_value(line->accuracy, (ls_dimension)line->dimension, is_share ? "%" : NULL, view->units,
                        line->dimension == LS_DIM_ALTITUDE ? 0 : 1, good);
        ls_table_row(table);
        ls_table_words(table, "%s", line->name);
        ls_table_words(table, "%s", good);
        ls_table_number(table, line->m_s);
    }
    ls_report_line(report, "Together %s for one point; steady points add the rudder's, limit points do not.",
                   ls_phrase_speed(r->budget_m_s, view->units, 0, total));
}

/* ---- the points ---- */

static const ls_column row_columns[] = {
    {"id", "point", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"use", "kept as", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"limit", "limit", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"cas", "CAS", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"power", "power", LS_DIM_FRACTION, 0, LS_IN_DATA, "%"},
    {"coefficient", "yaw\ncoeff.", LS_DIM_NUMBER, 4, LS_IN_ALL, NULL},
    {"by_coefficient", "const.\ncoeff.", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"bank_correction", "by\nbank", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"weight_correction", "by\nweight", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"by_power_law", "power\nlaw", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"by_model", "model", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"residual", "resi-\ndual", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"increment", "increment", LS_DIM_SPEED, 1, LS_IN_DATA, NULL},
    {"kept", "kept", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"reason", "reason", LS_WORDS, 0, LS_IN_DATA, NULL},
};

static void add_row(ls_table *table, const ls_point *point, const ls_reduced *row)
{
    ls_table_row(table);
    ls_table_words(table, "%s", point->id);
    ls_table_words(table, "%s", ls_use_text(row->use));
    ls_table_words(table, "%s", row->limit >= 0 ? ls_limit_name((ls_limit)row->limit) : "");
    ls_table_number(table, row->cas_m_s);
    ls_table_number(table, row->power);
    ls_table_number(table, row->coefficient);
    ls_table_number(table, row->by_coefficient_m_s);
    ls_table_number(table, row->bank_m_s);
    ls_table_number(table, row->weight_m_s);
    ls_table_number(table, row->by_power_m_s);
    ls_table_number(table, row->by_model_m_s);
    ls_table_number(table, row->residual_m_s);
    ls_table_number(table, row->increment_m_s);
    ls_table_words(table, "%s", row->use == LS_USE_REJECTED ? "no" : "yes");
    ls_table_words(table, "%s", row->reason);
}

/* Every point in the data, in the order of the file; the first of them in text. */
static void add_rows(ls_report *report, const ls_reduce_view *view)
{
    const ls_reduction *r = view->reduction;
    int columns = (int)(sizeof row_columns / sizeof row_columns[0]);
    int shown = r->rows < ROWS_SHOWN ? r->rows : ROWS_SHOWN;
    ls_table *text =
        ls_report_table(report, "shown", "The points, in their order", LS_IN_TEXT, row_columns, columns);
    ls_table *data = ls_report_table(report, "points", NULL, LS_IN_DATA, row_columns, columns);
    for (int i = 0; i < r->rows; i++) {
        add_row(data, &view->request->points->point[i], &r->row[i]);
        if (i < shown) {
            add_row(text, &view->request->points->point[i], &r->row[i]);
        }
    }
    ls_report_line(report, "By bank, by weight: what these corrections add to the speed by constant coefficient.");
    if (shown < r->rows) {
        ls_report_line(report, "and %d more (all in --format csv)", r->rows - shown);
    }
    for (int i = 0; i < shown; i++) {
        if (r->row[i].reason[0] != '\0') {
            ls_report_line(report, "  %s: %s.", view->request->points->point[i].id, r->row[i].reason);
        }
    }
}

static void warn(ls_report *report, const ls_reduce_view *view)
{
    if (fabs(view->request->bank_rad) > 0.5 * DEG) {
        ls_report_warning(report,
                          "the power law is exact at zero bank and constant propulsive efficiency only; with bank "
                          "it gives too low a speed at sea level.");
    }
    if (view->reduction->uses[LS_USE_REJECTED] > 0) {
        ls_report_warning(report, "%d of %d points were rejected.", view->reduction->uses[LS_USE_REJECTED],
                          view->reduction->rows);
    }
}

void ls_reduce_report(ls_report *report, const ls_reduce_view *view)
{
    const int *uses = view->reduction->uses;
    for (int g = 0; g < view->reduction->groups; g++) {
        if (view->reduction->group[g].points > 0) {
            say_group(report, view, g);
        }
    }
    ls_report_line(report, "  points: %d at a limit, %d steady above it, %d dynamic, %d rejected",
                   uses[LS_USE_LIMIT], uses[LS_USE_STEADY], uses[LS_USE_DYNAMIC], uses[LS_USE_REJECTED]);
    add_following(report, view);
    say_scales(report, view);
    add_terms(report, view);
    add_budget(report, view);
    add_rows(report, view);
    if (view->written != NULL) {
        ls_report_line(report, "%s", "");
        ls_report_line(report, "The aeroplane with these scales is in %s.", view->written);
    }
    warn(report, view);
}

/* ---- chart ---- */

static void add_curve(ls_chart *chart, const ls_reduce_view *view, ls_use use, const char *label)
{
    const ls_unit *speed = ls_unit_preferred(view->units, LS_DIM_SPEED);
    ls_chart_add_curve(chart, LS_CURVE_POINTS, 0, label);
    int every = view->reduction->rows / 5000 + 1;
    for (int i = 0; i < view->reduction->rows; i += every) {
        const ls_reduced *row = &view->reduction->row[i];
        if (row->use == use && isfinite(row->residual_m_s)) {
            ls_chart_add_point(chart, ls_unit_from_si(speed, row->cas_m_s),
                               ls_unit_from_si(speed, row->residual_m_s));
        }
    }
}

void ls_chart_of_residuals(ls_chart *chart, const ls_reduce_view *view, int slide)
{
    const ls_unit *speed = ls_unit_preferred(view->units, LS_DIM_SPEED);
    ls_chart_start(chart, LS_CHART_CURVES, "reduction-residuals");
    chart->slide = slide;
    snprintf(chart->title, sizeof chart->title, "%s: measured less model, as a speed", view->aircraft->name);
    snprintf(chart->x.label, sizeof chart->x.label, "calibrated airspeed of the point");
    snprintf(chart->x.unit, sizeof chart->x.unit, "%s", speed->name);
    snprintf(chart->y[0].label, sizeof chart->y[0].label, "residual");
    snprintf(chart->y[0].unit, sizeof chart->y[0].unit, "%s", speed->name);
    if (view->reduction->uses[LS_USE_LIMIT] > 0) {
        add_curve(chart, view, LS_USE_LIMIT, "at the limit");
    }
    if (view->reduction->uses[LS_USE_STEADY] > 0) {
        add_curve(chart, view, LS_USE_STEADY, "steady");
    }
    ls_chart_add_horizontal(chart, 0, 0.0, "");
}
