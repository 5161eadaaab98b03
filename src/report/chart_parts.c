#include "report/chart_parts.h"
#include "report/chart_text.h"

#include <math.h>

static const double leading = 1.22;

ls_part_label ls_part_break(const ls_page *page, const char *text, double size, double width_px)
{
    ls_part_label label = {.size = size};
    double em = size * page->em;
    label.lines = ls_chart_text_wrap(text, width_px / em, LS_PART_LINES, label.line);
    for (int i = 0; i < label.lines; i++) {
        label.width = fmax(label.width, em * ls_chart_text_width(label.line[i]));
    }
    label.height = label.lines > 0 ? (1.05 + (label.lines - 1) * leading) * em : 0.0;
    return label;
}

void ls_part_put(ls_page *page, const ls_part_label *label, const ls_box *box, double x, unsigned rgb)
{
    ls_align align = x <= box->x0 ? LS_ALIGN_LEFT : x >= box->x1 ? LS_ALIGN_RIGHT : LS_ALIGN_CENTRE;
    double at = align == LS_ALIGN_LEFT ? box->x0 : align == LS_ALIGN_RIGHT ? box->x1 : 0.5 * (box->x0 + box->x1);
    double step = leading * label->size * page->em;
    for (int i = 0; i < label->lines; i++) {
        double y = 0.5 * (box->y0 + box->y1) + (0.5 * (label->lines - 1) - i) * step;
        ls_page_add_text(page, at, y, label->size, align, rgb, label->line[i]);
    }
}

void ls_part_put_turned(ls_page *page, const ls_part_label *label, const ls_box *box, unsigned rgb)
{
    double x = 0.5 * (box->x0 + box->x1);
    double y = 0.5 * (box->y0 + box->y1);
    int before = page->texts;
    ls_page_add_text(page, x, y, label->size, LS_ALIGN_CENTRE, rgb, label->lines > 0 ? label->line[0] : "");
    if (page->texts > before) {
        page->text[before].angle_rad = box->angle_rad;
    }
}

ls_part_range ls_part_range_none(void)
{
    return (ls_part_range){INFINITY, -INFINITY, INFINITY, -INFINITY};
}

void ls_part_range_add(ls_part_range *range, double x, double y)
{
    if (isfinite(x)) {
        range->x_low = fmin(range->x_low, x);
        range->x_high = fmax(range->x_high, x);
    }
    if (isfinite(y)) {
        range->y_low = fmin(range->y_low, y);
        range->y_high = fmax(range->y_high, y);
    }
}

/* The x of a point without an answer counts: the axis shows all that was asked. */
static void add_path(ls_part_range *range, const ls_chart *chart, const ls_chart_path *path, double radius)
{
    for (int i = path->first; i < path->first + path->count; i++) {
        const ls_chart_point *p = &chart->point[i];
        double y = isfinite(p->x) ? p->y : NAN;
        ls_part_range_add(range, p->x - radius, y - radius);
        ls_part_range_add(range, p->x + radius, y + radius);
    }
}

/* A region shows at least a strip, wide enough for its label; along its boundary it adds nothing to what the
 * curves ask for. */
static void add_region(ls_part_range *range, const ls_chart *chart, const ls_chart_region *region)
{
    int level = region->side == LS_REGION_BELOW || region->side == LS_REGION_ABOVE;
    int alone = !(level ? range->x_low <= range->x_high : range->y_low <= range->y_high);
    if (region->side == LS_REGION_CLOSED || alone) {
        add_path(range, chart, &region->path, 0.0);
    }
    ls_part_range with = *range;
    for (int i = region->path.first; i < region->path.first + region->path.count; i++) {
        const ls_chart_point *p = &chart->point[i];
        ls_part_range_add(&with, level ? NAN : p->x, level ? p->y : NAN);
    }
    double strip = 0.09 * (level ? with.y_high - with.y_low : with.x_high - with.x_low);
    strip *= region->side == LS_REGION_BELOW || region->side == LS_REGION_LEFT ? -1.0 : 1.0;
    for (int i = region->path.first; i < region->path.first + region->path.count; i++) {
        const ls_chart_point *p = &chart->point[i];
        double x = level || region->side == LS_REGION_CLOSED ? NAN : p->x;
        double y = level ? p->y : NAN;
        ls_part_range_add(range, x, y);
        ls_part_range_add(range, x + strip, y + strip);
    }
}

ls_part_range ls_part_range_of(const ls_chart *chart, int panel)
{
    ls_part_range range = ls_part_range_none();
    for (int i = 0; i < chart->curves; i++) {
        if (chart->curve[i].panel == panel) {
            add_path(&range, chart, &chart->curve[i].path, 0.0);
        }
    }
    for (int i = 0; i < chart->references; i++) {
        const ls_chart_reference *r = &chart->reference[i];
        ls_part_range_add(&range, r->vertical ? r->at : NAN, !r->vertical && r->panel == panel ? r->at : NAN);
    }
    for (int i = 0; i < chart->marks; i++) {
        if (chart->mark[i].panel == panel) {
            ls_part_range_add(&range, chart->mark[i].x, chart->mark[i].y);
        }
    }
    for (int i = 0; i < chart->shapes && panel == 0; i++) {
        add_path(&range, chart, &chart->shape[i].path, chart->shape[i].radius);
    }
    for (int i = 0; i < chart->regions; i++) {
        if (chart->region[i].panel == panel) {
            add_region(&range, chart, &chart->region[i]);
        }
    }
    return range;
}

static double clamp(double v, double low, double high)
{
    return v < low ? low : v > high ? high : v;
}

static void add_clamped(ls_page *page, const ls_page_frame *frame, double x, double y)
{
    ls_page_add_point(page, clamp(x, frame->x.low, frame->x.high), clamp(y, frame->y.low, frame->y.high));
}

/* Closes the outline of one run of a boundary along the frame's edge on the region's side. */
static void close_run(ls_page *page, const ls_page_frame *frame, ls_region_side side, ls_chart_point first,
                      ls_chart_point last)
{
    int level = side == LS_REGION_BELOW || side == LS_REGION_ABOVE;
    if (side == LS_REGION_CLOSED) {
        return;
    }
    double edge = side == LS_REGION_BELOW   ? frame->y.low
                  : side == LS_REGION_ABOVE ? frame->y.high
                  : side == LS_REGION_LEFT  ? frame->x.low
                                            : frame->x.high;
    add_clamped(page, frame, level ? last.x : edge, level ? edge : last.y);
    add_clamped(page, frame, level ? first.x : edge, level ? edge : first.y);
}

static void fill_region(ls_page *page, const ls_chart *chart, const ls_chart_region *region)
{
    const ls_page_frame *frame = &page->frame[region->panel];
    ls_page_add_layer(page, LS_LAYER_FILL, "region", region->panel, 0, LS_RGB_REGION);
    int start = -1;
    int end = region->path.first + region->path.count;
    for (int i = region->path.first; i <= end; i++) {
        int is_drawn = i < end && isfinite(chart->point[i].x) && isfinite(chart->point[i].y);
        if (is_drawn) {
            start = start < 0 ? i : start;
            add_clamped(page, frame, chart->point[i].x, chart->point[i].y);
        } else if (start >= 0) {
            close_run(page, frame, region->side, chart->point[start], chart->point[i - 1]);
            ls_page_break(page);
            start = -1;
        }
    }
}

static void line_of_path(ls_page *page, const ls_chart *chart, const ls_chart_path *path)
{
    for (int i = path->first; i < path->first + path->count; i++) {
        ls_page_add_point(page, chart->point[i].x, chart->point[i].y);
    }
}

void ls_part_regions(ls_page *page, const ls_chart *chart, ls_place *place)
{
    for (int i = 0; i < chart->regions; i++) {
        const ls_chart_region *region = &chart->region[i];
        const ls_chart_path *path = &region->path;
        fill_region(page, chart, region);
        ls_page_add_layer(page, LS_LAYER_LINES, "boundary", region->panel, LS_STYLE_BOUNDARY, 0);
        line_of_path(page, chart, path);
        if (region->side == LS_REGION_CLOSED && path->count > 0) {
            ls_page_add_point(page, chart->point[path->first].x, chart->point[path->first].y);
        }
        if (path->count > 0) {
            ls_place_add_path(place, &page->frame[region->panel], chart->point + path->first, path->count, -1);
        }
    }
}

static int is_in_range(const ls_page_frame *frame, const ls_chart_reference *r)
{
    const ls_scale *scale = r->vertical ? &frame->x : &frame->y;
    return r->at >= scale->low && r->at <= scale->high;
}

void ls_part_references(ls_page *page, const ls_chart *chart, ls_place *place)
{
    for (int i = 0; i < chart->references; i++) {
        const ls_chart_reference *r = &chart->reference[i];
        for (int panel = 0; panel < page->frames; panel++) {
            const ls_page_frame *f = &page->frame[panel];
            if (!is_in_range(f, r) || (!r->vertical && r->panel != panel)) {
                continue;
            }
            ls_chart_point end[2] = {{r->vertical ? r->at : f->x.low, r->vertical ? f->y.low : r->at},
                                     {r->vertical ? r->at : f->x.high, r->vertical ? f->y.high : r->at}};
            ls_page_add_layer(page, LS_LAYER_LINES, "reference", panel, LS_STYLE_REFERENCE, 0);
            ls_page_add_point(page, end[0].x, end[0].y);
            ls_page_add_point(page, end[1].x, end[1].y);
            ls_place_add_path(place, f, end, 2, -1);
        }
    }
}

void ls_part_marks(ls_page *page, const ls_chart *chart, ls_place *place)
{
    for (int i = 0; i < chart->marks; i++) {
        const ls_chart_mark *mark = &chart->mark[i];
        const ls_page_frame *frame = &page->frame[mark->panel];
        ls_page_add_layer(page, LS_LAYER_SYMBOLS, "mark", mark->panel, LS_STYLE_MARK, 0);
        ls_page_add_point(page, mark->x, mark->y);
        ls_place_add_box(place, ls_box_at(ls_page_x(frame, mark->x), ls_page_y(frame, mark->y), 0.8 * page->em,
                                          0.8 * page->em));
    }
}
