#include "num/sampling.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_qrng.h>

#include <math.h>
#include <stdlib.h>

struct ls_sampler {
    int dimensions;
    gsl_qrng *sequence; /* null: pseudo-random */
    double shift[LS_DIMENSIONS_MAX];
    uint64_t state;
};

static const uint64_t golden = 0x9E3779B97F4A7C15u;

static uint64_t mix(uint64_t z)
{
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return z ^ (z >> 31);
}

/* Half a step away from 0 and from 1. */
static double next_uniform(uint64_t *state)
{
    *state += golden;
    return ((double)(mix(*state) >> 12) + 0.5) * 0x1p-52;
}

ls_sampler *ls_sampler_new(int kind, int dimensions, uint64_t seed, int replicate)
{
    ls_sampler *sampler = calloc(1, sizeof *sampler);
    if (sampler == NULL) {
        return NULL;
    }
    sampler->dimensions = dimensions;
    sampler->state = mix(seed + golden) ^ mix(mix((uint64_t)replicate + 1));
    if (kind == 1) {
        sampler->sequence = gsl_qrng_alloc(gsl_qrng_sobol, (unsigned)dimensions);
        if (sampler->sequence == NULL) {
            free(sampler);
            return NULL;
        }
        for (int k = 0; k < dimensions; k++) {
            sampler->shift[k] = next_uniform(&sampler->state);
        }
    }
    return sampler;
}

void ls_sampler_free(ls_sampler *sampler)
{
    if (sampler != NULL && sampler->sequence != NULL) {
        gsl_qrng_free(sampler->sequence);
    }
    free(sampler);
}

static void fill_sequence(ls_sampler *sampler, double *point)
{
    const double end = 0x1p-53;
    gsl_qrng_get(sampler->sequence, point);
    for (int k = 0; k < sampler->dimensions; k++) {
        double x = point[k] + sampler->shift[k];
        x = x >= 1.0 ? x - 1.0 : x;
        point[k] = fmin(1.0 - end, fmax(end, x));
    }
}

void ls_sampler_fill(ls_sampler *sampler, int count, double *points)
{
    for (int i = 0; i < count; i++, points += sampler->dimensions) {
        if (sampler->sequence != NULL) {
            fill_sequence(sampler, points);
            continue;
        }
        for (int k = 0; k < sampler->dimensions; k++) {
            points[k] = next_uniform(&sampler->state);
        }
    }
}

double ls_normal_quantile(double u)
{
    return gsl_cdf_ugaussian_Pinv(u);
}

double ls_normal_share(double z)
{
    return gsl_cdf_ugaussian_P(z);
}

double ls_student_95(int freedom)
{
    return gsl_cdf_tdist_Pinv(0.975, freedom);
}

int ls_cholesky(int n, double *a)
{
    for (int j = 0; j < n; j++) {
        double *row = a + j * n, square = row[j];
        for (int k = 0; k < j; k++) {
            square -= row[k] * row[k];
        }
        if (!(square > 1e-12)) {
            return 0;
        }
        row[j] = sqrt(square);
        for (int i = j + 1; i < n; i++) {
            double *under = a + i * n;
            for (int k = 0; k < j; k++) {
                under[j] -= under[k] * row[k];
            }
            under[j] /= row[j];
        }
    }
    return 1;
}
