/* Wing: lift curves, greatest lift, drag polar, and the condition that the estimate is made for. */
#include "airframe/estimate_parts.h"

#include "liveside/air.h"

#include <math.h>
#include <stdio.h>

#define DEG (3.14159265358979323846 / 180.0)
#define PI  3.14159265358979323846

double ls_estimate_lift_slope(double aspect, double sweep_rad, double mach, double section_ratio)
{
    double beta2 = 1.0 - mach * mach;
    double A2 = aspect * aspect * beta2 / (section_ratio * section_ratio);
    double t = tan(sweep_rad);
    return 2.0 * PI * aspect / (2.0 + sqrt(A2 * (1.0 + t * t / beta2) + 4.0)); /* DATCOM 4.1.3.2 */
}

double ls_estimate_flap_bound(double chord_ratio)
{
    double th = acos(2.0 * chord_ratio - 1.0);
    return 1.0 - (th - sin(th)) / PI;
}

double ls_trapezoid_area(const ls_trapezoid *t)
{
    return t->span_m * (t->root_m + t->tip_m) / 2.0;
}

double ls_trapezoid_chord(const ls_trapezoid *t)
{
    double taper = t->tip_m / t->root_m;
    return 2.0 / 3.0 * t->root_m * (1.0 + taper + taper * taper) / (1.0 + taper);
}

double ls_trapezoid_middle(const ls_trapezoid *t)
{
    double taper = t->tip_m / t->root_m;
    return t->span_m / 3.0 * (1.0 + 2.0 * taper) / (1.0 + taper);
}

double ls_trapezoid_half_sweep(const ls_trapezoid *t)
{
    return atan(tan(t->sweep_rad) - (t->root_m - t->tip_m) / 2.0 / t->span_m);
}

double ls_trapezoid_quarter_point_m(const ls_trapezoid *t)
{
    return ls_trapezoid_middle(t) * tan(t->sweep_rad) + ls_trapezoid_chord(t) / 4.0;
}

/* Greatest lift added by the flaps at a deflection: the section's share over the flapped part of the wing; it
 * grows with deflection up to 40 deg or so. Sources: Raymer, eq. 12.21 and table 12.2; the rise with deflection
 * from memory of the usual curves. */
static double flap_lift_max(const ls_geometry *g, double deflection_rad)
{
    static const double section[] = {[LS_FLAP_NONE] = 0.0,
                                     [LS_FLAP_PLAIN] = 0.9,
                                     [LS_FLAP_SPLIT] = 0.9,
                                     [LS_FLAP_SLOTTED] = 1.3,
                                     [LS_FLAP_FOWLER] = 1.6};
    double part = g->flap.outer - g->flap.inner;
    double rise = sin(fmin(deflection_rad / (40.0 * DEG), 1.0) * PI / 2.0);
    return 0.9 * section[g->flap.kind] * part * rise * cos(g->wing.sweep_rad);
}

/* Lift added at constant incidence, by the flap's effectiveness over its part of the span. */
static double flap_lift_zero(const ls_geometry *g, double slope_rad, double deflection_rad)
{
    if (g->flap.kind == LS_FLAP_NONE) {
        return 0.0;
    }
    double tau = 0.65 * ls_estimate_flap_bound(g->flap.chord);
    return slope_rad * tau * (g->flap.outer - g->flap.inner) * deflection_rad;
}

static void set_flap(ls_estimating *e, int index, const char *name, double deflection_rad, double given_max,
                     const char *given_key)
{
    const ls_geometry *g = e->g;
    double slope = e->out->basis.wing_slope_rad;
    double clean_max =
        ls_given(g->lift.max_up) ? g->lift.max_up : 0.9 * g->wing.section_lift_max * cos(g->wing.sweep_rad);
    double max = ls_given(given_max) ? given_max : clean_max + flap_lift_max(g, deflection_rad);
    const ls_mark *told = ls_geometry_mark(e->input, given_key);
    ls_source source = ls_given(given_max) && told != NULL && told->source >= LS_SOURCE_GIVEN
                           ? told->source
                           : LS_SOURCE_ESTIMATED;
    e->aircraft->flaps = index + 1;
    ls_estimate_text(e, "flaps[].name", index, name);
    ls_estimate_set(e, "flaps[].deflection", index, deflection_rad, 0.0, LS_SOURCE_GIVEN, "taken over");
    ls_estimate_set(e, "flaps[].lift_zero", index,
                    slope * g->wing.zero_lift_rad + flap_lift_zero(g, slope, deflection_rad), 0.08 + 0.04 * index,
                    LS_SOURCE_ESTIMATED, "lift slope times incidence from zero lift; thin-aerofoil flap");
    ls_estimate_set(e, "flaps[].lift_slope", index, slope, 0.06 * slope, LS_SOURCE_ESTIMATED,
                    "DATCOM 4.1.3.2 (Roskam VI, eq. 8.22)");
    ls_estimate_set(e, "flaps[].lift_max", index, max, (ls_given(given_max) ? 0.03 : 0.08) * max, source,
                    ls_given(given_max) ? "taken over, from the stall speed"
                                        : "Raymer eq. 12.15, 12.21, table 12.2");
}

void ls_estimate_lift(ls_estimating *e)
{
    const ls_geometry *g = e->g;
    ls_estimate_basis *basis = &e->out->basis;
    basis->wing_aspect = g->wing.span_m * g->wing.span_m / g->wing.area_m2;
    basis->mach = 0.12;
    double root_m = 2.0 * g->wing.area_m2 / g->wing.span_m / (1.0 + g->wing.taper);
    double half_sweep = atan(tan(g->wing.sweep_rad) - (1.0 - g->wing.taper) * root_m / (2.0 * g->wing.span_m));
    basis->wing_slope_rad = ls_estimate_lift_slope(basis->wing_aspect, half_sweep, basis->mach, 0.97);
    set_flap(e, 0, "up", 0.0, g->lift.max_up, "lift.max_up");
    if (g->flap.kind != LS_FLAP_NONE) {
        set_flap(e, 1, "approach", g->flap.takeoff_rad, g->lift.max_takeoff, "lift.max_takeoff");
        set_flap(e, 2, "landing", g->flap.landing_rad, g->lift.max_landing, "lift.max_landing");
    }
    basis->mass_kg = g->mass.maximum_kg;
    basis->lift_coefficient = e->aircraft->flap[0].lift_max / 1.44;
    basis->V_m_s = sqrt(2.0 * g->mass.maximum_kg * LS_G0_M_S2 /
                        (LS_AIR_RHO0_KG_M3 * g->wing.area_m2 * basis->lift_coefficient));
    basis->mach = basis->V_m_s / sqrt(LS_AIR_KAPPA * LS_AIR_R_J_KG_K * LS_AIR_T0_K);
    basis->alpha_rad = basis->lift_coefficient / basis->wing_slope_rad - g->wing.zero_lift_rad;
    if (basis->wing_aspect < 4.0 || basis->wing_aspect > 14.0) {
        ls_estimate_warn(e, "wing.span", "aspect ratio %.1f: the methods for lift and drag are for 4 to 14",
                         basis->wing_aspect);
    }
    if (fabs(g->wing.sweep_rad) > 15.0 * DEG) {
        ls_estimate_warn(e, "wing.sweep",
                         "%.0f deg: drag, ailerons and greatest lift are estimated for little sweep",
                         g->wing.sweep_rad / DEG);
    }
}

/* Drag of the clean aeroplane from its wetted area. Source: Raymer, eq. 12.23 and table 12.3 (light twin 0.0045);
 * wetted areas by eq. 7.11 and 7.12. */
static double skin_drag(const ls_geometry *g)
{
    double exposed = 1.0 - g->body.width_m / g->wing.span_m;
    double wing_m2 = g->wing.area_m2 * exposed * (1.977 + 0.52 * g->wing.thickness);
    double body_m2 = 3.4 * g->body.length_m * (g->body.width_m + g->body.depth_m) / 2.0 * 0.75;
    double fin_m2 = 2.03 * g->fin.span_m * (g->fin.root_m + g->fin.tip_m) / 2.0;
    double tail_m2 = 0.2 * 2.03 * g->wing.area_m2; /* a tailplane of the usual fifth */
    double engines = ls_given(g->engine.outer_right_m) ? 4.0 : 2.0;
    double nacelles_m2 = ls_given(g->nacelle.length_m) ? engines * 2.5 * g->nacelle.length_m *
                                                             (g->nacelle.width_m + g->nacelle.depth_m) / 2.0
                                                       : 0.0;
    return 0.0045 * (wing_m2 + body_m2 + fin_m2 + tail_m2 + nacelles_m2) / g->wing.area_m2 *
           1.3; /* cooling, gaps, interference: from memory, 15 to 40 % */
}

/* Raymer, eq. 12.61 (2nd edition on): parasite drag of a flap beyond 10 deg. */
static double flap_drag(const ls_geometry *g, double deflection_rad)
{
    double form = g->flap.kind == LS_FLAP_PLAIN || g->flap.kind == LS_FLAP_SPLIT ? 0.0144 : 0.0074;
    double beyond_deg = fmax(deflection_rad / DEG - 10.0, 0.0);
    double small = 0.0004 * fmin(deflection_rad / DEG, 10.0); /* from memory: flaps of 10 deg add about 0.004 */
    return form * g->flap.chord * (g->flap.outer - g->flap.inner) * beyond_deg + small;
}

void ls_estimate_drag(ls_estimating *e)
{
    const ls_geometry *g = e->g;
    double A = e->out->basis.wing_aspect;
    double oswald = 1.78 * (1.0 - 0.045 * pow(A, 0.68)) - 0.64; /* Raymer 12.48 */
    int is_given = ls_given(g->drag.zero);
    double clean = is_given ? g->drag.zero : skin_drag(g);
    for (int i = 0; i < e->aircraft->flaps; i++) {
        double added = flap_drag(g, e->aircraft->flap[i].deflection_rad);
        ls_estimate_set(e, "flaps[].drag_zero", i, clean + added,
                        hypot(is_given ? 0.08 * clean : 0.20 * clean, 0.4 * added), LS_SOURCE_ESTIMATED,
                        is_given ? "from the climb; flaps by Raymer eq. 12.61"
                                 : "wetted area x 0.0045 + 30 %: Raymer eq. 12.23, 12.61");
        ls_estimate_set(e, "flaps[].drag_induced", i, 1.0 / (PI * A * oswald), 0.08 / (PI * A * oswald),
                        LS_SOURCE_ESTIMATED, "Raymer eq. 12.48");
    }
    ls_estimate_set(e, "gear.drag", 0, g->drag.gear, 0.3 * g->drag.gear, LS_SOURCE_ASSUMED,
                    "0.015 to 0.025, Roskam, Airplane Design I, table 3.6");
    ls_estimate_set(e, "drag.sideslip", 0, 0.30, 0.10, LS_SOURCE_ASSUMED, "class of aeroplane");
    ls_estimate_set(e, "drag.rudder", 0, 0.06, 0.03, LS_SOURCE_ASSUMED, "class of aeroplane");
    ls_estimate_set(e, "drag.aileron", 0, 0.05, 0.03, LS_SOURCE_ASSUMED, "class of aeroplane");
}
