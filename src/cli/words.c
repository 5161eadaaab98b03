#include "cli/words.h"

#include "liveside/text.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { VALUE_TEXT = 128, WORDS_MAX = 16 };

int cli_word_find(const char *words, const char *text)
{
    size_t length = strlen(text);
    int index = 0;
    for (const char *word = words; *word != '\0';) {
        size_t word_length = strcspn(word, "|,");
        if (word_length == length && strncmp(word, text, length) == 0) {
            return index;
        }
        index += word[word_length] == '|';
        word += word_length + (word[word_length] != '\0');
    }
    return -1;
}

void cli_words_print(const char *words, char *out, size_t size)
{
    size_t used = 0;
    out[0] = '\0';
    while (*words != '\0' && used < size) {
        used += (size_t)snprintf(out + used, size - used, "%s%.*s", used == 0 ? "" : ", ",
                                 (int)strcspn(words, "|,"), words);
        words += strcspn(words, "|");
        words += *words == '|';
    }
}

void cli_number_print(const cli_option_row *row, ls_unit_system units, double si, char *out, size_t size)
{
    const ls_unit *unit = ls_unit_find(row->dimension, row->unit[units]);
    double value = ls_unit_from_si(unit, si);
    int decimals = fabs(value) < 10 && fabs(value - round(value)) > 1e-6 ? 2 : fabs(value) < 200 ? 1 : 0;
    ls_units_format(si, unit, fabs(value - round(value)) < 1e-6 ? 0 : decimals, out, size);
}

/* The whole list, "a|b", as separate words for a guess. */
static int nearest_word(const char *words, const char *text)
{
    char list[VALUE_TEXT];
    const char *word[WORDS_MAX];
    int count = 0;
    snprintf(list, sizeof list, "%s", words);
    char *rest = NULL;
    for (char *at = strtok_r(list, "|,", &rest); at != NULL && count < WORDS_MAX;
         at = strtok_r(NULL, "|,", &rest)) {
        word[count++] = at;
    }
    int nearest = ls_text_nearest(text, word, count);
    return nearest < 0 ? -1 : cli_word_find(words, word[nearest]);
}

static ls_status no_such_word(const cli_option_row *row, const char *text, ls_error *error)
{
    char list[VALUE_TEXT], guess[VALUE_TEXT];
    const char *or_number = row->kind == CLI_NUMBER ? "a number, or " : "";
    cli_words_print(row->words, list, sizeof list);
    int nearest = nearest_word(row->words, text);
    if (nearest < 0) {
        return ls_fail(error, LS_USAGE, "--%s: no '%s'; it takes %s%s", row->name, text, or_number, list);
    }
    const char *word = row->words;
    for (int i = 0; i < nearest; i++) {
        word = strchr(word, '|') + 1;
    }
    snprintf(guess, sizeof guess, "%.*s", (int)strcspn(word, "|,"), word);
    return ls_fail(error, LS_USAGE, "--%s: no '%s'; did you mean %s? It takes %s%s", row->name, text, guess,
                   or_number, list);
}

static ls_status check_range(const cli_option_row *row, ls_unit_system units, const char *text, double si,
                             ls_error *error)
{
    double slack = 1e-12 * (fabs(row->low) + fabs(row->high)); /* a limit typed in another unit is still in */
    if (si >= row->low - slack && si <= row->high + slack) {
        return LS_OK;
    }
    char low[VALUE_TEXT], high[VALUE_TEXT];
    cli_number_print(row, units, row->low, low, sizeof low);
    cli_number_print(row, units, row->high, high, sizeof high);
    return ls_fail(error, LS_USAGE, "--%s %s is outside %s to %s", row->name, text, low, high);
}

/* A number with a unit, or bare in the row's. */
static ls_status read_number(const cli_option_row *row, ls_unit_system units, const char *text, double *si,
                             ls_error *error)
{
    double value = 0;
    const char *end = NULL;
    ls_error why = {0};
    if (ls_units_number(text, &value, &end, &why) == LS_OK && end[strspn(end, " ")] == '\0') {
        if (row->dimension == LS_DIM_FRACTION && value > 0 && value <= 1) {
            return ls_fail(error, LS_USAGE, "--%s %s: say which, '%s %%' or '%g %%'", row->name, text, text,
                           100 * value);
        }
        *si = ls_unit_to_si(ls_unit_find(row->dimension, row->unit[units]), value);
    } else if (ls_units_parse(text, row->dimension, si, &why) != LS_OK) {
        return ls_fail(error, LS_USAGE, "--%s: %s", row->name, why.text);
    }
    return check_range(row, units, text, *si, error);
}

/* The side at the end of a text, and the text without it. Returned: -1 when there is none. */
static int split_side(const cli_option_row *row, const char *text, char number[VALUE_TEXT])
{
    size_t length = strlen(text);
    size_t letters = 0;
    while (letters < length && isalpha((unsigned char)text[length - letters - 1])) {
        letters++;
    }
    for (size_t n = letters; n > 0; n--) {
        int side = cli_word_find(row->words, text + length - n);
        if (side >= 0) {
            snprintf(number, VALUE_TEXT, "%.*s", (int)(length - n), text);
            return side;
        }
    }
    snprintf(number, VALUE_TEXT, "%s", text);
    return -1;
}

static ls_status which_side(const cli_option_row *row, const char *typed, const char *number, ls_error *error)
{
    size_t digits = strspn(number, "0123456789.");
    const char *shown = digits > 0 ? number : "5";
    return ls_fail(error, LS_USAGE, "--%s %s: write a number and a side, as in %.*s%.*s or %.*s%s", row->name,
                   typed, (int)(digits > 0 ? digits : 1), shown, (int)strcspn(row->words, "|"), row->words,
                   (int)(digits > 0 ? digits : 1), shown, strchr(row->words, '|') + 1);
}

static ls_status read_sided(const cli_option_row *row, ls_unit_system units, cli_value *value, ls_error *error)
{
    char number[VALUE_TEXT];
    const char *text = value->text[0];
    if (strlen(text) >= VALUE_TEXT) {
        return ls_fail(error, LS_USAGE, "--%s: '%.40s...' is too long", row->name, text);
    }
    value->word = split_side(row, text, number);
    ls_error why = {0};
    ls_status status = read_number(row, units, number, &value->si, &why);
    if (number[0] == '\0' || (value->word < 0 && (status != LS_OK || value->si != 0))) {
        return which_side(row, text, number, error);
    }
    value->word = value->word < 0 ? 0 : value->word;
    return status == LS_OK ? LS_OK : ls_fail(error, status, "%s", why.text);
}

static ls_status read_words(const cli_option_row *row, cli_value *value, ls_error *error)
{
    value->word = 0;
    for (int i = 0; i < value->count; i++) {
        int word = cli_word_find(row->words, value->text[i]);
        if (word < 0) {
            return no_such_word(row, value->text[i], error);
        }
        value->word = row->repeats ? value->word | 1 << word : word;
    }
    return LS_OK;
}

ls_status cli_value_read(int option, ls_unit_system units, cli_value *value, ls_error *error)
{
    const cli_option_row *row = &cli_option_rows[option];
    value->word = -1;
    value->si = NAN;
    switch (row->kind) {
    case CLI_WORD:
        return read_words(row, value, error);
    case CLI_NUMBER:
        value->word = row->words != NULL ? cli_word_find(row->words, value->text[0]) : -1;
        if (value->word >= 0) {
            return LS_OK;
        }
        if (row->words != NULL && isalpha((unsigned char)value->text[0][0])) {
            return no_such_word(row, value->text[0], error);
        }
        return read_number(row, units, value->text[0], &value->si, error);
    case CLI_SIDED:
        return read_sided(row, units, value, error);
    case CLI_FLAG:
    case CLI_TEXT:
        break;
    }
    return LS_OK;
}
