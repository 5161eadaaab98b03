/* The report of `runway`: the take-off roll after a failure. */
#ifndef LIVESIDE_REPORT_GROUND_REPORT_H
#define LIVESIDE_REPORT_GROUND_REPORT_H

#include "liveside/chart.h"
#include "liveside/ground.h"
#include "report/report.h"

typedef struct {
    const ls_aircraft *aircraft;
    const ls_ground *ground;
    ls_unit_system units;
    int uncertain, uncertain_motion; /* as in ls_failure_view */
} ls_ground_view;

/* Adds everything to a report. */
void ls_ground_report(ls_report *report, const ls_ground_view *view);

/* The tracks over the runway. */
void ls_chart_of_tracks(ls_chart *chart, const ls_ground_view *view, int slide);

#endif
