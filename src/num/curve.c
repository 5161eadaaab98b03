#include "num/curve.h"

#include <math.h>

static ls_status check(const ls_curve *curve, ls_error *error)
{
    if (curve->rows < 2 || curve->rows > LS_CURVE_MAX) {
        return ls_fail(error, LS_FILE_REJECTED, "a table needs 2 to %d rows; this one has %d", LS_CURVE_MAX,
                       curve->rows);
    }
    for (int i = 0; i < curve->rows; i++) {
        if (!isfinite(curve->x[i]) || !isfinite(curve->y[i])) {
            return ls_fail(error, LS_FILE_REJECTED, "row %d of the table is not finite", i + 1);
        }
        if (i > 0 && curve->x[i] <= curve->x[i - 1]) {
            return ls_fail(error, LS_FILE_REJECTED,
                           "row %d of the table does not go on: %g follows %g, and the first column must rise",
                           i + 1, curve->x[i], curve->x[i - 1]);
        }
    }
    return LS_OK;
}

static double width(const ls_curve *curve, int i)
{
    return curve->x[i + 1] - curve->x[i];
}

static double chord_slope(const ls_curve *curve, int i)
{
    return (curve->y[i + 1] - curve->y[i]) / width(curve, i);
}

/* The weighted harmonic mean of the slopes on both sides; zero at a turn. Divided, not multiplied, out of the
 * slopes so that tiny ones do not underflow. */
static double inner_slope(const ls_curve *curve, int i)
{
    double before = chord_slope(curve, i - 1);
    double after = chord_slope(curve, i);
    if (before == 0.0 || after == 0.0 || (before < 0.0) != (after < 0.0)) {
        return 0.0;
    }
    double w1 = 2.0 * width(curve, i) + width(curve, i - 1);
    double w2 = width(curve, i) + 2.0 * width(curve, i - 1);
    return (w1 + w2) / (w1 / before + w2 / after);
}

/* The slope at an end of the parabola through the end and its two neighbours, limited so that the end interval
 * keeps to its data. h, s: width and slope of the end interval; h2, s2: of the next. */
static double end_slope(double h, double s, double h2, double s2)
{
    double slope = ((2.0 * h + h2) * s - h * s2) / (h + h2);
    if (s == 0.0 || (slope < 0.0) != (s < 0.0)) {
        return 0.0;
    }
    if ((s < 0.0) != (s2 < 0.0) && fabs(slope) > 3.0 * fabs(s)) {
        return 3.0 * s;
    }
    return slope;
}

static void set_monotone_slopes(ls_curve_fit *fit)
{
    const ls_curve *curve = &fit->table;
    int last = curve->rows - 1;
    if (last == 1) {
        fit->slope[0] = fit->slope[1] = chord_slope(curve, 0);
        return;
    }
    for (int i = 1; i < last; i++) {
        fit->slope[i] = inner_slope(curve, i);
    }
    fit->slope[0] = end_slope(width(curve, 0), chord_slope(curve, 0), width(curve, 1), chord_slope(curve, 1));
    fit->slope[last] = end_slope(width(curve, last - 1), chord_slope(curve, last - 1), width(curve, last - 2),
                                 chord_slope(curve, last - 2));
}

static void set_linear_slopes(ls_curve_fit *fit)
{
    int last = fit->table.rows - 1;
    for (int i = 0; i < last; i++) {
        fit->slope[i] = chord_slope(&fit->table, i);
    }
    fit->slope[last] = fit->slope[last - 1];
}

ls_status ls_curve_prepare(const ls_curve *curve, ls_curve_method method, ls_curve_fit *fit, ls_error *error)
{
    ls_status status = check(curve, error);
    if (status != LS_OK) {
        return status;
    }
    ls_curve_fit made = {.table = *curve, .method = method};
    if (method == LS_CURVE_MONOTONE) {
        set_monotone_slopes(&made);
    } else {
        set_linear_slopes(&made);
    }
    for (int i = 0; i < curve->rows; i++) {
        if (!isfinite(made.slope[i])) {
            return ls_fail(error, LS_FILE_REJECTED, "the table is too steep to be read at row %d", i + 1);
        }
    }
    *fit = made;
    return LS_OK;
}

/* The row that starts the interval of x, by halving. */
static int find_interval(const ls_curve *curve, double x)
{
    int low = 0;
    int high = curve->rows - 1;
    while (high - low > 1) {
        int middle = (low + high) / 2;
        if (x >= curve->x[middle]) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return low;
}

static ls_curve_point line_from_row(const ls_curve_fit *fit, int row, double x, int outside)
{
    double slope = fit->slope[row];
    return (ls_curve_point){fit->table.y[row] + slope * (x - fit->table.x[row]), slope, outside};
}

/* The cubic that has the rows' values and slopes, in s = x - x[i]. */
static ls_curve_point cubic(const ls_curve_fit *fit, int i, double x)
{
    const ls_curve *curve = &fit->table;
    if (x == curve->x[i + 1]) {
        return (ls_curve_point){curve->y[i + 1], fit->slope[i + 1], 0};
    }
    double per_h = 1.0 / width(curve, i);
    double chord = (curve->y[i + 1] - curve->y[i]) * per_h;
    double s = x - curve->x[i];
    double c2 = (3.0 * chord - 2.0 * fit->slope[i] - fit->slope[i + 1]) * per_h;
    double c3 = (fit->slope[i] + fit->slope[i + 1] - 2.0 * chord) * per_h * per_h;
    return (ls_curve_point){
        .value = curve->y[i] + s * (fit->slope[i] + s * (c2 + s * c3)),
        .derivative = fit->slope[i] + s * (2.0 * c2 + 3.0 * s * c3),
    };
}

ls_curve_point ls_curve_at(const ls_curve_fit *fit, double x)
{
    int last = fit->table.rows - 1;
    if (x < fit->table.x[0]) {
        return line_from_row(fit, 0, x, -1);
    }
    if (x >= fit->table.x[last]) {
        return line_from_row(fit, last, x, x > fit->table.x[last]);
    }
    int i = find_interval(&fit->table, x);
    return fit->method == LS_CURVE_MONOTONE ? cubic(fit, i, x) : line_from_row(fit, i, x, 0);
}
