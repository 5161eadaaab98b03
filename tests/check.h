/* The comparison that the numeric tests use: in double, with its reason and its source,
 * each result kept for docs/verification.md. */
#ifndef LIVESIDE_TESTS_CHECK_H
#define LIVESIDE_TESTS_CHECK_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

/* Fails the running cmocka test unless |got - want| <= tol (tol absolute, both finite).
 * what:       what is compared, with its unit, "VMC at 5 deg bank, kt"
 * tol_reason: why this tolerance, "printed digits", "round-off", "reading error of the figure"
 * source:     the published source, "identity", "common practice", or "golden: our own value"
 * In a loop keep `what` and `source` the same: the worst of such results is kept, with their number.
 * For a value compared once give a `what` of its own. */
#define check_close(what, got, want, tol, tol_reason, source) \
    check_close_at(__FILE__, __LINE__, (what), (got), (want), (tol), (tol_reason), (source))

/* Fails unless low <= got <= high. */
#define check_between(what, got, low, high, source) \
    check_between_at(__FILE__, __LINE__, (what), (got), (low), (high), (source))

void check_close_at(const char *file, int line, const char *what, double got, double want, double tol,
                    const char *tol_reason, const char *source);
void check_between_at(const char *file, int line, const char *what, double got, double low, double high,
                      const char *source);

/* The size of a randomised test: `full` in a release run, scaled by LS_TEST_SCALE
 * (a percentage of the full size, default 100), at least 1. */
int check_scaled(int full);

/* Repeatable random numbers for the tests: xorshift64*, uniform in [low, high). The state must not be 0. */
double check_random(uint64_t *state, double low, double high);

#endif
