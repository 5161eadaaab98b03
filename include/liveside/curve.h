/* A table of one variable, as a file gives it. */
#ifndef LIVESIDE_CURVE_H
#define LIVESIDE_CURVE_H

enum { LS_CURVE_MAX = 64 };

typedef struct {
    int rows; /* 0 where the file gives no table */
    double x[LS_CURVE_MAX];
    double y[LS_CURVE_MAX];
} ls_curve;

typedef enum { LS_CURVE_LINEAR, LS_CURVE_MONOTONE } ls_curve_method;

/* A table with its slopes, ready to be read; plain data, copied by assignment. */
typedef struct {
    ls_curve table;
    ls_curve_method method;
    double slope[LS_CURVE_MAX]; /* LINEAR: of the interval that starts at the row; MONOTONE: at the row */
} ls_curve_fit;

#endif
