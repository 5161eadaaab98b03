/* The tables for people: yaw, roll, worths, handedness. */
#include "report/explain_parts.h"

#include <math.h>
#include <stdio.h>

static const char *new_heading(ls_explain_view *view, const char *first, const char *second)
{
    char *heading = view->heading[view->headings++];
    snprintf(heading, LS_EXPLAIN_HEADING, "%.30s%s%.12s", first, second[0] != '\0' ? "\n" : "", second);
    return heading;
}

static const char *side_heading(ls_explain_view *view, int side, const char *second)
{
    char name[LS_PHRASE], first[LS_PHRASE + 8];
    snprintf(first, sizeof first, "%.20s dead", ls_explain_name(view, side, name));
    return new_heading(view, first, second);
}

static ls_column words(const char *key, const char *heading)
{
    return (ls_column){key, heading, LS_WORDS, 0, LS_IN_TEXT, NULL};
}

static int moment_columns(ls_explain_view *view, ls_column *column, const char *what)
{
    int count = 0;
    column[count++] = words("cause", what);
    for (int i = 0; i < view->breakdown->sides; i++) {
        char name[LS_PHRASE]; /* over two columns: "left outer  dead" */
        const char *over = new_heading(view, ls_explain_name(view, i, name), "coeff.");
        column[count++] = (ls_column){"moment", "moment", LS_DIM_TORQUE, 0, LS_IN_TEXT, "N.m"};
        column[count++] = (ls_column){"coefficient", over, LS_DIM_NUMBER, 4, LS_IN_TEXT, NULL};
        column[count++] = (ls_column){"rudder", "dead\nrudder", LS_DIM_ANGLE, 1, LS_IN_TEXT, NULL};
    }
    return count;
}

static void moment_row(const ls_explain_view *view, ls_table *table, const char *name, int cause, int is_roll)
{
    ls_table_row(table);
    ls_table_words(table, "%s", name);
    for (int i = 0; i < view->breakdown->sides; i++) {
        const ls_breakdown_side *side = &view->breakdown->side[i];
        const ls_moments *m = cause < LS_CAUSES ? &side->cause[cause] : &side->sum;
        int has = side->status == LS_OK;
        ls_table_number(table, has ? (is_roll ? m->roll_Nm : m->yaw_Nm) : NAN);
        ls_table_number(table, has ? (is_roll ? m->roll : m->yaw) : NAN);
        ls_table_number(table, has ? (is_roll ? m->roll_rudder_rad : m->yaw_rudder_rad) : NAN);
    }
}

/* Whether a cause does anything to either side worth a line. */
static int matters(const ls_explain_view *view, int cause, int is_roll)
{
    for (int i = 0; i < view->breakdown->sides; i++) {
        const ls_moments *m = &view->breakdown->side[i].cause[cause];
        if (fabs(is_roll ? m->roll_Nm : m->yaw_Nm) >= 0.5) {
            return 1;
        }
    }
    return 0;
}

static void table_of_moments(ls_report *report, ls_explain_view *view, ls_column *column, int is_roll)
{
    int in_line = view->breakdown->side[0].live_side == 0;
    const char *toward = in_line ? "to the left" : "toward the dead engine";
    char title[LS_PHRASE];
    if (is_roll) {
        snprintf(title, sizeof title, "Roll %s; rudder: for the yaw of the ailerons that hold it", toward);
    } else {
        snprintf(title, sizeof title, "Yaw %s; rudder: what yaws as much", toward);
    }
    int columns = moment_columns(view, column, is_roll ? "roll from" : "yaw from");
    ls_table *table = ls_report_table(report, is_roll ? "roll" : "yaw", title, LS_IN_TEXT, column, columns);
    for (int cause = 0; cause < LS_CAUSES; cause++) {
        if (matters(view, cause, is_roll)) {
            moment_row(view, table, ls_cause_name((ls_cause)cause), cause, is_roll);
        }
    }
    moment_row(view, table, "sum", LS_CAUSES, is_roll);
    ls_report_line(report, "%s", "");
}

/* "1.4 (1.0 to 1.8)" */
static void worth_cell(const ls_explain_view *view, ls_table *table, const ls_worth *worth)
{
    const ls_unit *unit = ls_unit_preferred(view->units, LS_DIM_SPEED);
    if (isfinite(worth->m_s) && isfinite(worth->low_m_s) && isfinite(worth->high_m_s)) {
        char text[3][LS_PHRASE];
        static const ls_unit bare = {"", LS_DIM_NUMBER, 1.0, 0.0};
        const double value[3] = {worth->m_s, worth->low_m_s, worth->high_m_s};
        for (int i = 0; i < 3; i++) {
            ls_units_format(ls_unit_from_si(unit, value[i]), &bare, 1, text[i], sizeof text[i]);
        }
        ls_table_words(table, "%s (%s to %s)", text[0], text[1], text[2]);
    } else {
        ls_table_words(table, "%s", "-");
    }
}

static void sum_cell(const ls_explain_view *view, ls_table *table, double m_s)
{
    const ls_unit *unit = ls_unit_preferred(view->units, LS_DIM_SPEED);
    static const ls_unit bare = {"", LS_DIM_NUMBER, 1.0, 0.0};
    char text[LS_PHRASE] = "-";
    if (isfinite(m_s)) {
        ls_units_format(ls_unit_from_si(unit, m_s), &bare, 1, text, sizeof text);
    }
    ls_table_words(table, "%s", text);
}

static void sum_row(const ls_explain_view *view, ls_table *table, const char *name, int what)
{
    ls_table_row(table);
    ls_table_words(table, "%s", name);
    for (int i = 0; i < view->breakdown->sides; i++) {
        const ls_breakdown_side *side = &view->breakdown->side[i];
        sum_cell(view, table,
                 what == 0   ? side->all_m_s - side->interaction_m_s
                 : what == 1 ? side->interaction_m_s
                             : side->all_m_s);
    }
}

static void table_of_worths(ls_report *report, ls_explain_view *view)
{
    int count = 0;
    char title[LS_PHRASE];
    view->worth[count++] = words("effect", "effect");
    for (int i = 0; i < view->breakdown->sides; i++) {
        view->worth[count++] = words("worth", side_heading(view, i, ""));
    }
    snprintf(title, sizeof title, "Worth of each effect in minimum control speed, %s, and its uncertainty",
             ls_unit_preferred(view->units, LS_DIM_SPEED)->name);
    ls_table *table = ls_report_table(report, "worth", title, LS_IN_TEXT, view->worth, count);
    for (int k = 0; k < LS_EFFECTS; k++) {
        ls_table_row(table);
        ls_table_words(table, "%s", ls_effect_rows[k].name);
        for (int i = 0; i < view->breakdown->sides; i++) {
            worth_cell(view, table, &view->breakdown->side[i].worth[k]);
        }
    }
    sum_row(view, table, "sum of these", 0);
    sum_row(view, table, "interaction", 1);
    sum_row(view, table, "all off together", 2);
    ls_report_line(report, "%s", "");
}

/* Where each effect comes from, and what its range in the table above stands for. */
static void table_of_sources(ls_report *report)
{
    static const ls_column columns[] = {
        {"effect", "effect", LS_WORDS, 0, LS_IN_TEXT, NULL},
        {"source", "taken from", LS_WORDS, 0, LS_IN_TEXT, NULL},
        {"known", "uncertain by", LS_WORDS, 0, LS_IN_TEXT, NULL},
    };
    ls_table *table = ls_report_table(report, "sources", NULL, LS_IN_TEXT, columns, 3);
    for (int k = 0; k < LS_EFFECTS; k++) {
        ls_table_row(table);
        ls_table_words(table, "%s", ls_effect_rows[k].name);
        ls_table_words(table, "%s", ls_effect_rows[k].source);
        ls_table_words(table, "%s", ls_effect_rows[k].known);
    }
    ls_report_line(report, "%s", "");
}

static void critical_cell(const ls_explain_view *view, ls_table *table, int rotation)
{
    int critical = view->breakdown->critical[rotation];
    char name[LS_PHRASE], by[LS_PHRASE];
    if (critical >= 0) {
        ls_table_words(table, "%s, by %s", ls_explain_name(view, critical, name),
                       ls_phrase_by(view->breakdown->critical_by_m_s[rotation], view->units, view->uncertain, by));
    } else {
        ls_table_words(table, "%s",
                       critical == LS_CRITICAL_NEITHER ? "neither"
                       : critical == LS_CRITICAL_STALL ? "stalls first"
                                                       : "not known");
    }
}

static void table_of_rotations(ls_report *report, ls_explain_view *view)
{
    int count = 0;
    view->rotation[count++] = words("propellers", "propellers");
    for (int i = 0; i < view->breakdown->sides; i++) {
        view->rotation[count++] = (ls_column){
            "vmc", side_heading(view, i, "VMC"), LS_DIM_SPEED, view->uncertain ? 0 : 1, LS_IN_TEXT, NULL};
    }
    if (view->breakdown->sides > 1) {
        view->rotation[count++] = words("critical", "critical engine");
    }
    ls_table *table = ls_report_table(report, "rotations", "The four ways the propellers can turn (CAS)",
                                      LS_IN_TEXT, view->rotation, count);
    for (int rotation = LS_ROTATION_CLOCKWISE; rotation < LS_ROTATIONS; rotation++) {
        ls_table_row(table);
        ls_table_words(table, "%s", ls_rotation_name((ls_rotation)rotation));
        for (int i = 0; i < view->breakdown->sides; i++) {
            const ls_vmca_point *point = &view->breakdown->side[i].by_rotation[rotation];
            ls_table_number(table, point->status == LS_OK ? point->vmc.cas_m_s : NAN);
        }
        critical_cell(view, table, rotation);
    }
    ls_report_line(report, "%s", "");
}

/* Whether any effect has a worth. */
static int has_worths(const ls_explain_view *view)
{
    int count = 0;
    for (int i = 0; i < view->breakdown->sides; i++) {
        for (int k = 0; k < LS_EFFECTS; k++) {
            count += isfinite(view->breakdown->side[i].worth[k].m_s);
        }
    }
    return count > 0;
}

/* Whether the worths are of speeds below the stall. */
static int is_stalled(const ls_explain_view *view)
{
    const ls_vmca_point *point = &view->breakdown->side[0].vmc;
    return point->status == LS_OK && point->vmc.kind == LS_VMC_STALLS_FIRST &&
           isfinite(point->vmc.control_cas_m_s);
}

void ls_explain_tables(ls_report *report, ls_explain_view *view)
{
    view->headings = 0;
    table_of_moments(report, view, view->yaw, 0);
    table_of_moments(report, view, view->roll, 1);
    if (!has_worths(view)) {
        ls_report_line(report,
                       "No control limit is met in the range of speeds, so no effect is worth any knots of one.");
        ls_report_line(report, "%s", "");
        return;
    }
    table_of_worths(report, view);
    table_of_sources(report);
    if (is_stalled(view)) {
        ls_report_line(report,
                       "These speeds lie below the stall, where none of this can be flown: they compare the "
                       "effects, no more.");
        ls_report_line(report, "%s", "");
    }
    if (ls_explain_has_propellers(view->aircraft)) {
        table_of_rotations(report, view);
    }
}
