/* The rigid body: loads at a state, and the rates of the state. */
#include "flight/equations.h"
#include "flight/motion_parts.h"
#include "prop/turning.h"

#include <math.h>
#include <string.h>

#define PITCH_LAG_S 0.25 /* the rate of pitch follows the hold with this time constant: a stiff short period */

static const double two_pi = 6.28318530717958647692;

int ls_motion_dimension(const ls_flight *flight)
{
    return BODY_STATES + PROPELLER_STATES * flight->after.units;
}

/* Airframe and propulsion without rates: the trim's own equations, with neither weight (sin_phi = cos_phi = 0) nor
 * attitude, are forces over weight and moments over weight times span. */
static void steady_loads(const ls_flight *flight, ls_moment *now)
{
    const ls_model *model = &flight->after;
    double r[UNKNOWNS], jacobian[LS_LINEAR_MAX][LS_LINEAR_MAX];
    double z[UNKNOWNS] = {now->alpha_rad, now->beta_rad, now->aileron_rad, now->rudder_rad, 0.0};
    ls_trim_problem problem = {model, &now->point, now->q_Pa * model->S_m2, 0.0, 0.0};
    ls_trim_equations(&problem, z, r, jacobian);
    for (int i = 0; i < 3; i++) {
        now->force_N[i] = r[i] * model->weight_N;
    }
    now->roll_Nm = r[3] * model->weight_N * model->b_m;
    now->yaw_Nm = r[4] * model->weight_N * model->b_m;
}

/* What rolling and yawing add, in the axes of the derivatives, then about the centre of gravity: N' = N + dx Y. */
static void add_rates(const ls_flight *flight, const double *y, ls_moment *now)
{
    const ls_model *model = &flight->after;
    const ls_rates *d = &flight->rates;
    double half = model->b_m / (2.0 * now->V_m_s), qS = now->q_Pa * model->S_m2, qSb = qS * model->b_m;
    double cos_a = model->stability_axes ? cos(now->alpha_rad) : 1.0;
    double sin_a = model->stability_axes ? sin(now->alpha_rad) : 0.0;
    double p = half * (y[AT_P] * cos_a + y[AT_R] * sin_a), r = half * (y[AT_R] * cos_a - y[AT_P] * sin_a);
    double side_N = qS * (d->side_roll * p + d->side_yaw * r);
    double roll = d->roll_roll * p + d->roll_yaw * r, yaw = d->yaw_roll * p + d->yaw_yaw * r;
    now->force_N[1] += side_N;
    now->roll_Nm += qSb * (roll * cos_a - yaw * sin_a);
    now->yaw_Nm += qSb * (roll * sin_a + yaw * cos_a) + model->cg_aft_m * side_N;
}

int ls_motion_air(const ls_flight *flight, double t_s, const double *y, ls_moment *now)
{
    double V = sqrt(y[AT_U] * y[AT_U] + y[AT_V] * y[AT_V] + y[AT_W] * y[AT_W]);
    if (!(V > 1.0) || !(y[AT_U] > 0.0) || !(fabs(cos(y[AT_PITCH])) > 0.05)) {
        return 1;
    }
    now->V_m_s = V;
    now->q_Pa = 0.5 * flight->after.air.rho_kg_m3 * V * V;
    now->alpha_rad = atan2(y[AT_W], y[AT_U]);
    now->beta_rad = asin(y[AT_V] / V);
    for (int i = 0; i < 3; i++) {
        now->air[i] = y[AT_U + i] / V;
    }
    double sin_phi = sin(y[AT_BANK]), cos_phi = cos(y[AT_BANK]);
    now->turn_rad_s = (y[AT_Q] * sin_phi + y[AT_R] * cos_phi) / cos(y[AT_PITCH]);
    return ls_motion_propulsion(flight, t_s, y, now);
}

void ls_motion_loads(const ls_flight *flight, const double *y, ls_moment *now)
{
    steady_loads(flight, now);
    add_rates(flight, y, now);
}

int ls_motion_moment(const ls_flight *flight, double t_s, const double *y, ls_moment *now)
{
    if (ls_motion_air(flight, t_s, y, now)) {
        return 1;
    }
    ls_motion_controls(flight, y, now);
    ls_motion_loads(flight, y, now);
    return 0;
}

/* The rotors' angular momentum h Ip W along their shafts: what turning it takes, -w x H, and what changing it
 * takes, -H'. By hand: clockwise (h = +1), nose rising (q > 0): -w x H has N = +q H, the nose goes right. */
static void rotor_moments(const ls_flight *flight, const double *y, const ls_moment *now, double *roll,
                          double *yaw)
{
    *roll = *yaw = 0.0;
    if (flight->after.condition.effects_off & LS_EFFECT_TORQUE) {
        return;
    }
    for (int i = 0; i < flight->after.units; i++) {
        const ls_mounted_engine *unit = &flight->after.unit[i];
        if (!flight->moves[i]) {
            continue;
        }
        double I = unit->hand * two_pi * flight->rotor_kg_m2[i];
        double H = I * y[BODY_STATES + PROPELLER_STATES * i], H_dot = I * now->propeller_rate[i][0];
        *roll += H * (y[AT_R] * unit->axis[1] - y[AT_Q] * unit->axis[2]) - H_dot * unit->axis[0];
        *yaw += H * (y[AT_Q] * unit->axis[0] - y[AT_P] * unit->axis[1]) - H_dot * unit->axis[2];
    }
}

static void turn_rates(const ls_flight *flight, const double *y, const ls_moment *now, double *rates)
{
    const ls_inertia *I = &flight->inertia;
    double roll, yaw, p = y[AT_P], q = y[AT_Q], r = y[AT_R];
    rotor_moments(flight, y, now, &roll, &yaw);
    double L = roll + now->roll_Nm + I->xz_kg_m2 * p * q - (I->zz_kg_m2 - I->yy_kg_m2) * q * r;
    double N = yaw + now->yaw_Nm - I->xz_kg_m2 * q * r - (I->yy_kg_m2 - I->xx_kg_m2) * p * q;
    rates[AT_P] = (I->zz_kg_m2 * L + I->xz_kg_m2 * N) / flight->delta_kg2_m4;
    rates[AT_R] = (I->xx_kg_m2 * N + I->xz_kg_m2 * L) / flight->delta_kg2_m4;
    rates[AT_Q] = (ls_motion_pitch_wanted(flight, y, now) - q) / PITCH_LAG_S;
    double cos_t = cos(y[AT_PITCH]), sin_phi = sin(y[AT_BANK]), cos_phi = cos(y[AT_BANK]);
    rates[AT_BANK] = p + (q * sin_phi + r * cos_phi) * sin(y[AT_PITCH]) / cos_t;
    rates[AT_PITCH] = q * cos_phi - r * sin_phi;
    rates[AT_HEADING] = now->turn_rad_s;
}

/* v' = F/m + g - w x v; where the speed is held exactly, nothing along the velocity but what is asked. */
static void velocity_rates(const ls_flight *flight, const double *y, const ls_moment *now, double *rates)
{
    double mass = flight->after.weight_N / LS_G0_M_S2, g = LS_G0_M_S2;
    double cos_t = cos(y[AT_PITCH]), sin_t = sin(y[AT_PITCH]);
    double down[3] = {-sin_t, cos_t * sin(y[AT_BANK]), cos_t * cos(y[AT_BANK])};
    const double *v = y + AT_U, *w = y + AT_P;
    double across[3] = {w[1] * v[2] - w[2] * v[1], w[2] * v[0] - w[0] * v[2], w[0] * v[1] - w[1] * v[0]};
    double along = 0.0;
    for (int i = 0; i < 3; i++) {
        rates[AT_U + i] = now->force_N[i] / mass + g * down[i] - across[i];
        along += rates[AT_U + i] * now->air[i];
    }
    if (flight->request->hold == LS_HOLD_EXACT && !flight->recovers) {
        for (int i = 0; i < 3; i++) {
            rates[AT_U + i] += (flight->request->acceleration_m_s2 - along) * now->air[i];
        }
    }
}

/* Velocity over the ground, no wind: the rotation by heading, pitch, bank. */
static void place_rates(const double *y, double *rates)
{
    double sin_b = sin(y[AT_BANK]), cos_b = cos(y[AT_BANK]), sin_t = sin(y[AT_PITCH]), cos_t = cos(y[AT_PITCH]);
    double ahead = y[AT_U] * cos_t + (y[AT_V] * sin_b + y[AT_W] * cos_b) * sin_t;
    double right = y[AT_V] * cos_b - y[AT_W] * sin_b;
    rates[AT_NORTH] = ahead * cos(y[AT_HEADING]) - right * sin(y[AT_HEADING]);
    rates[AT_EAST] = ahead * sin(y[AT_HEADING]) + right * cos(y[AT_HEADING]);
    rates[AT_CLIMBED] = y[AT_U] * sin_t - (y[AT_V] * sin_b + y[AT_W] * cos_b) * cos_t;
}

int ls_motion_rates(double t_s, const double *y, double *rates, void *context)
{
    const ls_flight *flight = context;
    ls_moment now;
    if (ls_motion_moment(flight, t_s, y, &now)) {
        return 1;
    }
    velocity_rates(flight, y, &now, rates);
    turn_rates(flight, y, &now, rates);
    place_rates(y, rates);
    ls_motion_control_rates(flight, y, &now, rates);
    for (int i = 0; i < flight->after.units; i++) {
        rates[BODY_STATES + PROPELLER_STATES * i] = flight->moves[i] ? now.propeller_rate[i][0] : 0.0;
        rates[BODY_STATES + PROPELLER_STATES * i + 1] = flight->moves[i] ? now.propeller_rate[i][1] : 0.0;
    }
    return 0;
}
