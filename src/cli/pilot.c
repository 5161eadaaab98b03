#include "cli/pilot.h"

#include "cli/condition.h"

#include <math.h>
#include <stdio.h>

#define DEG (3.14159265358979323846 / 180.0)

static const double shown_rad = 0.05 * DEG; /* below this, 0.0 deg would be printed */

static void control_text(double angle_rad, double travel_rad, const char *side, char text[CLI_PILOT_TEXT])
{
    if (fabs(angle_rad) < shown_rad) {
        snprintf(text, CLI_PILOT_TEXT, "centred");
    } else {
        snprintf(text, CLI_PILOT_TEXT, "%s %.1f deg, %.0f %% of its travel", side, fabs(angle_rad) / DEG,
                 100 * fabs(angle_rad) / travel_rad);
    }
}

void cli_rudder_text(const ls_aircraft *aircraft, double rudder_rad, char text[CLI_PILOT_TEXT])
{
    int is_left = rudder_rad > 0; /* trailing edge left: the left pedal */
    control_text(rudder_rad, is_left ? aircraft->rudder.left_rad : aircraft->rudder.right_rad,
                 is_left ? "left" : "right", text);
}

void cli_aileron_text(const ls_aircraft *aircraft, double aileron_rad, char text[CLI_PILOT_TEXT])
{
    control_text(aileron_rad, aircraft->aileron.travel_rad, aileron_rad > 0 ? "right" : "left", text);
}

void cli_sideslip_text(double beta_rad, int live_side, char text[CLI_PILOT_TEXT])
{
    const char *side = live_side == 0               ? (beta_rad > 0 ? "right" : "left")
                       : live_side * beta_rad > 0.0 ? "live side"
                                                    : "dead side";
    if (fabs(beta_rad) < shown_rad) {
        snprintf(text, CLI_PILOT_TEXT, "none");
    } else {
        snprintf(text, CLI_PILOT_TEXT, "%.1f deg from the %s", fabs(beta_rad) / DEG, side);
    }
}

void cli_ball_text(double bank_rad, double width_rad, int live_side, int live_engines, char text[CLI_PILOT_TEXT])
{
    double widths = fabs(bank_rad) / width_rad;
    const char *side = live_side == 0               ? (bank_rad > 0 ? "right" : "left")
                       : live_side * bank_rad < 0.0 ? "dead engine"
                       : live_engines > 1           ? "live engines"
                                                    : "live engine";
    if (widths < 0.05) {
        snprintf(text, CLI_PILOT_TEXT, "centred");
    } else {
        snprintf(text, CLI_PILOT_TEXT, "%.1f widths toward the %s", widths, side);
    }
}

void cli_pedal_text(double force_N, ls_unit_system units, char text[CLI_PILOT_TEXT])
{
    char force[CLI_PILOT_TEXT / 2];
    if (!isfinite(force_N)) {
        snprintf(text, CLI_PILOT_TEXT, "no pedal data in the file");
        return;
    }
    ls_units_format(fabs(force_N), ls_unit_preferred(units, LS_DIM_FORCE), 0, force, sizeof force);
    snprintf(text, CLI_PILOT_TEXT, "%s pedal %s", force_N > 0 ? "right" : "left", force);
}

double cli_ball_width(const cli_options *options)
{
    return cli_given(options, CLI_BALL) ? options->value[CLI_BALL].si : 5.0 * DEG;
}

void cli_add_warnings(ls_report *report, const cli_input *input, double bank_rad, unsigned flags)
{
    int uncertain = ls_marks_uncertain(&input->aircraft, &input->marks);
    if (uncertain > 0) {
        ls_report_warning(report, "%d value%s of this file %s estimated or assumed, and the result is no better.",
                          uncertain, uncertain == 1 ? "" : "s", uncertain == 1 ? "is" : "are");
    }
    if (fabs(bank_rad) > 5.0 * DEG + 1e-9) {
        ls_report_warning(report, "more than 5 deg of bank: published speeds are not found that way, and sideslip "
                                  "and drag grow.");
    }
    if (flags & LS_PROPULSOR_SPEED_OUTSIDE) {
        ls_report_warning(report, "this speed lies outside the file's propeller curve, which was extended.");
    }
    if (flags & LS_PROPULSOR_TORQUE_LIMITED) {
        ls_report_warning(report, "an electric motor is on its torque limit here.");
    }
}
