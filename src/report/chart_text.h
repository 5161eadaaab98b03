/* How wide a text is and where it breaks, for a chart that must place it before it is drawn. */
#ifndef LIVESIDE_REPORT_CHART_TEXT_H
#define LIVESIDE_REPORT_CHART_TEXT_H

#include "liveside/chart.h"

/* Copies a text, cut at a character if it does not fit. Given: size >= 1. */
void ls_chart_text_copy(char *out, size_t size, const char *text);

/* The width of a text in units of its font's size, a little on the wide side (measured on DejaVu Sans, the
 * widest of the usual sans-serif fonts). */
double ls_chart_text_width(const char *text);

/* Breaks a text at spaces into lines of at most width_em.
 * Returned: line, filled; what does not fit the last one ends in an ellipsis. The number of lines, 0 for "". */
int ls_chart_text_wrap(const char *text, double width_em, int most, char line[][LS_CHART_TEXT]);

/* The text with '?' for each character outside those that nearly every sans-serif font holds: Latin, Greek and
 * Cyrillic letters, the usual punctuation, arrows and signs.
 * Returned: whether any was replaced. */
int ls_chart_text_common(const char *text, char out[LS_CHART_TEXT]);

#endif
