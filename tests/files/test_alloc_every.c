/* The example of every command there is, when memory runs out: it says so, loses nothing, and leaves neither a
 * part of a file nor a changed one. (test_alloc_commands goes deeper into some.) */
#include "check.h"

#include "alloc_fail.h"
#include "examples.h"

#include "liveside/file.h"
#include "liveside/reader.h"

#include <dirent.h>
#include <gsl/gsl_errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#define FOLDER "build/test_alloc_every"
#define OUT    FOLDER "/out"
#define PLOT   FOLDER "/plot"
#define TINY   "tests/data/tiny.yaml"

/* What one command may take of the time of the tests, s; what is then left of its sweep is said. */
static const double limit_s = 6.0;

static const char old_text[] = "old";

static int make_folder(void **state)
{
    (void)state;
    mkdir("build", 0777);
    assert_int_equal(system("rm -rf " FOLDER), 0); /* what an earlier run may have left */
    mkdir(FOLDER, 0777);
    mkdir(PLOT, 0777);
    return setenv("PATH", "/nowhere", 1); /* no gnuplot: its scripts are enough here */
}

static void write_old(void)
{
    FILE *file = fopen(OUT, "w");
    assert_non_null(file);
    fputs(old_text, file);
    assert_int_equal(fclose(file), 0);
}

static int leftovers(const char *folder)
{
    int count = 0;
    DIR *open = opendir(folder);
    assert_non_null(open);
    for (const struct dirent *entry = readdir(open); entry != NULL; entry = readdir(open)) {
        count += strstr(entry->d_name, ".tmp") != NULL;
    }
    closedir(open);
    return count;
}

/* The output; the caller frees it. */
static char *read_out(void)
{
    ls_buffer buffer = {0};
    assert_int_equal(ls_file_read(OUT, LS_READ_BYTES, &buffer, NULL), LS_OK);
    return buffer.data;
}

/* One run with its n-th allocation failing. Returned: the number of the one that failed, 0 if none did. */
static long run_failing(example *it, long n, ls_status expected, const char *whole)
{
    ls_error error;
    write_old();
    long live = alloc_live();
    alloc_fail_at(n);
    ls_status status = example_run(it, &error);
    long failed_at = alloc_fail_stop();
    long lost = alloc_live() - live;
    if (lost != 0 || (status != expected && status != LS_MEMORY) || (failed_at == 0 && status != expected)) {
        fail_msg("%s, allocation %ld: %s (%s), %ld blocks lost", it->command->name, n, ls_status_text(status),
                 error.text, lost);
    }
    assert_int_equal(leftovers(FOLDER) + leftovers(PLOT), 0);
    char *out = read_out();
    if (strcmp(out, whole) != 0 && (status == LS_OK || strcmp(out, old_text) != 0)) {
        fail_msg("%s, allocation %ld: %s, and this was written:\n%s", it->command->name, n, ls_status_text(status),
                 out);
    }
    free(out);
    return failed_at;
}

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* A failure at about every n that there is time for, spread over the whole run. */
static void sweep(const cli_command *command)
{
    static example it;
    ls_error error;
    example_make(command, TINY, OUT, PLOT, strcmp(command->name, "failure") == 0 ? "--duration 1" : "", &it);
    write_old();
    ls_status expected = example_run(&it, &error); /* what libraries keep for good is theirs from now on */
    assert_true(expected != LS_MEMORY && expected != LS_INTERNAL);
    char *whole = read_out();
    double start_s = now_s();
    alloc_fail_at(0);
    assert_int_equal(example_run(&it, &error), expected);
    alloc_fail_stop();
    long total = alloc_count();
    long runs = (long)(limit_s / (now_s() - start_s + 1e-6));
    long step = 1 + total / (runs > 1 ? runs : 1);
    long refused = 0;
    for (long n = 1; n <= total; n += step) {
        refused += run_failing(&it, n, expected, whole) > 0;
    }
    free(whole);
    printf("# %s: %ld allocations, %ld made to fail\n", command->name, total, refused);
    assert_true(refused > 0);
}

static void every_command_survives(void **state)
{
    (void)state;
    alloc_fail_or_skip();
    for (const cli_command *const *command = cli_commands; *command != NULL; command++) {
        sweep(*command);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_command_survives),
    };
    gsl_set_error_handler_off(); /* as in the program */
    return cmocka_run_group_tests(tests, make_folder, NULL);
}
