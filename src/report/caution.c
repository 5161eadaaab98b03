#include "report/caution.h"

#include "liveside/powerplant.h"

#include <math.h>

#define DEG (3.14159265358979323846 / 180.0)

/* What the propellers do there that the reader should know. */
static void warn_of_propeller(ls_report *report, unsigned flags)
{
    static const struct {
        unsigned flag;
        const char *text;
    } rows[] = {
        {LS_PROPULSOR_SPEED_OUTSIDE,
         "The propeller's curve does not reach this speed: its thrust is extrapolated."},
        {LS_PROPULSOR_TABLE_EDGE, "A propeller is outside the range of its table: the nearest point was taken."},
        {LS_PROPULSOR_COARSE_STOP, "A propeller is on its coarse stop and runs above its governed speed."},
        {LS_PROPULSOR_TIP_MACH, "A propeller's tips are above Mach 0.85, where the section data end."},
        {LS_PROPULSOR_STOPS, "At this speed the dead propeller no longer windmills: it stops, unfeathered."},
        {LS_PROPULSOR_LATCHED, "The dead propeller turns too slowly here to be feathered any more."},
        {LS_PROPULSOR_TURNS, "The dead propeller's torque at rest exceeds the break-out torque: it would turn."},
        {LS_PROPULSOR_TORQUE_LIMITED, "An electric motor is on its torque limit here."},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (flags & rows[i].flag) {
            ls_report_warning(report, "%s", rows[i].text);
        }
    }
}

void ls_report_cautions(ls_report *report, int uncertain, double bank_rad, unsigned flags)
{
    if (uncertain > 0) {
        ls_report_warning(report,
                          "%d of the file's values %s estimated or assumed: read speeds to whole knots, no finer.",
                          uncertain, uncertain == 1 ? "is" : "are");
    }
    if (fabs(bank_rad) > 5.001 * DEG) {
        ls_report_warning(report, "More than 5 deg of bank: published speeds are not found that way; sideslip and "
                                  "drag grow, and the fin may stall.");
    }
    warn_of_propeller(report, flags);
}

void ls_report_caution_sideslip(ls_report *report, double beta_rad)
{
    if (fabs(beta_rad) > 15.0 * DEG) {
        ls_report_warning(report,
                          "Sideslip of %.0f deg: beyond about 15 deg the file's derivatives are extrapolated.",
                          fabs(beta_rad) / DEG);
    }
}
