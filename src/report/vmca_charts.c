#include "report/vmca_charts.h"

#include "report/phrase.h"
#include "report/vmca_parts.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)

static double shown_speed(ls_unit_system units, double m_s)
{
    return ls_unit_from_si(ls_unit_preferred(units, LS_DIM_SPEED), m_s);
}

static void set_axis(ls_chart_axis *axis, const char *label, const char *unit)
{
    snprintf(axis->label, sizeof axis->label, "%.*s", (int)sizeof axis->label - 1, label);
    snprintf(axis->unit, sizeof axis->unit, "%s", unit);
}

static void set_speed_axis(ls_chart_axis *axis, const char *label, ls_unit_system units)
{
    set_axis(axis, label, ls_unit_preferred(units, LS_DIM_SPEED)->name);
}

static const char *bank_label(int live_side)
{
    return live_side != 0 ? "bank toward the live engine" : "bank to the right";
}

/* ---- against bank ---- */

/* What the as-asked curve is: one of the options, or no one of them. */
static ls_rotation shown_rotation(const ls_vmca_view *view)
{
    ls_rotation asked = view->request->condition.rotation;
    return asked != LS_ROTATION_FILE ? asked : ls_vmca_own_rotation(view->aircraft);
}

/* Two runs that no eye could tell apart. */
static int coincide(const double *a, const double *b)
{
    for (int i = 0; i < LS_SWEEP_POINTS; i++) {
        if (!(fabs(a[i] - b[i]) < 0.03) && !(isnan(a[i]) && isnan(b[i]))) {
            return 0;
        }
    }
    return 1;
}

static void add_bank_curve(ls_chart *chart, const ls_vmca_view *view, const ls_bank_sweep *sweep,
                           const double *speed, ls_curve_role role, const char *label)
{
    ls_chart_add_curve(chart, role, 0, label);
    for (int i = 0; i < LS_SWEEP_POINTS; i++) {
        ls_chart_add_point(chart, sweep->bank_rad[i] / DEG, shown_speed(view->units, speed[i]));
    }
}

/* One curve for every run that differs; runs that coincide share it and its label. */
static void add_rotations(ls_chart *chart, const ls_vmca_view *view, const ls_bank_sweep *sweep)
{
    int done[LS_ROTATIONS] = {0};
    ls_rotation own = shown_rotation(view);
    done[own] = own != LS_ROTATION_FILE; /* drawn as the first curve */
    for (int rotation = 0; rotation < LS_ROTATIONS; rotation++) {
        char label[LS_CHART_LABEL];
        if (done[rotation]) {
            continue;
        }
        const char *name = ls_rotation_name(rotation == LS_ROTATION_FILE ? own : (ls_rotation)rotation);
        const char *built = rotation == LS_ROTATION_FILE &&
                                    view->request->condition.rotation == LS_ROTATION_FILE &&
                                    own != LS_ROTATION_FILE
                                ? " (as built)"
                                : "";
        size_t used = (size_t)snprintf(label, sizeof label, "%s%s", name, built);
        for (int other = rotation + 1; other < LS_ROTATIONS; other++) {
            if (!done[other] && coincide(sweep->cas_m_s[rotation], sweep->cas_m_s[other]) && used < sizeof label) {
                done[other] = 1;
                used += (size_t)snprintf(label + used, sizeof label - used, ", %s",
                                         ls_rotation_name((ls_rotation)other));
            }
        }
        add_bank_curve(chart, view, sweep, sweep->cas_m_s[rotation],
                       rotation == LS_ROTATION_FILE ? LS_CURVE_MAIN : LS_CURVE_OTHER, label);
    }
}

void ls_chart_of_banks(ls_chart *chart, const ls_vmca_view *view, const ls_bank_sweep *sweep, int slide)
{
    char limit[LS_PHRASE];
    ls_chart_start(chart, LS_CHART_CURVES, "vmc-against-bank");
    chart->slide = slide;
    snprintf(chart->title, sizeof chart->title, "%s: minimum control speed against bank", view->aircraft->name);
    set_axis(&chart->x, bank_label(view->vmca->set[ls_vmca_answer_set(view->vmca)].live_side), "deg");
    set_speed_axis(&chart->y[0], "calibrated airspeed", view->units);
    ls_chart_add_region(chart, LS_REGION_BELOW, 0, "wing stalled");
    for (int i = 0; i < LS_SWEEP_POINTS; i++) {
        ls_chart_add_point(chart, sweep->bank_rad[i] / DEG, shown_speed(view->units, sweep->stall_cas_m_s[i]));
    }
    add_rotations(chart, view, sweep);
    double limit_rad = view->request->condition.bank_limit_rad;
    snprintf(limit, sizeof limit, "%.3g deg limit", limit_rad / DEG);
    ls_chart_add_vertical(chart, limit_rad / DEG, limit);
}

/* ---- against altitude ---- */

/* Where a speed passes the stall between two samples, in between by straight lines. */
static void add_meeting_point(ls_chart *chart, const ls_vmca_view *view, const ls_altitude_sweep *sweep,
                              const double *speed, int i)
{
    double before = speed[i - 1] - sweep->stall_cas_m_s[i - 1], after = speed[i] - sweep->stall_cas_m_s[i];
    double share = before / (before - after);
    double altitude_m = sweep->altitude_m[i - 1] + share * (sweep->altitude_m[i] - sweep->altitude_m[i - 1]);
    ls_chart_add_point(chart, ls_unit_from_si(ls_unit_preferred(view->units, LS_DIM_ALTITUDE), altitude_m),
                       shown_speed(view->units, speed[i - 1] + share * (speed[i] - speed[i - 1])));
}

/* Above the stall for the usual roles, below it for the faint one. */
static void add_altitude_curve(ls_chart *chart, const ls_vmca_view *view, const ls_altitude_sweep *sweep,
                               const double *speed, ls_curve_role role, const char *label)
{
    const ls_unit *altitude = ls_unit_preferred(view->units, LS_DIM_ALTITUDE);
    int was_shown = 1;
    ls_chart_add_curve(chart, role, 0, label);
    for (int i = 0; i < LS_SWEEP_POINTS; i++) {
        int is_shown = (speed[i] < sweep->stall_cas_m_s[i]) == (role == LS_CURVE_FAINT);
        if (i > 0 && is_shown != was_shown) {
            add_meeting_point(chart, view, sweep, speed, i);
        }
        ls_chart_add_point(chart, ls_unit_from_si(altitude, sweep->altitude_m[i]),
                           is_shown ? shown_speed(view->units, speed[i]) : NAN);
        was_shown = is_shown;
    }
}

void ls_chart_of_altitude(ls_chart *chart, const ls_vmca_view *view, const ls_altitude_sweep *sweep, int slide)
{
    char banked[LS_PHRASE], text[LS_PHRASE];
    const ls_vmca_set *set = &view->vmca->set[ls_vmca_answer_set(view->vmca)];
    const ls_unit *altitude = ls_unit_preferred(view->units, LS_DIM_ALTITUDE);
    ls_chart_start(chart, LS_CHART_CURVES, "vmc-against-altitude");
    chart->slide = slide;
    snprintf(chart->title, sizeof chart->title, "%s: minimum control speed and stall against altitude",
             view->aircraft->name);
    set_axis(&chart->x, "pressure altitude", altitude->name);
    set_speed_axis(&chart->y[0], "calibrated airspeed", view->units);
    ls_chart_add_region(chart, LS_REGION_BELOW, 0, "wing stalled");
    for (int i = 0; i < LS_SWEEP_POINTS; i++) {
        ls_chart_add_point(chart, ls_unit_from_si(altitude, sweep->altitude_m[i]),
                           shown_speed(view->units, sweep->stall_cas_m_s[i]));
    }
    ls_phrase_bank(set->answer.bank_rad, set->live_side, ls_vmca_live_engines(view->aircraft, set->failed), text);
    snprintf(banked, sizeof banked, "VMC, %.60s", text);
    add_altitude_curve(chart, view, sweep, sweep->control_cas_m_s, LS_CURVE_MAIN, banked);
    add_altitude_curve(chart, view, sweep, sweep->control_cas_m_s, LS_CURVE_FAINT, "");
    if (fabs(set->answer.bank_rad) > 0.5 * DEG) {
        add_altitude_curve(chart, view, sweep, sweep->level_cas_m_s, LS_CURVE_OTHER, "VMC, wings level");
    }
    if (isfinite(view->meeting_altitude_m)) {
        for (int i = 1; i < LS_SWEEP_POINTS; i++) {
            if (sweep->altitude_m[i] >= view->meeting_altitude_m) {
                ls_phrase_value(30.48 * round(view->meeting_altitude_m / 30.48), LS_DIM_ALTITUDE, NULL,
                                view->units, 0, text);
                snprintf(banked, sizeof banked, "meets the stall near %.40s", text);
                ls_chart_add_mark(chart, 0, ls_unit_from_si(altitude, view->meeting_altitude_m),
                                  shown_speed(view->units, sweep->stall_cas_m_s[i]), banked);
                break;
            }
        }
    }
}

/* ---- against speed ---- */

void ls_chart_of_control_use(ls_chart *chart, const ls_vmca_view *view, const ls_control_use *use, int slide)
{
    static const struct {
        ls_limit limit;
        ls_curve_role role;
        const char *label;
    } curves[] = {{LS_LIMIT_RUDDER, LS_CURVE_MAIN, "rudder"},
                  {LS_LIMIT_PEDAL, LS_CURVE_OTHER, "pedal force"},
                  {LS_LIMIT_AILERON, LS_CURVE_OTHER, "aileron"},
                  {LS_LIMIT_FIN_STALL, LS_CURVE_OTHER, "sideslip, of the fin's stall"}};
    const ls_vmca_set *set = &view->vmca->set[ls_vmca_answer_set(view->vmca)];
    char speed[LS_PHRASE], label[LS_CHART_LABEL], bank[LS_PHRASE];
    ls_chart_start(chart, LS_CHART_CURVES, "control-use-against-speed");
    chart->slide = slide;
    ls_phrase_bank(set->answer.bank_rad, set->live_side, ls_vmca_live_engines(view->aircraft, set->failed), bank);
    snprintf(chart->title, sizeof chart->title, "%.120s: how much of each limit is used, %.80s",
             view->aircraft->name, bank);
    set_speed_axis(&chart->x, "calibrated airspeed", view->units);
    set_axis(&chart->y[0], "used", "% of the limit");
    chart->y[0].with_zero = 1;
    for (size_t k = 0; k < sizeof curves / sizeof curves[0]; k++) {
        if (isnan(use[LS_CONTROL_USE_POINTS - 1].margins.left[curves[k].limit])) {
            continue; /* no such limit */
        }
        ls_chart_add_curve(chart, curves[k].role, 0, curves[k].label);
        for (int i = 0; i < LS_CONTROL_USE_POINTS; i++) {
            double used = use[i].status == LS_OK ? 100.0 * (1.0 - use[i].margins.left[curves[k].limit]) : NAN;
            ls_chart_add_point(chart, shown_speed(view->units, use[i].cas_m_s), used <= 150.0 ? used : NAN);
        }
    }
    ls_chart_add_horizontal(chart, 0, 100.0, "limit");
    if (ls_vmca_has_speed(&set->answer)) {
        ls_phrase_cas(set->answer.vmc.cas_m_s, view->units, view->uncertain, speed);
        snprintf(label, sizeof label, "%s %.60s", set->answer.vmc.kind == LS_VMC_STALLS_FIRST ? "stall" : "VMC",
                 speed);
        ls_chart_add_vertical(chart, shown_speed(view->units, set->answer.vmc.cas_m_s), label);
    }
}

/* ---- trends ---- */

static double trend_speed(const ls_trend_view *view, const ls_trend_point *at)
{
    return at->point.status == LS_OK ? shown_speed(view->units, at->point.vmc.cas_m_s) : NAN;
}

static double axis_value(const ls_trend_view *view, int axis, double si)
{
    return ls_unit_from_si(view->axis_unit[axis], si);
}

static void trend_curves(ls_chart *chart, const ls_trend_view *view)
{
    if (view->lines == 1) {
        const ls_trend *trend = view->line[0].trend;
        ls_chart_add_region(chart, LS_REGION_BELOW, 0, "wing stalled");
        for (int i = 0; i < trend->count; i++) {
            int ok = trend->point[i].point.status == LS_OK;
            ls_chart_add_point(chart, axis_value(view, 0, trend->point[i].value[0]),
                               ok ? shown_speed(view->units, trend->point[i].point.vmc.stall_cas_m_s) : NAN);
        }
    }
    for (int k = 0; k < view->lines; k++) {
        const ls_trend *trend = view->line[k].trend;
        ls_chart_add_curve(chart, k == 0 ? LS_CURVE_MAIN : LS_CURVE_OTHER, 0, view->line[k].aircraft->name);
        for (int i = 0; i < trend->count; i++) {
            ls_chart_add_point(chart, axis_value(view, 0, trend->point[i].value[0]),
                               trend_speed(view, &trend->point[i]));
        }
    }
}

/* The grid of a trend that ran to its end; axes that fall are turned so that both rise. */
static void trend_map(ls_chart *chart, const ls_trend_view *view)
{
    const ls_trend_request *request = view->line[0].request;
    const ls_trend *trend = view->line[0].trend;
    int nx = request->axis[0].points, ny = request->axis[1].points;
    if (trend->count < nx * ny || !ls_chart_size_map(chart, nx, ny)) {
        return;
    }
    for (int k = 0; k < trend->count; k++) {
        int i = k / ny, j = k % ny;
        i = request->axis[0].step < 0 ? nx - 1 - i : i;
        j = request->axis[1].step < 0 ? ny - 1 - j : j;
        chart->map.x[i] = axis_value(view, 0, trend->point[k].value[0]);
        chart->map.y[j] = axis_value(view, 1, trend->point[k].value[1]);
        chart->map.z[j * nx + i] = trend_speed(view, &trend->point[k]);
    }
}

static const char *axis_label(const ls_trend_view *view, int axis)
{
    const ls_trend_request *request = view->line[0].request;
    int live_side = ls_live_side(view->line[0].aircraft, &request->condition);
    return request->axis[axis].kind == LS_AXIS_BANK ? bank_label(live_side) : request->axis[axis].name;
}

void ls_chart_of_trend(ls_chart *chart, const ls_trend_view *view, int slide)
{
    const ls_trend_request *request = view->line[0].request;
    int is_map = request->axes == 2;
    ls_chart_start(chart, is_map ? LS_CHART_MAP : LS_CHART_CURVES, "trend");
    chart->slide = slide;
    snprintf(chart->title, sizeof chart->title, "%.100s%s: minimum control speed over %.60s%s%.60s",
             view->line[0].aircraft->name, view->lines > 1 ? " and others" : "", request->axis[0].name,
             is_map ? " and " : "", is_map ? request->axis[1].name : "");
    set_axis(&chart->x, axis_label(view, 0), view->axis_unit[0]->name);
    if (is_map) {
        set_axis(&chart->y[0], axis_label(view, 1), view->axis_unit[1]->name);
        snprintf(chart->map.label, sizeof chart->map.label, "VMC, calibrated");
        snprintf(chart->map.unit, sizeof chart->map.unit, "%s",
                 ls_unit_preferred(view->units, LS_DIM_SPEED)->name);
        trend_map(chart, view);
    } else {
        set_speed_axis(&chart->y[0], "calibrated airspeed", view->units);
        trend_curves(chart, view);
    }
}
