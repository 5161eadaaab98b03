#include "liveside/chart.h"
#include "liveside/file.h"
#include "report/chart_text.h"

#include <assert.h>
#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* A number that can be drawn, else not a number: the layout reckons with squares and differences. */
static double drawable(double v)
{
    return fabs(v) <= LS_CHART_LARGEST ? v : NAN;
}

static void copy_label(char out[LS_CHART_LABEL], const char *text)
{
    ls_chart_text_copy(out, LS_CHART_LABEL, text != NULL ? text : "");
}

/* Whether one more item can be added; the index of the new item is the count before. */
static int has_room(ls_chart *chart, int *count, int most, const char *what)
{
    if (chart->error.status != LS_OK) {
        return 0;
    }
    if (*count >= most) {
        ls_fail(&chart->error, LS_USAGE, "chart %s: more than %d %s", chart->name, most, what);
        return 0;
    }
    *count += 1;
    return 1;
}

static void open_path(ls_chart *chart, ls_chart_path *path)
{
    path->first = chart->points;
    path->count = 0;
    chart->open = path;
}

void ls_chart_start(ls_chart *chart, ls_chart_kind kind, const char *name)
{
    memset(chart, 0, sizeof *chart);
    chart->kind = kind;
    chart->panels = 1;
    ls_chart_text_copy(chart->name, sizeof chart->name, name);
    if (strlen(name) >= sizeof chart->name) {
        ls_fail(&chart->error, LS_USAGE, "a chart's file name has at most %d characters", LS_CHART_NAME - 1);
    }
}

void ls_chart_free(ls_chart *chart)
{
    free(chart->point);
    free(chart->map.x);
    chart->point = NULL;
    chart->open = NULL;
    chart->points = chart->capacity = 0;
    chart->map.x = chart->map.y = chart->map.z = NULL;
    chart->map.nx = chart->map.ny = 0;
}

void ls_chart_add_curve(ls_chart *chart, ls_curve_role role, int panel, const char *label)
{
    if (has_room(chart, &chart->curves, LS_CHART_CURVES_MAX, "curves")) {
        ls_chart_curve *curve = &chart->curve[chart->curves - 1];
        curve->role = role;
        curve->panel = panel;
        copy_label(curve->label, label);
        open_path(chart, &curve->path);
    }
}

void ls_chart_add_region(ls_chart *chart, ls_region_side side, int panel, const char *label)
{
    if (has_room(chart, &chart->regions, LS_CHART_REGIONS, "regions")) {
        ls_chart_region *region = &chart->region[chart->regions - 1];
        region->side = side;
        region->panel = panel;
        copy_label(region->label, label);
        open_path(chart, &region->path);
    }
}

void ls_chart_add_shape(ls_chart *chart, ls_shape_kind kind, ls_chart_ink ink, const char *label,
                        ls_chart_side side)
{
    if (has_room(chart, &chart->shapes, LS_CHART_SHAPES, "shapes")) {
        ls_chart_shape *shape = &chart->shape[chart->shapes - 1];
        shape->kind = kind;
        shape->ink = ink;
        shape->side = side;
        copy_label(shape->label, label);
        open_path(chart, &shape->path);
    }
}

static int grow(ls_chart *chart)
{
    int capacity = chart->capacity > 0 ? 2 * chart->capacity : 256;
    ls_chart_point *point = realloc(chart->point, (size_t)capacity * sizeof *point);
    if (point == NULL) {
        ls_fail(&chart->error, LS_MEMORY, "chart %s: no memory for %d points", chart->name, capacity);
        return 0;
    }
    chart->point = point;
    chart->capacity = capacity;
    return 1;
}

void ls_chart_add_point(ls_chart *chart, double x, double y)
{
    if (chart->error.status != LS_OK) {
        return;
    }
    assert(chart->open != NULL);
    if (chart->points >= LS_CHART_POINTS) {
        ls_fail(&chart->error, LS_USAGE, "chart %s: more than %d points", chart->name, LS_CHART_POINTS);
        return;
    }
    if (chart->points == chart->capacity && !grow(chart)) {
        return;
    }
    chart->point[chart->points] = (ls_chart_point){drawable(x), drawable(y)};
    chart->points += 1;
    chart->open->count += 1;
}

void ls_chart_add_circle(ls_chart *chart, ls_chart_ink ink, double x, double y, double radius, const char *label,
                         ls_chart_side side)
{
    ls_chart_add_shape(chart, LS_SHAPE_CIRCLE, ink, label, side);
    ls_chart_add_point(chart, x, y);
    if (chart->error.status == LS_OK) {
        chart->shape[chart->shapes - 1].radius = drawable(radius);
    }
}

void ls_chart_add_arrow(ls_chart *chart, ls_chart_ink ink, double x0, double y0, double x1, double y1,
                        const char *label, ls_chart_side side)
{
    ls_chart_add_shape(chart, LS_SHAPE_ARROW, ink, label, side);
    ls_chart_add_point(chart, x0, y0);
    ls_chart_add_point(chart, x1, y1);
}

void ls_chart_add_text(ls_chart *chart, double x, double y, const char *label, ls_chart_side side)
{
    ls_chart_add_shape(chart, LS_SHAPE_TEXT, LS_INK_FAINT, label, side);
    ls_chart_add_point(chart, x, y);
}

static void add_reference(ls_chart *chart, int vertical, int panel, double at, const char *label)
{
    if (isfinite(drawable(at)) && has_room(chart, &chart->references, LS_CHART_REFERENCES, "reference lines")) {
        ls_chart_reference *reference = &chart->reference[chart->references - 1];
        reference->vertical = vertical;
        reference->panel = panel;
        reference->at = at;
        copy_label(reference->label, label);
    }
}

void ls_chart_add_vertical(ls_chart *chart, double x, const char *label)
{
    add_reference(chart, 1, 0, x, label);
}

void ls_chart_add_horizontal(ls_chart *chart, int panel, double y, const char *label)
{
    add_reference(chart, 0, panel, y, label);
}

void ls_chart_add_mark(ls_chart *chart, int panel, double x, double y, const char *label)
{
    if (isfinite(drawable(x)) && isfinite(drawable(y)) &&
        has_room(chart, &chart->marks, LS_CHART_MARKS, "marks")) {
        ls_chart_mark *mark = &chart->mark[chart->marks - 1];
        mark->panel = panel;
        mark->x = x;
        mark->y = y;
        copy_label(mark->label, label);
    }
}

int ls_chart_add_row(ls_chart *chart, const char *label)
{
    if (!has_room(chart, &chart->rows, LS_CHART_ROWS, "rows")) {
        return -1;
    }
    copy_label(chart->row[chart->rows - 1], label);
    return chart->rows - 1;
}

int ls_chart_add_group(ls_chart *chart, const char *label)
{
    if (!has_room(chart, &chart->groups, LS_CHART_GROUPS, "groups of bars")) {
        return -1;
    }
    copy_label(chart->group[chart->groups - 1], label);
    return chart->groups - 1;
}

void ls_chart_add_bar(ls_chart *chart, int row, int group, double from, double to, const char *text)
{
    if (has_room(chart, &chart->bars, LS_CHART_BARS_MAX, "bars")) {
        ls_chart_bar *bar = &chart->bar[chart->bars - 1];
        bar->row = row;
        bar->group = group;
        bar->from = drawable(from);
        bar->to = drawable(to);
        copy_label(bar->text, text);
    }
}

int ls_chart_size_map(ls_chart *chart, int nx, int ny)
{
    if (chart->error.status != LS_OK) {
        return 0;
    }
    if (nx < 2 || ny < 2 || nx > LS_CHART_POINTS / ny) {
        ls_fail(&chart->error, LS_USAGE, "chart %s: a map of %d by %d values (2 by 2, to %d in all)", chart->name,
                nx, ny, LS_CHART_POINTS);
        return 0;
    }
    size_t values = (size_t)nx * (size_t)ny;
    double *room = calloc((size_t)nx + (size_t)ny + values, sizeof *room);
    if (room == NULL) {
        ls_fail(&chart->error, LS_MEMORY, "chart %s: no memory for a map of %d by %d", chart->name, nx, ny);
        return 0;
    }
    free(chart->map.x);
    chart->map.x = room;
    chart->map.y = room + nx;
    chart->map.z = room + nx + ny;
    chart->map.nx = nx;
    chart->map.ny = ny;
    for (size_t i = 0; i < values; i++) {
        chart->map.z[i] = NAN;
    }
    return 1;
}

/* Made first and looked at after: another program may make the same one meanwhile. */
ls_status ls_chart_folder(const char *folder, ls_error *error)
{
    struct stat info;
    if (mkdir(folder, 0777) == 0) {
        return LS_OK;
    }
    int why = errno;
    if (stat(folder, &info) != 0) {
        return ls_fail(error, LS_IO, "chart folder %s cannot be made: %s%s", folder, strerror(why),
                       why == ENOENT ? " (make the folder above it first)" : "");
    }
    if (!S_ISDIR(info.st_mode)) {
        return ls_fail(error, LS_IO, "chart folder %s: there is a file of that name", folder);
    }
    if (access(folder, W_OK | X_OK) != 0) {
        return ls_fail(error, LS_IO, "chart folder %s cannot be written to: %s", folder, strerror(errno));
    }
    return LS_OK;
}

ls_status ls_chart_save(const ls_chart *chart, const char *folder, ls_error *error)
{
    char path[LS_PATH_TEXT];
    int length = snprintf(path, sizeof path, "%s/%s.gp", folder, chart->name);
    if (length < 0 || (size_t)length >= sizeof path) {
        return ls_fail(error, LS_IO, "chart folder: a path of more than %d bytes", LS_PATH_TEXT);
    }
    ls_output output = {0};
    ls_status status = ls_output_open(&output, path, error);
    if (status != LS_OK) {
        return status;
    }
    status = ls_chart_write(chart, output.stream, error);
    if (status != LS_OK) {
        ls_output_abandon(&output);
        return status;
    }
    return ls_output_commit(&output, error);
}
