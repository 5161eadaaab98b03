/* Derivatives from dimensions against textbooks. A real aeroplane is named only as the source of a published
 * check. */
#include "check.h"

#include "liveside/air.h"
#include "liveside/estimate.h"

#include <math.h>
#include <stdio.h>

#define PI  3.14159265358979323846
#define DEG (PI / 180.0)
#define FT  0.3048

/* Dimensions: M. R. Napolitano, Aircraft Dynamics (2012), the Beech 99 example, as carried in the regression tests
 * of an open conceptual-design code (the nacelles, the height of the wing and the depths of the body too). */
#define TEXTBOOK                                                                                           \
    "Napolitano, Aircraft Dynamics: From Modeling to Simulation (2012): Cn_beta .120; handbook estimates " \
    ".111 to .134"

static const double S = 280.0 * FT * FT, b = 46.0 * FT;

/* The fin prolonged by 2.0 ft to the body's centreline. */
static double fin_yaw(double *side)
{
    double span = 8.6, root = 8.2 + 2.0 * (8.2 - 3.6) / 6.6, tip = 3.6, taper = tip / root, le = 47.0 * DEG;
    double area = span * (root + tip) / 2.0;
    double mac = 2.0 / 3.0 * root * (1.0 + taper + taper * taper) / (1.0 + taper);
    double middle = span / 3.0 * (1.0 + 2.0 * taper) / (1.0 + taper);
    double aft = 34.8 - 2.0 * tan(le) + middle * tan(le) + mac / 4.0;
    double slope = ls_estimate_lift_slope(1.57, atan(tan(le) - (root - tip) / 2.0 / span), 0.152, 1.0);
    double body_factor = 0.76 + 0.24 * (span / 2.9 - 2.0) / 1.5;
    double sidewash = ls_estimate_sidewash(area / 280.0, 3.0 * DEG, 2.2 / 6.0, 46.0 * 46.0 / 280.0);
    *side = -body_factor * slope * sidewash * area / 280.0;
    return -*side * (aft - 17.2) / 46.0;
}

static void twin_turboprop_by_textbook(void **state)
{
    (void)state;
    double side, fin = fin_yaw(&side);
    double volume = PI / 4.0 * 0.87 * 185.36 * 5.4 * FT * FT * FT;
    double body[2] = {ls_estimate_body_by_volume(volume, 6.0, 5.4, S, b),
                      ls_estimate_body_by_side(185.36 * FT * FT, 44.0 * FT, 6.0 * FT, 17.2 * FT, 4.8, 4.3, S, b)};
    double nacelle_volume = PI / 4.0 * 0.87 * 34.45 * 2.39 * FT * FT * FT;
    double nacelles = 2.0 * ls_estimate_body_by_volume(nacelle_volume, 3.68, 2.39, S, b);
    double total = fin + (body[0] + body[1]) / 2.0 + nacelles;
    print_message("Cn_beta: fin %.4f, body %.4f by volume and %.4f by side area, nacelles %.4f, total %.4f\n", fin,
                  body[0], body[1], nacelles, total);
    check_between("Cn_beta of a twin turboprop from its dimensions, /rad", total, 0.111, 0.134, TEXTBOOK);
    check_between("body, the two methods apart, share of their mean",
                  fabs(body[0] - body[1]) / fabs(body[0] + body[1]) * 2, 0.0, 0.3, "the flag of `estimate`: 0.3");
    assert_true(side < 0.0);
}

static void lift_slope_has_its_limits(void **state)
{
    (void)state;
    check_close("lift slope of a slender wing over pi A/2",
                ls_estimate_lift_slope(1e-3, 0, 0, 1) / (PI * 1e-3 / 2), 1.0, 1e-6, "A^2/16",
                "R. T. Jones, NACA Report 835 (1946): pi A/2");
    check_close("lift slope of an endless wing, /rad", ls_estimate_lift_slope(1e7, 0, 0, 1), 2 * PI, 1e-5, "2/A",
                "thin-aerofoil theory: 2 pi");
    check_close("lift slope of an endless swept wing, /rad", ls_estimate_lift_slope(1e7, 30 * DEG, 0, 1),
                2 * PI * cos(30 * DEG), 1e-5, "2/A", "simple sweep theory: 2 pi cos L");
    check_close("lift slope of an endless wing at Mach 0.6, /rad", ls_estimate_lift_slope(1e7, 0, 0.6, 1),
                2 * PI / 0.8, 1e-5, "2/A", "Prandtl-Glauert: 2 pi / sqrt(1 - M^2)");
}

/* Lift of a hinged flat plate from its own vorticity, by Glauert's series: A0 = th_h/pi, An = 2 sin(n th_h)/(n pi)
 * per unit of flap angle, with th_h measured from the trailing edge; lift slope 2 pi (A0 + A1/2). */
static void flap_bound_is_glauert(void **state)
{
    (void)state;
    check_close("flap effectiveness, whole chord", ls_estimate_flap_bound(1.0), 1.0, 1e-12, "round-off",
                "identity");
    check_close("flap effectiveness, no chord", ls_estimate_flap_bound(0.0), 0.0, 1e-12, "round-off", "identity");
    for (int i = 1; i < 10; i++) {
        double E = 0.1 * i, hinge = acos(1.0 - 2.0 * E);
        double A0 = hinge / PI, A1 = 2.0 * sin(hinge) / PI;
        check_close("flap effectiveness by the vorticity's series", ls_estimate_flap_bound(E), A0 + A1 / 2.0,
                    1e-12, "round-off", "Glauert, The Elements of Aerofoil and Airscrew Theory (1926), chapter 7");
    }
    check_close("flap effectiveness, chord ratio 0.3", ls_estimate_flap_bound(0.3), 0.661, 0.001, "printed digits",
                "by hand from 1 - (th - sin th)/pi: th = 1.9823 rad, sin th = 0.9165");
}

/* Wing and dihedral: Raymer's own typical number, and the sign of the wing's height. */
static void sidewash_by_hand(void **state)
{
    (void)state;
    check_close("sidewash and pressure, fin 0.1 of the wing, mid wing of aspect ratio 8",
                ls_estimate_sidewash(0.1, 0, 0, 8), 0.724 + 0.153 + 0.072, 1e-12, "round-off",
                "DATCOM 5.4.1; Roskam VI, 10.2.4.1, by hand");
    check_close("more of it with a low wing",
                ls_estimate_sidewash(0.1, 0, 0.5, 8) - ls_estimate_sidewash(0.1, 0, 0, 8), 0.2, 1e-12, "round-off",
                "DATCOM 5.4.1: 0.4 z_w/d, z_w positive below the centreline");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(twin_turboprop_by_textbook),
        cmocka_unit_test(lift_slope_has_its_limits),
        cmocka_unit_test(flap_bound_is_glauert),
        cmocka_unit_test(sidewash_by_hand),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
