#include "liveside/uncertainty.h"

#include "num/indices.h"
#include "num/parallel.h"
#include "num/sampling.h"
#include "study/uncertain_samples.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define KT     (1852.0 / 3600.0)
#define BIN    (0.001 * KT)
#define NORMAL 1.959963984540054 /* holds 95 % between - and + */

enum { CHUNK = 128, CHUNKS = 64, BLOCK = CHUNK * CHUNKS, BINS = 400000 };

static const double shares[LS_PERCENTILES] = {0.01, 0.05, 0.25, 0.50, 0.75, 0.95, 0.99};

/* Counts of speeds in steps of 0.001 kt, and what has no place in them. */
typedef struct {
    long count;        /* samples with an answer */
    long below, above; /* without any limit; above the range searched, or beyond the last bin */
    long exceeds, exceeds_stall;
    uint32_t bin[BINS];
} tally;

/* The whole run. */
typedef struct {
    ls_sampling_plan plan;
    const ls_watch *watch;
    double *points;     /* one block */
    ls_sample *samples; /* one block */
    int in_block;
    long drawn;                               /* of all replicates, for the progress */
    double share_of_run;                      /* of the progress bar that the samples take */
    double sum_m_s, square_m2_s2, offset_m_s; /* about the offset */
    long finite;
    tally all, replicate;
    int replicates;
    double percentile[LS_UNCERTAIN_REPLICATES][LS_PERCENTILES];
    double exceeds[LS_UNCERTAIN_REPLICATES], exceeds_stall[LS_UNCERTAIN_REPLICATES];
} run;

static void solve_chunk(int chunk, void *context)
{
    run *r = context;
    int first = chunk * CHUNK, left = r->in_block - first;
    ls_samples_solve(&r->plan, r->points + (size_t)first * (size_t)r->plan.request->inputs,
                     left < CHUNK ? left : CHUNK, r->samples + first);
}

static void add_speed(const ls_sample *sample, double exceeds_m_s, tally *t)
{
    t->count++;
    t->exceeds += exceeds_m_s > 0.0 && sample->cas_m_s > exceeds_m_s;
    t->exceeds_stall += sample->exceeds_stall;
    double at = sample->cas_m_s / BIN;
    if (at < 0.0) {
        t->below++;
    } else if (at >= BINS) {
        t->above++;
    } else {
        t->bin[(int)at]++;
    }
}

static void add_sample(run *r, const ls_sample *sample, ls_uncertainty *result)
{
    result->kinds[sample->kind]++;
    result->clipped += sample->clipped;
    if (isnan(sample->cas_m_s)) {
        return;
    }
    add_speed(sample, r->plan.request->exceeds_m_s, &r->all);
    if (r->plan.request->sampling == LS_SAMPLES_SOBOL) {
        add_speed(sample, r->plan.request->exceeds_m_s, &r->replicate);
    }
    if (isfinite(sample->cas_m_s)) {
        r->offset_m_s = r->finite++ == 0 ? sample->cas_m_s : r->offset_m_s;
        double off = sample->cas_m_s - r->offset_m_s;
        r->sum_m_s += off;
        r->square_m2_s2 += off * off;
    }
}

/* Draws and solves a number of samples of one sampler, block by block. */
static ls_status draw(run *r, ls_sampler *sampler, long count, ls_uncertainty *result, ls_error *error)
{
    const ls_watch *watch = r->watch;
    for (long done = 0; done < count; done += r->in_block) {
        if (watch != NULL && watch->stop != NULL && watch->stop(watch->context)) {
            return ls_fail(error, LS_INTERRUPTED, "stopped after %ld of %ld samples", result->samples,
                           result->asked);
        }
        r->in_block = (int)(count - done < BLOCK ? count - done : BLOCK);
        ls_sampler_fill(sampler, r->in_block, r->points);
        ls_parallel_for((r->in_block + CHUNK - 1) / CHUNK, r->plan.request->threads, solve_chunk, NULL, r);
        for (int i = 0; i < r->in_block; i++) {
            add_sample(r, &r->samples[i], result);
        }
        result->samples += r->in_block;
        if (watch != NULL && watch->progress != NULL) {
            watch->progress(watch->context, r->share_of_run * (double)result->samples / (double)result->asked);
        }
    }
    return LS_OK;
}

/* The speed with so many samples below it: the middle of its bin. */
static double speed_of_rank(const tally *t, double rank)
{
    double seen = (double)t->below;
    if (rank < seen) {
        return -INFINITY;
    }
    for (int i = 0; i < BINS; i++) {
        seen += t->bin[i];
        if (rank < seen) {
            return (i + 0.5) * BIN;
        }
    }
    return INFINITY;
}

/* The percentile and, by the binomial distribution of the rank, its interval. */
static ls_sampled percentile_of(const tally *t, double share)
{
    double n = (double)t->count, half = NORMAL * sqrt(n * share * (1.0 - share));
    return (ls_sampled){speed_of_rank(t, floor(n * share)), speed_of_rank(t, fmax(0.0, floor(n * share - half))),
                        speed_of_rank(t, fmin(n - 1.0, ceil(n * share + half)))};
}

/* A share of samples with its interval.
 * Source: E. B. Wilson, J. Am. Stat. Assoc. 22 (1927) 209. */
static ls_sampled share_of(long hits, long count)
{
    double n = (double)count, p = (double)hits / n, zz = NORMAL * NORMAL;
    double middle = (p + zz / (2.0 * n)) / (1.0 + zz / n);
    double half = NORMAL * sqrt(p * (1.0 - p) / n + zz / (4.0 * n * n)) / (1.0 + zz / n);
    return (ls_sampled){p, fmax(0.0, middle - half), fmin(1.0, middle + half)};
}

/* The interval of an estimate from its scatter over replicates. */
static void spread_over(const double *x, int stride, int n, ls_sampled *estimate)
{
    double mean = 0.0, square = 0.0;
    for (int i = 0; i < n; i++) {
        mean += x[i * stride] / n;
    }
    for (int i = 0; i < n; i++) {
        square += (x[i * stride] - mean) * (x[i * stride] - mean);
    }
    double half = n > 1 ? ls_student_95(n - 1) * sqrt(square / (n - 1) / n) : INFINITY;
    estimate->low = estimate->value - half;
    estimate->high = estimate->value + half;
}

static void end_replicate(run *r)
{
    const tally *t = &r->replicate;
    for (int i = 0; i < LS_PERCENTILES && t->count > 0; i++) {
        r->percentile[r->replicates][i] = speed_of_rank(t, floor((double)t->count * shares[i]));
    }
    r->exceeds[r->replicates] = (double)t->exceeds / (double)t->count;
    r->exceeds_stall[r->replicates] = (double)t->exceeds_stall / (double)t->count;
    r->replicates += t->count > 0;
    memset(&r->replicate, 0, sizeof r->replicate);
}

static ls_status draw_all(run *r, ls_uncertainty *result, ls_error *error)
{
    const ls_uncertainty_request *request = r->plan.request;
    int is_sobol = request->sampling == LS_SAMPLES_SOBOL, replicates = is_sobol ? LS_UNCERTAIN_REPLICATES : 1;
    long each = (request->samples + replicates - 1) / replicates;
    ls_status status = LS_OK;
    result->asked = each * replicates;
    for (int i = 0; i < replicates && status == LS_OK; i++) {
        ls_sampler *sampler = ls_sampler_new(is_sobol, request->inputs, request->seed, i);
        status = sampler != NULL ? draw(r, sampler, each, result, error)
                                 : ls_fail(error, LS_MEMORY, "out of memory for the samples");
        ls_sampler_free(sampler);
        if (is_sobol && status == LS_OK) {
            end_replicate(r);
        }
    }
    return status;
}

static void set_classes(const tally *t, ls_uncertainty *result)
{
    double low = speed_of_rank(t, floor(0.0005 * (double)t->count)),
           high = speed_of_rank(t, floor(0.9995 * (double)t->count));
    if (!isfinite(low) || !isfinite(high) || t->count == 0) {
        return;
    }
    int first = (int)(low / BIN), wide = (int)ceil((high - low) / BIN / LS_HISTOGRAM);
    wide = wide > 1 ? wide : 1;
    result->class_from_m_s = first * BIN;
    result->class_width_m_s = wide * BIN;
    for (int i = 0; i < LS_HISTOGRAM; i++) {
        for (int k = first + i * wide; k < first + (i + 1) * wide && k < BINS; k++) {
            result->class_count[i] += t->bin[k];
        }
    }
}

static void summarise(const run *r, ls_uncertainty *result)
{
    const tally *t = &r->all;
    int by_replicates = r->plan.request->sampling == LS_SAMPLES_SOBOL;
    double mean = r->sum_m_s / (double)r->finite;
    result->mean_m_s = r->finite > 0 ? r->offset_m_s + mean : NAN;
    result->deviation_m_s =
        r->finite > 0 ? sqrt(fmax(0.0, r->square_m2_s2 / (double)r->finite - mean * mean)) : NAN;
    result->exceeds = share_of(t->exceeds, t->count);
    result->exceeds_stall = share_of(t->exceeds_stall, t->count);
    for (int i = 0; i < LS_PERCENTILES; i++) {
        result->share[i] = shares[i];
        result->percentile[i] = percentile_of(t, shares[i]);
        if (by_replicates) {
            spread_over(&r->percentile[0][i], LS_PERCENTILES, r->replicates, &result->percentile[i]);
        }
    }
    if (by_replicates) {
        spread_over(r->exceeds, 1, r->replicates, &result->exceeds);
        spread_over(r->exceeds_stall, 1, r->replicates, &result->exceeds_stall);
    }
    set_classes(t, result);
}

/* ---- indices ---- */

/* The function whose variance is shared out; a sample without a speed has no value. */
static void speeds_at(const double *points, int dimensions, int count, double *values, void *context)
{
    const run *r = context;
    ls_sample sample[CHUNK];
    for (int done = 0; done < count; done += CHUNK) {
        int part = count - done < CHUNK ? count - done : CHUNK;
        ls_samples_solve(&r->plan, points + (size_t)done * (size_t)dimensions, part, sample);
        for (int i = 0; i < part; i++) {
            values[done + i] = isfinite(sample[i].cas_m_s) ? sample[i].cas_m_s : NAN;
        }
    }
}

static void show_indices(void *context, double fraction)
{
    const run *r = context;
    if (r->watch != NULL && r->watch->progress != NULL) {
        r->watch->progress(r->watch->context, r->share_of_run + (1.0 - r->share_of_run) * fraction);
    }
}

static int stop_indices(void *context)
{
    const run *r = context;
    return r->watch != NULL && r->watch->stop != NULL && r->watch->stop(r->watch->context);
}

static ls_status solve_indices(run *r, ls_uncertainty *result, ls_error *error)
{
    const ls_uncertainty_request *request = r->plan.request;
    ls_indices indices;
    ls_indices_job job = {.inputs = request->inputs,
                          .rows = request->index_rows,
                          .replicates = LS_REPLICATES_LEAST,
                          .seed = request->seed + 1,
                          .threads = request->threads,
                          .function = speeds_at,
                          .context = r,
                          .progress = show_indices,
                          .stop = stop_indices,
                          .watch = r};
    ls_status status = ls_indices_estimate(&job, &indices, error);
    if (status == LS_INTERRUPTED) {
        ls_fail(error, status, "stopped after %d of %d replicates of the indices", indices.replicates,
                job.replicates);
    }
    result->indices = status == LS_OK || status == LS_INTERRUPTED ? indices.replicates : 0;
    result->index_samples = indices.values;
    result->index_dropped = indices.dropped;
    for (int i = 0; i < request->inputs; i++) {
        const ls_index *at = &indices.index[i];
        result->index[i].first = (ls_sampled){at->first, at->first - at->first_half, at->first + at->first_half};
        result->index[i].total = (ls_sampled){at->total, at->total - at->total_half, at->total + at->total_half};
    }
    return status;
}

/* ---- the request ---- */

static ls_status check(const ls_uncertainty_request *request, ls_error *error)
{
    if (request->inputs < 1 || request->sets < 1) {
        return ls_fail(error, LS_USAGE, "nothing is uncertain: give a value a spread");
    }
    for (int i = 0; i < request->inputs; i++) {
        const ls_input *input = &request->input[i];
        if (input->rebuilds) {
            const char *name = request->aircraft->powerplant[input->element].name;
            return ls_fail(
                error, LS_USAGE,
                "'%s' cannot be sampled, for every value of it needs a new propeller table; give a spread to "
                "powerplants[%s].propeller.thrust_change and torque_change instead, or use `sensitivity`",
                input->name, name);
        }
        if (!(input->spread > 0.0 && isfinite(input->spread))) {
            return ls_fail(error, LS_USAGE, "'%s' has no spread", input->name);
        }
    }
    if (request->index_rows > 0 && request->correlated) {
        return ls_fail(error, LS_USAGE,
                       "sensitivity indices share out the variance among independent inputs: there are "
                       "correlations here");
    }
    if (request->index_rows > 0 && request->inputs > LS_UNCERTAIN_INDICES) {
        return ls_fail(error, LS_USAGE, "sensitivity indices take at most %d inputs; here are %d",
                       LS_UNCERTAIN_INDICES, request->inputs);
    }
    return LS_OK;
}

static void solve_nominal(run *r, ls_uncertainty *result)
{
    ls_sample nominal;
    ls_samples_solve(&r->plan, NULL, 1, &nominal);
    result->nominal_m_s = isfinite(nominal.cas_m_s) ? nominal.cas_m_s : NAN;
}

/* Of the progress bar, by the number of solves. */
static double share_of_samples(const ls_uncertainty_request *request)
{
    double samples = (double)request->samples;
    double indices = (double)request->index_rows * (request->inputs + 2) * LS_REPLICATES_LEAST;
    return samples / (samples + indices);
}

static ls_status solve(run *r, ls_uncertainty *result, ls_error *error)
{
    solve_nominal(r, result);
    ls_status status = draw_all(r, result, error);
    if (r->all.count > 0 && (status == LS_OK || status == LS_INTERRUPTED)) {
        summarise(r, result);
    } else if (status == LS_OK) {
        return ls_fail(error, LS_NOT_CONVERGED, "not one sample has an answer");
    }
    return status == LS_OK && r->plan.request->index_rows > 0 ? solve_indices(r, result, error) : status;
}

ls_status ls_uncertainty_solve(const ls_uncertainty_request *request, const ls_watch *watch,
                               ls_uncertainty *result, ls_error *error)
{
    memset(result, 0, sizeof *result);
    ls_status status = check(request, error);
    if (status != LS_OK) {
        return status;
    }
    run *r = calloc(1, sizeof *r);
    double *points = malloc(BLOCK * (size_t)request->inputs * sizeof *points);
    ls_sample *samples = malloc(BLOCK * sizeof *samples);
    if (r == NULL || points == NULL || samples == NULL) {
        status = ls_fail(error, LS_MEMORY, "out of memory for the samples");
    } else {
        r->watch = watch;
        r->points = points;
        r->samples = samples;
        r->share_of_run = share_of_samples(request);
        status = ls_sampling_plan_make(request, &r->plan, error);
        status = status == LS_OK ? solve(r, result, error) : status;
    }
    free(samples);
    free(points);
    free(r);
    return status;
}

ls_status ls_uncertainty_gather(const ls_inputs *inputs, const ls_marks *marks, ls_uncertainty_request *request,
                                ls_error *error)
{
    for (int i = 0; i < inputs->count; i++) {
        if (inputs->input[i].spread > 0.0 && request->inputs == LS_UNCERTAIN_MAX) {
            return ls_fail(error, LS_USAGE, "more than %d values have a spread", LS_UNCERTAIN_MAX);
        }
        if (inputs->input[i].spread > 0.0) {
            request->input[request->inputs++] = inputs->input[i];
        }
    }
    for (int i = 0; i < request->inputs; i++) {
        for (int k = 0; k < request->inputs; k++) {
            request->correlation[i][k] = i == k;
        }
    }
    for (int c = 0; c < marks->correlations; c++) {
        const ls_correlation *at = &marks->correlation[c];
        int place[2] = {-1, -1};
        for (int i = 0; i < request->inputs; i++) {
            for (int k = 0; k < 2; k++) {
                int is_it =
                    request->input[i].parameter == at->parameter[k] && request->input[i].element == at->element[k];
                place[k] = is_it ? i : place[k];
            }
        }
        if (place[0] >= 0 && place[1] >= 0) {
            request->correlation[place[0]][place[1]] = request->correlation[place[1]][place[0]] = at->coefficient;
            request->correlated = 1;
        }
    }
    return request->inputs > 0 ? LS_OK : ls_fail(error, LS_USAGE, "no value has a spread");
}
