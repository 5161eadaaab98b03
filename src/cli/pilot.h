/* Attitudes and controls as a pilot reads them: sides and names, never signs. */
#ifndef LIVESIDE_CLI_PILOT_H
#define LIVESIDE_CLI_PILOT_H

#include "cli/input.h"
#include "liveside/vmca.h"
#include "report/report.h"

enum { CLI_PILOT_TEXT = 96 };

/* "right 18.3 deg, 73 % of its travel"; "centred". */
void cli_rudder_text(const ls_aircraft *aircraft, double rudder_rad, char text[CLI_PILOT_TEXT]);
void cli_aileron_text(const ls_aircraft *aircraft, double aileron_rad, char text[CLI_PILOT_TEXT]);

/* "2.1 deg from the live side"; "none". Given: live_side from ls_live_side; 0 names right and left. */
void cli_sideslip_text(double beta_rad, int live_side, char text[CLI_PILOT_TEXT]);

/* "1.0 widths toward the live engine"; "centred". Given: width_rad, the bank that moves it by its width. */
void cli_ball_text(double bank_rad, double width_rad, int live_side, int live_engines, char text[CLI_PILOT_TEXT]);

/* "right pedal 95 lbf"; "no pedal data in the file". */
void cli_pedal_text(double force_N, ls_unit_system units, char text[CLI_PILOT_TEXT]);

/* The bank that moves the ball by its own width, from --ball-width or 5 deg. */
double cli_ball_width(const cli_options *options);

/* The specific cautions that this answer needs: values that are estimated or assumed, bank beyond 5 deg (bank_rad
 * of either sign), LS_PROPULSOR_ flags. */
void cli_add_warnings(ls_report *report, const cli_input *input, double bank_rad, unsigned flags);

#endif
