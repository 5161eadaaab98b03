/* The hand-out of a twin, of four engines, of jets and of engines in line: one well-formed page that needs nothing
 * from outside, and that can be read without seeing it. */
#include "scratch.h"

#include "cli/commands.h"
#include "liveside/file.h"

#include <ctype.h>
#include <limits.h>

enum { DEPTH = 64, NAME = 32, MOST = 3 << 20, IDS = 4096 };

static char source[PATH_MAX];

/* Writes a page and reads it back. Given: file, of an aeroplane, from the top of the sources. */
static char *page_of(const char *file, ls_unit_system units)
{
    char path[2 * PATH_MAX];
    ls_error error = {0};
    ls_buffer page;
    snprintf(path, sizeof path, "%s/%s", source, file);
    cli_options options = {.command = &cli_command_handout, .units = units, .files = 1, .file = {path}};
    options.value[CLI_OUTPUT] = (cli_value){.count = 1, .text = {"page.html"}};
    cli_run run = {&options, "liveside handout <&>\"'`", "liveside", NULL};
    ls_status status = cli_command_handout.run(&run, &error);
    if (status != LS_OK) {
        print_error("%s: %s\n", file, error.text);
    }
    assert_int_equal(status, LS_OK);
    assert_int_equal(ls_file_read("page.html", MOST, &page, &error), LS_OK);
    return page.data;
}

static int is_void(const char *name)
{
    return strcmp(name, "meta") == 0 || strcmp(name, "br") == 0 || name[0] == '!' || name[0] == '?';
}

/* The end of a tag: a '>' outside quotes. */
static const char *tag_end(const char *at)
{
    char quote = '\0';
    for (; *at != '\0' && (quote != '\0' || *at != '>'); at++) {
        if (quote != '\0') {
            quote = *at == quote ? '\0' : quote;
        } else if (*at == '\'' || *at == '"') {
            quote = *at;
        }
    }
    assert_true(*at == '>');
    return at;
}

/* Every element that begins ends, in its place; every '&' begins a character reference. */
static void assert_well_formed(const char *page)
{
    char open[DEPTH][NAME];
    int depth = 0;
    for (const char *at = page; *at != '\0'; at++) {
        char name[NAME];
        assert_true(*at != '&' || isalpha((unsigned char)at[1]) || at[1] == '#');
        if (*at != '<') {
            continue;
        }
        const char *end = tag_end(at), *from = at + 1 + (at[1] == '/');
        size_t length = strcspn(from, " \n\t/>");
        snprintf(name, sizeof name, "%.*s", (int)(length < NAME ? length : NAME - 1), from);
        if (at[1] == '/') {
            assert_true(depth > 0);
            if (strcmp(open[--depth], name) != 0) {
                print_error("</%s> ends <%s>: %.80s\n", name, open[depth], at);
                fail();
            }
        } else if (end[-1] != '/' && !is_void(name)) {
            assert_true(depth < DEPTH);
            strcpy(open[depth++], name);
        }
        at = end;
    }
    assert_int_equal(depth, 0);
}

static int count(const char *page, const char *text)
{
    int found = 0;
    for (const char *at = page; (at = strstr(at, text)) != NULL; at += strlen(text)) {
        found++;
    }
    return found;
}

/* Each id once, and each reference to one that is there. */
static void assert_references_hold(const char *page)
{
    static const char *const kinds[] = {"href=\"#", "href='#", "url(#"};
    for (const char *at = page; (at = strstr(at, " id=")) != NULL; at += 5) {
        char both[2][128];
        int length = (int)strcspn(at + 5, "'\"");
        snprintf(both[0], sizeof both[0], " id=\"%.*s\"", length, at + 5);
        snprintf(both[1], sizeof both[1], " id='%.*s'", length, at + 5);
        assert_int_equal(count(page, both[0]) + count(page, both[1]), 1);
    }
    for (int kind = 0; kind < 3; kind++) {
        for (const char *at = page; (at = strstr(at, kinds[kind])) != NULL; at++) {
            char both[2][128];
            const char *name = at + strlen(kinds[kind]);
            int length = (int)strcspn(name, "'\")");
            snprintf(both[0], sizeof both[0], " id=\"%.*s\"", length, name);
            snprintf(both[1], sizeof both[1], " id='%.*s'", length, name);
            assert_int_equal(count(page, both[0]) + count(page, both[1]), 1);
        }
    }
}

/* Nothing is fetched, nothing runs. */
static void assert_self_contained(const char *page)
{
    assert_null(strstr(page, "<script"));
    assert_null(strstr(page, "src="));
    assert_null(strstr(page, "@import"));
    assert_null(strstr(page, "url(h"));
    assert_null(strstr(page, "<link"));
    int addresses = count(page, "http:") + count(page, "https:");
    assert_int_equal(addresses, count(page, "xmlns=\"http://www.w3.org/2000/svg\"") +
                                    count(page, "xmlns:xlink=\"http://www.w3.org/1999/xlink\""));
    assert_non_null(strstr(page, "default-src 'none'"));
}

/* Every drawing is an image with a name and words that hold a number; every heading cell says what it heads. */
static void assert_readable_unseen(const char *page)
{
    assert_non_null(strstr(page, "<html lang=\"en\">"));
    assert_int_equal(count(page, "<h1>"), 1);
    assert_int_equal(count(page, "<section "), count(page, "<h2 "));
    assert_int_equal(count(page, "<svg "), count(page, " role=\"img\" aria-labelledby=\"f"));
    assert_int_equal(count(page, "<svg "), count(page, "<title id=\"f"));
    assert_int_equal(count(page, "<svg "), count(page, "<desc id=\"f"));
    assert_int_equal(count(page, "<figure "), count(page, "<figcaption>"));
    for (const char *at = page; (at = strstr(at, "<desc id=\"f")) != NULL; at++) {
        const char *words = strchr(at, '>') + 1;
        size_t length = strcspn(words, "<");

        assert_true(length > 40 && strcspn(words, "0123456789") < length);
    }
    assert_int_equal(count(page, "<th"), count(page, "<th scope=") + count(page, "<thead>"));
    assert_int_equal(count(page, "<table>"), count(page, "<thead>"));
}

static void each_aeroplane_has_its_page(void **state)
{
    (void)state;
    static const char *const files[] = {"aircraft/whimbrel.yaml", "aircraft/barnacle.yaml", "tests/data/jets.yaml",
                                        "tests/data/push-pull.yaml"};
    for (size_t i = 0; i < sizeof files / sizeof files[0]; i++) {
        char *page = page_of(files[i], i % 2 == 0 ? LS_UNITS_US : LS_UNITS_SI);
        assert_well_formed(page);
        assert_references_hold(page);
        assert_self_contained(page);
        assert_readable_unseen(page);
        assert_int_equal(count(page, "<footer"), 1);
        assert_non_null(strstr(strstr(page, "<footer"), "never for flight planning"));
        assert_non_null(strstr(page, "liveside handout &lt;&amp;&gt;&quot;&#39;`"));
        const char *answers = strstr(page, "<section id=\"answers\"");
        assert_non_null(answers);
        assert_null(strstr(answers + 1, "<section"));
        assert_int_equal(count(page, "class=\"level\""), 2 * count(answers, "class=\"level\""));
        check_between("questions of a hand-out", count(answers, "class=\"level\""), 5, 12,
                      "requirement: about ten");
        free(page);
    }
}

/* A name that would be anything but a name in a shell, a script, a page or a drawing. */
static void hostile_names_stay_text(void **state)
{
    (void)state;
    char path[2 * PATH_MAX];
    ls_error error = {0};
    ls_buffer file;
    static const char *const hostile =
        "name: \"</title><script>alert(1)</script>'`id`$(id) &amp; \\u00e9\\u6f22]]>\"";
    snprintf(path, sizeof path, "%s/tests/data/twin.yaml", source);
    assert_int_equal(ls_file_read(path, 1 << 20, &file, &error), LS_OK);
    char *line = strstr(file.data, "name: "), *rest = strchr(line, '\n');
    *line = '\0';
    FILE *out = fopen("hostile.yaml", "w");
    assert_non_null(out);
    fprintf(out, "%s%s%s", file.data, hostile, rest);
    assert_int_equal(fclose(out), 0);
    ls_file_free(&file);
    char here[PATH_MAX], kept[PATH_MAX];
    assert_non_null(getcwd(here, sizeof here));
    strcpy(kept, source);
    strcpy(source, here);
    char *page = page_of("hostile.yaml", LS_UNITS_METRIC);
    strcpy(source, kept);
    assert_well_formed(page);
    assert_self_contained(page);
    assert_non_null(strstr(page, "<h1>&lt;/title&gt;&lt;script&gt;alert(1)&lt;/script&gt;&#39;`id`$(id) &amp;amp; "
                                 "\xC3\xA9\xE6\xBC\xA2]]&gt;</h1>"));
    free(page);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_FOLDER(each_aeroplane_has_its_page),
        IN_FOLDER(hostile_names_stay_text),
    };
    if (getcwd(source, sizeof source) == NULL) {
        return 1;
    }
    return cmocka_run_group_tests(tests, NULL, NULL);
}
