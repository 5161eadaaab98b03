#include "check.h"

#include "liveside/findings.h"
#include "liveside/text.h"

#include <string.h>

typedef size_t escaper(const char *text, char *out, size_t size);

typedef struct {
    const char *text;
    const char *want;
} pair;

static void check_pairs(escaper *escape, const pair *pairs, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        char out[256];
        size_t length = escape(pairs[i].text, out, sizeof out);
        assert_string_equal(out, pairs[i].want);
        assert_int_equal(length, strlen(pairs[i].want));
    }
}

static void terminal_gets_one_harmless_line(void **state)
{
    (void)state;
    static const pair pairs[] = {
        {"", ""},
        {"Whimbrel 2", "Whimbrel 2"},
        {"caf\xC3\xA9 \xE2\x82\xAC \xF0\x9F\x9B\xA9", "caf\xC3\xA9 \xE2\x82\xAC \xF0\x9F\x9B\xA9"},
        {"\x1B[31mred\x1B[0m", "?[31mred?[0m"},
        {"a\nb\tc\rd\x7F", "a?b?c?d?"},
        {"\xC2\x9B"
         "31m",
         "?31m"}, /* C1 CSI */
        {"\xE2\x80\xAE"
         "evil\xE2\x81\xA6",
         "?evil?"},                                  /* right-to-left override, isolate */
        {"\xE2\x80\x8F\xD8\x9C\xE2\x80\xA8", "???"}, /* marks and the line separator */
        {"\xFF\xFE"
         "a",
         "??a"},
        {"\xC0\x80", "??"},           /* NUL in two bytes */
        {"\xE2\x82", "??"},           /* cut short */
        {"\xED\xA0\x80", "???"},      /* a surrogate */
        {"\xF4\x90\x80\x80", "????"}, /* above U+10FFFF */
        {"\xE0\x80\xAF", "???"},      /* '/' in three bytes */
        {"\xEF\xBB\xBF"
         "a",
         "\xEF\xBB\xBF"
         "a"},
    };
    check_pairs(ls_text_for_terminal, pairs, sizeof pairs / sizeof pairs[0]);
}

static void gnuplot_gets_a_single_quoted_string(void **state)
{
    (void)state;
    static const pair pairs[] = {
        {"", "''"},
        {"O'Hara's", "'O''Hara''s'"},
        {"`reboot`", "'`reboot`'"},
        {"a\n!reboot", "'a?!reboot'"},
        {"'; system \"x\"; '", "'''; system \"x\"; '''"},
        {"tab\tdel\x7F", "'tab?del?'"},
        {"\\", "'\\'"},
    };
    check_pairs(ls_text_for_gnuplot, pairs, sizeof pairs / sizeof pairs[0]);
}

static void html_gets_references(void **state)
{
    (void)state;
    static const pair pairs[] = {
        {"<script>alert('x' & \"y\")</script>",
         "&lt;script&gt;alert(&#39;x&#39; &amp; &quot;y&quot;)&lt;/script&gt;"},
        {"two\nlines\t.", "two\nlines\t."},
        {"\x01\x1B\xC2\x80\xE2\x80\xAE", "????"},
    };
    check_pairs(ls_text_for_html, pairs, sizeof pairs / sizeof pairs[0]);
}

static void csv_gets_a_cell_that_is_no_formula(void **state)
{
    (void)state;
    static const pair pairs[] = {
        {"", "\"\""},
        {"a,b", "\"a,b\""},
        {"say \"hi\"", "\"say \"\"hi\"\"\""},
        {"=1+1", "\"'=1+1\""},
        {"+1", "\"'+1\""},
        {"-1", "\"'-1\""},
        {"@SUM(A1)", "\"'@SUM(A1)\""},
        {"\t=1", "\"'\t=1\""},
        {"a=1", "\"a=1\""},
        {"two\nlines\r", "\"two\nlines?\""},
    };
    check_pairs(ls_text_for_csv, pairs, sizeof pairs / sizeof pairs[0]);
}

/* Every size from 0: never past the end, always a prefix, whole characters, the closing quote from 4 on. */
static void results_are_cut_cleanly(void **state)
{
    (void)state;
    static escaper *const escapers[] = {ls_text_for_terminal, ls_text_for_gnuplot, ls_text_for_html,
                                        ls_text_for_csv};
    const char *text = "=\xC3\xA9'\"<&\xE2\x82\xAC\n\xF0\x9F\x9B\xA9'";
    for (size_t e = 0; e < sizeof escapers / sizeof escapers[0]; e++) {
        char whole[256];
        size_t length = escapers[e](text, whole, sizeof whole);
        assert_int_equal(escapers[e](text, NULL, 0), length);
        for (size_t size = 1; size <= length + 1; size++) {
            char out[256];
            memset(out, 'Z', sizeof out);
            assert_int_equal(escapers[e](text, out, size), length);
            assert_true(strlen(out) < size);
            assert_true(out[size] == 'Z');
            assert_true(ls_text_is_utf8(out, strlen(out)));
            if (size >= 4 && (whole[0] == '\'' || whole[0] == '"')) {
                assert_true(strlen(out) >= 2 && out[strlen(out) - 1] == whole[0]);
                assert_memory_equal(out, whole, strlen(out) - 1);
            }
        }
    }
}

/* Any bytes at all: the result is UTF-8, holds nothing unsafe, and a gnuplot string holds no single quote alone.
 */
static void random_bytes_come_out_harmless(void **state)
{
    (void)state;
    uint64_t seed = 99;
    int count = check_scaled(100000);
    for (int n = 0; n < count; n++) {
        char text[33] = "";
        char out[256];
        int length = (int)check_random(&seed, 0.0, 33.0);
        for (int i = 0; i < length; i++) {
            text[i] = (char)(int)check_random(&seed, 1.0, 256.0);
        }
        ls_text_for_terminal(text, out, sizeof out);
        assert_int_equal(ls_text_find_unsafe(out, strlen(out)), -1);
        ls_text_for_gnuplot(text, out, sizeof out);
        assert_int_equal(ls_text_find_unsafe(out, strlen(out)), -1);
        size_t quotes = 0;
        for (const char *c = out; *c != '\0'; c++) {
            quotes += *c == '\'';
        }
        assert_int_equal(quotes % 2, 0);
        ls_text_for_html(text, out, sizeof out);
        assert_null(strpbrk(out, "<>\"'"));
        assert_true(ls_text_is_utf8(out, strlen(out)));
    }
}

static void unsafe_characters_are_located(void **state)
{
    (void)state;
    assert_int_equal(ls_text_find_unsafe("plain \xC3\xA9", 8), -1);
    assert_int_equal(ls_text_find_unsafe("a\0b", 3), 1);
    assert_int_equal(ls_text_find_unsafe("ab\t", 3), 2);
    assert_int_equal(ls_text_find_unsafe("\xC3\xA9\xC2\x85", 4), 2);
    assert_int_equal(ls_text_find_unsafe("xy\xE2\x81\xA9", 5), 2);
    assert_int_equal(ls_text_find_unsafe("xyz\xFF", 4), 3);
    assert_int_equal(ls_text_find_unsafe("", 0), -1);
}

static void utf8_is_judged(void **state)
{
    (void)state;
    assert_true(ls_text_is_utf8("", 0));
    assert_true(ls_text_is_utf8("\xF4\x8F\xBF\xBF", 4));
    assert_true(ls_text_is_utf8("\xEF\xBF\xBF\xEE\x80\x80", 6));
    assert_false(ls_text_is_utf8("\xF4\x90\x80\x80", 4));
    assert_false(ls_text_is_utf8("\xC1\xBF", 2));
    assert_false(ls_text_is_utf8("\xED\xBF\xBF", 3));
    assert_false(ls_text_is_utf8("\x80", 1));
    assert_false(ls_text_is_utf8("\xE2\x82\xAC", 2)); /* the size ends inside the character */
}

static void nearest_is_found_when_close(void **state)
{
    (void)state;
    static const char *const names[] = {"span", "wing_area", NULL, "rudder_travel", "mass", "kt", "propeller"};
    static const struct {
        const char *word;
        int want;
    } cases[] = {
        {"span", 0},        {"spam", 0}, {"spna", 0},   {"wing-area", 1}, {"wingarea", 1},    {"rudder_travle", 3},
        {"ruder_trvel", 3}, {"kts", 5},  {"kn", 5},     {"propellor", 6}, {"quite_else", -1}, {"", -1},
        {"x", -1},          {"zz", -1},  {"masses", 4}, {"massacre", -1},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        assert_int_equal(ls_text_nearest(cases[i].word, names, 7), cases[i].want);
    }
    char long_word[200];
    memset(long_word, 'a', sizeof long_word);
    long_word[199] = '\0';
    assert_int_equal(ls_text_nearest(long_word, names, 7), -1);
    const char *const long_name[] = {long_word};
    assert_int_equal(ls_text_nearest("span", long_name, 1), -1);
    assert_int_equal(ls_text_nearest("span", names, 0), -1);
}

static void width_counts_columns(void **state)
{
    (void)state;
    assert_int_equal(ls_text_width(""), 0);
    assert_int_equal(ls_text_width("abc"), 3);
    assert_int_equal(ls_text_width("caf\xC3\xA9"), 4);
    assert_int_equal(ls_text_width("cafe\xCC\x81"), 4);             /* combining acute */
    assert_int_equal(ls_text_width("\xE9\xA3\x9B\xE8\xA1\x8C"), 4); /* two ideographs */
    assert_int_equal(ls_text_width("\xFF"), 1);
}

static void cut_characters_are_trimmed(void **state)
{
    (void)state;
    static const pair pairs[] = {{"", ""},
                                 {"ab", "ab"},
                                 {"ab\xC3", "ab"},
                                 {"\xE2\x82", ""},
                                 {"a\xC3\xA9", "a\xC3\xA9"},
                                 {"a\xF0\x9F\x9B", "a"},
                                 {"a\x80", "a\x80"}};
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
        char text[16];
        strcpy(text, pairs[i].text);
        ls_text_trim_utf8(text);
        assert_string_equal(text, pairs[i].want);
    }
}

static void findings_are_kept_and_counted(void **state)
{
    (void)state;
    ls_findings findings = {0};
    ls_findings_add(&findings, LS_REJECT, "wing.span", 12, 9, "%g is %s", 3.5, "too small");
    ls_findings_add(&findings, LS_NOTE, NULL, 0, 0, "all else is well");
    assert_int_equal(findings.stored, 2);
    assert_string_equal(findings.item[0].key, "wing.span");
    assert_string_equal(findings.item[0].text, "3.5 is too small");
    assert_int_equal(findings.item[0].line, 12);
    assert_int_equal(findings.item[0].column, 9);
    assert_string_equal(findings.item[1].key, "");
    assert_int_equal(ls_findings_rejects(&findings), 1);
    assert_int_equal(ls_findings_dropped(&findings), 0);
    ls_findings_add(NULL, LS_NOTE, "", 0, 0, "nobody listens");
}

/* A reject that comes after the list is full must still reject. */
static void findings_past_the_cap_still_count(void **state)
{
    (void)state;
    ls_findings findings = {0};
    for (int i = 0; i < LS_FINDINGS_MAX; i++) {
        ls_findings_add(&findings, LS_WARNING, "k", i, 1, "warning %d", i);
    }
    assert_int_equal(ls_findings_rejects(&findings), 0);
    ls_findings_add(&findings, LS_REJECT, "late", 99, 1, "too late to be shown");
    assert_int_equal(findings.stored, LS_FINDINGS_MAX);
    assert_int_equal(ls_findings_rejects(&findings), 1);
    assert_int_equal(ls_findings_dropped(&findings), 1);
    assert_string_equal(findings.item[LS_FINDINGS_MAX - 1].text, "warning 63");
}

static void long_findings_are_cut_at_a_character(void **state)
{
    (void)state;
    char long_text[800];
    for (size_t i = 0; i + 2 < sizeof long_text; i += 2) {
        memcpy(long_text + i, "\xC3\xA9", 3);
    }
    ls_findings findings = {0};
    ls_findings_add(&findings, LS_NOTE, long_text, 1, 1, "%s", long_text);
    assert_true(ls_text_is_utf8(findings.item[0].text, strlen(findings.item[0].text)));
    assert_int_equal(strlen(findings.item[0].text), LS_FINDING_TEXT - 2);
    assert_int_equal(strlen(findings.item[0].key), LS_FINDING_KEY - 2);
}

static void severities_have_texts(void **state)
{
    (void)state;
    assert_string_equal(ls_severity_text(LS_NOTE), "note");
    assert_string_equal(ls_severity_text(LS_WARNING), "warning");
    assert_string_equal(ls_severity_text(LS_REJECT), "error");
    assert_string_equal(ls_severity_text(LS_SEVERITY_COUNT), "unknown severity");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(terminal_gets_one_harmless_line),
        cmocka_unit_test(gnuplot_gets_a_single_quoted_string),
        cmocka_unit_test(html_gets_references),
        cmocka_unit_test(csv_gets_a_cell_that_is_no_formula),
        cmocka_unit_test(results_are_cut_cleanly),
        cmocka_unit_test(random_bytes_come_out_harmless),
        cmocka_unit_test(unsafe_characters_are_located),
        cmocka_unit_test(utf8_is_judged),
        cmocka_unit_test(nearest_is_found_when_close),
        cmocka_unit_test(width_counts_columns),
        cmocka_unit_test(cut_characters_are_trimmed),
        cmocka_unit_test(findings_are_kept_and_counted),
        cmocka_unit_test(findings_past_the_cap_still_count),
        cmocka_unit_test(long_findings_are_cut_at_a_character),
        cmocka_unit_test(severities_have_texts),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
