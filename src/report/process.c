#define _GNU_SOURCE /* for posix_spawn_file_actions_addchdir_np */
#include "report/process.h"

#include "liveside/text.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <spawn.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { WORDS = 2048 };

/* A program at work, and the last words that it said. */
typedef struct {
    pid_t pid;
    int pipe; /* -1 once it is closed */
    char words[WORDS + 1];
    size_t length;
} process;

int ls_process_find(const char *search_path, const char *name, char path[LS_PATH_TEXT])
{
    const char *entry = search_path != NULL ? search_path : "";
    while (*entry != '\0') {
        size_t length = strcspn(entry, ":");
        struct stat info;
        int written = snprintf(path, LS_PATH_TEXT, "%.*s/%s", (int)length, entry, name);
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

/* Starts the program in the job's folder. Returned: 0, or an errno of what failed. */
static int start(process *child, const ls_process_job *job, int write_end)
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
        failure = failure != 0 ? failure : set_streams(&actions, write_end, job->folder);
        failure = failure != 0 ? failure
                               : posix_spawn(&child->pid, job->program, &actions, &attributes, job->arguments,
                                             job->environment);
        posix_spawnattr_destroy(&attributes);
    }
    posix_spawn_file_actions_destroy(&actions);
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

/* Waits for the child's end, hearing it out, and ends what is left of its group.
 * Returned: why the waiting ended; *wait_status, as of waitpid. */
static ls_process_end attend(process *child, double limit_s, const volatile sig_atomic_t *stop, int *wait_status)
{
    ls_process_end why = LS_PROCESS_ENDED;
    double end_s = now_s() + limit_s;
    while (!has_ended(child)) {
        if (stop != NULL && *stop != 0) {
            why = LS_PROCESS_STOPPED;
            break;
        }
        if (now_s() > end_s) {
            why = LS_PROCESS_TOO_LONG;
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

/* The last line that the program said, which holds its reason, made harmless. */
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

int ls_process_run(const ls_process_job *job, ls_process_result *result)
{
    process child = {.pipe = -1};
    int end[2], failure = open_pipe(end);
    *result = (ls_process_result){.end = LS_PROCESS_ENDED};
    if (failure != 0) {
        return failure;
    }
    child.pipe = end[0];
    failure = start(&child, job, end[1]);
    close(end[1]);
    if (failure != 0) {
        close(end[0]);
        return failure;
    }
    result->end = attend(&child, job->limit_s, job->stop, &result->wait_status);
    last_words(&child, result->words, sizeof result->words);
    return 0;
}

ls_status ls_process_judge(const ls_process_job *job, const ls_process_result *result, const char *name,
                           const char *about, ls_error *error)
{
    int status = result->wait_status;
    if (result->end == LS_PROCESS_STOPPED) {
        return ls_fail(error, LS_INTERRUPTED, "%s: interrupted while it was drawn", about);
    }
    if (result->end == LS_PROCESS_TOO_LONG) {
        return ls_fail(error, LS_IO, "%s: %s did not end within %.3g s", about, name, job->limit_s);
    }
    if (WIFSIGNALED(status)) {
        return ls_fail(error, LS_IO, "%s: %s was ended by signal %d", about, name, WTERMSIG(status));
    }
    if (WEXITSTATUS(status) != 0) {
        return ls_fail(error, LS_IO, "%s: %s failed (exit %d): %s", about, name, WEXITSTATUS(status),
                       result->words[0] != '\0' ? result->words : "without a word");
    }
    return LS_OK;
}
