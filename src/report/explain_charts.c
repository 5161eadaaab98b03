/* Moments as bars. */
#include "report/explain_charts.h"

#include "report/explain_parts.h"

#include <math.h>
#include <stdio.h>

static void add_bars(ls_chart *chart, const ls_explain_view *view, int cause, int is_roll)
{
    int row = ls_chart_add_row(chart, ls_cause_name((ls_cause)cause));
    for (int i = 0; i < view->breakdown->sides; i++) {
        const ls_moments *m = &view->breakdown->side[i].cause[cause];
        double moment_Nm = is_roll ? m->roll_Nm : m->yaw_Nm;
        char text[LS_CHART_LABEL];
        snprintf(text, sizeof text, "%.0f", fabs(moment_Nm) < 0.5 ? 0.0 : moment_Nm);
        if (view->breakdown->side[i].status == LS_OK) {
            ls_chart_add_bar(chart, row, i, 0.0, moment_Nm, text);
        }
    }
}

static int is_worth_a_bar(const ls_explain_view *view, int cause, int is_roll)
{
    double most_Nm = 0.0;
    for (int i = 0; i < view->breakdown->sides; i++) {
        const ls_moments *m = &view->breakdown->side[i].cause[cause];
        most_Nm = fmax(most_Nm, fabs(is_roll ? m->roll_Nm : m->yaw_Nm));
    }
    return most_Nm >= 1.0;
}

void ls_chart_of_moments(ls_chart *chart, const ls_explain_view *view, int is_roll, int slide)
{
    int in_line = view->breakdown->side[0].live_side == 0;
    ls_chart_start(chart, LS_CHART_BARS, is_roll ? "moments-roll" : "moments-yaw");
    chart->slide = slide;
    snprintf(chart->title, sizeof chart->title, "%.100s: what makes it %s", view->aircraft->name,
             is_roll ? "roll" : "yaw");
    snprintf(chart->x.label, sizeof chart->x.label, "%s moment %s", is_roll ? "rolling" : "yawing",
             in_line ? "to the left" : "toward the dead engine");
    snprintf(chart->x.unit, sizeof chart->x.unit, "N m");
    for (int i = 0; i < view->breakdown->sides; i++) {
        char name[LS_PHRASE], label[LS_CHART_LABEL];
        snprintf(label, sizeof label, "%.60s engine dead", ls_explain_name(view, i, name));
        ls_chart_add_group(chart, label);
    }
    for (int cause = 0; cause < LS_CAUSES; cause++) {
        if (is_worth_a_bar(view, cause, is_roll)) {
            add_bars(chart, view, cause, is_roll);
        }
    }
}
