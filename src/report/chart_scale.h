/* The range and the ticks of an axis. */
#ifndef LIVESIDE_REPORT_CHART_SCALE_H
#define LIVESIDE_REPORT_CHART_SCALE_H

#include "liveside/chart.h"

enum { LS_SCALE_TEXT = 40 };

typedef struct {
    double low, high, step;
    int decimals; /* of a tick's number */
} ls_scale;

/* A step of 1, 2 or 5 times a power of ten that cuts a span into about `parts`. Given: span > 0. */
double ls_scale_step(double span, double parts);

/* The range that holds the data, or the one that the axis asks for.
 * Given: low, high, of the data (low > high: none); ticks, about how many; tight, whether the range ends with the
 * data instead of at a tick or half-way between two. */
ls_scale ls_scale_choose(const ls_chart_axis *axis, double low, double high, double ticks, int tight);

/* The first tick at or above the low end, and how many there are. */
double ls_scale_first(const ls_scale *scale);
int ls_scale_count(const ls_scale *scale);

/* The number at a tick, thousands parted by a thin space on an axis that reaches 10 000. */
void ls_scale_text(const ls_scale *scale, double value, char out[LS_SCALE_TEXT]);

#endif
