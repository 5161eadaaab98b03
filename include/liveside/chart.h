/* A chart as plain data, and its gnuplot script. A builder fills the record from a study's result; nothing here
 * computes a result. Curves are told apart by dash, weight and symbol as well as by colour, so that a grey print
 * and a colour-blind reader lose nothing.
 *
 * A builder starts a chart, sets its texts and axes, adds what is drawn, and writes it:
 *
 *     ls_chart_start(&chart, LS_CHART_CURVES, "vmc-against-bank");
 *     snprintf(chart.title, sizeof chart.title, "%s: minimum control speed against bank", name);
 *     ls_chart_add_curve(&chart, LS_CURVE_MAIN, 0, "both clockwise");
 *     ls_chart_add_point(&chart, bank_deg, vmc_kt);
 *     ...
 *     status = ls_chart_save(&chart, folder, error);
 *     ls_chart_free(&chart);
 *
 * The first failure of an adding function (out of memory, too many items) is kept in chart.error; later ones do
 * nothing, and ls_chart_write returns it: a builder need not look at each call. */
#ifndef LIVESIDE_CHART_H
#define LIVESIDE_CHART_H

#include "liveside/status.h"

#include <stddef.h>
#include <stdio.h>

enum {
    LS_CHART_NAME = 64,  /* bytes of a file name without its ending */
    LS_CHART_TEXT = 320, /* bytes of a title, a condition line, a caution */
    LS_CHART_LABEL = 96, /* bytes of a label inside the chart */
    LS_CHART_PANELS = 2, /* one above the other, over the same x axis */
    LS_CHART_CURVES_MAX = 16,
    LS_CHART_SLIDE_CURVES = 4, /* labelled curves that a slide may hold */
    LS_CHART_REGIONS = 6,
    LS_CHART_REFERENCES = 12,
    LS_CHART_MARKS = 24,
    LS_CHART_ROWS = 40,
    LS_CHART_GROUPS = 4,
    LS_CHART_BARS_MAX = LS_CHART_ROWS * LS_CHART_GROUPS,
    LS_CHART_SHAPES = 160,
    LS_CHART_POINTS = 300000 /* of all paths together */
};

/* A number of a larger magnitude is taken for one that is not finite. */
#define LS_CHART_LARGEST 1e30

typedef enum {
    LS_CHART_CURVES,  /* curves, regions, reference lines, marks and shapes over an x axis; one or two panels */
    LS_CHART_BARS,    /* horizontal bars in named rows: factors, moments */
    LS_CHART_MAP,     /* one number over a grid of two others: filled bands and labelled contours */
    LS_CHART_DRAWING, /* shapes to scale, x and y alike, without axes */
    LS_CHART_KINDS
} ls_chart_kind;

typedef struct {
    double x, y;
} ls_chart_point;

/* A run of the chart's points; a point that is not finite breaks it. */
typedef struct {
    int first, count;
} ls_chart_path;

/* What an axis shows. */
typedef struct {
    char label[LS_CHART_LABEL]; /* "bank toward the live engine" */
    char unit[LS_CHART_LABEL];  /* "deg"; "" for a pure number */
    double low, high;           /* the range; both 0 or not finite: chosen from what is drawn */
    double step;                /* between ticks; 0: chosen */
    int with_zero;              /* whether a chosen range holds 0 */
} ls_chart_axis;

/* What a curve is, which decides how it looks. */
typedef enum {
    LS_CURVE_MAIN,   /* the file's own, the one that the chart is about: thick and solid */
    LS_CURVE_OTHER,  /* an alternative; the n-th of its panel has the n-th dash, weight and symbol */
    LS_CURVE_FAINT,  /* a continuation without meaning of its own (below the stall): thin, dotted, grey */
    LS_CURVE_POINTS, /* measured points: symbols without a line */
    LS_CURVE_ROLES
} ls_curve_role;

typedef struct {
    ls_curve_role role;
    int panel;
    char label[LS_CHART_LABEL]; /* written at the curve's end or on it; "" for none */
    ls_chart_path path;
} ls_chart_curve;

/* The side of its boundary that a region covers. */
typedef enum {
    LS_REGION_BELOW,
    LS_REGION_ABOVE,
    LS_REGION_LEFT,
    LS_REGION_RIGHT,
    LS_REGION_CLOSED
} ls_region_side;

/* A shaded part of the plane, with its boundary drawn: where the wing is stalled. */
typedef struct {
    ls_region_side side;
    int panel;
    char label[LS_CHART_LABEL]; /* "stalled"; written inside it where there is room */
    ls_chart_path path;         /* the boundary; for LS_REGION_CLOSED the whole outline */
} ls_chart_region;

/* A straight line across the chart: a bank of 5 deg, a published speed. */
typedef struct {
    int vertical; /* at x (through every panel), else at y of its panel */
    int panel;
    double at;
    char label[LS_CHART_LABEL];
} ls_chart_reference;

/* One point that is worth a word: where VMC meets the stall. */
typedef struct {
    int panel;
    double x, y;
    char label[LS_CHART_LABEL];
} ls_chart_mark;

/* One bar; bars of several groups in one row stand below each other, or on one line if `bars_overlaid`. */
typedef struct {
    int row, group;
    double from, to;           /* on the x axis */
    char text[LS_CHART_LABEL]; /* written at the bar's end; "" for none */
} ls_chart_bar;

/* What a map shows: z[j * nx + i] at x[i], y[j], both strictly increasing; not finite where there is no answer. */
typedef struct {
    char label[LS_CHART_LABEL];
    char unit[LS_CHART_LABEL];
    double step; /* between contours; 0: chosen */
    int nx, ny;
    double *x, *y, *z; /* owned by the chart */
} ls_chart_map;

typedef enum { LS_SHAPE_LINE, LS_SHAPE_ARROW, LS_SHAPE_POLYGON, LS_SHAPE_CIRCLE, LS_SHAPE_TEXT } ls_shape_kind;

/* How a shape is drawn. */
typedef enum {
    LS_INK_BODY,   /* the thing itself: light fill, thin outline */
    LS_INK_MAIN,   /* what the drawing is about: thick, dark, solid */
    LS_INK_SECOND, /* its counterpart: dashed */
    LS_INK_THIRD,  /* dash-dotted */
    LS_INK_FAINT,  /* axes and construction lines: thin, dotted, grey */
    LS_INKS
} ls_chart_ink;

typedef enum {
    LS_SIDE_AUTO,
    LS_SIDE_RIGHT,
    LS_SIDE_LEFT,
    LS_SIDE_ABOVE,
    LS_SIDE_BELOW,
    LS_SIDE_CENTRE
} ls_chart_side;

/* A shape in the axes' coordinates. Line and arrow: an open path, the arrow's head at its last point; polygon: a
 * closed path; circle: centre (the path's only point) and radius; text: its place is the path's only point. */
typedef struct {
    ls_shape_kind kind;
    ls_chart_ink ink;
    double radius;              /* in units of the x axis */
    ls_chart_side side;         /* where the label stands from the shape's last point */
    char label[LS_CHART_LABEL]; /* "" for none */
    ls_chart_path path;
} ls_chart_shape;

typedef struct {
    ls_chart_kind kind;
    char name[LS_CHART_NAME]; /* of the files: a-z, 0-9 and -, beginning with a letter */
    char title[LS_CHART_TEXT];
    char subtitle[LS_CHART_TEXT];   /* the condition line */
    char caution[LS_CHART_TEXT];    /* foot */
    char provenance[LS_CHART_TEXT]; /* foot: version, input and its hash */
    int slide;                      /* 16:9, large type, at most LS_CHART_SLIDE_CURVES labelled curves */
    int panels;                     /* 1 or 2; the second stands lower and is half as high */
    int bars_overlaid;
    ls_chart_axis x;
    ls_chart_axis y[LS_CHART_PANELS];
    ls_chart_curve curve[LS_CHART_CURVES_MAX];
    ls_chart_region region[LS_CHART_REGIONS];
    ls_chart_reference reference[LS_CHART_REFERENCES];
    ls_chart_mark mark[LS_CHART_MARKS];
    char row[LS_CHART_ROWS][LS_CHART_LABEL];
    char group[LS_CHART_GROUPS][LS_CHART_LABEL];
    ls_chart_bar bar[LS_CHART_BARS_MAX];
    ls_chart_shape shape[LS_CHART_SHAPES];
    int curves, regions, references, marks, rows, groups, bars, shapes; /* how many of each are filled */
    ls_chart_map map;
    ls_chart_point *point; /* of all paths; owned by the chart */
    int points, capacity;
    ls_chart_path
        *open;      /* the path that the next point joins; inside this record, so do not copy it while adding */
    ls_error error; /* the first failure of an adding function */
} ls_chart;

/* Empties a record (what it held before is not freed) and gives it its kind and name; one panel.
 * Given: name, of the files to be written: a-z, 0-9 and - only. */
LS_API void ls_chart_start(ls_chart *chart, ls_chart_kind kind, const char *name);

/* Frees what the chart owns; may be called twice, and on a zero-initialised record. */
LS_API void ls_chart_free(ls_chart *chart);

/* Opens a curve; the points added next are its own.
 * Given: panel 0 or 1; label, "" or null for none. */
LS_API void ls_chart_add_curve(ls_chart *chart, ls_curve_role role, int panel, const char *label);

/* Opens a region; the points added next are its boundary. */
LS_API void ls_chart_add_region(ls_chart *chart, ls_region_side side, int panel, const char *label);

/* Opens a shape; the points added next are its own. */
LS_API void ls_chart_add_shape(ls_chart *chart, ls_shape_kind kind, ls_chart_ink ink, const char *label,
                               ls_chart_side side);

/* Adds a point to what was opened last; one that is not finite leaves a gap. */
LS_API void ls_chart_add_point(ls_chart *chart, double x, double y);

/* Adds a circle with its label. Given: radius > 0 in units of the x axis. */
LS_API void ls_chart_add_circle(ls_chart *chart, ls_chart_ink ink, double x, double y, double radius,
                                const char *label, ls_chart_side side);

/* Adds an arrow from a point to another, with a label at its head. */
LS_API void ls_chart_add_arrow(ls_chart *chart, ls_chart_ink ink, double x0, double y0, double x1, double y1,
                               const char *label, ls_chart_side side);

/* Adds a text at a point. */
LS_API void ls_chart_add_text(ls_chart *chart, double x, double y, const char *label, ls_chart_side side);

/* Adds a line across every panel at x, or across one panel at y; one that is not finite is left out. */
LS_API void ls_chart_add_vertical(ls_chart *chart, double x, const char *label);
LS_API void ls_chart_add_horizontal(ls_chart *chart, int panel, double y, const char *label);

/* Marks a point with a symbol and a text; one that is not finite is left out. */
LS_API void ls_chart_add_mark(ls_chart *chart, int panel, double x, double y, const char *label);

/* Adds a row of bars, from the top down. Returned: its number for ls_chart_add_bar, -1 on failure. */
LS_API int ls_chart_add_row(ls_chart *chart, const char *label);

/* Names the next group of bars ("left engine failed"). Returned: its number for ls_chart_add_bar, -1 on failure.
 */
LS_API int ls_chart_add_group(ls_chart *chart, const char *label);

/* Adds a bar; one that is not finite is left out and says so in the chart. Given: text at its end, "" for none. */
LS_API void ls_chart_add_bar(ls_chart *chart, int row, int group, double from, double to, const char *text);

/* Makes room for a map's grid: map.x and map.y zero, map.z not a number, to be filled by the caller.
 * Given: nx, ny at least 2, nx * ny at most LS_CHART_POINTS.
 * Returned: whether the arrays are there. */
LS_API int ls_chart_size_map(ls_chart *chart, int nx, int ny);

/* Writes the chart as a gnuplot script that holds its own data: `gnuplot NAME.gp` gives NAME.svg and NAME.png in
 * the current folder.
 * Given: out, open for writing; the caller looks for a write error when closing it.
 * Status: LS_OK; the kept failure of an adding function; LS_USAGE for a chart that cannot be drawn (its name has
 * another character, a slide with too many curves, a grid that is not increasing); LS_MEMORY.
 * Notes: text is data: it comes only in single-quoted strings at the script's head, control characters replaced.
 */
LS_API ls_status ls_chart_write(const ls_chart *chart, FILE *out, ls_error *error);

/* Writes the script to FOLDER/NAME.gp; a failure leaves the old file. Status: as ls_chart_write, and LS_IO. */
LS_API ls_status ls_chart_save(const ls_chart *chart, const char *folder, ls_error *error);

/* Makes sure that a folder for charts is there and can be written to, making it (one level) if it is missing.
 * Status: LS_OK; LS_IO (its parent is missing, it is a file, no permission). */
LS_API ls_status ls_chart_folder(const char *folder, ls_error *error);

#endif
