#include "cases.h"

#include <errno.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

enum { FILE_MAX = 8 << 20 };

static const char *const known_keys[] = {
    "case",        "env",          "file",         "stdin",       "run",        "exit",       "limit",
    "stdout has",  "stdout line",  "stdout lacks", "stdout near", "stdout is",  "stdout any", "stderr has",
    "stderr line", "stderr lacks", "stderr near",  "stderr is",   "stderr any",
};

void die(const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    fputs("run_cases: ", stderr);
    vfprintf(stderr, format, arguments);
    fputc('\n', stderr);
    va_end(arguments);
    exit(2);
}

void *need(void *memory)
{
    if (memory == NULL) {
        die("out of memory");
    }
    return memory;
}

/* The whole of a file, ended by NUL; the caller frees it. */
char *read_all(const char *path, size_t *size)
{
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        die("%s: %s", path, strerror(errno));
    }
    char *text = need(malloc(FILE_MAX + 1));
    *size = fread(text, 1, FILE_MAX, file);
    if (ferror(file) || fgetc(file) != EOF) {
        die("%s: cannot be read, or longer than %d bytes", path, FILE_MAX);
    }
    fclose(file);
    text[*size] = '\0';
    return text;
}

void close_written(FILE *file, const char *path)
{
    if (file == NULL || ferror(file) || fclose(file) != 0) {
        die("%s: cannot be written", path);
    }
}

static int is_key(const char *key)
{
    for (size_t i = 0; i < sizeof known_keys / sizeof known_keys[0]; i++) {
        if (strcmp(key, known_keys[i]) == 0) {
            return 1;
        }
    }
    return 0;
}

/* Splits one line in place; blank lines and comments give 0. */
static int split_line(const char *path, char *text, int number, struct line *line)
{
    line->number = number;
    if (text[0] == '\0' || text[0] == '#') {
        return 0;
    }
    if (text[0] == '|') {
        line->key = "|";
        line->value = text + (text[1] == ' ' ? 2 : 1);
        return 1;
    }
    char *colon = strchr(text, ':');
    if (colon == NULL) {
        die("%s:%d: neither `key: value` nor a `|` line: %s", path, number, text);
    }
    *colon = '\0';
    if (!is_key(text)) {
        die("%s:%d: unknown key: %s", path, number, text);
    }
    line->key = text;
    line->value = colon + 1 + strspn(colon + 1, " ");
    return 1;
}

/* The caller frees the text and the lines. */
struct script read_script(const char *path)
{
    size_t size = 0;
    char *text = read_all(path, &size);
    struct script script = {.path = path, .text = text, .lines = NULL, .count = 0};
    int number = 0;
    for (char *next = text; next != NULL && *next != '\0';) {
        char *start = next;
        char *newline = strchr(start, '\n');
        next = newline != NULL ? newline + 1 : NULL;
        if (newline != NULL) {
            *newline = '\0';
        }
        size_t bytes = ((size_t)script.count + 1) * sizeof *script.lines;
        script.lines = need(realloc(script.lines, bytes));
        number++;
        script.count += split_line(path, start, number, &script.lines[script.count]);
    }
    if (script.count == 0 || strcmp(script.lines[0].key, "case") != 0) {
        die("%s:1: the first line must be `case: NAME`", path);
    }
    return script;
}

int key_is(const struct test *test, int i, const char *key)
{
    return strcmp(test->script->lines[i].key, key) == 0;
}

/* The first value of a key, or null. */
const char *value_of(const struct test *test, const char *key)
{
    for (int i = test->first; i < test->end; i++) {
        if (key_is(test, i, key)) {
            return test->script->lines[i].value;
        }
    }
    return NULL;
}

int parse_near(const char *value, struct near *near)
{
    char *rest = NULL;
    near->want = strtod(value, &rest);
    if (rest == value || strncmp(rest, " +- ", 4) != 0) {
        return 0;
    }
    near->tolerance = strtod(rest + 4, &rest);
    near->label = rest + strlen(" after ");
    return strncmp(rest, " after ", 7) == 0 && *near->label != '\0' && near->tolerance >= 0.0;
}

static int ends_with(const char *text, const char *end)
{
    size_t length = strlen(text), end_length = strlen(end);
    return length >= end_length && strcmp(text + length - end_length, end) == 0;
}

static int takes_block(const char *key)
{
    return strcmp(key, "|") == 0 || strcmp(key, "file") == 0 || strcmp(key, "stdin") == 0 || ends_with(key, " is");
}

/* 0, or what is wrong with a line whose key is known. */
static const char *fault_of(const struct line *line)
{
    const char *key = line->key, *value = line->value;
    struct near near;
    if (ends_with(key, " near") && !parse_near(value, &near)) {
        return "want `NUMBER +- TOLERANCE after TEXT`";
    }
    if (strcmp(key, "file") == 0 && (*value == '\0' || strlen(value) > 255 || strchr(value, '/') != NULL)) {
        return "want a plain file name";
    }
    if (strcmp(key, "env") == 0 && strchr(value, '=') == NULL) {
        return "want NAME=VALUE";
    }
    if (strcmp(key, "limit") == 0 && (strtol(value, NULL, 10) < 1 || strtol(value, NULL, 10) > 600)) {
        return "want 1 to 600 seconds";
    }
    if (strcmp(key, "exit") == 0 && (*value == '\0' || strspn(value, "0123456789") != strlen(value))) {
        return "want a number";
    }
    int may_be_empty = takes_block(key) || ends_with(key, " any");
    return *value == '\0' && !may_be_empty ? "text is missing" : NULL;
}

static void check_case(const struct test *test)
{
    const char *path = test->script->path;
    const struct line *lines = test->script->lines;
    if (value_of(test, "run") == NULL || value_of(test, "exit") == NULL) {
        die("%s:%d: a case needs `run` and `exit`", path, lines[test->first].number);
    }
    for (int i = test->first; i < test->end; i++) {
        if (key_is(test, i, "|") && !takes_block(lines[i - 1].key)) {
            die("%s:%d: a `|` line after `%s`", path, lines[i].number, lines[i - 1].key);
        }
        const char *fault = fault_of(&lines[i]);
        if (fault != NULL) {
            die("%s:%d: %s", path, lines[i].number, fault);
        }
    }
}

/* Appends a script's cases to the count there are already; returns the new count. */
int find_cases(const struct script *script, struct test **tests, int count)
{
    int first = count;
    for (int i = 0; i < script->count; i++) {
        if (strcmp(script->lines[i].key, "case") == 0) {
            *tests = need(realloc(*tests, ((size_t)count + 1) * sizeof **tests));
            (*tests)[count] = (struct test){.script = script, .first = i, .end = i + 1};
            count++;
        } else {
            (*tests)[count - 1].end = i + 1;
        }
    }
    for (int i = first; i < count; i++) {
        check_case(&(*tests)[i]);
    }
    return count;
}

/* Writes text with $SOURCE and $LIVESIDE replaced. */
static void put_expanded(FILE *file, const struct names *names, const char *text)
{
    while (*text != '\0') {
        if (strncmp(text, "$SOURCE", 7) == 0) {
            fputs(names->source, file);
            text += 7;
        } else if (strncmp(text, "$LIVESIDE", 9) == 0) {
            fputs(names->program, file);
            text += 9;
        } else {
            fputc(*text++, file);
        }
    }
}

char *expanded(const struct names *names, const char *text)
{
    char *result = NULL;
    size_t size = 0;
    FILE *file = need(open_memstream(&result, &size));
    put_expanded(file, names, text);
    close_written(file, "memory");
    return result;
}

/* The lines of the block that follows line i, each with its newline; the caller frees it. */
char *block_after(const struct test *test, int i, const struct names *names)
{
    char *result = NULL;
    size_t size = 0;
    FILE *file = need(open_memstream(&result, &size));
    for (i++; i < test->end && key_is(test, i, "|"); i++) {
        const char *value = test->script->lines[i].value;
        char *line = names != NULL ? expanded(names, value) : need(strdup(value));
        fprintf(file, "%s\n", line);
        free(line);
    }
    close_written(file, "memory");
    return result;
}
