/* How a propeller's table is laid out, and what searches ask of it besides the loads. */
#ifndef LIVESIDE_PROP_TABLE_LAYOUT_H
#define LIVESIDE_PROP_TABLE_LAYOUT_H

#include "axis.h"
#include "liveside/prop_table.h"

enum { TABLE_COLUMNS = 4, TABLE_MACHS = 11, TABLE_LINE = TABLE_MACHS * TABLE_COLUMNS };

struct ls_prop_table {
    double diameter_m;
    double windmill_slope; /* tan psi at 0.75 R up to which the flow does not drive the finest pitch, any Mach */
    axis pitch, delta, mach;
    int delta_first[AXIS_NODES_MAX], delta_last[AXIS_NODES_MAX]; /* that a pitch row holds */
    size_t count;                                                /* values in all */
    long base[AXIS_NODES_MAX]; /* of a pitch row: base + delta index * TABLE_LINE is the node */
    double value[];            /* [pitch][delta][mach][column] */
};

/* Thrust and torque alone, at half the cost of ls_prop_table_at, to the last bit the same; in T_N and Q_N_m. */
void prop_table_thrust_torque(const ls_prop_table *table, const ls_disc_state *state, ls_disc_axial *axial);

/* A speed of rotation, a little above the one of free windmilling, from which on the propeller on its finest pitch
 * takes torque and is not driven. Given: V_m_s >= 0 along the shaft. */
double prop_table_windmill_rev_s(const ls_prop_table *table, double V_m_s);

#endif
