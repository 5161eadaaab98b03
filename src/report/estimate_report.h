/* The report of `estimate`. */
#ifndef LIVESIDE_REPORT_ESTIMATE_REPORT_H
#define LIVESIDE_REPORT_ESTIMATE_REPORT_H

#include "liveside/estimate.h"
#include "liveside/estimate_check.h"
#include "report/report.h"

typedef struct {
    const ls_geometry_input *input;
    const ls_aircraft *aircraft;
    const ls_estimate *estimate;
    const ls_estimate_check *check;
    const char *written; /* the file that the aeroplane went to, or null */
    ls_unit_system units;
} ls_estimate_view;

void ls_estimate_report(ls_report *report, const ls_estimate_view *view);

#endif
