/* The report of `testcard`: a card to fly from, and the same as a file that `reduce` reads. */
#ifndef LIVESIDE_REPORT_TESTCARD_REPORT_H
#define LIVESIDE_REPORT_TESTCARD_REPORT_H

#include "liveside/testcard.h"
#include "report/report.h"

enum { LS_CARD_COLUMNS = 48 };

/* Keep it until the report is written: the columns belong to it. */
typedef struct {
    const ls_aircraft *aircraft;
    const ls_card_request *request;
    const ls_card *card;
    int uncertain;
    ls_unit_system units;
    ls_column column[LS_CARD_COLUMNS];
} ls_card_view;

void ls_card_report(ls_report *report, ls_card_view *view);

/* Adds a table with the columns of a file of points. Given: column, LS_CARD_COLUMNS that outlive the report. */
ls_table *ls_points_table(ls_report *report, const char *key, unsigned where, ls_column *column);
void ls_points_row(ls_table *table, const ls_point *point);

#endif
