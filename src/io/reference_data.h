/* The prose of docs/aircraft-file.md. */
#ifndef LS_IO_REFERENCE_DATA_H
#define LS_IO_REFERENCE_DATA_H

typedef struct {
    const char *top; /* the first part of the paths of a group; "" for keys in no block */
    const char *title;
    const char *text; /* may be empty */
} ls_reference_group;

extern const ls_reference_group ls_reference_groups[];
extern const int ls_reference_group_count;

extern const char *const ls_reference_opening; /* up to the example */
extern const char *const ls_reference_example; /* a whole file */
extern const char *const ls_reference_rules;   /* between the example and the tables */
extern const char *const ls_reference_units;   /* above the table of units */
extern const char *const ls_reference_checks;  /* what is checked */
extern const char *const ls_reference_caution; /* the end */

#endif
