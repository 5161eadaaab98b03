#include "num/indices.h"

#include "num/parallel.h"
#include "num/sampling.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { CHUNK_ROWS = 32, CHUNKS = 16, BLOCK_ROWS = CHUNK_ROWS * CHUNKS };

/* The values of a row: f(A), f(B), then f(A) with one coordinate after the other taken from B. */
typedef struct {
    const ls_indices_job *job;
    double *base;  /* BLOCK_ROWS points of 2 d coordinates */
    double *point; /* the points of all rows */
    double *value;
    int rows; /* of this block */
} block;

typedef struct {
    long rows, dropped;
    double offset;      /* a value near the mean: what is summed is small beside it */
    double sum, square; /* over f(A) and f(B) */
    double first[LS_INDICES_INPUTS], lean[LS_INDICES_INPUTS], total[LS_INDICES_INPUTS];
} sums;

static int values_of_row(const ls_indices_job *job)
{
    return job->inputs + 2;
}

static void lay_row(const double *base, int d, double *point)
{
    const double *A = base, *B = base + d;
    memcpy(point, A, (size_t)d * sizeof *A);
    memcpy(point + d, B, (size_t)d * sizeof *B);
    for (int i = 0; i < d; i++) {
        double *mixed = point + (2 + i) * d;
        memcpy(mixed, A, (size_t)d * sizeof *A);
        mixed[i] = B[i];
    }
}

static void run_chunk(int chunk, void *context)
{
    block *b = context;
    int d = b->job->inputs, first = chunk * CHUNK_ROWS, each = values_of_row(b->job);
    int rows = b->rows - first < CHUNK_ROWS ? b->rows - first : CHUNK_ROWS;
    for (int i = first; i < first + rows; i++) {
        lay_row(b->base + (size_t)i * 2 * d, d, b->point + (size_t)i * each * d);
    }
    b->job->function(b->point + (size_t)first * each * d, d, rows * each, b->value + (size_t)first * each,
                     b->job->context);
}

static void add_row(const double *value, int d, sums *s)
{
    int is_whole = 1;
    for (int i = 0; i < d + 2; i++) {
        is_whole &= isfinite(value[i]) != 0;
    }
    if (!is_whole) {
        s->dropped++;
        return;
    }
    if (s->rows++ == 0) {
        s->offset = value[0];
    }
    double fA = value[0] - s->offset, fB = value[1] - s->offset;
    s->sum += fA + fB;
    s->square += fA * fA + fB * fB;
    for (int i = 0; i < d; i++) {
        double fAB = value[2 + i] - s->offset;
        s->first[i] += fB * (fAB - fA);
        s->lean[i] += fAB - fA;
        s->total[i] += (fA - fAB) * (fA - fAB);
    }
}

static ls_status run_replicate(const ls_indices_job *job, int replicate, block *b, sums *s, ls_error *error)
{
    ls_sampler *sampler = ls_sampler_new(1, 2 * job->inputs, job->seed, replicate);
    if (sampler == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory for a sequence of %d dimensions", 2 * job->inputs);
    }
    ls_status status = LS_OK;
    for (int done = 0; done < job->rows && status == LS_OK; done += b->rows) {
        b->rows = job->rows - done < BLOCK_ROWS ? job->rows - done : BLOCK_ROWS;
        ls_sampler_fill(sampler, b->rows, b->base);
        int chunks = (b->rows + CHUNK_ROWS - 1) / CHUNK_ROWS;
        if (ls_parallel_for(chunks, job->threads, run_chunk, NULL, b) < chunks ||
            (job->stop != NULL && job->stop(job->watch))) {
            status = LS_INTERRUPTED;
        }
        for (int i = 0; i < b->rows && status == LS_OK; i++) {
            add_row(b->value + (size_t)i * values_of_row(job), job->inputs, s);
        }
        if (job->progress != NULL) {
            job->progress(job->watch, (replicate + (double)(done + b->rows) / job->rows) / job->replicates);
        }
    }
    ls_sampler_free(sampler);
    return status;
}

/* The indices of one replicate. The products with f(B) were summed about the offset; `lean` brings them to the
 * mean. */
static void indices_of(const sums *s, int d, double *mean, double *variance, double *first, double *total)
{
    double n = (double)s->rows, m = s->sum / (2.0 * n);
    *mean = s->offset + m;
    *variance = s->square / (2.0 * n) - m * m;
    for (int i = 0; i < d; i++) {
        first[i] = (s->first[i] - m * s->lean[i]) / (n * *variance);
        total[i] = s->total[i] / (2.0 * n * *variance);
    }
}

/* Mean over replicates, and half the width of its 95 % interval. */
static void summarise(const double *x, int stride, int n, double *mean, double *half)
{
    double sum = 0.0, square = 0.0;
    for (int i = 0; i < n; i++) {
        sum += x[i * stride];
    }
    *mean = sum / n;
    for (int i = 0; i < n; i++) {
        square += (x[i * stride] - *mean) * (x[i * stride] - *mean);
    }
    *half = n > 1 ? ls_student_95(n - 1) * sqrt(square / (n - 1) / n) : NAN;
}

static ls_status run_all(const ls_indices_job *job, block *b, ls_indices *indices, ls_error *error)
{
    double first[LS_REPLICATES_MAX][LS_INDICES_INPUTS], total[LS_REPLICATES_MAX][LS_INDICES_INPUTS];
    double mean[LS_REPLICATES_MAX], variance[LS_REPLICATES_MAX], unused;
    ls_status status = LS_OK;
    int done = 0;
    for (; done < job->replicates; done++) {
        sums s = {0};
        status = run_replicate(job, done, b, &s, error);
        if (status != LS_OK) {
            break;
        }
        indices_of(&s, job->inputs, &mean[done], &variance[done], first[done], total[done]);
        indices->values += (s.rows + s.dropped) * values_of_row(job);
        indices->dropped += s.dropped;
        if (!(variance[done] > 1e-24 * (1.0 + mean[done] * mean[done]))) {
            return ls_fail(error, LS_NOT_CONVERGED,
                           "the result does not vary with the inputs: there is nothing to share");
        }
    }
    indices->replicates = done;
    if (done > 0) {
        summarise(mean, 1, done, &indices->mean, &unused);
        summarise(variance, 1, done, &indices->deviation, &unused);
        indices->deviation = sqrt(indices->deviation);
    }
    for (int i = 0; i < job->inputs && done > 0; i++) {
        ls_index *index = &indices->index[i];
        summarise(&first[0][i], LS_INDICES_INPUTS, done, &index->first, &index->first_half);
        summarise(&total[0][i], LS_INDICES_INPUTS, done, &index->total, &index->total_half);
    }
    return status;
}

ls_status ls_indices_estimate(const ls_indices_job *job, ls_indices *indices, ls_error *error)
{
    size_t d = (size_t)job->inputs, each = d + 2;
    block b = {.job = job,
               .base = malloc(BLOCK_ROWS * 2 * d * sizeof(double)),
               .point = malloc(BLOCK_ROWS * each * d * sizeof(double)),
               .value = malloc(BLOCK_ROWS * each * sizeof(double))};
    memset(indices, 0, sizeof *indices);
    ls_status status = b.base != NULL && b.point != NULL && b.value != NULL
                           ? run_all(job, &b, indices, error)
                           : ls_fail(error, LS_MEMORY, "out of memory for the sensitivity indices");
    free(b.base);
    free(b.point);
    free(b.value);
    return status;
}
