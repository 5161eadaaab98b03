/* One number over a grid of two others: filled bands, contours with their numbers, a key of the bands. */
#include "report/chart_contour.h"
#include "report/chart_parts.h"
#include "report/chart_text.h"

#include <math.h>
#include <stdlib.h>

enum { MOST_LEVELS = 14, ROWS = 150 };

/* The contours' levels; band b lies below level[b], the last one above all. */
typedef struct {
    double level[MOST_LEVELS];
    int levels;
    ls_scale scale; /* for the numbers */
} bands;

static bands choose_bands(const ls_chart_map *map)
{
    bands b = {.levels = 0};
    double low = INFINITY;
    double high = -INFINITY;
    for (int i = 0; i < map->nx * map->ny; i++) {
        if (isfinite(map->z[i])) {
            low = fmin(low, map->z[i]);
            high = fmax(high, map->z[i]);
        }
    }
    if (!(low < high)) {
        return b;
    }
    ls_chart_axis axis = {.step = map->step};
    double parts = 8.0;
    do {
        b.scale = ls_scale_choose(&axis, low, high, parts, 1);
        axis.step = 0.0;
        parts *= 0.6;
    } while (ls_scale_count(&b.scale) > MOST_LEVELS);
    double first = ls_scale_first(&b.scale);
    for (int i = 0; i < ls_scale_count(&b.scale); i++) {
        double level = first + i * b.scale.step;
        if (level > low && level < high) {
            b.level[b.levels++] = level;
        }
    }
    return b;
}

/* From light to a middle tone, so that dark type can be read on every band and a grey print keeps the order. */
static unsigned band_rgb(const bands *b, int band)
{
    static const double light[3] = {250.0, 246.0, 236.0};
    static const double dark[3] = {104.0, 143.0, 168.0};
    double share = b->levels > 0 ? (double)band / b->levels : 0.0;
    unsigned rgb = 0;
    for (int i = 0; i < 3; i++) {
        rgb = rgb << 8 | (unsigned)lround(light[i] + share * (dark[i] - light[i]));
    }
    return rgb;
}

/* A strip of the map at one height, between two of the grid's rows. */
typedef struct {
    const ls_chart_map *map;
    int j;        /* of the row below */
    double share; /* of the way to the row above */
    double y0, y1;
} strip;

static double strip_z(const strip *s, int i)
{
    const double *below = s->map->z + s->j * s->map->nx;
    const double *above = below + s->map->nx;
    return below[i] + s->share * (above[i] - below[i]);
}

static void add_strip(ls_page *page, const strip *s, double x0, double x1)
{
    ls_page_add_point(page, x0, s->y0);
    ls_page_add_point(page, x1, s->y0);
    ls_page_add_point(page, x1, s->y1);
    ls_page_add_point(page, x0, s->y1);
    ls_page_break(page);
}

/* Adds the parts of a strip that lie in one band; along a strip the value is linear between the grid's columns. */
static void fill_strip(ls_page *page, const bands *b, int band, const strip *s)
{
    double from = band > 0 ? b->level[band - 1] : -INFINITY;
    double to = band < b->levels ? b->level[band] : INFINITY;
    double start = NAN;
    for (int i = 0; i + 1 < s->map->nx; i++) {
        double x0 = s->map->x[i];
        double width = s->map->x[i + 1] - x0;
        double z0 = strip_z(s, i);
        double slope = strip_z(s, i + 1) - z0;
        double low = 0.0;
        double high = isfinite(z0) && isfinite(slope) ? 1.0 : -1.0;
        if (slope != 0.0) {
            double a = (from - z0) / slope;
            double c = (to - z0) / slope;
            low = fmax(low, fmin(a, c));
            high = fmin(high, fmax(a, c));
        } else if (!(z0 >= from && z0 < to)) {
            high = -1.0;
        }
        if (high <= low) { /* nothing of this cell: ends what came from the left */
            if (!isnan(start)) {
                add_strip(page, s, start, x0);
            }
            start = NAN;
            continue;
        }
        if (!isnan(start) && low > 0.0) {
            add_strip(page, s, start, x0);
            start = NAN;
        }
        start = isnan(start) ? x0 + low * width : start;
        if (high < 1.0) {
            add_strip(page, s, start, x0 + high * width);
            start = NAN;
        }
    }
    if (!isnan(start)) {
        add_strip(page, s, start, s->map->x[s->map->nx - 1]);
    }
}

static void add_bands(ls_page *page, const ls_chart_map *map, const bands *b)
{
    double low = map->y[0];
    double height = (map->y[map->ny - 1] - low) / ROWS;
    for (int band = 0; band <= b->levels; band++) {
        ls_page_add_layer(page, LS_LAYER_FILL, "band", 0, 0, band_rgb(b, band));
        strip s = {.map = map};
        for (int row = 0; row < ROWS; row++) {
            double y = low + (row + 0.5) * height;
            while (s.j + 2 < map->ny && y > map->y[s.j + 1]) {
                s.j++;
            }
            s.share = (y - map->y[s.j]) / (map->y[s.j + 1] - map->y[s.j]);
            s.y0 = low + row * height;
            s.y1 = s.y0 + (row + 1 < ROWS ? 1.2 : 1.0) * height; /* overlaps, so that no seam shows */
            fill_strip(page, b, band, &s);
        }
    }
}

static double key_room(const ls_page *page, const bands *b)
{
    double widest = 3.0;
    for (int i = 0; i < b->levels; i++) {
        char text[LS_SCALE_TEXT];
        ls_scale_text(&b->scale, b->level[i], text);
        widest = fmax(widest, ls_chart_text_width(text));
    }
    return fmax(widest + 3.0, 8.0) * page->em;
}

static int has_gap(const ls_chart_map *map)
{
    for (int i = 0; i < map->nx * map->ny; i++) {
        if (!isfinite(map->z[i])) {
            return 1;
        }
    }
    return 0;
}

/* The key at the right: what the number is, and a sample of each band between the numbers that part them. */
static void add_key(ls_page *page, const ls_chart_map *map, const bands *b, double room)
{
    const ls_page_frame *frame = &page->frame[0];
    double em = page->em;
    double x = frame->right + 1.4 * em;
    char text[LS_CHART_TEXT];
    snprintf(text, sizeof text, "%s%s%s", map->label, map->unit[0] != '\0' ? ", " : "", map->unit);
    ls_part_label label = ls_part_break(page, text, 0.93, room);
    ls_box box = {x, frame->top - label.height, x + room, frame->top, 0.0};
    ls_part_put(page, &label, &box, x, LS_RGB_TEXT);
    double top = box.y0 - 0.6 * em;
    int samples = b->levels + 1 + 2 * has_gap(map);
    double height = fmin(1.9 * em, (top - frame->bottom) / samples);
    double y = top;
    for (int band = b->levels; band >= 0; band--) {
        y -= height;
        ls_page_add_rectangle(page, x, y, x + 1.6 * em, y + height, band_rgb(b, band));
        if (band > 0) {
            char number[LS_SCALE_TEXT];
            ls_scale_text(&b->scale, b->level[band - 1], number);
            ls_page_add_text(page, x + 2.1 * em, y, 0.93, LS_ALIGN_LEFT, LS_RGB_TEXT, number);
        }
    }
    if (has_gap(map)) {
        y -= 2.0 * height;
        ls_page_add_rectangle(page, x, y, x + 1.6 * em, y + height, 0xffffff);
        ls_page_add_text(page, x + 2.1 * em, y + 0.5 * height, 0.93, LS_ALIGN_LEFT, LS_RGB_TEXT, "no answer");
    }
}

static void set_frame(ls_page *page, const ls_chart *chart, double room)
{
    const ls_chart_map *map = &chart->map;
    ls_page_frame *frame = &page->frame[0];
    double em = page->em;
    frame->top = page->header - 2.2 * em;
    frame->bottom = page->footer + 3.7 * em;
    frame->y = ls_scale_choose(&chart->y[0], map->y[0], map->y[map->ny - 1],
                               fmax(2.0, (frame->top - frame->bottom) / (4.2 * em)), 1);
    frame->left = fmax(3.0 * em, 1.2 * em + ls_page_tick_room(page, &frame->y));
    frame->right = page->width - 2.2 * em - room;
    frame->x =
        ls_scale_choose(&chart->x, map->x[0], map->x[map->nx - 1], (frame->right - frame->left) / (6.0 * em), 1);
    frame->x_numbers = frame->y_numbers = 1;
}

void ls_page_map(ls_page *page, const ls_chart *chart)
{
    ls_place *place = calloc(1, sizeof *place);
    if (place == NULL) {
        page->failed = 1;
        return;
    }
    bands b = choose_bands(&chart->map);
    double room = key_room(page, &b);
    page->x_grid = page->y_grid = 0;
    set_frame(page, chart, room);
    ls_page_add_axis_labels(page, chart);
    add_bands(page, &chart->map, &b);
    add_key(page, &chart->map, &b, room);
    ls_part_references(page, chart, place);
    ls_part_marks(page, chart, place);
    ls_contours contours = {0};
    ls_contours_trace(&contours, page, &chart->map, b.level, b.levels, place);
    ls_contours_number(&contours, page, b.level, b.levels, &b.scale, place);
    ls_part_curves(page, chart, place);
    ls_part_label_marks(page, chart, place);
    ls_part_label_references(page, chart, place);
    ls_part_label_curves(page, chart, place, 0);
    ls_contours_draw(&contours, page, b.levels, place);
    ls_contours_free(&contours);
    free(place);
}
