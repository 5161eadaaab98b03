/* The labels of regions, reference lines, marks and shapes. */
#include "report/chart_parts.h"

#include <math.h>

static const double label_size = 0.93;

/* Whether a point of the canvas is in the polygons of a fill layer, by the even-odd rule. */
static int is_inside(const ls_page *page, const ls_page_layer *layer, double x, double y)
{
    const ls_page_frame *frame = &page->frame[layer->panel];
    int inside = 0;
    int start = layer->first;
    for (int i = layer->first; i < layer->first + layer->count; i++) {
        if (!isfinite(page->point[i].x)) {
            start = i + 1;
            continue;
        }
        int ends = i + 1 == layer->first + layer->count || !isfinite(page->point[i + 1].x);
        const ls_chart_point *a = &page->point[i];
        const ls_chart_point *b = &page->point[ends ? start : i + 1];
        double ay = ls_page_y(frame, a->y);
        double by = ls_page_y(frame, b->y);
        if ((ay > y) != (by > y)) {
            double ax = ls_page_x(frame, a->x);
            double bx = ls_page_x(frame, b->x);
            inside ^= x < ax + (y - ay) / (by - ay) * (bx - ax);
        }
    }
    return inside;
}

static int box_is_inside(const ls_page *page, const ls_page_layer *layer, const ls_box *box)
{
    for (int i = 0; i < 4; i++) {
        if (!is_inside(page, layer, (i & 1) != 0 ? box->x1 : box->x0, (i & 2) != 0 ? box->y1 : box->y0)) {
            return 0;
        }
    }
    return 1;
}

/* Looks for a free place of a size inside a region, from the left and from below. Returned: whether there is one.
 */
static int find_in_region(const ls_page *page, const ls_page_layer *layer, double width, double height,
                          ls_place *place, ls_box *best)
{
    enum { COLUMNS = 60, LINES = 60 };
    const ls_page_frame *frame = &page->frame[layer->panel];
    double least = LS_PLACE_BAD;
    for (int i = 0; i < COLUMNS * LINES; i++) {
        double across = (i % COLUMNS + 0.5) / COLUMNS;
        int line = i / COLUMNS;
        double up = (line + 0.5) / LINES;
        ls_box box = ls_box_at(frame->left + across * (frame->right - frame->left),
                               frame->bottom + up * (frame->top - frame->bottom), width, height);
        if (!box_is_inside(page, layer, &box)) {
            continue;
        }
        double cost = ls_place_cost(place, frame, &box, -1, page->em) + 5.0 * across + up;
        if (cost < least) {
            least = cost;
            *best = box;
        }
    }
    if (least < LS_PLACE_BAD) {
        ls_place_add_box(place, *best);
    }
    return least < LS_PLACE_BAD;
}

/* Puts a region's label where it lies inside it and is free; leaves it out of a region that is too small. */
static void label_region(ls_page *page, const ls_page_layer *layer, const char *text, ls_place *place)
{
    const ls_page_frame *frame = &page->frame[layer->panel];
    double em = page->em;
    ls_part_label label = ls_part_break(page, text, label_size, 0.5 * (frame->right - frame->left));
    ls_box box;
    if (find_in_region(page, layer, label.width + 0.6 * em, label.height, place, &box)) {
        ls_part_put(page, &label, &box, 0.5 * (box.x0 + box.x1), LS_RGB_QUIET);
    } else if (find_in_region(page, layer, label_size * 1.22 * em, label.width + 0.6 * em, place, &box)) {
        box.angle_rad = acos(0.0); /* upright: a strip beside the axis */
        ls_part_put_turned(page, &label, &box, LS_RGB_QUIET);
    }
}

void ls_part_label_regions(ls_page *page, const ls_chart *chart, ls_place *place)
{
    int layer = 0;
    for (int i = 0; i < chart->regions; i++) { /* a region's fill is followed by its boundary */
        while (page->layer[layer].kind != LS_LAYER_FILL || page->layer[layer].rgb != LS_RGB_REGION) {
            layer++;
        }
        if (chart->region[i].label[0] != '\0') {
            label_region(page, &page->layer[layer], chart->region[i].label, place);
        }
        layer++;
    }
}

/* The n-th of the places along a reference line: from the top down, or from the right to the left; the sides in
 * turn. */
static ls_box reference_box(const ls_page *page, const ls_page_frame *frame, const ls_chart_reference *r, int n,
                            const ls_part_label *label)
{
    double gap = 0.35 * page->em;
    int step = n / 2;
    double along = step / 24.0;
    int sign = n % 2 == 0 ? 1 : -1;
    if (r->vertical) {
        double span = frame->top - frame->bottom - label->height - 1.2 * page->em;
        return ls_box_at(ls_page_x(frame, r->at) + sign * (0.5 * label->width + gap),
                         frame->top - 0.6 * page->em - 0.5 * label->height - along * span, label->width,
                         label->height);
    }
    double span = frame->right - frame->left - label->width - 1.2 * page->em;
    return ls_box_at(frame->right - 0.6 * page->em - 0.5 * label->width - along * span,
                     ls_page_y(frame, r->at) + sign * (0.5 * label->height + 0.1 * page->em), label->width,
                     label->height);
}

static void label_reference(ls_page *page, const ls_chart_reference *r, ls_place *place)
{
    const ls_page_frame *frame = &page->frame[r->panel];
    ls_part_label label = ls_part_break(page, r->label, label_size, 0.4 * (frame->right - frame->left));
    ls_box best = {0};
    double least = INFINITY;
    for (int n = 0; n < 48; n++) {
        ls_box box = reference_box(page, frame, r, n, &label);
        double cost = ls_place_cost(place, frame, &box, -1, page->em) + 0.5 * n;
        if (cost < least) {
            least = cost;
            best = box;
        }
    }
    ls_place_add_box(place, best);
    double x = r->vertical ? ls_page_x(frame, r->at) : 0.5 * (best.x0 + best.x1);
    ls_part_put(page, &label, &best, x, LS_RGB_QUIET);
}

void ls_part_label_references(ls_page *page, const ls_chart *chart, ls_place *place)
{
    for (int i = 0; i < chart->references; i++) {
        const ls_chart_reference *r = &chart->reference[i];
        const ls_scale *scale = r->vertical ? &page->frame[r->panel].x : &page->frame[r->panel].y;
        if (r->label[0] != '\0' && r->at >= scale->low && r->at <= scale->high) {
            label_reference(page, r, place);
        }
    }
}

static double clamp(double v, double low, double high)
{
    return v < low ? low : v > high ? high : v;
}

/* Puts a label beside a point, with a leader if it had to go some way off. */
static void label_point(ls_page *page, const ls_page_frame *frame, double x, double y, const ls_part_label *label,
                        ls_place *place)
{
    ls_box box = ls_place_beside(place, frame, x, y, label->width, label->height, page->em, NULL);
    double near_x = clamp(x, box.x0, box.x1);
    double near_y = clamp(y, box.y0, box.y1);
    double gap = hypot(near_x - x, near_y - y);
    if (gap > 1.3 * page->em) {
        double from = 0.4 * page->em / gap;
        double to = 1.0 - 0.2 * page->em / gap;
        ls_page_add_stroke(page, x + from * (near_x - x), y + from * (near_y - y), x + to * (near_x - x),
                           y + to * (near_y - y), LS_STYLE_LEADER);
    }
    ls_place_add_box(place, box);
    ls_part_put(page, label, &box, x, LS_RGB_TEXT);
}

void ls_part_label_marks(ls_page *page, const ls_chart *chart, ls_place *place)
{
    for (int i = 0; i < chart->marks; i++) {
        const ls_chart_mark *mark = &chart->mark[i];
        const ls_page_frame *frame = &page->frame[mark->panel];
        if (mark->label[0] != '\0') {
            ls_part_label label = ls_part_break(page, mark->label, label_size, 0.3 * (frame->right - frame->left));
            label_point(page, frame, ls_page_x(frame, mark->x), ls_page_y(frame, mark->y), &label, place);
        }
    }
}

static void label_shape(ls_page *page, const ls_chart_shape *shape, double x, double y, double away,
                        ls_place *place)
{
    static const int side[][2] = {
        [LS_SIDE_AUTO] = {0, 0},  [LS_SIDE_RIGHT] = {1, 0},  [LS_SIDE_LEFT] = {-1, 0},
        [LS_SIDE_ABOVE] = {0, 1}, [LS_SIDE_BELOW] = {0, -1}, [LS_SIDE_CENTRE] = {0, 0},
    };
    const ls_page_frame *frame = &page->frame[0];
    ls_part_label label = ls_part_break(page, shape->label, label_size, 0.3 * (frame->right - frame->left));
    if (shape->side == LS_SIDE_AUTO) {
        label_point(page, frame, x, y, &label, place);
        return;
    }
    const int *to = side[shape->side];
    double gap = away + 0.5 * page->em;
    ls_box box = ls_box_at(x + to[0] * (0.5 * label.width + gap), y + to[1] * (0.5 * label.height + gap),
                           label.width, label.height);
    ls_place_add_box(place, box);
    ls_part_put(page, &label, &box, x, LS_RGB_TEXT);
}

void ls_part_label_shapes(ls_page *page, const ls_chart *chart, ls_place *place)
{
    for (int pass = 0; pass < 2; pass++) { /* the places that are fixed, then those that are looked for */
        for (int i = 0; i < chart->shapes; i++) {
            const ls_chart_shape *shape = &chart->shape[i];
            if (shape->label[0] == '\0' || shape->path.count == 0 ||
                (shape->side == LS_SIDE_AUTO) != (pass == 1)) {
                continue;
            }
            const ls_page_frame *frame = &page->frame[0];
            const ls_chart_point *last = &chart->point[shape->path.first + shape->path.count - 1];
            double radius = ls_page_x(frame, shape->radius) - ls_page_x(frame, 0.0);
            if (isfinite(last->x) && isfinite(last->y)) {
                label_shape(page, shape, ls_page_x(frame, last->x), ls_page_y(frame, last->y), radius, place);
            }
        }
    }
}
