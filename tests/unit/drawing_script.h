/* What a drawing's script draws, read back from its text: arrows with both ends, circles, bars and texts. */
#ifndef LIVESIDE_TESTS_DRAWING_SCRIPT_H
#define LIVESIDE_TESTS_DRAWING_SCRIPT_H

#include "check.h"

#include "liveside/chart.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SCRIPT_ITEMS = 128, SCRIPT_WORDS = 8192 };

typedef struct {
    double x0, y0, x1, y1;
} script_arrow;

typedef struct {
    script_arrow arrow[SCRIPT_ITEMS];
    double circle_x[SCRIPT_ITEMS], circle_y[SCRIPT_ITEMS], circle_r[SCRIPT_ITEMS];
    double bar_from[SCRIPT_ITEMS], bar_to[SCRIPT_ITEMS];
    int arrows, circles, bars;
    char words[SCRIPT_WORDS]; /* all texts, a bar after each */
} script;

/* The points of a data block, from after its head to END. Returned: how many; text moved past it. */
static inline int script_points(char **text, double x[], double y[], int most)
{
    int count = 0;
    char *line = *text;
    while (strncmp(line, "END", 3) != 0) {
        char *end = line;
        double first = *line != '\n' ? strtod(line, &end) : NAN; /* a blank line parts runs */
        if (end != line) {
            assert_true(count < most);
            x[count] = first;
            y[count++] = strtod(end, NULL);
        }
        line = strchr(line, '\n') + 1;
    }
    *text = line;
    return count;
}

/* An arrow is a shaft, whose first point is its tail, then a head, whose first point is its tip. */
static inline void script_block(script *to, const char *name, const double *x, const double *y, int points)
{
    if (strncmp(name, "$shaft_", 7) == 0) {
        to->arrow[to->arrows] = (script_arrow){x[0], y[0], NAN, NAN};
    } else if (strncmp(name, "$head_", 6) == 0) {
        to->arrow[to->arrows].x1 = x[0];
        to->arrow[to->arrows++].y1 = y[0];
    } else if (strncmp(name, "$circle_", 8) == 0) {
        double low = INFINITY, high = -INFINITY, bottom = INFINITY, top = -INFINITY;
        for (int i = 0; i < points; i++) {
            low = fmin(low, x[i]);
            high = fmax(high, x[i]);
            bottom = fmin(bottom, y[i]);
            top = fmax(top, y[i]);
        }
        to->circle_x[to->circles] = 0.5 * (low + high);
        to->circle_y[to->circles] = 0.5 * (bottom + top);
        to->circle_r[to->circles++] = 0.5 * (high - low);
    } else if (strncmp(name, "$bars_", 6) == 0) {
        for (int i = 0; i + 4 < points; i += 5) { /* four corners, the first again */
            to->bar_from[to->bars] = x[i];
            to->bar_to[to->bars++] = x[i + 1];
        }
    }
    assert_true(to->arrows < SCRIPT_ITEMS && to->circles < SCRIPT_ITEMS && to->bars < SCRIPT_ITEMS);
}

/* Writes the chart's script and reads it back; frees the chart. */
static inline void script_read(ls_chart *chart, script *to)
{
    static double x[4096], y[4096];
    char *text = NULL;
    size_t size = 0;
    ls_error error = {0};
    FILE *stream = open_memstream(&text, &size);
    assert_non_null(stream);
    assert_int_equal(ls_chart_write(chart, stream, &error), LS_OK);
    assert_int_equal(fclose(stream), 0);
    memset(to, 0, sizeof *to);
    for (char *line = text; line != NULL && *line != '\0';) {
        char *name = line;
        if (strncmp(line, "text_", 5) == 0) {
            char *from = strchr(line, '\'') + 1;
            size_t length = strcspn(from, "\n") - 1, used = strlen(to->words);
            assert_true(used + length + 2 < sizeof to->words);
            snprintf(to->words + used, sizeof to->words - used, "%.*s|", (int)length, from);
        } else if (line[0] == '$') {
            line = strchr(line, '\n') + 1;
            int points = script_points(&line, x, y, 4096);
            script_block(to, name, x, y, points);
        }
        line = strchr(line, '\n');
        line = line != NULL ? line + 1 : NULL;
    }
    free(text);
    ls_chart_free(chart);
}

static inline double arrow_length(const script_arrow *arrow)
{
    return hypot(arrow->x1 - arrow->x0, arrow->y1 - arrow->y0);
}

/* The arrow whose tail is nearest to a place and that points most nearly in a direction. */
static inline const script_arrow *arrow_near(const script *from, double x, double y, double dx, double dy)
{
    const script_arrow *best = NULL;
    double least = INFINITY;
    for (int i = 0; i < from->arrows; i++) {
        const script_arrow *at = &from->arrow[i];
        double along = ((at->x1 - at->x0) * dx + (at->y1 - at->y0) * dy) / (arrow_length(at) * hypot(dx, dy));
        double off = hypot(at->x0 - x, at->y0 - y) + 10.0 * (1.0 - along);
        if (off < least) {
            least = off;
            best = at;
        }
    }
    assert_non_null(best);
    return best;
}

static inline void assert_words(const script *in, const char *words)
{
    if (strstr(in->words, words) == NULL) {
        print_error("no '%s' in: %s\n", words, in->words);
        fail();
    }
}

#endif
