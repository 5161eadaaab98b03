/* A locale with a decimal comma, for the tests that none changes a result. */
#ifndef LIVESIDE_TESTS_COMMA_LOCALE_H
#define LIVESIDE_TESTS_COMMA_LOCALE_H

/* Compiles such a locale, for machines have none installed as a rule, and sets it.
 * Returned: folder, which comma_locale_end removes; whether numbers now have commas. */
int comma_locale_use(char folder[64]);

/* Goes back to the locale C. */
void comma_locale_end(const char *folder);

#endif
