/* The common style of every chart, as gnuplot commands; plots/style.gnuplot holds the same text for charts of
 * one's own. */
#ifndef LIVESIDE_REPORT_GNUPLOT_STYLE_H
#define LIVESIDE_REPORT_GNUPLOT_STYLE_H

extern const char *const ls_gnuplot_style[]; /* lines; null at the end */

#endif
