/* Minimum control speed along one or two axes: any number of the condition or of the file. */
#ifndef LIVESIDE_TREND_H
#define LIVESIDE_TREND_H

#include "liveside/parameter.h"
#include "liveside/vmca.h"

/* The axes that are not numbers of the file. */
typedef enum {
    LS_AXIS_BANK, /* toward the live side positive */
    LS_AXIS_ALTITUDE,
    LS_AXIS_OAT,
    LS_AXIS_ISA,
    LS_AXIS_WEIGHT,
    LS_AXIS_CG,
    LS_AXIS_CG_LATERAL, /* right positive */
    LS_AXIS_POWER,
    LS_AXIS_FLAP, /* index of the setting from 1 */
    LS_AXIS_GEAR,
    LS_AXIS_COWL_FLAPS,
    LS_AXIS_PROPELLER, /* index in ls_vmca_states from 1 */
    LS_AXIS_ROTATION,  /* 1 clockwise, 2 anticlockwise, 3 tops inboard, 4 tops outboard */
    LS_AXIS_FILE,      /* a number of the file, by its path */
    LS_AXES
} ls_axis_kind;

typedef struct {
    const char *name;
    ls_dimension dimension;
    double low, high; /* SI, inclusive; for weight and cg the file's own range is narrower */
    const char *meaning;
} ls_axis_row;

/* The row of an axis that is not LS_AXIS_FILE. */
LS_API const ls_axis_row *ls_axis(ls_axis_kind kind);

enum { LS_AXIS_TEXT = 128, LS_AXIS_POINTS_MAX = 10000, LS_TREND_POINTS_MAX = 250000 };

/* One axis with its values, from + i step. */
typedef struct {
    ls_axis_kind kind;
    char name[LS_AXIS_TEXT];       /* as asked */
    const ls_parameter *parameter; /* LS_AXIS_FILE */
    int element;
    ls_dimension dimension;
    const ls_unit *unit; /* of a bare number, and of messages; null: SI */
    double from, step;
    int points;
} ls_trend_axis;

/* Reads NAME=FROM:TO:STEP or NAME=FROM:TO (ten steps; where values have words, every one from the first to the
 * last). Given: unit, what a bare number is in (null: SI); aircraft, for paths and names. Returned: axis. Status:
 * LS_USAGE with what is wrong and the axis nearest in name. */
typedef const ls_unit *ls_axis_unit_function(ls_axis_kind kind, ls_dimension dimension, void *context);
LS_API ls_status ls_trend_axis_parse(const char *text, const ls_aircraft *aircraft, ls_axis_unit_function *unit,
                                     void *context, ls_trend_axis *axis, ls_error *error);

/* Whether the values of an axis are words: flap settings, propeller states, ways of rotation. */
LS_API int ls_trend_axis_has_words(const ls_trend_axis *axis);

/* The value of an axis at a point, and its word where values have names ("up", "feathered"), else null. */
LS_API double ls_trend_axis_value(const ls_trend_axis *axis, int i);
LS_API const char *ls_trend_axis_word(const ls_trend_axis *axis, const ls_aircraft *aircraft, int i);

/* Puts a value of an axis into a condition or an aircraft.
 * Status: LS_USAGE when the value is outside its range. */
LS_API ls_status ls_trend_axis_apply(const ls_trend_axis *axis, double value, unsigned failed,
                                     ls_aircraft *aircraft, ls_condition *condition, double *bank_rad,
                                     ls_error *error);

typedef struct {
    const ls_aircraft *aircraft;
    ls_condition condition; /* engines failed, weight and centre of gravity set */
    unsigned failed;
    double bank_rad; /* toward the live side positive; where no axis is the bank */
    int axes;        /* 1 or 2 */
    ls_trend_axis axis[2];
} ls_trend_request;

typedef struct {
    double value[2];
    ls_vmca_point point;
} ls_trend_point;

typedef struct {
    int count;             /* solved so far; fewer than asked when it was stopped */
    ls_trend_point *point; /* the second axis runs fastest */
} ls_trend;

/* Progress and stop: both may be null. */
typedef struct {
    void (*progress)(void *context, double fraction);
    int (*stop)(void *context);
    void *context;
} ls_watch;

/* Solves every point.
 * Returned: trend, freed with ls_trend_free; a point without an answer carries its status and reason.
 * Status: LS_OK; LS_INTERRUPTED (what was solved stands); LS_USAGE (too many points); LS_MEMORY. */
LS_API ls_status ls_trend_solve(const ls_trend_request *request, const ls_watch *watch, ls_trend *trend,
                                ls_error *error);
LS_API void ls_trend_free(ls_trend *trend);

/* The controls at each of a run of speeds, for the chart of control use. */
typedef struct {
    double V_m_s, cas_m_s;
    ls_status status;
    ls_trim trim;
    ls_margins margins;
} ls_control_use;

/* Given: speeds from low to high (true), count >= 2; bank in body axes. */
LS_API void ls_control_use_solve(const ls_model *model, double bank_rad, double low_m_s, double high_m_s,
                                 int count, ls_control_use *use);

#endif
