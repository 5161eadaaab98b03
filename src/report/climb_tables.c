/* The tables of cases, bank, costs and field. */
#include "report/climb_parts.h"

#include <math.h>
#include <stdio.h>

#define DEG (3.14159265358979323846 / 180.0)

#define SAME_BANK (0.05 * DEG) /* two rows would print the same bank */

#define COLUMNS(array) (array), (int)(sizeof(array) / sizeof(array)[0])

/* "left outer", "both left": short enough for a table. */
static void short_set(const ls_climb_view *view, unsigned failed, char out[LS_PHRASE])
{
    if (failed == 0) {
        snprintf(out, LS_PHRASE, "none");
        return;
    }
    ls_phrase_set_heading(view->request->aircraft, failed, out);
    for (char *at = out; *at != '\0'; at++) {
        *at = *at == '\n' ? ' ' : *at;
    }
}

static const char *state_text(const ls_performance_case *of)
{
    return of->failed == 0 ? "" : of->state == LS_LEVER_AFT ? "lever aft" : ls_engine_state_name(of->state);
}

/* ---- best speeds ---- */

static const ls_column case_columns[] = {
    {"failed", "failed", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"propeller", "propeller", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"best_rate", "best\nrate", LS_DIM_CLIMB_RATE, 0, LS_IN_ALL, NULL},
    {"best_rate_cas", "at\nCAS", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"best_rate_bank", "bank", LS_DIM_ANGLE, 1, LS_IN_ALL, NULL},
    {"lost_percent", "lost\n%", LS_DIM_NUMBER, 0, LS_IN_ALL, NULL},
    {"gradient_percent", "steepest\n%", LS_DIM_NUMBER, 1, LS_IN_ALL, NULL},
    {"gradient_cas", "at\nCAS", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"gradient_bank", "bank", LS_DIM_ANGLE, 1, LS_IN_ALL, NULL},
    {"rate_ends", "", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"gradient_ends", "", LS_WORDS, 0, LS_IN_DATA, NULL},
    {"reason", "", LS_WORDS, 0, LS_IN_DATA, NULL},
};

static void case_row(ls_table *table, const ls_climb_view *view, const ls_performance_case *of)
{
    char name[LS_PHRASE];
    int ok = of->status == LS_OK && of->rate.end != LS_CLIMB_NOT_HELD;
    const ls_climb_point *rate = &of->rate.point, *gradient = &of->gradient.point;
    short_set(view, of->failed, name);
    ls_table_row(table);
    ls_table_words(table, "%s", name);
    ls_table_words(table, "%s", state_text(of));
    ls_table_number(table, ok ? rate->rate_m_s : NAN);
    ls_table_number(table, ok ? rate->cas_m_s : NAN);
    ls_table_number(table, ok ? ls_climb_live_bank(of, rate) : NAN);
    ls_table_number(table, ok ? 100.0 * of->lost : NAN);
    ls_table_number(table, ok ? 100.0 * gradient->gradient : NAN);
    ls_table_number(table, ok ? gradient->cas_m_s : NAN);
    ls_table_number(table, ok ? ls_climb_live_bank(of, gradient) : NAN);
    ls_table_words(table, "%s", of->status == LS_OK ? ls_climb_end_text(of->rate.end) : "");
    ls_table_words(table, "%s", of->status == LS_OK ? ls_climb_end_text(of->gradient.end) : "");
    ls_table_words(table, "%s", of->reason);
}

static void table_of_cases(ls_report *report, ls_climb_view *view)
{
    const ls_performance *performance = view->performance;
    ls_table *table = ls_climb_table(report, view, "best_speeds", "Best speeds; bank toward the live side", 1,
                                     COLUMNS(case_columns));
    case_row(table, view, &performance->all);
    for (int i = 0; i < performance->sets; i++) {
        for (int k = 0; k < LS_CASE_STATES; k++) {
            if (performance->set[i].by_state[k].status == LS_OK) {
                case_row(table, view, &performance->set[i].by_state[k]);
            }
        }
    }
    ls_report_line(report, "%s", "");
}

/* ---- bank ---- */

static const ls_column bank_columns[] = {
    {"bank_words", "bank,\ndeg", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"bank_toward_live", "", LS_DIM_ANGLE, 1, LS_IN_DATA, NULL},
    {"rate", "climb", LS_DIM_CLIMB_RATE, 0, LS_IN_ALL, NULL},
    {"cost", "less than\nbest bank", LS_DIM_CLIMB_RATE, 0, LS_IN_ALL, NULL},
    {"wind", "wind from,\ndeg", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"sideslip", "", LS_DIM_ANGLE, 1, LS_IN_DATA, NULL},
    {"ball_widths", "ball,\nwidths", LS_DIM_NUMBER, 1, LS_IN_ALL, NULL},
    {"rudder", "", LS_DIM_ANGLE, 1, LS_IN_DATA, NULL},
    {"rudder_left_percent", "rudder\nleft, %", LS_DIM_NUMBER, 0, LS_IN_ALL, NULL},
    {"remark", "", LS_WORDS, 0, LS_IN_ALL, NULL},
};

static void bank_row(ls_table *table, const ls_climb_view *view, const ls_performance_case *one,
                     const ls_climb_at_bank *at, const char *why)
{
    char bank[LS_PHRASE], wind[LS_PHRASE];
    const ls_climb_by_bank *banks = view->banks;
    const ls_trim *trim = &at->point.trim;
    int ok = at->status == LS_OK;
    double best_m_s = banks->best.status == LS_OK ? banks->best.point.rate_m_s : NAN;
    ls_phrase_bank_short(at->bank_rad, one->live_side, bank);
    ls_table_row(table);
    ls_table_words(table, "%s", bank);
    ls_table_number(table, at->bank_rad);
    ls_table_number(table, ok ? at->point.rate_m_s : NAN);
    ls_table_number(table, ok ? best_m_s - at->point.rate_m_s : NAN);
    ls_table_words(table, "%s", ok ? ls_phrase_wind_short(trim->beta_rad, one->live_side, wind) : "-");
    ls_table_number(table, ok ? trim->beta_rad : NAN);
    ls_table_number(table, fabs(at->bank_rad) / view->ball_rad);
    ls_table_number(table, ok ? trim->rudder_rad : NAN);
    ls_table_number(table, ok ? 100.0 * at->point.margins.left[LS_LIMIT_RUDDER] : NAN);
    if (ok && !at->point.is_held) {
        ls_table_words(table, "past %s", ls_limit_name(at->point.limit));
    } else {
        ls_table_words(table, "%s", ok ? why : "no trim");
    }
}

/* The found banks stand among the even ones. */
static void table_of_banks(ls_report *report, ls_climb_view *view, const ls_performance_case *one)
{
    static const double shown_deg[] = {-5, -2, 0, 1, 2, 3, 4, 5, 6, 8, 10};
    const ls_climb_by_bank *banks = view->banks;
    const struct {
        const ls_climb_at_bank *at;
        const char *why;
    } found[] = {{&banks->best, "best climb"}, {&banks->no_sideslip, "no sideslip"}};
    char title[LS_PHRASE], failed[LS_PHRASE], speed[LS_PHRASE];
    snprintf(title, sizeof title, "Climb against bank at %.30s, %.60s",
             ls_phrase_cas(banks->level.point.cas_m_s, view->units, view->uncertain, speed),
             ls_climb_case_text(view, one, failed));
    ls_table *table = ls_climb_table(report, view, "bank", title, 1, COLUMNS(bank_columns));
    double below_rad = -INFINITY;
    for (size_t i = 0; i < sizeof shown_deg / sizeof shown_deg[0]; i++) {
        int index = (int)lround((shown_deg[i] + 5.0) * (LS_CLIMB_BANK_POINTS - 1) / 15.0);
        const ls_climb_at_bank *at = &banks->by_bank[index];
        int first = banks->best.bank_rad <= banks->no_sideslip.bank_rad ? 0 : 1;
        for (int k = 0; k < 2; k++) {
            int which = k == 0 ? first : 1 - first;
            double bank_rad = found[which].at->bank_rad;
            if (found[which].at->status == LS_OK && bank_rad > below_rad && bank_rad <= at->bank_rad) {
                bank_row(table, view, one, found[which].at, found[which].why);
            }
        }
        below_rad = at->bank_rad;
        int is_there = fabs(banks->best.bank_rad - at->bank_rad) < SAME_BANK ||
                       fabs(banks->no_sideslip.bank_rad - at->bank_rad) < SAME_BANK;
        if (!is_there) {
            bank_row(table, view, one, at, "");
        }
    }
    ls_report_line(report, "%s", "");
}

/* ---- costs ---- */

static const ls_column cost_columns[] = {
    {"of", "what it costs", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"climb_lost", "climb\nlost", LS_DIM_CLIMB_RATE, 0, LS_IN_ALL, NULL},
    {"drag", "as\ndrag", LS_DIM_FORCE, 1, LS_IN_ALL, NULL},
    {"remark", "", LS_WORDS, 0, LS_IN_ALL, NULL},
};

static void table_of_costs(ls_report *report, ls_climb_view *view, const ls_performance_case *one)
{
    char title[LS_PHRASE], failed[LS_PHRASE], speed[LS_PHRASE];
    snprintf(title, sizeof title, "Costs at %.30s, %.60s; propellers: against none",
             ls_phrase_cas(view->banks->level.point.cas_m_s, view->units, view->uncertain, speed),
             ls_climb_case_text(view, one, failed));
    ls_table *table = ls_climb_table(report, view, "costs", title, 1, COLUMNS(cost_columns));
    for (int i = 0; i < view->costs->count; i++) {
        const ls_cost *cost = &view->costs->cost[i];
        int ok = cost->status == LS_OK;
        if (cost->status == LS_NO_STATE) {
            continue; /* the file has no data for that state */
        }
        ls_table_row(table);
        ls_table_words(table, "%s", cost->name);
        ls_table_number(table, cost->rate_m_s);
        ls_table_number(table, cost->force_N);
        ls_table_words(table, "%s", !ok ? cost->reason : cost->is_held ? "" : "cannot be held straight");
    }
    ls_report_line(report, "%s", "");
}

/* ---- the account ---- */

static const ls_column account_columns[] = {
    {"part", "along the flight path", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"no_sideslip", "no\nsideslip", LS_DIM_FORCE, 1, LS_IN_ALL, NULL},
    {"level", "wings\nlevel", LS_DIM_FORCE, 1, LS_IN_ALL, NULL},
    {"difference", "difference", LS_DIM_FORCE, 1, LS_IN_ALL, NULL},
};

static void account_row(ls_table *table, const char *name, double first_N, double second_N)
{
    ls_table_row(table);
    ls_table_words(table, "%s", name);
    ls_table_number(table, first_N);
    ls_table_number(table, second_N);
    ls_table_number(table, second_N - first_N);
}

static void table_of_account(ls_report *report, ls_climb_view *view)
{
    const ls_climb_at_bank *first = &view->banks->no_sideslip, *second = &view->banks->level;
    char title[LS_PHRASE], bank[LS_PHRASE];
    if (first->status != LS_OK || second->status != LS_OK) {
        return;
    }
    snprintf(title, sizeof title, "Where the climb goes: no sideslip (bank %.20s) beside wings level",
             ls_phrase_bank_short(first->bank_rad, 1, bank));
    ls_table *table = ls_climb_table(report, view, "account", title, view->full, COLUMNS(account_columns));
    for (int i = 0; i < LS_ACCOUNTS; i++) {
        account_row(table, ls_account_name((ls_account_item)i), first->account.part_N[i],
                    second->account.part_N[i]);
    }
    account_row(table, "left for the climb", first->account.sum_N, second->account.sum_N);
    if (view->full) {
        ls_report_line(report, "%s", "");
    }
}

/* ---- the field ---- */

static const ls_column field_columns[] = {
    {"gear", "gear", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"flap", "flap", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"propeller", "propeller", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"rate", "best\nrate", LS_DIM_CLIMB_RATE, 0, LS_IN_ALL, NULL},
    {"gradient_percent", "gradient\n%", LS_DIM_NUMBER, 1, LS_IN_ALL, NULL},
    {"cas", "at\nCAS", LS_DIM_SPEED, 1, LS_IN_ALL, NULL},
    {"level_to", "level\nup to", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"level_altitude", "", LS_DIM_ALTITUDE, 0, LS_IN_DATA, NULL},
    {"heaviest_words", "heaviest\nlevel here", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"heaviest", "", LS_DIM_MASS, 0, LS_IN_DATA, NULL},
    {"reason", "", LS_WORDS, 0, LS_IN_DATA, NULL},
};

static const char *heaviest_text(const ls_climb_view *view, const ls_field_case *field, char out[LS_PHRASE])
{
    switch (field->heaviest) {
    case LS_HEAVIEST_MAXIMUM:
        return "any";
    case LS_HEAVIEST_FOUND:
        return ls_phrase_value(field->heaviest_kg, LS_DIM_MASS, NULL, view->units, 0, out);
    case LS_HEAVIEST_NONE:
        return "none";
    default:
        return "-";
    }
}

static void field_row(ls_table *table, const ls_climb_view *view, const ls_field_case *field)
{
    char level[LS_PHRASE] = "-", heaviest[LS_PHRASE];
    const ls_performance_case *of = &field->solved;
    int ok = of->status == LS_OK && of->rate.end != LS_CLIMB_NOT_HELD;
    ls_table_row(table);
    ls_table_words(table, "%s", of->condition.gear > 0.0 ? "down" : "up");
    ls_table_words(table, "%s", view->request->aircraft->flap[of->condition.flap].name);
    ls_table_words(table, "%s", ls_engine_state_name(of->state));
    ls_table_number(table, ok ? of->rate.point.rate_m_s : NAN);
    ls_table_number(table, ok ? 100.0 * of->rate.point.gradient : NAN);
    ls_table_number(table, ok ? of->rate.point.cas_m_s : NAN);
    ls_table_words(table, "%s", ok ? ls_climb_ceiling_text(view, &of->absolute, level) : level);
    ls_table_number(table, ok ? of->absolute.altitude_m : NAN);
    ls_table_words(table, "%s", ok ? heaviest_text(view, field, heaviest) : "-");
    ls_table_number(table, ok ? field->heaviest_kg : NAN);
    ls_table_words(table, "%s", of->reason);
}

static void table_of_field(ls_report *report, ls_climb_view *view, const ls_performance_case *one)
{
    char title[LS_PHRASE], name[LS_PHRASE];
    snprintf(title, sizeof title, "To decide with at this field, the %.80s failed, at the best speed of each",
             ls_phrase_set(view->request->aircraft, one->failed, name));
    ls_table *table = ls_climb_table(report, view, "field", title, 1, COLUMNS(field_columns));
    for (int i = 0; i < view->field->cases; i++) {
        field_row(table, view, &view->field->of[i]);
    }
    ls_report_line(report, "%s", "");
}

void ls_climb_tables(ls_report *report, ls_climb_view *view)
{
    const ls_performance_case *one = ls_performance_worst(view->performance);
    table_of_cases(report, view);
    if (one == NULL) {
        return;
    }
    if (view->banks != NULL) {
        table_of_banks(report, view, one);
        table_of_costs(report, view, one);
        table_of_account(report, view);
    }
    table_of_field(report, view, one);
}
