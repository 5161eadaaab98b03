#include "report/aircraft_sheet.h"

#include "report/phrase.h"

#include <math.h>

#define DEG (3.14159265358979323846 / 180.0)

static const char *type_text(int type)
{
    static const char *const name[] = {"piston", "turboprop", "electric", "jet"};
    return name[type];
}

static const char *value(double si, ls_dimension dimension, const char *us_unit, ls_unit_system units,
                         int decimals, char out[LS_PHRASE])
{
    return ls_phrase_value(si, dimension, us_unit, units, decimals, out);
}

static void add_measures(ls_report *report, const ls_aircraft *aircraft, ls_unit_system units)
{
    char a[LS_PHRASE], b[LS_PHRASE], c[LS_PHRASE];
    ls_report_fact(report, LS_FACT_COLUMNS, "weight", "%s at most, %s at least",
                   value(aircraft->mass.maximum_kg, LS_DIM_MASS, NULL, units, 0, a),
                   value(aircraft->mass.minimum_kg, LS_DIM_MASS, NULL, units, 0, b));
    ls_report_fact(report, LS_FACT_COLUMNS, "CG", "%s to %s aft of the datum, reference %s",
                   value(aircraft->cg.forward_m, LS_DIM_LENGTH, "in", units, 1, a),
                   value(aircraft->cg.aft_m, LS_DIM_LENGTH, "in", units, 1, b),
                   value(aircraft->cg.reference_m, LS_DIM_LENGTH, "in", units, 1, c));
    ls_report_fact(report, LS_FACT_COLUMNS, "wing", "%s span, %s area",
                   value(aircraft->wing.span_m, LS_DIM_LENGTH, "ft", units, 1, a),
                   value(aircraft->wing.area_m2, LS_DIM_AREA, NULL, units, 0, b));
    ls_report_fact(report, LS_FACT_COLUMNS, "rudder", "%.1f deg left, %.1f deg right",
                   aircraft->rudder.left_rad / DEG, aircraft->rudder.right_rad / DEG);
    ls_report_fact(report, LS_FACT_COLUMNS, "aileron", "%.1f deg, of which %.0f %% may be used",
                   aircraft->aileron.travel_rad / DEG, 100.0 * aircraft->aileron.usable);
    ls_report_fact(report, LS_FACT_COLUMNS, "limits", "%.1f deg of bank%s%s", aircraft->limits.bank_rad / DEG,
                   ls_aircraft_has_pedal(aircraft) ? ", pedal force " : "; no pedal data",
                   ls_aircraft_has_pedal(aircraft)
                       ? value(aircraft->limits.pedal_force_N, LS_DIM_FORCE, NULL, units, 0, a)
                       : "");
}

static void add_published(ls_report *report, const ls_aircraft *aircraft, ls_unit_system units)
{
    const struct {
        const char *name;
        double m_s;
    } speed[] = {{"VMC", aircraft->published.vmc_m_s},   {"VYSE", aircraft->published.vyse_m_s},
                 {"VXSE", aircraft->published.vxse_m_s}, {"VSSE", aircraft->published.vsse_m_s},
                 {"VY", aircraft->published.vy_m_s},     {"VX", aircraft->published.vx_m_s}};
    for (size_t i = 0; i < sizeof speed / sizeof speed[0]; i++) {
        char text[LS_PHRASE];
        if (ls_given(speed[i].m_s)) {
            ls_report_fact(report, LS_FACT_COLUMNS, speed[i].name, "%s published",
                           ls_phrase_of_kind(speed[i].m_s, aircraft->published.vmc_kind == 1, units, text));
        }
    }
}

static const ls_column columns[] = {
    {"engine", "engine", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"kind", "kind", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"power", "power", LS_DIM_POWER, 0, LS_IN_TEXT, NULL},
    {"thrust", "thrust", LS_DIM_FORCE, 0, LS_IN_TEXT, NULL},
    {"side", "side", LS_WORDS, 0, LS_IN_TEXT, NULL},
    {"off", "off centre", LS_DIM_LENGTH, 2, LS_IN_TEXT, "ft"},
    {"blades", "blades", LS_DIM_NUMBER, 0, LS_IN_TEXT, NULL},
    {"diameter", "diameter", LS_DIM_LENGTH, 1, LS_IN_TEXT, "in"},
    {"turns", "turns, seen from behind", LS_WORDS, 0, LS_IN_TEXT, NULL},
};

static void add_engines(ls_report *report, const ls_aircraft *aircraft)
{
    ls_table *table =
        ls_report_table(report, "engines", "Engines", LS_IN_TEXT, columns, sizeof columns / sizeof columns[0]);
    for (int i = 0; i < aircraft->engines; i++) {
        const ls_engine_mount *mount = &aircraft->engine[i];
        const ls_powerplant_data *plant = &aircraft->powerplant[mount->powerplant];
        int has_propeller = plant->propeller.kind != LS_PROPELLER_NONE,
            is_jet = plant->engine.type == LS_ENGINE_JET;
        ls_table_row(table);
        ls_table_words(table, "%s", mount->name);
        ls_table_words(table, "%s", type_text(plant->engine.type));
        ls_table_number(table, is_jet ? NAN : plant->engine.power_W);
        ls_table_number(table, is_jet ? plant->engine.thrust_N : NAN);
        ls_table_words(table, "%s",
                       mount->hub_right_m > 0.0   ? "right"
                       : mount->hub_right_m < 0.0 ? "left"
                                                  : "on the centreline");
        ls_table_number(table, fabs(mount->hub_right_m));
        ls_table_number(table, has_propeller ? plant->propeller.blades : NAN);
        ls_table_number(table, has_propeller ? plant->propeller.diameter_m : NAN);
        ls_table_words(table, "%s",
                       !has_propeller              ? "no propeller"
                       : ls_engine_hand(mount) > 0 ? "clockwise"
                                                   : "anticlockwise");
    }
}

void ls_aircraft_sheet(ls_report *report, const ls_aircraft *aircraft, int uncertain, ls_unit_system units)
{
    char weight[LS_PHRASE];
    ls_report_answer(report, "%s: %d engine%s, %s at most.", aircraft->name, aircraft->engines,
                     aircraft->engines == 1 ? "" : "s",
                     value(aircraft->mass.maximum_kg, LS_DIM_MASS, NULL, units, 0, weight));
    add_measures(report, aircraft, units);
    add_published(report, aircraft, units);
    add_engines(report, aircraft);
    if (uncertain > 0) {
        ls_report_warning(report,
                          "%d values of the file are estimated or assumed: speeds are rounded to whole units.",
                          uncertain);
    }
}
