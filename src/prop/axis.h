/* An axis of a table with its cubic weights. */
#ifndef LIVESIDE_PROP_AXIS_H
#define LIVESIDE_PROP_AXIS_H

#include <stdbool.h>

enum { AXIS_NODES_MAX = 160, AXIS_BUCKETS = 256 };

/* Two doubles side by side, so that the sums over a table run in pairs with every compiler. */
typedef double axis_pair __attribute__((vector_size(16)));

typedef struct {
    int count;                 /* 1, or 4 and more */
    int first[AXIS_NODES_MAX]; /* [interval] first node of its stencil */
    double node[AXIS_NODES_MAX];
    double scale[AXIS_NODES_MAX];           /* [interval] 1 over its width */
    axis_pair weight[AXIS_NODES_MAX][4][2]; /* [interval][power of t] weights of the four nodes */
    double buckets_per_unit;
    unsigned char interval_of[AXIS_BUCKETS + 1];
} axis;

/* Where a value falls: the first of four nodes and their weights. */
typedef struct {
    int first;
    axis_pair weight[2];
} axis_place;

/* Prepares the weights from count and node, rising. */
void axis_prepare(axis *a);

static inline bool axis_holds(const axis *a, double x)
{
    return x >= a->node[0] - 1e-9 && x <= a->node[a->count - 1] + 1e-9;
}

/* Places a value; one outside is held at the end. A single node takes all the weight. */
static inline axis_place axis_at(const axis *a, double x)
{
    double low = a->node[0], high = a->node[a->count - 1];
    double inside = x > low ? x < high ? x : high : low; /* no number is held at the start */
    int i = a->interval_of[(int)((inside - low) * a->buckets_per_unit)];
    while (i + 2 < a->count && inside >= a->node[i + 1]) {
        i++;
    }
    double t = (inside - a->node[i]) * a->scale[i];
    axis_pair tt = {t, t};
    const axis_pair(*w)[2] = a->weight[i];
    return (axis_place){
        .first = a->first[i],
        .weight = {w[0][0] + tt * (w[1][0] + tt * (w[2][0] + tt * w[3][0])),
                   w[0][1] + tt * (w[1][1] + tt * (w[2][1] + tt * w[3][1]))},
    };
}

#endif
