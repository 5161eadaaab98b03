/* Drawing with programs named gnuplot that misbehave, without any, and where nothing can be drawn. */
#include "scratch.h"

#include "render_job.h"

#include <errno.h>
#include <signal.h>
#include <time.h>

static char here[256]; /* the current folder, for search paths */

static int enter(void **state)
{
    return enter_folder(state) != 0 || getcwd(here, sizeof here) == NULL;
}

#define IN_HERE(name) cmocka_unit_test_setup_teardown(name, enter, leave_folder)

/* A folder with a program named gnuplot that does what a shell is told. */
static void fake(const char *where, const char *does)
{
    char path[128];
    char text[1024];
    assert_true(mkdir(where, 0755) == 0 || errno == EEXIST);
    snprintf(path, sizeof path, "%s/gnuplot", where);
    snprintf(text, sizeof text, "#!/bin/sh\n%s\n", does);
    spit(path, text);
    assert_int_equal(chmod(path, 0755), 0);
}

/* Draws charts/x with the fake program; every picture of before must be as it was. */
static ls_status draw_with(const char *does, double limit_s, ls_render_outcome *outcome, ls_error *error)
{
    char path[320];
    fake("bin", does);
    snprintf(path, sizeof path, "%s/bin:/usr/bin:/bin", here);
    assert_true(mkdir("charts", 0755) == 0 || errno == EEXIST);
    spit("charts/x.gp", "plot x\n");
    spit("charts/x.svg", "old svg");
    spit("charts/x.png", "old png");
    ls_render_job job = job_of("charts", "x");
    job.search_path = path;
    job.limit_s = limit_s;
    *error = (ls_error){0};
    return ls_render(&job, outcome, error);
}

static void assert_only_old_pictures(void)
{
    assert_holds("charts/x.svg", "old svg");
    assert_holds("charts/x.png", "old png");
    assert_int_equal(chdir("charts"), 0);
    assert_int_equal(entries(), 3);
    assert_int_equal(chdir(".."), 0);
}

static void a_failing_gnuplot_is_told(void **state)
{
    (void)state;
    static const struct {
        const char *does, *says;
    } row[] = {
        {"exit 1", "charts/x.gp: gnuplot failed (exit 1): without a word"},
        {"echo one; echo two >&2; echo; exit 3", "charts/x.gp: gnuplot failed (exit 3): two"},
        {"printf 'a\\033[31mb\\n' >&2; exit 2", "charts/x.gp: gnuplot failed (exit 2): a?[31mb"},
        {"yes ooooooooooooooooooooo | head -n 200000; echo last; exit 4",
         "charts/x.gp: gnuplot failed (exit 4): last"},
        {"kill -9 $$", "charts/x.gp: gnuplot was ended by signal 9"},
        {"exit 0", "charts/x.svg: gnuplot ended well but drew nothing"},
        {"echo svg > .x.$PPID.svg", "charts/x.png: gnuplot ended well but drew nothing"},
        {"echo svg > .x.$PPID.svg; : > .x.$PPID.png", "charts/x.png: gnuplot ended well but drew nothing"},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        ls_error error;
        ls_render_outcome outcome;
        assert_int_equal(draw_with(row[i].does, 0.0, &outcome, &error), LS_IO);
        assert_int_equal(outcome, LS_RENDER_FAILED);
        assert_string_equal(error.text, row[i].says);
        assert_only_old_pictures();
    }
}

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* Whether a process is gone, or a zombie that nobody has waited for yet. */
static int is_gone(long pid)
{
    char path[64];
    char text[256];
    snprintf(path, sizeof path, "/proc/%ld/stat", pid);
    for (int i = 0; i < 200; i++) {
        if (kill((pid_t)pid, 0) != 0) {
            return 1;
        }
        FILE *file = fopen(path, "r");
        size_t n = file != NULL ? fread(text, 1, sizeof text - 1, file) : 0;
        text[n] = '\0';
        if (file == NULL || strstr(text, ") Z ") != NULL) {
            return 1;
        }
        fclose(file);
        nanosleep(&(struct timespec){0, 10000000}, NULL);
    }
    return 0;
}

static long read_pid(const char *path)
{
    char text[64];
    long pid = 0;
    slurp(path, text, sizeof text);
    assert_int_equal(sscanf(text, "%ld", &pid), 1);
    return pid;
}

static void a_hanging_gnuplot_is_ended_with_its_children(void **state)
{
    (void)state;
    ls_error error;
    ls_render_outcome outcome;
    double start_s = now_s();
    assert_int_equal(draw_with("sleep 60 & echo $! > ../child; echo $$ > ../self; trap '' TERM INT; echo x > "
                               ".x.$PPID.svg; sleep 60",
                               0.4, &outcome, &error),
                     LS_IO);
    check_between("time until it was ended, s", now_s() - start_s, 0.39, 5.0, "identity: the limit asked for");
    assert_int_equal(outcome, LS_RENDER_FAILED);
    assert_string_equal(error.text, "charts/x.gp: gnuplot did not end within 0.4 s");
    assert_only_old_pictures();
    assert_true(is_gone(read_pid("child")));
    assert_true(is_gone(read_pid("self")));
}

/* One that ends but leaves a child with the pipe open is not waited for. */
static void children_left_behind_are_ended(void **state)
{
    (void)state;
    ls_error error;
    ls_render_outcome outcome;
    double start_s = now_s();
    assert_int_equal(draw_with("sleep 60 & echo $! > ../child; exit 1", 0.0, &outcome, &error), LS_IO);
    check_between("time, s", now_s() - start_s, 0.0, 5.0, "identity: not the child's 60 s");
    assert_true(is_gone(read_pid("child")));
}

static void its_surroundings_are_bare(void **state)
{
    (void)state;
    char text[4096];
    char want[512];
    ls_error error;
    ls_render_outcome outcome;
    const char *does =
        "env > ../env; cat > ../stdin; cut -d' ' -f5 /proc/$$/stat > ../group; echo $$ > ../self; pwd "
        "> ../pwd; echo \"$*\" > ../arguments; echo s > .x.$PPID.svg; echo p > .x.$PPID.png";
    assert_int_equal(setenv("LS_SECRET", "x", 1), 0);
    assert_int_equal(draw_with(does, 0.0, &outcome, &error), LS_OK);
    assert_int_equal(unsetenv("LS_SECRET"), 0);
    assert_int_equal(outcome, LS_RENDER_DRAWN);
    assert_holds("charts/x.svg", "s\n");
    assert_holds("charts/x.png", "p\n");
    slurp("env", text, sizeof text);
    for (char *line = strtok(text, "\n"); line != NULL; line = strtok(NULL, "\n")) {
        assert_true(strcmp(line, "LC_ALL=C") == 0 || strncmp(line, "PATH=", 5) == 0 ||
                    strncmp(line, "HOME=", 5) == 0 || strncmp(line, "PWD=", 4) == 0 ||
                    strncmp(line, "OLDPWD=", 7) == 0 || strncmp(line, "SHLVL=", 6) == 0 ||
                    strncmp(line, "_=", 2) == 0); /* the last four are the shell's own */
    }
    assert_holds("stdin", "");
    assert_int_equal(read_pid("group"), read_pid("self"));
    snprintf(want, sizeof want, "%s/charts\n", here);
    assert_holds("pwd", want);
    snprintf(want, sizeof want, "-d -e out='.x.%ld'; formats='svg png' ./x.gp\n", (long)getpid());
    assert_holds("arguments", want);
}

/* Only absolute folders of the search path count: a gnuplot that lies where the charts do is not run. */
static void a_missing_gnuplot_is_an_outcome(void **state)
{
    (void)state;
    static const char *const path[] = {NULL, "", ":", ".", "bin", ".:bin::./bin", "/no/such/folder", "~/bin"};
    fake("bin", "touch ../ran; exit 1");
    fake(".", "touch ran; exit 1");
    spit("x.gp", "");
    for (size_t i = 0; i < sizeof path / sizeof path[0]; i++) {
        ls_error error = {0};
        ls_render_outcome outcome = LS_RENDER_DRAWN;
        ls_render_job job = job_of(".", "x");
        job.search_path = path[i];
        assert_int_equal(ls_render(&job, &outcome, &error), LS_OK);
        assert_int_equal(outcome, LS_RENDER_NO_GNUPLOT);
        assert_int_equal(error.status, LS_OK);
    }
    char folders[600];
    assert_int_equal(mkdir("plain", 0755), 0); /* found, but not to be run */
    spit("plain/gnuplot", "");
    assert_int_equal(mkdir("odd", 0755), 0);
    assert_int_equal(mkdir("odd/gnuplot", 0755), 0);
    snprintf(folders, sizeof folders, "%s/plain:%s/odd", here, here);
    ls_render_outcome outcome;
    ls_render_job job = job_of(".", "x");
    job.search_path = folders;
    assert_int_equal(ls_render(&job, &outcome, NULL), LS_OK);
    assert_int_equal(outcome, LS_RENDER_NO_GNUPLOT);
    assert_int_equal(access("ran", F_OK), -1);
}

static void a_program_that_cannot_start_is_told(void **state)
{
    (void)state;
    char path[320];
    ls_error error = {0};
    ls_render_outcome outcome;
    assert_int_equal(mkdir("bin", 0755), 0);
    spit("bin/gnuplot", "#!/no/such/interpreter\n");
    assert_int_equal(chmod("bin/gnuplot", 0755), 0);
    spit("x.gp", "");
    snprintf(path, sizeof path, "%s/bin", here);
    ls_render_job job = job_of(".", "x");
    job.search_path = path;
    assert_int_equal(ls_render(&job, &outcome, &error), LS_IO);
    assert_non_null(strstr(error.text, "cannot be started"));
    assert_int_equal(entries(), 2);
}

static void bad_requests_are_refused(void **state)
{
    (void)state;
    static const struct {
        const char *folder, *name;
        unsigned formats;
        ls_status status;
        const char *says;
    } row[] = {
        {".", "../x", LS_RENDER_ALL, LS_USAGE, "a-z"},
        {".", "a'; system('touch ran'); '", LS_RENDER_ALL, LS_USAGE, "a-z"},
        {".", "", LS_RENDER_ALL, LS_USAGE, "a-z"},
        {".", "-e", LS_RENDER_ALL, LS_USAGE, "a-z"},
        {".", "x", 0, LS_USAGE, "no format"},
        {".", "absent", LS_RENDER_ALL, LS_IO, "./absent.gp: No such file or directory"},
        {"absent", "x", LS_RENDER_ALL, LS_IO, "absent/x.gp: No such file or directory"},
    };
    spit("x.gp", "");
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        ls_error error = {0};
        ls_render_outcome outcome = LS_RENDER_DRAWN;
        ls_render_job job = job_of(row[i].folder, row[i].name);
        job.formats = row[i].formats;
        assert_int_equal(ls_render(&job, &outcome, &error), row[i].status);
        assert_int_equal(outcome, LS_RENDER_FAILED);
        assert_non_null(strstr(error.text, row[i].says));
    }
    assert_int_equal(entries(), 1);
}

static void a_raised_flag_stops_it(void **state)
{
    (void)state;
    char path[320];
    ls_error error = {0};
    ls_render_outcome outcome;
    volatile sig_atomic_t stop = 1;
    fake("bin", "sleep 60");
    spit("x.gp", "");
    snprintf(path, sizeof path, "%s/bin:/usr/bin:/bin", here);
    ls_render_job job = job_of(".", "x");
    job.search_path = path;
    job.stop = &stop;
    double start_s = now_s();
    assert_int_equal(ls_render(&job, &outcome, &error), LS_INTERRUPTED);
    check_between("time until it stopped, s", now_s() - start_s, 0.0, 5.0, "identity: not 60 s");
    assert_int_equal(entries(), 2);
}

static int try_a_locked_folder(void)
{
    ls_error error = {0};
    ls_render_outcome outcome;
    if (mkdir("locked", 0755) != 0) {
        return SKIPPED;
    }
    spit("locked/x.gp", "set output 'x.svg'\n");
    if (chmod("locked", 0555) != 0 || !become_ordinary_user()) {
        return SKIPPED;
    }
    ls_render_job job = job_of("locked", "x");
    return ls_render(&job, &outcome, &error) == LS_IO && outcome == LS_RENDER_FAILED &&
                   strstr(error.text, "chart folder locked cannot be written to: Permission denied") != NULL
               ? 0
               : 1;
}

static void a_locked_folder_is_told(void **state)
{
    (void)state;
    assert_child_passed(in_child(try_a_locked_folder));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_HERE(a_failing_gnuplot_is_told),       IN_HERE(a_hanging_gnuplot_is_ended_with_its_children),
        IN_HERE(children_left_behind_are_ended),  IN_HERE(its_surroundings_are_bare),
        IN_HERE(a_missing_gnuplot_is_an_outcome), IN_HERE(a_program_that_cannot_start_is_told),
        IN_HERE(bad_requests_are_refused),        IN_HERE(a_raised_flag_stops_it),
        IN_HERE(a_locked_folder_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
