#include "liveside/trend.h"

#include "liveside/airspeed.h"
#include "liveside/prepare.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Puts a point's values in place and solves it. An axis may change the aircraft: it works on its own copy. */
static void solve_point(const ls_trend_request *request, ls_aircraft *aircraft, ls_trend_point *point)
{
    ls_condition condition = request->condition;
    ls_error error = {0};
    ls_model model;
    double bank_rad = request->bank_rad;
    ls_vmca_point *answer = &point->point;
    *aircraft = *request->aircraft;
    int altitude_last =
        request->axes == 2 && request->axis[1].kind == LS_AXIS_ALTITUDE; /* it goes first: OAT needs it */
    for (int k = 0; k < request->axes && answer->status == LS_OK; k++) {
        int i = altitude_last ? 1 - k : k;
        answer->status = ls_trend_axis_apply(&request->axis[i], point->value[i], request->failed, aircraft,
                                             &condition, &bank_rad, &error);
    }
    answer->bank_rad = bank_rad;
    if (answer->status == LS_OK) { /* new tables only where the axis changes a propeller */
        answer->status = ls_aircraft_prepare(aircraft, request->aircraft, &error);
    }
    if (answer->status == LS_OK) {
        answer->status = ls_model_make(aircraft, &condition, &model, &error);
    }
    if (answer->status == LS_OK) {
        int side = ls_live_side(aircraft, &condition);
        answer->status = ls_vmc_at(&model, side < 0 ? -bank_rad : bank_rad, &answer->vmc, &error);
    }
    ls_aircraft_release(aircraft, request->aircraft);
    snprintf(answer->reason, sizeof answer->reason, "%.*s", (int)sizeof answer->reason - 1, error.text);
}

static ls_status run(const ls_trend_request *request, const ls_watch *watch, ls_aircraft *aircraft, int total,
                     ls_trend *trend, ls_error *error)
{
    int across = request->axes == 2 ? request->axis[1].points : 1;
    for (; trend->count < total; trend->count++) {
        ls_trend_point *point = &trend->point[trend->count];
        if (watch != NULL && watch->stop != NULL && watch->stop(watch->context)) {
            return ls_fail(error, LS_INTERRUPTED, "stopped after %d of %d points", trend->count, total);
        }
        point->value[0] = ls_trend_axis_value(&request->axis[0], trend->count / across);
        point->value[1] = request->axes == 2 ? ls_trend_axis_value(&request->axis[1], trend->count % across) : 0.0;
        solve_point(request, aircraft, point);
        if (watch != NULL && watch->progress != NULL) {
            watch->progress(watch->context, (trend->count + 1.0) / total);
        }
    }
    return LS_OK;
}

ls_status ls_trend_solve(const ls_trend_request *request, const ls_watch *watch, ls_trend *trend, ls_error *error)
{
    double total = (double)request->axis[0].points * (request->axes == 2 ? request->axis[1].points : 1);
    trend->count = 0;
    trend->point = NULL;
    if (total > LS_TREND_POINTS_MAX) {
        return ls_fail(error, LS_USAGE, "%.0f points; at most %d are allowed", total, LS_TREND_POINTS_MAX);
    }
    ls_aircraft *aircraft = malloc(sizeof *aircraft);
    trend->point = calloc((size_t)total, sizeof *trend->point);
    ls_status status = aircraft != NULL && trend->point != NULL
                           ? run(request, watch, aircraft, (int)total, trend, error)
                           : ls_fail(error, LS_MEMORY, "no memory for %.0f points", total);
    free(aircraft);
    if (status == LS_MEMORY) {
        ls_trend_free(trend);
    }
    return status;
}

void ls_trend_free(ls_trend *trend)
{
    free(trend->point);
    trend->point = NULL;
    trend->count = 0;
}

void ls_control_use_solve(const ls_model *model, double bank_rad, double low_m_s, double high_m_s, int count,
                          ls_control_use *use)
{
    for (int i = 0; i < count; i++) {
        ls_airspeed speed;
        memset(&use[i], 0, sizeof use[i]);
        use[i].V_m_s = low_m_s + (high_m_s - low_m_s) * i / (count - 1);
        use[i].status = ls_airspeed_from_tas(&model->air, use[i].V_m_s, &speed, NULL);
        if (use[i].status == LS_OK) {
            use[i].cas_m_s = speed.CAS_m_s;
            use[i].status = ls_trim_solve(model, use[i].V_m_s, bank_rad, &use[i].trim, NULL);
        }
        if (use[i].status == LS_OK) {
            ls_margins_at(model, &use[i].trim, &use[i].margins);
        }
    }
}
