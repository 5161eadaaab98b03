/* Whole commands when memory runs out: every allocation fails once, and each time the command says so, loses
 * nothing and leaves neither a part of a file nor a changed one. */
#include "check.h"

#include "alloc_fail.h"

#include "cli/options.h"
#include "liveside/reader.h"

#include <dirent.h>
#include <gsl/gsl_errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define FOLDER "build/test_alloc_commands"
#define OUT    FOLDER "/out"
#define PLOT   FOLDER "/plot"
#define TINY   "tests/data/tiny.yaml"
#define POINTS "tests/data/reduce/tiny_points.csv"
#define PAGE   "tests/data/estimate/handbook_page.yaml"

enum { WORDS = 16, OLD = 3, LAST = 40 };

static const char old_text[OLD + 1] = "old";

/* Blocks that a library may lose of its own when memory runs out inside it: GSL 2.7 loses one
 * in gsl_odeiv2_control_scaled_new, before the caller has anything that could be freed. */
static long library_loses = 0;

static int make_folder(void **state)
{
    (void)state;
    mkdir("build", 0777);
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

/* The whole of the output; the caller frees it. */
static char *read_out(void)
{
    ls_buffer buffer = {0};
    ls_error error = {0};
    assert_int_equal(ls_file_read(OUT, LS_READ_BYTES, &buffer, &error), LS_OK);
    return buffer.data;
}

/* Files of the folder besides the output, its description and the charts' folder: left over from a failed write.
 */
static int strays(const char *folder)
{
    int count = 0;
    DIR *open = opendir(folder);
    assert_non_null(open);
    for (const struct dirent *entry = readdir(open); entry != NULL; entry = readdir(open)) {
        const char *name = entry->d_name;
        size_t length = strlen(name);
        int is_script = length > 3 && strcmp(name + length - 3, ".gp") == 0;
        int is_known = strcmp(name, ".") == 0 || strcmp(name, "..") == 0 || strcmp(name, "out") == 0 ||
                       strcmp(name, "out.meta.json") == 0 || strcmp(name, "plot") == 0;
        if (!is_known && !is_script) {
            print_error("left over: %s/%s\n", folder, name);
            count++;
        }
    }
    closedir(open);
    return count;
}

/* Runs a command with its n-th allocation failing. Returned: the allocation that failed, 0 when none did. */
static long run_failing(const cli_command *command, const cli_options *options, long n, const char *whole,
                        ls_status expected)
{
    ls_error error = {0};
    cli_run run = {options, "liveside under test", "liveside", NULL};
    write_old();
    long live = alloc_live();
    alloc_fail_at(n);
    ls_status status = command->run(&run, &error);
    long failed_at = alloc_fail_stop();
    long lost = alloc_live() - live;
    if (lost < 0 || lost > (failed_at > 0 ? library_loses : 0)) {
        print_error("%s, allocation %ld: %ld blocks lost\n", command->name, n, lost);
        fail();
    }
    assert_int_equal(strays(FOLDER) + strays(PLOT), 0);
    char *out = read_out();
    if (failed_at == 0 || status == expected) { /* the C library does without some of its memory */
        assert_int_equal(status, expected);
        assert_true(whole == NULL || strcmp(out, whole) == 0);
    } else {
        if (status != LS_MEMORY) {
            print_error("%s, allocation %ld: %s (%s)\n", command->name, n, ls_status_text(status), error.text);
        }
        assert_int_equal(status, LS_MEMORY);
        assert_true(strcmp(out, old_text) == 0 || (whole != NULL && strcmp(out, whole) == 0));
    }
    free(out);
    return failed_at;
}

static void sweep(const char *const words[], ls_status expected)
{
    cli_options options;
    ls_error error = {0};
    char *arguments[WORDS];
    int count = 0;
    for (; words[count + 1] != NULL; count++) {
        arguments[count] = (char *)(uintptr_t)words[count + 1];
    }
    const cli_command *command = cli_command_find(words[0]);
    assert_non_null(command);
    assert_int_equal(cli_options_parse(command, count, arguments, &options, &error), LS_OK);
    run_failing(command, &options, 0, NULL, expected); /* what libraries keep for good is theirs from now on */
    char *whole = read_out();
    long total = alloc_count();
    long n = 1, refused = 0;
    while (n > 0) {
        long failed_at = run_failing(command, &options, n, whole, expected);
        refused += failed_at > 0;
        n = failed_at > 0 ? alloc_fail_next(n) : 0;
    }
    for (n = total > LAST ? total - LAST : 1; n <= total; n++) { /* the writing, which the strides pass over */
        run_failing(command, &options, n, whole, expected);
    }
    free(whole);
    assert_true(refused > 0);
}

static void sweep_formats(const char *const words[], int count)
{
    static const char *const formats[] = {"text", "csv", "json"};
    const char *all[WORDS] = {0};
    for (int i = 0; i < count; i++) {
        all[i] = words[i];
    }
    all[count] = "--output";
    all[count + 1] = OUT;
    all[count + 2] = "--format";
    for (int i = 0; i < 3; i++) {
        all[count + 3] = formats[i];
        sweep(all, LS_OK);
    }
}

static void vmca_survives(void **state)
{
    (void)state;
    alloc_fail_or_skip();
    const char *const words[] = {"vmca", TINY, "--failed", "left", "--compare", "bank=0"};
    sweep_formats(words, 6);
}

static void vmca_full_survives(void **state)
{
    (void)state;
    alloc_fail_or_skip();
    const char *const words[] = {"vmca", TINY, "--failed", "left", "--full", "--output", OUT, NULL};
    sweep(words, LS_OK);
}

static void charts_survive(void **state)
{
    (void)state;
    alloc_fail_or_skip();
    const char *const vmca[] = {"vmca", TINY, "--failed", "left", "--plot", PLOT, "--output", OUT, NULL};
    const char *const map[] = {"trend",  TINY, "--over",   "bank=0:2:1", "--over", "altitude=0:2000:1000",
                               "--plot", PLOT, "--output", OUT,          NULL};
    sweep(vmca, LS_OK);
    sweep(map, LS_OK);
}

static void handout_survives(void **state)
{
    (void)state;
    alloc_fail_or_skip();
    const char *const words[] = {"handout", TINY, "--parts", "aeroplane,control,questions", "--output", OUT, NULL};
    sweep(words, LS_OK);
}

static void trend_survives(void **state)
{
    (void)state;
    alloc_fail_or_skip();
    const char *const one[] = {"trend", TINY, "--over", "bank=0:2:1"};
    const char *const several[] = {"trend", TINY, TINY, "--over", "propeller=1:3", "--output", OUT, NULL};
    sweep_formats(one, 4);
    sweep(several, LS_OK);
}

static void balance_survives(void **state)
{
    (void)state;
    alloc_fail_or_skip();
    const char *const words[] = {"balance", TINY, "--speed", "110"};
    sweep_formats(words, 4);
}

static void explanations_survive(void **state)
{
    (void)state;
    alloc_fail_or_skip();
    const char *const explain[] = {"explain", TINY, "--plot", PLOT, "--output", OUT, NULL};
    const char *const factors[] = {"factors", TINY, "--plot", PLOT, "--output", OUT, NULL};
    const char *const demonstration[] = {"demonstration", TINY, "--altitude", "4000", "--plot", PLOT,
                                         "--output",      OUT,  NULL};
    sweep(explain, LS_OK);
    sweep(factors, LS_OK);
    sweep(demonstration, LS_OK);
}

static void estimates_survive(void **state)
{
    (void)state;
    alloc_fail_or_skip();
    const char *const words[] = {"estimate", PAGE};
    const char *const made[] = {"estimate", PAGE, "--aircraft", OUT, "--output", PLOT "/report.gp", NULL};
    sweep_formats(words, 2);
    sweep(made, LS_OK);
}

static void test_flights_survive(void **state)
{
    (void)state;
    alloc_fail_or_skip();
    const char *const card[] = {"testcard", TINY, "--failed", "left"};
    const char *const reduced[] = {"reduce", TINY, POINTS};
    const char *const chart[] = {"reduce", TINY, POINTS, "--plot", PLOT, "--output", OUT, NULL};
    library_loses = 1;
    sweep_formats(card, 4);
    sweep_formats(reduced, 3);
    sweep(chart, LS_OK);
    library_loses = 0;
}

static void check_survives(void **state)
{
    (void)state;
    alloc_fail_or_skip();
    const char *const words[] = {"check", TINY, "--full"};
    sweep_formats(words, 3);
}

static void a_rejected_file_survives(void **state)
{
    (void)state;
    alloc_fail_or_skip();
    const char *const words[] = {"check", "tests/data/bad/many-errors.yaml", "--output", OUT, NULL};
    sweep(words, LS_FILE_REJECTED);
}

static void new_survives(void **state)
{
    (void)state;
    alloc_fail_or_skip();
    const char *const words[] = {"new", OUT, "--force", NULL};
    sweep(words, LS_OK);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(vmca_survives),        cmocka_unit_test(vmca_full_survives),
        cmocka_unit_test(charts_survive),       cmocka_unit_test(trend_survives),
        cmocka_unit_test(handout_survives),     cmocka_unit_test(balance_survives),
        cmocka_unit_test(check_survives),       cmocka_unit_test(estimates_survive),
        cmocka_unit_test(test_flights_survive), cmocka_unit_test(explanations_survive),
        cmocka_unit_test(new_survives),         cmocka_unit_test(a_rejected_file_survives),
    };
    gsl_set_error_handler_off();
    return cmocka_run_group_tests(tests, make_folder, NULL);
}
