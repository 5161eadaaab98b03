/* A progress bar on standard error, and the wish to stop: what a long study is handed. */
#ifndef LIVESIDE_CLI_PROGRESS_H
#define LIVESIDE_CLI_PROGRESS_H

#include "liveside/file.h"

#include <signal.h>
#include <time.h>

typedef struct {
    const char *what; /* "trend" */
    struct timespec start;
    int on_terminal;
    int shown; /* percent last drawn, -1 before the first */
} cli_progress;

/* Starts; from here to cli_progress_end a first SIGINT asks the study to stop, and a second ends the program. */
void cli_progress_begin(cli_progress *progress, const char *what);
void cli_progress_end(cli_progress *progress);

/* Callbacks for a study: context is the cli_progress. The bar appears after a second, on a terminal only. */
void cli_progress_show(void *context, double fraction);
int cli_progress_stop(void *context);

/* Installs the signal handlers of the program. */
void cli_signals_install(void);

/* Says which output's temporary file a signal must remove; null for none. */
void cli_signals_guard(const ls_output *output);

/* Whether SIGINT came; and the flag itself, for work that looks at it between cli_progress_begin and _end. */
int cli_interrupted(void);
const volatile sig_atomic_t *cli_interrupt_flag(void);

#endif
