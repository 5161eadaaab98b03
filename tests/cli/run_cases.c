/* Runs the command-line cases of *.case files and prints TAP; DEVELOPERS.md gives their format.
 *
 * usage: run_cases --program FILE --source DIR CASEFILE...
 * Exit: 0 all passed, 1 some failed, 2 wrong usage or a malformed case file, 130 interrupted.
 */
#include "cases.h"

#include <errno.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>

static void resolve(const char *path, char *result)
{
    char *full = realpath(path, NULL);
    if (full == NULL) {
        die("%s: %s", path, strerror(errno));
    }
    snprintf(result, PATH_MAX, "%s", full);
    free(full);
}

/* Blocked, so that wait_for takes them one at a time. */
static void block_signals(void)
{
    sigset_t signals;
    sigemptyset(&signals);
    sigaddset(&signals, SIGCHLD);
    sigaddset(&signals, SIGINT);
    sigaddset(&signals, SIGTERM);
    sigprocmask(SIG_BLOCK, &signals, NULL);
}

static int passes(const struct test *test, const struct names *names)
{
    struct place place = make_place();
    int status = run_case(test, names, &place);
    int differences = compare(test, names, &place, status);
    remove_place(&place);
    return differences == 0;
}

static int run_all(const struct test *tests, int total, const struct names *names)
{
    int failed = 0;
    printf("1..%d\n", total);
    for (int i = 0; i < total; i++) {
        int passed = passes(&tests[i], names);
        failed += !passed;
        printf("%s %d - %s: %s\n", passed ? "ok" : "not ok", i + 1, tests[i].script->path,
               tests[i].script->lines[tests[i].first].value);
        fflush(stdout);
    }
    return failed;
}

int main(int count, char **arguments)
{
    struct names names;
    if (count < 6 || strcmp(arguments[1], "--program") != 0 || strcmp(arguments[3], "--source") != 0) {
        die("usage: run_cases --program FILE --source DIR CASEFILE...");
    }
    resolve(arguments[2], names.program);
    resolve(arguments[4], names.source);
    int script_count = count - 5;
    struct script *scripts = need(calloc((size_t)script_count, sizeof *scripts));
    struct test *tests = NULL;
    int total = 0;
    for (int i = 0; i < script_count; i++) {
        scripts[i] = read_script(arguments[5 + i]);
        total = find_cases(&scripts[i], &tests, total);
    }
    block_signals();
    int failed = run_all(tests, total, &names);
    for (int i = 0; i < script_count; i++) {
        free(scripts[i].lines);
        free(scripts[i].text);
    }
    free(scripts);
    free(tests);
    return failed > 0;
}
