/* One value of an aeroplane file: from its node of the tree into the aircraft, with its mark. */
#ifndef LS_IO_VALUE_H
#define LS_IO_VALUE_H

#include "io/tree.h"

#include "liveside/parameter.h"

/* The state of one reading. */
typedef struct {
    ls_tree tree;
    const ls_parameter *row; /* the table of keys */
    int rows;
    void *record;  /* that their values go to: the aircraft below, or another table's own */
    ls_mark *mark; /* of each value, in the order of the table */
    ls_aircraft aircraft;
    ls_marks marks;
    ls_findings *findings;
    ls_error *error;
    ls_source source; /* of the numbers and tables that state none */
} ls_reading;

/* Reads the value of a key from a node: a value alone, or a map of value, source, spread and shape.
 * Returned: in the reading: the value and its mark. A value that is refused is left at its default with a mark
 * of no source.
 * Status: LS_OK (findings tell of rejects) or LS_MEMORY. */
ls_status ls_value_read(ls_reading *reading, const ls_parameter *parameter, int element, int node);

/* Reads a word that must be one of "a|b|c", or a number of a dimension, from a node.
 * Returned: the word's index, -1 with a finding; whether there is a number, si, else a finding (or the reading's
 * error out of memory). */
int ls_value_word(ls_reading *reading, int node, const char *choices);
int ls_value_number(ls_reading *reading, int node, ls_dimension dimension, double *si);

/* The text of a node that must be a scalar with a value, or null with a finding. Given: needed, "a path". */
const char *ls_value_text(ls_reading *reading, int node, const char *needed);

/* The mark of a value of the reading's table. */
ls_mark *ls_reading_mark(const ls_reading *reading, const ls_parameter *parameter, int element);

/* Reads the word of a source ("measured", ...) from a node.
 * Returned: the source; LS_SOURCE_ABSENT with a finding when the word is none of them. */
ls_source ls_value_source(ls_reading *reading, int node);

/* Adds a rejecting finding at a node, under the node's path. */
void ls_reading_reject(ls_reading *reading, int node, const char *format, ...) LS_PRINTF(3, 4);

/* The text of a scalar made harmless and short enough for a message. Returned: out. */
enum { LS_SHOWN_TEXT = 64 };
const char *ls_reading_show(const char *text, char out[LS_SHOWN_TEXT]);

#endif
