/* Every file of tests/data/bad is refused with just the messages of the .txt beside it, position and all, and
 * leaves what the caller had. */
#include "check.h"
#include "edited.h"

#include <dirent.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define FOLDER "tests/data/bad"

static edited_file file;

static int is_untouched(const void *record, size_t size)
{
    const unsigned char *bytes = record;
    for (size_t i = 0; i < size; i++) {
        if (bytes[i] != 0xA5) {
            return 0;
        }
    }
    return 1;
}

/* Reads a path over a filled record. */
static void read_over(const char *path, char sha256[LS_SHA256_TEXT])
{
    memset(&file, 0, sizeof file);
    memset(&file.aircraft, 0xA5, sizeof file.aircraft);
    memset(&file.marks, 0xA5, sizeof file.marks);
    file.status = ls_aircraft_read(path, &file.aircraft, &file.marks, &file.findings, sha256, &file.error);
    assert_true(is_untouched(&file.aircraft, sizeof file.aircraft));
    assert_true(is_untouched(&file.marks, sizeof file.marks));
}

static int check_bad_file(const char *name)
{
    char path[300], expected_path[300];
    snprintf(path, sizeof path, FOLDER "/%s", name);
    snprintf(expected_path, sizeof expected_path, "%.*s.txt", (int)(strlen(path) - strlen(".yaml")), path);
    read_over(path, NULL);
    char *expected = edited_text(expected_path);
    char *got = edited_findings(name, &file.findings);
    int is_right = strcmp(got, expected) == 0 && file.status == LS_FILE_REJECTED;
    if (!is_right) {
        print_error("%s: %s\ngot\n%sexpected\n%s", name, ls_status_text(file.status), got, expected);
    }
    free(got);
    free(expected);
    return is_right;
}

static void each_bad_file_has_its_message(void **state)
{
    (void)state;
    DIR *folder = opendir(FOLDER);
    assert_non_null(folder);
    int seen = 0, right = 0;
    for (const struct dirent *entry; (entry = readdir(folder)) != NULL;) {
        const char *end = strrchr(entry->d_name, '.');
        if (end != NULL && strcmp(end, ".yaml") == 0) {
            seen++;
            right += check_bad_file(entry->d_name);
        }
    }
    closedir(folder);
    assert_true(seen >= 70);
    assert_int_equal(right, seen);
}

static void a_refused_file_is_counted_in_the_error(void **state)
{
    (void)state;
    char sha256[LS_SHA256_TEXT];
    read_over(FOLDER "/many-errors.yaml", sha256);
    assert_string_equal(file.error.text, FOLDER "/many-errors.yaml is refused: 25 errors");
    read_over(FOLDER "/empty.yaml", sha256);
    assert_string_equal(file.error.text, FOLDER "/empty.yaml is refused: 1 error");
    /* FIPS 180-4: the digest of the empty message. */
    assert_string_equal(sha256, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

static void what_cannot_be_read_is_an_error_of_reading(void **state)
{
    (void)state;
    char sha256[LS_SHA256_TEXT];
    read_over(FOLDER "/not-there.yaml", sha256);
    assert_int_equal(file.status, LS_IO);
    assert_string_equal(file.error.text, "cannot read " FOLDER "/not-there.yaml: No such file or directory");
    assert_string_equal(sha256, "");
    read_over("tests/data", sha256);
    assert_int_equal(file.status, LS_IO);
    assert_string_equal(file.error.text, "cannot read tests/data: it is a folder, not a file");
    assert_int_equal(file.findings.stored, 0);
}

/* Writes size bytes into a temporary file. */
static void make_file(char path[], const char *unit, size_t repeats)
{
    int fd = mkstemp(path);
    assert_true(fd >= 0);
    FILE *out = fdopen(fd, "w");
    assert_non_null(out);
    for (size_t i = 0; i < repeats; i++) {
        fputs(unit, out);
    }
    assert_int_equal(fclose(out), 0);
}

static void a_file_of_five_mebibytes_is_refused_by_its_size(void **state)
{
    (void)state;
    char path[] = "/tmp/liveside-large-XXXXXX";
    char expected[200];
    make_file(path, "# sixteen bytes\n", 5 * 65536);
    read_over(path, NULL);
    unlink(path);
    snprintf(expected, sizeof expected, "%s is too large: the limit is 1048576 bytes", path);
    assert_int_equal(file.status, LS_FILE_REJECTED);
    assert_string_equal(file.error.text, expected);
}

/* A program is as binary as a file gets. */
static void a_binary_file_is_refused(void **state)
{
    (void)state;
    edited_parse("\177ELF\2\1\1\0\0\0", 10, &file);
    char *got = edited_findings("file", &file.findings);
    assert_string_equal(
        got, "file:1:1: error: the file is not plain text in UTF-8: it holds the control character U+007F\n");
    free(got);
}

/* In a child without root's rights. Returned: 0 when the reading fails as it should. */
static int read_without_permission(const char *path)
{
    char expected[200];
    if (geteuid() == 0 && (setgid(65534) != 0 || setuid(65534) != 0)) {
        return 2;
    }
    memset(&file, 0, sizeof file);
    file.status = ls_aircraft_read(path, &file.aircraft, &file.marks, &file.findings, NULL, &file.error);
    snprintf(expected, sizeof expected, "cannot read %s: Permission denied", path);
    return file.status == LS_IO && strcmp(file.error.text, expected) == 0 ? 0 : 1;
}

static void a_file_without_permission_is_an_error_of_reading(void **state)
{
    (void)state;
    char path[] = "/tmp/liveside-secret-XXXXXX";
    int status = -1;
    make_file(path, "name: secret\n", 1);
    assert_int_equal(chmod(path, 0), 0);
    pid_t child = fork();
    if (child == 0) {
        _exit(read_without_permission(path));
    }
    assert_int_equal(waitpid(child, &status, 0), child);
    unlink(path);
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 0);
}

/* Many keys: the limits are on what is counted, not only on bytes. */
static void limits_on_counts_hold(void **state)
{
    (void)state;
    size_t size = 0;
    char *text = NULL;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    for (int i = 0; i <= LS_READ_KEYS; i++) {
        fprintf(out, "k%d: 1\n", i);
    }
    fclose(out);
    edited_parse(text, size, &file);
    free(text);
    assert_int_equal(file.findings.total[LS_REJECT], 1);
    assert_string_equal(file.findings.item[0].text, "the file holds too many keys");
    assert_int_equal(file.findings.item[0].line, LS_READ_KEYS + 1);

    out = open_memstream(&text, &size);
    assert_non_null(out);
    fputs("k:\n", out);
    for (int i = 0; i <= LS_READ_VALUES; i++) {
        fputs("- 1\n", out);
    }
    fclose(out);
    edited_parse(text, size, &file);
    free(text);
    assert_int_equal(file.findings.total[LS_REJECT], 1);
    assert_string_equal(file.findings.item[0].text, "the file holds too many values");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_bad_file_has_its_message),
        cmocka_unit_test(a_refused_file_is_counted_in_the_error),
        cmocka_unit_test(what_cannot_be_read_is_an_error_of_reading),
        cmocka_unit_test(a_file_of_five_mebibytes_is_refused_by_its_size),
        cmocka_unit_test(a_binary_file_is_refused),
        cmocka_unit_test(a_file_without_permission_is_an_error_of_reading),
        cmocka_unit_test(limits_on_counts_hold),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
