/* Against altitude: the margins between the speeds, where they meet, and drift-down. */
#include "liveside/airspeed.h"
#include "num/root.h"
#include "study/performance_parts.h"

#include <math.h>
#include <string.h>

#define CROSSING_TOL_M 1.0

const char *ls_margin_name(ls_margin margin)
{
    static const char *const names[LS_MARGINS] = {"stall", "VMC", "VSSE", "VXSE", "VYSE"};
    return (unsigned)margin < LS_MARGINS ? names[margin] : "unknown";
}

ls_status ls_case_best_rate(const ls_aircraft *aircraft, const ls_condition *condition, ls_climb_rule rule,
                            double altitude_m, double *near_eas_m_s, ls_climb_best *best, ls_error *error)
{
    ls_model model;
    ls_condition at = *condition;
    at.altitude_m = altitude_m;
    ls_status status = ls_model_make(aircraft, &at, &model, error);
    if (status == LS_OK) {
        double root_sigma = sqrt(model.air.sigma);
        status = ls_climb_best_speed(&model, rule, LS_CLIMB_RATE, *near_eas_m_s / root_sigma, best, error);
        *near_eas_m_s = status == LS_OK ? best->point.V_m_s * root_sigma : 0.0;
    }
    return status;
}

/* ---- margins ---- */

typedef struct {
    const ls_performance_request *request;
    const ls_performance_case *of;
    double vsse_cas_m_s;     /* NaN without a published one */
    double near_eas_m_s[3];  /* of VYSE, VXSE and VY at the altitude before */
    ls_margin first, second; /* whose difference `gap_at` gives */
} margins;

typedef struct {
    const ls_aircraft *aircraft;
    double ias_m_s;
} indication;

static double indication_error(double cas_m_s, void *context)
{
    const indication *it = context;
    return ls_indicated_airspeed(it->aircraft, cas_m_s, NULL) - it->ias_m_s;
}

double ls_published_cas(const ls_aircraft *aircraft, double published_m_s)
{
    indication it = {aircraft, published_m_s};
    ls_root_options options = {.x_tol = 1e-6};
    ls_root_report report;
    if (!ls_given(published_m_s) || aircraft->published.vmc_kind == 0 || aircraft->position_error.rows == 0) {
        return published_m_s;
    }
    ls_status status =
        ls_root_find(indication_error, &it, 0.7 * published_m_s, 1.4 * published_m_s, &options, &report);
    return status == LS_OK ? report.x : NAN;
}

static double cas_of(const ls_model *model, double V_m_s)
{
    ls_airspeed speed;
    return ls_airspeed_from_tas(&model->air, V_m_s, &speed, NULL) == LS_OK ? speed.CAS_m_s : NAN;
}

/* VMC as the engine goes by itself, at the bank limit, at this weight. */
static void solve_vmc(const margins *m, double altitude_m, ls_height *height)
{
    ls_model model;
    ls_vmc vmc;
    const ls_performance_case *of = m->of;
    ls_condition condition = ls_case_condition(&m->request->condition, m->request->aircraft, of->failed,
                                               of->failed != 0 ? LS_ENGINE_STATES : LS_RUNNING);
    double bank_rad = ls_case_body_bank(condition.bank_limit_rad, of->live_side);
    condition.altitude_m = altitude_m;
    condition.is_continuous = 0;
    if (ls_model_make(m->request->aircraft, &condition, &model, NULL) == LS_OK) {
        height->cas_m_s[LS_MARGIN_STALL] = cas_of(&model, model.stall_V_m_s);
        if (of->failed != 0 && ls_vmc_at(&model, bank_rad, &vmc, NULL) == LS_OK) {
            height->cas_m_s[LS_MARGIN_VMC] = vmc.control_cas_m_s;
        }
    }
}

/* Best speeds of one condition. Given: near_eas_m_s and cas_m_s of rate and gradient. */
static ls_status solve_best(const margins *m, const ls_condition *condition, ls_climb_rule rule,
                            double near_eas_m_s[2], ls_climb_best best[2], ls_error *error)
{
    ls_model model;
    ls_status status = ls_model_make(m->request->aircraft, condition, &model, error);
    double root_sigma = status == LS_OK ? sqrt(model.air.sigma) : 1.0;
    for (int aim = 0; aim < 2 && status == LS_OK; aim++) {
        status = ls_climb_best_speed(&model, rule, aim == 0 ? LS_CLIMB_RATE : LS_CLIMB_GRADIENT,
                                     near_eas_m_s[aim] / root_sigma, &best[aim], error);
        near_eas_m_s[aim] = status == LS_OK ? best[aim].point.V_m_s * root_sigma : 0.0;
    }
    return status;
}

static void solve_height(margins *m, double altitude_m, ls_height *height)
{
    ls_climb_best best[2], all;
    ls_error error = {0};
    ls_condition condition = m->of->condition;
    ls_climb_rule level = {LS_CLIMB_BANK_GIVEN, 0.0, LS_LEAST_STALLS};
    ls_condition running = ls_case_condition(&m->request->condition, m->request->aircraft, 0, LS_RUNNING);
    memset(height, 0, sizeof *height);
    height->altitude_m = condition.altitude_m = altitude_m;
    for (int i = 0; i < LS_MARGINS; i++) {
        height->cas_m_s[i] = NAN;
    }
    height->vy_cas_m_s = height->rate_all_m_s = height->rate_one_m_s = NAN;
    height->cas_m_s[LS_MARGIN_VSSE] = m->vsse_cas_m_s;
    solve_vmc(m, altitude_m, height);
    if (ls_case_best_rate(m->request->aircraft, &running, level, altitude_m, &m->near_eas_m_s[2], &all, NULL) ==
        LS_OK) {
        height->vy_cas_m_s = all.point.cas_m_s;
        height->rate_all_m_s = all.point.rate_m_s;
        height->flags |= all.point.flags;
    }
    height->status = solve_best(m, &condition, m->of->rule, m->near_eas_m_s, best, &error);
    if (height->status != LS_OK) {
        ls_case_reason(height->reason, &error);
        return;
    }
    height->rate_one_m_s = best[0].point.rate_m_s;
    height->flags |= best[0].point.flags | best[1].point.flags;
    for (int aim = 0; aim < 2; aim++) {
        height->cas_m_s[aim == 0 ? LS_MARGIN_VYSE : LS_MARGIN_VXSE] = best[aim].point.cas_m_s;
        height->end[aim] = best[aim].end;
    }
}

static double gap_at(double altitude_m, void *context)
{
    margins *m = context;
    ls_height height;
    solve_height(m, altitude_m, &height);
    return height.cas_m_s[m->second] - height.cas_m_s[m->first];
}

/* The first altitude at which two speeds change places. */
static void find_crossing(margins *m, ls_heights *out)
{
    ls_root_options options = {.x_tol = CROSSING_TOL_M};
    ls_root_report report;
    for (int i = 1; i < out->heights; i++) {
        const ls_height *low = &out->height[i - 1], *high = &out->height[i];
        double before = low->cas_m_s[m->second] - low->cas_m_s[m->first];
        double after = high->cas_m_s[m->second] - high->cas_m_s[m->first];
        if (!(before * after < 0.0)) { /* speeds that coincide do not cross */
            continue;
        }
        if (before < 0.0) {
            ls_margin swap = m->first;
            m->first = m->second;
            m->second = swap;
        }
        if (ls_root_find(gap_at, m, low->altitude_m, high->altitude_m, &options, &report) == LS_OK) {
            out->crossing[out->crossings++] = (ls_crossing){m->first, m->second, report.x};
        }
        return;
    }
}

void ls_heights_solve(const ls_performance_request *request, const ls_performance_case *of, double step_m,
                      int heights, ls_heights *out)
{
    ls_air air;
    memset(out, 0, sizeof *out);
    margins m = {.request = request, .of = of};
    m.vsse_cas_m_s = ls_published_cas(request->aircraft, request->aircraft->published.vsse_m_s);
    for (int i = 0; i < heights && i < LS_HEIGHTS; i++) {
        if (ls_air_at(i * step_m, of->condition.isa_offset_K, &air, NULL) != LS_OK) {
            break;
        }
        solve_height(&m, i * step_m, &out->height[out->heights++]);
    }
    for (int first = 0; first < LS_MARGINS; first++) {
        for (int second = first + 1; second < LS_MARGINS; second++) {
            m.first = (ls_margin)first;
            m.second = (ls_margin)second;
            find_crossing(&m, out);
        }
    }
}
