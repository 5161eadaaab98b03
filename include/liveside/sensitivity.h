/* Which number matters: slopes and elasticities of the answers with respect to every input. */
#ifndef LIVESIDE_SENSITIVITY_H
#define LIVESIDE_SENSITIVITY_H

#include "liveside/climb.h"
#include "liveside/inputs.h"

/* The answers whose dependence is worked out. */
typedef enum {
    LS_RESULT_VMC,   /* calibrated, of the given failure at the given bank; the stall where that is met first */
    LS_RESULT_CLIMB, /* rate with the engine failed, without sideslip, at a calibrated airspeed that is kept */
    LS_RESULT_BANK,  /* toward the live side, without sideslip, in that climb */
    LS_RESULTS
} ls_result;

LS_API const char *ls_result_name(ls_result result);
LS_API ls_dimension ls_result_dimension(ls_result result);

typedef struct {
    const ls_aircraft *aircraft;
    ls_condition condition; /* engines failed, weight and centre of gravity set */
    unsigned failed;
    double bank_rad;   /* toward the live side positive: of VMC */
    double cas_m_s;    /* of the climb; 0: the speed of best rate */
    double step_share; /* of each value, for the changes that are shown; 0: the file's spread, else a usual step */
} ls_sensitivity_request;

/* How one answer follows one input; NaN where there is no answer. */
typedef struct {
    double slope;      /* SI over SI */
    double error;      /* of the slope: how far the last halving of the step moved it */
    double elasticity; /* per cent of the answer per per cent of the input; NaN where either is zero */
    double down, up;   /* change of the answer when the input goes down or up by the row's step */
} ls_response;

typedef struct {
    const ls_input *input;
    double step;       /* SI */
    int is_spread;     /* the step is the file's spread */
    int limit_changes; /* another limit is met, or the wing stalls first, within the step */
    char reason[96];   /* why an answer is missing, "" for none */
    ls_response of[LS_RESULTS];
} ls_sensitivity_row;

typedef struct {
    double base[LS_RESULTS];
    double cas_m_s; /* of the climb */
    ls_vmc_kind kind;
    ls_limit limit;
    char reason[96];         /* why there is no climb, "" for none */
    int count;               /* rows that were worked out */
    ls_sensitivity_row *row; /* by effect on VMC, the largest first */
} ls_sensitivity;

/* Works out every row. Given: inputs, which must outlive the result; watch, may be null.
 * Returned: sensitivity, freed with ls_sensitivity_free.
 * Status: LS_OK; LS_INTERRUPTED (the rows done so far stand); LS_NO_STATE where the base has no VMC; LS_MEMORY. */
LS_API ls_status ls_sensitivity_solve(const ls_sensitivity_request *request, const ls_inputs *inputs,
                                      const ls_watch *watch, ls_sensitivity *sensitivity, ls_error *error);
LS_API void ls_sensitivity_free(ls_sensitivity *sensitivity);

/* Puts the rows in the order of their effect on an answer. */
LS_API void ls_sensitivity_sort(ls_sensitivity *sensitivity, ls_result by);

#endif
