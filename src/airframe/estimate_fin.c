/* Fin, rudder and bodies: what the lateral derivatives rest on. */
#include "airframe/estimate_parts.h"

#include <math.h>

#define DEG (3.14159265358979323846 / 180.0)
#define PI  3.14159265358979323846

double ls_estimate_sidewash(double area_ratio, double sweep_rad, double height_ratio, double aspect)
{
    return 0.724 + 3.06 * area_ratio / (1.0 + cos(sweep_rad)) + 0.4 * height_ratio + 0.009 * aspect;
}

double ls_estimate_body_by_volume(double volume_m3, double depth_m, double width_m, double S_m2, double b_m)
{
    return -1.3 * volume_m3 / (S_m2 * b_m) * depth_m / width_m; /* Raymer 16.50 */
}

double ls_estimate_body_by_side(double side_area_m2, double length_m, double depth_m, double cg_m,
                                double depth_quarter_m, double depth_three_quarter_m, double S_m2, double b_m)
{
    double K = 0.3 * cg_m / length_m + 0.75 * depth_m / length_m - 0.105;
    return -K * side_area_m2 * length_m / (S_m2 * b_m) * sqrt(depth_quarter_m / depth_three_quarter_m);
}

/* How much of the fin's lift a body leaves it. From memory of Roskam, Airplane Design VI, figure 10.12: 0.76 to a
 * span of twice the body's depth, rising to 1 at 3.5 times. */
static double body_factor(double span_m, double depth_m)
{
    return 0.76 + 0.24 * fmin(fmax((span_m / depth_m - 2.0) / 1.5, 0.0), 1.0);
}

/* The fin prolonged along its edges to the body's centreline. */
static ls_trapezoid prolonged(const ls_trapezoid *exposed, double up_m)
{
    double more_m = fmax(up_m, 0.0);
    double growth = (exposed->root_m - exposed->tip_m) / exposed->span_m;
    return (ls_trapezoid){exposed->span_m + more_m, exposed->root_m + growth * more_m, exposed->tip_m,
                          exposed->sweep_rad};
}

static void warn_of_fin(ls_estimating *e, const ls_trapezoid *exposed)
{
    const ls_geometry *g = e->g;
    double aspect = exposed->span_m / ls_trapezoid_area(exposed) * exposed->span_m;
    if (aspect < 0.8 || aspect > 2.5) {
        ls_estimate_warn(e, "fin.span", "aspect ratio %.2f: the end-plate factor is for 0.8 to 2.5", aspect);
    }
    if (g->fin.sweep_rad > 50.0 * DEG) {
        ls_estimate_warn(e, "fin.sweep", "%.0f deg: beyond 50 deg edge vortices add lift that is not estimated",
                         g->fin.sweep_rad / DEG);
    }
    if (g->rudder.chord < 0.15 || g->rudder.chord > 0.5) {
        ls_estimate_warn(e, "rudder.chord", "%.2f of the fin's chord: the flap method is for 0.15 to 0.50",
                         g->rudder.chord);
    }
    if (fmax(g->rudder.left_rad, g->rudder.right_rad) > 30.0 * DEG) {
        ls_estimate_warn(e, "rudder.left", "more than 30 deg of travel: its effect beyond 30 deg is not known");
    }
    if (e->out->basis.fin_arm_m < g->wing.span_m / 5.0) {
        ls_estimate_warn(e, "fin.aft", "a fin only %.2f m behind the centre of gravity", e->out->basis.fin_arm_m);
    }
}

void ls_estimate_fin(ls_estimating *e)
{
    const ls_geometry *g = e->g;
    ls_estimate_basis *basis = &e->out->basis;
    ls_trapezoid exposed = {g->fin.span_m, g->fin.root_m, g->fin.tip_m, g->fin.sweep_rad};
    ls_trapezoid fin = prolonged(&exposed, g->fin.up_m);
    double exposed_aspect = exposed.span_m * exposed.span_m / ls_trapezoid_area(&exposed);
    basis->fin_area_m2 = ls_trapezoid_area(&fin);
    basis->fin_aspect = ls_given(g->fin.aspect_effective) ? g->fin.aspect_effective : 1.55 * exposed_aspect;
    basis->fin_slope_rad =
        ls_estimate_lift_slope(basis->fin_aspect, ls_trapezoid_half_sweep(&fin), basis->mach, 1.0);
    basis->fin_body_factor = body_factor(fin.span_m, g->fin.body_depth_m);
    basis->fin_sidewash = ls_estimate_sidewash(basis->fin_area_m2 / g->wing.area_m2, g->wing.sweep_rad,
                                               g->wing.down_m / g->body.depth_m, basis->wing_aspect);
    double root_aft_m = g->fin.aft_m - (fin.span_m - exposed.span_m) * tan(fin.sweep_rad);
    double root_up_m = g->fin.up_m - (fin.span_m - exposed.span_m);
    basis->fin_arm_m = root_aft_m + ls_trapezoid_quarter_point_m(&fin) - g->cg.reference_m;
    basis->fin_up_m = root_up_m + ls_trapezoid_middle(&fin) + g->cg.down_m;
    basis->rudder_bound = ls_estimate_flap_bound(g->rudder.chord);
    basis->rudder_tau = 0.8 * basis->rudder_bound; /* of real plain flaps, from memory: 0.75 to 0.85 of theory */
    warn_of_fin(e, &exposed);
}

static double or_else(double given, double otherwise)
{
    return ls_given(given) ? given : otherwise;
}

/* The body's two estimates. Without a volume: sections are ellipses whose width follows their depth, 0.87 from the
 * mean of the squared depth over depth times mean depth of a streamlined side view. */
static void body_estimates(ls_estimating *e)
{
    const ls_geometry *g = e->g;
    ls_estimate_basis *basis = &e->out->basis;
    double quarter_m = or_else(g->body.depth_quarter_m, 0.85 * g->body.depth_m);
    double three_quarter_m = or_else(g->body.depth_three_quarter_m, 0.65 * g->body.depth_m);
    basis->body_side_area[0] = or_else(g->body.side_area_m2, 0.72 * g->body.length_m * g->body.depth_m);
    basis->body_volume[0] =
        or_else(g->body.volume_m3, PI / 4.0 * 0.87 * basis->body_side_area[0] * g->body.width_m);
    basis->body_yaw[0] = ls_estimate_body_by_volume(basis->body_volume[0], g->body.depth_m, g->body.width_m,
                                                    g->wing.area_m2, g->wing.span_m);
    basis->body_yaw[1] = ls_estimate_body_by_side(basis->body_side_area[0], g->body.length_m, g->body.depth_m,
                                                  g->cg.reference_m - g->body.nose_m, quarter_m, three_quarter_m,
                                                  g->wing.area_m2, g->wing.span_m);
    double fineness = g->body.length_m / g->body.depth_m;
    if (fineness < 4.0 || fineness > 14.0) {
        ls_estimate_warn(e, "body.length", "%.1f times the depth: the body methods are for 4 to 14", fineness);
    }
}

static void nacelle_estimate(ls_estimating *e)
{
    const ls_geometry *g = e->g;
    ls_estimate_basis *basis = &e->out->basis;
    if (ls_given(g->nacelle.length_m)) {
        basis->body_side_area[1] = 0.75 * g->nacelle.length_m * g->nacelle.depth_m;
        basis->body_volume[1] = PI / 4.0 * 0.87 * basis->body_side_area[1] * g->nacelle.width_m;
    }
}

void ls_estimate_bodies(ls_estimating *e)
{
    const double *yaw = e->out->basis.body_yaw;
    body_estimates(e);
    nacelle_estimate(e);
    double mean = (yaw[0] + yaw[1]) / 2.0;
    if (fabs(yaw[0] - yaw[1]) > 0.3 * fabs(mean)) {
        ls_estimate_warn(
            e, "body.length",
            "the two body methods differ: yaw by sideslip %.4f by volume, %.4f by side area, /rad; the "
            "mean is used, and half the difference goes into its spread",
            yaw[0], yaw[1]);
    }
}
