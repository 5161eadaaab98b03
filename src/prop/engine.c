#include "prop/engine.h"

#include <math.h>

static const double two_pi = 6.28318530717958647692;

static int is_boosted(const ls_powerplant *powerplant, const ls_air *air)
{
    double critical_m = powerplant->data->engine.critical_altitude_m;
    return critical_m > 0.0 && air->h_m < critical_m;
}

/* Manifold pressure at full throttle over the rated one. */
static double map_share(const ls_powerplant *powerplant, const ls_air *air)
{
    return is_boosted(powerplant, air) ? 1.0 : air->p_Pa / powerplant->reference_p_Pa;
}

/* Manifold pressure over intake temperature, against the rating: indicated torque goes with it. */
double ls_engine_indicated(const ls_powerplant *powerplant, const ls_air *air)
{
    double reference_T_K =
        is_boosted(powerplant, air) ? ls_air_standard_temperature(air->h_m) : powerplant->reference_T_K;
    return (1.0 + powerplant->data->engine.friction_share) * map_share(powerplant, air) * reference_T_K / air->T_K;
}

double ls_engine_turbine_share(const ls_engine_data *engine, const ls_air *air)
{
    double share = air->sigma / engine->flat_to_sigma;
    return share < 1.0 ? pow(share, engine->density_exponent) : 1.0;
}

/* Friction over rated brake torque at a speed over the rated one: the shape of Barnes and Moss's motoring
 * pressure, 0.97 + 0.15 N + 0.05 N^2 bar (N in 1000 rpm; Heywood, Internal Combustion Engine Fundamentals, ch. 13,
 * second hand), at 2700 rpm brought to 1. */
static double friction(const ls_engine_data *engine, double speed_share)
{
    return engine->friction_share * (0.5576 + 0.2328 * speed_share + 0.2096 * speed_share * speed_share);
}

static double piston_torque(const ls_powerplant *powerplant, const ls_air *air, ls_engine_state state,
                            double power, double speed_share)
{
    const ls_engine_data *engine = &powerplant->data->engine;
    double drag = friction(engine, speed_share);
    switch (state) {
    case LS_RUNNING:
    case LS_PARTIAL:
        return power * fmax(0.0, ls_engine_indicated(powerplant, air) - drag);
    case LS_IDLE:
        return engine->idle_share - drag;
    default:
        return -drag;
    }
}

/* The usual torque to turn a failed engine where the file gives none: from memory, stated in the key's meaning. */
static double motoring(const ls_engine_data *engine)
{
    if (!isnan(engine->motoring_share)) {
        return engine->motoring_share;
    }
    return engine->type == LS_ENGINE_ELECTRIC ? 0.02 : engine->shaft == 1 ? 0.25 : 0.01;
}

/* A turbine and a motor give power, not torque: torque goes as 1/n, but no higher than half as much again as
 * rated. */
static double constant_power_torque(double power_share, double speed_share)
{
    return power_share / fmax(speed_share, 2.0 / 3.0);
}

static double turbine_torque(const ls_engine_data *engine, const ls_air *air, ls_engine_state state, double power,
                             double speed_share)
{
    switch (state) {
    case LS_RUNNING:
    case LS_PARTIAL:
        return constant_power_torque(power * ls_engine_turbine_share(engine, air), speed_share);
    case LS_IDLE:
        return 0.0; /* flight idle: it turns itself */
    default:
        return -motoring(engine) * (engine->shaft == 1 ? speed_share * speed_share : 1.0);
    }
}

static double electric_torque(const ls_engine_data *engine, ls_engine_state state, double power,
                              double speed_share)
{
    double limit = engine->torque_limit_Nm * two_pi * engine->n_rev_s / engine->power_W;
    if (state == LS_RUNNING || state == LS_PARTIAL) {
        return power * fmin(limit, constant_power_torque(1.0, speed_share));
    }
    return state == LS_IDLE ? 0.0 : -motoring(engine);
}

/* Rated torque at the propeller's shaft. */
static double rated_torque(const ls_engine_data *engine)
{
    return engine->power_W / (two_pi * engine->n_rev_s * engine->gear_ratio);
}

double ls_engine_torque(const ls_powerplant *powerplant, const ls_air *air, ls_engine_state state, double power,
                        double n_rev_s)
{
    const ls_engine_data *engine = &powerplant->data->engine;
    double speed_share = n_rev_s / (engine->n_rev_s * engine->gear_ratio);
    switch (engine->type) {
    case LS_ENGINE_PISTON:
        return rated_torque(engine) * piston_torque(powerplant, air, state, power, speed_share);
    case LS_ENGINE_TURBOPROP:
        return rated_torque(engine) * turbine_torque(engine, air, state, power, speed_share);
    case LS_ENGINE_ELECTRIC:
        return rated_torque(engine) * electric_torque(engine, state, power, speed_share);
    default:
        return 0.0;
    }
}

/* What a part-closed throttle takes, over rated torque per rated manifold pressure of throttling: the pumping loop
 * (an atmosphere over some ten of mean effective pressure) and the exhaust gas left in the cylinder (compression
 * ratio 8.5). An estimate of ours: only manifold pressures that are shown rest on it. */
static const double throttling_share = 0.25;

double ls_engine_manifold_pressure(const ls_powerplant *powerplant, const ls_air *air, double torque_Nm,
                                   double n_rev_s)
{
    const ls_engine_data *engine = &powerplant->data->engine;
    if (engine->type != LS_ENGINE_PISTON) {
        return NAN;
    }
    double full = map_share(powerplant, air), taken = throttling_share * full;
    double indicated =
        torque_Nm / rated_torque(engine) + friction(engine, n_rev_s / (engine->n_rev_s * engine->gear_ratio));
    double open = (indicated + taken) / (ls_engine_indicated(powerplant, air) + taken);
    return open >= 0.0 && open <= 1.0 + 1e-9 ? engine->map_Pa * full * open : NAN;
}

double ls_engine_power_at(const ls_powerplant *powerplant, const ls_air *air, double map_Pa, double n_rev_s)
{
    const ls_engine_data *engine = &powerplant->data->engine;
    double full = map_share(powerplant, air), taken = throttling_share * full;
    double open = fmin(1.0, map_Pa / (engine->map_Pa * full)), most = ls_engine_indicated(powerplant, air);
    double drag = friction(engine, n_rev_s / (engine->n_rev_s * engine->gear_ratio));
    return most > drag ? fmax(0.0, (most * open - taken * (1.0 - open) - drag) / (most - drag)) : 0.0;
}

double ls_engine_break_out(const ls_powerplant *powerplant)
{
    return powerplant->data->engine.break_out_share * rated_torque(&powerplant->data->engine);
}
