/* The runner of the command-line cases: what must pass passes, and what must fail fails. */
#include "check.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static char runner[4096];

struct outcome {
    int status;
    int passed;
    int failed;
    char text[16384];
};

static struct outcome run(const char *case_file)
{
    struct outcome outcome = {0};
    char command[8192];
    snprintf(command, sizeof command, "'%s' --program /bin/sh --source . tests/cli/selftest/%s 2>&1", runner,
             case_file);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    size_t length = fread(outcome.text, 1, sizeof outcome.text - 1, pipe);
    outcome.text[length] = '\0';
    outcome.status = pclose(pipe) >> 8;
    for (const char *line = outcome.text; *line != '\0'; line += strcspn(line, "\n") + 1) {
        outcome.passed += strncmp(line, "ok ", 3) == 0;
        outcome.failed += strncmp(line, "not ok ", 7) == 0;
    }
    return outcome;
}

static void good_cases_pass(void **state)
{
    (void)state;
    struct outcome outcome = run("passes.case");
    assert_int_equal(outcome.status, 0);
    assert_int_equal(outcome.passed, 8);
    assert_int_equal(outcome.failed, 0);
}

static void bad_cases_fail_each_for_its_reason(void **state)
{
    (void)state;
    static const char *const reasons[] = {
        "exit status 1, wanted 0",
        "stdout is not empty",
        "stderr is not empty",
        "not the text given",
        "#   | one\n# stdout nothing\n",
        "missing: two",
        "no line is: one",
        "found: two",
        "# got 78.51",
        "no such number: 78.4",
        "time limit",
        "holds a NUL byte",
    };
    struct outcome outcome = run("fails.case");
    assert_int_equal(outcome.status, 1);
    assert_int_equal(outcome.passed, 0);
    for (size_t i = 0; i < sizeof reasons / sizeof reasons[0]; i++) {
        if (strstr(outcome.text, reasons[i]) == NULL) {
            fail_msg("not said: %s", reasons[i]);
        }
    }
    assert_int_equal(outcome.failed, 12);
}

static void malformed_files_are_refused(void **state)
{
    (void)state;
    static const struct {
        const char *file;
        const char *message;
    } table[] = {
        {"no_exit.case", "no_exit.case:1: a case needs `run` and `exit`"},
        {"unknown_key.case", "unknown_key.case:4: unknown key: stdout holds"},
        {"bad_near.case", "bad_near.case:4: want `NUMBER +- TOLERANCE after TEXT`"},
        {"stray_block.case", "stray_block.case:3: a `|` line after `run`"},
        {"no_case.case", "no_case.case:1: the first line must be `case: NAME`"},
        {"absent.case", "absent.case: No such file or directory"},
    };
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        struct outcome outcome = run(table[i].file);
        assert_int_equal(outcome.status, 2);
        assert_int_equal(outcome.passed + outcome.failed, 0);
        assert_non_null(strstr(outcome.text, table[i].message));
    }
}

/* The runner is built beside this program: BUILD/tests/unit/test_run_cases, BUILD/tests/cli/run_cases. */
int main(int count, char **arguments)
{
    (void)count;
    const char *slash = strrchr(arguments[0], '/');
    int folder = slash != NULL ? (int)(slash - arguments[0]) : 0;
    snprintf(runner, sizeof runner, "%.*s/../cli/run_cases", folder, arguments[0]);
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(good_cases_pass),
        cmocka_unit_test(bad_cases_fail_each_for_its_reason),
        cmocka_unit_test(malformed_files_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
