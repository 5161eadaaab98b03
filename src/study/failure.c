#include "liveside/failure.h"

#include "liveside/airspeed.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define KT (1852.0 / 3600.0)

const double ls_failure_delays[LS_FAILURE_DELAYS] = {0.0, 0.5, 1.0, 1.5, 2.0, 2.5, 3.0};

static double cas_of(const ls_model *model, double V_m_s)
{
    ls_airspeed speed;
    return isfinite(V_m_s) && ls_airspeed_from_tas(&model->air, V_m_s, &speed, NULL) == LS_OK ? speed.CAS_m_s
                                                                                              : NAN;
}

/* How bad a set's answer is: its control limit where there is one, else below all that have. */
static double severity(const ls_vmc *vmc)
{
    return vmc->kind == LS_VMC_ABOVE_RANGE ? INFINITY : isfinite(vmc->control_V_m_s) ? vmc->control_V_m_s : 0.0;
}

static void fail_set(const ls_aircraft *aircraft, const ls_vmca_request *request, unsigned set,
                     ls_condition *condition)
{
    if (request->state < 0) {
        ls_condition_fail(aircraft, set, condition);
    } else {
        ls_condition_fail_as(aircraft, set, (ls_engine_state)request->state, condition);
    }
}

ls_status ls_failure_choose(const ls_aircraft *aircraft, const ls_vmca_request *request, unsigned *failed,
                            ls_condition *condition, double *bank_rad, ls_vmc *vmc, ls_error *error)
{
    int found = 0, single = 0;
    for (int i = 0; i < request->sets; i++) {
        single |= ls_set_size(request->set[i]) == 1;
    }
    for (int i = 0; i < request->sets; i++) {
        ls_condition asked = request->condition, worst;
        ls_vmc here;
        if (single && ls_set_size(request->set[i]) != 1) {
            continue;
        }
        fail_set(aircraft, request, request->set[i], &asked);
        int side = ls_live_side(aircraft, &asked);
        double bank = request->bank_given ? request->bank_rad : asked.bank_limit_rad;
        bank = side < 0 ? -bank : side > 0 ? bank : 0.0;
        ls_status status = ls_vmc_worst(aircraft, &asked, request->search, bank, &worst, &here, error);
        if (status != LS_OK) {
            return status;
        }
        if (!found || severity(&here) > severity(vmc) + 1e-9) {
            found = 1;
            *failed = request->set[i];
            *condition = worst;
            ls_condition_fail_as(aircraft, 0, LS_RUNNING, condition);
            *bank_rad = bank;
            *vmc = here;
        }
    }
    return found ? LS_OK : ls_fail(error, LS_USAGE, "no engine is to fail");
}

/* ---- the dynamic minimum control speed ---- */

typedef struct {
    const ls_aircraft *aircraft;
    ls_motion_request request;
    ls_dynamic_vmc *answer;
    double stall_V_m_s;
    int no_memory; /* a motion could not be followed for want of it: there is no answer */
} search;

/* Whether straight flight is regained from a speed; what happens otherwise in `below`. */
static int passes(search *s, double V_m_s)
{
    ls_motion motion;
    ls_error error = {0};
    s->request.V_m_s = V_m_s;
    s->answer->runs++;
    if (ls_motion_run(s->aircraft, &s->request, &motion, &error) != LS_OK) {
        s->no_memory |= error.status == LS_MEMORY;
        s->answer->status = error.status;
        s->answer->below = LS_MOTION_WING_STALL;
        snprintf(s->answer->reason, sizeof s->answer->reason, "%.*s", (int)sizeof s->answer->reason - 1,
                 error.text);
        return 0;
    }
    int passed = motion.end == LS_MOTION_STRAIGHT;
    if (passed) {
        s->answer->heading_most_rad = motion.heading_most_rad;
    } else {
        s->answer->below = motion.end;
    }
    ls_motion_free(&motion);
    return passed;
}

/* The lowest passing speed of a scan from the start: up until one passes, or down while they do. Returned: 0 when
 * none does up to three stall speeds. */
static int bracket(search *s, double start, double *low, double *high)
{
    const double step = 4.0 * KT;
    double floor = 1.01 * s->stall_V_m_s, V = fmax(start, floor);
    if (passes(s, V)) {
        *high = V;
        for (double lower = V - step;; lower -= step) {
            *low = fmax(lower, floor);
            if (!passes(s, *low)) {
                return 1;
            }
            *high = *low;
            if (*low <= floor) {
                return 1;
            }
        }
    }
    *low = V;
    for (V += step; V <= 3.0 * s->stall_V_m_s; V += step) {
        if (passes(s, V)) {
            *high = V;
            return 1;
        }
        *low = V;
    }
    return 0;
}

void ls_dynamic_vmc_find(const ls_aircraft *aircraft, const ls_motion_request *base, double static_V_m_s,
                         double delay_s, ls_dynamic_vmc *answer)
{
    const double close = 0.05 * KT;
    double low, high;
    ls_model model;
    search s = {aircraft, *base, answer, 0.0, 0};
    memset(answer, 0, sizeof *answer);
    answer->delay_s = delay_s;
    answer->V_m_s = answer->cas_m_s = answer->reported_cas_m_s = NAN;
    answer->status = ls_model_make(aircraft, &base->condition, &model, NULL);
    if (answer->status != LS_OK) {
        return;
    }
    s.stall_V_m_s = model.stall_V_m_s;
    s.request.hold = LS_HOLD_EXACT;
    s.request.acceleration_m_s2 = 0.0;
    s.request.delay_s = delay_s;
    s.request.duration_s = 90.0;
    s.request.until_straight = s.request.until_beyond = 1;
    s.request.recover_s = INFINITY;
    s.request.height_m = INFINITY;
    s.request.tolerance = 1e-6;
    int found = bracket(&s, isfinite(static_V_m_s) ? static_V_m_s : 0.0, &low, &high);
    while (found && high - low > close && !s.no_memory) {
        double middle = 0.5 * (low + high);
        *(passes(&s, middle) ? &high : &low) = middle;
    }
    if (s.no_memory) {
        answer->status = LS_MEMORY;
        return;
    }
    if (!found) {
        snprintf(answer->reason, sizeof answer->reason, "none up to three stall speeds");
        return;
    }
    answer->is_lowest = low < high;
    answer->status = LS_OK;
    answer->reason[0] = '\0';
    answer->V_m_s = high;
    answer->cas_m_s = cas_of(&model, high);
    answer->reported_cas_m_s = cas_of(&model, isfinite(static_V_m_s) ? fmax(high, static_V_m_s) : high);
}

/* ---- one failure ---- */

/* One cell of the sweep. Status: LS_OK, whatever comes of it; LS_MEMORY. */
static ls_status sweep_cell(const ls_aircraft *aircraft, const ls_motion_request *base, double V_m_s,
                            double delay_s, ls_failure_cell *cell, ls_error *error)
{
    ls_motion_request request = *base;
    ls_motion motion;
    request.V_m_s = V_m_s;
    request.delay_s = delay_s;
    request.hold = LS_HOLD_EXACT;
    request.recover_s = request.height_m = INFINITY;
    request.duration_s = 10.0;
    request.tolerance = 1e-6;
    cell->end = LS_MOTION_DIVERGED;
    cell->heading_most_rad = NAN;
    ls_status status = ls_motion_run(aircraft, &request, &motion, NULL);
    if (status == LS_OK) {
        cell->end = motion.end;
        cell->heading_most_rad = motion.heading_most_rad;
        ls_motion_free(&motion);
    }
    return status == LS_MEMORY ? ls_fail(error, LS_MEMORY, "out of memory") : LS_OK;
}

/* The sweep's speeds: from just above the static speed, or the stall, in steps of five knots. */
static ls_status sweep(const ls_aircraft *aircraft, const ls_model *model, ls_failure *failure, ls_error *error)
{
    double lowest = fmax(1.03 * model->stall_V_m_s,
                         isfinite(failure->fixed.control_V_m_s) ? failure->fixed.control_V_m_s : 0.0);
    double first = ceil(cas_of(model, lowest) / (5.0 * KT)) * 5.0 * KT;
    ls_status status = LS_OK;
    for (int i = 0; i < LS_FAILURE_SPEEDS; i++) {
        ls_airspeed speed = {0};
        failure->cas_m_s[i] = first + 5.0 * KT * i;
        ls_airspeed_from_cas(&model->air, failure->cas_m_s[i], &speed, NULL);
        failure->speed_m_s[i] = speed.TAS_m_s;
        for (int k = 0; k < LS_FAILURE_DELAYS && status == LS_OK; k++) {
            status = sweep_cell(aircraft, &failure->request, speed.TAS_m_s, ls_failure_delays[k],
                                &failure->cell[i][k], error);
        }
    }
    return status;
}

/* The dynamic speed for every delay, and for the one asked for. Status: LS_OK; LS_MEMORY. */
static ls_status find_dynamic(const ls_aircraft *aircraft, ls_failure *failure, ls_error *error)
{
    const ls_motion_request *motion = &failure->request;
    double fixed_V_m_s = failure->fixed.control_V_m_s;
    int without = 0;
    for (int k = 0; k < LS_FAILURE_DELAYS && !without; k++) {
        ls_dynamic_vmc_find(aircraft, motion, fixed_V_m_s, ls_failure_delays[k], &failure->dynamic[k]);
        without = failure->dynamic[k].status == LS_MEMORY;
        if (motion->delay_s == ls_failure_delays[k]) {
            failure->asked = failure->dynamic[k];
        }
    }
    if (!without && failure->asked.runs == 0 && isfinite(motion->delay_s)) {
        ls_dynamic_vmc_find(aircraft, motion, fixed_V_m_s, motion->delay_s, &failure->asked);
        without = failure->asked.status == LS_MEMORY;
    }
    return without ? ls_fail(error, LS_MEMORY, "out of memory") : LS_OK;
}

static ls_status follow(const ls_aircraft *aircraft, ls_failure *failure, ls_error *error)
{
    ls_motion_request idle = failure->request;
    ls_status status = ls_motion_run(aircraft, &failure->request, &failure->with_action, error);
    idle.delay_s = idle.feather_s = idle.recover_s = INFINITY;
    return status == LS_OK ? ls_motion_run(aircraft, &idle, &failure->no_action, error) : status;
}

ls_status ls_failure_solve(const ls_aircraft *aircraft, const ls_failure_request *request, ls_failure *failure,
                           ls_error *error)
{
    ls_model model;
    ls_airspeed speed;
    memset(failure, 0, sizeof *failure);
    ls_motion_request *motion = &failure->request;
    *motion = request->motion;
    ls_status status = ls_failure_choose(aircraft, &request->condition, &motion->failed, &motion->condition,
                                         &motion->bank_rad, &failure->fixed, error);
    status = status == LS_OK ? ls_model_make(aircraft, &motion->condition, &model, error) : status;
    status = status == LS_OK ? ls_airspeed_from_cas(&model.air, request->cas_m_s, &speed, error) : status;
    if (status != LS_OK) {
        return status;
    }
    ls_condition after = motion->condition;
    fail_set(aircraft, &request->condition, motion->failed, &after);
    failure->live_side = ls_live_side(aircraft, &after);
    for (int i = 0; i < aircraft->engines; i++) {
        motion->state = motion->failed >> i & 1u ? after.state[i] : motion->state;
    }
    motion->V_m_s = speed.TAS_m_s;
    status = follow(aircraft, failure, error);
    status = status == LS_OK ? find_dynamic(aircraft, failure, error) : status;
    status = status == LS_OK ? sweep(aircraft, &model, failure, error) : status;
    if (status != LS_OK) {
        ls_failure_free(failure);
    }
    return status;
}

void ls_failure_free(ls_failure *failure)
{
    ls_motion_free(&failure->with_action);
    ls_motion_free(&failure->no_action);
}
