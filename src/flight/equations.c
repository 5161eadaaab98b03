/* The trim: four equations (Y, Z, L, N) in incidence, sideslip, aileron and rudder, with the pitch attitude that
 * balances X.
 *
 * u is the unit velocity of the aeroplane in body axes, (cos a cos b, sin b, sin a cos b). Drag acts along -u,
 * lift along (sin a, 0, -cos a), side force along y; propulsion is force0 + force_u u. Check by hand: a = b = 0
 * gives drag along -x, lift along -z (up), and weight W along +z at theta = 0; a thrust alone, X > 0, is balanced
 * nose up, X = W sin theta. */
#include "flight/equations.h"

#include "airframe/slipstream.h"
#include "flight/pedal.h"
#include "num/angle.h"
#include "num/curve.h"

#include <math.h>
#include <stddef.h>

/* A number with its derivatives by the unknowns. */
typedef struct {
    double value, by[UNKNOWNS];
} quantity;

/* Forces and the two moments of interest. */
typedef struct {
    quantity X, Y, Z, L, N;
} loads;

typedef struct {
    double sin_a, cos_a, sin_b, cos_b;
    double u[3], u_a[3], u_b[3];
} attitude;

static attitude attitude_of(const double *z)
{
    attitude at;
    ls_sin_cos(z[ALPHA], &at.sin_a, &at.cos_a);
    ls_sin_cos(z[BETA], &at.sin_b, &at.cos_b);
    at.u[0] = at.cos_a * at.cos_b;
    at.u[1] = at.sin_b;
    at.u[2] = at.sin_a * at.cos_b;
    at.u_a[0] = -at.u[2];
    at.u_a[1] = 0.0;
    at.u_a[2] = at.u[0];
    at.u_b[0] = -at.cos_a * at.sin_b;
    at.u_b[1] = at.cos_b;
    at.u_b[2] = -at.sin_a * at.sin_b;
    return at;
}

/* Effective rudder, an odd function of the deflection. */
static ls_curve_point effective_rudder(const ls_model *model, double rudder_rad)
{
    ls_curve_point effective = {rudder_rad, 1.0, 0};
    if (model->rudder_effect.table.rows > 0) {
        effective = ls_curve_at(&model->rudder_effect, fabs(rudder_rad));
        effective.value = copysign(effective.value, rudder_rad);
    }
    return effective;
}

/* A coefficient of the lateral derivatives. */
static quantity lateral(const double *z, ls_curve_point rudder, double by_sideslip, double by_aileron,
                        double by_rudder)
{
    return (quantity){by_sideslip * z[BETA] + by_aileron * z[AILERON] + by_rudder * rudder.value,
                      {0.0, by_sideslip, by_aileron, by_rudder * rudder.derivative}};
}

static quantity drag_coefficient(const ls_model *model, const double *z, double CL, double CL_a)
{
    const ls_aircraft *aircraft = model->aircraft;
    double above = CL - model->drag_least_at;
    double by_b = aircraft->drag.sideslip_per_rad2 * z[BETA];
    double by_a = aircraft->drag.aileron_per_rad2 * z[AILERON], by_r = aircraft->drag.rudder_per_rad2 * z[RUDDER];
    return (quantity){model->drag_base + model->drag_induced * above * above + by_b * z[BETA] + by_a * z[AILERON] +
                          by_r * z[RUDDER],
                      {2.0 * model->drag_induced * above * CL_a, 2.0 * by_b, 2.0 * by_a, 2.0 * by_r}};
}

/* The slipstreams' lift, in the terms of the wing's. */
typedef struct {
    double CL, CL_a;
} slipstream;

/* Wing lift along (sin a, 0, -cos a), drag along -u, side force along y. */
static void airframe_forces(const ls_trim_problem *p, const attitude *at, const double *z, ls_curve_point rudder,
                            slipstream wash, loads *out)
{
    const ls_model *model = p->model;
    const ls_derivatives *d = &model->derivatives;
    double qS = p->qS_N, CL = model->lift_zero + model->lift_slope * z[ALPHA];
    quantity CD = drag_coefficient(model, z, CL + wash.CL, model->lift_slope + wash.CL_a);
    quantity CY = lateral(z, rudder, d->side_sideslip, d->side_aileron, d->side_rudder);
    double D = qS * CD.value, lift = qS * CL, lift_a = qS * model->lift_slope;
    out->X.value = lift * at->sin_a - D * at->u[0];
    out->Y.value = qS * CY.value - D * at->u[1];
    out->Z.value = -lift * at->cos_a - D * at->u[2];
    for (int j = 0; j < UNKNOWNS; j++) {
        out->X.by[j] = -qS * CD.by[j] * at->u[0];
        out->Y.by[j] = qS * CY.by[j] - qS * CD.by[j] * at->u[1];
        out->Z.by[j] = -qS * CD.by[j] * at->u[2];
    }
    out->X.by[ALPHA] += lift_a * at->sin_a + lift * at->cos_a - D * at->u_a[0];
    out->Z.by[ALPHA] += -lift_a * at->cos_a + lift * at->sin_a - D * at->u_a[2];
    out->X.by[BETA] -= D * at->u_b[0];
    out->Y.by[BETA] -= D * at->u_b[1];
    out->Z.by[BETA] -= D * at->u_b[2];
}

/* Roll and yaw about the reference point, turned from stability to body axes (x_b = x_s cos a - z_s sin a,
 * z_b = x_s sin a + z_s cos a), then about the centre of gravity: L' = L - dy Z, N' = N + dx Y + dy X. */
static void airframe_moments(const ls_trim_problem *p, const attitude *at, const double *z, ls_curve_point rudder,
                             loads *out)
{
    const ls_model *model = p->model;
    const ls_derivatives *d = &model->derivatives;
    double qSb = p->qS_N * model->b_m, dx = model->cg_aft_m, dy = model->cg_right_m;
    double cos_a = model->stability_axes ? qSb * at->cos_a : qSb;
    double sin_a = model->stability_axes ? qSb * at->sin_a : 0.0;
    quantity roll = lateral(z, rudder, d->roll_sideslip, d->roll_aileron, d->roll_rudder);
    quantity yaw = lateral(z, rudder, d->yaw_sideslip, d->yaw_aileron, d->yaw_rudder);
    double L = roll.value * cos_a - yaw.value * sin_a, N = roll.value * sin_a + yaw.value * cos_a;
    out->L.value = L - dy * out->Z.value;
    out->N.value = N + dx * out->Y.value + dy * out->X.value;
    for (int j = 0; j < UNKNOWNS; j++) {
        out->L.by[j] = roll.by[j] * cos_a - yaw.by[j] * sin_a - dy * out->Z.by[j];
        out->N.by[j] = roll.by[j] * sin_a + yaw.by[j] * cos_a + dx * out->Y.by[j] + dy * out->X.by[j];
    }
    if (model->stability_axes) {
        out->L.by[ALPHA] -= N;
        out->N.by[ALPHA] += L;
    }
}

/* Along (sin a, 0, -cos a), at an arm to the right: moment -arm (cos a, 0, sin a). By hand: lift to the right of
 * the centre of gravity raises the right wing, a negative roll. */
static void add_slipstream(const ls_trim_problem *p, const attitude *at, double alpha_rad, slipstream wash,
                           loads *out)
{
    const double *c = p->point->wash_arm_Nm;
    double lift = p->qS_N * wash.CL, lift_a = p->qS_N * wash.CL_a;
    double arm = c[0] + (c[1] + c[2] * alpha_rad) * alpha_rad, arm_a = c[1] + 2.0 * c[2] * alpha_rad;
    out->X.value += lift * at->sin_a;
    out->Z.value -= lift * at->cos_a;
    out->X.by[ALPHA] += lift_a * at->sin_a + lift * at->cos_a;
    out->Z.by[ALPHA] -= lift_a * at->cos_a - lift * at->sin_a;
    out->L.value -= arm * at->cos_a;
    out->N.value -= arm * at->sin_a;
    out->L.by[ALPHA] -= arm_a * at->cos_a - arm * at->sin_a;
    out->N.by[ALPHA] -= arm_a * at->sin_a + arm * at->cos_a;
}

static double dot(const double a[3], const double b[3])
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/* One component of the powerplant's loads; the upwash goes with incidence from zero lift. */
static void add_component(double fixed, const double by_u[3], double upwash, double from_zero_rad,
                          const attitude *at, quantity *sum)
{
    sum->value += fixed + dot(by_u, at->u) + upwash * from_zero_rad;
    sum->by[ALPHA] += by_u[0] * at->u_a[0] + by_u[2] * at->u_a[2] + upwash;
    sum->by[BETA] += dot(by_u, at->u_b);
}

static void add_propulsion(const ls_trim_problem *p, const attitude *at, double alpha_rad, loads *out)
{
    const ls_powerplant_point *point = p->point;
    double from_zero_rad = alpha_rad + p->model->lift_zero / p->model->lift_slope;
    quantity *const force[3] = {&out->X, &out->Y, &out->Z};
    for (int i = 0; i < 3; i++) {
        add_component(point->force0_N[i], point->force_u_N[i], point->upwash_force_N[i], from_zero_rad, at,
                      force[i]);
    }
    add_component(point->moment0_Nm[0], point->moment_u_Nm[0], point->upwash_moment_Nm[0], from_zero_rad, at,
                  &out->L);
    add_component(point->moment0_Nm[2], point->moment_u_Nm[2], point->upwash_moment_Nm[2], from_zero_rad, at,
                  &out->N);
}

ls_trim_problem ls_trim_problem_of(const ls_model *model, const ls_powerplant_point *point, double bank_rad)
{
    ls_trim_problem p = {.model = model,
                         .point = point,
                         .qS_N = 0.5 * model->air.rho_kg_m3 * point->V_m_s * point->V_m_s * model->S_m2};
    ls_sin_cos(bank_rad, &p.sin_phi, &p.cos_phi);
    return p;
}

static void set_row(const quantity *load, double over, double tilt, const double *X_by, double *row)
{
    for (int j = 0; j < UNKNOWNS; j++) {
        row[j] = load->by[j] * over + tilt * X_by[j];
    }
}

double ls_trim_equations(const ls_trim_problem *p, const double *z, double *r, double jacobian[][LS_LINEAR_MAX])
{
    loads sum;
    attitude at = attitude_of(z);
    double over_W = 1.0 / p->model->weight_N, over_Wb = over_W / p->model->b_m;
    ls_curve_point rudder = effective_rudder(p->model, z[RUDDER]);
    rudder.value += ls_fin_as_rudder(&p->model->derivatives, p->point->fin_rad);
    slipstream wash = {(p->point->wash_lift_N[0] + p->point->wash_lift_N[1] * z[ALPHA]) / p->qS_N,
                       p->point->wash_lift_N[1] / p->qS_N};
    airframe_forces(p, &at, z, rudder, wash, &sum);
    airframe_moments(p, &at, z, rudder, &sum);
    add_slipstream(p, &at, z[ALPHA], wash, &sum);
    add_propulsion(p, &at, z[ALPHA], &sum);
    double end = 0.01 * LS_ATTITUDE_END, sin_t = sum.X.value * over_W;
    int held = !(fabs(sin_t) < end);
    double held_t = held ? copysign(end, sin_t) : sin_t, cos_t = sqrt(1.0 - held_t * held_t);
    r[EQUATION_Y] = sum.Y.value * over_W + cos_t * p->sin_phi;
    r[EQUATION_Z] = sum.Z.value * over_W + cos_t * p->cos_phi;
    r[EQUATION_L] = sum.L.value * over_Wb;
    r[EQUATION_N] = sum.N.value * over_Wb;
    if (jacobian != NULL) {
        double tilt = held ? 0.0 : -sin_t / cos_t * over_W; /* of cos theta, by X */
        set_row(&sum.Y, over_W, tilt * p->sin_phi, sum.X.by, jacobian[EQUATION_Y]);
        set_row(&sum.Z, over_W, tilt * p->cos_phi, sum.X.by, jacobian[EQUATION_Z]);
        set_row(&sum.L, over_Wb, 0.0, sum.X.by, jacobian[EQUATION_L]);
        set_row(&sum.N, over_Wb, 0.0, sum.X.by, jacobian[EQUATION_N]);
    }
    return sin_t;
}

double ls_trim_lift(const ls_trim_problem *p, double alpha_rad)
{
    return p->model->lift_zero + p->model->lift_slope * alpha_rad +
           (p->point->wash_lift_N[0] + p->point->wash_lift_N[1] * alpha_rad) / p->qS_N;
}

double ls_trim_pedal_force(const ls_trim_problem *p, double beta_rad, double rudder_rad)
{
    double fin_rad = beta_rad * p->model->aircraft->fin.sidewash + p->point->fin_rad;
    return ls_pedal_force(p->model, p->qS_N / p->model->S_m2, fin_rad, rudder_rad);
}

void ls_trim_fill(const ls_trim_problem *p, const double *z, double sin_theta, ls_trim *trim)
{
    attitude at = attitude_of(z);
    double sin_t = fmax(-1.0, fmin(1.0, sin_theta)), cos_t = sqrt(1.0 - sin_t * sin_t);
    double down[3] = {-sin_t, cos_t * p->sin_phi, cos_t * p->cos_phi};
    trim->alpha_rad = z[ALPHA];
    trim->beta_rad = z[BETA];
    trim->aileron_rad = z[AILERON];
    trim->rudder_rad = z[RUDDER];
    trim->theta_rad = asin(sin_t);
    trim->climb_rad = -asin(fmax(-1.0, fmin(1.0, dot(at.u, down))));
    trim->free_lift_coefficient = p->model->lift_zero + p->model->lift_slope * z[ALPHA];
    trim->lift_coefficient = ls_trim_lift(p, z[ALPHA]);
    trim->load_factor = cos_t * p->cos_phi;
    trim->pedal_force_N = ls_trim_pedal_force(p, z[BETA], z[RUDDER]); /* NaN without pedal data */
}
