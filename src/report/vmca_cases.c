/* The data of every case, for CSV and JSON. */
#include "report/phrase.h"
#include "report/vmca_parts.h"

#include <math.h>

static const ls_column case_columns[] = {
    {"failed", "failed", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"why", "case", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"rotation", "propellers", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"propeller", "failed one", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"bank_toward_live", "bank", LS_DIM_ANGLE, 1, LS_IN_ALL, NULL},
    {"vmc_cas", "VMC", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"limit", "limit", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"vmc_tas", "", LS_DIM_SPEED, 1, LS_IN_DATA, NULL},
    {"vmc_eas", "", LS_DIM_SPEED, 1, LS_IN_DATA, NULL},
    {"control_cas", "", LS_DIM_SPEED, 1, LS_IN_DATA, NULL},
    {"stall_cas", "stall", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"sideslip", "", LS_DIM_ANGLE, 1, LS_IN_DATA, NULL},
    {"rudder", "", LS_DIM_ANGLE, 1, LS_IN_DATA, NULL},
    {"aileron", "", LS_DIM_ANGLE, 1, LS_IN_DATA, NULL},
    {"pedal_force", "", LS_DIM_FORCE, 0, LS_IN_DATA, NULL},
    {"incidence", "", LS_DIM_ANGLE, 1, LS_IN_DATA, NULL},
    {"climb_angle", "", LS_DIM_ANGLE, 1, LS_IN_DATA, NULL},
    {"rudder_left", "", LS_DIM_NUMBER, 3, LS_IN_DATA, NULL},
    {"pedal_left", "", LS_DIM_NUMBER, 3, LS_IN_DATA, NULL},
    {"aileron_left", "", LS_DIM_NUMBER, 3, LS_IN_DATA, NULL},
    {"fin_left", "", LS_DIM_NUMBER, 3, LS_IN_DATA, NULL},
    {"stall_left", "", LS_DIM_NUMBER, 3, LS_IN_DATA, NULL},
    {"mass", "", LS_DIM_MASS, 0, LS_IN_DATA, NULL},
    {"cg_aft", "", LS_DIM_LENGTH, 3, LS_IN_DATA, "in"},
    {"cg_right", "", LS_DIM_LENGTH, 3, LS_IN_DATA, "in"},
    {"reason", "", LS_WORDS, 0, LS_IN_DATA, NULL},
};

static void case_row(ls_table *table, const ls_vmca_view *view, const ls_vmca_set *set, const char *why,
                     const char *rotation, const char *state, const ls_vmca_point *point, double mass_kg)
{
    const ls_vmc *vmc = &point->vmc;
    char name[LS_PHRASE];
    int ok = ls_vmca_has_speed(point);
    ls_table_row(table);
    ls_table_words(table, "%s", ls_phrase_set(view->aircraft, set->failed, name));
    ls_table_words(table, "%s", why);
    ls_table_words(table, "%s", rotation);
    ls_table_words(table, "%s", state);
    ls_table_number(table, point->bank_rad);
    ls_table_number(table, ok ? vmc->cas_m_s : NAN);
    ls_table_words(table, "%s", ls_phrase_limit(point));
    const double numbers[] = {vmc->V_m_s,
                              vmc->eas_m_s,
                              vmc->control_cas_m_s,
                              vmc->stall_cas_m_s,
                              vmc->trim.beta_rad,
                              vmc->trim.rudder_rad,
                              vmc->trim.aileron_rad,
                              vmc->trim.pedal_force_N,
                              vmc->trim.alpha_rad,
                              vmc->trim.climb_rad,
                              vmc->margins.left[LS_LIMIT_RUDDER],
                              vmc->margins.left[LS_LIMIT_PEDAL],
                              vmc->margins.left[LS_LIMIT_AILERON],
                              vmc->margins.left[LS_LIMIT_FIN_STALL],
                              vmc->margins.left[LS_LIMIT_WING_STALL]};
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        ls_table_number(table, ok ? numbers[i] : NAN);
    }
    ls_table_number(table, mass_kg);
    ls_table_number(table, set->condition.cg_aft_m);
    ls_table_number(table, set->condition.cg_right_m);
    ls_table_words(table, "%s", point->reason);
}

static void cases_of_set(ls_table *table, const ls_vmca_view *view, const ls_vmca_set *set)
{
    const char *own = ls_rotation_name(set->condition.rotation),
               *state = ls_engine_state_name(ls_vmca_set_state(set));
    double mass_kg = set->condition.mass_kg;
    case_row(table, view, set, "answer", own, state, &set->answer, mass_kg);
    case_row(table, view, set, "maximum weight", own, state, &set->heaviest, view->aircraft->mass.maximum_kg);
    case_row(table, view, set, "no sideslip", own, state, &set->zero_sideslip, mass_kg);
    for (int i = 0; i < set->banks; i++) {
        case_row(table, view, set, "bank", own, state, &set->by_bank[i], mass_kg);
    }
    for (int i = 1; i < LS_ROTATIONS; i++) {
        case_row(table, view, set, "rotation", ls_rotation_name((ls_rotation)i), state, &set->by_rotation[i],
                 mass_kg);
    }
    for (int i = 0; i < LS_VMCA_STATES; i++) {
        case_row(table, view, set, "propeller", own, ls_engine_state_name(ls_vmca_states[i]), &set->by_state[i],
                 mass_kg);
    }
}

static void table_of_cases(ls_report *report, const ls_vmca_view *view)
{
    unsigned where = LS_IN_CSV | LS_IN_JSON | (view->grid != NULL ? LS_IN_TEXT : 0u);
    ls_table *table = ls_report_table(report, "cases", view->grid != NULL ? "Every case" : NULL, where,
                                      case_columns, (int)(sizeof case_columns / sizeof case_columns[0]));
    for (int i = 0; i < view->vmca->sets; i++) {
        if (view->vmca->set[i].answer.status == LS_OK) {
            cases_of_set(table, view, &view->vmca->set[i]);
        }
    }
    for (int i = 0; i < view->grid_count; i++) {
        const ls_vmca_case *at = &view->grid[i];
        const ls_vmca_set *set = &view->vmca->set[at->set];
        const char *state = at->state == LS_ENGINE_STATES ? ls_engine_state_name(ls_vmca_set_state(set))
                                                          : ls_engine_state_name(at->state);
        case_row(table, view, set, "grid", ls_rotation_name(at->rotation), state, &at->point,
                 set->condition.mass_kg);
    }
}

static void answer_data(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    char name[LS_PHRASE];
    const ls_vmc *vmc = &set->answer.vmc;
    static const char *const kinds[] = {"control limit", "stalls first", "no limit", "above the range", "failed"};
    ls_report_words(report, "aeroplane", "%s", view->aircraft->name);
    ls_report_words(report, "answer.kind", "%s", kinds[vmc->kind]);
    ls_report_words(report, "answer.limit", "%s", ls_phrase_limit(&set->answer));
    ls_report_words(report, "answer.failed", "%s", ls_phrase_set(view->aircraft, set->failed, name));
    ls_report_number(report, "answer.cas", LS_DIM_SPEED, NULL, vmc->cas_m_s);
    ls_report_number(report, "answer.tas", LS_DIM_SPEED, NULL, vmc->V_m_s);
    ls_report_number(report, "answer.eas", LS_DIM_SPEED, NULL, vmc->eas_m_s);
    if (view->aircraft->position_error.rows > 0) {
        ls_report_number(report, "answer.ias", LS_DIM_SPEED, NULL,
                         ls_indicated_airspeed(view->aircraft, vmc->cas_m_s, NULL));
    }
    ls_report_number(report, "answer.bank_toward_live", LS_DIM_ANGLE, NULL, set->answer.bank_rad);
    ls_report_number(report, "answer.stall_cas", LS_DIM_SPEED, NULL, vmc->stall_cas_m_s);
    ls_report_number(report, "answer.mass", LS_DIM_MASS, NULL, set->condition.mass_kg);
    ls_report_number(report, "answer.cg_aft", LS_DIM_LENGTH, "in", set->condition.cg_aft_m);
    int critical = view->vmca->critical[LS_ROTATION_FILE];
    ls_report_words(report, "critical", "%s",
                    critical >= 0    ? ls_phrase_set(view->aircraft, view->vmca->set[critical].failed, name)
                    : critical == -1 ? "neither"
                                     : "not known");
    ls_report_number(report, "critical_by", LS_DIM_SPEED, NULL, view->vmca->critical_by_m_s[LS_ROTATION_FILE]);
    ls_report_number(report, "meeting_altitude", LS_DIM_ALTITUDE, NULL, view->meeting_altitude_m);
    ls_report_number(report, "solver.residual", LS_DIM_NUMBER, NULL, vmc->trim.residual);
    ls_report_number(report, "solver.bracket", LS_DIM_SPEED, NULL, vmc->bracket_m_s);
}

void ls_vmca_data(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    answer_data(report, view, set);
    table_of_cases(report, view);
}
