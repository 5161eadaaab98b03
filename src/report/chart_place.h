/* Finding a place for a label where it covers nothing. Canvas coordinates. */
#ifndef LIVESIDE_REPORT_CHART_PLACE_H
#define LIVESIDE_REPORT_CHART_PLACE_H

#include "report/chart_page.h"

enum { LS_PLACE_BOXES = 320, LS_PLACE_SEGMENTS = 6000 };

/* A rectangle, turned about its middle by an angle (anticlockwise). */
typedef struct {
    double x0, y0, x1, y1;
    double angle_rad;
} ls_box;

typedef struct {
    double x0, y0, x1, y1;
    int owner; /* the curve's number, or -1 */
} ls_segment;

/* What is on the canvas already. */
typedef struct {
    int boxes, segments;
    ls_box box[LS_PLACE_BOXES];
    ls_segment segment[LS_PLACE_SEGMENTS];
} ls_place;

/* Adds an obstacle; past the capacity it is dropped. */
void ls_place_add_box(ls_place *place, ls_box box);
void ls_place_add_segment(ls_place *place, double x0, double y0, double x1, double y1, int owner);

/* Adds the finite runs of a path of a frame, thinned to steps of a few pixels. */
void ls_place_add_path(ls_place *place, const ls_page_frame *frame, const ls_chart_point *point, int count,
                       int owner);

/* The part of a segment inside a box that is not turned, as shares of its length. Returned: whether there is one.
 */
int ls_box_clip(const ls_box *box, const ls_segment *segment, double *from, double *to);

double ls_box_gap(const ls_box *box, const ls_segment *segment); /* 0 if they meet; box not turned */
ls_box ls_box_at(double x, double y, double width, double height);

/* How bad a place is: 0 free; the lines and boxes that it covers and the frame's edge that it crosses count most,
 * then the nearness of a curve that is not its owner. Given: em, the scale of nearness. */
double ls_place_cost(const ls_place *place, const ls_page_frame *frame, const ls_box *box, int owner, double em);

/* A cost from which a place is called bad. */
#define LS_PLACE_BAD 50.0

/* The best place for a box beside a point: the eight directions, near and then farther.
 * Returned: the box; its cost, may be null. */
ls_box ls_place_beside(const ls_place *place, const ls_page_frame *frame, double x, double y, double width,
                       double height, double em, double *cost);

/* The best place for a box along a curve, on either side of it, at a gap from it.
 * Given: turned, whether it leans with the curve. */
ls_box ls_place_along(const ls_place *place, const ls_page_frame *frame, int owner, double width, double height,
                      double em, double gap, int turned, double *cost);

/* Moves labels of one height apart so that they stand at least that far from each other between low and high,
 * each as near to its wish as that allows. Given: y, the wishes, in descending order. */
void ls_place_spread(double *y, int n, double height, double low, double high);

#endif
