/* The report of `climb`: the answer in words, the tables, the data. */
#ifndef LIVESIDE_REPORT_CLIMB_REPORT_H
#define LIVESIDE_REPORT_CLIMB_REPORT_H

#include "liveside/performance.h"
#include "report/report.h"

enum { LS_CLIMB_COLUMNS = 12, LS_CLIMB_TABLES = 12, LS_CLIMB_HEADINGS = 24, LS_CLIMB_HEADING = 40 };

/* What the report is made from; the parts of a failure are null when every engine runs. Headings and columns live
 * here because the report refers to them: keep this until the report is written. */
typedef struct {
    const ls_performance_request *request;
    const ls_performance *performance;
    const ls_climb_lines *lines;
    const ls_climb_by_bank *banks;
    const ls_costs *costs;
    const ls_heights *heights;
    const ls_drift *drift;
    const ls_field *field;
    const ls_published_climb *published; /* null when the file publishes nothing of climb */
    int uncertain;                       /* values that are estimated or assumed */
    int full;                            /* every table, not only what matters most */
    ls_unit_system units;
    double ball_rad; /* bank of one ball width */
    int tables, headings;
    ls_column column[LS_CLIMB_TABLES][LS_CLIMB_COLUMNS];
    char heading[LS_CLIMB_HEADINGS][LS_CLIMB_HEADING];
} ls_climb_view;

/* Adds everything to a report. */
void ls_climb_report(ls_report *report, ls_climb_view *view);

#endif
