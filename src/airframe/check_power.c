/* Plausibility of the engines and propellers. */
#include "airframe/check.h"

#include "liveside/air.h"

#include <math.h>

static const double pi = 3.14159265358979323846;
static const double knot = 1852.0 / 3600.0;

static double disc_area(const ls_propeller_data *propeller)
{
    return 0.25 * pi * propeller->diameter_m * propeller->diameter_m;
}

/* The power that a disc of area A needs by momentum theory to give a thrust at a speed, sea level: T (V + v) with
 * T = 2 rho A (V + v) v. Source: W. J. M. Rankine's and R. E. Froude's actuator disc, any text on propellers. */
static double ideal_power(double thrust_N, double V_m_s, double area_m2)
{
    double v_m_s = -0.5 * V_m_s + sqrt(0.25 * V_m_s * V_m_s + thrust_N / (2.0 * LS_AIR_RHO0_KG_M3 * area_m2));
    return thrust_N * (V_m_s + v_m_s);
}

static void check_thrust_table(const ls_check *check, int i)
{
    const ls_powerplant_data *p = &check->aircraft->powerplant[i];
    const ls_curve *thrust = &p->propeller.thrust_N;
    for (int row = 0; row < thrust->rows; row++) {
        double needed_W = ideal_power(thrust->y[row], thrust->x[row], disc_area(&p->propeller));
        if (thrust->x[row] < 0.0) {
            ls_check_add(check, LS_REJECT, "powerplants[].propeller.thrust", i, "a negative speed in row %d",
                         row + 1);
            return;
        }
        if (needed_W > p->engine.power_W) {
            ls_check_add(
                check, LS_REJECT, "powerplants[].propeller.thrust", i,
                "row %d, %.0f N at %.1f kt, would take %.1f kW by momentum theory; the engine gives %.1f kW",
                row + 1, thrust->y[row], thrust->x[row] / knot, needed_W / 1e3, p->engine.power_W / 1e3);
            return;
        }
        if (row > 0 && thrust->y[row] > thrust->y[row - 1]) {
            ls_check_add(check, LS_WARNING, "powerplants[].propeller.thrust", i,
                         "thrust usually falls with speed; it rises in row %d", row + 1);
            return;
        }
    }
}

/* The greatest efficiency of a disc that takes up a power at a speed, sea level, by bisection on the thrust: the
 * ideal power rises with it. */
static double ideal_efficiency(double power_W, double V_m_s, double area_m2)
{
    double low_N = 0.0, high_N = power_W / V_m_s;
    for (int i = 0; i < 60; i++) {
        double middle_N = 0.5 * (low_N + high_N);
        int too_much = ideal_power(middle_N, V_m_s, area_m2) > power_W;
        high_N = too_much ? middle_N : high_N;
        low_N = too_much ? low_N : middle_N;
    }
    return low_N * V_m_s / power_W;
}

static void check_efficiency_row(const ls_check *check, int i, int row)
{
    const ls_powerplant_data *p = &check->aircraft->powerplant[i];
    const ls_curve *efficiency = &p->propeller.efficiency;
    double tip_m_s = p->engine.n_rev_s * p->engine.gear_ratio * p->propeller.diameter_m;
    double limit = ideal_efficiency(p->engine.power_W, efficiency->x[row] * tip_m_s, disc_area(&p->propeller));
    if (efficiency->y[row] > limit) {
        ls_check_add(check, LS_REJECT, "powerplants[].propeller.efficiency", i,
                     "row %d, %.3g at advance ratio %.3g, is above the momentum limit of %.3f at rated power",
                     row + 1, efficiency->y[row], efficiency->x[row], limit);
    }
}

/* At rest thrust is the slope of efficiency over advance ratio, times power over n D. */
static void check_static_thrust(const ls_check *check, int i)
{
    const ls_powerplant_data *p = &check->aircraft->powerplant[i];
    const ls_curve *efficiency = &p->propeller.efficiency;
    double tip_m_s = p->engine.n_rev_s * p->engine.gear_ratio * p->propeller.diameter_m;
    double thrust_N = efficiency->y[1] / efficiency->x[1] * p->engine.power_W / tip_m_s;
    double limit_N =
        cbrt(2.0 * LS_AIR_RHO0_KG_M3 * disc_area(&p->propeller) * p->engine.power_W * p->engine.power_W);
    if (thrust_N > limit_N) {
        ls_check_add(
            check, LS_REJECT, "powerplants[].propeller.efficiency", i,
            "rows 1 and 2 give a static thrust of %.0f N, above the momentum limit of %.0f N at rated power",
            thrust_N, limit_N);
    }
}

static void check_efficiency(const ls_check *check, int i)
{
    const ls_curve *efficiency = &check->aircraft->powerplant[i].propeller.efficiency;
    if (efficiency->rows == 0) {
        return;
    }
    if (efficiency->x[0] != 0.0 || efficiency->y[0] != 0.0) {
        ls_check_add(check, LS_REJECT, "powerplants[].propeller.efficiency", i,
                     "the first row must be [0, 0]: at rest thrust does no work");
        return;
    }
    check_static_thrust(check, i);
    for (int row = 1; row < efficiency->rows; row++) {
        check_efficiency_row(check, i, row);
    }
}

static void check_dead_propeller(const ls_check *check, int i)
{
    const ls_propeller_data *p = &check->aircraft->powerplant[i].propeller;
    if (p->windmilling_area_m2 > disc_area(p)) {
        ls_check_add(check, LS_WARNING, "powerplants[].propeller.windmilling_area", i,
                     "%.3g m2 is more than the area of the disc, %.3g m2: is a unit wrong?",
                     p->windmilling_area_m2, disc_area(p));
    }
    if (p->feathered_area_m2 > p->windmilling_area_m2) {
        ls_check_add(check, LS_WARNING, "powerplants[].propeller.feathered_area", i,
                     "more drag feathered than windmilling");
    }
    if (p->feathered_area_m2 > p->stopped_area_m2) {
        ls_check_add(check, LS_WARNING, "powerplants[].propeller.feathered_area", i,
                     "more drag feathered than stopped");
    }
    if (p->feathering == LS_FEATHERS_NEVER && ls_given(p->feathered_area_m2)) {
        ls_check_add(check, LS_WARNING, "powerplants[].propeller.feathered_area", i,
                     "not used: propeller.feathering is 'none'");
    }
}

/* The installed loss at sea level, as the model takes it: see ls_installation_loss. */
static void check_installation(const ls_check *check, int i)
{
    const ls_propeller_data *p = &check->aircraft->powerplant[i].propeller;
    double share = 1.558 * p->washed_area_m2 / (p->diameter_m * p->diameter_m);
    if (share > 0.15) {
        ls_check_add(
            check, share > 0.5 ? LS_REJECT : LS_WARNING, "powerplants[].propeller.washed_area", i,
            "friction in the slipstream would take %.0f %% of the thrust: is it a wetted area without its "
            "friction coefficient?",
            100.0 * share);
    }
}

static void check_shaft(const ls_check *check, int i)
{
    const ls_engine_data *engine = &check->aircraft->powerplant[i].engine;
    const ls_propeller_data *p = &check->aircraft->powerplant[i].propeller;
    double tip_m_s = pi * engine->n_rev_s * engine->gear_ratio * p->diameter_m;
    ls_check_usual(check, "powerplants[].propeller.diameter", i, tip_m_s, 80.0, 340.0,
                   "the tip speed, pi x engine.speed x engine.gear_ratio x diameter,", " m/s");
    ls_check_usual(check, "powerplants[].engine.power", i, engine->power_W / disc_area(p) / 1e3, 2.0, 600.0,
                   "the power over the area of the disc", " kW/m2");
    check_thrust_table(check, i);
    check_efficiency(check, i);
    check_dead_propeller(check, i);
    check_installation(check, i);
}

/* An engine without a blower cannot have more than the pressure of the air in its manifold. */
static void check_piston(const ls_check *check, int i)
{
    const ls_engine_data *engine = &check->aircraft->powerplant[i].engine;
    if (engine->critical_altitude_m == 0.0 && engine->map_Pa > 1.03 * LS_AIR_P0_PA) {
        ls_check_add(
            check, LS_REJECT, "powerplants[].engine.manifold_pressure", i,
            "%.1f inHg is above the pressure at sea level: give engine.critical_altitude for a turbocharged "
            "engine",
            engine->map_Pa / 3386.38867);
    }
}

/* Mass over the power, or weight over the thrust, of all engines. */
static void check_loading(const ls_check *check)
{
    const ls_aircraft *a = check->aircraft;
    double power_W = 0.0, thrust_N = 0.0;
    for (int i = 0; i < a->engines; i++) {
        const ls_engine_data *engine = &a->powerplant[a->engine[i].powerplant].engine;
        power_W += engine->type != LS_ENGINE_JET ? engine->power_W : 0.0;
        thrust_N += engine->type == LS_ENGINE_JET ? engine->thrust_N : 0.0;
    }
    if (power_W > 0.0 && thrust_N == 0.0) {
        ls_check_usual(check, "mass.maximum", 0, a->mass.maximum_kg / power_W * 1e3, 1.0, 20.0, "mass over power",
                       " kg/kW");
    }
    if (thrust_N > 0.0 && power_W == 0.0) {
        ls_check_usual(check, "mass.maximum", 0, thrust_N / (a->mass.maximum_kg * LS_G0_M_S2), 0.1, 1.5,
                       "thrust over weight", "");
    }
}

void ls_check_power(const ls_check *check)
{
    for (int i = 0; i < check->aircraft->powerplants; i++) {
        int type = check->aircraft->powerplant[i].engine.type;
        if (type != LS_ENGINE_JET) {
            check_shaft(check, i);
        }
        if (type == LS_ENGINE_PISTON) {
            check_piston(check, i);
        }
    }
    check_loading(check);
}
