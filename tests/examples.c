#include "examples.h"

#include "check.h"

#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static void add_word(example *to, const char *word)
{
    size_t used =
        to->count > 0 ? (size_t)(to->word[to->count - 1] - to->text) + strlen(to->word[to->count - 1]) + 1 : 0;
    assert_true(to->count < EXAMPLE_WORDS && used + strlen(word) < EXAMPLE_TEXT);
    to->word[to->count] = strcpy(to->text + used, word);
    to->count++;
}

/* The next word of a text as a shell takes it, quotes removed. Returned: what is left, null at the end. */
static const char *next_word(const char *text, char word[EXAMPLE_TEXT])
{
    int quoted = 0;
    size_t n = 0;
    text += strspn(text, " ");
    if (*text == '\0') {
        return NULL;
    }
    for (; *text != '\0' && (quoted || *text != ' ') && n + 1 < EXAMPLE_TEXT; text++) {
        if (*text == '\'') {
            quoted = !quoted;
        } else {
            word[n++] = *text;
        }
    }
    word[n] = '\0';
    return text;
}

/* The file that stands for one that an example names; null for other words. */
static const char *file_for(const char *word, const char *aeroplane)
{
    static const struct {
        const char *named, *is; /* null: the aeroplane */
    } files[] = {
        {"whimbrel", NULL},
        {"sanderling", NULL},
        {"redshank", NULL},
        {"barnacle", NULL},
        {"mytwin.yaml", NULL},
        {"dimensions.yaml", "tests/data/estimate/whimbrel_geometry.yaml"},
        {"flown.csv", "tests/data/reduce/tiny_points.csv"},
    };
    for (size_t i = 0; i < sizeof files / sizeof files[0]; i++) {
        if (strcmp(files[i].named, word) == 0) {
            return files[i].is != NULL ? files[i].is : aeroplane;
        }
    }
    return NULL;
}

static int is_for_results(const char *word)
{
    return strcmp(word, "--output") == 0 || strcmp(word, "-o") == 0 || strcmp(word, "--plot") == 0 ||
           strcmp(word, "--format") == 0 || strcmp(word, "--aircraft") == 0;
}

static int takes(const cli_command *command, int option)
{
    return (command->options & CLI_BIT(option)) != 0;
}

void example_make(const cli_command *command, const char *file, const char *out, const char *plot,
                  const char *more, example *to)
{
    char word[EXAMPLE_TEXT];
    ls_error error = {0};
    int in_place = takes(command, CLI_FORCE) && !takes(command, CLI_OUTPUT); /* the file itself is the result */
    *to = (example){.command = command};
    const char *rest = next_word(command->example, word);
    rest = next_word(rest, word); /* after the program and the command */
    while ((rest = next_word(rest, word)) != NULL) {
        if (is_for_results(word)) {
            rest = next_word(rest, word);
        } else {
            const char *named = file_for(word, in_place ? out : file);
            add_word(to, named != NULL ? named : word);
        }
    }
    while ((more = next_word(more, word)) != NULL) {
        add_word(to, word);
    }
    if (in_place) {
        add_word(to, "--force");
    }
    if (takes(command, CLI_OUTPUT)) {
        add_word(to, "--output");
        add_word(to, out);
    }
    if (takes(command, CLI_PLOT) && plot != NULL) {
        add_word(to, "--plot");
        add_word(to, plot);
    }
    if (cli_options_parse(command, to->count, to->word, &to->options, &error) != LS_OK) {
        fail_msg("%s: %s", command->name, error.text);
    }
    to->run = (cli_run){.options = &to->options, .command_line = "liveside under test", .self = "liveside"};
}

ls_status example_run(example *it, ls_error *error)
{
    *error = (ls_error){0};
    fflush(stderr);
    int words = dup(STDERR_FILENO), nowhere = open("/dev/null", O_WRONLY);
    assert_true(words >= 0 && nowhere >= 0 && dup2(nowhere, STDERR_FILENO) >= 0);
    ls_status status = it->command->run(&it->run, error);
    fflush(stderr);
    assert_true(dup2(words, STDERR_FILENO) >= 0);
    close(words);
    close(nowhere);
    return status;
}
