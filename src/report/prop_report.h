/* The report of `prop`: the answer in words, the tables, the data, the charts. */
#ifndef LIVESIDE_REPORT_PROP_REPORT_H
#define LIVESIDE_REPORT_PROP_REPORT_H

#include "liveside/chart.h"
#include "liveside/propeller_study.h"
#include "report/report.h"

/* What the report is made from. */
typedef struct {
    const ls_prop_study *study;
    const ls_prop_flight *flight;
    const ls_dead_by_speed *by_speed; /* in even steps of the reader's unit */
    const ls_dead_by_pitch *by_pitch;
    const ls_prop_incidence *incidence;
    const ls_prop_by_speed *thrust;
    const ls_zero_thrust *zero;
    const ls_idle_demonstration *demonstration;
    const ls_blade_counts *counts; /* null when not asked for */
    double cas_m_s;                /* the speed at which a dead propeller is looked at */
    int is_vmc;                    /* it is the minimum control speed */
    int uncertain;                 /* values that are estimated or assumed */
    ls_unit_system units;
} ls_prop_view;

/* Adds everything to a report. */
void ls_prop_report(ls_report *report, const ls_prop_view *view);

/* One plain sentence of what the constant-speed unit is doing. */
enum { LS_PROP_SENTENCE = 200 };
const char *ls_prop_doing(const ls_prop_view *view, ls_phase phase, char out[LS_PROP_SENTENCE]);

/* Of the charts, each fills an empty record; the caller saves and frees it. Those against speed are drawn from
 * denser runs than the tables. */
void ls_chart_of_unit(ls_chart *chart, const ls_prop_view *view, const ls_prop_by_speed *thrust,
                      const ls_dead_by_speed *dead, int slide);
void ls_chart_of_dead_by_speed(ls_chart *chart, const ls_prop_view *view, const ls_dead_by_speed *dead, int slide);
void ls_chart_of_dead_by_pitch(ls_chart *chart, const ls_prop_view *view, const ls_dead_by_pitch *dead, int slide);
void ls_chart_of_incidence(ls_chart *chart, const ls_prop_view *view, const ls_prop_incidence *incidence,
                           int slide);
void ls_chart_of_thrust(ls_chart *chart, const ls_prop_view *view, const ls_prop_by_speed *thrust, int slide);
void ls_chart_of_efficiency(ls_chart *chart, const ls_prop_view *view, const ls_prop_by_speed *thrust, int slide);
void ls_chart_of_zero_thrust(ls_chart *chart, const ls_prop_view *view, int slide);
void ls_chart_of_demonstration(ls_chart *chart, const ls_prop_view *view, int slide);
void ls_chart_of_blades(ls_chart *chart, const ls_prop_view *view, int slide);

/* The blade, the airflow and the forces at three quarters of the radius, to scale, for six states of the flight.
 */
void ls_chart_of_triangles(ls_chart *chart, const ls_prop_view *view, int slide);

#endif
