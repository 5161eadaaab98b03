/* The charts of `climb`. Each builder fills an empty chart record; the caller saves and frees it. */
#ifndef LIVESIDE_REPORT_CLIMB_CHARTS_H
#define LIVESIDE_REPORT_CLIMB_CHARTS_H

#include "liveside/chart.h"
#include "report/climb_report.h"

/* Rate of climb against speed in every state that is held, with the best speeds marked. */
void ls_chart_of_climb_speeds(ls_chart *chart, const ls_climb_view *view, int slide);

/* Rate of climb, and below it sideslip, against bank. Given: view with a failure. */
void ls_chart_of_climb_banks(ls_chart *chart, const ls_climb_view *view, int slide);

/* Stall, VMC, VXSE, VYSE and VY against altitude, with the ceilings. Given: view with a failure. */
void ls_chart_of_climb_altitudes(ls_chart *chart, const ls_climb_view *view, int slide);

/* Altitude against distance after the failure. Given: view with a drift-down. */
void ls_chart_of_drift(ls_chart *chart, const ls_climb_view *view, int slide);

/* What each thing costs, as bars. Given: view with a failure. */
void ls_chart_of_costs(ls_chart *chart, const ls_climb_view *view, int slide);

#endif
