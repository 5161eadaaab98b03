/* Two failures side by side at one condition. */
#include "liveside/airspeed.h"
#include "study/breakdown_parts.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define KT (1852.0 / 3600.0)

/* The failures of a request as conditions: each banked toward its own live side. */
static void set_sides(const ls_aircraft *aircraft, const ls_vmca_request *request, const unsigned *failed,
                      ls_breakdown *breakdown)
{
    double bank_rad = request->bank_given ? request->bank_rad : request->condition.bank_limit_rad;
    for (int i = 0; i < breakdown->sides; i++) {
        ls_breakdown_side *side = &breakdown->side[i];
        side->failed = failed[i];
        side->condition = request->condition;
        if (request->state < 0) {
            ls_condition_fail(aircraft, failed[i], &side->condition);
        } else {
            ls_condition_fail_as(aircraft, failed[i], (ls_engine_state)request->state, &side->condition);
        }
        side->live_side = ls_live_side(aircraft, &side->condition);
        side->condition.bank_rad = bank_rad * side->live_side;
    }
}

/* Weight and centre of gravity of the worse failure, for both; fuel imbalance only where it was asked for. */
static ls_status set_loading(const ls_aircraft *aircraft, const ls_vmca_request *request, ls_breakdown *breakdown,
                             ls_error *error)
{
    unsigned search = request->search & ~(unsigned)LS_SEARCH_LATERAL;
    ls_vmc highest;
    ls_condition worst = breakdown->side[0].condition;
    for (int i = 0; i < breakdown->sides && search != 0; i++) {
        ls_condition found;
        ls_vmc vmc;
        const ls_condition *condition = &breakdown->side[i].condition;
        ls_status status = ls_vmc_worst(aircraft, condition, search, condition->bank_rad, &found, &vmc, error);
        if (status != LS_OK) {
            return status;
        }
        if (i == 0 || ls_vmc_is_worse(&vmc, &highest)) {
            highest = vmc;
            worst = found;
        }
    }
    for (int i = 0; i < breakdown->sides; i++) {
        breakdown->side[i].condition.mass_kg = worst.mass_kg;
        breakdown->side[i].condition.cg_aft_m = worst.cg_aft_m;
    }
    return LS_OK;
}

static void solve_vmc(const ls_aircraft *aircraft, const ls_condition *condition, int live_side,
                      ls_vmca_point *point)
{
    double toward = live_side < 0 ? -condition->bank_rad : condition->bank_rad;
    ls_vmca_point_solve(aircraft, condition, live_side, toward, point);
}

static void solve_speeds(const ls_aircraft *aircraft, ls_breakdown_side *side)
{
    solve_vmc(aircraft, &side->condition, side->live_side, &side->vmc);
    for (int rotation = 0; rotation < LS_ROTATIONS; rotation++) {
        ls_condition turned = side->condition;
        turned.rotation = rotation == LS_ROTATION_FILE ? turned.rotation : (ls_rotation)rotation;
        solve_vmc(aircraft, &turned, side->live_side, &side->by_rotation[rotation]);
    }
}

static void find_critical(ls_breakdown *breakdown, int rotation)
{
    const ls_vmca_point *first = &breakdown->side[0].by_rotation[rotation];
    const ls_vmca_point *second = &breakdown->side[1].by_rotation[rotation];
    breakdown->critical[rotation] = LS_CRITICAL_UNKNOWN;
    breakdown->critical_by_m_s[rotation] = NAN;
    if (breakdown->sides < 2 || first->status != LS_OK || second->status != LS_OK) {
        return;
    }
    double difference_m_s = first->vmc.cas_m_s - second->vmc.cas_m_s;
    int controlled = (first->vmc.kind == LS_VMC_CONTROL) + (second->vmc.kind == LS_VMC_CONTROL);
    if (controlled == 0 && first->vmc.kind != LS_VMC_ABOVE_RANGE && second->vmc.kind != LS_VMC_ABOVE_RANGE) {
        breakdown->critical[rotation] = LS_CRITICAL_STALL;
        breakdown->critical_by_m_s[rotation] = fabs(difference_m_s);
    } else if (isfinite(difference_m_s)) {
        breakdown->critical_by_m_s[rotation] = fabs(difference_m_s);
        breakdown->critical[rotation] =
            fabs(difference_m_s) <= 0.1 * KT ? LS_CRITICAL_NEITHER : difference_m_s < 0.0;
    }
}

/* The higher of the two answers, or a fifth above the stall where there is none. */
static double usual_speed(const ls_breakdown *breakdown, const ls_model *model)
{
    double highest_m_s = NAN;
    for (int i = 0; i < breakdown->sides; i++) {
        const ls_vmca_point *point = &breakdown->side[i].vmc;
        if (point->status == LS_OK && isfinite(point->vmc.V_m_s)) {
            highest_m_s = fmax(highest_m_s, point->vmc.V_m_s);
        }
    }
    return isfinite(highest_m_s) ? highest_m_s : 1.2 * model->stall_V_m_s;
}

static ls_status set_speed(const ls_model *model, double cas_m_s, ls_breakdown *breakdown, ls_error *error)
{
    ls_airspeed speed;
    breakdown->speed_given = cas_m_s > 0.0;
    ls_status status = breakdown->speed_given
                           ? ls_airspeed_from_cas(&model->air, cas_m_s, &speed, error)
                           : ls_airspeed_from_tas(&model->air, usual_speed(breakdown, model), &speed, error);
    if (status == LS_OK) {
        breakdown->V_m_s = speed.TAS_m_s;
        breakdown->cas_m_s = speed.CAS_m_s;
    }
    return status;
}

static void solve_balance(const ls_aircraft *aircraft, double V_m_s, ls_breakdown_side *side)
{
    ls_model model;
    ls_error error = {0};
    side->status = ls_model_make(aircraft, &side->condition, &model, &error);
    if (side->status == LS_OK) {
        side->status = ls_powerplant_at(&model, V_m_s, &side->point, &error);
    }
    if (side->status == LS_OK) {
        side->status = ls_trim_at(&model, &side->point, side->condition.bank_rad, NULL, &side->trim);
        if (side->status != LS_OK) {
            ls_fail(&error, side->status, "no balance at this speed: %s", ls_stop_text(side->trim.stop));
        }
    }
    if (side->status == LS_OK) {
        ls_margins_at(&model, &side->trim, &side->margins);
        ls_trim_balance(&model, &side->point, &side->trim, &side->balance);
        ls_breakdown_moments(&model, side);
    }
    snprintf(side->reason, sizeof side->reason, "%.*s", (int)sizeof side->reason - 1, error.text);
}

static ls_status solve(const ls_aircraft *aircraft, const ls_vmca_request *request, double cas_m_s,
                       ls_aircraft *scratch, ls_breakdown *breakdown, ls_error *error)
{
    ls_model model;
    ls_status status = LS_OK;
    for (int i = 0; i < breakdown->sides && status == LS_OK; i++) {
        solve_speeds(aircraft, &breakdown->side[i]);
    }
    status = status == LS_OK ? ls_model_make(aircraft, &breakdown->side[0].condition, &model, error) : status;
    status = status == LS_OK ? set_speed(&model, cas_m_s, breakdown, error) : status;
    if (status != LS_OK) {
        return status;
    }
    for (int i = 0; i < breakdown->sides; i++) {
        solve_balance(aircraft, breakdown->V_m_s, &breakdown->side[i]);
        ls_breakdown_worths(aircraft, scratch, &breakdown->side[i]);
        ls_attitudes *at = &breakdown->side[i].attitudes; /* the worst for control is not the usual for climb */
        at->mass_kg = request->search & LS_SEARCH_MASS ? aircraft->mass.maximum_kg : request->condition.mass_kg;
        at->cg_aft_m = request->search & LS_SEARCH_CG ? aircraft->cg.reference_m : request->condition.cg_aft_m;
        ls_breakdown_attitudes(aircraft, &breakdown->side[i]);
    }
    for (int rotation = 0; rotation < LS_ROTATIONS; rotation++) {
        find_critical(breakdown, rotation);
    }
    return LS_OK;
}

ls_status ls_breakdown_start(const ls_aircraft *aircraft, const ls_vmca_request *request, ls_breakdown *breakdown,
                             ls_error *error)
{
    unsigned failed[LS_BREAKDOWN_SIDES];
    memset(breakdown, 0, sizeof *breakdown);
    breakdown->sides = ls_breakdown_pair(aircraft, request, failed);
    if (breakdown->sides == 0) {
        return ls_fail(error, LS_NO_STATE, "the aeroplane has one engine: there is no other to compare it with");
    }
    set_sides(aircraft, request, failed, breakdown);
    return set_loading(aircraft, request, breakdown, error);
}

ls_status ls_breakdown_solve(const ls_aircraft *aircraft, const ls_vmca_request *request, double cas_m_s,
                             ls_breakdown *breakdown, ls_error *error)
{
    ls_status status = ls_breakdown_start(aircraft, request, breakdown, error);
    if (status != LS_OK) {
        return status;
    }
    ls_aircraft *scratch = malloc(sizeof *scratch);
    if (scratch == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    status = solve(aircraft, request, cas_m_s, scratch, breakdown, error);
    free(scratch);
    return status;
}
