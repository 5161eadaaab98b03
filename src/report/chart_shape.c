/* Shapes to scale, and the chart that is made of nothing else. */
#include "report/chart_parts.h"

#include <math.h>
#include <stdlib.h>

static const int ink_style[LS_INKS] = {
    [LS_INK_BODY] = LS_STYLE_BODY,       [LS_INK_MAIN] = LS_STYLE_MAIN,   [LS_INK_SECOND] = LS_STYLE_OTHER,
    [LS_INK_THIRD] = LS_STYLE_OTHER + 1, [LS_INK_FAINT] = LS_STYLE_FAINT,
};
static const unsigned ink_rgb[LS_INKS] = {
    [LS_INK_BODY] = LS_RGB_BODY, [LS_INK_MAIN] = 0x1b2a41,  [LS_INK_SECOND] = 0xb4430c,
    [LS_INK_THIRD] = 0x0b6e69,   [LS_INK_FAINT] = 0x8c8c8c,
};

enum { CIRCLE_SIDES = 72 };

/* The points of a circle, which is round on the canvas whatever the scales. */
static void circle_points(const ls_page_frame *frame, const ls_chart_shape *shape, const ls_chart_point *centre,
                          ls_chart_point out[CIRCLE_SIDES + 1])
{
    double radius_px = ls_page_x(frame, centre->x + shape->radius) - ls_page_x(frame, centre->x);
    for (int i = 0; i <= CIRCLE_SIDES; i++) {
        double angle = i * 2.0 * acos(-1.0) / CIRCLE_SIDES;
        out[i] = ls_page_axes(frame, ls_page_x(frame, centre->x) + radius_px * cos(angle),
                              ls_page_y(frame, centre->y) + radius_px * sin(angle));
    }
}

static void add_circle(ls_page *page, const ls_chart_shape *shape, const ls_chart_point *centre)
{
    int filled = shape->ink == LS_INK_BODY;
    ls_page_add_layer(page, filled ? LS_LAYER_FILL_OUTLINE : LS_LAYER_LINES, "circle", 0, ink_style[shape->ink],
                      LS_RGB_BODY);
    ls_chart_point point[CIRCLE_SIDES + 1];
    circle_points(&page->frame[0], shape, centre, point);
    for (int i = 0; i <= CIRCLE_SIDES; i++) {
        ls_page_add_point(page, point[i].x, point[i].y);
    }
}

/* A solid head at the end of an arrow's last leg; the shaft ends inside it. */
static void add_arrow(ls_page *page, const ls_chart_shape *shape, const ls_chart_point *point)
{
    const ls_page_frame *frame = &page->frame[0];
    int last = shape->path.count - 1;
    double x = ls_page_x(frame, point[last].x);
    double y = ls_page_y(frame, point[last].y);
    double dx = x - ls_page_x(frame, point[last - 1].x);
    double dy = y - ls_page_y(frame, point[last - 1].y);
    double length = hypot(dx, dy);
    if (!(length > 0.0)) {
        return;
    }
    double head = fmin(0.85 * page->em, 0.6 * length);
    double ux = dx / length;
    double uy = dy / length;
    ls_page_add_layer(page, LS_LAYER_LINES, "shaft", 0, ink_style[shape->ink], 0);
    for (int i = 0; i < last; i++) {
        ls_page_add_point(page, point[i].x, point[i].y);
    }
    ls_chart_point neck = ls_page_axes(frame, x - 0.8 * head * ux, y - 0.8 * head * uy);
    ls_page_add_point(page, neck.x, neck.y);
    ls_page_add_layer(page, LS_LAYER_FILL, "head", 0, 0, ink_rgb[shape->ink]);
    static const double corner[3][2] = {{0.0, 0.0}, {1.0, 0.38}, {1.0, -0.38}};
    for (int i = 0; i < 3; i++) {
        double back = corner[i][0] * head;
        double aside = corner[i][1] * head;
        ls_chart_point p = ls_page_axes(frame, x - back * ux - aside * uy, y - back * uy + aside * ux);
        ls_page_add_point(page, p.x, p.y);
    }
}

static void add_polygon(ls_page *page, const ls_chart_shape *shape, const ls_chart_point *point)
{
    int closed = shape->kind == LS_SHAPE_POLYGON;
    int filled = closed && shape->ink == LS_INK_BODY;
    ls_page_add_layer(page, filled ? LS_LAYER_FILL_OUTLINE : LS_LAYER_LINES, closed ? "polygon" : "line", 0,
                      ink_style[shape->ink], LS_RGB_BODY);
    for (int i = 0; i < shape->path.count; i++) {
        ls_page_add_point(page, point[i].x, point[i].y);
    }
    if (closed) {
        ls_page_add_point(page, point[0].x, point[0].y);
    }
}

static void add_obstacle(ls_page *page, const ls_chart_shape *shape, const ls_chart_point *point, ls_place *place)
{
    const ls_page_frame *frame = &page->frame[0];
    if (shape->kind == LS_SHAPE_CIRCLE) {
        ls_chart_point outline[CIRCLE_SIDES + 1];
        circle_points(frame, shape, point, outline);
        ls_place_add_path(place, frame, outline, CIRCLE_SIDES + 1, -1);
    } else if (shape->kind != LS_SHAPE_TEXT) {
        ls_place_add_path(place, frame, point, shape->path.count, -1);
    }
}

void ls_part_shapes(ls_page *page, const ls_chart *chart, ls_place *place)
{
    for (int i = 0; i < chart->shapes; i++) {
        const ls_chart_shape *shape = &chart->shape[i];
        if (shape->path.count == 0) {
            continue;
        }
        const ls_chart_point *point = chart->point + shape->path.first;
        if (shape->kind == LS_SHAPE_CIRCLE && shape->radius > 0.0) {
            add_circle(page, shape, point);
        } else if (shape->kind == LS_SHAPE_ARROW && shape->path.count >= 2) {
            add_arrow(page, shape, point);
        } else if (shape->kind == LS_SHAPE_LINE || shape->kind == LS_SHAPE_POLYGON) {
            add_polygon(page, shape, point);
        }
        add_obstacle(page, shape, point, place);
    }
}

/* Gives a range to a frame at one scale for x and y, the thing in the middle. */
static void fit(ls_page_frame *frame, const ls_part_range *range)
{
    double width = frame->right - frame->left;
    double height = frame->top - frame->bottom;
    double unit = fmax((range->x_high - range->x_low) / width, (range->y_high - range->y_low) / height);
    unit = unit > 0.0 && isfinite(unit) ? unit : 1.0;
    double x = isfinite(range->x_low) ? 0.5 * (range->x_low + range->x_high) : 0.0;
    double y = isfinite(range->y_low) ? 0.5 * (range->y_low + range->y_high) : 0.0;
    frame->x = (ls_scale){x - 0.5 * unit * width, x + 0.5 * unit * width, 1.0, 0};
    frame->y = (ls_scale){y - 0.5 * unit * height, y + 0.5 * unit * height, 1.0, 0};
}

/* Widens the range so that labels keep inside the frame, given the scale that the range has now. */
static void make_room(const ls_page *page, const ls_chart *chart, ls_page *scratch, ls_place *place,
                      ls_part_range *range)
{
    scratch->em = page->em;
    scratch->frame[0] = page->frame[0];
    place->boxes = place->segments = 0;
    ls_part_label_shapes(scratch, chart, place);
    for (int i = 0; i < place->boxes; i++) {
        const ls_box *box = &place->box[i];
        ls_chart_point low = ls_page_axes(&page->frame[0], box->x0, box->y0);
        ls_chart_point high = ls_page_axes(&page->frame[0], box->x1, box->y1);
        ls_part_range_add(range, low.x, low.y);
        ls_part_range_add(range, high.x, high.y);
    }
    scratch->texts = scratch->strokes = 0;
}

void ls_page_drawing(ls_page *page, const ls_chart *chart)
{
    ls_place *place = calloc(1, sizeof *place);
    ls_page *scratch = calloc(1, sizeof *scratch);
    if (place == NULL || scratch == NULL) {
        page->failed = 1;
    } else {
        page->bare = 1;
        ls_page_frame *frame = &page->frame[0];
        frame->left = 2.0 * page->em;
        frame->right = page->width - 2.0 * page->em;
        frame->bottom = page->footer + 1.5 * page->em;
        frame->top = page->header - 1.5 * page->em;
        ls_part_range shapes = ls_part_range_of(chart, 0);
        ls_part_range range = shapes;
        for (int round = 0; round < 4; round++) {
            fit(frame, &range);
            range = shapes;
            make_room(page, chart, scratch, place, &range);
        }
        fit(frame, &range);
        place->boxes = place->segments = 0;
        ls_part_shapes(page, chart, place);
        ls_part_label_shapes(page, chart, place);
    }
    free(scratch);
    free(place);
}
