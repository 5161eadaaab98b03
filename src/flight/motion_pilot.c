/* The simple pilot: heading with rudder, bank with aileron, within travel, force and rates; and the hold of the
 * nose.
 *
 * Signs by hand: heading too far right (positive) needs the nose to go left: trailing edge left, rudder positive.
 * Right wing too low (positive) needs a roll to the left: aileron negative. */
#include "flight/motion_parts.h"
#include "flight/pedal.h"

#include <math.h>

#define SURFACE_S   0.05  /* a surface follows the pilot's wish with this time constant, below its fastest rate */
#define WIND_UP     0.035 /* rad, 2 deg: beyond a stop, trimming has faded out here */
#define PITCH_GAIN  2.0   /* rate of pitch per error of attitude, 1/s */
#define PITCH_LIMIT 0.26  /* rad/s, 15 deg/s */
#define SPEED_GAIN  0.02  /* rad per m/s: 0.6 deg of attitude for each knot */
#define STEEPEST    0.5   /* sine of the path that the hold may ask for */

static double within(double value, double low, double high)
{
    return value < low ? low : value > high ? high : value;
}

static double aileron_wanted(const ls_flight *flight, const double *y)
{
    const ls_aircraft *aircraft = flight->after.aircraft;
    double error = y[AT_BANK] - flight->request->bank_rad;
    double wanted = flight->trim.aileron_rad - aircraft->pilot.bank_gain * error -
                    aircraft->pilot.bank_damping_s * y[AT_P] + y[AT_BANK_TRIM];
    return flight->acts ? wanted : flight->trim.aileron_rad;
}

static double rudder_wanted(const ls_flight *flight, const double *y, const ls_moment *now)
{
    const ls_aircraft *aircraft = flight->after.aircraft;
    double error = y[AT_HEADING] - flight->heading_hold_rad;
    double wanted = flight->trim.rudder_rad + aircraft->pilot.heading_gain * error +
                    aircraft->pilot.heading_damping_s * now->turn_rad_s + y[AT_HEADING_TRIM];
    return flight->acts ? wanted : flight->trim.rudder_rad;
}

void ls_motion_controls(const ls_flight *flight, const double *y, ls_moment *now)
{
    const ls_model *model = &flight->after;
    double fin_rad = now->beta_rad * model->aircraft->fin.sidewash + now->point.fin_rad;
    ls_pedal_range(model, now->q_Pa, fin_rad, &now->rudder_low_rad, &now->rudder_high_rad);
    now->rudder_wanted_rad = rudder_wanted(flight, y, now);
    if (flight->request->instant_controls && flight->acts) {
        now->rudder_rad = within(now->rudder_wanted_rad, now->rudder_low_rad, now->rudder_high_rad);
        now->aileron_rad = within(aileron_wanted(flight, y), -model->aileron_rad, model->aileron_rad);
    } else {
        now->rudder_rad = y[AT_RUDDER];
        now->aileron_rad = y[AT_AILERON];
    }
}

/* Less and less is trimmed in beyond a stop, but freely out of it. Fading, for a switch would chatter. */
static double trim_rate(double wanted, double low, double high, double rate)
{
    double beyond = rate > 0.0 ? wanted - high : low - wanted;
    return rate * within(1.0 - beyond / WIND_UP, 0.0, 1.0);
}

void ls_motion_control_rates(const ls_flight *flight, const double *y, const ls_moment *now, double *rates)
{
    const ls_aircraft *aircraft = flight->after.aircraft;
    double aileron = aileron_wanted(flight, y), travel = flight->after.aileron_rad;
    double rudder = within(now->rudder_wanted_rad, now->rudder_low_rad, now->rudder_high_rad);
    rates[AT_RUDDER] =
        within((rudder - y[AT_RUDDER]) / SURFACE_S, -aircraft->pilot.rudder_rad_s, aircraft->pilot.rudder_rad_s);
    rates[AT_AILERON] = within((within(aileron, -travel, travel) - y[AT_AILERON]) / SURFACE_S,
                               -aircraft->pilot.aileron_rad_s, aircraft->pilot.aileron_rad_s);
    rates[AT_HEADING_TRIM] = rates[AT_BANK_TRIM] = 0.0;
    if (!flight->acts) {
        rates[AT_RUDDER] = rates[AT_AILERON] = 0.0; /* the pilot's hands and feet keep still */
        return;
    }
    double heading =
        aircraft->pilot.heading_gain / aircraft->pilot.heading_trim_s * (y[AT_HEADING] - flight->heading_hold_rad);
    double bank =
        -aircraft->pilot.bank_gain / aircraft->pilot.bank_trim_s * (y[AT_BANK] - flight->request->bank_rad);
    rates[AT_HEADING_TRIM] = trim_rate(now->rudder_wanted_rad, now->rudder_low_rad, now->rudder_high_rad, heading);
    rates[AT_BANK_TRIM] = trim_rate(aileron, -travel, travel, bank);
}

/* The incidence at which lift would balance the weight; the present one when it does. */
static double level_incidence(const ls_flight *flight, const double *y, const ls_moment *now)
{
    double missing_N = flight->after.weight_N * cos(y[AT_PITCH]) * cos(y[AT_BANK]) + now->force_N[2];
    double slope_N = now->q_Pa * flight->after.S_m2 * flight->after.lift_slope;
    return now->alpha_rad + within(missing_N / slope_N, -0.2, 0.2);
}

/* The attitude at which the path is the one that the power left holds at a speed changing as asked: sin(path) =
 * F.u/W - a/g, and sin(path) = u sin(theta) - (v sin(phi) + w cos(phi)) cos(theta) for the unit velocity (u, v,
 * w). */
static double balanced_pitch(const ls_flight *flight, const double *y, const ls_moment *now)
{
    double along_N = 0.0, alpha_rad = level_incidence(flight, y, now);
    for (int i = 0; i < 3; i++) {
        along_N += now->force_N[i] * now->air[i];
    }
    double sine = along_N / flight->after.weight_N - flight->request->acceleration_m_s2 / LS_G0_M_S2;
    double ahead = cos(alpha_rad) * cos(now->beta_rad);
    double across = now->air[1] * sin(y[AT_BANK]) + sin(alpha_rad) * cos(now->beta_rad) * cos(y[AT_BANK]);
    double reach = hypot(ahead, across);
    return asin(within(within(sine, -STEEPEST, STEEPEST) / reach, -1.0, 1.0)) + atan2(across, ahead);
}

double ls_motion_pitch_wanted(const ls_flight *flight, const double *y, const ls_moment *now)
{
    const ls_motion_request *request = flight->request;
    double theta = flight->trim.theta_rad, cos_bank = cos(y[AT_BANK]);
    if (flight->recovers) {
        theta = request->recover_pitch_rad;
    } else if (request->hold == LS_HOLD_EXACT) {
        theta = balanced_pitch(flight, y, now);
    } else if (request->hold == LS_HOLD_AIRSPEED && flight->acts) {
        theta = balanced_pitch(flight, y, now) + SPEED_GAIN * (now->V_m_s - request->V_m_s);
    }
    double climb_rate = within(PITCH_GAIN * (theta - y[AT_PITCH]), -PITCH_LIMIT, PITCH_LIMIT);
    return (climb_rate + y[AT_R] * sin(y[AT_BANK])) / fmax(0.3, cos_bank); /* theta' = q cos(phi) - r sin(phi) */
}
