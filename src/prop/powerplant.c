/* Engines, and the propeller that is described by handbook coefficients. */
#include "liveside/powerplant.h"

#include "num/curve.h"
#include "prop/engine.h"
#include "prop/governor.h"
#include "prop/wake.h"

#include <math.h>
#include <string.h>

static const double two_pi = 6.28318530717958647692;

const char *ls_engine_state_name(ls_engine_state state)
{
    static const char *const names[LS_ENGINE_STATES] = {"running", "windmilling",   "feathered",
                                                        "stopped", "partial",       "windmilling, lever aft",
                                                        "idling",  "at zero thrust"};
    return (unsigned)state < LS_ENGINE_STATES ? names[state] : "unknown";
}

ls_engine_state ls_engine_state_after_failure(const ls_powerplant_data *powerplant)
{
    int feathers =
        powerplant->engine.type != LS_ENGINE_JET && powerplant->propeller.feathering == LS_FEATHERS_AUTOMATICALLY;
    return feathers ? LS_FEATHERED : LS_WINDMILLING;
}

/* Naturally aspirated, the rated manifold pressure belongs to sea level; turbocharged, to the critical altitude.
 */
static ls_status prepare_engine(ls_powerplant *powerplant, ls_error *error)
{
    ls_air air;
    if (powerplant->data->engine.type != LS_ENGINE_PISTON) {
        return LS_OK;
    }
    ls_status status = ls_air_at(powerplant->data->engine.critical_altitude_m, 0.0, &air, error);
    if (status == LS_OK) {
        powerplant->reference_p_Pa = air.p_Pa;
        powerplant->reference_T_K = air.T_K;
    }
    return status;
}

static ls_status prepare_propeller(ls_powerplant *powerplant, ls_error *error)
{
    const ls_propeller_data *propeller = &powerplant->data->propeller;
    const ls_curve *efficiency = &propeller->efficiency;
    if (propeller->kind == LS_PROPELLER_BLADE_ELEMENT) {
        return propeller->table != NULL
                   ? LS_OK
                   : ls_fail(error, LS_INTERNAL, "powerplant '%s': its propeller's table has not been made",
                             powerplant->data->name);
    }
    if ((efficiency->rows > 0) == (propeller->thrust_N.rows > 0)) {
        return ls_fail(error, LS_FILE_REJECTED,
                       "powerplant '%s': give propeller.efficiency or propeller.thrust, and not both",
                       powerplant->data->name);
    }
    if (propeller->thrust_N.rows > 0) {
        return ls_curve_prepare(&propeller->thrust_N, LS_CURVE_MONOTONE, &powerplant->performance, error);
    }
    if (efficiency->x[0] != 0.0 || efficiency->y[0] != 0.0) {
        return ls_fail(
            error, LS_FILE_REJECTED,
            "powerplant '%s': propeller.efficiency must begin with the row [0, 0] (at rest thrust does no "
            "work)",
            powerplant->data->name);
    }
    return ls_curve_prepare(efficiency, LS_CURVE_MONOTONE, &powerplant->performance, error);
}

ls_status ls_powerplant_prepare(const ls_powerplant_data *data, ls_powerplant *powerplant, ls_error *error)
{
    memset(powerplant, 0, sizeof *powerplant);
    powerplant->data = data;
    ls_status status = prepare_engine(powerplant, error);
    if (status == LS_OK && data->engine.type != LS_ENGINE_JET) {
        status = prepare_propeller(powerplant, error);
    }
    return status;
}

double ls_powerplant_power(const ls_powerplant *powerplant, const ls_air *air)
{
    const ls_engine_data *engine = &powerplant->data->engine;
    switch (engine->type) {
    case LS_ENGINE_PISTON:
        return engine->power_W * fmax(0.0, ls_engine_indicated(powerplant, air) - engine->friction_share);
    case LS_ENGINE_TURBOPROP:
        return engine->power_W * ls_engine_turbine_share(engine, air);
    case LS_ENGINE_ELECTRIC:
        return fmin(engine->power_W, two_pi * engine->n_rev_s * engine->torque_limit_Nm);
    default:
        return 0.0;
    }
}

static ls_status jet_at(const ls_engine_data *engine, ls_engine_state state, double power, const ls_air *air,
                        double V_m_s, ls_propulsor_point *point, ls_error *error)
{
    double q_Pa = 0.5 * air->rho_kg_m3 * V_m_s * V_m_s;
    if (state == LS_FEATHERED || state == LS_STOPPED) {
        return ls_fail(error, LS_NO_STATE, "a jet engine has no propeller to %s: failed, it windmills",
                       state == LS_FEATHERED ? "feather" : "stop");
    }
    if (state == LS_LEVER_AFT || state == LS_IDLE) {
        return ls_fail(error, LS_NO_STATE,
                       state == LS_IDLE ? "the file says nothing of the thrust of an idling jet engine"
                                        : "a jet engine has no propeller lever");
    }
    if (state == LS_ZERO_THRUST) {
        return LS_OK;
    }
    if (state == LS_RUNNING || state == LS_PARTIAL) {
        double lapse = pow(air->sigma, engine->density_exponent) * (1.0 - engine->mach_lapse * V_m_s / air->a_m_s);
        point->thrust_N = power * engine->thrust_N * lapse;
    } else {
        point->thrust_N = -q_Pa * engine->dead_area_m2;
    }
    return LS_OK;
}

/* The drag area of a failed propeller, or NaN where the file has none. */
static double dead_area(const ls_propeller_data *propeller, ls_engine_state state)
{
    switch (state) {
    case LS_WINDMILLING:
        return propeller->windmilling_area_m2;
    case LS_FEATHERED:
        return propeller->feathering == LS_FEATHERS_NEVER ? NAN : propeller->feathered_area_m2;
    default:
        return propeller->stopped_area_m2;
    }
}

static ls_status dead_at(const ls_powerplant_data *data, ls_engine_state state, double q_Pa,
                         ls_propulsor_point *point, ls_error *error)
{
    double area_m2 = dead_area(&data->propeller, state);
    if (state == LS_ZERO_THRUST) {
        return LS_OK;
    }
    if (state == LS_LEVER_AFT || state == LS_IDLE) {
        return ls_fail(error, LS_NO_STATE, "a propeller of kind coefficients has no data for the state: %s",
                       ls_engine_state_name(state));
    }
    if (isnan(area_m2)) {
        const char *name = ls_engine_state_name(state);
        if (state == LS_FEATHERED && data->propeller.feathering == LS_FEATHERS_NEVER) {
            return ls_fail(error, LS_NO_STATE, "the propeller of powerplant '%s' cannot be feathered", data->name);
        }
        return ls_fail(error, LS_NO_STATE, "no data for a %s propeller: powerplant '%s' lacks propeller.%s_area",
                       name, data->name, name);
    }
    point->thrust_N = -q_Pa * area_m2;
    point->normal_N = state == LS_WINDMILLING ? q_Pa * data->propeller.normal_area_m2 : 0.0;
    return LS_OK;
}

/* Thrust from shaft power: eta P / V, whose limit at rest is the slope of eta over the advance ratio. */
static void thrust_by_efficiency(const ls_powerplant *powerplant, double V_m_s, ls_propulsor_point *point)
{
    double tip_advance_m_s = point->n_rev_s * powerplant->data->propeller.diameter_m;
    double J = V_m_s / tip_advance_m_s;
    ls_curve_point eta = ls_curve_at(&powerplant->performance, J);
    double per_J = J > 1e-6 ? eta.value / J : eta.derivative;
    point->thrust_N = per_J * point->shaft_power_W / tip_advance_m_s;
    point->efficiency = eta.value;
    point->flags |= eta.outside != 0 ? LS_PROPULSOR_SPEED_OUTSIDE : 0u;
}

/* The curve is at rated power and sea level; thrust at a speed goes with power. */
static void thrust_by_curve(const ls_powerplant *powerplant, double V_m_s, ls_propulsor_point *point)
{
    ls_curve_point thrust = ls_curve_at(&powerplant->performance, V_m_s);
    point->thrust_N = thrust.value * point->shaft_power_W / powerplant->data->engine.power_W;
    point->efficiency = point->shaft_power_W > 0.0 ? point->thrust_N * V_m_s / point->shaft_power_W : 0.0;
    point->flags |= thrust.outside != 0 ? LS_PROPULSOR_SPEED_OUTSIDE : 0u;
}

static void running_at(const ls_powerplant *powerplant, double power, const ls_air *air, double V_m_s, double q_Pa,
                       ls_propulsor_point *point)
{
    const ls_engine_data *engine = &powerplant->data->engine;
    const ls_propeller_data *propeller = &powerplant->data->propeller;
    point->n_rev_s = engine->n_rev_s * engine->gear_ratio;
    point->shaft_power_W = power * ls_powerplant_power(powerplant, air);
    point->torque_Nm = point->shaft_power_W / (two_pi * point->n_rev_s);
    if (engine->type == LS_ENGINE_ELECTRIC && point->shaft_power_W < power * engine->power_W) {
        point->flags |= LS_PROPULSOR_TORQUE_LIMITED;
    }
    if (propeller->efficiency.rows > 0) {
        thrust_by_efficiency(powerplant, V_m_s, point);
    } else {
        thrust_by_curve(powerplant, V_m_s, point);
    }
    point->normal_N = q_Pa * propeller->normal_area_m2;
    point->hub_first_Nm = propeller->offset_per_rad * propeller->diameter_m * point->thrust_N;
}

static double rated_speed(const ls_engine_data *engine)
{
    return engine->n_rev_s * engine->gear_ratio;
}

static ls_status settle(const ls_shaft *shaft, ls_governed *governed, ls_error *error)
{
    const ls_powerplant_data *data = shaft->powerplant->data;
    const ls_propeller_data *propeller = &data->propeller;
    double lever_rev_s = rated_speed(&data->engine);
    switch (shaft->state) {
    case LS_FEATHERED:
        if (propeller->feathering == LS_FEATHERS_NEVER || isnan(propeller->feather_pitch_rad)) {
            return ls_fail(error, LS_NO_STATE, "the propeller of powerplant '%s' cannot be feathered", data->name);
        }
        ls_governor_stand(shaft, propeller->feather_pitch_rad, governed);
        return LS_OK;
    case LS_STOPPED:
        ls_governor_stand(shaft, propeller->fine_pitch_rad, governed);
        return LS_OK;
    case LS_ZERO_THRUST:
        return ls_governor_set_thrust(shaft, lever_rev_s, 0.0, governed, error);
    case LS_LEVER_AFT:
        return ls_governor_settle(shaft, fmin(lever_rev_s, propeller->lever_aft_rev_s), governed, error);
    default:
        return ls_governor_settle(shaft, lever_rev_s, governed, error);
    }
}

static unsigned warnings(const ls_powerplant *powerplant, ls_engine_state state, const ls_air *air, double V_m_s,
                         const ls_governed *governed)
{
    const ls_propeller_data *propeller = &powerplant->data->propeller;
    double tip_m_s = hypot(V_m_s, 0.5 * two_pi * governed->n_rev_s * propeller->diameter_m);
    unsigned flags = governed->flags;
    int is_dead = state == LS_WINDMILLING || state == LS_LEVER_AFT;
    flags |= tip_m_s > LS_TIP_MACH * air->a_m_s ? LS_PROPULSOR_TIP_MACH : 0u;
    flags |= is_dead && governed->n_rev_s < propeller->feather_latch_rev_s ? LS_PROPULSOR_LATCHED : 0u;
    return flags;
}

/* In-plane loads are linear in the flow across the disc: per unit of its share of V. */
static ls_status blade_element_at(const ls_powerplant *powerplant, ls_engine_state state, double power,
                                  const ls_air *air, double V_m_s, ls_propulsor_point *point, ls_error *error)
{
    ls_governed governed;
    ls_shaft shaft = {powerplant, air, state, power, V_m_s};
    ls_status status = settle(&shaft, &governed, error);
    if (status != LS_OK) {
        return status;
    }
    point->thrust_N = governed.axial.T_N;
    point->torque_Nm = governed.axial.Q_N_m;
    point->normal_N = governed.axial.N_N_s_m * V_m_s;
    point->hub_first_Nm = governed.axial.m1_N_s * V_m_s;
    point->n_rev_s = governed.n_rev_s;
    point->pitch_rad = governed.pitch_rad;
    point->shaft_power_W = two_pi * governed.n_rev_s * governed.axial.Q_N_m;
    point->efficiency = point->shaft_power_W > 0.0 ? point->thrust_N * V_m_s / point->shaft_power_W : 0.0;
    point->flags = warnings(powerplant, state, air, V_m_s, &governed);
    return LS_OK;
}

ls_status ls_propulsor_at(const ls_powerplant *powerplant, ls_engine_state state, double power, const ls_air *air,
                          double V_m_s, ls_propulsor_point *point, ls_error *error)
{
    const ls_powerplant_data *data = powerplant->data;
    double q_Pa = 0.5 * air->rho_kg_m3 * V_m_s * V_m_s;
    memset(point, 0, sizeof *point);
    if (data->engine.type == LS_ENGINE_JET) {
        return jet_at(&data->engine, state, power, air, V_m_s, point, error);
    }
    ls_status status = LS_OK;
    if (data->propeller.kind == LS_PROPELLER_BLADE_ELEMENT) {
        status = blade_element_at(powerplant, state, power, air, V_m_s, point, error);
    } else if (state == LS_RUNNING || state == LS_PARTIAL) {
        running_at(powerplant, power, air, V_m_s, q_Pa, point);
    } else {
        status = dead_at(data, state, q_Pa, point, error);
    }
    ls_wake_from_momentum(data->propeller.diameter_m, air, V_m_s, point);
    return status;
}
