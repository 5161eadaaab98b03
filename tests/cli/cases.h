/* The parts of run_cases: case files read, one case run, its output compared. */
#ifndef LIVESIDE_TESTS_CASES_H
#define LIVESIDE_TESTS_CASES_H

#include <limits.h>
#include <stddef.h>
#include <stdio.h>

/* One line of a case file: `key: value`, or a block line with the key "|". */
struct line {
    const char *key;
    const char *value;
    int number;
};

struct script {
    const char *path;
    char *text; /* what the lines point into */
    struct line *lines;
    int count;
};

/* Lines [first, end) of a script, the first being `case: NAME`. */
struct test {
    const struct script *script;
    int first;
    int end;
};

/* Where one case runs: ROOT/work is its folder, beside it its input and its output. */
struct place {
    char root[PATH_MAX];
    char work[PATH_MAX + 16];
    char input[PATH_MAX + 16];
    char output[PATH_MAX + 16];
    char errors[PATH_MAX + 16];
};

/* `78.4 +- 0.2 after LABEL` */
struct near {
    double want;
    double tolerance;
    const char *label;
};

/* What $LIVESIDE and $SOURCE stand for, absolute paths. */
struct names {
    char program[PATH_MAX];
    char source[PATH_MAX];
};

/* case_file.c; a malformed file or a failed resource ends the program with status 2. */
void die(const char *format, ...) __attribute__((format(printf, 1, 2), noreturn));
void *need(void *memory);
char *read_all(const char *path, size_t *size);
void close_written(FILE *file, const char *path);
struct script read_script(const char *path);
int find_cases(const struct script *script, struct test **tests, int count);
int key_is(const struct test *test, int i, const char *key);
const char *value_of(const struct test *test, const char *key);
/* Returned: whether the text has that form. */
int parse_near(const char *value, struct near *near);
char *expanded(const struct names *names, const char *text);
/* The `|` lines after line i, each with its newline, expanded unless names is null. */
char *block_after(const struct test *test, int i, const struct names *names);

/* case_run.c */
struct place make_place(void);
void remove_place(const struct place *place);
/* Returned: the exit status (128 + n for signal n), or -1 when the time limit was reached. */
int run_case(const struct test *test, const struct names *names, const struct place *place);

/* case_match.c: prints each difference as a TAP comment; returns the number of them. */
int compare(const struct test *test, const struct names *names, const struct place *place, int status);

#endif
