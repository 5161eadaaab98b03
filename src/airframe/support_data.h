/* What each capability needs of an aeroplane file: one row here is all that a new capability takes. */
#ifndef LS_AIRFRAME_SUPPORT_DATA_H
#define LS_AIRFRAME_SUPPORT_DATA_H

/* What it means for a capability that a key is left to its default. */
typedef enum {
    LS_DEFAULT_SERVES,     /* a neutral default is as good as a value; a guessed one counts as assumed */
    LS_DEFAULT_IS_ASSUMED, /* "no such effect" is an assumption here */
    LS_DEFAULT_IS_MISSING  /* without a value the capability would show nothing */
} ls_default_means;

typedef struct {
    const char *path; /* of a key, or of a block with its last point: "fin.stall_sideslip", "wing." */
    ls_default_means means;
} ls_need;

enum { LS_NEEDS_MAX = 20 };

typedef struct {
    const char *name;
    ls_need need[LS_NEEDS_MAX]; /* ended by a null path */
} ls_capability;

extern const ls_capability ls_capabilities[];
extern const int ls_capability_count;

#endif
