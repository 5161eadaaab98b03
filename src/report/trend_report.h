/* The report of `trend`. */
#ifndef LIVESIDE_REPORT_TREND_REPORT_H
#define LIVESIDE_REPORT_TREND_REPORT_H

#include "liveside/trend.h"
#include "report/report.h"

enum { LS_TREND_FILES = 8, LS_TREND_ACROSS = 9, LS_TREND_HEADING = 80 };

/* One aeroplane's trend. */
typedef struct {
    const ls_aircraft *aircraft;
    const ls_trend_request *request;
    const ls_trend *trend;
    int uncertain;
} ls_trend_line;

/* What the report is made from; keep it until the report is written. */
typedef struct {
    int is_partial; /* stopped before its end */
    int lines;
    ls_trend_line line[LS_TREND_FILES];
    ls_unit_system units;
    const ls_unit *axis_unit[2]; /* in which the axes are shown */
    char heading[LS_TREND_FILES + LS_TREND_ACROSS + 4][LS_TREND_HEADING];
    char axis_key[2][LS_AXIS_TEXT]; /* the axes' names in data */
    ls_column column[2 * LS_TREND_FILES + LS_TREND_ACROSS + 4];
    ls_column data[20];
} ls_trend_view;

void ls_trend_report(ls_report *report, ls_trend_view *view);

/* The value of an axis as people read it, "4000 ft", "feathered". */
const char *ls_trend_value_text(const ls_trend_view *view, int line, int axis, double value, char *out,
                                size_t size);

#endif
