#include "liveside/lesson.h"

#include <math.h>

/* Body-axis yaw is nose right; with the live engines on the right the dead side is the left one. */
static void add_part(const ls_part *part, double toward_dead, ls_lesson_yaw *yaw)
{
    double moment_Nm = toward_dead * part->moment_Nm[2];
    switch (part->cause) {
    case LS_CAUSE_THRUST:
        yaw->thrust_N += part->force_N[0];
        yaw->thrust_Nm += moment_Nm;
        yaw->asymmetry_Nm += moment_Nm;
        break;
    case LS_CAUSE_DEAD_DRAG:
        yaw->asymmetry_Nm += moment_Nm;
        break;
    case LS_CAUSE_RUDDER:
        yaw->rudder_N += fabs(part->force_N[1]);
        yaw->rudder_Nm -= moment_Nm;
        break;
    default:
        break;
    }
}

static void solve_yaw(const ls_aircraft *aircraft, const ls_vmca_set *set, ls_lesson_yaw *yaw)
{
    ls_model model;
    ls_powerplant_point point;
    ls_balance balance;
    const ls_vmc *vmc = &set->answer.vmc;
    *yaw = (ls_lesson_yaw){0};
    if (set->live_side == 0 || set->answer.status != LS_OK || !isfinite(vmc->V_m_s) ||
        ls_model_make(aircraft, &set->condition, &model, NULL) != LS_OK ||
        ls_powerplant_at(&model, vmc->V_m_s, &point, NULL) != LS_OK) {
        return;
    }
    ls_trim_balance(&model, &point, &vmc->trim, &balance);
    for (int i = 0; i < balance.count; i++) {
        add_part(&balance.part[i], -set->live_side, yaw);
    }
    yaw->arm_m = yaw->thrust_Nm / yaw->thrust_N;
    yaw->rudder_arm_m = yaw->rudder_Nm / yaw->rudder_N;
    yaw->has = yaw->thrust_Nm > 0.0 && yaw->rudder_Nm > 0.0 && isfinite(yaw->arm_m) && isfinite(yaw->rudder_arm_m);
}

static void solve_less_rudder(const ls_aircraft *aircraft, const ls_vmca_set *set, ls_vmca_point *point)
{
    ls_aircraft less = *aircraft; /* shares the propellers' tables, which do not change */
    less.rudder.left_rad *= LS_LESSON_RUDDER;
    less.rudder.right_rad *= LS_LESSON_RUDDER;
    ls_vmca_point_solve(&less, &set->condition, set->live_side, set->answer.bank_rad, point);
}

static void solve_high(const ls_aircraft *aircraft, const ls_vmca_set *set, ls_lesson *lesson)
{
    ls_condition high = set->condition;
    high.altitude_m = LS_LESSON_HIGH_M;
    ls_vmca_point_solve(aircraft, &high, set->live_side, set->answer.bank_rad, &lesson->high);
    if (ls_vmca_meeting_altitude(aircraft, &set->condition, set->condition.bank_rad, LS_AIR_H_MAX_M,
                                 &lesson->meeting_altitude_m, NULL) != LS_OK) {
        lesson->meeting_altitude_m = NAN;
    }
}

/* The same speed and weight with the failed propeller windmilling. By hand: W dh/dt = (T - D) V, so a drag is the
 * climb lost over the speed, times the weight. */
static void solve_windmilling(const ls_performance *performance, const ls_performance_request *request,
                              ls_lesson_climb *climb)
{
    ls_model model;
    ls_climb_point point;
    const ls_performance_case *one = ls_performance_worst(performance);
    ls_condition condition = one->condition;
    if (one->state == LS_WINDMILLING) {
        return;
    }
    ls_condition_fail_as(request->aircraft, one->failed, LS_WINDMILLING, &condition);
    if (ls_model_make(request->aircraft, &condition, &model, NULL) == LS_OK &&
        ls_climb_at(&model, one->rule, climb->V_m_s, &point, NULL) == LS_OK) {
        climb->windmilling_m_s = point.rate_m_s;
        climb->drag_N = (climb->one_m_s - point.rate_m_s) / climb->V_m_s * climb->weight_N;
        climb->has_windmilling = climb->drag_N > 0.0;
    }
}

static double rating(const ls_aircraft *aircraft, int engine)
{
    const ls_engine_data *data = &aircraft->powerplant[aircraft->engine[engine].powerplant].engine;
    return data->type == LS_ENGINE_JET ? data->thrust_N : data->power_W;
}

/* Of the aeroplane's rated power or thrust, the share of a set of engines. */
static double share_of(const ls_aircraft *aircraft, unsigned set)
{
    double all = 0.0, lost = 0.0;
    for (int i = 0; i < aircraft->engines; i++) {
        all += rating(aircraft, i);
        lost += set >> i & 1u ? rating(aircraft, i) : 0.0;
    }
    return lost / all;
}

static void solve_climb(const ls_performance_request *request, const ls_performance *performance,
                        ls_lesson_climb *climb)
{
    ls_performance_case high;
    const ls_performance_case *one = ls_performance_worst(performance);
    *climb = (ls_lesson_climb){0};
    if (one == NULL || performance->all.status != LS_OK) {
        return;
    }
    const ls_climb_point *best = &one->rate.point;
    *climb = (ls_lesson_climb){.has = performance->all.rate.point.rate_m_s > 0.0,
                               .all_m_s = performance->all.rate.point.rate_m_s,
                               .one_m_s = best->rate_m_s,
                               .lost = one->lost,
                               .power_lost = share_of(request->aircraft, one->failed),
                               .V_m_s = best->V_m_s,
                               .cas_m_s = best->cas_m_s,
                               .gradient = best->gradient,
                               .weight_N = one->condition.mass_kg * LS_G0_M_S2};
    solve_windmilling(performance, request, climb);
    ls_condition condition = request->condition;
    condition.altitude_m = LS_LESSON_HIGH_M;
    ls_performance_case_solve(request, &condition, one->failed, one->state, NULL, &high);
    climb->has_high = high.status == LS_OK;
    climb->high_one_m_s = high.status == LS_OK ? high.rate.point.rate_m_s : NAN;
}

void ls_lesson_solve(const ls_aircraft *aircraft, const ls_vmca *vmca, int set,
                     const ls_performance_request *request, const ls_performance *performance, ls_lesson *lesson)
{
    *lesson = (ls_lesson){.vmca = vmca, .meeting_altitude_m = NAN};
    lesson->less_rudder.status = lesson->high.status = LS_NO_STATE;
    if (vmca != NULL && vmca->set[set].answer.status == LS_OK) {
        lesson->set = &vmca->set[set];
        solve_yaw(aircraft, lesson->set, &lesson->yaw);
        solve_less_rudder(aircraft, lesson->set, &lesson->less_rudder);
        solve_high(aircraft, lesson->set, lesson);
    }
    if (performance != NULL) {
        solve_climb(request, performance, &lesson->climb);
    }
}
