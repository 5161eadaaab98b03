/* The contours of a map: the straight pieces in which levels cross the grid's cells (marching squares). */
#ifndef LIVESIDE_REPORT_CHART_CONTOUR_H
#define LIVESIDE_REPORT_CHART_CONTOUR_H

#include "report/chart_place.h"

typedef struct {
    ls_chart_point a, b;
    int level; /* its number */
} ls_contour_piece;

/* Zero-initialise it; its pieces are freed with ls_contours_free. */
typedef struct {
    ls_contour_piece *piece;
    int pieces, capacity;
    int failed; /* no memory for a piece */
} ls_contours;

/* Adds the pieces of each level, and makes them obstacles. */
void ls_contours_trace(ls_contours *contours, const ls_page *page, const ls_chart_map *map, const double *level,
                       int levels, ls_place *place);

/* Puts each level's number on its contour, where there is room. */
void ls_contours_number(const ls_contours *contours, ls_page *page, const double *level, int levels,
                        const ls_scale *numbers, ls_place *place);

/* Adds the lines, one layer a level, broken wherever a label or a mark stands. */
void ls_contours_draw(const ls_contours *contours, ls_page *page, int levels, const ls_place *place);

void ls_contours_free(ls_contours *contours);

#endif
