/* The values of the starter file. */
#ifndef LS_IO_STARTER_DATA_H
#define LS_IO_STARTER_DATA_H

typedef struct {
    const char *path;   /* as the parameter table writes it */
    const char *first;  /* as the file shows it: of the key, or of the first entry of its list */
    const char *second; /* of the second entry; null where it leaves the key out */
} ls_starter_value;

extern const ls_starter_value ls_starter_values[];
extern const int ls_starter_value_count;

/* The lines that open the file. */
extern const char *const ls_starter_opening, *const ls_starter_ending;

#endif
