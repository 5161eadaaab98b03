#include "report/chart_check.h"
#include "report/chart_page.h"

#include <math.h>
#include <string.h>

static ls_status check_name(const ls_chart *chart, ls_error *error)
{
    size_t good = strspn(chart->name, "abcdefghijklmnopqrstuvwxyz0123456789-");
    if (good == 0 || chart->name[good] != '\0' || chart->name[0] < 'a') {
        return ls_fail(error, LS_USAGE, "a chart's file name is made of a-z, 0-9 and - and begins with a letter");
    }
    return LS_OK;
}

static ls_status check_curves(const ls_chart *chart, ls_error *error)
{
    int labelled = 0;
    int others[LS_CHART_PANELS] = {0};
    for (int i = 0; i < chart->curves; i++) {
        labelled += chart->curve[i].label[0] != '\0';
        others[chart->curve[i].panel == 1] += chart->curve[i].role == LS_CURVE_OTHER;
    }
    if (chart->slide && labelled > LS_CHART_SLIDE_CURVES) {
        return ls_fail(error, LS_USAGE, "chart %s: %d labelled curves; a slide holds at most %d", chart->name,
                       labelled, LS_CHART_SLIDE_CURVES);
    }
    int most = others[0] > others[1] ? others[0] : others[1];
    if (most > LS_STYLE_OTHERS) {
        return ls_fail(error, LS_USAGE, "chart %s: %d alternatives; at most %d can be told apart", chart->name,
                       most, LS_STYLE_OTHERS);
    }
    return LS_OK;
}

/* Whether each item stands in a panel, a row and a group that the chart has. */
static ls_status check_places(const ls_chart *chart, ls_error *error)
{
    int panels = chart->kind == LS_CHART_CURVES ? chart->panels : 1;
    int good = panels >= 1 && panels <= LS_CHART_PANELS && (unsigned)chart->kind < LS_CHART_KINDS;
    for (int i = 0; i < chart->curves; i++) {
        good = good && chart->curve[i].panel >= 0 && chart->curve[i].panel < panels;
    }
    for (int i = 0; i < chart->regions; i++) {
        good = good && chart->region[i].panel >= 0 && chart->region[i].panel < panels;
    }
    for (int i = 0; i < chart->references; i++) {
        good = good && chart->reference[i].panel >= 0 && chart->reference[i].panel < panels;
    }
    for (int i = 0; i < chart->marks; i++) {
        good = good && chart->mark[i].panel >= 0 && chart->mark[i].panel < panels;
    }
    for (int i = 0; i < chart->bars; i++) {
        const ls_chart_bar *bar = &chart->bar[i];
        good = good && bar->row >= 0 && bar->row < chart->rows && bar->group >= 0 &&
               bar->group < (chart->groups > 0 ? chart->groups : 1);
    }
    return good ? LS_OK
                : ls_fail(error, LS_USAGE, "chart %s: an item in a panel, row or group that it has not",
                          chart->name);
}

static int rises(const double *value, int n)
{
    for (int i = 0; i < n; i++) {
        if (!(fabs(value[i]) <= LS_CHART_LARGEST) || (i > 0 && value[i] <= value[i - 1])) {
            return 0;
        }
    }
    return 1;
}

static ls_status check_map(const ls_chart *chart, ls_error *error)
{
    const ls_chart_map *map = &chart->map;
    if (map->nx < 2 || map->ny < 2 || !rises(map->x, map->nx) || !rises(map->y, map->ny)) {
        return ls_fail(error, LS_USAGE, "chart %s: the grid of a map must rise along both axes", chart->name);
    }
    for (int i = 0; i < map->nx * map->ny; i++) {
        if (isfinite(map->z[i]) && fabs(map->z[i]) > LS_CHART_LARGEST) {
            return ls_fail(error, LS_USAGE, "chart %s: %g cannot be drawn (%g at most)", chart->name, map->z[i],
                           LS_CHART_LARGEST);
        }
    }
    return LS_OK;
}

ls_status ls_chart_check(const ls_chart *chart, ls_error *error)
{
    if (chart->error.status != LS_OK) {
        return ls_fail(error, chart->error.status, "%s", chart->error.text);
    }
    ls_status status = check_name(chart, error);
    status = status != LS_OK ? status : check_places(chart, error);
    status = status != LS_OK ? status : check_curves(chart, error);
    if (status == LS_OK && chart->kind == LS_CHART_MAP) {
        status = check_map(chart, error);
    }
    return status;
}
