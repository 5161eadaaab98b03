/* The nine lateral derivatives, stability axes at the incidence of the estimate, with their parts. Signs: sideslip
 * from the right and rudder trailing edge left positive, so the fin's side force is negative and the rudder's
 * positive; l_v aft, z_v above the centre of gravity, both positive:
 *     roll = side (z_v cos a - l_v sin a) / b,   yaw = -side (l_v cos a + z_v sin a) / b. */
#include "airframe/estimate_parts.h"

#include <math.h>

#define DEG (3.14159265358979323846 / 180.0)
#define PI  3.14159265358979323846

static double engines(const ls_geometry *g)
{
    return ls_given(g->engine.outer_right_m) ? 4.0 : 2.0;
}

static double roll_arm(const ls_estimating *e)
{
    const ls_estimate_basis *s = &e->out->basis;
    return (s->fin_up_m * cos(s->alpha_rad) - s->fin_arm_m * sin(s->alpha_rad)) / e->g->wing.span_m;
}

static double yaw_arm(const ls_estimating *e)
{
    const ls_estimate_basis *s = &e->out->basis;
    return (s->fin_arm_m * cos(s->alpha_rad) + s->fin_up_m * sin(s->alpha_rad)) / e->g->wing.span_m;
}

static ls_estimate_line *set_parts(ls_estimating *e, const char *path, const double part[LS_ON_PARTS],
                                   const double share[LS_ON_PARTS], const char *method)
{
    double wider = e->is_handbook ? 1.5 : 1.0; /* half of the dimensions are those of the class */
    ls_estimate_line *line = ls_estimate_set(e, path, 0, ls_estimate_sum(part),
                                             wider * ls_estimate_spread(part, share), LS_SOURCE_ESTIMATED, method);
    for (int i = 0; i < LS_ON_PARTS; i++) {
        line->part[i] = part[i];
    }
    return line;
}

/* The height of the fin's centre of pressure over the stability axis is a small difference: 0.04 of the span in
 * doubt.
 */
static const double height_doubt = 0.04;

static void widen(ls_estimating *e, ls_estimate_line *line, double by)
{
    int element;
    const ls_parameter *row = ls_parameter_find(e->aircraft, line->path, &element, NULL);
    line->spread = hypot(line->spread, by);
    ls_mark_of(e->marks, row, element)->spread = line->spread;
}

static double fin_side(const ls_estimating *e)
{
    const ls_estimate_basis *s = &e->out->basis;
    return -s->fin_body_factor * s->fin_slope_rad * s->fin_sidewash * s->fin_area_m2 / e->g->wing.area_m2;
}

/* Wing-body interference on the body's side force. From memory of Roskam, Airplane Design VI, figure 10.8: 1.85
 * for a wing on top, 1 in the middle, 1.5 below. */
static double interference(const ls_geometry *g)
{
    double height = fmin(fmax(2.0 * g->wing.down_m / g->body.depth_m, -1.0), 1.0);
    return height < 0.0 ? 1.0 - 0.85 * height : 1.0 + 0.5 * height;
}

static void side_by_sideslip(ls_estimating *e)
{
    const ls_geometry *g = e->g;
    double frontal_m2 = PI / 4.0 * g->body.width_m * g->body.depth_m;
    double nacelle_m2 = ls_given(g->nacelle.length_m) ? PI / 4.0 * g->nacelle.width_m * g->nacelle.depth_m : NAN;
    double part[LS_ON_PARTS] = {
        [LS_ON_FIN] = fin_side(e),
        [LS_ON_BODY] = -2.0 * interference(g) * frontal_m2 / g->wing.area_m2,
        [LS_ON_WING] = -0.0001 / DEG * fabs(g->wing.dihedral_rad) / DEG,
        [LS_ON_NACELLES] = -2.0 * engines(g) * nacelle_m2 / g->wing.area_m2,
    };
    static const double share[LS_ON_PARTS] = {0.12, 0.35, 0.5, 0.5};
    set_parts(e, "derivatives.side.sideslip", part, share, "DATCOM 5.2.1, 5.3.1; Roskam VI, section 10.2.4.1");
}

static void roll_by_sideslip(ls_estimating *e)
{
    const ls_geometry *g = e->g;
    const ls_estimate_basis *s = &e->out->basis;
    double b = g->wing.span_m, taper = g->wing.taper;
    double dihedral = -0.0115 * g->wing.dihedral_rad / DEG; /* Raymer 16.46 */
    double sweep = -(1.0 + 2.0 * taper) / (6.0 * (1.0 + taper)) * s->lift_coefficient * tan(g->wing.sweep_rad);
    double lift =
        -0.2 / s->wing_aspect * s->lift_coefficient; /* of an unswept wing, from memory of DATCOM 5.1.2.1 */
    double part[LS_ON_PARTS] = {
        [LS_ON_FIN] = fin_side(e) * roll_arm(e),
        [LS_ON_BODY] = 1.2 * sqrt(s->wing_aspect) * g->wing.down_m * (g->body.depth_m + g->body.width_m) / b / b,
        [LS_ON_WING] = dihedral + sweep + lift,
        [LS_ON_NACELLES] = NAN,
    };
    static const double share[LS_ON_PARTS] = {0.12, 0.4, 0.25, 0};
    ls_estimate_line *line = set_parts(e, "derivatives.roll.sideslip", part, share,
                                       "Raymer eq. 16.46 and 16.47 (body: from the wing's height); strip theory");
    widen(e, line, height_doubt * fin_side(e));
}

static void yaw_by_sideslip(ls_estimating *e)
{
    const ls_geometry *g = e->g;
    const ls_estimate_basis *s = &e->out->basis;
    double S = g->wing.area_m2, b = g->wing.span_m;
    double body = (s->body_yaw[0] + s->body_yaw[1]) / 2.0;
    double apart = fabs(s->body_yaw[0] - s->body_yaw[1]) / 2.0;
    double nacelles = ls_given(g->nacelle.length_m)
                          ? engines(g) * ls_estimate_body_by_volume(s->body_volume[1], g->nacelle.depth_m,
                                                                    g->nacelle.width_m, S, b)
                          : NAN;
    double part[LS_ON_PARTS] = {[LS_ON_FIN] = -fin_side(e) * yaw_arm(e),
                                [LS_ON_BODY] = body,
                                [LS_ON_WING] = NAN,
                                [LS_ON_NACELLES] = nacelles};
    double share[LS_ON_PARTS] = {0.12, hypot(0.15, apart / fabs(body)), 0, 0.5};
    set_parts(e, "derivatives.yaw.sideslip", part, share,
              "fin: DATCOM, Roskam VI, 10.2.4.1; body: mean of Raymer eq. 16.50 and Torenbeek, section 9.4");
}

/* What the rudder's part of the span carries of the fin's lift, elliptical loading about the body's centreline. */
static double span_share(const ls_geometry *g)
{
    double more_m = fmax(g->fin.up_m, 0.0), whole_m = g->fin.span_m + more_m;
    double at[2] = {(more_m + g->rudder.inner * g->fin.span_m) / whole_m,
                    (more_m + g->rudder.outer * g->fin.span_m) / whole_m};
    double carried[2];
    for (int i = 0; i < 2; i++) {
        carried[i] = 2.0 / PI * (at[i] * sqrt(1.0 - at[i] * at[i]) + asin(at[i]));
    }
    return carried[1] - carried[0];
}

static double rudder_side(const ls_estimating *e)
{
    const ls_estimate_basis *s = &e->out->basis;
    return s->fin_slope_rad * s->rudder_tau * span_share(e->g) * s->fin_area_m2 / e->g->wing.area_m2;
}

static void by_rudder(ls_estimating *e)
{
    static const char *const method =
        "Roskam VI, eq. 10.123 to 10.125; thin-aerofoil flap x 0.8, elliptical span share";
    static const double share[LS_ON_PARTS] = {0.12, 0, 0, 0};
    double side[LS_ON_PARTS] = {rudder_side(e), NAN, NAN, NAN};
    double roll[LS_ON_PARTS] = {side[0] * roll_arm(e), NAN, NAN, NAN};
    double yaw[LS_ON_PARTS] = {-side[0] * yaw_arm(e), NAN, NAN, NAN};
    set_parts(e, "derivatives.side.rudder", side, share, method);
    widen(e, set_parts(e, "derivatives.roll.rudder", roll, share, method), height_doubt * side[0]);
    set_parts(e, "derivatives.yaw.rudder", yaw, share, method);
}

/* Strip theory over the ailerons' span, with the induced flow of a lopsided load: (A + 2)/(A + 4) of the slope. */
static double aileron_roll(const ls_estimating *e)
{
    const ls_geometry *g = e->g;
    double A = e->out->basis.wing_aspect, S = g->wing.area_m2, b = g->wing.span_m;
    double root_m = 2.0 * S / b / (1.0 + g->wing.taper);
    double y1 = g->aileron.inner * b / 2.0, y2 = g->aileron.outer * b / 2.0;
    double fall = root_m * (1.0 - g->wing.taper) / (b / 2.0);
    double moment_m3 = root_m * (y2 * y2 - y1 * y1) / 2.0 - fall * (y2 * y2 * y2 - y1 * y1 * y1) / 3.0;
    double tau = 0.75 * ls_estimate_flap_bound(g->aileron.chord);
    return 2.0 * e->out->basis.wing_slope_rad * (A + 2.0) / (A + 4.0) * tau * moment_m3 / (S * b);
}

static void by_aileron(ls_estimating *e)
{
    static const double share[LS_ON_PARTS] = {0, 0, 0.15, 0}, yaw_share[LS_ON_PARTS] = {0, 0, 0.6, 0};
    double roll[LS_ON_PARTS] = {NAN, NAN, aileron_roll(e), NAN};
    double yaw[LS_ON_PARTS] = {NAN, NAN, -0.08 * e->out->basis.lift_coefficient * roll[LS_ON_WING], NAN};
    ls_estimate_set(e, "derivatives.side.aileron", 0, 0.0, 0.0, LS_SOURCE_ASSUMED,
                    "small (Roskam VI, section 10.3.5)");
    set_parts(e, "derivatives.roll.aileron", roll, share,
              "strip theory; thin-aerofoil flap x 0.75; induced flow (A + 2)/(A + 4)");
    set_parts(e, "derivatives.yaw.aileron", yaw, yaw_share,
              "K CL Cl_da, K = -0.08, between -0.2 of plain ailerons and 0 of differential ones (from memory)");
}

void ls_estimate_derivatives(ls_estimating *e)
{
    ls_estimate_choice(e, "derivatives.axes", 0, LS_AXES_STABILITY);
    ls_estimate_choice(e, "derivatives.propeller_effects", 0, LS_INCLUDE_NONE);
    side_by_sideslip(e);
    roll_by_sideslip(e);
    yaw_by_sideslip(e);
    by_rudder(e);
    by_aileron(e);
}
