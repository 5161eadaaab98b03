/* The chart of curves over an axis, in one panel or two. */
#include "report/chart_parts.h"

#include <math.h>
#include <stdlib.h>

/* The frames' heights; with two panels the lower one is half as high. */
static void stack_frames(ls_page *page, const ls_chart *chart)
{
    double em = page->em;
    double bottom = page->footer + 3.7 * em;
    double top = page->header - 2.2 * em;
    page->frames = chart->panels;
    page->frame[0].top = top;
    page->frame[page->frames - 1].bottom = bottom;
    if (page->frames == 2) {
        double gap = 2.6 * em;
        double lower = (top - bottom - gap) / 3.0;
        page->frame[1].top = bottom + lower;
        page->frame[0].bottom = bottom + lower + gap;
    }
}

/* Scales and widths. Given: column, the room for a key at the right, 0 for none. */
static void set_frames(ls_page *page, const ls_chart *chart, double column)
{
    double em = page->em;
    double left = 3.0 * em;
    ls_part_range all = ls_part_range_none();
    stack_frames(page, chart);
    for (int i = 0; i < page->frames; i++) {
        ls_page_frame *frame = &page->frame[i];
        ls_part_range range = ls_part_range_of(chart, i);
        ls_part_range_add(&all, range.x_low, NAN);
        ls_part_range_add(&all, range.x_high, NAN);
        double ticks = fmax(2.0, (frame->top - frame->bottom) / (4.6 * em));
        frame->y = ls_scale_choose(&chart->y[i], range.y_low, range.y_high, ticks, 0);
        left = fmax(left, 1.2 * em + ls_page_tick_room(page, &frame->y));
    }
    for (int i = 0; i < page->frames; i++) {
        ls_page_frame *frame = &page->frame[i];
        frame->left = left;
        frame->right = page->width - 2.4 * em - column;
        frame->x = ls_scale_choose(&chart->x, all.x_low, all.x_high, (frame->right - left) / (6.0 * em), 1);
        frame->x_numbers = i + 1 == page->frames;
        frame->y_numbers = 1;
    }
}

static void say_if_empty(ls_page *page, const ls_chart *chart)
{
    for (int i = 0; i < page->frames; i++) {
        const ls_page_frame *frame = &page->frame[i];
        ls_part_range range = ls_part_range_of(chart, i);
        if (!(range.y_low <= range.y_high)) {
            ls_page_add_text(page, 0.5 * (frame->left + frame->right), 0.5 * (frame->bottom + frame->top), 1.0,
                             LS_ALIGN_CENTRE, LS_RGB_QUIET, "no answer in this range");
        }
    }
}

/* How the curves are labelled, in the order of trying. */
typedef enum { LABEL_LEVEL, LABEL_TURNED, LABEL_KEY } labelling;

/* Returned: whether every curve's label found a good place. */
static int lay_out(ls_page *page, const ls_chart *chart, labelling how, ls_place *place)
{
    place->boxes = place->segments = 0;
    set_frames(page, chart, how == LABEL_KEY ? ls_part_key_width(page, chart) : 0.0);
    ls_page_add_axis_labels(page, chart);
    say_if_empty(page, chart);
    ls_part_regions(page, chart, place);
    ls_part_references(page, chart, place);
    ls_part_curves(page, chart, place);
    ls_part_shapes(page, chart, place);
    ls_part_marks(page, chart, place);
    ls_part_label_marks(page, chart, place);
    ls_part_label_shapes(page, chart, place);
    ls_part_label_references(page, chart, place);
    int good = 1;
    if (how == LABEL_KEY) {
        ls_part_key(page, chart);
    } else {
        good = ls_part_label_curves(page, chart, place, how == LABEL_TURNED);
    }
    ls_part_label_regions(page, chart, place);
    return good;
}

void ls_page_curves(ls_page *page, const ls_chart *chart)
{
    ls_place *place = calloc(1, sizeof *place);
    if (place == NULL) {
        page->failed = 1;
    } else {
        labelling how = LABEL_LEVEL;
        while (!lay_out(page, chart, how, place) && how < LABEL_KEY) {
            ls_page_start(page, chart);
            how++;
        }
    }
    free(place);
}
