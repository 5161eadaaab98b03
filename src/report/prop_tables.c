/* The propeller's tables. */
#include "report/prop_parts.h"

#include <math.h>
#include <stdio.h>

#define COLUMNS(array) (array), (int)(sizeof(array) / sizeof(array)[0])

/* ---- through a flight ---- */

static const ls_column flight_columns[] = {
    {"phase", "", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"cas", "CAS", LS_DIM_SPEED, 0, LS_IN_ALL, NULL},
    {"tas", "", LS_DIM_SPEED, 1, LS_IN_DATA, NULL},
    {"rotation", "RPM", LS_DIM_ROTATION, 0, LS_IN_ALL, NULL},
    {"manifold_pressure", "MAP", LS_DIM_PRESSURE, 1, LS_IN_ALL, NULL},
    {"pitch", "blade\nangle", LS_DIM_ANGLE, 1, LS_IN_ALL, NULL},
    {"angle_of_attack", "attack", LS_DIM_ANGLE, 1, LS_IN_ALL, NULL},
    {"thrust", "thrust", LS_DIM_FORCE, 0, LS_IN_ALL, NULL},
    {"torque", "torque", LS_DIM_TORQUE, 0, LS_IN_ALL, NULL},
    {"power", "", LS_DIM_POWER, 0, LS_IN_DATA, NULL},
    {"efficiency_percent", "effic.\n%", LS_DIM_NUMBER, 0, LS_IN_ALL, NULL},
    {"advance_ratio", "", LS_DIM_NUMBER, 3, LS_IN_DATA, NULL},
    {"tip_mach", "tip\nMach", LS_DIM_NUMBER, 2, LS_IN_ALL, NULL},
    {"inflow", "", LS_DIM_ANGLE, 1, LS_IN_DATA, NULL},
    {"lift_coefficient", "", LS_DIM_NUMBER, 3, LS_IN_DATA, NULL},
    {"drag_coefficient", "", LS_DIM_NUMBER, 4, LS_IN_DATA, NULL},
    {"unit", "", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"reason", "", LS_WORDS, 0, LS_IN_DATA, NULL},
};

static void flight_row(ls_table *table, const ls_prop_view *view, ls_phase phase)
{
    char doing[LS_PROP_SENTENCE];
    const ls_prop_point *at = &view->flight->phase[phase];
    ls_table_row(table);
    ls_table_words(table, "%s", ls_phase_name(phase));
    if (at->status != LS_OK) {
        for (int i = 1; i < (int)(sizeof flight_columns / sizeof flight_columns[0]) - 1; i++) {
            ls_table_skip(table);
        }
        ls_table_words(table, "%s", at->reason);
        return;
    }
    ls_table_number(table, at->cas_m_s);
    ls_table_number(table, at->V_m_s);
    ls_table_number(table, at->n_rev_s);
    ls_table_number(table, at->map_Pa);
    ls_table_number(table, at->pitch_rad);
    ls_table_number(table, at->alpha75_rad);
    ls_table_number(table, at->thrust_N);
    ls_table_number(table, at->torque_Nm);
    ls_table_number(table, at->power_W);
    ls_table_number(table, 100.0 * at->efficiency);
    ls_table_number(table, at->advance_ratio);
    ls_table_number(table, at->mach_tip);
    ls_table_number(table, at->phi75_rad);
    ls_table_number(table, at->cl75);
    ls_table_number(table, at->cd75);
    ls_table_words(table, "%s", ls_prop_doing(view, phase, doing));
}

static void table_of_flight(ls_report *report, const ls_prop_view *view)
{
    char doing[LS_PROP_SENTENCE];
    ls_table *table =
        ls_report_table(report, "flight", "The propeller through a flight; angles at three quarters of the radius",
                        LS_IN_ALL, COLUMNS(flight_columns));
    for (int i = 0; i < LS_PHASES; i++) {
        flight_row(table, view, (ls_phase)i);
    }
    ls_report_line(report, "%s", "");
    ls_report_line(report, "What the constant-speed unit is doing");
    for (int i = 0; i < LS_PHASES; i++) {
        ls_report_line(report, "  %s: %s", ls_phase_name((ls_phase)i), ls_prop_doing(view, (ls_phase)i, doing));
    }
    ls_report_line(report, "%s", "");
}

/* ---- on a dead engine ---- */

static const ls_column speed_columns[] = {
    {"cas", "CAS", LS_DIM_SPEED, 0, LS_IN_ALL, NULL},
    {"forward_rotation", "forward\nRPM", LS_DIM_ROTATION, 0, LS_IN_ALL, NULL},
    {"forward_drag", "drag", LS_DIM_FORCE, 0, LS_IN_ALL, NULL},
    {"aft_rotation", "aft\nRPM", LS_DIM_ROTATION, 0, LS_IN_ALL, NULL},
    {"aft_pitch", "blade\nangle", LS_DIM_ANGLE, 1, LS_IN_ALL, NULL},
    {"aft_drag", "drag", LS_DIM_FORCE, 0, LS_IN_ALL, NULL},
    {"stopped_drag", "stopped\ndrag", LS_DIM_FORCE, 0, LS_IN_ALL, NULL},
    {"feathered_drag", "feathered\ndrag", LS_DIM_FORCE, 0, LS_IN_ALL, NULL},
    {"remark", "", LS_WORDS, 0, LS_IN_ALL, NULL},
};

static void table_of_dead_by_speed(ls_report *report, const ls_prop_view *view)
{
    const ls_dead_by_speed *dead = view->by_speed;
    ls_table *table = ls_report_table(report, "dead_by_speed", "Dead engine: propeller lever forward and aft",
                                      LS_IN_TEXT | LS_IN_JSON, COLUMNS(speed_columns));
    for (int i = 0; i < dead->count; i++) {
        unsigned flags = dead->forward[i].flags;
        ls_table_row(table);
        ls_table_number(table, dead->cas_m_s[i]);
        ls_table_number(table, dead->forward[i].n_rev_s);
        ls_table_number(table, dead->forward[i].drag_N);
        ls_table_number(table, dead->aft[i].n_rev_s);
        ls_table_number(table, dead->aft[i].pitch_rad);
        ls_table_number(table, dead->aft[i].drag_N);
        ls_table_number(table, dead->stopped[i].drag_N);
        ls_table_number(table, dead->feathered[i].drag_N);
        ls_table_words(table, "%s",
                       flags & LS_PROPULSOR_STOPS     ? "does not turn"
                       : flags & LS_PROPULSOR_LATCHED ? "no feathering"
                                                      : "");
    }
    ls_report_line(report, "%s", "");
}

static const ls_column pitch_columns[] = {
    {"pitch", "blade\nangle", LS_DIM_ANGLE, 1, LS_IN_ALL, NULL},
    {"rotation", "RPM", LS_DIM_ROTATION, 0, LS_IN_ALL, NULL},
    {"windmilling_drag", "windmilling\ndrag", LS_DIM_FORCE, 0, LS_IN_ALL, NULL},
    {"stopped_drag", "stopped\ndrag", LS_DIM_FORCE, 0, LS_IN_ALL, NULL},
    {"remark", "", LS_WORDS, 0, LS_IN_ALL, NULL},
};

/* Every few degrees in the text. */
static void table_of_dead_by_pitch(ls_report *report, const ls_prop_view *view)
{
    char title[LS_PHRASE], speed[LS_PHRASE];
    const ls_dead_by_pitch *dead = view->by_pitch;
    snprintf(title, sizeof title, "Dead engine at %.40s: drag against the blade angle",
             ls_phrase_cas(view->cas_m_s, view->units, view->uncertain, speed));
    ls_table *table =
        ls_report_table(report, "dead_by_pitch", title, LS_IN_TEXT | LS_IN_JSON, COLUMNS(pitch_columns));
    for (int i = 0; i < dead->count; i++) {
        const ls_dead_point *at = &dead->windmilling[i];
        int stops = (at->flags & LS_PROPULSOR_STOPS) != 0;
        ls_table_row(table);
        ls_table_number(table, dead->pitch_rad[i]);
        ls_table_number(table, at->n_rev_s);
        ls_table_number(table, at->drag_N);
        ls_table_number(table, dead->stopped[i].drag_N);
        ls_table_words(table, "%s", stops ? "does not turn" : "");
    }
    ls_report_line(report, "%s", "");
}

/* ---- P-factor and side loads ---- */

static const ls_column incidence_columns[] = {
    {"incidence", "air across\nthe disc", LS_DIM_ANGLE, 0, LS_IN_ALL, NULL},
    {"offset", "thrust line\nmoves", LS_DIM_LENGTH, 2, LS_IN_ALL, "in"},
    {"offset_bound", "at most", LS_DIM_LENGTH, 2, LS_IN_ALL, "in"},
    {"moment", "hub\nmoment", LS_DIM_TORQUE, 0, LS_IN_ALL, NULL},
    {"side_load", "side\nload", LS_DIM_FORCE, 0, LS_IN_ALL, NULL},
    {"side_load_bound", "at most", LS_DIM_FORCE, 0, LS_IN_ALL, NULL},
};

static void table_of_incidence(ls_report *report, const ls_prop_view *view)
{
    char title[LS_PHRASE], speed[LS_PHRASE];
    const ls_prop_incidence *incidence = view->incidence;
    if (incidence->status != LS_OK) {
        return;
    }
    snprintf(title, sizeof title, "P-factor at %.40s, take-off power: toward the down-going blade",
             ls_phrase_cas(view->cas_m_s, view->units, view->uncertain, speed));
    ls_table *table =
        ls_report_table(report, "p_factor", title, LS_IN_TEXT | LS_IN_JSON, COLUMNS(incidence_columns));
    for (int i = 0; i < incidence->count; i++) {
        ls_table_row(table);
        ls_table_number(table, incidence->incidence_rad[i]);
        ls_table_number(table, incidence->offset_m[i]);
        ls_table_number(table, incidence->offset_bound_m[i]);
        ls_table_number(table, incidence->moment_Nm[i]);
        ls_table_number(table, incidence->normal_N[i]);
        ls_table_number(table, incidence->normal_bound_N[i]);
    }
    ls_report_line(report, "%s", "");
}

/* ---- thrust ---- */

static const ls_column thrust_columns[] = {
    {"cas", "CAS", LS_DIM_SPEED, 0, LS_IN_ALL, NULL},
    {"takeoff_thrust", "take-off\nthrust", LS_DIM_FORCE, 0, LS_IN_ALL, NULL},
    {"ideal_thrust", "ideal", LS_DIM_FORCE, 0, LS_IN_ALL, NULL},
    {"takeoff_rotation", "RPM", LS_DIM_ROTATION, 0, LS_IN_ALL, NULL},
    {"takeoff_pitch", "blade\nangle", LS_DIM_ANGLE, 1, LS_IN_ALL, NULL},
    {"efficiency_percent", "effic.\n%", LS_DIM_NUMBER, 0, LS_IN_ALL, NULL},
    {"continuous_thrust", "continuous\nthrust", LS_DIM_FORCE, 0, LS_IN_ALL, NULL},
};

static void table_of_thrust(ls_report *report, const ls_prop_view *view)
{
    const ls_prop_by_speed *thrust = view->thrust;
    int has_continuous = view->study->powerplant->data->engine.continuous < 1.0;
    int count = (int)(sizeof thrust_columns / sizeof thrust_columns[0]) - !has_continuous;
    ls_table *table = ls_report_table(report, "thrust",
                                      "Thrust against speed; ideal: no propeller could give more for the power",
                                      LS_IN_TEXT | LS_IN_JSON, thrust_columns, count);
    for (int i = 0; i < thrust->count; i++) {
        const ls_prop_point *at = &thrust->takeoff[i], *continuous = &thrust->continuous[i];
        ls_table_row(table);
        ls_table_number(table, thrust->cas_m_s[i]);
        ls_table_number(table, at->status == LS_OK ? at->thrust_N : NAN);
        ls_table_number(table, thrust->ideal_N[i]);
        ls_table_number(table, at->status == LS_OK ? at->n_rev_s : NAN);
        ls_table_number(table, at->status == LS_OK ? at->pitch_rad : NAN);
        ls_table_number(table, at->status == LS_OK ? 100.0 * at->efficiency : NAN);
        if (has_continuous) {
            ls_table_number(table, continuous->status == LS_OK ? continuous->thrust_N : NAN);
        }
    }
    ls_report_line(report, "%s", "");
}

/* ---- zero thrust ---- */

static const ls_column zero_columns[] = {
    {"altitude", "height", LS_DIM_ALTITUDE, 0, LS_IN_ALL, NULL},
    {"cas", "CAS", LS_DIM_SPEED, 0, LS_IN_ALL, NULL},
    {"zero_rotation", "no thrust:\nRPM", LS_DIM_ROTATION, 0, LS_IN_ALL, NULL},
    {"zero_manifold_pressure", "MAP", LS_DIM_PRESSURE, 1, LS_IN_ALL, NULL},
    {"zero_torque", "torque", LS_DIM_TORQUE, 0, LS_IN_ALL, NULL},
    {"feather_rotation", "like feather:\nRPM", LS_DIM_ROTATION, 0, LS_IN_ALL, NULL},
    {"feather_manifold_pressure", "MAP", LS_DIM_PRESSURE, 1, LS_IN_ALL, NULL},
    {"feather_torque", "torque", LS_DIM_TORQUE, 0, LS_IN_ALL, NULL},
    {"reason", "", LS_WORDS, 0, LS_IN_DATA, NULL},
};

static void setting_cells(ls_table *table, const ls_prop_point *at)
{
    ls_table_number(table, at->status == LS_OK ? at->n_rev_s : NAN);
    ls_table_number(table, at->status == LS_OK ? at->map_Pa : NAN);
    ls_table_number(table, at->status == LS_OK ? at->torque_Nm : NAN);
}

static void table_of_zero(ls_report *report, const ls_prop_view *view)
{
    const ls_zero_thrust *zero = view->zero;
    ls_table *table = ls_report_table(
        report, "zero_thrust", "Setting a running propeller to no thrust, and to the drag of a feathered one",
        LS_IN_TEXT | LS_IN_JSON, COLUMNS(zero_columns));
    for (int i = 0; i < zero->heights; i++) {
        for (int j = 0; j < zero->speeds; j++) {
            ls_table_row(table);
            ls_table_number(table, zero->altitude_m[i]);
            ls_table_number(table, zero->cas_m_s[j]);
            setting_cells(table, &zero->zero[i][j]);
            setting_cells(table, &zero->feather[i][j]);
            ls_table_words(table, "%s%s", zero->zero[i][j].reason, zero->feather[i][j].reason);
        }
    }
    ls_report_line(report, "%s", "");
}

/* ---- idle or dead ---- */

static const ls_column demo_columns[] = {
    {"propeller", "failed engine's propeller", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"drag", "drag", LS_DIM_FORCE, 0, LS_IN_ALL, NULL},
    {"drag_less_dead", "less than\nwindmilling", LS_DIM_FORCE, 0, LS_IN_ALL, NULL},
    {"rotation", "RPM", LS_DIM_ROTATION, 0, LS_IN_ALL, NULL},
    {"vmc", "VMC", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"vmc_less_dead", "below\nwindmilling", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"limit", "limit", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"reason", "", LS_WORDS, 0, LS_IN_DATA, NULL},
};

static double vmc_of(const ls_vmca_point *point)
{
    return point->status == LS_OK ? point->vmc.cas_m_s : NAN;
}

static void table_of_demonstration(ls_report *report, const ls_prop_view *view)
{
    char title[LS_PHRASE], speed[LS_PHRASE];
    const ls_idle_demonstration *demonstration = view->demonstration;
    snprintf(title, sizeof title, "Dead, or only idling: drag at %.40s and minimum control speed",
             ls_phrase_cas(view->cas_m_s, view->units, view->uncertain, speed));
    ls_table *table =
        ls_report_table(report, "demonstration", title, LS_IN_TEXT | LS_IN_JSON, COLUMNS(demo_columns));
    double dead_N = -demonstration->point[0].thrust_N, dead_m_s = vmc_of(&demonstration->vmc[0]);
    for (int i = 0; i < demonstration->count; i++) {
        const ls_prop_point *at = &demonstration->point[i];
        double drag_N = at->status == LS_OK ? 0.0 - at->thrust_N : NAN, vmc_m_s = vmc_of(&demonstration->vmc[i]);
        ls_table_row(table);
        ls_table_words(table, "%s", ls_prop_state_text(demonstration->state[i]));
        ls_table_number(table, drag_N);
        ls_table_number(table, dead_N - drag_N);
        ls_table_number(table, at->status == LS_OK ? at->n_rev_s : NAN);
        ls_table_number(table, vmc_m_s);
        ls_table_number(table, dead_m_s - vmc_m_s);
        ls_table_words(table, "%s", isfinite(vmc_m_s) ? ls_phrase_limit_short(&demonstration->vmc[i]) : "");
        ls_table_words(table, "%s%s", at->reason, demonstration->vmc[i].reason);
    }
    ls_report_line(report, "%s", "");
}

/* ---- blades ---- */

static const ls_column blade_columns[] = {
    {"blades", "blades", LS_DIM_NUMBER, 0, LS_IN_ALL, NULL},
    {"solidity_percent", "of the\ndisc, %", LS_DIM_NUMBER, 1, LS_IN_ALL, NULL},
    {"absorbed", "takes at\nsame angle", LS_DIM_POWER, 0, LS_IN_ALL, NULL},
    {"run_up_thrust", "pull\nat rest", LS_DIM_FORCE, 0, LS_IN_ALL, NULL},
    {"climb_efficiency_percent", "climb\n%", LS_DIM_NUMBER, 1, LS_IN_ALL, NULL},
    {"climb_pitch", "blade\nangle", LS_DIM_ANGLE, 1, LS_IN_ALL, NULL},
    {"cruise_efficiency_percent", "cruise\n%", LS_DIM_NUMBER, 1, LS_IN_ALL, NULL},
    {"cruise_pitch", "blade\nangle", LS_DIM_ANGLE, 1, LS_IN_ALL, NULL},
    {"feathered_drag", "feathered\ndrag", LS_DIM_FORCE, 0, LS_IN_ALL, NULL},
};

static void table_of_blades(ls_report *report, const ls_prop_view *view)
{
    const ls_blade_counts *counts = view->counts;
    if (counts == NULL) {
        return;
    }
    ls_table *table =
        ls_report_table(report, "blades", "More or fewer of the same blade, same tip speed and power",
                        LS_IN_TEXT | LS_IN_JSON, COLUMNS(blade_columns));
    for (int i = 0; i < counts->count; i++) {
        const ls_blade_count *row = &counts->row[i];
        ls_table_row(table);
        ls_table_number(table, row->blades);
        ls_table_number(table, 100.0 * row->solidity);
        ls_table_number(table, row->absorbed_W);
        ls_table_number(table, row->thrust_N[0]);
        ls_table_number(table, 100.0 * row->efficiency[1]);
        ls_table_number(table, row->pitch_rad[1]);
        ls_table_number(table, 100.0 * row->efficiency[2]);
        ls_table_number(table, row->pitch_rad[2]);
        ls_table_number(table, row->feathered_N);
    }
    ls_report_line(report, "%s", "");
}

void ls_prop_tables(ls_report *report, const ls_prop_view *view)
{
    table_of_flight(report, view);
    table_of_dead_by_speed(report, view);
    table_of_dead_by_pitch(report, view);
    table_of_demonstration(report, view);
    table_of_zero(report, view);
    table_of_thrust(report, view);
    table_of_incidence(report, view);
    table_of_blades(report, view);
}
