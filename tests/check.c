#include "check.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static void record(const char *file, int line, const char *what, const char *source, double want, double got,
                   double tol, const char *tol_reason, int passed)
{
    const char *path = getenv("LS_VERIFICATION");
    FILE *log = path != NULL ? fopen(path, "a") : NULL;
    if (log == NULL) {
        return;
    }
    fprintf(log, "%s:%d\t%s\t%s\t%.12g\t%.12g\t%.3g\t%s\t%s\n", file, line, what, source, want, got, tol,
            tol_reason, passed ? "pass" : "FAIL");
    fclose(log);
}

void check_close_at(const char *file, int line, const char *what, double got, double want, double tol,
                    const char *tol_reason, const char *source)
{
    int passed = isfinite(got) && isfinite(want) && fabs(got - want) <= tol;
    record(file, line, what, source, want, got, tol, tol_reason, passed);
    if (!passed) {
        print_error("%s: got %.15g, want %.15g within %.3g (%s; %s)\n", what, got, want, tol, tol_reason,
                    source);
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
    const char *text = getenv("LS_TEST_SCALE");
    double percent = text != NULL ? atof(text) : 100.0;
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
