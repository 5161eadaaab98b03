/* The parts of the report of `failure`. */
#ifndef LIVESIDE_REPORT_FAILURE_PARTS_H
#define LIVESIDE_REPORT_FAILURE_PARTS_H

#include "report/failure_report.h"
#include "report/phrase.h"

/* The verdict and the facts. */
void ls_failure_say(ls_report *report, const ls_failure_view *view);

/* Recovery, demonstration and drill, where they were asked for. */
void ls_failure_say_modes(ls_report *report, const ls_failure_view *view);

/* The tables: history, delays, sweep. */
void ls_failure_tables(ls_report *report, ls_failure_view *view);

/* The values of the data. */
void ls_failure_data(ls_report *report, const ls_failure_view *view);

/* A signed angle toward the dead side: positive there. */
double ls_failure_toward_dead(const ls_failure_view *view, double angle_rad);

/* One fact a line, its name in front. */
void ls_failure_fact(ls_report *report, const char *name, const char *format, ...) LS_PRINTF(3, 4);

#endif
