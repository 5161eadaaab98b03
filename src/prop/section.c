#include "polar.h"

#include <math.h>
#include <stddef.h>

#define PI 3.14159265358979323846

/* Width, rad, of the rounding of the stall: the line bends over one width, and falls to the plate
 * law over another. Measured sections leave the straight line 3 to 5 deg before their peak. Both
 * pieces join with two continuous derivatives, for the slopes of the in-plane loads are tabulated. */
static const double bend_rad = 0.15;

/* Prandtl-Glauert acts in full within `fade_from` of zero lift and not at all beyond `fade_to`, rad:
 * separated flow does not know it. */
static const double fade_from_rad = 0.3, fade_to_rad = 1.0;

/* Lock's law cd = 20 (M - Mcr)^4 has dcd/dM = 0.1, the definition of divergence, at Mcr + 0.1077. */
static const double lock_margin = 0.10772173450159418;
static const double rise_bend = 0.2;

static const double thickness_drag_free = 0.12, thickness_mach = 0.10, thickness_mach_cap = 0.25;

/* The plate law needs peaks well clear of zero incidence, for every thickness. */
static ls_status check_peaks(const ls_section *section, ls_error *error)
{
    double turning = section->alpha0_thickness_rad + section->chord_thickness_rad;
    for (int end = 0; end < 2; end++) {
        double alpha0 = section->alpha0_rad + (end == 0 ? 0.0 : turning * section->thickness_cap);
        double up = alpha0 + section->cl_max / section->lift_slope_rad + 0.5 * bend_rad;
        double down = -alpha0 - section->cl_min / section->lift_slope_rad + 0.5 * bend_rad;
        if (!(fmin(up, down) >= 0.05 && fmax(up, down) <= 0.7)) {
            return ls_fail(error, LS_FILE_REJECTED,
                           "section: zero-lift angle, slope and lift limits put the stalls at %.1f and %.1f deg "
                           "from the chord line; each must lie within 2.9 to 40 deg",
                           up * 180.0 / PI, -down * 180.0 / PI);
        }
    }
    return LS_OK;
}

ls_status ls_section_check(const ls_section *section, ls_error *error)
{
    const struct {
        const char *key;
        double value, low, high;
    } range[] = {
        {"lift slope", section->lift_slope_rad, 3.0, 9.0},
        {"zero-lift angle", section->alpha0_rad, -0.15, 0.05},
        {"zero-lift angle per thickness", section->alpha0_thickness_rad, -1.5, 0.5},
        {"chord angle per thickness", section->chord_thickness_rad, 0.0, 0.5},
        {"thickness cap", section->thickness_cap, 0.0, 0.3},
        {"highest lift", section->cl_max, 0.6, 2.0},
        {"lowest lift", section->cl_min, -2.0, -0.4},
        {"least drag", section->cd_min, 0.002, 0.05},
        {"drag per thickness", section->cd_thickness, 0.0, 0.5},
        {"lift of the bucket", section->cl_bucket, -1.0, 1.0},
        {"half width of the bucket", section->cl_bucket_half, 0.0, 1.0},
        {"drag per lift squared", section->cd_cl2, 0.0, 0.1},
        {"drag-divergence Mach number", section->mach_dd, 0.5, 1.0},
    };
    for (size_t i = 0; i < sizeof range / sizeof range[0]; i++) {
        if (!(range[i].value >= range[i].low && range[i].value <= range[i].high)) {
            return ls_fail(error, LS_FILE_REJECTED, "section: %s is %g; it must lie within %g to %g", range[i].key,
                           range[i].value, range[i].low, range[i].high);
        }
    }
    return check_peaks(section, error);
}

static double square(double x)
{
    return x * x;
}

static double bucket_drag(const ls_polar *polar, double cl)
{
    double outside = fabs(cl - polar->cl_bucket) - polar->cl_bucket_half;
    return polar->cd_min + (outside > 0.0 ? polar->cd_cl2 * square(outside) : 0.0);
}

/* The share of the lift that is left when the flow comes from behind: all at 90 deg, 0.7 at 180. */
static double back_share(double alpha)
{
    return 0.7 + 0.3 * square(sin(alpha));
}

/* Value, slope and curvature at a point. */
typedef struct {
    double y, d1, d2;
} knot;

/* The quintic over 0 to `width` through two knots. */
static void fit_quintic(knot from, knot to, double width, double coef[6])
{
    double h = width, rise = to.y - from.y - from.d1 * h - 0.5 * from.d2 * h * h;
    double tilt = (to.d1 - from.d1 - from.d2 * h) * h, bend = (to.d2 - from.d2) * h * h;
    coef[0] = from.y;
    coef[1] = from.d1;
    coef[2] = 0.5 * from.d2;
    coef[3] = (10.0 * rise - 4.0 * tilt + 0.5 * bend) / (h * h * h);
    coef[4] = (-15.0 * rise + 7.0 * tilt - bend) / (h * h * h * h);
    coef[5] = (6.0 * rise - 3.0 * tilt + 0.5 * bend) / (h * h * h * h * h);
}

static double quintic(const double coef[6], double x)
{
    return coef[0] + x * (coef[1] + x * (coef[2] + x * (coef[3] + x * (coef[4] + x * coef[5]))));
}

/* Viterna and Corrigan's plate through the peak (alpha_s, cl_s, cd_s). */
static void fit_plate(ls_polar_side *side, double cd_peak, double cd_plate)
{
    double s = sin(side->alpha_peak), c = cos(side->alpha_peak);
    side->a1 = 0.5 * cd_plate;
    side->a2 = (side->cl_limit - cd_plate * s * c) * s / (c * c);
    side->b1 = cd_plate;
    side->b2 = (cd_peak - cd_plate * s * s) / c;
}

static knot plate_lift(const ls_polar_side *side, double alpha)
{
    double s = sin(alpha), c = cos(alpha);
    return (knot){
        .y = 2.0 * side->a1 * s * c + side->a2 * c * c / s,
        .d1 = 2.0 * side->a1 * (c * c - s * s) - side->a2 * c * (1.0 + 1.0 / (s * s)),
        .d2 = -8.0 * side->a1 * s * c + side->a2 * (s + 1.0 / s + 2.0 * c * c / (s * s * s)),
    };
}

static knot plate_drag(const ls_polar_side *side, double alpha)
{
    double s = sin(alpha), c = cos(alpha);
    return (knot){
        .y = side->b1 * s * s + side->b2 * c,
        .d1 = 2.0 * side->b1 * s * c - side->b2 * s,
        .d2 = 2.0 * side->b1 * (c * c - s * s) - side->b2 * c,
    };
}

static void fit_joins(ls_polar_side *side, double cd_peak)
{
    fit_quintic((knot){.y = side->cl_limit}, plate_lift(side, side->alpha_plate), bend_rad, side->cl_join);
    fit_quintic((knot){.y = cd_peak}, plate_drag(side, side->alpha_plate), bend_rad, side->cd_join);
    /* Reversed flow lifts in proportion to the angle up to its own stall. */
    double back = side->alpha_back, share = back_share(back);
    knot at = plate_lift(side, back);
    double value = share * at.y, slope = share * at.d1 + 0.3 * sin(2.0 * back) * at.y;
    side->back3 = (slope - value / back) / (2.0 * square(back));
    side->back1 = value / back - side->back3 * square(back);
}

static void prepare_side(ls_polar_side *side, double slope, double alpha0, double cl_limit, double cd_peak,
                         double cd_plate)
{
    side->alpha0 = alpha0;
    side->cl_limit = cl_limit;
    side->alpha_bend = alpha0 + cl_limit / slope - 0.5 * bend_rad;
    side->alpha_peak = side->alpha_bend + bend_rad;
    side->alpha_plate = side->alpha_peak + bend_rad;
    side->alpha_back = side->alpha_plate;
    fit_plate(side, cd_peak, cd_plate);
    fit_joins(side, cd_peak);
}

void ls_polar_prepare(const ls_section *section, double thickness, double aspect, ls_polar *polar)
{
    double turning = fmin(thickness, section->thickness_cap);
    double thick = fmin(thickness, thickness_mach_cap);
    *polar = (ls_polar){
        .slope_rad = section->lift_slope_rad,
        .chord_rad = section->chord_thickness_rad * turning,
        .cd_min = section->cd_min + section->cd_thickness * fmax(0.0, thickness - thickness_drag_free),
        .cl_bucket = section->cl_bucket,
        .cl_bucket_half = section->cl_bucket_half,
        .cd_cl2 = section->cd_cl2,
        .mach_dd = section->mach_dd - (thick - thickness_mach),
        .unlimited = section->unlimited,
    };
    polar->alpha0_rad =
        section->alpha0_rad + (section->alpha0_thickness_rad + section->chord_thickness_rad) * turning;
    double cd_plate = 1.11 + 0.018 * aspect;
    prepare_side(&polar->up, polar->slope_rad, polar->alpha0_rad, section->cl_max,
                 bucket_drag(polar, section->cl_max), cd_plate);
    prepare_side(&polar->down, polar->slope_rad, -polar->alpha0_rad, -section->cl_min,
                 bucket_drag(polar, section->cl_min), cd_plate);
    /* One value for both sides, that the drag be continuous at 180 deg. */
    polar->cd_back = 0.5 * (fabs(polar->up.b2) + fabs(polar->down.b2));
}

/* Lift and drag past the peak; alpha up to pi, on the side's own positive axis. */
static void separated(const ls_polar_side *side, double cd_back, double alpha, double *cl, double *cd)
{
    if (alpha < side->alpha_plate) {
        *cl = quintic(side->cl_join, alpha - side->alpha_peak);
        *cd = quintic(side->cd_join, alpha - side->alpha_peak);
        return;
    }
    double s = sin(alpha), c = cos(alpha);
    if (c >= 0.0) {
        *cl = 2.0 * side->a1 * s * c + side->a2 * c * c / s;
        *cd = side->b1 * s * s + side->b2 * c;
        return;
    }
    double back = PI - alpha;
    *cd = side->b1 * s * s - cd_back * c;
    *cl = back < side->alpha_back ? -back * (side->back1 + side->back3 * square(back))
                                  : -back_share(back) * (-2.0 * side->a1 * s * c + side->a2 * c * c / s);
}

/* Lock's law, carried on along its tangent where it would rise without end; divergence comes earlier with lift,
 * by Korn's relation, rounded about no lift. */
static double drag_rise(const ls_polar *polar, double cl, double mach)
{
    double held_cl = fmin(fabs(cl), 2.0), earlier = 0.1 * (sqrt(square(held_cl) + 0.04) - 0.2);
    double excess = mach - (polar->mach_dd - lock_margin - earlier);
    if (excess <= 0.0) {
        return 0.0;
    }
    double held = fmin(excess, rise_bend);
    return 20.0 * held * held * held * (held + 4.0 * (excess - held));
}

double polar_gain(double mach)
{
    const double from = 0.65, room = 0.15;
    double m = mach > from ? from + room * (1.0 - exp((from - mach) / room)) : mach;
    return 1.0 / sqrt(1.0 - m * m);
}

/* Prandtl-Glauert as a stretch of the incidence about zero lift: the lift slope grows, the limits
 * stay, and the stall comes at a smaller angle. */
static double stretch(double from_zero_lift, double gain)
{
    double t = (fabs(from_zero_lift) - fade_from_rad) / (fade_to_rad - fade_from_rad);
    double share = t <= 0.0 ? 1.0 : t >= 1.0 ? 0.0 : 1.0 - t * t * t * (10.0 - t * (15.0 - 6.0 * t));
    return from_zero_lift * (1.0 + (gain - 1.0) * share);
}

static double wrap(double angle)
{
    return angle > PI ? angle - 2.0 * PI : angle < -PI ? angle + 2.0 * PI : angle;
}

void polar_at(const ls_polar *polar, double alpha_rad, double mach, double gain, double *cl, double *cd)
{
    if (polar->unlimited) {
        *cl = polar->slope_rad * gain * (alpha_rad + polar->chord_rad - polar->alpha0_rad);
        *cd = bucket_drag(polar, *cl) + drag_rise(polar, *cl, mach);
        return;
    }
    double from_zero_lift = stretch(wrap(alpha_rad + polar->chord_rad) - polar->alpha0_rad, gain);
    double sign = from_zero_lift >= 0.0 ? 1.0 : -1.0;
    const ls_polar_side *side = from_zero_lift >= 0.0 ? &polar->up : &polar->down;
    double alpha = side->alpha0 + fabs(from_zero_lift);
    if (alpha < side->alpha_peak) {
        *cl = polar->slope_rad * from_zero_lift;
        if (alpha > side->alpha_bend) {
            double t = (alpha - side->alpha_bend) / bend_rad;
            *cl -= sign * polar->slope_rad * bend_rad * t * t * t * (1.0 - 0.5 * t);
        }
        *cd = bucket_drag(polar, *cl);
    } else {
        separated(side, polar->cd_back, alpha, cl, cd);
        *cl *= sign;
    }
    *cd += drag_rise(polar, *cl, mach);
}

void ls_polar_at(const ls_polar *polar, double alpha_rad, double mach, double *cl, double *cd)
{
    polar_at(polar, alpha_rad, mach, polar_gain(mach), cl, cd);
}
