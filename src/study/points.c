#include "liveside/points.h"

#include "study/points_data.h"

#include <math.h>
#include <string.h>

const ls_point_column *ls_point_columns(int *count)
{
    *count = ls_point_row_count;
    return ls_point_rows;
}

void ls_point_clear(ls_point *point)
{
    memset(point, 0, sizeof *point);
    for (int i = 0; i < ls_point_row_count; i++) {
        if (ls_point_rows[i].dimension != LS_POINT_TEXT) {
            *(double *)(void *)((char *)point + ls_point_rows[i].offset) = NAN;
        }
    }
}
