/* The parts that the report of `climb` is put together from. */
#ifndef LIVESIDE_REPORT_CLIMB_PARTS_H
#define LIVESIDE_REPORT_CLIMB_PARTS_H

#include "report/climb_report.h"
#include "report/phrase.h"

/* "373 ft/min"; to tens when the aeroplane rests on guesses. */
const char *ls_climb_rate_text(const ls_climb_view *view, double rate_m_s, char out[LS_PHRASE]);

/* "8400 ft", to hundreds of feet or 10 m. */
const char *ls_climb_altitude_text(const ls_climb_view *view, double altitude_m, char out[LS_PHRASE]);

/* "up to 8400 ft", "at no altitude", "above 60000 ft". */
const char *ls_climb_ceiling_text(const ls_climb_view *view, const ls_ceiling *ceiling, char out[LS_PHRASE]);

/* "left, feathered"; "every engine running". */
const char *ls_climb_case_text(const ls_climb_view *view, const ls_performance_case *of, char out[LS_PHRASE]);

/* The bank of a point, toward the live side positive. */
double ls_climb_live_bank(const ls_performance_case *of, const ls_climb_point *point);

void ls_climb_say(ls_report *report, const ls_climb_view *view);
void ls_climb_tables(ls_report *report, ls_climb_view *view);
void ls_climb_tables_of_height(ls_report *report, ls_climb_view *view);
void ls_climb_data(ls_report *report, ls_climb_view *view);

/* A table whose columns are copied into the view, speeds in whole units when the aeroplane rests on guesses.
 * Given: in_text, whether people see it. */
ls_table *ls_climb_table(ls_report *report, ls_climb_view *view, const char *key, const char *title, int in_text,
                         const ls_column *columns, int count);

#endif
