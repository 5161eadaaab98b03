#include "liveside/testcard.h"

#include "liveside/airspeed.h"
#include "liveside/failure.h"
#include "liveside/reduce.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)
#define KT  (1852.0 / 3600.0)

static const double steps[] = {1.40, 1.25, 1.15, 1.08, 1.00};     /* of the lowest speed of a series */
static const double dynamic_above_kt[] = {20.0, 15.0, 10.0, 5.0}; /* above the expected static speed */
static const double pull_out_m = 500.0 * 0.3048; /* own allowance: from control regained to level flight */
static const double higher_m = 3000.0 * 0.3048;  /* between the two altitudes */

/* "left", "left outer+left inner" */
static void name_failed(const ls_aircraft *aircraft, unsigned failed, char out[LS_POINT_WORD])
{
    size_t used = 0;
    out[0] = '\0';
    for (int i = 0; i < aircraft->engines && used < LS_POINT_WORD; i++) {
        if (failed >> i & 1u) {
            used += (size_t)snprintf(out + used, LS_POINT_WORD - used, "%s%s", used > 0 ? "+" : "",
                                     aircraft->engine[i].name);
        }
    }
}

static int state_of_failed(const ls_condition *condition)
{
    int i = 0;
    while (condition->state[i] == LS_RUNNING) {
        i++;
    }
    return condition->state[i];
}

/* What the card has of a point before it is flown. */
static ls_point *start_point(const ls_card_request *request, ls_card *card, const ls_model *model)
{
    const ls_condition *condition = &model->condition;
    ls_point *point = &card->point[card->count++];
    ls_point_clear(point);
    snprintf(point->id, sizeof point->id, "%d.%d", card->series_count,
             card->count - card->series[card->series_count - 1].first);
    name_failed(request->aircraft, ls_condition_failed(request->aircraft, condition), point->failed);
    snprintf(point->propeller, sizeof point->propeller, "%s", ls_point_state_word(state_of_failed(condition)));
    snprintf(point->flap, sizeof point->flap, "%.*s", LS_POINT_WORD - 1,
             request->aircraft->flap[condition->flap].name);
    snprintf(point->gear, sizeof point->gear, "%s", condition->gear > 0.5 ? "down" : "up");
    point->altitude_m = condition->altitude_m;
    point->T_K = model->air.T_K;
    point->mass_kg = condition->mass_kg;
    point->cg_aft_m = condition->cg_aft_m;
    point->cg_right_m = condition->cg_right_m;
    point->bank_rad = condition->bank_rad;
    card->break_off_m[card->count - 1] = NAN;
    return point;
}

static void expect(const ls_model *model, double cas_m_s, double stall_cas_m_s, ls_point *point)
{
    ls_airspeed speed;
    ls_trim trim;
    point->expected_cas_m_s = cas_m_s;
    point->stall_margin_m_s = cas_m_s - stall_cas_m_s;
    if (ls_airspeed_from_cas(&model->air, cas_m_s, &speed, NULL) == LS_OK &&
        ls_trim_solve(model, speed.TAS_m_s, model->condition.bank_rad, &trim, NULL) == LS_OK) {
        point->expected_beta_rad = trim.beta_rad;
        point->expected_rudder_rad = trim.rudder_rad;
        point->expected_aileron_rad = trim.aileron_rad;
        point->expected_force_N = trim.pedal_force_N;
    }
}

static ls_card_series *start_series(ls_card *card, const ls_model *model, double bank_rad, const ls_vmc *vmc)
{
    ls_card_series *series = &card->series[card->series_count++];
    *series = (ls_card_series){.first = card->count,
                               .bank_rad = bank_rad,
                               .altitude_m = model->condition.altitude_m,
                               .mass_kg = model->condition.mass_kg,
                               .vmc_cas_m_s = vmc->control_cas_m_s,
                               .stall_cas_m_s = vmc->stall_cas_m_s,
                               .limit = vmc->control_limit};
    return series;
}

/* The model of a series, and its expected speeds. */
static ls_status prepare(const ls_card_request *request, double bank_rad, double altitude_m, double mass_kg,
                         ls_model *model, ls_vmc *vmc, ls_error *error)
{
    ls_condition condition = request->condition;
    condition.bank_rad = bank_rad * ls_live_side(request->aircraft, &request->condition);
    condition.altitude_m = altitude_m;
    condition.mass_kg = mass_kg;
    ls_status status = ls_model_make(request->aircraft, &condition, model, error);
    status = status == LS_OK ? ls_vmc_at(model, condition.bank_rad, vmc, error) : status;
    if (status == LS_OK && isnan(vmc->stall_cas_m_s)) {
        ls_airspeed stall;
        status = ls_airspeed_from_tas(&model->air, model->stall_V_m_s, &stall, error);
        vmc->stall_cas_m_s = status == LS_OK ? stall.CAS_m_s : NAN;
    }
    return status;
}

static ls_status add_static(const ls_card_request *request, ls_card *card, double bank_rad, double altitude_m,
                            double mass_kg, ls_error *error)
{
    ls_model model;
    ls_vmc vmc;
    ls_status status = prepare(request, bank_rad, altitude_m, mass_kg, &model, &vmc, error);
    if (status != LS_OK) {
        return status;
    }
    ls_card_series *series = start_series(card, &model, bank_rad, &vmc);
    double margin_m_s = vmc.stall_cas_m_s + request->stall_margin_m_s;
    series->end = vmc.control_cas_m_s > margin_m_s ? LS_CARD_LIMIT : LS_CARD_STALL;
    double lowest_m_s = series->end == LS_CARD_STALL ? margin_m_s : vmc.control_cas_m_s;
    for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++) {
        ls_point *point = start_point(request, card, &model);
        snprintf(point->test, sizeof point->test, "static");
        expect(&model, steps[i] * lowest_m_s, vmc.stall_cas_m_s, point);
        series->count++;
    }
    return LS_OK;
}

/* ---- the dynamic series ---- */

/* One step of it, as expected. */
typedef struct {
    ls_card_end end; /* LS_CARD_LIMIT: it may be flown */
    double heading_change_rad, height_loss_m, break_off_m;
} sudden;

static void start_motion(const ls_card_request *request, const ls_model *model, double V_m_s,
                         ls_motion_request *motion)
{
    ls_condition running = model->condition;
    unsigned failed = ls_condition_failed(request->aircraft, &running);
    int state = state_of_failed(&running);
    ls_condition_fail_as(request->aircraft, 0, LS_RUNNING, &running);
    ls_motion_usual(request->aircraft, &running, failed, V_m_s, motion);
    motion->state = (ls_engine_state)state;
    motion->bank_rad = model->condition.bank_rad;
    motion->delay_s = request->delay_s;
}

/* Height lost below the entry when the pilot waits until 20 deg of heading or 45 deg of bank, then throttles back
 * and lowers the nose; infinite when that does not regain control. */
static ls_status find_break_off(const ls_card_request *request, const ls_motion_request *asked, double *height_m)
{
    ls_motion_request motion = *asked;
    ls_motion flown;
    ls_recovery recovery;
    motion.until_beyond = 1;
    motion.delay_s = INFINITY;
    ls_status status = ls_motion_run(request->aircraft, &motion, &flown, NULL);
    if (status != LS_OK) {
        return status;
    }
    motion.until_beyond = 0;
    motion.delay_s = motion.recover_s = flown.end_s;
    motion.duration_s += flown.end_s;
    ls_motion_free(&flown);
    status = ls_motion_run(request->aircraft, &motion, &flown, NULL);
    if (status == LS_OK) {
        ls_recovery_of(&flown, motion.recover_s, &recovery);
        *height_m = recovery.is_regained ? -recovery.lowest_m : INFINITY;
        ls_motion_free(&flown);
    }
    return status;
}

static ls_status fail_at(const ls_card_request *request, const ls_model *model, double V_m_s, sudden *step)
{
    ls_motion_request motion;
    ls_motion flown;
    start_motion(request, model, V_m_s, &motion);
    *step = (sudden){.end = LS_CARD_UNKNOWN};
    ls_status status = find_break_off(request, &motion, &step->break_off_m);
    motion.until_straight = motion.until_beyond = 1;
    motion.duration_s = 90.0;
    status = status == LS_OK ? ls_motion_run(request->aircraft, &motion, &flown, NULL) : status;
    if (status != LS_OK) {
        return status == LS_MEMORY ? status : LS_OK;
    }
    step->heading_change_rad = flown.heading_most_rad;
    step->height_loss_m = fmax(0.0, -flown.climbed_least_m);
    double left_m = model->condition.altitude_m - request->floor_m - pull_out_m;
    step->end = flown.end != LS_MOTION_STRAIGHT                         ? LS_CARD_SWING
                : isinf(step->break_off_m)                              ? LS_CARD_LOST
                : fmax(step->break_off_m, step->height_loss_m) > left_m ? LS_CARD_FLOOR
                                                                        : LS_CARD_LIMIT;
    ls_motion_free(&flown);
    return LS_OK;
}

static ls_status add_dynamic(const ls_card_request *request, ls_card *card, double altitude_m, ls_error *error)
{
    ls_model model;
    ls_vmc vmc;
    double bank_rad = request->condition.bank_limit_rad;
    ls_status status = prepare(request, bank_rad, altitude_m, request->condition.mass_kg, &model, &vmc, error);
    if (status != LS_OK || isnan(vmc.control_cas_m_s)) {
        return status;
    }
    ls_card_series *series = start_series(card, &model, bank_rad, &vmc);
    series->is_dynamic = 1;
    for (size_t i = 0; i < sizeof dynamic_above_kt / sizeof dynamic_above_kt[0]; i++) {
        double cas_m_s = vmc.control_cas_m_s + dynamic_above_kt[i] * KT;
        ls_airspeed speed;
        sudden step = {.end = LS_CARD_STALL};
        if (cas_m_s >= vmc.stall_cas_m_s + request->stall_margin_m_s) {
            status = ls_airspeed_from_cas(&model.air, cas_m_s, &speed, error);
            status = status == LS_OK ? fail_at(request, &model, speed.TAS_m_s, &step) : status;
        }
        series->end = step.end;
        if (status != LS_OK || step.end != LS_CARD_LIMIT) {
            return status == LS_MEMORY ? ls_fail(error, LS_MEMORY, "out of memory") : status;
        }
        ls_point *point = start_point(request, card, &model);
        snprintf(point->test, sizeof point->test, "dynamic");
        point->expected_cas_m_s = cas_m_s;
        point->stall_margin_m_s = cas_m_s - vmc.stall_cas_m_s;
        point->expected_heading_change_rad = step.heading_change_rad;
        point->expected_height_loss_m = step.height_loss_m;
        card->break_off_m[card->count - 1] = step.break_off_m;
        series->count++;
    }
    return LS_OK;
}

ls_status ls_card_make(const ls_card_request *request, ls_card *card, ls_error *error)
{
    const ls_condition *condition = &request->condition;
    double limit_rad = condition->bank_limit_rad, low_m = condition->altitude_m, high_m = low_m + higher_m;
    memset(card, 0, sizeof *card);
    card->live_side = ls_live_side(request->aircraft, condition);
    if (low_m < request->floor_m) {
        return ls_fail(error, LS_USAGE, "--altitude %.0f ft is below the floor of %.0f ft: no test is flown there",
                       low_m / 0.3048, request->floor_m / 0.3048);
    }
    if (card->live_side == 0) {
        return ls_fail(error, LS_USAGE, "--failed: the thrust is symmetric, so there is nothing to hold");
    }
    double mass_kg = condition->mass_kg, light_kg = request->aircraft->mass.minimum_kg;
    ls_status status = add_static(request, card, limit_rad, high_m, mass_kg, error);
    status = status == LS_OK ? add_static(request, card, limit_rad / 2.0, high_m, mass_kg, error) : status;
    status = status == LS_OK ? add_static(request, card, 0.0, high_m, mass_kg, error) : status;
    status = status == LS_OK ? add_static(request, card, limit_rad, low_m, mass_kg, error) : status;
    status = status == LS_OK ? add_static(request, card, limit_rad / 2.0, low_m, mass_kg, error) : status;
    status = status == LS_OK ? add_static(request, card, 0.0, low_m, mass_kg, error) : status;
    if (status == LS_OK && light_kg < 0.97 * mass_kg) {
        status = add_static(request, card, limit_rad, low_m, light_kg, error);
    }
    return status == LS_OK ? add_dynamic(request, card, high_m, error) : status;
}
