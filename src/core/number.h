/* Decimal numbers in text, with a point whatever the locale of the process. */
#ifndef LS_CORE_NUMBER_H
#define LS_CORE_NUMBER_H

#include "liveside/status.h"

#include <locale.h>
#include <stddef.h>

/* The value of the decimal number that fills text[0 .. length), which ls_number_length has measured.
 * Status: LS_OK; LS_FILE_REJECTED (too large or too small for a double); LS_MEMORY. */
ls_status ls_number_read(const char *text, size_t length, double *value, ls_error *error);

/* How many characters at the start of a text are a decimal number, [+-]digits[.digits][e[+-]digits] with a digit
 * before or after the point; 0 if none. */
size_t ls_number_length(const char *text);

/* Prints a finite value with a fixed number of decimals. Status: LS_OK; LS_MEMORY; LS_INTERNAL (does not fit). */
ls_status ls_number_print(double value, int decimals, char *out, size_t size);

/* The calling thread's locale is changed for a while and put back; the process's locale is never touched. */
typedef struct {
    locale_t plain;
    locale_t before;
} ls_plain_locale;

/* From here printf writes points. Returned: 0 when there is no memory for it, and nothing is to be left. */
int ls_plain_locale_enter(ls_plain_locale *scope);
void ls_plain_locale_leave(const ls_plain_locale *scope);

#endif
