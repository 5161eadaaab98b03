/* The parts of the plausibility check of an aeroplane. A value that is not there (NaN) is never found fault with:
 * the reader has said so already. */
#ifndef LS_AIRFRAME_CHECK_H
#define LS_AIRFRAME_CHECK_H

#include "liveside/parameter.h"

typedef struct {
    const ls_aircraft *aircraft;
    const ls_marks *marks;
    ls_findings *findings;
} ls_check;

/* Adds a finding about a value, with its position in the file. path: as the table writes it, "flaps[].lift_max".
 */
void ls_check_add(const ls_check *check, ls_severity severity, const char *path, int element, const char *format,
                  ...) LS_PRINTF(5, 6);

/* Warns unless low <= value <= high. what: "the wing loading of %.4g kg/m2", with one number. */
void ls_check_usual(const ls_check *check, const char *path, int element, double value, double low, double high,
                    const char *what, const char *unit);

/* Signs of the lateral derivatives, arm of the rudder, its table. */
void ls_check_lateral(const ls_check *check);

/* Engines and propellers: powers, tip speeds, momentum limit, drag areas. */
void ls_check_power(const ls_check *check);

/* Where the engines stand: symmetry, within the span. */
void ls_check_engines(const ls_check *check);

#endif
