/* The command line: what is taken, what it becomes, and the one line that helps when it is refused. */
#include "check.h"

#include "cli/options.h"
#include "cli/words.h"

#include <math.h>
#include <string.h>

#define ARGUMENTS(...) \
    (char *const *)(const char *[]){__VA_ARGS__}, (int)(sizeof((const char *[]){__VA_ARGS__}) / sizeof(char *))
#define ARITHMETIC "exact factors of the unit table"

static ls_status parse_for(const char *command, char *const *arguments, int count, cli_options *options,
                           ls_error *error)
{
    *error = (ls_error){0};
    return cli_options_parse(cli_command_find(command), count, arguments, options, error);
}

static void takes_options_before_and_after_the_file(void **state)
{
    (void)state;
    cli_options options;
    ls_error error;
    ls_status status = parse_for("balance", ARGUMENTS("--gear", "down", "x.yaml", "--flap=up", "--speed", "80"),
                                 &options, &error);
    assert_int_equal(status, LS_OK);
    assert_int_equal(options.files, 1);
    assert_string_equal(options.file[0], "x.yaml");
    assert_int_equal(options.value[CLI_GEAR].word, 1);
    assert_string_equal(cli_text(&options, CLI_FLAP), "up");
    assert_false(cli_given(&options, CLI_OAT));
    assert_null(cli_text(&options, CLI_OAT));
}

static void two_dashes_end_the_options(void **state)
{
    (void)state;
    cli_options options;
    ls_error error;
    assert_int_equal(parse_for("check", ARGUMENTS("--", "--full"), &options, &error), LS_OK);
    assert_string_equal(options.file[0], "--full");
    assert_false(cli_given(&options, CLI_FULL));
    assert_int_equal(parse_for("check", ARGUMENTS("-"), &options, &error), LS_OK);
    assert_string_equal(options.file[0], "-");
}

static void numbers_in_every_unit_system(void **state)
{
    (void)state;
    static const struct {
        const char *units, *option, *text;
        cli_option which;
        double si;
    } row[] = {
        {"us", "--weight", "3000", CLI_WEIGHT, 3000 * 0.45359237},
        {"metric", "--weight", "1500", CLI_WEIGHT, 1500},
        {"si", "--weight", "1500", CLI_WEIGHT, 1500},
        {"us", "--weight", "1500 kg", CLI_WEIGHT, 1500},
        {"us", "--cg", "90", CLI_CG, 90 * 0.0254},
        {"metric", "--cg", "90 in", CLI_CG, 90 * 0.0254},
        {"si", "--altitude", "1000", CLI_ALTITUDE, 1000},
        {"metric", "--altitude", "1000", CLI_ALTITUDE, 304.8},
        {"us", "--altitude", "1000 m", CLI_ALTITUDE, 1000},
        {"si", "--oat", "-5", CLI_OAT, 268.15},
        {"us", "--isa", "-10", CLI_ISA, -10},
        {"us", "--power", "75", CLI_POWER, 0.75},
        {"us", "--power", "0.75 %", CLI_POWER, 0.0075},
        {"si", "--speed", "40", CLI_SPEED, 40},
        {"us", "--speed", "90", CLI_SPEED, 90 * 1852.0 / 3600.0},
        {"metric", "--pedal-limit", "600", CLI_PEDAL_LIMIT, 600},
        {"us", "--pedal-limit", "100", CLI_PEDAL_LIMIT, 100 * 4.4482216152605},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        cli_options options;
        ls_error error;
        const char *arguments[] = {row[i].option, row[i].text, "x", "--units", row[i].units};
        assert_int_equal(parse_for("balance", (char *const *)arguments, 5, &options, &error), LS_OK);
        check_close("number of an option, SI", options.value[row[i].which].si, row[i].si, 1e-12 * fabs(row[i].si),
                    "round-off", ARITHMETIC);
        assert_int_equal(options.value[row[i].which].word, -1);
    }
}

static void words_instead_of_numbers(void **state)
{
    (void)state;
    cli_options options;
    ls_error error;
    assert_int_equal(parse_for("balance",
                               ARGUMENTS("x", "--weight", "worst", "--cg", "aft", "--pedal-limit", "none"),
                               &options, &error),
                     LS_OK);
    assert_int_equal(options.value[CLI_WEIGHT].word, CLI_WEIGHT_WORST);
    assert_int_equal(options.value[CLI_CG].word, CLI_CG_AFT);
    assert_int_equal(options.value[CLI_PEDAL_LIMIT].word, CLI_PEDAL_NONE);
    assert_true(isnan(options.value[CLI_CG].si));
}

static void both_spellings_of_anticlockwise(void **state)
{
    (void)state;
    const char *words = cli_option_rows[CLI_ROTATION].words;
    assert_int_equal(cli_word_find(words, "anticlockwise"), 2);
    assert_int_equal(cli_word_find(words, "counterclockwise"), 2);
    assert_int_equal(cli_word_find(words, "inboard"), 3);
    assert_int_equal(cli_word_find(words, "outboard"), 4);
    assert_int_equal(cli_word_find(words, "anti"), -1);
    assert_int_equal(cli_word_find(words, ""), -1);
}

static void bank_has_a_side(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        double deg;
        int side;
    } row[] = {
        {"5live", 5, CLI_TOWARD_LIVE},
        {"5dead", 5, CLI_TOWARD_DEAD},
        {"2.5 deg live", 2.5, CLI_TOWARD_LIVE},
        {"0", 0, CLI_TOWARD_LIVE},
        {"3deglive", 3, CLI_TOWARD_LIVE},
        {"0dead", 0, CLI_TOWARD_DEAD},
        {"0.1 rad dead", 18 / 3.14159265358979323846, CLI_TOWARD_DEAD},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        cli_value value = {.count = 1, .text = {row[i].text}};
        ls_error error = {0};
        assert_int_equal(cli_value_read(CLI_BANK, LS_UNITS_US, &value, &error), LS_OK);
        check_close("bank of an option, deg", value.si * 180 / acos(-1), row[i].deg, 1e-12, "round-off",
                    ARITHMETIC);
        assert_int_equal(value.word, row[i].side);
    }
}

static void refusals_say_what_helps(void **state)
{
    (void)state;
    static const struct {
        const char *command, *first, *second, *text;
    } row[] = {
        {"check", "--ful", "x", "no option --ful; did you mean --full?"},
        {"check", "--outptu", "x", "no option --outptu; did you mean --output?"},
        {"check", "--zzzzzz", "x", "no option --zzzzzz; 'liveside check --help' lists those there are"},
        {"check", "-q", "x", "no option -q; 'liveside check --help' lists those there are"},
        {"check", "--speed=80", "x", "'liveside check' has no use for --speed; 'liveside balance' has"},
        {"check", "x", "y", "'liveside check' takes one file; what is 'y'?"},
        {"check", "--full=1", "x", "--full takes no value"},
        {"balance", "x", "--speed", "--speed needs a value: --speed SPEED"},
        {"balance", "x", "--speed=", "--speed needs a value: --speed SPEED"},
        {"balance", "x", "--bank=5", "--bank 5: write a number and a side, as in 5live or 5dead"},
        {"balance", "x", "--bank=5liv", "--bank 5liv: write a number and a side, as in 5live or 5dead"},
        {"balance", "x", "--bank=live", "--bank live: write a number and a side, as in 5live or 5dead"},
        {"balance", "x", "--bank=50live", "--bank 50 is outside 0 deg to 45 deg"},
        {"balance", "x", "--gear=dwn", "--gear: no 'dwn'; did you mean down? It takes up, down"},
        {"balance", "x", "--rotation=counterclokwise",
         "--rotation: no 'counterclokwise'; did you mean anticlockwise? It takes file, clockwise, anticlockwise, "
         "inboard, outboard"},
        {"balance", "x", "--power=0.75", "--power 0.75: say which, '0.75 %' or '75 %'"},
        {"balance", "x", "--power=120", "--power 120 is outside 0% to 100%"},
        {"balance", "x", "--altitude=70000", "--altitude 70000 is outside -6562 ft to 65617 ft"},
        {"balance", "x", "--weight=heavy", "--weight: no 'heavy'; it takes a number, or max, min, worst"},
        {"balance", "--gear=up", "--gear=down", "--gear is given twice"},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        cli_options options;
        ls_error error;
        char *arguments[] = {(char *)row[i].first, (char *)row[i].second};
        assert_int_equal(parse_for(row[i].command, arguments, 2, &options, &error), LS_USAGE);
        assert_string_equal(error.text, row[i].text);
    }
}

static void help_wins_over_everything(void **state)
{
    (void)state;
    cli_options options;
    ls_error error;
    assert_int_equal(parse_for("check", ARGUMENTS("--nonsense", "--help"), &options, &error), LS_OK);
    assert_true(cli_given(&options, CLI_HELP));
    assert_int_equal(parse_for("check", ARGUMENTS("--", "--help"), &options, &error), LS_OK);
    assert_false(cli_given(&options, CLI_HELP));
}

static void repeated_options_gather(void **state)
{
    (void)state;
    cli_options options;
    ls_error error;
    assert_int_equal(
        parse_for("balance",
                  ARGUMENTS("x", "--without", "torque", "--set", "a=1", "--without=dead-drag", "--set", "b=2"),
                  &options, &error),
        LS_OK);
    assert_int_equal(options.value[CLI_WITHOUT].word, 1 << 1 | 1 << 3);
    assert_int_equal(options.value[CLI_SET].count, 2);
    assert_string_equal(options.value[CLI_SET].text[1], "b=2");
}

static void a_change_replaces_or_adds(void **state)
{
    (void)state;
    cli_options options, changed;
    ls_error error;
    assert_int_equal(parse_for("balance", ARGUMENTS("x", "--oat", "30", "--gear", "up"), &options, &error), LS_OK);
    assert_int_equal(cli_options_change(&options, "gear=down", &changed, &error), LS_OK);
    assert_int_equal(changed.value[CLI_GEAR].word, 1);
    assert_int_equal(options.value[CLI_GEAR].word, 0);
    assert_int_equal(cli_options_change(&options, "isa=10", &changed, &error), LS_OK);
    assert_false(cli_given(&changed, CLI_OAT));
    assert_int_equal(cli_options_change(&options, "rudder.left=20 deg", &changed, &error), LS_OK);
    assert_string_equal(changed.value[CLI_SET].text[0], "rudder.left=20 deg");
    assert_int_equal(cli_options_change(&options, "format=csv", &changed, &error), LS_USAGE);
    assert_string_equal(error.text, "--format is not part of the condition");
    error = (ls_error){0};
    assert_int_equal(cli_options_change(&options, "gear", &changed, &error), LS_USAGE);
    assert_string_equal(error.text, "'gear' is not NAME=VALUE");
}

/* What help shows must be something that the parser takes: every row is complete for its kind. */
static void every_row_is_complete(void **state)
{
    (void)state;
    for (int i = 0; i < CLI_OPTION_COUNT; i++) {
        const cli_option_row *row = &cli_option_rows[i];
        assert_non_null(row->name);
        assert_non_null(row->meaning);
        assert_int_equal(row->kind == CLI_FLAG, row->argument == NULL);
        assert_true(row->kind != CLI_WORD || row->words != NULL);
        for (int units = 0; units < LS_UNITS_COUNT && row->dimension != LS_DIM_NUMBER; units++) {
            assert_non_null(row->unit[units]);
            assert_non_null(ls_unit_find(row->dimension, row->unit[units]));
        }
    }
    for (const cli_command *const *command = cli_commands; *command != NULL; command++) {
        assert_int_equal((*command)->options & CLI_ALWAYS, 0);
        assert_true((*command)->files_max <= CLI_FILES_MAX);
        assert_ptr_equal(cli_command_find((*command)->name), *command);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(takes_options_before_and_after_the_file),
        cmocka_unit_test(two_dashes_end_the_options),
        cmocka_unit_test(numbers_in_every_unit_system),
        cmocka_unit_test(words_instead_of_numbers),
        cmocka_unit_test(both_spellings_of_anticlockwise),
        cmocka_unit_test(bank_has_a_side),
        cmocka_unit_test(refusals_say_what_helps),
        cmocka_unit_test(help_wins_over_everything),
        cmocka_unit_test(repeated_options_gather),
        cmocka_unit_test(a_change_replaces_or_adds),
        cmocka_unit_test(every_row_is_complete),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
