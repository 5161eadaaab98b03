/* The report of `demonstration`, and its chart. */
#ifndef LIVESIDE_REPORT_DEMONSTRATION_REPORT_H
#define LIVESIDE_REPORT_DEMONSTRATION_REPORT_H

#include "liveside/chart.h"
#include "liveside/demonstration.h"
#include "report/report.h"

typedef struct {
    const ls_aircraft *aircraft;
    const ls_demonstration_request *request;
    const ls_demonstration *plan;
    ls_unit_system units;
    int uncertain; /* values that are estimated or assumed */
} ls_demonstration_view;

/* Adds everything to a report. */
void ls_demonstration_report(ls_report *report, const ls_demonstration_view *view);

/* What each limit has left against speed, with VSSE and the entry marked. */
void ls_chart_of_authority(ls_chart *chart, const ls_demonstration_view *view, int slide);

#endif
