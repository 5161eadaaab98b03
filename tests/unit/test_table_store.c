/* Kept propeller tables: the same numbers back, and nothing that is not this propeller's. */
#include "check.h"
#include "propeller_case.h"

#include "airframe/table_store.h"
#include "liveside/file.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static ls_disc disc;
static const ls_prop_range range = {15 * DEG, 25 * DEG, 0.0};
static char folder[] = "/tmp/liveside-store-XXXXXX";

static int prepare(void **state)
{
    (void)state;
    light_twin_disc(NULL, &disc);
    return mkdtemp(folder) == NULL;
}

static int is_hidden(const char *name)
{
    return name[0] == '.';
}

/* The only table in the folder. */
static void table_path(char path[512])
{
    DIR *list = opendir(folder);
    int found = 0;
    assert_non_null(list);
    for (struct dirent *entry; (entry = readdir(list)) != NULL;) {
        if (!is_hidden(entry->d_name)) {
            snprintf(path, 512, "%s/%s", folder, entry->d_name);
            found++;
        }
    }
    closedir(list);
    assert_int_equal(found, 1);
}

static ls_prop_table *get(const char *where)
{
    ls_prop_table *table = NULL;
    ls_error error = {0};
    assert_int_equal(ls_table_store_get(where, "key", 3, &disc, &range, &table, &error), LS_OK);
    return table;
}

static int are_equal(const ls_prop_table *a, const ls_prop_table *b)
{
    size_t na, nb;
    const double *va = ls_prop_table_values(a, &na), *vb = ls_prop_table_values(b, &nb);
    return na == nb && memcmp(va, vb, na * sizeof va[0]) == 0;
}

static void the_same_comes_back(void **state)
{
    (void)state;
    ls_prop_table *made = get(folder), *kept = get(folder), *fresh = get(NULL), *nowhere = get("/no/such/folder");
    assert_true(are_equal(made, kept));
    assert_true(are_equal(made, fresh));
    assert_true(are_equal(made, nowhere));
    ls_prop_table_free(made);
    ls_prop_table_free(kept);
    ls_prop_table_free(fresh);
    ls_prop_table_free(nowhere);
}

/* A byte changed, or a file cut short, is made again. */
static void a_spoilt_file_is_passed_over(void **state)
{
    (void)state;
    char path[512];
    ls_prop_table *made = get(NULL);
    table_path(path);
    FILE *file = fopen(path, "r+b");
    assert_non_null(file);
    fseek(file, 5000, SEEK_SET);
    int byte = fgetc(file);
    fseek(file, 5000, SEEK_SET);
    fputc(byte ^ 1, file);
    fclose(file);
    ls_prop_table *again = get(folder);
    assert_true(are_equal(made, again));
    ls_prop_table_free(again);
    assert_int_equal(truncate(path, 4096), 0);
    again = get(folder);
    assert_true(are_equal(made, again));
    ls_prop_table_free(again);
    ls_prop_table_free(made);
}

/* The numbers of one propeller are refused for another, also where the layout is the same. */
static void another_propeller_is_refused(void **state)
{
    (void)state;
    size_t count;
    ls_disc other;
    ls_error error = {0};
    ls_blade blade = light_twin_blade();
    ls_section section = clark_y();
    ls_prop_table *made = get(NULL), *taken = NULL;
    const double *values = ls_prop_table_values(made, &count);
    blade.station[5].c_R *= 1.01;
    assert_int_equal(ls_disc_prepare(&blade, &section, NULL, &other, &error), LS_OK);
    assert_int_equal(ls_prop_table_restore(&other, &range, LS_INDUCTION_LOCAL, values, count, &taken, &error),
                     LS_FILE_REJECTED);
    assert_null(taken);
    assert_int_equal(ls_prop_table_restore(&disc, &range, LS_INDUCTION_LOCAL, values, count - 1, &taken, NULL),
                     LS_FILE_REJECTED);
    assert_int_equal(ls_prop_table_restore(&disc, &range, LS_INDUCTION_LOCAL, values, count, &taken, NULL), LS_OK);
    ls_prop_table_free(taken);
    ls_prop_table_free(made);
}

static int clean(void **state)
{
    (void)state;
    char path[512];
    table_path(path);
    return unlink(path) != 0 || rmdir(folder) != 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_same_comes_back),
        cmocka_unit_test(a_spoilt_file_is_passed_over),
        cmocka_unit_test(another_propeller_is_refused),
    };
    return cmocka_run_group_tests(tests, prepare, clean);
}
