/* The report of `reduce`, and its chart. */
#ifndef LIVESIDE_REPORT_REDUCE_REPORT_H
#define LIVESIDE_REPORT_REDUCE_REPORT_H

#include "liveside/chart.h"
#include "liveside/reduce.h"
#include "report/report.h"

typedef struct {
    const ls_aircraft *aircraft;
    const ls_reduce_request *request;
    const ls_reduction *reduction;
    const char *written; /* the file that the updated aeroplane went to, or null */
    ls_unit_system units;
} ls_reduce_view;

void ls_reduce_report(ls_report *report, const ls_reduce_view *view);

/* Residuals as speeds, against airspeed: a pattern is what the model leaves. */
void ls_chart_of_residuals(ls_chart *chart, const ls_reduce_view *view, int slide);

#endif
