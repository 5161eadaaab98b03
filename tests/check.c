#include "check.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* The results of one program, the worst of each (line, what, source), written when it ends.
 * Text is copied, for tests format `what`; storage is static, for some tests count allocations. */
enum { ROW_MAX = 4096, SLOT_COUNT = 4 * ROW_MAX, TEXT_MAX = 2 << 20 };

struct row {
    const char *file;
    const char *what;
    const char *source;
    const char *tol_reason;
    int line;
    int passed;
    long count;
    double want, got, tol, severity;
};

static struct row rows[ROW_MAX];
static int row_count;
static int slots[SLOT_COUNT]; /* row number plus one, 0 for an empty slot */
static char text[TEXT_MAX];
static size_t text_used;
static pid_t owner;

static void field(FILE *log, const char *value, char end)
{
    for (; *value != '\0'; value++) {
        fputc((unsigned char)*value < ' ' ? ' ' : *value, log);
    }
    fputc(end, log);
}

/* A forked child that leaves through exit() must not write its parent's rows. */
static void write_rows(void)
{
    const char *path = getenv("LS_VERIFICATION");
    FILE *log = path != NULL && getpid() == owner ? fopen(path, "w") : NULL;
    if (log == NULL) {
        return;
    }
    for (int i = 0; i < row_count; i++) {
        const struct row *row = &rows[i];
        fprintf(log, "%s:%d\t", row->file, row->line);
        field(log, row->what, '\t');
        field(log, row->source, '\t');
        fprintf(log, "%.17g\t%.17g\t%.3g\t", row->want, row->got, row->tol);
        field(log, row->tol_reason, '\t');
        fprintf(log, "%s\t%ld\n", row->passed ? "pass" : "FAIL", row->count);
    }
    fclose(log);
}

/* Line buffering keeps the verdicts of a program that dies later. */
__attribute__((constructor)) static void start(void)
{
    setvbuf(stdout, NULL, _IOLBF, 0);
    owner = getpid();
    atexit(write_rows);
}

static void capacity(int fits)
{
    if (!fits) {
        fail_msg("check.c: more than %d different checks; in a loop keep `what` and `source` the same", ROW_MAX);
    }
}

static const char *keep(const char *value)
{
    size_t size = strlen(value) + 1;
    capacity(size <= TEXT_MAX - text_used);
    char *copy = memcpy(text + text_used, value, size);
    text_used += size;
    return copy;
}

static uint32_t hash(uint32_t seed, const char *value)
{
    for (; *value != '\0'; value++) {
        seed = (seed ^ (unsigned char)*value) * 16777619U;
    }
    return seed;
}

static struct row *find_row(const char *file, int line, const char *what, const char *source)
{
    uint32_t slot = hash(hash(2166136261U + (uint32_t)line, what), source) % SLOT_COUNT;
    for (; slots[slot] != 0; slot = (slot + 1) % SLOT_COUNT) {
        struct row *row = &rows[slots[slot] - 1];
        if (row->line == line && strcmp(row->file, file) == 0 && strcmp(row->what, what) == 0 &&
            strcmp(row->source, source) == 0) {
            return row;
        }
    }
    capacity(row_count < ROW_MAX);
    struct row *row = &rows[row_count];
    *row = (struct row){.file = file, .line = line, .what = keep(what), .source = keep(source)};
    row_count++;
    slots[slot] = row_count;
    return row;
}

/* How much of the tolerance is used; a failure is worse than any pass. */
static double severity_of(double want, double got, double tol, int passed)
{
    double used = tol > 0.0 ? fabs(got - want) / tol : 0.0;
    return passed ? used : INFINITY;
}

static void record(const char *file, int line, const char *what, const char *source, double want, double got,
                   double tol, const char *tol_reason, int passed)
{
    struct row *row = find_row(file, line, what, source);
    double severity = severity_of(want, got, tol, passed);
    row->count++;
    if (row->count > 1 && severity <= row->severity) {
        return;
    }
    row->want = want;
    row->got = got;
    row->tol = tol;
    row->severity = severity;
    row->passed = passed;
    if (row->tol_reason == NULL || strcmp(row->tol_reason, tol_reason) != 0) {
        row->tol_reason = keep(tol_reason);
    }
}

void check_close_at(const char *file, int line, const char *what, double got, double want, double tol,
                    const char *tol_reason, const char *source)
{
    int passed = isfinite(got) && isfinite(want) && fabs(got - want) <= tol;
    record(file, line, what, source, want, got, tol, tol_reason, passed);
    if (!passed) {
        print_error("%s: got %.15g, want %.15g within %.3g (%s; %s)\n", what, got, want, tol, tol_reason, source);
        _fail(file, line);
    }
}

void check_between_at(const char *file, int line, const char *what, double got, double low, double high,
                      const char *source)
{
    int passed = isfinite(got) && got >= low && got <= high;
    record(file, line, what, source, 0.5 * (low + high), got, 0.5 * (high - low), "band", passed);
    if (!passed) {
        print_error("%s: got %.15g, want %.15g to %.15g (%s)\n", what, got, low, high, source);
        _fail(file, line);
    }
}

int check_scaled(int full)
{
    const char *percent_text = getenv("LS_TEST_SCALE");
    double percent = percent_text != NULL ? strtod(percent_text, NULL) : 100.0;
    double scaled = full * percent / 100.0;
    return scaled < 1.0 ? 1 : (int)scaled;
}

double check_random(uint64_t *state, double low, double high)
{
    *state ^= *state >> 12;
    *state ^= *state << 25;
    *state ^= *state >> 27;
    uint64_t bits = (*state * 2685821657736338717ULL) >> 11;
    return low + (high - low) * (double)bits * 0x1.0p-53;
}
