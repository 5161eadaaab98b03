/* Numbers of flight as a pilot reads them. Each writes into out, which it returns. */
#ifndef LIVESIDE_REPORT_PHRASE_H
#define LIVESIDE_REPORT_PHRASE_H

#include "liveside/aircraft.h"
#include "liveside/units.h"
#include "liveside/vmca.h"

#include <stddef.h>

enum { LS_PHRASE = 256 };

/* "77.5 KCAS", "39.9 m/s CAS"; whole knots when the aeroplane rests on guesses. */
const char *ls_phrase_cas(double cas_m_s, ls_unit_system units, int rough, char out[LS_PHRASE]);

/* A speed of a stated kind, "80.0 KIAS", "80.0 KCAS", "41.2 m/s IAS". */
const char *ls_phrase_of_kind(double m_s, int is_ias, ls_unit_system units, char out[LS_PHRASE]);

/* A speed or a difference of speeds, "0.7 kt"; by how much one is above another: "less than 1 kt" where whole
 * knots would show nothing. */
const char *ls_phrase_speed(double m_s, ls_unit_system units, int rough, char out[LS_PHRASE]);
const char *ls_phrase_by(double m_s, ls_unit_system units, int rough, char out[LS_PHRASE]);

/* "5.0 deg toward the live engine", "wings level"; live_side 0: "to the right". */
const char *ls_phrase_bank(double bank_rad, int live_side, int live_engines, char out[LS_PHRASE]);

/* Where the relative wind comes from, "0.6 deg from the dead side", "none"; short: "0.6 dead". */
const char *ls_phrase_wind(double beta_rad, int live_side, char out[LS_PHRASE]);
const char *ls_phrase_wind_short(double beta_rad, int live_side, char out[LS_PHRASE]);

/* The same for a table's row: "5 to live", "level". */
const char *ls_phrase_bank_short(double bank_rad, int live_side, char out[LS_PHRASE]);

/* "right 18.3 deg, 73 % of its travel"; "centred". */
const char *ls_phrase_rudder(const ls_aircraft *aircraft, double rudder_rad, char out[LS_PHRASE]);
const char *ls_phrase_aileron(const ls_aircraft *aircraft, double aileron_rad, char out[LS_PHRASE]);

/* "right pedal 95 lbf"; "no pedal data in the file". */
const char *ls_phrase_pedal(double force_N, ls_unit_system units, char out[LS_PHRASE]);

/* "1.0 widths toward the live engine"; "centred". Given: bank_rad in body axes; width_rad, the bank that moves the
 * ball by its width. */
const char *ls_phrase_ball(double bank_rad, double width_rad, int live_side, int live_engines,
                           char out[LS_PHRASE]);

/* "left", "left outer and left inner". */
const char *ls_phrase_set(const ls_aircraft *aircraft, unsigned set, char out[LS_PHRASE]);

/* The same for a column's heading of two lines, "left\nouter"; for the pair of a side "both\nleft", or
 * "outer\nleft" where the side has more. */
const char *ls_phrase_set_heading(const ls_aircraft *aircraft, unsigned set, char out[LS_PHRASE]);

/* A value in the unit people of a system read, "2756 lb"; us_unit as in ls_column. */
const char *ls_phrase_value(double si, ls_dimension dimension, const char *us_unit, ls_unit_system units,
                            int decimals, char out[LS_PHRASE]);

/* What ends a point: "rudder travel", "wing stall", or the reason that there is none; short: "rudder", "stall". */
const char *ls_phrase_limit(const ls_vmca_point *point);
const char *ls_phrase_limit_short(const ls_vmca_point *point);

/* Why a point lacks a speed, or a number beside it; "" when it lacks nothing. */
const char *ls_phrase_reason(const ls_aircraft *aircraft, const ls_vmca_point *point, char out[LS_PHRASE]);

/* Of an answer above the range: "force-limited at every speed", "rudder-limited at the top of the range". */
const char *ls_phrase_exceeded(const ls_vmc *vmc);

#endif
