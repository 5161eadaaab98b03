/* The report of `vmca`: the answer in words, the table, the data. */
#ifndef LIVESIDE_REPORT_VMCA_REPORT_H
#define LIVESIDE_REPORT_VMCA_REPORT_H

#include "liveside/vmca.h"
#include "report/report.h"

/* One case of the whole grid (--full). */
typedef struct {
    int set; /* index in the vmca record */
    ls_rotation rotation;
    ls_engine_state state; /* of the failed engines; LS_ENGINE_STATES: as it goes by itself */
    ls_vmca_point point;
} ls_vmca_case;

enum {
    LS_VMCA_COLUMNS = 1 + 3 * LS_VMCA_SETS,
    LS_VMCA_HEADINGS = 2 * (LS_VMCA_COLUMNS + 2),
    LS_HEADING = 80,
    LS_VMCA_CASE_COLUMNS = 32
};

/* What the report is made from. Headings and columns live here because the report refers to them: keep this until
 * the report is written. */
typedef struct {
    const ls_aircraft *aircraft;
    const ls_vmca_request *request;
    const ls_vmca *vmca;
    ls_vmca_case *grid; /* null without --full; owned by whoever made it */
    int grid_count;
    int uncertain; /* values that are estimated or assumed */
    ls_unit_system units;
    double ball_rad;           /* bank of one ball width */
    double meeting_altitude_m; /* NaN when control limit and stall do not meet */
    int headings;
    char heading[LS_VMCA_HEADINGS][LS_HEADING];
    ls_column column[2][LS_VMCA_COLUMNS + 2];
    ls_column cases[LS_VMCA_CASE_COLUMNS];
} ls_vmca_view;

/* Adds everything to a report. */
void ls_vmca_report(ls_report *report, ls_vmca_view *view);

/* The set that the answer is about: the critical one, or the first with the highest speed. */
int ls_vmca_answer_set(const ls_vmca *vmca);

#endif
