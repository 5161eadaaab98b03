#include "report/trend_report.h"

#include "report/phrase.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static int has_speed(const ls_trend_point *point)
{
    return point->point.status == LS_OK && isfinite(point->point.vmc.cas_m_s);
}

static const ls_trend_axis *axis_of(const ls_trend_view *view, int axis)
{
    return &view->line[0].request->axis[axis];
}

const char *ls_trend_value_text(const ls_trend_view *view, int line, int axis, double value, char *out,
                                size_t size)
{
    const ls_trend_axis *of = &view->line[line].request->axis[axis];
    int index = (int)lround((value - of->from) / of->step);
    const char *word = ls_trend_axis_word(of, view->line[line].aircraft, index);
    if (word != NULL) {
        snprintf(out, size, "%s", word);
    } else {
        double shown = ls_unit_from_si(view->axis_unit[axis], value);
        snprintf(out, size, "%.6g", fabs(shown) < 1e-9 ? 0.0 : shown);
    }
    return out;
}

static const char *axis_heading(ls_trend_view *view, int axis, char *heading)
{
    const char *unit = view->axis_unit[axis]->name;
    snprintf(heading, LS_TREND_HEADING, "%.60s%s%s", axis_of(view, axis)->name, unit[0] != '\0' ? ", " : "", unit);
    return heading;
}

static ls_column text_column(const char *key, const char *heading)
{
    return (ls_column){key, heading, LS_WORDS, 0, LS_IN_TEXT, NULL};
}

static ls_column speed_column(const ls_trend_view *view, int line, const char *key, const char *heading)
{
    return (ls_column){key, heading, LS_DIM_SPEED, view->line[line].uncertain ? 0 : 1, LS_IN_TEXT, NULL};
}

/* One aeroplane, one axis: the speed with what goes with it. */
static void table_of_one(ls_report *report, ls_trend_view *view)
{
    const ls_trend_line *line = &view->line[0];
    const ls_column columns[] = {
        text_column("value", axis_heading(view, 0, view->heading[0])),
        speed_column(view, 0, "vmc", "VMC\nCAS"),
        text_column("limit", "met first"),
        speed_column(view, 0, "stall", "stall\nCAS"),
        text_column("wind", "wind\nfrom, deg"),
        {"rudder", "rudder\nleft, %", LS_DIM_NUMBER, 0, LS_IN_TEXT, NULL},
        {"aileron", "aileron\nleft, %", LS_DIM_NUMBER, 0, LS_IN_TEXT, NULL},
        {"climb", "climb\nangle", LS_DIM_ANGLE, 1, LS_IN_TEXT, NULL},
    };
    int count = (int)(sizeof columns / sizeof columns[0]);
    memcpy(view->column, columns, sizeof columns);
    ls_table *table = ls_report_table(report, "trend_table", NULL, LS_IN_TEXT, view->column, count);
    for (int i = 0; i < line->trend->count; i++) {
        const ls_trend_point *at = &line->trend->point[i];
        const ls_vmc *vmc = &at->point.vmc;
        char text[LS_PHRASE];
        int side = ls_live_side(line->aircraft, &line->request->condition);
        ls_table_row(table);
        ls_table_words(table, "%s", ls_trend_value_text(view, 0, 0, at->value[0], text, sizeof text));
        ls_table_number(table, has_speed(at) ? vmc->cas_m_s : NAN);
        ls_table_words(table, "%s", ls_phrase_limit(&at->point));
        if (has_speed(at)) {
            ls_table_number(table, vmc->stall_cas_m_s);
            ls_table_words(table, "%s", ls_phrase_wind_short(vmc->trim.beta_rad, side, text));
            ls_table_number(table, 100 * vmc->margins.left[LS_LIMIT_RUDDER]);
            ls_table_number(table, 100 * vmc->margins.left[LS_LIMIT_AILERON]);
            ls_table_number(table, vmc->trim.climb_rad);
        }
    }
    ls_report_line(report, "%s", "");
}

/* Several aeroplanes over one axis: speed and limit of each. */
static void table_of_several(ls_report *report, ls_trend_view *view)
{
    int count = 0;
    view->column[count++] = text_column("value", axis_heading(view, 0, view->heading[0]));
    for (int k = 0; k < view->lines; k++) {
        snprintf(view->heading[k + 1], LS_TREND_HEADING, "%.16s\nVMC", view->line[k].aircraft->name);
        view->column[count++] = speed_column(view, k, "vmc", view->heading[k + 1]);
        view->column[count++] = text_column("limit", "");
    }
    ls_table *table = ls_report_table(report, "trend_table", NULL, LS_IN_TEXT, view->column, count);
    for (int i = 0; i < view->line[0].trend->count; i++) {
        char text[LS_PHRASE];
        ls_table_row(table);
        ls_table_words(table, "%s",
                       ls_trend_value_text(view, 0, 0, view->line[0].trend->point[i].value[0], text, sizeof text));
        for (int k = 0; k < view->lines && i < view->line[k].trend->count; k++) {
            const ls_trend_point *at = &view->line[k].trend->point[i];
            ls_table_number(table, has_speed(at) ? at->point.vmc.cas_m_s : NAN);
            ls_table_words(table, "%s", ls_phrase_limit_short(&at->point));
        }
    }
    ls_report_line(report, "%s", "");
}

/* Two axes: a grid of speeds, as far across as 80 columns allow. */
static void table_of_grid(ls_report *report, ls_trend_view *view)
{
    const ls_trend *trend = view->line[0].trend;
    int across = axis_of(view, 1)->points, shown = across < LS_TREND_ACROSS ? across : LS_TREND_ACROSS, count = 0;
    char title[LS_PHRASE], text[LS_PHRASE];
    snprintf(title, sizeof title, "VMC (CAS); down: %.60s; across: %.40s%s%s; s: the wing stalls first",
             axis_of(view, 0)->name, axis_of(view, 1)->name, view->axis_unit[1]->name[0] != '\0' ? ", " : "",
             view->axis_unit[1]->name);
    view->column[count++] = text_column("value", axis_heading(view, 0, view->heading[0]));
    for (int j = 0; j < shown; j++) {
        ls_trend_value_text(view, 0, 1, ls_trend_axis_value(axis_of(view, 1), j), view->heading[j + 1], 9);
        view->column[count++] = text_column("vmc", view->heading[j + 1]);
    }
    ls_table *table = ls_report_table(report, "trend_table", title, LS_IN_TEXT, view->column, count);
    for (int i = 0; i < trend->count; i += across) {
        ls_table_row(table);
        ls_table_words(table, "%s", ls_trend_value_text(view, 0, 0, trend->point[i].value[0], text, sizeof text));
        for (int j = 0; j < shown && i + j < trend->count; j++) {
            const ls_trend_point *at = &trend->point[i + j];
            const ls_unit *unit = ls_unit_preferred(view->units, LS_DIM_SPEED);
            if (has_speed(at)) {
                ls_table_words(table, "%.*f%s", view->line[0].uncertain ? 0 : 1,
                               ls_unit_from_si(unit, at->point.vmc.cas_m_s),
                               at->point.vmc.kind == LS_VMC_STALLS_FIRST ? "s" : "");
            } else {
                ls_table_words(table, "-");
            }
        }
    }
    if (shown < across) {
        ls_report_line(report, "%d more columns: --format csv has them all.", across - shown);
    }
    ls_report_line(report, "%s", "");
}

static void data_row(ls_table *table, const ls_trend_line *line, const ls_trend_point *at)
{
    char name[LS_PHRASE];
    const ls_vmc *vmc = &at->point.vmc;
    int ok = has_speed(at);
    ls_table_row(table);
    ls_table_words(table, "%s", line->aircraft->name);
    ls_table_words(table, "%s", ls_phrase_set(line->aircraft, line->request->failed, name));
    ls_table_number(table, at->value[0]);
    if (line->request->axes == 2) {
        ls_table_number(table, at->value[1]);
    }
    const double numbers[] = {vmc->cas_m_s,
                              vmc->V_m_s,
                              vmc->control_cas_m_s,
                              vmc->stall_cas_m_s,
                              at->point.bank_rad,
                              vmc->trim.beta_rad,
                              vmc->trim.rudder_rad,
                              vmc->trim.aileron_rad,
                              vmc->trim.pedal_force_N,
                              vmc->trim.climb_rad};
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        ls_table_number(table, ok ? numbers[i] : NAN);
    }
    ls_table_words(table, "%s", ls_phrase_limit(&at->point));
    ls_table_words(table, "%s", at->point.reason);
}

/* One row a point; the axes' columns are named after them. */
static void table_of_data(ls_report *report, ls_trend_view *view)
{
    static const ls_column rest[] = {
        {"vmc_cas", "", LS_DIM_SPEED, 1, LS_IN_DATA, NULL},
        {"vmc_tas", "", LS_DIM_SPEED, 1, LS_IN_DATA, NULL},
        {"control_cas", "", LS_DIM_SPEED, 1, LS_IN_DATA, NULL},
        {"stall_cas", "", LS_DIM_SPEED, 1, LS_IN_DATA, NULL},
        {"bank_toward_live", "", LS_DIM_ANGLE, 1, LS_IN_DATA, NULL},
        {"sideslip", "", LS_DIM_ANGLE, 1, LS_IN_DATA, NULL},
        {"rudder", "", LS_DIM_ANGLE, 1, LS_IN_DATA, NULL},
        {"aileron", "", LS_DIM_ANGLE, 1, LS_IN_DATA, NULL},
        {"pedal_force", "", LS_DIM_FORCE, 0, LS_IN_DATA, NULL},
        {"climb_angle", "", LS_DIM_ANGLE, 1, LS_IN_DATA, NULL},
        {"limit", "", LS_WORDS, 0, LS_IN_DATA, NULL},
        {"reason", "", LS_WORDS, 0, LS_IN_DATA, NULL},
    };
    static const char *const keys[2] = {"first", "second"};
    int count = 0, axes = view->line[0].request->axes;
    view->data[count++] = (ls_column){"aeroplane", "", LS_WORDS, 0, LS_IN_DATA, NULL};
    view->data[count++] = (ls_column){"failed", "", LS_WORDS, 0, LS_IN_DATA, NULL};
    for (int i = 0; i < axes; i++) {
        const ls_trend_axis *axis = axis_of(view, i);
        const char *us_unit = view->units == LS_UNITS_US ? view->axis_unit[i]->name : NULL;
        int is_file = axis->kind == LS_AXIS_FILE || strcmp(axis->name, "bank") == 0;
        view->data[count++] =
            (ls_column){is_file ? keys[i] : axis->name, "", axis->dimension, 3, LS_IN_DATA, us_unit};
    }
    memcpy(&view->data[count], rest, sizeof rest);
    count += (int)(sizeof rest / sizeof rest[0]);
    ls_table *table = ls_report_table(report, "trend", NULL, LS_IN_DATA, view->data, count);
    for (int k = 0; k < view->lines; k++) {
        for (int i = 0; i < view->line[k].trend->count; i++) {
            data_row(table, &view->line[k], &view->line[k].trend->point[i]);
        }
    }
}

/* The least and the greatest of a line in one sentence. */
static void say_span(ls_report *report, const ls_trend_view *view, int index)
{
    const ls_trend_line *line = &view->line[index];
    const ls_trend_point *least = NULL, *most = NULL;
    char name[LS_PHRASE], low[LS_PHRASE], high[LS_PHRASE], at_low[LS_PHRASE], at_high[LS_PHRASE];
    int missing = 0;
    for (int i = 0; i < line->trend->count; i++) {
        const ls_trend_point *at = &line->trend->point[i];
        if (!has_speed(at)) {
            missing++;
            continue;
        }
        least = least == NULL || at->point.vmc.cas_m_s < least->point.vmc.cas_m_s ? at : least;
        most = most == NULL || at->point.vmc.cas_m_s > most->point.vmc.cas_m_s ? at : most;
    }
    if (least == NULL) {
        ls_report_answer(report, "%s: not one point has an answer.", line->aircraft->name);
        return;
    }
    ls_trend_value_text(view, index, 0, least->value[0], at_low, sizeof at_low);
    ls_trend_value_text(view, index, 0, most->value[0], at_high, sizeof at_high);
    const char *unit = view->axis_unit[0]->name, *gap = unit[0] != '\0' ? " " : "";
    ls_report_answer(report, "%s, %s failed: VMC from %s at %s%s%s to %s at %s%s%s.", line->aircraft->name,
                     ls_phrase_set(line->aircraft, line->request->failed, name),
                     ls_phrase_cas(least->point.vmc.cas_m_s, view->units, line->uncertain, low), at_low, gap, unit,
                     ls_phrase_cas(most->point.vmc.cas_m_s, view->units, line->uncertain, high), at_high, gap,
                     unit);
    if (missing > 0) {
        ls_report_line(report, "%d of %d points have no answer; the data say why.", missing, line->trend->count);
    }
}

void ls_trend_report(ls_report *report, ls_trend_view *view)
{
    for (int k = 0; k < view->lines; k++) {
        say_span(report, view, k);
    }
    ls_report_line(report, "%s", "");
    if (view->line[0].request->axes == 2) {
        table_of_grid(report, view);
    } else if (view->lines > 1) {
        table_of_several(report, view);
    } else {
        table_of_one(report, view);
    }
    table_of_data(report, view);
}
