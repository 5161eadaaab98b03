/* What the files of the factor study share. */
#ifndef LS_STUDY_FACTORS_PARTS_H
#define LS_STUDY_FACTORS_PARTS_H

#include "liveside/factors.h"

/* One end of a step, to be solved. */
typedef struct {
    ls_aircraft aircraft; /* changed where the factor is a number of the file */
    ls_condition condition;
    double bank_rad; /* toward the live side positive */
    unsigned failed;
    int fixed_bank; /* the climb too is flown at that bank; else without sideslip */
} ls_factor_end;

/* Puts a factor's step between two ends, both given as the base.
 * Returned: the state of the speed's change, with step, numbers and reason in result. */
void ls_factor_set(ls_factor_kind kind, const ls_factors *factors, unsigned other, ls_factor_end *from,
                   ls_factor_end *to, ls_factor_result *result);

/* The setting that the step of the flap begins at: the one before the condition's, or the first. */
int ls_factor_less_flap(int flap);

/* Why an aeroplane disagrees with what is taught, from its own numbers. */
void ls_factor_explain(const ls_aircraft *aircraft, const ls_factors *factors, ls_factor_result *result);

#endif
