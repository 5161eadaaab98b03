/* The keys of `estimate`: the geometry level and the handbook level. Ranges are wide: they catch slips of unit. */
#include "airframe/geometry_data.h"

#include <math.h>

#define DEG (3.14159265358979323846 / 180.0)

#define TEXT(record, path, need, member, meaning)                                                          \
    {                                                                                                      \
        path, LS_KEY_TEXT, LS_DIM_NUMBER, LS_DIM_NUMBER, 0, 0, need, 0, 0, NULL, offsetof(record, member), \
            meaning                                                                                        \
    }
#define CHOICE(record, path, need, fallback, choices, member, meaning)                       \
    {                                                                                        \
        path, LS_KEY_CHOICE, LS_DIM_NUMBER, LS_DIM_NUMBER, 0, 0, need, fallback, 0, choices, \
            offsetof(record, member), meaning                                                \
    }
#define NUMBER(record, path, dimension, low, high, need, fallback, member, meaning)                 \
    {                                                                                               \
        path, LS_KEY_NUMBER, LS_DIM_##dimension, LS_DIM_NUMBER, low, high, need, fallback, 0, NULL, \
            offsetof(record, member), meaning                                                       \
    }
#define G(path, dimension, low, high, member, meaning) \
    NUMBER(ls_geometry, path, dimension, low, high, LS_REQUIRED, 0, member, meaning)
#define OPTIONAL(path, dimension, low, high, member, meaning) \
    NUMBER(ls_geometry, path, dimension, low, high, LS_OPTIONAL, 0, member, meaning)
#define USUAL(path, dimension, low, high, fallback, member, meaning) \
    NUMBER(ls_geometry, path, dimension, low, high, LS_ASSUMED_VALUE, fallback, member, meaning)
#define NEUTRAL(path, dimension, low, high, fallback, member, meaning) \
    NUMBER(ls_geometry, path, dimension, low, high, LS_NEUTRAL, fallback, member, meaning)
#define BLOCK(path, dimension, low, high, member, meaning) \
    NUMBER(ls_geometry, path, dimension, low, high, LS_WITH_BLOCK, 0, member, meaning)
#define H(path, dimension, low, high, member, meaning) \
    NUMBER(ls_handbook, path, dimension, low, high, LS_REQUIRED, 0, member, meaning)
#define OPTIONAL_H(path, dimension, low, high, member, meaning) \
    NUMBER(ls_handbook, path, dimension, low, high, LS_OPTIONAL, 0, member, meaning)

#define TURNING "clockwise|anticlockwise|inboard|outboard"

const ls_parameter ls_geometry_rows[] = {
    CHOICE(ls_geometry, "level", LS_NEUTRAL, LS_LEVEL_GEOMETRY, "geometry|handbook", level,
           "which of the two sets of keys the file has"),
    TEXT(ls_geometry, "name", LS_REQUIRED, name, "what the aeroplane is called"),
    TEXT(ls_geometry, "note", LS_OPTIONAL, note, "where the dimensions come from"),
    G("mass.maximum", MASS, 50, 600e3, mass.maximum_kg, "maximum take-off mass"),
    G("mass.minimum", MASS, 50, 600e3, mass.minimum_kg, "lightest mass it is flown at"),
    G("cg.reference", LENGTH, -50, 100, cg.reference_m, "aft of the datum: where the derivatives are taken"),
    G("cg.forward", LENGTH, -50, 100, cg.forward_m, "forward limit, aft of the datum"),
    G("cg.aft", LENGTH, -50, 100, cg.aft_m, "aft limit, aft of the datum"),
    NEUTRAL("cg.lateral", LENGTH, 0, 2, 0, cg.lateral_m, "greatest distance off the centreline, either side"),
    NEUTRAL("cg.down", LENGTH, -5, 5, 0, cg.down_m, "below the body's centreline"),
    G("wing.area", AREA, 1, 1000, wing.area_m2, "reference area"),
    G("wing.span", LENGTH, 1, 100, wing.span_m, "span"),
    OPTIONAL("wing.chord", LENGTH, 0.1, 20, wing.chord_m, "mean aerodynamic chord (else from area and taper)"),
    G("wing.taper", NUMBER, 0.1, 1.2, wing.taper, "tip chord over root chord"),
    NEUTRAL("wing.sweep", ANGLE, -30 * DEG, 50 * DEG, 0, wing.sweep_rad, "of the quarter-chord line"),
    G("wing.dihedral", ANGLE, -15 * DEG, 15 * DEG, wing.dihedral_rad, "dihedral"),
    G("wing.down", LENGTH, -5, 5, wing.down_m,
      "root quarter chord below the body's centreline; negative: a high wing"),
    USUAL("wing.thickness", NUMBER, 0.06, 0.25, 0.15, wing.thickness, "thickness over chord"),
    USUAL("wing.section_lift_max", NUMBER, 0.8, 2.2, 1.6, wing.section_lift_max,
          "greatest lift coefficient of the section"),
    USUAL("wing.zero_lift", ANGLE, -5 * DEG, 12 * DEG, 4 * DEG, wing.zero_lift_rad,
          "angle of the body's centreline from the wing's zero lift (incidence plus camber)"),
    CHOICE(ls_geometry, "flap.kind", LS_REQUIRED, LS_FLAP_PLAIN, "none|plain|split|slotted|fowler", flap.kind,
           "kind of flap"),
    USUAL("flap.chord", NUMBER, 0.05, 0.5, 0.25, flap.chord, "flap chord over wing chord"),
    USUAL("flap.inner", NUMBER, 0, 1, 0.12, flap.inner, "inner end over the semispan"),
    USUAL("flap.outer", NUMBER, 0, 1, 0.58, flap.outer, "outer end over the semispan"),
    USUAL("flap.takeoff", ANGLE, 0, 60 * DEG, 10 * DEG, flap.takeoff_rad, "intermediate setting"),
    USUAL("flap.landing", ANGLE, 0, 70 * DEG, 35 * DEG, flap.landing_rad, "full setting"),
    OPTIONAL("lift.max_up", NUMBER, 0.5, 4, lift.max_up, "greatest lift coefficient, if known (stall speed)"),
    OPTIONAL("lift.max_takeoff", NUMBER, 0.5, 4, lift.max_takeoff, "the same with take-off flap"),
    OPTIONAL("lift.max_landing", NUMBER, 0.5, 4, lift.max_landing, "the same with landing flap"),
    OPTIONAL("drag.zero", NUMBER, 0.01, 0.2, drag.zero, "zero-lift drag coefficient, clean, if known"),
    USUAL("drag.gear", NUMBER, 0, 0.1, 0.018, drag.gear, "drag coefficient added by the gear down"),
    USUAL("aileron.chord", NUMBER, 0.05, 0.5, 0.22, aileron.chord, "aileron chord over wing chord"),
    USUAL("aileron.inner", NUMBER, 0, 1, 0.60, aileron.inner, "inner end over the semispan"),
    USUAL("aileron.outer", NUMBER, 0, 1, 0.96, aileron.outer, "outer end over the semispan"),
    G("aileron.travel", ANGLE, 1 * DEG, 60 * DEG, aileron.travel_rad, "mean of up and down at full travel"),
    G("fin.span", LENGTH, 0.2, 20, fin.span_m, "from the root at the body to the tip"),
    G("fin.root", LENGTH, 0.1, 20, fin.root_m, "chord at the body, rudder included"),
    G("fin.tip", LENGTH, 0.05, 20, fin.tip_m, "chord at the tip, rudder included"),
    G("fin.sweep", ANGLE, -20 * DEG, 70 * DEG, fin.sweep_rad, "of the leading edge"),
    G("fin.aft", LENGTH, -50, 100, fin.aft_m, "leading edge of the root, aft of the datum"),
    G("fin.up", LENGTH, -2, 10, fin.up_m, "root above the body's centreline"),
    G("fin.body_depth", LENGTH, 0.05, 10, fin.body_depth_m, "depth of the body under the fin"),
    OPTIONAL(
        "fin.aspect_effective", NUMBER, 0.3, 8, fin.aspect_effective,
        "effective aspect ratio, if you have worked it out from body and tailplane (else 1.55 times the fin's)"),
    USUAL("fin.stall_sideslip", ANGLE, 5 * DEG, 60 * DEG, 20 * DEG, fin.stall_rad, "sideslip at which it stalls"),
    G("rudder.chord", FRACTION, 0.05, 0.7, rudder.chord, "aft of the hinge, over the fin's chord"),
    NEUTRAL("rudder.inner", FRACTION, 0, 1, 0, rudder.inner, "lower end over the fin's span"),
    NEUTRAL("rudder.outer", FRACTION, 0, 1, 1, rudder.outer, "upper end over the fin's span"),
    G("rudder.left", ANGLE, 1 * DEG, 60 * DEG, rudder.left_rad, "travel, trailing edge left"),
    G("rudder.right", ANGLE, 1 * DEG, 60 * DEG, rudder.right_rad, "travel, trailing edge right"),
    OPTIONAL("rudder.gearing", GEARING, 0.1, 100, rudder.gearing_rad_m,
             "rudder angle per pedal travel; left out: no pedal forces"),
    NEUTRAL("body.nose", LENGTH, -50, 100, 0, body.nose_m, "nose, aft of the datum"),
    G("body.length", LENGTH, 1, 100, body.length_m, "length"),
    G("body.width", LENGTH, 0.3, 10, body.width_m, "greatest width"),
    G("body.depth", LENGTH, 0.3, 10, body.depth_m, "greatest depth"),
    OPTIONAL("body.depth_quarter", LENGTH, 0.1, 10, body.depth_quarter_m,
             "depth at a quarter of the length (else 0.85 of the greatest)"),
    OPTIONAL("body.depth_three_quarter", LENGTH, 0.1, 10, body.depth_three_quarter_m,
             "depth at three quarters (else 0.65 of the greatest)"),
    OPTIONAL("body.side_area", AREA, 0.3, 1000, body.side_area_m2,
             "side view's area (else from length and depth)"),
    OPTIONAL("body.volume", VOLUME, 0.1, 5000, body.volume_m3, "volume (else from side area and width)"),
    BLOCK("nacelle.nose", LENGTH, -50, 100, nacelle.nose_m, "front, aft of the datum"),
    BLOCK("nacelle.length", LENGTH, 0.2, 20, nacelle.length_m, "length"),
    BLOCK("nacelle.width", LENGTH, 0.1, 5, nacelle.width_m, "greatest width"),
    BLOCK("nacelle.depth", LENGTH, 0.1, 5, nacelle.depth_m, "greatest depth"),
    CHOICE(ls_geometry, "engine.type", LS_REQUIRED, 0, "piston|turboprop|electric", engine.type, "kind of engine"),
    G("engine.power", POWER, 1e3, 50e6, engine.power_W, "take-off shaft power of one engine"),
    G("engine.speed", ROTATION, 1, 1000, engine.n_rev_s, "engine speed at that power"),
    NEUTRAL("engine.gear_ratio", NUMBER, 0.01, 2, 1, engine.gear_ratio, "propeller speed over engine speed"),
    NEUTRAL("engine.critical_altitude", ALTITUDE, 0, 15e3, 0, engine.critical_altitude_m,
            "piston: rated manifold pressure is held up to here"),
    USUAL("engine.flat_to_density", FRACTION, 0.2, 1.2, 0.9, engine.flat_to_sigma,
          "turboprop: density ratio down to which the flat rating holds"),
    G("engine.right", LENGTH, 0.2, 40, engine.right_m, "thrust line off the centreline; of four, the inner ones"),
    OPTIONAL("engine.outer_right", LENGTH, 0.2, 40, engine.outer_right_m, "of four engines, the outer ones"),
    G("engine.hub", LENGTH, -50, 100, engine.hub_aft_m, "propeller hub, aft of the datum"),
    NEUTRAL("engine.down", LENGTH, -5, 5, 0, engine.hub_down_m, "thrust line below the body's centreline"),
    G("propeller.diameter", LENGTH, 0.2, 8, propeller.diameter_m, "diameter"),
    NEUTRAL("propeller.blades", NUMBER, 2, 8, 2, propeller.blades, "blades"),
    CHOICE(ls_geometry, "propeller.feathering", LS_NEUTRAL, LS_FEATHERS_BY_HAND, "manual|automatic|none",
           propeller.feathering, "how it is feathered after a failure"),
    CHOICE(ls_geometry, "propeller.rotation", LS_ASSUMED_VALUE, LS_TURNS_CLOCKWISE, TURNING, propeller.rotation,
           "seen from behind; inboard, outboard: where the tops move"),
    USUAL("propeller.efficiency", FRACTION, 0.5, 1, 0.85, propeller.efficiency,
          "efficiency over that of an ideal disc of the same thrust"),
    OPTIONAL("published.vmc", SPEED, 5, 200, published.vmc_m_s, "published minimum control speed: compared only"),
    CHOICE(ls_geometry, "published.vmc_kind", LS_NEUTRAL, 1, "KCAS|KIAS", published.vmc_kind,
           "what that speed is"),
    OPTIONAL("published.stall", SPEED, 5, 200, published.stall_m_s,
             "published stall speed, flap up, maximum mass"),
};

const int ls_geometry_row_count = (int)(sizeof ls_geometry_rows / sizeof ls_geometry_rows[0]);

const ls_parameter ls_handbook_rows[] = {
    CHOICE(ls_handbook, "level", LS_REQUIRED, LS_LEVEL_HANDBOOK, "geometry|handbook", level, "handbook"),
    TEXT(ls_handbook, "name", LS_REQUIRED, name, "what the aeroplane is called"),
    H("mass", MASS, 50, 600e3, mass_kg, "maximum take-off mass: data sheet, limitations"),
    H("mass_minimum", MASS, 50, 600e3, minimum_kg, "empty mass, a pilot and little fuel: weight and balance"),
    H("span", LENGTH, 1, 100, span_m, "three-view"),
    H("wing_area", AREA, 1, 1000, area_m2, "three-view or data sheet"),
    H("stall_clean", SPEED, 5, 200, stall_clean_m_s, "CAS, maximum mass, power off: performance section"),
    OPTIONAL_H("stall_landing", SPEED, 5, 200, stall_landing_m_s, "the same, landing configuration"),
    H("climb", CLIMB_RATE, 0.1, 100, climb_m_s, "every engine running, sea level, maximum mass: performance"),
    H("climb_speed", SPEED, 5, 300, climb_speed_m_s, "CAS of that climb"),
    OPTIONAL_H("climb_one_engine", CLIMB_RATE, -20, 50, climb_one_m_s, "one engine feathered: a check only"),
    OPTIONAL_H("climb_one_engine_speed", SPEED, 5, 300, climb_one_speed_m_s, "CAS of that climb"),
    CHOICE(ls_handbook, "engine", LS_REQUIRED, 0, "piston|turboprop|electric", engine_type, "data sheet"),
    H("power", POWER, 1e3, 50e6, power_W, "take-off power of one engine: data sheet"),
    H("propeller_speed", ROTATION, 1, 100, n_rev_s, "propeller speed at take-off: data sheet, engine limits"),
    H("propeller_diameter", LENGTH, 0.2, 8, diameter_m, "data sheet, propeller"),
    H("engine_right", LENGTH, 0.2, 40, engine_right_m, "thrust line off the centreline: three-view, front"),
    CHOICE(ls_handbook, "rotation", LS_ASSUMED_VALUE, LS_TURNS_CLOCKWISE, TURNING, rotation,
           "seen from behind: data sheet, propeller"),
    H("fin_area", AREA, 0.1, 100, fin_area_m2, "fin and rudder above the body: three-view, side"),
    H("fin_span", LENGTH, 0.2, 20, fin_span_m, "height of the fin above the body: three-view, side"),
    H("fin_arm", LENGTH, 0.5, 50, fin_arm_m,
      "centre of gravity to the middle of the fin's quarter-chord line: three-view, side"),
    H("rudder_chord", FRACTION, 0.05, 0.7, rudder_chord, "rudder over fin chord: three-view, side"),
    H("rudder_travel", ANGLE, 1 * DEG, 60 * DEG, rudder_travel_rad, "data sheet, control surface movements"),
    H("body_length", LENGTH, 1, 100, body_length_m, "three-view"),
    OPTIONAL_H("vmc", SPEED, 5, 200, vmc_m_s, "published: compared, never used"),
};

const int ls_handbook_row_count = (int)(sizeof ls_handbook_rows / sizeof ls_handbook_rows[0]);
