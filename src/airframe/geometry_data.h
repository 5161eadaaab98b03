/* The rows of the tables of `estimate`. */
#ifndef LS_AIRFRAME_GEOMETRY_DATA_H
#define LS_AIRFRAME_GEOMETRY_DATA_H

#include "liveside/geometry.h"

extern const ls_parameter ls_geometry_rows[];
extern const int ls_geometry_row_count;
extern const ls_parameter ls_handbook_rows[];
extern const int ls_handbook_row_count;

#endif
