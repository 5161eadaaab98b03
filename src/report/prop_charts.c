/* The charts of a propeller: against speed, blade angle and incidence. */
#include "report/prop_parts.h"

#include <math.h>
#include <stdio.h>

#define DEG (3.14159265358979323846 / 180.0)

/* ---- what they share ---- */

static const ls_unit *unit_of(const ls_prop_view *view, ls_dimension dimension)
{
    return ls_unit_preferred(view->units, dimension);
}

static double shown(const ls_prop_view *view, ls_dimension dimension, double si)
{
    return ls_unit_from_si(unit_of(view, dimension), si);
}

static void set_axis(ls_chart_axis *axis, const char *label, const char *unit)
{
    snprintf(axis->label, sizeof axis->label, "%.*s", (int)sizeof axis->label - 1, label);
    snprintf(axis->unit, sizeof axis->unit, "%s", unit);
}

static void set_axis_of(const ls_prop_view *view, ls_chart_axis *axis, const char *label, ls_dimension dimension)
{
    set_axis(axis, label, unit_of(view, dimension)->name);
}

static void start(ls_chart *chart, const ls_prop_view *view, ls_chart_kind kind, const char *name,
                  const char *what, int slide)
{
    ls_chart_start(chart, kind, name);
    chart->slide = slide;
    snprintf(chart->title, sizeof chart->title, "%.60s: %.200s", view->study->aircraft->name, what);
}

static void start_against_speed(ls_chart *chart, const ls_prop_view *view, const char *name, const char *what,
                                int panels, int slide)
{
    start(chart, view, LS_CHART_CURVES, name, what, slide);
    chart->panels = panels;
    set_axis_of(view, &chart->x, "calibrated airspeed", LS_DIM_SPEED);
}

static void mark_reference(ls_chart *chart, const ls_prop_view *view)
{
    char speed[LS_PHRASE], label[LS_CHART_LABEL];
    ls_phrase_cas(view->cas_m_s, view->units, view->uncertain, speed);
    snprintf(label, sizeof label, "%s%.60s", view->is_vmc ? "VMC " : "", speed);
    ls_chart_add_vertical(chart, shown(view, LS_DIM_SPEED, view->cas_m_s), label);
}

/* A slide has room for the labels of one panel: what the other panel draws looks the same there. */
static const char *label_in(const ls_chart *chart, int panel, const char *label)
{
    return chart->slide && panel > 0 ? "" : label;
}

/* Opens a gap before a point where the propeller stops or starts turning: the drag jumps there. */
static void break_at_jump(ls_chart *chart, const ls_dead_point *points, int i)
{
    if (i > 0 && ((points[i].flags ^ points[i - 1].flags) & LS_PROPULSOR_STOPS)) {
        ls_chart_add_point(chart, NAN, NAN);
    }
}

/* ---- the unit ---- */

static void add_unit_curve(ls_chart *chart, const ls_prop_view *view, const ls_prop_by_speed *thrust, int panel)
{
    ls_chart_add_curve(chart, LS_CURVE_MAIN, panel, label_in(chart, panel, "take-off power"));
    for (int i = 0; i < thrust->count; i++) {
        const ls_prop_point *at = &thrust->takeoff[i];
        double value = panel == 0 ? at->pitch_rad / DEG : 60.0 * at->n_rev_s;
        ls_chart_add_point(chart, shown(view, LS_DIM_SPEED, thrust->cas_m_s[i]),
                           at->status == LS_OK ? value : NAN);
    }
}

static void add_dead_unit_curve(ls_chart *chart, const ls_prop_view *view, const ls_dead_by_speed *dead,
                                const ls_dead_point *points, int panel, const char *label)
{
    ls_chart_add_curve(chart, LS_CURVE_OTHER, panel, label_in(chart, panel, label));
    for (int i = 0; i < dead->count; i++) {
        break_at_jump(chart, points, i);
        double value = panel == 0 ? points[i].pitch_rad / DEG : 60.0 * points[i].n_rev_s;
        ls_chart_add_point(chart, shown(view, LS_DIM_SPEED, dead->cas_m_s[i]),
                           points[i].status == LS_OK ? value : NAN);
    }
}

void ls_chart_of_unit(ls_chart *chart, const ls_prop_view *view, const ls_prop_by_speed *thrust,
                      const ls_dead_by_speed *dead, int slide)
{
    const ls_propeller_data *propeller = &view->study->powerplant->data->propeller;
    start_against_speed(chart, view, "prop-unit", "what the constant-speed unit does with blade angle and RPM", 2,
                        slide);
    set_axis(&chart->y[0], "blade angle", "deg");
    set_axis(&chart->y[1], "propeller", "rpm");
    for (int panel = 0; panel < 2; panel++) {
        add_unit_curve(chart, view, thrust, panel);
        add_dead_unit_curve(chart, view, dead, dead->idle, panel, "throttle closed");
        add_dead_unit_curve(chart, view, dead, dead->forward, panel, "dead, lever forward");
        add_dead_unit_curve(chart, view, dead, dead->aft, panel, "dead, lever aft");
    }
    ls_chart_add_horizontal(chart, 0, propeller->fine_pitch_rad / DEG, "fine stop");
    ls_chart_add_horizontal(chart, 1, 60.0 * view->study->rated_rev_s, "rated");
    if (ls_given(propeller->feather_latch_rev_s)) {
        ls_chart_add_horizontal(chart, 1, 60.0 * propeller->feather_latch_rev_s, "no feathering below");
    }
}

/* ---- on a dead engine ---- */

static void add_drag_curve(ls_chart *chart, const ls_prop_view *view, const ls_dead_by_speed *dead,
                           const ls_dead_point *points, ls_curve_role role, const char *label)
{
    ls_chart_add_curve(chart, role, 0, label);
    for (int i = 0; i < dead->count; i++) {
        break_at_jump(chart, points, i);
        ls_chart_add_point(chart, shown(view, LS_DIM_SPEED, dead->cas_m_s[i]),
                           points[i].status == LS_OK ? shown(view, LS_DIM_FORCE, points[i].drag_N) : NAN);
    }
}

void ls_chart_of_dead_by_speed(ls_chart *chart, const ls_prop_view *view, const ls_dead_by_speed *dead, int slide)
{
    const ls_propeller_data *propeller = &view->study->powerplant->data->propeller;
    start_against_speed(chart, view, "prop-dead-by-speed", "drag and RPM of the dead engine's propeller", 2,
                        slide);
    set_axis_of(view, &chart->y[0], "drag", LS_DIM_FORCE);
    set_axis(&chart->y[1], "propeller", "rpm");
    chart->y[0].with_zero = chart->y[1].with_zero = 1;
    add_drag_curve(chart, view, dead, dead->forward, LS_CURVE_MAIN, "windmilling, lever forward");
    add_drag_curve(chart, view, dead, dead->aft, LS_CURVE_OTHER, "windmilling, lever aft");
    add_drag_curve(chart, view, dead, dead->stopped, LS_CURVE_OTHER, "stopped, on the fine stop");
    if (dead->count > 0 && dead->feathered[0].status == LS_OK) {
        add_drag_curve(chart, view, dead, dead->feathered, LS_CURVE_OTHER, "feathered");
    }
    add_dead_unit_curve(chart, view, dead, dead->forward, 1, "lever forward");
    chart->curve[chart->curves - 1].role = LS_CURVE_MAIN;
    add_dead_unit_curve(chart, view, dead, dead->aft, 1, "lever aft");
    if (ls_given(propeller->feather_latch_rev_s)) {
        ls_chart_add_horizontal(chart, 1, 60.0 * propeller->feather_latch_rev_s, "no feathering below");
    }
    mark_reference(chart, view);
}

void ls_chart_of_dead_by_pitch(ls_chart *chart, const ls_prop_view *view, const ls_dead_by_pitch *dead, int slide)
{
    char what[LS_PHRASE], speed[LS_PHRASE];
    ls_phrase_cas(view->cas_m_s, view->units, view->uncertain, speed);
    snprintf(what, sizeof what, "drag and RPM of the dead engine's propeller against blade angle, %.40s", speed);
    start(chart, view, LS_CHART_CURVES, "prop-dead-by-pitch", what, slide);
    chart->panels = 2;
    set_axis(&chart->x, "blade angle at three quarters of the radius", "deg");
    set_axis_of(view, &chart->y[0], "drag", LS_DIM_FORCE);
    set_axis(&chart->y[1], "propeller", "rpm");
    chart->y[0].with_zero = chart->y[1].with_zero = 1;
    for (int k = 0; k < 3; k++) {
        static const char *const labels[] = {"windmilling", "stopped", "windmilling"};
        ls_chart_add_curve(chart, k == 1 ? LS_CURVE_OTHER : LS_CURVE_MAIN, k == 2,
                           label_in(chart, k == 2, labels[k]));
        for (int i = 0; i < dead->count; i++) {
            const ls_dead_point *at = k == 1 ? &dead->stopped[i] : &dead->windmilling[i];
            int is_there = at->status == LS_OK && (k == 1 || !(at->flags & LS_PROPULSOR_STOPS));
            double value = k == 2 ? 60.0 * at->n_rev_s : shown(view, LS_DIM_FORCE, at->drag_N);
            ls_chart_add_point(chart, dead->pitch_rad[i] / DEG, is_there ? value : NAN);
        }
    }
    ls_chart_add_vertical(chart, dead->pitch_rad[0] / DEG, "fine stop");
    if (isfinite(dead->stops_rad)) {
        ls_chart_add_vertical(chart, dead->stops_rad / DEG, "coarser: it stops");
    }
}

/* ---- P-factor ---- */

void ls_chart_of_incidence(ls_chart *chart, const ls_prop_view *view, const ls_prop_incidence *incidence,
                           int slide)
{
    char what[LS_PHRASE], speed[LS_PHRASE];
    const ls_unit *length = ls_unit_find(LS_DIM_LENGTH, view->units == LS_UNITS_US ? "in" : "cm");
    ls_phrase_cas(view->cas_m_s, view->units, view->uncertain, speed);
    snprintf(what, sizeof what, "P-factor and side load, take-off power, %.40s", speed);
    start(chart, view, LS_CHART_CURVES, "prop-p-factor", what, slide);
    chart->panels = 2;
    set_axis(&chart->x, "angle of the air to the propeller's shaft", "deg");
    set_axis(&chart->y[0], "thrust line moves to the down-going blade", length->name);
    set_axis_of(view, &chart->y[1], "side load", LS_DIM_FORCE);
    chart->y[0].with_zero = chart->y[1].with_zero = 1;
    for (int k = 0; k < 4; k++) {
        static const char *const labels[] = {"as flown", "at most (frozen inflow)", "as flown", "at most"};
        ls_chart_add_curve(chart, k % 2 == 0 ? LS_CURVE_MAIN : LS_CURVE_OTHER, k / 2,
                           label_in(chart, k / 2, labels[k]));
        for (int i = 0; i < incidence->count; i++) {
            double value = k == 0   ? ls_unit_from_si(length, incidence->offset_m[i])
                           : k == 1 ? ls_unit_from_si(length, incidence->offset_bound_m[i])
                           : k == 2 ? shown(view, LS_DIM_FORCE, incidence->normal_N[i])
                                    : shown(view, LS_DIM_FORCE, incidence->normal_bound_N[i]);
            ls_chart_add_point(chart, incidence->incidence_rad[i] / DEG, incidence->status == LS_OK ? value : NAN);
        }
    }
}

/* ---- thrust and efficiency ---- */

void ls_chart_of_thrust(ls_chart *chart, const ls_prop_view *view, const ls_prop_by_speed *thrust, int slide)
{
    start_against_speed(chart, view, "prop-thrust", "thrust of one propeller against speed", 1, slide);
    set_axis_of(view, &chart->y[0], "thrust", LS_DIM_FORCE);
    chart->y[0].with_zero = 1;
    int has_continuous = view->study->powerplant->data->engine.continuous < 1.0;
    for (int k = 0; k < 3; k++) {
        static const char *const labels[] = {"take-off power", "maximum continuous", "ideal, for take-off power"};
        if (k == 1 && !has_continuous) {
            continue;
        }
        ls_chart_add_curve(chart, k == 0 ? LS_CURVE_MAIN : LS_CURVE_OTHER, 0, labels[k]);
        for (int i = 0; i < thrust->count; i++) {
            const ls_prop_point *at = k == 1 ? &thrust->continuous[i] : &thrust->takeoff[i];
            double value_N = k == 2 ? thrust->ideal_N[i] : at->thrust_N;
            ls_chart_add_point(chart, shown(view, LS_DIM_SPEED, thrust->cas_m_s[i]),
                               at->status == LS_OK ? shown(view, LS_DIM_FORCE, value_N) : NAN);
        }
    }
    mark_reference(chart, view);
}

void ls_chart_of_efficiency(ls_chart *chart, const ls_prop_view *view, const ls_prop_by_speed *thrust, int slide)
{
    char what[LS_PHRASE], rpm[LS_PHRASE], label[LS_CHART_LABEL];
    ls_prop_rpm(view->study->rated_rev_s, rpm);
    snprintf(what, sizeof what, "efficiency at fixed blade angles, %.40s, and governed", rpm);
    start_against_speed(chart, view, "prop-efficiency", what, 1, slide);
    set_axis(&chart->y[0], "efficiency", "%");
    chart->y[0].low = 0.0;
    chart->y[0].high = 100.0;
    int step = slide ? 2 : 1;
    for (int k = 0; k < LS_PROP_FIXED; k += step) {
        snprintf(label, sizeof label, "%.0f deg", thrust->fixed_pitch_rad[k] / DEG);
        ls_chart_add_curve(chart, LS_CURVE_OTHER, 0, label);
        for (int i = 0; i < thrust->count; i++) {
            ls_chart_add_point(chart, shown(view, LS_DIM_SPEED, thrust->cas_m_s[i]),
                               100.0 * thrust->fixed_efficiency[k][i]);
        }
    }
    ls_chart_add_curve(chart, LS_CURVE_MAIN, 0, "governed, take-off power");
    for (int i = 0; i < thrust->count; i++) {
        const ls_prop_point *at = &thrust->takeoff[i];
        ls_chart_add_point(chart, shown(view, LS_DIM_SPEED, thrust->cas_m_s[i]),
                           at->status == LS_OK ? 100.0 * at->efficiency : NAN);
    }
}

/* ---- zero thrust, idle, blades ---- */

static int has_map(const ls_prop_view *view)
{
    return view->study->powerplant->data->engine.type == LS_ENGINE_PISTON;
}

static double setting_value(const ls_prop_view *view, const ls_prop_point *at, int panel)
{
    return at->status != LS_OK ? NAN
           : panel == 1        ? 60.0 * at->n_rev_s
           : has_map(view)     ? shown(view, LS_DIM_PRESSURE, at->map_Pa)
                               : shown(view, LS_DIM_TORQUE, at->torque_Nm);
}

void ls_chart_of_zero_thrust(ls_chart *chart, const ls_prop_view *view, int slide)
{
    char label[LS_CHART_LABEL], height[LS_PHRASE];
    const ls_zero_thrust *zero = view->zero;
    start_against_speed(chart, view, "prop-zero-thrust", "setting a running propeller to no thrust", 2, slide);
    if (has_map(view)) {
        set_axis_of(view, &chart->y[0], "manifold pressure", LS_DIM_PRESSURE);
    } else {
        set_axis_of(view, &chart->y[0], "torque", LS_DIM_TORQUE);
    }
    set_axis(&chart->y[1], "propeller", "rpm");
    for (int panel = 0; panel < 2; panel++) {
        for (int i = 0; i < zero->heights; i++) {
            ls_phrase_value(zero->altitude_m[i], LS_DIM_ALTITUDE, NULL, view->units, 0, height);
            snprintf(label, sizeof label, "no thrust, %.40s", height);
            ls_chart_add_curve(chart, i == 0 ? LS_CURVE_MAIN : LS_CURVE_OTHER, panel,
                               label_in(chart, panel, label));
            for (int j = 0; j < zero->speeds; j++) {
                ls_chart_add_point(chart, shown(view, LS_DIM_SPEED, zero->cas_m_s[j]),
                                   setting_value(view, &zero->zero[i][j], panel));
            }
        }
        ls_phrase_value(zero->altitude_m[0], LS_DIM_ALTITUDE, NULL, view->units, 0, height);
        snprintf(label, sizeof label, "like feather, %.40s", height);
        ls_chart_add_curve(chart, LS_CURVE_OTHER, panel, label_in(chart, panel, label));
        for (int j = 0; j < zero->speeds; j++) {
            ls_chart_add_point(chart, shown(view, LS_DIM_SPEED, zero->cas_m_s[j]),
                               setting_value(view, &zero->feather[0][j], panel));
        }
    }
}

void ls_chart_of_demonstration(ls_chart *chart, const ls_prop_view *view, int slide)
{
    char what[LS_PHRASE], speed[LS_PHRASE], vmc[LS_PHRASE], drag[LS_PHRASE], text[LS_CHART_LABEL];
    const ls_idle_demonstration *demonstration = view->demonstration;
    ls_phrase_cas(view->cas_m_s, view->units, view->uncertain, speed);
    snprintf(what, sizeof what, "%s", "the failed engine's propeller, dead or only idling");
    start(chart, view, LS_CHART_BARS, "prop-idle-or-dead", what, slide);
    set_axis_of(view, &chart->x, "drag", LS_DIM_FORCE);
    chart->x.with_zero = 1;
    snprintf(text, sizeof text, "drag at %.40s", speed);
    int group = ls_chart_add_group(chart, text);
    for (int i = 0; i < demonstration->count; i++) {
        const ls_prop_point *at = &demonstration->point[i];
        const ls_vmca_point *point = &demonstration->vmc[i];
        if (at->status != LS_OK) {
            continue;
        }
        int row = ls_chart_add_row(chart, ls_prop_state_text(demonstration->state[i]));
        int has_vmc = point->status == LS_OK && isfinite(point->vmc.cas_m_s);
        ls_prop_force(view, fmax(0.0, -at->thrust_N), drag);
        snprintf(text, sizeof text, "%.30s%s%.40s", drag, has_vmc ? ", VMC " : "",
                 has_vmc ? ls_phrase_cas(point->vmc.cas_m_s, view->units, view->uncertain, vmc) : "");
        ls_chart_add_bar(chart, row, group, 0.0, shown(view, LS_DIM_FORCE, -at->thrust_N), text);
    }
}

void ls_chart_of_blades(ls_chart *chart, const ls_prop_view *view, int slide)
{
    const ls_blade_counts *counts = view->counts;
    start(chart, view, LS_CHART_CURVES, "prop-blades",
          "more or fewer of the same blade, at the same tip speed and power", slide);
    chart->panels = 2;
    set_axis(&chart->x, "blades", "");
    chart->x.step = 1.0;
    set_axis(&chart->y[0], "efficiency", "%");
    set_axis_of(view, &chart->y[1], "power taken at the same blade angle", LS_DIM_POWER);
    for (int k = 0; k < 3; k++) {
        static const char *const labels[] = {"climb", "cruise", "in the climb"};
        ls_chart_add_curve(chart, k == 1 ? LS_CURVE_OTHER : LS_CURVE_MAIN, k == 2, labels[k]);
        for (int i = 0; i < counts->count; i++) {
            const ls_blade_count *row = &counts->row[i];
            double value = k == 2 ? shown(view, LS_DIM_POWER, row->absorbed_W) : 100.0 * row->efficiency[k + 1];
            ls_chart_add_point(chart, row->blades, value);
        }
    }
}
