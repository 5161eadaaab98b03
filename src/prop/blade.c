#include "liveside/blade.h"

#include <math.h>
#include <stddef.h>

static const double pi = 3.14159265358979323846;

static ls_status check_station(const ls_blade *blade, int i, ls_error *error)
{
    const ls_blade_station *at = &blade->station[i];
    double inner = i > 0 ? blade->station[i - 1].r_R : 0.0;
    const struct {
        const char *what;
        double value, low, high;
    } range[] = {
        {"radius over tip radius", at->r_R, inner + 1e-3, 1.0},
        {"chord over tip radius", at->c_R, 0.005, 0.6},
        {"blade angle in rad", at->angle_rad, -1.0, 2.0},
        {"thickness over chord", at->thickness, 0.0, 1.0},
    };
    for (size_t k = 0; k < sizeof range / sizeof range[0]; k++) {
        if (!(range[k].value >= range[k].low && range[k].value <= range[k].high)) {
            return ls_fail(error, LS_FILE_REJECTED, "blade station %d: %s is %g; it must lie within %g to %g",
                           i + 1, range[k].what, range[k].value, range[k].low, range[k].high);
        }
    }
    return LS_OK;
}

ls_status ls_blade_check(const ls_blade *blade, ls_error *error)
{
    if (blade->blades < 2 || blade->blades > 8) {
        return ls_fail(error, LS_FILE_REJECTED, "blade: %d blades; there must be 2 to 8", blade->blades);
    }
    if (!(blade->diameter_m >= 0.1 && blade->diameter_m <= 8.0)) {
        return ls_fail(error, LS_FILE_REJECTED, "blade: diameter is %g m; it must lie within 0.1 to 8 m",
                       blade->diameter_m);
    }
    if (blade->count < 3 || blade->count > LS_BLADE_STATIONS_MAX) {
        return ls_fail(error, LS_FILE_REJECTED, "blade: %d stations; there must be 3 to %d", blade->count,
                       LS_BLADE_STATIONS_MAX);
    }
    for (int i = 0; i < blade->count; i++) {
        if (check_station(blade, i, error) != LS_OK) {
            return LS_FILE_REJECTED;
        }
    }
    if (fabs(blade->station[blade->count - 1].r_R - 1.0) > 1e-9) {
        return ls_fail(error, LS_FILE_REJECTED, "blade: the last station is at r/R %g; it must be at the tip, 1",
                       blade->station[blade->count - 1].r_R);
    }
    if (!(blade->root_r_R > 0.0 && blade->root_r_R <= 0.5)) {
        return ls_fail(error, LS_FILE_REJECTED,
                       "blade: root radius over tip radius is %g; it must lie within 0 to 0.5", blade->root_r_R);
    }
    return LS_OK;
}

typedef enum { CHORD, ANGLE, THICKNESS } quantity;

static double value_of(const ls_blade_station *station, quantity what)
{
    return what == CHORD ? station->c_R : what == ANGLE ? station->angle_rad : station->thickness;
}

static double rise(const ls_blade *blade, int i, quantity what)
{
    const ls_blade_station *a = &blade->station[i], *b = a + 1;
    return (value_of(b, what) - value_of(a, what)) / (b->r_R - a->r_R);
}

/* Harmonic mean of the rises on both sides, zero at an extreme; the outer rise at an end. */
static double slope_at(const ls_blade *blade, int i, quantity what)
{
    if (i == 0) {
        return rise(blade, 0, what);
    }
    if (i == blade->count - 1) {
        return rise(blade, i - 1, what);
    }
    double left = rise(blade, i - 1, what), right = rise(blade, i, what);
    if (left * right <= 0.0) {
        return 0.0;
    }
    double hl = blade->station[i].r_R - blade->station[i - 1].r_R;
    double hr = blade->station[i + 1].r_R - blade->station[i].r_R;
    double share = (hl + 2.0 * hr) / (3.0 * (hl + hr));
    return left * right / (share * right + (1.0 - share) * left);
}

static double between(const ls_blade *blade, int i, double r_R, quantity what)
{
    const ls_blade_station *a = &blade->station[i], *b = a + 1;
    double h = b->r_R - a->r_R, t = (r_R - a->r_R) / h, s = 1.0 - t;
    double y0 = value_of(a, what), y1 = value_of(b, what);
    return s * s * ((1.0 + 2.0 * t) * y0 + t * h * slope_at(blade, i, what)) +
           t * t * ((1.0 + 2.0 * s) * y1 - s * h * slope_at(blade, i + 1, what));
}

ls_blade_station ls_blade_at(const ls_blade *blade, double r_R)
{
    const ls_blade_station *first = &blade->station[0], *last = &blade->station[blade->count - 1];
    if (r_R <= first->r_R || r_R >= last->r_R) {
        ls_blade_station end = r_R <= first->r_R ? *first : *last;
        end.r_R = r_R;
        return end;
    }
    int i = 0;
    while (blade->station[i + 1].r_R < r_R) {
        i++;
    }
    return (ls_blade_station){
        .r_R = r_R,
        .c_R = between(blade, i, r_R, CHORD),
        .angle_rad = between(blade, i, r_R, ANGLE),
        .thickness = between(blade, i, r_R, THICKNESS),
    };
}

/* Integral of chord/R times (r/R)^power from a radius to the tip, by the midpoint rule. */
static double chord_moment(const ls_blade *blade, double from_r_R, int power)
{
    enum { STRIPS = 400 };
    double h = (1.0 - from_r_R) / STRIPS, sum = 0.0;
    for (int i = 0; i < STRIPS; i++) {
        double x = from_r_R + (i + 0.5) * h;
        sum += h * ls_blade_at(blade, x).c_R * pow(x, power);
    }
    return sum;
}

double ls_blade_solidity(const ls_blade *blade)
{
    return blade->blades * chord_moment(blade, blade->root_r_R, 0) / pi;
}

double ls_blade_activity_factor(const ls_blade *blade, double from_r_R)
{
    return 100000.0 / 16.0 * 0.5 * chord_moment(blade, from_r_R, 3);
}
