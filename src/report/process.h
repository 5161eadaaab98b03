/* Another program, run once to its end: no shell, no input, a time limit. */
#ifndef LIVESIDE_REPORT_PROCESS_H
#define LIVESIDE_REPORT_PROCESS_H

#include "liveside/file.h"

#include <signal.h>

enum { LS_PROCESS_WORDS = 256 };

typedef struct {
    const char *program; /* its path */
    char *const *arguments, *const *environment;
    const char *folder; /* in which it runs */
    double limit_s;
    const volatile sig_atomic_t *stop; /* a flag that ends it; or null */
} ls_process_job;

typedef enum { LS_PROCESS_ENDED, LS_PROCESS_TOO_LONG, LS_PROCESS_STOPPED } ls_process_end;

typedef struct {
    ls_process_end end;
    int wait_status;              /* as of waitpid */
    char words[LS_PROCESS_WORDS]; /* the last line that it said, safe for a terminal */
} ls_process_result;

/* Looks for an executable in the absolute folders of a search path: a relative or empty entry would mean whatever
 * folder the program is run in. Given: search_path, or null. Returned: path, and whether it was found. */
int ls_process_find(const char *search_path, const char *name, char path[LS_PATH_TEXT]);

/* Runs a program in a process group of its own, which is killed at the end. Returned: result; 0, or the errno of
 * what failed before it ran. */
int ls_process_run(const ls_process_job *job, ls_process_result *result);

/* What a run that was begun came to.
 * Given: name, of the program for people; about, what it worked on.
 * Status: LS_OK for exit code 0; LS_IO; LS_INTERRUPTED. */
ls_status ls_process_judge(const ls_process_job *job, const ls_process_result *result, const char *name,
                           const char *about, ls_error *error);

#endif
