/* From points of the unit cube to minimum control speeds. */
#ifndef LS_STUDY_UNCERTAIN_SAMPLES_H
#define LS_STUDY_UNCERTAIN_SAMPLES_H

#include "liveside/uncertainty.h"

/* A request prepared. */
typedef struct {
    const ls_uncertainty_request *request;
    double factor[LS_UNCERTAIN_MAX][LS_UNCERTAIN_MAX]; /* of the correlation matrix, lower triangle */
    ls_condition failed[LS_VMCA_SETS];
    int side[LS_VMCA_SETS];
} ls_sampling_plan;

/* One sample. */
typedef struct {
    double cas_m_s; /* NaN where it has none */
    ls_vmc_kind kind;
    int clipped;
    int exceeds_stall;
} ls_sample;

/* Status: LS_USAGE when the correlations contradict each other. */
ls_status ls_sampling_plan_make(const ls_uncertainty_request *request, ls_sampling_plan *plan, ls_error *error);

/* Solves a run of points, one after the other; points may be null for one sample with every input as it stands. */
void ls_samples_solve(const ls_sampling_plan *plan, const double *points, int count, ls_sample *samples);

#endif
