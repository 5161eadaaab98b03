/* Points of the unit cube and what distributions make of them. */
#ifndef LS_NUM_SAMPLING_H
#define LS_NUM_SAMPLING_H

#include <stdint.h>

enum { LS_DIMENSIONS_MAX = 40 };

typedef struct ls_sampler ls_sampler;

/* Pseudo-random points (kind 0) or the Sobol sequence (kind 1) turned by a random shift, each coordinate modulo 1.
 * Given: dimensions, 1 to LS_DIMENSIONS_MAX; seed and replicate, which number the streams and the shifts.
 * Returned: null without memory.
 * Notes: point i depends on seed, replicate and i alone.
 * Source: GSL's Sobol sequence (Bratley and Fox, ACM TOMS 14 (1988) 88, algorithm 659); the shift: Cranley and
 * Patterson, SIAM J. Numer. Anal. 13 (1976) 904; the generator: SplitMix64, Steele, Lea and Flood, OOPSLA 2014. */
ls_sampler *ls_sampler_new(int kind, int dimensions, uint64_t seed, int replicate);
void ls_sampler_free(ls_sampler *sampler);

/* The next points, one after the other; every coordinate lies strictly within 0 and 1. */
void ls_sampler_fill(ls_sampler *sampler, int count, double *points);

/* Of the standard normal distribution: the value below which a share u lies, and the share below a value. */
double ls_normal_quantile(double u);
double ls_normal_share(double z);

/* Student's t that holds 95 % between -t and t. Given: freedom >= 1. */
double ls_student_95(int freedom);

/* The factor L of a symmetric positive definite matrix, L L' = a, in its lower triangle.
 * Given: a, n rows of n. Returned: 0 when a is not positive definite. */
int ls_cholesky(int n, double *a);

#endif
