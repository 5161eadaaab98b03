#include "cli/plot.h"

#include "cli/progress.h"
#include "liveside/render.h"

#include <stdio.h>
#include <stdlib.h>

ls_status cli_plot_start(const cli_run *run, const cli_input *input, const char *condition, ls_report *report,
                         cli_plot *plot, ls_error *error)
{
    *plot = (cli_plot){.run = run, .input = input, .condition = condition, .report = report};
    plot->folder = cli_text(run->options, CLI_PLOT);
    if (plot->folder == NULL && cli_given(run->options, CLI_SLIDE)) {
        return ls_fail(error, LS_USAGE, "--slide goes with --plot");
    }
    return plot->folder != NULL ? ls_chart_folder(plot->folder, error) : LS_OK;
}

static void set_texts(const cli_plot *plot, ls_chart *chart)
{
    snprintf(chart->subtitle, sizeof chart->subtitle, "%.*s", (int)sizeof chart->subtitle - 1, plot->condition);
    snprintf(chart->caution, sizeof chart->caution, "%s", LS_CAUTION);
    snprintf(chart->provenance, sizeof chart->provenance, "liveside %s, %.100s, SHA-256 %.12s", LS_VERSION,
             plot->input->path, plot->input->sha256);
}

static ls_status draw(cli_plot *plot, const char *name, ls_error *error)
{
    ls_render_outcome outcome = LS_RENDER_FAILED;
    ls_render_job job = {.folder = plot->folder,
                         .name = name,
                         .formats = LS_RENDER_ALL,
                         .search_path = getenv("PATH"),
                         .home = getenv("HOME"),
                         .stop = cli_interrupt_flag()};
    if (cli_interrupted()) {
        return LS_OK; /* the scripts are enough of a partial result */
    }
    cli_progress progress;
    cli_progress_begin(&progress, "drawing"); /* so that an interrupt ends gnuplot first */
    ls_status status = ls_render(&job, &outcome, error);
    cli_progress_end(&progress);
    plot->drawn += outcome == LS_RENDER_DRAWN;
    if (outcome == LS_RENDER_NO_GNUPLOT && plot->written == 1) {
        fprintf(stderr, "liveside: gnuplot is not installed: the scripts are written, and no picture is drawn.\n");
    }
    return status;
}

ls_status cli_plot_add(cli_plot *plot, ls_chart *chart, const char *shows, ls_error *error)
{
    ls_status status = LS_OK;
    if (plot->folder != NULL) {
        set_texts(plot, chart);
        status = ls_chart_save(chart, plot->folder, error);
        plot->written += status == LS_OK;
        status = status == LS_OK ? draw(plot, chart->name, error) : status;
    }
    if (plot->folder != NULL && status == LS_OK) {
        if (plot->written == 1) {
            ls_report_line(plot->report, "%s", "");
            ls_report_line(plot->report, "Charts in %s (%s):", plot->folder,
                           plot->drawn > 0 ? ".gp scripts, .svg and .png" : ".gp scripts");
        }
        ls_report_line(plot->report, "  %s: %s.", chart->name, shows);
    }
    ls_chart_free(chart);
    return status;
}
