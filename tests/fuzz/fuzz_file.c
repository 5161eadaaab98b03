/* Any bytes as an aeroplane file: reading never crashes, and says yes or no with a reason; what it accepts is
 * finite, has finite bounds, and reads back after writing. */
#include "liveside/reader.h"
#include "liveside/support.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static ls_aircraft aircraft, again;
static ls_marks marks, marks_again;
static ls_findings findings;

static void require(int condition)
{
    if (!condition) {
        abort();
    }
}

static ls_status parse(const char *data, size_t size, ls_aircraft *to, ls_marks *to_marks)
{
    ls_error error = {0};
    memset(&findings, 0, sizeof findings);
    ls_status status = ls_aircraft_parse(data, size, "input", to, to_marks, &findings, &error);
    require((status == LS_OK) == (error.status == LS_OK));
    require((status == LS_OK) == (ls_findings_rejects(&findings) == 0));
    return status;
}

/* The whole text that a function prints. */
static char *print_all(size_t *size)
{
    char *text = NULL;
    ls_support support;
    FILE *out = open_memstream(&text, size);
    require(out != NULL);
    ls_aircraft_print(out, &aircraft, &marks, LS_UNITS_US);
    ls_aircraft_print_defaults(out, &aircraft, &marks, LS_UNITS_SI);
    ls_aircraft_support(&aircraft, &marks, &support);
    require(fseek(out, 0, SEEK_SET) == 0);
    ls_aircraft_write(out, &aircraft, &marks);
    long end = ftell(out);
    fclose(out);
    *size = (size_t)end;
    return text;
}

/* A number in the record is finite or, where it may be absent, NaN. */
static void numbers_are_finite(void)
{
    int count;
    const ls_parameter *row = ls_parameters(&count);
    for (int i = 0; i < count; i++) {
        int length = ls_list_length(&aircraft, ls_parameter_list(&row[i]));
        for (int element = 0; element < length && row[i].kind == LS_KEY_NUMBER; element++) {
            double value = *(const double *)ls_parameter_value_const(&aircraft, &row[i], element);
            require(!isinf(value));
        }
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    if (parse((const char *)data, size, &aircraft, &marks) == LS_OK) {
        size_t length = 0;
        char *text = print_all(&length);
        numbers_are_finite();
        require(parse(text, length, &again, &marks_again) == LS_OK);
        require(memcmp(&aircraft, &again, sizeof again) == 0);
        free(text);
    }
    FILE *out = fopen("/dev/null", "w");
    require(out != NULL);
    ls_findings_print(out, "input", &findings, LS_NOTE);
    fclose(out);
    return 0;
}
