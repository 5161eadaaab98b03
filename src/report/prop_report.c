#include "report/prop_report.h"

#include "report/prop_parts.h"

#include <math.h>

/* The numbers of the answer, for programs. */
void ls_prop_data(ls_report *report, const ls_prop_view *view)
{
    const ls_prop_study *study = view->study;
    const ls_dead_by_speed *dead = view->by_speed;
    const ls_engine_data *engine = &study->powerplant->data->engine;
    ls_report_words(report, "propeller.engine", "%s", study->aircraft->engine[study->engine].name);
    ls_report_words(report, "propeller.powerplant", "%s", study->powerplant->data->name);
    ls_report_number(report, "propeller.solidity", LS_DIM_NUMBER, NULL, study->solidity);
    ls_report_number(report, "propeller.activity_factor", LS_DIM_NUMBER, NULL, study->activity_factor);
    ls_report_number(report, "rating.time_limit", LS_DIM_TIME, NULL, engine->time_limit_s);
    ls_report_number(report, "rating.continuous", LS_DIM_FRACTION, NULL, engine->continuous);
    ls_report_number(report, "dead.cas", LS_DIM_SPEED, NULL, view->cas_m_s);
    ls_report_flag(report, "dead.cas_is_vmc", view->is_vmc);
    const struct {
        const char *path;
        double value;
        const char *reason;
    } limits[] = {{"dead.stops_below_cas", dead->stops_cas_m_s, "it turns at any speed looked at"},
                  {"dead.no_feathering_below_cas", dead->latched_cas_m_s, "no latch, or not reached"},
                  {"dead.lever_aft_helps_above_cas", dead->aft_cas_m_s, "not reached"}};
    for (size_t i = 0; i < sizeof limits / sizeof limits[0]; i++) {
        if (isfinite(limits[i].value)) {
            ls_report_number(report, limits[i].path, LS_DIM_SPEED, NULL, limits[i].value);
        } else {
            ls_report_missing(report, limits[i].path, LS_DIM_SPEED, limits[i].reason);
        }
    }
}

void ls_prop_report(ls_report *report, const ls_prop_view *view)
{
    ls_prop_say(report, view);
    ls_prop_tables(report, view);
    ls_prop_data(report, view);
}
