#include "report/trend_report.h"

#include "report/caution.h"
#include "report/phrase.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { SHOWN_REASONS = 3 };

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

/* The name of an axis; of a path only what follows the name of the entry, which a column could not hold. */
static const char *axis_heading(ls_trend_view *view, int axis, char *heading)
{
    const char *unit = view->axis_unit[axis]->name, *name = axis_of(view, axis)->name;
    const char *bracket = strrchr(name, ']');
    snprintf(heading, LS_TREND_HEADING, "%.60s%s%s", bracket != NULL ? bracket + 2 : name,
             unit[0] != '\0' ? ", " : "", unit);
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
        ls_table_words(table, "%s",
                       has_speed(at) ? ls_phrase_limit(&at->point) : ls_phrase_limit_short(&at->point));
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
    snprintf(title, sizeof title, "VMC (CAS); down %.60s, across %.60s%s%s; s: the wing stalls first",
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

static void axis_cell(ls_table *table, const ls_trend_line *line, int axis, double value)
{
    const ls_trend_axis *of = &line->request->axis[axis];
    const char *word = ls_trend_axis_word(of, line->aircraft, (int)lround((value - of->from) / of->step));
    if (ls_trend_axis_has_words(of)) {
        ls_table_words(table, "%s", word != NULL ? word : "");
    } else {
        ls_table_number(table, value);
    }
}

static void data_row(ls_table *table, const ls_trend_line *line, const ls_trend_point *at)
{
    char text[LS_PHRASE];
    const ls_vmc *vmc = &at->point.vmc;
    int ok = has_speed(at);
    ls_table_row(table);
    ls_table_words(table, "%s", line->aircraft->name);
    ls_table_words(table, "%s", ls_phrase_set(line->aircraft, line->request->failed, text));
    for (int i = 0; i < line->request->axes; i++) {
        axis_cell(table, line, i, at->value[i]);
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
    ls_table_words(table, "%s", ok ? ls_phrase_limit(&at->point) : "none");
    ls_table_words(table, "%s", ls_phrase_reason(line->aircraft, &at->point, text));
}

/* "cg_lateral", "powerplants[1].engine.power". */
static void set_axis_key(const ls_trend_axis *axis, char key[LS_AXIS_TEXT])
{
    const char *brackets = axis->kind == LS_AXIS_FILE ? strstr(axis->parameter->path, "[]") : NULL;
    if (axis->kind != LS_AXIS_FILE) {
        snprintf(key, LS_AXIS_TEXT, "%s", axis->name);
        for (char *c = key; *c != '\0'; c++) {
            *c = *c == '-' ? '_' : *c;
        }
    } else if (brackets == NULL) {
        snprintf(key, LS_AXIS_TEXT, "%s", axis->parameter->path);
    } else {
        snprintf(key, LS_AXIS_TEXT, "%.*s[%d]%s", (int)(brackets - axis->parameter->path), axis->parameter->path,
                 axis->element + 1, brackets + 2);
    }
}

static ls_column axis_column(ls_trend_view *view, int index)
{
    const ls_trend_axis *axis = axis_of(view, index);
    int is_us = view->units == LS_UNITS_US || axis->dimension == LS_DIM_FRACTION;
    int dimension = ls_trend_axis_has_words(axis) ? LS_WORDS : (int)axis->dimension;
    set_axis_key(axis, view->axis_key[index]);
    return (ls_column){view->axis_key[index],
                       "",
                       dimension,
                       3,
                       LS_IN_DATA,
                       is_us && dimension != LS_WORDS ? view->axis_unit[index]->name : NULL};
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
    int count = 0, axes = view->line[0].request->axes;
    view->data[count++] = (ls_column){"aeroplane", "", LS_WORDS, 0, LS_IN_DATA, NULL};
    view->data[count++] = (ls_column){"failed", "", LS_WORDS, 0, LS_IN_DATA, NULL};
    for (int i = 0; i < axes; i++) {
        view->data[count++] = axis_column(view, i);
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

/* "5 deg", "feathered". */
static void place_text(const ls_trend_view *view, int line, const ls_trend_point *at, char out[LS_PHRASE])
{
    size_t used = 0;
    out[0] = '\0';
    for (int axis = 0; axis < view->line[line].request->axes && used < LS_PHRASE; axis++) {
        char value[LS_PHRASE];
        const char *unit = ls_trend_axis_has_words(axis_of(view, axis)) ? "" : view->axis_unit[axis]->name;
        ls_trend_value_text(view, line, axis, at->value[axis], value, sizeof value);
        used += (size_t)snprintf(out + used, LS_PHRASE - used, "%s%.100s%s%s", axis > 0 ? ", " : "", value,
                                 unit[0] != '\0' ? " " : "", unit);
    }
}

static const char *stall_text(const ls_trend_point *at)
{
    return at->point.vmc.kind == LS_VMC_STALLS_FIRST ? " (the wing stalls first)" : "";
}

/* The least and the greatest of a line in one sentence. */
static void say_span(ls_report *report, const ls_trend_view *view, int index)
{
    const ls_trend_line *line = &view->line[index];
    const ls_trend_point *least = NULL, *most = NULL;
    char name[LS_PHRASE], low[LS_PHRASE], high[LS_PHRASE], at_low[LS_PHRASE], at_high[LS_PHRASE];
    for (int i = 0; i < line->trend->count; i++) {
        const ls_trend_point *at = &line->trend->point[i];
        if (has_speed(at)) {
            least = least == NULL || at->point.vmc.cas_m_s < least->point.vmc.cas_m_s ? at : least;
            most = most == NULL || at->point.vmc.cas_m_s > most->point.vmc.cas_m_s ? at : most;
        }
    }
    if (least == NULL) {
        ls_report_answer(report, "%s: not one point has an answer.", line->aircraft->name);
        return;
    }
    place_text(view, index, least, at_low);
    place_text(view, index, most, at_high);
    ls_report_answer(report, "%s, %s failed: VMC from %s%s at %s to %s%s at %s.", line->aircraft->name,
                     ls_phrase_set(line->aircraft, line->request->failed, name),
                     ls_phrase_cas(least->point.vmc.cas_m_s, view->units, line->uncertain, low), stall_text(least),
                     at_low, ls_phrase_cas(most->point.vmc.cas_m_s, view->units, line->uncertain, high),
                     stall_text(most), at_high);
}

/* Why points are missing: the first few by themselves. */
static void say_missing(ls_report *report, const ls_trend_view *view)
{
    int missing = 0;
    for (int k = 0; k < view->lines; k++) {
        const ls_trend_line *line = &view->line[k];
        for (int i = 0; i < line->trend->count; i++) {
            const ls_trend_point *at = &line->trend->point[i];
            char place[LS_PHRASE];
            if (has_speed(at) || missing++ >= SHOWN_REASONS) {
                continue;
            }
            place_text(view, k, at, place);
            ls_report_line(report, "%s at %s: %s.", line->aircraft->name, place, ls_phrase_limit(&at->point));
        }
    }
    if (missing > SHOWN_REASONS) {
        ls_report_line(report, "%d more points have no answer; --format csv says why.", missing - SHOWN_REASONS);
    }
    if (missing > 0) {
        ls_report_line(report, "%s", "");
    }
}

/* What the points of a line have among them: whether the wing stalls first, the most bank, the flags. */
static void caution_line(ls_report *report, const ls_trend_line *line)
{
    int stalls = 0, below = 0;
    double bank_rad = 0.0, beta_rad = 0.0, published_m_s = line->aircraft->published.vmc_m_s;
    unsigned flags = 0;
    for (int i = 0; i < line->trend->count; i++) {
        const ls_trend_point *at = &line->trend->point[i];
        if (has_speed(at)) {
            double cas_m_s = at->point.vmc.cas_m_s;
            int is_ias = line->aircraft->published.vmc_kind == 1;
            double own_m_s = is_ias ? ls_indicated_airspeed(line->aircraft, cas_m_s, NULL) : cas_m_s;
            stalls |= at->point.vmc.kind == LS_VMC_STALLS_FIRST;
            below |= ls_given(published_m_s) && own_m_s < published_m_s;
            bank_rad = fmax(bank_rad, fabs(at->point.bank_rad));
            beta_rad = fmax(beta_rad, fabs(at->point.vmc.trim.beta_rad));
            flags |= at->point.vmc.flags;
        }
    }
    if (stalls || below) {
        ls_report_warning(report, "%s: where %s%s%s, it is not a flying speed; use the flight manual's.",
                          line->aircraft->name, stalls ? "the wing stalls before control is lost" : "",
                          stalls && below ? " or " : "", below ? "the speed is below the published one" : "");
    }
    ls_report_caution_sideslip(report, beta_rad);
    ls_report_cautions(report, line->uncertain, bank_rad, flags);
}

void ls_trend_report(ls_report *report, ls_trend_view *view)
{
    ls_report_flag(report, "partial", view->is_partial);
    if (view->is_partial) {
        ls_report_answer(report, "Stopped before its end: these are the points solved until then.");
        ls_report_warning(report, "The run was stopped: the points are a part of those asked for.");
    }
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
    say_missing(report, view);
    table_of_data(report, view);
    for (int k = 0; k < view->lines; k++) {
        caution_line(report, &view->line[k]);
    }
}
