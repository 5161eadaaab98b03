/* An invented light twin of a usual size. The numbers are round; no real aeroplane is meant. */
#include "io/starter_data.h"

#include <stddef.h>

const char *const ls_starter_opening =
    "# An aeroplane file to start from: an invented light twin. Put in your own numbers, and say of each where "
    "it\n"
    "# comes from: a value may stand alone, `span: 11.0 m`, or with its source and spread,\n"
    "#     span: {value: 11.0 m, source: measured, spread: 5 cm}\n"
    "# Sources are measured, published, estimated and assumed; `source` below speaks for every value that has "
    "none\n"
    "# of its own. Every number needs its unit. Leave out an optional key that you have no number for: what then\n"
    "# cannot be worked out is said. Signs: aft, right and down are positive, and so are sideslip with the wind "
    "from\n"
    "# the right, rudder with its trailing edge left, and aileron that rolls right.\n"
    "# For training and study only; never for flight planning or to set a speed.\n"
    "\n"
    "source: assumed\n"
    "\n";

const char *const ls_starter_ending =
    "\n"
    "# Which values are uncertain together: take the # away once each of them has a spread, as in\n"
    "#     rudder: {value: -0.085 /rad, spread: 5 %, shape: triangular}\n"
    "# (shapes are normal, uniform, triangular and truncated; 1 goes up and down together, -1 opposite).\n"
    "# uncertain:\n"
    "#   correlations:\n"
    "#     - {between: [derivatives.yaw.sideslip, derivatives.yaw.rudder], coefficient: -0.5}\n";

const ls_starter_value ls_starter_values[] = {
    {"name", "My twin", NULL},
    {"note", "starter file, every number invented", NULL},
    {"mass.maximum", "1700 kg", NULL},
    {"mass.minimum", "1200 kg", NULL},
    {"cg.reference", "2.30 m", NULL},
    {"cg.forward", "2.20 m", NULL},
    {"cg.aft", "2.40 m", NULL},
    {"cg.lateral", "3 cm", NULL},
    {"wing.area", "16.5 m2", NULL},
    {"wing.span", "11.0 m", NULL},
    {"wing.chord", "1.55 m", NULL},
    {"flaps[].name", "up", "approach"},
    {"flaps[].deflection", "0 deg", "15 deg"},
    {"flaps[].lift_zero", "0.25", "0.55"},
    {"flaps[].lift_slope", "4.8 /rad", "4.8 /rad"},
    {"flaps[].lift_max", "1.55", "1.80"},
    {"flaps[].drag_zero", "0.030", "0.045"},
    {"flaps[].drag_induced", "0.055", "0.057"},
    {"flaps[].drag_least_at", "0.10", "0.15"},
    {"flaps[].change.side_sideslip", "0 /rad", NULL},
    {"flaps[].change.side_rudder", "0 /rad", NULL},
    {"flaps[].change.roll_sideslip", "0 /rad", "0.005 /rad"},
    {"flaps[].change.roll_rudder", "0 /rad", NULL},
    {"flaps[].change.roll_aileron", "0 /rad", NULL},
    {"flaps[].change.yaw_sideslip", "0 /rad", "0.004 /rad"},
    {"flaps[].change.yaw_rudder", "0 /rad", NULL},
    {"flaps[].change.yaw_aileron", "0 /rad", NULL},
    {"gear.drag", "0.018", NULL},
    {"gear.lift_max_change", "-0.02", NULL},
    {"drag.cowl_flaps", "0.004", NULL},
    {"drag.sideslip", "0.25 /rad2", NULL},
    {"drag.rudder", "0.05 /rad2", NULL},
    {"drag.aileron", "0.04 /rad2", NULL},
    {"derivatives.axes", "stability", NULL},
    {"derivatives.propeller_effects", "none", NULL},
    {"derivatives.side.sideslip", "-0.60 /rad", NULL},
    {"derivatives.side.rudder", "0.18 /rad", NULL},
    {"derivatives.side.aileron", "0 /rad", NULL},
    {"derivatives.roll.sideslip", "-0.09 /rad", NULL},
    {"derivatives.roll.rudder", "0.015 /rad", NULL},
    {"derivatives.roll.aileron", "0.16 /rad", NULL},
    {"derivatives.yaw.sideslip", "0.10 /rad", NULL},
    {"derivatives.yaw.rudder", "-0.080 /rad", NULL},
    {"derivatives.yaw.aileron", "-0.012 /rad", NULL},
    {"fin.stall_sideslip", "18 deg", NULL},
    {"fin.arm", "4.9 m", NULL},
    {"fin.sidewash", "1.0", NULL},
    {"fin.pressure", "1.0", NULL},
    {"rudder.left", "25 deg", NULL},
    {"rudder.right", "25 deg", NULL},
    {"rudder.effect", "[[0 deg, 1.00], [15 deg, 1.00], [20 deg, 0.97], [25 deg, 0.92]]", NULL},
    {"rudder.pedal.gearing", "2.9 rad/m", NULL},
    {"rudder.pedal.area", "0.75 m2", NULL},
    {"rudder.pedal.chord", "0.42 m", NULL},
    {"rudder.pedal.hinge_sideslip", "0.10 /rad", NULL},
    {"rudder.pedal.hinge_rudder", "-0.28 /rad", NULL},
    {"rudder.pedal.hinge_tab", "0 /rad", NULL},
    {"rudder.pedal.hinge_zero", "0", NULL},
    {"rudder.pedal.tab", "0 deg", NULL},
    {"rudder.pedal.boost", "0 %", NULL},
    {"aileron.travel", "20 deg", NULL},
    {"aileron.usable", "100 %", NULL},
    {"limits.bank", "5 deg", NULL},
    {"limits.pedal_force", "150 lbf", NULL},
    {"slipstream.swirl_straightened", "25 %", NULL},
    {"inertia.roll_radius", "0.17", NULL},
    {"inertia.pitch_radius", "0.12", NULL},
    {"inertia.yaw_radius", "0.20", NULL},
    {"inertia.product", "0", NULL},
    {"rates.side_roll", "0", NULL},
    {"rates.side_yaw", "0.37", NULL},
    {"rates.roll_roll", "-0.48", NULL},
    {"rates.roll_yaw", "0.17", NULL},
    {"rates.yaw_roll", "-0.09", NULL},
    {"rates.yaw_yaw", "-0.17", NULL},
    {"pilot.rudder_rate", "50 deg/s", NULL},
    {"pilot.aileron_rate", "60 deg/s", NULL},
    {"pilot.heading_gain", "3", NULL},
    {"pilot.heading_damping", "2 s", NULL},
    {"pilot.heading_trim", "4 s", NULL},
    {"pilot.bank_gain", "1.5", NULL},
    {"pilot.bank_damping", "0.4 s", NULL},
    {"pilot.bank_trim", "4 s", NULL},
    {"ground.main_wheels", "2.56 m", NULL},
    {"ground.nose_wheel", "0.10 m", NULL},
    {"ground.rolling", "0.02", NULL},
    {"ground.cornering", "4 /rad", NULL},
    {"ground.grip", "0.5", NULL},
    {"ground.incidence", "1 deg", NULL},
    {"airspeed.position_error", "[[60 kt, 58 kt], [80 kt, 79 kt], [120 kt, 120 kt], [200 kt, 199 kt]]", NULL},
    {"powerplants[].name", "piston", NULL},
    {"powerplants[].engine.type", "piston", NULL},
    {"powerplants[].engine.power", "180 hp", NULL},
    {"powerplants[].engine.speed", "2700 rpm", NULL},
    {"powerplants[].engine.gear_ratio", "1.0", NULL},
    {"powerplants[].engine.manifold_pressure", "29.0 inHg", NULL},
    {"powerplants[].engine.critical_altitude", "0 ft", NULL},
    {"powerplants[].engine.friction", "13.2 %", NULL},
    {"powerplants[].engine.time_limit", "5 min", NULL},
    {"powerplants[].engine.continuous", "100 %", NULL},
    {"powerplants[].engine.cooling_area", "0.02 m2", NULL},
    {"powerplants[].propeller.kind", "coefficients", NULL},
    {"powerplants[].propeller.diameter", "1.88 m", NULL},
    {"powerplants[].propeller.blades", "2", NULL},
    {"powerplants[].propeller.feathering", "manual", NULL},
    {"powerplants[].propeller.washed_area", "0.03 m2", NULL},
    {"powerplants[].propeller.efficiency",
     "[[0, 0], [0.2, 0.38], [0.4, 0.62], [0.6, 0.76], [0.8, 0.83], [1.0, 0.85], [1.2, 0.82]]", NULL},
    {"powerplants[].propeller.thrust_change", "0 %", NULL},
    {"powerplants[].propeller.windmilling_area", "0.45 m2", NULL},
    {"powerplants[].propeller.feathered_area", "0.03 m2", NULL},
    {"powerplants[].propeller.stopped_area", "0.20 m2", NULL},
    {"powerplants[].propeller.thrust_offset", "0.20 /rad", NULL},
    {"powerplants[].propeller.normal_area", "0.11 m2", NULL},
    {"powerplants[].transient.decay", "0.2 s", NULL},
    {"powerplants[].transient.feather_rate", "15 deg/s", NULL},
    {"powerplants[].transient.feather_delay", "1 s", NULL},
    {"engines[].name", "left", "right"},
    {"engines[].powerplant", "piston", "piston"},
    {"engines[].hub.aft", "0.60 m", "0.60 m"},
    {"engines[].hub.right", "-1.90 m", "1.90 m"},
    {"engines[].hub.down", "0 m", "0 m"},
    {"engines[].tilt", "0 deg", "0 deg"},
    {"engines[].toe", "0 deg", "0 deg"},
    {"engines[].rotation", "clockwise", "clockwise"},
    {"takeoff.flap", "up", NULL},
    {"published.vmc", "76 kt", NULL},
    {"published.vmc_kind", "KIAS", NULL},
    {"published.stall", "62 kt", NULL},
    {"published.vyse", "88 kt", NULL},
    {"published.vxse", "82 kt", NULL},
    {"published.vy", "100 kt", NULL},
    {"published.vx", "80 kt", NULL},
    {"published.vsse", "82 kt", NULL},
    {"published.climb", "1400 ft/min", NULL},
    {"published.climb_one_engine", "230 ft/min", NULL},
    {"published.ceiling", "17000 ft", NULL},
    {"published.ceiling_one_engine", "4500 ft", NULL},
};

const int ls_starter_value_count = (int)(sizeof ls_starter_values / sizeof ls_starter_values[0]);
