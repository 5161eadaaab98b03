/* Allocations that are counted, and made to fail: a test program that includes this header gets its own
 * malloc, calloc, realloc and free, so that the libraries it links with use them too.
 *
 * A test that needs them begins with alloc_fail_or_skip(): under the sanitizers and valgrind, which have
 * allocators of their own, it is skipped.
 *
 *     long n = 1;
 *     do {
 *         alloc_fail_at(n);
 *         ls_status status = ls_thing_read(..., &error);
 *         long failed_at = alloc_fail_stop();
 *         ... status is LS_MEMORY if failed_at, and nothing leaks: alloc_live() is what it was ...
 *         n = failed_at ? alloc_fail_next(n) : 0;
 *     } while (n > 0);
 */
#ifndef LIVESIDE_TESTS_ALLOC_FAIL_H
#define LIVESIDE_TESTS_ALLOC_FAIL_H

/* Skips the running cmocka test where allocations cannot be counted. */
void alloc_fail_or_skip(void);

/* Sets the count to 0 and lets the n-th allocation from now fail, once; n = 0 only counts. */
void alloc_fail_at(long n);

/* Ends what alloc_fail_at began.
 * Returned: the number of the allocation that failed, 0 if none did. */
long alloc_fail_stop(void);

/* Allocations asked for since alloc_fail_at, in every thread; a realloc that moves or grows counts too. */
long alloc_count(void);

/* Blocks allocated and not freed by now, the libraries' own included: compare before and after. */
long alloc_live(void);

/* The next n of a sweep: every n to 300, then every 17th. */
long alloc_fail_next(long n);

#endif
