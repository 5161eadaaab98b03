#include "axis.h"

#include <string.h>

/* The slope at node i of the parabola through nodes j, j+1, j+2, as weights of those nodes. */
static void parabola_slope(const double *x, int j, int i, double weight[3])
{
    for (int k = 0; k < 3; k++) {
        double p = x[j + (k + 1) % 3], q = x[j + (k + 2) % 3];
        weight[k] = (2.0 * x[i] - p - q) / ((x[j + k] - p) * (x[j + k] - q));
    }
}

static void add_weight(axis *a, int interval, int power, int node, double value)
{
    int at = node - a->first[interval];
    a->weight[interval][power][at / 2][at % 2] += value;
}

/* Adds the slope at a node, times its basis function, to the weights. */
static void add_slope(axis *a, int interval, int i, const double basis[4])
{
    int j = i - 1 < 0 ? 0 : i + 1 >= a->count ? a->count - 3 : i - 1;
    double slope[3], width = a->node[interval + 1] - a->node[interval];
    parabola_slope(a->node, j, i, slope);
    for (int k = 0; k < 3; k++) {
        for (int power = 0; power < 4; power++) {
            add_weight(a, interval, power, j + k, basis[power] * slope[k] * width);
        }
    }
}

/* Cubic through the end values with the end slopes of the parabolas: continuous with its slope. */
static void fit_interval(axis *a, int interval)
{
    static const double left[4] = {1, 0, -3, 2}, right[4] = {0, 0, 3, -2};
    static const double left_slope[4] = {0, 1, -2, 1}, right_slope[4] = {0, 0, -1, 1};
    int first = interval - 1, last = a->count - 4;
    a->first[interval] = first < 0 ? 0 : first > last ? last : first;
    a->scale[interval] = 1.0 / (a->node[interval + 1] - a->node[interval]);
    for (int power = 0; power < 4; power++) {
        add_weight(a, interval, power, interval, left[power]);
        add_weight(a, interval, power, interval + 1, right[power]);
    }
    add_slope(a, interval, interval, left_slope);
    add_slope(a, interval, interval + 1, right_slope);
}

void axis_prepare(axis *a)
{
    memset(a->weight, 0, sizeof a->weight);
    memset(a->interval_of, 0, sizeof a->interval_of);
    a->first[0] = 0;
    a->buckets_per_unit = 0.0;
    a->weight[0][0][0][0] = 1.0;
    if (a->count == 1) {
        return;
    }
    a->weight[0][0][0][0] = 0.0;
    for (int i = 0; i + 1 < a->count; i++) {
        fit_interval(a, i);
    }
    a->buckets_per_unit = AXIS_BUCKETS / (a->node[a->count - 1] - a->node[0]);
    int interval = 0;
    for (int b = 0; b <= AXIS_BUCKETS; b++) {
        while (interval + 2 < a->count && a->node[interval + 1] <= a->node[0] + b / a->buckets_per_unit) {
            interval++;
        }
        a->interval_of[b] = (unsigned char)interval;
    }
}
