/* The chart of horizontal bars in named rows. */
#include "report/chart_parts.h"
#include "report/chart_text.h"

#include <math.h>
#include <stdlib.h>

static const unsigned group_rgb[LS_CHART_GROUPS] = {0x24405f, 0xf4efe6, 0xa9b4bd, 0xd98b5f};
static const double text_size = 0.86;

static double row_height(const ls_page *page, const ls_chart *chart)
{
    return (page->frame[0].top - page->frame[0].bottom) / (chart->rows > 0 ? chart->rows : 1);
}

static double row_middle(const ls_page *page, const ls_chart *chart, int row)
{
    return page->frame[0].top - (row + 0.5) * row_height(page, chart);
}

static double text_room(const ls_page *page, const char *text)
{
    return *text != '\0' ? (ls_chart_text_width(text) * text_size + 1.0) * page->em : 0.6 * page->em;
}

/* The text at a bar's end; a hyphen that stands for a minus becomes one. */
static void bar_text(const ls_chart_bar *bar, char out[LS_CHART_TEXT])
{
    int drawn = isfinite(bar->from) && isfinite(bar->to);
    int minus = drawn && bar->text[0] == '-' && bar->text[1] >= '0' && bar->text[1] <= '9';
    snprintf(out, LS_CHART_TEXT, "%s%s", minus ? "\xE2\x88\x92" : "", drawn ? bar->text + minus : "no answer");
}

/* The range of the bars, widened so that the texts at their ends stay inside the frame. */
static void set_x(ls_page *page, const ls_chart *chart)
{
    ls_page_frame *frame = &page->frame[0];
    double low = INFINITY;
    double high = -INFINITY;
    double room_low = 0.6 * page->em;
    double room_high = room_low;
    for (int i = 0; i < chart->bars; i++) {
        const ls_chart_bar *bar = &chart->bar[i];
        if (isfinite(bar->from) && isfinite(bar->to)) {
            low = fmin(low, fmin(bar->from, bar->to));
            high = fmax(high, fmax(bar->from, bar->to));
            double *room = bar->to < bar->from ? &room_low : &room_high;
            *room = fmax(*room, text_room(page, bar->text));
        }
    }
    for (int i = 0; i < chart->references; i++) {
        low = fmin(low, chart->reference[i].at);
        high = fmax(high, chart->reference[i].at);
    }
    double width = frame->right - frame->left;
    double unit = (high - low) / fmax(width - room_low - room_high, 0.3 * width);
    frame->x =
        ls_scale_choose(&chart->x, low - room_low * unit, high + room_high * unit, width / (6.0 * page->em), 1);
}

static void add_rectangle(ls_page *page, double x0_px, double y0_px, double x1_px, double y1_px)
{
    const ls_page_frame *frame = &page->frame[0];
    const double corner[5][2] = {{x0_px, y0_px}, {x1_px, y0_px}, {x1_px, y1_px}, {x0_px, y1_px}, {x0_px, y0_px}};
    for (int i = 0; i < 5; i++) {
        ls_chart_point p = ls_page_axes(frame, corner[i][0], corner[i][1]);
        ls_page_add_point(page, p.x, p.y);
    }
    ls_page_break(page);
}

/* Whether two bars of a row go the same way, so that one would hide the other. */
static int row_clashes(const ls_chart *chart, int row)
{
    int leftward = 0;
    int rightward = 0;
    for (int i = 0; i < chart->bars; i++) {
        const ls_chart_bar *bar = &chart->bar[i];
        if (bar->row == row) {
            leftward += bar->to < bar->from;
            rightward += !(bar->to < bar->from);
        }
    }
    return leftward > 1 || rightward > 1;
}

/* The middle and the height of a bar in its row. */
static double bar_place(const ls_page *page, const ls_chart *chart, const ls_chart_bar *bar, double *height)
{
    int overlaid = chart->bars_overlaid && !row_clashes(chart, bar->row);
    int lanes = overlaid || chart->groups < 1 ? 1 : chart->groups;
    double lane = fmin(0.74 * row_height(page, chart) / lanes, 1.9 * page->em);
    *height = 0.86 * lane;
    int at = lanes > 1 ? bar->group : 0;
    return row_middle(page, chart, bar->row) + (0.5 * (lanes - 1) - at) * lane;
}

static void add_bar(ls_page *page, const ls_chart *chart, const ls_chart_bar *bar, ls_place *place)
{
    const ls_page_frame *frame = &page->frame[0];
    double height;
    double y = bar_place(page, chart, bar, &height);
    double to = fmin(fmax(bar->to, frame->x.low), frame->x.high);
    double from = fmin(fmax(bar->from, frame->x.low), frame->x.high);
    double x0 = ls_page_x(frame, from);
    double x1 = ls_page_x(frame, to);
    add_rectangle(page, x0, y - 0.5 * height, x1, y + 0.5 * height);
    ls_place_add_box(place, (ls_box){fmin(x0, x1), y - 0.5 * height, fmax(x0, x1), y + 0.5 * height, 0.0});
}

static void add_bar_text(ls_page *page, const ls_chart *chart, const ls_chart_bar *bar, ls_place *place)
{
    const ls_page_frame *frame = &page->frame[0];
    double height;
    double y = bar_place(page, chart, bar, &height);
    int leftward = bar->to < bar->from;
    double x = ls_page_x(frame, isfinite(bar->to) ? bar->to : fmax(frame->x.low, fmin(0.0, frame->x.high)));
    double gap = (leftward ? -0.4 : 0.4) * page->em;
    char text[LS_CHART_TEXT];
    bar_text(bar, text);
    ls_page_add_text(page, x + gap, y, text_size, leftward ? LS_ALIGN_RIGHT : LS_ALIGN_LEFT, LS_RGB_TEXT, text);
    double middle = x + (leftward ? -0.5 : 0.5) * text_room(page, text);
    ls_place_add_box(place, ls_box_at(middle, y, text_room(page, text), page->em));
}

static void add_bars(ls_page *page, const ls_chart *chart, ls_place *place)
{
    for (int group = 0; group < LS_CHART_GROUPS; group++) {
        ls_page_add_layer(page, LS_LAYER_FILL_OUTLINE, "bars", 0, LS_STYLE_BODY, group_rgb[group]);
        for (int i = 0; i < chart->bars; i++) {
            const ls_chart_bar *bar = &chart->bar[i];
            if (bar->group == group && isfinite(bar->from) && isfinite(bar->to)) {
                add_bar(page, chart, bar, place);
            }
        }
    }
    for (int i = 0; i < chart->bars; i++) {
        add_bar_text(page, chart, &chart->bar[i], place);
    }
}

static void add_row_labels(ls_page *page, const ls_chart *chart, double width)
{
    const ls_page_frame *frame = &page->frame[0];
    double height = row_height(page, chart);
    double size = height < 1.5 * page->em ? 0.8 : 1.0;
    for (int i = 0; i < chart->rows; i++) {
        ls_part_label label = ls_part_break(page, chart->row[i], size, width);
        double x = frame->left - 0.8 * page->em;
        ls_box box = ls_box_at(x - 0.5 * label.width, row_middle(page, chart, i), label.width, label.height);
        ls_part_put(page, &label, &box, x, LS_RGB_TEXT);
    }
}

static double row_label_width(const ls_page *page, const ls_chart *chart)
{
    double widest = 3.0 * page->em;
    for (int i = 0; i < chart->rows; i++) {
        widest = fmax(widest, ls_part_break(page, chart->row[i], 1.0, 0.29 * page->width).width);
    }
    return widest;
}

/* The groups' names, each after a sample of its bar, in one line above the frame. */
static void add_group_names(ls_page *page, const ls_chart *chart)
{
    ls_page_frame *frame = &page->frame[0];
    double em = page->em;
    double x = frame->left;
    double y = frame->top + 1.1 * em;
    double share = (frame->right - frame->left) / (chart->groups > 0 ? chart->groups : 1) - 4.0 * em;
    for (int i = 0; i < chart->groups; i++) {
        ls_part_label label = ls_part_break(page, chart->group[i], 1.0, fmax(share, 4.0 * em));
        label.lines = label.lines > 1 ? 1 : label.lines;
        ls_page_add_rectangle(page, x, y - 0.42 * em, x + 1.8 * em, y + 0.42 * em, group_rgb[i]);
        ls_page_add_text(page, x + 2.3 * em, y, 1.0, LS_ALIGN_LEFT, LS_RGB_TEXT, label.line[0]);
        x += label.width + 4.5 * em;
    }
}

static void add_zero(ls_page *page)
{
    const ls_page_frame *frame = &page->frame[0];
    if (frame->x.low < 0.0 && frame->x.high > 0.0) {
        ls_page_add_layer(page, LS_LAYER_LINES, "zero", 0, LS_STYLE_ZERO, 0);
        ls_page_add_point(page, 0.0, frame->y.low);
        ls_page_add_point(page, 0.0, frame->y.high);
    }
}

void ls_page_bars(ls_page *page, const ls_chart *chart)
{
    ls_place *place = calloc(1, sizeof *place);
    if (place == NULL) {
        page->failed = 1;
        return;
    }
    double width = row_label_width(page, chart);
    ls_page_frame *frame = &page->frame[0];
    page->y_grid = 0;
    frame->left = width + 2.2 * page->em;
    frame->right = page->width - 1.8 * page->em;
    frame->top = page->header - (chart->groups > 0 ? 2.4 : 0.8) * page->em;
    frame->bottom = page->footer + 3.7 * page->em;
    frame->x_numbers = 1;
    frame->y = (ls_scale){0.0, 1.0, 1.0, 0};
    set_x(page, chart);
    ls_page_add_axis_labels(page, chart);
    add_row_labels(page, chart, width);
    add_group_names(page, chart);
    add_bars(page, chart, place);
    add_zero(page);
    ls_part_references(page, chart, place);
    ls_part_label_references(page, chart, place);
    free(place);
}
