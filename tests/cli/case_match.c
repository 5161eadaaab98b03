#include "cases.h"

#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { SHOWN_LINES = 20 };

/* What one output holds, and how the checks of it went. */
struct stream {
    const struct test *test;
    const struct names *names;
    const char *name;
    char *text;
    size_t size;
    int checks;
    int differences;
};

static void differ(struct stream *stream, int i, const char *said)
{
    const struct line *line = &stream->test->script->lines[i];
    printf("# %s:%d: %s: %s %s\n", stream->test->script->path, line->number, line->key, said, line->value);
    stream->differences++;
}

static void show(const char *title, const char *text)
{
    printf("# %s%s\n", title, *text == '\0' ? " nothing" : ":");
    for (int i = 0; *text != '\0' && i < SHOWN_LINES; i++) {
        int length = (int)strcspn(text, "\n");
        printf("#   | %.*s\n", length, text);
        text += length + (text[length] == '\n');
    }
    if (*text != '\0') {
        puts("#   ...");
    }
}

/* The first place in the text where a whole line is `wanted`, or null. */
static const char *find_line(const char *text, const char *wanted)
{
    size_t length = strlen(wanted);
    for (; text != NULL && *text != '\0'; text = strchr(text, '\n'), text += text != NULL) {
        if (strncmp(text, wanted, length) == 0 && (text[length] == '\n' || text[length] == '\0')) {
            return text;
        }
    }
    return NULL;
}

/* The first number on the line after `label`; 0 if there is none. */
static int number_after(const char *text, const char *label, double *number)
{
    const char *found = strstr(text, label);
    if (found == NULL) {
        return 0;
    }
    for (found += strlen(label); *found != '\0' && *found != '\n'; found++) {
        const char *digits = found + (*found == '-' || *found == '+');
        if (isdigit((unsigned char)*digits)) {
            *number = strtod(found, NULL);
            return 1;
        }
    }
    return 0;
}

static void check_near(struct stream *stream, int i, const char *value)
{
    struct near near = {0};
    double got = 0.0;
    parse_near(value, &near);
    if (!number_after(stream->text, near.label, &got)) {
        differ(stream, i, "no such number:");
    } else if (!(fabs(got - near.want) <= near.tolerance)) {
        printf("# got %.15g\n", got);
        differ(stream, i, "too far from");
    }
}

static void check_whole(struct stream *stream, int i)
{
    char *want = block_after(stream->test, i, stream->names);
    if (strcmp(stream->text, want) != 0) {
        differ(stream, i, "not the text given");
        show("wanted", want);
    }
    free(want);
}

static void check_line(struct stream *stream, int i, const char *verb)
{
    char *value = expanded(stream->names, stream->test->script->lines[i].value);
    if (strcmp(verb, "has") == 0 && strstr(stream->text, value) == NULL) {
        differ(stream, i, "missing:");
    } else if (strcmp(verb, "lacks") == 0 && strstr(stream->text, value) != NULL) {
        differ(stream, i, "found:");
    } else if (strcmp(verb, "line") == 0 && find_line(stream->text, value) == NULL) {
        differ(stream, i, "no line is:");
    } else if (strcmp(verb, "near") == 0) {
        check_near(stream, i, value);
    } else if (strcmp(verb, "is") == 0) {
        check_whole(stream, i);
    }
    free(value);
}

/* A stream that the case does not mention must be empty; `lacks` alone leaves the rest open. */
static int compare_stream(const struct test *test, const struct names *names, const char *name, const char *path)
{
    struct stream stream = {.test = test, .names = names, .name = name};
    stream.text = read_all(path, &stream.size);
    size_t length = strlen(name);
    for (int i = test->first; i < test->end; i++) {
        const char *key = test->script->lines[i].key;
        if (strncmp(key, name, length) == 0 && key[length] == ' ') {
            check_line(&stream, i, key + length + 1);
            stream.checks++;
        }
    }
    if (strlen(stream.text) != stream.size) {
        printf("# %s holds a NUL byte\n", name);
        stream.differences++;
    }
    if (stream.checks == 0 && stream.size > 0) {
        printf("# %s is not empty, and the case says nothing of it\n", name);
        stream.differences++;
    }
    if (stream.differences > 0) {
        show(name, stream.text);
    }
    free(stream.text);
    return stream.differences;
}

int compare(const struct test *test, const struct names *names, const struct place *place, int status)
{
    int differences = 0;
    long wanted = strtol(value_of(test, "exit"), NULL, 10);
    if (status < 0) {
        puts("# stopped at the time limit");
        differences++;
    } else if (status != wanted) {
        printf("# exit status %d, wanted %ld\n", status, wanted);
        differences++;
    }
    int in_streams = compare_stream(test, names, "stdout", place->output);
    in_streams += compare_stream(test, names, "stderr", place->errors);
    if (differences > 0 && in_streams == 0) {
        size_t size = 0;
        char *text = read_all(place->errors, &size);
        show("stderr", text);
        free(text);
    }
    return differences + in_streams;
}
