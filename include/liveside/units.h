/* Values with units: "36.0 ft" to SI and back, by a closed table of exact factors.
 * International foot and pound, g0 = 9.80665 m/s2; hp is the mechanical horsepower, 550 ft.lbf/s; inHg is the
 * conventional inch of mercury (13595.1 kg/m3 under g0). `lb` is a mass, `lbf` a force, `nmi` the nautical mile.
 */
#ifndef LIVESIDE_UNITS_H
#define LIVESIDE_UNITS_H

#include "liveside/status.h"

#include <stddef.h>

/* Enumerator, name with its article, SI unit ("" for none). */
#define LS_DIMENSION_LIST(X)                                                                           \
    X(LS_DIM_NUMBER, "a plain number", "") /* no unit is allowed */                                    \
    X(LS_DIM_FRACTION, "a fraction", "")   /* a plain number or % */                                   \
    X(LS_DIM_LENGTH, "a length", "m")                                                                  \
    X(LS_DIM_ALTITUDE, "an altitude", "m") /* units of length; feet in two display systems */          \
    X(LS_DIM_AREA, "an area", "m2")        /* drag areas too */                                        \
    X(LS_DIM_VOLUME, "a volume", "m3")                                                                 \
    X(LS_DIM_MASS, "a mass", "kg")                                                                     \
    X(LS_DIM_FORCE, "a force", "N")                                                                    \
    X(LS_DIM_SPEED, "a speed", "m/s")                                                                  \
    X(LS_DIM_CLIMB_RATE, "a rate of climb", "m/s") /* units of speed; ft/min in two display systems */ \
    X(LS_DIM_ACCELERATION, "an acceleration", "m/s2")                                                  \
    X(LS_DIM_ANGLE, "an angle", "rad")                                                                 \
    X(LS_DIM_PER_ANGLE, "a value per angle", "/rad")                                                   \
    X(LS_DIM_PER_ANGLE_SQUARED, "a value per angle squared", "/rad2")                                  \
    X(LS_DIM_ANGULAR_RATE, "an angular rate", "rad/s")                                                 \
    X(LS_DIM_ROTATION, "a rotational speed", "rev/s") /* revolutions, never rad/s */                   \
    X(LS_DIM_POWER, "a power", "W")                                                                    \
    X(LS_DIM_PRESSURE, "a pressure", "Pa")                                                             \
    X(LS_DIM_TEMPERATURE, "a temperature", "K")                                                        \
    X(LS_DIM_TEMPERATURE_DIFFERENCE, "a temperature difference", "K")                                  \
    X(LS_DIM_TORQUE, "a torque", "N.m")                                                                \
    X(LS_DIM_MASS_MOMENT, "a mass moment", "kg.m") /* weight and balance */                            \
    X(LS_DIM_TIME, "a time", "s")                                                                      \
    X(LS_DIM_INERTIA, "a moment of inertia", "kg.m2")                                                  \
    X(LS_DIM_DENSITY, "a density", "kg/m3")                                                            \
    X(LS_DIM_FORCE_PER_ANGLE, "a force per angle", "N/rad")                                            \
    X(LS_DIM_GEARING, "a gearing", "rad/m") /* surface angle per travel of the control */              \
    X(LS_DIM_PER_LENGTH, "a value per length", "/m")

typedef enum {
#define LS_DIMENSION_ENUM(name, text, si) name,
    LS_DIMENSION_LIST(LS_DIMENSION_ENUM)
#undef LS_DIMENSION_ENUM
        LS_DIMENSION_COUNT
} ls_dimension;

/* One unit of the closed table: si = (value + offset) * factor. */
typedef struct {
    const char *name;
    ls_dimension dimension; /* LENGTH also serves ALTITUDE, SPEED also CLIMB_RATE */
    double factor;
    double offset; /* 0 but for degC and degF as temperatures */
} ls_unit;

typedef enum { LS_UNITS_US, LS_UNITS_METRIC, LS_UNITS_SI, LS_UNITS_COUNT } ls_unit_system;

/* The value of a text such as "36.0 ft", "-0.6 /rad", "12 %", "1.5e5 N.m", in SI.
 * Given: text, a decimal number (point, whatever the locale; exponent allowed; no hexadecimal, inf or nan),
 * optional blanks, and a unit of the dimension. A number without a unit is refused where a unit is due.
 * Returned: si, finite; untouched on failure.
 * Status: LS_OK; LS_FILE_REJECTED with what was found, what is needed and some units that are allowed. */
LS_API ls_status ls_units_parse(const char *text, ls_dimension dimension, double *si, ls_error *error);

/* A decimal number alone, by the rules of ls_units_parse.
 * Returned: value, and end, where the number stops (may be null: then nothing but blanks may follow).
 * Status: LS_OK; LS_FILE_REJECTED; both untouched on failure. */
LS_API ls_status ls_units_number(const char *text, double *value, const char **end, ls_error *error);

/* A unit of a dimension by its name, or null. Notes: plain numbers have the unit "". */
LS_API const ls_unit *ls_unit_find(ls_dimension dimension, const char *name);

/* The index-th unit of a dimension from 0 (the SI unit first), or null past the last: for lists and help. */
LS_API const ls_unit *ls_unit_at(ls_dimension dimension, int index);

/* The unit that people of a system read a dimension in; never null.
 * us: kt, ft, lb, lbf, degC, inHg, hp, ft2; metric: kt, ft for altitude, ft/min, m, kg, N, degC, hPa, kW, m2;
 * si: pure SI. Angles are deg, and rotation rpm, in both of the first. */
LS_API const ls_unit *ls_unit_preferred(ls_unit_system system, ls_dimension dimension);

/* The system named "us", "metric" or "si". Returned: 1 and system, or 0 with system untouched. */
LS_API int ls_unit_system_find(const char *name, ls_unit_system *system);

/* Conversion by a unit of the table. */
LS_API double ls_unit_from_si(const ls_unit *unit, double si);
LS_API double ls_unit_to_si(const ls_unit *unit, double value);

/* The same by name; a name that the dimension has not is a programmer's error (asserted; NaN without asserts). */
LS_API double ls_units_to(ls_dimension dimension, const char *unit, double si);
LS_API double ls_units_from(ls_dimension dimension, const char *unit, double value);

/* A value as text, "103.4 kt", with a point whatever the locale and no "-0".
 * Given: decimals, digits after the point, 0 to 15.
 * Returned: the length of the whole text, as snprintf does; "not finite" for a value that is not. */
LS_API size_t ls_units_format(double si, const ls_unit *unit, int decimals, char *out, size_t size);

/* "a length", "an area", ...; never null. */
LS_API const char *ls_dimension_text(ls_dimension dimension);

#endif
