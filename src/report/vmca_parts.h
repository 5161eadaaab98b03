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

/* The published minimum control speed against what is computed, all speeds of its kind (IAS or CAS). */
typedef struct {
    int given; /* the file has one, and the set is one engine with speeds level and at 5 deg */
    int is_ias;
    int inside; /* between those two */
    double answer_m_s, level_m_s, at_5_deg_m_s;
} ls_published;

ls_published ls_vmca_published(const ls_vmca_view *view, const ls_vmca_set *set);

void ls_vmca_say(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set);
void ls_vmca_tables(ls_report *report, ls_vmca_view *view);
void ls_vmca_data(ls_report *report, ls_vmca_view *view, const ls_vmca_set *set);

#endif
