/* The start of a motion: the trim before the failure, and everything that is the same all the way. */
#include "airframe/powerplant_sum.h"
#include "flight/motion_parts.h"
#include "prop/turning.h"

#include <math.h>
#include <string.h>

void ls_motion_usual(const ls_aircraft *aircraft, const ls_condition *condition, unsigned failed, double V_m_s,
                     ls_motion_request *request)
{
    int first = 0;
    while (first + 1 < aircraft->engines && !(failed >> first & 1u)) {
        first++;
    }
    *request = (ls_motion_request){
        .condition = *condition,
        .failed = failed,
        .state = ls_engine_state_after_failure(&aircraft->powerplant[aircraft->engine[first].powerplant]),
        .V_m_s = V_m_s,
        .hold = LS_HOLD_AIRSPEED,
        .delay_s = 1.0,
        .feather_s = INFINITY,
        .recover_s = INFINITY,
        .recover_pitch_rad = -0.15,
        .height_m = INFINITY,
        .duration_s = 30.0,
    };
}

static ls_status make_models(const ls_aircraft *aircraft, const ls_motion_request *request, ls_flight *flight,
                             ls_error *error)
{
    ls_condition condition = request->condition;
    for (int i = 0; i < aircraft->engines; i++) {
        if (condition.state[i] != LS_RUNNING) {
            return ls_fail(error, LS_NO_STATE, "a motion starts with every engine running");
        }
    }
    if (request->state == LS_ZERO_THRUST || request->state == LS_RUNNING) {
        return ls_fail(error, LS_NO_STATE, "an engine does not go by itself to the state: %s",
                       ls_engine_state_name(request->state));
    }
    ls_status status = ls_model_make(aircraft, &condition, &flight->before, error);
    ls_condition_fail_as(aircraft, request->failed, request->state, &condition);
    status = status == LS_OK ? ls_model_make(aircraft, &condition, &flight->after, error) : status;
    if (status == LS_OK && request->loads != NULL) {
        flight->before.loads = flight->after.loads = request->loads;
    }
    return status;
}

/* What ls_powerplant_at takes out of the sum of the units. */
static ls_status set_included(const ls_aircraft *aircraft, ls_flight *flight, ls_error *error)
{
    ls_powerplant_point whole, sum = {0};
    flight->has_included = aircraft->included != LS_INCLUDE_NONE && flight->request->loads == NULL;
    if (!flight->has_included) {
        return LS_OK;
    }
    ls_status status = ls_powerplant_at(&flight->before, flight->request->V_m_s, &whole, error);
    memcpy(sum.unit, whole.unit, sizeof sum.unit);
    if (status == LS_OK) {
        ls_powerplant_sum(&flight->before, flight->request->V_m_s, NULL, &sum);
        flight->included.force_u_N[1][1] = whole.force_u_N[1][1] - sum.force_u_N[1][1];
        flight->included.moment_u_Nm[0][1] = whole.moment_u_Nm[0][1] - sum.moment_u_Nm[0][1];
        flight->included.moment_u_Nm[2][1] = whole.moment_u_Nm[2][1] - sum.moment_u_Nm[2][1];
    }
    return status;
}

/* Where each propeller starts: settled before the failure, or after it. */
static ls_status start_propellers(ls_flight *flight, double *y, ls_error *error)
{
    const ls_motion_request *request = flight->request;
    for (int i = 0; i < flight->after.units && request->loads == NULL; i++) {
        int is_over = (request->failed >> i & 1u) && (request->starts_failed || request->is_step);
        const ls_model *model = is_over ? &flight->after : &flight->before;
        const ls_mounted_engine *unit = &model->unit[i];
        const ls_powerplant *powerplant = &model->powerplant[unit->powerplant];
        ls_propulsor_point point;
        ls_status status =
            ls_propulsor_at(powerplant, unit->state, unit->power, &model->air, request->V_m_s, &point, error);
        if (status != LS_OK) {
            return status;
        }
        flight->moves[i] = powerplant->data->engine.type != LS_ENGINE_JET &&
                           powerplant->data->propeller.kind == LS_PROPELLER_BLADE_ELEMENT;
        flight->rotor_kg_m2[i] = flight->moves[i] ? ls_turning_inertia(powerplant->data) : 0.0;
        y[BODY_STATES + PROPELLER_STATES * i] = point.n_rev_s;
        y[BODY_STATES + PROPELLER_STATES * i + 1] = point.pitch_rad;
    }
    return LS_OK;
}

static ls_status trim_start(ls_flight *flight, ls_error *error)
{
    const ls_motion_request *request = flight->request;
    const ls_model *model = request->starts_failed ? &flight->after : &flight->before;
    double bank_rad = request->starts_failed ? request->bank_rad : 0.0;
    ls_error why = {0};
    ls_status status = ls_trim_solve(model, request->V_m_s, bank_rad, &flight->trim, &why);
    int is_slow = status == LS_NOT_CONVERGED && request->V_m_s < 0.9 * model->stall_V_m_s; /* far below: no trim */
    if (is_slow || (status == LS_OK && flight->trim.lift_coefficient >= model->lift_max)) {
        return ls_fail(error, LS_NO_STATE, "the wing is stalled at the speed of the start, %.1f kt true",
                       request->V_m_s * 3600.0 / 1852.0);
    }
    return status == LS_OK ? LS_OK : ls_fail(error, status, "%s", why.text);
}

static void set_state(ls_flight *flight, double *y)
{
    const ls_motion_request *request = flight->request;
    const ls_trim *trim = &flight->trim;
    double beta_rad = trim->beta_rad + request->nudge[0];
    y[AT_U] = request->V_m_s * cos(trim->alpha_rad) * cos(beta_rad);
    y[AT_V] = request->V_m_s * sin(beta_rad);
    y[AT_W] = request->V_m_s * sin(trim->alpha_rad) * cos(beta_rad);
    y[AT_P] = request->nudge[1];
    y[AT_R] = request->nudge[2];
    y[AT_BANK] = trim->bank_rad;
    y[AT_PITCH] = trim->theta_rad;
    y[AT_RUDDER] = trim->rudder_rad;
    y[AT_AILERON] = trim->aileron_rad;
}

ls_status ls_motion_prepare(const ls_aircraft *aircraft, const ls_motion_request *request, ls_flight *flight,
                            double *y, ls_error *error)
{
    memset(flight, 0, sizeof *flight);
    memset(y, 0, STATES_MAX * sizeof *y);
    flight->request = request;
    ls_status status = make_models(aircraft, request, flight, error);
    status = status == LS_OK ? set_included(aircraft, flight, error) : status;
    status = status == LS_OK ? start_propellers(flight, y, error) : status;
    if (status == LS_OK) {
        const ls_inertia *I = &flight->inertia;
        flight->inertia = ls_inertia_of(aircraft, request->condition.mass_kg);
        flight->delta_kg2_m4 = I->xx_kg_m2 * I->zz_kg_m2 - I->xz_kg_m2 * I->xz_kg_m2;
    }
    return status;
}

ls_status ls_motion_start(const ls_aircraft *aircraft, const ls_motion_request *request, ls_flight *flight,
                          double *y, ls_error *error)
{
    ls_status status = ls_motion_prepare(aircraft, request, flight, y, error);
    status = status == LS_OK ? trim_start(flight, error) : status;
    if (status == LS_OK) {
        flight->rates = ls_rates_of(&flight->before, flight->trim.lift_coefficient);
        set_state(flight, y);
    }
    return status;
}

int ls_motion_first_failed(const ls_flight *flight)
{
    for (int i = 0; i < flight->after.units; i++) {
        if (flight->request->failed >> i & 1u) {
            return i;
        }
    }
    return -1;
}

static const ls_powerplant_data *data_of(const ls_flight *flight, int unit)
{
    return flight->after.powerplant[flight->after.unit[unit].powerplant].data;
}

double ls_motion_feather_time(const ls_flight *flight)
{
    const ls_motion_request *request = flight->request;
    int failed = ls_motion_first_failed(flight);
    if (request->state != LS_FEATHERED || isfinite(request->feather_s) || failed < 0) {
        return request->feather_s;
    }
    int is_over = request->starts_failed || request->is_step;
    return is_over ? 0.0 : data_of(flight, failed)->transient.feather_delay_s;
}

void ls_motion_begin_feathering(ls_flight *flight, const double *y, double *rev_s, int *latched)
{
    int failed = ls_motion_first_failed(flight);
    int is_over = flight->request->starts_failed || flight->request->is_step;
    *rev_s = NAN;
    *latched = 0;
    flight->feathers = 1;
    if (failed < 0) {
        return;
    }
    const ls_propeller_data *propeller = &data_of(flight, failed)->propeller;
    flight->can_feather = propeller->feathering != LS_FEATHERS_NEVER;
    if (flight->moves[failed]) {
        *rev_s = y[BODY_STATES + PROPELLER_STATES * failed];
        *latched = !is_over && *rev_s < propeller->feather_latch_rev_s;
        flight->can_feather &= !isnan(propeller->feather_pitch_rad) && !*latched;
    }
}
