/* Every number that a result rests on, of the aeroplane file and of the condition, in one list. */
#ifndef LIVESIDE_INPUTS_H
#define LIVESIDE_INPUTS_H

#include "liveside/trend.h"

/* One input. A table of the file counts as one, a factor on its second column. */
typedef struct {
    char name[LS_AXIS_TEXT];       /* "derivatives.yaw.rudder", "engines[left].hub.right", "altitude" */
    ls_axis_kind kind;             /* LS_AXIS_FILE, or of the condition */
    const ls_parameter *parameter; /* of LS_AXIS_FILE */
    int element;
    ls_dimension dimension; /* of the value; LS_DIM_NUMBER for a table's factor */
    double base;            /* SI; 1 for a table */
    double low, high;       /* SI, that it may take */
    double spread;          /* SI, standard deviation; 0: none is known */
    ls_shape shape;
    int rebuilds; /* a change of it needs a new propeller table */
} ls_input;

enum { LS_STUDY_INPUTS = 512 };

typedef struct {
    int count;
    ls_input input[LS_STUDY_INPUTS];
} ls_inputs;

/* Lists the numbers of the condition (bank, altitude, temperature, weight, centre of gravity, power, gear, cowl
 * flaps) and every number and table of the file that is given or has a default and means something for this
 * aeroplane. Given: bank_rad toward the live side positive. */
LS_API void ls_inputs_list(const ls_aircraft *aircraft, const ls_marks *marks, const ls_condition *condition,
                           double bank_rad, ls_inputs *inputs);

/* Finds one by its name, or a path as ls_parameter_find takes it. Returned: null with the message in error. */
LS_API const ls_input *ls_inputs_find(const ls_inputs *inputs, const ls_aircraft *aircraft, const char *name,
                                      ls_error *error);

/* Puts a value in place.
 * Given: original, the aircraft that the inputs were listed for; aircraft, a copy of it, perhaps changed. */
LS_API void ls_input_apply(const ls_input *input, double value, const ls_aircraft *original, ls_aircraft *aircraft,
                           ls_condition *condition, double *bank_rad);

/* A step of an input that a person would take: a tenth of a number, and where a share of it says nothing a plain
 * amount (1000 ft, 10 degC, 1 deg of bank, 1 in of centre of gravity; 0.001 of a coefficient that is zero). */
LS_API double ls_input_usual_step(const ls_input *input);

#endif
