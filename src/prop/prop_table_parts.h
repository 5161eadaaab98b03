/* What a propeller's table is made of, for those who build it and those who read it. */
#ifndef LIVESIDE_PROP_TABLE_PARTS_H
#define LIVESIDE_PROP_TABLE_PARTS_H

#include <stddef.h>

#include "axis.h"
#include "liveside/prop_table.h"

/* Columns: thrust, torque, normal force and hub moment, made dimensionless. */
enum { COLUMNS = 4, MACH_NODES = 11, LINE = MACH_NODES * COLUMNS };

struct ls_prop_table {
    double diameter_m;
    axis pitch, delta, mach;
    int delta_first[AXIS_NODES_MAX], delta_last[AXIS_NODES_MAX]; /* that a pitch row holds */
    double drives_below;                                         /* see prop_table_drives_below */
    size_t count;                                                /* values in all */
    long base[AXIS_NODES_MAX]; /* of a pitch row: base + delta index * LINE is the node */
    double value[];            /* [pitch][delta][mach][column] */
};

/* Works out what is kept besides the values. */
void prop_table_finish(ls_prop_table *table);

#endif
