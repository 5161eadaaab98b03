/* Reports and texts as HTML: for a page. */
#ifndef LIVESIDE_REPORT_HTML_H
#define LIVESIDE_REPORT_HTML_H

#include "report/report.h"

#include <stdio.h>

/* Prints a text with every character that HTML could take for its own escaped, and controls as '?'. */
void ls_html_text(FILE *stream, const char *text);

/* What goes into a part of a page besides its report. */
typedef struct {
    ls_unit_system units;
    const char *figures;  /* ready HTML that stands before the first table; or null */
    const char *left_out; /* keys of tables that are left out, " one two "; or null */
} ls_html_options;

/* Writes a report as paragraphs, lists and tables; what is only for data, and hints, are left out.
 * Status: LS_OK; LS_MEMORY. */
ls_status ls_report_write_html(const ls_report *report, const ls_html_options *options, FILE *stream,
                               ls_error *error);

#endif
