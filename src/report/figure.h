/* A drawn chart inside a page. */
#ifndef LIVESIDE_REPORT_FIGURE_H
#define LIVESIDE_REPORT_FIGURE_H

#include "liveside/chart.h"

typedef struct {
    int number;            /* in the page, from 1 */
    const ls_chart *chart; /* what was drawn: its words are for those who do not see it */
    const char *shows;     /* one sentence without its full stop */
    const char *svg;       /* the drawn file; or null: the words take its place */
} ls_figure;

/* Writes a figure. Notes: the drawing loses what stands before its root, and its size and titles, and gets names
 * of its own for the parts that it refers to, so that many can share a page. Status: LS_OK; LS_IO for a file that
 * is not such a drawing. */
ls_status ls_figure_write(const ls_figure *figure, FILE *stream, ls_error *error);

#endif
