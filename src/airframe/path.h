/* Rows of the parameter table by their path, and the path that people read. */
#ifndef LS_AIRFRAME_PATH_H
#define LS_AIRFRAME_PATH_H

#include "liveside/parameter.h"

/* The row of a path as the table writes it, "flaps[].lift_max"; null if there is none. */
const ls_parameter *ls_parameter_row(const char *path);

/* The path of one value with its element counted from 1, "flaps[2].lift_max".
 * Returned: out, always ended by NUL, cut short if it does not fit. */
const char *ls_parameter_path(const ls_parameter *parameter, int element, char *out, size_t size);

/* The element's part of a path: what follows "flaps[]."; the whole path of a key outside lists. */
const char *ls_parameter_tail(const ls_parameter *parameter);

#endif
