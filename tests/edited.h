/* Aeroplane files for the tests: one of tests/data with a piece of its text replaced. */
#ifndef LIVESIDE_TESTS_EDITED_H
#define LIVESIDE_TESTS_EDITED_H

#include "liveside/reader.h"

/* What reading gave; large, so static in the tests. */
typedef struct {
    ls_status status;
    ls_aircraft aircraft;
    ls_marks marks;
    ls_findings findings;
    ls_error error;
} edited_file;

/* Reads "tests/data/twin.yaml" or another file with the first occurrence of `old` (which must be there) replaced
 * by `new`; null: as it is. */
void edited_read(const char *path, const char *old, const char *new, edited_file *file);

/* Reads a text as an aeroplane file. */
void edited_parse(const char *text, size_t size, edited_file *file);

/* The whole text of a file, to be freed; the running test fails if it cannot be read. */
char *edited_text(const char *path);

/* What a function prints to a stream, to be freed. */
typedef void edited_printer(FILE *out, const void *context);
char *edited_print(edited_printer *printer, const void *context);

/* The findings as ls_findings_print shows them, the file called `name`; to be freed. */
char *edited_findings(const char *name, const ls_findings *findings);

#endif
