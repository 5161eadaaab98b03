#include "scratch.h"

#include "liveside/file.h"

#include <signal.h>
#include <sys/resource.h>

static void write_file(const char *path, const char *text)
{
    ls_output output;
    ls_error error = {0};
    if (ls_output_open(&output, path, &error) != LS_OK) {
        fail_msg("%s", error.text);
    }
    fputs(text, output.stream);
    assert_int_equal(ls_output_commit(&output, &error), LS_OK);
    assert_null(output.stream);
    assert_false(output.pending);
}

static void writes_a_new_file(void **state)
{
    (void)state;
    struct stat about;
    write_file("new", "hello");
    assert_holds("new", "hello");
    assert_int_equal(entries(), 1);
    assert_int_equal(stat("new", &about), 0);
    assert_int_equal(about.st_mode & 07777, 0644);
    umask(027);
    write_file("narrow", "");
    assert_int_equal(stat("narrow", &about), 0);
    assert_int_equal(about.st_mode & 07777, 0640);
}

static void the_old_file_stays_until_the_commit(void **state)
{
    (void)state;
    ls_output output;
    spit("file", "old");
    assert_int_equal(ls_output_open(&output, "file", NULL), LS_OK);
    fputs("new", output.stream);
    fflush(output.stream);
    assert_holds("file", "old");
    assert_int_equal(entries(), 2);
    assert_int_equal(ls_output_commit(&output, NULL), LS_OK);
    assert_holds("file", "new");
    assert_int_equal(entries(), 1);
}

static void an_abandoned_output_leaves_nothing(void **state)
{
    (void)state;
    ls_output output = {0};
    ls_output_abandon(&output);
    spit("file", "old");
    assert_int_equal(ls_output_open(&output, "file", NULL), LS_OK);
    fputs("new", output.stream);
    ls_output_abandon(&output);
    ls_output_abandon(&output);
    assert_holds("file", "old");
    assert_int_equal(ls_output_open(&output, "other", NULL), LS_OK);
    ls_output_abandon(&output);
    assert_int_equal(entries(), 1);
}

static int is_link(const char *path)
{
    struct stat about;
    return lstat(path, &about) == 0 && S_ISLNK(about.st_mode);
}

static void links_stay_and_their_targets_are_replaced(void **state)
{
    (void)state;
    assert_int_equal(mkdir("deep", 0755), 0);
    assert_int_equal(mkdir("deep/er", 0755), 0);
    spit("deep/target", "old");
    assert_int_equal(symlink("deep/er/middle", "link"), 0);
    assert_int_equal(symlink("../target", "deep/er/middle"), 0);
    write_file("link", "new");
    assert_holds("deep/target", "new");
    assert_true(is_link("link") && is_link("deep/er/middle"));

    assert_int_equal(symlink("deep/not-yet", "dangling"), 0);
    write_file("dangling", "made");
    assert_holds("deep/not-yet", "made");
    assert_true(is_link("dangling"));

    char absolute[200];
    folder *here = *state;
    snprintf(absolute, sizeof absolute, "%s/deep/target", here->path);
    assert_int_equal(symlink(absolute, "absolute"), 0);
    write_file("absolute", "again");
    assert_holds("deep/target", "again");
    assert_int_equal(entries(), 4);
}

static void check_open_fails(const char *path, const char *text)
{
    ls_output output;
    ls_error error = {0};
    int before = entries();
    assert_int_equal(ls_output_open(&output, path, &error), LS_IO);
    assert_string_equal(error.text, text);
    assert_null(output.stream);
    ls_output_abandon(&output);
    assert_int_equal(entries(), before);
}

static void refuses_what_it_cannot_write(void **state)
{
    (void)state;
    spit("file", "old");
    assert_int_equal(mkdir("dir", 0755), 0);
    assert_int_equal(symlink("dir", "dirlink"), 0);
    assert_int_equal(symlink("loop", "loop"), 0);
    assert_int_equal(symlink("no/where", "broken"), 0);
    check_open_fails("dir", "cannot write dir: it is a folder, not a file");
    check_open_fails("dirlink", "cannot write dirlink: it is a folder, not a file");
    check_open_fails("no/where", "cannot write no/where: No such file or directory");
    check_open_fails("file/x", "cannot write file/x: Not a directory");
    check_open_fails("loop", "cannot write loop: Too many levels of symbolic links");
    check_open_fails("broken", "cannot write broken: No such file or directory");
    check_open_fails("", "cannot write a file without a name");
    check_open_fails("dir/", "cannot write dir/: it is a folder, not a file");
    ls_output output;
    char path[LS_PATH_TEXT + 10];
    memset(path, 'x', sizeof path);
    path[sizeof path - 1] = '\0';
    assert_int_equal(ls_output_open(&output, path, NULL), LS_IO);
    assert_holds("file", "old");
}

static void the_longest_name_can_be_written(void **state)
{
    (void)state;
    char name[256];
    memset(name, 'n', 255);
    name[255] = '\0';
    write_file(name, "long");
    assert_holds(name, "long");
}

static void a_stale_temporary_file_is_stepped_over(void **state)
{
    (void)state;
    char stale[64];
    snprintf(stale, sizeof stale, ".liveside-%ld-0.tmp", (long)getpid());
    spit(stale, "someone else's");
    write_file("file", "new");
    assert_holds("file", "new");
    assert_holds(stale, "someone else's");
}

/* Two at once in one folder, as a report with its plots has. */
static void two_outputs_do_not_meet(void **state)
{
    (void)state;
    ls_output a, b;
    assert_int_equal(ls_output_open(&a, "a", NULL), LS_OK);
    assert_int_equal(ls_output_open(&b, "b", NULL), LS_OK);
    fputs("A", a.stream);
    fputs("B", b.stream);
    assert_int_equal(ls_output_commit(&a, NULL), LS_OK);
    assert_int_equal(ls_output_commit(&b, NULL), LS_OK);
    assert_holds("a", "A");
    assert_holds("b", "B");
}

/* ---- failures while writing ---- */

static int write_past_a_size_limit(void)
{
    struct rlimit limit = {8192, 8192};
    ls_output output;
    ls_error error = {0};
    signal(SIGXFSZ, SIG_IGN);
    if (setrlimit(RLIMIT_FSIZE, &limit) != 0 || ls_output_open(&output, "file", NULL) != LS_OK) {
        return 1;
    }
    for (int i = 0; i < 100000; i++) {
        fputc('x', output.stream);
    }
    if (ls_output_commit(&output, &error) != LS_IO || output.stream != NULL) {
        return 2;
    }
    return strcmp(error.text, "cannot write file: File too large") != 0;
}

static int write_a_little_past_a_size_limit(void)
{
    struct rlimit limit = {2, 2};
    ls_output output;
    ls_error error = {0};
    signal(SIGXFSZ, SIG_IGN);
    if (setrlimit(RLIMIT_FSIZE, &limit) != 0 || ls_output_open(&output, "file", NULL) != LS_OK) {
        return 1;
    }
    fputs("xxx", output.stream); /* stays in the buffer until the commit */
    return ls_output_commit(&output, &error) != LS_IO ||
           strcmp(error.text, "cannot write file: File too large") != 0;
}

/* The disk has room again by the time of the commit, but what was printed meanwhile is lost. */
static int write_while_the_disk_is_full_for_a_moment(void)
{
    struct rlimit limit = {2, 8192};
    ls_output output;
    ls_error error = {0};
    signal(SIGXFSZ, SIG_IGN);
    if (ls_output_open(&output, "file", NULL) != LS_OK || setvbuf(output.stream, NULL, _IONBF, 0) != 0 ||
        setrlimit(RLIMIT_FSIZE, &limit) != 0) {
        return 1;
    }
    fputs("lost in part", output.stream);
    limit.rlim_cur = limit.rlim_max;
    if (setrlimit(RLIMIT_FSIZE, &limit) != 0) {
        return 2;
    }
    return ls_output_commit(&output, &error) != LS_IO ||
           strcmp(error.text, "cannot write file: Input/output error") != 0;
}

static void a_full_disk_leaves_the_old_file(void **state)
{
    (void)state;
    spit("file", "old");
    assert_int_equal(in_child(write_past_a_size_limit), 0);
    assert_int_equal(in_child(write_a_little_past_a_size_limit), 0);
    assert_int_equal(in_child(write_while_the_disk_is_full_for_a_moment), 0);
    assert_holds("file", "old");
    assert_int_equal(entries(), 1);
}

static void a_full_device_is_an_error(void **state)
{
    (void)state;
    ls_output output;
    ls_error error = {0};
    assert_int_equal(ls_output_open(&output, "/dev/full", NULL), LS_OK);
    assert_false(output.pending);
    fputs("x", output.stream);
    assert_int_equal(ls_output_commit(&output, &error), LS_IO);
    assert_string_equal(error.text, "cannot write /dev/full: No space left on device");
    struct stat about;
    assert_int_equal(stat("/dev/full", &about), 0);
    assert_true(S_ISCHR(about.st_mode));
}

static void a_failed_rename_leaves_no_temporary_file(void **state)
{
    (void)state;
    ls_output output;
    ls_error error = {0};
    assert_int_equal(ls_output_open(&output, "file", NULL), LS_OK);
    fputs("new", output.stream);
    assert_int_equal(mkdir("file", 0755), 0); /* someone was quicker */
    assert_int_equal(ls_output_commit(&output, &error), LS_IO);
    assert_string_equal(error.text, "cannot write file: Is a directory");
    assert_int_equal(entries(), 1);
}

static void a_closed_descriptor_is_an_error(void **state)
{
    (void)state;
    ls_output output;
    ls_error error = {0};
    spit("file", "old");
    assert_int_equal(ls_output_open(&output, "file", NULL), LS_OK);
    fputs("new", output.stream);
    close(fileno(output.stream));
    assert_int_equal(ls_output_commit(&output, &error), LS_IO);
    assert_string_equal(error.text, "cannot write file: Bad file descriptor");
    assert_holds("file", "old");
    assert_int_equal(entries(), 1);
}

/* ---- written in place ---- */

static int write_to_a_pipe(void)
{
    char held[32] = "";
    ls_output output;
    pid_t reader = fork();
    if (reader == 0) {
        int fd = open("fifo", O_RDONLY);
        ssize_t count = read(fd, held, sizeof held - 1);
        _exit(count == 5 && strcmp(held, "hello") == 0 ? 0 : 1);
    }
    if (ls_output_open(&output, "fifo", NULL) != LS_OK || output.pending) {
        return 1;
    }
    fputs("hello", output.stream);
    int status = 0;
    if (ls_output_commit(&output, NULL) != LS_OK || waitpid(reader, &status, 0) != reader) {
        return 2;
    }
    return status != 0;
}

static void a_named_pipe_is_written_in_place(void **state)
{
    (void)state;
    struct stat about;
    assert_int_equal(mkfifo("fifo", 0600), 0);
    assert_int_equal(in_child(write_to_a_pipe), 0);
    assert_int_equal(stat("fifo", &about), 0);
    assert_true(S_ISFIFO(about.st_mode));
    assert_int_equal(entries(), 1);
}

static int write_to_a_broken_pipe(void)
{
    int ends[2];
    ls_output output;
    ls_error error = {0};
    signal(SIGPIPE, SIG_IGN);
    if (pipe(ends) != 0 || dup2(ends[1], STDOUT_FILENO) < 0 || close(ends[0]) != 0) {
        return 1;
    }
    if (ls_output_open(&output, "-", NULL) != LS_OK) {
        return 2;
    }
    fputs("nobody reads", output.stream);
    return ls_output_commit(&output, &error) != LS_IO ||
           strcmp(error.text, "cannot write standard output: Broken pipe") != 0;
}

static int write_to_standard_output(void)
{
    ls_output output;
    int fd = open("captured", O_WRONLY | O_CREAT | O_TRUNC, 0644);
    if (fd < 0 || dup2(fd, STDOUT_FILENO) < 0) {
        return 1;
    }
    printf("first ");
    if (ls_output_open(&output, "-", NULL) != LS_OK) {
        return 2;
    }
    fputs("second ", output.stream);
    if (ls_output_commit(&output, NULL) != LS_OK) {
        return 3;
    }
    printf("third");
    return fflush(stdout);
}

static int write_to_closed_standard_output(void)
{
    ls_output output;
    ls_error error = {0};
    close(STDOUT_FILENO);
    return ls_output_open(&output, "-", &error) != LS_IO ||
           strcmp(error.text, "cannot write standard output: Bad file descriptor") != 0;
}

/* Standard output appends to a log, and the same log is named as the output: nothing of it may be lost. */
static int write_to_the_file_behind_standard_output(void)
{
    ls_output output;
    int fd = open("log", O_WRONLY | O_APPEND);
    if (fd < 0 || dup2(fd, STDOUT_FILENO) < 0 || ls_output_open(&output, "log", NULL) != LS_OK || output.pending) {
        return 1;
    }
    fputs("two", output.stream);
    return ls_output_commit(&output, NULL) != LS_OK;
}

static void standard_output_is_written_in_place(void **state)
{
    (void)state;
    spit("log", "one ");
    assert_int_equal(in_child(write_to_standard_output), 0);
    assert_holds("captured", "first second third");
    assert_int_equal(in_child(write_to_closed_standard_output), 0);
    assert_int_equal(in_child(write_to_a_broken_pipe), 0);
    assert_int_equal(in_child(write_to_the_file_behind_standard_output), 0);
    assert_holds("log", "one two");
    assert_int_equal(entries(), 2);
}

/* ---- signals and permissions ---- */

static const ls_output *unfinished;

static void clean_and_end(int number)
{
    ls_output_unlink(unfinished);
    _exit(number == SIGTERM ? 0 : 1);
}

static int be_stopped_while_writing(void)
{
    ls_output output;
    ls_output_unlink(NULL);
    unfinished = &output;
    signal(SIGTERM, clean_and_end);
    if (ls_output_open(&output, "file", NULL) != LS_OK || !output.pending || entries() != 2) {
        return 2;
    }
    fputs("half", output.stream);
    raise(SIGTERM);
    return 3;
}

static void a_signal_handler_removes_the_temporary_file(void **state)
{
    (void)state;
    spit("file", "old");
    assert_int_equal(in_child(be_stopped_while_writing), 0);
    assert_holds("file", "old");
    assert_int_equal(entries(), 1);
}

static int open_must_be_denied(const char *path)
{
    ls_output output;
    ls_error error = {0};
    char want[128];
    snprintf(want, sizeof want, "cannot write %s: Permission denied", path);
    return ls_output_open(&output, path, &error) != LS_IO || strcmp(error.text, want) != 0 ||
           output.stream != NULL;
}

static int write_without_permission(void)
{
    if (!become_ordinary_user()) {
        return SKIPPED;
    }
    if (open_must_be_denied("closed/new")) {
        return 1;
    }
    if (open_must_be_denied("open/readonly")) {
        return 2;
    }
    if (open_must_be_denied("locked/file")) {
        return 3;
    }
    ls_output output;
    if (ls_output_open(&output, "open/new", NULL) != LS_OK || ls_output_commit(&output, NULL) != LS_OK) {
        return 4;
    }
    return 0;
}

static void permissions_are_kept(void **state)
{
    (void)state;
    assert_int_equal(mkdir("closed", 0755), 0);
    assert_int_equal(mkdir("open", 0755), 0);
    assert_int_equal(mkdir("locked", 0755), 0);
    spit("open/readonly", "old");
    spit("locked/file", "old");
    assert_int_equal(chmod("open/readonly", 0444), 0);
    assert_int_equal(chmod("closed", 0555), 0);
    assert_int_equal(chmod("open", 0777), 0);
    assert_int_equal(chmod("locked", 0), 0);
    int code = in_child(write_without_permission);
    assert_int_equal(chmod("locked", 0755), 0);
    assert_child_passed(code);
    assert_holds("open/readonly", "old");
    assert_holds("locked/file", "old");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_FOLDER(writes_a_new_file),
        IN_FOLDER(the_old_file_stays_until_the_commit),
        IN_FOLDER(an_abandoned_output_leaves_nothing),
        IN_FOLDER(links_stay_and_their_targets_are_replaced),
        IN_FOLDER(refuses_what_it_cannot_write),
        IN_FOLDER(the_longest_name_can_be_written),
        IN_FOLDER(a_stale_temporary_file_is_stepped_over),
        IN_FOLDER(two_outputs_do_not_meet),
        IN_FOLDER(a_full_disk_leaves_the_old_file),
        IN_FOLDER(a_full_device_is_an_error),
        IN_FOLDER(a_failed_rename_leaves_no_temporary_file),
        IN_FOLDER(a_closed_descriptor_is_an_error),
        IN_FOLDER(a_named_pipe_is_written_in_place),
        IN_FOLDER(standard_output_is_written_in_place),
        IN_FOLDER(a_signal_handler_removes_the_temporary_file),
        IN_FOLDER(permissions_are_kept),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
