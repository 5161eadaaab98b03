#include "report/demonstration_report.h"

#include "report/caution.h"
#include "report/phrase.h"

#include <math.h>
#include <stdio.h>

#define COUNT(columns) (int)(sizeof(columns) / sizeof(columns)[0])

static const char *advice_text(ls_demonstration_advice advice)
{
    static const char *const texts[] = {"", "do not: too close", "do not: stalls first", "not known"};
    return texts[advice];
}

/* "68", "66-68": where the file only bounds an idling engine. */
static void idle_text(const ls_demonstration_view *view, const ls_demonstration_point *point, char out[LS_PHRASE])
{
    const ls_unit *unit = ls_unit_preferred(view->units, LS_DIM_SPEED);
    double low = ls_unit_from_si(unit, point->idle_m_s[0]), high = ls_unit_from_si(unit, point->idle_m_s[1]);
    int decimals = view->uncertain ? 0 : 1;
    if (!isfinite(low) && !isfinite(high)) {
        snprintf(out, LS_PHRASE, "none");
    } else if (!view->plan->idle_is_bounds) {
        snprintf(out, LS_PHRASE, "%.*f", decimals, low);
    } else if (!isfinite(low)) {
        snprintf(out, LS_PHRASE, "none-%.0f", high);
    } else {
        snprintf(out, LS_PHRASE, "%.0f-%.0f", low, high);
    }
}

/* "heading by 12.3": what comes first as the speed falls. */
static void first_text(const ls_demonstration_view *view, const ls_demonstration_point *point, char out[LS_PHRASE])
{
    const ls_unit *unit = ls_unit_preferred(view->units, LS_DIM_SPEED);
    double by = ls_unit_from_si(unit, point->margin_m_s);
    if (point->advice == LS_DEMONSTRATE_UNKNOWN) {
        snprintf(out, LS_PHRASE, "-");
    } else if (!isfinite(by)) {
        snprintf(out, LS_PHRASE, "stall");
    } else {
        snprintf(out, LS_PHRASE, "%s by %.1f", by > 0.0 ? "heading" : "stall", fabs(by));
    }
}

static const ls_column plan_columns[] = {
    {"altitude", "altitude", LS_DIM_ALTITUDE, 0, LS_IN_TEXT, NULL},
    {"mass", "weight", LS_DIM_MASS, 0, LS_IN_TEXT, NULL},
    {"entry", "entry", LS_DIM_SPEED, 0, LS_IN_TEXT, NULL},
    {"idle", "lost\nidling", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"dead", "lost\ndead", LS_DIM_SPEED, 1, LS_IN_TEXT, NULL},
    {"stall", "stall", LS_DIM_SPEED, 1, LS_IN_TEXT, NULL},
    {"first", "first,\nidling", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"block", "block\nrudder", LS_DIM_FRACTION, 0, LS_IN_TEXT, "%"},
    {"advice", "", LS_WORDS, 0, LS_IN_TEXT, NULL},
};

static void table_of_plan(ls_report *report, const ls_demonstration_view *view)
{
    ls_table *table =
        ls_report_table(report, "table", "As the speed falls (CAS): where heading is lost, and the stall",
                        LS_IN_TEXT, plan_columns, COUNT(plan_columns));
    for (int i = 0; i < view->plan->points; i++) {
        const ls_demonstration_point *point = &view->plan->point[i];
        char text[LS_PHRASE];
        ls_table_row(table);
        ls_table_number(table, point->altitude_m);
        ls_table_number(table, point->mass_kg);
        ls_table_number(table, point->entry_m_s);
        idle_text(view, point, text);
        ls_table_words(table, "%s", text);
        ls_table_number(table, point->dead_m_s);
        ls_table_number(table, point->stall_m_s);
        first_text(view, point, text);
        ls_table_words(table, "%s", text);
        ls_table_number(table, point->block);
        ls_table_words(table, "%s", point->advice == LS_DEMONSTRATE ? "" : "do not");
    }
    ls_report_line(report, "%s", "");
}

static const ls_column authority_columns[] = {
    {"speed", "with the engine dead, at", LS_WORDS, 0, LS_IN_TEXT | LS_IN_JSON, NULL},
    {"cas", "CAS", LS_DIM_SPEED, 1, LS_IN_TEXT | LS_IN_JSON, NULL},
    {"rudder_left", "rudder\nleft", LS_DIM_FRACTION, 0, LS_IN_TEXT | LS_IN_JSON, "%"},
    {"pedal_left", "pedal\nleft", LS_DIM_FRACTION, 0, LS_IN_TEXT | LS_IN_JSON, "%"},
    {"aileron_left", "aileron\nleft", LS_DIM_FRACTION, 0, LS_IN_TEXT | LS_IN_JSON, "%"},
    {"stall_left", "lift\nleft", LS_DIM_FRACTION, 0, LS_IN_TEXT | LS_IN_JSON, "%"},
    {"reason", "", LS_WORDS, 0, LS_IN_TEXT | LS_IN_JSON, NULL},
};

static void table_of_authority(ls_report *report, const ls_demonstration_view *view)
{
    char title[LS_PHRASE], altitude[LS_PHRASE], mass[LS_PHRASE];
    const ls_condition *base = &view->plan->base;
    snprintf(title, sizeof title, "Roll and yaw authority at %.40s, %.40s",
             ls_phrase_value(base->altitude_m, LS_DIM_ALTITUDE, NULL, view->units, 0, altitude),
             ls_phrase_value(base->mass_kg, LS_DIM_MASS, NULL, view->units, 0, mass));
    ls_table *table = ls_report_table(report, "authority", title, LS_IN_TEXT | LS_IN_JSON, authority_columns,
                                      COUNT(authority_columns));
    for (int i = 0; i < view->plan->authorities; i++) {
        const ls_authority *at = &view->plan->authority[i];
        static const ls_limit limits[] = {LS_LIMIT_RUDDER, LS_LIMIT_PEDAL, LS_LIMIT_AILERON, LS_LIMIT_WING_STALL};
        ls_table_row(table);
        ls_table_words(table, "%s", at->name);
        ls_table_number(table, at->cas_m_s);
        for (size_t k = 0; k < sizeof limits / sizeof limits[0]; k++) {
            ls_table_number(table, at->status == LS_OK ? at->margins.left[limits[k]] : NAN);
        }
        ls_table_words(table, "%s",
                       !isfinite(at->cas_m_s)                    ? "not in the file"
                       : at->status != LS_OK                     ? "no balance"
                       : at->margins.left[LS_LIMIT_RUDDER] < 0.0 ? "not held"
                                                                 : "");
    }
    ls_report_line(report, "%s", "");
}

static void say_answer(ls_report *report, const ls_demonstration_view *view)
{
    const ls_demonstration *plan = view->plan;
    int fit = 0;
    char name[LS_PHRASE], margin[LS_PHRASE];
    for (int i = 0; i < plan->points; i++) {
        fit += plan->point[i].advice == LS_DEMONSTRATE;
    }
    ls_phrase_set(view->aircraft, plan->failed, name);
    ls_phrase_speed(view->request->margin_m_s, view->units, 0, margin);
    if (fit == plan->points) {
        ls_report_answer(report, "%s, %s idling: heading is lost %s or more above the stall in every case below.",
                         view->aircraft->name, name, margin);
    } else {
        ls_report_answer(report,
                         "%s, %s idling: do not demonstrate here in %d of the %d cases below (less than %s "
                         "above the stall).",
                         view->aircraft->name, name, plan->points - fit, plan->points, margin);
    }
}

static void say_steps(ls_report *report, const ls_demonstration_view *view)
{
    const ls_demonstration *plan = view->plan;
    char bank[LS_PHRASE], above[LS_PHRASE];
    ls_phrase_bank(plan->bank_rad, plan->live_side, view->aircraft->engines - ls_set_size(plan->failed), bank);
    ls_report_line(
        report,
        "Entry %s above the higher of best one-engine climb and VSSE (common practice); then slow down by "
        "1 kt/s (FAA-H-8083-3C, ch. 13), %s, and recover at the first of loss of heading, stall warning or "
        "buffet.",
        ls_phrase_speed(LS_DEMONSTRATION_ABOVE_M_S, view->units, 0, above), bank);
    if (view->request->rudder_share < 1.0) {
        ls_report_line(report,
                       "The instructor allows %.0f %% of the rudder's travel (common practice): heading is lost "
                       "sooner, farther from the stall.",
                       100 * view->request->rudder_share);
    }
    ls_report_line(report,
                   "Block rudder: the share of the travel in use at the margin above the stall, idling; stopped "
                   "there, heading is lost with that margin in hand.");
    if (plan->idle_is_bounds) {
        ls_report_line(report,
                       "The file does not describe an idling engine: it lies between no thrust and windmilling, "
                       "and the plan goes by no thrust, nearest the stall.");
    }
    ls_report_line(report, "%s", "");
}

/* The cases that are not to be flown, in words of their own. */
static void say_refused(ls_report *report, const ls_demonstration_view *view)
{
    int any = 0;
    for (int i = 0; i < view->plan->points; i++) {
        const ls_demonstration_point *point = &view->plan->point[i];
        char altitude[LS_PHRASE], mass[LS_PHRASE], first[LS_PHRASE];
        if (point->advice == LS_DEMONSTRATE) {
            continue;
        }
        any = 1;
        first_text(view, point, first);
        ls_report_line(report, "Do not demonstrate here: %s, %s (%s%s%s).",
                       ls_phrase_value(point->altitude_m, LS_DIM_ALTITUDE, NULL, view->units, 0, altitude),
                       ls_phrase_value(point->mass_kg, LS_DIM_MASS, NULL, view->units, 0, mass), first,
                       isfinite(point->margin_m_s) ? " " : "",
                       isfinite(point->margin_m_s) ? ls_unit_preferred(view->units, LS_DIM_SPEED)->name : "");
    }
    if (any) {
        ls_report_line(report, "%s", "");
    }
}

static const ls_column data_columns[] = {
    {"altitude", "", LS_DIM_ALTITUDE, 0, LS_IN_DATA, NULL},
    {"mass", "", LS_DIM_MASS, 0, LS_IN_DATA, NULL},
    {"entry_cas", "", LS_DIM_SPEED, 1, LS_IN_DATA, NULL},
    {"idle_low_cas", "", LS_DIM_SPEED, 1, LS_IN_DATA, NULL},
    {"idle_high_cas", "", LS_DIM_SPEED, 1, LS_IN_DATA, NULL},
    {"dead_cas", "", LS_DIM_SPEED, 1, LS_IN_DATA, NULL},
    {"feathered_cas", "", LS_DIM_SPEED, 1, LS_IN_DATA, NULL},
    {"stall_cas", "", LS_DIM_SPEED, 1, LS_IN_DATA, NULL},
    {"margin", "", LS_DIM_SPEED, 1, LS_IN_DATA, NULL},
    {"rudder_block", "", LS_DIM_FRACTION, 0, LS_IN_DATA, "%"},
    {"advice", "", LS_WORDS, 0, LS_IN_DATA, NULL},
};

static void data(ls_report *report, const ls_demonstration_view *view)
{
    ls_table *table = ls_report_table(report, "plan", NULL, LS_IN_DATA, data_columns, COUNT(data_columns));
    for (int i = 0; i < view->plan->points; i++) {
        const ls_demonstration_point *point = &view->plan->point[i];
        const double number[] = {point->altitude_m,  point->mass_kg,  point->entry_m_s,     point->idle_m_s[0],
                                 point->idle_m_s[1], point->dead_m_s, point->feathered_m_s, point->stall_m_s,
                                 point->margin_m_s,  point->block};
        ls_table_row(table);
        for (size_t k = 0; k < sizeof number / sizeof number[0]; k++) {
            ls_table_number(table, number[k]);
        }
        ls_table_words(table, "%s", point->advice == LS_DEMONSTRATE ? "can be shown" : advice_text(point->advice));
    }
    ls_report_number(report, "stated_margin", LS_DIM_SPEED, NULL, view->request->margin_m_s);
    ls_report_number(report, "rudder_allowed", LS_DIM_FRACTION, "%", view->request->rudder_share);
    ls_report_number(report, "bank", LS_DIM_ANGLE, NULL, view->plan->bank_rad);
}

void ls_demonstration_report(ls_report *report, const ls_demonstration_view *view)
{
    say_answer(report, view);
    ls_report_line(report, "%s", "");
    say_steps(report, view);
    table_of_plan(report, view);
    say_refused(report, view);
    table_of_authority(report, view);
    data(report, view);
    ls_report_warning(report,
                      "A plan to study, not to fly: the flight manual, the school's syllabus and a licensed "
                      "instructor decide whether and how it is shown.");
    ls_report_cautions(report, view->uncertain, view->plan->bank_rad, 0);
}

void ls_chart_of_authority(ls_chart *chart, const ls_demonstration_view *view, int slide)
{
    static const struct {
        ls_limit limit;
        ls_curve_role role;
        const char *label;
    } curves[] = {{LS_LIMIT_RUDDER, LS_CURVE_MAIN, "rudder"},
                  {LS_LIMIT_AILERON, LS_CURVE_OTHER, "aileron"},
                  {LS_LIMIT_PEDAL, LS_CURVE_OTHER, "pedal force"},
                  {LS_LIMIT_WING_STALL, LS_CURVE_OTHER, "lift"}};
    const ls_unit *knots = ls_unit_preferred(view->units, LS_DIM_SPEED);
    const ls_control_use *use = view->plan->use;
    ls_chart_start(chart, LS_CHART_CURVES, "authority-against-speed");
    chart->slide = slide;
    snprintf(chart->title, sizeof chart->title, "%.100s: what is left before each limit, one engine dead",
             view->aircraft->name);
    snprintf(chart->x.label, sizeof chart->x.label, "calibrated airspeed");
    snprintf(chart->x.unit, sizeof chart->x.unit, "%s", knots->name);
    snprintf(chart->y[0].label, sizeof chart->y[0].label, "left");
    snprintf(chart->y[0].unit, sizeof chart->y[0].unit, "%% of the limit");
    chart->y[0].with_zero = 1;
    for (size_t k = 0; k < sizeof curves / sizeof curves[0]; k++) {
        if (isnan(use[LS_DEMONSTRATION_SPEEDS - 1].margins.left[curves[k].limit])) {
            continue; /* no such limit */
        }
        ls_chart_add_curve(chart, curves[k].role, 0, curves[k].label);
        for (int i = 0; i < LS_DEMONSTRATION_SPEEDS; i++) {
            double left = use[i].status == LS_OK ? 100 * use[i].margins.left[curves[k].limit] : NAN;
            ls_chart_add_point(chart, ls_unit_from_si(knots, use[i].cas_m_s), left >= -25.0 ? left : NAN);
        }
    }
    ls_chart_add_horizontal(chart, 0, 0.0, "nothing left");
    for (int i = 0; i < view->plan->authorities; i++) {
        const ls_authority *at = &view->plan->authority[i];
        ls_chart_add_vertical(chart, ls_unit_from_si(knots, at->cas_m_s), at->name);
    }
}
