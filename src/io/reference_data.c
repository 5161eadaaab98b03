#include "io/reference_data.h"

const char *const ls_reference_opening =
    "# The aeroplane file\n"
    "\n"
    "One file describes one aeroplane. It is plain text, `KEY: VALUE` a line, with blocks of keys set in by two\n"
    "spaces; lists (`flaps`, `powerplants`, `engines`) have one entry for each `- name: ...`. The form is a "
    "subset\n"
    "of YAML, and comments start with `#`. `liveside new FILE` writes a whole commented file to start from, and\n"
    "`liveside check FILE` says what is wrong with one, every error at once, and what the file has the numbers "
    "for.\n"
    "\n"
    "This page is made from the program's own table of keys.\n"
    "\n"
    "## A whole small example\n"
    "\n"
    "The least that a file may hold; the aeroplane is invented.\n"
    "\n"
    "```yaml\n";

const char *const ls_reference_example = "name: Example twin\n"
                                         "mass: {maximum: 1725 kg, minimum: 1250 kg}\n"
                                         "cg: {reference: 2.30 m, forward: 2.18 m, aft: 2.42 m}\n"
                                         "wing:\n"
                                         "  area: 17.0 m2\n"
                                         "  span: {value: 36.0 ft, source: measured, spread: 0.5 in}\n"
                                         "flaps:\n"
                                         "  - name: up\n"
                                         "    lift_zero: 0.25\n"
                                         "    lift_slope: 4.8 /rad\n"
                                         "    lift_max: {value: 1.55, source: estimated, spread: 5 %}\n"
                                         "    drag_zero: 0.032\n"
                                         "    drag_induced: 0.058\n"
                                         "derivatives:\n"
                                         "  axes: stability\n"
                                         "  side: {sideslip: -0.60 /rad, rudder: 0.19 /rad}\n"
                                         "  roll: {sideslip: -0.09 /rad, aileron: 0.16 /rad}\n"
                                         "  yaw: {sideslip: 0.10 /rad, rudder: -0.085 /rad}\n"
                                         "rudder: {left: 25 deg, right: 25 deg}\n"
                                         "aileron: {travel: 20 deg}\n"
                                         "powerplants:\n"
                                         "  - name: piston\n"
                                         "    engine: {type: piston, power: 180 hp, speed: 2700 rpm}\n"
                                         "    propeller:\n"
                                         "      diameter: 74 in\n"
                                         "      efficiency: [[0, 0], [0.4, 0.62], [0.8, 0.83], [1.0, 0.85]]\n"
                                         "      windmilling_area: 0.45 m2\n"
                                         "engines:\n"
                                         "  - name: left\n"
                                         "    hub: {aft: 0.60 m, right: -1.90 m}\n"
                                         "    rotation: clockwise\n"
                                         "  - name: right\n"
                                         "    hub: {aft: 0.60 m, right: 1.90 m}\n"
                                         "    rotation: clockwise\n";

const char *const ls_reference_rules =
    "```\n"
    "\n"
    "## How a value is written\n"
    "\n"
    "- **A number** has its unit after it, `36.0 ft`. A number without a unit is refused where a unit is due. "
    "The\n"
    "  decimal sign is a point. Any unit of the dimension will do; the units are listed below.\n"
    "- **A word** is one of those that the key allows. **A name** is any text of at most 63 bytes; put it in "
    "quotes\n"
    "  if it starts with a sign that YAML uses. Names are unique within a list, and one that is a number must be "
    "the\n"
    "  number of its entry. Control characters are refused.\n"
    "- **A table** is a list of rows of two values, `[[0 deg, 1.0], [20 deg, 0.95]]`: 2 to 64 rows, the first "
    "column\n"
    "  rising.\n"
    "- **Source and spread.** In place of a value may stand a block of `value`, `source` and `spread`:\n"
    "  `{value: 36.0 ft, source: measured, spread: 0.5 in}`; for a table too,\n"
    "  `{value: [[0 deg, 1.0], [20 deg, 0.95]], source: estimated, spread: 5 %}`.\n"
    "  - `source` is `measured`, `published`, `estimated` or `assumed`. The key `source` at the top of the file "
    "speaks\n"
    "    for every number and table that has no source of its own. Results that rest on an estimated, assumed or\n"
    "    guessed value are rounded, and say so.\n"
    "  - `spread` is the standard deviation of the value, in its unit or in per cent of it. For a value that is "
    "itself\n"
    "    a fraction (`aileron.usable: 80 %`) the spread is in the same points. For a table it is a share of every "
    "value\n"
    "    in the second column.\n"
    "- **Left out.** A key left out takes its default, where it has one. Some defaults are conventions (no gear "
    "drag\n"
    "  given: none); some are guesses, and count as assumed values. `liveside check` lists those that are used.\n"
    "\n"
    "Signs: aft, right and down are positive. Sideslip is positive with the wind from the right, the rudder with "
    "its\n"
    "trailing edge left, the aileron when it rolls right; so a rudder has a positive side force and a negative "
    "yawing\n"
    "moment. Derivatives are coefficients on wing area and, for moments, span. Rotation is as seen from behind;\n"
    "`counterclockwise` is the same as `anticlockwise`.\n"
    "\n"
    "A file has at most 1 MiB, 4096 keys and 8 levels; 6 flap settings, 4 powerplants and 8 engines. Anchors, "
    "aliases,\n"
    "tags and a second document are refused. It is UTF-8, and lines may end as on any system.\n"
    "\n"
    "## Keys\n"
    "\n"
    "`[]` stands for each entry of a list. On a command line an entry is chosen by its name or its number,\n"
    "`flaps[up].lift_max`, `engines[1].hub.right`.\n";

const ls_reference_group ls_reference_groups[] = {
    {"", "Identification",
     "Beside these stands `source`, the source of the numbers and tables that have none of their own."},
    {"mass", "Mass", ""},
    {"cg", "Centre of gravity", "The datum may be any; the engines are placed from the same one."},
    {"wing", "Wing", ""},
    {"flaps", "Flap settings",
     "The first setting is that of take-off unless `takeoff.flap` names another. What stands under `change` is "
     "added to\n"
     "the derivatives below at this setting."},
    {"gear", "Landing gear", ""},
    {"drag", "Further drag", "Increments of the drag coefficient."},
    {"derivatives", "Lateral-directional derivatives", ""},
    {"fin", "Fin", ""},
    {"rudder", "Rudder and pedals",
     "The block `rudder.pedal` may be left out; without it the pedal force is no limit. Its hinge moments are\n"
     "coefficients on rudder area and rudder chord; a positive one drives the trailing edge left."},
    {"aileron", "Aileron", ""},
    {"limits", "Limits", ""},
    {"slipstream", "Slipstream", ""},
    {"inertia", "Inertia",
     "This group and the three after it, and `transient` of a powerplant, are for motion after a failure alone. "
     "What "
     "is\n"
     "left out is guessed, or estimated from the other numbers; steady answers do not rest on it."},
    {"rates", "Rate derivatives", "In the axes of the other derivatives, per p b/2V and r b/2V."},
    {"pilot", "The simple pilot", "Who holds heading with rudder and bank with aileron."},
    {"ground", "On the runway", ""},
    {"airspeed", "Airspeed indication", "Rows of calibrated airspeed and indicated airspeed."},
    {"powerplants", "Powerplants",
     "An engine with its propeller, described once for all engines that have it. A key for another type of engine "
     "is\n"
     "refused. A propeller of kind `coefficients` has one of the tables `efficiency` and `thrust`, not both; the "
     "rows of\n"
     "`efficiency` begin with `[0, 0]`."},
    {"engines", "Engines", "Where each stands."},
    {"takeoff", "Take-off", ""},
    {"published", "Published figures", "Shown beside the results for comparison; nothing is fitted to them."},
};

const int ls_reference_group_count = (int)(sizeof ls_reference_groups / sizeof ls_reference_groups[0]);

const char *const ls_reference_units = "\n"
                                       "## Units\n"
                                       "\n"
                                       "`lb` is a mass and `lbf` a force; `nmi` is the nautical mile; `hp` is the "
                                       "mechanical horsepower. `rpm` counts\n"
                                       "revolutions.\n"
                                       "\n"
                                       "| what | units |\n"
                                       "|---|---|\n";

const char *const ls_reference_checks =
    "\n"
    "## What is checked\n"
    "\n"
    "Every key has a range, wide enough for unusual aeroplanes: it catches "
    "slips of unit and sign. Refused besides are,\n"
    "at every flap setting, a derivative of the wrong sign and a rudder whose "
    "force would act ahead of the sideslip\n"
    "force (side.sideslip x yaw.rudder - yaw.sideslip x side.rudder must be "
    "positive); a rudder arm, span x yaw.rudder /\n"
    "side.rudder, less than half or more than twice `fin.arm`; a rudder table "
    "in which more deflection has less effect;\n"
    "thrust or efficiency above the momentum limit of the disc; friction in "
    "the slipstream that takes half the thrust;\n"
    "manifold pressure above that of the air without a blower; two engines in "
    "one place, or one beyond the wing tip;\n"
    "limits in the wrong order. Warned of are an engine without a mirror image, "
    "and a wing loading, aspect ratio, stall angle, "
    "stall speed, span efficiency, lift over\n"
    "drag, tip speed, power loading or drag area that is not usual.\n";

const char *const ls_reference_caution =
    "\n"
    "## Caution\n"
    "\n"
    "For training and study only; never for flight planning or to set a speed. The approved flight manual, the\n"
    "authority and a licensed instructor decide. Never explore the minimum control speed in flight near the "
    "ground or\n"
    "near the stall.\n";
