/* The rows of the table of columns. */
#ifndef LS_STUDY_POINTS_DATA_H
#define LS_STUDY_POINTS_DATA_H

#include "liveside/points.h"

extern const ls_point_column ls_point_rows[];
extern const int ls_point_row_count;

#endif
