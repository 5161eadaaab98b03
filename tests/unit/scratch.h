/* A folder to work in for each test of files, and parts of a test run in a process of their own.
 * Include it first: it needs setgroups. */
#ifndef LIVESIDE_TESTS_SCRATCH_H
#define LIVESIDE_TESTS_SCRATCH_H

#define _DEFAULT_SOURCE

#include "check.h"

#include <dirent.h>
#include <fcntl.h>
#include <grp.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

enum { ORDINARY_USER = 65534, SKIPPED = 77 };

/* Each test works in a folder of its own, which is the current one while it runs. */
typedef struct {
    char path[64];
    int before;
} folder;

static inline int enter_folder(void **state)
{
    static folder here;
    strcpy(here.path, "/tmp/liveside-file-XXXXXX");
    here.before = open(".", O_RDONLY | O_DIRECTORY);
    *state = &here;
    umask(022);
    return here.before < 0 || mkdtemp(here.path) == NULL || chmod(here.path, 0755) != 0 || chdir(here.path) != 0;
}

static inline int leave_folder(void **state)
{
    folder *here = *state;
    char command[200];
    snprintf(command, sizeof command, "chmod -R u+rwX %s && rm -rf %s", here->path, here->path);
    int failed = fchdir(here->before) != 0;
    close(here->before);
    return system(command) != 0 || failed;
}

static inline void spit(const char *path, const char *text)
{
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fputs(text, file);
    assert_int_equal(fclose(file), 0);
}

static inline void assert_holds(const char *path, const char *text)
{
    char held[256] = "";
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    size_t count = fread(held, 1, sizeof held - 1, file);
    held[count] = '\0';
    fclose(file);
    assert_string_equal(held, text);
}

/* How many entries the current folder has, so that no temporary file is left unseen. */
static inline int entries(void)
{
    int count = -2; /* . and .. */
    DIR *opened = opendir(".");
    assert_non_null(opened);
    while (readdir(opened) != NULL) {
        count++;
    }
    closedir(opened);
    return count;
}

/* Runs a part of a test in a process of its own; its return value is the exit code. */
static inline int in_child(int (*part)(void))
{
    fflush(NULL);
    pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        _exit(part());
    }
    int status = 0;
    assert_true(waitpid(child, &status, 0) == child);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

static inline int become_ordinary_user(void)
{
    if (geteuid() != 0) {
        return 1;
    }
    return setgroups(0, NULL) == 0 && setgid(ORDINARY_USER) == 0 && setuid(ORDINARY_USER) == 0 && geteuid() != 0;
}

static inline void assert_child_passed(int code)
{
    if (code == SKIPPED) {
        print_message("skipped: this process cannot become an ordinary user\n");
        skip();
    }
    assert_int_equal(code, 0);
}

#define IN_FOLDER(name) cmocka_unit_test_setup_teardown(name, enter_folder, leave_folder)

#endif
