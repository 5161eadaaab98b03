#include "report/estimate_report.h"

#include "report/phrase.h"
#include "report/vmca_report.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)

/* ---- the answer ---- */

static int is_handbook(const ls_estimate_view *view)
{
    return view->input->level == LS_LEVEL_HANDBOOK;
}

static void say_published(ls_report *report, const ls_estimate_view *view, double level_m_s, double limit_m_s)
{
    char vmc[LS_PHRASE], low[LS_PHRASE], high[LS_PHRASE];
    double published_m_s = view->aircraft->published.vmc_m_s;
    if (!ls_given(published_m_s)) {
        return;
    }
    ls_phrase_speed(published_m_s, view->units, 0, vmc);
    ls_phrase_speed(limit_m_s, view->units, 1, low);
    ls_phrase_speed(level_m_s, view->units, 1, high);
    ls_report_line(report,
                   "  published VMC %s (%s); estimated %s at 5 deg toward the live engine, %s "
                   "wings level. It is compared, never "
                   "fitted.",
                   vmc, view->aircraft->published.vmc_kind == 1 ? "indicated" : "calibrated", low, high);
}

static void say_vmc(ls_report *report, const ls_estimate_view *view)
{
    const ls_estimate_check *check = view->check;
    if (check->vmca_status != LS_OK) {
        ls_report_answer(report, "%s: no minimum control speed (%s).", view->aircraft->name, check->vmca_reason);
        return;
    }
    char cas[LS_PHRASE], failed[LS_PHRASE];
    const ls_vmca_set *set = &check->vmca.set[ls_vmca_answer_set(&check->vmca)];
    ls_report_answer(report, "%s: VMC about %s, %s failed, from estimates alone.", view->aircraft->name,
                     ls_phrase_cas(set->answer.vmc.cas_m_s, view->units, 1, cas),
                     ls_phrase_set(view->aircraft, set->failed, failed));
    ls_report_number(report, "vmc.cas", LS_DIM_SPEED, NULL, set->answer.vmc.cas_m_s);
    ls_report_number(report, "vmc.level_cas", LS_DIM_SPEED, NULL, set->level.vmc.cas_m_s);
    say_published(report, view, set->level.vmc.cas_m_s, set->at_5_deg.vmc.cas_m_s);
}

static void say_climb(ls_report *report, const ls_estimate_view *view)
{
    const ls_estimate_check *check = view->check;
    const ls_handbook *h = &view->input->handbook;
    char rate[LS_PHRASE], speed[LS_PHRASE], told[LS_PHRASE];
    ls_phrase_value(check->climb_m_s, LS_DIM_CLIMB_RATE, NULL, view->units, 0, rate);
    ls_phrase_cas(check->climb_speed_m_s, view->units, 1, speed);
    ls_report_number(report, "climb.all_engines", LS_DIM_CLIMB_RATE, NULL, check->climb_m_s);
    ls_report_number(report, "climb.one_engine", LS_DIM_CLIMB_RATE, NULL, check->climb_one_m_s);
    ls_report_line(report, "  climb, every engine  %s at %s%s", rate, speed,
                   is_handbook(view) ? ": the drag was found from this climb" : "");
    ls_phrase_value(check->climb_one_m_s, LS_DIM_CLIMB_RATE, NULL, view->units, 0, rate);
    ls_phrase_cas(check->climb_one_speed_m_s, view->units, 1, speed);
    if (is_handbook(view) && ls_given(h->climb_one_m_s)) {
        ls_phrase_value(h->climb_one_m_s, LS_DIM_CLIMB_RATE, NULL, view->units, 0, told);
        ls_report_line(report, "  climb, one engine    %s at %s; the handbook has %s: a check, not used", rate,
                       speed, told);
    } else {
        ls_report_line(report, "  climb, one engine    %s at %s", rate, speed);
    }
}

/* ---- tables ---- */

static const ls_column part_columns[] = {
    {"key", "per radian", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"fin", "fin", LS_DIM_NUMBER, 4, LS_IN_ALL, NULL},
    {"body", "body", LS_DIM_NUMBER, 4, LS_IN_ALL, NULL},
    {"wing", "wing", LS_DIM_NUMBER, 4, LS_IN_ALL, NULL},
    {"nacelles", "nacelles", LS_DIM_NUMBER, 4, LS_IN_ALL, NULL},
    {"total", "total", LS_DIM_NUMBER, 4, LS_IN_ALL, NULL},
    {"spread", "+-", LS_DIM_NUMBER, 4, LS_IN_ALL, NULL},
    {"propellers", "propel-\nlers", LS_DIM_NUMBER, 4, LS_IN_ALL, NULL},
};

static int is_derivative(const ls_estimate_line *line)
{
    return strncmp(line->path, "derivatives.", strlen("derivatives.")) == 0;
}

static void add_parts(ls_report *report, const ls_estimate *estimate)
{
    ls_table *table = ls_report_table(report, "derivatives", "The derivatives, stability axes, and their parts",
                                      LS_IN_TEXT | LS_IN_JSON, part_columns,
                                      (int)(sizeof part_columns / sizeof part_columns[0]));
    for (int i = 0; i < estimate->lines; i++) {
        const ls_estimate_line *line = &estimate->line[i];
        if (!is_derivative(line)) {
            continue;
        }
        ls_table_row(table);
        ls_table_words(table, "%s", line->path + strlen("derivatives."));
        for (int part = 0; part < LS_ON_PARTS; part++) {
            ls_table_number(table, line->part[part]);
        }
        ls_table_number(table, line->value);
        ls_table_number(table, line->spread);
        ls_table_number(table, line->propellers);
    }
}

static const ls_column line_columns[] = {
    {"key", "key", LS_WORDS, 0, LS_IN_ALL, NULL},        {"value", "value", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"spread", "+-", LS_WORDS, 0, LS_IN_ALL, NULL},      {"unit", "unit", LS_WORDS, 0, LS_IN_ALL, NULL},
    {"source", "source", LS_WORDS, 0, LS_IN_DATA, NULL}, {"method", "method", LS_WORDS, 0, LS_IN_DATA, NULL},
};

/* "flaps[2].lift_max" */
static void line_name(const ls_estimate_line *line, char *out, size_t size)
{
    const char *bracket = strstr(line->path, "[]");
    if (bracket == NULL) {
        snprintf(out, size, "%s", line->path);
    } else {
        snprintf(out, size, "%.*s[%d]%s", (int)(bracket - line->path), line->path, line->element + 1, bracket + 2);
    }
}

static const ls_unit *line_unit(const ls_estimate_view *view, const ls_estimate_line *line)
{
    int element;
    char path[LS_PHRASE];
    line_name(line, path, sizeof path);
    const ls_parameter *row = ls_parameter_find(view->aircraft, path, &element, NULL);
    return ls_unit_preferred(view->units, row != NULL ? row->dimension : LS_DIM_NUMBER);
}

static void add_line(ls_table *table, const ls_estimate_view *view, const ls_estimate_line *line)
{
    char name[LS_PHRASE];
    const ls_unit *unit = line_unit(view, line);
    line_name(line, name, sizeof name);
    ls_table_row(table);
    ls_table_words(table, "%s", name);
    ls_table_words(table, "%.4g", ls_unit_from_si(unit, line->value));
    ls_table_words(table, "%.2g", ls_unit_from_si(unit, line->spread));
    ls_table_words(table, "%s", unit->name);
    ls_table_words(table, "%s",
                   line->source == LS_SOURCE_ESTIMATED ? "estimated"
                   : line->source == LS_SOURCE_ASSUMED ? "assumed"
                                                       : "given");
    ls_table_words(table, "%s", line->method);
}

/* For people without the derivatives, which have a table of their own. */
static void add_lines(ls_report *report, const ls_estimate_view *view)
{
    int columns = (int)(sizeof line_columns / sizeof line_columns[0]);
    ls_table *shown = ls_report_table(report, "other", "The other numbers", LS_IN_TEXT, line_columns, columns);
    ls_table *all = ls_report_table(report, "numbers", NULL, LS_IN_DATA, line_columns, columns);
    for (int i = 0; i < view->estimate->lines; i++) {
        const ls_estimate_line *line = &view->estimate->line[i];
        add_line(all, view, line);
        if (!is_derivative(line)) {
            add_line(shown, view, line);
        }
    }
}

/* Each method once, with what it was used for. */
static void add_methods(ls_report *report, const ls_estimate *estimate)
{
    ls_report_line(report, "%s", "");
    ls_report_line(report, "Methods");
    for (int i = 0; i < estimate->lines; i++) {
        int is_first = 1;
        const ls_estimate_line *line = &estimate->line[i];
        for (int j = 0; j < i; j++) {
            is_first = is_first && strcmp(estimate->line[j].method, line->method) != 0;
        }
        if (is_first) {
            ls_report_line(report, "  %s: %s", line->path, line->method);
        }
    }
}

static void add_basis(ls_report *report, const ls_estimate_view *view)
{
    const ls_estimate_basis *b = &view->estimate->basis;
    char speed[LS_PHRASE], area[LS_PHRASE], arm[LS_PHRASE], up[LS_PHRASE];
    ls_phrase_value(b->fin_area_m2, LS_DIM_AREA, NULL, view->units, 1, area);
    ls_phrase_value(b->fin_arm_m, LS_DIM_LENGTH, NULL, view->units, 1, arm);
    ls_phrase_value(b->fin_up_m, LS_DIM_LENGTH, NULL, view->units, 1, up);
    ls_report_line(report, "%s", "");
    ls_report_line(report, "What they rest on");
    ls_report_line(report, "  condition   %s (1.2 VS, sea level), lift coefficient %.2f, incidence %.1f deg",
                   ls_phrase_cas(b->V_m_s, view->units, 0, speed), b->lift_coefficient, b->alpha_rad / DEG);
    ls_report_line(report, "  wing        aspect ratio %.2f, lift slope %.2f /rad", b->wing_aspect,
                   b->wing_slope_rad);
    ls_report_line(report,
                   "  fin         %s to the body's centreline, effective aspect ratio %.2f, slope %.2f /rad, "
                   "sidewash and pressure %.2f, body factor %.2f, arm %s, %s above the centre of gravity",
                   area, b->fin_aspect, b->fin_slope_rad, b->fin_sidewash, b->fin_body_factor, arm, up);
    ls_report_line(report,
                   "  rudder      effectiveness %.2f; a thin aerofoil's bound is %.2f; then fading as "
                   "rudder.effect says",
                   b->rudder_tau, b->rudder_bound);
    ls_report_line(report, "  body        yaw by sideslip %.4f /rad by volume, %.4f by side area", b->body_yaw[0],
                   b->body_yaw[1]);
    ls_report_line(report,
                   "  inertia     roll %.0f, pitch %.0f, yaw %.0f kg.m2 at maximum mass (radii of gyration: "
                   "Raymer, table 16.1)",
                   b->inertia_kg_m2[0], b->inertia_kg_m2[1], b->inertia_kg_m2[2]);
    ls_report_number(report, "basis.body_yaw_by_volume", LS_DIM_NUMBER, NULL, b->body_yaw[0]);
    ls_report_number(report, "basis.body_yaw_by_side", LS_DIM_NUMBER, NULL, b->body_yaw[1]);
    ls_report_number(report, "basis.rudder_effectiveness", LS_DIM_NUMBER, NULL, b->rudder_tau);
    ls_report_number(report, "inertia.roll", LS_DIM_INERTIA, NULL, b->inertia_kg_m2[0]);
    ls_report_number(report, "inertia.pitch", LS_DIM_INERTIA, NULL, b->inertia_kg_m2[1]);
    ls_report_number(report, "inertia.yaw", LS_DIM_INERTIA, NULL, b->inertia_kg_m2[2]);
}

void ls_estimate_report(ls_report *report, const ls_estimate_view *view)
{
    const ls_findings *found = &view->estimate->findings;
    say_vmc(report, view);
    say_climb(report, view);
    add_parts(report, view->estimate);
    ls_report_line(report,
                   "+- is a standard deviation. The propellers' part is flown from their own keys, and is not "
                   "in the total.");
    add_lines(report, view);
    add_basis(report, view);
    add_methods(report, view->estimate);
    for (int i = 0; i < found->stored; i++) {
        ls_report_warning(report, "%s: %s.", found->item[i].key, found->item[i].text);
    }
    ls_report_warning(report,
                      "every number of this aeroplane is an estimate or an assumption, and so is every answer "
                      "that rests on it.");
    if (is_handbook(view)) {
        ls_report_warning(report, "dihedral, ailerons, flaps, body and nacelles are those of the class of light "
                                  "low-wing twins.");
    }
    if (view->written != NULL) {
        ls_report_line(report, "%s", "");
        ls_report_line(report, "The aeroplane is in %s.", view->written);
    }
}
