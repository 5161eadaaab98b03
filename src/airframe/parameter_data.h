/* The rows of the parameter table. */
#ifndef LIVESIDE_AIRFRAME_PARAMETER_DATA_H
#define LIVESIDE_AIRFRAME_PARAMETER_DATA_H

#include "liveside/parameter.h"

extern const ls_parameter ls_parameter_rows[];
extern const int ls_parameter_row_count;

#endif
