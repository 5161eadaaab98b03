#include "report/ground_report.h"

#include "report/phrase.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

#define DEG (3.14159265358979323846 / 180.0)

static const ls_column shown_columns[] = {
    {"t", "time\ns", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"x", "along", LS_DIM_LENGTH, 0, LS_IN_TEXT, "ft"},
    {"y", "off", LS_DIM_LENGTH, 1, LS_IN_TEXT, "ft"},
    {"cas", "CAS", LS_DIM_SPEED, 1, LS_IN_TEXT, NULL},
    {"heading", "heading\ndeg", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"path", "path\ndeg", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"rudder", "rudder\ndeg", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"pedal", "pedal", LS_DIM_FORCE, 0, LS_IN_TEXT, NULL},
    {"tyre", "tyres'\nside", LS_DIM_FORCE, 0, LS_IN_TEXT, NULL},
};

static const ls_column history_columns[] = {
    {"t", "", LS_DIM_TIME, 2, LS_IN_DATA, NULL},
    {"along", "", LS_DIM_LENGTH, 2, LS_IN_DATA, "ft"},
    {"right", "", LS_DIM_LENGTH, 2, LS_IN_DATA, "ft"},
    {"cas", "", LS_DIM_SPEED, 2, LS_IN_DATA, NULL},
    {"heading", "", LS_DIM_ANGLE, 3, LS_IN_DATA, NULL},
    {"path", "", LS_DIM_ANGLE, 3, LS_IN_DATA, NULL},
    {"sideslip", "", LS_DIM_ANGLE, 3, LS_IN_DATA, NULL},
    {"rudder", "", LS_DIM_ANGLE, 3, LS_IN_DATA, NULL},
    {"pedal_force", "", LS_DIM_FORCE, 1, LS_IN_DATA, NULL},
    {"tyre_force", "", LS_DIM_FORCE, 1, LS_IN_DATA, NULL},
    {"main_wheel_load", "", LS_DIM_FORCE, 1, LS_IN_DATA, NULL},
    {"failed_speed", "", LS_DIM_ROTATION, 1, LS_IN_DATA, NULL},
    {"failed_thrust", "", LS_DIM_FORCE, 1, LS_IN_DATA, NULL},
};

static const ls_column case_columns[] = {
    {"what", "changed", LS_WORDS, 0, LS_IN_TEXT | LS_IN_JSON, NULL},
    {"to", "to", LS_WORDS, 0, LS_IN_TEXT | LS_IN_JSON, NULL},
    {"vmcg", "VMCG", LS_DIM_SPEED, 1, LS_IN_TEXT | LS_IN_JSON, NULL},
    {"change", "change", LS_DIM_SPEED, 1, LS_IN_TEXT | LS_IN_JSON, NULL},
    {"reason", "", LS_WORDS, 0, LS_IN_TEXT | LS_IN_JSON, NULL},
};

#define COUNT(columns) ((int)(sizeof(columns) / sizeof((columns)[0])))

static void fact(ls_report *report, const char *name, const char *format, ...) LS_PRINTF(3, 4);

static void fact(ls_report *report, const char *name, const char *format, ...)
{
    char text[2 * LS_PHRASE];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    ls_report_line(report, "  %-14s%s", name, text);
}

static int is_found(const ls_vmcg *vmcg)
{
    return vmcg->status == LS_OK && isfinite(vmcg->cas_m_s);
}

/* "77.4 KCAS", "below 28 KCAS", or why there is none. */
static const char *speed_text(const ls_ground_view *view, const ls_vmcg *vmcg, char out[LS_PHRASE])
{
    char speed[LS_PHRASE];
    if (!is_found(vmcg)) {
        snprintf(out, LS_PHRASE, "none: %.90s", vmcg->reason);
        return out;
    }
    ls_phrase_cas(vmcg->cas_m_s, view->units, view->uncertain, speed);
    snprintf(out, LS_PHRASE, "%s%.60s", vmcg->is_lowest ? "" : "below ", speed);
    return out;
}

static void say_answer(ls_report *report, const ls_ground_view *view)
{
    const ls_ground *ground = view->ground;
    char speed[LS_PHRASE], name[LS_PHRASE];
    ls_phrase_set(view->aircraft, ground->request.failed, name);
    speed_text(view, &ground->vmcg, speed);
    ls_report_answer(report, "%s: VMCG %s, %.60s engine failing, pilot after %.1f s.", view->aircraft->name, speed,
                     name, ground->request.delay_s);
    ls_report_line(report, "%s", "");
}

static void say_track(ls_report *report, const ls_ground_view *view)
{
    const ls_runway *track = &view->ground->track;
    char speed[LS_PHRASE], off[LS_PHRASE], back[LS_PHRASE];
    ls_phrase_cas(track->sample[0].cas_m_s, view->units, view->uncertain, speed);
    ls_phrase_value(fabs(track->y_most_m), LS_DIM_LENGTH, "ft", view->units, 1, off);
    if (isnan(track->parallel_s)) {
        snprintf(back, sizeof back, "%s at %.1f s", ls_runway_end_text(track->end), track->end_s);
    } else {
        snprintf(back, sizeof back, "parallel again at %.1f s", track->parallel_s);
    }
    fact(report, "track", "failing at %s: %s off, %s", speed, off, back);
    if (!isnan(track->rudder_stop_s)) {
        fact(report, "rudder", "all of its travel from %.1f s", track->rudder_stop_s);
    }
    if (!isnan(track->pedal_limit_s)) {
        fact(report, "pedal", "at the force limit from %.1f s", track->pedal_limit_s);
    }
    if (!isnan(track->lifts_s)) {
        fact(report, "lift", "the wheels carry nothing from %.1f s: held down from there", track->lifts_s);
    }
}

static void say_terms(ls_report *report, const ls_ground_view *view)
{
    const ls_aircraft *aircraft = view->aircraft;
    char limit[LS_PHRASE], speed[LS_PHRASE], wind[LS_PHRASE];
    double cross_m_s = view->ground->request.crosswind_m_s;
    ls_phrase_value(LS_RUNWAY_LIMIT_M, LS_DIM_LENGTH, "ft", view->units, 0, limit);
    fact(report, "counted", "rudder alone, no nose-wheel steering; %s off until parallel", limit);
    if (aircraft->ground.cornering_per_rad > 0.0) {
        fact(report, "tyres", "main wheels' side force %.3g of load per rad of slip, to %.3g",
             aircraft->ground.cornering_per_rad, aircraft->ground.grip);
    } else {
        fact(report, "tyres", "no side force");
    }
    if (cross_m_s != 0.0) {
        fact(report, "crosswind", "%s from the %s", ls_phrase_speed(fabs(cross_m_s), view->units, 0, wind),
             cross_m_s > 0.0 ? "right" : "left");
    }
    if (view->ground->has_other) {
        fact(report, "other engine", "%s", speed_text(view, &view->ground->other, speed));
    }
}

/* "12.3 L": an angle with the side that it is on. */
static void sided(ls_table *table, double angle_rad)
{
    if (fabs(angle_rad) < 0.05 * DEG) {
        ls_table_words(table, "0.0");
    } else {
        ls_table_words(table, "%.1f %s", fabs(angle_rad) / DEG, angle_rad > 0.0 ? "R" : "L");
    }
}

static void table_of_track(ls_report *report, const ls_ground_view *view)
{
    const ls_runway *track = &view->ground->track;
    ls_table *table = ls_report_table(
        report, "shown", "The roll; R, L: to the right, left (rudder: the pedal); sides without signs", LS_IN_TEXT,
        shown_columns, COUNT(shown_columns));
    double next_s = 0.0;
    for (int k = 0; k < track->count; k++) {
        const ls_runway_sample *s = &track->sample[k];
        if (s->t_s < next_s - 1e-9 && k != track->count - 1) {
            continue;
        }
        next_s += next_s < 4.0 - 1e-9 ? 0.5 : next_s < 8.0 - 1e-9 ? 1.0 : 2.0;
        ls_table_row(table);
        ls_table_words(table, "%.1f", s->t_s);
        ls_table_number(table, s->x_m);
        ls_table_number(table, fabs(s->y_m));
        ls_table_number(table, s->cas_m_s);
        sided(table, s->heading_rad);
        sided(table, s->path_rad);
        sided(table, -s->rudder_rad);
        ls_table_number(table, fabs(s->pedal_force_N));
        ls_table_number(table, fabs(s->tyre_N));
    }
    ls_report_line(report, "%s", "");
}

static void table_of_history(ls_report *report, const ls_ground_view *view)
{
    const ls_runway *track = &view->ground->track;
    ls_table *table =
        ls_report_table(report, "history", NULL, LS_IN_DATA, history_columns, COUNT(history_columns));
    for (int k = 0; k < track->count; k++) {
        const ls_runway_sample *s = &track->sample[k];
        const double values[] = {s->t_s,
                                 s->x_m,
                                 s->y_m,
                                 s->cas_m_s,
                                 s->heading_rad,
                                 s->path_rad,
                                 s->beta_rad,
                                 s->rudder_rad,
                                 s->pedal_force_N,
                                 s->tyre_N,
                                 s->load_N,
                                 s->failed_rev_s,
                                 s->failed_thrust_N};
        ls_table_row(table);
        for (int i = 0; i < COUNT(values); i++) {
            ls_table_number(table, values[i]);
        }
    }
}

static void table_of_cases(ls_report *report, const ls_ground_view *view)
{
    const ls_ground *ground = view->ground;
    ls_table *table = ls_report_table(report, "cases", "VMCG (CAS) with one thing changed",
                                      LS_IN_TEXT | LS_IN_JSON, case_columns, COUNT(case_columns));
    for (int i = 0; i < ground->cases; i++) {
        const ls_ground_case *of = &ground->of[i];
        int found = is_found(&of->vmcg);
        ls_table_row(table);
        ls_table_words(table, "%s", of->what);
        ls_table_words(table, "%s", of->label);
        ls_table_number(table, found ? of->vmcg.cas_m_s : NAN);
        ls_table_number(table, found && is_found(&ground->vmcg) ? of->vmcg.cas_m_s - ground->vmcg.cas_m_s : NAN);
        ls_table_words(table, "%s", !found ? of->vmcg.reason : of->vmcg.is_lowest ? "" : "or lower");
    }
    ls_report_line(report, "%s", "");
}

static void add_data(ls_report *report, const ls_ground_view *view)
{
    const ls_ground *ground = view->ground;
    char name[LS_PHRASE];
    ls_report_words(report, "failed", "%s", ls_phrase_set(view->aircraft, ground->request.failed, name));
    if (is_found(&ground->vmcg)) {
        ls_report_number(report, "vmcg_cas", LS_DIM_SPEED, NULL, ground->vmcg.cas_m_s);
    } else {
        ls_report_missing(report, "vmcg_cas", LS_DIM_SPEED, ground->vmcg.reason);
    }
    ls_report_number(report, "delay", LS_DIM_TIME, NULL, ground->request.delay_s);
    ls_report_number(report, "track.cas", LS_DIM_SPEED, NULL, ground->track.sample[0].cas_m_s);
    ls_report_number(report, "track.deviation", LS_DIM_LENGTH, "ft", ground->track.y_most_m);
    ls_report_words(report, "track.end", "%s", ls_runway_end_text(ground->track.end));
    if (isnan(ground->track.parallel_s)) {
        ls_report_missing(report, "track.parallel", LS_DIM_TIME, "the path is not parallel again");
    } else {
        ls_report_number(report, "track.parallel", LS_DIM_TIME, NULL, ground->track.parallel_s);
    }
}

static void warn(ls_report *report, const ls_ground_view *view)
{
    if (view->uncertain > 0) {
        ls_report_warning(report,
                          "%d of the file's values are estimated or assumed: speeds are given to whole knots.",
                          view->uncertain);
    }
    if (view->uncertain_motion > 0) {
        ls_report_warning(
            report,
            "%d values of motion (inertias, rates, wheels, tyres, pilot) are estimated or assumed, and the "
            "result is no better.",
            view->uncertain_motion);
    }
}

void ls_ground_report(ls_report *report, const ls_ground_view *view)
{
    say_answer(report, view);
    say_track(report, view);
    say_terms(report, view);
    ls_report_line(report, "%s", "");
    table_of_track(report, view);
    table_of_history(report, view);
    table_of_cases(report, view);
    add_data(report, view);
    warn(report, view);
}

/* ---- the chart ---- */

static void add_track(ls_chart *chart, const ls_ground_view *view, const ls_runway *roll, ls_curve_role role,
                      const char *label)
{
    const ls_unit *unit = view->units == LS_UNITS_US ? ls_unit_find(LS_DIM_LENGTH, "ft")
                                                     : ls_unit_preferred(view->units, LS_DIM_LENGTH);
    int side = view->ground->live_side != 0 ? view->ground->live_side : 1;
    ls_chart_add_curve(chart, role, 0, label);
    for (int k = 0; k < roll->count; k++) {
        double off = -side * roll->sample[k].y_m;
        ls_chart_add_point(chart, ls_unit_from_si(unit, roll->sample[k].x_m),
                           fabs(off) < 5.0 * LS_RUNWAY_LIMIT_M ? ls_unit_from_si(unit, off) : NAN);
    }
}

void ls_chart_of_tracks(ls_chart *chart, const ls_ground_view *view, int slide)
{
    const ls_ground *ground = view->ground;
    const ls_unit *unit = view->units == LS_UNITS_US ? ls_unit_find(LS_DIM_LENGTH, "ft")
                                                     : ls_unit_preferred(view->units, LS_DIM_LENGTH);
    char speed[LS_PHRASE], label[LS_CHART_LABEL];
    ls_chart_start(chart, LS_CHART_CURVES, "runway-tracks");
    chart->slide = slide;
    ls_phrase_cas(ground->track.sample[0].cas_m_s, view->units, view->uncertain, speed);
    snprintf(chart->title, sizeof chart->title, "%.100s: tracks after a failure at %.60s", view->aircraft->name,
             speed);
    snprintf(chart->x.label, sizeof chart->x.label, "along the runway from the failure");
    snprintf(chart->x.unit, sizeof chart->x.unit, "%s", unit->name);
    snprintf(chart->y[0].label, sizeof chart->y[0].label, "off the centreline, toward the dead engine");
    snprintf(chart->y[0].unit, sizeof chart->y[0].unit, "%s", unit->name);
    chart->y[0].with_zero = 1;
    snprintf(label, sizeof label, "pilot after %.1f s", ground->request.delay_s);
    add_track(chart, view, &ground->track, LS_CURVE_MAIN, label);
    add_track(chart, view, &ground->slower, LS_CURVE_OTHER, "5 kt slower");
    add_track(chart, view, &ground->no_action, LS_CURVE_OTHER, "no rudder");
    ls_chart_add_horizontal(chart, 0, ls_unit_from_si(unit, LS_RUNWAY_LIMIT_M), "limit");
}
