/* What an aeroplane file has the numbers for: fully, with assumed values, or not, and which keys are missing. */
#ifndef LIVESIDE_SUPPORT_H
#define LIVESIDE_SUPPORT_H

#include "liveside/aircraft.h"
#include "liveside/parameter.h"

typedef enum {
    LS_SUPPORT_FULL,
    LS_SUPPORT_ASSUMED, /* rests on guessed defaults, or on values that the file calls estimated or assumed */
    LS_SUPPORT_NONE,    /* keys are missing */
    LS_SUPPORT_NOTHING  /* does not arise on this aeroplane, such as feathering a jet */
} ls_support_level;

enum { LS_SUPPORT_MAX = 16, LS_SUPPORT_KEYS = 400 };

typedef struct {
    const char *name; /* of the capability, "minimum control speed set by pedal force" */
    ls_support_level level;
    int keys;                   /* how many keys are missing (NONE), or are assumed (ASSUMED) */
    char list[LS_SUPPORT_KEYS]; /* their paths, ", " between; ends with "..." when cut short */
} ls_support_row;

typedef struct {
    int rows;
    ls_support_row row[LS_SUPPORT_MAX];
} ls_support;

/* Works out the support of every capability, in a fixed order.
 * Given: aircraft and marks as the reader filled them. Returned: support. */
LS_API void ls_aircraft_support(const ls_aircraft *aircraft, const ls_marks *marks, ls_support *support);

/* "fully", "with assumed values", "not", "does not arise"; never null. */
LS_API const char *ls_support_text(ls_support_level level);

#endif
