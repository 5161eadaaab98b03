/* From a handbook's few numbers to a geometry: drag from the climb, greatest lift from the stall, the rest from
 * the class of aeroplane, a low-wing light twin. */
#include "airframe/estimate_parts.h"

#include "airframe/geometry_data.h"
#include "liveside/air.h"

#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)
#define PI  3.14159265358979323846

static const double climb_efficiency = 0.78; /* assumed at the speed of best climb, installed */

/* Keys of a geometry that a handbook gives as they stand. */
static const struct {
    const char *to, *from;
} same[] = {
    {"mass.maximum", "mass"},
    {"mass.minimum", "mass_minimum"},
    {"wing.span", "span"},
    {"wing.area", "wing_area"},
    {"engine.power", "power"},
    {"engine.speed", "propeller_speed"},
    {"engine.right", "engine_right"},
    {"propeller.diameter", "propeller_diameter"},
    {"fin.span", "fin_span"},
    {"rudder.chord", "rudder_chord"},
    {"rudder.left", "rudder_travel"},
    {"rudder.right", "rudder_travel"},
    {"body.length", "body_length"},
    {"published.vmc", "vmc"},
    {"published.stall", "stall_clean"},
    {"engine.type", "engine"},
    {"propeller.rotation", "rotation"},
};

static int row_index(ls_level level, const char *path)
{
    int count;
    const ls_parameter *row = ls_geometry_parameters(level, &count);
    for (int i = 0; i < count; i++) {
        if (strcmp(row[i].path, path) == 0) {
            return i;
        }
    }
    return -1;
}

static void copy_same(const ls_geometry_input *from, ls_geometry_input *to)
{
    for (size_t i = 0; i < sizeof same / sizeof same[0]; i++) {
        int target = row_index(LS_LEVEL_GEOMETRY, same[i].to), source = row_index(LS_LEVEL_HANDBOOK, same[i].from);
        const ls_parameter *row = &ls_geometry_rows[target];
        const char *value = (const char *)&from->handbook + ls_handbook_rows[source].offset;
        memcpy((char *)&to->geometry + row->offset, value,
               row->kind == LS_KEY_CHOICE ? sizeof(int) : sizeof(double));
        to->mark[target] = from->mark[source];
        to->mark[target].line = to->mark[target].column = 0;
    }
}

static void from_class(const ls_handbook *h, ls_geometry *g)
{
    double span_m = h->span_m, chord_m = h->area_m2 / span_m;
    g->cg.reference_m = 0.30 * h->body_length_m;
    g->cg.forward_m = g->cg.reference_m - 0.08 * chord_m;
    g->cg.aft_m = g->cg.reference_m + 0.08 * chord_m;
    g->wing.taper = 0.6;
    g->wing.dihedral_rad = 6.0 * DEG;
    g->body.depth_m = 0.16 * h->body_length_m;
    g->body.width_m = 0.15 * h->body_length_m;
    g->wing.down_m = 0.3 * g->body.depth_m;
    g->cg.down_m = 0.1 * g->body.depth_m;
    g->flap.kind = LS_FLAP_PLAIN;
    g->aileron.travel_rad = 20.0 * DEG;
    g->nacelle.length_m = 1.2 * chord_m;
    g->nacelle.width_m = 0.5 * g->body.width_m;
    g->nacelle.depth_m = 0.45 * g->body.depth_m;
    g->engine.hub_aft_m = g->cg.reference_m - 0.95 * chord_m;
    g->nacelle.nose_m = g->engine.hub_aft_m;
}

/* A fin of taper 0.5 and 35 deg of sweep whose quarter point stands at the given arm. */
static void fin_from(const ls_handbook *h, ls_geometry *g)
{
    g->fin.root_m = 2.0 * h->fin_area_m2 / (1.5 * h->fin_span_m);
    g->fin.tip_m = 0.5 * g->fin.root_m;
    g->fin.sweep_rad = 35.0 * DEG;
    g->fin.body_depth_m = 0.35 * g->body.depth_m;
    g->fin.up_m = 0.2 * g->body.depth_m;
    ls_trapezoid fin = {h->fin_span_m, g->fin.root_m, g->fin.tip_m, g->fin.sweep_rad};
    g->fin.aft_m = g->cg.reference_m + h->fin_arm_m - ls_trapezoid_quarter_point_m(&fin);
}

static double lift_from_stall(const ls_handbook *h, double V_m_s)
{
    return 2.0 * h->mass_kg * LS_G0_M_S2 / (LS_AIR_RHO0_KG_M3 * h->area_m2 * V_m_s * V_m_s);
}

/* Zero-lift drag from the all-engine climb: D = eta P / V - W RC / V. */
static ls_status drag_from_climb(const ls_handbook *h, ls_geometry *g, ls_error *error)
{
    double V = h->climb_speed_m_s, W = h->mass_kg * LS_G0_M_S2, q = 0.5 * LS_AIR_RHO0_KG_M3 * V * V;
    double A = h->span_m * h->span_m / h->area_m2;
    double induced = 1.0 / (PI * A * (1.78 * (1.0 - 0.045 * pow(A, 0.68)) - 0.64));
    double CL = W / (q * h->area_m2);
    double D_N = (climb_efficiency * 2.0 * h->power_W - W * h->climb_m_s) / V;
    g->drag.zero = D_N / (q * h->area_m2) - induced * CL * CL;
    if (!(g->drag.zero >= 0.01 && g->drag.zero <= 0.2)) {
        return ls_fail(error, LS_NO_STATE,
                       "climb and climb_speed with this mass and power leave a zero-lift drag coefficient of %.4f "
                       "(0.01 to 0.2 is possible) at an efficiency of %.2f: check them",
                       g->drag.zero, climb_efficiency);
    }
    return LS_OK;
}

ls_status ls_estimate_handbook(const ls_geometry_input *from, ls_geometry_input *to, ls_error *error)
{
    const ls_handbook *h = &from->handbook;
    to->level = LS_LEVEL_GEOMETRY;
    memset(to->mark, 0, sizeof to->mark);
    ls_geometry_defaults(to);
    copy_same(from, to);
    ls_geometry *g = &to->geometry;
    snprintf(g->name, sizeof g->name, "%s", h->name);
    from_class(h, g);
    fin_from(h, g);
    g->lift.max_up = lift_from_stall(h, h->stall_clean_m_s);
    if (ls_given(h->stall_landing_m_s)) {
        g->lift.max_landing = lift_from_stall(h, h->stall_landing_m_s);
        g->lift.max_takeoff = 0.55 * g->lift.max_up + 0.45 * g->lift.max_landing;
    }
    return drag_from_climb(h, g, error);
}
