/* Numbers and words as the writers and the messages show them; a decimal point whatever the locale. */
#ifndef LS_IO_FORMAT_H
#define LS_IO_FORMAT_H

#include "liveside/parameter.h"

enum { LS_NUMBER_TEXT = 48 };

/* A number with a count of significant digits, "3.28084"; no exponent between 1e-4 and 1e6 or so. Returned: out.
 */
const char *ls_number_text(double value, int digits, char out[LS_NUMBER_TEXT]);

/* The shortest number that reads back to the same value. Returned: out. */
const char *ls_number_exact(double value, char out[LS_NUMBER_TEXT]);

/* The shortest text, in any unit of the dimension, that reads back to the same SI value, "25 deg". Returned: out.
 */
const char *ls_quantity_exact(double si, ls_dimension dimension, char out[LS_NUMBER_TEXT]);

/* An SI value in a unit with a count of significant digits, "36.09 ft". Returned: out. */
const char *ls_quantity_text(double si, const ls_unit *unit, int digits, char out[LS_NUMBER_TEXT]);

/* The index-th word of a list "stability|body", or "" past its end. Returned: out. */
const char *ls_choice_word(const char *choices, int index, char out[LS_NUMBER_TEXT]);

/* The index of a word in such a list, or -1. */
int ls_choice_find(const char *choices, const char *word);

/* The unit that a text was written in, "36 ft"; the dimension's first one where it has none. */
const ls_unit *ls_unit_written(const char *text, ls_dimension dimension);

/* "1 to 100 m"; "at least 1 /rad" where the upper end is no limit in earnest. Returned: out. */
enum { LS_RANGE_TEXT = 128 };
const char *ls_range_text(double low, double high, const ls_unit *unit, char out[LS_RANGE_TEXT]);

#endif
