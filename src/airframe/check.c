/* Plausibility of an aeroplane as a whole: masses, centre of gravity, wing, flaps, published figures. The bands
 * are common practice, wide enough for unusual aeroplanes; they catch slips of unit and of sign. */
#include "airframe/check.h"

#include "airframe/path.h"
#include "liveside/air.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

static const double pi = 3.14159265358979323846;
static const double degree = 3.14159265358979323846 / 180.0;
static const double knot = 1852.0 / 3600.0;

void ls_check_add(const ls_check *check, ls_severity severity, const char *path, int element, const char *format,
                  ...)
{
    char text[LS_FINDING_TEXT], key[LS_FINDING_KEY];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    const ls_parameter *row = ls_parameter_row(path);
    const ls_mark *mark = ls_mark_of_const(check->marks, row, element);
    ls_findings_add(check->findings, severity, ls_parameter_path(row, element, key, sizeof key), mark->line,
                    mark->column, "%s", text);
}

void ls_check_usual(const ls_check *check, const char *path, int element, double value, double low, double high,
                    const char *what, const char *unit)
{
    if (value < low || value > high) {
        ls_check_add(check, LS_WARNING, path, element, "%s is %.3g%s; %.3g to %.3g%s is usual: is a unit wrong?",
                     what, value, unit, low, high, unit);
    }
}

static void check_mass(const ls_check *check)
{
    const ls_aircraft *a = check->aircraft;
    if (a->mass.minimum_kg > a->mass.maximum_kg) {
        ls_check_add(check, LS_REJECT, "mass.minimum", 0, "the least mass is above mass.maximum");
    }
    ls_check_usual(check, "mass.maximum", 0, a->mass.maximum_kg / a->wing.area_m2, 15.0, 900.0, "the wing loading",
                   " kg/m2");
}

static void check_cg(const ls_check *check)
{
    const ls_aircraft *a = check->aircraft;
    double chord_m = ls_given(a->wing.chord_m) ? a->wing.chord_m : a->wing.area_m2 / a->wing.span_m;
    if (a->cg.forward_m > a->cg.aft_m) {
        ls_check_add(check, LS_REJECT, "cg.forward", 0, "the forward limit is aft of cg.aft");
        return;
    }
    if (a->cg.aft_m - a->cg.forward_m > 0.5 * chord_m) {
        ls_check_add(check, LS_WARNING, "cg.aft", 0,
                     "the range of the centre of gravity is %.3g m, over half a wing chord: is a unit wrong?",
                     a->cg.aft_m - a->cg.forward_m);
    }
    if (a->cg.reference_m < a->cg.forward_m - 0.5 * chord_m || a->cg.reference_m > a->cg.aft_m + 0.5 * chord_m) {
        ls_check_add(check, LS_WARNING, "cg.reference", 0,
                     "the reference lies over half a wing chord outside cg.forward to cg.aft: is it from the same "
                     "datum?");
    }
}

static void check_wing(const ls_check *check)
{
    const ls_aircraft *a = check->aircraft;
    double chord_m = a->wing.area_m2 / a->wing.span_m;
    ls_check_usual(check, "wing.span", 0, a->wing.span_m / chord_m, 3.0, 25.0, "the aspect ratio, span^2/area,",
                   "");
    ls_check_usual(check, "wing.chord", 0, a->wing.chord_m / chord_m, 0.8, 1.4, "the chord over area/span", "");
}

/* Stall speed at greatest mass, sea level, in knots. */
static double stall_kt(const ls_aircraft *a, int flap)
{
    double weight_N = a->mass.maximum_kg * LS_G0_M_S2;
    double q_Pa = weight_N / (a->wing.area_m2 * a->flap[flap].lift_max);
    return sqrt(2.0 * q_Pa / LS_AIR_RHO0_KG_M3) / knot;
}

static void check_flap(const ls_check *check, int i)
{
    const ls_aircraft *a = check->aircraft;
    const ls_flap *flap = &a->flap[i];
    double stall_deg = (flap->lift_max - flap->lift_zero) / flap->lift_slope_per_rad / degree;
    double aspect = a->wing.span_m * a->wing.span_m / a->wing.area_m2;
    if (flap->lift_max <= flap->lift_zero) {
        ls_check_add(check, LS_REJECT, "flaps[].lift_max", i,
                     "the greatest lift coefficient is not above lift_zero, that at zero angle of attack");
        return;
    }
    ls_check_usual(check, "flaps[].lift_slope", i, stall_deg, 4.0, 30.0, "the angle of attack at the stall",
                   " deg");
    ls_check_usual(check, "flaps[].lift_max", i, stall_kt(a, i), 20.0, 160.0, "the stall speed at greatest mass",
                   " kt");
    ls_check_usual(check, "flaps[].drag_induced", i, 1.0 / (pi * aspect * flap->drag_induced), 0.4, 1.2,
                   "the span efficiency, 1/(pi x aspect ratio x drag_induced),", "");
    ls_check_usual(check, "flaps[].drag_zero", i, 0.5 / sqrt(flap->drag_zero * flap->drag_induced), 3.0, 40.0,
                   "the best lift over drag", "");
}

/* More flap gives more lift. */
static void check_flap_order(const ls_check *check, int i)
{
    const ls_flap *flap = check->aircraft->flap;
    for (int other = 0; other < check->aircraft->flaps; other++) {
        if (flap[i].deflection_rad > flap[other].deflection_rad && flap[i].lift_max < flap[other].lift_max) {
            ls_check_add(check, LS_WARNING, "flaps[].lift_max", i,
                         "less lift than flaps[%d] has with less deflection", other + 1);
            return;
        }
    }
}

static void check_flaps(const ls_check *check)
{
    for (int i = 0; i < check->aircraft->flaps; i++) {
        check_flap(check, i);
        check_flap_order(check, i);
    }
}

static void check_published(const ls_check *check)
{
    const ls_aircraft *a = check->aircraft;
    double published_kt = a->published.stall_m_s / knot;
    double computed_kt = a->flaps > 0 ? stall_kt(a, a->takeoff.flap) : NAN;
    if (fabs(published_kt - computed_kt) > 0.1 * published_kt) {
        ls_check_add(check, LS_WARNING, "published.stall", 0,
                     "the file's numbers give a stall speed of %.1f kt, over 10 %% from the published %.1f kt",
                     computed_kt, published_kt);
    }
}

static void check_position_error(const ls_check *check)
{
    const ls_curve *curve = &check->aircraft->position_error;
    for (int i = 0; i < curve->rows; i++) {
        if (i > 0 && curve->y[i] <= curve->y[i - 1]) {
            ls_check_add(check, LS_REJECT, "airspeed.position_error", 0,
                         "the indicated airspeed must rise from row to row; row %d does not", i + 1);
            return;
        }
        if (fabs(curve->y[i] - curve->x[i]) > 0.2 * fabs(curve->x[i])) {
            ls_check_add(check, LS_WARNING, "airspeed.position_error", 0,
                         "indicated and calibrated airspeed differ by over 20 %% in row %d", i + 1);
            return;
        }
    }
}

void ls_aircraft_check(const ls_aircraft *aircraft, const ls_marks *marks, ls_findings *findings)
{
    ls_check check = {.aircraft = aircraft, .marks = marks, .findings = findings};
    check_mass(&check);
    check_cg(&check);
    check_wing(&check);
    check_flaps(&check);
    ls_check_lateral(&check);
    ls_check_power(&check);
    ls_check_engines(&check);
    check_published(&check);
    check_position_error(&check);
}
