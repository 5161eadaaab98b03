/* What a chart shows, in words and numbers: for those who do not see it. */
#ifndef LIVESIDE_REPORT_CHART_WORDS_H
#define LIVESIDE_REPORT_CHART_WORDS_H

#include "liveside/chart.h"

enum { LS_CHART_WORDS = 4096 };

/* Describes a chart: its axes, the ends and the least and greatest value of each named curve, every bar, and every
 * label of a mark, a line or a drawing. Returned: out; what does not fit is left off at a whole character. */
const char *ls_chart_describe(const ls_chart *chart, char out[LS_CHART_WORDS]);

#endif
