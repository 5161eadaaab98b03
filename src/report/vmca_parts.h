/* The parts that the report of `vmca` is put together from. */
#ifndef LIVESIDE_REPORT_VMCA_PARTS_H
#define LIVESIDE_REPORT_VMCA_PARTS_H

#include "report/vmca_report.h"

/* Whether a point has a speed to show. */
int ls_vmca_has_speed(const ls_vmca_point *point);

/* How many engines run when a set has failed. */
int ls_vmca_live_engines(const ls_aircraft *aircraft, unsigned failed);

/* The state of a set's failed engines. */
ls_engine_state ls_vmca_set_state(const ls_vmca_set *set);

/* How many sets hold one engine only. */
int ls_vmca_singles(const ls_vmca *vmca);

/* Which of the options the file's own propellers are, or LS_ROTATION_FILE when they are none of them. */
ls_rotation ls_vmca_own_rotation(const ls_aircraft *aircraft);

void ls_vmca_say(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set);
void ls_vmca_tables(ls_report *report, ls_vmca_view *view);
void ls_vmca_data(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set);

#endif
