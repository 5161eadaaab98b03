/* Units: published factors, a units library as the oracle of every unit, and what is refused. */
#define _DEFAULT_SOURCE /* setenv with mkdtemp */
#include "check.h"
#include "comma_locale.h"

#include "liveside/units.h"

#include "unit/units_oracle_data.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <udunits2.h>
#include <unistd.h>

typedef struct {
    const char *text;
    ls_dimension dimension;
    double si;
    double digits; /* significant digits of the published factor; 0: exact by definition */
    const char *source;
} published;

#define DEFINITION "exact by definition (as in NIST SP 811 (2008), appendix B; from memory)"
#define SP811      "NIST SP 811 (2008), appendix B (from memory)"

static const published published_values[] = {
    {"36.0 ft", LS_DIM_LENGTH, 10.9728, 0, DEFINITION},
    {"1 in", LS_DIM_LENGTH, 0.0254, 0, DEFINITION},
    {"1 nmi", LS_DIM_LENGTH, 1852.0, 0, DEFINITION},
    {"1 ft2", LS_DIM_AREA, 0.09290304, 0, DEFINITION},
    {"1 sqft", LS_DIM_AREA, 0.09290304, 0, DEFINITION},
    {"1 in3", LS_DIM_VOLUME, 1.6387064e-5, 0, DEFINITION},
    {"5.9 L", LS_DIM_VOLUME, 5.9e-3, 0, DEFINITION},
    {"1 lb", LS_DIM_MASS, 0.45359237, 0, DEFINITION},
    {"1 slug", LS_DIM_MASS, 14.59390, 7, SP811},
    {"1 lbf", LS_DIM_FORCE, 4.4482216152605, 0, DEFINITION},
    {"1 kt", LS_DIM_SPEED, 1852.0 / 3600.0, 0, DEFINITION},
    {"36 km/h", LS_DIM_SPEED, 10.0, 0, DEFINITION},
    {"1 mph", LS_DIM_SPEED, 0.44704, 0, DEFINITION},
    {"1 ft/min", LS_DIM_SPEED, 0.00508, 0, DEFINITION},
    {"1000 ft/min", LS_DIM_CLIMB_RATE, 5.08, 0, DEFINITION},
    {"5000 ft", LS_DIM_ALTITUDE, 1524.0, 0, DEFINITION},
    {"180 deg", LS_DIM_ANGLE, 3.141592653589793, 0, "half a turn"},
    {"-1 /deg", LS_DIM_PER_ANGLE, -57.29577951308232, 0, "half a turn"},
    {"1 /deg2", LS_DIM_PER_ANGLE_SQUARED, 57.29577951308232 * 57.29577951308232, 0, "half a turn"},
    {"180 deg/s", LS_DIM_ANGULAR_RATE, 3.141592653589793, 0, "half a turn"},
    {"2700 rpm", LS_DIM_ROTATION, 45.0, 0, "60 s in a minute"},
    {"1 hp", LS_DIM_POWER, 745.6999, 7, SP811},
    {"1 inHg", LS_DIM_PRESSURE, 3386.389, 7, SP811},
    {"29.92 inHg", LS_DIM_PRESSURE, 101325.0, 4, "standard sea level, 29.92 inHg"},
    {"1013.25 hPa", LS_DIM_PRESSURE, 101325.0, 0, DEFINITION},
    {"1 psi", LS_DIM_PRESSURE, 6894.757, 7, SP811},
    {"1 lbf/ft2", LS_DIM_PRESSURE, 47.88026, 7, SP811},
    {"15 degC", LS_DIM_TEMPERATURE, 288.15, 0, DEFINITION},
    {"59 degF", LS_DIM_TEMPERATURE, 288.15, 0, DEFINITION},
    {"-40 degF", LS_DIM_TEMPERATURE, 233.15, 0, "-40 degF is -40 degC"},
    {"20 degC", LS_DIM_TEMPERATURE_DIFFERENCE, 20.0, 0, DEFINITION},
    {"36 degF", LS_DIM_TEMPERATURE_DIFFERENCE, 20.0, 0, DEFINITION},
    {"1 lbf.ft", LS_DIM_TORQUE, 1.355818, 7, SP811},
    {"1 lbf.in", LS_DIM_TORQUE, 0.1129848, 7, SP811},
    {"1 slug.ft2", LS_DIM_INERTIA, 1.355818, 7, "a slug is a lbf.s2/ft, so as the torque"},
    {"1 lb.ft2", LS_DIM_INERTIA, 0.04214011, 7, SP811},
    {"0.0023769 slug/ft3", LS_DIM_DENSITY, 1.2250, 5, "standard sea level in both systems"},
    {"1 lb/ft3", LS_DIM_DENSITY, 16.01846, 7, SP811},
    {"12 %", LS_DIM_FRACTION, 0.12, 0, DEFINITION},
    {"0.12", LS_DIM_FRACTION, 0.12, 0, DEFINITION},
    {"-7", LS_DIM_NUMBER, -7.0, 0, DEFINITION},
    {"57.29577951308232 deg/in", LS_DIM_GEARING, 1.0 / 0.0254, 0, "one radian an inch"},
};

static void values_are_the_published_ones(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof published_values / sizeof published_values[0]; i++) {
        double si = NAN;
        ls_error error = {0};
        if (ls_units_parse(published_values[i].text, published_values[i].dimension, &si, &error) != LS_OK) {
            fail_msg("%s: %s", published_values[i].text, error.text);
        }
        double tol = published_values[i].digits > 0.0 ? pow(10.0, 1.0 - published_values[i].digits) : 4e-16;
        check_close(published_values[i].text, si, published_values[i].si, tol * fabs(published_values[i].si),
                    published_values[i].digits > 0.0 ? "printed digits" : "round-off", published_values[i].source);
    }
}

static double udunits(ut_system *system, const char *from, const char *to, double value)
{
    ut_unit *a = ut_parse(system, from, UT_ASCII);
    ut_unit *b = ut_parse(system, to, UT_ASCII);
    cv_converter *converter = a != NULL && b != NULL ? ut_get_converter(a, b) : NULL;
    double converted = converter != NULL ? cv_convert_double(converter, value) : NAN;
    cv_free(converter);
    ut_free(a);
    ut_free(b);
    return converted;
}

static ut_system *open_udunits(void)
{
    ut_set_error_message_handler(ut_ignore);
    ut_system *system = ut_read_xml(NULL);
    assert_non_null(system);
    return system;
}

static const unit_oracle *find_oracle(const ls_unit *unit)
{
    for (size_t k = 0; k < sizeof oracle / sizeof oracle[0]; k++) {
        if (oracle[k].dimension == unit->dimension && strcmp(oracle[k].ours, unit->name) == 0) {
            return &oracle[k];
        }
    }
    return NULL;
}

/* Every unit of the closed table, each way, at several values. */
static void every_unit_agrees_with_udunits(void **state)
{
    (void)state;
    static const double values[] = {1.0, -3.5, 1234.5678, 1e-5};
    ut_system *system = open_udunits();
    size_t seen = 0;
    for (int dimension = 0; dimension < LS_DIMENSION_COUNT; dimension++) {
        const ls_unit *unit;
        for (int i = 0; (unit = ls_unit_at((ls_dimension)dimension, i)) != NULL; i++) {
            if (unit->dimension != (ls_dimension)dimension) {
                break; /* ALTITUDE and CLIMB_RATE, which borrow their units */
            }
            const unit_oracle *of = find_oracle(unit);
            assert_non_null(of); /* every unit has one */
            seen++;
            for (size_t v = 0; v < sizeof values / sizeof values[0]; v++) {
                double want = udunits(system, of->theirs, of->si, values[v]);
                double tol = 4e-15 * (fabs(want) + fabs(unit->factor * unit->offset));
                check_close(unit->name, ls_unit_to_si(unit, values[v]), want, tol, "round-off", "UDUNITS-2");
                check_close(unit->name, ls_unit_from_si(unit, want), values[v],
                            4e-15 * (fabs(values[v]) + fabs(unit->offset)), "round-off", "UDUNITS-2");
            }
        }
    }
    assert_int_equal(seen, sizeof oracle / sizeof oracle[0]);
    ut_free_system(system);
}

/* Why our table is closed and our own. */
static void udunits_has_these_traps(void **state)
{
    (void)state;
    ut_system *system = open_udunits();
    check_close("its nmi is a nano-mile, m", udunits(system, "nmi", "m", 1.0), 1.609344e-6, 1e-20, "round-off",
                "UDUNITS-2");
    check_close("its rpm is an angular rate, rad/s", udunits(system, "rpm", "rad/s", 60.0), 6.283185307179586,
                1e-14, "round-off", "UDUNITS-2");
    check_close("its lb is a mass, kg", udunits(system, "lb", "kg", 1.0), 0.45359237, 1e-16, "round-off",
                "UDUNITS-2");
    check_close("our hp against its rounded one", ls_units_from(LS_DIM_POWER, "hp", 1.0),
                udunits(system, "hp", "W", 1.0), 5e-5, "its seven digits", "UDUNITS-2");
    check_close("our slug against its rounded one", ls_units_from(LS_DIM_MASS, "slug", 1.0),
                udunits(system, "slug", "kg", 1.0), 5e-6, "its seven digits", "UDUNITS-2");
    check_close("our inHg against its own", ls_units_from(LS_DIM_PRESSURE, "inHg", 1.0),
                udunits(system, "inHg", "Pa", 1.0), 5e-4, "its seven digits", "UDUNITS-2");
    ut_free_system(system);
}

static const struct {
    const char *text;
    ls_dimension dimension;
    const char *message;
} bad_values[] = {
    {"36", LS_DIM_LENGTH, "'36' has no unit; a length is needed: m, ft, in, cm, mm, km, nmi"},
    {"36 kg", LS_DIM_LENGTH, "'kg' is a unit of mass; a length is needed: m, ft, in, cm, mm, km, nmi"},
    {"150 lb", LS_DIM_FORCE, "'lb' is a unit of mass; a force is needed: N, lbf, daN, kN"},
    {"3 lbf", LS_DIM_MASS, "'lbf' is a unit of force; a mass is needed: kg, lb, slug, g, t"},
    {"300 lb.ft", LS_DIM_TORQUE, "'lb.ft' is a unit of mass moment; a torque is needed: N.m, lbf.ft, lbf.in"},
    {"2700 rad/s", LS_DIM_ROTATION, "'rad/s' is a unit of angular rate; a rotational speed is needed: rev/s, rpm"},
    {"5 %", LS_DIM_NUMBER, "'%' follows the number; a plain number without a unit is needed"},
    {"5 deg", LS_DIM_FRACTION, "'deg' is a unit of angle; a fraction is needed: no unit, %"},
    {"90 kts", LS_DIM_SPEED,
     "'kts' is not a known unit (did you mean 'kt'?); a speed is needed: m/s, kt, km/h, mph, ft/s, ft/min"},
    {"90 furlong", LS_DIM_LENGTH, "'furlong' is not a known unit; a length is needed: m, ft, in, cm, mm, km, nmi"},
    {"90 KT", LS_DIM_SPEED, "'KT' is not a known unit; a speed is needed: m/s, kt, km/h, mph, ft/s, ft/min"},
    {"6 ft 2 in", LS_DIM_LENGTH, "'ft 2 in' is not a known unit; a length is needed: m, ft, in, cm, mm, km, nmi"},
    {"1 \x1B[31mm", LS_DIM_LENGTH, "'?[31mm' is not a known unit; a length is needed: m, ft, in, cm, mm, km, nmi"},
    {"ft", LS_DIM_LENGTH, "'ft' is not a decimal number"},
    {"", LS_DIM_LENGTH, "'' is not a decimal number"},
    {"   ", LS_DIM_NUMBER, "'   ' is not a decimal number"},
    {".", LS_DIM_NUMBER, "'.' is not a decimal number"},
    {"-", LS_DIM_NUMBER, "'-' is not a decimal number"},
    {"e5", LS_DIM_NUMBER, "'e5' is not a decimal number"},
    {"inf ft", LS_DIM_LENGTH, "'inf ft' is not a decimal number"},
    {"nan", LS_DIM_NUMBER, "'nan' is not a decimal number"},
    {"-INFINITY m", LS_DIM_LENGTH, "'-INFINITY m' is not a decimal number"},
    {"0x10 ft", LS_DIM_LENGTH, "'0x10 ft' is not a decimal number"},
    {"-0X1p3", LS_DIM_NUMBER, "'-0X1p3' is not a decimal number"},
    {"1,5 ft", LS_DIM_LENGTH, "'1,5 ft' has a comma; write a decimal point and no thousands marks"},
    {"1e999 ft", LS_DIM_LENGTH, "'1e999' is too large a number"},
    {"1e308 km", LS_DIM_LENGTH, "'1e308 km' is too large a value"},
    {"1e-999", LS_DIM_NUMBER, "'1e-999' is too small a number; write 0 if none is meant"},
    {"1e-310", LS_DIM_NUMBER, "'1e-310' is too small a number; write 0 if none is meant"},
    {"1 2", LS_DIM_NUMBER, "'2' follows the number; a plain number without a unit is needed"},
    {"1.2.3 m", LS_DIM_LENGTH, "'.3 m' is not a known unit; a length is needed: m, ft, in, cm, mm, km, nmi"},
    {"1 Pa.s", LS_DIM_PRESSURE,
     "'Pa.s' is not a known unit (did you mean 'Pa'?); a pressure is needed: Pa, hPa, inHg, kPa, mbar, bar, "
     "psi, lbf/ft2"},
};

static void bad_values_are_refused_with_a_reason(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof bad_values / sizeof bad_values[0]; i++) {
        double si = 7.0;
        ls_error error = {0};
        assert_int_equal(ls_units_parse(bad_values[i].text, bad_values[i].dimension, &si, &error),
                         LS_FILE_REJECTED);
        assert_string_equal(error.text, bad_values[i].message);
        assert_true(si == 7.0);
        assert_int_equal(ls_units_parse(bad_values[i].text, bad_values[i].dimension, &si, NULL), LS_FILE_REJECTED);
    }
}

static void forms_of_numbers_are_accepted(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        double value;
    } table[] = {
        {"1", 1},
        {"+1", 1},
        {"-1", -1},
        {"1.", 1},
        {".5", 0.5},
        {"-.5", -0.5},
        {"1e3", 1000},
        {"1E+3", 1000},
        {"1.5e-3", 0.0015},
        {"  2\t", 2},
        {"0", 0},
        {"0e999", 0},
        {"-0.0e-999", 0},
        {"007", 7},
        {"0.1", 0.1},
        {"1e308", 1e308},
        {"2.2250738585072014e-308", 2.2250738585072014e-308},
        {"0.3333333333333333333333333333333333", 1.0 / 3.0},
    };
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        double value = NAN;
        assert_int_equal(ls_units_parse(table[i].text, LS_DIM_NUMBER, &value, NULL), LS_OK);
        assert_true(value == table[i].value);
    }
    static const char *const spaced[] = {"36ft", "36 ft", "36\tft", " 36  ft ", "3.6e1ft"};
    for (size_t i = 0; i < sizeof spaced / sizeof spaced[0]; i++) {
        double si = NAN;
        assert_int_equal(ls_units_parse(spaced[i], LS_DIM_LENGTH, &si, NULL), LS_OK);
        check_close(spaced[i], si, 10.9728, 1e-14, "round-off", DEFINITION);
    }
    double si = NAN;
    assert_int_equal(ls_units_parse("12%", LS_DIM_FRACTION, &si, NULL), LS_OK);
    check_close("12%", si, 0.12, 1e-16, "round-off", DEFINITION);
}

static void long_numbers_are_refused(void **state)
{
    (void)state;
    char text[400];
    double si = 7.0;
    ls_error error = {0};
    memset(text, '1', 300);
    strcpy(text + 300, " m");
    assert_int_equal(ls_units_parse(text, LS_DIM_LENGTH, &si, &error), LS_FILE_REJECTED);
    assert_string_equal(error.text, "a number of 300 characters is too long (at most 127)");
    strcpy(text, "1 ");
    memset(text + 2, 'm', 300);
    text[302] = '\0';
    assert_int_equal(ls_units_parse(text, LS_DIM_LENGTH, &si, NULL), LS_FILE_REJECTED);
    assert_true(si == 7.0);
}

static void a_number_alone_gives_its_end(void **state)
{
    (void)state;
    double value = 7.0;
    const char *end = NULL;
    const char *text = "12.5 to 20";
    assert_int_equal(ls_units_number(text, &value, &end, NULL), LS_OK);
    assert_true(value == 12.5 && end == text + 4);
    assert_int_equal(ls_units_number(text, &value, NULL, NULL), LS_FILE_REJECTED);
    assert_int_equal(ls_units_number("3 ", &value, NULL, NULL), LS_OK);
    assert_true(value == 3.0);
}

static void values_go_there_and_back(void **state)
{
    (void)state;
    uint64_t seed = 42;
    double worst = 0.0;
    for (int dimension = 0; dimension < LS_DIMENSION_COUNT; dimension++) {
        const ls_unit *unit;
        for (int i = 0; (unit = ls_unit_at((ls_dimension)dimension, i)) != NULL; i++) {
            int count = check_scaled(1000);
            for (int n = 0; n < count; n++) {
                double value = pow(10.0, check_random(&seed, -3.0, 6.0));
                double back = ls_unit_from_si(unit, ls_unit_to_si(unit, value));
                worst = fmax(worst, fabs(back - value) / (value + unit->offset));
            }
        }
    }
    check_close("worst relative change there and back", worst, 0.0, 5e-16, "round-off", "identity");
}

static void preferred_units_are_those_that_people_read(void **state)
{
    (void)state;
    static const struct {
        ls_dimension dimension;
        const char *name[LS_UNITS_COUNT];
    } table[] = {
        {LS_DIM_SPEED, {"kt", "kt", "m/s"}},
        {LS_DIM_ALTITUDE, {"ft", "ft", "m"}},
        {LS_DIM_CLIMB_RATE, {"ft/min", "ft/min", "m/s"}},
        {LS_DIM_LENGTH, {"ft", "m", "m"}},
        {LS_DIM_AREA, {"ft2", "m2", "m2"}},
        {LS_DIM_MASS, {"lb", "kg", "kg"}},
        {LS_DIM_FORCE, {"lbf", "N", "N"}},
        {LS_DIM_TEMPERATURE, {"degC", "degC", "K"}},
        {LS_DIM_PRESSURE, {"inHg", "hPa", "Pa"}},
        {LS_DIM_POWER, {"hp", "kW", "W"}},
        {LS_DIM_ANGLE, {"deg", "deg", "rad"}},
        {LS_DIM_ROTATION, {"rpm", "rpm", "rev/s"}},
        {LS_DIM_NUMBER, {"", "", ""}},
        {LS_DIM_PER_ANGLE, {"/rad", "/rad", "/rad"}},
    };
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        for (int system = 0; system < LS_UNITS_COUNT; system++) {
            assert_string_equal(ls_unit_preferred((ls_unit_system)system, table[i].dimension)->name,
                                table[i].name[system]);
        }
    }
    for (int dimension = 0; dimension < LS_DIMENSION_COUNT; dimension++) {
        for (int system = 0; system < LS_UNITS_COUNT; system++) {
            assert_non_null(ls_unit_preferred((ls_unit_system)system, (ls_dimension)dimension));
        }
        const ls_unit *si = ls_unit_preferred(LS_UNITS_SI, (ls_dimension)dimension);
        assert_true(si->factor == 1.0 && si->offset == 0.0);
        assert_non_null(strchr(ls_dimension_text((ls_dimension)dimension), ' '));
    }
}

static void systems_are_found_by_name(void **state)
{
    (void)state;
    ls_unit_system system = LS_UNITS_COUNT;
    assert_true(ls_unit_system_find("metric", &system) && system == LS_UNITS_METRIC);
    assert_true(ls_unit_system_find("us", &system) && system == LS_UNITS_US);
    assert_true(ls_unit_system_find("si", &system) && system == LS_UNITS_SI);
    assert_false(ls_unit_system_find("imperial", &system));
    assert_int_equal(system, LS_UNITS_SI);
}

static void check_format(double si, ls_dimension dimension, const char *unit, int decimals, const char *want)
{
    char out[64];
    size_t length = ls_units_format(si, ls_unit_find(dimension, unit), decimals, out, sizeof out);
    assert_string_equal(out, want);
    assert_int_equal(length, strlen(want));
}

static void values_are_printed(void **state)
{
    (void)state;
    check_format(100.0 * 1852.0 / 3600.0, LS_DIM_SPEED, "kt", 1, "100.0 kt");
    check_format(288.15, LS_DIM_TEMPERATURE, "degC", 0, "15 degC");
    check_format(0.12, LS_DIM_FRACTION, "%", 0, "12%");
    check_format(0.12, LS_DIM_FRACTION, "", 2, "0.12");
    check_format(-0.6, LS_DIM_PER_ANGLE, "/rad", 3, "-0.600 /rad");
    check_format(-0.0001, LS_DIM_LENGTH, "m", 2, "0.00 m");
    check_format(-0.0, LS_DIM_LENGTH, "m", 0, "0 m");
    check_format(-0.51, LS_DIM_LENGTH, "m", 0, "-1 m");
    check_format(NAN, LS_DIM_LENGTH, "m", 2, "not finite");
    check_format(INFINITY, LS_DIM_LENGTH, "m", 2, "not finite");
    char tiny[5];
    assert_int_equal(ls_units_format(123.0, ls_unit_find(LS_DIM_LENGTH, "m"), 1, tiny, sizeof tiny), 7);
    assert_string_equal(tiny, "123.");
}

static void a_comma_locale_changes_nothing(void **state)
{
    (void)state;
    char folder[64], out[64];
    int is_comma = comma_locale_use(folder);
    double si = NAN;
    if (is_comma) {
        char control[16];
        snprintf(control, sizeof control, "%.1f", 1.5);
        assert_string_equal(control, "1,5");
        assert_int_equal(ls_units_parse("1.5 km", LS_DIM_LENGTH, &si, NULL), LS_OK);
        ls_units_format(1.5, ls_unit_find(LS_DIM_LENGTH, "m"), 1, out, sizeof out);
        snprintf(control, sizeof control, "%.1f", 2.5);
        assert_string_equal(control, "2,5"); /* the caller's locale is back */
    }
    comma_locale_end(folder);
    if (!is_comma) {
        print_message("skipped: no locale with a decimal comma can be made here (localedef)\n");
        skip();
    }
    assert_true(si == 1500.0);
    assert_string_equal(out, "1.5 m");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(values_are_the_published_ones),
        cmocka_unit_test(every_unit_agrees_with_udunits),
        cmocka_unit_test(udunits_has_these_traps),
        cmocka_unit_test(bad_values_are_refused_with_a_reason),
        cmocka_unit_test(forms_of_numbers_are_accepted),
        cmocka_unit_test(long_numbers_are_refused),
        cmocka_unit_test(a_number_alone_gives_its_end),
        cmocka_unit_test(values_go_there_and_back),
        cmocka_unit_test(preferred_units_are_those_that_people_read),
        cmocka_unit_test(systems_are_found_by_name),
        cmocka_unit_test(values_are_printed),
        cmocka_unit_test(a_comma_locale_changes_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
