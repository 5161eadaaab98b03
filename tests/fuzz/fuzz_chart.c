/* Fuzzes the layout and the script of charts of every kind with texts and numbers of any content: no crash, and
 * every line of the script is a text in its quotes, a pair of numbers, or a command of our own. */
#include "liveside/chart.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

typedef struct {
    const uint8_t *data;
    size_t left;
} source;

static unsigned take(source *s)
{
    if (s->left == 0) {
        return 0;
    }
    s->left--;
    return *s->data++;
}

/* A number of any kind: small, raw bits, not finite. */
static double take_number(source *s)
{
    unsigned kind = take(s);
    if (kind < 200) {
        return (double)kind - 100.0 + take(s) / 256.0;
    }
    if (kind < 220 && s->left >= sizeof(double)) {
        double value;
        memcpy(&value, s->data, sizeof value);
        s->data += sizeof value;
        s->left -= sizeof value;
        return value;
    }
    return kind < 235 ? NAN : kind < 245 ? INFINITY : -INFINITY;
}

static void take_text(source *s, char *out, size_t size)
{
    size_t length = take(s) % size;
    size_t n = 0;
    while (n < length && s->left > 0) {
        char c = (char)take(s);
        out[n++] = c != '\0' ? c : ' ';
    }
    out[n] = '\0';
}

static void take_axis(source *s, ls_chart_axis *axis)
{
    take_text(s, axis->label, sizeof axis->label);
    take_text(s, axis->unit, sizeof axis->unit);
    if (take(s) % 4 == 0) {
        axis->low = take_number(s);
        axis->high = take_number(s);
        axis->step = take_number(s);
    }
    axis->with_zero = take(s) % 2 != 0;
}

static void take_points(source *s, ls_chart *chart)
{
    for (unsigned n = take(s) % 24; n > 0; n--) {
        double x = take_number(s);
        ls_chart_add_point(chart, x, take_number(s));
    }
}

static void take_map(source *s, ls_chart *chart)
{
    int nx = 2 + (int)(take(s) % 5);
    int ny = 2 + (int)(take(s) % 5);
    if (!ls_chart_size_map(chart, nx, ny)) {
        return;
    }
    for (int i = 1; i < nx; i++) {
        chart->map.x[i] = chart->map.x[i - 1] + 1.0 + take(s);
    }
    for (int j = 1; j < ny; j++) {
        chart->map.y[j] = chart->map.y[j - 1] + 1.0 + take(s);
    }
    for (int i = 0; i < nx * ny; i++) {
        chart->map.z[i] = take_number(s);
    }
    chart->map.step = take(s) % 4 == 0 ? take_number(s) : 0.0;
}

static void take_item(source *s, ls_chart *chart)
{
    char label[LS_CHART_LABEL];
    unsigned kind = take(s) % 8;
    int panel = (int)(take(s) % (unsigned)chart->panels);
    take_text(s, label, sizeof label);
    double x = take_number(s);
    double y = take_number(s);
    switch (kind) {
    case 0:
        ls_chart_add_curve(chart, (ls_curve_role)(take(s) % LS_CURVE_ROLES), panel, label);
        take_points(s, chart);
        break;
    case 1:
        ls_chart_add_region(chart, (ls_region_side)(take(s) % 5), panel, label);
        take_points(s, chart);
        break;
    case 2:
        ls_chart_add_vertical(chart, x, label);
        break;
    case 3:
        ls_chart_add_horizontal(chart, panel, y, label);
        break;
    case 4:
        ls_chart_add_mark(chart, panel, x, y, label);
        break;
    case 5:
        ls_chart_add_shape(chart, (ls_shape_kind)(take(s) % 5), (ls_chart_ink)(take(s) % LS_INKS), label,
                           (ls_chart_side)(take(s) % 6));
        take_points(s, chart);
        break;
    case 6:
        ls_chart_add_circle(chart, LS_INK_BODY, x, y, take_number(s), label, LS_SIDE_AUTO);
        break;
    default:
        ls_chart_add_bar(chart, ls_chart_add_row(chart, label), 0, x, y, label);
        break;
    }
}

static void require(int holds)
{
    if (!holds) {
        abort();
    }
}

/* A text in the script: pieces in single quotes without an inner one, joined by an apostrophe of our own. */
static int is_text(const char *s)
{
    int pieces = 0;
    do {
        const char *end = *s == '\'' ? strchr(s + 1, '\'') : NULL;
        if (end == NULL) {
            return 0;
        }
        s = end + 1;
        pieces++;
        if (strncmp(s, ".\"'\".", 5) != 0) {
            return *s == '\0' && pieces > 0;
        }
        s += 5;
    } while (1);
}

static void check_line(const char *line)
{
    const char *equals = strstr(line, " = ");
    for (const char *c = line; *c != '\0'; c++) {
        require((unsigned char)*c >= 0x20 && *c != 0x7f);
    }
    if (strncmp(line, "text_", 5) == 0 || strncmp(line, "png_text_", 9) == 0) {
        require(equals != NULL && is_text(equals + 3));
    } else {
        require(strpbrk(line, "`\"") == NULL && line[0] != '!');
        require(strspn(line, "0123456789+-.e ") == strlen(line) || strstr(line, "nan") == NULL);
    }
}

static void check_script(char *script)
{
    for (char *line = script, *end; (end = strchr(line, '\n')) != NULL; line = end + 1) {
        *end = '\0';
        check_line(line);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static ls_chart chart;
    source s = {data, size};
    char *script = NULL;
    size_t length = 0;
    ls_error error = {0};
    ls_chart_start(&chart, (ls_chart_kind)(take(&s) % LS_CHART_KINDS), "fuzzed");
    chart.panels = 1 + (chart.kind == LS_CHART_CURVES && take(&s) % 3 == 0);
    chart.slide = take(&s) % 3 == 0;
    chart.bars_overlaid = take(&s) % 2 != 0;
    take_text(&s, chart.title, sizeof chart.title);
    take_text(&s, chart.subtitle, sizeof chart.subtitle);
    take_text(&s, chart.caution, sizeof chart.caution);
    take_axis(&s, &chart.x);
    take_axis(&s, &chart.y[0]);
    take_axis(&s, &chart.y[1]);
    if (chart.kind == LS_CHART_MAP) {
        take_map(&s, &chart);
    }
    while (s.left > 0) {
        take_item(&s, &chart);
    }
    FILE *stream = open_memstream(&script, &length);
    require(stream != NULL);
    ls_status status = ls_chart_write(&chart, stream, &error);
    require(fclose(stream) == 0);
    require((status == LS_OK) == (error.status == LS_OK));
    if (status == LS_OK) {
        check_script(script);
    }
    free(script);
    ls_chart_free(&chart);
    return 0;
}
