/* The propeller's table with its slopes, for Newton's method. */
#ifndef LIVESIDE_PROP_SLOPES_H
#define LIVESIDE_PROP_SLOPES_H

#include "liveside/prop_table.h"

enum { PROP_THRUST, PROP_TORQUE, PROP_NORMAL, PROP_HUB, PROP_COLUMNS };

/* Thrust over rho W^2 D^2, torque over rho W^2 D^3, in-plane force over rho W D^2 and hub moment over rho W D^3
 * (both per m/s across the disc), W^2 = V^2 + (0.75 pi n D)^2, with their slopes by each of the three arguments,
 * the others held. */
typedef struct {
    double value[PROP_COLUMNS];
    double by_pitch[PROP_COLUMNS], by_delta[PROP_COLUMNS], by_mach[PROP_COLUMNS];
} prop_slopes;

/* Given: delta_rad, pitch less psi; mach, W over the speed of sound. Returned: the warning bits of
 * ls_prop_table_at; outside the table its end. */
unsigned prop_slopes_at(const ls_prop_table *table, double pitch_rad, double delta_rad, double mach,
                        prop_slopes *slopes);

/* The diameter of the propeller that the table is for. */
double prop_table_diameter(const ls_prop_table *table);

#endif
