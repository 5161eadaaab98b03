#include "liveside/disc.h"

#include <math.h>
#include <stddef.h>

#include "disc_axial.h"
#include "polar.h"

static const double pi = 3.14159265358979323846;

static void prepare_element(const ls_blade *blade, const ls_section *section, const ls_disc_options *options,
                            double r_R, double dr_R, ls_element *element)
{
    double R = 0.5 * blade->diameter_m;
    ls_blade_station at = ls_blade_at(blade, r_R), at75 = ls_blade_at(blade, 0.75);
    *element = (ls_element){
        .r_m = r_R * R,
        .dr_m = dr_R * R,
        .c_m = at.c_R * R,
        .twist_rad = at.angle_rad - at75.angle_rad,
        .sigma = blade->blades * at.c_R / (2.0 * pi * r_R),
        .tip_reach = options->no_tip_loss ? 0.0 : 0.5 * blade->blades * (1.0 / r_R - 1.0),
        .hub_reach = options->no_hub_loss ? 0.0 : 0.5 * blade->blades * (r_R / blade->root_r_R - 1.0),
    };
    ls_polar_prepare(section, at.thickness, 1.0 / at75.c_R, &element->polar);
}

static ls_status check_options(const ls_disc_options *options, int count, ls_error *error)
{
    if (count < 4 || count > LS_DISC_ELEMENTS_MAX) {
        return ls_fail(error, LS_FILE_REJECTED, "disc: %d elements; there must be 4 to %d", count,
                       LS_DISC_ELEMENTS_MAX);
    }
    if ((options->r_R == NULL) != (options->dr_R == NULL)) {
        return ls_fail(error, LS_FILE_REJECTED, "disc: radii and weights must be given together");
    }
    return LS_OK;
}

ls_status ls_disc_prepare(const ls_blade *blade, const ls_section *section, const ls_disc_options *options,
                          ls_disc *disc, ls_error *error)
{
    static const ls_disc_options usual = {.count = LS_DISC_ELEMENTS};
    const ls_disc_options *use = options != NULL ? options : &usual;
    int count = use->count != 0 ? use->count : LS_DISC_ELEMENTS;
    ls_status status = ls_blade_check(blade, error);
    if (status == LS_OK) {
        status = ls_section_check(section, error);
    }
    if (status == LS_OK) {
        status = check_options(use, count, error);
    }
    if (status != LS_OK) {
        return status;
    }
    *disc = (ls_disc){
        .diameter_m = blade->diameter_m, .blades = blade->blades, .mach_effects = !use->no_mach, .count = count};
    /* Midpoints in the angle of a half circle on the blade: the loads rise from tip and root like
     * the square root of the distance, which these integrate exactly in the limit. */
    double half = 0.5 * (1.0 - blade->root_r_R);
    for (int i = 0; i < count; i++) {
        double angle = pi * (i + 0.5) / count;
        double r_R = use->r_R != NULL ? use->r_R[i] : 1.0 - half * (1.0 + cos(angle));
        double dr_R = use->r_R != NULL ? use->dr_R[i] : half * sin(angle) * pi / count;
        prepare_element(blade, section, use, r_R, dr_R, &disc->element[i]);
    }
    prepare_element(blade, section, use, 0.75, 0.0, &disc->at75);
    return LS_OK;
}

static ls_status check_state(const ls_disc_state *state, ls_error *error)
{
    const struct {
        const char *what;
        double value, low, high;
    } range[] = {
        {"axial speed, m/s", state->V_axial_m_s, 0.0, 400.0},
        {"speed across the disc, m/s", state->V_inplane_m_s, 0.0, 400.0},
        {"rev/s", state->n_rev_s, 0.0, 1000.0},
        {"pitch, rad", state->pitch_rad, -0.6, 1.8},
        {"air density, kg/m3", state->rho_kg_m3, 1e-3, 5.0},
        {"speed of sound, m/s", state->a_m_s, 100.0, 1000.0},
    };
    for (size_t i = 0; i < sizeof range / sizeof range[0]; i++) {
        if (!(range[i].value >= range[i].low && range[i].value <= range[i].high)) {
            return ls_fail(error, LS_NO_STATE, "propeller: %s is %g; it must lie within %g to %g", range[i].what,
                           range[i].value, range[i].low, range[i].high);
        }
    }
    return LS_OK;
}

static ls_status no_root(const ls_element *element, const ls_disc_state *state, ls_error *error)
{
    return ls_fail(error, LS_NOT_CONVERGED,
                   "propeller: no inflow angle balances the blade at radius %.3f m "
                   "(axial speed %g m/s, across %g m/s, %g rev/s, pitch %.2f deg)",
                   element->r_m, state->V_axial_m_s, state->V_inplane_m_s, state->n_rev_s,
                   state->pitch_rad * 180.0 / pi);
}

static element_flow flow_at(const ls_disc *disc, const ls_element *element, const ls_disc_state *state,
                            double V_tangential)
{
    element_flow flow = {
        .Vx = state->V_axial_m_s,
        .Vy = 2.0 * pi * state->n_rev_s * element->r_m + V_tangential,
        .theta_rad = state->pitch_rad + element->twist_rad,
    };
    if (disc->mach_effects) {
        flow.mach = sqrt(flow.Vx * flow.Vx + flow.Vy * flow.Vy) / state->a_m_s;
    }
    flow.gain = polar_gain(flow.mach);
    return flow;
}

/* Adds an annulus; the mean of sin^2 over the azimuth is a half. */
static void add_axial(const ls_disc *disc, const ls_element *element, const ls_disc_state *state,
                      const element_loads *loads, const element_slopes *slopes, ls_disc_axial *sum)
{
    double dr = disc->blades * state->rho_kg_m3 * element->dr_m, r = element->r_m;
    sum->T_N += dr * loads->thrust;
    sum->Q_N_m += dr * r * loads->tangential;
    sum->N_N_s_m += 0.5 * dr * slopes->tangential;
    sum->m1_N_s += 0.5 * dr * r * slopes->thrust;
}

const ls_element *disc_axial(const ls_disc *disc, const ls_disc_state *state, ls_induction induction,
                             element_start *start, ls_disc_axial *axial)
{
    *axial = (ls_disc_axial){0};
    for (int i = 0; i < disc->count; i++) {
        const ls_element *element = &disc->element[i];
        element_flow flow = flow_at(disc, element, state, 0.0);
        element_loads loads;
        element_slopes slopes = {0};
        if (!element_solve(element, &flow, start != NULL ? &start[i] : NULL, &loads)) {
            return element;
        }
        double speed = sqrt(flow.Vx * flow.Vx + flow.Vy * flow.Vy);
        if (speed > 0.0) {
            double dmach_dVy = disc->mach_effects ? flow.Vy / (speed * state->a_m_s) : 0.0;
            element_differentiate(element, &flow, &loads, dmach_dVy, induction != LS_INDUCTION_LOCAL, &slopes);
        }
        if (start != NULL) {
            start[i] = (element_start){loads.phi_rad, slopes.residual};
        }
        add_axial(disc, element, state, &loads, &slopes, axial);
    }
    return NULL;
}

ls_status ls_disc_solve_axial(const ls_disc *disc, const ls_disc_state *state, ls_induction induction,
                              ls_disc_axial *axial, ls_error *error)
{
    ls_status status = check_state(state, error);
    if (status != LS_OK) {
        return status;
    }
    ls_disc_axial solved;
    const ls_element *failed = disc_axial(disc, state, induction, NULL, &solved);
    if (failed != NULL) {
        return no_root(failed, state, error);
    }
    *axial = solved;
    return LS_OK;
}

/* Area mean of the axial induced velocity in axial flow, for the skew of the wake and for reports. */
static ls_status mean_inflow(const ls_disc *disc, const ls_disc_state *state, double *u_mean, ls_error *error)
{
    double area = 0.0, flux = 0.0;
    for (int i = 0; i < disc->count; i++) {
        const ls_element *element = &disc->element[i];
        element_flow flow = flow_at(disc, element, state, 0.0);
        element_loads loads;
        if (!element_solve(element, &flow, NULL, &loads)) {
            return no_root(element, state, error);
        }
        area += element->r_m * element->dr_m;
        flux += element->r_m * element->dr_m * loads.loss * loads.u;
    }
    *u_mean = flux / area;
    return LS_OK;
}

/* Adds one annulus at all azimuths. The azimuth psi runs with the rotation from the direction e in
 * which the air crosses the disc, so the blade meets that air head on at psi = 90 deg, and the
 * skewed wake, blown toward e, induces most at psi = 0. */
static bool add_annulus(const ls_disc *disc, const ls_element *element, const ls_disc_state *state,
                        ls_induction induction, int azimuths, double skew, ls_disc_loads *sum)
{
    element_loads axial = {0};
    element_flow straight = flow_at(disc, element, state, 0.0);
    if (induction != LS_INDUCTION_LOCAL && !element_solve(element, &straight, NULL, &axial)) {
        return false;
    }
    double dr = disc->blades * state->rho_kg_m3 * element->dr_m / azimuths, r = element->r_m;
    for (int j = 0; j < azimuths; j++) {
        double psi = 2.0 * pi * (j + 0.5) / azimuths, s = sin(psi), c = cos(psi);
        element_flow flow = flow_at(disc, element, state, state->V_inplane_m_s * s);
        element_loads loads;
        if (induction == LS_INDUCTION_LOCAL) {
            if (!element_solve(element, &flow, NULL, &loads)) {
                return false;
            }
        } else {
            double u = axial.u * (1.0 + skew * c * 2.0 * r / disc->diameter_m);
            element_loads_frozen(element, &flow, u, axial.v, &loads);
        }
        sum->T_N += dr * loads.thrust;
        sum->Q_N_m += dr * r * loads.tangential;
        sum->N_N += dr * loads.tangential * s;
        sum->S_N -= dr * loads.tangential * c;
        sum->m1_N_m += dr * r * loads.thrust * s;
        sum->m2_N_m -= dr * r * loads.thrust * c;
    }
    return true;
}

static bool report_75(const ls_disc *disc, const ls_disc_state *state, ls_disc_loads *out)
{
    element_flow flow = flow_at(disc, &disc->at75, state, 0.0);
    element_loads loads;
    if (!element_solve(&disc->at75, &flow, NULL, &loads)) {
        return false;
    }
    out->phi75_rad = loads.phi_rad;
    out->alpha75_rad = flow.theta_rad - loads.phi_rad;
    out->u75_m_s = loads.u;
    out->swirl75_m_s = loads.v;
    out->mach75 = hypot(flow.Vx, flow.Vy) / state->a_m_s;
    out->mach_tip = hypot(flow.Vx, pi * state->n_rev_s * disc->diameter_m) / state->a_m_s;
    return true;
}

ls_status ls_disc_solve(const ls_disc *disc, const ls_disc_state *state, ls_induction induction, int azimuths,
                        ls_disc_loads *loads, ls_error *error)
{
    ls_status status = check_state(state, error);
    if (status == LS_OK && (azimuths < 4 || azimuths > 360 || azimuths % 2 != 0)) {
        return ls_fail(error, LS_NO_STATE, "propeller: %d azimuths; there must be 4 to 360, even", azimuths);
    }
    ls_disc_loads sum = {0};
    if (status == LS_OK) {
        status = mean_inflow(disc, state, &sum.u_mean_m_s, error);
    }
    if (status != LS_OK) {
        return status;
    }
    /* Pitt and Peters' gradient, (15 pi/32) tan(chi/2), for a wake at the angle chi; from memory. */
    double chi = atan2(state->V_inplane_m_s, fmax(state->V_axial_m_s + sum.u_mean_m_s, 0.0));
    double skew = induction == LS_INDUCTION_SKEWED ? 15.0 * pi / 32.0 * tan(0.5 * chi) : 0.0;
    for (int i = 0; i < disc->count; i++) {
        if (!add_annulus(disc, &disc->element[i], state, induction, azimuths, skew, &sum)) {
            return no_root(&disc->element[i], state, error);
        }
    }
    if (!report_75(disc, state, &sum)) {
        return no_root(&disc->at75, state, error);
    }
    sum.P_W = 2.0 * pi * state->n_rev_s * sum.Q_N_m;
    *loads = sum;
    return LS_OK;
}
