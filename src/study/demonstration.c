#include "liveside/demonstration.h"

#include "liveside/airspeed.h"
#include "study/breakdown_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Large records of one plan, on the heap. */
typedef struct {
    const ls_demonstration_request *request;
    ls_aircraft aircraft; /* with the rudder that the instructor allows */
    ls_breakdown pair;
    ls_demonstration *out;
} plan;

static double body_bank(double bank_rad, int live_side)
{
    return live_side < 0 ? -bank_rad : bank_rad;
}

/* Where heading is lost in a state of the failed engine, and the stall there. */
static double lost_at(const plan *p, const ls_condition *condition, ls_engine_state state, double *stall_m_s)
{
    ls_model model;
    ls_vmc vmc;
    ls_condition failed = *condition;
    ls_condition_fail_as(&p->aircraft, p->out->failed, state, &failed);
    *stall_m_s = NAN;
    if (ls_model_make(&p->aircraft, &failed, &model, NULL) != LS_OK ||
        ls_vmc_at(&model, failed.bank_rad, &vmc, NULL) != LS_OK) {
        return NAN;
    }
    *stall_m_s = vmc.stall_cas_m_s;
    return vmc.control_cas_m_s;
}

/* A state that the file has the numbers for. */
static int has_state(const plan *p, const ls_condition *condition, ls_engine_state state)
{
    ls_model model;
    ls_powerplant_point point;
    ls_condition failed = *condition;
    ls_condition_fail_as(&p->aircraft, p->out->failed, state, &failed);
    return ls_model_make(&p->aircraft, &failed, &model, NULL) == LS_OK &&
           ls_powerplant_at(&model, 1.2 * model.stall_V_m_s, &point, NULL) == LS_OK;
}

/* The idling engine: as the file has it, else between no thrust and windmilling. */
static void solve_idle(const plan *p, const ls_condition *condition, ls_demonstration_point *point)
{
    ls_engine_state low = p->out->idle_is_bounds ? LS_ZERO_THRUST : LS_IDLE;
    double stall_m_s[2];
    point->idle_m_s[0] = lost_at(p, condition, low, &stall_m_s[0]);
    point->idle_m_s[1] =
        p->out->idle_is_bounds ? lost_at(p, condition, LS_WINDMILLING, &stall_m_s[1]) : point->idle_m_s[0];
    point->stall_m_s = stall_m_s[0];
    point->margin_m_s = point->idle_m_s[0] - point->stall_m_s;
}

/* Best one-engine climb with the engine idling as much as the file can say, without sideslip. */
static double climb_speed(const plan *p, const ls_condition *condition)
{
    ls_model model;
    ls_climb_best best;
    ls_climb_rule rule = {.bank = LS_CLIMB_BANK_NO_SIDESLIP};
    ls_condition failed = *condition;
    ls_condition_fail_as(&p->aircraft, p->out->failed,
                         has_state(p, condition, LS_FEATHERED) ? LS_FEATHERED : LS_WINDMILLING, &failed);
    if (ls_model_make(&p->aircraft, &failed, &model, NULL) != LS_OK ||
        ls_climb_best_speed(&model, rule, LS_CLIMB_RATE, 0.0, &best, NULL) != LS_OK) {
        return NAN;
    }
    return best.point.cas_m_s;
}

static ls_demonstration_advice advise(const ls_demonstration_point *point, double margin_m_s)
{
    if (!isfinite(point->stall_m_s)) {
        return LS_DEMONSTRATE_UNKNOWN;
    }
    if (!(point->margin_m_s > 0.0)) { /* also where no control limit was met above the end of the range */
        return LS_DEMONSTRATE_STALL_FIRST;
    }
    return point->margin_m_s < margin_m_s ? LS_DEMONSTRATE_TOO_CLOSE : LS_DEMONSTRATE;
}

/* The share of the rudder that is in use, idling, at the margin above the stall: stopped there, heading is lost
 * with that margin in hand. */
static double block_at(const plan *p, const ls_condition *condition, const ls_demonstration_point *point)
{
    ls_model model;
    ls_airspeed speed;
    ls_trim trim;
    ls_margins margins;
    ls_condition failed = *condition;
    ls_condition_fail_as(p->request->aircraft, p->out->failed, p->out->idle_is_bounds ? LS_ZERO_THRUST : LS_IDLE,
                         &failed);
    if (!isfinite(point->stall_m_s) || ls_model_make(p->request->aircraft, &failed, &model, NULL) != LS_OK ||
        ls_airspeed_from_cas(&model.air, point->stall_m_s + p->request->margin_m_s, &speed, NULL) != LS_OK ||
        ls_trim_solve(&model, speed.TAS_m_s, failed.bank_rad, &trim, NULL) != LS_OK) {
        return NAN;
    }
    ls_margins_at(&model, &trim, &margins);
    double used = 1.0 - margins.left[LS_LIMIT_RUDDER];
    return used <= 1.0 ? used : NAN;
}

static void solve_point(plan *p, double altitude_m, double mass_kg, ls_demonstration_point *point)
{
    double unused_m_s;
    ls_condition condition = p->out->base;
    condition.altitude_m = altitude_m;
    condition.mass_kg = mass_kg;
    point->altitude_m = altitude_m;
    point->mass_kg = mass_kg;
    solve_idle(p, &condition, point);
    point->dead_m_s = lost_at(p, &condition, LS_WINDMILLING, &unused_m_s);
    point->feathered_m_s = lost_at(p, &condition, LS_FEATHERED, &unused_m_s);
    point->entry_m_s = fmax(climb_speed(p, &condition), p->out->vsse_m_s) + LS_DEMONSTRATION_ABOVE_M_S;
    point->advice = advise(point, p->request->margin_m_s);
    point->block = block_at(p, &condition, point);
}

/* Given: name, of a speed. What is left there with the engine dead. */
static void add_authority(plan *p, const char *name, double cas_m_s)
{
    ls_model model;
    ls_airspeed speed;
    ls_trim trim;
    ls_authority *at = &p->out->authority[p->out->authorities++];
    *at = (ls_authority){.name = name, .cas_m_s = cas_m_s, .status = LS_NO_STATE};
    if (isfinite(cas_m_s) && ls_model_make(&p->aircraft, &p->out->base, &model, NULL) == LS_OK &&
        ls_airspeed_from_cas(&model.air, cas_m_s, &speed, NULL) == LS_OK) {
        at->status = ls_trim_solve(&model, speed.TAS_m_s, p->out->base.bank_rad, &trim, NULL);
    }
    if (at->status == LS_OK) {
        ls_margins_at(&model, &trim, &at->margins);
    }
}

/* The run of speeds for the chart: from the slower of limit and stall to the entry. */
static void solve_use(plan *p)
{
    ls_model model;
    ls_airspeed low, high;
    const ls_demonstration_point *first = &p->out->point[0];
    double slow_m_s = fmin(first->stall_m_s, isfinite(first->dead_m_s) ? first->dead_m_s : first->stall_m_s);
    double fast_m_s = isfinite(first->entry_m_s) ? first->entry_m_s : 1.6 * slow_m_s;
    if (ls_model_make(&p->aircraft, &p->out->base, &model, NULL) == LS_OK &&
        ls_airspeed_from_cas(&model.air, 0.95 * slow_m_s, &low, NULL) == LS_OK &&
        ls_airspeed_from_cas(&model.air, fmax(1.05 * fast_m_s, 1.2 * slow_m_s), &high, NULL) == LS_OK) {
        ls_control_use_solve(&model, p->out->base.bank_rad, low.TAS_m_s, high.TAS_m_s, LS_DEMONSTRATION_SPEEDS,
                             p->out->use);
    }
}

/* The engine: the one that was asked for, or the critical one. */
static ls_status choose(plan *p, ls_error *error)
{
    const ls_vmca_request *request = &p->request->request;
    ls_status status = ls_breakdown_start(&p->aircraft, request, &p->pair, error);
    if (status != LS_OK) {
        return status;
    }
    int critical = 0;
    if (p->pair.sides > 1 && request->sets != 1) {
        critical = ls_breakdown_control(&p->aircraft, &p->pair.side[1].condition) >
                   ls_breakdown_control(&p->aircraft, &p->pair.side[0].condition);
    }
    const ls_breakdown_side *side = &p->pair.side[critical];
    p->out->failed = side->failed;
    p->out->live_side = side->live_side;
    p->out->base = side->condition;
    p->out->bank_rad = body_bank(side->condition.bank_rad, side->live_side);
    return LS_OK;
}

static void solve_points(plan *p)
{
    const ls_demonstration_request *request = p->request;
    const ls_aircraft *aircraft = request->aircraft;
    int masses = request->request.search & LS_SEARCH_MASS ? LS_DEMONSTRATION_MASSES : 1;
    for (int i = 0; i < request->altitudes; i++) {
        for (int k = 0; k < masses; k++) {
            double mass_kg = masses == 1 ? request->request.condition.mass_kg
                             : k == 0    ? aircraft->mass.minimum_kg
                                         : aircraft->mass.maximum_kg;
            solve_point(p, request->altitude_m[i], mass_kg, &p->out->point[p->out->points++]);
        }
    }
}

ls_status ls_demonstration_solve(const ls_demonstration_request *request, ls_demonstration *demonstration,
                                 ls_error *error)
{
    plan *p = calloc(1, sizeof *p);
    if (p == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    memset(demonstration, 0, sizeof *demonstration);
    p->request = request;
    p->out = demonstration;
    p->aircraft = *request->aircraft;
    p->aircraft.rudder.left_rad *= request->rudder_share;
    p->aircraft.rudder.right_rad *= request->rudder_share;
    ls_status status = choose(p, error);
    if (status == LS_OK) {
        demonstration->idle_is_bounds = !has_state(p, &demonstration->base, LS_IDLE);
        demonstration->vsse_m_s = ls_published_cas(request->aircraft, request->aircraft->published.vsse_m_s);
        solve_points(p);
        demonstration->base.altitude_m = demonstration->point[0].altitude_m;
        demonstration->base.mass_kg = demonstration->point[0].mass_kg;
        ls_condition_fail_as(request->aircraft, demonstration->failed, LS_WINDMILLING, &demonstration->base);
        if (request->cas_m_s > 0.0) {
            add_authority(p, "asked", request->cas_m_s);
        }
        add_authority(p, "VSSE", demonstration->vsse_m_s);
        add_authority(p, "entry", demonstration->point[0].entry_m_s);
        solve_use(p);
    }
    free(p);
    return status;
}
