/* The aeroplane file: a subset of YAML, read into an aircraft with a mark for every value, and written again.
 * Its keys are those of the parameter table (parameter.h); docs/aircraft-file.md describes the file for people. */
#ifndef LIVESIDE_READER_H
#define LIVESIDE_READER_H

#include "liveside/aircraft.h"
#include "liveside/file.h"
#include "liveside/findings.h"
#include "liveside/geometry.h"
#include "liveside/parameter.h"
#include "liveside/units.h"

#include <stdio.h>

/* What an aeroplane file may not exceed; curves: LS_CURVE_MAX rows; lists: ls_list_capacity. */
enum { LS_READ_BYTES = 1 << 20, LS_READ_DEPTH = 8, LS_READ_KEYS = 4096, LS_READ_VALUES = 16384 };

/* Reads an aeroplane file, "-" for standard input, and checks it (ls_aircraft_check), every error in one go.
 * Given: findings, zero-initialised; sha256 and error may be null.
 * Returned: aircraft and marks, untouched on failure; findings, always, in the order of the lines; sha256 of the
 * bytes read (an empty text when nothing was read).
 * Status: LS_OK (there may be warnings and notes); LS_FILE_REJECTED (see findings; error has their number);
 * LS_IO (missing, not readable), LS_MEMORY: error says it. */
LS_API ls_status ls_aircraft_read(const char *path, ls_aircraft *aircraft, ls_marks *marks, ls_findings *findings,
                                  char sha256[LS_SHA256_TEXT], ls_error *error);

/* The same for a file that is in memory already.
 * Given: data, size bytes; name, what messages call it.
 * Status: LS_OK, LS_FILE_REJECTED, LS_MEMORY. */
LS_API ls_status ls_aircraft_parse(const char *data, size_t size, const char *name, ls_aircraft *aircraft,
                                   ls_marks *marks, ls_findings *findings, ls_error *error);

/* Reads a file for `estimate`, geometry or handbook level as its key `level` says, in the same form and with the
 * same findings as an aeroplane file.
 * Returned: input, untouched on failure; findings and sha256 as ls_aircraft_read. Status: as ls_aircraft_read. */
LS_API ls_status ls_geometry_read(const char *path, ls_geometry_input *input, ls_findings *findings,
                                  char sha256[LS_SHA256_TEXT], ls_error *error);

/* The same for a text in memory; name is what messages call it. */
LS_API ls_status ls_geometry_parse(const char *data, size_t size, const char *name, ls_geometry_input *input,
                                   ls_findings *findings, ls_error *error);

enum { LS_FINDINGS_SHOWN = 20 };

/* Prints findings of at least a severity, "FILE:LINE:COLUMN: error: KEY: TEXT" a line, the LS_FINDINGS_SHOWN
 * first ones (errors before warnings before notes), then how many more there are.
 * Notes: everything that came from the file is made harmless for a terminal. */
LS_API void ls_findings_print(FILE *out, const char *file, const ls_findings *findings, ls_severity least);

/* "measured", "default", ...; never null. */
LS_API const char *ls_source_text(ls_source source);

/* The commented starter file that `liveside new FILE` writes: a complete, valid, invented aeroplane.
 * Notes: this and the functions below print to a stream of the caller's, who looks for its errors. */
LS_API void ls_aircraft_write_starter(FILE *out);

/* An aircraft as a file that reads back to the same numbers, sources and spreads. */
LS_API void ls_aircraft_write(FILE *out, const ls_aircraft *aircraft, const ls_marks *marks);

/* The resolved aeroplane for people: every key that applies, with value, source and spread, 80 columns. */
LS_API void ls_aircraft_print(FILE *out, const ls_aircraft *aircraft, const ls_marks *marks,
                              ls_unit_system system);

/* The defaults that were used, conventions and guesses apart. */
LS_API void ls_aircraft_print_defaults(FILE *out, const ls_aircraft *aircraft, const ls_marks *marks,
                                       ls_unit_system system);

/* The reference of the file's keys in Markdown: docs/aircraft-file.md. */
LS_API void ls_aircraft_write_reference(FILE *out);

#endif
