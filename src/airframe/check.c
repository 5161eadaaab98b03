#include "liveside/parameter.h"

void ls_aircraft_check(const ls_aircraft *aircraft, const ls_marks *marks, ls_findings *findings)
{
    (void)aircraft;
    (void)marks;
    (void)findings;
}
