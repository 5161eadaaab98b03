/* The data of every case, for CSV and JSON. */
#include "report/phrase.h"
#include "report/vmca_parts.h"

#include <math.h>
#include <string.h>

static const ls_column case_columns[] = {
    {"failed", "failed", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"why", "case", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"rotation", "propellers", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"propeller", "failed one", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"bank_toward_live", "bank", LS_DIM_ANGLE, 1, LS_IN_ALL, NULL},
    {"vmc_cas", "VMC", LS_DIM_SPEED, 1, LS_IN_ALL, NULL}, /* its decimals are set for each report */
    {"limit", "", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"limit_short", "limit", LS_WORDS, 0, LS_IN_TEXT, NULL},
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

enum { CASE_COLUMNS = sizeof case_columns / sizeof case_columns[0] };

static const double kt_per_lbf = (1852.0 / 3600.0) / 4.4482216152605; /* in m/s per N */

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
    ls_table_words(table, "%s", ok ? ls_phrase_limit(point) : "none");
    ls_table_words(table, "%s", ls_phrase_limit_short(point));
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
    ls_table_words(table, "%s", ls_phrase_reason(view->aircraft, point, name));
}

static void cases_of_set(ls_table *table, const ls_vmca_view *view, const ls_vmca_set *set)
{
    const char *own = ls_rotation_name(set->condition.rotation),
               *state = ls_engine_state_name(ls_vmca_set_state(set));
    double mass_kg = set->condition.mass_kg;
    case_row(table, view, set, "answer", own, state, &set->answer, mass_kg);
    case_row(table, view, set, "maximum weight", own, state, &set->heaviest, view->aircraft->mass.maximum_kg);
    case_row(table, view, set, "lowest", own, state, &set->lowest, mass_kg);
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

static void table_of_cases(ls_report *report, ls_vmca_view *view)
{
    memcpy(view->cases, case_columns, sizeof case_columns);
    for (int i = 0; i < CASE_COLUMNS; i++) {
        int is_rough_speed = view->uncertain && view->cases[i].dimension == LS_DIM_SPEED;
        view->cases[i].decimals = is_rough_speed ? 0 : view->cases[i].decimals;
    }
    unsigned where = LS_IN_CSV | LS_IN_JSON | (view->grid != NULL ? LS_IN_TEXT : 0u);
    ls_table *table = ls_report_table(report, "cases", view->grid != NULL ? "Every case" : NULL, where,
                                      view->cases, CASE_COLUMNS);
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

/* A number of the data, or null with why it is missing. */
static void number(ls_report *report, const char *path, ls_dimension dimension, const char *us_unit, double si,
                   const char *reason)
{
    if (isfinite(si)) {
        ls_report_number(report, path, dimension, us_unit, si);
    } else {
        ls_report_missing(report, path, dimension, reason);
    }
}

static void speed(ls_report *report, const char *path, const ls_vmca_point *point, double m_s)
{
    number(report, path, LS_DIM_SPEED, NULL, m_s,
           ls_vmca_has_speed(point) ? "not met in the range of speeds" : ls_phrase_limit(point));
}

static void answer_data(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    char name[LS_PHRASE];
    const ls_vmca_point *answer = &set->answer;
    const ls_vmc *vmc = &answer->vmc;
    static const char *const kinds[] = {"control limit", "stalls first", "no limit", "above the range", "failed"};
    ls_report_words(report, "aeroplane", "%s", view->aircraft->name);
    ls_report_words(report, "answer.kind", "%s", kinds[vmc->kind]);
    ls_report_words(report, "answer.limit", "%s", ls_phrase_limit(answer));
    ls_report_words(report, "answer.failed", "%s", ls_phrase_set(view->aircraft, set->failed, name));
    speed(report, "answer.cas", answer, vmc->cas_m_s);
    speed(report, "answer.tas", answer, vmc->V_m_s);
    speed(report, "answer.eas", answer, vmc->eas_m_s);
    if (view->aircraft->position_error.rows > 0) {
        speed(report, "answer.ias", answer, ls_indicated_airspeed(view->aircraft, vmc->cas_m_s, NULL));
    }
    ls_report_number(report, "answer.bank_toward_live", LS_DIM_ANGLE, NULL, answer->bank_rad);
    speed(report, "answer.stall_cas", answer, vmc->stall_cas_m_s);
    number(report, "answer.vmc_kt_per_lbf", LS_DIM_NUMBER, NULL, vmc->m_s_per_N / kt_per_lbf,
           "the pedal force is not the limit");
    ls_report_number(report, "answer.mass", LS_DIM_MASS, NULL, set->condition.mass_kg);
    ls_report_number(report, "answer.cg_aft", LS_DIM_LENGTH, "in", set->condition.cg_aft_m);
    ls_report_number(report, "answer.cg_right", LS_DIM_LENGTH, "in", set->condition.cg_right_m);
}

static void critical_data(ls_report *report, const ls_vmca_view *view)
{
    char name[LS_PHRASE];
    int critical = view->vmca->critical[LS_ROTATION_FILE];
    ls_report_words(report, "critical", "%s",
                    critical >= 0 ? ls_phrase_set(view->aircraft, view->vmca->set[critical].failed, name)
                    : critical == LS_CRITICAL_NEITHER ? "neither"
                    : critical == LS_CRITICAL_STALL   ? "stalls first"
                                                      : "not known");
    number(report, "critical_by", LS_DIM_SPEED, NULL, view->vmca->critical_by_m_s[LS_ROTATION_FILE],
           ls_vmca_singles(view->vmca) < 2                  ? "only one failure was asked for"
           : critical >= 0 || critical == LS_CRITICAL_STALL ? "the other failures let the wing stall first"
                                                            : "an answer is missing");
}

static void published_data(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    ls_published published = ls_vmca_published(view, set);
    if (published.given) {
        ls_report_words(report, "published.kind", "%s", published.is_ias ? "IAS" : "CAS");
        ls_report_number(report, "published.vmc", LS_DIM_SPEED, NULL, view->aircraft->published.vmc_m_s);
        ls_report_number(report, "published.computed_at_5_deg", LS_DIM_SPEED, NULL, published.at_5_deg_m_s);
        ls_report_number(report, "published.computed_level", LS_DIM_SPEED, NULL, published.level_m_s);
        ls_report_flag(report, "published.inside", published.inside);
    }
}

void ls_vmca_data(ls_report *report, ls_vmca_view *view, const ls_vmca_set *set)
{
    const ls_vmc *vmc = &set->answer.vmc;
    answer_data(report, view, set);
    critical_data(report, view);
    published_data(report, view, set);
    number(report, "meeting_altitude", LS_DIM_ALTITUDE, NULL, view->meeting_altitude_m,
           "control limit and stall do not meet above this altitude");
    number(report, "solver.residual", LS_DIM_NUMBER, NULL, vmc->trim.residual, "no trim");
    speed(report, "solver.bracket", &set->answer, ls_vmca_has_speed(&set->answer) ? vmc->bracket_m_s : NAN);
    table_of_cases(report, view);
    if (view->grid != NULL) {
        ls_report_line(report, "%s", "");
    }
}
