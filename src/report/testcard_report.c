#include "report/testcard_report.h"

#include "report/phrase.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>

#define DEG (3.14159265358979323846 / 180.0)

/* ---- the file of points ---- */

ls_table *ls_points_table(ls_report *report, const char *key, unsigned where, ls_column *column)
{
    int count;
    const ls_point_column *table = ls_point_columns(&count);
    assert(count <= LS_CARD_COLUMNS);
    for (int i = 0; i < count; i++) {
        column[i] = (ls_column){.key = table[i].key,
                                .heading = table[i].key,
                                .dimension = table[i].dimension == LS_POINT_TEXT ? LS_WORDS : table[i].dimension,
                                .decimals = table[i].decimals,
                                .where = LS_IN_DATA,
                                .us_unit = table[i].us_unit};
    }
    return ls_report_table(report, key, NULL, where, column, count);
}

void ls_points_row(ls_table *table, const ls_point *point)
{
    int count;
    const ls_point_column *columns = ls_point_columns(&count);
    ls_table_row(table);
    for (int i = 0; i < count; i++) {
        const char *at = (const char *)point + columns[i].offset;
        if (columns[i].dimension == LS_POINT_TEXT) {
            ls_table_words(table, "%s", at);
        } else {
            ls_table_number(table, *(const double *)(const void *)at);
        }
    }
}

/* ---- the card ---- */

static const ls_column card_columns[] = {
    {"id", "point", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"cas", "CAS", LS_DIM_SPEED, 0, LS_IN_TEXT, NULL},
    {"rudder", "rudder", LS_DIM_ANGLE, 1, LS_IN_TEXT, NULL},
    {"aileron", "aileron", LS_DIM_ANGLE, 1, LS_IN_TEXT, NULL},
    {"sideslip", "wind from,\ndeg and side", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"force", "pedal", LS_DIM_FORCE, 0, LS_IN_TEXT, NULL},
    {"margin", "above\nstall", LS_DIM_SPEED, 0, LS_IN_TEXT, NULL},
    {"note", "", LS_WORDS, 0, LS_IN_TEXT, NULL},
};

static const ls_column dynamic_columns[] = {
    {"id", "point", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"cas", "CAS at\nfailure", LS_DIM_SPEED, 0, LS_IN_TEXT, NULL},
    {"heading", "heading\nchange", LS_DIM_ANGLE, 0, LS_IN_TEXT, NULL},
    {"height", "height\nloss", LS_DIM_ALTITUDE, 0, LS_IN_TEXT, NULL},
    {"break_off", "height if\nbroken off", LS_DIM_ALTITUDE, 0, LS_IN_TEXT, NULL},
    {"margin", "above\nstall", LS_DIM_SPEED, 0, LS_IN_TEXT, NULL},
};

static void series_title(const ls_card_view *view, int index, char out[LS_PHRASE * 2])
{
    char bank[LS_PHRASE], height[LS_PHRASE], mass[LS_PHRASE];
    const ls_card_series *series = &view->card->series[index];
    ls_phrase_bank(series->bank_rad, 1, 1, bank);
    ls_phrase_value(series->altitude_m, LS_DIM_ALTITUDE, NULL, view->units, 0, height);
    ls_phrase_value(series->mass_kg, LS_DIM_MASS, NULL, view->units, 0, mass);
    snprintf(out, LS_PHRASE * 2, "Series %d%s: %.60s, %.40s, %.40s", index + 1,
             series->is_dynamic ? ", sudden failures" : "", bank, height, mass);
}

static void add_static(ls_report *report, const ls_card_view *view, const ls_card_series *series,
                       const char *title, const char *key)
{
    ls_table *table = ls_report_table(report, key, title, LS_IN_TEXT, card_columns,
                                      (int)(sizeof card_columns / sizeof card_columns[0]));
    for (int i = 0; i < series->count; i++) {
        char wind[LS_PHRASE];
        const ls_point *point = &view->card->point[series->first + i];
        int is_last = i + 1 == series->count;
        ls_table_row(table);
        ls_table_words(table, "%s", point->id);
        ls_table_number(table, point->expected_cas_m_s);
        ls_table_number(table, fabs(point->expected_rudder_rad));
        ls_table_number(table, fabs(point->expected_aileron_rad));
        ls_table_words(table, "%s", ls_phrase_wind_short(point->expected_beta_rad, view->card->live_side, wind));
        ls_table_number(table, fabs(point->expected_force_N));
        ls_table_number(table, point->stall_margin_m_s);
        ls_table_words(table, "%s",
                       !is_last                       ? ""
                       : series->end == LS_CARD_STALL ? "no slower: stall"
                                                      : ls_limit_name(series->limit));
    }
}

/* Why the next step down is not flown. */
static const char *end_words(ls_card_end end)
{
    switch (end) {
    case LS_CARD_STALL:
        return "the next one would be inside the stall margin";
    case LS_CARD_SWING:
        return "in the next one the heading is expected to pass 20 deg, or not to be held";
    case LS_CARD_LOST:
        return "a pilot who waits until 20 deg of heading is not expected to regain control in the next one";
    case LS_CARD_FLOOR:
        return "breaking off the next one could end below the floor";
    case LS_CARD_UNKNOWN:
        return "the motion cannot be worked out for this propeller state";
    default:
        return "nothing nearer to the static speed is flown";
    }
}

static void add_dynamic(ls_report *report, const ls_card_view *view, const ls_card_series *series,
                        const char *title, const char *key)
{
    char delay[LS_PHRASE], vmc[LS_PHRASE];
    ls_phrase_cas(series->vmc_cas_m_s, view->units, 0, vmc);
    if (series->count == 0) {
        ls_report_line(report, "%s: no sudden failure is flown: %s.", title, end_words(series->end));
        return;
    }
    ls_table *table = ls_report_table(report, key, title, LS_IN_TEXT, dynamic_columns,
                                      (int)(sizeof dynamic_columns / sizeof dynamic_columns[0]));
    for (int i = 0; i < series->count; i++) {
        const ls_point *point = &view->card->point[series->first + i];
        ls_table_row(table);
        ls_table_words(table, "%s", point->id);
        ls_table_number(table, point->expected_cas_m_s);
        ls_table_number(table, fabs(point->expected_heading_change_rad));
        ls_table_number(table, point->expected_height_loss_m);
        ls_table_number(table, view->card->break_off_m[series->first + i]);
        ls_table_number(table, point->stall_margin_m_s);
    }
    ls_phrase_value(view->request->delay_s, LS_DIM_TIME, NULL, view->units, 1, delay);
    ls_report_line(report,
                   "Static speed expected there: %s; the pilot acts after %s, airspeed held. Broken off at 20 deg "
                   "of heading; 500 ft more are kept for the "
                   "pull-out. It ends here: %s.",
                   vmc, delay, end_words(series->end));
}

static void add_rules(ls_report *report, const ls_card_view *view)
{
    char floor[LS_PHRASE], margin[LS_PHRASE], force[LS_PHRASE];
    ls_phrase_value(view->request->floor_m, LS_DIM_ALTITUDE, NULL, view->units, 0, floor);
    ls_phrase_speed(view->request->stall_margin_m_s, view->units, 0, margin);
    ls_phrase_value(view->aircraft->limits.pedal_force_N, LS_DIM_FORCE, NULL, view->units, 0, force);
    ls_report_line(report, "%s", "");
    ls_report_line(report, "How each series is flown");
    ls_report_line(
        report, "  Set take-off power on the live engine, hold the bank and a steady heading, and let it settle "
                "at each speed from the fastest down; write every reading, then go on. Into the last step "
                "slow by no more than 1 kt a second.");
    ls_report_line(report,
                   "  Stop a series at the first of: full rudder, %s of pedal force, full aileron, the stall "
                   "warning or any buffet, a heading that cannot be held, %s above the expected stall.",
                   force, margin);
    ls_report_line(
        report,
        "  Break off (power back on the live engine, nose down) at: 20 deg of heading change, 45 deg of "
        "bank, the stall, a temperature limit, or %s.",
        floor);
    ls_report_line(
        report, "  For sudden failures the engine is cut at each speed from the fastest down, after the static "
                "series and only with height to spare; go no slower once a swing is larger than expected. Write "
                "the largest heading change, the height loss, and regained or lost.");
    ls_report_line(report,
                   "  Write in `ended`: steady for a step above every limit, or rudder, force, aileron, stall.");
}

static void say_top(ls_report *report, const ls_card_view *view)
{
    const ls_card *card = view->card;
    char speed[LS_PHRASE], failed[LS_PHRASE];
    double slowest_m_s = INFINITY;
    for (int i = 0; i < card->count; i++) {
        slowest_m_s = fmin(slowest_m_s, card->point[i].expected_cas_m_s);
    }
    ls_report_answer(
        report, "%s: %d points to measure VMC with %s failed; the slowest expected is %s.", view->aircraft->name,
        card->count,
        ls_phrase_set(view->aircraft, ls_condition_failed(view->aircraft, &view->request->condition), failed),
        ls_phrase_cas(slowest_m_s, view->units, 1, speed));
    ls_report_line(report,
                   "Expected values are the model's. A series goes from the fastest point down, the highest "
                   "pressure altitude first; rudder against the dead engine.");
}

static void warn(ls_report *report, const ls_card_view *view)
{
    int stopped = 0, fixed = 0;
    for (int i = 0; i < view->card->series_count; i++) {
        fixed += !view->card->series[i].is_dynamic;
        stopped += !view->card->series[i].is_dynamic && view->card->series[i].end == LS_CARD_STALL;
    }
    if (stopped > 0) {
        ls_report_warning(
            report,
            "in %d of %d static series the stall margin comes before the limit: their steady points are "
            "extrapolated by `reduce`, and nothing slower is flown.",
            stopped, fixed);
    }
    if (view->uncertain > 0) {
        ls_report_warning(report, "%d values of this file are estimated or assumed: expect other readings.",
                          view->uncertain);
    }
    ls_report_warning(report,
                      "a test pilot, an approved test plan and a spare altitude are needed; nobody learns this "
                      "from a printout.");
}

void ls_card_report(ls_report *report, ls_card_view *view)
{
    static const char *const keys[LS_CARD_SERIES] = {"series_1", "series_2", "series_3", "series_4",
                                                     "series_5", "series_6", "series_7", "series_8"};
    const ls_card *card = view->card;
    say_top(report, view);
    for (int i = 0; i < card->series_count; i++) {
        char title[LS_PHRASE * 2];
        series_title(view, i, title);
        if (card->series[i].is_dynamic) {
            add_dynamic(report, view, &card->series[i], title, keys[i]);
        } else {
            add_static(report, view, &card->series[i], title, keys[i]);
        }
    }
    add_rules(report, view);
    ls_table *points = ls_points_table(report, "points", LS_IN_DATA, view->column);
    for (int i = 0; i < card->count; i++) {
        ls_points_row(points, &card->point[i]);
    }
    warn(report, view);
}
