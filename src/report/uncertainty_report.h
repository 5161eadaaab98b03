/* The report of `uncertainty`, and its chart. */
#ifndef LIVESIDE_REPORT_UNCERTAINTY_REPORT_H
#define LIVESIDE_REPORT_UNCERTAINTY_REPORT_H

#include "liveside/chart.h"
#include "liveside/uncertainty.h"
#include "report/report.h"

typedef struct {
    const ls_aircraft *aircraft;
    const ls_uncertainty_request *request;
    const ls_uncertainty *result;
    ls_unit_system units;
    int uncertain; /* values that are estimated or assumed */
    int is_partial;
} ls_uncertainty_view;

void ls_uncertainty_report(ls_report *report, const ls_uncertainty_view *view);

/* How the speed is distributed: a histogram, and below it the share of samples below each speed. Fills an empty
 * chart; the caller saves and frees it. */
void ls_chart_of_uncertainty(ls_chart *chart, const ls_uncertainty_view *view, int slide);

#endif
