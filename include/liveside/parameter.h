/* The one table of aeroplane-file keys: the reader, the check, the starter file, the documentation, the
 * trend axes and every study of a number in the file use it. */
#ifndef LIVESIDE_PARAMETER_H
#define LIVESIDE_PARAMETER_H

#include "liveside/aircraft.h"
#include "liveside/findings.h"
#include "liveside/units.h"

typedef enum {
    LS_KEY_NUMBER,
    LS_KEY_TEXT,   /* char[LS_NAME_SIZE], or char[LS_NOTE_SIZE] for `note` */
    LS_KEY_CHOICE, /* int: the index of the word in `choices` */
    LS_KEY_CURVE   /* ls_curve: a list of two-element rows [x, y] */
} ls_key_kind;

typedef enum {
    LS_REQUIRED,      /* refused when missing (where `applies` says that the key applies) */
    LS_NEUTRAL,       /* the default is a convention of the trade or "no such thing", not a guess */
    LS_ASSUMED_VALUE, /* the default is a guess: results that rest on it are rounded and say so */
    LS_OPTIONAL,      /* absent means "no data": held as NaN, or a curve of 0 rows */
    LS_WITH_BLOCK     /* absent together with its whole block, required once the block is there */
} ls_presence;

/* Bits of `applies`: the key is meaningful only for such an engine or propeller; 0 means always. */
enum {
    LS_FOR_PISTON = 1,
    LS_FOR_TURBOPROP = 2,
    LS_FOR_ELECTRIC = 4,
    LS_FOR_JET = 8,
    LS_FOR_COEFFICIENTS = 16,
    LS_FOR_BLADE_ELEMENT = 32,
    LS_FOR_SHAFT = LS_FOR_PISTON | LS_FOR_TURBOPROP | LS_FOR_ELECTRIC
};

typedef enum { LS_LIST_NONE, LS_LIST_FLAPS, LS_LIST_POWERPLANTS, LS_LIST_ENGINES } ls_list;

typedef struct {
    const char *path; /* "wing.area", "flaps[].lift_max", "powerplants[].engine.power" */
    ls_key_kind kind;
    ls_dimension dimension; /* of the number, or of a curve's second column */
    ls_dimension argument;  /* of a curve's first column */
    double low, high;       /* SI, inclusive; of a curve's second column */
    ls_presence presence;
    double
        fallback; /* SI, for LS_NEUTRAL and LS_ASSUMED_VALUE (NaN: estimated from other keys); index of a choice */
    unsigned applies;
    const char *choices; /* "stability|body" */
    size_t offset;       /* in ls_aircraft, of element 0 when the key is in a list */
    const char *meaning; /* one line, for the documentation and the starter file */
} ls_parameter;

/* The table and its length; ordered as the starter file is. */
LS_API const ls_parameter *ls_parameters(int *count);

/* The list a key belongs to, that list's capacity and stride; LS_LIST_NONE: 1 and 0. */
LS_API ls_list ls_parameter_list(const ls_parameter *parameter);
LS_API int ls_list_capacity(ls_list list);
LS_API size_t ls_list_stride(ls_list list);
LS_API const char *ls_list_name(ls_list list); /* "flaps", "powerplants", "engines"; "" for none */
/* How many elements an aircraft has of a list; LS_LIST_NONE: 1. */
LS_API int ls_list_length(const ls_aircraft *aircraft, ls_list list);
LS_API void ls_list_set_length(ls_aircraft *aircraft, ls_list list, int length);

/* Where the value of a key stands in an aircraft. element: 0 for a key outside lists. */
LS_API void *ls_parameter_value(ls_aircraft *aircraft, const ls_parameter *parameter, int element);
LS_API const void *ls_parameter_value_const(const ls_aircraft *aircraft, const ls_parameter *parameter,
                                            int element);

/* True when the key means something for this element: for a powerplant its engine type and kind of propeller
 * count, for an engine those of its powerplant. */
LS_API int ls_parameter_applies(const ls_aircraft *aircraft, const ls_parameter *parameter, int element);

/* Whether no steady answer rests on a key, but motion alone: inertia, rates, pilot, ground, transient. */
LS_API int ls_parameter_is_of_motion(const ls_parameter *parameter);

/* Finds a key from a path that a person wrote, "wing.area", "flaps[up].lift_max", "engines[1].hub_right"
 * (names, or numbers counted from 1).
 * Returned: the key and its element, or null with the message in error (nearest known path offered). */
LS_API const ls_parameter *ls_parameter_find(const ls_aircraft *aircraft, const char *path, int *element,
                                             ls_error *error);

/* Fills every value with its default (NaN for optional and required numbers) and empties the lists. */
LS_API void ls_aircraft_defaults(ls_aircraft *aircraft);

typedef enum {
    LS_SOURCE_ABSENT,
    LS_SOURCE_DEFAULT, /* neutral default */
    LS_SOURCE_GUESS,   /* assumed default */
    LS_SOURCE_GIVEN,   /* in the file, no source stated */
    LS_SOURCE_MEASURED,
    LS_SOURCE_PUBLISHED,
    LS_SOURCE_ESTIMATED,
    LS_SOURCE_ASSUMED
} ls_source;

typedef struct {
    ls_source source;
    double spread;    /* SI, of a curve a share of each y; 0 when the file states none */
    int line, column; /* of the value; 0 when it is a default */
} ls_mark;

enum { LS_MARKS_MAX = 1024 };

/* What the file said of each value, parallel to the aircraft. */
typedef struct {
    ls_mark mark[LS_MARKS_MAX];
} ls_marks;

LS_API ls_mark *ls_mark_of(ls_marks *marks, const ls_parameter *parameter, int element);
LS_API const ls_mark *ls_mark_of_const(const ls_marks *marks, const ls_parameter *parameter, int element);

/* How many values that enter a solution are estimated, assumed or guessed: of steady flight, and of motion
 * besides.
 */
LS_API int ls_marks_uncertain(const ls_aircraft *aircraft, const ls_marks *marks);
LS_API int ls_marks_uncertain_motion(const ls_aircraft *aircraft, const ls_marks *marks);

/* Plausibility: signs of derivatives, side_sideslip yaw_rudder - yaw_sideslip side_rudder > 0, rudder arm, engine
 * symmetry, order of limits. Every finding carries the key and the position from marks. */
LS_API void ls_aircraft_check(const ls_aircraft *aircraft, const ls_marks *marks, ls_findings *findings);

#endif
