/* A table of one variable, as a file gives it. */
#ifndef LIVESIDE_CURVE_H
#define LIVESIDE_CURVE_H

enum { LS_CURVE_MAX = 64 };

typedef struct {
    int rows; /* 0 where the file gives no table */
    double x[LS_CURVE_MAX];
    double y[LS_CURVE_MAX];
} ls_curve;

#endif
