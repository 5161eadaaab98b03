#include "liveside/runway.h"

#include "flight/motion_parts.h"
#include "flight/pedal.h"
#include "liveside/airspeed.h"
#include "num/ode.h"
#include "num/root.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)

/* The pilot steers the nose to the other side of a path that leads off, three times as far but by no more than 8
 * deg, with rudder per error of heading and per rate of turn, and trims in what a lasting error of path needs. Own
 * choice: quick, without driving the fin toward its stall on the way back. */
#define LEAD         3.0
#define LEAD_MOST    (8.0 * DEG)
#define HEADING_GAIN 4.0
#define TURN_GAIN_S  3.0
#define TRIM_PER_S   8.0
#define WIND_UP      0.1 /* rad beyond a stop, where trimming has faded out */
#define SURFACE_S    0.05
#define OFF_M        0.1 /* a path that has not left the centreline by this has not yet to come back */
#define LOST_RAD     (60.0 * DEG)

/* The state: velocity over the ground along and across the aeroplane, turn, place, heading, rudder; propellers as
 * in a motion. */
enum {
    G_U,
    G_V,
    G_R,
    G_X,
    G_Y,
    G_HEADING,
    G_RUDDER,
    G_TRIM,
    GROUND_STATES,
    GROUND_MAX = GROUND_STATES + 2 * LS_MAX_ENGINES
};

enum { PARALLEL, FIN_STALL, LOST, EVENTS };

typedef struct {
    ls_flight flight;
    ls_motion_request motion; /* what the flight's parts ask of a request */
    const ls_runway_request *request;
    ls_wheels wheels;
    ls_runway *runway;
    ls_ode *ode;
    int capacity;
    double rudder_start_rad, heading_start_rad;
    double t_s, y[GROUND_MAX], scale[GROUND_MAX];
} roll;

/* Loads of the ground and the air at one state. */
typedef struct {
    ls_moment air;
    double ahead_N, side_N,
        yaw_Nm; /* along and across the aeroplane in the plane of the runway, and about the vertical */
    double load_N, tyre_N, path_rad, across_m_s;
    double wanted_rad;
} instant;

const char *ls_runway_end_text(ls_runway_end end)
{
    static const char *const texts[LS_RUNWAY_ENDS] = {"the path is parallel again", "the path still diverges",
                                                      "the fin stalls", "it turns off the runway"};
    return (unsigned)end < LS_RUNWAY_ENDS ? texts[end] : "unknown";
}

ls_wheels ls_wheels_of(const ls_aircraft *aircraft, double cg_aft_m)
{
    double chord_m =
        ls_given(aircraft->wing.chord_m) ? aircraft->wing.chord_m : aircraft->wing.area_m2 / aircraft->wing.span_m;
    double main_m =
        isnan(aircraft->ground.main_aft_m) ? aircraft->cg.aft_m + 0.1 * chord_m : aircraft->ground.main_aft_m;
    double nose_m =
        isnan(aircraft->ground.nose_aft_m) ? main_m - 0.22 * aircraft->wing.span_m : aircraft->ground.nose_aft_m;
    double share = (cg_aft_m - nose_m) / (main_m - nose_m);
    return (ls_wheels){main_m - cg_aft_m, fmin(1.0, fmax(0.0, share))};
}

/* The motion's own state for the same air: wings level, the nose up by the incidence, air over the ground less the
 * wind.
 */
static void as_motion(const roll *it, const double *g, double *y)
{
    double theta = it->flight.after.aircraft->ground.incidence_rad, wind = -it->request->crosswind_m_s;
    double ahead = g[G_U] - wind * sin(g[G_HEADING]), right = g[G_V] - wind * cos(g[G_HEADING]);
    memset(y, 0, BODY_STATES * sizeof *y);
    y[AT_U] = ahead * cos(theta);
    y[AT_V] = right;
    y[AT_W] = ahead * sin(theta);
    y[AT_P] = -g[G_R] * sin(theta);
    y[AT_R] = g[G_R] * cos(theta);
    y[AT_PITCH] = theta;
    y[AT_HEADING] = g[G_HEADING];
    memcpy(y + BODY_STATES, g + GROUND_STATES,
           2 * (size_t)it->flight.after.units * sizeof *y); /* as many as in use */
}

/* Side force of the main wheels. Check by hand: an axle that moves to the right (slip positive) is pushed to the
 * left. */
static double tyre_force(const roll *it, double load_N, double slip_rad)
{
    const ls_aircraft *aircraft = it->flight.after.aircraft;
    double grip = aircraft->ground.grip;
    return -grip * load_N * tanh(aircraft->ground.cornering_per_rad * slip_rad / grip);
}

static void add_wheels(const roll *it, const double *g, instant *now)
{
    const ls_aircraft *aircraft = it->flight.after.aircraft;
    double theta = aircraft->ground.incidence_rad;
    double lift_N = -(now->air.force_N[2] * cos(theta) - now->air.force_N[0] * sin(theta));
    double load_N = fmax(0.0, it->flight.after.weight_N - lift_N);
    double slip_rad = atan2(g[G_V] - it->wheels.main_behind_m * g[G_R], g[G_U]);
    now->load_N = it->flight.after.weight_N - lift_N;
    now->tyre_N = tyre_force(it, load_N * it->wheels.main_share, slip_rad);
    now->ahead_N -= aircraft->ground.rolling * load_N;
    now->side_N += now->tyre_N;
    now->yaw_Nm -= it->wheels.main_behind_m * now->tyre_N;
}

/* Returned: 0, or 1 where there is no such state. */
static int look(const roll *it, double t_s, const double *g, instant *now)
{
    const ls_flight *flight = &it->flight;
    double y[STATES_MAX], theta = flight->after.aircraft->ground.incidence_rad;
    if (!(g[G_U] > 1.0)) {
        return 1;
    }
    as_motion(it, g, y);
    if (ls_motion_air(flight, t_s, y, &now->air)) {
        return 1;
    }
    now->across_m_s = g[G_U] * sin(g[G_HEADING]) + g[G_V] * cos(g[G_HEADING]);
    now->path_rad = g[G_HEADING] + atan2(g[G_V], g[G_U]);
    double fin_rad = now->air.beta_rad * flight->after.aircraft->fin.sidewash + now->air.point.fin_rad;
    ls_pedal_range(&flight->after, now->air.q_Pa, fin_rad, &now->air.rudder_low_rad, &now->air.rudder_high_rad);
    now->wanted_rad = it->rudder_start_rad;
    if (flight->acts) {
        double lead_rad = fmax(-LEAD_MOST, fmin(LEAD_MOST, LEAD * now->path_rad));
        double error_rad = g[G_HEADING] - it->heading_start_rad + lead_rad;
        now->wanted_rad += HEADING_GAIN * error_rad + TURN_GAIN_S * g[G_R] + g[G_TRIM];
    }
    now->air.rudder_rad = g[G_RUDDER];
    now->air.aileron_rad = 0.0;
    ls_motion_loads(flight, y, &now->air);
    now->ahead_N = now->air.force_N[0] * cos(theta) + now->air.force_N[2] * sin(theta);
    now->side_N = now->air.force_N[1];
    now->yaw_Nm = now->air.yaw_Nm * cos(theta) - now->air.roll_Nm * sin(theta);
    add_wheels(it, g, now);
    return 0;
}

static int rates(double t_s, const double *g, double *out, void *context)
{
    const roll *it = context;
    const ls_flight *flight = &it->flight;
    const ls_aircraft *aircraft = flight->after.aircraft;
    double mass = flight->after.weight_N / LS_G0_M_S2;
    instant now;
    if (look(it, t_s, g, &now)) {
        return 1;
    }
    out[G_U] = now.ahead_N / mass + g[G_V] * g[G_R];
    out[G_V] = now.side_N / mass - g[G_U] * g[G_R];
    out[G_R] = now.yaw_Nm / flight->inertia.zz_kg_m2;
    out[G_X] = g[G_U] * cos(g[G_HEADING]) - g[G_V] * sin(g[G_HEADING]);
    out[G_Y] = now.across_m_s;
    out[G_HEADING] = g[G_R];
    double held = fmax(now.air.rudder_low_rad, fmin(now.air.rudder_high_rad, now.wanted_rad));
    double rate = (held - g[G_RUDDER]) / SURFACE_S, fastest = aircraft->pilot.rudder_rad_s;
    out[G_RUDDER] = flight->acts ? fmax(-fastest, fmin(fastest, rate)) : 0.0;
    double beyond =
        now.path_rad > 0.0 ? now.wanted_rad - now.air.rudder_high_rad : now.air.rudder_low_rad - now.wanted_rad;
    double trims = flight->acts ? fmax(0.0, fmin(1.0, 1.0 - beyond / WIND_UP)) : 0.0;
    out[G_TRIM] = trims * TRIM_PER_S * now.path_rad;
    for (int i = 0; i < flight->after.units; i++) {
        out[GROUND_STATES + 2 * i] = flight->moves[i] ? now.air.propeller_rate[i][0] : 0.0;
        out[GROUND_STATES + 2 * i + 1] = flight->moves[i] ? now.air.propeller_rate[i][1] : 0.0;
    }
    return 0;
}

/* The path turns parallel where the speed across, on the side to which the failure drives it, passes zero. */
static double event(double t_s, const double *g, int which, void *context)
{
    const roll *it = context;
    double y[STATES_MAX], across = g[G_U] * sin(g[G_HEADING]) + g[G_V] * cos(g[G_HEADING]);
    (void)t_s;
    switch (which) {
    case PARALLEL:
        return fabs(g[G_Y]) > OFF_M ? -copysign(across, g[G_Y] * across) : -1.0;
    case FIN_STALL:
        as_motion(it, g, y);
        return fabs(atan2(y[AT_V], hypot(y[AT_U], y[AT_W]))) - it->flight.after.aircraft->fin.stall_sideslip_rad;
    default:
        return fabs(g[G_HEADING]) - LOST_RAD;
    }
}

/* ---- the start: rolling straight with every engine running ---- */

/* Yawing moment with a rudder angle, and the rudder that makes it vanish, at a speed across the aeroplane. */
static double balancing_rudder(roll *it, double *g)
{
    double rudder[2] = {0.0, 0.1}, yaw[2];
    instant now;
    for (int k = 0; k < 2; k++) {
        g[G_RUDDER] = rudder[k];
        yaw[k] = look(it, 0.0, g, &now) ? NAN : now.yaw_Nm;
    }
    double slope = (yaw[1] - yaw[0]) / 0.1;
    double angle = slope != 0.0 ? -yaw[0] / slope : 0.0;
    for (int k = 0; k < 8; k++) { /* the rudder's effect may bend: a few steps of the secant's slope */
        g[G_RUDDER] = angle;
        if (look(it, 0.0, g, &now) || !(fabs(now.yaw_Nm) > 1e-9) || slope == 0.0) {
            break;
        }
        angle -= now.yaw_Nm / slope;
    }
    return g[G_RUDDER] = angle;
}

static void crab(const roll *it, double *g, double across_m_s)
{
    double V = it->request->V_m_s;
    g[G_HEADING] = -asin(fmax(-0.9, fmin(0.9, across_m_s / V))); /* the path stays along the runway */
    g[G_V] = across_m_s;
    g[G_U] = sqrt(fmax(1.0, V * V - across_m_s * across_m_s));
}

static double side_left(double across_m_s, void *context)
{
    roll *it = context;
    instant now;
    crab(it, it->y, across_m_s);
    balancing_rudder(it, it->y);
    return look(it, 0.0, it->y, &now) ? NAN : now.side_N;
}

static ls_status start(const ls_aircraft *aircraft, roll *it, ls_error *error)
{
    const ls_runway_request *request = it->request;
    double y[STATES_MAX];
    ls_motion_usual(aircraft, &request->condition, request->failed, request->V_m_s, &it->motion);
    it->motion.state = request->state;
    it->motion.delay_s = request->delay_s;
    it->motion.loads = request->loads;
    ls_status status = ls_motion_prepare(aircraft, &it->motion, &it->flight, y, error);
    if (status != LS_OK) {
        return status;
    }
    memcpy(it->y + GROUND_STATES, y + BODY_STATES, (GROUND_MAX - GROUND_STATES) * sizeof *y);
    it->wheels = ls_wheels_of(aircraft, request->condition.cg_aft_m);
    double lift = it->flight.after.lift_zero + it->flight.after.lift_slope * aircraft->ground.incidence_rad;
    it->flight.rates = ls_rates_of(&it->flight.before, lift);
    ls_model after = it->flight.after; /* before the failure nothing has failed yet: units as they were */
    it->flight.after = it->flight.before;
    ls_root_options options = {.x_tol = 1e-10};
    ls_root_report report;
    double most = 0.5 * request->V_m_s;
    if (ls_root_find(side_left, it, -most, most, &options, &report) != LS_OK) {
        return ls_fail(error, LS_NO_STATE, "it does not roll straight before the failure at %.1f kt",
                       request->V_m_s * 3600.0 / 1852.0);
    }
    side_left(report.x, it);
    it->flight.after = after;
    it->heading_start_rad = it->y[G_HEADING];
    it->rudder_start_rad = it->runway->rudder_start_rad = it->y[G_RUDDER];
    if (it->y[G_RUDDER] < -aircraft->rudder.right_rad || it->y[G_RUDDER] > aircraft->rudder.left_rad) {
        return ls_fail(error, LS_NO_STATE,
                       "the rudder does not hold it straight even before the failure at %.1f kt",
                       request->V_m_s * 3600.0 / 1852.0);
    }
    return LS_OK;
}

/* ---- the roll ---- */

static void watch(roll *it, const instant *now, const ls_runway_sample *s)
{
    ls_runway *runway = it->runway;
    const ls_aircraft *aircraft = it->flight.after.aircraft;
    runway->y_most_m =
        fabs(s->y_m) > fabs(runway->y_most_m) && isnan(runway->parallel_s) ? s->y_m : runway->y_most_m;
    runway->heading_most_rad =
        fabs(s->heading_rad) > fabs(runway->heading_most_rad) ? s->heading_rad : runway->heading_most_rad;
    if (now->load_N <= 0.0 && isnan(runway->lifts_s)) {
        runway->lifts_s = s->t_s;
    }
    const double close_rad = 0.1 * DEG;
    int left = now->wanted_rad > now->air.rudder_high_rad && s->rudder_rad > now->air.rudder_high_rad - close_rad;
    int right = now->wanted_rad < now->air.rudder_low_rad && s->rudder_rad < now->air.rudder_low_rad + close_rad;
    int by_force = (left && now->air.rudder_high_rad < aircraft->rudder.left_rad) ||
                   (right && now->air.rudder_low_rad > -aircraft->rudder.right_rad);
    double *first_s = by_force ? &runway->pedal_limit_s : &runway->rudder_stop_s;
    if (it->flight.acts && (left || right) && isnan(*first_s)) {
        *first_s = s->t_s;
    }
}

static ls_status take_sample(roll *it, ls_error *error)
{
    ls_runway *runway = it->runway;
    instant now;
    if (look(it, it->t_s, it->y, &now)) {
        return ls_fail(error, LS_NOT_CONVERGED, "the roll cannot be followed beyond %.3f s", it->t_s);
    }
    if (runway->count == it->capacity) {
        int capacity = it->capacity > 0 ? 2 * it->capacity : 256;
        ls_runway_sample *grown = realloc(runway->sample, (size_t)capacity * sizeof *grown);
        if (grown == NULL) {
            return ls_fail(error, LS_MEMORY, "out of memory");
        }
        runway->sample = grown;
        it->capacity = capacity;
    }
    double fin_rad = now.air.beta_rad * it->flight.after.aircraft->fin.sidewash + now.air.point.fin_rad;
    int failed = ls_motion_first_failed(&it->flight);
    ls_runway_sample *s = &runway->sample[runway->count++];
    *s = (ls_runway_sample){.t_s = it->t_s,
                            .x_m = it->y[G_X],
                            .y_m = it->y[G_Y],
                            .V_m_s = now.air.V_m_s,
                            .heading_rad = it->y[G_HEADING],
                            .path_rad = now.path_rad,
                            .beta_rad = now.air.beta_rad,
                            .r_rad_s = it->y[G_R],
                            .rudder_rad = it->y[G_RUDDER],
                            .pedal_force_N =
                                ls_pedal_force(&it->flight.after, now.air.q_Pa, fin_rad, it->y[G_RUDDER]),
                            .tyre_N = now.tyre_N,
                            .load_N = fmax(0.0, now.load_N) * it->wheels.main_share};
    ls_airspeed speed;
    s->cas_m_s =
        ls_airspeed_from_tas(&it->flight.after.air, now.air.V_m_s, &speed, NULL) == LS_OK ? speed.CAS_m_s : NAN;
    if (failed >= 0) {
        s->failed_rev_s = now.air.point.unit[failed].n_rev_s;
        s->failed_thrust_N = now.air.point.unit[failed].thrust_N;
    }
    watch(it, &now, s);
    return LS_OK;
}

static double enter_phases(roll *it)
{
    const double slack = 1e-9;
    double feather_s = ls_motion_feather_time(&it->flight), rev_s;
    int latched;
    if (!it->flight.acts && it->t_s >= it->request->delay_s - slack) {
        it->flight.acts = 1;
        ls_ode_restart(it->ode);
    }
    if (!it->flight.feathers && it->t_s >= feather_s - slack) {
        ls_motion_begin_feathering(&it->flight, it->y, &rev_s, &latched);
        ls_ode_restart(it->ode);
    }
    return fmin(it->flight.acts ? INFINITY : it->request->delay_s, it->flight.feathers ? INFINITY : feather_s);
}

/* Returned: whether it ends the roll. */
static int take_event(roll *it, int which)
{
    static const ls_runway_end ends[EVENTS] = {LS_RUNWAY_PARALLEL, LS_RUNWAY_FIN_STALL, LS_RUNWAY_LOST};
    if (which != PARALLEL) {
        it->runway->end = ends[which];
        return 1;
    }
    if (isnan(it->runway->parallel_s)) {
        it->runway->parallel_s = it->t_s;
        it->runway->end = LS_RUNWAY_PARALLEL;
        if (fabs(it->y[G_Y]) > fabs(it->runway->y_most_m)) {
            it->runway->y_most_m = it->y[G_Y];
        }
    }
    return !it->request->past_parallel;
}

static ls_status follow(roll *it, ls_error *error)
{
    double sample_s = it->request->sample_s > 0.0 ? it->request->sample_s : 0.1;
    double duration_s = it->request->duration_s > 0.0 ? it->request->duration_s : 20.0;
    int number = 1, event_seen = -1;
    ls_error why = {0};
    it->runway->end = LS_RUNWAY_DIVERGING;
    enter_phases(it);
    ls_status status = take_sample(it, error);
    while (status == LS_OK && it->t_s < duration_s - 1e-9) {
        double next_s = fmin(duration_s, fmin(enter_phases(it), number * sample_s));
        if (ls_ode_advance(it->ode, &it->t_s, next_s, it->y, &event_seen, &why) != LS_OK) {
            it->runway->end = LS_RUNWAY_LOST;
            break;
        }
        int ends = event_seen >= 0 && take_event(it, event_seen);
        if (ends || it->t_s >= number * sample_s - 1e-12) {
            number += it->t_s >= number * sample_s - 1e-12;
            status = take_sample(it, error);
        }
        if (ends) {
            break;
        }
    }
    it->runway->end_s = it->t_s;
    if (it->runway->end == LS_RUNWAY_DIVERGING && fabs(it->y[G_Y]) <= OFF_M) {
        it->runway->end = LS_RUNWAY_PARALLEL; /* it has not moved at all */
        it->runway->parallel_s = 0.0;
    }
    if (status == LS_NOT_CONVERGED) {
        it->runway->end = LS_RUNWAY_LOST;
        status = LS_OK;
    }
    return status;
}

ls_status ls_runway_run(const ls_aircraft *aircraft, const ls_runway_request *request, ls_runway *runway,
                        ls_error *error)
{
    static const double body[GROUND_STATES] = {1.0, 1.0, 0.1, 10.0, 1.0, 0.1, 0.1, 0.1};
    roll *it = calloc(1, sizeof *it);
    memset(runway, 0, sizeof *runway);
    runway->parallel_s = runway->rudder_stop_s = runway->pedal_limit_s = runway->lifts_s = NAN;
    if (it == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    it->request = request;
    it->runway = runway;
    memcpy(it->scale, body, sizeof body);
    for (int i = 0; i < LS_MAX_ENGINES; i++) {
        it->scale[GROUND_STATES + 2 * i] = 10.0;
        it->scale[GROUND_STATES + 2 * i + 1] = 0.1;
    }
    ls_status status = start(aircraft, it, error);
    ls_ode_problem problem = {.dimension = GROUND_STATES + 2 * it->flight.after.units,
                              .rates = rates,
                              .context = it,
                              .events = EVENTS,
                              .event = event,
                              .scale = it->scale,
                              .tolerance = request->tolerance > 0.0 ? request->tolerance : 1e-7};
    status = status == LS_OK ? ls_ode_new(&problem, &it->ode, error) : status;
    status = status == LS_OK ? follow(it, error) : status;
    ls_ode_free(it->ode);
    free(it);
    if (status != LS_OK) {
        ls_runway_free(runway);
    }
    return status;
}

void ls_runway_free(ls_runway *runway)
{
    free(runway->sample);
    runway->sample = NULL;
    runway->count = 0;
}
