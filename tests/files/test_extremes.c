/* Every number of the aeroplane file at either end of its range: an answer, or a reason why there is none; no
 * number that is not one, and no failure of our own. */
#include "check.h"

#include "examples.h"

#include "liveside/file.h"
#include "liveside/parameter.h"
#include "liveside/reader.h"

#include <ctype.h>
#include <gsl/gsl_errno.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#define FOLDER "build/test_extremes"
#define OUT    FOLDER "/out"
#define TWIN   "tests/data/twin.yaml"

static int make_folder(void **state)
{
    (void)state;
    mkdir("build", 0777);
    mkdir(FOLDER, 0777);
    return 0;
}

/* Whether a text has a word such as nan or inf, signed or not. */
static int has_no_number(const char *text)
{
    static const char *const words[] = {"nan", "inf", "NaN", "Infinity"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        for (const char *at = strstr(text, words[i]); at != NULL; at = strstr(at + 1, words[i])) {
            char after = at[strlen(words[i])];
            if ((at == text || !isalpha((unsigned char)at[-1])) && !isalpha((unsigned char)after)) {
                return 1;
            }
        }
    }
    return 0;
}

static void path_of(const ls_parameter *row, char *path, size_t size)
{
    const char *brackets = strstr(row->path, "[]");
    if (brackets == NULL) {
        snprintf(path, size, "%s", row->path);
    } else {
        snprintf(path, size, "%.*s[1]%s", (int)(brackets - row->path), row->path, brackets + 2);
    }
}

/* Returned: whether there was an answer. */
static int try_one(const char *command, const ls_parameter *row, double value)
{
    static example it;
    char path[128], set[256], unit[32];
    ls_error error;
    ls_buffer out = {0};
    const ls_unit *si = ls_unit_preferred(LS_UNITS_SI, row->dimension);
    path_of(row, path, sizeof path);
    snprintf(unit, sizeof unit, "%s", si->name);
    snprintf(set, sizeof set, "--format csv --set '%s=%.15g %s'", path, ls_unit_from_si(si, value), unit);
    example_make(cli_command_find(command), TWIN, OUT, NULL, set, &it);
    remove(OUT);
    ls_status status = example_run(&it, &error);
    if (status == LS_INTERNAL || status == LS_MEMORY || status == LS_IO ||
        (status != LS_OK && error.text[0] == '\0')) {
        fail_msg("%s with %s: %s (%s)", command, set, ls_status_text(status), error.text);
    }
    if (status != LS_OK) {
        return 0;
    }
    assert_int_equal(ls_file_read(OUT, LS_READ_BYTES, &out, NULL), LS_OK);
    if (has_no_number(out.data)) {
        fail_msg("%s with %s:\n%s", command, set, out.data);
    }
    ls_file_free(&out);
    return 1;
}

static void both_ends(const char *command)
{
    static ls_aircraft aircraft;
    static ls_marks marks;
    static ls_findings findings;
    int count, answers = 0, tried = 0;
    assert_int_equal(ls_aircraft_read(TWIN, &aircraft, &marks, &findings, NULL, NULL), LS_OK);
    const ls_parameter *row = ls_parameters(&count);
    int step = 1 + count / (8 + (int)check_scaled(100000)); /* some keys only, where a run takes long */
    for (int i = 0; i < count; i += step) {
        if (row[i].kind != LS_KEY_NUMBER || ls_list_length(&aircraft, ls_parameter_list(&row[i])) < 1 ||
            !ls_parameter_applies(&aircraft, &row[i], 0)) {
            continue;
        }
        double inside = 1e-9 * (row[i].high - row[i].low);
        answers += try_one(command, &row[i], row[i].low + inside);
        answers += try_one(command, &row[i], row[i].high - inside);
        tried += 2;
    }
    printf("# %s: %d of %d give an answer\n", command, answers, tried);
    assert_true(tried > 0 && answers > tried / 4);
}

static void of_a_balance(void **state)
{
    (void)state;
    both_ends("balance");
}

static void of_a_minimum_control_speed(void **state)
{
    (void)state;
    both_ends("vmca");
}

static void the_check_can_fail(void **state)
{
    (void)state;
    assert_true(has_no_number("1,nan,2") && has_no_number("-inf") && has_no_number("x\nNaN"));
    assert_false(has_no_number("infinite, information, 1"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_check_can_fail),
        cmocka_unit_test(of_a_balance),
        cmocka_unit_test(of_a_minimum_control_speed),
    };
    gsl_set_error_handler_off(); /* as in the program */
    return cmocka_run_group_tests(tests, make_folder, NULL);
}
