/* Recovery, demonstration, drill. */
#include "liveside/failure.h"

#include <math.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)
#define KT  (1852.0 / 3600.0)

void ls_recovery_of(const ls_motion *motion, double recover_s, ls_recovery *recovery)
{
    double since_s = NAN, from_m = NAN, lowest_m = 0.0;
    *recovery = (ls_recovery){.seconds = NAN, .height_lost_m = NAN, .cas_m_s = NAN};
    for (int k = 0; k < motion->count; k++) {
        const ls_motion_sample *s = &motion->sample[k];
        lowest_m = fmin(lowest_m, s->climbed_m);
        recovery->lowest_m = lowest_m;
        if (s->t_s < recover_s) {
            continue;
        }
        from_m = isnan(from_m) ? s->climbed_m : from_m;
        int is_held = fabs(s->turn_rad_s) <= 1.0 * DEG && fabs(s->bank_rad) <= 10.0 * DEG;
        since_s = !is_held ? NAN : isnan(since_s) ? s->t_s : since_s;
        if (s->t_s - since_s >= 1.0 - 1e-9) {
            recovery->is_regained = 1;
            recovery->seconds = s->t_s - recover_s;
            recovery->height_lost_m = from_m - s->climbed_m;
            recovery->cas_m_s = s->cas_m_s;
            return;
        }
    }
}

/* Speeds read off the samples: where the rudder ran out, and where the turn got out of hand after that. */
static void read_demonstration(ls_slowing *it)
{
    const ls_motion *motion = &it->motion;
    double stop_s = motion->rudder_stop_s;
    it->by_force = !(motion->rudder_stop_s <= motion->pedal_limit_s) && !isnan(motion->pedal_limit_s);
    stop_s = it->by_force ? motion->pedal_limit_s : stop_s;
    it->rudder_V_m_s = it->rudder_cas_m_s = it->turn_cas_m_s = NAN;
    for (int k = 0; k < motion->count; k++) {
        const ls_motion_sample *s = &motion->sample[k];
        if (s->t_s >= stop_s && isnan(it->rudder_V_m_s)) {
            it->rudder_V_m_s = s->V_m_s;
            it->rudder_cas_m_s = s->cas_m_s;
        }
        if (s->t_s >= stop_s && fabs(s->turn_rad_s) > 3.0 * DEG && isnan(it->turn_cas_m_s)) {
            it->turn_cas_m_s = s->cas_m_s;
        }
    }
    it->end_cas_m_s = motion->last.cas_m_s;
    it->control_first = !isnan(it->rudder_V_m_s);
}

/* Whether every failed engine has data for an idling propeller; handbook coefficients and jets have none. */
static int idles(const ls_aircraft *aircraft, unsigned failed)
{
    for (int i = 0; i < aircraft->engines; i++) {
        const ls_powerplant_data *data = &aircraft->powerplant[aircraft->engine[i].powerplant];
        int has_blades = data->engine.type != LS_ENGINE_JET && data->propeller.kind == LS_PROPELLER_BLADE_ELEMENT;
        if ((failed >> i & 1u) && !has_blades) {
            return 0;
        }
    }
    return 1;
}

ls_status ls_slowing_run(const ls_aircraft *aircraft, const ls_motion_request *base, double static_V_m_s,
                         ls_slowing *demonstration, ls_error *error)
{
    ls_motion_request request = *base;
    ls_model model;
    memset(demonstration, 0, sizeof *demonstration);
    ls_status status = ls_model_make(aircraft, &base->condition, &model, error);
    if (status != LS_OK) {
        return status;
    }
    double from_m_s = fmax(isfinite(static_V_m_s) ? static_V_m_s : 0.0, 1.05 * model.stall_V_m_s) + 15.0 * KT;
    request.V_m_s = from_m_s;
    request.state = demonstration->state = idles(aircraft, base->failed) ? LS_IDLE : LS_WINDMILLING;
    request.hold = LS_HOLD_EXACT;
    request.acceleration_m_s2 = -1.0 * KT;
    request.starts_failed = 1;
    request.delay_s = 0.0;
    request.feather_s = request.recover_s = request.height_m = INFINITY;
    request.duration_s = (from_m_s - 0.8 * model.stall_V_m_s) / KT;
    status = ls_motion_run(aircraft, &request, &demonstration->motion, error);
    if (status == LS_OK) {
        read_demonstration(demonstration);
    }
    return status;
}

/* When the propeller of a run falls below its latch. */
static double latch_time(const ls_aircraft *aircraft, const ls_motion_request *request, const ls_motion *motion)
{
    for (int i = 0; i < aircraft->engines; i++) {
        if (!(request->failed >> i & 1u)) {
            continue;
        }
        double latch_rev_s = aircraft->powerplant[aircraft->engine[i].powerplant].propeller.feather_latch_rev_s;
        for (int k = 0; k < motion->count; k++) {
            if (motion->sample[k].failed_rev_s < latch_rev_s) {
                return motion->sample[k].t_s;
            }
        }
        return NAN;
    }
    return NAN;
}

ls_status ls_drill_run(const ls_aircraft *aircraft, const ls_motion_request *base, ls_drill *drill,
                       ls_error *error)
{
    static const double seconds[LS_DRILL_ROWS] = {3.0, 6.0, 9.0, 12.0, 20.0, 30.0, INFINITY};
    memset(drill, 0, sizeof *drill);
    drill->latch_s = NAN;
    for (int i = 0; i < LS_DRILL_ROWS; i++) {
        ls_motion_request request = *base;
        ls_motion motion;
        request.feather_s = seconds[i];
        request.recover_s = INFINITY;
        request.duration_s = LS_DRILL_S;
        if (request.state == LS_FEATHERED) { /* the drill is for what does not feather by itself */
            request.state = LS_WINDMILLING;
        }
        ls_status status = ls_motion_run(aircraft, &request, &motion, error);
        if (status != LS_OK) {
            return status;
        }
        drill->row[i] = (ls_drill_row){.seconds = seconds[i],
                                       .end = motion.end,
                                       .end_s = motion.end_s,
                                       .climbed_m = motion.last.climbed_m,
                                       .cas_m_s = motion.last.cas_m_s,
                                       .rev_s = motion.feather_rev_s,
                                       .latched = motion.feather_latched,
                                       .stopped_s = motion.stopped_s};
        drill->latch_s = isinf(seconds[i]) ? latch_time(aircraft, &request, &motion) : NAN;
        ls_motion_free(&motion);
    }
    return LS_OK;
}
