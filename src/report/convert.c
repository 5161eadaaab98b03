#include "report/convert.h"

#include "report/process.h"

#include <ctype.h>
#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

enum { WORDS_MAX = 16, ADDRESS = 3 * LS_PATH_TEXT };

typedef enum { BROWSER, IN_OUT } manner;

static const struct {
    const char *name;
    manner how;
} converters[] = {
    {"chromium", BROWSER},      {"chromium-browser", BROWSER},
    {"google-chrome", BROWSER}, {"google-chrome-stable", BROWSER},
    {"weasyprint", IN_OUT},     {"wkhtmltopdf", IN_OUT},
};

enum { CONVERTERS = sizeof converters / sizeof converters[0] };

/* The first that is installed, or -1. Returned: path too. */
static int find(const char *search_path, char path[LS_PATH_TEXT])
{
    for (int i = 0; i < CONVERTERS; i++) {
        if (ls_process_find(search_path, converters[i].name, path)) {
            return i;
        }
    }
    return -1;
}

static ls_status none_found(ls_error *error)
{
    return ls_fail(
        error, LS_IO,
        "--format pdf needs a converter on the PATH: chromium, google-chrome, weasyprint or wkhtmltopdf; "
        "or write html and print it from any browser");
}

/* "file:///a/b%20c" */
static void file_address(const char *folder, const char *name, char out[ADDRESS])
{
    char path[LS_PATH_TEXT + 64];
    size_t used = (size_t)snprintf(out, ADDRESS, "file://");
    snprintf(path, sizeof path, "%s/%s", folder, name);
    for (const char *c = path; *c != '\0' && used + 4 < ADDRESS; c++) {
        int is_plain = isalnum((unsigned char)*c) || strchr("/-_.~", *c) != NULL;
        used += (size_t)snprintf(out + used, ADDRESS - used, is_plain ? "%c" : "%%%02X", (unsigned char)*c);
    }
}

static ls_status check_pdf(const ls_convert_job *job, const char *name, ls_error *error)
{
    char path[LS_PATH_TEXT + 64];
    struct stat about;
    snprintf(path, sizeof path, "%s/%s", job->folder, job->pdf);
    if (stat(path, &about) != 0 || !S_ISREG(about.st_mode) || about.st_size == 0) {
        return ls_fail(error, LS_IO, "--format pdf: %s ended well but wrote nothing", name);
    }
    return LS_OK;
}

ls_status ls_convert_to_pdf(const ls_convert_job *job, ls_error *error)
{
    char program[LS_PATH_TEXT], name[64], address[ADDRESS], page[64], pdf[64];
    char print[LS_PATH_TEXT + 64], profile[LS_PATH_TEXT + 64], path[LS_PATH_TEXT], home[LS_PATH_TEXT + 8];
    char temporary[LS_PATH_TEXT + 8], locale[] = "LC_ALL=C.UTF-8", headless[] = "--headless",
                                      gpu[] = "--disable-gpu";
    char first[] = "--no-first-run", network[] = "--disable-background-networking",
         bare[] = "--no-pdf-header-footer";
    char sandbox[] = "--no-sandbox", updates[] = "--disable-component-update";
    int found = find(job->search_path, program);
    if (found < 0) {
        return none_found(error);
    }
    snprintf(name, sizeof name, "%s", converters[found].name);
    snprintf(page, sizeof page, "%s", job->page);
    snprintf(pdf, sizeof pdf, "%s", job->pdf);
    snprintf(print, sizeof print, "--print-to-pdf=%s/%s", job->folder, job->pdf);
    snprintf(profile, sizeof profile, "--user-data-dir=%s/browser", job->folder);
    snprintf(home, sizeof home, "HOME=%s", job->folder);
    snprintf(temporary, sizeof temporary, "TMPDIR=%s", job->folder);
    snprintf(path, sizeof path, "PATH=%.*s", LS_PATH_TEXT - 8, job->search_path);
    file_address(job->folder, job->page, address);
    char *browser[WORDS_MAX] = {
        name, headless, gpu, first, network, updates, bare, profile, print, address, job->is_root ? sandbox : NULL,
        NULL};
    char *in_out[WORDS_MAX] = {name, page, pdf, NULL};
    char *environment[] = {locale, path, home, temporary, NULL};
    ls_process_result result;
    ls_process_job process = {.program = program,
                              .arguments = converters[found].how == BROWSER ? browser : in_out,
                              .environment = environment,
                              .folder = job->folder,
                              .limit_s = job->limit_s > 0.0 ? job->limit_s : 60.0,
                              .stop = job->stop};
    int failure = ls_process_run(&process, &result);
    if (failure != 0) {
        return ls_fail(error, LS_IO, "--format pdf: %s cannot be started: %s", program, strerror(failure));
    }
    ls_status status = ls_process_judge(&process, &result, name, "--format pdf", error);
    return status == LS_OK ? check_pdf(job, name, error) : status;
}
