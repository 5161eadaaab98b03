/* The charts of `vmca` and `trend`. Each builder fills an empty chart record; the caller saves and frees it. */
#ifndef LIVESIDE_REPORT_VMCA_CHARTS_H
#define LIVESIDE_REPORT_VMCA_CHARTS_H

#include "liveside/chart.h"
#include "liveside/sweep.h"
#include "report/trend_report.h"
#include "report/vmca_report.h"

enum { LS_CONTROL_USE_POINTS = 61 };

/* VMC against bank for each way that the propellers can turn; the stalled region; the bank limit. */
void ls_chart_of_banks(ls_chart *chart, const ls_vmca_view *view, const ls_bank_sweep *sweep, int slide);

/* VMC and stall against pressure altitude, and where they meet. */
void ls_chart_of_altitude(ls_chart *chart, const ls_vmca_view *view, const ls_altitude_sweep *sweep, int slide);

/* How much of each limit is used against speed, at the answer's bank. Given: LS_CONTROL_USE_POINTS uses. */
void ls_chart_of_control_use(ls_chart *chart, const ls_vmca_view *view, const ls_control_use *use, int slide);

/* A trend: a curve for each aeroplane with its stall, or a map over two axes. */
void ls_chart_of_trend(ls_chart *chart, const ls_trend_view *view, int slide);

#endif
