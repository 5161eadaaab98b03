/* Text from a user's file is data: these functions make it harmless for the place where it is shown.
 *
 * Each ls_text_for_* writes a NUL-terminated result into out and returns, as snprintf does, the length that the
 * whole result has: it was cut short exactly if that is >= size. A result cut short is still well formed (whole
 * characters, whole escapes, the closing quote in place) if size is at least 4. out may be null if size is 0.
 * Everywhere C0 (but for what is said), DEL, C1, bidirectional controls, line and paragraph separators, and each
 * byte that is not UTF-8, become '?'. */
#ifndef LIVESIDE_TEXT_H
#define LIVESIDE_TEXT_H

#include "liveside/status.h"

#include <stddef.h>

/* For a terminal: one line without control characters (ESC, newline and tab included). */
LS_API size_t ls_text_for_terminal(const char *text, char *out, size_t size);

/* For a gnuplot script: a whole single-quoted string, quotes included and inner ones doubled, one line.
 * Notes: the script must use it with `noenhanced` and never in a comment, a block name or a file name. */
LS_API size_t ls_text_for_gnuplot(const char *text, char *out, size_t size);

/* For HTML and SVG text and quoted attributes: & < > " ' become character references; tab and newline stay. */
LS_API size_t ls_text_for_html(const char *text, char *out, size_t size);

/* For CSV: a whole quoted cell, inner quotes doubled; a text that begins with = + - @ or tab gets a leading
 * apostrophe, so that no spreadsheet takes it for a formula; tab and newline stay. */
LS_API size_t ls_text_for_csv(const char *text, char *out, size_t size);

/* The candidate nearest to a word by edit distance, for "did you mean".
 * Given: word; candidates, n texts (null ones are skipped).
 * Returned: its index (the first of equals), or -1 if none is within a third of the word's length
 * (rounded up, and less than the whole word). */
LS_API int ls_text_nearest(const char *word, const char *const *candidates, int n);

/* Whether size bytes are valid UTF-8 (shortest form, no surrogates, at most U+10FFFF). */
LS_API int ls_text_is_utf8(const char *text, size_t size);

/* The offset of the first character that a file's text must not hold (NUL, C0, DEL, C1, bidirectional control,
 * line or paragraph separator, a byte that is not UTF-8), or -1 if there is none. Tab and newline count as C0. */
LS_API long ls_text_find_unsafe(const char *text, size_t size);

/* Removes a character that was cut short at the end of a text, as snprintf may leave it. */
LS_API void ls_text_trim_utf8(char *text);

/* The columns that a text takes on a terminal: combining marks none, wide East Asian characters two; a byte
 * that is not UTF-8 counts one. */
LS_API int ls_text_width(const char *text);

#endif
