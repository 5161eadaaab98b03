#include "report/failure_charts.h"

#include "report/failure_parts.h"

#include <math.h>
#include <stdio.h>

#define DEG (3.14159265358979323846 / 180.0)

typedef double reading(const ls_failure_view *view, const ls_motion_sample *s);

static double shown(const ls_failure_view *view, ls_dimension dimension, double si)
{
    return ls_unit_from_si(ls_unit_preferred(view->units, dimension), si);
}

static double heading(const ls_failure_view *view, const ls_motion_sample *s)
{
    return ls_failure_toward_dead(view, s->heading_rad) / DEG;
}

static double bank(const ls_failure_view *view, const ls_motion_sample *s)
{
    return ls_failure_toward_dead(view, s->bank_rad) / DEG;
}

/* Positive with the wind from the live side, as the nose swings to the dead one. */
static double wind(const ls_failure_view *view, const ls_motion_sample *s)
{
    return -ls_failure_toward_dead(view, s->beta_rad) / DEG;
}

/* Positive with the pedal of the live side, which stops the swing. */
static double rudder(const ls_failure_view *view, const ls_motion_sample *s)
{
    return ls_failure_toward_dead(view, s->rudder_rad) / DEG;
}

static double airspeed(const ls_failure_view *view, const ls_motion_sample *s)
{
    return shown(view, LS_DIM_SPEED, s->cas_m_s);
}

static double height(const ls_failure_view *view, const ls_motion_sample *s)
{
    return shown(view, LS_DIM_ALTITUDE, s->climbed_m);
}

static double rpm(const ls_failure_view *view, const ls_motion_sample *s)
{
    (void)view;
    return 60.0 * s->failed_rev_s;
}

static double thrust(const ls_failure_view *view, const ls_motion_sample *s)
{
    return shown(view, LS_DIM_FORCE, s->failed_thrust_N);
}

static void add(ls_chart *chart, const ls_failure_view *view, const ls_motion *motion, reading *read,
                ls_curve_role role, int panel, const char *label)
{
    ls_chart_add_curve(chart, role, panel, label);
    for (int k = 0; k < motion->count; k++) {
        ls_chart_add_point(chart, motion->sample[k].t_s, read(view, &motion->sample[k]));
    }
}

static void set_axis(ls_chart_axis *axis, const char *label, const char *unit)
{
    snprintf(axis->label, sizeof axis->label, "%s", label);
    snprintf(axis->unit, sizeof axis->unit, "%s", unit);
}

static void start(ls_chart *chart, const ls_failure_view *view, const char *name, const char *shows, int slide)
{
    char failed[LS_PHRASE];
    ls_phrase_set(view->aircraft, view->failure->request.failed, failed);
    ls_chart_start(chart, LS_CHART_CURVES, name);
    chart->slide = slide;
    snprintf(chart->title, sizeof chart->title, "%.100s: %s, %.60s engine failed", view->aircraft->name, shows,
             failed);
    set_axis(&chart->x, "time from the failure", "s");
}

void ls_chart_of_attitude(ls_chart *chart, const ls_failure_view *view, int slide)
{
    const ls_motion *motion = &view->failure->with_action, *idle = &view->failure->no_action;
    start(chart, view, "failure-attitude", "heading, bank, sideslip and rudder", slide);
    chart->panels = 2;
    set_axis(&chart->y[0], "toward the dead engine", "deg");
    set_axis(&chart->y[1], "live-side pedal; wind from the live side", "deg");
    chart->y[0].with_zero = chart->y[1].with_zero = 1;
    add(chart, view, motion, heading, LS_CURVE_MAIN, 0, "heading");
    add(chart, view, motion, bank, LS_CURVE_OTHER, 0, "bank");
    if (isfinite(view->failure->request.delay_s)) {
        add(chart, view, idle, heading, LS_CURVE_OTHER, 0, "heading without action");
    }
    ls_chart_add_horizontal(chart, 0, 20.0, "20 deg");
    add(chart, view, motion, rudder, LS_CURVE_MAIN, 1, "rudder");
    add(chart, view, motion, wind, LS_CURVE_OTHER, 1, "sideslip");
    if (isfinite(view->failure->request.delay_s) && view->failure->request.delay_s > 0.0) {
        ls_chart_add_vertical(chart, view->failure->request.delay_s, "pilot acts");
    }
}

void ls_chart_of_losses(ls_chart *chart, const ls_failure_view *view, int slide)
{
    const ls_motion *motion = &view->failure->with_action;
    start(chart, view, "failure-losses", "airspeed and height", slide);
    chart->panels = 2;
    set_axis(&chart->y[0], "calibrated airspeed", ls_unit_preferred(view->units, LS_DIM_SPEED)->name);
    set_axis(&chart->y[1], "height gained", ls_unit_preferred(view->units, LS_DIM_ALTITUDE)->name);
    chart->y[1].with_zero = 1;
    add(chart, view, motion, airspeed, LS_CURVE_MAIN, 0, "airspeed");
    add(chart, view, motion, height, LS_CURVE_MAIN, 1, "height");
    if (isfinite(view->failure->fixed.control_cas_m_s)) {
        ls_chart_add_horizontal(chart, 0, shown(view, LS_DIM_SPEED, view->failure->fixed.control_cas_m_s),
                                "static VMC");
    }
}

void ls_chart_of_propeller(ls_chart *chart, const ls_failure_view *view, int slide)
{
    const ls_failure *failure = view->failure;
    const ls_motion *motion = &failure->with_action;
    start(chart, view, "failure-propeller", "the failed propeller", slide);
    chart->panels = 2;
    set_axis(&chart->y[0], "propeller speed", "rpm");
    set_axis(&chart->y[1], "thrust, negative drag", ls_unit_preferred(view->units, LS_DIM_FORCE)->name);
    chart->y[0].with_zero = chart->y[1].with_zero = 1;
    add(chart, view, motion, rpm, LS_CURVE_MAIN, 0, "speed");
    add(chart, view, motion, thrust, LS_CURVE_MAIN, 1, "thrust");
    for (int i = 0; i < view->aircraft->engines; i++) {
        double latch_rev_s =
            view->aircraft->powerplant[view->aircraft->engine[i].powerplant].propeller.feather_latch_rev_s;
        if ((failure->request.failed >> i & 1u) && ls_given(latch_rev_s)) {
            ls_chart_add_horizontal(chart, 0, 60.0 * latch_rev_s, "cannot be feathered below");
            break;
        }
    }
    if (isfinite(failure->request.feather_s)) {
        ls_chart_add_vertical(chart, failure->request.feather_s, "feathering selected");
    }
}

void ls_chart_of_delay(ls_chart *chart, const ls_failure_view *view, int slide)
{
    const ls_failure *failure = view->failure;
    start(chart, view, "dynamic-vmc", "minimum control speed and the pilot's delay", slide);
    set_axis(&chart->x, "delay until the pilot acts", "s");
    set_axis(&chart->y[0], "calibrated airspeed", ls_unit_preferred(view->units, LS_DIM_SPEED)->name);
    ls_chart_add_curve(chart, LS_CURVE_MAIN, 0, "dynamic VMC");
    for (int k = 0; k < LS_FAILURE_DELAYS; k++) {
        ls_chart_add_point(chart, ls_failure_delays[k],
                           failure->dynamic[k].status == LS_OK
                               ? shown(view, LS_DIM_SPEED, failure->dynamic[k].reported_cas_m_s)
                               : NAN);
    }
    if (isfinite(failure->fixed.control_cas_m_s)) {
        ls_chart_add_horizontal(chart, 0, shown(view, LS_DIM_SPEED, failure->fixed.control_cas_m_s), "static VMC");
    }
}
