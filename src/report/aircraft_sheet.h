/* What the file says of an aeroplane, for people. */
#ifndef LIVESIDE_REPORT_AIRCRAFT_SHEET_H
#define LIVESIDE_REPORT_AIRCRAFT_SHEET_H

#include "liveside/aircraft.h"
#include "report/report.h"

/* Adds a line of it, its measures and limits, its engines and published speeds. Given: uncertain, how many values
 * are estimated or assumed. */
void ls_aircraft_sheet(ls_report *report, const ls_aircraft *aircraft, int uncertain, ls_unit_system units);

#endif
