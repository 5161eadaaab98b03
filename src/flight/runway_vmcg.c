/* The minimum control speed on the ground. */
#include "liveside/airspeed.h"
#include "liveside/runway.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define KT (1852.0 / 3600.0)

typedef struct {
    const ls_aircraft *aircraft;
    ls_runway_request request;
    ls_vmcg *vmcg;
    int no_memory; /* a run could not be followed for want of it: there is no answer */
} search;

static int passes(search *s, double V_m_s)
{
    ls_runway runway;
    ls_error error = {0};
    s->request.V_m_s = V_m_s;
    if (ls_runway_run(s->aircraft, &s->request, &runway, &error) != LS_OK) {
        s->no_memory |= error.status == LS_MEMORY;
        s->vmcg->status = error.status;
        snprintf(s->vmcg->reason, sizeof s->vmcg->reason, "%.*s", (int)sizeof s->vmcg->reason - 1, error.text);
        s->vmcg->below = LS_RUNWAY_LOST;
        return 0;
    }
    int passed = runway.end == LS_RUNWAY_PARALLEL && fabs(runway.y_most_m) <= LS_RUNWAY_LIMIT_M;
    if (passed) {
        s->vmcg->y_most_m = runway.y_most_m;
        s->vmcg->parallel_s = runway.parallel_s;
    } else {
        s->vmcg->below = runway.end;
    }
    ls_runway_free(&runway);
    return passed;
}

void ls_vmcg_find(const ls_aircraft *aircraft, const ls_runway_request *base, ls_vmcg *vmcg)
{
    const double step = 4.0 * KT, close = 0.05 * KT;
    search s = {aircraft, *base, vmcg, 0};
    ls_model model;
    ls_airspeed speed;
    memset(vmcg, 0, sizeof *vmcg);
    vmcg->V_m_s = vmcg->cas_m_s = NAN;
    vmcg->status = ls_model_make(aircraft, &base->condition, &model, NULL);
    s.request.tolerance = 1e-6;
    s.request.past_parallel = 0;
    s.request.sample_s = 0.5; /* the farthest point is an event of its own */
    double high = 1.8 * model.stall_V_m_s, floor = 0.4 * model.stall_V_m_s;
    double near = base->V_m_s + 1.5 * step; /* where the answer was with something else changed */
    int is_near = vmcg->status == LS_OK && base->V_m_s > 0.0 && near < high && passes(&s, near);
    high = is_near ? near : high;
    if (vmcg->status != LS_OK || (!is_near && !passes(&s, high))) {
        if (vmcg->reason[0] == '\0') {
            snprintf(vmcg->reason, sizeof vmcg->reason, "%s at 1.8 VS",
                     vmcg->below == LS_RUNWAY_PARALLEL ? "over 30 ft off" : ls_runway_end_text(vmcg->below));
        }
        return;
    }
    double low = high - step;
    while (low > floor && passes(&s, low)) {
        high = low;
        low -= step;
    }
    vmcg->is_lowest = low > floor;
    while (vmcg->is_lowest && high - low > close) {
        double middle = 0.5 * (low + high);
        *(passes(&s, middle) ? &high : &low) = middle;
    }
    if (s.no_memory) {
        vmcg->status = LS_MEMORY;
        return;
    }
    vmcg->status = LS_OK;
    vmcg->reason[0] = '\0';
    vmcg->V_m_s = high;
    vmcg->cas_m_s = ls_airspeed_from_tas(&model.air, high, &speed, NULL) == LS_OK ? speed.CAS_m_s : NAN;
}
