/* Drift-down: the descent from the altitude of a failure, at the speed of best rate, to where the aeroplane holds
 * its height.
 *
 * At each pressure altitude the trim gives the steady sink w > 0 at true airspeed V. Energy: m g dh + m V dV =
 * -m g w dt, so that dt = -dh (1 + (V/g) dV/dh) / w. True height is to pressure altitude as the temperature is to
 * the standard one (hydrostatics at equal pressure). Checked by hand: a sink that is proportional to the height
 * above the ceiling, w = k (h - hc), gives t = ln((h0 - hc)/(h1 - hc)) / k. */
#include "num/root.h"
#include "study/performance_parts.h"

#include <math.h>
#include <string.h>

#define END_TOL_M 0.1

typedef struct {
    const ls_aircraft *aircraft;
    const ls_performance_case *of;
    double near_eas_m_s;
    ls_climb_best best;
    ls_error *error;
    ls_status status;
} descent;

static double sink_at(double altitude_m, void *context)
{
    descent *d = context;
    d->status = ls_case_best_rate(d->aircraft, &d->of->condition, d->of->rule, altitude_m, &d->near_eas_m_s,
                                  &d->best, d->error);
    return d->status == LS_OK ? -d->best.point.rate_m_s : NAN;
}

static double sink_left_at(double altitude_m, void *context)
{
    return sink_at(altitude_m, context) - LS_SERVICE_RATE_ONE_M_S;
}

/* The altitude at which it sinks at 50 ft/min, or sea level. */
static ls_status find_end(descent *d, ls_drift *drift)
{
    ls_root_options options = {.x_tol = END_TOL_M};
    ls_root_report report;
    double low_m, high_m;
    ls_status status = ls_root_bracket(sink_left_at, d, drift->from_m, 0.0, 24, &low_m, &high_m);
    if (status == LS_NO_STATE) {
        drift->to_m = 0.0;
        return LS_OK;
    }
    status = status == LS_OK ? ls_root_find(sink_left_at, d, low_m, high_m, &options, &report) : status;
    if (status != LS_OK) {
        return d->status != LS_OK ? d->status
                                  : ls_fail(d->error, status, "the search for the end of the descent did not end");
    }
    drift->to_m = report.x;
    drift->levels = 1;
    return LS_OK;
}

/* How much longer a foot of pressure altitude is than one of the standard day. */
static double stretch(const descent *d, double altitude_m)
{
    double standard_K = ls_air_standard_temperature(altitude_m);
    return (standard_K + d->of->condition.isa_offset_K) / standard_K;
}

static ls_status solve_points(descent *d, ls_drift *drift)
{
    for (int i = 0; i < LS_DRIFT_POINTS; i++) {
        ls_drift_point *point = &drift->point[i];
        point->altitude_m = drift->from_m + (drift->to_m - drift->from_m) * i / (LS_DRIFT_POINTS - 1);
        if (isnan(sink_at(point->altitude_m, d))) {
            return d->status;
        }
        point->V_m_s = d->best.point.V_m_s;
        point->cas_m_s = d->best.point.cas_m_s;
        point->rate_m_s = d->best.point.rate_m_s;
        drift->flags |= d->best.point.flags;
    }
    return LS_OK;
}

/* Seconds for a metre of pressure altitude. */
static double seconds_per_m(const descent *d, const ls_drift *drift, int i)
{
    const ls_drift_point *before = &drift->point[i > 0 ? i - 1 : 0];
    const ls_drift_point *after = &drift->point[i < LS_DRIFT_POINTS - 1 ? i + 1 : i];
    double factor = stretch(d, drift->point[i].altitude_m);
    double slope = (after->V_m_s - before->V_m_s) / (factor * (after->altitude_m - before->altitude_m));
    return factor * (1.0 + drift->point[i].V_m_s / LS_G0_M_S2 * slope) / -drift->point[i].rate_m_s;
}

/* Runs of the trapezoidal rule's correction of third order: Simpson over two intervals, half of it by the parabola
 * through the three points. */
static void integrate(const descent *d, ls_drift *drift)
{
    double t[LS_DRIFT_POINTS], s[LS_DRIFT_POINTS];
    double step_m = (drift->from_m - drift->to_m) / (LS_DRIFT_POINTS - 1);
    for (int i = 0; i < LS_DRIFT_POINTS; i++) {
        double along = drift->point[i].rate_m_s / drift->point[i].V_m_s;
        t[i] = seconds_per_m(d, drift, i);
        s[i] = t[i] * drift->point[i].V_m_s * sqrt(1.0 - along * along);
    }
    for (int i = 0; i + 2 < LS_DRIFT_POINTS; i += 2) {
        ls_drift_point *from = &drift->point[i];
        from[1].time_s = from->time_s + step_m * (5.0 * t[i] + 8.0 * t[i + 1] - t[i + 2]) / 12.0;
        from[2].time_s = from->time_s + step_m * (t[i] + 4.0 * t[i + 1] + t[i + 2]) / 3.0;
        from[1].distance_m = from->distance_m + step_m * (5.0 * s[i] + 8.0 * s[i + 1] - s[i + 2]) / 12.0;
        from[2].distance_m = from->distance_m + step_m * (s[i] + 4.0 * s[i + 1] + s[i + 2]) / 3.0;
    }
}

void ls_drift_solve(const ls_performance_case *of, const ls_aircraft *aircraft, double from_m, ls_drift *drift)
{
    ls_error error = {0};
    descent d = {.aircraft = aircraft, .of = of, .error = &error};
    memset(drift, 0, sizeof *drift);
    drift->from_m = from_m;
    drift->to_m = NAN;
    double sink_m_s = sink_at(from_m, &d);
    if (sink_m_s <= LS_SERVICE_RATE_ONE_M_S) {
        drift->kind = LS_DRIFT_CLIMBS;
        drift->point[0] = (ls_drift_point){from_m, d.best.point.V_m_s, d.best.point.cas_m_s, -sink_m_s, 0.0, 0.0};
        return;
    }
    drift->status = d.status;
    drift->status = drift->status == LS_OK ? find_end(&d, drift) : drift->status;
    drift->status = drift->status == LS_OK ? solve_points(&d, drift) : drift->status;
    if (drift->status != LS_OK) {
        drift->kind = LS_DRIFT_FAILED;
        ls_case_reason(drift->reason, &error);
        return;
    }
    integrate(&d, drift);
}
