#define _GNU_SOURCE /* for posix_spawn_file_actions_addchdir_np */
#include "liveside/render.h"
#include "liveside/file.h"
#include "liveside/text.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <spawn.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { NAME_ROOM = 64, WORDS = 2048, FORMATS = 2 };

static const struct {
    unsigned bit;
    const char *ending;
} format_table[FORMATS] = {{LS_RENDER_SVG, "svg"}, {LS_RENDER_PNG, "png"}};

/* A gnuplot at work, and the last words that it said. */
typedef struct {
    pid_t pid;
    int pipe; /* -1 once it is closed */
    char words[WORDS + 1];
    size_t length;
} process;

/* Looks for an executable in the absolute folders of a search path: a relative or empty entry would mean whatever
 * folder the charts are written to. Returned: whether it was found. */
static int find_gnuplot(const char *search_path, char path[LS_PATH_TEXT])
{
    const char *entry = search_path != NULL ? search_path : "";
    while (*entry != '\0') {
        size_t length = strcspn(entry, ":");
        struct stat info;
        int written = snprintf(path, LS_PATH_TEXT, "%.*s/gnuplot", (int)length, entry);
        if (entry[0] == '/' && written > 0 && written < LS_PATH_TEXT && stat(path, &info) == 0 &&
            S_ISREG(info.st_mode) && access(path, X_OK) == 0) {
            return 1;
        }
        entry += length + (entry[length] == ':');
    }
    return 0;
}

/* Opens a pipe whose ends are not standard streams and are closed in the child. Returned: 0, or errno. */
static int open_pipe(int end[2])
{
    int low[2];
    if (pipe(low) != 0) {
        return errno;
    }
    int failure = 0;
    for (int i = 0; i < 2; i++) {
        end[i] = fcntl(low[i], F_DUPFD_CLOEXEC, 3);
        failure = end[i] < 0 ? errno : failure;
        close(low[i]);
    }
    if (failure == 0 && fcntl(end[0], F_SETFL, O_NONBLOCK) != 0) {
        failure = errno;
    }
    for (int i = 0; i < 2 && failure != 0; i++) {
        if (end[i] >= 0) {
            close(end[i]);
        }
    }
    return failure;
}

/* An own process group, and the signals that this program may have blocked or ignored as they are by default. */
static int set_attributes(posix_spawnattr_t *attributes)
{
    static const int usual[] = {SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGPIPE, SIGXFSZ, SIGXCPU};
    sigset_t none;
    sigset_t defaults;
    sigemptyset(&none);
    sigemptyset(&defaults);
    for (size_t i = 0; i < sizeof usual / sizeof usual[0]; i++) {
        sigaddset(&defaults, usual[i]);
    }
    int failure = posix_spawnattr_setflags(attributes,
                                           POSIX_SPAWN_SETPGROUP | POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETSIGDEF);
    failure = failure != 0 ? failure : posix_spawnattr_setpgroup(attributes, 0);
    failure = failure != 0 ? failure : posix_spawnattr_setsigmask(attributes, &none);
    return failure != 0 ? failure : posix_spawnattr_setsigdefault(attributes, &defaults);
}

static int set_streams(posix_spawn_file_actions_t *actions, int write_end, const char *folder)
{
    int failure = posix_spawn_file_actions_addopen(actions, 0, "/dev/null", O_RDONLY, 0);
    failure = failure != 0 ? failure : posix_spawn_file_actions_adddup2(actions, write_end, 1);
    failure = failure != 0 ? failure : posix_spawn_file_actions_adddup2(actions, write_end, 2);
    return failure != 0 ? failure : posix_spawn_file_actions_addchdir_np(actions, folder);
}

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

/* Starts the program in the job's folder. Returned: 0, or an errno of what failed. */
static int start(process *child, const char *program, char *const arguments[], char *const environment[],
                 const char *folder, int write_end)
{
    posix_spawn_file_actions_t actions;
    posix_spawnattr_t attributes;
    int failure = posix_spawn_file_actions_init(&actions);
    if (failure != 0) {
        return failure;
    }
    failure = posix_spawnattr_init(&attributes);
    if (failure == 0) {
        failure = set_attributes(&attributes);
        failure = failure != 0 ? failure : set_streams(&actions, write_end, folder);
        failure = failure != 0 ? failure
                               : posix_spawn(&child->pid, program, &actions, &attributes, arguments, environment);
        posix_spawnattr_destroy(&attributes);
    }
    posix_spawn_file_actions_destroy(&actions);
    return failure;
}

/* Starts gnuplot on the job's script. Given: settings, gnuplot commands of our own making.
 * Returned: 0, or an errno of what failed; then nothing is left open. */
static int start_gnuplot(process *child, const ls_render_job *job, const char *program, char *settings)
{
    char script[NAME_ROOM + 8];
    char command[] = "gnuplot";
    char no_start_up_files[] = "-d";
    char execute[] = "-e";
    char locale[] = "LC_ALL=C";
    char *path = variable("PATH", job->search_path);
    char *home = variable("HOME", job->home);
    char *arguments[] = {command, no_start_up_files, execute, settings, script, NULL};
    char *environment[] = {locale, path, home, NULL};
    int end[2];
    snprintf(script, sizeof script, "./%s.gp", job->name);
    int failure = path == NULL || (home == NULL && job->home != NULL) ? ENOMEM : open_pipe(end);
    if (failure == 0) {
        child->pipe = end[0];
        failure = start(child, program, arguments, environment, job->folder, end[1]);
        close(end[1]);
        if (failure != 0) {
            close(end[0]);
        }
    }
    free(path);
    free(home);
    return failure;
}

/* Keeps the last WORDS bytes of what the child says. */
static void listen_to(process *child)
{
    char chunk[512];
    ssize_t n = 0;
    while (child->pipe >= 0 && (n = read(child->pipe, chunk, sizeof chunk)) > 0) {
        size_t got = (size_t)n;
        size_t excess = child->length + got > WORDS ? child->length + got - WORDS : 0;
        memmove(child->words, child->words + excess, child->length - excess);
        child->length -= excess;
        memcpy(child->words + child->length, chunk, got);
        child->length += got;
    }
    if (child->pipe >= 0 && (n == 0 || (errno != EAGAIN && errno != EINTR))) {
        close(child->pipe);
        child->pipe = -1;
    }
    child->words[child->length] = '\0';
}

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* Whether the child has ended; it stays a zombie, so that its process group's number stays its own. */
static int has_ended(const process *child)
{
    siginfo_t info = {0};
    return waitid(P_PID, (id_t)child->pid, &info, WEXITED | WNOHANG | WNOWAIT) != 0 || info.si_pid != 0;
}

typedef enum { ENDED, TOO_LONG, STOPPED } ending;

/* Waits for the child's end, hearing it out, and ends what is left of its group.
 * Returned: why the waiting ended; *wait_status, as of waitpid. */
static ending attend(process *child, double limit_s, const volatile sig_atomic_t *stop, int *wait_status)
{
    ending why = ENDED;
    double end_s = now_s() + limit_s;
    while (!has_ended(child)) {
        if (stop != NULL && *stop != 0) {
            why = STOPPED;
            break;
        }
        if (now_s() > end_s) {
            why = TOO_LONG;
            break;
        }
        struct pollfd wait_for = {child->pipe, POLLIN, 0};
        poll(&wait_for, 1, child->pipe >= 0 ? 50 : 2);
        listen_to(child);
    }
    listen_to(child);
    kill(-child->pid, SIGKILL);
    *wait_status = 0;
    while (waitpid(child->pid, wait_status, 0) < 0 && errno == EINTR) {
    }
    if (child->pipe >= 0) {
        close(child->pipe);
    }
    return why;
}

/* The last line that gnuplot said, which holds its reason, made harmless. */
static void last_words(process *child, char *out, size_t size)
{
    char *end = child->words + child->length;
    while (end > child->words && strchr("\r\n \t", end[-1]) != NULL) {
        end--;
    }
    *end = '\0';
    char *line = strrchr(child->words, '\n');
    ls_text_for_terminal(line != NULL ? line + 1 : child->words, out, size);
}

/* Runs gnuplot on the job's script. */
static ls_status run(const ls_render_job *job, const char *program, char *settings, ls_error *error)
{
    process child = {.pipe = -1};
    const char *folder = job->folder;
    const char *name = job->name;
    double limit_s = job->limit_s > 0.0 ? job->limit_s : 20.0;
    int failure = start_gnuplot(&child, job, program, settings);
    if (failure != 0) {
        return ls_fail(error, failure == ENOMEM ? LS_MEMORY : LS_IO, "%s cannot be started in %s: %s", program,
                       folder, strerror(failure));
    }
    int status;
    ending why = attend(&child, limit_s, job->stop, &status);
    if (why == STOPPED) {
        return ls_fail(error, LS_INTERRUPTED, "%s/%s.gp: interrupted while it was drawn", folder, name);
    }
    if (why == TOO_LONG) {
        return ls_fail(error, LS_IO, "%s/%s.gp: gnuplot did not end within %.3g s", folder, name, limit_s);
    }
    if (WIFSIGNALED(status)) {
        return ls_fail(error, LS_IO, "%s/%s.gp: gnuplot was ended by signal %d", folder, name, WTERMSIG(status));
    }
    if (WEXITSTATUS(status) != 0) {
        char words[256];
        last_words(&child, words, sizeof words);
        return ls_fail(error, LS_IO, "%s/%s.gp: gnuplot failed (exit %d): %s", folder, name, WEXITSTATUS(status),
                       words[0] != '\0' ? words : "without a word");
    }
    return LS_OK;
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
    if (!find_gnuplot(job->search_path, program)) {
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
