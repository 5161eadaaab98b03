/* Aeroplanes made to meet or to miss each condition of the rules.
 *
 * The aeroplane is invented: jets (or propellers of constant thrust) on a wing without drag and with a very steep
 * lift curve, so that incidence vanishes and the climb angle is asin(T/W). With roll out of the way its minimum
 * control speed is exact algebra: q S b K dr = N - (yaw_sideslip/|side_sideslip|) b W cos(climb) sin(bank), with
 * K = |yaw_rudder| - yaw_sideslip side_rudder/|side_sideslip|, N the thrust moment and dr the rudder travel. */
#ifndef TESTS_RULES_JETS_H
#define TESTS_RULES_JETS_H

#include "check.h"
#include "fleet.h"

#include "liveside/rules.h"

#include <math.h>
#include <string.h>

#define DEG     (3.14159265358979323846 / 180.0)
#define LB      0.45359237
#define LBF     (LB * 9.80665)
#define FT      0.3048
#define KT      (1852.0 / 3600.0)
#define EXACT   "algebra of the invented aeroplane"
#define BY_ROOT "root tolerance of the solver; incidence of 1e-9"
#define CFR_23  "14 CFR 23.149, 23.51, 23.67 at Amdt 23-50"
#define CFR_25  "14 CFR 25.149, 25.107, 25.121"

enum { TAKEOFF, LANDING };

static const double S_m2 = 30.0, b_m = 14.0, mass_kg = 5000.0, arm_m = 2.5;
static const double side_sideslip = -.60, side_rudder = .16, yaw_sideslip = .080, yaw_rudder = -.065;
static const double lift_max = 1.8;

static inline double weight_N(void)
{
    return mass_kg * LS_G0_M_S2;
}

static inline double stall_m_s(void)
{
    return sqrt(2.0 * weight_N() / (LS_AIR_RHO0_KG_M3 * S_m2 * lift_max));
}

/* Dynamic pressure at the rudder limit for a thrust moment and the thrust that is left. */
static inline double q_of(double moment_Nm, double thrust_N, double travel_rad)
{
    double K = -yaw_rudder - yaw_sideslip * side_rudder / -side_sideslip;
    double W_N = weight_N() * sqrt(1.0 - pow(thrust_N / weight_N(), 2)) * sin(5.0 * DEG);
    return (moment_Nm / b_m - yaw_sideslip / -side_sideslip * W_N) / (S_m2 * K * travel_rad);
}

static inline double speed_of(double moment_Nm, double thrust_N)
{
    return sqrt(2.0 * q_of(moment_Nm, thrust_N, 25.0 * DEG) / LS_AIR_RHO0_KG_M3);
}

/* The thrust of each of two engines that gives a speed over the stall speed. */
static inline double thrust_for(double multiple)
{
    double low_N = 0.01 * weight_N(), high_N = 0.9 * weight_N();
    for (int i = 0; i < 100; i++) {
        double middle_N = 0.5 * (low_N + high_N);
        double moment_Nm = middle_N * arm_m;
        if (q_of(moment_Nm, middle_N, 1.0) > 0.0 && speed_of(moment_Nm, middle_N) > multiple * stall_m_s()) {
            high_N = middle_N;
        } else {
            low_N = middle_N;
        }
    }
    return low_N;
}

static inline void add_flap(ls_aircraft *aircraft, const char *name, double deflection_rad, double most)
{
    ls_flap *flap = &aircraft->flap[aircraft->flaps++];
    strcpy(flap->name, name);
    flap->deflection_rad = deflection_rad;
    flap->lift_slope_per_rad = 1e9;
    flap->lift_max = most;
}

static inline void add_engine(ls_aircraft *aircraft, const char *name, double right_m)
{
    ls_engine_mount *engine = &aircraft->engine[aircraft->engines++];
    strcpy(engine->name, name);
    engine->hub_right_m = right_m;
    engine->hub_aft_m = 5.0;
}

static inline void make_jets(double thrust_N, ls_aircraft *aircraft)
{
    memset(aircraft, 0, sizeof *aircraft);
    aircraft->mass.maximum_kg = aircraft->mass.minimum_kg = mass_kg;
    aircraft->cg.reference_m = aircraft->cg.forward_m = aircraft->cg.aft_m = 5.0;
    aircraft->wing.area_m2 = S_m2;
    aircraft->wing.span_m = b_m;
    add_flap(aircraft, "take-off", 10 * DEG, lift_max);
    add_flap(aircraft, "landing", 35 * DEG, 2.2);
    aircraft->derivatives = (ls_derivatives){.side_sideslip = side_sideslip,
                                             .side_rudder = side_rudder,
                                             .roll_aileron = .17,
                                             .yaw_sideslip = yaw_sideslip,
                                             .yaw_rudder = yaw_rudder};
    aircraft->fin.stall_sideslip_rad = 1e3;
    aircraft->fin.sidewash = aircraft->fin.pressure = 1.0;
    aircraft->rudder.left_rad = aircraft->rudder.right_rad = 25.0 * DEG;
    aircraft->aileron.travel_rad = 1e3;
    aircraft->aileron.usable = 1.0;
    aircraft->pedal.gearing_rad_m = NAN;
    aircraft->swirl_straightened = 1.0;
    aircraft->limits.bank_rad = 5.0 * DEG;
    aircraft->powerplants = 1;
    aircraft->powerplant[0].engine =
        (ls_engine_data){.type = LS_ENGINE_JET, .thrust_N = thrust_N, .continuous = 1.0};
    add_engine(aircraft, "left", -arm_m);
    add_engine(aircraft, "right", arm_m);
}

/* The same with propellers whose thrust does not change with speed and whose drag is nil. */
static inline void make_propellers(int type, double thrust_N, ls_aircraft *aircraft)
{
    make_jets(thrust_N, aircraft);
    ls_powerplant_data *powerplant = &aircraft->powerplant[0];
    powerplant->engine = (ls_engine_data){.type = type,
                                          .power_W = 1e6,
                                          .continuous = 1.0,
                                          .n_rev_s = 30.0,
                                          .gear_ratio = 1.0,
                                          .flat_to_sigma = 0.5,
                                          .torque_limit_Nm = 1e9};
    powerplant->propeller = (ls_propeller_data){.diameter_m = 2.0, .blades = 2, .feathering = LS_FEATHERS_BY_HAND};
    powerplant->propeller.thrust_N.rows = 2;
    powerplant->propeller.thrust_N.x[1] = 300.0;
    powerplant->propeller.thrust_N.y[0] = powerplant->propeller.thrust_N.y[1] = thrust_N;
}

/* Pedal data that make the force on the rudder limit at a thrust moment a given one, whatever the speed. */
static inline void add_pedal(double force_N, double moment_Nm, double thrust_N, ls_aircraft *aircraft)
{
    const double hinge_sideslip = 0.1, hinge_rudder = -0.5, travel_rad = 25.0 * DEG;
    double q_Pa = q_of(moment_Nm, thrust_N, travel_rad);
    double W_N = weight_N() * sqrt(1.0 - pow(thrust_N / weight_N(), 2)) * sin(5.0 * DEG);
    double beta_rad = (W_N / (q_Pa * S_m2) - side_rudder * travel_rad) / -side_sideslip;
    aircraft->pedal.area_m2 = aircraft->pedal.chord_m = 1.0;
    aircraft->pedal.hinge_sideslip = hinge_sideslip;
    aircraft->pedal.hinge_rudder = hinge_rudder;
    aircraft->pedal.gearing_rad_m = force_N / (q_Pa * (hinge_sideslip * beta_rad - hinge_rudder * travel_rad));
}

static ls_rules_result result; /* large */

static inline void assess(const ls_aircraft *aircraft, const char *basis)
{
    ls_error error = {0};
    assert_non_null(ls_rules_find(basis));
    ls_status status = ls_rules_assess(aircraft, ls_rules_find(basis), &result, &error);
    if (status != LS_OK) {
        print_error("%s: %s\n", basis, error.text);
    }
    assert_int_equal(status, LS_OK);
}

#endif
