/* Drawing a chart's script: gnuplot as a separate process, never through a shell. */
#ifndef LIVESIDE_RENDER_H
#define LIVESIDE_RENDER_H

#include "liveside/status.h"

#include <signal.h>

enum { LS_RENDER_SVG = 1, LS_RENDER_PNG = 2, LS_RENDER_ALL = 3 };

/* What is to be drawn, and with what. */
typedef struct {
    const char *folder, *name;         /* FOLDER/NAME.gp; name as in ls_chart */
    unsigned formats;                  /* LS_RENDER_ bits */
    const char *search_path;           /* where gnuplot is looked for: the environment's PATH; null for none */
    const char *home;                  /* the environment's HOME, for the font library's cache; null for none */
    double limit_s;                    /* 0 for 20 s */
    const volatile sig_atomic_t *stop; /* a flag that a signal handler may set to end the drawing; or null */
} ls_render_job;

typedef enum {
    LS_RENDER_DRAWN,      /* every picture asked for is there */
    LS_RENDER_NO_GNUPLOT, /* no gnuplot on the search path: the script stands, nothing was drawn */
    LS_RENDER_FAILED      /* see the error; pictures of an earlier run are as they were */
} ls_render_outcome;

/* Draws FOLDER/NAME.gp as FOLDER/NAME.svg and NAME.png.
 * Returned: outcome.
 * Status: LS_OK if drawn, or if there is no gnuplot (outcome says so; the error record is untouched); LS_IO
 * (gnuplot failed, was killed, ran past the limit, left no picture; no permission), its own last words in the
 * message; LS_INTERRUPTED; LS_USAGE for a name with another character; LS_MEMORY. Notes: gnuplot is looked for in
 * the absolute folders of the search path only; it runs in FOLDER without input, with the C locale, PATH and HOME
 * as its whole environment, in a process group of its own that is killed at the end. Each picture appears whole or
 * not at all. The caller must not ignore SIGCHLD. */
LS_API ls_status ls_render(const ls_render_job *job, ls_render_outcome *outcome, ls_error *error);

#endif
