#include "report/chart_contour.h"
#include "report/chart_text.h"

#include <math.h>
#include <stdlib.h>

enum { OWNER = 1000 }; /* the number of a contour among the owners of obstacles, past those of the curves */

/* A cell of the grid: its corners in order around it, corner 0 again at the end. */
typedef struct {
    double x[5], y[5], z[5];
} cell;

static cell cell_of(const ls_chart_map *map, int i, int j)
{
    static const int to_i[5] = {0, 1, 1, 0, 0};
    static const int to_j[5] = {0, 0, 1, 1, 0};
    cell c;
    for (int k = 0; k < 5; k++) {
        c.x[k] = map->x[i + to_i[k]];
        c.y[k] = map->y[j + to_j[k]];
        c.z[k] = map->z[(j + to_j[k]) * map->nx + i + to_i[k]];
    }
    return c;
}

/* The point on the edge from corner k to the next where the level is reached. */
static ls_chart_point crossing(const cell *c, int k, double level)
{
    double s = (level - c->z[k]) / (c->z[k + 1] - c->z[k]);
    return (ls_chart_point){c->x[k] + s * (c->x[k + 1] - c->x[k]), c->y[k] + s * (c->y[k + 1] - c->y[k])};
}

static void add_piece(ls_contours *list, ls_chart_point a, ls_chart_point b, int level)
{
    if (list->pieces == list->capacity) {
        int capacity = list->capacity > 0 ? 2 * list->capacity : 512;
        ls_contour_piece *more = realloc(list->piece, (size_t)capacity * sizeof *more);
        if (more == NULL) {
            list->failed = 1;
            return;
        }
        list->piece = more;
        list->capacity = capacity;
    }
    list->piece[list->pieces++] = (ls_contour_piece){a, b, level};
}

/* Adds the pieces of one level in one cell: none, one, or two at a saddle. */
static void cross_cell(ls_contours *list, const cell *c, double level, int number)
{
    int edge[4];
    int n = 0;
    double middle = 0.0;
    for (int k = 0; k < 4; k++) {
        if (!isfinite(c->z[k])) {
            return;
        }
        middle += 0.25 * c->z[k];
        if ((c->z[k] < level) != (c->z[k + 1] < level)) {
            edge[n++] = k;
        }
    }
    if (n == 4 && (middle < level) != (c->z[0] < level)) {
        static const int around_corners_0_and_2[4] = {3, 0, 1, 2};
        for (int k = 0; k < 4; k++) {
            edge[k] = around_corners_0_and_2[k];
        }
    }
    for (int k = 0; k + 1 < n; k += 2) {
        add_piece(list, crossing(c, edge[k], level), crossing(c, edge[k + 1], level), number);
    }
}

void ls_contours_trace(ls_contours *contours, const ls_page *page, const ls_chart_map *map, const double *level,
                       int levels, ls_place *place)
{
    const ls_page_frame *frame = &page->frame[0];
    for (int n = 0; n < levels; n++) {
        for (int j = 0; j + 1 < map->ny; j++) {
            for (int i = 0; i + 1 < map->nx; i++) {
                cell c = cell_of(map, i, j);
                cross_cell(contours, &c, level[n], n);
            }
        }
    }
    for (int i = 0; i < contours->pieces; i++) {
        const ls_contour_piece *p = &contours->piece[i];
        ls_place_add_segment(place, ls_page_x(frame, p->a.x), ls_page_y(frame, p->a.y), ls_page_x(frame, p->b.x),
                             ls_page_y(frame, p->b.y), OWNER + p->level);
    }
}

static ls_chart_point middle_px(const ls_page_frame *frame, const ls_contour_piece *p)
{
    return (ls_chart_point){0.5 * (ls_page_x(frame, p->a.x) + ls_page_x(frame, p->b.x)),
                            0.5 * (ls_page_y(frame, p->a.y) + ls_page_y(frame, p->b.y))};
}

static void number_level(const ls_contours *list, ls_page *page, int level, const char *text, ls_place *place)
{
    ls_box best = {0};
    const ls_page_frame *frame = &page->frame[0];
    double size = 0.86;
    double width = (ls_chart_text_width(text) * size + 0.3) * page->em;
    double least = 300.0;
    int stride = 1 + list->pieces / 2000;
    for (int i = 0; i < list->pieces; i += stride) {
        if (list->piece[i].level != level) {
            continue;
        }
        ls_chart_point at = middle_px(frame, &list->piece[i]);
        ls_box box = ls_box_at(at.x, at.y, width, 1.05 * page->em);
        double cost = ls_place_cost(place, frame, &box, OWNER + level, page->em) +
                      10.0 * fabs(at.x - 0.5 * (frame->left + frame->right)) / (frame->right - frame->left) +
                      10.0 * fabs(at.y - 0.5 * (frame->bottom + frame->top)) / (frame->top - frame->bottom);
        if (cost < least) {
            least = cost;
            best = box;
        }
    }
    if (least < 300.0) {
        ls_place_add_box(place, best);
        ls_page_add_text(page, 0.5 * (best.x0 + best.x1), 0.5 * (best.y0 + best.y1), size, LS_ALIGN_CENTRE,
                         LS_RGB_TEXT, text);
    }
}

void ls_contours_number(const ls_contours *contours, ls_page *page, const double *level, int levels,
                        const ls_scale *numbers, ls_place *place)
{
    for (int n = 0; n < levels; n++) {
        char text[LS_SCALE_TEXT];
        ls_scale_text(numbers, level[n], text);
        number_level(contours, page, n, text, place);
    }
}

static void add_part(ls_page *page, const ls_contour_piece *p, double from, double to)
{
    ls_page_add_point(page, p->a.x + from * (p->b.x - p->a.x), p->a.y + from * (p->b.y - p->a.y));
    ls_page_add_point(page, p->a.x + to * (p->b.x - p->a.x), p->a.y + to * (p->b.y - p->a.y));
    ls_page_break(page);
}

/* Adds what lies of a piece, between two shares of its length, outside the first `boxes` boxes. */
static void add_outside(ls_page *page, const ls_contour_piece *p, const ls_segment *s, const ls_place *place,
                        int boxes, double from, double to)
{
    double in;
    double out;
    while (boxes > 0 && !ls_box_clip(&place->box[boxes - 1], s, &in, &out)) {
        boxes--;
    }
    if (to <= from) {
        return;
    }
    if (boxes == 0) {
        add_part(page, p, from, to);
        return;
    }
    add_outside(page, p, s, place, boxes - 1, from, fmin(to, in));
    add_outside(page, p, s, place, boxes - 1, fmax(from, out), to);
}

void ls_contours_draw(const ls_contours *contours, ls_page *page, int levels, const ls_place *place)
{
    const ls_page_frame *frame = &page->frame[0];
    for (int n = 0; n < levels; n++) {
        ls_page_add_layer(page, LS_LAYER_LINES, "contour", 0, LS_STYLE_CONTOUR, 0);
        for (int i = 0; i < contours->pieces; i++) {
            const ls_contour_piece *p = &contours->piece[i];
            if (p->level == n) {
                ls_segment s = {ls_page_x(frame, p->a.x), ls_page_y(frame, p->a.y), ls_page_x(frame, p->b.x),
                                ls_page_y(frame, p->b.y), 0};
                add_outside(page, p, &s, place, place->boxes, 0.0, 1.0);
            }
        }
    }
    page->failed = page->failed || contours->failed;
}

void ls_contours_free(ls_contours *contours)
{
    free(contours->piece);
    *contours = (ls_contours){0};
}
