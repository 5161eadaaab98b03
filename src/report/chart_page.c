#include "report/chart_page.h"
#include "report/chart_text.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

void ls_page_add_text(ls_page *page, double x, double y, double size, ls_align align, unsigned rgb,
                      const char *text)
{
    if (page->texts == LS_PAGE_TEXTS || *text == '\0') {
        return;
    }
    ls_page_text *item = &page->text[page->texts++];
    ls_chart_text_copy(item->text, sizeof item->text, text);
    item->x = x;
    item->y = y;
    item->size = size;
    item->align = align;
    item->rgb = rgb;
}

void ls_page_add_stroke(ls_page *page, double x0, double y0, double x1, double y1, int style)
{
    if (page->strokes < LS_PAGE_STROKES) {
        page->stroke[page->strokes++] = (ls_page_stroke){x0, y0, x1, y1, style};
    }
}

void ls_page_add_rectangle(ls_page *page, double x0, double y0, double x1, double y1, unsigned rgb)
{
    if (page->rectangles < LS_PAGE_RECTANGLES) {
        page->rectangle[page->rectangles++] = (ls_page_rectangle){x0, y0, x1, y1, rgb};
    }
}

void ls_page_add_layer(ls_page *page, ls_layer_kind kind, const char *name, int panel, int style, unsigned rgb)
{
    if (page->layers < LS_PAGE_LAYERS) {
        page->layer[page->layers++] = (ls_page_layer){kind, name, panel, style, rgb, page->points, 0};
    }
}

void ls_page_add_point(ls_page *page, double x, double y)
{
    if (page->points == page->capacity) {
        int capacity = page->capacity > 0 ? 2 * page->capacity : 1024;
        ls_chart_point *point = realloc(page->point, (size_t)capacity * sizeof *point);
        if (point == NULL) {
            page->failed = 1;
            return;
        }
        page->point = point;
        page->capacity = capacity;
    }
    page->point[page->points++] = (ls_chart_point){x, y};
    page->layer[page->layers - 1].count++;
}

void ls_page_break(ls_page *page)
{
    ls_page_add_point(page, NAN, NAN);
}

double ls_page_x(const ls_page_frame *frame, double x)
{
    return frame->left + (x - frame->x.low) / (frame->x.high - frame->x.low) * (frame->right - frame->left);
}

double ls_page_y(const ls_page_frame *frame, double y)
{
    return frame->bottom + (y - frame->y.low) / (frame->y.high - frame->y.low) * (frame->top - frame->bottom);
}

ls_chart_point ls_page_axes(const ls_page_frame *frame, double x_px, double y_px)
{
    double across = (x_px - frame->left) / (frame->right - frame->left);
    double up = (y_px - frame->bottom) / (frame->top - frame->bottom);
    return (ls_chart_point){frame->x.low + across * (frame->x.high - frame->x.low),
                            frame->y.low + up * (frame->y.high - frame->y.low)};
}

/* Where the text block of a page stands: its type's size in em, its colour, the lines it may take. */
typedef struct {
    double size;
    int most;
    unsigned rgb;
} block;

enum { BLOCK_LINES = 3 };

static int wrap(const ls_page *page, const block *look, const char *text, char line[][LS_CHART_TEXT])
{
    double width_em = (page->width - 2.4 * page->em) / (look->size * page->em);
    return ls_chart_text_wrap(text, width_em, look->most, line);
}

/* Adds a text downward from `top`. Returned: where the next one begins. */
static double add_block(ls_page *page, double top, const block *look, const char *text)
{
    char line[BLOCK_LINES][LS_CHART_TEXT];
    int lines = wrap(page, look, text, line);
    double leading = 1.32 * look->size * page->em;
    for (int i = 0; i < lines; i++) {
        double y = top - (i + 0.5) * leading;
        ls_page_add_text(page, 1.2 * page->em, y, look->size, LS_ALIGN_LEFT, look->rgb, line[i]);
    }
    return top - lines * leading;
}

static double block_height(const ls_page *page, const block *look, const char *text)
{
    char line[BLOCK_LINES][LS_CHART_TEXT];
    return wrap(page, look, text, line) * 1.32 * look->size * page->em;
}

static void add_header(ls_page *page, const ls_chart *chart)
{
    static const block title = {1.42, 2, LS_RGB_TEXT};
    static const block subtitle = {0.93, 2, LS_RGB_QUIET};
    double y = add_block(page, page->height - 0.8 * page->em, &title, chart->title);
    page->header = add_block(page, y - 0.15 * page->em, &subtitle, chart->subtitle);
}

static void add_footer(ls_page *page, const ls_chart *chart)
{
    const block foot = {chart->slide ? 0.62 : 0.74, 3, LS_RGB_PALE};
    double height = block_height(page, &foot, chart->caution) + block_height(page, &foot, chart->provenance);
    page->footer = 0.6 * page->em + height;
    double y = add_block(page, page->footer, &foot, chart->caution);
    add_block(page, y, &foot, chart->provenance);
}

void ls_page_start(ls_page *page, const ls_chart *chart)
{
    ls_chart_point *point = page->point;
    int capacity = page->capacity;
    int failed = page->failed;
    memset(page, 0, sizeof *page);
    page->point = point;
    page->capacity = capacity;
    page->failed = failed;
    page->width = 960.0;
    page->height = chart->slide ? 540.0 : 640.0;
    int is_open = chart->kind == LS_CHART_CURVES || (chart->kind == LS_CHART_BARS && chart->rows <= 10);
    int is_large = chart->slide || (chart->printed && is_open);
    page->em = is_large ? 16.5 : 14.0;
    page->x_grid = page->y_grid = 1;
    page->frames = 1;
    add_header(page, chart);
    add_footer(page, chart);
}

static void axis_text(const ls_chart_axis *axis, char out[LS_CHART_TEXT])
{
    const char *comma = axis->label[0] != '\0' && axis->unit[0] != '\0' ? ", " : "";
    snprintf(out, LS_CHART_TEXT, "%s%s%s", axis->label, comma, axis->unit);
}

/* One line that is cut to a width. */
static void add_line(ls_page *page, double x, double y, ls_align align, double width, const char *text)
{
    char line[1][LS_CHART_TEXT];
    if (ls_chart_text_wrap(text, width / page->em, 1, line) == 1) {
        ls_page_add_text(page, x, y, 1.0, align, LS_RGB_TEXT, line[0]);
    }
}

void ls_page_add_axis_labels(ls_page *page, const ls_chart *chart)
{
    char text[LS_CHART_TEXT];
    double em = page->em;
    for (int i = 0; i < page->frames; i++) {
        axis_text(&chart->y[i], text);
        add_line(page, 1.2 * em, page->frame[i].top + 1.25 * em, LS_ALIGN_LEFT, page->width - 2.4 * em, text);
    }
    const ls_page_frame *lowest = &page->frame[page->frames - 1];
    axis_text(&chart->x, text);
    add_line(page, 0.5 * (lowest->left + lowest->right), lowest->bottom - 2.75 * em, LS_ALIGN_CENTRE,
             page->width - 2.4 * em, text);
}

double ls_page_tick_room(const ls_page *page, const ls_scale *y)
{
    double widest = 0.0;
    double first = ls_scale_first(y);
    for (int i = 0; i < ls_scale_count(y); i++) {
        char text[LS_SCALE_TEXT];
        ls_scale_text(y, first + i * y->step, text);
        widest = fmax(widest, ls_chart_text_width(text));
    }
    return (widest + 0.7) * page->em;
}

ls_status ls_page_lay_out(ls_page *page, const ls_chart *chart, ls_error *error)
{
    static void (*const lay_out[LS_CHART_KINDS])(ls_page *, const ls_chart *) = {
        [LS_CHART_CURVES] = ls_page_curves,
        [LS_CHART_BARS] = ls_page_bars,
        [LS_CHART_MAP] = ls_page_map,
        [LS_CHART_DRAWING] = ls_page_drawing,
    };
    ls_page_start(page, chart);
    lay_out[chart->kind](page, chart);
    if (page->failed) {
        return ls_fail(error, LS_MEMORY, "chart %s: no memory for its points", chart->name);
    }
    return LS_OK;
}
