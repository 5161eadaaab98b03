/* The keys of the parameter table against the tree of a file: where each stands, which are missing, which the
 * table does not know. */
#ifndef LS_IO_KEYS_H
#define LS_IO_KEYS_H

#include "io/value.h"

typedef enum { LS_APPLIES, LS_APPLIES_NOT, LS_APPLIES_PERHAPS } ls_applying;

/* Sets the lengths of the lists in the aircraft, and finds fault with their shape. */
void ls_keys_lists(ls_reading *reading);

/* Whether a key has a meaning for an element; PERHAPS while its engine type or propeller kind is not known. */
ls_applying ls_keys_applying(const ls_reading *reading, const ls_parameter *parameter, int element);

/* The node of a key's value, marked as known on the way; LS_NO_NODE where it is missing.
 * Returned: holder, the innermost block that is there, or LS_NO_NODE where its shape is wrong and was refused;
 * and missing, the first part of the path that is not. */
int ls_keys_find(ls_reading *reading, const ls_parameter *parameter, int element, int *holder,
                 const char **missing);

/* Refuses the absence of a required key; of a block that is missing as a whole, only once. */
void ls_keys_missing(ls_reading *reading, const ls_parameter *parameter, int element, int holder,
                     const char *missing);

/* Refuses every key of the tree that nothing has found a meaning for, with the nearest that has one. */
void ls_keys_unknown(ls_reading *reading);

/* Whether two keys stand in the same innermost block. */
int ls_keys_same_block(const ls_parameter *a, const ls_parameter *b);

#endif
