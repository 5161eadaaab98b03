#include "liveside/geometry.h"

#include "airframe/geometry_data.h"

#include <math.h>
#include <string.h>

const ls_parameter *ls_geometry_parameters(ls_level level, int *count)
{
    *count = level == LS_LEVEL_HANDBOOK ? ls_handbook_row_count : ls_geometry_row_count;
    return level == LS_LEVEL_HANDBOOK ? ls_handbook_rows : ls_geometry_rows;
}

void *ls_geometry_record(ls_geometry_input *input)
{
    return input->level == LS_LEVEL_HANDBOOK ? (void *)&input->handbook : (void *)&input->geometry;
}

static void set_default(char *record, const ls_parameter *row)
{
    int has_default = row->presence == LS_NEUTRAL || row->presence == LS_ASSUMED_VALUE;
    if (row->kind == LS_KEY_NUMBER) {
        *(double *)(void *)(record + row->offset) = has_default ? row->fallback : NAN;
    } else if (row->kind == LS_KEY_CHOICE) {
        *(int *)(void *)(record + row->offset) = (int)row->fallback;
    } else {
        record[row->offset] = '\0';
    }
}

void ls_geometry_defaults(ls_geometry_input *input)
{
    static const ls_level levels[] = {LS_LEVEL_GEOMETRY, LS_LEVEL_HANDBOOK};
    ls_level level = input->level;
    for (int k = 0; k < 2; k++) {
        int count;
        input->level = levels[k];
        const ls_parameter *row = ls_geometry_parameters(levels[k], &count);
        for (int i = 0; i < count; i++) {
            set_default(ls_geometry_record(input), &row[i]);
        }
    }
    input->level = level;
}

const ls_mark *ls_geometry_mark(const ls_geometry_input *input, const char *path)
{
    int count;
    const ls_parameter *row = ls_geometry_parameters(input->level, &count);
    for (int i = 0; i < count; i++) {
        if (strcmp(row[i].path, path) == 0) {
            return &input->mark[i];
        }
    }
    return NULL;
}

/* Refuses unless low <= high: two keys in the wrong order. A missing one is NaN, and has been refused already. */
static void check_order(const ls_geometry_input *input, ls_findings *findings, double low, double high,
                        const char *key, const char *other)
{
    const ls_mark *mark = ls_geometry_mark(input, key);
    if (low > high) {
        ls_findings_add(findings, LS_REJECT, key, mark->line, mark->column, "%.4g exceeds %s, %.4g (SI units)",
                        low, other, high);
    }
}

static void check_geometry(const ls_geometry_input *input, ls_findings *findings)
{
    const ls_geometry *g = &input->geometry;
    check_order(input, findings, g->mass.minimum_kg, g->mass.maximum_kg, "mass.minimum", "mass.maximum");
    check_order(input, findings, g->cg.forward_m, g->cg.aft_m, "cg.forward", "cg.aft");
    check_order(input, findings, g->cg.forward_m, g->cg.reference_m, "cg.forward", "cg.reference");
    check_order(input, findings, g->cg.reference_m, g->cg.aft_m, "cg.reference", "cg.aft");
    check_order(input, findings, g->cg.reference_m, g->fin.aft_m, "cg.reference", "fin.aft");
    check_order(input, findings, g->rudder.inner, g->rudder.outer, "rudder.inner", "rudder.outer");
    check_order(input, findings, g->aileron.inner, g->aileron.outer, "aileron.inner", "aileron.outer");
    check_order(input, findings, g->flap.inner, g->flap.outer, "flap.inner", "flap.outer");
    check_order(input, findings, g->engine.right_m, g->wing.span_m / 2, "engine.right", "half of wing.span");
    check_order(input, findings, g->engine.right_m, g->engine.outer_right_m, "engine.right", "engine.outer_right");
    check_order(input, findings, g->fin.body_depth_m, g->body.depth_m, "fin.body_depth", "body.depth");
    check_order(input, findings, g->flap.takeoff_rad, g->flap.landing_rad, "flap.takeoff", "flap.landing");
}

void ls_geometry_check(const ls_geometry_input *input, ls_findings *findings)
{
    const ls_handbook *h = &input->handbook;
    if (input->level == LS_LEVEL_GEOMETRY) {
        check_geometry(input, findings);
        return;
    }
    check_order(input, findings, h->minimum_kg, h->mass_kg, "mass_minimum", "mass");
    check_order(input, findings, h->stall_landing_m_s, h->stall_clean_m_s, "stall_landing", "stall_clean");
    check_order(input, findings, h->engine_right_m, h->span_m / 2, "engine_right", "half of the span");
    check_order(input, findings, h->fin_arm_m, h->body_length_m, "fin_arm", "body_length");
}
