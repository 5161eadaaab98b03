/* Any bytes as the axis of a trend: never a crash; yes, or no with a reason; what is taken is finite and within
 * its range. */
#include "liveside/reader.h"
#include "liveside/trend.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerInitialize(int *count, char ***arguments);
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static ls_aircraft aircraft, changed;
static ls_marks marks;

static void require(int holds)
{
    if (!holds) {
        abort();
    }
}

int LLVMFuzzerInitialize(int *count, char ***arguments)
{
    (void)count;
    (void)arguments;
    static ls_findings findings;
    ls_error error = {0};
    require(ls_aircraft_read("tests/data/twin.yaml", &aircraft, &marks, &findings, NULL, &error) == LS_OK);
    return 0;
}

static void refused_with_a_reason(ls_status status, const ls_error *error)
{
    require(status == LS_USAGE && error->status == LS_USAGE);
    require(error->text[0] != '\0' && strlen(error->text) < LS_ERROR_TEXT);
}

static void check_axis(const char *text)
{
    ls_trend_axis axis;
    ls_error error = {0};
    ls_status status = ls_trend_axis_parse(text, &aircraft, NULL, NULL, &axis, &error);
    if (status != LS_OK) {
        refused_with_a_reason(status, &error);
        return;
    }
    require(axis.points >= 1 && axis.points <= LS_AXIS_POINTS_MAX && axis.step != 0.0);
    for (int i = 0; i<axis.points; i += axis.points> 8 ? axis.points / 8 : 1) {
        ls_condition condition;
        double bank_rad = 0.0, value = ls_trend_axis_value(&axis, i);
        ls_error why = {0};
        ls_condition_takeoff(&aircraft, &condition);
        changed = aircraft;
        require(isfinite(value));
        ls_trend_axis_word(&axis, &aircraft, i);
        status = ls_trend_axis_apply(&axis, value, 1u, &changed, &condition, &bank_rad, &why);
        if (status != LS_OK) {
            refused_with_a_reason(status, &why);
        }
        require(isfinite(bank_rad) && isfinite(condition.mass_kg) && isfinite(condition.isa_offset_K));
        require(condition.flap >= 0 && condition.flap < aircraft.flaps);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char *text = malloc(size + 1);
    require(text != NULL);
    memcpy(text, data, size);
    text[size] = '\0';
    check_axis(text);
    free(text);
    return 0;
}
