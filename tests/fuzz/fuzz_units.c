/* Fuzzes the parser of values with units: no crash, no value that is not finite, nothing touched on failure, and
 * a message in printable UTF-8. The first byte chooses the dimension. */
#include "liveside/text.h"
#include "liveside/units.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void require(int holds)
{
    if (!holds) {
        abort();
    }
}

static void check_one(const char *text, ls_dimension dimension)
{
    double si = 7.0;
    ls_error error = {0};
    ls_status status = ls_units_parse(text, dimension, &si, &error);
    if (status == LS_OK) {
        char out[512];
        require(isfinite(si));
        require(ls_units_format(si, ls_unit_preferred(LS_UNITS_US, dimension), 3, out, sizeof out) < sizeof out);
        return;
    }
    require(status == LS_FILE_REJECTED);
    require(si == 7.0);
    require(error.text[0] != '\0' && strlen(error.text) < LS_ERROR_TEXT - 1);
    require(ls_text_find_unsafe(error.text, strlen(error.text)) == -1);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    if (size == 0) {
        return 0;
    }
    char *text = malloc(size);
    require(text != NULL);
    memcpy(text, data + 1, size - 1);
    text[size - 1] = '\0';
    check_one(text, (ls_dimension)(data[0] % LS_DIMENSION_COUNT));
    free(text);
    return 0;
}
