#include "cases.h"

#include <errno.h>
#include <fcntl.h>
#include <ftw.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { ENV_MAX = 32, DEFAULT_LIMIT_S = 20 };

static int remove_entry(const char *path, const struct stat *info, int type, struct FTW *walk)
{
    (void)info;
    (void)type;
    (void)walk;
    return remove(path);
}

void remove_place(const struct place *place)
{
    chmod(place->work, 0700);
    nftw(place->root, remove_entry, 16, FTW_DEPTH | FTW_PHYS);
}

struct place make_place(void)
{
    struct place place;
    const char *temporary = getenv("TMPDIR");
    snprintf(place.root, sizeof place.root, "%s/liveside-case-XXXXXX", temporary != NULL ? temporary : "/tmp");
    if (mkdtemp(place.root) == NULL) {
        die("%s: %s", place.root, strerror(errno));
    }
    snprintf(place.work, sizeof place.work, "%s/work", place.root);
    snprintf(place.input, sizeof place.input, "%s/stdin", place.root);
    snprintf(place.output, sizeof place.output, "%s/stdout", place.root);
    snprintf(place.errors, sizeof place.errors, "%s/stderr", place.root);
    if (mkdir(place.work, 0755) != 0) {
        die("%s: %s", place.work, strerror(errno));
    }
    return place;
}

static void save_block(const struct test *test, int i, const char *path)
{
    FILE *file = fopen(path, "wb");
    char *text = block_after(test, i, NULL);
    if (file != NULL) {
        fputs(text, file);
    }
    free(text);
    close_written(file, path);
}

static void write_files(const struct test *test, const struct place *place)
{
    FILE *input = fopen(place->input, "wb");
    close_written(input, place->input);
    for (int i = test->first; i < test->end; i++) {
        const char *name = test->script->lines[i].value;
        if (key_is(test, i, "stdin")) {
            save_block(test, i, place->input);
        } else if (key_is(test, i, "file")) {
            char path[PATH_MAX + 300];
            snprintf(path, sizeof path, "%s/%s", place->work, name);
            save_block(test, i, path);
        }
    }
}

/* The commands of a case, one a line, for /bin/sh. */
static char *commands_of(const struct test *test)
{
    char *result = NULL;
    size_t size = 0;
    FILE *file = need(open_memstream(&result, &size));
    for (int i = test->first; i < test->end; i++) {
        if (key_is(test, i, "run")) {
            fprintf(file, "%s\n", test->script->lines[i].value);
        }
    }
    close_written(file, "memory");
    return result;
}

static char *variable(const char *name, const char *value)
{
    size_t size = strlen(name) + strlen(value) + 2;
    char *text = need(malloc(size));
    snprintf(text, size, "%s=%s", name, value);
    return text;
}

/* Propeller tables are kept beside the program, so that each is made once for all cases. */
static char *kept_tables(const struct names *names)
{
    char folder[PATH_MAX + 16];
    snprintf(folder, sizeof folder, "%.*s/kept", (int)(strrchr(names->program, '/') - names->program),
             names->program);
    return variable("XDG_CACHE_HOME", folder);
}

/* A small environment of our own, so that a case does not depend on the user's. */
static void set_environment(const struct test *test, const struct names *names, const struct place *place,
                            char **environment)
{
    static const char *const kept[] = {"PATH", "ASAN_OPTIONS", "UBSAN_OPTIONS", "LSAN_OPTIONS"};
    int count = 0;
    for (size_t i = 0; i < sizeof kept / sizeof kept[0]; i++) {
        const char *value = getenv(kept[i]);
        if (value != NULL) {
            environment[count++] = variable(kept[i], value);
        }
    }
    environment[count++] = variable("LC_ALL", "C");
    environment[count++] = variable("HOME", place->work);
    environment[count++] = variable("TMPDIR", place->root);
    environment[count++] = kept_tables(names);
    environment[count++] = variable("LIVESIDE", names->program);
    environment[count++] = variable("SOURCE", names->source);
    for (int i = test->first; i < test->end; i++) {
        if (key_is(test, i, "env") && count < ENV_MAX - 1) {
            environment[count++] = expanded(names, test->script->lines[i].value);
        }
    }
    environment[count] = NULL;
}

static int redirect(const char *path, int flags, int to)
{
    int file = open(path, flags, 0600);
    return file >= 0 && dup2(file, to) == to && close(file) == 0;
}

static void become_shell(const struct test *test, const struct names *names, const struct place *place)
{
    char *environment[ENV_MAX];
    char shell[] = "sh", option[] = "-c";
    char *arguments[] = {shell, option, commands_of(test), NULL};
    set_environment(test, names, place, environment);
    sigset_t none;
    sigemptyset(&none);
    setpgid(0, 0);
    if (chdir(place->work) == 0 && redirect(place->input, O_RDONLY, STDIN_FILENO) &&
        redirect(place->output, O_WRONLY | O_CREAT, STDOUT_FILENO) &&
        redirect(place->errors, O_WRONLY | O_CREAT, STDERR_FILENO)) {
        sigprocmask(SIG_SETMASK, &none, NULL);
        execve("/bin/sh", arguments, environment);
    }
    _exit(127);
}

static int next_signal(int limit_s)
{
    sigset_t signals;
    sigemptyset(&signals);
    sigaddset(&signals, SIGCHLD);
    sigaddset(&signals, SIGINT);
    sigaddset(&signals, SIGTERM);
    struct timespec limit = {.tv_sec = limit_s};
    return sigtimedwait(&signals, NULL, &limit);
}

/* Waits for the child's end, a signal to us, or the limit; nothing of its process group outlives it. */
static int wait_for(pid_t child, int limit_s, const struct place *place)
{
    int status = 0;
    int number = 0;
    pid_t ended = 0;
    do {
        number = next_signal(limit_s);
        ended = waitpid(child, &status, WNOHANG);
    } while (number == SIGCHLD && ended == 0);
    kill(-child, SIGKILL);
    if (ended == 0) {
        waitpid(child, &status, 0);
    }
    if (number == SIGINT || number == SIGTERM) {
        remove_place(place);
        exit(130);
    }
    if (ended == 0) {
        return -1;
    }
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

/* The case's limit; a build that is slower by nature gets LS_LIMIT_FACTOR times as long. */
static int limit_of(const struct test *test)
{
    const char *limit = value_of(test, "limit");
    const char *factor_text = getenv("LS_LIMIT_FACTOR");
    long factor = factor_text != NULL ? strtol(factor_text, NULL, 10) : 1;
    long seconds = limit != NULL ? strtol(limit, NULL, 10) : DEFAULT_LIMIT_S;
    return (int)(seconds * (factor >= 1 && factor <= 100 ? factor : 1));
}

int run_case(const struct test *test, const struct names *names, const struct place *place)
{
    write_files(test, place);
    fflush(NULL);
    pid_t child = fork();
    if (child < 0) {
        die("fork: %s", strerror(errno));
    }
    if (child == 0) {
        become_shell(test, names, place);
    }
    setpgid(child, child);
    return wait_for(child, limit_of(test), place);
}
