#include "report/vmca_report.h"

#include "report/vmca_parts.h"

#include <math.h>

int ls_vmca_has_speed(const ls_vmca_point *point)
{
    return point->status == LS_OK && isfinite(point->vmc.cas_m_s);
}

int ls_vmca_answer_set(const ls_vmca *vmca)
{
    int best = -1;
    if (vmca->critical[LS_ROTATION_FILE] >= 0) {
        return vmca->critical[LS_ROTATION_FILE];
    }
    for (int i = 0; i < vmca->sets; i++) {
        const ls_vmca_point *point = &vmca->set[i].answer;
        if (ls_set_size(vmca->set[i].failed) > 1 && best >= 0) {
            continue; /* pairs are shown in the table; the answer is about one engine where it can be */
        }
        if (best < 0 ||
            (ls_vmca_has_speed(point) && !(vmca->set[best].answer.vmc.cas_m_s >= point->vmc.cas_m_s))) {
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

void ls_vmca_report(ls_report *report, ls_vmca_view *view)
{
    const ls_vmca_set *set = &view->vmca->set[ls_vmca_answer_set(view->vmca)];
    ls_vmca_say(report, view, set);
    ls_vmca_tables(report, view);
    ls_vmca_data(report, view, set);
}
