#include "cli/balance_report.h"

#include "cli/condition.h"
#include "report/caution.h"
#include "report/phrase.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)

enum { LINE_TEXT = 1024 };

typedef struct {
    ls_report *report;
    const cli_options *options;
    const cli_input *input;
    const cli_balance *it;
    int live_side, live_engines;
    char failed[LS_PHRASE];
} job;

static void add_answer(const job *at)
{
    char speed[LS_PHRASE];
    int tightest = cli_balance_tightest(at->it);
    ls_phrase_cas(at->it->speed.CAS_m_s, at->options->units, 0, speed);
    if (tightest < 0) {
        ls_report_answer(at->report, "Held straight at %s; no limit applies.", speed);
        return;
    }
    double left = at->it->margins.left[tightest];
    const char *limit = ls_limit_name((ls_limit)tightest);
    if (left < -1e-9) {
        ls_report_answer(at->report, "Not held straight at %s: %s is exceeded by %.0f %%.", speed, limit,
                         -100 * left);
    } else {
        ls_report_answer(at->report, "Held straight at %s, with %.0f %% left before %s, the nearest limit.", speed,
                         100 * left, limit);
    }
}

static void add_item(ls_table *table, const char *item, const char *text)
{
    ls_table_row(table);
    ls_table_words(table, "%s", item);
    ls_table_words(table, "%s", text);
}

static void add_speeds(const job *at, ls_table *table)
{
    char cas[LS_PHRASE], eas[LS_PHRASE], tas[LS_PHRASE], line[LINE_TEXT];
    ls_phrase_cas(at->it->speed.CAS_m_s, at->options->units, 0, cas);
    ls_phrase_speed(at->it->speed.EAS_m_s, at->options->units, 0, eas);
    ls_phrase_speed(at->it->speed.TAS_m_s, at->options->units, 0, tas);
    snprintf(line, sizeof line, "%s, %s equivalent, %s true", cas, eas, tas);
    add_item(table, "speed", line);
}

static void add_flight_path(const job *at, ls_table *table)
{
    char rate[LS_PHRASE], line[LINE_TEXT];
    const ls_trim *trim = &at->it->trim;
    double rate_m_s = trim->V_m_s * sin(trim->climb_rad);
    snprintf(line, sizeof line, "%.1f deg, nose %.1f deg %s the horizon", trim->alpha_rad / DEG,
             fabs(trim->theta_rad) / DEG, trim->theta_rad < 0 ? "below" : "above");
    add_item(table, "incidence", line);
    ls_phrase_value(fabs(rate_m_s), LS_DIM_CLIMB_RATE, NULL, at->options->units, 0, rate);
    snprintf(line, sizeof line, "%s %s, gradient %.1f %%", rate_m_s < 0 ? "descends at" : "climbs at", rate,
             100 * fabs(tan(trim->climb_rad)));
    add_item(table, "flight path", line);
}

/* The bank toward the live side positive; where no side is the live one, to the right. */
static double toward_live(const job *at)
{
    return at->it->trim.bank_rad * (at->live_side < 0 ? -1 : 1);
}

static void add_controls(const job *at)
{
    static const ls_column columns[] = {
        {"item", "", LS_WORDS, 0, LS_IN_TEXT, NULL},
        {"text", "", LS_WORDS, 0, LS_IN_TEXT, NULL},
    };
    char text[LS_PHRASE], failed[LINE_TEXT];
    const ls_trim *trim = &at->it->trim;
    const ls_aircraft *aircraft = &at->input->aircraft;
    ls_table *table = ls_report_table(at->report, "controls", NULL, LS_IN_TEXT, columns, 2);
    snprintf(failed, sizeof failed, "%s%s", at->failed, at->it->critical ? ", the critical engine" : "");
    add_item(table, "failed", failed);
    add_speeds(at, table);
    add_item(table, "bank", ls_phrase_bank(toward_live(at), at->live_side, at->live_engines, text));
    add_item(table, "rudder", ls_phrase_rudder(aircraft, trim->rudder_rad, text));
    add_item(table, "pedal force", ls_phrase_pedal(trim->pedal_force_N, at->options->units, text));
    add_item(table, "aileron", ls_phrase_aileron(aircraft, trim->aileron_rad, text));
    add_item(table, "sideslip", ls_phrase_wind(trim->beta_rad, at->live_side, text));
    add_item(table, "ball",
             ls_phrase_ball(trim->bank_rad, cli_ball_width(at->options), at->live_side, at->live_engines, text));
    add_flight_path(at, table);
}

static void add_margins(const job *at)
{
    static const ls_column columns[] = {
        {"limit", "Left before", LS_WORDS, 0, LS_IN_ALL, NULL},
        {"left", "", LS_DIM_FRACTION, 0, LS_IN_ALL, "%"},
    };
    ls_report_line(at->report, "%s", "");
    ls_table *table = ls_report_table(at->report, "margins", NULL, LS_IN_TEXT | LS_IN_JSON, columns, 2);
    for (int i = 0; i < LS_LIMITS; i++) {
        if (!isnan(at->it->margins.left[i])) {
            ls_table_row(table);
            ls_table_words(table, "%s", ls_limit_name((ls_limit)i));
            ls_table_number(table, at->it->margins.left[i]);
        }
    }
    ls_table_row(table);
    ls_table_words(table, "wing stall, slipstream lift counted");
    ls_table_number(table, at->it->margins.stall_power_on);
}

/* The state that every row of the CSV carries. */
static void add_state_cells(const job *at, ls_table *table)
{
    const ls_trim *trim = &at->it->trim;
    const double state[] = {at->it->speed.CAS_m_s, at->it->speed.TAS_m_s, trim->bank_rad,  trim->rudder_rad,
                            trim->aileron_rad,     trim->beta_rad,        trim->alpha_rad, trim->climb_rad,
                            trim->pedal_force_N,   trim->theta_rad};
    ls_table_words(table, "%s", at->failed);
    for (size_t i = 0; i < sizeof state / sizeof state[0]; i++) {
        ls_table_number(table, state[i]);
    }
}

static void add_part(const job *at, ls_table *table, const ls_part *part)
{
    ls_table_row(table);
    add_state_cells(at, table);
    ls_table_words(table, "%s", part->name);
    for (int i = 0; i < 3; i++) {
        ls_table_number(table, part->force_N[i]);
    }
    for (int i = 0; i < 3; i++) {
        ls_table_number(table, part->moment_Nm[i]);
    }
}

static void add_parts(const job *at)
{
    static const ls_column columns[] = {
        {"failed", "", LS_WORDS, 0, LS_IN_CSV, NULL},
        {"cas", "", LS_DIM_SPEED, 1, LS_IN_CSV, NULL},
        {"tas", "", LS_DIM_SPEED, 1, LS_IN_CSV, NULL},
        {"bank", "", LS_DIM_ANGLE, 1, LS_IN_CSV, NULL},
        {"rudder", "", LS_DIM_ANGLE, 1, LS_IN_CSV, NULL},
        {"aileron", "", LS_DIM_ANGLE, 1, LS_IN_CSV, NULL},
        {"sideslip", "", LS_DIM_ANGLE, 1, LS_IN_CSV, NULL},
        {"incidence", "", LS_DIM_ANGLE, 1, LS_IN_CSV, NULL},
        {"climb_angle", "", LS_DIM_ANGLE, 1, LS_IN_CSV, NULL},
        {"pedal_force", "", LS_DIM_FORCE, 0, LS_IN_CSV, NULL},
        {"pitch", "", LS_DIM_ANGLE, 1, LS_IN_CSV, NULL},
        {"source", "Source", LS_WORDS, 0, LS_IN_ALL, NULL},
        {"force_x", "X", LS_DIM_FORCE, 0, LS_IN_ALL, NULL},
        {"force_y", "Y", LS_DIM_FORCE, 0, LS_IN_ALL, NULL},
        {"force_z", "Z", LS_DIM_FORCE, 0, LS_IN_ALL, NULL},
        {"moment_roll", "Roll", LS_DIM_TORQUE, 0, LS_IN_ALL, NULL},
        {"moment_pitch", "Pitch", LS_DIM_TORQUE, 0, LS_IN_ALL, NULL},
        {"moment_yaw", "Yaw", LS_DIM_TORQUE, 0, LS_IN_ALL, NULL},
    };
    ls_report_line(at->report, "%s", "");
    ls_report_line(at->report, "Forces and moments about the centre of gravity: X forward, Y right, Z down; roll "
                               "right wing down, pitch nose up, yaw nose right. The pitching moment of the sum is "
                               "held by the elevator.");
    ls_table *table =
        ls_report_table(at->report, "parts", NULL, LS_IN_ALL, columns, (int)(sizeof columns / sizeof columns[0]));
    for (int i = 0; i < at->it->balance.count; i++) {
        add_part(at, table, &at->it->balance.part[i]);
    }
    add_part(at, table, &at->it->balance.sum);
}

static void add_values(const job *at)
{
    const cli_balance *it = at->it;
    const ls_trim *trim = &it->trim;
    ls_report *report = at->report;
    int tightest = cli_balance_tightest(it);
    ls_report_words(report, "failed", "%s", at->failed);
    ls_report_flag(report, "held", tightest < 0 || it->margins.left[tightest] >= -1e-9);
    ls_report_words(report, "live_side", "%s",
                    at->live_side > 0   ? "right"
                    : at->live_side < 0 ? "left"
                                        : "neither");
    ls_report_number(report, "state.cas", LS_DIM_SPEED, NULL, it->speed.CAS_m_s);
    ls_report_number(report, "state.eas", LS_DIM_SPEED, NULL, it->speed.EAS_m_s);
    ls_report_number(report, "state.tas", LS_DIM_SPEED, NULL, it->speed.TAS_m_s);
    ls_report_number(report, "state.bank", LS_DIM_ANGLE, NULL, trim->bank_rad);
    ls_report_number(report, "state.rudder", LS_DIM_ANGLE, NULL, trim->rudder_rad);
    ls_report_number(report, "state.aileron", LS_DIM_ANGLE, NULL, trim->aileron_rad);
    ls_report_number(report, "state.sideslip", LS_DIM_ANGLE, NULL, trim->beta_rad);
    ls_report_number(report, "state.incidence", LS_DIM_ANGLE, NULL, trim->alpha_rad);
    ls_report_number(report, "state.pitch", LS_DIM_ANGLE, NULL, trim->theta_rad);
    ls_report_number(report, "state.climb_angle", LS_DIM_ANGLE, NULL, trim->climb_rad);
    ls_report_number(report, "state.climb_rate", LS_DIM_CLIMB_RATE, NULL, trim->V_m_s * sin(trim->climb_rad));
    if (isnan(trim->pedal_force_N)) {
        ls_report_missing(report, "state.pedal_force", LS_DIM_FORCE, "no pedal data in the file");
    } else {
        ls_report_number(report, "state.pedal_force", LS_DIM_FORCE, NULL, trim->pedal_force_N);
    }
    ls_report_number(report, "state.ball_widths", LS_DIM_NUMBER, NULL,
                     trim->bank_rad / cli_ball_width(at->options));
    ls_report_words(report, "solver.stop", "%s", ls_stop_text(trim->stop));
    ls_report_number(report, "solver.iterations", LS_DIM_NUMBER, NULL, trim->iterations);
    ls_report_number(report, "solver.residual", LS_DIM_NUMBER, NULL, trim->residual);
}

void cli_balance_report(ls_report *report, const cli_options *options, const cli_input *input,
                        const cli_balance *it, const char *condition)
{
    job at = {.report = report, .options = options, .input = input, .it = it};
    at.live_side = ls_live_side(&input->aircraft, &it->condition);
    at.live_engines = input->aircraft.engines - ls_set_size(it->failed);
    ls_phrase_set(&input->aircraft, it->failed, at.failed);
    if (it->failed == 0) {
        snprintf(at.failed, sizeof at.failed, "none");
    }
    ls_report_line(report, "%s", input->aircraft.name);
    add_answer(&at);
    ls_report_line(report, "%s", condition);
    ls_report_line(report, "%s", "");
    add_values(&at);
    add_controls(&at);
    add_margins(&at);
    add_parts(&at);
    ls_report_caution_sideslip(report, it->trim.beta_rad);
    ls_report_cautions(report, ls_marks_uncertain(&input->aircraft, &input->marks), it->trim.bank_rad,
                       it->point.flags);
}
