#include "report/vmca_report.h"

#include "report/vmca_parts.h"

#include <math.h>

int ls_vmca_has_speed(const ls_vmca_point *point)
{
    return point->status == LS_OK && isfinite(point->vmc.cas_m_s);
}

/* How bad an answer is: no speed in the range is worst, then the speed itself. */
static double severity(const ls_vmca_point *point)
{
    if (point->status != LS_OK) {
        return -INFINITY;
    }
    return point->vmc.kind == LS_VMC_ABOVE_RANGE ? INFINITY
           : isfinite(point->vmc.cas_m_s)        ? point->vmc.cas_m_s
                                                 : 0.0;
}

int ls_vmca_answer_set(const ls_vmca *vmca)
{
    int best = 0;
    if (vmca->critical[LS_ROTATION_FILE] >= 0) {
        return vmca->critical[LS_ROTATION_FILE];
    }
    for (int i = 1; i < vmca->sets; i++) {
        int is_pair = ls_set_size(vmca->set[i].failed) > 1; /* the answer is about one engine where it can be */
        if (!is_pair && severity(&vmca->set[i].answer) > severity(&vmca->set[best].answer)) {
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
