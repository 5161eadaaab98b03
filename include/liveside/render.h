/* Drawing a chart's script: gnuplot as a separate process, never through a shell. */
#ifndef LIVESIDE_RENDER_H
#define LIVESIDE_RENDER_H

#include "liveside/status.h"

#include <signal.h>

enum { LS_RENDER_SVG = 1, LS_RENDER_PNG = 2, LS_RENDER_ALL = 3 };

typedef enum {
    LS_RENDER_DRAWN,      /* every picture asked for is there */
    LS_RENDER_NO_GNUPLOT, /* no gnuplot on the search path: the script stands, nothing was drawn */
    LS_RENDER_FAILED      /* see the error; pictures of an earlier run are as they were */
} ls_render_outcome;

/* Draws FOLDER/NAME.gp as FOLDER/NAME.svg and NAME.png.
 * Given: name, as in ls_chart (a-z, 0-9 and -); formats, LS_RENDER_ bits; stop, a flag that a signal handler may
 * set to end the drawing, or null.
 * Returned: outcome.
 * Status: LS_OK if drawn, or if there is no gnuplot (outcome says so; the error record is untouched); LS_IO
 * (gnuplot failed, was killed, took more than 20 s, left no picture; no permission), its own first words in the
 * message; LS_INTERRUPTED; LS_USAGE for a name with another character. Notes: gnuplot is looked for in the
 * absolute folders of PATH only; it runs in FOLDER without input, with the C locale, PATH and HOME as its whole
 * environment, in a process group of its own that is killed at the limit. Pictures appear whole or not at all.
 * SIGCHLD must not be ignored. */
LS_API ls_status ls_render(const char *folder, const char *name, unsigned formats,
                           const volatile sig_atomic_t *stop, ls_render_outcome *outcome, ls_error *error);

#endif
