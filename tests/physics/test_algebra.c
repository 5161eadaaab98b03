/* The trim and the minimum control speed against exact algebra and published worked examples.
 *
 * The test aeroplane has a very steep lift curve and no drag, so that incidence and pitch attitude vanish, and its
 * propulsion is a pure yawing couple put in the place of the powerplant: then the lateral equations stand alone
 * and each row below follows from its own inputs by linear algebra. Signs: left engine dead, bank positive toward
 * the right (live) engine, rudder negative is right pedal. */
#include "check.h"

#include "liveside/vmc.h"

#include <math.h>
#include <string.h>

#define DEG    (3.14159265358979323846 / 180.0)
#define FT     0.3048
#define FT2    (FT * FT)
#define LB     0.45359237
#define LBF    (LB * 9.80665)
#define LBF_FT (LBF * FT)
#define KT     (1852.0 / 3600.0)
#define HP     (550.0 * LBF_FT)
#define RHO_US (0.0023768924 * LBF / FT / FT2 / FT) /* slug/ft3 as lbf s2/ft4 */
#define DIGITS "half a unit of the last printed digit, and the air density of the table"
#define ROSKAM                                                                                           \
    "exact algebra with the power-approach derivatives of a light piston twin, Roskam, Airplane Flight " \
    "Dynamics, App. B"
#define TWO_EQ "exact algebra, two-equation yaw and side-force case"

typedef struct {
    double constant_Nm;    /* couple: constant */
    double power_W, arm_m; /* couple: power x arm / V */
    double dead_area_m2;   /* couple: q area arm */
} couple;

/* The model carries no room for a test's data: one couple at a time, set before each solve. */
static couple source;

static ls_status couple_loads(const ls_model *model, double V_m_s, ls_powerplant_point *point, ls_error *error)
{
    (void)error;
    memset(point, 0, sizeof *point);
    point->V_m_s = V_m_s;
    double q_Pa = 0.5 * model->air.rho_kg_m3 * V_m_s * V_m_s;
    point->moment0_Nm[2] =
        source.constant_Nm - source.power_W * source.arm_m / V_m_s - q_Pa * source.dead_area_m2 * source.arm_m;
    return LS_OK;
}

static void make_aircraft(double S_ft2, double b_ft, ls_derivatives derivatives, ls_aircraft *aircraft)
{
    memset(aircraft, 0, sizeof *aircraft);
    aircraft->wing.area_m2 = S_ft2 * FT2;
    aircraft->wing.span_m = b_ft * FT;
    aircraft->flaps = 1;
    aircraft->flap[0].lift_slope_per_rad = 1e9;
    aircraft->flap[0].lift_max = 1.0;
    aircraft->derivatives = derivatives;
    aircraft->fin.stall_sideslip_rad = 1e3; /* the algebra is linear at any angle */
    aircraft->fin.sidewash = aircraft->fin.pressure = 1.0;
    aircraft->rudder.left_rad = aircraft->rudder.right_rad = 25.0 * DEG;
    aircraft->aileron.travel_rad = 1e3;
    aircraft->aileron.usable = 1.0;
    aircraft->pedal.gearing_rad_m = NAN;
}

/* range_V_m_s: the stall speed is set two thirds of this, so that the searched range holds the answer. */
static void make_model(const ls_aircraft *aircraft, double W_lb, double rho_kg_m3, double range_V_m_s,
                       ls_model *model)
{
    ls_condition condition = {.mass_kg = W_lb * LB, .power = 1.0, .pedal_limit_N = INFINITY};
    ls_error error = {0};
    assert_int_equal(ls_model_make(aircraft, &condition, model, &error), LS_OK);
    model->loads = couple_loads;
    model->air.rho_kg_m3 = rho_kg_m3;
    model->stall_V_m_s = range_V_m_s / 1.5;
    double q_Pa = 0.5 * rho_kg_m3 * model->stall_V_m_s * model->stall_V_m_s;
    model->lift_max = model->weight_N / (q_Pa * model->S_m2);
}

static const ls_derivatives twin_derivatives = {.side_sideslip = -.577,
                                                .side_rudder = .230,
                                                .roll_sideslip = -.0965,
                                                .roll_rudder = .0192,
                                                .roll_aileron = .172,
                                                .yaw_sideslip = .1683,
                                                .yaw_rudder = -.1152,
                                                .yaw_aileron = -.0676};

static double vmc_kt(const ls_model *model, double bank_deg)
{
    ls_vmc vmc;
    ls_error error = {0};
    assert_int_equal(ls_vmc_at(model, bank_deg * DEG, &vmc, &error), LS_OK);
    assert_int_equal(vmc.kind, LS_VMC_CONTROL);
    assert_int_equal(vmc.limit, LS_LIMIT_RUDDER);
    assert_true(vmc.trim.residual < 1e-10);
    return vmc.V_m_s / KT;
}

static void trim_rows(void **state)
{
    (void)state;
    static const struct {
        double bank_deg, beta_deg, aileron_deg, rudder_deg, V25_kt;
    } rows[] = {
        {0, -11.5230, -3.2380, -28.9076, 88.176},
        {2, -3.7869, +0.0565, -19.5390, 72.493},
        {5, +7.7966, +4.9894, -5.5109, 38.499},
        {2.9798, 0, 1.6692, -14.9529, NAN},
    };
    ls_aircraft aircraft;
    ls_model model;
    ls_trim trim;
    make_aircraft(175, 36.9, twin_derivatives, &aircraft);
    source = (couple){.constant_Nm = -4130.0 * LBF_FT};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        make_model(&aircraft, 4600, RHO_US, 82.0 * KT, &model);
        assert_int_equal(ls_trim_solve(&model, 82.0 * KT, rows[i].bank_deg * DEG, &trim, NULL), LS_OK);
        /* the zero-sideslip bank is itself printed to 1e-4 deg, and the controls move up to 4.7 deg a degree */
        double tol_deg = isnan(rows[i].V25_kt) ? 3e-4 : 6e-5;
        check_close("sideslip, deg", trim.beta_rad / DEG, rows[i].beta_deg, tol_deg, DIGITS, ROSKAM);
        check_close("aileron, deg", trim.aileron_rad / DEG, rows[i].aileron_deg, tol_deg, DIGITS, ROSKAM);
        check_close("rudder, deg", trim.rudder_rad / DEG, rows[i].rudder_deg, tol_deg, DIGITS, ROSKAM);
        assert_true(fabs(trim.alpha_rad) < 1e-6 && fabs(trim.theta_rad) < 1e-6);
        if (!isnan(rows[i].V25_kt)) {
            make_model(&aircraft, 4600, RHO_US, rows[i].V25_kt * KT, &model);
            check_close("V at 25 deg rudder, kt", vmc_kt(&model, rows[i].bank_deg), rows[i].V25_kt, 6e-4, DIGITS,
                        ROSKAM);
        }
    }
}

static void weight_rows(void **state)
{
    (void)state;
    static const double W_lb[] = {3500, 4000, 4600, 5500}, at_5_kt[] = {54.65, 47.99, 38.50, 15.84};
    ls_aircraft aircraft;
    ls_model model;
    make_aircraft(175, 36.9, twin_derivatives, &aircraft);
    source = (couple){.constant_Nm = -4130.0 * LBF_FT};
    for (int i = 0; i < 4; i++) {
        make_model(&aircraft, W_lb[i], RHO_US, 88.18 * KT, &model);
        check_close("wings level, any weight, kt", vmc_kt(&model, 0), 88.18, 6e-3, DIGITS, ROSKAM);
        make_model(&aircraft, W_lb[i], RHO_US, at_5_kt[i] * KT, &model);
        check_close("at 5 deg by weight, kt", vmc_kt(&model, 5), at_5_kt[i], 6e-3, DIGITS, ROSKAM);
    }
}

/* Roll drops out: no roll from sideslip or rudder, no side force or yaw from aileron. */
static const ls_derivatives two_equation = {
    .side_sideslip = -.60, .side_rudder = .16, .roll_aileron = .17, .yaw_sideslip = .080, .yaw_rudder = -.065};

static const double two_equation_bank_deg[] = {-5, 0, 1, 2, 3, 4, 5, 10};

static void two_equation_rows(void **state)
{
    (void)state;
    static const double light_kt[] = {96.15, 80.19, 76.96, 73.74, 70.55, 67.40, 64.31, 50.26};
    static const double dragged_kt[] = {97.83, 84.24, 81.49, 78.76, 76.04, 73.34, 70.68, 58.15};
    ls_aircraft aircraft;
    ls_model model;
    make_aircraft(181, 38, two_equation, &aircraft);
    for (int i = 0; i < 8; i++) {
        source = (couple){.power_W = 117.0 * HP, .arm_m = 6.0 * FT};
        make_model(&aircraft, 3900, 0.0023769 / 0.0023768924 * RHO_US, 75.0 * KT, &model);
        check_close("3900 lb, no dead drag, kt", vmc_kt(&model, two_equation_bank_deg[i]), light_kt[i], 6e-3,
                    DIGITS, TWO_EQ);
        source.dead_area_m2 = 3.0 * FT2;
        make_model(&aircraft, 3000, 0.0023769 / 0.0023768924 * RHO_US, 75.0 * KT, &model);
        check_close("3000 lb, 3 ft2 dead drag, kt", vmc_kt(&model, two_equation_bank_deg[i]), dragged_kt[i], 6e-3,
                    DIGITS, TWO_EQ);
    }
}

/* The cube-root extrapolation from a height is exact wings level and unconservative at 5 deg. */
static void cube_root_extrapolation(void **state)
{
    (void)state;
    static const struct {
        double h_ft, extrapolated_kt;
    } rows[] = {{4000, 62.20}, {8000, 59.75}};
    ls_aircraft aircraft;
    ls_model model;
    make_aircraft(181, 38, two_equation, &aircraft);
    for (int i = 0; i < 2; i++) {
        ls_air air;
        ls_air_at(rows[i].h_ft * FT, 0.0, &air, NULL);
        double lapse = 1.132 * air.sigma - 0.132; /* Gagg and Ferrar */
        source = (couple){.power_W = 117.0 * lapse * HP, .arm_m = 6.0 * FT};
        double scale = cbrt(1.0 / (sqrt(air.sigma) * lapse)) * sqrt(air.sigma);
        make_model(&aircraft, 3900, 0.0023769 / 0.0023768924 * RHO_US * air.sigma, 75.0 * KT, &model);
        check_close("from a height to sea level, wings level, kt", vmc_kt(&model, 0) * scale, 80.19, 6e-3, DIGITS,
                    TWO_EQ "; law in the form of FAA AC 23-8C App. 3 (from memory)");
        check_close("the same at 5 deg (true 64.31), kt", vmc_kt(&model, 5) * scale, rows[i].extrapolated_kt, 6e-3,
                    DIGITS, TWO_EQ "; law in the form of FAA AC 23-8C App. 3 (from memory)");
    }
}

/* Zero sideslip: sin(bank) = N side_rudder/(|yaw_rudder| b W), whatever the speed at constant couple. */
static void zero_sideslip_closed_form(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    ls_model model;
    ls_trim trim;
    double N_Nm = 4130.0 * LBF_FT;
    ls_derivatives d = two_equation;
    make_aircraft(175, 36.9, d, &aircraft);
    source = (couple){.constant_Nm = -N_Nm};
    double bank_rad = asin(N_Nm * d.side_rudder / (-d.yaw_rudder * 36.9 * FT * 4600 * LBF));
    for (double V_kt = 60; V_kt < 130; V_kt += 20) {
        make_model(&aircraft, 4600, RHO_US, V_kt * KT, &model);
        assert_int_equal(ls_trim_solve(&model, V_kt * KT, bank_rad, &trim, NULL), LS_OK);
        check_close("sideslip at the zero-sideslip bank, rad", trim.beta_rad, 0.0, 1e-9, "round-off", "identity");
    }
}

/* Ailerons only: sin(bank) = N |side_sideslip|/(yaw_sideslip b W). Wings level: beta = -side_rudder
 * dr/side_sideslip.*/
static void ailerons_only_and_wings_level(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    ls_model model;
    ls_trim trim;
    double N_Nm = 4130.0 * LBF_FT;
    make_aircraft(175, 36.9, two_equation, &aircraft);
    source = (couple){.constant_Nm = -N_Nm};
    make_model(&aircraft, 4600, RHO_US, 90.0 * KT, &model);
    double bank_rad = asin(N_Nm * 0.60 / (0.080 * 36.9 * FT * 4600 * LBF));
    assert_int_equal(ls_trim_solve(&model, 90.0 * KT, bank_rad, &trim, NULL), LS_OK);
    check_close("rudder at the ailerons-only bank, rad", trim.rudder_rad, 0.0, 1e-9, "round-off", "identity");
    assert_int_equal(ls_trim_solve(&model, 90.0 * KT, 0.0, &trim, NULL), LS_OK);
    check_close("wings-level sideslip over rudder", trim.beta_rad / trim.rudder_rad, 0.16 / 0.60, 1e-9,
                "round-off", "identity");
}

/* At a constant couple V^2 at the rudder limit is linear in sin(bank), and the angles scale as 1/q. */
static void identities_at_constant_couple(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    ls_model model;
    ls_trim slow, fast;
    make_aircraft(175, 36.9, twin_derivatives, &aircraft);
    source = (couple){.constant_Nm = -4130.0 * LBF_FT};
    make_model(&aircraft, 4600, RHO_US, 75.0 * KT, &model);
    double square[3];
    for (int i = 0; i < 3; i++) {
        square[i] = pow(vmc_kt(&model, asin(0.02 * i) / DEG), 2);
    }
    check_close("second difference of V^2 over sin(bank)", square[0] - 2 * square[1] + square[2], 0.0,
                1e-5 * square[0], "the root's 1e-9 m/s, and incidence of 1e-9", "identity");
    ls_trim_solve(&model, 80 * KT, 0.0, &slow, NULL);
    ls_trim_solve(&model, 160 * KT, 0.0, &fast, NULL);
    check_close("sideslip, 1/q", fast.beta_rad / slow.beta_rad, 0.25, 1e-8, "incidence of 1e-9", "identity");
    check_close("rudder, 1/q", fast.rudder_rad / slow.rudder_rad, 0.25, 1e-8, "incidence of 1e-9", "identity");
}

/* q S b K dr = N - (yaw_sideslip/|side_sideslip|) b W sin(bank), K = |yaw_rudder| - yaw_sideslip
 * side_rudder/|side_sideslip|: the speeds of a sea-level VMC/VS ratio meet the stall at these heights (naturally
 * aspirated, wings level, constant efficiency, no dead drag). */
static void heights_where_stall_is_met(void **state)
{
    (void)state;
    static const struct {
        double ratio, h_ft;
    } rows[] = {{1.05, 3020}, {1.10, 5817}, {1.15, 8414}, {1.20, 10832}};
    ls_aircraft aircraft;
    ls_model model;
    make_aircraft(181, 38, two_equation, &aircraft);
    for (int i = 0; i < 4; i++) {
        ls_air air;
        ls_air_at(rows[i].h_ft * FT, 0.0, &air, NULL);
        source = (couple){.power_W = 117.0 * HP, .arm_m = 6.0 * FT};
        make_model(&aircraft, 3900, LS_AIR_RHO0_KG_M3, 80.0 * KT, &model);
        double stall_eas_kt = vmc_kt(&model, 0) / rows[i].ratio;
        source.power_W *= 1.132 * air.sigma - 0.132;
        make_model(&aircraft, 3900, air.rho_kg_m3, 80.0 * KT, &model);
        check_close("VMC less VS (EAS) at the meeting height, kt",
                    vmc_kt(&model, 0) * sqrt(air.sigma) - stall_eas_kt, 0.0, 1e-3, "heights are printed to 1 ft",
                    "exact algebra with Gagg and Ferrar's law (from memory)");
    }
}

static void gate_2021(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    ls_model model;
    ls_trim trim;
    ls_derivatives d = {.side_sideslip = -.5, .roll_aileron = .1, .yaw_rudder = -0.002 / DEG};
    make_aircraft(50.0 / FT2, 10.0 / FT, d, &aircraft);
    source = (couple){.constant_Nm = 8000.0 * 5.0}; /* right engine out: the left one yaws the nose right */
    make_model(&aircraft, 10000, 1.225, 100.0, &model);
    assert_int_equal(ls_trim_solve(&model, 100.0, 0.0, &trim, NULL), LS_OK);
    check_close("rudder to hold one engine out, deg", trim.rudder_rad / DEG, 6.53, 0.005, "printed digits",
                "GATE 2021 Aerospace Engineering, Q24 (accepted 6.50 to 6.60)");
}

/* Windmilling adds a quarter of the live engine's moment: 501 000 ft lb; 76 deg of rudder at 105 kt, 25 deg at
 * 182.88 kt. */
static void roskam_twin_jet(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    ls_model model;
    ls_trim trim;
    ls_derivatives d = {.side_sideslip = -.5, .roll_aileron = .1, .yaw_rudder = -0.0012 / DEG};
    make_aircraft(1296, 113.8, d, &aircraft);
    source = (couple){.constant_Nm = -1.25 * 24000.0 * 16.7 * LBF_FT};
    make_model(&aircraft, 100000, 0.0023769 / 0.0023768924 * RHO_US, 182.88 * KT, &model);
    assert_int_equal(ls_trim_solve(&model, 105.0 * KT, 0.0, &trim, NULL), LS_OK);
    check_close("rudder at 105 kt, deg", -trim.rudder_rad / DEG, 75.84, 0.01,
                "printed digits and the conversion of knots",
                "Roskam, Airplane Design II, eq. 11.12-11.18, example of sec. 11.4.2");
    check_close("25 deg of rudder would do at, kt", vmc_kt(&model, 0), 182.88, 0.01, "printed digits",
                "Roskam, Airplane Design II, sec. 11.4.2, continued by exact algebra");
}

static void scan_agrees(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    ls_model model;
    make_aircraft(181, 38, two_equation, &aircraft);
    source = (couple){.power_W = 117.0 * HP, .arm_m = 6.0 * FT};
    make_model(&aircraft, 3900, RHO_US, 75.0 * KT, &model);
    for (int i = 0; i < 8; i++) {
        ls_vmc fast, slow;
        assert_int_equal(ls_vmc_at(&model, two_equation_bank_deg[i] * DEG, &fast, NULL), LS_OK);
        assert_int_equal(ls_vmc_scan(&model, two_equation_bank_deg[i] * DEG, &slow, NULL), LS_OK);
        check_close("search against the 0.1 kt scan, m/s", fast.V_m_s, slow.V_m_s, 1e-8, "root tolerance 1e-9 m/s",
                    "the plain scan");
        assert_int_equal(fast.limit, slow.limit);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(trim_rows),
        cmocka_unit_test(weight_rows),
        cmocka_unit_test(two_equation_rows),
        cmocka_unit_test(cube_root_extrapolation),
        cmocka_unit_test(zero_sideslip_closed_form),
        cmocka_unit_test(ailerons_only_and_wings_level),
        cmocka_unit_test(identities_at_constant_couple),
        cmocka_unit_test(heights_where_stall_is_met),
        cmocka_unit_test(gate_2021),
        cmocka_unit_test(roskam_twin_jet),
        cmocka_unit_test(scan_agrees),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
