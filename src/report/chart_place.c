#include "report/chart_place.h"

#include <math.h>

void ls_place_add_box(ls_place *place, ls_box box)
{
    if (place->boxes < LS_PLACE_BOXES) {
        place->box[place->boxes++] = box;
    }
}

void ls_place_add_segment(ls_place *place, double x0, double y0, double x1, double y1, int owner)
{
    if (place->segments < LS_PLACE_SEGMENTS) {
        place->segment[place->segments++] = (ls_segment){x0, y0, x1, y1, owner};
    }
}

void ls_place_add_path(ls_place *place, const ls_page_frame *frame, const ls_chart_point *point, int count,
                       int owner)
{
    const double step_px = 7.0;
    double x0 = NAN;
    double y0 = NAN;
    for (int i = 0; i < count; i++) {
        double x = ls_page_x(frame, point[i].x);
        double y = ls_page_y(frame, point[i].y);
        int ends = i + 1 == count || !isfinite(point[i + 1].x) || !isfinite(point[i + 1].y);
        if (!isfinite(x) || !isfinite(y)) {
            x0 = NAN;
            continue;
        }
        if (isnan(x0)) {
            x0 = x;
            y0 = y;
        }
        if (ends || hypot(x - x0, y - y0) >= step_px) {
            ls_place_add_segment(place, x0, y0, x, y, owner);
            x0 = x;
            y0 = y;
        }
    }
}

ls_box ls_box_at(double x, double y, double width, double height)
{
    return (ls_box){x - 0.5 * width, y - 0.5 * height, x + 0.5 * width, y + 0.5 * height, 0.0};
}

static double clamp(double v, double low, double high)
{
    return v < low ? low : v > high ? high : v;
}

/* Liang and Barsky's clipping. */
int ls_box_clip(const ls_box *box, const ls_segment *s, double *from, double *to)
{
    double dx = s->x1 - s->x0;
    double dy = s->y1 - s->y0;
    double p[4] = {-dx, dx, -dy, dy};
    double q[4] = {s->x0 - box->x0, box->x1 - s->x0, s->y0 - box->y0, box->y1 - s->y0};
    *from = 0.0;
    *to = 1.0;
    for (int i = 0; i < 4; i++) {
        if (p[i] == 0.0) {
            if (q[i] < 0.0) {
                return 0;
            }
        } else if (p[i] < 0.0) {
            *from = fmax(*from, q[i] / p[i]);
        } else {
            *to = fmin(*to, q[i] / p[i]);
        }
    }
    return *from <= *to;
}

static double point_to_box(const ls_box *box, double x, double y)
{
    return hypot(x - clamp(x, box->x0, box->x1), y - clamp(y, box->y0, box->y1));
}

static double point_to_segment(const ls_segment *s, double x, double y)
{
    double dx = s->x1 - s->x0;
    double dy = s->y1 - s->y0;
    double length2 = dx * dx + dy * dy;
    double t = length2 > 0.0 ? clamp(((x - s->x0) * dx + (y - s->y0) * dy) / length2, 0.0, 1.0) : 0.0;
    return hypot(x - s->x0 - t * dx, y - s->y0 - t * dy);
}

double ls_box_gap(const ls_box *box, const ls_segment *segment)
{
    double from;
    double to;
    if (ls_box_clip(box, segment, &from, &to)) {
        return 0.0;
    }
    double gap = fmin(point_to_box(box, segment->x0, segment->y0), point_to_box(box, segment->x1, segment->y1));
    for (int i = 0; i < 4; i++) {
        double x = (i & 1) != 0 ? box->x1 : box->x0;
        double y = (i & 2) != 0 ? box->y1 : box->y0;
        gap = fmin(gap, point_to_segment(segment, x, y));
    }
    return gap;
}

/* A segment seen from a box: turned about the box's middle so that the box lies level. */
static ls_segment seen_from(const ls_box *box, ls_segment s)
{
    if (box->angle_rad == 0.0) {
        return s;
    }
    double x = 0.5 * (box->x0 + box->x1);
    double y = 0.5 * (box->y0 + box->y1);
    double c = cos(box->angle_rad);
    double d = -sin(box->angle_rad);
    ls_segment t = {x + c * (s.x0 - x) - d * (s.y0 - y), y + d * (s.x0 - x) + c * (s.y0 - y),
                    x + c * (s.x1 - x) - d * (s.y1 - y), y + d * (s.x1 - x) + c * (s.y1 - y), s.owner};
    return t;
}

/* The n-th edge of a box as it lies on the canvas. */
static ls_segment edge_of(const ls_box *box, int n)
{
    static const int cx[5] = {0, 1, 1, 0, 0};
    static const int cy[5] = {0, 0, 1, 1, 0};
    ls_segment level = {cx[n] != 0 ? box->x1 : box->x0, cy[n] != 0 ? box->y1 : box->y0,
                        cx[n + 1] != 0 ? box->x1 : box->x0, cy[n + 1] != 0 ? box->y1 : box->y0, -1};
    ls_box back = *box;
    back.angle_rad = -box->angle_rad;
    return seen_from(&back, level);
}

/* The distance between two boxes, 0 if they meet (a box with another wholly inside it included). */
static double box_distance(const ls_box *a, const ls_box *b)
{
    double gap = INFINITY;
    for (int n = 0; n < 4; n++) {
        ls_segment edge = seen_from(a, edge_of(b, n));
        ls_segment other = seen_from(b, edge_of(a, n));
        gap = fmin(gap, fmin(ls_box_gap(a, &edge), ls_box_gap(b, &other)));
    }
    return gap;
}

static int is_outside(const ls_page_frame *frame, const ls_box *box, double room)
{
    for (int n = 0; n < 4; n++) {
        ls_segment e = edge_of(box, n);
        if (e.x0 < frame->left + room || e.x0 > frame->right - room || e.y0 < frame->bottom + room ||
            e.y0 > frame->top - room) {
            return 1;
        }
    }
    return 0;
}

/* Whether a segment is too far from a box, turned or not, for its distance to matter; most are. */
static int is_far(const ls_box *box, const ls_segment *s, double em)
{
    double turn = box->angle_rad != 0.0 ? 0.5 * fmax(box->x1 - box->x0, box->y1 - box->y0) : 0.0;
    double reach = em + turn;
    return fmax(s->x0, s->x1) < box->x0 - reach || fmin(s->x0, s->x1) > box->x1 + reach ||
           fmax(s->y0, s->y1) < box->y0 - reach || fmin(s->y0, s->y1) > box->y1 + reach;
}

static double radius(const ls_box *box)
{
    return 0.5 * hypot(box->x1 - box->x0, box->y1 - box->y0);
}

static int boxes_are_far(const ls_box *a, const ls_box *b, double reach)
{
    double apart = 0.5 * hypot(a->x0 + a->x1 - b->x0 - b->x1, a->y0 + a->y1 - b->y0 - b->y1);
    return apart > radius(a) + radius(b) + reach;
}

double ls_place_cost(const ls_place *place, const ls_page_frame *frame, const ls_box *box, int owner, double em)
{
    double cost = is_outside(frame, box, 0.2 * em) ? 400.0 : 0.0;
    for (int i = 0; i < place->boxes; i++) {
        if (!boxes_are_far(box, &place->box[i], 0.5 * em)) {
            double gap = box_distance(box, &place->box[i]);
            cost += gap <= 0.0 ? 200.0 : gap < 0.5 * em ? 20.0 * (1.0 - 2.0 * gap / em) : 0.0;
        }
    }
    double other = em; /* the nearest curve of another owner, as far as it matters */
    for (int i = 0; i < place->segments; i++) {
        if (is_far(box, &place->segment[i], em)) {
            continue;
        }
        ls_segment segment = seen_from(box, place->segment[i]);
        double gap = ls_box_gap(box, &segment);
        cost += gap <= 0.0 ? 60.0 : 0.0;
        if (owner >= 0 && segment.owner >= 0 && segment.owner != owner) {
            other = fmin(other, gap);
        }
    }
    return cost + (other < 0.4 * em ? 60.0 : 30.0 * (1.0 - other / em));
}

static int cross(const ls_segment *a, const ls_segment *b)
{
    double d = (a->x1 - a->x0) * (b->y1 - b->y0) - (a->y1 - a->y0) * (b->x1 - b->x0);
    double t = ((b->x0 - a->x0) * (b->y1 - b->y0) - (b->y0 - a->y0) * (b->x1 - b->x0)) / d;
    double u = ((b->x0 - a->x0) * (a->y1 - a->y0) - (b->y0 - a->y0) * (a->x1 - a->x0)) / d;
    return d != 0.0 && t >= 0.0 && t <= 1.0 && u >= 0.0 && u <= 1.0;
}

/* How often a leader from a point to a box crosses something, past the point's own curve. */
static int crossings(const ls_place *place, double x, double y, const ls_box *box, double em)
{
    double near_x = clamp(x, box->x0, box->x1);
    double near_y = clamp(y, box->y0, box->y1);
    double length = hypot(near_x - x, near_y - y);
    double skip = 0.5 * em / length;
    if (!(length > em)) {
        return 0;
    }
    ls_segment leader = {x + skip * (near_x - x), y + skip * (near_y - y), near_x, near_y, -1};
    int n = 0;
    for (int i = 0; i < place->segments; i++) {
        n += cross(&leader, &place->segment[i]);
    }
    return n;
}

ls_box ls_place_beside(const ls_place *place, const ls_page_frame *frame, double x, double y, double width,
                       double height, double em, double *cost)
{
    static const double side[8][2] = {{1, 0}, {1, 1}, {1, -1}, {0, 1}, {0, -1}, {-1, 0}, {-1, 1}, {-1, -1}};
    ls_box best = {0};
    double least = INFINITY;
    for (int ring = 0; ring < 5; ring++) {
        for (int i = 0; i < 8; i++) {
            double away = (0.6 + 0.9 * ring) * em;
            double slant = side[i][0] != 0 && side[i][1] != 0 ? 0.75 : 1.0;
            ls_box box = ls_box_at(x + side[i][0] * (slant * away + 0.5 * width),
                                   y + side[i][1] * (slant * away + 0.5 * height), width, height);
            double bad = ls_place_cost(place, frame, &box, -1, em) + 6.0 * ring + 0.3 * i +
                         12.0 * crossings(place, x, y, &box, em);
            if (bad < least) {
                least = bad;
                best = box;
            }
        }
    }
    if (cost != NULL) {
        *cost = least;
    }
    return best;
}

/* The box on one side of a segment: level, touching the segment's line at a gap, or leaning with it. */
static ls_box box_along(const ls_segment *s, int sign, double width, double height, double gap, int turned)
{
    double length = hypot(s->x1 - s->x0, s->y1 - s->y0);
    double nx = -(s->y1 - s->y0) / length;
    double ny = (s->x1 - s->x0) / length;
    double reach = gap + 0.5 * (turned ? height : fabs(nx) * width + fabs(ny) * height);
    ls_box box = ls_box_at(0.5 * (s->x0 + s->x1) + sign * reach * nx, 0.5 * (s->y0 + s->y1) + sign * reach * ny,
                           width, height);
    box.angle_rad = turned ? atan2(s->y1 - s->y0, s->x1 - s->x0) : 0.0;
    return box;
}

/* Where a curve is best labelled: somewhat past the middle of its extent.
 * Returned: also the extent, and how many segments the curve has. */
static double wish_of(const ls_place *place, int owner, double *extent, int *segments)
{
    double low = INFINITY;
    double high = -INFINITY;
    *segments = 0;
    for (int i = 0; i < place->segments; i++) {
        if (place->segment[i].owner == owner) {
            *segments += 1;
            low = fmin(low, fmin(place->segment[i].x0, place->segment[i].x1));
            high = fmax(high, fmax(place->segment[i].x0, place->segment[i].x1));
        }
    }
    *extent = fmax(high - low, 1.0);
    return low + 0.6 * (high - low);
}

ls_box ls_place_along(const ls_place *place, const ls_page_frame *frame, int owner, double width, double height,
                      double em, double gap, int turned, double *cost)
{
    const double steepest_rad = 1.1;
    ls_box best = ls_box_at(0.5 * (frame->left + frame->right), 0.5 * (frame->bottom + frame->top), width, height);
    double extent;
    int segments;
    double wish = wish_of(place, owner, &extent, &segments);
    int stride = 1 + segments / 150; /* places enough to try, even along a ragged curve */
    int own = 0;
    *cost = INFINITY;
    for (int i = 0; i < place->segments; i++) {
        const ls_segment *s = &place->segment[i];
        if (s->owner != owner || own++ % stride != 0 || hypot(s->x1 - s->x0, s->y1 - s->y0) <= 0.0) {
            continue;
        }
        for (int sign = 1; sign >= -1; sign -= 2) {
            ls_box box = box_along(s, sign, width, height, gap, turned);
            if (fabs(box.angle_rad) > steepest_rad) {
                continue;
            }
            double bad =
                ls_place_cost(place, frame, &box, owner, em) + 12.0 * fabs(0.5 * (s->x0 + s->x1) - wish) / extent;
            if (bad < *cost) {
                *cost = bad;
                best = box;
            }
        }
    }
    return best;
}

void ls_place_spread(double *y, int n, double height, double low, double high)
{
    for (int round = 0; round < 200; round++) {
        for (int i = 0; i + 1 < n; i++) {
            double lacking = height - (y[i] - y[i + 1]);
            if (lacking > 0.0) {
                y[i] += 0.5 * lacking;
                y[i + 1] -= 0.5 * lacking;
            }
        }
        for (int i = 0; i < n; i++) {
            y[i] = clamp(y[i], low, high);
        }
    }
}
