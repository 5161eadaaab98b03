#include "liveside/render.h"
#include "liveside/file.h"
#include "report/process.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { NAME_ROOM = 64, FORMATS = 2 };

static const struct {
    unsigned bit;
    const char *ending;
} format_table[FORMATS] = {{LS_RENDER_SVG, "svg"}, {LS_RENDER_PNG, "png"}};

/* "NAME=value", which the caller frees; null without a value or without memory. */
static char *variable(const char *name, const char *value)
{
    size_t size = value != NULL ? strlen(name) + strlen(value) + 2 : 0;
    char *text = size > 0 ? malloc(size) : NULL;
    if (text != NULL) {
        snprintf(text, size, "%s=%s", name, value);
    }
    return text;
}

/* Runs gnuplot on the job's script. Given: settings, gnuplot commands of our own making. */
static ls_status run(const ls_render_job *job, char *program, char *settings, ls_error *error)
{
    char script[NAME_ROOM + 8], about[LS_PATH_TEXT];
    char command[] = "gnuplot", no_start_up_files[] = "-d", execute[] = "-e", locale[] = "LC_ALL=C";
    char *path = variable("PATH", job->search_path);
    char *home = variable("HOME", job->home);
    char *arguments[] = {command, no_start_up_files, execute, settings, script, NULL};
    char *environment[] = {locale, path, home, NULL};
    ls_process_result result;
    ls_process_job process = {.program = program,
                              .arguments = arguments,
                              .environment = environment,
                              .folder = job->folder,
                              .limit_s = job->limit_s > 0.0 ? job->limit_s : 20.0,
                              .stop = job->stop};
    snprintf(script, sizeof script, "./%s.gp", job->name);
    int failure = path == NULL || (home == NULL && job->home != NULL) ? ENOMEM : ls_process_run(&process, &result);
    free(path);
    free(home);
    if (failure != 0) {
        return ls_fail(error, failure == ENOMEM ? LS_MEMORY : LS_IO, "%s cannot be started in %s: %s", program,
                       job->folder, strerror(failure));
    }
    snprintf(about, sizeof about, "%s/%s.gp", job->folder, job->name);
    return ls_process_judge(&process, &result, "gnuplot", about, error);
}

/* The paths of a picture, as drawn and as it shall be called. */
static void picture_paths(const char *folder, const char *name, const char *base, int format,
                          char drawn[LS_PATH_TEXT], char kept[LS_PATH_TEXT])
{
    snprintf(drawn, LS_PATH_TEXT, "%s/%s.%s", folder, base, format_table[format].ending);
    snprintf(kept, LS_PATH_TEXT, "%s/%s.%s", folder, name, format_table[format].ending);
}

static void remove_pictures(const char *folder, const char *base)
{
    for (int i = 0; i < FORMATS; i++) {
        char drawn[LS_PATH_TEXT];
        char kept[LS_PATH_TEXT];
        picture_paths(folder, "", base, i, drawn, kept);
        unlink(drawn);
    }
}

static ls_status check_pictures(const ls_render_job *job, const char *base, ls_error *error)
{
    for (int i = 0; i < FORMATS; i++) {
        char drawn[LS_PATH_TEXT];
        char kept[LS_PATH_TEXT];
        struct stat info;
        picture_paths(job->folder, job->name, base, i, drawn, kept);
        if ((job->formats & format_table[i].bit) != 0 &&
            (stat(drawn, &info) != 0 || !S_ISREG(info.st_mode) || info.st_size == 0)) {
            return ls_fail(error, LS_IO, "%s: gnuplot ended well but drew nothing", kept);
        }
    }
    return LS_OK;
}

static ls_status keep_pictures(const ls_render_job *job, const char *base, ls_error *error)
{
    for (int i = 0; i < FORMATS; i++) {
        char drawn[LS_PATH_TEXT];
        char kept[LS_PATH_TEXT];
        picture_paths(job->folder, job->name, base, i, drawn, kept);
        if ((job->formats & format_table[i].bit) != 0 && rename(drawn, kept) != 0) {
            return ls_fail(error, LS_IO, "%s: %s", kept, strerror(errno));
        }
    }
    return LS_OK;
}

static ls_status check_request(const char *folder, const char *name, unsigned formats, ls_error *error)
{
    size_t good = strspn(name, "abcdefghijklmnopqrstuvwxyz0123456789-");
    if (good == 0 || good >= NAME_ROOM || name[good] != '\0' || name[0] < 'a') {
        return ls_fail(error, LS_USAGE, "a chart's file name is made of a-z, 0-9 and - and begins with a letter");
    }
    if ((formats & LS_RENDER_ALL) == 0) {
        return ls_fail(error, LS_USAGE, "chart %s: no format to draw it in", name);
    }
    if (strlen(folder) > LS_PATH_TEXT - 2 * NAME_ROOM) {
        return ls_fail(error, LS_IO, "chart folder: a path of more than %d bytes", LS_PATH_TEXT - 2 * NAME_ROOM);
    }
    char script[LS_PATH_TEXT];
    snprintf(script, sizeof script, "%s/%s.gp", folder, name);
    if (access(script, R_OK) != 0) {
        return ls_fail(error, LS_IO, "%s: %s", script, strerror(errno));
    }
    if (access(folder, W_OK | X_OK) != 0) {
        return ls_fail(error, LS_IO, "chart folder %s cannot be written to: %s", folder, strerror(errno));
    }
    return LS_OK;
}

ls_status ls_render(const ls_render_job *job, ls_render_outcome *outcome, ls_error *error)
{
    char program[LS_PATH_TEXT];
    char base[NAME_ROOM + 32];
    char settings[2 * NAME_ROOM + 64];
    *outcome = LS_RENDER_FAILED;
    ls_status status = check_request(job->folder, job->name, job->formats, error);
    if (status != LS_OK) {
        return status;
    }
    if (!ls_process_find(job->search_path, "gnuplot", program)) {
        *outcome = LS_RENDER_NO_GNUPLOT;
        return LS_OK;
    }
    snprintf(base, sizeof base, ".%s.%ld", job->name, (long)getpid());
    snprintf(settings, sizeof settings, "out='%s'; formats='%s%s'", base,
             (job->formats & LS_RENDER_SVG) != 0 ? "svg " : "", (job->formats & LS_RENDER_PNG) != 0 ? "png" : "");
    remove_pictures(job->folder, base);
    status = run(job, program, settings, error);
    if (status == LS_OK) {
        status = check_pictures(job, base, error);
    }
    if (status == LS_OK) {
        status = keep_pictures(job, base, error);
    }
    if (status == LS_OK) {
        *outcome = LS_RENDER_DRAWN;
    } else {
        remove_pictures(job->folder, base);
    }
    return status;
}
