/* The propeller through a flight. */
#include "liveside/propeller_study.h"

#include "liveside/airspeed.h"
#include "liveside/climb.h"
#include "liveside/prepare.h"
#include "num/root.h"
#include "prop/engine.h"
#include "study/propeller_parts.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

const char *ls_phase_name(ls_phase phase)
{
    static const char *const names[LS_PHASES] = {"run-up, at rest", "take-off roll",   "climb",
                                                 "cruise",          "throttle closed", "dead, lever fwd",
                                                 "dead, lever aft", "dead, feathered"};
    return (unsigned)phase < LS_PHASES ? names[phase] : "unknown";
}

double prop_tas(const ls_air *air, double cas_m_s)
{
    ls_airspeed speed;
    return ls_airspeed_from_cas(air, cas_m_s, &speed, NULL) == LS_OK ? speed.TAS_m_s : NAN;
}

double prop_cas(const ls_air *air, double V_m_s)
{
    ls_airspeed speed;
    return ls_airspeed_from_tas(air, V_m_s, &speed, NULL) == LS_OK ? speed.CAS_m_s : NAN;
}

static ls_status refuse(const ls_powerplant_data *data, ls_error *error)
{
    if (data->engine.type == LS_ENGINE_JET) {
        return ls_fail(error, LS_NO_STATE, "powerplant '%s' is a jet: it has no propeller", data->name);
    }
    return ls_fail(error, LS_NO_STATE,
                   "powerplant '%s': its propeller is given by coefficients, which say nothing of its blades; it "
                   "needs propeller.kind: blade_element",
                   data->name);
}

ls_status ls_prop_study_make(const ls_aircraft *aircraft, const ls_condition *condition, int engine,
                             ls_prop_study *study, ls_error *error)
{
    ls_condition running = *condition;
    const ls_powerplant_data *data = &aircraft->powerplant[aircraft->engine[engine].powerplant];
    memset(study, 0, sizeof *study);
    if (data->engine.type == LS_ENGINE_JET || data->propeller.kind != LS_PROPELLER_BLADE_ELEMENT) {
        return refuse(data, error);
    }
    ls_condition_fail(aircraft, 0, &running);
    ls_status status = ls_model_make(aircraft, &running, &study->model, error);
    status = status == LS_OK ? ls_propeller_blade(&data->propeller, &study->blade, error) : status;
    if (status == LS_OK) {
        status = ls_disc_prepare(&study->blade, &data->propeller.section, NULL, &study->disc, error);
    }
    if (status != LS_OK) {
        return status;
    }
    study->aircraft = aircraft;
    study->engine = engine;
    study->powerplant = &study->model.powerplant[aircraft->engine[engine].powerplant];
    study->solidity = ls_blade_solidity(&study->blade);
    study->activity_factor = ls_blade_activity_factor(&study->blade, 0.15);
    study->rated_rev_s = data->engine.n_rev_s * data->engine.gear_ratio;
    return LS_OK;
}

/* The section at 0.75 R by a direct solution at the point; at rest and not turning there is no flow. */
static void add_section(const ls_prop_study *study, const ls_air *air, ls_prop_point *point)
{
    ls_disc_loads loads;
    ls_disc_state state = {.V_axial_m_s = point->V_m_s,
                           .n_rev_s = point->n_rev_s,
                           .pitch_rad = point->pitch_rad,
                           .rho_kg_m3 = air->rho_kg_m3,
                           .a_m_s = air->a_m_s};
    point->phi75_rad = point->alpha75_rad = point->cl75 = point->cd75 = point->u75_m_s = point->swirl75_m_s = NAN;
    if ((point->V_m_s > 0.0 || point->n_rev_s > 0.0) &&
        ls_disc_solve(&study->disc, &state, LS_INDUCTION_LOCAL, 4, &loads, NULL) == LS_OK) {
        point->phi75_rad = loads.phi75_rad;
        point->alpha75_rad = loads.alpha75_rad;
        point->u75_m_s = loads.u75_m_s;
        point->swirl75_m_s = loads.swirl75_m_s;
        point->mach75 = loads.mach75;
        ls_polar_at(&study->disc.at75.polar, loads.alpha75_rad, loads.mach75, &point->cl75, &point->cd75);
    }
}

static int fires(ls_engine_state state)
{
    return state == LS_RUNNING || state == LS_PARTIAL || state == LS_IDLE || state == LS_ZERO_THRUST;
}

void prop_point_fill(const ls_prop_study *study, const ls_air *air, const ls_shaft *shaft, double lever_rev_s,
                     const ls_governed *governed, ls_prop_point *point)
{
    double D = study->disc.diameter_m, n = governed->n_rev_s, V = shaft->V_m_s;
    double T = governed->axial.T_N, Q = governed->axial.Q_N_m, P = 2.0 * pi * n * Q;
    *point = (ls_prop_point){.state = shaft->state,
                             .V_m_s = V,
                             .cas_m_s = prop_cas(air, V),
                             .lever_rev_s = lever_rev_s,
                             .n_rev_s = n,
                             .pitch_rad = governed->pitch_rad,
                             .thrust_N = T,
                             .torque_Nm = Q,
                             .power_W = P,
                             .efficiency = P > 0.0 && T > 0.0 ? T * V / P : NAN,
                             .advance_ratio = n > 0.0 ? V / (n * D) : NAN,
                             .mach_tip = hypot(V, pi * n * D) / air->a_m_s,
                             .flags = governed->flags};
    point->map_Pa = fires(shaft->state) ? ls_engine_manifold_pressure(shaft->powerplant, air, Q, n) : NAN;
    point->flags |= point->mach_tip > LS_TIP_MACH ? LS_PROPULSOR_TIP_MACH : 0u;
    add_section(study, air, point);
}

void prop_point_fail(const ls_error *error, ls_prop_point *point)
{
    *point = (ls_prop_point){.status = error->status};
    snprintf(point->reason, sizeof point->reason, "%.*s", (int)sizeof point->reason - 1, error->text);
}

/* The unit's own answer, so that what is shown is what is flown. */
void ls_prop_point_solve(const ls_prop_study *study, ls_engine_state state, double power, double V_m_s,
                         ls_prop_point *point)
{
    ls_propulsor_point load;
    ls_error error = {0};
    const ls_propeller_data *propeller = &study->powerplant->data->propeller;
    const ls_air *air = &study->model.air;
    if (ls_propulsor_at(study->powerplant, state, power, air, V_m_s, &load, &error) != LS_OK) {
        prop_point_fail(&error, point);
        return;
    }
    ls_shaft shaft = {study->powerplant, air, state, power, V_m_s};
    ls_governed governed = {.pitch_rad = load.pitch_rad,
                            .n_rev_s = load.n_rev_s,
                            .axial = {.T_N = load.thrust_N, .Q_N_m = load.torque_Nm},
                            .flags = load.flags};
    double lever_rev_s =
        state == LS_LEVER_AFT ? fmin(study->rated_rev_s, propeller->lever_aft_rev_s) : study->rated_rev_s;
    prop_point_fill(study, air, &shaft, lever_rev_s, &governed, point);
}

/* ---- cruise ---- */

typedef struct {
    const ls_prop_study *study;
    ls_model clean; /* flaps and gear up */
    ls_error error;
} cruise;

/* An engine at the cruise setting of its own rating. */
static ls_status cruise_shaft(const ls_powerplant *powerplant, const ls_air *air, double V_m_s, ls_shaft *shaft,
                              double *lever_rev_s)
{
    const ls_engine_data *engine = &powerplant->data->engine;
    *lever_rev_s = LS_PROP_CRUISE_SPEED * engine->n_rev_s * engine->gear_ratio;
    *shaft = (ls_shaft){powerplant, air, LS_RUNNING, LS_PROP_CRUISE_POWER, V_m_s};
    if (engine->type == LS_ENGINE_PISTON) {
        shaft->power = ls_engine_power_at(powerplant, air, LS_PROP_CRUISE_MAP * engine->map_Pa, *lever_rev_s);
    }
    return LS_OK;
}

static double cruise_thrust(cruise *it, int unit, double V_m_s)
{
    const ls_powerplant *powerplant = &it->study->model.powerplant[it->study->model.unit[unit].powerplant];
    const ls_air *air = &it->study->model.air;
    if (powerplant->data->engine.type == LS_ENGINE_JET ||
        powerplant->data->propeller.kind != LS_PROPELLER_BLADE_ELEMENT) {
        ls_propulsor_point load;
        return ls_propulsor_at(powerplant, LS_RUNNING, LS_PROP_CRUISE_POWER, air, V_m_s, &load, &it->error) ==
                       LS_OK
                   ? load.thrust_N
                   : NAN;
    }
    ls_shaft shaft;
    ls_governed governed;
    double lever_rev_s;
    cruise_shaft(powerplant, air, V_m_s, &shaft, &lever_rev_s);
    return ls_governor_settle(&shaft, lever_rev_s, &governed, &it->error) == LS_OK ? governed.axial.T_N : NAN;
}

/* Thrust along the path less the drag of level flight. */
static double level_excess(double V_m_s, void *context)
{
    cruise *it = context;
    const ls_model *model = &it->clean;
    double q_S = 0.5 * model->air.rho_kg_m3 * V_m_s * V_m_s * model->S_m2, sum_N = 0.0;
    double lift = model->weight_N / q_S - model->drag_least_at;
    for (int i = 0; i < model->units; i++) {
        double thrust_N = cruise_thrust(it, i, V_m_s);
        sum_N += thrust_N - ls_installation_loss(&model->unit[i], thrust_N);
    }
    return sum_N - q_S * (model->drag_base + model->drag_induced * lift * lift);
}

static ls_status level_speed(cruise *it, double *V_m_s)
{
    ls_condition condition = it->study->model.condition;
    ls_root_options options = {.x_tol = 1e-6};
    ls_root_report report;
    condition.flap = ls_flap_clean(it->study->aircraft);
    condition.gear = condition.cowl_flaps = 0.0;
    ls_status status = ls_model_make(it->study->aircraft, &condition, &it->clean, &it->error);
    if (status != LS_OK) {
        return status;
    }
    double stall_m_s = it->clean.stall_V_m_s;
    status = ls_root_find(level_excess, it, 1.2 * stall_m_s, 5.0 * stall_m_s, &options, &report);
    if (status != LS_OK) {
        return it->error.status != LS_OK
                   ? it->error.status
                   : ls_fail(&it->error, LS_NO_STATE, "no level flight on cruise power at this height");
    }
    *V_m_s = report.x;
    return LS_OK;
}

static void solve_cruise(const ls_prop_study *study, ls_prop_point *point)
{
    cruise it = {.study = study};
    ls_shaft shaft;
    ls_governed governed;
    double V_m_s = 0.0, lever_rev_s;
    if (level_speed(&it, &V_m_s) != LS_OK) {
        prop_point_fail(&it.error, point);
        return;
    }
    cruise_shaft(study->powerplant, &study->model.air, V_m_s, &shaft, &lever_rev_s);
    if (ls_governor_settle(&shaft, lever_rev_s, &governed, &it.error) != LS_OK) {
        prop_point_fail(&it.error, point);
        return;
    }
    prop_point_fill(study, &study->model.air, &shaft, lever_rev_s, &governed, point);
}

/* ---- the flight ---- */

/* The speed of best climb on all engines, maximum continuous power, or 1.3 stall speeds where there is none. */
static double climb_speed(const ls_prop_study *study)
{
    ls_condition condition = study->model.condition;
    ls_model model;
    ls_climb_best best;
    ls_climb_rule rule = {LS_CLIMB_BANK_GIVEN, 0.0, LS_PROP_CLIMB_STALLS};
    condition.is_continuous = 1;
    condition.bank_rad = 0.0;
    if (ls_model_make(study->aircraft, &condition, &model, NULL) != LS_OK ||
        ls_climb_best_speed(&model, rule, LS_CLIMB_RATE, 0.0, &best, NULL) != LS_OK) {
        return 1.3 * study->model.stall_V_m_s;
    }
    return best.point.V_m_s;
}

void ls_prop_flight_solve(const ls_prop_study *study, ls_prop_flight *flight)
{
    double power = study->model.condition.power, climb_m_s = climb_speed(study);
    double continuous = study->powerplant->data->engine.continuous * power;
    ls_prop_point *phase = flight->phase;
    ls_prop_point_solve(study, LS_RUNNING, power, 0.0, &phase[LS_PHASE_RUN_UP]);
    ls_prop_point_solve(study, LS_RUNNING, power, LS_PROP_ROLL_STALLS * study->model.stall_V_m_s,
                        &phase[LS_PHASE_ROLL]);
    ls_prop_point_solve(study, LS_RUNNING, continuous, climb_m_s, &phase[LS_PHASE_CLIMB]);
    solve_cruise(study, &phase[LS_PHASE_CRUISE]);
    ls_prop_point_solve(study, LS_IDLE, 1.0, climb_m_s, &phase[LS_PHASE_CLOSED]);
    ls_prop_point_solve(study, LS_WINDMILLING, 1.0, climb_m_s, &phase[LS_PHASE_FORWARD]);
    ls_prop_point_solve(study, LS_LEVER_AFT, 1.0, climb_m_s, &phase[LS_PHASE_AFT]);
    ls_prop_point_solve(study, LS_FEATHERED, 1.0, climb_m_s, &phase[LS_PHASE_FEATHERED]);
}
