#include "airframe/support_data.h"

#include <stddef.h>

#define ENDED                   \
    {                           \
        NULL, LS_DEFAULT_SERVES \
    }

const ls_capability ls_capabilities[] = {
    {"minimum control speed set by control travel",
     {{"mass.", LS_DEFAULT_SERVES},
      {"cg.", LS_DEFAULT_SERVES},
      {"wing.", LS_DEFAULT_SERVES},
      {"flaps[].lift_zero", LS_DEFAULT_SERVES},
      {"flaps[].lift_slope", LS_DEFAULT_SERVES},
      {"flaps[].lift_max", LS_DEFAULT_SERVES},
      {"flaps[].change.", LS_DEFAULT_SERVES},
      {"derivatives.", LS_DEFAULT_SERVES},
      {"rudder.left", LS_DEFAULT_SERVES},
      {"rudder.right", LS_DEFAULT_SERVES},
      {"aileron.", LS_DEFAULT_SERVES},
      {"powerplants[].engine.", LS_DEFAULT_SERVES},
      {"powerplants[].propeller.diameter", LS_DEFAULT_SERVES},
      {"powerplants[].propeller.windmilling_area", LS_DEFAULT_SERVES},
      {"engines[].hub.", LS_DEFAULT_SERVES},
      {"engines[].tilt", LS_DEFAULT_SERVES},
      {"engines[].toe", LS_DEFAULT_SERVES},
      ENDED}},
    {"... set by pedal force",
     {{"rudder.pedal.", LS_DEFAULT_SERVES}, {"limits.pedal_force", LS_DEFAULT_SERVES}, ENDED}},
    {"... set by stall of the fin", {{"fin.stall_sideslip", LS_DEFAULT_SERVES}, ENDED}},
    {"... set by stall of the wing",
     {{"mass.", LS_DEFAULT_SERVES},
      {"wing.area", LS_DEFAULT_SERVES},
      {"flaps[].lift_max", LS_DEFAULT_SERVES},
      {"gear.lift_max_change", LS_DEFAULT_SERVES},
      ENDED}},
    {"... with the failed propeller feathered",
     {{"powerplants[].propeller.feathered_area", LS_DEFAULT_SERVES}, ENDED}},
    {"... with the failed propeller stopped",
     {{"powerplants[].propeller.stopped_area", LS_DEFAULT_SERVES}, ENDED}},
    {"effect of the propellers' rotation, critical engine",
     {{"engines[].rotation", LS_DEFAULT_SERVES},
      {"powerplants[].propeller.thrust_offset", LS_DEFAULT_IS_MISSING},
      ENDED}},
    {"effect of the slipstream",
     {{"slipstream.wing_lift", LS_DEFAULT_SERVES}, {"slipstream.fin_immersion", LS_DEFAULT_SERVES}, ENDED}},
    {"climb on the live engines",
     {{"flaps[].drag_zero", LS_DEFAULT_SERVES},
      {"flaps[].drag_induced", LS_DEFAULT_SERVES},
      {"gear.drag", LS_DEFAULT_SERVES},
      {"drag.", LS_DEFAULT_IS_ASSUMED},
      ENDED}},
    {"motion after a failure, in the air and on the runway",
     {{"inertia.", LS_DEFAULT_SERVES},
      {"rates.", LS_DEFAULT_SERVES},
      {"pilot.", LS_DEFAULT_SERVES},
      {"ground.", LS_DEFAULT_SERVES},
      {"powerplants[].transient.", LS_DEFAULT_SERVES},
      ENDED}},
    {"indicated airspeed", {{"airspeed.position_error", LS_DEFAULT_SERVES}, ENDED}},
    {"comparison with a published minimum control speed", {{"published.vmc", LS_DEFAULT_SERVES}, ENDED}},
};

const int ls_capability_count = (int)(sizeof ls_capabilities / sizeof ls_capabilities[0]);
