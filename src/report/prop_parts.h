/* What the parts of the propeller's report share. */
#ifndef LIVESIDE_REPORT_PROP_PARTS_H
#define LIVESIDE_REPORT_PROP_PARTS_H

#include "report/phrase.h"
#include "report/prop_report.h"

void ls_prop_say(ls_report *report, const ls_prop_view *view);
void ls_prop_tables(ls_report *report, const ls_prop_view *view);
void ls_prop_data(ls_report *report, const ls_prop_view *view);

/* "2700 RPM"; "18.5 deg"; a force, a speed as a pilot reads them. */
const char *ls_prop_rpm(double n_rev_s, char out[LS_PHRASE]);
const char *ls_prop_force(const ls_prop_view *view, double force_N, char out[LS_PHRASE]);

/* What the dead engine's propeller does, for a table's row: "windmilling, lever forward". */
const char *ls_prop_state_text(ls_engine_state state);

#endif
