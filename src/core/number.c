#include "number.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int ls_plain_locale_enter(ls_plain_locale *scope)
{
    scope->plain = newlocale(LC_ALL_MASK, "C", (locale_t)0);
    if (scope->plain == (locale_t)0) {
        return 0;
    }
    scope->before = uselocale(scope->plain);
    return 1;
}

void ls_plain_locale_leave(const ls_plain_locale *scope)
{
    uselocale(scope->before);
    freelocale(scope->plain);
}

static size_t digits(const char *text)
{
    return strspn(text, "0123456789");
}

static size_t sign(const char *text)
{
    return text[0] == '+' || text[0] == '-';
}

static size_t exponent_length(const char *text)
{
    if (text[0] != 'e' && text[0] != 'E') {
        return 0;
    }
    size_t signs = sign(text + 1);
    size_t count = digits(text + 1 + signs);
    return count > 0 ? 1 + signs + count : 0;
}

size_t ls_number_length(const char *text)
{
    size_t at = sign(text);
    size_t whole = digits(text + at);
    at += whole;
    size_t fraction = text[at] == '.' ? digits(text + at + 1) : 0;
    if (whole + fraction == 0) {
        return 0;
    }
    at += text[at] == '.' ? 1 + fraction : 0;
    return at + exponent_length(text + at);
}

/* Whether the digits before the exponent are all zero, so that an underflow lost nothing. */
static int is_zero(const char *text, size_t length)
{
    for (size_t i = 0; i < length && text[i] != 'e' && text[i] != 'E'; i++) {
        if (text[i] >= '1' && text[i] <= '9') {
            return 0;
        }
    }
    return 1;
}

ls_status ls_number_read(const char *text, size_t length, double *value, ls_error *error)
{
    char copy[128]; /* so that nothing after the number, "0x10" or "1e", can mislead strtod */
    if (length >= sizeof copy) {
        return ls_fail(error, LS_FILE_REJECTED, "a number of %zu characters is too long (at most %zu)", length,
                       sizeof copy - 1);
    }
    memcpy(copy, text, length);
    copy[length] = '\0';
    ls_plain_locale scope;
    if (!ls_plain_locale_enter(&scope)) {
        return ls_fail(error, LS_MEMORY, "out of memory while reading a number");
    }
    double read = strtod(copy, NULL);
    ls_plain_locale_leave(&scope);
    if (!isfinite(read)) {
        return ls_fail(error, LS_FILE_REJECTED, "'%s' is too large a number", copy);
    }
    if (fpclassify(read) == FP_SUBNORMAL || (read == 0.0 && !is_zero(copy, length))) {
        return ls_fail(error, LS_FILE_REJECTED, "'%s' is too small a number; write 0 if none is meant", copy);
    }
    *value = read;
    return LS_OK;
}

ls_status ls_number_print(double value, int decimals, char *out, size_t size)
{
    ls_plain_locale scope;
    if (!ls_plain_locale_enter(&scope)) {
        return LS_MEMORY;
    }
    int count = snprintf(out, size, "%.*f", decimals, value);
    ls_plain_locale_leave(&scope);
    return count >= 0 && (size_t)count < size ? LS_OK : LS_INTERNAL;
}
