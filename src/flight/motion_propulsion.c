/* Engines and propellers while they change: power that decays, governors, feathering. */
#include "airframe/powerplant_sum.h"
#include "flight/motion_parts.h"
#include "prop/turning.h"

#include <math.h>
#include <string.h>

/* The constant-speed unit: blades move in proportion to the error of speed, led by its rate, up to the file's
 * fastest. Full rate at 3 % of error and 0.15 s of lead: own choice, well damped on propellers of the usual
 * inertia. */
#define FULL_RATE_ERROR 0.03
#define LEAD_S          0.15
#define STOP_S          0.05 /* blades come to rest on a stop in this time constant */
#define THROTTLE_S      0.3  /* of a pilot's throttle */

static const double two_pi = 6.28318530717958647692;

static int is_failed(const ls_flight *flight, int unit)
{
    return flight->request->failed >> unit & 1u;
}

double ls_motion_power_left(const ls_flight *flight, int unit, double t_s)
{
    const ls_motion_request *request = flight->request;
    if (is_failed(flight, unit)) {
        const ls_powerplant *powerplant = &flight->after.powerplant[flight->after.unit[unit].powerplant];
        return request->starts_failed || request->is_step ? 0.0 : exp(-t_s / ls_turning_decay(powerplant->data));
    }
    return flight->recovers ? exp(-(t_s - request->recover_s) / THROTTLE_S) : 1.0;
}

/* What a unit goes to, and with which power. */
static ls_engine_state goes_to(const ls_flight *flight, int unit, double *power)
{
    const ls_mounted_engine *after = &flight->after.unit[unit];
    if (is_failed(flight, unit)) {
        *power = after->power;
        return after->state == LS_FEATHERED ? LS_WINDMILLING : after->state;
    }
    *power = flight->before.unit[unit].power * flight->request->recover_power;
    return flight->request->recover_power > 0.0 ? LS_PARTIAL : LS_IDLE;
}

/* A seized engine stops its propeller within a turn or two. */
static double seized_torque(const ls_flight *flight, int unit, const ls_engine_data *engine, double n_rev_s)
{
    if (!is_failed(flight, unit) || flight->request->state != LS_STOPPED) {
        return 0.0;
    }
    return -4.0 * engine->power_W / (two_pi * engine->n_rev_s * engine->gear_ratio) * fmin(1.0, n_rev_s / 4.0);
}

static double pitch_rate(const ls_flight *flight, int unit, const ls_powerplant_data *data, double n_rev_s,
                         double n_dot, double pitch_rad)
{
    const ls_propeller_data *propeller = &data->propeller;
    const ls_transient_data *transient = &data->transient;
    if (is_failed(flight, unit) && flight->feathers && flight->can_feather) {
        double rate = (propeller->feather_pitch_rad - pitch_rad) / STOP_S;
        return fmax(-transient->feather_rad_s, fmin(transient->feather_rad_s, rate));
    }
    int is_aft = is_failed(flight, unit) && flight->request->state == LS_LEVER_AFT;
    double lever_rev_s = ls_turning_lever(data, is_aft);
    double error = (n_rev_s - lever_rev_s + LEAD_S * n_dot) / (FULL_RATE_ERROR * lever_rev_s);
    double rate = transient->pitch_rad_s * fmax(-1.0, fmin(1.0, error));
    rate = fmin(rate, (ls_turning_coarse(propeller) - pitch_rad) / STOP_S);
    return fmax(rate, (propeller->fine_pitch_rad - pitch_rad) / STOP_S);
}

/* A blade-element propeller: loads where it is, and where it goes. */
static void turn(const ls_flight *flight, int unit, double t_s, const double *y, ls_moment *now)
{
    const ls_powerplant *powerplant = &flight->after.powerplant[flight->after.unit[unit].powerplant];
    const ls_propeller_data *propeller = &powerplant->data->propeller;
    const double *at = y + BODY_STATES + PROPELLER_STATES * unit;
    double n_rev_s = fmax(0.0, at[0]), power_after;
    double coarsest = fmax(ls_turning_coarse(propeller), propeller->feather_pitch_rad); /* fmax passes NaN over */
    double pitch_rad = fmax(propeller->fine_pitch_rad, fmin(coarsest, at[1]));
    ls_engine_state state = goes_to(flight, unit, &power_after);
    ls_turning_loads(powerplant, &flight->after.air, now->V_m_s, pitch_rad, n_rev_s, &now->point.unit[unit]);
    double torque = ls_turning_torque(powerplant, &flight->after.air, ls_motion_power_left(flight, unit, t_s),
                                      flight->before.unit[unit].power, state, power_after, n_rev_s) +
                    seized_torque(flight, unit, &powerplant->data->engine, n_rev_s);
    double n_dot = (torque - now->point.unit[unit].torque_Nm) / (two_pi * flight->rotor_kg_m2[unit]);
    now->propeller_rate[unit][0] = at[0] < 0.0 ? -at[0] : n_dot;
    now->propeller_rate[unit][1] = pitch_rate(flight, unit, powerplant->data, n_rev_s, n_dot, at[1]);
}

static ls_propulsor_point blend(double share, const ls_propulsor_point *from, const ls_propulsor_point *to)
{
    double rest = 1.0 - share;
    ls_propulsor_point out = *to;
    out.thrust_N = share * from->thrust_N + rest * to->thrust_N;
    out.torque_Nm = share * from->torque_Nm + rest * to->torque_Nm;
    out.normal_N = share * from->normal_N + rest * to->normal_N;
    out.side_N = share * from->side_N + rest * to->side_N;
    out.hub_first_Nm = share * from->hub_first_Nm + rest * to->hub_first_Nm;
    out.hub_second_Nm = share * from->hub_second_Nm + rest * to->hub_second_Nm;
    out.wake_m_s = share * from->wake_m_s + rest * to->wake_m_s;
    out.swirl_rad = share * from->swirl_rad + rest * to->swirl_rad;
    out.offset_m = share * from->offset_m + rest * to->offset_m;
    return out;
}

/* A unit without states passes from its settled loads before to those after, as its power does; a handbook
 * propeller feathers in the time in which blades turn through 60 deg. */
static int pass_over(const ls_flight *flight, int unit, double t_s, ls_moment *now)
{
    const ls_model *model = &flight->after;
    const ls_powerplant *powerplant = &model->powerplant[model->unit[unit].powerplant];
    double power_after, share = ls_motion_power_left(flight, unit, t_s);
    ls_engine_state state = goes_to(flight, unit, &power_after);
    ls_propulsor_point before = {0}, after = {0}, feathered = {0};
    if (state == LS_IDLE && !is_failed(flight, unit)) {
        state = LS_ZERO_THRUST; /* neither handbook data nor a jet's know an idle */
    }
    if ((share > 0.0 && ls_propulsor_at(powerplant, LS_RUNNING, flight->before.unit[unit].power, &model->air,
                                        now->V_m_s, &before, NULL) != LS_OK) ||
        (share < 1.0 &&
         ls_propulsor_at(powerplant, state, power_after, &model->air, now->V_m_s, &after, NULL) != LS_OK)) {
        return 1;
    }
    if (is_failed(flight, unit) && flight->feathers && flight->can_feather) {
        double done = flight->request->starts_failed || flight->request->is_step
                          ? 1.0
                          : (t_s - ls_motion_feather_time(flight)) * powerplant->data->transient.feather_rad_s /
                                (two_pi / 6.0);
        if (ls_propulsor_at(powerplant, LS_FEATHERED, 0.0, &model->air, now->V_m_s, &feathered, NULL) != LS_OK) {
            return 1;
        }
        after = blend(1.0 - fmin(1.0, fmax(0.0, done)), &after, &feathered);
    }
    now->point.unit[unit] = blend(share, &before, &after);
    return 0;
}

/* The part that the derivatives hold already, as it was at the start but for the dynamic pressure. */
static void take_out_included(const ls_flight *flight, ls_powerplant_point *point)
{
    double ratio = point->V_m_s / flight->request->V_m_s, q_ratio = ratio * ratio;
    point->force_u_N[1][1] += q_ratio * flight->included.force_u_N[1][1];
    point->moment_u_Nm[0][1] += q_ratio * flight->included.moment_u_Nm[0][1];
    point->moment_u_Nm[2][1] += q_ratio * flight->included.moment_u_Nm[2][1];
}

int ls_motion_propulsion(const ls_flight *flight, double t_s, const double *y, ls_moment *now)
{
    const ls_model *model = &flight->after;
    memset(&now->point, 0, sizeof now->point);
    now->point.V_m_s = now->V_m_s;
    if (flight->request->loads != NULL) {
        return model->loads(model, now->V_m_s, &now->point, NULL) != LS_OK;
    }
    for (int i = 0; i < model->units; i++) {
        now->propeller_rate[i][0] = now->propeller_rate[i][1] = 0.0;
        if (flight->moves[i]) {
            turn(flight, i, t_s, y, now);
        } else if (pass_over(flight, i, t_s, now)) {
            return 1;
        }
    }
    ls_powerplant_sum(model, &now->point);
    if (flight->has_included) {
        take_out_included(flight, &now->point);
    }
    return 0;
}
