#include "alloc_fail.h"

#include "check.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Through volatile pointers, or the compiler drops what it sees to be unused. */
static void *(*volatile get)(size_t) = malloc;
static void *(*volatile get_clear)(size_t, size_t) = calloc;
static void *(*volatile resize)(void *, size_t) = realloc;
static char *(*volatile duplicate)(const char *) = strdup;

static void fails_the_nth_once(void **state)
{
    (void)state;
    alloc_fail_or_skip();
    alloc_fail_at(3);
    void *first = get(8);
    void *second = get_clear(2, 8);
    errno = 0;
    void *third = resize(second, 4096);
    int third_errno = errno;
    void *fourth = get(8);
    long failed_at = alloc_fail_stop();
    assert_non_null(first);
    assert_non_null(second);
    assert_null(third);
    assert_int_equal(third_errno, ENOMEM);
    assert_non_null(fourth);
    assert_int_equal(failed_at, 3);
    assert_int_equal(alloc_count(), 4);
    free(first);
    free(second);
    free(fourth);
}

static void counts_what_is_live(void **state)
{
    (void)state;
    alloc_fail_or_skip();
    long before = alloc_live();
    void *block = get(10);
    block = resize(block, 10000);
    void *other = NULL;
    assert_int_equal(posix_memalign(&other, 64, 100), 0);
    assert_int_equal((uintptr_t)other % 64, 0);
    assert_int_equal(alloc_live(), before + 2);
    free(block);
    free(other);
    free(NULL);
    assert_int_equal(alloc_live(), before);
}

static void reaches_the_libraries(void **state)
{
    (void)state;
    alloc_fail_or_skip();
    alloc_fail_at(1);
    char *copy = duplicate("text");
    assert_int_equal(alloc_fail_stop(), 1);
    assert_null(copy);
    alloc_fail_at(1);
    FILE *file = fopen("/dev/null", "r");
    assert_int_equal(alloc_fail_stop(), 1);
    assert_null(file);
}

static void sees_that_nothing_is_allocated(void **state)
{
    (void)state;
    alloc_fail_or_skip();
    char text[64];
    alloc_fail_at(1);
    int length = snprintf(text, sizeof text, "%d %.3f", 5, 2.5);
    assert_int_equal(alloc_fail_stop(), 0);
    assert_int_equal(alloc_count(), 0);
    assert_int_equal(length, 7);
}

/* Three allocations: the sweep fails each in turn, then passes; without a leak. */
static int three_copies(void)
{
    char *copies[3] = {0};
    int made = 0;
    while (made < 3 && (copies[made] = duplicate("abc")) != NULL) {
        made++;
    }
    for (int i = 0; i < made; i++) {
        free(copies[i]);
    }
    return made == 3;
}

static void sweep_ends_when_none_fails(void **state)
{
    (void)state;
    alloc_fail_or_skip();
    long before = alloc_live();
    long n = 1;
    int failures = 0;
    do {
        alloc_fail_at(n);
        int succeeded = three_copies();
        long failed_at = alloc_fail_stop();
        assert_int_equal(succeeded, failed_at == 0);
        assert_int_equal(alloc_live(), before);
        failures += failed_at > 0;
        n = failed_at > 0 ? alloc_fail_next(n) : 0;
    } while (n > 0);
    assert_int_equal(failures, 3);
    assert_int_equal(alloc_fail_next(299), 300);
    assert_int_equal(alloc_fail_next(300), 317);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fails_the_nth_once),         cmocka_unit_test(counts_what_is_live),
        cmocka_unit_test(reaches_the_libraries),      cmocka_unit_test(sees_that_nothing_is_allocated),
        cmocka_unit_test(sweep_ends_when_none_fails),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
