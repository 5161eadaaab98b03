#include "liveside/motion.h"

#include "flight/motion_parts.h"
#include "flight/pedal.h"
#include "liveside/airspeed.h"
#include "num/ode.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)

#define BANK_LIMIT (45.0 * DEG)
#define BANK_END   (60.0 * DEG)

/* Events; those from FIN_STALL on end the motion. */
enum { HEADING_LIMIT, BANK_PAST, FIN_STALL, WING_STALL, BANK_OVER, GROUND, EVENTS };

const char *ls_motion_end_text(ls_motion_end end)
{
    static const char *const texts[LS_MOTION_ENDS] = {"the time is over",
                                                      "straight flight is held",
                                                      "the fin stalls",
                                                      "the wing stalls",
                                                      "the bank passes 60 deg",
                                                      "the ground is reached",
                                                      "20 deg of heading or 45 deg of bank are passed",
                                                      "the motion can no longer be followed"};
    return (unsigned)end < LS_MOTION_ENDS ? texts[end] : "unknown";
}

/* One run. */
typedef struct {
    ls_flight flight;
    double y[STATES_MAX], scale[STATES_MAX];
    double t_s;
    double straight_since_s; /* NaN while it is not */
    ls_ode *ode;
    ls_motion *motion;
    int capacity;
} run;

static double event(double t, const double *y, int which, void *context)
{
    const ls_flight *flight = context;
    const ls_motion_request *request = flight->request;
    ls_moment now;
    switch (which) {
    case HEADING_LIMIT:
        return fabs(y[AT_HEADING]) - LS_HEADING_LIMIT_RAD;
    case BANK_PAST:
        return fabs(y[AT_BANK]) - BANK_LIMIT;
    case BANK_OVER:
        return fabs(y[AT_BANK]) - BANK_END;
    case FIN_STALL: {
        double speed = sqrt(y[AT_U] * y[AT_U] + y[AT_V] * y[AT_V] + y[AT_W] * y[AT_W]);
        return fabs(asin(y[AT_V] / speed)) - flight->after.aircraft->fin.stall_sideslip_rad;
    }
    case WING_STALL: {
        if (ls_motion_moment(flight, t, y, &now)) {
            return NAN;
        }
        double qS_N = now.q_Pa * flight->after.S_m2;
        double wash = (now.point.wash_lift_N[0] + now.point.wash_lift_N[1] * now.alpha_rad) / qS_N;
        return (flight->after.lift_zero + flight->after.lift_slope * now.alpha_rad + wash) /
                   flight->after.lift_max -
               1.0;
    }
    default:
        return isfinite(request->height_m) ? -(request->height_m + y[AT_CLIMBED]) : -1.0;
    }
}

static void observe(const ls_flight *flight, double t_s, const double *y, const ls_moment *now,
                    ls_motion_sample *s)
{
    int failed = ls_motion_first_failed(flight);
    double qS_N = now->q_Pa * flight->after.S_m2;
    double fin_rad = now->beta_rad * flight->after.aircraft->fin.sidewash + now->point.fin_rad;
    *s = (ls_motion_sample){
        .t_s = t_s,
        .V_m_s = now->V_m_s,
        .alpha_rad = now->alpha_rad,
        .beta_rad = now->beta_rad,
        .p_rad_s = y[AT_P],
        .q_rad_s = y[AT_Q],
        .r_rad_s = y[AT_R],
        .bank_rad = y[AT_BANK],
        .theta_rad = y[AT_PITCH],
        .heading_rad = y[AT_HEADING],
        .turn_rad_s = now->turn_rad_s,
        .north_m = y[AT_NORTH],
        .east_m = y[AT_EAST],
        .climbed_m = y[AT_CLIMBED],
        .rudder_rad = now->rudder_rad,
        .aileron_rad = now->aileron_rad,
        .pedal_force_N = ls_pedal_force(&flight->after, now->q_Pa, fin_rad, now->rudder_rad),
        .load_factor = -now->force_N[2] / flight->after.weight_N,
        .lift_coefficient = flight->after.lift_zero + flight->after.lift_slope * now->alpha_rad +
                            (now->point.wash_lift_N[0] + now->point.wash_lift_N[1] * now->alpha_rad) / qS_N,
    };
    ls_airspeed speed;
    s->cas_m_s = ls_airspeed_from_tas(&flight->after.air, now->V_m_s, &speed, NULL) == LS_OK ? speed.CAS_m_s : NAN;
    for (int i = 0; i < flight->after.units; i++) {
        s->live_thrust_N += flight->request->failed >> i & 1u ? 0.0 : now->point.unit[i].thrust_N;
    }
    if (failed >= 0) {
        const ls_propulsor_point *unit = &now->point.unit[failed];
        s->failed_rev_s = unit->n_rev_s;
        s->failed_pitch_rad = unit->pitch_rad;
        s->failed_thrust_N = unit->thrust_N;
        s->failed_torque_Nm = unit->torque_Nm;
    }
}

static void keep_most(double value, double at_s, double *most, double *most_s)
{
    if (fabs(value) > fabs(*most)) {
        *most = value;
        if (most_s != NULL) {
            *most_s = at_s;
        }
    }
}

static void first_time(int is_so, double t_s, double *first_s)
{
    if (is_so && isnan(*first_s)) {
        *first_s = t_s;
    }
}

/* The stop that the pilot's foot has run into. */
static void watch_rudder(const ls_flight *flight, double t_s, const ls_moment *now, ls_motion *motion)
{
    const ls_aircraft *aircraft = flight->after.aircraft;
    const double close_rad = 0.1 * DEG;
    int left = now->rudder_wanted_rad > now->rudder_high_rad && now->rudder_rad > now->rudder_high_rad - close_rad;
    int right = now->rudder_wanted_rad < now->rudder_low_rad && now->rudder_rad < now->rudder_low_rad + close_rad;
    int by_force = (left && now->rudder_high_rad < aircraft->rudder.left_rad) ||
                   (right && now->rudder_low_rad > -aircraft->rudder.right_rad);
    if (flight->acts && (left || right)) {
        first_time(!by_force, t_s, &motion->rudder_stop_s);
        first_time(by_force, t_s, &motion->pedal_limit_s);
    }
}

static void watch(run *it, const ls_moment *now, const ls_motion_sample *s)
{
    ls_motion *motion = it->motion;
    keep_most(s->heading_rad, s->t_s, &motion->heading_most_rad, &motion->heading_most_s);
    keep_most(s->bank_rad, s->t_s, &motion->bank_most_rad, NULL);
    keep_most(s->beta_rad, s->t_s, &motion->beta_most_rad, NULL);
    keep_most(s->alpha_rad, s->t_s, &motion->alpha_most_rad, NULL);
    keep_most(fmin(0.0, s->failed_thrust_N), s->t_s, &motion->drag_most_N, &motion->drag_most_s);
    motion->climbed_least_m = fmin(motion->climbed_least_m, s->climbed_m);
    motion->V_least_m_s = fmin(motion->V_least_m_s, s->V_m_s);
    motion->cas_least_m_s = fmin(motion->cas_least_m_s, s->cas_m_s);
    first_time(it->flight.request->failed != 0 && s->failed_rev_s < 0.5 && s->failed_pitch_rad > 0.0, s->t_s,
               &motion->stopped_s);
    watch_rudder(&it->flight, s->t_s, now, motion);
    int is_straight = it->flight.acts && fabs(s->turn_rad_s) <= LS_STRAIGHT_RAD_S &&
                      fabs(s->bank_rad) <= it->flight.request->condition.bank_limit_rad + LS_STRAIGHT_BANK_RAD;
    if (!is_straight) {
        it->straight_since_s = NAN;
    } else if (isnan(it->straight_since_s)) {
        it->straight_since_s = s->t_s;
    } else if (s->t_s - it->straight_since_s >= LS_STRAIGHT_S - 1e-9) {
        first_time(1, it->straight_since_s, &motion->straight_s);
    }
}

/* Notes the present state. Returned: LS_OK, or LS_MEMORY, or LS_NOT_CONVERGED where there is no such state. */
static ls_status take_sample(run *it, ls_error *error)
{
    ls_motion *motion = it->motion;
    ls_moment now;
    if (ls_motion_moment(&it->flight, it->t_s, it->y, &now)) {
        return ls_fail(error, LS_NOT_CONVERGED, "the motion cannot be followed beyond %.3f s", it->t_s);
    }
    if (motion->count == it->capacity) {
        int capacity = it->capacity > 0 ? 2 * it->capacity : 512;
        ls_motion_sample *grown = realloc(motion->sample, (size_t)capacity * sizeof *grown);
        if (grown == NULL) {
            return ls_fail(error, LS_MEMORY, "out of memory");
        }
        motion->sample = grown;
        it->capacity = capacity;
    }
    ls_motion_sample *sample = &motion->sample[motion->count++];
    observe(&it->flight, it->t_s, it->y, &now, sample);
    if (motion->count == 1) {
        motion->start = *sample;
        motion->V_least_m_s = sample->V_m_s;
        motion->cas_least_m_s = sample->cas_m_s;
    }
    motion->last = *sample;
    watch(it, &now, sample);
    return LS_OK;
}

/* Enters the phases whose time has come. Returned: the time of the next one. */
static double enter_phases(run *it)
{
    const ls_motion_request *request = it->flight.request;
    const double slack = 1e-9;
    double next_s = request->duration_s, feather_s = ls_motion_feather_time(&it->flight);
    int changed = 0;
    if (!it->flight.acts && it->t_s >= request->delay_s - slack) {
        it->flight.acts = changed = 1;
    }
    if (!it->flight.feathers && it->t_s >= feather_s - slack) {
        ls_motion_begin_feathering(&it->flight, it->y, &it->motion->feather_rev_s, &it->motion->feather_latched);
        changed = 1;
    }
    if (!it->flight.recovers && it->t_s >= request->recover_s - slack) {
        it->flight.recovers = changed = 1;
        it->flight.heading_hold_rad = it->y[AT_HEADING]; /* the turn is to be stopped, not undone */
        it->y[AT_HEADING_TRIM] = 0.0;
    }
    if (changed) {
        ls_ode_restart(it->ode);
    }
    next_s = it->flight.acts ? next_s : fmin(next_s, request->delay_s);
    next_s = it->flight.feathers ? next_s : fmin(next_s, feather_s);
    return it->flight.recovers ? next_s : fmin(next_s, request->recover_s);
}

/* Returned: whether an event ends the motion. */
static int take_event(run *it, int which)
{
    ls_motion *motion = it->motion;
    int ends_beyond = it->flight.request->until_beyond;
    switch (which) {
    case HEADING_LIMIT:
        first_time(1, it->t_s, &motion->heading_limit_s);
        motion->end = ends_beyond ? LS_MOTION_BEYOND : motion->end;
        return ends_beyond;
    case BANK_PAST:
        first_time(1, it->t_s, &motion->bank_limit_s);
        motion->end = ends_beyond ? LS_MOTION_BEYOND : motion->end;
        return ends_beyond;
    case FIN_STALL:
        motion->end = LS_MOTION_FIN_STALL;
        return 1;
    case WING_STALL:
        motion->end = LS_MOTION_WING_STALL;
        return 1;
    case BANK_OVER:
        motion->end = LS_MOTION_BANK;
        return 1;
    case GROUND:
        motion->end = LS_MOTION_GROUND;
        return 1;
    default:
        return 0;
    }
}

/* From sample to sample, through phases and events. */
static ls_status follow(run *it, ls_error *error)
{
    const ls_motion_request *request = it->flight.request;
    double sample_s = request->sample_s > 0.0 ? request->sample_s : 0.1;
    int number = 1, event_seen = -1;
    ls_error why = {0};
    enter_phases(it);
    ls_status status = take_sample(it, error);
    while (status == LS_OK && it->t_s < request->duration_s - 1e-9) {
        double next_s = fmin(enter_phases(it), number * sample_s);
        if (ls_ode_advance(it->ode, &it->t_s, next_s, it->y, &event_seen, &why) != LS_OK) {
            it->motion->end = LS_MOTION_DIVERGED;
            break;
        }
        int ends = event_seen >= 0 && take_event(it, event_seen);
        if (ends || it->t_s >= number * sample_s - 1e-12 || it->t_s >= request->duration_s - 1e-9) {
            number += it->t_s >= number * sample_s - 1e-12;
            status = take_sample(it, error);
        }
        if (ends || (request->until_straight && !isnan(it->motion->straight_s))) {
            it->motion->end = ends ? it->motion->end : LS_MOTION_STRAIGHT;
            break;
        }
    }
    if (status == LS_NOT_CONVERGED) {
        it->motion->end = LS_MOTION_DIVERGED;
        status = LS_OK;
    }
    it->motion->end_s = it->t_s;
    it->motion->steps = ls_ode_steps(it->ode);
    return status;
}

static void set_scale(run *it)
{
    static const double body[BODY_STATES] = {
        [AT_U] = 1,          [AT_V] = 1,       [AT_W] = 1,        [AT_P] = 0.1,       [AT_Q] = 0.1,
        [AT_R] = 0.1,        [AT_BANK] = 0.1,  [AT_PITCH] = 0.1,  [AT_HEADING] = 0.1, [AT_NORTH] = 10,
        [AT_EAST] = 10,      [AT_CLIMBED] = 1, [AT_RUDDER] = 0.1, [AT_AILERON] = 0.1, [AT_HEADING_TRIM] = 0.1,
        [AT_BANK_TRIM] = 0.1};
    memcpy(it->scale, body, sizeof body);
    for (int i = 0; i < LS_MAX_ENGINES; i++) {
        it->scale[BODY_STATES + PROPELLER_STATES * i] = 10.0;
        it->scale[BODY_STATES + PROPELLER_STATES * i + 1] = 0.1;
    }
}

static void clear(ls_motion *motion)
{
    memset(motion, 0, sizeof *motion);
    motion->heading_limit_s = motion->bank_limit_s = motion->rudder_stop_s = motion->pedal_limit_s = NAN;
    motion->straight_s = motion->feather_rev_s = motion->stopped_s = NAN;
}

ls_status ls_motion_run(const ls_aircraft *aircraft, const ls_motion_request *request, ls_motion *motion,
                        ls_error *error)
{
    run *it = calloc(1, sizeof *it);
    clear(motion);
    if (it == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    it->motion = motion;
    it->straight_since_s = NAN;
    set_scale(it);
    ls_status status = ls_motion_start(aircraft, request, &it->flight, it->y, error);
    ls_ode_problem problem = {.dimension = ls_motion_dimension(&it->flight),
                              .rates = ls_motion_rates,
                              .context = &it->flight,
                              .events = EVENTS,
                              .event = event,
                              .scale = it->scale,
                              .tolerance = request->tolerance > 0.0 ? request->tolerance : 1e-7};
    status = status == LS_OK ? ls_ode_new(&problem, &it->ode, error) : status;
    status = status == LS_OK ? follow(it, error) : status;
    ls_ode_free(it->ode);
    free(it);
    if (status != LS_OK) {
        ls_motion_free(motion);
    }
    return status;
}

void ls_motion_free(ls_motion *motion)
{
    free(motion->sample);
    motion->sample = NULL;
    motion->count = 0;
}
