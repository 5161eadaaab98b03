/* The parts that the report of `explain` is put together from. */
#ifndef LIVESIDE_REPORT_EXPLAIN_PARTS_H
#define LIVESIDE_REPORT_EXPLAIN_PARTS_H

#include "report/explain_report.h"
#include "report/phrase.h"

/* "left", "front and rear": the engines of a side, by their names. */
const char *ls_explain_name(const ls_explain_view *view, int side, char out[LS_PHRASE]);

/* Whether any engine turns a propeller. */
int ls_explain_has_propellers(const ls_aircraft *aircraft);

/* The answer line and the two or three sentences that say why. */
void ls_explain_say(ls_report *report, const ls_explain_view *view);

/* What was flown, and the attitudes at the speed of best climb. */
void ls_explain_circumstances(ls_report *report, const ls_explain_view *view);

void ls_explain_tables(ls_report *report, ls_explain_view *view);
void ls_explain_data(ls_report *report, const ls_explain_view *view);

#endif
