/* Charts into the folder of --plot. */
#ifndef LIVESIDE_CLI_PLOT_H
#define LIVESIDE_CLI_PLOT_H

#include "cli/input.h"
#include "cli/options.h"
#include "liveside/chart.h"
#include "report/report.h"

typedef struct {
    const cli_run *run;
    const cli_input *input;
    const char *folder; /* null without --plot: then nothing is done */
    const char *condition;
    ls_report *report; /* told what each chart shows */
    int drawn, written;
} cli_plot;

/* Makes the folder of --plot ready. Status: LS_OK; LS_IO. */
ls_status cli_plot_start(const cli_run *run, const cli_input *input, const char *condition, ls_report *report,
                         cli_plot *plot, ls_error *error);

/* Adds condition, caution and provenance to a chart, writes its script, draws it, says in the report what it
 * shows, and frees it. Given: shows, one sentence without its full stop. */
ls_status cli_plot_add(cli_plot *plot, ls_chart *chart, const char *shows, ls_error *error);

#endif
