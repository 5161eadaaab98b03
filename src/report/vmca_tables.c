/* The tables for people. */
#include "report/phrase.h"
#include "report/vmca_parts.h"

#include <math.h>
#include <stdio.h>

static const char *new_heading(ls_vmca_view *view, const char *over, const char *under)
{
    char *heading = view->heading[view->headings];
    view->headings++;
    snprintf(heading, LS_HEADING, "%.14s\n%s", over, under);
    return heading;
}

static ls_column words(const char *key, const char *heading)
{
    return (ls_column){key, heading, LS_WORDS, 0, LS_IN_TEXT, NULL};
}

static ls_column speed_column(const ls_vmca_view *view, const char *heading)
{
    return (ls_column){"vmc", heading, LS_DIM_SPEED, view->uncertain ? 0 : 1, LS_IN_TEXT, NULL};
}

static int is_wide(const ls_vmca_view *view)
{
    return view->vmca->sets <= 2;
}

/* First column, then for each failed set its speed and, where there is room, limit and sideslip. */
static int set_columns(ls_vmca_view *view, ls_column *column, const char *first, int with_limit, int with_slip)
{
    int count = 0;
    column[count++] = words("first", first);
    for (int i = 0; i < view->vmca->sets; i++) {
        char name[LS_PHRASE], over[LS_PHRASE];
        ls_phrase_set(view->aircraft, view->vmca->set[i].failed, name);
        snprintf(over, sizeof over, "%.80s%s", name, is_wide(view) ? " out" : "");
        column[count++] = speed_column(view, new_heading(view, over, "VMC"));
        if (with_limit) {
            column[count++] = words("limit", is_wide(view) ? "limit" : "");
        }
        if (with_slip) {
            column[count++] = (ls_column){"sideslip", "sideslip", LS_DIM_ANGLE, 1, LS_IN_TEXT, NULL};
        }
    }
    return count;
}

static const char *limit_cell(const ls_vmca_view *view, const ls_vmca_point *point)
{
    static const char *const letters[LS_LIMITS] = {"r", "p", "a", "f", "s"};
    if (is_wide(view)) {
        return ls_phrase_limit(point);
    }
    return ls_vmca_has_speed(point) ? letters[point->vmc.limit] : "-";
}

static void point_cells(const ls_vmca_view *view, ls_table *table, const ls_vmca_point *point, int with_limit,
                        int with_slip)
{
    ls_table_number(table, ls_vmca_has_speed(point) ? point->vmc.cas_m_s : NAN);
    if (with_limit) {
        ls_table_words(table, "%s", limit_cell(view, point));
    }
    if (with_slip) {
        ls_table_number(table, ls_vmca_has_speed(point) ? point->vmc.trim.beta_rad : NAN);
    }
}

static void table_of_banks(ls_report *report, ls_vmca_view *view)
{
    const ls_vmca *vmca = view->vmca;
    const ls_vmca_set *first = &vmca->set[ls_vmca_answer_set(vmca)];
    int wide = is_wide(view);
    int columns = set_columns(view, view->column[0], "bank\ndeg", 1, wide);
    ls_table *table =
        ls_report_table(report, "banks",
                        wide ? "Minimum control speed (CAS) against bank; sideslip + from the right"
                             : "Minimum control speed (CAS) against bank; limit: r rudder, p pedal, a "
                               "aileron, f fin, s stall",
                        LS_IN_TEXT, view->column[0], columns);
    for (int row = 0; row < first->banks; row++) {
        char bank[LS_PHRASE];
        ls_table_row(table);
        ls_table_words(table, "%s", ls_phrase_bank_short(first->by_bank[row].bank_rad, first->live_side, bank));
        for (int i = 0; i < vmca->sets; i++) {
            point_cells(view, table, &vmca->set[i].by_bank[row], 1, wide);
        }
    }
    ls_table_row(table);
    ls_table_words(table, "no sideslip");
    for (int i = 0; i < vmca->sets; i++) {
        point_cells(view, table, &vmca->set[i].zero_sideslip, 1, wide);
    }
}

static void critical_cell(const ls_vmca_view *view, ls_table *table, int rotation)
{
    char name[LS_PHRASE], by[LS_PHRASE];
    int critical = view->vmca->critical[rotation];
    if (critical >= 0) {
        ls_phrase_set(view->aircraft, view->vmca->set[critical].failed, name);
        ls_phrase_speed(view->vmca->critical_by_m_s[rotation], view->units, 0, by);
        ls_table_words(table, "%s, by %s", name, by);
    } else {
        ls_table_words(table, "%s", critical == -1 ? "neither" : "not known");
    }
}

/* The file's own way of turning, in words: "as built (all clockwise)". */
static const char *own_rotation(const ls_aircraft *aircraft)
{
    int clockwise = 0, inboard = 0, outboard = 0;
    for (int i = 0; i < aircraft->engines; i++) {
        double across = ls_engine_hand(&aircraft->engine[i]) * aircraft->engine[i].hub_right_m;
        clockwise += ls_engine_hand(&aircraft->engine[i]) > 0;
        inboard += across <= 0;
        outboard += across >= 0;
    }
    return clockwise == aircraft->engines  ? "as built: all clockwise"
           : clockwise == 0                ? "as built: all anticlockwise"
           : inboard == aircraft->engines  ? "as built: tops inboard"
           : outboard == aircraft->engines ? "as built: tops outboard"
                                           : "as built: mixed";
}

static int has_propellers(const ls_aircraft *aircraft)
{
    int count = 0;
    for (int i = 0; i < aircraft->engines; i++) {
        count += aircraft->powerplant[aircraft->engine[i].powerplant].engine.type != LS_ENGINE_JET;
    }
    return count;
}

static void table_of_rotations(ls_report *report, ls_vmca_view *view)
{
    int singles = ls_vmca_singles(view->vmca), asked = (int)view->request->condition.rotation;
    char title[LS_PHRASE], bank[LS_PHRASE];
    const ls_vmca_set *first = &view->vmca->set[ls_vmca_answer_set(view->vmca)];
    if (!has_propellers(view->aircraft)) {
        return;
    }
    int columns = set_columns(view, view->column[1], "propellers", 0, 0);
    if (singles >= 2) {
        view->column[1][columns++] = words("critical", "critical engine");
    }
    ls_phrase_bank(first->answer.bank_rad, first->live_side, ls_vmca_live_engines(view->aircraft, first->failed),
                   bank);
    snprintf(title, sizeof title, "Which way the propellers turn, %.80s", bank);
    ls_table *table = ls_report_table(report, "rotations", title, LS_IN_TEXT, view->column[1], columns);
    for (int rotation = 0; rotation < LS_ROTATIONS; rotation++) {
        ls_table_row(table);
        ls_table_words(table, "%s",
                       rotation != LS_ROTATION_FILE ? ls_rotation_name((ls_rotation)rotation)
                       : asked != LS_ROTATION_FILE  ? "as asked"
                                                    : own_rotation(view->aircraft));
        for (int i = 0; i < view->vmca->sets; i++) {
            point_cells(view, table, &view->vmca->set[i].by_rotation[rotation], 0, 0);
        }
        if (singles >= 2) {
            critical_cell(view, table, rotation);
        }
    }
}

static void table_of_states(ls_report *report, ls_vmca_view *view)
{
    int columns = set_columns(view, view->column[2], "failed\npropeller", 0, 0);
    if (!has_propellers(view->aircraft)) {
        return;
    }
    ls_table *table = ls_report_table(report, "states", "What the failed propeller does, same bank", LS_IN_TEXT,
                                      view->column[2], columns);
    for (int state = 0; state < LS_VMCA_STATES; state++) {
        int any = 0;
        for (int i = 0; i < view->vmca->sets; i++) {
            any |= ls_vmca_has_speed(&view->vmca->set[i].by_state[state]);
        }
        if (!any) {
            continue; /* no data in the file */
        }
        ls_table_row(table);
        ls_table_words(table, "%s", ls_engine_state_name(ls_vmca_states[state]));
        for (int i = 0; i < view->vmca->sets; i++) {
            point_cells(view, table, &view->vmca->set[i].by_state[state], 0, 0);
        }
    }
}

void ls_vmca_tables(ls_report *report, ls_vmca_view *view)
{
    view->headings = 0;
    table_of_banks(report, view);
    table_of_rotations(report, view);
    table_of_states(report, view);
}
