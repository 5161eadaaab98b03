/* The report of `explain`: which engine is critical and why, in words and tables. */
#ifndef LIVESIDE_REPORT_EXPLAIN_REPORT_H
#define LIVESIDE_REPORT_EXPLAIN_REPORT_H

#include "liveside/breakdown.h"
#include "report/report.h"

enum { LS_EXPLAIN_COLUMNS = 8, LS_EXPLAIN_HEADINGS = 24, LS_EXPLAIN_HEADING = 48 };

/* What the report is made from. Headings and columns live here because the report refers to them: keep this until
 * the report is written. */
typedef struct {
    const ls_aircraft *aircraft;
    const ls_breakdown *breakdown;
    ls_unit_system units;
    int uncertain;   /* values that are estimated or assumed */
    double ball_rad; /* bank of one ball width */
    int headings;
    char heading[LS_EXPLAIN_HEADINGS][LS_EXPLAIN_HEADING];
    ls_column yaw[LS_EXPLAIN_COLUMNS], roll[LS_EXPLAIN_COLUMNS], worth[LS_EXPLAIN_COLUMNS],
        rotation[LS_EXPLAIN_COLUMNS];
} ls_explain_view;

/* Adds everything to a report. */
void ls_explain_report(ls_report *report, ls_explain_view *view);

#endif
