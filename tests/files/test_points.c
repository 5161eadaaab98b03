/* The file of test points: units in the header, errors with line and column, speed. */
#include "check.h"
#include "edited.h"

#include "liveside/points_file.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define KT    (1852.0 / 3600.0)
#define HEAD  "id,failed,altitude_ft,oat_degC,weight_lb,bank_deg,ias_kt,correction_kt,rudder_deg,ended,remark\n"
#define UNITS "exact factors of the units"

static struct {
    ls_points points;
    ls_findings findings;
    ls_error error;
    ls_status status;
} job;

static void parse(const char *text, size_t size)
{
    ls_points_free(&job.points);
    memset(&job, 0, sizeof job);
    job.status = ls_points_parse(text, size, "points.csv", &job.points, &job.findings, &job.error);
}

static void read_text(const char *text)
{
    parse(text, strlen(text));
}

static void accepted(int count)
{
    if (job.status != LS_OK) {
        char *text = edited_findings("points.csv", &job.findings);
        print_error("%s", text);
        free(text);
        fail();
    }
    assert_int_equal(job.points.count, count);
}

static void values_in_their_units(void **state)
{
    (void)state;
    read_text(HEAD "1A,left,4000,11.1,3500,-5,70.5,-1.5,25,rudder,\"a \"\"quoted\"\" remark, with commas\"\n");
    accepted(1);
    const ls_point *point = &job.points.point[0];
    check_close("altitude, m", point->altitude_m, 1219.2, 1e-9, "round-off", UNITS);
    check_close("temperature, K", point->T_K, 284.25, 1e-9, "round-off", UNITS);
    check_close("weight, kg", point->mass_kg, 3500 * 0.45359237, 1e-9, "round-off", UNITS);
    check_close("CAS from IAS and correction, kt", point->cas_m_s / KT, 69.0, 1e-12, "round-off", "sum");
    check_close("bank, rad", point->bank_rad, -5 * 3.14159265358979323846 / 180, 1e-15, "round-off", UNITS);
    assert_string_equal(point->remark, "a \"quoted\" remark, with commas");
    assert_int_equal(point->line, 2);
    assert_true(isnan(point->beta_rad) && isnan(point->map_Pa));
}

static void other_units_and_line_ends(void **state)
{
    (void)state;
    read_text("\xEF\xBB\xBFid,failed,altitude_m,oat_K,weight_kg,bank_rad,cas_km/h,ended\r\n"
              "'=1,left,1000,280,1500,0.05,140,steady\r\n\r\n2,right,1000,280,1500,0.05,140,\r\n");
    assert_int_equal(job.status, LS_FILE_REJECTED); /* km/h is written km_per_h */
    read_text("\xEF\xBB\xBFid,failed,altitude_m,oat_K,weight_kg,bank_rad,cas_km_per_h,ended\r\n"
              "'=1,left,1000,280,1500,0.05,140,steady\r\n\r\n2,right,1000,280,1500,0.05,,\r\n");
    accepted(2);
    check_close("CAS, m/s", job.points.point[0].cas_m_s, 140 / 3.6, 1e-12, "round-off", UNITS);
    assert_string_equal(job.points.point[0].id, "=1");
    assert_int_equal(job.points.point[1].line, 4);
    assert_true(isnan(job.points.point[1].cas_m_s)); /* not flown */
}

static void refused(const char *text, int line, int column, const char *says)
{
    read_text(text);
    assert_int_equal(job.status, LS_FILE_REJECTED);
    for (int i = 0; i < job.findings.stored; i++) {
        const ls_finding *found = &job.findings.item[i];
        if (found->line == line && found->column == column && strstr(found->text, says) != NULL) {
            return;
        }
    }
    char *all = edited_findings("points.csv", &job.findings);
    print_error("%s", all);
    free(all);
    fail_msg("nothing said '%s' at %d:%d", says, line, column);
}

static void errors_have_line_and_column(void **state)
{
    (void)state;
    refused(HEAD "1A,left,4000,11.1,3500,5,seventy,0,25,rudder,\n", 2, 26, "not a number");
    refused(HEAD "1A,left,4000,11.1,3500,5,70,0,25,rudder,\n1B,left,40000000,11.1,3500,5,70,0,25,rudder,\n", 3, 9,
            "outside");
    refused(HEAD "1A,,4000,11.1,3500,5,70,0,25,rudder,\n", 2, 4, "empty");
    refused(HEAD "1A,left,4000,11.1,3500,5,70,0,25,rudders,\n", 2, 34, "not one of");
    refused(HEAD "1A,left,4000,11.1,3500,5,70,0,25,rudder\n", 2, 1, "10 cells, but the header has 11");
    refused(HEAD "1A,left,4000,11.1,3500,5,,0,25,rudder,\n", 2, 1, "no airspeed");
    refused(HEAD "\"1A,left,4000,11.1,3500,5,70,0,25,rudder,\n", 2, 1, "quote that is not closed");
    refused(HEAD "1\xC3\xA9"
                 "A,left,x,11.1,3500,5,70,0,25,rudder,\n",
            2, 10, "not a number");
    refused(HEAD "1A,left,4000,11.1,3500,5,70,0,25,rudder,\x1B[1m\n", 2, 41, "plain text");
    refused(HEAD, 2, 1, "no points");
    refused(HEAD "1A,left,4000,11.1,3500,5,20,-30,25,rudder,\n", 2, 1, "make a CAS of");
    refused("id,failed,altitude,oat_degC,weight_lb,bank_deg,cas_kt,ended\n", 1, 11, "needs a unit");
    refused("id,failed,altitude_lb,oat_degC,weight_lb,bank_deg,cas_kt,ended\n", 1, 11, "needs a unit");
    refused("id,faild,altitude_ft,oat_degC,weight_lb,bank_deg,cas_kt,ended\n", 1, 4, "did you mean 'failed'");
    refused("id,failed,altitude_ft,oat_degC,weight_lb,bank_deg,bank_rad,cas_kt,ended\n", 1, 51, "twice");
    refused("id,failed,altitude_ft,oat_degC,weight_lb,bank_deg,ended\n", 1, 1, "airspeed column is missing");
    refused("id,failed,altitude_ft,oat_degC,weight_lb,cas_kt,ended\n", 1, 1, "missing");
    refused("", 1, 1, "missing");
}

/* A NUL ends no text early: what follows it would be lost. */
static void a_nul_is_refused(void **state)
{
    (void)state;
    static const char number[] = HEAD "1A,left,4000,11.1,3500,5,70\0 kt,0,25,rudder,\n";
    static const char word[] = HEAD "1A,left\0x,4000,11.1,3500,5,70,0,25,rudder,\n";
    parse(number, sizeof number - 1);
    assert_int_equal(job.status, LS_FILE_REJECTED);
    parse(word, sizeof word - 1);
    assert_int_equal(job.status, LS_FILE_REJECTED);
    assert_int_equal(job.findings.item[0].column, 4);
}

static void hundred_thousand_points(void **state)
{
    (void)state;
    enum { POINTS = 100000 };
    static const char row[] = "1A,left,4000.0,11.08,2912.9,4.74,68.46,0.0,-25.21,rudder,nothing\n";
    int points = check_scaled(POINTS);
    size_t size = strlen(HEAD) + (size_t)points * (sizeof row - 1);
    char *text = malloc(size + 1), *end = text;
    assert_non_null(text);
    end += sprintf(end, "%s", HEAD);
    for (int i = 0; i < points; i++, end += sizeof row - 1) {
        memcpy(end, row, sizeof row);
    }
    clock_t start = clock();
    parse(text, size);
    double seconds = (double)(clock() - start) / CLOCKS_PER_SEC;
    accepted(points);
    const char *factor = getenv("LS_LIMIT_FACTOR");
    check_between("100,000 points read, s of processor time", seconds, 0.0, factor != NULL ? 10.0 : 2.0,
                  "the requirement: under 2 s");
    ls_points_free(&job.points);
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(values_in_their_units),       cmocka_unit_test(other_units_and_line_ends),
        cmocka_unit_test(errors_have_line_and_column), cmocka_unit_test(a_nul_is_refused),
        cmocka_unit_test(hundred_thousand_points),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
