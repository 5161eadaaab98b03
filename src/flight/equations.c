/* The trim: five equations (X, Y, Z, L, N) in incidence, sideslip, aileron, rudder and pitch attitude.
 *
 * u is the unit velocity of the aeroplane in body axes, (cos a cos b, sin b, sin a cos b). Drag acts along -u,
 * lift along (sin a, 0, -cos a), side force along y; propulsion is force0 + force_u u. Check by hand: a = b = 0
 * gives drag along -x, lift along -z (up), and weight W along +z at theta = 0. */
#include "flight/equations.h"

#include "airframe/slipstream.h"
#include "num/curve.h"

#include <math.h>

enum { EQUATION_X, EQUATION_Y, EQUATION_Z, EQUATION_L, EQUATION_N };

/* Force and the two moments of interest, with their derivatives by alpha, beta, aileron, rudder. */
typedef struct {
    double force[3], roll, yaw;
    double force_by[4][3], roll_by[4], yaw_by[4];
} loads;

typedef struct {
    double sin_a, cos_a, sin_b, cos_b;
    double u[3], u_a[3], u_b[3];
} attitude;

static attitude attitude_of(const double *z)
{
    attitude at;
    at.sin_a = sin(z[ALPHA]);
    at.cos_a = cos(z[ALPHA]);
    at.sin_b = sin(z[BETA]);
    at.cos_b = cos(z[BETA]);
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

/* The slipstreams' lift, in the terms of the wing's: coefficient, and moment about the stability x axis. */
typedef struct {
    double CL, CL_a;
    double arm_Nm, arm_a_Nm; /* left wing down positive */
} slipstream;

static slipstream slipstream_of(const ls_powerplant_point *point, double alpha_rad, double qS_N)
{
    const double *lift = point->wash_lift_N, *arm = point->wash_arm_Nm;
    return (slipstream){(lift[0] + lift[1] * alpha_rad) / qS_N, lift[1] / qS_N,
                        arm[0] + (arm[1] + arm[2] * alpha_rad) * alpha_rad, arm[1] + 2.0 * arm[2] * alpha_rad};
}

static void airframe_forces(const ls_model *model, const attitude *at, const double *z, ls_curve_point rudder,
                            const slipstream *wash, double qS_N, loads *out)
{
    const ls_derivatives *d = &model->derivatives;
    const ls_aircraft *aircraft = model->aircraft;
    double CL = model->lift_zero + model->lift_slope * z[ALPHA];
    double above = CL + wash->CL - model->drag_least_at;
    double CD = model->drag_base + model->drag_induced * above * above +
                aircraft->drag.sideslip_per_rad2 * z[BETA] * z[BETA] +
                aircraft->drag.rudder_per_rad2 * z[RUDDER] * z[RUDDER] +
                aircraft->drag.aileron_per_rad2 * z[AILERON] * z[AILERON];
    double CD_by[4] = {2.0 * model->drag_induced * above * (model->lift_slope + wash->CL_a),
                       2.0 * aircraft->drag.sideslip_per_rad2 * z[BETA],
                       2.0 * aircraft->drag.aileron_per_rad2 * z[AILERON],
                       2.0 * aircraft->drag.rudder_per_rad2 * z[RUDDER]};
    double CY = d->side_sideslip * z[BETA] + d->side_aileron * z[AILERON] + d->side_rudder * rudder.value;
    double CY_by[4] = {0.0, d->side_sideslip, d->side_aileron, d->side_rudder * rudder.derivative};
    double lift[3] = {at->sin_a, 0.0, -at->cos_a};
    double lift_a[3] = {at->cos_a, 0.0, at->sin_a};
    for (int i = 0; i < 3; i++) {
        out->force[i] = qS_N * (-CD * at->u[i] + CL * lift[i]);
        for (int j = 0; j < 4; j++) {
            out->force_by[j][i] = -qS_N * CD_by[j] * at->u[i];
        }
        out->force_by[ALPHA][i] += qS_N * (-CD * at->u_a[i] + model->lift_slope * lift[i] + CL * lift_a[i]);
        out->force_by[BETA][i] += -qS_N * CD * at->u_b[i];
    }
    out->force[1] += qS_N * CY;
    for (int j = 0; j < 4; j++) {
        out->force_by[j][1] += qS_N * CY_by[j];
    }
}

/* Roll and yaw about the reference point, turned from stability to body axes (x_b = x_s cos a - z_s sin a,
 * z_b = x_s sin a + z_s cos a), then about the centre of gravity: L' = L - dy Z, N' = N + dx Y + dy X. */
static void airframe_moments(const ls_model *model, const attitude *at, const double *z, ls_curve_point rudder,
                             double qSb_Nm, loads *out)
{
    const ls_derivatives *d = &model->derivatives;
    double cos_a = model->stability_axes ? at->cos_a : 1.0;
    double sin_a = model->stability_axes ? at->sin_a : 0.0;
    double roll = d->roll_sideslip * z[BETA] + d->roll_aileron * z[AILERON] + d->roll_rudder * rudder.value;
    double yaw = d->yaw_sideslip * z[BETA] + d->yaw_aileron * z[AILERON] + d->yaw_rudder * rudder.value;
    double roll_by[4] = {0.0, d->roll_sideslip, d->roll_aileron, d->roll_rudder * rudder.derivative};
    double yaw_by[4] = {0.0, d->yaw_sideslip, d->yaw_aileron, d->yaw_rudder * rudder.derivative};
    double dx = model->cg_aft_m, dy = model->cg_right_m;
    out->roll = qSb_Nm * (roll * cos_a - yaw * sin_a) - dy * out->force[2];
    out->yaw = qSb_Nm * (roll * sin_a + yaw * cos_a) + dx * out->force[1] + dy * out->force[0];
    for (int j = 0; j < 4; j++) {
        out->roll_by[j] = qSb_Nm * (roll_by[j] * cos_a - yaw_by[j] * sin_a) - dy * out->force_by[j][2];
        out->yaw_by[j] = qSb_Nm * (roll_by[j] * sin_a + yaw_by[j] * cos_a) + dx * out->force_by[j][1] +
                         dy * out->force_by[j][0];
    }
    if (model->stability_axes) {
        out->roll_by[ALPHA] -= qSb_Nm * (roll * sin_a + yaw * cos_a);
        out->yaw_by[ALPHA] += qSb_Nm * (roll * cos_a - yaw * sin_a);
    }
}

static double dot(const double a[3], const double b[3])
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/* from_zero_rad: incidence from zero lift, what the upwash goes with. */
static void add_propulsion(const ls_powerplant_point *point, const attitude *at, double from_zero_rad, loads *out)
{
    for (int i = 0; i < 3; i++) {
        out->force[i] +=
            point->force0_N[i] + dot(point->force_u_N[i], at->u) + point->upwash_force_N[i] * from_zero_rad;
        out->force_by[ALPHA][i] += dot(point->force_u_N[i], at->u_a) + point->upwash_force_N[i];
        out->force_by[BETA][i] += dot(point->force_u_N[i], at->u_b);
    }
    const double *upwash = point->upwash_moment_Nm;
    out->roll += point->moment0_Nm[0] + dot(point->moment_u_Nm[0], at->u) + upwash[0] * from_zero_rad;
    out->roll_by[ALPHA] += dot(point->moment_u_Nm[0], at->u_a) + upwash[0];
    out->roll_by[BETA] += dot(point->moment_u_Nm[0], at->u_b);
    out->yaw += point->moment0_Nm[2] + dot(point->moment_u_Nm[2], at->u) + upwash[2] * from_zero_rad;
    out->yaw_by[ALPHA] += dot(point->moment_u_Nm[2], at->u_a) + upwash[2];
    out->yaw_by[BETA] += dot(point->moment_u_Nm[2], at->u_b);
}

/* Along (sin a, 0, -cos a), at an arm to the right: moment -arm (cos a, 0, sin a). By hand: lift to the right of
 * the centre of gravity raises the right wing, a negative roll. */
static void add_slipstream(const slipstream *wash, const attitude *at, double qS_N, loads *out)
{
    double lift_N = qS_N * wash->CL, lift_a_N = qS_N * wash->CL_a;
    out->force[0] += lift_N * at->sin_a;
    out->force[2] -= lift_N * at->cos_a;
    out->force_by[ALPHA][0] += lift_a_N * at->sin_a + lift_N * at->cos_a;
    out->force_by[ALPHA][2] -= lift_a_N * at->cos_a - lift_N * at->sin_a;
    out->roll -= wash->arm_Nm * at->cos_a;
    out->yaw -= wash->arm_Nm * at->sin_a;
    out->roll_by[ALPHA] -= wash->arm_a_Nm * at->cos_a - wash->arm_Nm * at->sin_a;
    out->yaw_by[ALPHA] -= wash->arm_a_Nm * at->sin_a + wash->arm_Nm * at->cos_a;
}

void ls_trim_equations(const ls_trim_problem *p, const double *z, double *r, double jacobian[][LS_LINEAR_MAX])
{
    loads sum;
    attitude at = attitude_of(z);
    double W = p->model->weight_N, Wb = W * p->model->b_m;
    ls_curve_point rudder = effective_rudder(p->model, z[RUDDER]);
    slipstream wash = slipstream_of(p->point, z[ALPHA], p->qS_N);
    rudder.value += ls_fin_as_rudder(&p->model->derivatives, p->point->fin_rad);
    airframe_forces(p->model, &at, z, rudder, &wash, p->qS_N, &sum);
    airframe_moments(p->model, &at, z, rudder, p->qS_N * p->model->b_m, &sum);
    add_propulsion(p->point, &at, z[ALPHA] + p->model->lift_zero / p->model->lift_slope, &sum);
    add_slipstream(&wash, &at, p->qS_N, &sum);
    double sin_t = sin(z[THETA]), cos_t = cos(z[THETA]);
    r[EQUATION_X] = sum.force[0] / W - sin_t;
    r[EQUATION_Y] = sum.force[1] / W + cos_t * p->sin_phi;
    r[EQUATION_Z] = sum.force[2] / W + cos_t * p->cos_phi;
    r[EQUATION_L] = sum.roll / Wb;
    r[EQUATION_N] = sum.yaw / Wb;
    for (int j = 0; j < 4; j++) {
        for (int i = 0; i < 3; i++) {
            jacobian[i][j] = sum.force_by[j][i] / W;
        }
        jacobian[EQUATION_L][j] = sum.roll_by[j] / Wb;
        jacobian[EQUATION_N][j] = sum.yaw_by[j] / Wb;
    }
    jacobian[EQUATION_X][THETA] = -cos_t;
    jacobian[EQUATION_Y][THETA] = -sin_t * p->sin_phi;
    jacobian[EQUATION_Z][THETA] = -sin_t * p->cos_phi;
    jacobian[EQUATION_L][THETA] = 0.0;
    jacobian[EQUATION_N][THETA] = 0.0;
}
