/* The tables of `failure`: how it goes, what delay costs, the drill. */
#include "report/failure_parts.h"

#include <math.h>
#include <stdio.h>

#define DEG (3.14159265358979323846 / 180.0)

static const ls_column shown_columns[] = {
    {"t", "time\ns", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"heading", "heading\ndeg", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"bank", "bank\ndeg", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"wind", "wind\ndeg", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"rudder", "rudder\ndeg", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"pedal", "pedal", LS_DIM_FORCE, 0, LS_IN_TEXT, NULL},
    {"cas", "CAS", LS_DIM_SPEED, 1, LS_IN_TEXT, NULL},
    {"height", "height", LS_DIM_ALTITUDE, 0, LS_IN_TEXT, NULL},
    {"rpm", "rpm", LS_DIM_ROTATION, 0, LS_IN_TEXT, "rpm"},
    {"thrust", "dead\nthrust", LS_DIM_FORCE, 0, LS_IN_TEXT, NULL},
};

static const ls_column history_columns[] = {
    {"t", "", LS_DIM_TIME, 2, LS_IN_DATA, NULL},
    {"heading", "", LS_DIM_ANGLE, 3, LS_IN_DATA, NULL},
    {"bank", "", LS_DIM_ANGLE, 3, LS_IN_DATA, NULL},
    {"pitch", "", LS_DIM_ANGLE, 3, LS_IN_DATA, NULL},
    {"sideslip", "", LS_DIM_ANGLE, 3, LS_IN_DATA, NULL},
    {"incidence", "", LS_DIM_ANGLE, 3, LS_IN_DATA, NULL},
    {"turn", "", LS_DIM_ANGULAR_RATE, 3, LS_IN_DATA, NULL},
    {"rudder", "", LS_DIM_ANGLE, 3, LS_IN_DATA, NULL},
    {"aileron", "", LS_DIM_ANGLE, 3, LS_IN_DATA, NULL},
    {"pedal_force", "", LS_DIM_FORCE, 1, LS_IN_DATA, NULL},
    {"cas", "", LS_DIM_SPEED, 2, LS_IN_DATA, NULL},
    {"climbed", "", LS_DIM_ALTITUDE, 1, LS_IN_DATA, NULL},
    {"load_factor", "", LS_DIM_NUMBER, 3, LS_IN_DATA, NULL},
    {"failed_speed", "", LS_DIM_ROTATION, 1, LS_IN_DATA, NULL},
    {"failed_blade_angle", "", LS_DIM_ANGLE, 2, LS_IN_DATA, NULL},
    {"failed_thrust", "", LS_DIM_FORCE, 1, LS_IN_DATA, NULL},
    {"live_thrust", "", LS_DIM_FORCE, 1, LS_IN_DATA, NULL},
};

static const ls_column delay_columns[] = {
    {"delay", "delay\ns", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"delay", "", LS_DIM_TIME, 1, LS_IN_JSON, NULL},
    {"dynamic_vmc", "dynamic\nVMC", LS_DIM_SPEED, 1, LS_IN_TEXT | LS_IN_JSON, NULL},
    {"above", "above\nstatic", LS_DIM_SPEED, 1, LS_IN_TEXT | LS_IN_JSON, NULL},
    {"below", "just below it", LS_WORDS, 0, LS_IN_TEXT | LS_IN_JSON, NULL},
};

static const ls_column drill_columns[] = {
    {"seconds", "feathered\nafter, s", LS_WORDS, 0, LS_IN_TEXT | LS_IN_JSON, NULL},
    {"rpm", "at\nrpm", LS_DIM_ROTATION, 0, LS_IN_TEXT | LS_IN_JSON, "rpm"},
    {"stands", "stands\nat, s", LS_WORDS, 0, LS_IN_TEXT | LS_IN_JSON, NULL},
    {"height", "height\nafter 60 s", LS_DIM_ALTITUDE, 0, LS_IN_TEXT | LS_IN_JSON, NULL},
    {"lost", "lost to the\nfirst row", LS_DIM_ALTITUDE, 0, LS_IN_TEXT | LS_IN_JSON, NULL},
    {"cas", "CAS\nafter 60 s", LS_DIM_SPEED, 1, LS_IN_TEXT | LS_IN_JSON, NULL},
    {"note", "", LS_WORDS, 0, LS_IN_TEXT | LS_IN_JSON, NULL},
};

#define COUNT(columns) ((int)(sizeof(columns) / sizeof((columns)[0])))

/* "12.3 dead": an angle with the side that it is on. */
static void sided(const ls_failure_view *view, ls_table *table, double angle_rad)
{
    double dead_rad = ls_failure_toward_dead(view, angle_rad);
    if (fabs(angle_rad) < 0.05 * DEG) {
        ls_table_words(table, "0.0");
    } else if (view->failure->live_side == 0) {
        ls_table_words(table, "%.1f %s", fabs(angle_rad) / DEG, angle_rad > 0 ? "R" : "L");
    } else {
        ls_table_words(table, "%.1f %s", fabs(angle_rad) / DEG, dead_rad > 0 ? "d" : "l");
    }
}

static void shown_row(const ls_failure_view *view, ls_table *table, const ls_motion_sample *s)
{
    ls_table_row(table);
    ls_table_words(table, "%.1f", s->t_s);
    sided(view, table, s->heading_rad);
    sided(view, table, s->bank_rad);
    sided(view, table, s->beta_rad); /* wind from the right is from that side */
    if (fabs(s->rudder_rad) < 0.05 * DEG) {
        ls_table_words(table, "0.0");
    } else {
        ls_table_words(table, "%.1f %s", fabs(s->rudder_rad) / DEG, s->rudder_rad > 0 ? "L" : "R");
    }
    ls_table_number(table, fabs(s->pedal_force_N));
    ls_table_number(table, s->cas_m_s);
    ls_table_number(table, s->climbed_m);
    ls_table_number(table, s->failed_rev_s);
    ls_table_number(table, s->failed_thrust_N);
}

/* Twice a second at first, then every second, then every five: what a reader can take in. */
static void table_of_motion(ls_report *report, const ls_failure_view *view)
{
    const ls_motion *motion = &view->failure->with_action;
    ls_table *table = ls_report_table(
        report, "shown", "How it goes; d, l: to the dead, live engine (wind: from it); L, R: that pedal",
        LS_IN_TEXT, shown_columns, COUNT(shown_columns));
    double next_s = 0.0;
    for (int k = 0; k < motion->count; k++) {
        double t_s = motion->sample[k].t_s;
        if (t_s >= next_s - 1e-9 || k == motion->count - 1) {
            shown_row(view, table, &motion->sample[k]);
            next_s += next_s < 3.0 - 1e-9 ? 0.5 : next_s < 6.0 - 1e-9 ? 1.0 : next_s < 10.0 - 1e-9 ? 2.0 : 5.0;
        }
    }
    ls_report_line(report, "%s", "");
}

static void table_of_history(ls_report *report, const ls_failure_view *view)
{
    const ls_motion *motion = &view->failure->with_action;
    ls_table *table =
        ls_report_table(report, "history", NULL, LS_IN_DATA, history_columns, COUNT(history_columns));
    for (int k = 0; k < motion->count; k++) {
        const ls_motion_sample *s = &motion->sample[k];
        const double values[] = {s->t_s,          s->heading_rad,   s->bank_rad,         s->theta_rad,
                                 s->beta_rad,     s->alpha_rad,     s->turn_rad_s,       s->rudder_rad,
                                 s->aileron_rad,  s->pedal_force_N, s->cas_m_s,          s->climbed_m,
                                 s->load_factor,  s->failed_rev_s,  s->failed_pitch_rad, s->failed_thrust_N,
                                 s->live_thrust_N};
        ls_table_row(table);
        for (int i = 0; i < COUNT(values); i++) {
            ls_table_number(table, values[i]);
        }
    }
}

static void table_of_delays(ls_report *report, const ls_failure_view *view)
{
    const ls_failure *failure = view->failure;
    ls_table *table =
        ls_report_table(report, "delays", "Dynamic VMC (CAS) against the pilot's delay, airspeed held",
                        LS_IN_TEXT | LS_IN_JSON, delay_columns, COUNT(delay_columns));
    for (int k = 0; k < LS_FAILURE_DELAYS; k++) {
        const ls_dynamic_vmc *at = &failure->dynamic[k];
        int found = at->status == LS_OK && isfinite(at->cas_m_s);
        ls_table_row(table);
        ls_table_words(table, "%.1f", at->delay_s);
        ls_table_number(table, at->delay_s);
        ls_table_number(table, found ? at->reported_cas_m_s : NAN);
        ls_table_number(table, found ? fmax(0.0, at->reported_cas_m_s - failure->fixed.control_cas_m_s) : NAN);
        if (!found) {
            ls_table_words(table, "%s", at->reason);
        } else if (!at->is_lowest) {
            ls_table_words(table, "the stall: no limit down to it");
        } else {
            ls_table_words(table, "%s",
                           at->below == LS_MOTION_TIME ? "straight flight is not held"
                                                       : ls_motion_end_text(at->below));
        }
    }
    ls_report_line(report, "%s", "");
}

static void sweep_cell(ls_table *table, const ls_failure_cell *cell)
{
    int lost = cell->end != LS_MOTION_TIME && cell->end != LS_MOTION_STRAIGHT;
    if (isnan(cell->heading_most_rad)) {
        ls_table_words(table, "-");
    } else if (lost) {
        ls_table_words(table, "lost");
    } else {
        ls_table_words(table, "%.0f%s", fabs(cell->heading_most_rad) / DEG,
                       fabs(cell->heading_most_rad) > LS_HEADING_LIMIT_RAD ? " over" : "");
    }
}

static void table_of_sweep(ls_report *report, ls_failure_view *view)
{
    const ls_failure *failure = view->failure;
    view->sweep[0] = (ls_column){"cas", "CAS at the\nfailure", LS_DIM_SPEED, 0, LS_IN_TEXT | LS_IN_JSON, NULL};
    for (int k = 0; k < LS_FAILURE_DELAYS; k++) {
        static const char *const keys[LS_FAILURE_DELAYS] = {"delay_0_s", "delay_0_5_s", "delay_1_s", "delay_1_5_s",
                                                            "delay_2_s", "delay_2_5_s", "delay_3_s"};
        snprintf(view->heading[k], sizeof view->heading[k], "%.1f s", ls_failure_delays[k]);
        view->sweep[k + 1] = (ls_column){keys[k], view->heading[k], LS_WORDS, 0, LS_IN_TEXT | LS_IN_JSON, NULL};
    }
    ls_table *table = ls_report_table(report, "sweep",
                                      "Heading change in 10 s, deg, airspeed held, by delay; over: more than 20",
                                      LS_IN_TEXT | LS_IN_JSON, view->sweep, LS_FAILURE_DELAYS + 1);
    for (int i = 0; i < LS_FAILURE_SPEEDS; i++) {
        ls_table_row(table);
        ls_table_number(table, failure->cas_m_s[i]);
        for (int k = 0; k < LS_FAILURE_DELAYS; k++) {
            sweep_cell(table, &failure->cell[i][k]);
        }
    }
    ls_report_line(report, "%s", "");
}

static void drill_row(const ls_drill *drill, ls_table *table, const ls_drill_row *row)
{
    ls_table_row(table);
    if (isfinite(row->seconds)) {
        ls_table_words(table, "%.0f", row->seconds);
    } else {
        ls_table_words(table, "never");
    }
    ls_table_number(table, row->rev_s);
    if (isfinite(row->stopped_s)) {
        ls_table_words(table, "%.1f", row->stopped_s);
    } else {
        ls_table_words(table, "turns");
    }
    ls_table_number(table, row->climbed_m);
    ls_table_number(table, drill->row[0].climbed_m - row->climbed_m);
    ls_table_number(table, row->cas_m_s);
    if (row->latched) {
        ls_table_words(table, "latched: too slow to feather");
    } else if (row->end != LS_MOTION_TIME) {
        ls_table_words(table, "%s at %.0f s", ls_motion_end_text(row->end), row->end_s);
    } else {
        ls_table_words(table, "%s", "");
    }
}

static void table_of_drill(ls_report *report, const ls_failure_view *view)
{
    const ls_drill *drill = view->drill;
    ls_table *table =
        ls_report_table(report, "drill", "The feathering drill: seconds to identify, verify and feather",
                        LS_IN_TEXT | LS_IN_JSON, drill_columns, COUNT(drill_columns));
    for (int i = 0; i < LS_DRILL_ROWS; i++) {
        drill_row(drill, table, &drill->row[i]);
    }
    if (!isnan(drill->latch_s)) {
        ls_report_line(report, "After %.1f s it turns too slowly to be feathered.", drill->latch_s);
    }
    ls_report_line(report, "%s", "");
}

void ls_failure_tables(ls_report *report, ls_failure_view *view)
{
    table_of_motion(report, view);
    table_of_history(report, view);
    table_of_delays(report, view);
    table_of_sweep(report, view);
    if (view->drill != NULL) {
        table_of_drill(report, view);
    }
}

static void time_or_reason(ls_report *report, const char *path, double t_s, const char *reason)
{
    if (isnan(t_s)) {
        ls_report_missing(report, path, LS_DIM_TIME, reason);
    } else {
        ls_report_number(report, path, LS_DIM_TIME, NULL, t_s);
    }
}

static void speed_or_reason(ls_report *report, const char *path, double m_s, const char *reason)
{
    if (isnan(m_s)) {
        ls_report_missing(report, path, LS_DIM_SPEED, reason);
    } else {
        ls_report_number(report, path, LS_DIM_SPEED, NULL, m_s);
    }
}

static void data_of_modes(ls_report *report, const ls_failure_view *view)
{
    if (view->recovery != NULL) {
        ls_report_flag(report, "recovery.regained", view->recovery->is_regained);
        time_or_reason(report, "recovery.after", view->recovery->seconds, "control is not regained");
        speed_or_reason(report, "recovery.cas", view->recovery->cas_m_s, "control is not regained");
        if (view->recovery->is_regained) {
            ls_report_number(report, "recovery.height_lost", LS_DIM_ALTITUDE, NULL, view->recovery->height_lost_m);
        }
    }
    if (view->demonstration != NULL) {
        ls_report_flag(report, "demonstration.control_first", view->demonstration->control_first);
        speed_or_reason(report, "demonstration.rudder_cas", view->demonstration->rudder_cas_m_s,
                        "the rudder does not run out");
        ls_report_words(report, "demonstration.end", "%s", ls_motion_end_text(view->demonstration->motion.end));
        ls_report_number(report, "demonstration.end_cas", LS_DIM_SPEED, NULL, view->demonstration->end_cas_m_s);
    }
}

void ls_failure_data(ls_report *report, const ls_failure_view *view)
{
    const ls_failure *failure = view->failure;
    const ls_motion *motion = &failure->with_action;
    ls_report_words(report, "end", "%s", ls_motion_end_text(motion->end));
    ls_report_number(report, "end_time", LS_DIM_TIME, NULL, motion->end_s);
    ls_report_number(report, "start_cas", LS_DIM_SPEED, NULL, motion->start.cas_m_s);
    ls_report_number(report, "heading_most", LS_DIM_ANGLE, NULL, motion->heading_most_rad);
    ls_report_number(report, "bank_most", LS_DIM_ANGLE, NULL, motion->bank_most_rad);
    ls_report_number(report, "sideslip_most", LS_DIM_ANGLE, NULL, motion->beta_most_rad);
    ls_report_number(report, "climbed_least", LS_DIM_ALTITUDE, NULL, motion->climbed_least_m);
    ls_report_number(report, "cas_least", LS_DIM_SPEED, NULL, motion->cas_least_m_s);
    time_or_reason(report, "straight_from", motion->straight_s, "straight flight is not held");
    time_or_reason(report, "no_action.heading_20_deg", failure->no_action.heading_limit_s,
                   "the heading does not change by 20 deg");
    ls_report_words(report, "no_action.end", "%s", ls_motion_end_text(failure->no_action.end));
    speed_or_reason(report, "static_vmc_cas", failure->fixed.control_cas_m_s, "no control limit is met");
    speed_or_reason(report, "dynamic_vmc_cas", failure->asked.reported_cas_m_s, "none in the range");
    char name[LS_PHRASE];
    ls_report_words(report, "failed", "%s", ls_phrase_set(view->aircraft, failure->request.failed, name));
    data_of_modes(report, view);
}
