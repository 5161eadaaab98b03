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

/* A difference of speeds, "0.7 kt". */
const char *ls_phrase_speed(double m_s, ls_unit_system units, int rough, char out[LS_PHRASE]);

/* "5.0 deg toward the live engine", "wings level"; live_side 0: "to the right". */
const char *ls_phrase_bank(double bank_rad, int live_side, int live_engines, char out[LS_PHRASE]);

/* Where the relative wind comes from, "0.6 deg from the dead side", "none"; short: "0.6 dead". */
const char *ls_phrase_wind(double beta_rad, int live_side, char out[LS_PHRASE]);
const char *ls_phrase_wind_short(double beta_rad, int live_side, char out[LS_PHRASE]);

/* The same for a table's row: "5 deg live", "level". */
const char *ls_phrase_bank_short(double bank_rad, int live_side, char out[LS_PHRASE]);

/* "left", "left outer and left inner". */
const char *ls_phrase_set(const ls_aircraft *aircraft, unsigned set, char out[LS_PHRASE]);

/* The same for a column's heading of two lines, "left\nouter", "both\nleft". */
const char *ls_phrase_set_heading(const ls_aircraft *aircraft, unsigned set, char out[LS_PHRASE]);

/* A value in the unit people of a system read, "2756 lb"; us_unit as in ls_column. */
const char *ls_phrase_value(double si, ls_dimension dimension, const char *us_unit, ls_unit_system units,
                            int decimals, char out[LS_PHRASE]);

/* What ends a point: "rudder travel", "wing stall", or the reason that there is none; short: "rudder", "stall". */
const char *ls_phrase_limit(const ls_vmca_point *point);
const char *ls_phrase_limit_short(const ls_vmca_point *point);

#endif
