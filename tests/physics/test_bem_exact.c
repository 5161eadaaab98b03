/* The published numerical case: constant chord, geometric pitch 1 m, straight lift line, no losses. */
#include "propeller_case.h"

static const char *const source =
    "published numerical case, header of tests/data/bem_verification_linear_polar.csv";

static void prepare_case(ls_disc *disc, double *pitch_deg)
{
    ls_blade blade = {.blades = 2, .diameter_m = 1.6, .root_r_R = 0.05, .count = 11};
    double r_R[11], dr_R[11];
    for (int i = 0; i < 11; i++) {
        r_R[i] = 0.1 + 0.09 * i;
        dr_R[i] = 0.09;
        blade.station[i] = (ls_blade_station){r_R[i], 0.125, atan(1.0 / (2.0 * PI * 0.8 * r_R[i])), 0.1};
    }
    /* cd = 0.008 - 0.003 cl + 0.01 cl^2, completed to a square. */
    ls_section section = {.lift_slope_rad = 6.2,
                          .cl_max = 1.0,
                          .cl_min = -1.0,
                          .cd_min = 0.008 - 0.01 * 0.15 * 0.15,
                          .cl_bucket = 0.15,
                          .cd_cl2 = 0.01,
                          .mach_dd = 0.8,
                          .unlimited = true};
    ls_disc_options options = {
        .no_tip_loss = true, .no_hub_loss = true, .no_mach = true, .count = 11, .r_R = r_R, .dr_R = dr_R};
    ls_error error = {0};
    assert_int_equal(ls_disc_prepare(&blade, &section, &options, disc, &error), LS_OK);
    *pitch_deg = ls_blade_at(&blade, 0.75).angle_rad / DEG;
}

static void thrust_and_torque_match(void **state)
{
    (void)state;
    static ls_disc disc;
    double pitch_deg;
    prepare_case(&disc, &pitch_deg);
    FILE *file = fopen("tests/data/bem_verification_linear_polar.csv", "r");
    assert_non_null(file);
    char line[1000];
    int rows = 0;
    while (fgets(line, sizeof line, file) != NULL) {
        double V, T_N, Q_N_m;
        if (sscanf(line, "%lf,%lf,%lf", &V, &T_N, &Q_N_m) == 3 && V <= 45.0) {
            ls_disc_axial axial = solve_axial(&disc, sea_level(V, 35.0, pitch_deg));
            check_close("thrust, N", axial.T_N, T_N, 0.01, "agreement that the source claims", source);
            check_close("torque, N m", axial.Q_N_m, Q_N_m, 0.002, "agreement that the source claims", source);
            rows++;
        }
    }
    fclose(file);
    assert_int_equal(rows, 45);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(thrust_and_torque_match),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
