/* Climb gradients with one engine failed. The texts that were read are named in the conditions that point here. */
#include "rules/rules_data.h"

#include <math.h>

/* Gradients in percent for two, three and four engines; NaN: only to be determined. Heights in feet. Bank: the
 * most that may be used, in degrees; NaN where the paragraph does not say. */
#define CLIMB(id, two, three, four, height_ft, is_altitude, flap, gear, power, propeller, bank_deg, ...) \
    const ls_rule_climb climb_##id = {{(two) / 100.0, (three) / 100.0, (four) / 100.0},                  \
                                      (height_ft)*FT,                                                    \
                                      is_altitude,                                                       \
                                      LS_CLIMB_FLAP_##flap,                                              \
                                      gear,                                                              \
                                      LS_CLIMB_POWER_##power,                                            \
                                      LS_CLIMB_##propeller,                                              \
                                      (bank_deg)*DEG,                                                    \
                                      __VA_ARGS__}

#define AT_LEAST(multiple, stall)                 \
    {                                             \
        LS_CLIMB_SPEED_AT_LEAST, multiple, #stall \
    }
#define AT_MOST(multiple, stall)                 \
    {                                            \
        LS_CLIMB_SPEED_AT_MOST, multiple, #stall \
    }
#define SCHEDULED(name)                   \
    {                                     \
        LS_CLIMB_SPEED_TAKEOFF, NAN, name \
    }
#define OTHER(name)                     \
    {                                   \
        LS_CLIMB_SPEED_OTHER, NAN, name \
    }
#define ANY                         \
    {                               \
        LS_CLIMB_SPEED_ANY, NAN, "" \
    }

/* A bank of 5 deg is 23.63(a)(3), unless the paragraph asks for wings level. */
CLIMB(23_66, NAN, NAN, NAN, 0, 0, TAKEOFF, 1.0, TAKEOFF, AS_IT_GOES, 0, SCHEDULED("50 ft speed"));
CLIMB(23_67_a1, 1.5, 1.5, 1.5, 5000, 1, UP, 0.0, CONTINUOUS, LEAST_DRAG, 5, AT_LEAST(1.2, VS1));
CLIMB(23_67_a2, NAN, NAN, NAN, 5000, 1, UP, 0.0, CONTINUOUS, LEAST_DRAG, 5, AT_LEAST(1.2, VS1));
CLIMB(23_67_b1, 0.0, 0.0, 0.0, 400, 0, TAKEOFF, 0.0, TAKEOFF, LEAST_DRAG, 5, SCHEDULED("50 ft speed"));
CLIMB(23_67_b2, 0.75, 0.75, 0.75, 1500, 0, UP, 0.0, CONTINUOUS, LEAST_DRAG, 5, AT_LEAST(1.2, VS1));
CLIMB(23_67_c1, 0.0, 0.3, 0.5, 0, 0, TAKEOFF, 1.0, TAKEOFF, AS_IT_GOES, 0, SCHEDULED("V2"));
CLIMB(23_67_c2, 2.0, 2.3, 2.6, 400, 0, TAKEOFF, 0.0, TAKEOFF, AS_IT_GOES, 5, SCHEDULED("V2"));
CLIMB(23_67_c3, 1.2, 1.5, 1.7, 1500, 0, UP, 0.0, CONTINUOUS, LEAST_DRAG, 5, AT_LEAST(1.2, VS1));
CLIMB(23_67_c4, 2.1, 2.4, 2.7, 400, 0, APPROACH, 0.0, TAKEOFF, LEAST_DRAG, 5, AT_MOST(1.5, VS1));

CLIMB(23_2120_b1, 1.5, 1.5, 1.5, 5000, 1, UP, 0.0, CONTINUOUS, LEAST_DRAG, NAN, ANY);
CLIMB(23_2120_b2, 1.0, 1.0, 1.0, 400, 0, TAKEOFF, 0.0, TAKEOFF, LEAST_DRAG, NAN, ANY);
CLIMB(23_2120_b3, 2.0, 2.0, 2.0, 400, 0, APPROACH, 0.0, TAKEOFF, LEAST_DRAG, NAN, ANY);

CLIMB(25_121_a, 0.0, 0.3, 0.5, 0, 0, TAKEOFF, 1.0, TAKEOFF, AS_IT_GOES, NAN, OTHER("VLOF"));
CLIMB(25_121_b, 2.4, 2.7, 3.0, 400, 0, TAKEOFF, 0.0, TAKEOFF, AS_IT_GOES, NAN, SCHEDULED("V2"));
/* VFTO is at least 1.18 VSR: 25.107(g), from memory. */
CLIMB(25_121_c, 1.2, 1.5, 1.7, 1500, 0, UP, 0.0, CONTINUOUS, LEAST_DRAG, NAN, AT_LEAST(1.18, VSR));
CLIMB(25_121_d, 2.1, 2.4, 2.7, 0, 0, APPROACH, 0.0, GO_AROUND, LEAST_DRAG, NAN, AT_MOST(1.4, VSR));
