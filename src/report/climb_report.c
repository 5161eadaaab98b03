#include "report/climb_report.h"

#include "report/climb_parts.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

const char *ls_climb_rate_text(const ls_climb_view *view, double rate_m_s, char out[LS_PHRASE])
{
    const ls_unit *unit = ls_unit_preferred(view->units, LS_DIM_CLIMB_RATE);
    double ten = ls_unit_to_si(unit, 10.0);
    int is_rough = view->uncertain > 0 && view->units != LS_UNITS_SI;
    return ls_phrase_value(is_rough ? ten * round(rate_m_s / ten) : rate_m_s, LS_DIM_CLIMB_RATE, NULL, view->units,
                           0, out);
}

const char *ls_climb_altitude_text(const ls_climb_view *view, double altitude_m, char out[LS_PHRASE])
{
    double round_m = view->units == LS_UNITS_SI ? 10.0 : 30.48;
    return ls_phrase_value(round_m * round(altitude_m / round_m), LS_DIM_ALTITUDE, NULL, view->units, 0, out);
}

const char *ls_climb_ceiling_text(const ls_climb_view *view, const ls_ceiling *ceiling, char out[LS_PHRASE])
{
    char altitude[LS_PHRASE];
    switch (ceiling->kind) {
    case LS_CEILING_FOUND:
        return ls_climb_altitude_text(view, ceiling->altitude_m, out);
    case LS_CEILING_ABOVE:
        ls_climb_altitude_text(view, ceiling->high_m, altitude);
        snprintf(out, LS_PHRASE, "above %.60s", altitude);
        return out;
    default:
        snprintf(out, LS_PHRASE, "none");
        return out;
    }
}

const char *ls_climb_case_text(const ls_climb_view *view, const ls_performance_case *of, char out[LS_PHRASE])
{
    char name[LS_PHRASE];
    if (of->failed == 0) {
        snprintf(out, LS_PHRASE, "every engine running");
    } else {
        snprintf(out, LS_PHRASE, "%.80s %s", ls_phrase_set(view->request->aircraft, of->failed, name),
                 ls_engine_state_name(of->state));
    }
    return out;
}

double ls_climb_live_bank(const ls_performance_case *of, const ls_climb_point *point)
{
    return of->live_side < 0 ? -point->bank_rad : point->bank_rad;
}

ls_table *ls_climb_table(ls_report *report, ls_climb_view *view, const char *key, const char *title, int in_text,
                         const ls_column *columns, int count)
{
    assert(view->tables < LS_CLIMB_TABLES && count <= LS_CLIMB_COLUMNS);
    ls_column *own = view->column[view->tables++];
    memcpy(own, columns, (size_t)count * sizeof *own);
    for (int i = 0; i < count; i++) {
        if (own[i].dimension == LS_DIM_SPEED && view->uncertain > 0) {
            own[i].decimals = 0;
        }
    }
    unsigned where = LS_IN_JSON | (in_text ? LS_IN_TEXT : 0u);
    return ls_report_table(report, key, in_text ? title : NULL, where, own, count);
}

void ls_climb_report(ls_report *report, ls_climb_view *view)
{
    view->tables = view->headings = 0;
    ls_climb_say(report, view);
    ls_climb_tables(report, view);
    ls_climb_tables_of_height(report, view);
    ls_climb_data(report, view);
}
