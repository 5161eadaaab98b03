/* The tables of rules_data.c and rules_climb_data.c. */
#ifndef LIVESIDE_RULES_RULES_DATA_H
#define LIVESIDE_RULES_RULES_DATA_H

#include "liveside/rules.h"

#define LB          0.45359237
#define LBF         (LB * 9.80665)
#define FT          0.3048
#define KT          (1852.0 / 3600.0)
#define DEG         (3.14159265358979323846 / 180.0)
#define FROM_MEMORY "from memory"

extern const ls_rule_basis rule_bases[];
extern const int rule_bases_count;

/* Climb gradients, by the paragraph that asks them. */
extern const ls_rule_climb climb_23_66, climb_23_67_a1, climb_23_67_a2, climb_23_67_b1, climb_23_67_b2,
    climb_23_67_c1, climb_23_67_c2, climb_23_67_c3, climb_23_67_c4, climb_23_2120_b1, climb_23_2120_b2,
    climb_23_2120_b3, climb_25_121_a, climb_25_121_b, climb_25_121_c, climb_25_121_d;

#endif
