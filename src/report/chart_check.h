/* Whether a chart can be drawn at all. */
#ifndef LIVESIDE_REPORT_CHART_CHECK_H
#define LIVESIDE_REPORT_CHART_CHECK_H

#include "liveside/chart.h"

/* Status: LS_OK; the kept failure of an adding function; LS_USAGE with what is wrong. */
ls_status ls_chart_check(const ls_chart *chart, ls_error *error);

#endif
