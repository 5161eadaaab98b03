#include "liveside/ground.h"

#include "liveside/airspeed.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define KT (1852.0 / 3600.0)

static void fail_set(const ls_aircraft *aircraft, const ls_ground_request *ask, unsigned set,
                     ls_runway_request *roll)
{
    ls_condition after = ask->condition.condition;
    if (ask->condition.state < 0) {
        ls_condition_fail(aircraft, set, &after);
    } else {
        ls_condition_fail_as(aircraft, set, (ls_engine_state)ask->condition.state, &after);
    }
    roll->condition = ask->condition.condition;
    roll->failed = set;
    for (int i = 0; i < aircraft->engines; i++) {
        roll->state = set >> i & 1u ? after.state[i] : roll->state;
    }
}

/* A missing speed counts as the worst: it is not held at all. */
static double severity(const ls_vmcg *vmcg)
{
    return isnan(vmcg->V_m_s) ? INFINITY : vmcg->V_m_s;
}

/* The engine with the highest speed; of single engines where there are some. Status: LS_OK; LS_MEMORY. */
static ls_status choose(const ls_aircraft *aircraft, const ls_ground_request *ask, ls_ground *ground,
                        ls_error *error)
{
    int found = 0, single = 0;
    for (int i = 0; i < ask->condition.sets; i++) {
        single |= ls_set_size(ask->condition.set[i]) == 1;
    }
    for (int i = 0; i < ask->condition.sets; i++) {
        ls_runway_request roll = ask->roll;
        ls_vmcg vmcg;
        if (single && ls_set_size(ask->condition.set[i]) != 1) {
            continue;
        }
        fail_set(aircraft, ask, ask->condition.set[i], &roll);
        ls_vmcg_find(aircraft, &roll, &vmcg);
        if (vmcg.status == LS_MEMORY) {
            return ls_fail(error, LS_MEMORY, "out of memory");
        }
        int is_higher = !found || severity(&vmcg) > severity(&ground->vmcg) + 1e-9;
        if (found && (!ground->has_other || is_higher || severity(&vmcg) > severity(&ground->other))) {
            ground->other = is_higher ? ground->vmcg : vmcg;
            ground->has_other = 1;
        }
        if (is_higher) {
            ground->vmcg = vmcg;
            ground->request = roll;
        }
        found = 1;
    }
    return LS_OK;
}

/* The roll of the answer, to be changed in one thing. */
static ls_runway_request base_of(const ls_ground *ground)
{
    ls_runway_request roll = ground->request;
    roll.V_m_s = isfinite(ground->vmcg.V_m_s) ? ground->vmcg.V_m_s : 0.0;
    return roll;
}

static ls_ground_case *add(ls_ground *ground, const char *what)
{
    ls_ground_case *of = &ground->of[ground->cases++];
    of->what = what;
    return of;
}

static void vary_delay_and_wind(const ls_aircraft *aircraft, ls_ground *ground)
{
    static const double delays[] = {0.0, 0.5, 1.0, 1.5, 2.0}, winds[] = {10.0, 5.0, -5.0, -10.0};
    for (size_t i = 0; i < sizeof delays / sizeof delays[0]; i++) {
        ls_runway_request roll = base_of(ground);
        ls_ground_case *of = add(ground, "delay");
        roll.delay_s = delays[i];
        snprintf(of->label, sizeof of->label, "%.1f s", delays[i]);
        ls_vmcg_find(aircraft, &roll, &of->vmcg);
    }
    int side = ground->live_side != 0 ? ground->live_side : 1;
    for (size_t i = 0; i < sizeof winds / sizeof winds[0]; i++) {
        ls_runway_request roll = base_of(ground);
        ls_ground_case *of = add(ground, "crosswind");
        roll.crosswind_m_s = -side * winds[i] * KT;
        snprintf(of->label, sizeof of->label, "%.0f kt, %s side", fabs(winds[i]),
                 winds[i] > 0.0 ? "dead" : "live");
        ls_vmcg_find(aircraft, &roll, &of->vmcg);
    }
}

static void vary_loading_and_power(const ls_aircraft *aircraft, ls_ground *ground)
{
    for (int i = 0; i < 2; i++) {
        ls_runway_request roll = base_of(ground);
        ls_ground_case *of = add(ground, "weight");
        roll.condition.mass_kg = i == 0 ? aircraft->mass.minimum_kg : aircraft->mass.maximum_kg;
        snprintf(of->label, sizeof of->label, "%s", i == 0 ? "lightest" : "heaviest");
        ls_vmcg_find(aircraft, &roll, &of->vmcg);
    }
    for (int i = 0; i < 2; i++) {
        ls_runway_request roll = base_of(ground);
        ls_ground_case *of = add(ground, "centre of gravity");
        roll.condition.cg_aft_m = i == 0 ? aircraft->cg.forward_m : aircraft->cg.aft_m;
        snprintf(of->label, sizeof of->label, "%s", i == 0 ? "forward" : "aft");
        ls_vmcg_find(aircraft, &roll, &of->vmcg);
    }
    for (int i = 0; i < 2; i++) {
        ls_runway_request roll = base_of(ground);
        ls_ground_case *of = add(ground, "power");
        roll.condition.power *= 0.9 - 0.1 * i;
        snprintf(of->label, sizeof of->label, "%.0f %% of it", 90.0 - 10.0 * i);
        ls_vmcg_find(aircraft, &roll, &of->vmcg);
    }
}

/* The same with tyres that give no side force. */
static void vary_tyres(const ls_aircraft *aircraft, ls_ground *ground)
{
    ls_aircraft smooth = *aircraft;
    ls_ground_case *of = add(ground, "tyres");
    smooth.ground.cornering_per_rad = 0.0;
    snprintf(of->label, sizeof of->label, "no side force");
    ls_runway_request roll = base_of(ground);
    ls_vmcg_find(&smooth, &roll, &of->vmcg);
}

static ls_status vary(const ls_aircraft *aircraft, ls_ground *ground, ls_error *error)
{
    vary_delay_and_wind(aircraft, ground);
    vary_loading_and_power(aircraft, ground);
    vary_tyres(aircraft, ground);
    for (int i = 0; i < ground->cases; i++) {
        if (ground->of[i].vmcg.status == LS_MEMORY) {
            return ls_fail(error, LS_MEMORY, "out of memory");
        }
    }
    return LS_OK;
}

static ls_status follow(const ls_aircraft *aircraft, ls_ground *ground, ls_error *error)
{
    ls_runway_request slower = ground->request, idle = ground->request;
    slower.V_m_s -= 5.0 * KT;
    idle.delay_s = INFINITY;
    ground->request.past_parallel = 1;
    ground->request.duration_s = slower.duration_s = idle.duration_s = 15.0;
    ls_status status = ls_runway_run(aircraft, &ground->request, &ground->track, error);
    status = status == LS_OK ? ls_runway_run(aircraft, &slower, &ground->slower, error) : status;
    return status == LS_OK ? ls_runway_run(aircraft, &idle, &ground->no_action, error) : status;
}

ls_status ls_ground_solve(const ls_aircraft *aircraft, const ls_ground_request *request, ls_ground *ground,
                          ls_error *error)
{
    ls_model model;
    ls_airspeed speed = {0};
    memset(ground, 0, sizeof *ground);
    ls_status status = choose(aircraft, request, ground, error);
    status = status == LS_OK ? ls_model_make(aircraft, &ground->request.condition, &model, error) : status;
    if (status == LS_OK && request->cas_m_s > 0.0) {
        status = ls_airspeed_from_cas(&model.air, request->cas_m_s, &speed, error);
    }
    if (status != LS_OK) {
        return status;
    }
    ls_condition after = ground->request.condition;
    ls_condition_fail_as(aircraft, ground->request.failed, ground->request.state, &after);
    ground->live_side = ls_live_side(aircraft, &after);
    double otherwise_m_s = isfinite(ground->vmcg.V_m_s) ? ground->vmcg.V_m_s : model.stall_V_m_s;
    ground->request.V_m_s = request->cas_m_s > 0.0 ? speed.TAS_m_s : otherwise_m_s;
    status = follow(aircraft, ground, error);
    status = status == LS_OK ? vary(aircraft, ground, error) : status;
    if (status != LS_OK) {
        ls_ground_free(ground);
    }
    return status;
}

void ls_ground_free(ls_ground *ground)
{
    ls_runway_free(&ground->track);
    ls_runway_free(&ground->slower);
    ls_runway_free(&ground->no_action);
}
