/* The polar of a blade section: its sources, its joins, its full circle. */
#include <string.h>

#include "propeller_case.h"

static const char *const glauert = "Prandtl and Glauert's rule, cl/sqrt(1 - M^2)";
static const char *const viterna = "Viterna and Corrigan, NASA CP-2230 (1982)";

static ls_polar prepared(double thickness)
{
    ls_section section = clark_y();
    ls_polar polar;
    ls_polar_prepare(&section, thickness, 7.0, &polar);
    return polar;
}

static double lift(const ls_polar *polar, double alpha_deg, double mach)
{
    double cl, cd;
    ls_polar_at(polar, alpha_deg * DEG, mach, &cl, &cd);
    return cl;
}

static double drag(const ls_polar *polar, double alpha_deg, double mach)
{
    double cl, cd;
    ls_polar_at(polar, alpha_deg * DEG, mach, &cl, &cd);
    return cd;
}

static void lift_is_straight_about_zero_lift(void **state)
{
    (void)state;
    ls_polar polar = prepared(0.117);
    double alpha0_deg = -0.746 * 0.117 / DEG;
    check_close("lift at the zero-lift angle", lift(&polar, alpha0_deg, 0.0), 0.0, 1e-14, "round-off",
                "definition");
    check_close("lift 6 deg above zero lift", lift(&polar, alpha0_deg + 6.0, 0.0), 5.7 * 6.0 * DEG, 1e-13,
                "round-off", "definition");
    check_close("the same at Mach 0.5", lift(&polar, alpha0_deg + 6.0, 0.5), 5.7 * 6.0 * DEG / sqrt(0.75), 1e-13,
                "round-off", glauert);
    check_close("drag at the bucket", drag(&polar, alpha0_deg, 0.0), 0.008, 1e-15, "round-off", "definition");
}

static void lift_peaks_at_its_limits(void **state)
{
    (void)state;
    ls_polar polar = prepared(0.09);
    for (int m = 0; m < 3; m++) {
        double mach = 0.3 * m, high = 0.0, low = 0.0;
        for (double alpha_deg = -40.0; alpha_deg <= 40.0; alpha_deg += 0.005) {
            high = fmax(high, lift(&polar, alpha_deg, mach));
            low = fmin(low, lift(&polar, alpha_deg, mach));
        }
        check_close("highest lift", high, 1.35, 1e-6, "step of the scan", "definition");
        check_close("lowest lift", low, -0.8, 1e-6, "step of the scan", "definition");
    }
}

/* The published law, written here a second time from the peak; angles from the chord line. */
static void plate_follows_viterna(void **state)
{
    (void)state;
    ls_section section = clark_y();
    section.alpha0_thickness_rad = section.chord_thickness_rad = 0.0;
    section.cl_min = -1.35;
    ls_polar polar;
    ls_polar_prepare(&section, 0.10, 8.0, &polar);
    double cd_max = 1.11 + 0.018 * 8.0;
    double peak = 1.35 / 5.7 + 0.075, cd_peak = 0.008 + 0.01 * 1.35 * 1.35;
    double s = sin(peak), c = cos(peak);
    double A1 = cd_max / 2.0, A2 = (1.35 - cd_max * s * c) * s / (c * c);
    double B1 = cd_max, B2 = (cd_peak - cd_max * s * s) / c;
    for (double alpha_deg = 30.0; alpha_deg <= 90.0; alpha_deg += 15.0) {
        double a = alpha_deg * DEG;
        double cl = A1 * sin(2.0 * a) + A2 * cos(a) * cos(a) / sin(a);
        double cd = B1 * sin(a) * sin(a) + B2 * cos(a);
        check_close("lift of the plate", lift(&polar, alpha_deg, 0.0), cl, 1e-12, "round-off", viterna);
        check_close("drag of the plate", drag(&polar, alpha_deg, 0.0), cd, 1e-12, "round-off", viterna);
        check_close("lift, mirrored", lift(&polar, -alpha_deg, 0.0), -cl, 1e-12, "round-off", viterna);
        check_close("drag, mirrored", drag(&polar, -alpha_deg, 0.0), cd, 1e-12, "round-off", viterna);
    }
    check_close("drag broadside", drag(&polar, 90.0, 0.0), cd_max, 1e-12, "round-off", viterna);
}

/* The greatest step of lift and drag over 0.01 deg on the full circle, and the least drag. */
static void scan_circle(const ls_polar *polar, double mach, double *step_cl, double *step_cd, double *least_cd)
{
    double cl = lift(polar, -180.0, mach), cd = drag(polar, -180.0, mach);
    *step_cl = *step_cd = 0.0;
    *least_cd = cd;
    for (double alpha_deg = -179.99; alpha_deg <= 180.0; alpha_deg += 0.01) {
        double next_cl = lift(polar, alpha_deg, mach), next_cd = drag(polar, alpha_deg, mach);
        *step_cl = fmax(*step_cl, fabs(next_cl - cl));
        *step_cd = fmax(*step_cd, fabs(next_cd - cd));
        *least_cd = fmin(*least_cd, next_cd);
        cl = next_cl;
        cd = next_cd;
    }
}

static void polar_is_continuous(void **state)
{
    (void)state;
    double thickness[] = {0.06, 0.12, 0.30};
    for (int t = 0; t < 3; t++) {
        ls_polar polar = prepared(thickness[t]);
        for (int m = 0; m < 4; m++) {
            double mach = 0.3 * m, step_cl, step_cd, least_cd;
            check_close("lift at +180 and -180 deg", lift(&polar, 180.0, mach), lift(&polar, -180.0, mach), 1e-12,
                        "round-off", "identity");
            check_close("drag at +180 and -180 deg", drag(&polar, 180.0, mach), drag(&polar, -180.0, mach), 1e-12,
                        "round-off", "identity");
            scan_circle(&polar, mach, &step_cl, &step_cd, &least_cd);
            /* 0.01 deg of the steepest slope, 1.67 times 5.7 per rad, is 0.0017; of 2.6 per rad, 0.00045. */
            check_between("step of the lift over 0.01 deg", step_cl, 0.0009, 0.0018, "identity");
            check_between("step of the drag over 0.01 deg", step_cd, 0.0001, 0.0006, "identity");
            check_between("least drag on the circle", least_cd, 0.008 - 1e-12, 0.2, "definition");
        }
    }
}

static void slopes_are_continuous_through_the_stall(void **state)
{
    (void)state;
    ls_polar polar = prepared(0.09);
    double h = 1e-4, worst = 0.0;
    for (double alpha_deg = -60.0; alpha_deg < 60.0; alpha_deg += 0.01) {
        double left = lift(&polar, alpha_deg, 0.3) - lift(&polar, alpha_deg - h, 0.3);
        double right = lift(&polar, alpha_deg + h, 0.3) - lift(&polar, alpha_deg, 0.3);
        worst = fmax(worst, fabs(right - left) / h);
    }
    /* The slope, 0.1 per deg, changes over 4 deg: a kink would show as some 0.1, curvature as 5e-6. */
    check_between("greatest bend of the lift curve over 1e-4 deg, per deg", worst, 0.0, 2e-5, "identity");
}

static void drag_diverges_where_told(void **state)
{
    (void)state;
    ls_section section = clark_y();
    ls_polar polar;
    ls_polar_prepare(&section, 0.10, 7.0, &polar);
    double alpha0_deg = -0.746 * 0.10 / DEG, h = 1e-5;
    double rate = (drag(&polar, alpha0_deg, 0.78 + h) - drag(&polar, alpha0_deg, 0.78 - h)) / (2.0 * h);
    check_close("dcd/dM at the drag-divergence Mach number", rate, 0.1, 1e-6, "difference quotient",
                "definition of drag divergence");
    check_close("drag at Mach 0.6, no lift", drag(&polar, alpha0_deg, 0.6), 0.008, 1e-15, "round-off",
                "Lock's law starts 0.108 below divergence (from memory)");
    assert_true(drag(&polar, alpha0_deg + 5.0, 0.75) > drag(&polar, alpha0_deg, 0.75) + 0.005);
}

static void unlimited_polar_has_no_stall(void **state)
{
    (void)state;
    ls_section section = clark_y();
    section.unlimited = true;
    section.alpha0_thickness_rad = section.chord_thickness_rad = 0.0;
    ls_polar polar;
    ls_polar_prepare(&section, 0.10, 7.0, &polar);
    check_close("lift at 100 deg", lift(&polar, 100.0, 0.0), 5.7 * 100.0 * DEG, 1e-12, "round-off", "definition");
    double cl = 5.7 * 100.0 * DEG;
    check_close("drag at 100 deg", drag(&polar, 100.0, 0.0), 0.008 + 0.01 * cl * cl, 1e-12, "round-off",
                "definition");
}

static void impossible_sections_are_refused(void **state)
{
    (void)state;
    ls_section good = clark_y(), bad[5];
    ls_error error = {0};
    assert_int_equal(ls_section_check(&good, &error), LS_OK);
    bad[0] = bad[1] = bad[2] = bad[3] = bad[4] = good;
    bad[0].lift_slope_rad = 0.1; /* per deg by mistake */
    bad[1].cl_min = 0.8;
    bad[2].cd_min = NAN;
    bad[3].alpha0_rad = -0.14; /* with cl_max 0.6: stalls below the chord line */
    bad[3].cl_max = 0.6;
    bad[4].mach_dd = 1.2;
    const char *text[] = {"section: lift slope is 0.1", "section: lowest lift is 0.8", "section: least drag is",
                          "section: zero-lift angle, slope and lift limits put the stalls at",
                          "section: drag-divergence Mach number is 1.2"};
    for (int i = 0; i < 5; i++) {
        error = (ls_error){0};
        assert_int_equal(ls_section_check(&bad[i], &error), LS_FILE_REJECTED);
        assert_memory_equal(error.text, text[i], strlen(text[i]));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lift_is_straight_about_zero_lift),
        cmocka_unit_test(lift_peaks_at_its_limits),
        cmocka_unit_test(plate_follows_viterna),
        cmocka_unit_test(polar_is_continuous),
        cmocka_unit_test(slopes_are_continuous_through_the_stall),
        cmocka_unit_test(drag_diverges_where_told),
        cmocka_unit_test(unlimited_polar_has_no_stall),
        cmocka_unit_test(impossible_sections_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
