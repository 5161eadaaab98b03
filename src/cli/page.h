/* The page that commands write their part into, instead of standard output and the folder of --plot. */
#ifndef LIVESIDE_CLI_PAGE_H
#define LIVESIDE_CLI_PAGE_H

#include "cli/input.h"
#include "liveside/chart.h"
#include "report/report.h"

typedef struct cli_page {
    FILE *stream;                /* where the page goes */
    const cli_input *input;      /* the aeroplane, read once for all commands */
    char folder[LS_PATH_TEXT];   /* where charts are drawn, and lost afterwards */
    const char *charts;          /* names of those that are shown, " one two "; null: all */
    const char *tables_left_out; /* keys; null: none */
    FILE *figure_stream;         /* the part's figures, until its report is written */
    int figures;                 /* of the page so far */
    int has_no_gnuplot;
} cli_page;

/* Opens a file of the folder for writing, and closes it. (Not in memory: a stream there forgets a failed write.)
 * Returned: stream. Status: LS_OK; LS_MEMORY; LS_IO. */
ls_status cli_page_create(const cli_page *page, const char *name, FILE **stream, ls_error *error);
ls_status cli_page_finish(FILE *stream, ls_error *error);

/* Opens a part's figures; closes them if they still are open. Status: LS_OK; LS_MEMORY; LS_IO. */
ls_status cli_page_open(cli_page *page, ls_error *error);
void cli_page_close(cli_page *page);

/* Reads a file of the folder. Returned: buffer, to be freed. Status: as of ls_file_read. */
ls_status cli_page_read(const cli_page *page, const char *name, ls_buffer *buffer, ls_error *error);

/* Draws a chart into the part that is being made. Status: as of ls_chart_save and ls_render. */
ls_status cli_page_draw(cli_page *page, const ls_chart *chart, const char *shows, ls_error *error);

/* Writes a report with the figures drawn so far. Status: LS_OK; LS_MEMORY; LS_IO. */
ls_status cli_page_take(cli_page *page, const ls_report *report, ls_unit_system units, ls_error *error);

/* Makes a folder for drawing; removes it with all that is in it. Status: LS_OK; LS_IO. */
ls_status cli_page_folder(cli_page *page, ls_error *error);
void cli_page_remove_folder(const cli_page *page);

#endif
