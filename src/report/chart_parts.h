/* What several kinds of chart share: labels, reference lines, marks, regions, shapes and curves in a frame. */
#ifndef LIVESIDE_REPORT_CHART_PARTS_H
#define LIVESIDE_REPORT_CHART_PARTS_H

#include "report/chart_place.h"

enum { LS_PART_LINES = 3 };

/* A label broken into lines, and the room that it takes. */
typedef struct {
    char line[LS_PART_LINES][LS_CHART_TEXT];
    int lines;
    double width, height;
    double size; /* of the type, in em */
} ls_part_label;

/* Breaks a text into lines no wider than width_px. */
ls_part_label ls_part_break(const ls_page *page, const char *text, double size, double width_px);

/* Adds a label in a box; it leans to the side where x is, in the middle if the box is above or below x. */
void ls_part_put(ls_page *page, const ls_part_label *label, const ls_box *box, double x, unsigned rgb);

/* Adds a label's only line in the middle of a box, turned as the box is. */
void ls_part_put_turned(ls_page *page, const ls_part_label *label, const ls_box *box, unsigned rgb);

/* The layers of each part, which also become obstacles; then its labels, where they cover least. */
void ls_part_regions(ls_page *page, const ls_chart *chart, ls_place *place);
void ls_part_references(ls_page *page, const ls_chart *chart, ls_place *place);
void ls_part_marks(ls_page *page, const ls_chart *chart, ls_place *place);
void ls_part_shapes(ls_page *page, const ls_chart *chart, ls_place *place);
void ls_part_curves(ls_page *page, const ls_chart *chart, ls_place *place);
void ls_part_label_regions(ls_page *page, const ls_chart *chart, ls_place *place);
void ls_part_label_references(ls_page *page, const ls_chart *chart, ls_place *place);
void ls_part_label_marks(ls_page *page, const ls_chart *chart, ls_place *place);
void ls_part_label_shapes(ls_page *page, const ls_chart *chart, ls_place *place);

/* Labels the curves on the curves. Given: turned, whether the labels lean with the curves.
 * Returned: whether each found a good place. */
int ls_part_label_curves(ls_page *page, const ls_chart *chart, ls_place *place, int turned);

/* Labels the curves in a column at the right of their frames, with a sample of each. */
void ls_part_key(ls_page *page, const ls_chart *chart);

/* The width of that column. */
double ls_part_key_width(const ls_page *page, const ls_chart *chart);

/* The number of a curve's line style. */
int ls_part_curve_style(const ls_chart *chart, int curve);

/* Widens a range so that it holds the finite coordinates of a path. */
typedef struct {
    double x_low, x_high, y_low, y_high;
} ls_part_range;

ls_part_range ls_part_range_none(void);
void ls_part_range_add(ls_part_range *range, double x, double y); /* a coordinate that is not finite is skipped */

/* The range of all that a panel shows: curves, regions, references, marks and shapes. */
ls_part_range ls_part_range_of(const ls_chart *chart, int panel);

#endif
