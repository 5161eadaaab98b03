/* The report of `sensitivity`, and its chart. */
#ifndef LIVESIDE_REPORT_SENSITIVITY_REPORT_H
#define LIVESIDE_REPORT_SENSITIVITY_REPORT_H

#include "liveside/chart.h"
#include "liveside/sensitivity.h"
#include "report/report.h"

enum { LS_SENSITIVITY_ROWS = 20 };

typedef struct {
    const ls_aircraft *aircraft;
    const ls_sensitivity_request *request;
    const ls_sensitivity *sensitivity; /* in the order of `by` */
    ls_result by;
    ls_unit_system units;
    int uncertain; /* values that are estimated or assumed */
    int full;      /* every row */
    int is_partial;
} ls_sensitivity_view;

void ls_sensitivity_report(ls_report *report, const ls_sensitivity_view *view);

/* The largest changes as bars, each way. Fills an empty chart; the caller saves and frees it. */
void ls_chart_of_sensitivity(ls_chart *chart, const ls_sensitivity_view *view, int slide);

#endif
