#include "liveside/estimate.h"

#include "airframe/estimate_parts.h"
#include "airframe/path.h"

#include <assert.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

ls_estimate_line *ls_estimate_set(ls_estimating *e, const char *path, int element, double value, double spread,
                                  ls_source source, const char *method)
{
    const ls_parameter *row = ls_parameter_row(path);
    assert(row != NULL && row->kind == LS_KEY_NUMBER && e->out->lines < LS_ESTIMATE_LINES);
    *(double *)ls_parameter_value(e->aircraft, row, element) = value;
    *ls_mark_of(e->marks, row, element) = (ls_mark){.source = source, .spread = fabs(spread)};
    ls_estimate_line *line = &e->out->line[e->out->lines++];
    *line = (ls_estimate_line){.path = path,
                               .element = element,
                               .propellers = NAN,
                               .value = value,
                               .spread = fabs(spread),
                               .source = source,
                               .method = method};
    for (int i = 0; i < LS_ON_PARTS; i++) {
        line->part[i] = NAN;
    }
    return line;
}

void ls_estimate_take(ls_estimating *e, const char *path, double value, const char *from)
{
    const ls_parameter *row = ls_parameter_row(path);
    const ls_mark *told = ls_geometry_mark(e->input, from);
    int is_told = told != NULL && told->source >= LS_SOURCE_GIVEN;
    assert(row != NULL);
    if (ls_given(value)) {
        *(double *)ls_parameter_value(e->aircraft, row, 0) = value;
        *ls_mark_of(e->marks, row, 0) = (ls_mark){
            .source = is_told ? told->source : LS_SOURCE_ASSUMED,
            .spread = is_told ? told->spread : 0.0,
        };
    }
}

void ls_estimate_text(ls_estimating *e, const char *path, int element, const char *text)
{
    const ls_parameter *row = ls_parameter_row(path);
    assert(row != NULL && row->kind == LS_KEY_TEXT && strlen(text) < LS_NAME_SIZE);
    snprintf(ls_parameter_value(e->aircraft, row, element), LS_NAME_SIZE, "%s", text);
    *ls_mark_of(e->marks, row, element) = (ls_mark){.source = LS_SOURCE_GIVEN};
}

void ls_estimate_choice(ls_estimating *e, const char *path, int element, int choice)
{
    const ls_parameter *row = ls_parameter_row(path);
    assert(row != NULL && row->kind == LS_KEY_CHOICE);
    *(int *)ls_parameter_value(e->aircraft, row, element) = choice;
    *ls_mark_of(e->marks, row, element) = (ls_mark){.source = LS_SOURCE_GIVEN};
}

void ls_estimate_warn(ls_estimating *e, const char *key, const char *format, ...)
{
    char text[LS_FINDING_TEXT];
    const ls_mark *mark = ls_geometry_mark(e->input, key);
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    ls_findings_add(&e->out->findings, LS_WARNING, key, mark != NULL ? mark->line : 0,
                    mark != NULL ? mark->column : 0, "%s", text);
}

double ls_estimate_sum(const double part[LS_ON_PARTS])
{
    double sum = 0.0;
    for (int i = 0; i < LS_ON_PARTS; i++) {
        sum += isnan(part[i]) ? 0.0 : part[i];
    }
    return sum;
}

double ls_estimate_spread(const double part[LS_ON_PARTS], const double share[LS_ON_PARTS])
{
    double sum = 0.0;
    for (int i = 0; i < LS_ON_PARTS; i++) {
        sum += isnan(part[i]) ? 0.0 : pow(share[i] * part[i], 2);
    }
    return sqrt(sum);
}

/* What the geometry says as it stands. */
static void take_over(ls_estimating *e)
{
    const ls_geometry *g = e->g;
    ls_estimate_text(e, "name", 0, g->name);
    snprintf(e->aircraft->note, sizeof e->aircraft->note, "estimated from %s; nothing was measured in flight",
             e->is_handbook ? "a few handbook numbers and its class" : "its dimensions");
    ls_mark_of(e->marks, ls_parameter_row("note"), 0)->source = LS_SOURCE_GIVEN;
    ls_estimate_take(e, "mass.maximum", g->mass.maximum_kg, "mass.maximum");
    ls_estimate_take(e, "mass.minimum", g->mass.minimum_kg, "mass.minimum");
    ls_estimate_take(e, "cg.reference", g->cg.reference_m, "cg.reference");
    ls_estimate_take(e, "cg.forward", g->cg.forward_m, "cg.forward");
    ls_estimate_take(e, "cg.aft", g->cg.aft_m, "cg.aft");
    ls_estimate_take(e, "cg.lateral", g->cg.lateral_m, "cg.lateral");
    ls_estimate_take(e, "wing.area", g->wing.area_m2, "wing.area");
    ls_estimate_take(e, "wing.span", g->wing.span_m, "wing.span");
    ls_estimate_take(e, "wing.chord", g->wing.chord_m, "wing.chord");
    ls_estimate_take(e, "published.vmc", g->published.vmc_m_s, "published.vmc");
    ls_estimate_take(e, "published.stall", g->published.stall_m_s, "published.stall");
    if (ls_given(g->published.vmc_m_s)) {
        ls_estimate_choice(e, "published.vmc_kind", 0, g->published.vmc_kind);
    }
}

/* Every key that no step has set keeps its default, and the mark that a reader would leave. */
static void mark_defaults(ls_estimating *e)
{
    int count;
    const ls_parameter *row = ls_parameters(&count);
    for (int i = 0; i < count; i++) {
        int length = ls_list_length(e->aircraft, ls_parameter_list(&row[i]));
        for (int element = 0; element < length; element++) {
            ls_mark *mark = ls_mark_of(e->marks, &row[i], element);
            int applies = ls_parameter_applies(e->aircraft, &row[i], element);
            if (applies && mark->source == LS_SOURCE_ABSENT) {
                mark->source = row[i].presence == LS_NEUTRAL         ? LS_SOURCE_DEFAULT
                               : row[i].presence == LS_ASSUMED_VALUE ? LS_SOURCE_GUESS
                                                                     : LS_SOURCE_ABSENT;
            }
        }
    }
}

static void run_steps(ls_estimating *e)
{
    take_over(e);
    ls_estimate_lift(e);
    ls_estimate_drag(e);
    ls_estimate_fin(e);
    ls_estimate_bodies(e);
    ls_estimate_derivatives(e);
    ls_estimate_controls(e);
    ls_estimate_power(e);
    ls_estimate_inertia(e);
    mark_defaults(e);
}

/* The first thing that the plausibility check refuses in the result. */
static ls_status judge(ls_estimating *e, ls_error *error)
{
    ls_findings found = {0};
    ls_aircraft_check(e->aircraft, e->marks, &found);
    for (int i = 0; i < found.stored; i++) {
        const ls_finding *item = &found.item[i];
        if (item->severity == LS_REJECT) {
            return ls_fail(error, LS_NO_STATE, "these dimensions make no aeroplane: %s: %s", item->key,
                           item->text);
        }
        ls_findings_add(&e->out->findings, item->severity, item->key, 0, 0, "%s", item->text);
    }
    return LS_OK;
}

ls_status ls_estimate_make(ls_geometry_input *input, ls_aircraft *aircraft, ls_marks *marks, ls_estimate *estimate,
                           ls_error *error)
{
    struct {
        ls_geometry_input input;
        ls_aircraft aircraft;
        ls_marks marks;
        ls_estimate estimate;
    } *own = calloc(1, sizeof *own);
    if (own == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory while estimating");
    }
    own->input = *input;
    int is_handbook = input->level == LS_LEVEL_HANDBOOK;
    ls_status status = is_handbook ? ls_estimate_handbook(input, &own->input, error) : LS_OK;
    if (status == LS_OK) {
        ls_estimating e = {&own->input, &own->input.geometry, &own->aircraft,
                           &own->marks, &own->estimate,       is_handbook};
        ls_aircraft_defaults(&own->aircraft);
        run_steps(&e);
        status = judge(&e, error);
    }
    if (status == LS_OK) {
        input->geometry = own->input.geometry;
        *aircraft = own->aircraft;
        *marks = own->marks;
        *estimate = own->estimate;
    }
    free(own);
    return status;
}
