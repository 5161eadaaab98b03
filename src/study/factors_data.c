/* What is taught, and the steps. */
#include "study/factors_parts.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define DEG    (3.14159265358979323846 / 180.0)
#define FT     0.3048
#define COMMON "common practice"
#define AFH    "FAA-H-8083-3C, ch. 13"

static const double altitude_step_m = 4000.0 * FT, hot_K = 20.0, less_power = 0.9, five_rad = 5.0 * DEG;
static const double turbo_altitude_m = 8000.0 * FT, turbo_holds_m = 12000.0 * FT;

static const ls_factor_row rows[LS_FACTORS] = {
    [LS_FACTOR_POWER] = {"live power", LS_TAUGHT_LOWER, LS_TAUGHT_LOWER, COMMON, NULL},
    [LS_FACTOR_ALTITUDE] = {"density altitude", LS_TAUGHT_LOWER, LS_TAUGHT_LOWER, COMMON, NULL},
    [LS_FACTOR_TEMPERATURE] = {"temperature", LS_TAUGHT_LOWER, LS_TAUGHT_LOWER, COMMON, NULL},
    [LS_FACTOR_WEIGHT_LEVEL] = {"weight level", LS_TAUGHT_SAME, LS_TAUGHT_LOWER, COMMON, NULL},
    [LS_FACTOR_WEIGHT_BANKED] = {"weight at 5 deg", LS_TAUGHT_LOWER, LS_TAUGHT_LOWER, COMMON, NULL},
    [LS_FACTOR_CG] = {"centre of gravity", LS_TAUGHT_HIGHER, LS_TAUGHT_NOTHING, COMMON, NULL},
    [LS_FACTOR_BANK_TOWARD] = {"bank toward live", LS_TAUGHT_LOWER, LS_TAUGHT_NOTHING, AFH, NULL},
    [LS_FACTOR_BANK_AWAY] = {"bank toward dead", LS_TAUGHT_HIGHER, LS_TAUGHT_LOWER, AFH, NULL},
    [LS_FACTOR_FLAP] = {"flap", LS_TAUGHT_LOWER, LS_TAUGHT_LOWER, COMMON, NULL},
    [LS_FACTOR_GEAR] = {"gear", LS_TAUGHT_LOWER, LS_TAUGHT_LOWER, COMMON,
                        "the file gives its drag, not what it does to the yaw"},
    [LS_FACTOR_FEATHERED] = {"windmilling", LS_TAUGHT_LOWER, LS_TAUGHT_HIGHER, AFH, NULL},
    [LS_FACTOR_STOPPED] = {"windmilling", LS_TAUGHT_LOWER, LS_TAUGHT_HIGHER, COMMON, NULL},
    [LS_FACTOR_LEVER_AFT] = {"lever aft", LS_TAUGHT_LOWER, LS_TAUGHT_HIGHER, COMMON, NULL},
    [LS_FACTOR_GROUND] = {"ground effect", LS_TAUGHT_LOWER, LS_TAUGHT_HIGHER, COMMON,
                          "no key of the file describes it"},
    [LS_FACTOR_COWL_FLAPS] = {"cowl flaps", LS_TAUGHT_LOWER, LS_TAUGHT_LOWER, COMMON,
                              "the file gives the drag of them all, on no side"},
    [LS_FACTOR_OTHER_ENGINE] = {"other engine dead", LS_TAUGHT_LOWER, LS_TAUGHT_NOTHING, AFH, NULL},
    [LS_FACTOR_TURBOCHARGED] = {"turbocharged", LS_TAUGHT_HIGHER, LS_TAUGHT_HIGHER, COMMON, NULL},
};

const ls_factor_row *ls_factor(ls_factor_kind kind)
{
    return (unsigned)kind < LS_FACTORS ? &rows[kind] : NULL;
}

static void say(ls_factor_result *result, ls_factor_state state, const char *reason)
{
    result->vmc_state = result->climb_state = state;
    snprintf(result->reason, sizeof result->reason, "%.*s", (int)sizeof result->reason - 1, reason);
}

static void numbers(ls_factor_result *result, ls_dimension dimension, double from, double to)
{
    result->dimension = dimension;
    result->from = from;
    result->to = to;
}

static void words(ls_factor_result *result, const char *from, const char *to)
{
    snprintf(result->step, sizeof result->step, "%.35s to %.35s", from, to);
}

static int first_engine(unsigned set)
{
    int first = 0;
    while (!(set >> first & 1u)) {
        first++;
    }
    return first;
}

static const ls_powerplant_data *dead_powerplant(const ls_aircraft *aircraft, unsigned failed)
{
    return &aircraft->powerplant[aircraft->engine[first_engine(failed)].powerplant];
}

static void set_air(ls_factor_kind kind, ls_factor_end *from, ls_factor_end *to, ls_factor_result *result)
{
    if (kind == LS_FACTOR_ALTITUDE) {
        to->condition.altitude_m = fmin(LS_AIR_H_MAX_M, from->condition.altitude_m + altitude_step_m);
        numbers(result, LS_DIM_ALTITUDE, from->condition.altitude_m, to->condition.altitude_m);
    } else {
        to->condition.isa_offset_K += hot_K;
        numbers(result, LS_DIM_TEMPERATURE_DIFFERENCE, from->condition.isa_offset_K, to->condition.isa_offset_K);
    }
}

static void set_loading(ls_factor_kind kind, ls_factor_end *from, ls_factor_end *to, ls_factor_result *result)
{
    const ls_aircraft *aircraft = &from->aircraft;
    if (kind == LS_FACTOR_CG) {
        from->condition.cg_aft_m = aircraft->cg.forward_m;
        to->condition.cg_aft_m = aircraft->cg.aft_m;
        numbers(result, LS_DIM_LENGTH, from->condition.cg_aft_m, to->condition.cg_aft_m);
        return;
    }
    from->condition.mass_kg = aircraft->mass.minimum_kg;
    to->condition.mass_kg = aircraft->mass.maximum_kg;
    from->bank_rad = to->bank_rad = kind == LS_FACTOR_WEIGHT_BANKED ? five_rad : 0.0;
    numbers(result, LS_DIM_MASS, from->condition.mass_kg, to->condition.mass_kg);
}

static void set_bank(ls_factor_kind kind, ls_factor_end *from, ls_factor_end *to, ls_factor_result *result)
{
    from->bank_rad = 0.0;
    to->bank_rad = kind == LS_FACTOR_BANK_TOWARD ? five_rad : -five_rad;
    from->fixed_bank = to->fixed_bank = 1;
    words(result, "level", "5 deg");
}

int ls_factor_less_flap(int flap)
{
    return flap > 0 ? flap - 1 : 0;
}

static void set_configuration(ls_factor_kind kind, ls_factor_end *from, ls_factor_end *to,
                              ls_factor_result *result)
{
    const ls_aircraft *aircraft = &from->aircraft;
    if (kind == LS_FACTOR_GEAR) {
        from->condition.gear = 0.0;
        result->climb_state = aircraft->gear.drag > 0.0 ? LS_FACTOR_COMPUTED : LS_FACTOR_NO_DATA;
        to->condition.gear = 1.0;
        words(result, "up", "down");
    } else if (kind == LS_FACTOR_COWL_FLAPS) {
        from->condition.cowl_flaps = 0.0;
        result->climb_state = aircraft->drag.cowl_flaps > 0.0 ? LS_FACTOR_COMPUTED : LS_FACTOR_NO_DATA;
        to->condition.cowl_flaps = 1.0;
        words(result, "closed", "open");
    } else if (aircraft->flaps < 2) {
        snprintf(result->step, sizeof result->step, "one setting");
        say(result, LS_FACTOR_NO_DATA, "the file has one flap setting");
    } else {
        int less = ls_factor_less_flap(from->condition.flap);
        from->condition.flap = less;
        to->condition.flap = less + 1;
        words(result, aircraft->flap[less].name, aircraft->flap[less + 1].name);
    }
}

/* From windmilling; a jet has no propeller, and a file may lack the data of a state. */
static void set_propeller(ls_factor_kind kind, const ls_factors *factors, ls_factor_end *from, ls_factor_end *to,
                          ls_factor_result *result)
{
    static const ls_engine_state states[] = {LS_FEATHERED, LS_STOPPED, LS_LEVER_AFT};
    const ls_powerplant_data *powerplant = dead_powerplant(&from->aircraft, factors->failed);
    ls_engine_state state = states[kind - LS_FACTOR_FEATHERED];
    ls_model model;
    ls_powerplant_point point;
    ls_error error = {0};
    ls_condition_fail_as(&from->aircraft, factors->failed, LS_WINDMILLING, &from->condition);
    ls_condition_fail_as(&to->aircraft, factors->failed, state, &to->condition);
    snprintf(result->step, sizeof result->step, "to %s",
             kind == LS_FACTOR_LEVER_AFT ? "lowest speed" : ls_engine_state_name(state));
    if (powerplant->engine.type == LS_ENGINE_JET) {
        say(result, LS_FACTOR_DOES_NOT_ARISE, "a jet has no propeller");
    } else if (kind == LS_FACTOR_FEATHERED && powerplant->propeller.feathering == LS_FEATHERS_NEVER) {
        say(result, LS_FACTOR_DOES_NOT_ARISE, "this propeller cannot be feathered");
    } else if (ls_model_make(&to->aircraft, &to->condition, &model, &error) != LS_OK ||
               ls_powerplant_at(&model, model.stall_V_m_s, &point, &error) != LS_OK) {
        say(result, LS_FACTOR_NO_DATA, error.text);
    }
}

/* At a height where it matters: with the file's own critical altitude, or one that is usual. */
static void set_turbocharger(ls_factor_end *from, ls_factor_end *to, ls_factor_result *result)
{
    int pistons = 0;
    for (int i = 0; i < from->aircraft.powerplants; i++) {
        ls_engine_data *plain = &from->aircraft.powerplant[i].engine,
                       *boosted = &to->aircraft.powerplant[i].engine;
        if (plain->type == LS_ENGINE_PISTON) {
            pistons++;
            boosted->critical_altitude_m =
                plain->critical_altitude_m > 0.0 ? plain->critical_altitude_m : turbo_holds_m;
            plain->critical_altitude_m = 0.0;
        }
    }
    from->condition.altitude_m = to->condition.altitude_m = turbo_altitude_m;
    words(result, "no", "yes, 8000 ft");
    if (pistons == 0) {
        say(result, LS_FACTOR_DOES_NOT_ARISE, "no piston engine");
    }
}

void ls_factor_set(ls_factor_kind kind, const ls_factors *factors, unsigned other, ls_factor_end *from,
                   ls_factor_end *to, ls_factor_result *result)
{
    switch (kind) {
    case LS_FACTOR_POWER:
        to->condition.power *= less_power;
        numbers(result, LS_DIM_FRACTION, from->condition.power, to->condition.power);
        break;
    case LS_FACTOR_ALTITUDE:
    case LS_FACTOR_TEMPERATURE:
        set_air(kind, from, to, result);
        break;
    case LS_FACTOR_WEIGHT_LEVEL:
    case LS_FACTOR_WEIGHT_BANKED:
    case LS_FACTOR_CG:
        set_loading(kind, from, to, result);
        break;
    case LS_FACTOR_BANK_TOWARD:
    case LS_FACTOR_BANK_AWAY:
        set_bank(kind, from, to, result);
        break;
    case LS_FACTOR_FLAP:
    case LS_FACTOR_GEAR:
    case LS_FACTOR_COWL_FLAPS:
        set_configuration(kind, from, to, result);
        break;
    case LS_FACTOR_FEATHERED:
    case LS_FACTOR_STOPPED:
    case LS_FACTOR_LEVER_AFT:
        set_propeller(kind, factors, from, to, result);
        break;
    case LS_FACTOR_OTHER_ENGINE:
        to->failed = other;
        words(result, "critical", "other");
        if (other == 0) {
            say(result, LS_FACTOR_DOES_NOT_ARISE, "no engine stands on the other side");
        }
        break;
    case LS_FACTOR_TURBOCHARGED:
        set_turbocharger(from, to, result);
        break;
    default:
        words(result, "high", "low");
        say(result, LS_FACTOR_NO_DATA, rows[kind].no_data);
        break;
    }
}
