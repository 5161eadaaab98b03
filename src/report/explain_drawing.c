/* The forces of one failure, drawn to scale from their numbers: metres along both axes, right is right, and from
 * above the nose is up. Every force stands where its own moment puts it. */
#include "report/explain_charts.h"
#include "report/explain_parts.h"

#include <math.h>
#include <stdio.h>

#define DEG (3.14159265358979323846 / 180.0)

typedef struct {
    ls_chart *chart;
    const ls_explain_view *view;
    const ls_breakdown_side *side;
    double b_m, chord_m;
    double m_per_N;
    double cos_bank, sin_bank; /* from behind */
} drawing;

static void start(drawing *d, ls_chart *chart, const ls_explain_view *view, int side, const char *name)
{
    const ls_aircraft *aircraft = view->aircraft;
    *d = (drawing){
        .chart = chart, .view = view, .side = &view->breakdown->side[side], .b_m = aircraft->wing.span_m};
    d->chord_m = ls_given(aircraft->wing.chord_m) ? aircraft->wing.chord_m : aircraft->wing.area_m2 / d->b_m;
    ls_chart_start(chart, LS_CHART_DRAWING, name);
}

static const char *force_text(const drawing *d, double force_N, char out[LS_PHRASE])
{
    return ls_phrase_value(fabs(force_N), LS_DIM_FORCE, NULL, d->view->units, 0, out);
}

static void outline(drawing *d, const double (*corner)[2], int corners)
{
    ls_chart_add_shape(d->chart, LS_SHAPE_POLYGON, LS_INK_BODY, "", LS_SIDE_AUTO);
    for (int i = 0; i < corners; i++) {
        ls_chart_add_point(d->chart, corner[i][0], corner[i][1]);
    }
}

static void line(drawing *d, ls_chart_ink ink, double x0, double y0, double x1, double y1)
{
    ls_chart_add_shape(d->chart, LS_SHAPE_LINE, ink, "", LS_SIDE_AUTO);
    ls_chart_add_point(d->chart, x0, y0);
    ls_chart_add_point(d->chart, x1, y1);
}

/* All lines of one cause: force, and its moment about the centre of gravity, in body axes. */
static void total(const drawing *d, ls_cause cause, double force_N[3], double moment_Nm[3])
{
    for (int i = 0; i < 3; i++) {
        force_N[i] = moment_Nm[i] = 0.0;
        for (int k = 0; k < d->side->balance.count; k++) {
            const ls_part *part = &d->side->balance.part[k];
            force_N[i] += part->cause == cause ? part->force_N[i] : 0.0;
            moment_Nm[i] += part->cause == cause ? part->moment_Nm[i] : 0.0;
        }
    }
}

/* ---- from above ---- */

static double tail_m(const drawing *d)
{
    const ls_aircraft *aircraft = d->view->aircraft;
    return ls_given(aircraft->fin.arm_m) ? aircraft->fin.arm_m : 0.45 * d->b_m;
}

static double hub_ahead(const drawing *d, int engine)
{
    return d->side->condition.cg_aft_m - d->view->aircraft->engine[engine].hub_aft_m;
}

static double hub_right(const drawing *d, int engine)
{
    return d->view->aircraft->engine[engine].hub_right_m - d->side->condition.cg_right_m;
}

static double nose_m(const drawing *d)
{
    double nose = 0.0;
    for (int i = 0; i < d->view->aircraft->engines; i++) {
        nose = fmax(nose, hub_ahead(d, i));
    }
    return nose + 0.08 * d->b_m;
}

static void add_airframe(drawing *d)
{
    double w = 0.05 * d->b_m, nose = nose_m(d), tail = -tail_m(d), half = 0.5 * d->b_m;
    double wing = d->side->condition.cg_aft_m - d->view->aircraft->cg.reference_m;
    double lead = wing + 0.25 * d->chord_m, trail = wing - 0.75 * d->chord_m;
    const double wings[][2] = {{-half, lead}, {half, lead}, {half, trail}, {-half, trail}};
    const double body[][2] = {{0, nose},           {w, nose - 2 * w},    {w, trail},
                              {0.3 * w, tail - w}, {-0.3 * w, tail - w}, {-w, trail},
                              {-w, nose - 2 * w}};
    double t = 0.17 * d->b_m, c = 0.25 * d->chord_m;
    const double plane[][2] = {{-t, tail + c}, {t, tail + c}, {t, tail - 2 * c}, {-t, tail - 2 * c}};
    outline(d, wings, 4);
    outline(d, plane, 4);
    outline(d, body, 7);
}

static double disc_radius(const drawing *d, int engine)
{
    const ls_aircraft *aircraft = d->view->aircraft;
    return 0.5 * aircraft->powerplant[aircraft->engine[engine].powerplant].propeller.diameter_m;
}

static int is_dead(const drawing *d, int engine)
{
    return (int)(d->side->failed >> engine & 1u);
}

/* Whether another engine of the same side stands farther out. */
static int has_outer(const drawing *d, int engine)
{
    const ls_aircraft *aircraft = d->view->aircraft;
    double own_m = aircraft->engine[engine].hub_right_m;
    for (int i = 0; i < aircraft->engines; i++) {
        double other_m = aircraft->engine[i].hub_right_m;
        if (own_m * other_m > 0.0 && fabs(other_m) > fabs(own_m) + 0.01) {
            return 1;
        }
    }
    return 0;
}

static void add_thrust(drawing *d, int engine)
{
    char force[LS_PHRASE], arm[LS_PHRASE], label[LS_CHART_LABEL];
    double thrust_N = 0.0, at_m = hub_right(d, engine), ahead_m = hub_ahead(d, engine);
    for (int k = 0; k < d->side->balance.count; k++) {
        const ls_part *part = &d->side->balance.part[k];
        int counts =
            part->engine == engine && (part->cause == LS_CAUSE_THRUST || part->cause == LS_CAUSE_DEAD_DRAG);
        thrust_N += counts ? part->force_N[0] : 0.0;
    }
    force_text(d, thrust_N, force);
    if (isfinite(d->side->arm_m[engine])) {
        at_m = d->side->arm_m[engine];
        snprintf(label, sizeof label, "thrust %.20s at %.20s", force,
                 ls_phrase_value(fabs(at_m), LS_DIM_LENGTH, "ft", d->view->units, 2, arm));
    } else {
        snprintf(label, sizeof label, "%s %.20s", thrust_N < 0 ? "drag" : "thrust", force);
    }
    double tip_m = ahead_m + thrust_N * d->m_per_N;
    int is_inner = has_outer(d, engine); /* its name then stands above the outer one's */
    ls_chart_add_arrow(d->chart, is_dead(d, engine) ? LS_INK_SECOND : LS_INK_MAIN, at_m, ahead_m, at_m, tip_m,
                       is_inner ? "" : label, at_m < 0 ? LS_SIDE_LEFT : LS_SIDE_RIGHT);
    if (is_inner) {
        ls_chart_add_text(d->chart, at_m, fmax(tip_m, ahead_m) + 0.04 * d->b_m, label,
                          at_m < 0 ? LS_SIDE_LEFT : LS_SIDE_RIGHT);
    }
}

static void add_engines_above(drawing *d)
{
    for (int i = 0; i < d->view->aircraft->engines; i++) {
        const ls_aircraft *aircraft = d->view->aircraft;
        double R_m = disc_radius(d, i);
        double right_m = hub_right(d, i), ahead_m = hub_ahead(d, i);
        double wing_m = d->side->condition.cg_aft_m - aircraft->cg.reference_m;
        line(d, LS_INK_FAINT, right_m, ahead_m, right_m, wing_m);
        line(d, is_dead(d, i) ? LS_INK_SECOND : LS_INK_THIRD, right_m - R_m, ahead_m, right_m + R_m, ahead_m);
        add_thrust(d, i);
    }
}

/* A side force where its yaw puts it: N = x Y. */
static void add_side_force(drawing *d, ls_cause cause, const char *name, ls_chart_ink ink)
{
    double force_N[3], moment_Nm[3];
    char text[LS_PHRASE], label[LS_CHART_LABEL];
    total(d, cause, force_N, moment_Nm);
    if (fabs(force_N[1]) < 1e-3 * d->side->balance.part[0].force_N[2]) {
        return;
    }
    double ahead_m = moment_Nm[2] / force_N[1];
    snprintf(label, sizeof label, "%s %.20s", name, force_text(d, force_N[1], text));
    ls_chart_add_arrow(d->chart, ink, 0.0, ahead_m, force_N[1] * d->m_per_N, ahead_m, label,
                       force_N[1] < 0 ? LS_SIDE_LEFT : LS_SIDE_RIGHT);
}

/* A string on the nose lies along the air that passes: wind from the right blows it to the left. */
static void add_string(drawing *d)
{
    char wind[LS_PHRASE], label[LS_CHART_LABEL];
    double beta_rad = d->side->trim.beta_rad, length_m = 0.16 * d->b_m, nose = nose_m(d) + 0.17 * d->b_m;
    snprintf(label, sizeof label, "yaw string: wind %.60s", ls_phrase_wind(beta_rad, d->side->live_side, wind));
    line(d, LS_INK_FAINT, 0.0, nose, 0.0, nose - length_m);
    ls_chart_add_arrow(d->chart, LS_INK_MAIN, 0.0, nose, -length_m * sin(beta_rad),
                       nose - length_m * cos(beta_rad), "", LS_SIDE_AUTO);
    int side = d->side->live_side < 0 ? -1 : 1; /* at the tail, clear of the thrusts and of the rudder's force */
    ls_chart_add_text(d->chart, side * 0.2 * d->b_m, -tail_m(d), label, side < 0 ? LS_SIDE_LEFT : LS_SIDE_RIGHT);
}

void ls_chart_from_above(ls_chart *chart, const ls_explain_view *view, int side, int slide)
{
    drawing d;
    char name[LS_PHRASE], speed[LS_PHRASE];
    start(&d, chart, view, side, "forces-from-above");
    chart->slide = slide;
    snprintf(chart->title, sizeof chart->title, "%.60s from above, %.60s engine dead, %.40s", view->aircraft->name,
             ls_explain_name(view, side, name),
             ls_phrase_cas(view->breakdown->cas_m_s, view->units, view->uncertain, speed));
    double most_N = 0.0;
    for (int k = 0; k < d.side->balance.count; k++) {
        const ls_part *part = &d.side->balance.part[k];
        most_N = fmax(most_N, part->cause == LS_CAUSE_THRUST ? fabs(part->force_N[0]) : fabs(part->force_N[1]));
    }
    d.m_per_N = 0.3 * d.b_m / fmax(most_N, 1.0);
    add_airframe(&d);
    add_engines_above(&d);
    add_side_force(&d, LS_CAUSE_RUDDER, "rudder", LS_INK_MAIN);
    add_side_force(&d, LS_CAUSE_SIDESLIP, "sideslip", LS_INK_THIRD);
    double across_N = d.side->balance.part[0].force_N[1]; /* weight stands first, and acts at the centre */
    char text[LS_PHRASE], label[LS_CHART_LABEL];
    if (fabs(across_N) > 1.0) {
        snprintf(label, sizeof label, "weight, by bank, %.20s", force_text(&d, across_N, text));
        ls_chart_add_arrow(chart, LS_INK_SECOND, 0.0, 0.0, across_N * d.m_per_N, 0.0, label,
                           across_N < 0 ? LS_SIDE_LEFT : LS_SIDE_RIGHT);
    }
    ls_chart_add_circle(chart, LS_INK_MAIN, 0.0, 0.0, 0.012 * d.b_m, "", LS_SIDE_AUTO);
    add_string(&d);
}

/* ---- from behind ---- */

/* A point of the aeroplane, right and up of the centre of gravity, as it hangs in the banked picture. By hand:
 * bank to the right lowers the right wing and tilts what stands up to the right. */
static void banked(const drawing *d, double right_m, double up_m, double *x, double *y)
{
    *x = right_m * d->cos_bank + up_m * d->sin_bank;
    *y = -right_m * d->sin_bank + up_m * d->cos_bank;
}

static void banked_line(drawing *d, ls_chart_ink ink, double r0, double u0, double r1, double u1)
{
    double x0, y0, x1, y1;
    banked(d, r0, u0, &x0, &y0);
    banked(d, r1, u1, &x1, &y1);
    line(d, ink, x0, y0, x1, y1);
}

/* A force of the aeroplane's own axes at a place of its own. */
static void banked_force(drawing *d, ls_chart_ink ink, double right_m, double up_m, double right_N, double up_N,
                         const char *name, ls_chart_side side)
{
    double x0, y0, x1, y1, force_N = hypot(right_N, up_N);
    char text[LS_PHRASE], label[LS_CHART_LABEL];
    banked(d, right_m, up_m, &x0, &y0);
    banked(d, right_m + right_N * d->m_per_N, up_m + up_N * d->m_per_N, &x1, &y1);
    snprintf(label, sizeof label, "%.60s %.20s", name, force_text(d, force_N, text));
    ls_chart_add_arrow(d->chart, ink, x0, y0, x1, y1, label, side);
}

static void add_engines_behind(drawing *d)
{
    const ls_aircraft *aircraft = d->view->aircraft;
    for (int i = 0; i < aircraft->engines; i++) {
        double R_m = disc_radius(d, i), x, y;
        const char *turns = d->side->condition.rotation == LS_ROTATION_FILE && R_m > 0.0 && !is_dead(d, i)
                                ? (ls_engine_hand(&aircraft->engine[i]) > 0 ? "clockwise" : "anticlockwise")
                                : "";
        banked(d, hub_right(d, i), -aircraft->engine[i].hub_down_m, &x, &y);
        ls_chart_add_circle(d->chart, is_dead(d, i) ? LS_INK_SECOND : LS_INK_THIRD, x, y, fmax(R_m, 0.03 * d->b_m),
                            turns, LS_SIDE_BELOW);
    }
}

/* What each slipstream lifts, at its own place along the wing, named above the disc. */
static void add_slipstreams(drawing *d)
{
    for (int k = 0; k < d->side->balance.count; k++) {
        const ls_part *part = &d->side->balance.part[k];
        char text[LS_PHRASE], label[LS_CHART_LABEL];
        if (part->cause != LS_CAUSE_SLIPSTREAM || part->engine < 0 ||
            fabs(part->force_N[2]) < 0.01 * d->side->balance.part[0].force_N[2]) {
            continue;
        }
        double right_m = part->moment_Nm[0] / part->force_N[2], x0, y0, x1, y1; /* L = y Z */
        banked(d, right_m, 0.0, &x0, &y0);
        banked(d, right_m, -part->force_N[2] * d->m_per_N, &x1, &y1);
        ls_chart_add_arrow(d->chart, LS_INK_MAIN, x0, y0, x1, y1, "", LS_SIDE_AUTO);
        snprintf(label, sizeof label, "slipstream lift %s%.20s", part->force_N[2] > 0 ? "-" : "",
                 force_text(d, part->force_N[2], text));
        ls_chart_add_text(d->chart, x0, y0 + disc_radius(d, part->engine) + 0.04 * d->b_m, label, LS_SIDE_CENTRE);
    }
}

/* The ball in its glass, below the drawing: it lies on the low side. */
static void add_ball(drawing *d)
{
    double r = 0.018 * d->b_m, y = -0.42 * d->b_m, widths = d->side->trim.bank_rad / d->view->ball_rad;
    char label[LS_CHART_LABEL];
    snprintf(label, sizeof label, "ball %.1f widths", fabs(widths));
    line(d, LS_INK_FAINT, -8 * r, y - r, 8 * r, y - r);
    line(d, LS_INK_FAINT, -8 * r, y + r, 8 * r, y + r);
    line(d, LS_INK_FAINT, -r, y - r, -r, y + r);
    line(d, LS_INK_FAINT, r, y - r, r, y + r);
    ls_chart_add_circle(d->chart, LS_INK_MAIN, fmax(-6.0, fmin(6.0, widths)) * 2 * r, y, r, "", LS_SIDE_AUTO);
    ls_chart_add_text(d->chart, 9 * r, y, label, LS_SIDE_RIGHT);
}

static void add_bank(drawing *d)
{
    char bank[LS_PHRASE];
    double toward = d->side->trim.bank_rad * (d->side->live_side < 0 ? -1 : 1);
    line(d, LS_INK_FAINT, -0.55 * d->b_m, 0.0, 0.55 * d->b_m, 0.0);
    ls_chart_add_text(d->chart, 0.0, 0.40 * d->b_m,
                      ls_phrase_bank(toward, d->side->live_side,
                                     d->view->aircraft->engines - ls_set_size(d->side->failed), bank),
                      LS_SIDE_CENTRE);
}

void ls_chart_from_behind(ls_chart *chart, const ls_explain_view *view, int side, int slide)
{
    drawing d;
    char name[LS_PHRASE], speed[LS_PHRASE], text[LS_PHRASE], label[LS_CHART_LABEL];
    start(&d, chart, view, side, "forces-from-behind");
    chart->slide = slide;
    d.cos_bank = cos(d.side->trim.bank_rad);
    d.sin_bank = sin(d.side->trim.bank_rad);
    snprintf(chart->title, sizeof chart->title, "%.60s from behind, %.60s engine dead, %.40s",
             view->aircraft->name, ls_explain_name(view, side, name),
             ls_phrase_cas(view->breakdown->cas_m_s, view->units, view->uncertain, speed));
    double weight_N = d.side->condition.mass_kg * LS_G0_M_S2, half = 0.5 * d.b_m, r = 0.05 * d.b_m;
    d.m_per_N = 0.33 * d.b_m / weight_N;
    banked_line(&d, LS_INK_MAIN, -half, 0.0, half, 0.0);
    banked_line(&d, LS_INK_MAIN, 0.0, r, 0.0, 0.22 * d.b_m);
    ls_chart_add_circle(chart, LS_INK_BODY, 0.0, 0.0, r, "", LS_SIDE_AUTO);
    add_bank(&d);
    add_engines_behind(&d);
    double lift_N = d.side->balance.part[1].force_N[2], force_N[3], moment_Nm[3];
    banked_force(&d, LS_INK_MAIN, 0.0, 0.0, 0.0, -lift_N, "lift of the wing", LS_SIDE_RIGHT);
    add_slipstreams(&d);
    total(&d, LS_CAUSE_RUDDER, force_N, moment_Nm);
    banked_force(&d, LS_INK_SECOND, 0.0, 0.2 * d.b_m, force_N[1], 0.0, "rudder",
                 force_N[1] < 0 ? LS_SIDE_LEFT : LS_SIDE_RIGHT);
    snprintf(label, sizeof label, "weight %.20s", force_text(&d, weight_N, text));
    ls_chart_add_arrow(chart, LS_INK_MAIN, 0.0, 0.0, 0.0, -weight_N * d.m_per_N, label, LS_SIDE_RIGHT);
    add_ball(&d);
}
