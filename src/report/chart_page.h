/* A chart laid out on its canvas: frames, texts in their places, strokes, and layers of points in the axes'
 * coordinates. The kinds of chart lay themselves out (chart_curves.c, chart_bars.c, ...); gnuplot.c only writes
 * down what the page holds. Canvas coordinates are pixels, y upward. */
#ifndef LIVESIDE_REPORT_CHART_PAGE_H
#define LIVESIDE_REPORT_CHART_PAGE_H

#include "report/chart_scale.h"

enum { LS_PAGE_TEXTS = 768, LS_PAGE_STROKES = 256, LS_PAGE_LAYERS = 512, LS_PAGE_RECTANGLES = 32 };

/* Numbers of the line styles that style_data.c defines. */
enum {
    LS_STYLE_MAIN = 1,
    LS_STYLE_OTHER = 2, /* to 9: the alternatives */
    LS_STYLE_OTHERS = 8,
    LS_STYLE_FAINT = 11,
    LS_STYLE_BOUNDARY = 12,
    LS_STYLE_REFERENCE = 13,
    LS_STYLE_CONTOUR = 14,
    LS_STYLE_MARK = 15,
    LS_STYLE_LEADER = 16,
    LS_STYLE_ZERO = 17,
    LS_STYLE_POINTS = 21, /* to 24: measured points */
    LS_STYLE_POINT_SETS = 4,
    LS_STYLE_BODY = 31
};

enum {
    LS_RGB_TEXT = 0x222222,
    LS_RGB_QUIET = 0x5c5c5c,
    LS_RGB_PALE = 0x767676,
    LS_RGB_REGION = 0xe9e6df,
    LS_RGB_BODY = 0xf0eee9
};

typedef enum { LS_ALIGN_LEFT, LS_ALIGN_CENTRE, LS_ALIGN_RIGHT } ls_align;

/* One line of text; x as aligned, y at half its height; turned about that point. */
typedef struct {
    char text[LS_CHART_TEXT];
    double x, y, size, angle_rad;
    ls_align align;
    unsigned rgb;
} ls_page_text;

/* A straight line, or a symbol if both ends are one point. */
typedef struct {
    double x0, y0, x1, y1;
    int style;
} ls_page_stroke;

/* A filled rectangle with an outline: a sample in a key. */
typedef struct {
    double x0, y0, x1, y1;
    unsigned rgb;
} ls_page_rectangle;

typedef enum {
    LS_LAYER_LINES,
    LS_LAYER_SYMBOLS,
    LS_LAYER_FILL,        /* closed polygons without an outline */
    LS_LAYER_FILL_OUTLINE /* with an outline of the layer's style */
} ls_layer_kind;

/* Points of the page's pool, runs of them parted by points that are not finite. */
typedef struct {
    ls_layer_kind kind;
    const char *name; /* of its data block, a literal: "curve" */
    int panel;
    int style;    /* of lines, symbols and outlines */
    unsigned rgb; /* of fills */
    int first, count;
} ls_page_layer;

/* A panel: its place on the canvas and its scales. */
typedef struct {
    double left, right, bottom, top;
    ls_scale x, y;
    int x_numbers, y_numbers; /* whether the ticks carry numbers */
} ls_page_frame;

typedef struct {
    double width, height, em; /* em: the size of the plain type */
    double header, footer;    /* where the title block ends and the foot begins */
    int bare;                 /* no axes, no grid */
    int x_grid, y_grid;       /* whether grid lines stand on the ticks of x, of y */
    int frames;
    ls_page_frame frame[LS_CHART_PANELS];
    int texts, strokes, rectangles, layers;
    ls_page_text text[LS_PAGE_TEXTS];
    ls_page_stroke stroke[LS_PAGE_STROKES];
    ls_page_rectangle rectangle[LS_PAGE_RECTANGLES];
    ls_page_layer layer[LS_PAGE_LAYERS];
    ls_chart_point *point;
    int points, capacity;
    int failed; /* no memory for a point */
} ls_page;

/* An empty page of the chart's size with title, condition line and foot in place; keeps the pool's memory, and
 * that memory has run out. */
void ls_page_start(ls_page *page, const ls_chart *chart);

/* Adds one line of text; size in em. What is past the page's capacity is dropped: the capacities hold the most
 * that a chart's own capacities can ask for. */
void ls_page_add_text(ls_page *page, double x, double y, double size, ls_align align, unsigned rgb,
                      const char *text);
void ls_page_add_stroke(ls_page *page, double x0, double y0, double x1, double y1, int style);
void ls_page_add_rectangle(ls_page *page, double x0, double y0, double x1, double y1, unsigned rgb);
void ls_page_add_layer(ls_page *page, ls_layer_kind kind, const char *name, int panel, int style, unsigned rgb);

/* Adds a point to the layer added last. */
void ls_page_add_point(ls_page *page, double x, double y);

/* Ends a run of the layer's points. */
void ls_page_break(ls_page *page);

/* From the axes to the canvas and back. */
double ls_page_x(const ls_page_frame *frame, double x);
double ls_page_y(const ls_page_frame *frame, double y);
ls_chart_point ls_page_axes(const ls_page_frame *frame, double x_px, double y_px);

/* The axes' own texts: the y axis above its frame, the x axis below the lowest; "label, unit". */
void ls_page_add_axis_labels(ls_page *page, const ls_chart *chart);

/* The room that the numbers at a frame's y ticks take. */
double ls_page_tick_room(const ls_page *page, const ls_scale *y);

/* Lays a chart out, by its kind. Status: LS_OK, or LS_MEMORY. */
ls_status ls_page_lay_out(ls_page *page, const ls_chart *chart, ls_error *error);

/* The kinds. */
void ls_page_curves(ls_page *page, const ls_chart *chart);
void ls_page_bars(ls_page *page, const ls_chart *chart);
void ls_page_map(ls_page *page, const ls_chart *chart);
void ls_page_drawing(ls_page *page, const ls_chart *chart);

#endif
