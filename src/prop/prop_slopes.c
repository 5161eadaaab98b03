/* The propeller's table with its slopes: sums over 4 x 4 x 4 nodes of four columns each, which stand side by side
 * in memory and fill one wide register. The wide form does the same operations in the same order, so that its
 * results are the same to the bit. */
#include <string.h>

#include "prop_slopes.h"
#include "table.h"

/* The four columns of a node. */
typedef double quad __attribute__((vector_size(32)));

/* Where a value falls on an axis, with the weights of the four nodes and of the slope. */
typedef struct {
    int first;
    double weight[4], slope[4];
} place;

static inline double lane(const axis_pair pair[2], int i)
{
    return pair[i / 2][i % 2];
}

static inline int interval_at(const axis *a, double inside)
{
    int i = a->interval_of[(int)((inside - a->node[0]) * a->buckets_per_unit)];
    while (i + 2 < a->count && inside >= a->node[i + 1]) {
        i++;
    }
    return i;
}

static inline place place_at(const axis *a, double x)
{
    double low = a->node[0], high = a->node[a->count - 1];
    double inside = x > low ? x < high ? x : high : low; /* no number is held at the start */
    int i = interval_at(a, inside);
    double scale = a->scale[i], t = (inside - a->node[i]) * scale;
    const axis_pair(*w)[2] = a->weight[i];
    axis_pair tt = {t, t}, two = {2.0, 2.0}, three = {3.0 * t, 3.0 * t}, over = {scale, scale};
    axis_pair weight[2], slope[2];
    for (int k = 0; k < 2; k++) {
        weight[k] = w[0][k] + tt * (w[1][k] + tt * (w[2][k] + tt * w[3][k]));
        slope[k] = over * (w[1][k] + tt * (two * w[2][k] + three * w[3][k]));
    }
    return (place){a->first[i],
                   {lane(weight, 0), lane(weight, 1), lane(weight, 2), lane(weight, 3)},
                   {lane(slope, 0), lane(slope, 1), lane(slope, 2), lane(slope, 3)}};
}

#define INLINE static inline __attribute__((always_inline))

INLINE void load(const double *at, quad *columns)
{
    memcpy(columns, at, sizeof *columns);
}

INLINE void store(double *at, const quad *columns)
{
    memcpy(at, columns, sizeof *columns);
}

/* The sum over 4 Mach numbers. */
INLINE void line_sum(const double *node, const double weight[4], quad *sum)
{
    quad a, b, c, d;
    load(node, &a);
    load(node + TABLE_COLUMNS, &b);
    load(node + 2 * TABLE_COLUMNS, &c);
    load(node + 3 * TABLE_COLUMNS, &d);
    *sum = (weight[0] * a + weight[1] * b) + (weight[2] * c + weight[3] * d);
}

INLINE void sum_slopes(const ls_prop_table *table, const place *p, const place *d, const place *m,
                       prop_slopes *out)
{
    long at = (long)d->first * TABLE_LINE + m->first * TABLE_COLUMNS;
    quad value = {0}, by_pitch = {0}, by_delta = {0}, by_mach = {0};
    for (int i = 0; i < 4; i++) {
        const double *node = &table->value[table->base[p->first + i] + at];
        quad row = {0}, row_delta = {0}, row_mach = {0};
        for (int k = 0; k < 4; k++, node += TABLE_LINE) {
            quad line, line_mach;
            line_sum(node, m->weight, &line);
            line_sum(node, m->slope, &line_mach);
            row += d->weight[k] * line;
            row_delta += d->slope[k] * line;
            row_mach += d->weight[k] * line_mach;
        }
        value += p->weight[i] * row;
        by_pitch += p->slope[i] * row;
        by_delta += p->weight[i] * row_delta;
        by_mach += p->weight[i] * row_mach;
    }
    store(out->value, &value);
    store(out->by_pitch, &by_pitch);
    store(out->by_delta, &by_delta);
    store(out->by_mach, &by_mach);
}

static void slopes_plain(const ls_prop_table *table, const place *p, const place *d, const place *m,
                         prop_slopes *out)
{
    sum_slopes(table, p, d, m, out);
}

#if defined(__x86_64__) && defined(__GNUC__)
__attribute__((target("avx"))) static void slopes_wide(const ls_prop_table *table, const place *p, const place *d,
                                                       const place *m, prop_slopes *out)
{
    sum_slopes(table, p, d, m, out);
}

static int is_wide(void)
{
    return __builtin_cpu_supports("avx");
}
#else
#define slopes_wide slopes_plain

static int is_wide(void)
{
    return 0;
}
#endif

unsigned prop_slopes_at(const ls_prop_table *table, double pitch_rad, double delta_rad, double mach,
                        prop_slopes *slopes)
{
    place p = place_at(&table->pitch, pitch_rad), d = place_at(&table->delta, delta_rad);
    place m = place_at(&table->mach, mach);
    if (is_wide()) {
        slopes_wide(table, &p, &d, &m, slopes);
    } else {
        slopes_plain(table, &p, &d, &m, slopes);
    }
    return (axis_holds(&table->pitch, pitch_rad) ? 0u : LS_PROP_PITCH_OUTSIDE) |
           (axis_holds(&table->mach, mach) ? 0u : LS_PROP_MACH_OUTSIDE);
}

double prop_table_diameter(const ls_prop_table *table)
{
    return table->diameter_m;
}
