/* A capped list of what was found wrong, doubtful or worth a word in a file, so that a reader sees every
 * mistake in one go. */
#ifndef LIVESIDE_FINDINGS_H
#define LIVESIDE_FINDINGS_H

#include "liveside/status.h"

typedef enum { LS_NOTE, LS_WARNING, LS_REJECT, LS_SEVERITY_COUNT } ls_severity;

enum { LS_FINDINGS_MAX = 64, LS_FINDING_KEY = 96, LS_FINDING_TEXT = 320 };

typedef struct {
    ls_severity severity;
    char key[LS_FINDING_KEY]; /* path of the key, "engines[1].propeller.diameter"; may be empty */
    int line;                 /* from 1; 0 where no line applies */
    int column;               /* from 1; 0 where no column applies */
    char text[LS_FINDING_TEXT];
} ls_finding;

/* Zero-initialise it. */
typedef struct {
    ls_finding item[LS_FINDINGS_MAX];
    int stored;                   /* how many of item[] are filled, in the order they came */
    int total[LS_SEVERITY_COUNT]; /* how many came of each severity, stored or not */
} ls_findings;

/* Adds one finding; a finding past the cap is counted but not stored.
 * Given: findings, may be null; key, may be null; line and column from 1, 0 for none.
 * Notes: key and text are cut at a UTF-8 character if they do not fit. They are kept as they came: whoever
 * prints them escapes them for the place (text.h). */
LS_API void ls_findings_add(ls_findings *findings, ls_severity severity, const char *key, int line, int column,
                            const char *format, ...) LS_PRINTF(6, 7);

/* The number of rejecting findings, stored or not; 0 means that the file stands. */
LS_API int ls_findings_rejects(const ls_findings *findings);

/* The number of findings that came after the list was full. */
LS_API int ls_findings_dropped(const ls_findings *findings);

/* "note", "warning" or "error"; never null. */
LS_API const char *ls_severity_text(ls_severity severity);

#endif
