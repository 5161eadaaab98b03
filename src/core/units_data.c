#include "units_data.h"

/* The exact bases: the international yard and pound agreement of 1959, the nautical mile of 1929, and the
 * standard acceleration of the 3rd CGPM (1901). Everything else is a product or quotient of these. */
#define FT   0.3048
#define IN   0.0254
#define NMI  1852.0
#define MILE (5280.0 * FT)
#define LB   0.45359237
#define G0   9.80665
#define LBF  (LB * G0)
#define SLUG (LBF / FT)
#define PI   3.14159265358979323846
#define DEG  (PI / 180.0)
#define INHG (13595.1 * G0 * IN) /* conventional density of mercury */

/* The SI unit of each dimension comes first; then those that people use most, for messages list them in order. */
const ls_unit ls_units_table[] = {
    {"", LS_DIM_NUMBER, 1.0, 0.0},
    {"", LS_DIM_FRACTION, 1.0, 0.0},
    {"%", LS_DIM_FRACTION, 1.0 / 100.0, 0.0},

    {"m", LS_DIM_LENGTH, 1.0, 0.0},
    {"ft", LS_DIM_LENGTH, FT, 0.0},
    {"in", LS_DIM_LENGTH, IN, 0.0},
    {"cm", LS_DIM_LENGTH, 1.0 / 100.0, 0.0},
    {"mm", LS_DIM_LENGTH, 1.0 / 1000.0, 0.0},
    {"km", LS_DIM_LENGTH, 1000.0, 0.0},
    {"nmi", LS_DIM_LENGTH, NMI, 0.0},

    {"m2", LS_DIM_AREA, 1.0, 0.0},
    {"ft2", LS_DIM_AREA, FT *FT, 0.0},
    {"sqft", LS_DIM_AREA, FT *FT, 0.0},
    {"in2", LS_DIM_AREA, IN *IN, 0.0},
    {"cm2", LS_DIM_AREA, 1.0 / 10000.0, 0.0},

    {"m3", LS_DIM_VOLUME, 1.0, 0.0},
    {"L", LS_DIM_VOLUME, 1.0 / 1000.0, 0.0},
    {"in3", LS_DIM_VOLUME, IN *IN *IN, 0.0},
    {"ft3", LS_DIM_VOLUME, FT *FT *FT, 0.0},
    {"cm3", LS_DIM_VOLUME, 1.0 / 1000000.0, 0.0},

    {"kg", LS_DIM_MASS, 1.0, 0.0},
    {"lb", LS_DIM_MASS, LB, 0.0},
    {"slug", LS_DIM_MASS, SLUG, 0.0},
    {"g", LS_DIM_MASS, 1.0 / 1000.0, 0.0},
    {"t", LS_DIM_MASS, 1000.0, 0.0},

    {"N", LS_DIM_FORCE, 1.0, 0.0},
    {"lbf", LS_DIM_FORCE, LBF, 0.0},
    {"daN", LS_DIM_FORCE, 10.0, 0.0},
    {"kN", LS_DIM_FORCE, 1000.0, 0.0},

    {"m/s", LS_DIM_SPEED, 1.0, 0.0},
    {"kt", LS_DIM_SPEED, NMI / 3600.0, 0.0},
    {"km/h", LS_DIM_SPEED, 1.0 / 3.6, 0.0},
    {"mph", LS_DIM_SPEED, MILE / 3600.0, 0.0},
    {"ft/s", LS_DIM_SPEED, FT, 0.0},
    {"ft/min", LS_DIM_SPEED, FT / 60.0, 0.0},

    {"m/s2", LS_DIM_ACCELERATION, 1.0, 0.0},
    {"ft/s2", LS_DIM_ACCELERATION, FT, 0.0},

    {"rad", LS_DIM_ANGLE, 1.0, 0.0},
    {"deg", LS_DIM_ANGLE, DEG, 0.0},

    {"/rad", LS_DIM_PER_ANGLE, 1.0, 0.0},
    {"/deg", LS_DIM_PER_ANGLE, 180.0 / PI, 0.0},

    {"/rad2", LS_DIM_PER_ANGLE_SQUARED, 1.0, 0.0},
    {"/deg2", LS_DIM_PER_ANGLE_SQUARED, (180.0 / PI) * (180.0 / PI), 0.0},

    {"rad/s", LS_DIM_ANGULAR_RATE, 1.0, 0.0},
    {"deg/s", LS_DIM_ANGULAR_RATE, DEG, 0.0},

    {"rev/s", LS_DIM_ROTATION, 1.0, 0.0},
    {"rpm", LS_DIM_ROTATION, 1.0 / 60.0, 0.0},

    {"W", LS_DIM_POWER, 1.0, 0.0},
    {"hp", LS_DIM_POWER, 550.0 * FT *LBF, 0.0},
    {"kW", LS_DIM_POWER, 1000.0, 0.0},

    {"Pa", LS_DIM_PRESSURE, 1.0, 0.0},
    {"hPa", LS_DIM_PRESSURE, 100.0, 0.0},
    {"inHg", LS_DIM_PRESSURE, INHG, 0.0},
    {"kPa", LS_DIM_PRESSURE, 1000.0, 0.0},
    {"mbar", LS_DIM_PRESSURE, 100.0, 0.0},
    {"bar", LS_DIM_PRESSURE, 100000.0, 0.0},
    {"psi", LS_DIM_PRESSURE, LBF / (IN * IN), 0.0},
    {"lbf/ft2", LS_DIM_PRESSURE, LBF / (FT * FT), 0.0},

    {"K", LS_DIM_TEMPERATURE, 1.0, 0.0},
    {"degC", LS_DIM_TEMPERATURE, 1.0, 273.15},
    {"degF", LS_DIM_TEMPERATURE, 5.0 / 9.0, 459.67},

    {"K", LS_DIM_TEMPERATURE_DIFFERENCE, 1.0, 0.0},
    {"degC", LS_DIM_TEMPERATURE_DIFFERENCE, 1.0, 0.0},
    {"degF", LS_DIM_TEMPERATURE_DIFFERENCE, 5.0 / 9.0, 0.0},

    {"N.m", LS_DIM_TORQUE, 1.0, 0.0},
    {"lbf.ft", LS_DIM_TORQUE, LBF *FT, 0.0},
    {"lbf.in", LS_DIM_TORQUE, LBF *IN, 0.0},

    {"kg.m", LS_DIM_MASS_MOMENT, 1.0, 0.0},
    {"lb.in", LS_DIM_MASS_MOMENT, LB *IN, 0.0},
    {"lb.ft", LS_DIM_MASS_MOMENT, LB *FT, 0.0},

    {"s", LS_DIM_TIME, 1.0, 0.0},
    {"ms", LS_DIM_TIME, 1.0 / 1000.0, 0.0},
    {"min", LS_DIM_TIME, 60.0, 0.0},
    {"h", LS_DIM_TIME, 3600.0, 0.0},

    {"kg.m2", LS_DIM_INERTIA, 1.0, 0.0},
    {"slug.ft2", LS_DIM_INERTIA, SLUG *FT *FT, 0.0},
    {"lb.ft2", LS_DIM_INERTIA, LB *FT *FT, 0.0},
    {"lb.in2", LS_DIM_INERTIA, LB *IN *IN, 0.0},

    {"kg/m3", LS_DIM_DENSITY, 1.0, 0.0},
    {"slug/ft3", LS_DIM_DENSITY, SLUG / (FT * FT * FT), 0.0},
    {"lb/ft3", LS_DIM_DENSITY, LB / (FT * FT * FT), 0.0},

    {"N/rad", LS_DIM_FORCE_PER_ANGLE, 1.0, 0.0},
    {"N/deg", LS_DIM_FORCE_PER_ANGLE, 180.0 / PI, 0.0},
    {"lbf/deg", LS_DIM_FORCE_PER_ANGLE, LBF * 180.0 / PI, 0.0},
    {"lbf/rad", LS_DIM_FORCE_PER_ANGLE, LBF, 0.0},

    {"rad/m", LS_DIM_GEARING, 1.0, 0.0},
    {"deg/in", LS_DIM_GEARING, DEG / IN, 0.0},
    {"rad/ft", LS_DIM_GEARING, 1.0 / FT, 0.0},
    {"deg/cm", LS_DIM_GEARING, DEG * 100.0, 0.0},
    {"deg/m", LS_DIM_GEARING, DEG, 0.0},
    {"rad/in", LS_DIM_GEARING, 1.0 / IN, 0.0},

    {"/m", LS_DIM_PER_LENGTH, 1.0, 0.0},
    {"/ft", LS_DIM_PER_LENGTH, 1.0 / FT, 0.0},
    {"/in", LS_DIM_PER_LENGTH, 1.0 / IN, 0.0},
};

const int ls_units_table_count = sizeof ls_units_table / sizeof ls_units_table[0];

/* What people of the US and of the metric system read; the SI unit where a dimension is not named. */
const char *const ls_units_preferred[LS_DIMENSION_COUNT][2] = {
    [LS_DIM_LENGTH] = {"ft", "m"},
    [LS_DIM_ALTITUDE] = {"ft", "ft"},
    [LS_DIM_AREA] = {"ft2", "m2"},
    [LS_DIM_VOLUME] = {"in3", "L"},
    [LS_DIM_MASS] = {"lb", "kg"},
    [LS_DIM_FORCE] = {"lbf", "N"},
    [LS_DIM_SPEED] = {"kt", "kt"},
    [LS_DIM_CLIMB_RATE] = {"ft/min", "ft/min"},
    [LS_DIM_ACCELERATION] = {"ft/s2", "m/s2"},
    [LS_DIM_ANGLE] = {"deg", "deg"},
    [LS_DIM_ANGULAR_RATE] = {"deg/s", "deg/s"},
    [LS_DIM_ROTATION] = {"rpm", "rpm"},
    [LS_DIM_POWER] = {"hp", "kW"},
    [LS_DIM_PRESSURE] = {"inHg", "hPa"},
    [LS_DIM_TEMPERATURE] = {"degC", "degC"},
    [LS_DIM_TEMPERATURE_DIFFERENCE] = {"degC", "degC"},
    [LS_DIM_TORQUE] = {"lbf.ft", "N.m"},
    [LS_DIM_MASS_MOMENT] = {"lb.in", "kg.m"},
    [LS_DIM_INERTIA] = {"slug.ft2", "kg.m2"},
    [LS_DIM_DENSITY] = {"slug/ft3", "kg/m3"},
    [LS_DIM_FORCE_PER_ANGLE] = {"lbf/deg", "N/deg"},
    [LS_DIM_GEARING] = {"deg/in", "deg/cm"},
    [LS_DIM_PER_LENGTH] = {"/ft", "/m"},
};
