/* The drawing of a script with the time limit as a parameter, for the tests. */
#ifndef LIVESIDE_REPORT_RENDER_H
#define LIVESIDE_REPORT_RENDER_H

#include "liveside/render.h"

/* ls_render with another limit. Given: limit_s > 0. */
ls_status ls_render_within(double limit_s, const char *folder, const char *name, unsigned formats,
                           const volatile sig_atomic_t *stop, ls_render_outcome *outcome, ls_error *error);

#endif
