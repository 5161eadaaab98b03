/* The checks themselves must fail when they should, and keep the worst of many results. */
#include "check.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

/* Runs one test in a child, so that its failure is not ours.
 * Returned: the number of failed tests, -1 if the child died. */
static int failures_of(CMUnitTestFunction test)
{
    fflush(NULL);
    pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        const struct CMUnitTest tests[] = {{"child", test, NULL, NULL, NULL}};
        if (freopen("/dev/null", "w", stdout) == NULL || freopen("/dev/null", "w", stderr) == NULL) {
            _exit(99);
        }
        _exit(cmocka_run_group_tests(tests, NULL, NULL));
    }
    int status = 0;
    assert_int_equal(waitpid(child, &status, 0), child);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

#define CHILD(name, call)          \
    static void name(void **state) \
    {                              \
        (void)state;               \
        call;                      \
    }

CHILD(within, check_close("x", 101325.0, 101325.0005, 1e-3, "self-test", "self-test"))
CHILD(outside, check_close("x", 101325.0, 101325.001, 1e-6, "self-test", "self-test"))
CHILD(not_a_number, check_close("x", NAN, 1.0, 1e9, "self-test", "self-test"))
CHILD(infinite, check_close("x", INFINITY, INFINITY, 1e9, "self-test", "self-test"))
CHILD(no_tolerance, check_close("x", 1.0, 1.0, NAN, "self-test", "self-test"))
CHILD(in_band, check_between("x", 2.0, 2.0, 3.0, "self-test"))
CHILD(below_band, check_between("x", 1.999, 2.0, 3.0, "self-test"))
CHILD(band_of_nan, check_between("x", NAN, 2.0, 3.0, "self-test"))

static void close_fails_when_it_should(void **state)
{
    (void)state;
    assert_int_equal(failures_of(within), 0);
    assert_int_equal(failures_of(outside), 1);
    assert_int_equal(failures_of(not_a_number), 1);
    assert_int_equal(failures_of(infinite), 1);
    assert_int_equal(failures_of(no_tolerance), 1);
    assert_int_equal(failures_of(in_band), 0);
    assert_int_equal(failures_of(below_band), 1);
    assert_int_equal(failures_of(band_of_nan), 1);
}

static void many_different(void **state)
{
    (void)state;
    char what[32];
    for (int i = 0; i < 5000; i++) {
        snprintf(what, sizeof what, "x %d", i);
        check_close(what, 1.0, 1.0, 1.0, "self-test", "self-test");
    }
}

static void too_many_different_checks_fail(void **state)
{
    (void)state;
    assert_int_equal(failures_of(many_different), 1);
}

/* This program again, as `test_check --rows`, writing its rows to a file of our own. */
static int write_some_rows(void)
{
    for (int i = 0; i < 100000; i++) {
        check_close("worst\tof many", i == 777 ? 5.25 : 5.0, 5.0, 0.5, "reason", "source");
    }
    check_between("band, m", 1.5, 1.0, 3.0, "other source");
    return 0;
}

static const char *program;

static void keeps_the_worst_of_many(void **state)
{
    (void)state;
    char path[] = "/tmp/liveside-check-XXXXXX";
    int file = mkstemp(path);
    assert_true(file >= 0);
    close(file);
    char command[1024];
    snprintf(command, sizeof command, "LS_VERIFICATION=%s '%s' --rows", path, program);
    assert_int_equal(system(command), 0);
    FILE *rows = fopen(path, "r");
    assert_non_null(rows);
    char text[1024] = "";
    size_t length = fread(text, 1, sizeof text - 1, rows);
    fclose(rows);
    unlink(path);
    text[length] = '\0';
    assert_non_null(strstr(text, "\tworst of many\tsource\t5\t5.25\t0.5\treason\tpass\t100000\n"));
    assert_non_null(strstr(text, "\tband, m\tother source\t2\t1.5\t1\tband\tpass\t1\n"));
    assert_int_equal(strncmp(text, "tests/unit/test_check.c:", 24), 0);
}

static void random_numbers_stay_in_range(void **state)
{
    (void)state;
    uint64_t seed = 1;
    double sum = 0.0;
    for (int i = 0; i < 10000; i++) {
        double value = check_random(&seed, -2.0, 4.0);
        assert_true(value >= -2.0 && value < 4.0);
        sum += value;
    }
    /* The mean is 1 with a standard deviation of 6/sqrt(12 * 10000) = 0.0173: five of them. */
    assert_true(fabs(sum / 10000 - 1.0) < 0.087);
}

int main(int count, char **arguments)
{
    program = arguments[0];
    if (count > 1 && strcmp(arguments[1], "--rows") == 0) {
        return write_some_rows();
    }
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(close_fails_when_it_should),
        cmocka_unit_test(too_many_different_checks_fail),
        cmocka_unit_test(keeps_the_worst_of_many),
        cmocka_unit_test(random_numbers_stay_in_range),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
