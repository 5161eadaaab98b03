/* A look at the bytes of a file before they are read as YAML. */
#ifndef LS_IO_SCAN_H
#define LS_IO_SCAN_H

#include "liveside/findings.h"

#include <stddef.h>

/* How many bytes the byte-order mark at the start takes: 3 or 0. */
size_t ls_scan_mark(const char *data, size_t size);

/* Whether a file is text: UTF-8 without control characters but for tab, line feed and carriage return.
 * Returned: 1; or 0 with one finding that has the first bad character's position. */
int ls_scan_text(const char *data, size_t size, ls_findings *findings);

enum { LS_CHARACTER_NAME = 48 };

/* Names the first character of a text: "U+202E", "the byte 0x80 (not UTF-8)". Returned: out. */
const char *ls_scan_name(const char *text, size_t size, char out[LS_CHARACTER_NAME]);

/* How many characters the first size bytes of a UTF-8 text hold. */
int ls_scan_characters(const char *text, size_t size);

#endif
