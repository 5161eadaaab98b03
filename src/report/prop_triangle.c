/* The blade, the airflow and the forces at three quarters of the radius, to scale. */
#include "report/prop_parts.h"

#include <math.h>
#include <stdio.h>

#define DEG (3.14159265358979323846 / 180.0)

/* One panel of the drawing. The blade moves to the right and flies up: the air comes from the upper right at the
 * inflow angle above the plane of rotation. */
enum { ACROSS = 3, PANELS = 6 };

static const double cell_width = 17.6, cell_height = 14.4, air_length = 6.4, force_length = 4.2, chord = 4.0;

typedef struct {
    double x, y; /* of the section's quarter chord */
} origin;

/* A section of 12 % with a flat face, the nose at the right: along the chord and above it, in chords. */
static const double outline[][2] = {{1.00, 0.020}, {0.97, 0.062}, {0.90, 0.092}, {0.80, 0.112},
                                    {0.65, 0.118}, {0.50, 0.109}, {0.30, 0.078}, {0.10, 0.028},
                                    {0.00, 0.000}, {0.50, 0.000}, {0.96, 0.000}};

static void add_section(ls_chart *chart, origin at, double pitch_rad)
{
    double c = cos(pitch_rad), s = sin(pitch_rad);
    ls_chart_add_shape(chart, LS_SHAPE_POLYGON, LS_INK_BODY, "", LS_SIDE_AUTO);
    for (size_t i = 0; i < sizeof outline / sizeof outline[0]; i++) {
        double along = chord * (outline[i][0] - 0.75), above = chord * outline[i][1];
        ls_chart_add_point(chart, at.x + along * c - above * s, at.y + along * s + above * c);
    }
    ls_chart_add_shape(chart, LS_SHAPE_LINE, LS_INK_FAINT, "", LS_SIDE_AUTO); /* the chord, longer on both sides */
    ls_chart_add_point(chart, at.x - 0.95 * chord * c, at.y - 0.95 * chord * s);
    ls_chart_add_point(chart, at.x + 0.6 * chord * c, at.y + 0.6 * chord * s);
}

static void add_plane(ls_chart *chart, origin at)
{
    ls_chart_add_shape(chart, LS_SHAPE_LINE, LS_INK_FAINT, "", LS_SIDE_AUTO);
    ls_chart_add_point(chart, at.x - 0.36 * cell_width, at.y);
    ls_chart_add_point(chart, at.x + 0.58 * cell_width, at.y);
}

/* The triangle of velocities: from rotation along the plane, from flight and inflow across it. */
static void add_air(ls_chart *chart, origin at, double phi_rad)
{
    double x = at.x + air_length * cos(phi_rad), y = at.y + air_length * sin(phi_rad);
    ls_chart_add_arrow(chart, LS_INK_MAIN, x, y, at.x, at.y, "", LS_SIDE_AUTO);
    if (fabs(x - at.x) > 0.3) {
        ls_chart_add_arrow(chart, LS_INK_SECOND, x, y, at.x, y, "", LS_SIDE_AUTO);
        ls_chart_add_text(chart, at.x + 0.7 * (x - at.x), y + 0.6, "rotation", LS_SIDE_CENTRE);
    }
    if (fabs(y - at.y) > 0.3) {
        ls_chart_add_arrow(chart, LS_INK_SECOND, at.x, y, at.x, at.y, "", LS_SIDE_AUTO);
    }
    double aside = fabs(cos(phi_rad)) < 0.3 ? 1.1 : 0.5;
    ls_chart_add_text(chart, at.x + 0.72 * (x - at.x) + aside, at.y + 0.72 * (y - at.y) - 0.8, "air",
                      LS_SIDE_CENTRE);
}

/* An arrow from the section, with its name only where it is long enough to tell one from another. */
static void add_force(ls_chart *chart, origin at, ls_chart_ink ink, double along, double up, const char *name,
                      ls_chart_side side)
{
    double length = hypot(along, up);
    if (length > 0.15) {
        ls_chart_add_arrow(chart, ink, at.x, at.y, at.x + along, at.y + up, length > 1.4 ? name : "", side);
    }
}

/* Lift across the air, drag along it; the same two as thrust and as the force that brakes the turning; to one
 * scale. */
static void add_forces(ls_chart *chart, origin at, const ls_prop_point *point)
{
    double c = cos(point->phi75_rad), s = sin(point->phi75_rad), cl = point->cl75, cd = point->cd75;
    double scale = force_length / fmax(hypot(cl, cd), 1e-9);
    double thrust = scale * (cl * c - cd * s), brake = scale * (cl * s + cd * c);
    ls_chart_side lift_side = fabs(c) < 0.3 ? LS_SIDE_ABOVE : cl > 0.0 ? LS_SIDE_LEFT : LS_SIDE_RIGHT;
    add_force(chart, at, LS_INK_THIRD, -scale * cl * s, scale * cl * c, "lift", lift_side);
    add_force(chart, at, LS_INK_THIRD, -scale * cd * c, -scale * cd * s, "drag", LS_SIDE_LEFT);
    add_force(chart, at, LS_INK_MAIN, 0.0, thrust, thrust > 0.0 ? "pulls" : "drags",
              thrust > 0.0 ? LS_SIDE_RIGHT : LS_SIDE_LEFT);
    add_force(chart, at, LS_INK_MAIN, -brake, 0.0, "", LS_SIDE_AUTO);
    if (fabs(brake) > 0.4) {
        ls_chart_add_text(chart, at.x - brake + (brake > 0.0 ? -0.3 : 0.3), at.y - (brake > 0.0 ? -0.7 : 0.8),
                          brake > 0.0            ? "resists turning"
                          : point->n_rev_s > 0.0 ? "turns the engine"
                                                 : "would turn it",
                          brake > 0.0 ? LS_SIDE_LEFT : LS_SIDE_RIGHT);
    }
}

/* On a slide the angles of blade and air are left to be read from the drawing. */
static void add_texts(ls_chart *chart, const ls_prop_view *view, double x, double top, ls_phase phase)
{
    char text[LS_CHART_LABEL], speed[LS_PHRASE];
    const ls_prop_point *at = &view->flight->phase[phase];
    double line = chart->slide ? 1.3 : 0.9;
    ls_chart_add_text(chart, x, top, ls_phase_name(phase), LS_SIDE_CENTRE);
    ls_phrase_cas(at->cas_m_s, view->units, view->uncertain, speed);
    snprintf(text, sizeof text, "%.30s, %.0f RPM", speed, 60.0 * at->n_rev_s);
    ls_chart_add_text(chart, x, top - line, text, LS_SIDE_CENTRE);
    if (chart->slide) {
        snprintf(text, sizeof text, "attack %.1f deg", at->alpha75_rad / DEG);
    } else {
        snprintf(text, sizeof text, "blade %.1f, air %.1f, attack %.1f deg", at->pitch_rad / DEG,
                 at->phi75_rad / DEG, at->alpha75_rad / DEG);
    }
    ls_chart_add_text(chart, x, top - 2.0 * line, text, LS_SIDE_CENTRE);
}

static void add_panel(ls_chart *chart, const ls_prop_view *view, int panel, ls_phase phase)
{
    const ls_prop_point *point = &view->flight->phase[phase];
    int column = panel % ACROSS, row = panel / ACROSS;
    double left = column * cell_width, top = -row * cell_height;
    origin at = {left + 0.43 * cell_width, top - (chart->slide ? 10.6 : 9.4)};
    if (point->status != LS_OK || isnan(point->phi75_rad)) {
        ls_chart_add_text(chart, left + 0.5 * cell_width, top, ls_phase_name(phase), LS_SIDE_CENTRE);
        return;
    }
    add_texts(chart, view, left + 0.5 * cell_width, top, phase);
    add_plane(chart, at);
    add_section(chart, at, point->pitch_rad);
    add_air(chart, at, point->phi75_rad);
    add_forces(chart, at, point);
}

/* A slide has room for three of them. */
void ls_chart_of_triangles(ls_chart *chart, const ls_prop_view *view, int slide)
{
    static const ls_phase all[PANELS] = {LS_PHASE_RUN_UP,  LS_PHASE_CLIMB, LS_PHASE_CRUISE,
                                         LS_PHASE_FORWARD, LS_PHASE_AFT,   LS_PHASE_FEATHERED};
    static const ls_phase some[ACROSS] = {LS_PHASE_CLIMB, LS_PHASE_FORWARD, LS_PHASE_FEATHERED};
    ls_chart_start(chart, LS_CHART_DRAWING, "prop-triangles");
    chart->slide = slide;
    snprintf(chart->title, sizeof chart->title, "%.60s: blade, air and forces at 3/4 radius%s",
             view->study->aircraft->name, slide ? "" : " (the blade turns right and flies up)");
    for (int i = 0; i < (slide ? ACROSS : PANELS); i++) {
        add_panel(chart, view, i, slide ? some[i] : all[i]);
    }
}
