/* The report of `failure`: what a sudden failure asks of the pilot. */
#ifndef LIVESIDE_REPORT_FAILURE_REPORT_H
#define LIVESIDE_REPORT_FAILURE_REPORT_H

#include "liveside/failure.h"
#include "report/report.h"

enum { LS_FAILURE_HEADING = 48 };

/* What the report is made from. Headings and columns live here because the report refers to them: keep this until
 * the report is written. Null where a part was not asked for. */
typedef struct {
    const ls_aircraft *aircraft;
    const ls_failure *failure;
    const ls_recovery *recovery;
    const ls_slowing *demonstration;
    const ls_drill *drill;
    ls_unit_system units;
    int uncertain;        /* values of steady flight that are estimated or assumed: whole knots */
    int uncertain_motion; /* the same of motion */
    char heading[LS_FAILURE_DELAYS][LS_FAILURE_HEADING];
    ls_column sweep[LS_FAILURE_DELAYS + 1];
} ls_failure_view;

/* Adds everything to a report. */
void ls_failure_report(ls_report *report, ls_failure_view *view);

#endif
