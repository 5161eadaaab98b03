/* NACA Report 640, propeller 5868-9, two blades, 15 deg at 0.75 R, full scale at 1200 rpm.
 *
 * The polar (clark_y in propeller_case.h) was fixed before this solver first ran: slope, highest lift and least
 * drag are propeller practice from memory, the zero-lift angle that of wind-tunnel charts of the Clark Y, -5.0 deg
 * from the flat face, from memory. The second test shows what that angle is worth by taking the one of
 * thin-aerofoil theory instead. (The width over which the stall is rounded came later, from the shape of a Clark Y
 * polar; it moved these differences by 0.0003.) The measured thrust has the body behind the propeller in it, the
 * computed one has not. */
#include "propeller_case.h"

enum { ROWS_MAX = 40 };

static const char *const source =
    "NACA Report 640 (Hartman and Biermann, 1938), as replotted in AIAA 2014-2151 Figs. 62 and 63";

static void prepare_case(double alpha0_thickness_rad, ls_disc *disc, double *pitch_deg)
{
    ls_blade blade = naca640_blade();
    ls_section section = clark_y();
    section.alpha0_thickness_rad = alpha0_thickness_rad;
    ls_error error = {0};
    assert_int_equal(ls_disc_prepare(&blade, &section, NULL, disc, &error), LS_OK);
    *pitch_deg = ls_blade_at(&blade, 0.75).angle_rad / DEG;
}

static double coefficient(const ls_disc *disc, double pitch_deg, double J, char quantity)
{
    const double n = 20.0, D = 3.048, rho = 1.225;
    ls_disc_axial axial = solve_axial(disc, sea_level(J * n * D, n, pitch_deg));
    return quantity == 'T' ? axial.T_N / (rho * n * n * pow(D, 4))
                           : 2.0 * PI * axial.Q_N_m / (rho * n * n * pow(D, 5));
}

/* The measured rows of CT or CP from J 0.195 to 0.705. */
static int read_rows(char quantity, double J[ROWS_MAX], double value[ROWS_MAX])
{
    FILE *file = fopen("tests/data/naca640_5868-9_2blade_15deg.csv", "r");
    assert_non_null(file);
    char line[400], what[8];
    int rows = 0;
    while (fgets(line, sizeof line, file) != NULL && rows < ROWS_MAX) {
        if (sscanf(line, "%7[A-Za-z],%lf,%lf", what, &J[rows], &value[rows]) == 3 && what[0] == 'C' &&
            what[1] == quantity && J[rows] > 0.195 && J[rows] < 0.705) {
            rows++;
        }
    }
    fclose(file);
    return rows;
}

static double zero_thrust_J(const ls_disc *disc, double pitch_deg)
{
    double low = 0.6, high = 1.0;
    for (int i = 0; i < 40; i++) {
        double J = 0.5 * (low + high);
        *(coefficient(disc, pitch_deg, J, 'T') > 0.0 ? &low : &high) = J;
    }
    return low;
}

static void thrust_and_power_match(void **state)
{
    (void)state;
    static ls_disc disc;
    double pitch_deg, J[ROWS_MAX], measured[ROWS_MAX];
    prepare_case(clark_y().alpha0_thickness_rad, &disc, &pitch_deg);
    const char quantity[2] = {'T', 'P'};
    for (int q = 0; q < 2; q++) {
        int rows = read_rows(quantity[q], J, measured);
        assert_int_equal(rows, 11);
        for (int i = 0; i < rows; i++) {
            double computed = coefficient(&disc, pitch_deg, J[i], quantity[q]);
            print_message("J %.3f C%c computed %.4f measured %.4f difference %+.4f\n", J[i], quantity[q], computed,
                          measured[i], computed - measured[i]);
            check_close(q == 0 ? "CT at 15 deg" : "CP at 15 deg", computed, measured[i], 0.005,
                        "reading error 0.0003; the rest is body and polar", source);
        }
    }
    double J0 = zero_thrust_J(&disc, pitch_deg);
    print_message("zero thrust at J %.3f, measured 0.820\n", J0);
    check_close("J of zero thrust at 15 deg", J0, 0.82, 0.04, "reading error 0.002; the rest is body and polar",
                source);
}

/* Thin-aerofoil theory on the Clark Y's ordinates gives -5.48 deg from the flat face at t/c 0.117, more than tests
 * of wings show. */
static void zero_lift_angle_shifts_little(void **state)
{
    (void)state;
    static ls_disc disc;
    double pitch_deg, J[ROWS_MAX], measured[ROWS_MAX], worst[2] = {0.0, 0.0};
    prepare_case(-5.48 * DEG / 0.117, &disc, &pitch_deg);
    const char quantity[2] = {'T', 'P'};
    for (int q = 0; q < 2; q++) {
        int rows = read_rows(quantity[q], J, measured);
        for (int i = 0; i < rows; i++) {
            worst[q] = fmax(worst[q], fabs(coefficient(&disc, pitch_deg, J[i], quantity[q]) - measured[i]));
        }
    }
    print_message(
        "with the zero-lift angle of thin-aerofoil theory: worst CT %.4f, CP %.4f, zero thrust at J %.3f\n",
        worst[0], worst[1], zero_thrust_J(&disc, pitch_deg));
    check_between("worst CT difference, zero-lift angle of theory", worst[0], 0.0, 0.005, source);
    check_between("worst CP difference, zero-lift angle of theory", worst[1], 0.0, 0.005, source);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(thrust_and_power_match),
        cmocka_unit_test(zero_lift_angle_shifts_little),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
