#include "check.h"

#include "liveside/status.h"

static void first_failure_wins(void **state)
{
    (void)state;
    ls_error error = {0};
    assert_int_equal(ls_fail(&error, LS_IO, "disk %d full", 3), LS_IO);
    assert_int_equal(ls_fail(&error, LS_MEMORY, "later"), LS_MEMORY);
    assert_int_equal(error.status, LS_IO);
    assert_string_equal(error.text, "disk 3 full");
    assert_int_equal(ls_fail(NULL, LS_USAGE, "nobody listens"), LS_USAGE);
}

static void codes_are_those_documented(void **state)
{
    (void)state;
    assert_int_equal(ls_status_exit_code(LS_OK), 0);
    assert_int_equal(ls_status_exit_code(LS_FILE_REJECTED), 3);
    assert_int_equal(ls_status_exit_code(LS_INTERRUPTED), 130);
    assert_int_equal(ls_status_exit_code(LS_STATUS_COUNT), 1);
    assert_string_equal(ls_status_text(LS_STATUS_COUNT), "unknown status");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(first_failure_wins),
        cmocka_unit_test(codes_are_those_documented),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
