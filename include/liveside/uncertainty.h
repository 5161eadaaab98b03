/* How sure the answer is: the minimum control speed with inputs that are known only with a spread. */
#ifndef LIVESIDE_UNCERTAINTY_H
#define LIVESIDE_UNCERTAINTY_H

#include "liveside/inputs.h"

#include <stdint.h>

enum {
    LS_UNCERTAIN_MAX = 40, /* inputs; 20 for the indices */
    LS_UNCERTAIN_INDICES = 20,
    LS_PERCENTILES = 7,
    LS_HISTOGRAM = 60,
    LS_SAMPLES_MAX = 100000000,
    LS_UNCERTAIN_REPLICATES = 16
};

typedef enum { LS_SAMPLES_RANDOM, LS_SAMPLES_SOBOL } ls_sampling;

typedef struct {
    const ls_aircraft *aircraft;
    ls_condition condition; /* every engine running, weight and centre of gravity set */
    int sets;               /* of failed engines: each is solved, and the highest speed counts */
    unsigned set[LS_VMCA_SETS];
    int state;       /* ls_engine_state of the failed engines, or -1: as each goes by itself */
    double bank_rad; /* toward the live side positive */
    int inputs;
    ls_input input[LS_UNCERTAIN_MAX];                       /* with spread and shape */
    int correlated;                                         /* whether the matrix is not the unit matrix */
    double correlation[LS_UNCERTAIN_MAX][LS_UNCERTAIN_MAX]; /* of the normal variables behind the inputs */
    ls_sampling sampling;
    long samples; /* 1 to LS_SAMPLES_MAX; of the Sobol sequence rounded up to a multiple of its replicates */
    uint64_t seed;
    int threads;        /* 0: one a processor */
    double exceeds_m_s; /* calibrated; 0: not asked */
    int index_rows;     /* of each replicate of the sensitivity indices; 0: none */
} ls_uncertainty_request;

/* An estimate with its 95 % interval. */
typedef struct {
    double value, low, high;
} ls_sampled;

/* First-order and total sensitivity index. */
typedef struct {
    ls_sampled first, total;
} ls_input_index;

typedef struct {
    long asked, samples;           /* fewer than asked when it was stopped */
    long kinds[LS_VMC_FAILED + 1]; /* how the samples ended: ls_vmc_kind of the highest speed */
    long clipped;                  /* values that were set to an end of what the input may be */
    double nominal_m_s; /* with every input as it stands; NaN where there is none. All speeds are calibrated */
    double mean_m_s, deviation_m_s; /* of the samples that have a speed */
    double share[LS_PERCENTILES];   /* below each percentile */
    ls_sampled percentile[LS_PERCENTILES];
    ls_sampled exceeds;       /* share above exceeds_m_s */
    ls_sampled exceeds_stall; /* share above 1.2 stall speeds at maximum mass (14 CFR 23.149(b), Amdt 23-50) */
    double class_from_m_s, class_width_m_s;
    long class_count[LS_HISTOGRAM];
    int indices; /* replicates behind the indices; 0: there are none */
    long index_samples, index_dropped;
    ls_input_index index[LS_UNCERTAIN_INDICES];
} ls_uncertainty;

/* Draws the samples and works out everything of them; the speeds are kept as counts in steps of 0.001 kt.
 * Returned: result; where it was stopped, for the samples drawn until then.
 * Status: LS_OK; LS_USAGE (no inputs, an input that rebuilds a propeller, a correlation matrix that is none,
 * indices of correlated or too many inputs: the message says it); LS_INTERRUPTED (result stands for what was
 * done); LS_NOT_CONVERGED (not one sample has a speed); LS_MEMORY. Notes: the same seed gives the same result with
 * any number of threads. */
LS_API ls_status ls_uncertainty_solve(const ls_uncertainty_request *request, const ls_watch *watch,
                                      ls_uncertainty *result, ls_error *error);

/* Takes every input with a spread, and the correlations between them, into a request whose other fields are set.
 * Status: LS_USAGE (none, or more than LS_UNCERTAIN_MAX). */
LS_API ls_status ls_uncertainty_gather(const ls_inputs *inputs, const ls_marks *marks,
                                       ls_uncertainty_request *request, ls_error *error);

#endif
