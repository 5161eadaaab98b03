#include "liveside/prop_table.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "disc_axial.h"
#include "table.h"

static const double pi = 3.14159265358979323846;
static const double deg = 3.14159265358979323846 / 180.0;

/* Shares of the highest Mach number: the closer, the faster the drag rises. */
static const double mach_node[TABLE_MACHS] = {0.0, 0.15, 0.28, 0.4, 0.5, 0.6, 0.69, 0.77, 0.85, 0.92, 1.0};
static const double mach_max_usual = 0.75;

/* Node spacing in deg, up to each limit: close where the blade stalls, either way. */
typedef struct {
    double below_deg, step_deg;
} spacing;
static const spacing delta_spacing[] = {{-38, 2.5}, {-10, 1.0}, {6, 1.25}, {36, 1.0}, {1e9, 2.5}};
static const spacing pitch_spacing[] = {{30, 2.0}, {50, 2.5}, {1e9, 3.0}};

static double step_at(const spacing *table, double x)
{
    while (x / deg >= table->below_deg) {
        table++;
    }
    return table->step_deg * deg;
}

/* Rows from the finest to the coarsest pitch, both included; one row for a fixed pitch. */
static void place_pitches(const ls_prop_range *range, axis *pitch)
{
    double low = range->pitch_min_rad, span = range->pitch_max_rad - low, end = low;
    int count = 0;
    while (end < range->pitch_max_rad - 1e-9 || (count > 0 && count < 3)) {
        pitch->node[count++] = end;
        end += step_at(pitch_spacing, end);
    }
    pitch->node[count] = end;
    for (int i = 1; i <= count; i++) {
        pitch->node[i] = low + (pitch->node[i] - low) * span / (end - low);
    }
    pitch->count = count + 1;
    axis_prepare(pitch);
}

static void place_deltas(const ls_prop_range *range, axis *delta)
{
    double x = range->pitch_min_rad - 0.5 * pi, end = range->pitch_max_rad;
    delta->count = 0;
    while (x < end) {
        delta->node[delta->count++] = x;
        x += step_at(delta_spacing, x);
    }
    delta->node[delta->count++] = end;
    axis_prepare(delta);
}

static void place_machs(const ls_prop_range *range, axis *mach)
{
    double highest = range->mach_max > 0.0 ? range->mach_max : mach_max_usual;
    mach->count = TABLE_MACHS;
    for (int m = 0; m < TABLE_MACHS; m++) {
        mach->node[m] = mach_node[m] * highest;
    }
    axis_prepare(mach);
}

/* A row holds every node that a point inside the range can ask of it, that is for all the pitches
 * between the rows whose stencils include it. */
static void place_row(ls_prop_table *table, int row)
{
    const axis *pitch = &table->pitch;
    double low = pitch->node[row], high = low;
    for (int i = 0; i + 1 < pitch->count; i++) {
        if (pitch->first[i] <= row && row < pitch->first[i] + 4) {
            low = fmin(low, pitch->node[i]);
            high = fmax(high, pitch->node[i + 1]);
        }
    }
    table->delta_first[row] = axis_at(&table->delta, low - 0.5 * pi).first;
    table->delta_last[row] = axis_at(&table->delta, high).first + 3;
}

static double *node_at(ls_prop_table *table, int row, int k, int m)
{
    return &table->value[table->base[row] + k * TABLE_LINE + m * TABLE_COLUMNS];
}

/* Weights of the parabola through three points: its value at x. */
static void parabola(const double at[3], double x, double weight[3])
{
    for (int k = 0; k < 3; k++) {
        double p = at[(k + 1) % 3], q = at[(k + 2) % 3];
        weight[k] = (x - p) * (x - q) / ((at[k] - p) * (at[k] - q));
    }
}

/* The last solutions along a line, newest first, for the start of the next. */
typedef struct {
    int count;
    double delta[3];
    element_start at[3][LS_DISC_ELEMENTS_MAX];
} trail;

static void guess_next(const trail *so_far, double delta, int elements, element_start *start)
{
    double weight[3] = {1.0, 0.0, 0.0};
    if (so_far->count >= 3) {
        parabola(so_far->delta, delta, weight);
    }
    for (int i = 0; i < elements; i++) {
        double phi_rad = 0.0;
        for (int k = 0; k < 3; k++) {
            phi_rad += weight[k] * so_far->at[k][i].phi_rad;
        }
        start[i] = (element_start){phi_rad, so_far->count > 0 ? so_far->at[0][i].slope : 0.0};
    }
}

static void remember(trail *so_far, double delta, int elements, const element_start *solved)
{
    memmove(&so_far->delta[1], &so_far->delta[0], sizeof so_far->delta[0] * 2);
    memmove(&so_far->at[1], &so_far->at[0], sizeof so_far->at[0] * 2);
    so_far->delta[0] = delta;
    memcpy(so_far->at[0], solved, sizeof solved[0] * (size_t)elements);
    so_far->count++;
}

/* Solves one node; its loads are the coefficients but for the diameter. */
static bool solve_node(const ls_disc *disc, const ls_disc_state *state, ls_induction induction, double delta,
                       trail *so_far, double *node)
{
    element_start start[LS_DISC_ELEMENTS_MAX];
    ls_disc_axial axial;
    guess_next(so_far, delta, disc->count, start);
    if (disc_axial(disc, state, induction, start, &axial) != NULL) {
        so_far->count = 0;
        return false;
    }
    remember(so_far, delta, disc->count, start);
    double square = disc->diameter_m * disc->diameter_m, cube = square * disc->diameter_m;
    node[0] = axial.T_N / square;
    node[1] = axial.Q_N_m / cube;
    node[2] = axial.N_N_s_m / square;
    node[3] = axial.m1_N_s / cube;
    return true;
}

/* Continues a line beyond its last solved node by the parabola through the three nearest. */
static void extend(ls_prop_table *table, int row, int m, int k, int inward)
{
    double at[3], weight[3];
    for (int i = 0; i < 3; i++) {
        at[i] = table->delta.node[k + (i + 1) * inward];
    }
    parabola(at, table->delta.node[k], weight);
    double *node = node_at(table, row, k, m);
    for (int c = 0; c < TABLE_COLUMNS; c++) {
        node[c] = 0.0;
        for (int i = 0; i < 3; i++) {
            node[c] += weight[i] * node_at(table, row, k + (i + 1) * inward, m)[c];
        }
    }
}

static void extend_line(ls_prop_table *table, int row, int m, int low, int high)
{
    for (int k = low - 1; k >= table->delta_first[row]; k--) {
        extend(table, row, m, k, 1);
    }
    for (int k = high + 1; k <= table->delta_last[row]; k++) {
        extend(table, row, m, k, -1);
    }
}

/* The state of a node, of unit density and unit speed at 0.75 R; Mach 0 is sound without bound. */
static ls_disc_state node_state(const ls_prop_table *table, int row, int m, double psi)
{
    return (ls_disc_state){.V_axial_m_s = sin(psi),
                           .n_rev_s = cos(psi) / (0.75 * pi * table->diameter_m),
                           .pitch_rad = table->pitch.node[row],
                           .rho_kg_m3 = 1.0,
                           .a_m_s = 1.0 / table->mach.node[m]};
}

/* Fills a row at one Mach number. Its nodes reach past psi = 0 and 90 deg, for a point is looked up at constant
 * delta between rows; a little past the edges the disc is solved with a speed reversed, for that continues the
 * loads smoothly, and farther out, or where that has no solution, the line is extended. */
static ls_status fill_line(const ls_disc *disc, ls_induction induction, ls_prop_table *table, int row, int m,
                           ls_error *error)
{
    const double before = -2.0 * deg, beyond = 98.0 * deg;
    int none = table->delta_last[row] + 1, low = none, high = none;
    trail so_far = {0};
    for (int k = table->delta_first[row]; k <= table->delta_last[row]; k++) {
        double psi = table->pitch.node[row] - table->delta.node[k];
        if (psi > beyond || psi < before) {
            continue;
        }
        ls_disc_state state = node_state(table, row, m, psi);
        if (solve_node(disc, &state, induction, table->delta.node[k], &so_far, node_at(table, row, k, m))) {
            low = low == none ? k : low;
            high = k;
        } else if (psi > 0.5 * pi) {
            low = none;
        } else if (psi < 0.0) {
            break;
        } else {
            return ls_fail(error, LS_NOT_CONVERGED,
                           "propeller table: no solution at pitch %.2f deg, psi %.2f deg, Mach %.3f",
                           state.pitch_rad / deg, psi / deg, table->mach.node[m]);
        }
    }
    extend_line(table, row, m, low, high);
    return LS_OK;
}

static ls_status check_range(const ls_prop_range *range, ls_error *error)
{
    double low = range->pitch_min_rad / deg, high = range->pitch_max_rad / deg;
    if (!(low >= -10.0 && high <= 95.0 && low <= high)) {
        return ls_fail(error, LS_NO_STATE,
                       "propeller table: pitch from %g to %g deg; it must rise within -10 to 95 deg", low, high);
    }
    if (!(range->mach_max == 0.0 || (range->mach_max >= 0.1 && range->mach_max <= 0.95))) {
        return ls_fail(error, LS_NO_STATE,
                       "propeller table: highest Mach number %g; it must be 0 or lie within 0.1 to 0.95",
                       range->mach_max);
    }
    return LS_OK;
}

/* Lays out the rows one after another; the count of values in all. */
static size_t lay_out(ls_prop_table *table)
{
    long at = 0;
    for (int row = 0; row < table->pitch.count; row++) {
        place_row(table, row);
        table->base[row] = at - (long)table->delta_first[row] * TABLE_LINE;
        at += (long)(table->delta_last[row] - table->delta_first[row] + 1) * TABLE_LINE;
    }
    /* A stencil of four rows is summed always; of a single row the others weigh nothing. */
    for (int row = table->pitch.count; row < 4; row++) {
        table->base[row] = table->base[0];
    }
    return (size_t)at;
}

/* A table with its axes and its rows placed, the values to be filled in; null without memory. */
static ls_prop_table *place_table(double diameter_m, const ls_prop_range *range)
{
    ls_prop_table *plan = calloc(1, sizeof *plan);
    if (plan == NULL) {
        return NULL;
    }
    plan->diameter_m = diameter_m;
    place_pitches(range, &plan->pitch);
    place_deltas(range, &plan->delta);
    place_machs(range, &plan->mach);
    plan->count = lay_out(plan);
    ls_prop_table *table = realloc(plan, sizeof *plan + plan->count * sizeof plan->value[0]);
    if (table == NULL) {
        free(plan);
    }
    return table;
}

/* From psi = 0 up, the last node of the finest row before the torque turns negative, the least of all Mach
 * numbers. */
static double windmill_slope(ls_prop_table *table)
{
    double least = tan(89.0 * deg);
    for (int m = 0; m < TABLE_MACHS; m++) {
        double slope = 0.0;
        for (int k = table->delta_last[0]; k >= table->delta_first[0]; k--) {
            double psi = table->pitch.node[0] - table->delta.node[k];
            if (psi > 0.0 && (node_at(table, 0, k, m)[1] <= 0.0 || psi > 89.0 * deg)) {
                break;
            }
            slope = psi > 0.0 ? tan(psi) : slope;
        }
        least = fmin(least, slope);
    }
    return least;
}

ls_status ls_prop_table_build(const ls_disc *disc, const ls_prop_range *range, ls_induction induction,
                              ls_prop_table **table, ls_error *error)
{
    ls_status status = check_range(range, error);
    if (status != LS_OK) {
        return status;
    }
    ls_prop_table *made = place_table(disc->diameter_m, range);
    if (made == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory for the propeller table");
    }
    for (int row = 0; row < made->pitch.count; row++) {
        for (int m = 0; m < TABLE_MACHS && status == LS_OK; m++) {
            status = fill_line(disc, induction, made, row, m, error);
        }
    }
    if (status != LS_OK) {
        ls_prop_table_free(made);
        return status;
    }
    made->windmill_slope = windmill_slope(made);
    *table = made;
    return LS_OK;
}

const double *ls_prop_table_values(const ls_prop_table *table, size_t *count)
{
    *count = table->count;
    return table->value;
}

/* Whether a node far from the stall is what the disc gives; kept numbers that have gone bad, or are those of
 * another version of the solver, fail it. */
static bool node_agrees(const ls_disc *disc, ls_induction induction, ls_prop_table *table, int row, int m, int k)
{
    double direct[TABLE_COLUMNS], psi = table->pitch.node[row] - table->delta.node[k];
    trail none = {0};
    ls_disc_state state = node_state(table, row, m, psi);
    const double *kept = node_at(table, row, k, m);
    if (!solve_node(disc, &state, induction, table->delta.node[k], &none, direct)) {
        return false;
    }
    for (int c = 0; c < TABLE_COLUMNS; c++) {
        if (!(fabs(kept[c] - direct[c]) <= 1e-7 * (1.0 + fabs(direct[c])))) {
            return false;
        }
    }
    return true;
}

/* One node of every row, at a Mach number that changes from row to row: the blade near 2 deg of delta. */
static bool rows_agree(const ls_disc *disc, ls_induction induction, ls_prop_table *table)
{
    for (int row = 0; row < table->pitch.count; row++) {
        for (int k = table->delta_first[row]; k <= table->delta_last[row]; k++) {
            double psi = table->pitch.node[row] - table->delta.node[k];
            if (table->delta.node[k] >= 2.0 * deg && psi > 1.0 * deg && psi < 89.0 * deg) {
                if (!node_agrees(disc, induction, table, row, row % TABLE_MACHS, k)) {
                    return false;
                }
                break;
            }
        }
    }
    return true;
}

ls_status ls_prop_table_restore(const ls_disc *disc, const ls_prop_range *range, ls_induction induction,
                                const double *values, size_t count, ls_prop_table **table, ls_error *error)
{
    ls_status status = check_range(range, error);
    if (status != LS_OK) {
        return status;
    }
    ls_prop_table *made = place_table(disc->diameter_m, range);
    if (made == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory for the propeller table");
    }
    if (made->count == count) {
        memcpy(made->value, values, count * sizeof values[0]);
    }
    if (made->count != count || !rows_agree(disc, induction, made)) {
        ls_prop_table_free(made);
        return ls_fail(error, LS_FILE_REJECTED, "the kept propeller table is not this propeller's");
    }
    made->windmill_slope = windmill_slope(made);
    *table = made;
    return LS_OK;
}

void ls_prop_table_free(ls_prop_table *table)
{
    free(table);
}
