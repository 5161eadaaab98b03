/* Sudden failures beside the static speed: how far above it control was still regained. */
#include "study/reduce_parts.h"

#include "liveside/motion.h"

#include <math.h>
#include <string.h>

const char *ls_reduce_judge_dynamic(const ls_point *point, ls_reduced *row)
{
    int is_regained = strcmp(point->ended, "regained") == 0;
    if (!is_regained && strcmp(point->ended, "lost") != 0) {
        return "a dynamic point ends regained or lost";
    }
    row->is_regained = is_regained;
    if (is_regained && fabs(point->heading_change_rad) > LS_HEADING_LIMIT_RAD) {
        row->is_regained = 0;
        row->reason = "regained, but the heading changed by more than 20 deg: counts as lost";
    }
    return NULL;
}

void ls_reduce_increment(const ls_reducing *r, ls_flown *flown, ls_reduced *row)
{
    ls_vmc vmc;
    const ls_reduced_group *group = &r->out->group[row->group];
    double answer_m_s = isnan(group->model.value) ? group->file_cas_m_s : group->model.value;
    ls_reduce_scale(&flown->model, r->scale);
    if (ls_vmc_at(&flown->model, flown->bank_rad * flown->live_side, &vmc, NULL) == LS_OK) {
        row->increment_m_s = row->cas_m_s - vmc.control_cas_m_s;
        row->by_model_m_s = answer_m_s + row->increment_m_s;
    }
    if (isnan(row->by_model_m_s)) {
        row->reason = "no static speed to compare it with";
    }
}

void ls_reduce_dynamic(const ls_reducing *r)
{
    for (int i = 0; i < r->out->rows; i++) {
        const ls_reduced *row = &r->out->row[i];
        if (row->use == LS_USE_DYNAMIC && !row->is_regained) {
            double *lost_m_s = &r->out->group[row->group].dynamic_lost_cas_m_s;
            *lost_m_s = fmax(*lost_m_s, row->by_model_m_s); /* fmax passes over NaN */
        }
    }
    for (int i = 0; i < r->out->rows; i++) {
        const ls_reduced *row = &r->out->row[i];
        if (row->use == LS_USE_DYNAMIC && row->is_regained) {
            ls_reduced_group *group = &r->out->group[row->group];
            int is_above = !(row->by_model_m_s <= group->dynamic_lost_cas_m_s);
            int is_lower = !(row->by_model_m_s >= group->dynamic_cas_m_s);
            if (isfinite(row->by_model_m_s) && is_above && is_lower) {
                group->dynamic_cas_m_s = row->by_model_m_s;
                group->increment_m_s = row->increment_m_s;
            }
        }
    }
}
