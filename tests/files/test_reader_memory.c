/* Reading when memory runs out: every allocation fails once, and each time the reading says so, leaves what the
 * caller had and loses nothing. */
#include "check.h"

#include "alloc_fail.h"

#include "liveside/reader.h"

#include <string.h>

typedef struct {
    ls_aircraft aircraft;
    ls_marks marks;
    ls_findings findings;
    ls_error error;
} reading;

static reading got, before;

/* Reads a path with the n-th allocation failing. Returned: the allocation that failed, 0 when none did. */
static long read_failing(const char *path, long n, ls_status expected)
{
    memset(&got, 0, sizeof got);
    memset(&got.aircraft, 0xA5, sizeof got.aircraft);
    before = got;
    long live = alloc_live();
    alloc_fail_at(n);
    ls_status status = ls_aircraft_read(path, &got.aircraft, &got.marks, &got.findings, NULL, &got.error);
    long failed_at = alloc_fail_stop();
    assert_int_equal(alloc_live(), live);
    if (failed_at == 0) {
        assert_int_equal(status, expected);
        return 0;
    }
    if (status != LS_MEMORY) {
        print_error("allocation %ld of %s: %s (%s)\n", n, path, ls_status_text(status), got.error.text);
    }
    assert_int_equal(status, LS_MEMORY);
    assert_non_null(strstr(got.error.text, "out of memory while reading"));
    assert_memory_equal(&got.aircraft, &before.aircraft, sizeof got.aircraft);
    assert_memory_equal(&got.marks, &before.marks, sizeof got.marks);
    return failed_at;
}

static void sweep(const char *path, ls_status expected)
{
    read_failing(path, 0, expected); /* what libraries keep for good is theirs before the counting */
    long n = 1, failures = 0;
    while (n > 0) {
        long failed_at = read_failing(path, n, expected);
        failures += failed_at > 0;
        n = failed_at > 0 ? alloc_fail_next(n) : 0;
    }
    assert_true(failures > 10);
}

static void reading_survives_every_failure(void **state)
{
    (void)state;
    alloc_fail_or_skip();
    sweep("tests/data/tiny.yaml", LS_OK);
}

static void a_large_file_survives_too(void **state)
{
    (void)state;
    alloc_fail_or_skip();
    sweep("tests/data/twin.yaml", LS_OK);
}

static void refusing_survives_every_failure(void **state)
{
    (void)state;
    alloc_fail_or_skip();
    sweep("tests/data/bad/many-errors.yaml", LS_FILE_REJECTED);
    sweep("tests/data/bad/negative-span.yaml", LS_FILE_REJECTED);
    sweep("tests/data/bad/second-document.yaml", LS_FILE_REJECTED);
    sweep("tests/data/bad/deep-nesting.yaml", LS_FILE_REJECTED);
    sweep("tests/data/bad/directive.yaml", LS_FILE_REJECTED);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reading_survives_every_failure),
        cmocka_unit_test(a_large_file_survives_too),
        cmocka_unit_test(refusing_survives_every_failure),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
