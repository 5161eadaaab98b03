/* Curves, their symbols and their labels. */
#include "report/chart_parts.h"

#include <math.h>
#include <string.h>

static const unsigned curve_rgb[LS_STYLE_OTHER + LS_STYLE_OTHERS] = {
    LS_RGB_TEXT, 0x1b2a41, 0xb4430c, 0x0b6e69, 0x6d3fa0, 0x7a5c00, 0x1f5fa6, 0xa3315f, 0x44611c, 0x555555};

/* How many curves of a role come before one in its panel: what is drawn in both panels looks the same in both. */
static int ordinal(const ls_chart *chart, int curve)
{
    int n = 0;
    for (int i = 0; i < curve; i++) {
        n +=
            chart->curve[i].role == chart->curve[curve].role && chart->curve[i].panel == chart->curve[curve].panel;
    }
    return n;
}

int ls_part_curve_style(const ls_chart *chart, int curve)
{
    switch (chart->curve[curve].role) {
    case LS_CURVE_MAIN:
        return LS_STYLE_MAIN;
    case LS_CURVE_OTHER:
        return LS_STYLE_OTHER + ordinal(chart, curve) % LS_STYLE_OTHERS;
    case LS_CURVE_POINTS:
        return LS_STYLE_POINTS + ordinal(chart, curve) % LS_STYLE_POINT_SETS;
    default:
        return LS_STYLE_FAINT;
    }
}

static unsigned label_rgb(int style)
{
    return style < LS_STYLE_OTHER + LS_STYLE_OTHERS ? curve_rgb[style] : LS_RGB_QUIET;
}

static int is_finite(const ls_chart_point *p)
{
    return isfinite(p->x) && isfinite(p->y);
}

/* A stretch that leads so far off the canvas gets no symbols: there would be no end of them. */
#define LONGEST_PX 2e4

/* Adds symbols along a curve at even distances on the canvas, and at each point that stands alone. */
static void add_symbols(ls_page *page, const ls_page_frame *frame, const ls_chart_point *point, int count,
                        double every_px, double next_px)
{
    for (int i = 0; i < count; i++) {
        if (!is_finite(&point[i])) {
            continue;
        }
        int joins_next = i + 1 < count && is_finite(&point[i + 1]);
        int joins_last = i > 0 && is_finite(&point[i - 1]);
        if (!joins_next && !joins_last) {
            ls_page_add_point(page, point[i].x, point[i].y);
        }
        if (!joins_next) {
            continue;
        }
        double dx = point[i + 1].x - point[i].x;
        double dy = point[i + 1].y - point[i].y;
        double length_px = hypot(ls_page_x(frame, point[i + 1].x) - ls_page_x(frame, point[i].x),
                                 ls_page_y(frame, point[i + 1].y) - ls_page_y(frame, point[i].y));
        if (!(length_px < LONGEST_PX)) {
            next_px = every_px;
            continue;
        }
        double at_px = next_px;
        for (; at_px < length_px; at_px += every_px) {
            ls_page_add_point(page, point[i].x + at_px / length_px * dx, point[i].y + at_px / length_px * dy);
        }
        next_px = at_px - length_px;
    }
}

/* No label may stand on the symbols of the layer added last. */
static void add_symbol_obstacles(const ls_page *page, const ls_page_frame *frame, ls_place *place)
{
    const ls_page_layer *layer = &page->layer[page->layers - 1];
    for (int i = layer->first; i < layer->first + layer->count; i++) {
        const ls_chart_point *p = &page->point[i];
        if (is_finite(p)) {
            double size = 0.66 * page->em;
            ls_place_add_box(place, ls_box_at(ls_page_x(frame, p->x), ls_page_y(frame, p->y), size, size));
        }
    }
}

static void add_curve(ls_page *page, const ls_chart *chart, int number, ls_place *place)
{
    const ls_chart_curve *curve = &chart->curve[number];
    const ls_page_frame *frame = &page->frame[curve->panel];
    const ls_chart_point *point = chart->point + curve->path.first;
    int count = curve->path.count;
    int style = ls_part_curve_style(chart, number);
    ls_place_add_path(place, frame, point, count, number);
    ls_page_add_layer(page, curve->role == LS_CURVE_POINTS ? LS_LAYER_SYMBOLS : LS_LAYER_LINES, "curve",
                      curve->panel, style, 0);
    for (int i = 0; i < count; i++) {
        ls_page_add_point(page, point[i].x, point[i].y);
    }
    if (curve->role == LS_CURVE_POINTS) {
        add_symbol_obstacles(page, frame, place);
        return;
    }
    double every_px = curve->role == LS_CURVE_OTHER ? (frame->right - frame->left) / 6.0 : INFINITY;
    double first_px = curve->role == LS_CURVE_OTHER ? every_px * (0.25 + fmod(0.29 * number, 0.5)) : INFINITY;
    ls_page_add_layer(page, LS_LAYER_SYMBOLS, "symbols", curve->panel, style, 0);
    add_symbols(page, frame, point, count, every_px, first_px);
    add_symbol_obstacles(page, frame, place);
}

void ls_part_curves(ls_page *page, const ls_chart *chart, ls_place *place)
{
    for (int pass = 0; pass < 2; pass++) { /* the main curves on top of the others */
        for (int i = 0; i < chart->curves; i++) {
            int in_turn = (chart->curve[i].role == LS_CURVE_MAIN) == (pass == 1);
            if (in_turn && chart->curve[i].path.count > 0) {
                add_curve(page, chart, i, place);
            }
        }
    }
}

int ls_part_label_curves(ls_page *page, const ls_chart *chart, ls_place *place, int turned)
{
    int good = 1;
    for (int i = 0; i < chart->curves; i++) {
        const ls_chart_curve *curve = &chart->curve[i];
        if (curve->label[0] == '\0') {
            continue;
        }
        const ls_page_frame *frame = &page->frame[curve->panel];
        double width = turned ? page->width : 0.36 * (frame->right - frame->left);
        ls_part_label label = ls_part_break(page, curve->label, 1.0, width);
        double cost;
        double gap = (curve->role == LS_CURVE_POINTS ? 0.7 : 0.4) * page->em;
        ls_box box = ls_place_along(place, frame, i, label.width, label.height, page->em, gap, turned, &cost);
        good = good && cost < LS_PLACE_BAD;
        ls_place_add_box(place, box);
        unsigned rgb = label_rgb(ls_part_curve_style(chart, i));
        if (turned) {
            ls_part_put_turned(page, &label, &box, rgb);
        } else {
            ls_part_put(page, &label, &box, 0.5 * (box.x0 + box.x1), rgb);
        }
    }
    return good;
}

/* The column: from the frame's edge a leader, a sample of the line, the text. In em. */
static const double leader_em = 1.3;
static const double sample_em = 2.6;
static const double gap_em = 0.5;

typedef struct {
    int curve;
    ls_part_label label;
    double end_y; /* where the curve leaves the frame; NaN if it ends before */
    double y;     /* where the label wishes to be */
} key_entry;

static ls_part_label key_label(const ls_page *page, const ls_chart *chart, int curve)
{
    const ls_chart_path *path = &chart->curve[curve].path;
    int drawn = 0;
    for (int i = path->first; i < path->first + path->count; i++) {
        drawn += is_finite(&chart->point[i]);
    }
    char text[LS_CHART_LABEL + 16];
    snprintf(text, sizeof text, "%s%s", chart->curve[curve].label, drawn > 0 ? "" : ": no answer");
    return ls_part_break(page, text, 1.0, 0.19 * page->width);
}

double ls_part_key_width(const ls_page *page, const ls_chart *chart)
{
    double widest = 0.0;
    for (int i = 0; i < chart->curves; i++) {
        if (chart->curve[i].label[0] != '\0') {
            widest = fmax(widest, key_label(page, chart, i).width);
        }
    }
    return widest + (leader_em + sample_em + gap_em) * page->em;
}

static key_entry entry_of(const ls_page *page, const ls_chart *chart, int number)
{
    const ls_chart_curve *curve = &chart->curve[number];
    const ls_page_frame *frame = &page->frame[curve->panel];
    key_entry entry = {number, key_label(page, chart, number), NAN, frame->bottom};
    for (int i = curve->path.first + curve->path.count - 1; i >= curve->path.first; i--) {
        if (is_finite(&chart->point[i])) {
            double y = ls_page_y(frame, chart->point[i].y);
            int inside = y >= frame->bottom && y <= frame->top;
            entry.y = y;
            entry.end_y = inside && fabs(ls_page_x(frame, chart->point[i].x) - frame->right) < 2.0 ? y : NAN;
            break;
        }
    }
    return entry;
}

static void put_entry(ls_page *page, const ls_chart *chart, const key_entry *entry, double y)
{
    const ls_page_frame *frame = &page->frame[chart->curve[entry->curve].panel];
    int style = ls_part_curve_style(chart, entry->curve);
    double em = page->em;
    double x0 = frame->right + leader_em * em;
    double x1 = x0 + sample_em * em;
    if (isfinite(entry->end_y)) {
        ls_page_add_stroke(page, frame->right + 0.15 * em, entry->end_y, x0 - 0.2 * em, y, LS_STYLE_LEADER);
    }
    if (chart->curve[entry->curve].role != LS_CURVE_POINTS) {
        ls_page_add_stroke(page, x0, y, x1, y, style);
    }
    if (chart->curve[entry->curve].role != LS_CURVE_MAIN && style != LS_STYLE_FAINT) {
        ls_page_add_stroke(page, 0.5 * (x0 + x1), y, 0.5 * (x0 + x1), y, style);
    }
    ls_box box = {x1 + gap_em * em, y - 0.5 * entry->label.height, x1 + gap_em * em + entry->label.width,
                  y + 0.5 * entry->label.height, 0.0};
    ls_part_put(page, &entry->label, &box, frame->right, label_rgb(style));
}

static void key_of_panel(ls_page *page, const ls_chart *chart, int panel)
{
    key_entry entry[LS_CHART_CURVES_MAX];
    double y[LS_CHART_CURVES_MAX];
    double height = 0.0;
    int n = 0;
    for (int i = 0; i < chart->curves; i++) {
        if (chart->curve[i].panel != panel || chart->curve[i].label[0] == '\0') {
            continue;
        }
        key_entry next = entry_of(page, chart, i);
        height = fmax(height, next.label.height);
        int at = n++;
        for (; at > 0 && entry[at - 1].y < next.y; at--) { /* from the top down */
            entry[at] = entry[at - 1];
        }
        entry[at] = next;
    }
    for (int i = 0; i < n; i++) {
        y[i] = entry[i].y;
    }
    const ls_page_frame *frame = &page->frame[panel];
    ls_place_spread(y, n, height + 0.3 * page->em, frame->bottom + 0.5 * height, frame->top - 0.5 * height);
    for (int i = 0; i < n; i++) {
        put_entry(page, chart, &entry[i], y[i]);
    }
}

void ls_part_key(ls_page *page, const ls_chart *chart)
{
    for (int panel = 0; panel < page->frames; panel++) {
        key_of_panel(page, chart, panel);
    }
}
