/* Charts of `failure`. */
#ifndef LIVESIDE_REPORT_FAILURE_CHARTS_H
#define LIVESIDE_REPORT_FAILURE_CHARTS_H

#include "liveside/chart.h"
#include "report/failure_report.h"

/* Heading, bank, sideslip and rudder against time, with and without action. */
void ls_chart_of_attitude(ls_chart *chart, const ls_failure_view *view, int slide);

/* Airspeed and height against time. */
void ls_chart_of_losses(ls_chart *chart, const ls_failure_view *view, int slide);

/* The failed propeller: speed, and thrust or drag. */
void ls_chart_of_propeller(ls_chart *chart, const ls_failure_view *view, int slide);

/* Dynamic and static minimum control speed against the pilot's delay. */
void ls_chart_of_delay(ls_chart *chart, const ls_failure_view *view, int slide);

#endif
