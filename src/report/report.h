/* The results of one run, put together once by a command and then written as text, CSV or JSON.
 *
 * Numbers go in as SI and come out in the units that the reader asked for. Text may come from a user's file: it
 * goes in as it is, and each writer escapes it for its place. A failed allocation is remembered: building calls
 * return nothing, and ls_report_write reports it. */
#ifndef LIVESIDE_REPORT_REPORT_H
#define LIVESIDE_REPORT_REPORT_H

#include "liveside/status.h"
#include "liveside/units.h"
#include "report/table.h"

#include <stdio.h>

/* One line, at most 80 columns, for the foot of a text; and the whole of it, for data and for pages. */
#define LS_CAUTION_LINE "Training and study only; never for flight planning or to set a speed."
#define LS_CAUTION                                                                                    \
    "For training and study only; never for flight planning or to set a speed. The approved flight "  \
    "manual, the authority and a licensed instructor decide. Never explore minimum control speed in " \
    "flight near the ground or near the stall."

typedef enum { LS_FORMAT_TEXT, LS_FORMAT_CSV, LS_FORMAT_JSON, LS_FORMATS } ls_format;

enum { LS_INPUTS_MAX = 8, LS_TEXT_COLUMNS = 80, LS_FACT_COLUMNS = 14 };

typedef struct {
    const char *name;   /* of the file, as the user gave it */
    const char *sha256; /* 64 hexadecimal digits */
} ls_run_input;

/* What was run on what, for the foot and for the data's description. */
typedef struct {
    const char *command_line;
    const char *condition; /* the condition line; null or "" when there is none */
    ls_unit_system units;
    int inputs;
    ls_run_input input[LS_INPUTS_MAX];
} ls_run;

typedef struct ls_report ls_report;

/* Starts an empty report. Returned: null when there is no memory. Frees it, with its tables; null is allowed. */
ls_report *ls_report_new(void);
void ls_report_free(ls_report *report);

/* A line of text for people; longer ones are wrapped at spaces, indented as they begin. An answer is the same in
 * bold where the terminal allows. "" gives a blank line. */
void ls_report_line(ls_report *report, const char *format, ...) LS_PRINTF(2, 3);
void ls_report_answer(ls_report *report, const char *format, ...) LS_PRINTF(2, 3);

/* One fact of a list, its name in front; what does not fit goes on under the text. Given: columns, of the name
 * (LS_FACT_COLUMNS as a rule). */
void ls_report_fact(ls_report *report, int columns, const char *name, const char *format, ...) LS_PRINTF(4, 5);

/* A line about the program itself ("--full shows more"): of use at a terminal only. */
void ls_report_hint(ls_report *report, const char *format, ...) LS_PRINTF(2, 3);

/* A caution of this answer alone ("not a flying speed: use the flight manual's"): above the foot of a text, and in
 * the list `warnings` of the data. */
void ls_report_warning(ls_report *report, const char *format, ...) LS_PRINTF(2, 3);

/* A value of the data (JSON, and the description beside a CSV file), not shown in text.
 * Given: path, dots make objects, and the unit is added: "answer.cas" becomes {"answer": {"cas_kt": ...}};
 * us_unit, the unit of the us system if not the usual one, or null. A value that is not finite becomes null and
 * "answer.cas_reason" says why. */
void ls_report_number(ls_report *report, const char *path, ls_dimension dimension, const char *us_unit, double si);
void ls_report_missing(ls_report *report, const char *path, ls_dimension dimension, const char *reason);
void ls_report_words(ls_report *report, const char *path, const char *format, ...) LS_PRINTF(3, 4);
void ls_report_flag(ls_report *report, const char *path, int value);

/* Adds a table, to be filled row by row (table.h); it belongs to the report.
 * Given: key, its name in JSON; title, the line over it in text, or null; where, LS_IN_ bits: exactly one table of
 * a report has LS_IN_CSV; columns, which must outlive the report.
 * Returned: never null (without memory, a table that swallows everything). */
ls_table *ls_report_table(ls_report *report, const char *key, const char *title, unsigned where,
                          const ls_column *columns, int count);

/* Writes the report.
 * Given: bold, whether the stream is a terminal that may be sent escape sequences.
 * Status: LS_OK; LS_MEMORY (also for what failed while building); LS_INTERNAL. A failed write is left in the
 * stream's error indicator, for ls_output_commit. */
ls_status ls_report_write(const ls_report *report, const ls_run *run, ls_format format, int bold, FILE *stream,
                          ls_error *error);

/* Writes the description of a run and the report's values, without tables, as JSON: what stands beside a CSV. */
ls_status ls_report_describe(const ls_report *report, const ls_run *run, FILE *stream, ls_error *error);

#endif
