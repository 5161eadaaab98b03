#include "report/chart_words.h"

#include "liveside/text.h"

#include <math.h>
#include <stdarg.h>
#include <string.h>

typedef struct {
    char *text;
    size_t used;
} words;

static void add(words *to, const char *format, ...) LS_PRINTF(2, 3);

static void add(words *to, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    int length = vsnprintf(to->text + to->used, LS_CHART_WORDS - to->used, format, arguments);
    va_end(arguments);
    if (length > 0) {
        to->used += (size_t)length;
        to->used = to->used < LS_CHART_WORDS ? to->used : LS_CHART_WORDS - 1;
        ls_text_trim_utf8(to->text);
    }
}

/* As many digits as a reader of the axis could tell apart. */
static void add_number(words *to, double value)
{
    add(to, "%.*f", fabs(value) < 9.995 ? 2 : fabs(value) < 999.5 ? 1 : 0, value + 0.0);
}

static void add_axis(words *to, const ls_chart_axis *axis)
{
    add(to, "%s%s%s", axis->label, axis->unit[0] != '\0' ? ", " : "", axis->unit);
}

/* Ends, least and greatest of a curve's finite points. Returned: whether there are two. */
static int find_ends(const ls_chart *chart, ls_chart_path path, const ls_chart_point *end[4])
{
    int found = 0;
    for (int i = 0; i < path.count; i++) {
        const ls_chart_point *at = &chart->point[path.first + i];
        if (!isfinite(at->x) || !isfinite(at->y)) {
            continue;
        }
        end[0] = found == 0 ? at : end[0];
        end[1] = at;
        end[2] = found == 0 || at->y < end[2]->y ? at : end[2];
        end[3] = found == 0 || at->y > end[3]->y ? at : end[3];
        found++;
    }
    return found >= 2;
}

static void add_point(words *to, const char *before, const ls_chart_point *at)
{
    add(to, "%s", before);
    add_number(to, at->y);
    add(to, " at ");
    add_number(to, at->x);
}

/* "LABEL: from 81.4 at 0 to 70.2 at 10, least 69.9 at 9." */
static void add_path(words *to, const ls_chart *chart, const char *label, ls_chart_path path)
{
    const ls_chart_point *end[4];
    if (!find_ends(chart, path, end)) {
        return;
    }
    add(to, " %s: ", label);
    add_point(to, "from ", end[0]);
    add_point(to, " to ", end[1]);
    if (end[2]->y < fmin(end[0]->y, end[1]->y)) {
        add_point(to, ", least ", end[2]);
    }
    if (end[3]->y > fmax(end[0]->y, end[1]->y)) {
        add_point(to, ", most ", end[3]);
    }
    add(to, ".");
}

static void add_curve(words *to, const ls_chart *chart, const ls_chart_curve *curve)
{
    if (curve->label[0] != '\0' || curve->role == LS_CURVE_MAIN) {
        add_path(to, chart, curve->label[0] != '\0' ? curve->label : "The curve", curve->path);
    }
}

static void add_curves(words *to, const ls_chart *chart)
{
    for (int panel = 0; panel < chart->panels; panel++) {
        add(to, " ");
        add_axis(to, &chart->y[panel]);
        add(to, ", against ");
        add_axis(to, &chart->x);
        add(to, ".");
        for (int i = 0; i < chart->curves; i++) {
            if (chart->curve[i].panel == panel) {
                add_curve(to, chart, &chart->curve[i]);
            }
        }
    }
    for (int i = 0; i < chart->regions; i++) {
        if (chart->region[i].label[0] != '\0') {
            add_path(to, chart, chart->region[i].label, chart->region[i].path);
        }
    }
    for (int i = 0; i < chart->marks; i++) {
        add(to, " Marked: %s.", chart->mark[i].label);
    }
    for (int i = 0; i < chart->references; i++) {
        add(to, chart->reference[i].label[0] != '\0' ? " Line: %s." : "%s", chart->reference[i].label);
    }
}

static void add_bars(words *to, const ls_chart *chart)
{
    add(to, " ");
    add_axis(to, &chart->x);
    add(to, ".");
    for (int i = 0; i < chart->bars; i++) {
        const ls_chart_bar *bar = &chart->bar[i];
        int is_new = i == 0 || chart->bar[i - 1].row != bar->row;
        add(to, is_new ? "%s %s: " : "%s%s", is_new && i > 0 ? ";" : "", is_new ? chart->row[bar->row] : ", ");
        add(to, "%s%s", chart->groups > 1 ? chart->group[bar->group] : "", chart->groups > 1 ? " " : "");
        if (bar->text[0] != '\0') {
            add(to, "%s", bar->text);
        } else {
            add_number(to, bar->to - bar->from);
        }
    }
    add(to, chart->bars > 0 ? "." : " All are 0.");
}

static void add_map(words *to, const ls_chart *chart)
{
    double low = INFINITY, high = -INFINITY;
    for (int i = 0; i < chart->map.nx * chart->map.ny; i++) {
        low = isfinite(chart->map.z[i]) ? fmin(low, chart->map.z[i]) : low;
        high = isfinite(chart->map.z[i]) ? fmax(high, chart->map.z[i]) : high;
    }
    add(to, " %s, %s, from ", chart->map.label, chart->map.unit);
    add_number(to, low);
    add(to, " to ");
    add_number(to, high);
    add(to, ".");
}

const char *ls_chart_describe(const ls_chart *chart, char out[LS_CHART_WORDS])
{
    words to = {out, 0};
    out[0] = '\0';
    add(&to, "%s.", chart->title);
    switch (chart->kind) {
    case LS_CHART_CURVES:
        add_curves(&to, chart);
        break;
    case LS_CHART_BARS:
        add_bars(&to, chart);
        break;
    case LS_CHART_MAP:
        add_map(&to, chart);
        break;
    case LS_CHART_DRAWING:
    case LS_CHART_KINDS:
        break;
    }
    for (int i = 0; i < chart->shapes; i++) {
        add(&to, chart->shape[i].label[0] != '\0' ? " %s." : "%s", chart->shape[i].label);
    }
    return out;
}
