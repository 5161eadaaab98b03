/* The n-th call that opens, reads, writes, syncs, closes or renames a file fails: the command says so or does
 * without, and what it should have written is whole or as it was, with nothing beside it. */
#define _GNU_SOURCE /* RTLD_NEXT */
#include "check.h"

#include "examples.h"

#include "liveside/file.h"
#include "liveside/reader.h"

#include <dirent.h>
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define FOLDER "build/test_io_faults"
#define OUT    FOLDER "/out"
#define PLOT   FOLDER "/plot"
#define TINY   "tests/data/tiny.yaml"

/* ---- calls that are counted and made to fail; only our own code sees these ---- */

static int armed; /* count and fail now */
static long calls, fail_at;
static const char *failed_call;

static int fails(const char *name)
{
    if (!armed || ++calls != fail_at) {
        return 0;
    }
    failed_call = name;
    errno = EIO;
    return 1;
}

/* A function of the C library behind one of these; POSIX lets the pointer be converted. */
#define REAL(name) (*(__typeof__(name) **)&(void *){dlsym(RTLD_NEXT, #name)})

int open(const char *path, int flags, ...)
{
    va_list more;
    va_start(more, flags);
    mode_t mode = flags & O_CREAT ? va_arg(more, mode_t) : 0;
    va_end(more);
    return fails("open") ? -1 : REAL(open)(path, flags, mode);
}

ssize_t read(int fd, void *to, size_t size)
{
    return fails("read") ? -1 : REAL(read)(fd, to, size);
}

FILE *fdopen(int fd, const char *mode)
{
    return fails("fdopen") ? NULL : REAL(fdopen)(fd, mode);
}

int fflush(FILE *stream)
{
    return fails("fflush") ? EOF : REAL(fflush)(stream);
}

int fsync(int fd)
{
    return fails("fsync") ? -1 : REAL(fsync)(fd);
}

/* What fails to close is closed all the same. */
int fclose(FILE *stream)
{
    int failed = fails("fclose"), number = errno;
    int result = REAL(fclose)(stream);
    errno = failed ? number : errno;
    return failed ? EOF : result;
}

int close(int fd)
{
    int failed = fails("close"), number = errno;
    int result = REAL(close)(fd);
    errno = failed ? number : errno;
    return failed ? -1 : result;
}

int rename(const char *from, const char *to)
{
    return fails("rename") ? -1 : REAL(rename)(from, to);
}

int mkdir(const char *path, mode_t mode)
{
    return fails("mkdir") ? -1 : REAL(mkdir)(path, mode);
}

/* ---- the tests ---- */

static int make_folder(void **state)
{
    (void)state;
    mkdir("build", 0777);
    assert_int_equal(system("rm -rf " FOLDER), 0); /* what an earlier run may have left */
    mkdir(FOLDER, 0777);
    mkdir(PLOT, 0777);
    return setenv("PATH", "/nowhere", 1); /* no gnuplot */
}

static const char old_text[] = "old";

static void write_old(void)
{
    FILE *file = fopen(OUT, "w");
    assert_non_null(file);
    fputs(old_text, file);
    assert_int_equal(fclose(file), 0);
}

static void no_leftovers(const char *folder, const char *during)
{
    DIR *opened = opendir(folder);
    assert_non_null(opened);
    for (const struct dirent *entry = readdir(opened); entry != NULL; entry = readdir(opened)) {
        if (strstr(entry->d_name, ".tmp") != NULL) {
            fail_msg("%s leaves %s/%s", during, folder, entry->d_name);
        }
    }
    closedir(opened);
}

static char *read_out(void)
{
    ls_buffer buffer = {0};
    assert_int_equal(ls_file_read(OUT, LS_READ_BYTES, &buffer, NULL), LS_OK);
    return buffer.data;
}

static ls_status run_failing(example *it, long n, ls_error *error)
{
    *error = (ls_error){0};
    calls = 0;
    fail_at = n;
    failed_call = NULL;
    armed = 1;
    ls_status status = it->command->run(&it->run, error);
    armed = 0;
    return status;
}

/* What a command can do without: the close of what was only read, and tables that are kept to save time. */
static void check_one(example *it, long n, ls_status expected, const char *whole)
{
    ls_error error;
    char during[64];
    write_old();
    ls_status status = run_failing(it, n, &error);
    snprintf(during, sizeof during, "%s, call %ld (%s)", it->command->name, n, failed_call);
    no_leftovers(FOLDER, during);
    no_leftovers(PLOT, during);
    if (status != expected && (status != LS_IO || strstr(error.text, strerror(EIO)) == NULL)) {
        fail_msg("%s: %s (%s)", during, ls_status_text(status), error.text);
    }
    char *out = read_out();
    if (strcmp(out, whole) != 0 && (status == expected || strcmp(out, old_text) != 0)) {
        fail_msg("%s: %s, and this is left:\n%s", during, ls_status_text(status), out);
    }
    free(out);
}

/* Motion takes long to follow, and its results are written as all others are. */
static int is_slow(const char *name)
{
    static const char *const slow[] = {"failure", "runway", "testcard", "reduce", "uncertainty", "handout"};
    for (size_t i = 0; i < sizeof slow / sizeof slow[0]; i++) {
        if (strcmp(slow[i], name) == 0) {
            return 1;
        }
    }
    return 0;
}

static void sweep(const cli_command *command)
{
    static example it;
    ls_error error;
    int has_formats = (command->options & CLI_BIT(CLI_FORMAT)) != 0;
    example_make(command, TINY, OUT, PLOT, has_formats ? "--format csv" : "", &it);
    write_old();
    ls_status expected = run_failing(&it, 0, &error);
    long total = calls, step = 1 + total / (6 + check_scaled(1000)), failed = 0;
    char *whole = read_out();
    for (long n = 1; n <= total; n += step) {
        check_one(&it, n, expected, whole);
        failed++;
    }
    free(whole);
    printf("# %s: %ld calls, %ld made to fail\n", command->name, total, failed);
    assert_true(failed > 0);
}

static void every_command_keeps_files_whole(void **state)
{
    (void)state;
    for (const cli_command *const *command = cli_commands; *command != NULL; command++) {
        if (!is_slow((*command)->name)) {
            sweep(*command);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_command_keeps_files_whole),
    };
    return cmocka_run_group_tests(tests, make_folder, NULL);
}
