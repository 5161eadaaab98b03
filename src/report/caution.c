#include "report/caution.h"

#include "liveside/powerplant.h"

#include <math.h>

#define DEG (3.14159265358979323846 / 180.0)

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
    if (flags & LS_PROPULSOR_SPEED_OUTSIDE) {
        ls_report_warning(report, "The propeller's curve does not reach this speed: its thrust is extrapolated.");
    }
    if (flags & LS_PROPULSOR_TORQUE_LIMITED) {
        ls_report_warning(report, "An electric motor is on its torque limit here.");
    }
}
