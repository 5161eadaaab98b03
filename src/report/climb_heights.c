/* The tables against altitude and speed, and the data of every point. */
#include "report/climb_parts.h"

#include <math.h>
#include <stdio.h>

#define COLUMNS(array) (array), (int)(sizeof(array) / sizeof(array)[0])

static const char *new_heading(ls_climb_view *view, const char *text)
{
    char *heading = view->heading[view->headings++];
    snprintf(heading, LS_CLIMB_HEADING, "%.*s", LS_CLIMB_HEADING - 1, text);
    return heading;
}

/* ---- ceilings ---- */

static const ls_column ceiling_columns[] = {
    {"failed", "failed", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"propeller", "propeller", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"service_words", "service\nceiling", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"service", "", LS_DIM_ALTITUDE, 0, LS_IN_DATA, NULL},
    {"absolute_words", "absolute\nceiling", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"absolute", "", LS_DIM_ALTITUDE, 0, LS_IN_DATA, NULL},
    {"cas", "at\nCAS", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"bracket", "", LS_DIM_LENGTH, 3, LS_IN_DATA, NULL},
};

static void ceiling_row(ls_table *table, const ls_climb_view *view, const ls_performance_case *of)
{
    char name[LS_PHRASE], service[LS_PHRASE], absolute[LS_PHRASE];
    ls_table_row(table);
    ls_table_words(table, "%s",
                   of->failed == 0 ? "none" : ls_phrase_set(view->request->aircraft, of->failed, name));
    ls_table_words(table, "%s", of->failed == 0 ? "" : ls_engine_state_name(of->state));
    ls_table_words(table, "%s", ls_climb_ceiling_text(view, &of->service, service));
    ls_table_number(table, of->service.altitude_m);
    ls_table_words(table, "%s", ls_climb_ceiling_text(view, &of->absolute, absolute));
    ls_table_number(table, of->absolute.altitude_m);
    ls_table_number(table, of->absolute.best.point.cas_m_s);
    ls_table_number(table, of->absolute.bracket_m);
}

static void table_of_ceilings(ls_report *report, ls_climb_view *view)
{
    const ls_performance *performance = view->performance;
    ls_table *table = ls_climb_table(report, view, "ceilings",
                                     "Ceilings: service 50 ft/min (every engine running 100), absolute level", 1,
                                     COLUMNS(ceiling_columns));
    ceiling_row(table, view, &performance->all);
    for (int i = 0; i < performance->sets; i++) {
        for (int k = 0; k < LS_CASE_STATES; k++) {
            if (performance->set[i].by_state[k].status == LS_OK) {
                ceiling_row(table, view, &performance->set[i].by_state[k]);
            }
        }
    }
    ls_report_line(report, "%s", "");
}

/* ---- margins ---- */

static const ls_column height_columns[] = {
    {"altitude", "altitude", LS_DIM_ALTITUDE, 0, LS_IN_ALL, NULL},
    {"stall", "stall\nCAS", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"vmc", "VMC\nCAS", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"vsse", "VSSE\nCAS", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"vxse", "VXSE\nCAS", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"vyse", "VYSE\nCAS", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"rate_one", "one\nengine", LS_DIM_CLIMB_RATE, 0, LS_IN_ALL, NULL},
    {"vy", "VY\nCAS", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"rate_all", "all\nengines", LS_DIM_CLIMB_RATE, 0, LS_IN_ALL, NULL},
    {"reason", "", LS_WORDS, 0, LS_IN_DATA, NULL},
};

static void table_of_heights(ls_report *report, ls_climb_view *view)
{
    const ls_heights *heights = view->heights;
    ls_table *table = ls_climb_table(report, view, "altitudes",
                                     "Margins against altitude (VMC: propeller as it goes by itself, bank limit)",
                                     view->full, COLUMNS(height_columns));
    for (int i = 0; i < heights->heights; i++) {
        const ls_height *at = &heights->height[i];
        ls_table_row(table);
        ls_table_number(table, at->altitude_m);
        for (int k = 0; k < LS_MARGINS; k++) {
            ls_table_number(table, at->cas_m_s[k]);
        }
        ls_table_number(table, at->rate_one_m_s);
        ls_table_number(table, at->vy_cas_m_s);
        ls_table_number(table, at->rate_all_m_s);
        ls_table_words(table, "%s", at->reason);
    }
}

static const ls_column crossing_columns[] = {
    {"first", "", LS_WORDS, 0, LS_IN_JSON, NULL},
    {"second", "", LS_WORDS, 0, LS_IN_JSON, NULL},
    {"altitude", "", LS_DIM_ALTITUDE, 0, LS_IN_JSON, NULL},
};

static void say_crossings(ls_report *report, ls_climb_view *view)
{
    char altitude[LS_PHRASE];
    const ls_heights *heights = view->heights;
    ls_table *table = ls_climb_table(report, view, "crossings", NULL, 0, COLUMNS(crossing_columns));
    for (int i = 0; i < heights->crossings; i++) {
        const ls_crossing *at = &heights->crossing[i];
        const char *first = ls_margin_name(at->first), *second = ls_margin_name(at->second);
        ls_table_row(table);
        ls_table_words(table, "%s", first);
        ls_table_words(table, "%s", second);
        ls_table_number(table, at->altitude_m);
        if (view->full) {
            ls_report_line(report, "%s and %s meet at %s; above it %s is the higher.", first, second,
                           ls_climb_altitude_text(view, at->altitude_m, altitude), first);
        }
    }
    if (view->full) {
        ls_report_line(report, "%s", "");
    }
}

/* ---- drift-down ---- */

static const ls_column drift_columns[] = {
    {"altitude", "altitude", LS_DIM_ALTITUDE, 0, LS_IN_ALL, NULL},
    {"cas", "CAS", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"tas", "TAS", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"rate", "climb", LS_DIM_CLIMB_RATE, 0, LS_IN_ALL, NULL},
    {"time", "after", LS_DIM_TIME, 1, LS_IN_ALL, "min"},
    {"distance", "and", LS_DIM_LENGTH, 1, LS_IN_ALL, "nmi"},
};

static void table_of_drift(ls_report *report, ls_climb_view *view)
{
    ls_table *table = ls_climb_table(report, view, "drift_down", "Drift-down at the speed of best rate, still air",
                                     view->full, COLUMNS(drift_columns));
    for (int i = 0; i < LS_DRIFT_POINTS; i += 4) {
        const ls_drift_point *at = &view->drift->point[i];
        ls_table_row(table);
        ls_table_number(table, at->altitude_m);
        ls_table_number(table, at->cas_m_s);
        ls_table_number(table, at->V_m_s);
        ls_table_number(table, at->rate_m_s);
        ls_table_number(table, at->time_s);
        ls_table_number(table, at->distance_m);
    }
    if (view->full) {
        ls_report_line(report, "%s", "");
    }
}

/* ---- altitude and temperature ---- */

static void table_of_days(ls_report *report, ls_climb_view *view, const ls_performance_case *one)
{
    static const char *const keys[LS_FIELD_DAYS] = {"isa_minus_10", "isa", "isa_plus_10", "isa_plus_20",
                                                    "isa_plus_30"};
    ls_column columns[1 + LS_FIELD_DAYS];
    char title[LS_PHRASE], failed[LS_PHRASE], heading[LS_CLIMB_HEADING];
    const ls_field *field = view->field;
    columns[0] = (ls_column){"altitude", "altitude", LS_DIM_ALTITUDE, 0, LS_IN_ALL, NULL};
    for (int day = 0; day < LS_FIELD_DAYS; day++) {
        snprintf(heading, sizeof heading, "ISA %+.0f K", field->isa_offset_K[day]);
        columns[1 + day] =
            (ls_column){keys[day], new_heading(view, heading), LS_DIM_CLIMB_RATE, 0, LS_IN_ALL, NULL};
    }
    snprintf(title, sizeof title, "Best climb against altitude and temperature, %.60s",
             ls_climb_case_text(view, one, failed));
    ls_table *table = ls_climb_table(report, view, "altitude_and_temperature", title, 1, COLUMNS(columns));
    for (int i = 0; i < LS_FIELD_ALTITUDES; i++) {
        ls_table_row(table);
        ls_table_number(table, field->altitude_m[i]);
        for (int day = 0; day < LS_FIELD_DAYS; day++) {
            ls_table_number(table, field->rate_m_s[i][day]);
        }
    }
    ls_report_line(report, "%s", "");
}

/* ---- against speed ---- */

static void line_heading(const ls_climb_view *view, const ls_climb_line *line, char out[LS_CLIMB_HEADING])
{
    const ls_condition *asked = &view->request->condition;
    if (line->failed == 0) {
        snprintf(out, LS_CLIMB_HEADING, "all\nrunning");
    } else if (line->gear != asked->gear) {
        snprintf(out, LS_CLIMB_HEADING, "gear\n%s", line->gear > 0.0 ? "down" : "up");
    } else if (line->flap != asked->flap) {
        snprintf(out, LS_CLIMB_HEADING, "flap\n%.8s", view->request->aircraft->flap[line->flap].name);
    } else {
        snprintf(out, LS_CLIMB_HEADING, "%.30s",
                 line->state == LS_LEVER_AFT     ? "lever\naft"
                 : line->state == LS_WINDMILLING ? "wind-\nmilling"
                 : line->state == LS_FEATHERED   ? "feath-\nered"
                                                 : ls_engine_state_name(line->state));
    }
}

/* The worst failure only; all of them are in the data. */
static void table_of_speeds(ls_report *report, ls_climb_view *view)
{
    const ls_climb_lines *lines = view->lines;
    ls_column columns[LS_CLIMB_COLUMNS];
    int shown[LS_CLIMB_COLUMNS] = {0}, count = 1;
    columns[0] = (ls_column){"cas", "CAS", LS_DIM_SPEED, 0, LS_IN_TEXT, NULL};
    for (int i = 0; i < lines->lines && count < 9; i++) {
        if (i == 0 || lines->line[i].is_worst) {
            char heading[LS_CLIMB_HEADING];
            line_heading(view, &lines->line[i], heading);
            shown[count] = i;
            columns[count++] =
                (ls_column){"rate", new_heading(view, heading), LS_DIM_CLIMB_RATE, 0, LS_IN_TEXT, NULL};
        }
    }
    ls_column *own = view->column[view->tables++];
    for (int i = 0; i < count; i++) {
        own[i] = columns[i];
    }
    ls_table *table = ls_report_table(report, "speed_table", "Climb against speed, at the best bank; - not held",
                                      LS_IN_TEXT, own, count);
    for (int k = 0; k < LS_CLIMB_SPEEDS; k += 2) {
        ls_table_row(table);
        ls_table_number(table, lines->cas_m_s[k]);
        for (int i = 1; i < count; i++) {
            const ls_climb_line *line = &lines->line[shown[i]];
            int ok = line->status[k] == LS_OK && line->point[k].is_held;
            ls_table_number(table, ok ? line->point[k].rate_m_s : NAN);
        }
    }
    ls_report_line(report, "%s", "");
}

void ls_climb_tables_of_height(ls_report *report, ls_climb_view *view)
{
    const ls_performance_case *one = ls_performance_worst(view->performance);
    table_of_ceilings(report, view);
    if (one != NULL) {
        table_of_days(report, view, one);
        table_of_heights(report, view);
        say_crossings(report, view);
    }
    if (view->drift != NULL && view->drift->kind == LS_DRIFT_DOWN) {
        table_of_drift(report, view);
    }
    if (view->full) {
        table_of_speeds(report, view);
    } else {
        ls_report_line(report,
                       "--full adds climb against speed, the account of drag, margins against altitude and "
                       "drift-down.");
    }
}

/* ---- data ---- */

static const ls_column point_columns[] = {
    {"failed", "", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"propeller", "", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"gear", "", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"flap", "", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"cas", "", LS_DIM_SPEED, 1, LS_IN_DATA, NULL},
    {"tas", "", LS_DIM_SPEED, 1, LS_IN_DATA, NULL},
    {"bank_toward_live", "", LS_DIM_ANGLE, 1, LS_IN_DATA, NULL},
    {"rate", "", LS_DIM_CLIMB_RATE, 0, LS_IN_DATA, NULL},
    {"gradient_percent", "", LS_DIM_NUMBER, 2, LS_IN_DATA, NULL},
    {"sideslip", "", LS_DIM_ANGLE, 1, LS_IN_DATA, NULL},
    {"rudder", "", LS_DIM_ANGLE, 1, LS_IN_DATA, NULL},
    {"limit_exceeded", "", LS_WORDS, 0, LS_IN_DATA, NULL},
};

static void point_row(ls_table *table, const ls_climb_view *view, const ls_climb_line *line, int k)
{
    char name[LS_PHRASE];
    const ls_aircraft *aircraft = view->request->aircraft;
    const ls_climb_point *at = &line->point[k];
    int ok = line->status[k] == LS_OK;
    ls_condition condition = view->request->condition;
    ls_condition_fail_as(aircraft, line->failed, line->state, &condition);
    int side = ls_live_side(aircraft, &condition);
    ls_table_row(table);
    ls_table_words(table, "%s", line->failed == 0 ? "none" : ls_phrase_set(aircraft, line->failed, name));
    ls_table_words(table, "%s", line->failed == 0 ? "" : ls_engine_state_name(line->state));
    ls_table_words(table, "%s", line->gear > 0.0 ? "down" : "up");
    ls_table_words(table, "%s", aircraft->flap[line->flap].name);
    ls_table_number(table, view->lines->cas_m_s[k]);
    ls_table_number(table, ok ? at->V_m_s : NAN);
    ls_table_number(table, ok ? (side < 0 ? -at->bank_rad : at->bank_rad) : NAN);
    ls_table_number(table, ok ? at->rate_m_s : NAN);
    ls_table_number(table, ok ? 100.0 * at->gradient : NAN);
    ls_table_number(table, ok ? at->trim.beta_rad : NAN);
    ls_table_number(table, ok ? at->trim.rudder_rad : NAN);
    ls_table_words(table, "%s",
                   !ok           ? ls_status_text(line->status[k])
                   : at->is_held ? ""
                                 : ls_limit_name(at->limit));
}

static void answer_data(ls_report *report, const ls_climb_view *view, const ls_performance_case *one)
{
    char name[LS_PHRASE];
    const ls_performance_case *of = one != NULL ? one : &view->performance->all;
    ls_report_words(report, "aeroplane", "%s", view->request->aircraft->name);
    ls_report_words(report, "answer.failed", "%s",
                    of->failed == 0 ? "none" : ls_phrase_set(view->request->aircraft, of->failed, name));
    ls_report_words(report, "answer.propeller", "%s", of->failed == 0 ? "" : ls_engine_state_name(of->state));
    ls_report_number(report, "answer.rate", LS_DIM_CLIMB_RATE, NULL, of->rate.point.rate_m_s);
    ls_report_number(report, "answer.cas", LS_DIM_SPEED, NULL, of->rate.point.cas_m_s);
    ls_report_number(report, "answer.bank_toward_live", LS_DIM_ANGLE, NULL,
                     ls_climb_live_bank(of, &of->rate.point));
    if (one != NULL) {
        ls_report_number(report, "answer.share_lost", LS_DIM_NUMBER, NULL, one->lost);
    }
    ls_report_words(report, "solver.end", "%s", ls_climb_end_text(of->rate.end));
    ls_report_number(report, "solver.bracket", LS_DIM_SPEED, NULL, of->rate.bracket_m_s);
    ls_report_number(report, "solver.residual", LS_DIM_NUMBER, NULL, of->rate.point.trim.residual);
}

void ls_climb_data(ls_report *report, ls_climb_view *view)
{
    answer_data(report, view, ls_performance_worst(view->performance));
    ls_table *table = ls_report_table(report, "points", NULL, LS_IN_DATA, COLUMNS(point_columns));
    for (int i = 0; i < view->lines->lines; i++) {
        for (int k = 0; k < LS_CLIMB_SPEEDS; k++) {
            point_row(table, view, &view->lines->line[i], k);
        }
    }
}
