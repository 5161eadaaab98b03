#include "cli/progress.h"

#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

enum { BAR = 30, EXIT_INTERRUPTED = 130 };

/* A signal handler can be told things only through objects like these: the program's one piece of shared state. */
static const ls_output *volatile guarded;
static volatile sig_atomic_t studies; /* whether a study looks for the wish to stop */
static volatile sig_atomic_t interrupts;

static void on_interrupt(int signal_number)
{
    (void)signal_number;
    interrupts++;
    if (studies == 0 || interrupts > 1) {
        ls_output_unlink(guarded);
        _exit(EXIT_INTERRUPTED);
    }
}

static void on_termination(int signal_number)
{
    ls_output_unlink(guarded);
    signal(signal_number, SIG_DFL);
    raise(signal_number);
}

static void handle(int signal_number, void (*handler)(int))
{
    struct sigaction action = {.sa_handler = handler};
    struct sigaction old;
    sigemptyset(&action.sa_mask);
    action.sa_flags = SA_RESTART;
    if (sigaction(signal_number, NULL, &old) == 0 && old.sa_handler != SIG_IGN) { /* as nohup leaves it */
        sigaction(signal_number, &action, NULL);
    }
}

void cli_signals_install(void)
{
    signal(SIGPIPE, SIG_IGN); /* a closed pipe and a full quota become write errors */
    signal(SIGXFSZ, SIG_IGN);
    handle(SIGINT, on_interrupt);
    handle(SIGTERM, on_termination);
    handle(SIGHUP, on_termination);
}

void cli_signals_guard(const ls_output *output)
{
    guarded = output;
}

int cli_interrupted(void)
{
    return interrupts > 0;
}

const volatile sig_atomic_t *cli_interrupt_flag(void)
{
    return &interrupts;
}

void cli_progress_begin(cli_progress *progress, const char *what)
{
    *progress = (cli_progress){.what = what, .on_terminal = isatty(STDERR_FILENO), .shown = -1};
    clock_gettime(CLOCK_MONOTONIC, &progress->start);
    studies = 1;
}

void cli_progress_end(cli_progress *progress)
{
    studies = 0;
    if (progress->shown >= 0) {
        fprintf(stderr, "\r%*s\r", (int)strlen(progress->what) + BAR + 12, "");
    }
}

static double seconds_since(const struct timespec *start)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)(now.tv_sec - start->tv_sec) + 1e-9 * (double)(now.tv_nsec - start->tv_nsec);
}

void cli_progress_show(void *context, double fraction)
{
    cli_progress *progress = context;
    int percent = (int)(100 * fraction);
    if (!progress->on_terminal || percent == progress->shown || seconds_since(&progress->start) < 1.0) {
        return;
    }
    char bar[BAR + 1];
    int done = percent * BAR / 100;
    memset(bar, '.', BAR);
    memset(bar, '#', (size_t)(done < 0 ? 0 : done > BAR ? BAR : done));
    bar[BAR] = '\0';
    fprintf(stderr, "\r%s [%s] %3d %%", progress->what, bar, percent);
    fflush(stderr);
    progress->shown = percent;
}

int cli_progress_stop(void *context)
{
    (void)context;
    return cli_interrupted();
}
