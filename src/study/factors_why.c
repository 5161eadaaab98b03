/* Why an aeroplane disagrees with what is taught, looked up in its own numbers. */
#include "study/factors_parts.h"

#include <math.h>
#include <stdio.h>

static const ls_engine_data *live_engine(const ls_aircraft *aircraft, const ls_factors *factors)
{
    int live = 0;
    while ((factors->failed >> live & 1u) && live < aircraft->engines - 1) {
        live++;
    }
    return &aircraft->powerplant[aircraft->engine[live].powerplant].engine;
}

static const char *why_air(const ls_aircraft *aircraft, const ls_factors *factors)
{
    const ls_engine_data *engine = live_engine(aircraft, factors);
    if (engine->type == LS_ENGINE_PISTON && engine->critical_altitude_m > factors->condition.altitude_m) {
        return "the turbocharger holds the power up to its critical altitude";
    }
    if (engine->type == LS_ENGINE_TURBOPROP && engine->flat_to_sigma < 1.0) {
        return "the engine is flat rated: its power does not fall yet";
    }
    return engine->type == LS_ENGINE_ELECTRIC ? "an electric motor's power does not fall with density" : NULL;
}

static const char *why_flap(const ls_aircraft *aircraft, const ls_factors *factors)
{
    const ls_flap *flap = &aircraft->flap[ls_factor_less_flap(factors->condition.flap)], *other = flap + 1;
    int changes = other->delta_yaw_sideslip != flap->delta_yaw_sideslip ||
                  other->delta_yaw_rudder != flap->delta_yaw_rudder ||
                  other->delta_side_sideslip != flap->delta_side_sideslip;
    return changes ? "the file's derivatives change with flap so"
                   : "the file's derivatives do not change with flap; what is left is incidence and lift";
}

static const char *why(const ls_aircraft *aircraft, const ls_factors *factors, const ls_factor_result *result)
{
    switch (result->kind) {
    case LS_FACTOR_ALTITUDE:
    case LS_FACTOR_TEMPERATURE:
        return why_air(aircraft, factors);
    case LS_FACTOR_WEIGHT_LEVEL:
        return "more weight needs more incidence, and with it P-factor and slipstream lift grow";
    case LS_FACTOR_STOPPED:
        return "at this blade angle a stopped propeller drags more than one that turns";
    case LS_FACTOR_LEVER_AFT:
        return fabs(result->vmc.change) < 1e-6
                   ? "it turns slower on its fine stop than the lever can ask for, so the lever does nothing"
                   : "its drag grows as the blades coarsen";
    case LS_FACTOR_FLAP:
        return why_flap(aircraft, factors);
    case LS_FACTOR_CG:
        return "with this bank the side force turns the nose toward the live engine as the centre moves aft";
    case LS_FACTOR_OTHER_ENGINE:
        return "no engine is critical";
    default:
        return NULL;
    }
}

void ls_factor_explain(const ls_aircraft *aircraft, const ls_factors *factors, ls_factor_result *result)
{
    int is_nothing = fabs(result->vmc.change) < 1e-6 &&
                     (result->kind == LS_FACTOR_OTHER_ENGINE || result->kind == LS_FACTOR_LEVER_AFT);
    int asks = result->agreement == LS_DISAGREES || is_nothing;
    const char *text = asks ? why(aircraft, factors, result) : NULL;
    if (result->agreement == LS_DISAGREES && text == NULL) {
        text = "this file's numbers say so";
    }
    snprintf(result->reason, sizeof result->reason, "%s", text != NULL ? text : "");
}
