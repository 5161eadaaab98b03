/* The charts of `explain`. Each builder fills an empty chart record; the caller saves and frees it. */
#ifndef LIVESIDE_REPORT_EXPLAIN_CHARTS_H
#define LIVESIDE_REPORT_EXPLAIN_CHARTS_H

#include "liveside/chart.h"
#include "report/explain_report.h"

/* Yawing or rolling moments by cause as bars, one failure beside the other. */
void ls_chart_of_moments(ls_chart *chart, const ls_explain_view *view, int is_roll, int slide);

/* The forces of one failure drawn to scale, from above and from behind. Given: side, solved. */
void ls_chart_from_above(ls_chart *chart, const ls_explain_view *view, int side, int slide);
void ls_chart_from_behind(ls_chart *chart, const ls_explain_view *view, int side, int slide);

#endif
