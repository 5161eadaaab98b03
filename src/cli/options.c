#include "cli/options.h"

#include "cli/words.h"
#include "liveside/text.h"

#include <stdio.h>
#include <string.h>

enum { NAME_TEXT = 64 };

int cli_given(const cli_options *options, cli_option option)
{
    return options->value[option].count > 0;
}

const char *cli_text(const cli_options *options, cli_option option)
{
    const cli_value *value = &options->value[option];
    return value->count > 0 ? value->text[value->count - 1] : NULL;
}

const cli_command *cli_command_find(const char *name)
{
    for (const cli_command *const *command = cli_commands; *command != NULL; command++) {
        if (strcmp((*command)->name, name) == 0 ||
            ((*command)->alias != NULL && strcmp((*command)->alias, name) == 0)) {
            return *command;
        }
    }
    return NULL;
}

static int is_allowed(const cli_command *command, int option)
{
    return ((command->options | CLI_ALWAYS) & CLI_BIT(option)) != 0;
}

/* The option with a name of that length, if it can be the command's own; or -1. */
static int find_option(const cli_command *command, const char *name, size_t length)
{
    int found = -1;
    for (int i = 0; i < CLI_OPTION_COUNT; i++) {
        if (strlen(cli_option_rows[i].name) == length && strncmp(cli_option_rows[i].name, name, length) == 0 &&
            (found < 0 || is_allowed(command, i))) {
            found = i;
        }
    }
    return found;
}

/* The command's option with a letter, or -1. */
static int find_letter(const cli_command *command, char letter)
{
    for (int i = 0; i < CLI_OPTION_COUNT; i++) {
        if (cli_option_rows[i].letter == letter && is_allowed(command, i)) {
            return i;
        }
    }
    return -1;
}

/* The option of a command that a name was perhaps meant to be: one that it begins, or the nearest; or -1. */
static int guess_option(const cli_command *command, const char *name)
{
    const char *known[CLI_OPTION_COUNT];
    int beginning = -1, beginnings = 0;
    for (int i = 0; i < CLI_OPTION_COUNT; i++) {
        known[i] = is_allowed(command, i) ? cli_option_rows[i].name : NULL;
        if (known[i] != NULL && name[0] != '\0' && strncmp(known[i], name, strlen(name)) == 0) {
            beginning = i;
            beginnings++;
        }
    }
    return beginnings == 1 ? beginning : ls_text_nearest(name, known, CLI_OPTION_COUNT);
}

static ls_status unknown_option(const cli_command *command, const char *typed, const char *name, ls_error *error)
{
    int guess = guess_option(command, name);
    if (guess >= 0) {
        return ls_fail(error, LS_USAGE, "no option %s; did you mean --%s?", typed, cli_option_rows[guess].name);
    }
    return ls_fail(error, LS_USAGE, "no option %s; 'liveside %s --help' lists those there are", typed,
                   command->name);
}

static ls_status not_for_command(const cli_command *command, int option, ls_error *error)
{
    const char *name = cli_option_rows[option].name;
    for (const cli_command *const *other = cli_commands; *other != NULL; other++) {
        if (is_allowed(*other, option)) {
            return ls_fail(error, LS_USAGE, "'liveside %s' has no use for --%s; 'liveside %s' has", command->name,
                           name, (*other)->name);
        }
    }
    return ls_fail(error, LS_USAGE, "'liveside %s' has no use for --%s", command->name, name);
}

static ls_status keep_text(cli_value *value, int option, const char *text, ls_error *error)
{
    const cli_option_row *row = &cli_option_rows[option];
    int most = row->repeats ? CLI_REPEATS_MAX : 1;
    if (value->count == most) {
        return row->repeats ? ls_fail(error, LS_USAGE, "--%s may be given %d times at most", row->name, most)
                            : ls_fail(error, LS_USAGE, "--%s is given twice", row->name);
    }
    value->text[value->count++] = text;
    return LS_OK;
}

/* An option as typed, without its value. Given: length, of its name. */
static ls_status unknown_name(const cli_command *command, const char *typed, size_t length, ls_error *error)
{
    char name[NAME_TEXT];
    snprintf(name, sizeof name, "%.*s", (int)(length < sizeof name ? length + 2 : sizeof name), typed);
    return unknown_option(command, name, name + 2, error);
}

/* Takes the value of an option that has one. Given: text, that stood with its name, or null. Returned: next, the
 * argument to go on with. */
static ls_status take_value(int count, char *const *arguments, int at, int option, const char *text,
                            cli_options *options, int *next, ls_error *error)
{
    const cli_option_row *row = &cli_option_rows[option];
    *next = at + 1;
    if (row->kind == CLI_FLAG) {
        return text == NULL ? keep_text(&options->value[option], option, "", error)
                            : ls_fail(error, LS_USAGE, "--%s takes no value", row->name);
    }
    if (text == NULL && at + 1 < count && strncmp(arguments[at + 1], "--", 2) != 0) {
        text = arguments[at + 1];
        *next = at + 2;
    }
    if (text == NULL || text[0] == '\0') {
        return ls_fail(error, LS_USAGE, "--%s needs a value: --%s %s", row->name, row->name, row->argument);
    }
    return keep_text(&options->value[option], option, text, error);
}

/* Takes one option by its name and, where it has one, its value. */
static ls_status take_option(int count, char *const *arguments, int at, cli_options *options, int *next,
                             ls_error *error)
{
    const char *typed = arguments[at];
    const char *name = typed + 2;
    size_t length = strcspn(name, "=");
    const char *text = name[length] == '=' ? name + length + 1 : NULL;
    int option = find_option(options->command, name, length);
    if (option < 0) {
        return unknown_name(options->command, typed, length, error);
    }
    if (!is_allowed(options->command, option)) {
        return not_for_command(options->command, option, error);
    }
    return take_value(count, arguments, at, option, text, options, next, error);
}

/* The same by its letter: -o FILE. */
static ls_status take_letter(int count, char *const *arguments, int at, cli_options *options, int *next,
                             ls_error *error)
{
    const char *typed = arguments[at];
    int option = typed[2] == '\0' ? find_letter(options->command, typed[1]) : -1;
    return option < 0 ? unknown_option(options->command, typed, typed + 1, error)
                      : take_value(count, arguments, at, option, NULL, options, next, error);
}

static ls_status take_file(cli_options *options, const char *name, ls_error *error)
{
    const cli_command *command = options->command;
    if (options->files == command->files_max) {
        return ls_fail(error, LS_USAGE, "'liveside %s' takes %s; what is '%s'?", command->name,
                       command->files_max == 1 ? "one file" : "no more files", name);
    }
    options->file[options->files++] = name;
    return LS_OK;
}

static ls_status take_all(int count, char *const *arguments, cli_options *options, ls_error *error)
{
    int only_files = 0;
    ls_status status = LS_OK;
    for (int i = 0, next = 0; i < count && status == LS_OK; i = next) {
        const char *argument = arguments[i];
        next = i + 1;
        if (only_files || argument[0] != '-' || argument[1] == '\0') {
            status = take_file(options, argument, error);
        } else if (strcmp(argument, "--") == 0) {
            only_files = 1;
        } else if (argument[1] != '-') {
            status = take_letter(count, arguments, i, options, &next, error);
        } else {
            status = take_option(count, arguments, i, options, &next, error);
        }
    }
    return status;
}

static int asks_for_help(int count, char *const *arguments)
{
    for (int i = 0; i < count && strcmp(arguments[i], "--") != 0; i++) {
        if (strcmp(arguments[i], "--help") == 0 || strcmp(arguments[i], "-h") == 0) {
            return 1;
        }
    }
    return 0;
}

static ls_status read_units(cli_options *options, ls_error *error)
{
    cli_value *value = &options->value[CLI_UNITS];
    if (value->count > 0) {
        ls_status status = cli_value_read(CLI_UNITS, LS_UNITS_US, value, error);
        if (status != LS_OK) {
            return status;
        }
        options->units = (ls_unit_system)value->word;
    }
    return LS_OK;
}

ls_status cli_options_parse(const cli_command *command, int count, char *const *arguments, cli_options *options,
                            ls_error *error)
{
    *options = (cli_options){.command = command, .units = LS_UNITS_US};
    if (asks_for_help(count, arguments)) {
        options->value[CLI_HELP].count = 1;
        return LS_OK;
    }
    ls_status status = take_all(count, arguments, options, error);
    if (status == LS_OK) {
        status = read_units(options, error); /* first: they say what a bare number means */
    }
    for (int i = 0; i < CLI_OPTION_COUNT && status == LS_OK; i++) {
        if (options->value[i].count > 0) {
            status = cli_value_read(i, options->units, &options->value[i], error);
        }
    }
    if (status == LS_OK && options->files < command->files_min) {
        return ls_fail(error, LS_USAGE, "'liveside %s' needs a file: %s", command->name, command->example);
    }
    return status;
}

ls_status cli_options_change(const cli_options *options, const char *text, cli_options *changed, ls_error *error)
{
    size_t length = strcspn(text, "=");
    if (text[length] != '=' || text[length + 1] == '\0') {
        return ls_fail(error, LS_USAGE, "'%s' is not NAME=VALUE", text);
    }
    *changed = *options;
    int option = find_option(options->command, text, length);
    if (option < 0) {
        return keep_text(&changed->value[CLI_SET], CLI_SET, text, error);
    }
    if (!((CLI_CONDITION_BITS | CLI_BIT(CLI_SPEED)) & options->command->options & CLI_BIT(option))) {
        return ls_fail(error, LS_USAGE, "--%s is not part of the condition", cli_option_rows[option].name);
    }
    if (option == CLI_OAT || option == CLI_ISA) {
        changed->value[option == CLI_OAT ? CLI_ISA : CLI_OAT] = (cli_value){0};
    }
    cli_value *value = &changed->value[option];
    *value = (cli_value){.count = 1, .text = {text + length + 1}};
    return cli_value_read(option, changed->units, value, error);
}
