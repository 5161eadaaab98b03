/* The script of a chart: its text, names and colours, what is refused, and that it is saved whole. */
#include "scratch.h"

#include "alloc_fail.h"
#include "chart_samples.h"

#include "report/gnuplot_style.h"

#include <stdlib.h>

/* The script of a chart; the caller frees it. Frees the chart. */
static char *script_of(ls_chart *chart)
{
    char *text = NULL;
    size_t size = 0;
    ls_error error = {0};
    FILE *stream = open_memstream(&text, &size);
    assert_non_null(stream);
    ls_status status = ls_chart_write(chart, stream, &error);
    assert_int_equal(fclose(stream), 0);
    ls_chart_free(chart);
    if (status != LS_OK) {
        fail_msg("%s", error.text);
    }
    return text;
}

static void assert_refused(ls_chart *chart, ls_status want, const char *words)
{
    ls_error error = {0};
    FILE *stream = fopen("/dev/null", "w");
    assert_non_null(stream);
    assert_int_equal(ls_chart_write(chart, stream, &error), want);
    assert_int_equal(fclose(stream), 0);
    assert_non_null(strstr(error.text, words));
    ls_chart_free(chart);
}

/* Ends a line of a script in place. Returned: the next one, or null. */
static char *cut_line(char *line)
{
    char *end = strchr(line, '\n');
    if (end == NULL) {
        return NULL;
    }
    *end = '\0';
    return end + 1;
}

/* Whether a string is '...' without an inner quote or control character, or several of them joined by ."'". */
static int is_quoted(const char *s)
{
    static const char joint[] = ".\"'\".";
    if (*s++ != '\'') {
        return 0;
    }
    for (; *s != '\'' && *s != '\0'; s++) {
        if ((unsigned char)*s < 0x20 || *s == 0x7f) {
            return 0;
        }
    }
    if (*s++ != '\'') {
        return 0;
    }
    return *s == '\0' || (strncmp(s, joint, sizeof joint - 1) == 0 && is_quoted(s + sizeof joint - 1));
}

static int is_text_line(const char *line)
{
    int number;
    int used = 0;
    const char *name = strncmp(line, "png_", 4) == 0 ? line + 4 : line;
    return sscanf(name, "text_%d = %n", &number, &used) == 1 && used > 0 && is_quoted(name + used);
}

/* The commands that a script may begin a line with, apart from its texts and numbers. */
static int is_own_line(const char *line)
{
    static const char *const begin[] = {"",
                                        "#",
                                        "set encoding utf8",
                                        "$",
                                        "END",
                                        "set style",
                                        "if (",
                                        "do for [format",
                                        "} else {",
                                        "}",
                                        "    set terminal ",
                                        "set output out.",
                                        "unset ",
                                        "set ",
                                        "plot NaN",
                                        "    $"};
    if (*line == '\0' || strspn(line, "0123456789+-.e ") == strlen(line)) {
        return 1;
    }
    for (size_t i = 1; i < sizeof begin / sizeof begin[0]; i++) {
        if (strncmp(line, begin[i], strlen(begin[i])) == 0) {
            return strpbrk(line, "`\"") == NULL && strstr(line, "system") == NULL && strstr(line, "pwned") == NULL;
        }
    }
    return 0;
}

static void text_stays_text(void **state)
{
    (void)state;
    for (int kind = 0; kind < LS_CHART_KINDS; kind++) {
        for (int i = 0; i < HOSTILES; i++) {
            ls_chart chart;
            sample_hostile(&chart, (ls_chart_kind)kind, hostile_table[i]);
            char *script = script_of(&chart);
            int texts = 0;
            for (char *next, *line = script; (next = cut_line(line)) != NULL; line = next) {
                texts += is_text_line(line);
                if (!is_text_line(line) && !is_own_line(line)) {
                    fail_msg("kind %d, text %d: line \"%s\"", kind, i, line);
                }
            }
            assert_true(texts >= 4);
            free(script);
        }
    }
}

static void the_line_check_can_fail(void **state)
{
    (void)state;
    assert_true(is_text_line("text_1 = 'its'"));
    assert_true(is_text_line("text_1 = 'it'.\"'\".'s'"));
    assert_true(is_text_line("png_text_12 = ''.\"'\".''.\"'\".''"));
    assert_false(is_text_line("text_1 = 'it''s'"));
    assert_false(is_text_line("text_1 = 'it'.\"'\"."));
    assert_false(is_text_line("text_1 = 'it'.\"`\".'s'"));
    assert_false(is_text_line("text_1 = 'it's'"));
    assert_false(is_text_line("text_1 = 'a' ; system('b')"));
    assert_false(is_text_line("text_1 = 'a"));
    assert_false(is_text_line("text_1 = \"a\""));
    assert_false(is_own_line("system('b')"));
    assert_false(is_own_line("!touch"));
    assert_false(is_own_line("# `touch pwned`"));
}

/* Letters that a font may lack get a text of their own for the PNG; the SVG keeps them. */
static void rare_letters_are_left_out_of_the_png(void **state)
{
    (void)state;
    ls_chart chart;
    sample_bank(&chart);
    snprintf(chart.title, sizeof chart.title, "\xe9\x80\x9f\xe5\xba\xa6 \xc3\xa9 5\xc2\xb0");
    char *script = script_of(&chart);
    assert_non_null(strstr(script, "\ntext_1 = '\xe9\x80\x9f\xe5\xba\xa6 \xc3\xa9 5\xc2\xb0'\n"));
    assert_non_null(strstr(script, "\npng_text_1 = '?? \xc3\xa9 5\xc2\xb0'\n"));
    assert_non_null(strstr(script, "set label (format eq 'svg' ? text_1 : png_text_1) at"));
    assert_null(strstr(script, "png_text_2"));
    free(script);
}

/* The block of data with a name's beginning, without its first and last line. */
static void block_of(const char *script, const char *name, char *out, size_t size)
{
    char head[64];
    snprintf(head, sizeof head, "\n$%s_", name);
    const char *start = strstr(script, head);
    assert_non_null(start);
    start = strchr(start + 1, '\n') + 1;
    const char *end = strstr(start, "END\n");
    assert_non_null(end);
    snprintf(out, size, "%.*s", (int)(end - start), start);
}

static void a_failed_point_breaks_the_line(void **state)
{
    (void)state;
    static const double y[] = {1.0, 2.0, NAN, INFINITY, 5.0, NAN, 7.0, 8.0};
    char data[256];
    ls_chart chart;
    ls_chart_start(&chart, LS_CHART_CURVES, "gap");
    ls_chart_add_curve(&chart, LS_CURVE_MAIN, 0, "VMC");
    for (int i = 0; i < 8; i++) {
        ls_chart_add_point(&chart, i, y[i]);
    }
    char *script = script_of(&chart);
    block_of(script, "curve", data, sizeof data);
    assert_string_equal(data, "0 1\n1 2\n\n4 5\n\n6 7\n7 8\n");
    block_of(script, "symbols", data, sizeof data); /* the point that stands alone is seen all the same */
    assert_string_equal(data, "4 5\n");
    free(script);
}

static void a_chart_without_an_answer_says_so(void **state)
{
    (void)state;
    ls_chart chart;
    ls_chart_start(&chart, LS_CHART_CURVES, "nothing");
    ls_chart_add_curve(&chart, LS_CURVE_MAIN, 0, "VMC");
    ls_chart_add_point(&chart, 1.0, NAN);
    char *script = script_of(&chart);
    assert_non_null(strstr(script, "'no answer in this range'"));
    assert_non_null(strstr(script, "'VMC: no answer'"));
    assert_null(strstr(script, "$curve"));
    free(script);
}

static void names_are_our_own(void **state)
{
    (void)state;
    static const char *const bad[] = {"",  "a b", "a/b",  "../a",     "-a",   ".a",  "1a",
                                      "A", "a'b", "a\nb", "\xc3\xa9", "a.gp", "a_b", "a$(b)"};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        ls_chart chart;
        ls_chart_start(&chart, LS_CHART_CURVES, bad[i]);
        assert_refused(&chart, LS_USAGE, "a-z, 0-9 and -");
    }
    char name[LS_CHART_NAME + 1];
    memset(name, 'a', LS_CHART_NAME);
    name[LS_CHART_NAME] = '\0';
    ls_chart chart;
    ls_chart_start(&chart, LS_CHART_CURVES, name);
    assert_refused(&chart, LS_USAGE, "at most 63");
    ls_chart_start(&chart, LS_CHART_CURVES, name + 1);
    free(script_of(&chart));
}

static void too_much_is_refused(void **state)
{
    (void)state;
    ls_chart chart;
    ls_chart_start(&chart, LS_CHART_CURVES, "slide");
    chart.slide = 1;
    for (int i = 0; i <= LS_CHART_SLIDE_CURVES; i++) {
        ls_chart_add_curve(&chart, LS_CURVE_OTHER, 0, "x");
    }
    assert_refused(&chart, LS_USAGE, "5 labelled curves; a slide holds at most 4");

    ls_chart_start(&chart, LS_CHART_CURVES, "many");
    for (int i = 0; i < 9; i++) {
        ls_chart_add_curve(&chart, LS_CURVE_OTHER, 0, "x");
    }
    assert_refused(&chart, LS_USAGE, "at most 8 can be told apart");

    ls_chart_start(&chart, LS_CHART_CURVES, "many");
    for (int i = 0; i <= LS_CHART_CURVES_MAX; i++) {
        ls_chart_add_curve(&chart, LS_CURVE_FAINT, 0, "");
        ls_chart_add_point(&chart, 0.0, 0.0);
    }
    assert_int_equal(chart.error.status, LS_USAGE);
    assert_int_equal(chart.points, LS_CHART_CURVES_MAX);
    assert_refused(&chart, LS_USAGE, "more than 16 curves");

    ls_chart_start(&chart, LS_CHART_CURVES, "long");
    ls_chart_add_curve(&chart, LS_CURVE_MAIN, 0, "");
    for (int i = 0; i <= LS_CHART_POINTS; i++) {
        ls_chart_add_point(&chart, i, 0.0);
    }
    assert_refused(&chart, LS_USAGE, "more than 300000 points");
}

static void what_cannot_be_drawn_is_refused(void **state)
{
    (void)state;
    ls_chart chart;
    ls_chart_start(&chart, LS_CHART_MAP, "map");
    assert_refused(&chart, LS_USAGE, "grid");
    ls_chart_start(&chart, LS_CHART_MAP, "map");
    assert_false(ls_chart_size_map(&chart, 1, 5));
    assert_refused(&chart, LS_USAGE, "1 by 5");
    ls_chart_start(&chart, LS_CHART_MAP, "map");
    assert_false(ls_chart_size_map(&chart, 1 << 20, 1 << 20));
    assert_refused(&chart, LS_USAGE, "in all");
    sample_map(&chart);
    chart.map.x[3] = chart.map.x[2];
    assert_refused(&chart, LS_USAGE, "must rise");
    sample_map(&chart);
    chart.map.y[3] = NAN;
    assert_refused(&chart, LS_USAGE, "must rise");
    sample_bank(&chart);
    ls_chart_add_mark(&chart, 1, 0.0, 0.0, "in a panel that is not there");
    assert_refused(&chart, LS_USAGE, "panel");
    sample_moments(&chart);
    ls_chart_add_bar(&chart, -1, 0, 0.0, 1.0, "in no row");
    assert_refused(&chart, LS_USAGE, "row");
}

/* One style line as the script sets it. */
typedef struct {
    unsigned rgb;
    double weight;
    char dash[32];
    int symbol;
} look;

static look look_of(int number)
{
    look found = {0};
    for (int i = 0; ls_gnuplot_style[i] != NULL; i++) {
        int n = 0;
        look l = {0};
        if (sscanf(ls_gnuplot_style[i], "set style line %d lc rgb '#%x' lw %lf dt %31s pt %d", &n, &l.rgb,
                   &l.weight, l.dash, &l.symbol) >= 3 &&
            n == number) {
            found = l;
        }
    }
    assert_true(found.weight > 0.0);
    return found;
}

static void curves_differ_without_colour(void **state)
{
    (void)state;
    for (int a = 1; a <= 9; a++) {
        look one = look_of(a);
        for (int b = a + 1; b <= 9; b++) {
            look other = look_of(b);
            int dash_differs = strcmp(one.dash, other.dash) != 0;
            int weight_differs = one.weight > 1.4 * other.weight || other.weight > 1.4 * one.weight;
            assert_true(dash_differs || weight_differs);
            assert_int_not_equal(one.symbol, other.symbol);
        }
    }
}

/* The contrast of a colour with white, by the relative luminance that WCAG defines. */
static double contrast(unsigned rgb)
{
    static const double share[3] = {0.2126, 0.7152, 0.0722};
    double luminance = 0.0;
    for (int i = 0; i < 3; i++) {
        double c = (rgb >> (16 - 8 * i) & 255u) / 255.0;
        luminance += share[i] * (c <= 0.04045 ? c / 12.92 : pow((c + 0.055) / 1.055, 2.4));
    }
    return 1.05 / (luminance + 0.05);
}

static void colours_stand_out_from_paper(void **state)
{
    (void)state;
    const char *source = "W3C, Web Content Accessibility Guidelines 2.1, 1.4.3 and 1.4.11";
    for (int i = 1; i <= 9; i++) {
        check_between("contrast of a curve with white", contrast(look_of(i).rgb), 3.0, 21.0, source);
    }
    for (int i = 0; i < SAMPLES; i++) {
        ls_chart chart;
        sample_table[i](&chart);
        char *script = script_of(&chart);
        for (const char *at = script; (at = strstr(at, "textcolor rgb '#")) != NULL; at++) {
            unsigned rgb = 0;
            assert_int_equal(sscanf(at, "textcolor rgb '#%x", &rgb), 1);
            check_between("contrast of a text with white", contrast(rgb), 4.5, 21.0, source);
        }
        free(script);
    }
}

/* The file for charts of one's own holds the style that each script carries. */
static void the_common_style_is_one(void **state)
{
    (void)state;
    FILE *file = fopen("plots/style.gnuplot", "r");
    assert_non_null(file);
    char line[256];
    int n = 0;
    while (fgets(line, sizeof line, file) != NULL) {
        line[strcspn(line, "\n")] = '\0';
        assert_non_null(ls_gnuplot_style[n]);
        assert_string_equal(line, ls_gnuplot_style[n]);
        n++;
    }
    fclose(file);
    assert_null(ls_gnuplot_style[n]);
    ls_chart chart;
    sample_bank(&chart);
    char *script = script_of(&chart);
    for (int i = 0; i < n; i++) {
        assert_non_null(strstr(script, ls_gnuplot_style[i]));
    }
    free(script);
}

static void a_script_is_saved_whole_or_not_at_all(void **state)
{
    (void)state;
    ls_chart chart;
    ls_error error = {0};
    assert_int_equal(mkdir("plots", 0777), 0);
    sample_bank(&chart);
    assert_int_equal(ls_chart_save(&chart, "plots", &error), LS_OK);
    assert_int_equal(access("plots/vmc-against-bank.gp", R_OK), 0);
    assert_int_equal(unlink("plots/vmc-against-bank.gp"), 0);
    spit("plots/bad.gp", "old");
    snprintf(chart.name, sizeof chart.name, "bad");
    chart.curve[0].panel = 7;
    assert_int_equal(ls_chart_save(&chart, "plots", &error), LS_USAGE);
    assert_holds("plots/bad.gp", "old");
    chart.curve[0].panel = 0;
    error = (ls_error){0};
    assert_int_equal(unlink("plots/bad.gp"), 0);
    assert_int_equal(symlink("/dev/full", "plots/bad.gp"), 0);
    assert_int_equal(ls_chart_save(&chart, "plots", &error), LS_IO);
    assert_non_null(strstr(error.text, "plots/bad.gp"));
    error = (ls_error){0};
    assert_int_equal(ls_chart_save(&chart, "absent", &error), LS_IO);
    ls_chart_free(&chart);
}

static void makes_a_folder_one_level_deep(void **state)
{
    (void)state;
    ls_error error = {0};
    assert_int_equal(ls_chart_folder("new", &error), LS_OK);
    assert_int_equal(ls_chart_folder("new", &error), LS_OK);
    assert_int_equal(ls_chart_folder("new/", &error), LS_OK);
    assert_int_equal(ls_chart_folder("no/such", &error), LS_IO);
    assert_string_equal(
        error.text,
        "chart folder no/such cannot be made: No such file or directory (make the folder above it first)");
    error = (ls_error){0};
    spit("file", "");
    assert_int_equal(ls_chart_folder("file", &error), LS_IO);
    assert_string_equal(error.text, "chart folder file: there is a file of that name");
    error = (ls_error){0};
    assert_int_equal(ls_chart_folder("file/below", &error), LS_IO);
    assert_string_equal(error.text, "chart folder file/below cannot be made: Not a directory");
    error = (ls_error){0};
    assert_int_equal(ls_chart_folder("", &error), LS_IO);
}

static int try_a_locked_folder(void)
{
    ls_error error = {0};
    if (mkdir("locked", 0555) != 0 || !become_ordinary_user()) {
        return SKIPPED;
    }
    if (ls_chart_folder("locked", &error) != LS_IO || strstr(error.text, "cannot be written to") == NULL) {
        return 1;
    }
    ls_error second = {0};
    return ls_chart_folder("locked/new", &second) == LS_IO && strstr(second.text, "Permission denied") != NULL ? 0
                                                                                                               : 2;
}

static void says_that_a_folder_is_locked(void **state)
{
    (void)state;
    assert_child_passed(in_child(try_a_locked_folder));
}

/* Every allocation of building and writing fails in turn: a status, and nothing lost. */
static void memory_may_run_out_anywhere(void **state)
{
    (void)state;
    alloc_fail_or_skip();
    FILE *out = fopen("/dev/null", "w");
    assert_non_null(out);
    setvbuf(out, NULL, _IONBF, 0);
    for (int i = 0; i < SAMPLES; i++) {
        long failed = 0;
        long n = 1;
        do {
            static ls_chart chart;
            ls_error error = {0};
            long live = alloc_live();
            alloc_fail_at(n);
            sample_table[i](&chart);
            ls_status status = ls_chart_write(&chart, out, &error);
            ls_chart_free(&chart);
            failed = alloc_fail_stop();
            assert_int_equal(status, failed != 0 ? LS_MEMORY : LS_OK);
            assert_int_equal(alloc_live(), live);
            n = failed != 0 ? alloc_fail_next(n) : 0;
        } while (n > 0);
    }
    fclose(out);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(text_stays_text),
        cmocka_unit_test(the_line_check_can_fail),
        cmocka_unit_test(rare_letters_are_left_out_of_the_png),
        cmocka_unit_test(a_failed_point_breaks_the_line),
        cmocka_unit_test(a_chart_without_an_answer_says_so),
        cmocka_unit_test(names_are_our_own),
        cmocka_unit_test(too_much_is_refused),
        cmocka_unit_test(what_cannot_be_drawn_is_refused),
        cmocka_unit_test(curves_differ_without_colour),
        cmocka_unit_test(colours_stand_out_from_paper),
        cmocka_unit_test(the_common_style_is_one),
        IN_FOLDER(a_script_is_saved_whole_or_not_at_all),
        IN_FOLDER(makes_a_folder_one_level_deep),
        IN_FOLDER(says_that_a_folder_is_locked),
        cmocka_unit_test(memory_may_run_out_anywhere),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
