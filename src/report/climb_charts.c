#include "report/climb_charts.h"

#include "report/climb_parts.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)

static double shown(const ls_climb_view *view, ls_dimension dimension, double si)
{
    return ls_unit_from_si(ls_unit_preferred(view->units, dimension), si);
}

static void set_axis(const ls_climb_view *view, ls_chart_axis *axis, const char *label, ls_dimension dimension)
{
    snprintf(axis->label, sizeof axis->label, "%.*s", (int)sizeof axis->label - 1, label);
    snprintf(axis->unit, sizeof axis->unit, "%s",
             dimension == LS_DIM_ANGLE ? "deg" : ls_unit_preferred(view->units, dimension)->name);
}

static void start(ls_chart *chart, const ls_climb_view *view, ls_chart_kind kind, const char *name,
                  const char *shows, int slide)
{
    char failed[LS_PHRASE] = "";
    const ls_performance_case *one = ls_performance_worst(view->performance);
    ls_chart_start(chart, kind, name);
    chart->slide = slide;
    if (one != NULL) {
        ls_climb_case_text(view, one, failed);
    }
    snprintf(chart->title, sizeof chart->title, "%.80s: %s%s%.80s", view->request->aircraft->name, shows,
             one != NULL ? ", " : "", failed);
}

/* ---- against speed ---- */

static void line_label(const ls_climb_view *view, const ls_climb_line *line, char out[LS_CHART_LABEL])
{
    const ls_condition *asked = &view->request->condition;
    if (line->failed == 0) {
        snprintf(out, LS_CHART_LABEL, "every engine running");
    } else if (line->gear != asked->gear) {
        snprintf(out, LS_CHART_LABEL, "gear %s", line->gear > 0.0 ? "down" : "up");
    } else if (line->flap != asked->flap) {
        snprintf(out, LS_CHART_LABEL, "flap %.60s", view->request->aircraft->flap[line->flap].name);
    } else {
        snprintf(out, LS_CHART_LABEL, "%s", ls_engine_state_name(line->state));
    }
}

static void add_speed_curve(ls_chart *chart, const ls_climb_view *view, const ls_climb_line *line,
                            ls_curve_role role)
{
    char label[LS_CHART_LABEL];
    double lowest_m_s = -0.7 * fabs(view->performance->all.rate.point.rate_m_s); /* what lies below is of no use */
    line_label(view, line, label);
    ls_chart_add_curve(chart, role, 0, label);
    for (int k = 0; k < LS_CLIMB_SPEEDS; k++) {
        const ls_climb_point *at = &line->point[k];
        int ok = line->status[k] == LS_OK && at->is_held && at->rate_m_s > lowest_m_s;
        ls_chart_add_point(chart, shown(view, LS_DIM_SPEED, view->lines->cas_m_s[k]),
                           ok ? shown(view, LS_DIM_CLIMB_RATE, at->rate_m_s) : NAN);
    }
}

static void mark_best(ls_chart *chart, const ls_climb_view *view, const ls_performance_case *of, const char *name)
{
    char label[LS_PHRASE], rate[LS_PHRASE];
    if (of->rate.end != LS_CLIMB_NOT_HELD) {
        snprintf(label, sizeof label, "%s %.40s", name, ls_climb_rate_text(view, of->rate.point.rate_m_s, rate));
        ls_chart_add_mark(chart, 0, shown(view, LS_DIM_SPEED, of->rate.point.cas_m_s),
                          shown(view, LS_DIM_CLIMB_RATE, of->rate.point.rate_m_s), label);
    }
}

/* A slide holds few curves: every engine, and the first states of the failure. */
void ls_chart_of_climb_speeds(ls_chart *chart, const ls_climb_view *view, int slide)
{
    const ls_performance_case *one = ls_performance_worst(view->performance);
    int room = slide ? LS_CHART_SLIDE_CURVES : LS_CHART_CURVES_MAX;
    start(chart, view, LS_CHART_CURVES, "climb-against-speed", "climb against speed", slide);
    set_axis(view, &chart->x, "calibrated airspeed", LS_DIM_SPEED);
    set_axis(view, &chart->y[0], "rate of climb", LS_DIM_CLIMB_RATE);
    chart->y[0].with_zero = 1;
    for (int i = 0; i < view->lines->lines && room > 0; i++) {
        const ls_climb_line *line = &view->lines->line[i];
        int is_main = one != NULL ? line->state == one->state && line->gear == one->condition.gear &&
                                        line->flap == one->condition.flap
                                  : 1;
        if (line->failed == 0 || line->is_worst) {
            add_speed_curve(chart, view, line, is_main ? LS_CURVE_MAIN : LS_CURVE_OTHER);
            room--;
        }
    }
    ls_chart_add_horizontal(chart, 0, 0.0, "level flight");
    mark_best(chart, view, &view->performance->all, "VY");
    if (one != NULL) {
        mark_best(chart, view, one, "VYSE");
    }
}

/* ---- against bank ---- */

static void mark_bank(ls_chart *chart, const ls_climb_view *view, const ls_climb_at_bank *at, const char *label)
{
    if (at->status == LS_OK) {
        ls_chart_add_mark(chart, 0, at->bank_rad / DEG, shown(view, LS_DIM_CLIMB_RATE, at->point.rate_m_s), label);
    }
}

void ls_chart_of_climb_banks(ls_chart *chart, const ls_climb_view *view, int slide)
{
    const ls_climb_by_bank *banks = view->banks;
    const ls_performance_case *one = ls_performance_worst(view->performance);
    double live = one->live_side < 0 ? -1.0 : 1.0;
    char label[LS_CHART_LABEL];
    start(chart, view, LS_CHART_CURVES, "climb-against-bank", "climb against bank", slide);
    chart->panels = 2;
    set_axis(view, &chart->x, "bank toward the live engine", LS_DIM_ANGLE);
    set_axis(view, &chart->y[0], "rate of climb", LS_DIM_CLIMB_RATE);
    set_axis(view, &chart->y[1], "sideslip from the dead side", LS_DIM_ANGLE);
    ls_chart_add_curve(chart, LS_CURVE_MAIN, 0, "climb");
    for (int i = 0; i < LS_CLIMB_BANK_POINTS; i++) {
        const ls_climb_at_bank *at = &banks->by_bank[i];
        ls_chart_add_point(chart, at->bank_rad / DEG,
                           at->status == LS_OK ? shown(view, LS_DIM_CLIMB_RATE, at->point.rate_m_s) : NAN);
    }
    ls_chart_add_curve(chart, LS_CURVE_MAIN, 1, "sideslip");
    for (int i = 0; i < LS_CLIMB_BANK_POINTS; i++) {
        const ls_climb_at_bank *at = &banks->by_bank[i];
        ls_chart_add_point(chart, at->bank_rad / DEG,
                           at->status == LS_OK ? -live * at->point.trim.beta_rad / DEG : NAN);
    }
    ls_chart_add_horizontal(chart, 1, 0.0, "");
    if (banks->no_sideslip.status == LS_OK) {
        snprintf(label, sizeof label, "no sideslip, ball %.1f widths",
                 fabs(banks->no_sideslip.bank_rad) / view->ball_rad);
        ls_chart_add_vertical(chart, banks->no_sideslip.bank_rad / DEG, label);
    }
    mark_bank(chart, view, &banks->level, "wings level");
    mark_bank(chart, view, &banks->best, "best");
    snprintf(label, sizeof label, "%.3g deg", banks->limit.bank_rad / DEG);
    mark_bank(chart, view, &banks->limit, label);
}

/* ---- against altitude ---- */

static void add_altitude_curve(ls_chart *chart, const ls_climb_view *view, int margin, ls_curve_role role,
                               const char *label)
{
    const ls_heights *heights = view->heights;
    ls_chart_add_curve(chart, role, 0, label);
    for (int i = 0; i < heights->heights; i++) {
        const ls_height *at = &heights->height[i];
        double cas_m_s = margin == LS_MARGINS ? at->vy_cas_m_s : at->cas_m_s[margin];
        int is_stalled = margin == LS_MARGIN_VMC && cas_m_s < at->cas_m_s[LS_MARGIN_STALL];
        ls_chart_add_point(chart, shown(view, LS_DIM_ALTITUDE, at->altitude_m),
                           is_stalled ? NAN : shown(view, LS_DIM_SPEED, cas_m_s));
    }
}

static void add_ceiling(ls_chart *chart, const ls_climb_view *view, const ls_ceiling *ceiling, const char *label)
{
    if (ceiling->kind == LS_CEILING_FOUND && ceiling->altitude_m > 0.0) {
        ls_chart_add_vertical(chart, shown(view, LS_DIM_ALTITUDE, ceiling->altitude_m), label);
    }
}

void ls_chart_of_climb_altitudes(ls_chart *chart, const ls_climb_view *view, int slide)
{
    const ls_heights *heights = view->heights;
    const ls_performance_case *one = ls_performance_worst(view->performance);
    start(chart, view, LS_CHART_CURVES, "speeds-against-altitude", "speeds and ceilings against altitude", slide);
    set_axis(view, &chart->x, "pressure altitude", LS_DIM_ALTITUDE);
    set_axis(view, &chart->y[0], "calibrated airspeed", LS_DIM_SPEED);
    ls_chart_add_region(chart, LS_REGION_BELOW, 0, "wing stalled");
    for (int i = 0; i < heights->heights; i++) {
        const ls_height *at = &heights->height[i];
        ls_chart_add_point(chart, shown(view, LS_DIM_ALTITUDE, at->altitude_m),
                           shown(view, LS_DIM_SPEED, at->cas_m_s[LS_MARGIN_STALL]));
    }
    add_altitude_curve(chart, view, LS_MARGIN_VYSE, LS_CURVE_MAIN, "VYSE");
    add_altitude_curve(chart, view, LS_MARGIN_VXSE, LS_CURVE_OTHER, "VXSE");
    add_altitude_curve(chart, view, LS_MARGIN_VMC, LS_CURVE_OTHER, "VMC");
    add_altitude_curve(chart, view, LS_MARGINS, LS_CURVE_OTHER, "VY");
    if (!slide && isfinite(heights->height[0].cas_m_s[LS_MARGIN_VSSE])) {
        add_altitude_curve(chart, view, LS_MARGIN_VSSE, LS_CURVE_OTHER, "VSSE, published");
    }
    add_ceiling(chart, view, &one->service, "service ceiling, one engine");
    add_ceiling(chart, view, &one->absolute, "absolute, one engine");
}

/* ---- drift-down ---- */

void ls_chart_of_drift(ls_chart *chart, const ls_climb_view *view, int slide)
{
    const ls_unit *nmi = ls_unit_find(LS_DIM_LENGTH, view->units == LS_UNITS_SI ? "km" : "nmi");
    const ls_performance_case *one = ls_performance_worst(view->performance);
    const ls_drift *drift = view->drift;
    char label[LS_PHRASE], altitude[LS_PHRASE];
    start(chart, view, LS_CHART_CURVES, "drift-down", "drift-down at the speed of best rate", slide);
    set_axis(view, &chart->x, "distance through still air", LS_DIM_LENGTH);
    snprintf(chart->x.unit, sizeof chart->x.unit, "%s", nmi->name);
    set_axis(view, &chart->y[0], "pressure altitude", LS_DIM_ALTITUDE);
    ls_chart_add_curve(chart, LS_CURVE_MAIN, 0, "");
    for (int i = 0; i < LS_DRIFT_POINTS; i++) {
        ls_chart_add_point(chart, ls_unit_from_si(nmi, drift->point[i].distance_m),
                           shown(view, LS_DIM_ALTITUDE, drift->point[i].altitude_m));
    }
    for (int i = 12; i < LS_DRIFT_POINTS - 1; i += 12) {
        snprintf(label, sizeof label, "%.0f min", drift->point[i].time_s / 60.0);
        ls_chart_add_mark(chart, 0, ls_unit_from_si(nmi, drift->point[i].distance_m),
                          shown(view, LS_DIM_ALTITUDE, drift->point[i].altitude_m), label);
    }
    const ls_drift_point *last = &drift->point[LS_DRIFT_POINTS - 1];
    snprintf(label, sizeof label, "%.0f min, sinking %.40s", last->time_s / 60.0,
             ls_climb_rate_text(view, -last->rate_m_s, altitude));
    ls_chart_add_mark(chart, 0, ls_unit_from_si(nmi, last->distance_m),
                      shown(view, LS_DIM_ALTITUDE, last->altitude_m), label);
    if (one->absolute.kind == LS_CEILING_FOUND) {
        snprintf(label, sizeof label, "absolute ceiling %.40s",
                 ls_climb_altitude_text(view, one->absolute.altitude_m, altitude));
        ls_chart_add_horizontal(chart, 0, shown(view, LS_DIM_ALTITUDE, one->absolute.altitude_m), label);
    }
}

/* ---- costs ---- */

void ls_chart_of_costs(ls_chart *chart, const ls_climb_view *view, int slide)
{
    char speed[LS_PHRASE], label[LS_PHRASE], force[LS_PHRASE];
    start(chart, view, LS_CHART_BARS, "climb-costs", "what each thing costs", slide);
    ls_phrase_cas(view->banks->level.point.cas_m_s, view->units, view->uncertain, speed);
    snprintf(label, sizeof label, "climb lost at %.30s", speed);
    set_axis(view, &chart->x, label, LS_DIM_CLIMB_RATE);
    int group = ls_chart_add_group(chart, "climb lost, and the drag that does the same");
    for (int i = 0; i < view->costs->count; i++) {
        const ls_cost *cost = &view->costs->cost[i];
        if (cost->status == LS_NO_STATE) {
            continue;
        }
        int row = ls_chart_add_row(chart, cost->name);
        snprintf(label, sizeof label, "%.30s",
                 ls_phrase_value(cost->force_N, LS_DIM_FORCE, NULL, view->units, 0, force));
        ls_chart_add_bar(chart, row, group, 0.0, shown(view, LS_DIM_CLIMB_RATE, cost->rate_m_s), label);
    }
}
