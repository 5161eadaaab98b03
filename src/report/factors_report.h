/* The report of `factors`, and its chart. */
#ifndef LIVESIDE_REPORT_FACTORS_REPORT_H
#define LIVESIDE_REPORT_FACTORS_REPORT_H

#include "liveside/chart.h"
#include "liveside/factors.h"
#include "report/report.h"

typedef struct {
    const ls_aircraft *aircraft;
    const ls_factors *factors;
    ls_unit_system units;
    int uncertain; /* values that are estimated or assumed */
    int full;      /* with the change of climb's doubt and the sources */
} ls_factors_view;

/* Adds everything to a report. */
void ls_factors_report(ls_report *report, const ls_factors_view *view);

/* The changes of speed as bars, by size. Fills an empty chart; the caller saves and frees it. */
void ls_chart_of_factors(ls_chart *chart, const ls_factors_view *view, int slide);

#endif
