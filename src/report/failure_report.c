#include "report/failure_report.h"

#include "report/caution.h"
#include "report/failure_parts.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

double ls_failure_toward_dead(const ls_failure_view *view, double angle_rad)
{
    return view->failure->live_side > 0 ? -angle_rad : angle_rad;
}

void ls_failure_fact(ls_report *report, const char *name, const char *format, ...)
{
    char text[2 * LS_PHRASE];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    ls_report_line(report, "  %-14s%s", name, text);
}

static void warn(ls_report *report, const ls_failure_view *view)
{
    if (view->uncertain > 0) {
        ls_report_warning(report,
                          "%d of the file's values are estimated or assumed: speeds are given to whole knots.",
                          view->uncertain);
    }
    if (view->uncertain_motion > 0) {
        ls_report_warning(
            report,
            "%d values of motion (inertias, rates, pilot, propellers) are estimated or assumed: times and "
            "angles show how it goes, not how it will go.",
            view->uncertain_motion);
    }
    ls_report_caution_sideslip(report, view->failure->with_action.beta_most_rad);
    if (view->failure->with_action.end == LS_MOTION_FIN_STALL ||
        view->failure->with_action.end == LS_MOTION_WING_STALL) {
        ls_report_warning(report, "Beyond the stall nothing is modelled: it would be worse.");
    }
}

void ls_failure_report(ls_report *report, ls_failure_view *view)
{
    ls_failure_say(report, view);
    ls_failure_say_modes(report, view);
    ls_report_line(report, "%s", "");
    ls_failure_tables(report, view);
    ls_failure_data(report, view);
    warn(report, view);
}
