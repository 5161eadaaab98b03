#include "cli/page.h"

#include "cli/progress.h"
#include "liveside/render.h"
#include "report/figure.h"
#include "report/html.h"

#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { FILE_MOST = 64 << 20, NAME = 96 };

#define FIGURES "figures.html"

ls_status cli_page_folder(cli_page *page, ls_error *error)
{
    const char *base = getenv("TMPDIR");
    base = base != NULL && base[0] == '/' ? base : "/tmp";
    int length = snprintf(page->folder, sizeof page->folder, "%s/liveside-XXXXXX", base);
    if (length >= (int)sizeof page->folder || mkdtemp(page->folder) == NULL) {
        page->folder[0] = '\0';
        return ls_fail(error, LS_IO, "no folder to draw in can be made in %.200s: %s", base, strerror(errno));
    }
    return LS_OK;
}

/* Only what this program, gnuplot or a converter left there; one level of folders is enough for the first two. */
static void remove_all(const char *folder, int depth)
{
    DIR *listing = opendir(folder);
    const struct dirent *entry;
    while (listing != NULL && depth > 0 && (entry = readdir(listing)) != NULL) {
        char path[LS_PATH_TEXT];
        int length = snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        int is_own = strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0;
        if (is_own && length < (int)sizeof path && unlink(path) != 0) {
            remove_all(path, depth - 1);
        }
    }
    if (listing != NULL) {
        closedir(listing);
    }
    rmdir(folder);
}

void cli_page_remove_folder(const cli_page *page)
{
    if (page->folder[0] != '\0') {
        remove_all(page->folder, 12);
    }
}

static ls_status path_of(const cli_page *page, const char *name, char path[LS_PATH_TEXT], ls_error *error)
{
    int length = snprintf(path, LS_PATH_TEXT, "%s/%s", page->folder, name);
    return length < LS_PATH_TEXT ? LS_OK : ls_fail(error, LS_IO, "the path of the folder to draw in is too long");
}

static ls_status failed(int failure, ls_error *error)
{
    return ls_fail(error, failure == ENOMEM ? LS_MEMORY : LS_IO, "the page cannot be put together: %s",
                   strerror(failure));
}

ls_status cli_page_create(const cli_page *page, const char *name, FILE **stream, ls_error *error)
{
    char path[LS_PATH_TEXT];
    ls_status status = path_of(page, name, path, error);
    *stream = status == LS_OK ? fopen(path, "w") : NULL;
    return status == LS_OK && *stream == NULL ? failed(errno, error) : status;
}

ls_status cli_page_finish(FILE *stream, ls_error *error)
{
    int had_failed = ferror(stream), closed = fclose(stream) == 0;
    return !closed || had_failed ? failed(closed ? EIO : errno, error) : LS_OK;
}

ls_status cli_page_read(const cli_page *page, const char *name, ls_buffer *buffer, ls_error *error)
{
    char path[LS_PATH_TEXT];
    ls_status status = path_of(page, name, path, error);
    return status == LS_OK ? ls_file_read(path, FILE_MOST, buffer, error) : status;
}

ls_status cli_page_open(cli_page *page, ls_error *error)
{
    return cli_page_create(page, FIGURES, &page->figure_stream, error);
}

void cli_page_close(cli_page *page)
{
    if (page->figure_stream != NULL) {
        fclose(page->figure_stream);
        page->figure_stream = NULL;
    }
}

static int is_wanted(const cli_page *page, const char *name)
{
    char word[NAME];
    snprintf(word, sizeof word, " %s ", name);
    return page->charts == NULL || strstr(page->charts, word) != NULL;
}

/* Draws, unless there is no gnuplot. Returned: svg, to be freed; empty where nothing was drawn. */
static ls_status draw(cli_page *page, const ls_chart *chart, ls_buffer *svg, ls_error *error)
{
    char name[NAME];
    cli_progress progress;
    ls_render_outcome outcome = LS_RENDER_FAILED;
    ls_render_job job = {.folder = page->folder,
                         .name = chart->name,
                         .formats = LS_RENDER_SVG,
                         .search_path = getenv("PATH"),
                         .home = getenv("HOME"),
                         .stop = cli_interrupt_flag()};
    ls_status status = ls_chart_save(chart, page->folder, error);
    if (status != LS_OK || page->has_no_gnuplot) {
        return status;
    }
    cli_progress_begin(&progress, "drawing"); /* so that an interrupt ends gnuplot first */
    status = ls_render(&job, &outcome, error);
    cli_progress_end(&progress);
    if (outcome == LS_RENDER_NO_GNUPLOT) {
        page->has_no_gnuplot = 1;
        fprintf(stderr, "liveside: gnuplot is not installed: words and numbers stand where the charts would.\n");
    }
    if (status != LS_OK || outcome != LS_RENDER_DRAWN) {
        return status;
    }
    snprintf(name, sizeof name, "%s.svg", chart->name);
    return cli_page_read(page, name, svg, error);
}

ls_status cli_page_draw(cli_page *page, const ls_chart *chart, const char *shows, ls_error *error)
{
    ls_buffer svg = {0};
    if (!is_wanted(page, chart->name) && chart->error.status == LS_OK) {
        return LS_OK;
    }
    ls_status status = draw(page, chart, &svg, error);
    if (status == LS_OK) {
        ls_figure figure = {.number = ++page->figures, .chart = chart, .shows = shows, .svg = svg.data};
        status = ls_figure_write(&figure, page->figure_stream, error);
    }
    ls_file_free(&svg);
    return status;
}

ls_status cli_page_take(cli_page *page, const ls_report *report, ls_unit_system units, ls_error *error)
{
    ls_buffer figures = {0};
    FILE *stream = page->figure_stream;
    page->figure_stream = NULL;
    ls_status status = cli_page_finish(stream, error);
    status = status == LS_OK ? cli_page_read(page, FIGURES, &figures, error) : status;
    if (status == LS_OK) {
        ls_html_options options = {.units = units, .figures = figures.data, .left_out = page->tables_left_out};
        status = ls_report_write_html(report, &options, page->stream, error);
    }
    ls_file_free(&figures);
    return status;
}
