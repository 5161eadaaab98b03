/* Signals: what is half written goes, a study is asked to stop first, and the exit status says which. */
#include "check.h"

#include "cli/progress.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

enum { NAME_SIZE = 64, STOPPED_POLITELY = 7 };

/* What a child does with a half-written file before it raises a signal. */
typedef void child_function(int signal_number);

static void raise_at_once(int signal_number)
{
    raise(signal_number);
}

static void raise_in_a_study(int signal_number)
{
    cli_progress progress;
    cli_progress_begin(&progress, "test");
    if (cli_progress_stop(&progress)) {
        _exit(1);
    }
    raise(signal_number);
    if (cli_progress_stop(&progress) && cli_interrupted()) {
        _exit(STOPPED_POLITELY);
    }
    _exit(2);
}

static void raise_twice_in_a_study(int signal_number)
{
    cli_progress progress;
    cli_progress_begin(&progress, "test");
    raise(signal_number);
    raise(signal_number);
    _exit(2);
}

/* Returned: the wait status of a child; temporary holds the name of its half-written file. */
static int run_child(child_function *child, int signal_number, char temporary[LS_PATH_TEXT])
{
    char name[NAME_SIZE];
    int ends[2];
    assert_int_equal(pipe(ends), 0);
    snprintf(name, sizeof name, "build/test_progress.%ld", (long)getpid());
    fflush(NULL);
    pid_t pid = fork();
    assert_true(pid >= 0);
    if (pid == 0) {
        static ls_output output;
        cli_signals_install();
        if (ls_output_open(&output, name, NULL) != LS_OK ||
            write(ends[1], output.temporary, sizeof output.temporary) != (ssize_t)sizeof output.temporary) {
            _exit(3);
        }
        cli_signals_guard(&output);
        child(signal_number);
        _exit(4);
    }
    int status = 0;
    assert_int_equal(read(ends[0], temporary, LS_PATH_TEXT), LS_PATH_TEXT);
    close(ends[0]);
    close(ends[1]);
    assert_int_equal(waitpid(pid, &status, 0), pid);
    assert_int_not_equal(access(name, F_OK), 0);
    return status;
}

static void an_interrupt_removes_the_file_and_exits_130(void **state)
{
    (void)state;
    char temporary[LS_PATH_TEXT];
    int status = run_child(raise_at_once, SIGINT, temporary);
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 130);
    assert_int_not_equal(access(temporary, F_OK), 0);
}

static void a_termination_removes_the_file_and_is_passed_on(void **state)
{
    (void)state;
    char temporary[LS_PATH_TEXT];
    int status = run_child(raise_at_once, SIGTERM, temporary);
    assert_true(WIFSIGNALED(status));
    assert_int_equal(WTERMSIG(status), SIGTERM);
    assert_int_not_equal(access(temporary, F_OK), 0);
}

static void a_study_is_asked_to_stop(void **state)
{
    (void)state;
    char temporary[LS_PATH_TEXT];
    int status = run_child(raise_in_a_study, SIGINT, temporary);
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), STOPPED_POLITELY);
    assert_int_equal(access(temporary, F_OK), 0); /* still there: the study is to finish it */
    assert_int_equal(unlink(temporary), 0);
}

static void a_second_interrupt_ends_it(void **state)
{
    (void)state;
    char temporary[LS_PATH_TEXT];
    int status = run_child(raise_twice_in_a_study, SIGINT, temporary);
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 130);
    assert_int_not_equal(access(temporary, F_OK), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_interrupt_removes_the_file_and_exits_130),
        cmocka_unit_test(a_termination_removes_the_file_and_is_passed_on),
        cmocka_unit_test(a_study_is_asked_to_stop),
        cmocka_unit_test(a_second_interrupt_ends_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
