/* A point as the model sees it. */
#include "study/reduce_parts.h"

#include "num/curve.h"

#include <math.h>
#include <string.h>

static const double two_pi = 6.28318530717958647692;

/* ---- the condition ---- */

/* In the order of ls_engine_state. */
static const char *const state_words[] = {"windmilling", "feathered", "stopped",    "partial",
                                          "lever-aft",   "idle",      "zero-thrust"};
enum { STATE_WORDS = sizeof state_words / sizeof state_words[0] };

static unsigned side_set(const ls_aircraft *aircraft, int side)
{
    unsigned set = 0;
    for (int i = 0; i < aircraft->engines; i++) {
        set |= side * aircraft->engine[i].hub_right_m > 0.0 ? 1u << i : 0u;
    }
    return set;
}

/* The engines of "left", "left outer+left inner", ...; 0 when one is not known. */
static unsigned failed_set(const ls_aircraft *aircraft, const char *text)
{
    unsigned set = 0;
    while (*text != '\0') {
        char name[LS_POINT_WORD];
        size_t length = strcspn(text, "+");
        memcpy(name, text, length);
        name[length] = '\0';
        int engine = ls_engine_find(aircraft, name);
        unsigned found = engine >= 0                  ? 1u << engine
                         : strcmp(name, "left") == 0  ? side_set(aircraft, -1)
                         : strcmp(name, "right") == 0 ? side_set(aircraft, +1)
                                                      : 0u;
        if (found == 0u) {
            return 0u;
        }
        set |= found;
        text += length + (text[length] == '+');
    }
    return set;
}

int ls_point_state(const char *word)
{
    for (int i = 0; i < STATE_WORDS; i++) {
        if (strcmp(word, state_words[i]) == 0) {
            return LS_WINDMILLING + i;
        }
    }
    return -1;
}

const char *ls_point_state_word(int state)
{
    return state >= LS_WINDMILLING && state < LS_WINDMILLING + STATE_WORDS ? state_words[state - LS_WINDMILLING]
                                                                           : "";
}

const char *ls_reduce_condition(const ls_aircraft *aircraft, const ls_point *point, ls_condition *condition)
{
    unsigned failed = failed_set(aircraft, point->failed);
    ls_condition_takeoff(aircraft, condition);
    if (failed == 0u) {
        return "no engine of that name in the aeroplane file";
    }
    if (point->propeller[0] == '\0') {
        ls_condition_fail(aircraft, failed, condition);
    } else {
        ls_condition_fail_as(aircraft, failed, (ls_engine_state)ls_point_state(point->propeller), condition);
    }
    if (point->flap[0] != '\0') {
        condition->flap = ls_flap_find(aircraft, point->flap);
        if (condition->flap < 0) {
            return "no flap setting of that name in the aeroplane file";
        }
    }
    condition->gear = strcmp(point->gear, "down") == 0;
    condition->altitude_m = point->altitude_m;
    condition->isa_offset_K = point->T_K - ls_air_standard_temperature(point->altitude_m);
    condition->mass_kg = point->mass_kg;
    condition->cg_aft_m = isnan(point->cg_aft_m) ? aircraft->cg.reference_m : point->cg_aft_m;
    condition->cg_right_m = isnan(point->cg_right_m) ? 0.0 : point->cg_right_m;
    condition->bank_rad = point->bank_rad;
    return ls_live_side(aircraft, condition) == 0 ? "the thrust is symmetric: no side is the live one" : NULL;
}

/* ---- power ---- */

/* Manifold pressure of a piston engine at full throttle. */
static double full_map(const ls_powerplant *powerplant, const ls_air *air)
{
    const ls_engine_data *engine = &powerplant->data->engine;
    int is_held = engine->critical_altitude_m > 0.0 && air->h_m < engine->critical_altitude_m;
    return is_held ? engine->map_Pa : engine->map_Pa * air->p_Pa / powerplant->reference_p_Pa;
}

/* The share of the available power that a live engine gave, from torque and speed, or from manifold pressure
 * (indicated power goes with it, friction stays); 1 when neither was read. */
static double power_share(const ls_model *model, const ls_point *point)
{
    const ls_powerplant *powerplant = NULL;
    for (int i = 0; i < model->units; i++) {
        if (model->unit[i].state == LS_RUNNING) {
            powerplant = &model->powerplant[model->unit[i].powerplant];
        }
    }
    if (powerplant == NULL || powerplant->data->engine.type == LS_ENGINE_JET) {
        return 1.0;
    }
    const ls_engine_data *engine = &powerplant->data->engine;
    double available_W = ls_powerplant_power(powerplant, &model->air);
    if (!isnan(point->torque_Nm) && !isnan(point->n_rev_s)) {
        return two_pi * point->n_rev_s * point->torque_Nm / available_W;
    }
    if (!isnan(point->map_Pa) && engine->type == LS_ENGINE_PISTON) {
        double friction = engine->friction_share, brake = available_W / engine->power_W;
        return ((brake + friction) * point->map_Pa / full_map(powerplant, &model->air) - friction) / brake;
    }
    return 1.0;
}

/* ---- flying it ---- */

double ls_reduce_effective(const ls_model *model, double rudder_rad)
{
    if (model->rudder_effect.table.rows == 0) {
        return rudder_rad;
    }
    return copysign(ls_curve_at(&model->rudder_effect, fabs(rudder_rad)).value, rudder_rad);
}

double ls_reduce_travel(const ls_model *model, int live_side)
{
    const ls_aircraft *aircraft = model->aircraft;
    return ls_reduce_effective(model, live_side > 0 ? aircraft->rudder.right_rad : aircraft->rudder.left_rad);
}

const char *ls_reduce_fly(const ls_aircraft *aircraft, const ls_point *point, const ls_condition *condition,
                          ls_flown *flown)
{
    if (ls_model_make(aircraft, condition, &flown->model, NULL) != LS_OK) {
        return "the air of that altitude and temperature is outside the atmosphere's model";
    }
    if (ls_airspeed_from_cas(&flown->model.air, point->cas_m_s, &flown->speed, NULL) != LS_OK) {
        return "no such airspeed";
    }
    double power = power_share(&flown->model, point);
    if (!(power > 0.05 && power < 1.15)) {
        return power < 0.5 ? "the live engine gives no power by these instruments"
                           : "more power by these instruments than the engine has there";
    }
    flown->model.condition.power = power;
    for (int i = 0; i < flown->model.units; i++) {
        ls_mounted_engine *unit = &flown->model.unit[i];
        unit->power = unit->state == LS_PARTIAL ? condition->partial * power : power;
    }
    if (ls_powerplant_at(&flown->model, flown->speed.TAS_m_s, &flown->loads, NULL) != LS_OK) {
        return "the aeroplane file has no data for that propeller state";
    }
    flown->live_side = ls_live_side(aircraft, condition);
    flown->bank_rad = point->bank_rad * flown->live_side;
    flown->rudder_rad = -flown->live_side * ls_reduce_effective(&flown->model, point->rudder_rad);
    flown->beta_rad = point->beta_rad;
    flown->aileron_rad = point->aileron_rad;
    flown->force_N = point->force_N;
    return NULL;
}

double ls_reduce_rudder(const ls_model *model, const ls_flown *flown, const ls_trim *start, ls_trim *trim)
{
    if (ls_trim_at(model, &flown->loads, flown->bank_rad * flown->live_side, start, trim) != LS_OK) {
        return NAN;
    }
    return -flown->live_side * ls_reduce_effective(model, trim->rudder_rad);
}

void ls_reduce_scale(ls_model *model, const double scale[LS_SCALES])
{
    model->derivatives.side_rudder *= scale[LS_SCALE_RUDDER];
    model->derivatives.roll_rudder *= scale[LS_SCALE_RUDDER];
    model->derivatives.yaw_rudder *= scale[LS_SCALE_RUDDER];
    model->derivatives.yaw_sideslip *= scale[LS_SCALE_SIDESLIP];
}

void ls_reduce_propulsion(const ls_model *model, const ls_powerplant_point *loads, double alpha_rad,
                          double beta_rad, double force_N[3], double moment_Nm[3])
{
    double u[3] = {cos(alpha_rad) * cos(beta_rad), sin(beta_rad), sin(alpha_rad) * cos(beta_rad)};
    double from_zero_rad = alpha_rad + model->lift_zero / model->lift_slope;
    const double *wash = loads->wash_arm_Nm;
    double arm_Nm = wash[0] + (wash[1] + wash[2] * alpha_rad) * alpha_rad; /* left wing down, stability axes */
    for (int i = 0; i < 3; i++) {
        force_N[i] = loads->force0_N[i] + loads->upwash_force_N[i] * from_zero_rad;
        moment_Nm[i] = loads->moment0_Nm[i] + loads->upwash_moment_Nm[i] * from_zero_rad;
        for (int j = 0; j < 3; j++) {
            force_N[i] += loads->force_u_N[i][j] * u[j];
            moment_Nm[i] += loads->moment_u_Nm[i][j] * u[j];
        }
    }
    moment_Nm[0] -= arm_Nm * cos(alpha_rad);
    moment_Nm[2] -= arm_Nm * sin(alpha_rad);
}

double ls_reduce_coefficient(const ls_model *model, const ls_powerplant_point *loads, const ls_trim *trim,
                             int live_side)
{
    double force_N[3], moment_Nm[3];
    ls_reduce_propulsion(model, loads, trim->alpha_rad, trim->beta_rad, force_N, moment_Nm);
    double q_Pa = 0.5 * model->air.rho_kg_m3 * loads->V_m_s * loads->V_m_s;
    return -live_side * moment_Nm[2] / (q_Pa * model->S_m2 * model->b_m);
}

double ls_reduce_bank_part(const ls_model *model, double V_m_s, double bank_rad, double slope)
{
    double q_Pa = 0.5 * model->air.rho_kg_m3 * V_m_s * V_m_s;
    return slope * model->weight_N * sin(bank_rad) / (q_Pa * model->S_m2);
}
