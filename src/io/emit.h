/* Keys of the parameter table in the order and the nesting of a file. */
#ifndef LS_IO_EMIT_H
#define LS_IO_EMIT_H

#include "liveside/parameter.h"

#include <stdio.h>

/* Called for one value. */
typedef void ls_key_visitor(const ls_parameter *parameter, int element, void *context);

/* Visits every key in the order of a file: the entries of a list one after the other.
 * Given: aircraft, for the lengths of its lists. */
void ls_keys_visit(const ls_aircraft *aircraft, ls_key_visitor *visitor, void *context);

/* A YAML file being written; zero-initialise it but for the stream. */
typedef struct {
    FILE *out;
    const ls_parameter *last; /* the key written before, null at the start */
    int last_element;
} ls_emitter;

/* Writes the names of the blocks that open before a key, so that the key's own line can follow. */
void ls_emit_blocks(ls_emitter *emitter, const ls_parameter *parameter, int element);

/* Writes the start of a key's line, "    span: "; right after ls_emit_blocks (comment lines may lie between).
 * Returned: the columns written. */
int ls_emit_key(ls_emitter *emitter, const ls_parameter *parameter, int element);

/* How far the lines of a key's block are indented. */
int ls_emit_indent(const ls_parameter *parameter);

/* Whether two keys stand in the same block at the top of the file; those in none stand together. */
int ls_same_top(const ls_parameter *a, const ls_parameter *b);

/* The key's own name, the last part of its path. */
const char *ls_key_name(const ls_parameter *parameter);

#endif
