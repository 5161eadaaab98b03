/* An aeroplane of a published example, and the linearised equations of a motion, for its tests. */
#ifndef LIVESIDE_TESTS_MOTION_CASE_H
#define LIVESIDE_TESTS_MOTION_CASE_H

#include "check.h"

#include "flight/motion_parts.h"
#include "liveside/parameter.h"

#include <gsl/gsl_complex_math.h>
#include <gsl/gsl_eigen.h>
#include <gsl/gsl_linalg.h>
#include <gsl/gsl_poly.h>
#include <math.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)

/* Neither thrust nor anything else. */
static inline ls_status navion_loads(const ls_model *model, double V_m_s, ls_powerplant_point *point,
                                     ls_error *error)
{
    (void)model;
    (void)error;
    memset(point, 0, sizeof *point);
    point->V_m_s = V_m_s;
    return LS_OK;
}

/* 2750 lb, 184 ft2, 33.4 ft, 1048, 3000 and 3530 slug ft2; level at 176 ft/s at sea level, lift coefficient 0.41,
 * no incidence. Source: Nelson, Flight Stability and Automatic Control, 2nd ed., appendix B, Navion (from memory;
 * the coefficients also stand in public course data). */
static inline void navion_aircraft(ls_aircraft *aircraft)
{
    const double ft = 0.3048, slug_ft2 = 14.593903 * ft * ft;
    ls_aircraft_defaults(aircraft);
    aircraft->mass.maximum_kg = 2750.0 * 0.45359237;
    aircraft->cg.reference_m = aircraft->cg.forward_m = aircraft->cg.aft_m = 0.0;
    aircraft->wing.area_m2 = 184.0 * ft * ft;
    aircraft->wing.span_m = 33.4 * ft;
    aircraft->flaps = 1;
    double q_Pa = 0.5 * 1.225 * pow(176.0 * ft, 2.0);
    aircraft->flap[0] =
        (ls_flap){.lift_zero = aircraft->mass.maximum_kg * LS_G0_M_S2 / (q_Pa * aircraft->wing.area_m2),
                  .lift_slope_per_rad = 4.44,
                  .lift_max = 2.0};
    aircraft->axes = LS_AXES_STABILITY;
    aircraft->derivatives = (ls_derivatives){.side_sideslip = -0.564,
                                             .side_rudder = 0.157,
                                             .roll_sideslip = -0.074,
                                             .roll_rudder = 0.0118,
                                             .roll_aileron = 0.1342,
                                             .yaw_sideslip = 0.0701,
                                             .yaw_rudder = -0.0717,
                                             .yaw_aileron = -0.00346};
    aircraft->rates.side_roll = aircraft->rates.side_yaw = 0.0;
    aircraft->rates.roll_roll = -0.410;
    aircraft->rates.roll_yaw = 0.107;
    aircraft->rates.yaw_roll = -0.0575;
    aircraft->rates.yaw_yaw = -0.125;
    aircraft->rudder.left_rad = aircraft->rudder.right_rad = 0.4;
    aircraft->aileron.travel_rad = 0.4;
    double mb2 = aircraft->mass.maximum_kg * aircraft->wing.span_m * aircraft->wing.span_m;
    aircraft->inertia.roll_radius = sqrt(1048.0 * slug_ft2 / mb2);
    aircraft->inertia.pitch_radius = sqrt(3000.0 * slug_ft2 / mb2);
    aircraft->inertia.yaw_radius = sqrt(3530.0 * slug_ft2 / mb2);
}

/* Nobody at the controls, the speed held. */
static inline ls_motion_request hands_off(const ls_aircraft *aircraft, const ls_condition *condition, double V_m_s)
{
    ls_motion_request request;
    ls_motion_usual(aircraft, condition, 0, V_m_s, &request);
    request.delay_s = INFINITY;
    request.hold = LS_HOLD_EXACT;
    return request;
}

typedef struct {
    double roll, spiral, dutch_real, dutch_imaginary;
} linear_modes;

/* The roots of the lateral equations: the program's rates, differenced about the trim by v, p, r and bank. */
static inline linear_modes lateral_modes(const ls_aircraft *aircraft, const ls_condition *condition, double V_m_s,
                                         ls_loads_function *loads)
{
    static const int at[4] = {AT_V, AT_P, AT_R, AT_BANK};
    static const double step[4] = {1e-4, 1e-6, 1e-6, 1e-6};
    static ls_flight flight;
    double y[STATES_MAX], up[STATES_MAX], down[STATES_MAX], a[16];
    ls_motion_request request = hands_off(aircraft, condition, V_m_s);
    request.loads = loads;
    assert_int_equal(ls_motion_start(aircraft, &request, &flight, y, NULL), LS_OK);
    for (int j = 0; j < 4; j++) {
        double kept = y[at[j]];
        y[at[j]] = kept + step[j];
        assert_int_equal(ls_motion_rates(0.0, y, up, &flight), 0);
        y[at[j]] = kept - step[j];
        assert_int_equal(ls_motion_rates(0.0, y, down, &flight), 0);
        y[at[j]] = kept;
        for (int i = 0; i < 4; i++) {
            a[4 * i + j] = (up[at[i]] - down[at[i]]) / (2.0 * step[j]);
        }
    }
    gsl_matrix_view matrix = gsl_matrix_view_array(a, 4, 4);
    gsl_vector_complex *root = gsl_vector_complex_alloc(4);
    gsl_eigen_nonsymm_workspace *work = gsl_eigen_nonsymm_alloc(4);
    gsl_eigen_nonsymm(&matrix.matrix, root, work);
    linear_modes modes = {0.0, -INFINITY, 0.0, 0.0};
    for (size_t i = 0; i < 4; i++) {
        double real = GSL_REAL(gsl_vector_complex_get(root, i)),
               imaginary = GSL_IMAG(gsl_vector_complex_get(root, i));
        if (imaginary > 1e-6) {
            modes.dutch_real = real;
            modes.dutch_imaginary = imaginary;
        } else if (fabs(imaginary) <= 1e-6) {
            modes.roll = fmin(modes.roll, real);
            modes.spiral = fmax(modes.spiral, real);
        }
    }
    gsl_eigen_nonsymm_free(work);
    gsl_vector_complex_free(root);
    return modes;
}

typedef struct {
    double frequency, damping; /* rad/s, 1/s */
} oscillation;

/* The oscillation in a run of samples, by Prony's method: four exponentials satisfy a recurrence of order four,
 * whose coefficients are found by least squares and whose complex pair is the oscillation. */
static inline oscillation measure(const ls_motion *motion)
{
    enum { ORDER = 4 };
    size_t rows = (size_t)motion->count - ORDER;
    gsl_matrix *A = gsl_matrix_alloc(rows, ORDER);
    gsl_vector *b = gsl_vector_alloc(rows), *x = gsl_vector_alloc(ORDER), *rest = gsl_vector_alloc(rows);
    gsl_vector *tau = gsl_vector_alloc(ORDER);
    for (size_t i = 0; i < rows; i++) {
        for (size_t j = 0; j < ORDER; j++) {
            gsl_matrix_set(A, i, j, motion->sample[i + j].beta_rad);
        }
        gsl_vector_set(b, i, motion->sample[i + ORDER].beta_rad);
    }
    gsl_linalg_QR_decomp(A, tau);
    gsl_linalg_QR_lssolve(A, tau, b, x, rest);
    double c[ORDER + 1], z[2 * ORDER], dt_s = motion->sample[1].t_s - motion->sample[0].t_s;
    for (size_t j = 0; j < ORDER; j++) {
        c[j] = -gsl_vector_get(x, j);
    }
    c[ORDER] = 1.0;
    gsl_poly_complex_workspace *work = gsl_poly_complex_workspace_alloc(ORDER + 1);
    gsl_poly_complex_solve(c, ORDER + 1, work, z);
    oscillation seen = {0.0, 0.0};
    for (int i = 0; i < ORDER; i++) {
        if (z[2 * i + 1] > 1e-9) {
            seen.frequency = atan2(z[2 * i + 1], z[2 * i]) / dt_s;
            seen.damping = -log(hypot(z[2 * i], z[2 * i + 1])) / dt_s;
        }
    }
    gsl_poly_complex_workspace_free(work);
    gsl_matrix_free(A);
    gsl_vector_free(b);
    gsl_vector_free(x);
    gsl_vector_free(rest);
    gsl_vector_free(tau);
    return seen;
}

/* Rolling and yawing moment just after a step loss: the listing of every source at the trim of before. */
static inline void moments_at_start(const ls_aircraft *aircraft, const ls_motion_request *request, double *L,
                                    double *N)
{
    ls_condition condition = request->condition;
    ls_model model;
    ls_trim trim;
    ls_powerplant_point point;
    static ls_balance balance;
    assert_int_equal(ls_model_make(aircraft, &condition, &model, NULL), LS_OK);
    assert_int_equal(ls_trim_solve(&model, request->V_m_s, 0.0, &trim, NULL), LS_OK);
    ls_condition_fail_as(aircraft, request->failed, request->state, &condition);
    assert_int_equal(ls_model_make(aircraft, &condition, &model, NULL), LS_OK);
    assert_int_equal(ls_powerplant_at(&model, request->V_m_s, &point, NULL), LS_OK);
    ls_trim_balance(&model, &point, &trim, &balance);
    *L = balance.sum.moment_Nm[0];
    *N = balance.sum.moment_Nm[2];
}

/* Work of the air on the unpowered Navion in unit time: drag along the path, side force along y; lift does none.
 */
static inline double glider_power(const ls_aircraft *aircraft, const ls_motion_request *request,
                                  const ls_motion_sample *s)
{
    const ls_flap *flap = &aircraft->flap[0];
    (void)request;
    double qS_N = 0.5 * 1.225 * s->V_m_s * s->V_m_s * aircraft->wing.area_m2;
    double CL = flap->lift_zero + flap->lift_slope_per_rad * s->alpha_rad;
    double CD = flap->drag_zero + flap->drag_induced * CL * CL;
    return qS_N * s->V_m_s * (-CD + aircraft->derivatives.side_sideslip * s->beta_rad * sin(s->beta_rad));
}

#endif
