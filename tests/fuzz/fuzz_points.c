/* Any bytes as a file of test points: never a crash; yes, or no with a reason and a place; what is taken is within
 * its column's range, and a few points can be reduced or are refused with a reason. */
#include "liveside/points_file.h"
#include "liveside/reader.h"
#include "liveside/reduce.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { REDUCED_AT_MOST = 12 };

int LLVMFuzzerInitialize(int *count, char ***arguments);
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static ls_aircraft aircraft;
static ls_findings findings;

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
    static ls_marks marks;
    ls_error error = {0};
    require(ls_aircraft_read("tests/data/tiny.yaml", &aircraft, &marks, &findings, NULL, &error) == LS_OK);
    return 0;
}

static void check_word(const ls_point_column *column, const char *word)
{
    require(memchr(word, '\0', column->size) != NULL);
    if (column->choices != NULL && word[0] != '\0') {
        const char *at = strstr(column->choices, word);
        require(at != NULL);
    }
}

static void check_point(const ls_point *point)
{
    int count;
    const ls_point_column *column = ls_point_columns(&count);
    for (int i = 0; i < count; i++) {
        const char *at = (const char *)point + column[i].offset;
        if (column[i].dimension == LS_POINT_TEXT) {
            check_word(&column[i], at);
            continue;
        }
        double value = *(const double *)(const void *)at, slack = 1e-9 * fabs(column[i].high);
        require(isnan(value) || (value >= column[i].low - slack && value <= column[i].high + slack));
    }
    require(point->line > 1);
}

static void reduce(const ls_points *points)
{
    ls_reduction reduction;
    ls_error error = {0};
    ls_reduce_request request = {.aircraft = &aircraft,
                                 .points = points,
                                 .mass_kg = aircraft.mass.maximum_kg,
                                 .bank_rad = 0.08,
                                 .confidence = 0.95,
                                 .thrust_share = 0.05};
    ls_accuracies_usual(&request.accuracies);
    ls_status status = ls_reduce_points(&request, &reduction, &error);
    require(status == LS_OK || (status == LS_NO_STATE && error.text[0] != '\0'));
    for (int i = 0; i < reduction.rows; i++) {
        const ls_reduced *row = &reduction.row[i];
        require(row->use != LS_USE_REJECTED || row->reason[0] != '\0');
        require(!isinf(row->by_model_m_s) && !isinf(row->by_coefficient_m_s) && !isinf(row->by_power_m_s));
    }
    ls_reduce_free(&reduction);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    ls_points points = {0};
    ls_error error = {0};
    memset(&findings, 0, sizeof findings);
    ls_status status = ls_points_parse((const char *)data, size, "input", &points, &findings, &error);
    require((status == LS_OK) == (error.status == LS_OK));
    require(status == LS_OK || (status == LS_FILE_REJECTED && error.text[0] != '\0' && points.point == NULL));
    if (status == LS_OK) {
        for (int i = 0; i < points.count; i++) {
            check_point(&points.point[i]);
        }
        if (points.count > 0 && points.count <= REDUCED_AT_MOST) {
            reduce(&points);
        }
        ls_points_free(&points);
    }
    return 0;
}
