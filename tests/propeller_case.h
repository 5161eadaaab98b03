/* Propellers of the tests: an invented light-twin blade, and that of NACA Report 640. */
#ifndef LIVESIDE_TESTS_PROPELLER_CASE_H
#define LIVESIDE_TESTS_PROPELLER_CASE_H

#include <math.h>
#include <stdio.h>

#include "check.h"
#include "liveside/disc.h"

#define PI  3.14159265358979323846
#define DEG (PI / 180.0)

/* A Clark Y blade, angles from the flat face. Zero lift at -5.0 deg for t/c 0.117 and growing with the thickness,
 * lift slope 0.10 per deg, highest lift 1.35, least drag 0.008: propeller practice and wind-tunnel charts of the
 * Clark Y, all from memory. Chord line 2.0 deg above the flat face at t/c 0.117: its ordinates, 3.5 per cent at
 * the nose. */
static inline ls_section clark_y(void)
{
    return (ls_section){.lift_slope_rad = 5.7,
                        .alpha0_thickness_rad = -0.746,
                        .chord_thickness_rad = 0.30,
                        .thickness_cap = 0.16,
                        .cl_max = 1.35,
                        .cl_min = -0.8,
                        .cd_min = 0.008,
                        .cd_thickness = 0.05,
                        .cd_cl2 = 0.01,
                        .mach_dd = 0.78};
}

/* Invented: two blades for 134 kW at 2700 rpm, fine stop 16 deg. */
static inline ls_blade light_twin_blade(void)
{
    ls_blade blade = {.blades = 2,
                      .diameter_m = 1.88,
                      .root_r_R = 0.19,
                      .count = 10,
                      .station = {{0.19, 0.112, 39.0, 0.30},
                                  {0.25, 0.136, 35.5, 0.22},
                                  {0.30, 0.152, 32.8, 0.18},
                                  {0.40, 0.176, 27.6, 0.14},
                                  {0.50, 0.187, 23.2, 0.118},
                                  {0.60, 0.184, 19.7, 0.102},
                                  {0.70, 0.171, 17.0, 0.090},
                                  {0.80, 0.152, 14.9, 0.081},
                                  {0.90, 0.125, 13.2, 0.074},
                                  {1.00, 0.068, 11.9, 0.068}}};
    for (int i = 0; i < blade.count; i++) {
        blade.station[i].angle_rad *= DEG;
    }
    return blade;
}

static inline void light_twin_disc(const ls_disc_options *options, ls_disc *disc)
{
    ls_blade blade = light_twin_blade();
    ls_section section = clark_y();
    ls_error error = {0};
    assert_int_equal(ls_disc_prepare(&blade, &section, options, disc, &error), LS_OK);
}

/* Propeller 5868-9 at 15 deg, from its data file; the tip keeps the thickness of the station before. */
static inline ls_blade naca640_blade(void)
{
    ls_blade blade = {.blades = 2, .diameter_m = 3.048, .root_r_R = 0.30};
    FILE *file = fopen("tests/data/naca640_5868-9_geom.csv", "r");
    assert_non_null(file);
    char line[400];
    double thickness = 0.0;
    while (fgets(line, sizeof line, file) != NULL) {
        double r, c, beta, t;
        int fields = sscanf(line, "%lf,%lf,%lf,%lf", &r, &c, &beta, &t);
        if (fields >= 3) {
            thickness = fields == 4 ? t : thickness;
            blade.station[blade.count++] = (ls_blade_station){r, c, beta * DEG, thickness};
        }
    }
    fclose(file);
    assert_int_equal(blade.count, 15);
    return blade;
}

/* Sea level, standard day. */
static inline ls_disc_state sea_level(double V_m_s, double n_rev_s, double pitch_deg)
{
    return (ls_disc_state){.V_axial_m_s = V_m_s,
                           .n_rev_s = n_rev_s,
                           .pitch_rad = pitch_deg * DEG,
                           .rho_kg_m3 = 1.225,
                           .a_m_s = 340.3};
}

static inline ls_disc_axial solve_axial(const ls_disc *disc, ls_disc_state state)
{
    ls_disc_axial axial = {0};
    ls_error error = {0};
    if (ls_disc_solve_axial(disc, &state, LS_INDUCTION_LOCAL, &axial, &error) != LS_OK) {
        print_error("%s\n", error.text);
        fail();
    }
    return axial;
}

static inline ls_disc_loads solve_disc(const ls_disc *disc, ls_disc_state state, ls_induction induction)
{
    ls_disc_loads loads = {0};
    ls_error error = {0};
    if (ls_disc_solve(disc, &state, induction, LS_DISC_AZIMUTHS, &loads, &error) != LS_OK) {
        print_error("%s\n", error.text);
        fail();
    }
    return loads;
}

/* The speed of rotation, found downward from n_high, at which the torque falls to a value; 0 if nowhere. */
static inline double speed_for_torque(const ls_disc *disc, double V_m_s, double pitch_deg, double Q_N_m,
                                      double n_high)
{
    double high = n_high;
    while (high > 0.2 && solve_axial(disc, sea_level(V_m_s, high, pitch_deg)).Q_N_m > Q_N_m) {
        high -= 0.2;
    }
    if (high <= 0.2) {
        return 0.0;
    }
    double low = high;
    high += 0.2;
    for (int i = 0; i < 50; i++) {
        double n = 0.5 * (low + high);
        *(solve_axial(disc, sea_level(V_m_s, n, pitch_deg)).Q_N_m > Q_N_m ? &high : &low) = n;
    }
    return low;
}

#endif
