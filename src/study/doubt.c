#include "liveside/doubt.h"

#include <math.h>
#include <string.h>

static const ls_doubt_row rows[] = {
    {"slipstream.wing_lift", 0.5, 1.0, 0, "narrow to very wide slipstream"},
    {"slipstream.fin_immersion", 0.0, 0.3, 0, "an allowance"},
    {"slipstream.swirl_straightened", 0.0, 0.5, 0, "none to half of the swirl"},
    {"derivatives.yaw.sideslip", -0.10, 0.10, 1, "handbook estimates of one aeroplane differ by so much"},
    {"derivatives.yaw.rudder", -0.10, 0.10, 1, "the same"},
    {"derivatives.yaw.aileron", -0.30, 0.30, 1, "small and seldom measured (common practice)"},
    {"powerplants[].propeller.thrust_offset", -0.30, 0.30, 1, "local and frozen inflow differ by 25 to 35 %"},
    {"powerplants[].propeller.windmilling_area", -0.30, 0.30, 1, "common practice"},
    {"powerplants[].engine.friction", -0.15, 0.15, 1, "0.132 +- 0.02 of rated torque"},
};

enum { ROWS = sizeof rows / sizeof rows[0] };

const ls_doubt_row *ls_doubts(int *count)
{
    *count = ROWS;
    return rows;
}

static double end_value(const ls_doubt_row *row, double spread, int end, double value)
{
    if (spread > 0.0) {
        return value + (end == 0 ? -spread : spread);
    }
    double bound = end == 0 ? row->low : row->high;
    return row->is_share ? value * (1.0 + bound) : bound;
}

static const ls_parameter *find(const char *path)
{
    int count;
    const ls_parameter *parameter = ls_parameters(&count);
    for (int i = 0; i < count; i++) {
        if (strcmp(parameter[i].path, path) == 0) {
            return &parameter[i];
        }
    }
    return NULL;
}

int ls_doubt_apply(const ls_aircraft *aircraft, const ls_marks *marks, int row, int end, ls_aircraft *changed)
{
    int moved = 0;
    const ls_parameter *parameter = find(rows[row].path);
    *changed = *aircraft;
    if (parameter == NULL) {
        return 0;
    }
    int length = ls_list_length(aircraft, ls_parameter_list(parameter));
    for (int element = 0; element < length; element++) {
        double *value = ls_parameter_value(changed, parameter, element);
        const ls_mark *mark = marks != NULL ? ls_mark_of_const(marks, parameter, element) : NULL;
        if (!ls_parameter_applies(aircraft, parameter, element) || !ls_given(*value) || *value == 0.0) {
            continue;
        }
        double before = *value;
        *value = end_value(&rows[row], mark != NULL ? mark->spread : 0.0, end, before);
        *value = fmin(parameter->high, fmax(parameter->low, *value));
        moved |= *value != before;
    }
    return moved;
}
