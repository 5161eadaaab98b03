/* Controls, engines, propellers and inertia. */
#include "airframe/estimate_parts.h"

#include "airframe/path.h"
#include "liveside/air.h"

#include <math.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)
#define PI  3.14159265358979323846

/* Effect of a plain rudder at large deflection over that at small ones. From memory, between DATCOM's factor for
 * plain flaps (section 6.1.1.1) and rudder tests in which it fades beyond some 20 deg. */
static void set_rudder_effect(ls_estimating *e)
{
    static const double at_deg[] = {0.0, 10.0, 15.0, 20.0, 25.0, 30.0},
                        effect[] = {1.0, 1.0, 0.99, 0.95, 0.89, 0.82};
    const ls_parameter *row = ls_parameter_row("rudder.effect");
    ls_curve *curve = ls_parameter_value(e->aircraft, row, 0);
    curve->rows = (int)(sizeof effect / sizeof effect[0]);
    for (int i = 0; i < curve->rows; i++) {
        curve->x[i] = at_deg[i] * DEG;
        curve->y[i] = effect[i];
    }
    *ls_mark_of(e->marks, row, 0) = (ls_mark){.source = LS_SOURCE_ESTIMATED, .spread = 0.06};
}

static void set_pedal(ls_estimating *e)
{
    const ls_geometry *g = e->g;
    double height_m = g->fin.span_m * (g->rudder.outer - g->rudder.inner);
    double chord_m = g->rudder.chord * (g->fin.root_m + g->fin.tip_m) / 2.0;
    ls_estimate_take(e, "rudder.pedal.gearing", g->rudder.gearing_rad_m, "rudder.gearing");
    ls_estimate_set(e, "rudder.pedal.area", 0, height_m * chord_m, 0.05 * height_m * chord_m, LS_SOURCE_ESTIMATED,
                    "rudder chord over fin chord, and span");
    ls_estimate_set(e, "rudder.pedal.chord", 0, chord_m, 0.05 * chord_m, LS_SOURCE_ESTIMATED, "the same");
    ls_estimate_set(e, "rudder.pedal.hinge_sideslip", 0, 0.10, 0.06, LS_SOURCE_ASSUMED,
                    "a plain rudder with some nose balance, from memory");
    ls_estimate_set(e, "rudder.pedal.hinge_rudder", 0, -0.45, 0.15, LS_SOURCE_ASSUMED,
                    "a plain rudder with some nose balance, from memory");
}

void ls_estimate_controls(ls_estimating *e)
{
    const ls_geometry *g = e->g;
    ls_estimate_take(e, "fin.stall_sideslip", g->fin.stall_rad, "fin.stall_sideslip");
    ls_estimate_set(e, "fin.arm", 0, e->out->basis.fin_arm_m, 0.02 * e->out->basis.fin_arm_m, LS_SOURCE_ESTIMATED,
                    "quarter point of the fin's mean chord");
    ls_estimate_take(e, "rudder.left", g->rudder.left_rad, "rudder.left");
    ls_estimate_take(e, "rudder.right", g->rudder.right_rad, "rudder.right");
    set_rudder_effect(e);
    if (ls_given(g->rudder.gearing_rad_m)) {
        set_pedal(e);
    }
    ls_estimate_take(e, "aileron.travel", g->aileron.travel_rad, "aileron.travel");
}

/* Efficiency of an ideal disc that takes this power at this speed: V/(V + v) with 2 rho A (V + v)^2 v = P. */
static double ideal_efficiency(double power_W, double area_m2, double V_m_s)
{
    double wanted = power_W / (2.0 * LS_AIR_RHO0_KG_M3 * area_m2);
    double v = cbrt(wanted);
    for (int i = 0; i < 60; i++) {
        double sum = V_m_s + v;
        v -= (sum * sum * v - wanted) / (sum * sum + 2.0 * sum * v);
    }
    return V_m_s / (V_m_s + v);
}

/* Efficiency against advance ratio at rated power, sea level. */
static void set_efficiency(ls_estimating *e)
{
    const ls_geometry *g = e->g;
    const ls_parameter *row = ls_parameter_row("powerplants[].propeller.efficiency");
    ls_curve *curve = ls_parameter_value(e->aircraft, row, 0);
    double n = g->engine.n_rev_s * g->engine.gear_ratio, D = g->propeller.diameter_m;
    double area_m2 = PI * D * D / 4.0;
    curve->rows = 0;
    for (double J = 0.0; J < 1.65; J += 0.1) {
        curve->x[curve->rows] = J;
        curve->y[curve->rows++] =
            g->propeller.efficiency * ideal_efficiency(g->engine.power_W, area_m2, J * n * D);
    }
    *ls_mark_of(e->marks, row, 0) = (ls_mark){.source = LS_SOURCE_ESTIMATED, .spread = 0.05};
}

/* Drag over dynamic pressure of a windmilling propeller at the speed of the estimate: the flow turns the dead
 * engine at half its rated speed, where its torque is 0.72 of rated friction torque, with an efficiency of 0.8. */
static double windmilling_area(const ls_estimating *e, double friction)
{
    double V = e->out->basis.V_m_s;
    double power_W = friction * e->g->engine.power_W * 0.5 * 0.72;
    return power_W / 0.8 / V / (0.5 * LS_AIR_RHO0_KG_M3 * V * V);
}

static void set_dead_propeller(ls_estimating *e)
{
    const ls_geometry *g = e->g;
    static const double friction[] = {
        [LS_ENGINE_PISTON] = 0.132, [LS_ENGINE_TURBOPROP] = 0.02, [LS_ENGINE_ELECTRIC] = 0.02};
    double area_m2 = PI * g->propeller.diameter_m * g->propeller.diameter_m / 4.0;
    double solidity = 0.04 * g->propeller.blades; /* blades of aspect ratio 8: Raymer */
    double wind_m2 = windmilling_area(e, friction[g->engine.type]) + 0.1 * solidity * area_m2;
    ls_estimate_set(e, "powerplants[].propeller.windmilling_area", 0, wind_m2, 0.3 * wind_m2, LS_SOURCE_ESTIMATED,
                    "power that turns the dead engine at half speed, over 0.8; blades as Raymer eq. 12.39");
    ls_estimate_set(e, "powerplants[].propeller.feathered_area", 0, 0.1 * solidity * area_m2,
                    0.04 * solidity * area_m2, LS_SOURCE_ESTIMATED, "Raymer eq. 12.39, solidity 0.04 a blade");
    ls_estimate_set(e, "powerplants[].propeller.stopped_area", 0, 0.8 * solidity * area_m2,
                    0.2 * solidity * area_m2, LS_SOURCE_ESTIMATED, "Raymer eq. 12.39, solidity 0.04 a blade");
    ls_estimate_set(e, "powerplants[].propeller.thrust_offset", 0, 0.13, 0.05, LS_SOURCE_ASSUMED,
                    "blade-element solutions of invented propellers at 1.2 VS: 0.12 to 0.17");
    double normal_m2 = (0.05 * g->propeller.blades + 0.01) * area_m2;
    ls_estimate_set(e, "powerplants[].propeller.normal_area", 0, normal_m2, 0.3 * normal_m2, LS_SOURCE_ASSUMED,
                    "blade-element solutions of invented propellers at 1.2 VS: 0.05 of the disc a blade");
}

/* What stands in the slipstream takes thrust, and a dead engine's cooling air costs drag. */
static void set_losses(ls_estimating *e)
{
    const ls_geometry *g = e->g;
    double chord_m = g->wing.area_m2 / g->wing.span_m;
    double wing_m2 = 2.0 * chord_m * g->propeller.diameter_m;
    double nacelle_m2 = ls_given(g->nacelle.length_m)
                            ? 2.5 * g->nacelle.length_m * (g->nacelle.width_m + g->nacelle.depth_m) / 2.0
                            : 0.0;
    double washed_m2 = 0.0055 * (wing_m2 + nacelle_m2), cooling_m2 = 2.2e-7 * g->engine.power_W;
    ls_estimate_set(e, "powerplants[].propeller.washed_area", 0, washed_m2, 0.4 * washed_m2, LS_SOURCE_ESTIMATED,
                    "wing and nacelle behind the disc x 0.0055 (form of the loss: Raymer, from memory)");
    if (g->engine.type == LS_ENGINE_PISTON) {
        ls_estimate_set(e, "powerplants[].engine.cooling_area", 0, cooling_m2, 0.5 * cooling_m2, LS_SOURCE_ASSUMED,
                        "0.03 m2 for 134 kW, class of aeroplane");
    }
}

static void set_engine(ls_estimating *e)
{
    const ls_geometry *g = e->g;
    e->aircraft->powerplants = 1;
    ls_estimate_text(e, "powerplants[].name", 0, "engine");
    ls_estimate_choice(e, "powerplants[].engine.type", 0, g->engine.type);
    ls_estimate_take(e, "powerplants[].engine.power", g->engine.power_W, "engine.power");
    ls_estimate_take(e, "powerplants[].engine.speed", g->engine.n_rev_s, "engine.speed");
    ls_estimate_take(e, "powerplants[].engine.gear_ratio", g->engine.gear_ratio, "engine.gear_ratio");
    if (g->engine.type == LS_ENGINE_PISTON) {
        ls_estimate_take(e, "powerplants[].engine.critical_altitude", g->engine.critical_altitude_m,
                         "engine.critical_altitude");
    } else if (g->engine.type == LS_ENGINE_TURBOPROP) {
        ls_estimate_take(e, "powerplants[].engine.flat_to_density", g->engine.flat_to_sigma,
                         "engine.flat_to_density");
    } else {
        double torque_Nm = g->engine.power_W / (2.0 * PI * g->engine.n_rev_s);
        ls_estimate_set(e, "powerplants[].engine.torque_limit", 0, torque_Nm, 0.05 * torque_Nm, LS_SOURCE_ASSUMED,
                        "that of the rated power");
    }
}

static int hand(const ls_geometry *g, double right_m)
{
    switch (g->propeller.rotation) {
    case LS_TURNS_ANTICLOCKWISE:
        return 1;
    case LS_TURNS_INBOARD: /* tops inboard: the left one clockwise, the right one anticlockwise */
        return right_m > 0.0;
    case LS_TURNS_OUTBOARD:
        return right_m < 0.0;
    default:
        return 0;
    }
}

static void set_mount(ls_estimating *e, const char *name, double right_m)
{
    const ls_geometry *g = e->g;
    int i = e->aircraft->engines++;
    double down_m = g->engine.hub_down_m - g->cg.down_m;
    ls_estimate_text(e, "engines[].name", i, name);
    ls_estimate_text(e, "engines[].powerplant", i, "engine");
    *(double *)ls_parameter_value(e->aircraft, ls_parameter_row("engines[].hub.aft"), i) = g->engine.hub_aft_m;
    *(double *)ls_parameter_value(e->aircraft, ls_parameter_row("engines[].hub.right"), i) = right_m;
    *(double *)ls_parameter_value(e->aircraft, ls_parameter_row("engines[].hub.down"), i) = down_m;
    ls_mark_of(e->marks, ls_parameter_row("engines[].hub.aft"), i)->source = LS_SOURCE_GIVEN;
    ls_mark_of(e->marks, ls_parameter_row("engines[].hub.right"), i)->source = LS_SOURCE_GIVEN;
    ls_mark_of(e->marks, ls_parameter_row("engines[].hub.down"), i)->source = LS_SOURCE_GIVEN;
    ls_estimate_choice(e, "engines[].rotation", i, hand(g, right_m));
}

/* What the propellers' side force adds in flight to side force and yaw by sideslip, for the table of parts. */
static void add_propeller_parts(ls_estimating *e)
{
    const ls_geometry *g = e->g;
    double units = e->aircraft->engines;
    double side = -units * e->aircraft->powerplant[0].propeller.normal_area_m2 / g->wing.area_m2;
    double ahead_m = g->cg.reference_m - g->engine.hub_aft_m;
    for (int i = 0; i < e->out->lines; i++) {
        ls_estimate_line *line = &e->out->line[i];
        if (strcmp(line->path, "derivatives.side.sideslip") == 0) {
            line->propellers = side;
        } else if (strcmp(line->path, "derivatives.yaw.sideslip") == 0) {
            line->propellers = side * ahead_m / g->wing.span_m;
        }
    }
}

void ls_estimate_power(ls_estimating *e)
{
    const ls_geometry *g = e->g;
    set_engine(e);
    ls_estimate_choice(e, "powerplants[].propeller.kind", 0, LS_PROPELLER_COEFFICIENTS);
    ls_estimate_take(e, "powerplants[].propeller.diameter", g->propeller.diameter_m, "propeller.diameter");
    ls_estimate_take(e, "powerplants[].propeller.blades", g->propeller.blades, "propeller.blades");
    ls_estimate_choice(e, "powerplants[].propeller.feathering", 0, g->propeller.feathering);
    set_efficiency(e);
    set_dead_propeller(e);
    set_losses(e);
    if (ls_given(g->engine.outer_right_m)) {
        set_mount(e, "left outer", -g->engine.outer_right_m);
        set_mount(e, "left inner", -g->engine.right_m);
        set_mount(e, "right inner", g->engine.right_m);
        set_mount(e, "right outer", g->engine.outer_right_m);
    } else {
        set_mount(e, "left", -g->engine.right_m);
        set_mount(e, "right", g->engine.right_m);
    }
    ls_estimate_text(e, "takeoff.flap", 0, "up");
    add_propeller_parts(e);
    double tip_m_s = PI * g->engine.n_rev_s * g->engine.gear_ratio * g->propeller.diameter_m;
    if (tip_m_s > 290.0) {
        ls_estimate_warn(e, "propeller.diameter",
                         "tip speed %.0f m/s: the efficiency is for tips below 0.85 of sound", tip_m_s);
    }
}

static double set_radius(ls_estimating *e, const char *path, double radius)
{
    ls_estimate_set(e, path, 0, radius, 0.1 * radius, LS_SOURCE_ESTIMATED,
                    "radii of gyration of twin propeller aeroplanes: Raymer, table 16.1");
    return e->g->mass.maximum_kg * pow(radius * e->g->wing.span_m, 2);
}

/* Radii of gyration over half span, half length and half their mean, twin propeller aeroplanes: 0.34, 0.29, 0.44;
 * a spread of 10 % is our own. Source: Raymer, Aircraft Design: A Conceptual Approach, table 16.1. */
void ls_estimate_inertia(ls_estimating *e)
{
    double b = e->g->wing.span_m, L = e->g->body.length_m;
    double *inertia_kg_m2 = e->out->basis.inertia_kg_m2;
    inertia_kg_m2[0] = set_radius(e, "inertia.roll_radius", 0.34 / 2.0);
    inertia_kg_m2[1] = set_radius(e, "inertia.pitch_radius", 0.29 * L / 2.0 / b);
    inertia_kg_m2[2] = set_radius(e, "inertia.yaw_radius", 0.44 * (b + L) / 4.0 / b);
}
