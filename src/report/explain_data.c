/* Every number, for CSV and JSON. */
#include "report/explain_parts.h"

#include <math.h>

#define COUNT(columns) (int)(sizeof(columns) / sizeof(columns)[0])

static const ls_column moment_columns[] = {
    {"failed", "", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"cause", "", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"yaw_moment", "", LS_DIM_TORQUE, 0, LS_IN_DATA, "N.m"},
    {"yaw_coefficient", "", LS_DIM_NUMBER, 6, LS_IN_DATA, NULL},
    {"yaw_as_rudder", "", LS_DIM_ANGLE, 2, LS_IN_DATA, NULL},
    {"roll_moment", "", LS_DIM_TORQUE, 0, LS_IN_DATA, "N.m"},
    {"roll_coefficient", "", LS_DIM_NUMBER, 6, LS_IN_DATA, NULL},
    {"roll_as_rudder", "", LS_DIM_ANGLE, 2, LS_IN_DATA, NULL},
};

static void moment_row(ls_table *table, const char *failed, const char *cause, const ls_moments *m)
{
    ls_table_row(table);
    ls_table_words(table, "%s", failed);
    ls_table_words(table, "%s", cause);
    ls_table_number(table, m->yaw_Nm);
    ls_table_number(table, m->yaw);
    ls_table_number(table, m->yaw_rudder_rad);
    ls_table_number(table, m->roll_Nm);
    ls_table_number(table, m->roll);
    ls_table_number(table, m->roll_rudder_rad);
}

static void moments(ls_report *report, const ls_explain_view *view)
{
    char name[LS_PHRASE];
    ls_table *table = ls_report_table(report, "moments", NULL, LS_IN_DATA, moment_columns, COUNT(moment_columns));
    for (int i = 0; i < view->breakdown->sides; i++) {
        const ls_breakdown_side *side = &view->breakdown->side[i];
        ls_explain_name(view, i, name);
        for (int cause = 0; cause < LS_CAUSES && side->status == LS_OK; cause++) {
            moment_row(table, name, ls_cause_name((ls_cause)cause), &side->cause[cause]);
        }
        if (side->status == LS_OK) {
            moment_row(table, name, "sum", &side->sum);
        }
    }
}

static const ls_column worth_columns[] = {
    {"failed", "", LS_WORDS, 0, LS_IN_JSON, NULL},    {"effect", "", LS_WORDS, 0, LS_IN_JSON, NULL},
    {"worth", "", LS_DIM_SPEED, 2, LS_IN_JSON, NULL}, {"low", "", LS_DIM_SPEED, 2, LS_IN_JSON, NULL},
    {"high", "", LS_DIM_SPEED, 2, LS_IN_JSON, NULL},  {"source", "", LS_WORDS, 0, LS_IN_JSON, NULL},
    {"known", "", LS_WORDS, 0, LS_IN_JSON, NULL},
};

static void total_row(ls_table *table, const char *failed, const char *what, double m_s)
{
    ls_table_row(table);
    ls_table_words(table, "%s", failed);
    ls_table_words(table, "%s", what);
    ls_table_number(table, m_s);
}

static void worths(ls_report *report, const ls_explain_view *view)
{
    char name[LS_PHRASE];
    ls_table *table = ls_report_table(report, "worths", NULL, LS_IN_JSON, worth_columns, COUNT(worth_columns));
    for (int i = 0; i < view->breakdown->sides; i++) {
        const ls_breakdown_side *side = &view->breakdown->side[i];
        ls_explain_name(view, i, name);
        for (int k = 0; k < LS_EFFECTS; k++) {
            total_row(table, name, ls_effect_rows[k].name, side->worth[k].m_s);
            ls_table_number(table, side->worth[k].low_m_s);
            ls_table_number(table, side->worth[k].high_m_s);
            ls_table_words(table, "%s", ls_effect_rows[k].source);
            ls_table_words(table, "%s", ls_effect_rows[k].known);
        }
        total_row(table, name, "interaction", side->interaction_m_s);
        total_row(table, name, "all off together", side->all_m_s);
    }
}

static const ls_column speed_columns[] = {
    {"propellers", "", LS_WORDS, 0, LS_IN_JSON, NULL},    {"failed", "", LS_WORDS, 0, LS_IN_JSON, NULL},
    {"cas", "", LS_DIM_SPEED, 1, LS_IN_JSON, NULL},       {"control_cas", "", LS_DIM_SPEED, 1, LS_IN_JSON, NULL},
    {"stall_cas", "", LS_DIM_SPEED, 1, LS_IN_JSON, NULL}, {"limit", "", LS_WORDS, 0, LS_IN_JSON, NULL},
};

static void speeds(ls_report *report, const ls_explain_view *view)
{
    char name[LS_PHRASE];
    ls_table *table = ls_report_table(report, "speeds", NULL, LS_IN_JSON, speed_columns, COUNT(speed_columns));
    for (int rotation = 0; rotation < LS_ROTATIONS; rotation++) {
        for (int i = 0; i < view->breakdown->sides; i++) {
            const ls_vmca_point *point = &view->breakdown->side[i].by_rotation[rotation];
            int has = point->status == LS_OK;
            ls_table_row(table);
            ls_table_words(table, "%s", ls_rotation_name((ls_rotation)rotation));
            ls_table_words(table, "%s", ls_explain_name(view, i, name));
            ls_table_number(table, has ? point->vmc.cas_m_s : NAN);
            ls_table_number(table, has ? point->vmc.control_cas_m_s : NAN);
            ls_table_number(table, has ? point->vmc.stall_cas_m_s : NAN);
            ls_table_words(table, "%s", ls_phrase_limit(point));
        }
    }
}

static const ls_column state_columns[] = {
    {"failed", "", LS_WORDS, 0, LS_IN_JSON, NULL},
    {"bank", "", LS_DIM_ANGLE, 2, LS_IN_JSON, NULL},
    {"rudder", "", LS_DIM_ANGLE, 2, LS_IN_JSON, NULL},
    {"aileron", "", LS_DIM_ANGLE, 2, LS_IN_JSON, NULL},
    {"sideslip", "", LS_DIM_ANGLE, 2, LS_IN_JSON, NULL},
    {"incidence", "", LS_DIM_ANGLE, 2, LS_IN_JSON, NULL},
    {"swirl_at_fin", "", LS_DIM_ANGLE, 2, LS_IN_JSON, NULL},
    {"best_climb_cas", "", LS_DIM_SPEED, 1, LS_IN_JSON, NULL},
    {"best_climb", "", LS_DIM_CLIMB_RATE, 0, LS_IN_JSON, NULL},
    {"no_sideslip_bank", "", LS_DIM_ANGLE, 2, LS_IN_JSON, NULL},
    {"ailerons_only_bank", "", LS_DIM_ANGLE, 2, LS_IN_JSON, NULL},
};

static void states(ls_report *report, const ls_explain_view *view)
{
    char name[LS_PHRASE];
    ls_table *table = ls_report_table(report, "states", NULL, LS_IN_JSON, state_columns, COUNT(state_columns));
    for (int i = 0; i < view->breakdown->sides; i++) {
        const ls_breakdown_side *side = &view->breakdown->side[i];
        const ls_attitudes *at = &side->attitudes;
        const double trimmed[] = {side->trim.bank_rad, side->trim.rudder_rad, side->trim.aileron_rad,
                                  side->trim.beta_rad, side->trim.alpha_rad,  side->point.fin_rad};
        ls_table_row(table);
        ls_table_words(table, "%s", ls_explain_name(view, i, name));
        for (size_t k = 0; k < sizeof trimmed / sizeof trimmed[0]; k++) {
            ls_table_number(table, side->status == LS_OK ? trimmed[k] : NAN);
        }
        ls_table_number(table, at->status == LS_OK ? at->best.point.cas_m_s : NAN);
        ls_table_number(table, at->status == LS_OK ? at->best.point.rate_m_s : NAN);
        ls_table_number(table, at->no_sideslip_rad);
        ls_table_number(table, at->ailerons_only_rad);
    }
}

static const ls_column arm_columns[] = {
    {"failed", "", LS_WORDS, 0, LS_IN_JSON, NULL},
    {"engine", "", LS_WORDS, 0, LS_IN_JSON, NULL},
    {"thrust", "", LS_DIM_FORCE, 0, LS_IN_JSON, NULL},
    {"thrust_arm", "", LS_DIM_LENGTH, 2, LS_IN_JSON, "ft"},
    {"slipstream_speed", "", LS_DIM_SPEED, 1, LS_IN_JSON, NULL},
};

static void arms(ls_report *report, const ls_explain_view *view)
{
    char name[LS_PHRASE];
    ls_table *table = ls_report_table(report, "arms", NULL, LS_IN_JSON, arm_columns, COUNT(arm_columns));
    for (int i = 0; i < view->breakdown->sides; i++) {
        const ls_breakdown_side *side = &view->breakdown->side[i];
        for (int k = 0; k < view->aircraft->engines && side->status == LS_OK; k++) {
            ls_table_row(table);
            ls_table_words(table, "%s", ls_explain_name(view, i, name));
            ls_table_words(table, "%s", view->aircraft->engine[k].name);
            ls_table_number(table, side->point.unit[k].thrust_N);
            ls_table_number(table, side->arm_m[k]);
            ls_table_number(table, side->point.unit[k].wake_m_s);
        }
    }
}

void ls_explain_data(ls_report *report, const ls_explain_view *view)
{
    const ls_breakdown *b = view->breakdown;
    char name[LS_PHRASE];
    int critical = b->critical[LS_ROTATION_FILE];
    ls_report_words(report, "critical", "%s",
                    critical >= 0                     ? ls_explain_name(view, critical, name)
                    : critical == LS_CRITICAL_NEITHER ? "neither"
                    : critical == LS_CRITICAL_STALL   ? "stalls first"
                                                      : "not known");
    if (isfinite(b->critical_by_m_s[LS_ROTATION_FILE])) {
        ls_report_number(report, "critical_by", LS_DIM_SPEED, NULL, b->critical_by_m_s[LS_ROTATION_FILE]);
    } else {
        ls_report_missing(report, "critical_by", LS_DIM_SPEED, "one of the two speeds is missing");
    }
    ls_report_number(report, "common_cas", LS_DIM_SPEED, NULL, b->cas_m_s);
    moments(report, view);
    worths(report, view);
    speeds(report, view);
    states(report, view);
    arms(report, view);
}
