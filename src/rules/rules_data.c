/* The requirements, paraphrased. Every row says in `read` which text its numbers were checked against. The
 * American and the European text of a paragraph ask the same but for units, so that each group of rows is one
 * macro, with the paragraph's prefix, the force and the texts that were read. */
#include "rules/rules_data.h"

#define COUNT(table) (int)(sizeof(table) / sizeof(table)[0])

/* ---- texts that were read ------------------------------------------------------------------------------------
 */

#define CFR_2003    "14 CFR, 1-1-2003 edition"
#define CFR_2004    "14 CFR, 1-1-2004 edition"
#define CFR_23_62   "an eCFR copy at Amdt 23-62"
#define CFR_COPY    "copies of 14 CFR 23.149 at Amdt 23-50"
#define CFR_23_NOW  "14 CFR, 1-1-2019 edition, and eCFR"
#define CFR_25      "14 CFR, 1-1-2007 and 1-1-2019 editions"
#define CFR_25_2019 "14 CFR, 1-1-2019 edition"
#define CFR_25_FG   "14 CFR, 1-1-2019 edition, from (g)(4) on; the rest as quoted on a pilots' forum"
#define CFR_25_121  "14 CFR, 1-1-2019 edition, and eCFR"
#define CS_107      "CS-25, ED Decision 2016/010/R"
#define CS_149_H    "CS-25, a print before 2015, from (g)(4) on"
#define CS_149_FG   "AMC 25.149(f) and (g), CS-25 Amdt 26; the paragraph itself from memory"
#define JAR_51      "JAR 23.51, which CS-23 took over; CS 23.51 itself from memory"
#define OPS_525     "EU-OPS, Appendix 1 to OPS 1.525(b), which repeats it; CS 23.67 itself from memory"

/* ---- scopes --------------------------------------------------------------------------------------------------
 */

#define LB_6000      (6000 * LB)
#define LB_12500     (12500 * LB)
#define LB_19000     (19000 * LB)
#define PISTON       (1u << LS_ENGINE_PISTON)
#define KNOWN        (PISTON | 1u << LS_ENGINE_TURBOPROP | 1u << LS_ENGINE_JET)
#define PROPELLER    (KNOWN & ~(1u << LS_ENGINE_JET))
#define NORMAL       .scope = {.mass_to_kg = LB_12500}
#define NOT_LIGHT    .scope = {.types = KNOWN, .piston_above_kg = LB_6000}
#define NORMAL_HEAVY .scope = {.types = KNOWN, .piston_above_kg = LB_6000, .mass_to_kg = LB_12500}
#define LIGHT_FAST   .scope = {.types = PISTON, .mass_to_kg = LB_6000, .landing_stall_above_m_s = 61 * KT}
#define LIGHT_SLOW   .scope = {.types = PISTON, .mass_to_kg = LB_6000, .landing_stall_to_m_s = 61 * KT}
#define COMMUTER     /* no piston aeroplane as light as 6000 lb is */ \
    .scope = {.types = KNOWN,                                         \
              .piston_above_kg = LB_6000,                             \
              .mass_to_kg = LB_19000,                                 \
              .unknown = "if in the commuter category"}
#define THREE_UP .scope = {.engines_least = 3}

/* ---- what is left open ---------------------------------------------------------------------------------------
 */

#define STEADY     "the sudden failure and the recovery are motion; this is steady flight"
#define ONE_DAY    "sea level on a standard day only"
#define MOTION     "motion after the failure is not in a static analysis"
#define GROUND_RUN "the ground run is not in a static analysis"
#define TAB        "the rudder tab stands as the file says"
#define LIVE_PROPS "the live propellers run at the file's take-off rating"
#define ONE_FLAP   "one setting, the file's"
#define FAILURE    "taken from the propeller: feathered where that is automatic, else windmilling"
#define APPROACH   "trim for the approach is not known: the take-off tab is kept"
#define CHOSEN     "the applicant chooses it; the paragraph has no multiple"
#define SHOWN_SAFE "it must be shown safe besides, whatever its number"
#define LANDING_KG "the landing weight is not known: maximum weight"

/* clang-format off */

/* ---- part 23 and CS-23: control ------------------------------------------------------------------------------ */

#define CONTROL_23(PREFIX, FORCE_N, READ, READ_E)                                                                \
    {PREFIX "23.149(a)", LS_RULE_BANK, .limit = 5 * DEG, .read = (READ), .not_shown = STEADY,                    \
     .text = "After the critical engine fails, straight flight is held at VMC within this bank."},               \
    {PREFIX "23.149(a)", LS_RULE_SET_PROPELLER, .read = (READ), .not_shown = FAILURE,                            \
     .text = "The failure is the one that service may bring that is worst for control."},                        \
    {PREFIX "23.149(b)", LS_RULE_STALL_MULTIPLE, .limit = 1.2, .read = (READ), .not_shown = ONE_DAY,             \
     .text = "VMC for take-off, over the stall speed VS1 at maximum take-off weight."},                          \
    {PREFIX "23.149(b)", LS_RULE_SET_LOADING, .read = (READ), .not_shown = "",                                   \
     .text = "Most unfavourable weight and centre of gravity."},                                                 \
    {PREFIX "23.149(b)", LS_RULE_SET_GROUND, .read = (READ), .not_shown = "", .text = "Out of ground effect."},  \
    {PREFIX "23.149(b)(1)", LS_RULE_SET_POWER, .limit = 1, .read = (READ), .not_shown = ONE_DAY,                 \
     .text = "All the take-off power there is, on every engine until one fails."},                               \
    {PREFIX "23.149(b)(2)", LS_RULE_SET_TRIM, .read = (READ), .not_shown = TAB, .text = "Trim for take-off."},   \
    {PREFIX "23.149(b)(3)", LS_RULE_SET_FLAP, .read = (READ), .not_shown = ONE_FLAP,                             \
     .text = "Flaps for take-off."},                                                                             \
    {PREFIX "23.149(b)(4)", LS_RULE_SET_GEAR, .read = (READ), .not_shown = "", .text = "Landing gear up."},      \
    {PREFIX "23.149(b)(5)", LS_RULE_SET_PROPELLER, .read = (READ), .not_shown = LIVE_PROPS,                      \
     .text = "Propeller controls left as recommended for take-off."},                                            \
    {PREFIX "23.149(c)", LS_RULE_BANK, LS_CASE_LANDING, NOT_LIGHT, .limit = 5 * DEG, .read = (READ),             \
     .not_shown = APPROACH,                                                                                      \
     .text = "Straight flight as in (a) also with landing flap and gear down, at take-off power (not asked "     \
             "of piston aeroplanes up to 6000 lb)."},                                                            \
    {PREFIX "23.149(d)", LS_RULE_VSSE, .read = (READ), .not_shown = CHOSEN,                                      \
     .text = "A speed VSSE is set, below which no engine is made inoperative on purpose."},                      \
    {PREFIX "23.149(e)", LS_RULE_PEDAL, .limit = (FORCE_N), .read = (READ_E), .not_shown = STEADY,               \
     .text = "Force on the rudder pedal at VMC."},                                                               \
    {PREFIX "23.149(e)", LS_RULE_NO_POWER_CUT, .limit = 1, .read = (READ_E), .not_shown = STEADY,                \
     .text = "The live engines keep their power at VMC."},                                                       \
    {PREFIX "23.149(e)", LS_RULE_HEADING, .limit = 20 * DEG, .read = (READ), .not_shown = MOTION,                \
     .text = "The heading changes no more than this before the aeroplane is straight again, at no dangerous "    \
             "attitude."}

#define TAKEOFF_23(PREFIX, READ)                                                                                 \
    {PREFIX "23.51(a)(1)", LS_RULE_TAKEOFF_SPEED, NORMAL, .vmc_multiple = 1.05, .stall_multiple = 1.10,          \
     .speed = "VR", .read = (READ), .not_shown = "", .text = "Rotation speed: 1.05 VMC or 1.10 VS1."},           \
    {PREFIX "23.51(b)(1)", LS_RULE_TAKEOFF_SPEED, NORMAL, .vmc_multiple = 1.10, .stall_multiple = 1.20,          \
     .speed = "50 ft speed", .read = (READ), .not_shown = SHOWN_SAFE,                                         \
     .text = "Speed 50 ft above the surface: 1.10 VMC or 1.20 VS1."},                                            \
    {PREFIX "23.51(c)(1)(i)", LS_RULE_TAKEOFF_SPEED, COMMUTER, .vmc_multiple = 1.05, .speed = "VEF",             \
     .read = (READ), .not_shown = "VMCG may stand in for it",                                                    \
     .text = "Speed at which the engine is taken to fail: 1.05 VMC."},                                           \
    {PREFIX "23.51(c)(2)", LS_RULE_TAKEOFF_SPEED, COMMUTER, .vmc_multiple = 1.05, .stall_multiple = 1.10,        \
     .speed = "VR", .read = FROM_MEMORY, .not_shown = "VR is not below V1 either",                               \
     .text = "Rotation speed: 1.05 VMC or 1.10 VS1."},                                                           \
    {PREFIX "23.51(c)(4)", LS_RULE_TAKEOFF_SPEED, COMMUTER, .vmc_multiple = 1.10, .stall_multiple = 1.20,        \
     .speed = "V2", .read = FROM_MEMORY, .not_shown = "V2 also has to give the climb of 23.67(c)",               \
     .text = "Take-off safety speed: 1.10 VMC or 1.20 VS1."}

#define CLIMB_23(PREFIX, READ_66, READ_A, READ_B1, READ_B2, NOT_SHOWN_B1)                                        \
    {PREFIX "23.66", LS_RULE_CLIMB, NORMAL_HEAVY, .climb = &climb_23_66, .read = (READ_66),                      \
     .not_shown = "gear up if it retracts within 7 s",                                                           \
     .text = "Climb just after take-off, wings level: to be determined."},                                       \
    {PREFIX "23.67(a)(1)", LS_RULE_CLIMB, LIGHT_FAST, .climb = &climb_23_67_a1, .read = (READ_A),                \
     .not_shown = "not asked of an aeroplane that meets 23.562(d)",                                              \
     .text = "Climb at 5000 ft, clean, of a light piston aeroplane with VS0 above 61 kt."},                      \
    {PREFIX "23.67(a)(2)", LS_RULE_CLIMB, LIGHT_SLOW, .climb = &climb_23_67_a2, .read = (READ_A),                \
     .not_shown = "",                                                                                            \
     .text = "Climb or descent at 5000 ft, clean, of a light piston aeroplane with VS0 up to 61 kt: to be "      \
             "determined."},                                                                                     \
    {PREFIX "23.67(b)(1)", LS_RULE_CLIMB, NORMAL_HEAVY, .climb = &climb_23_67_b1, .read = (READ_B1),             \
     .not_shown = (NOT_SHOWN_B1), .text = "Climb at 400 ft with take-off flap: measurably positive."},             \
    {PREFIX "23.67(b)(2)", LS_RULE_CLIMB, NORMAL_HEAVY, .climb = &climb_23_67_b2, .read = (READ_B2),             \
     .not_shown = "", .text = "Climb at 1500 ft, clean."},                                                       \
    {PREFIX "23.67(c)(1)", LS_RULE_CLIMB, COMMUTER, .climb = &climb_23_67_c1, .read = FROM_MEMORY,               \
     .not_shown = "", .text = "Take-off climb with the gear down, wings level."},                                \
    {PREFIX "23.67(c)(2)", LS_RULE_CLIMB, COMMUTER, .climb = &climb_23_67_c2, .read = FROM_MEMORY,               \
     .not_shown = "", .text = "Take-off climb at 400 ft with the gear up."},                                     \
    {PREFIX "23.67(c)(3)", LS_RULE_CLIMB, COMMUTER, .climb = &climb_23_67_c3, .read = FROM_MEMORY,               \
     .not_shown = "", .text = "Climb en route at 1500 ft, clean."},                                              \
    {PREFIX "23.67(c)(4)", LS_RULE_CLIMB, COMMUTER, .climb = &climb_23_67_c4, .read = FROM_MEMORY,               \
     .not_shown = LANDING_KG, .text = "Climb from a discontinued approach at 400 ft."}

static const ls_rule_condition part23_amdt50[] = {
    CONTROL_23("", 150 * LBF, CFR_2004, CFR_COPY),
    {"23.149(f)", LS_RULE_GROUND, COMMUTER, .limit = 30 * FT,
     .read = "14 CFR, 1-1-2014 edition, from (f)(2) on; the rest from memory", .not_shown = GROUND_RUN,
     .text = "VMCG may be set: rudder alone, the path within this distance of the centreline."},
    TAKEOFF_23("", CFR_2003),
    CLIMB_23("", CFR_23_62, CFR_2004, FROM_MEMORY, CFR_23_62, "1 % since Amdt 23-62, which was read"),
};

static const ls_rule_condition cs23[] = {
    CONTROL_23("CS ", 667, FROM_MEMORY, FROM_MEMORY),
    TAKEOFF_23("CS ", JAR_51),
    CLIMB_23("CS ", FROM_MEMORY, FROM_MEMORY, OPS_525, OPS_525, ""),
};

/* ---- part 25 and CS-25 --------------------------------------------------------------------------------------- */

#define CONTROL_25(PREFIX, FORCE_N, DEVIATION_M, READ, READ_FG, READ_H)                                          \
    {PREFIX "25.149(a)", LS_RULE_SET_PROPELLER, .read = (READ), .not_shown = FAILURE,                            \
     .text = "The failure is the one that service may bring that is worst for control."},                        \
    {PREFIX "25.149(b)", LS_RULE_BANK, .limit = 5 * DEG, .read = (READ), .not_shown = STEADY,                    \
     .text = "After the critical engine fails, straight flight is held at VMC within this bank."},               \
    {PREFIX "25.149(c)", LS_RULE_STALL_MULTIPLE, .limit = 1.13, .read = (READ), .not_shown = ONE_DAY,            \
     .text = "VMC over the reference stall speed VSR."},                                                         \
    {PREFIX "25.149(c)(1)", LS_RULE_SET_POWER, .limit = 1, .read = (READ), .not_shown = ONE_DAY,                 \
     .text = "All the take-off power or thrust there is."},                                                      \
    {PREFIX "25.149(c)(2)", LS_RULE_SET_LOADING, .read = (READ), .not_shown = "",                                \
     .text = "Most unfavourable centre of gravity."},                                                            \
    {PREFIX "25.149(c)(3)", LS_RULE_SET_TRIM, .read = (READ), .not_shown = TAB, .text = "Trim for take-off."},   \
    {PREFIX "25.149(c)(4)", LS_RULE_SET_LOADING, .read = (READ),                                                 \
     .not_shown = "lighter only where the wing stalls first at maximum weight",                                  \
     .text = "Maximum sea-level take-off weight, or a lesser one if VMC cannot be shown at it."},                \
    {PREFIX "25.149(c)(5)", LS_RULE_SET_FLAP, .read = (READ), .not_shown = ONE_FLAP,                             \
     .text = "The worst take-off configuration once airborne."},                                                 \
    {PREFIX "25.149(c)(5)", LS_RULE_SET_GEAR, .read = (READ), .not_shown = "", .text = "Landing gear up."},      \
    {PREFIX "25.149(c)(6)", LS_RULE_SET_GROUND, .read = (READ), .not_shown = "",                                 \
     .text = "Out of ground effect."},                                                                           \
    {PREFIX "25.149(c)(7)", LS_RULE_SET_PROPELLER, .read = (READ), .not_shown = FAILURE,                         \
     .text = "Failed propeller windmilling, as the design makes most probable, or feathered if that is "         \
             "automatic."},                                                                                      \
    {PREFIX "25.149(d)", LS_RULE_PEDAL, .limit = (FORCE_N), .read = (READ), .not_shown = STEADY,                 \
     .text = "Force on the rudder pedal at VMC."},                                                               \
    {PREFIX "25.149(d)", LS_RULE_NO_POWER_CUT, .limit = 1, .read = (READ), .not_shown = STEADY,                  \
     .text = "The live engines keep their power or thrust at VMC."},                                             \
    {PREFIX "25.149(d)", LS_RULE_HEADING, .limit = 20 * DEG, .read = (READ), .not_shown = MOTION,                \
     .text = "The heading changes no more than this in the recovery, with ordinary skill and strength."},        \
    {PREFIX "25.149(e)", LS_RULE_GROUND, .limit = (DEVIATION_M), .read = (READ), .not_shown = GROUND_RUN,        \
     .text = "VMCG: rudder alone, no nose-wheel steering, the path within this distance of the centreline."},    \
    {PREFIX "25.149(f)", LS_RULE_BANK, LS_CASE_LANDING, .limit = 5 * DEG, .read = (READ_FG),                     \
     .not_shown = APPROACH,                                                                                      \
     .text = "VMCL: straight flight within this bank in the approach and landing configurations, one engine "    \
             "failed, the others at go-around power."},                                                          \
    {PREFIX "25.149(f)", LS_RULE_SPEED_FOUND, LS_CASE_LANDING, .speed = "VMCL", .read = (READ_FG),               \
     .not_shown = APPROACH, .text = "VMCL is determined."},                                                      \
    {PREFIX "25.149(g)", LS_RULE_BANK, LS_CASE_TWO_OUT, THREE_UP, .limit = 5 * DEG, .read = (READ_FG),           \
     .not_shown = "the sudden change of power is motion; go-around power is used",                               \
     .text = "VMCL-2: the same when a second engine fails on an approach with one feathered already (three "     \
             "or more engines)."},                                                                               \
    {PREFIX "25.149(g)", LS_RULE_SPEED_FOUND, LS_CASE_TWO_OUT, THREE_UP, .speed = "VMCL-2", .read = (READ_FG),   \
     .not_shown = APPROACH, .text = "VMCL-2 is determined."},                                                    \
    {PREFIX "25.149(h)(1)", LS_RULE_PEDAL, LS_CASE_LANDING, .limit = (FORCE_N), .read = (READ_H),                \
     .not_shown = STEADY, .text = "Force on the rudder pedal at VMCL."},                                         \
    {PREFIX "25.149(h)(1)", LS_RULE_PEDAL, LS_CASE_TWO_OUT, THREE_UP, .limit = (FORCE_N), .read = (READ_H),      \
     .not_shown = STEADY, .text = "Force on the rudder pedal at VMCL-2."},                                       \
    {PREFIX "25.149(h)(3)", LS_RULE_ROLL, LS_CASE_LANDING, .limit = 5, .read = (READ_H), .not_shown = MOTION,    \
     .text = "Rolls 20 deg away from the failed engine within this time."}

#define TAKEOFF_25(PREFIX, READ, READ_E)                                                                         \
    {PREFIX "25.107(a)(1)", LS_RULE_GROUND, .read = (READ), .not_shown = GROUND_RUN,                             \
     .text = "The engine is taken to fail, VEF, at no less than VMCG."},                                         \
    {PREFIX "25.107(b)(1)", LS_RULE_TAKEOFF_SPEED, .scope = {.types = PROPELLER, .engines_most = 3},             \
     .vmc_multiple = 1.10, .stall_multiple = 1.13, .speed = "V2MIN", .read = (READ), .not_shown = "",            \
     .text = "Least take-off safety speed, two or three engines with propellers: 1.10 VMC or 1.13 VSR."},        \
    {PREFIX "25.107(b)(1)", LS_RULE_TAKEOFF_SPEED, .scope = {.types = 1u << LS_ENGINE_JET},                      \
     .vmc_multiple = 1.10, .stall_multiple = 1.13, .speed = "V2MIN", .read = (READ),                             \
     .not_shown = "1.08 VSR if power is provided to lower the stall speed with one engine out",                  \
     .text = "Least take-off safety speed, jets: 1.10 VMC or 1.13 VSR."},                                        \
    {PREFIX "25.107(b)(2)", LS_RULE_TAKEOFF_SPEED, .scope = {.types = PROPELLER, .engines_least = 4},            \
     .vmc_multiple = 1.10, .stall_multiple = 1.08, .speed = "V2MIN", .read = (READ), .not_shown = "",            \
     .text = "Least take-off safety speed, four or more engines with propellers: 1.10 VMC or 1.08 VSR."},        \
    {PREFIX "25.107(e)(1)(ii)", LS_RULE_TAKEOFF_SPEED, .vmc_multiple = 1.05, .speed = "VR", .read = (READ_E),    \
     .not_shown = "V1 and the speed reached by 35 ft bound it too", .text = "Rotation speed: 1.05 VMC."}

#define CLIMB_25(PREFIX, READ)                                                                                   \
    {PREFIX "25.121(a)", LS_RULE_CLIMB, .climb = &climb_25_121_a, .read = (READ), .not_shown = "",               \
     .text = "Take-off climb with the gear down."},                                                              \
    {PREFIX "25.121(b)", LS_RULE_CLIMB, .climb = &climb_25_121_b, .read = (READ), .not_shown = "",               \
     .text = "Take-off climb with the gear up."},                                                                \
    {PREFIX "25.121(c)", LS_RULE_CLIMB, .climb = &climb_25_121_c, .read = (READ), .not_shown = "",               \
     .text = "Final take-off climb, en-route configuration."},                                                   \
    {PREFIX "25.121(d)", LS_RULE_CLIMB, .climb = &climb_25_121_d, .read = (READ), .not_shown = LANDING_KG,       \
     .text = "Approach climb, where VSR is at most 1.10 times that of the landing setting."}

static const ls_rule_condition part25[] = {
    CONTROL_25("", 150 * LBF, 30 * FT, CFR_25, CFR_25_FG, CFR_25_2019),
    TAKEOFF_25("", CFR_25, CFR_25_2019),
    CLIMB_25("", CFR_25_121),
};

static const ls_rule_condition cs25[] = {
    CONTROL_25("CS ", 667, 9.1, FROM_MEMORY, CS_149_FG, CS_149_H),
    TAKEOFF_25("CS ", CS_107, FROM_MEMORY),
    CLIMB_25("CS ", FROM_MEMORY),
};

/* ---- part 23 as it is now ------------------------------------------------------------------------------------ */

#define MEANS "the numbers are in an accepted means of compliance, which was not read"

static const ls_rule_condition part23_now[] = {
    {"23.2100(b)", LS_RULE_SET_LOADING, .read = CFR_23_NOW, .not_shown = "",
     .text = "Critical combinations of weight and centre of gravity."},
    {"23.2105(a)", LS_RULE_SET_POWER, .limit = 1, .read = CFR_23_NOW, .not_shown = ONE_DAY,
     .text = "Still, standard air at sea level; the whole operating envelope for fast or larger aeroplanes."},
    {"23.2115(a)", LS_RULE_PERFORMANCE, .read = CFR_23_NOW, .not_shown = MEANS,
     .text = "Take-off performance accounts for stall margins, minimum control speeds and climb gradients."},
    {"23.2120(b)(1)", LS_RULE_CLIMB,
     .scope = {.unknown = "if level 1 or 2, low speed, and without single-engine crashworthiness"},
     .climb = &climb_23_2120_b1, .read = CFR_23_NOW, .not_shown = MEANS,
     .text = "Climb at 5000 ft, cruise configuration, after a critical loss of thrust."},
    {"23.2120(b)(2)", LS_RULE_CLIMB, .scope = {.unknown = "if level 1 or 2, high speed, or level 3, low speed"},
     .climb = &climb_23_2120_b2, .read = CFR_23_NOW, .not_shown = MEANS,
     .text = "Climb at 400 ft, take-off flap, gear up, after a critical loss of thrust."},
    {"23.2120(b)(3)", LS_RULE_CLIMB, .scope = {.unknown = "if level 3, high speed, or level 4"},
     .climb = &climb_23_2120_b3, .read = CFR_23_NOW, .not_shown = MEANS,
     .text = "Climb at 400 ft, approach flap, gear up, after a critical loss of thrust."},
    {"23.2135(a)", LS_RULE_PERFORMANCE, .read = CFR_23_NOW, .not_shown = MEANS,
     .text = "Controllable without exceptional skill, alertness or strength, also after a propulsion failure."},
    {"23.2135(c)", LS_RULE_SET_LIMITS, .read = CFR_23_NOW, .not_shown = MEANS,
     .text = "The paragraph has no number: bank and pedal force are taken from 23.149 as it was."},
    {"23.2135(c)", LS_RULE_SPEED_FOUND, .speed = "VMC", .read = CFR_23_NOW, .not_shown = STEADY,
     .text = "VMC after a sudden critical loss of thrust, worst configuration for take-off."},
    {"23.2135(c)", LS_RULE_SPEED_FOUND, LS_CASE_LANDING, .speed = "VMC, landing", .read = CFR_23_NOW,
     .not_shown = APPROACH, .text = "The same for landing."},
};

/* clang-format on */

/* ---- the list ------------------------------------------------------------------------------------------------
 */

#define VS1_NOTE \
    "VS1 is measured in a stall entered at 1 kt/s, often a few percent below the model's 1 g power-off speed"
#define VSR_NOTE "VSR is not below the 1 g stall speed (25.103); the model's 1 g power-off speed stands for it"

const ls_rule_basis rule_bases[] = {
    {"part23-amdt50",
     "14 CFR part 23 at Amendment 23-50 (1996)",
     "aeroplanes to 12 500 lb, commuter category to 19 000 lb",
     "VS1",
     VS1_NOTE,
     {.engines_least = 2, .types = KNOWN, .mass_to_kg = LB_19000},
     5 * DEG,
     150 * LBF,
     0,
     0,
     COUNT(part23_amdt50),
     part23_amdt50},
    {"cs23",
     "EASA CS-23 before Amendment 5 (2003 to 2017)",
     "twins to 5670 kg, commuter category to 8618 kg",
     "VS1",
     VS1_NOTE,
     {.engines_least = 2, .types = KNOWN, .mass_to_kg = LB_19000},
     5 * DEG,
     667,
     0,
     0,
     COUNT(cs23),
     cs23},
    {"part23-now",
     "14 CFR part 23 since Amendment 23-64 (2017)",
     "aeroplanes to 19 seats and 19 000 lb",
     "VS1",
     VS1_NOTE,
     {.engines_least = 2, .mass_to_kg = LB_19000},
     5 * DEG,
     150 * LBF,
     0,
     1,
     COUNT(part23_now),
     part23_now},
    {"part25",
     "14 CFR part 25",
     "transport category aeroplanes; rarely below 12 500 lb",
     "VSR",
     VSR_NOTE,
     {.engines_least = 2, .types = KNOWN, .mass_above_kg = LB_12500},
     5 * DEG,
     150 * LBF,
     1,
     1,
     COUNT(part25),
     part25},
    {"cs25",
     "EASA CS-25",
     "large turbine aeroplanes; rarely below 5670 kg",
     "VSR",
     VSR_NOTE,
     {.engines_least = 2, .types = KNOWN & ~PISTON, .mass_above_kg = LB_12500},
     5 * DEG,
     667,
     1,
     1,
     COUNT(cs25),
     cs25},
};

const int rule_bases_count = COUNT(rule_bases);
