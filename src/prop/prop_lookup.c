/* Reading the table: cubics through four nodes along each of its three axes. */
#include <math.h>

#include "table.h"

static const double pi = 3.14159265358979323846;

/* A point of the table: where it falls on each axis, the weights of the 16 nodes of a pitch row, the scale. */
typedef struct {
    axis_place pitch;
    axis_pair weight[16];
    long at; /* of the first node, in a pitch row */
    double W, mach;
} table_point;

static inline axis_pair both(double x)
{
    return (axis_pair){x, x};
}

static inline axis_pair load(const double *at)
{
    return (axis_pair){at[0], at[1]};
}

static inline void find_point(const ls_prop_table *table, const ls_disc_state *state, table_point *point)
{
    double Vt = 0.75 * pi * state->n_rev_s * table->diameter_m, Vx = state->V_axial_m_s;
    point->W = sqrt(Vx * Vx + Vt * Vt);
    point->mach = point->W / state->a_m_s;
    point->pitch = axis_at(&table->pitch, state->pitch_rad);
    axis_place d = axis_at(&table->delta, state->pitch_rad - atan2(Vx, Vt));
    axis_place m = axis_at(&table->mach, point->mach);
    for (int k = 0; k < 4; k++) {
        axis_pair share = both(d.weight[k / 2][k % 2]);
        axis_pair low = share * m.weight[0], high = share * m.weight[1];
        point->weight[4 * k] = both(low[0]);
        point->weight[4 * k + 1] = both(low[1]);
        point->weight[4 * k + 2] = both(high[0]);
        point->weight[4 * k + 3] = both(high[1]);
    }
    point->at = (long)d.first * TABLE_LINE + m.first * TABLE_COLUMNS;
}

/* Adds a row's weighted sum of the first two or all four columns over 4 deltas and 4 Mach numbers. Written out,
 * with two chains of additions for each pair of columns, that no addition need wait for the one before it. */
static inline void add_row(const double *node, const axis_pair *weight, double share, int in_plane,
                           axis_pair sum[2])
{
    axis_pair first = both(0.0), second = both(0.0), first_too = both(0.0), second_too = both(0.0);
    for (int k = 0; k < 4; k++, node += TABLE_LINE, weight += 4) {
        first += weight[0] * load(node);
        first_too += weight[1] * load(node + 4);
        first += weight[2] * load(node + 8);
        first_too += weight[3] * load(node + 12);
        if (in_plane) {
            second += weight[0] * load(node + 2);
            second_too += weight[1] * load(node + 6);
            second += weight[2] * load(node + 10);
            second_too += weight[3] * load(node + 14);
        }
    }
    sum[0] += both(share) * (first + first_too);
    sum[1] += both(share) * (second + second_too);
}

/* On a row itself, as on the fine stop, the rows beside it weigh nothing and are not read. */
static inline void sum_nodes(const ls_prop_table *table, const table_point *point, int in_plane, axis_pair sum[2])
{
    sum[0] = sum[1] = both(0.0);
    for (int k = 0; k < 4; k++) {
        double share = point->pitch.weight[k / 2][k % 2];
        if (share != 0.0) {
            const double *node = &table->value[table->base[point->pitch.first + k] + point->at];
            add_row(node, point->weight, share, in_plane, sum);
        }
    }
}

void prop_table_thrust_torque(const ls_prop_table *table, const ls_disc_state *state, ls_disc_axial *axial)
{
    table_point point;
    axis_pair sum[2];
    find_point(table, state, &point);
    sum_nodes(table, &point, 0, sum);
    double D = table->diameter_m, force = state->rho_kg_m3 * D * D * point.W * point.W;
    axial->T_N = force * sum[0][0];
    axial->Q_N_m = force * D * sum[0][1];
}

unsigned ls_prop_table_at(const ls_prop_table *table, const ls_disc_state *state, ls_disc_axial *axial)
{
    table_point point;
    axis_pair sum[2];
    find_point(table, state, &point);
    sum_nodes(table, &point, 1, sum);
    double D = table->diameter_m, area = state->rho_kg_m3 * D * D, W = point.W;
    *axial = (ls_disc_axial){
        .T_N = area * W * W * sum[0][0],
        .Q_N_m = area * W * W * D * sum[0][1],
        .N_N_s_m = area * W * sum[1][0],
        .m1_N_s = area * D * W * sum[1][1],
    };
    return (axis_holds(&table->pitch, state->pitch_rad) ? 0u : LS_PROP_PITCH_OUTSIDE) |
           (axis_holds(&table->mach, point.mach) ? 0u : LS_PROP_MACH_OUTSIDE);
}

double prop_table_windmill_rev_s(const ls_prop_table *table, double V_m_s)
{
    return V_m_s / (table->windmill_slope * 0.75 * pi * table->diameter_m);
}
