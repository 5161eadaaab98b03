#include "report/vmca_report.h"

#include "report/vmca_parts.h"

#include <math.h>

int ls_vmca_has_speed(const ls_vmca_point *point)
{
    return point->status == LS_OK && isfinite(point->vmc.cas_m_s);
}

/* Which of two answers is the worse one to have; of two stalls, the one with less control left. */
static int is_worse(const ls_vmca_point *one, const ls_vmca_point *other)
{
    int both_stall = one->status == LS_OK && other->status == LS_OK && one->vmc.kind == LS_VMC_STALLS_FIRST &&
                     other->vmc.kind == LS_VMC_STALLS_FIRST;
    if (both_stall) {
        return one->vmc.control_cas_m_s > other->vmc.control_cas_m_s ||
               (isfinite(one->vmc.control_cas_m_s) && !isfinite(other->vmc.control_cas_m_s));
    }
    return ls_vmca_worse_by(one, other) > 0.0;
}

int ls_vmca_answer_set(const ls_vmca *vmca)
{
    int best = 0;
    if (vmca->critical[LS_ROTATION_FILE] >= 0) {
        return vmca->critical[LS_ROTATION_FILE];
    }
    for (int i = 1; i < vmca->sets; i++) {
        int is_pair = ls_set_size(vmca->set[i].failed) > 1; /* the answer is about one engine where it can be */
        if (!is_pair && is_worse(&vmca->set[i].answer, &vmca->set[best].answer)) {
            best = i;
        }
    }
    return best;
}

int ls_vmca_live_engines(const ls_aircraft *aircraft, unsigned failed)
{
    return aircraft->engines - ls_set_size(failed);
}

ls_engine_state ls_vmca_set_state(const ls_vmca_set *set)
{
    int first = 0;
    while (!(set->failed >> first & 1u)) {
        first++;
    }
    return set->condition.state[first];
}

int ls_vmca_singles(const ls_vmca *vmca)
{
    int singles = 0;
    for (int i = 0; i < vmca->sets; i++) {
        singles += ls_set_size(vmca->set[i].failed) == 1;
    }
    return singles;
}

ls_published ls_vmca_published(const ls_vmca_view *view, const ls_vmca_set *set)
{
    const ls_aircraft *aircraft = view->aircraft;
    const double published_m_s = aircraft->published.vmc_m_s;
    ls_published it = {.is_ias = aircraft->published.vmc_kind == 1};
    it.given = ls_given(published_m_s) && ls_set_size(set->failed) == 1 && ls_vmca_has_speed(&set->answer) &&
               ls_vmca_has_speed(&set->level) && ls_vmca_has_speed(&set->at_5_deg);
    const ls_vmca_point *points[] = {&set->answer, &set->level, &set->at_5_deg};
    double *speeds[] = {&it.answer_m_s, &it.level_m_s, &it.at_5_deg_m_s};
    for (int i = 0; i < 3; i++) {
        double cas_m_s = points[i]->vmc.cas_m_s;
        *speeds[i] = it.is_ias ? ls_indicated_airspeed(aircraft, cas_m_s, NULL) : cas_m_s;
    }
    it.inside = published_m_s >= fmin(it.level_m_s, it.at_5_deg_m_s) &&
                published_m_s <= fmax(it.level_m_s, it.at_5_deg_m_s);
    return it;
}

void ls_vmca_report(ls_report *report, ls_vmca_view *view)
{
    const ls_vmca_set *set = &view->vmca->set[ls_vmca_answer_set(view->vmca)];
    ls_vmca_say(report, view, set);
    ls_vmca_tables(report, view);
    ls_vmca_data(report, view, set);
}
