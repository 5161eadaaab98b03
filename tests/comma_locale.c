#define _DEFAULT_SOURCE /* setenv with mkdtemp */
#include "comma_locale.h"

#include "check.h"

#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int comma_locale_use(char folder[64])
{
    char path[160], command[400];
    strcpy(folder, "/tmp/liveside-locale-XXXXXX");
    if (mkdtemp(folder) == NULL) {
        return 0;
    }
    snprintf(path, sizeof path, "%s/source", folder);
    FILE *source = fopen(path, "w");
    if (source == NULL) {
        return 0;
    }
    fputs("LC_NUMERIC\ndecimal_point \",\"\nthousands_sep \"\"\ngrouping -1\nEND LC_NUMERIC\n", source);
    fclose(source);
    snprintf(command, sizeof command, "localedef -c -i %s/source %s/comma_XX >/dev/null 2>&1", folder, folder);
    if (system(command) < 0) {
        return 0;
    }
    setenv("LOCPATH", folder, 1);
    return setlocale(LC_NUMERIC, "comma_XX") != NULL && strcmp(localeconv()->decimal_point, ",") == 0;
}

void comma_locale_end(const char *folder)
{
    char command[128];
    setlocale(LC_NUMERIC, "C");
    unsetenv("LOCPATH");
    snprintf(command, sizeof command, "rm -rf %s", folder);
    assert_int_equal(system(command), 0);
}
