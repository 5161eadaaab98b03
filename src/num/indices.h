/* Variance-based sensitivity indices of a function of independent inputs. */
#ifndef LS_NUM_INDICES_H
#define LS_NUM_INDICES_H

#include "liveside/status.h"

#include <stdint.h>

enum { LS_INDICES_INPUTS = 20, LS_REPLICATES_LEAST = 16, LS_REPLICATES_MAX = 64 };

/* The function at many points of the unit cube; NaN where it has no value.
 * Notes: called from several threads at once; a value must depend on its point and those before it alone. */
typedef void ls_cube_function(const double *points, int dimensions, int count, double *values, void *context);

typedef struct {
    int inputs; /* 1 to LS_INDICES_INPUTS */
    int rows;   /* of each replicate; a function of d inputs is asked rows (d + 2) times */
    int replicates;
    uint64_t seed;
    int threads; /* 0: one a processor */
    ls_cube_function *function;
    void *context;
    void (*progress)(void *context, double fraction); /* may be null, as stop */
    int (*stop)(void *context);
    void *watch;
} ls_indices_job;

/* First-order and total index of an input, the mean over the replicates, with half the width of its 95 % interval
 * from their scatter. */
typedef struct {
    double first, first_half, total, total_half;
} ls_index;

typedef struct {
    int replicates;       /* that were completed; the indices stand for them */
    long values, dropped; /* dropped: rows in which the function had no value somewhere */
    double mean, deviation;
    ls_index index[LS_INDICES_INPUTS];
} ls_indices;

/* Estimates the indices from randomly shifted Sobol sequences, one a replicate.
 * Returned: indices, filled as far as replicates were completed (two at least are needed for intervals).
 * Status: LS_OK; LS_INTERRUPTED (fewer replicates); LS_MEMORY; LS_NOT_CONVERGED (a function that does not vary, or
 * has no value). Source: first order, Saltelli et al., Computer Physics Communications 181 (2010) 259, table 2
 * (b); total, Jansen, Computer Physics Communications 117 (1999) 35 (there table 2 (f)). */
ls_status ls_indices_estimate(const ls_indices_job *job, ls_indices *indices, ls_error *error);

#endif
