/* A file of flight-test points: comma-separated values, one header line that names each column with its unit. */
#ifndef LIVESIDE_POINTS_FILE_H
#define LIVESIDE_POINTS_FILE_H

#include "liveside/file.h"
#include "liveside/findings.h"
#include "liveside/points.h"

enum { LS_POINTS_BYTES = 1 << 26 };

/* Reads a file of points, "-" for standard input; every error in one go, each with line and column.
 * Given: findings, zero-initialised; sha256 may be null.
 * Returned: points, to be freed with ls_points_free; untouched on failure.
 * Status: LS_OK; LS_FILE_REJECTED (see findings); LS_IO; LS_MEMORY. */
LS_API ls_status ls_points_read(const char *path, ls_points *points, ls_findings *findings,
                                char sha256[LS_SHA256_TEXT], ls_error *error);

/* The same for a text in memory. */
LS_API ls_status ls_points_parse(const char *data, size_t size, const char *name, ls_points *points,
                                 ls_findings *findings, ls_error *error);

LS_API void ls_points_free(ls_points *points);

#endif
