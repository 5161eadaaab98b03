/* The tables for people. */
#include "report/phrase.h"
#include "report/vmca_parts.h"

#include "liveside/text.h"

#include <math.h>
#include <stdio.h>

enum { MOST_HEADING = 20 /* columns that names over a column may take */, MOST_SETS = 6 };

static const char *new_heading(ls_vmca_view *view, const char *text)
{
    char *heading = view->heading[view->headings++];
    snprintf(heading, LS_HEADING, "%.*s", LS_HEADING - 1, text);
    return heading;
}

static ls_column words(const char *key, const char *heading)
{
    return (ls_column){key, heading, LS_WORDS, 0, LS_IN_TEXT, NULL};
}

/* Whether a set has its place in the tables: of more than six engines and pairs, the outermost two of each side.
 */
static int is_shown(const ls_vmca *vmca, int index)
{
    unsigned pairs = 0;
    for (int i = 0; i < vmca->sets; i++) {
        pairs |= ls_set_size(vmca->set[i].failed) > 1 ? vmca->set[i].failed : 0u;
    }
    return vmca->sets <= MOST_SETS || (vmca->set[index].failed & pairs) != 0;
}

/* With one or two failed sets there is room for limit and wind beside each speed; with more, a letter must do. */
static int is_wide(const ls_vmca_view *view)
{
    return view->vmca->sets <= 2;
}

static void wide_columns(ls_vmca_view *view, ls_column *column, int *count, const ls_vmca_set *set, int with_limit)
{
    char name[LS_PHRASE], over[LS_PHRASE];
    ls_phrase_set(view->aircraft, set->failed, name);
    if (ls_text_width(name) > MOST_HEADING) {
        snprintf(name, sizeof name, "%d engines", ls_set_size(set->failed));
    }
    snprintf(over, sizeof over, "%.200s dead\nVMC", name);
    column[(*count)++] =
        (ls_column){"vmc", new_heading(view, over), LS_DIM_SPEED, view->uncertain ? 0 : 1, LS_IN_TEXT, NULL};
    if (with_limit) {
        column[(*count)++] = words("limit", "limit");
        column[(*count)++] = words("wind", "wind from");
    }
}

/* First column, then those of each failed set. Given: pairs, whether sets of several engines are shown. */
static int set_columns(ls_vmca_view *view, ls_column *column, const char *first, int with_limit, int pairs)
{
    int count = 0;
    char heading[LS_PHRASE];
    column[count++] = words("first", first);
    for (int i = 0; i < view->vmca->sets; i++) {
        const ls_vmca_set *set = &view->vmca->set[i];
        if (is_wide(view)) {
            wide_columns(view, column, &count, set, with_limit);
        } else if (is_shown(view->vmca, i) && (pairs || ls_set_size(set->failed) == 1)) {
            ls_phrase_set_heading(view->aircraft, set->failed, heading);
            column[count++] = words("vmc", new_heading(view, heading));
        }
    }
    return count;
}

/* "76.2 r": the speed and the letter of its limit. */
static void narrow_cell(const ls_vmca_view *view, ls_table *table, const ls_vmca_point *point, int with_limit)
{
    static const char *const letters[LS_LIMITS] = {" r", " p", " a", " f", " s"};
    const ls_unit *unit = ls_unit_preferred(view->units, LS_DIM_SPEED);
    if (ls_vmca_has_speed(point)) {
        ls_table_words(table, "%.*f%s", view->uncertain ? 0 : 1, ls_unit_from_si(unit, point->vmc.cas_m_s),
                       with_limit ? letters[point->vmc.limit] : "");
    } else {
        ls_table_words(table, "%s",
                       point->status == LS_OK && point->vmc.kind == LS_VMC_ABOVE_RANGE ? "over" : "-");
    }
}

static void wide_cells(ls_table *table, const ls_vmca_set *set, const ls_vmca_point *point, int with_limit)
{
    char wind[LS_PHRASE] = "";
    ls_table_number(table, ls_vmca_has_speed(point) ? point->vmc.cas_m_s : NAN);
    if (with_limit) {
        if (ls_vmca_has_speed(point)) {
            ls_phrase_wind_short(point->vmc.trim.beta_rad, set->live_side, wind);
        }
        ls_table_words(table, "%s", ls_phrase_limit_short(point));
        ls_table_words(table, "%s", wind);
    }
}

static void table_of_banks(ls_report *report, ls_vmca_view *view)
{
    const ls_vmca *vmca = view->vmca;
    const ls_vmca_set *first = &vmca->set[ls_vmca_answer_set(vmca)];
    int columns = set_columns(view, view->column[0], "bank, deg", 1, 1);
    const char *title = is_wide(view)
                            ? "Minimum control speed (CAS) against bank; wind from, deg and side"
                            : "VMC (CAS) by bank and dead engine; r rudder, p pedal, a aileron, f fin, s stall";
    ls_table *table = ls_report_table(report, "banks", title, LS_IN_TEXT, view->column[0], columns);
    for (int row = 0; row < first->banks; row++) {
        char bank[LS_PHRASE];
        ls_table_row(table);
        ls_table_words(table, "%s", ls_phrase_bank_short(first->by_bank[row].bank_rad, first->live_side, bank));
        for (int i = 0; i < vmca->sets; i++) {
            if (is_wide(view)) {
                wide_cells(table, &vmca->set[i], &vmca->set[i].by_bank[row], 1);
            } else if (is_shown(vmca, i)) {
                narrow_cell(view, table, &vmca->set[i].by_bank[row], 1);
            }
        }
    }
    ls_report_line(report, "%s", "");
}

static void critical_cell(const ls_vmca_view *view, ls_table *table, int critical, double by_m_s)
{
    char name[LS_PHRASE], by[LS_PHRASE];
    if (critical >= 0) {
        ls_phrase_set(view->aircraft, view->vmca->set[critical].failed, name);
        ls_phrase_by(by_m_s, view->units, view->uncertain, by);
        ls_table_words(table, isinf(by_m_s) ? "%s alone" : "%s, by %s", name, by);
    } else {
        ls_table_words(table, "%s",
                       critical == LS_CRITICAL_NEITHER ? "neither"
                       : critical == LS_CRITICAL_STALL ? "stalls first"
                                                       : "not known");
    }
}

ls_rotation ls_vmca_own_rotation(const ls_aircraft *aircraft)
{
    int clockwise = 0, inboard = 0, outboard = 0;
    for (int i = 0; i < aircraft->engines; i++) {
        double across = ls_engine_hand(&aircraft->engine[i]) * aircraft->engine[i].hub_right_m;
        clockwise += ls_engine_hand(&aircraft->engine[i]) > 0;
        inboard += across <= 0;
        outboard += across >= 0;
    }
    return clockwise == aircraft->engines  ? LS_ROTATION_CLOCKWISE
           : clockwise == 0                ? LS_ROTATION_ANTICLOCKWISE
           : inboard == aircraft->engines  ? LS_ROTATION_TOPS_INBOARD
           : outboard == aircraft->engines ? LS_ROTATION_TOPS_OUTBOARD
                                           : LS_ROTATION_FILE;
}

static int has_propellers(const ls_aircraft *aircraft)
{
    int count = 0;
    for (int i = 0; i < aircraft->engines; i++) {
        count += aircraft->powerplant[aircraft->engine[i].powerplant].engine.type != LS_ENGINE_JET;
    }
    return count;
}

/* A row of the second table: one point of each set, at the same place of each record. */
static void variant_row(const ls_vmca_view *view, ls_table *table, const char *name, int rotation, int state)
{
    const ls_vmca *vmca = view->vmca;
    ls_table_row(table);
    ls_table_words(table, "%s", name);
    for (int i = 0; i < vmca->sets; i++) {
        const ls_vmca_point *point =
            rotation >= 0 ? &vmca->set[i].by_rotation[rotation] : &vmca->set[i].by_state[state];
        if (is_wide(view)) {
            wide_cells(table, &vmca->set[i], point, 0);
        } else if (is_shown(vmca, i) && ls_set_size(vmca->set[i].failed) == 1) {
            narrow_cell(view, table, point, 0);
        }
    }
    if (ls_vmca_singles(vmca) >= 2) {
        critical_cell(view, table, rotation >= 0 ? vmca->critical[rotation] : vmca->critical_state[state],
                      rotation >= 0 ? vmca->critical_by_m_s[rotation] : vmca->critical_state_by_m_s[state]);
    }
}

static void rotation_rows(const ls_vmca_view *view, ls_table *table)
{
    ls_rotation asked = view->request->condition.rotation;
    ls_rotation own = asked != LS_ROTATION_FILE ? asked : ls_vmca_own_rotation(view->aircraft);
    char name[LS_PHRASE];
    snprintf(name, sizeof name, "%s%s", ls_rotation_name(own),
             asked == LS_ROTATION_FILE && own != LS_ROTATION_FILE ? " (built)" : "");
    variant_row(view, table, name, LS_ROTATION_FILE, 0);
    for (int rotation = LS_ROTATION_CLOCKWISE; rotation < LS_ROTATIONS; rotation++) {
        if (rotation != (int)own) {
            variant_row(view, table, ls_rotation_name((ls_rotation)rotation), rotation, 0);
        }
    }
}

static void state_rows(const ls_vmca_view *view, ls_table *table)
{
    for (int state = 0; state < LS_VMCA_STATES; state++) {
        int any = 0;
        char name[LS_PHRASE];
        for (int i = 0; i < view->vmca->sets; i++) {
            any |= view->vmca->set[i].by_state[state].status == LS_OK;
        }
        if (any) { /* else the file has no data for it */
            snprintf(name, sizeof name, "dead one %s", ls_engine_state_name(ls_vmca_states[state]));
            variant_row(view, table, name, -1, state);
        }
    }
}

static void table_of_variants(ls_report *report, ls_vmca_view *view)
{
    char title[LS_PHRASE], bank[LS_PHRASE];
    const ls_vmca_set *first = &view->vmca->set[ls_vmca_answer_set(view->vmca)];
    if (!has_propellers(view->aircraft)) {
        return;
    }
    int columns = set_columns(view, view->column[1], "propellers", 0, 0);
    if (ls_vmca_singles(view->vmca) >= 2) {
        view->column[1][columns++] = words("critical", "critical engine");
    }
    ls_phrase_bank(first->answer.bank_rad, first->live_side, ls_vmca_live_engines(view->aircraft, first->failed),
                   bank);
    snprintf(title, sizeof title, "Other propellers; same weight, %.60s", bank);
    ls_table *table = ls_report_table(report, "variants", title, LS_IN_TEXT, view->column[1], columns);
    rotation_rows(view, table);
    state_rows(view, table);
    if (view->vmca->sets > MOST_SETS) {
        ls_report_line(report, "The engines farther in are in --full and in --format csv.");
    }
    ls_report_line(report, "%s", "");
}

void ls_vmca_tables(ls_report *report, ls_vmca_view *view)
{
    view->headings = 0;
    table_of_banks(report, view);
    table_of_variants(report, view);
}
