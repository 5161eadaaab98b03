/* The closed table of units. */
#ifndef LS_CORE_UNITS_DATA_H
#define LS_CORE_UNITS_DATA_H

#include "liveside/units.h"

extern const ls_unit ls_units_table[];
extern const int ls_units_table_count;

/* Unit names for us and metric; null where both use the SI unit. */
extern const char *const ls_units_preferred[LS_DIMENSION_COUNT][2];

#endif
