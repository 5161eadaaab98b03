/* The propeller on a dead engine: against speed, and against the blade angle. */
#include "num/root.h"
#include "study/propeller_parts.h"

#include <math.h>
#include <string.h>

static void from_governed(ls_status status, const ls_governed *governed, ls_dead_point *point)
{
    *point = (ls_dead_point){.status = status, .drag_N = NAN, .n_rev_s = NAN, .pitch_rad = NAN};
    if (status == LS_OK) {
        point->n_rev_s = governed->n_rev_s;
        point->pitch_rad = governed->pitch_rad;
        point->drag_N = -governed->axial.T_N;
        point->flags = governed->flags;
    }
}

static ls_dead_point dead_at(const ls_prop_study *study, ls_engine_state state, double V_m_s)
{
    ls_propulsor_point load;
    ls_dead_point point;
    ls_governed governed = {0};
    ls_status status = ls_propulsor_at(study->powerplant, state, 1.0, &study->model.air, V_m_s, &load, NULL);
    if (status == LS_OK) {
        governed = (ls_governed){.n_rev_s = load.n_rev_s,
                                 .pitch_rad = load.pitch_rad,
                                 .axial = {.T_N = load.thrust_N},
                                 .flags = load.flags};
    }
    from_governed(status, &governed, &point);
    return point;
}

/* ---- against speed ---- */

/* The slowest true airspeed at which it windmills, by halving; not a number where it does so at any. */
static double stopping_speed(const ls_prop_study *study)
{
    double low = 0.05 * study->model.stall_V_m_s, high = 3.0 * study->model.stall_V_m_s;
    if (!(dead_at(study, LS_WINDMILLING, low).flags & LS_PROPULSOR_STOPS) ||
        (dead_at(study, LS_WINDMILLING, high).flags & LS_PROPULSOR_STOPS)) {
        return NAN;
    }
    while (high - low > 1e-6) {
        double middle = 0.5 * (low + high);
        *(dead_at(study, LS_WINDMILLING, middle).flags & LS_PROPULSOR_STOPS ? &low : &high) = middle;
    }
    return high;
}

typedef struct {
    const ls_prop_study *study;
    double n_rev_s;
} speed_search;

static double above_speed(double V_m_s, void *context)
{
    const speed_search *search = context;
    return dead_at(search->study, LS_WINDMILLING, V_m_s).n_rev_s - search->n_rev_s;
}

/* The airspeed at which it windmills at a speed of rotation, above the one where it stops; the latter where it
 * turns faster there already; not a number where none is reached. */
static double airspeed_of(const ls_prop_study *study, double n_rev_s, double stops_m_s)
{
    speed_search search = {study, n_rev_s};
    ls_root_options options = {.x_tol = 1e-6};
    ls_root_report report;
    double low = isnan(stops_m_s) ? 0.05 * study->model.stall_V_m_s : stops_m_s;
    if (isnan(n_rev_s)) {
        return NAN;
    }
    if (above_speed(low, &search) >= 0.0) {
        return stops_m_s;
    }
    ls_status status = ls_root_find(above_speed, &search, low, 3.0 * study->model.stall_V_m_s, &options, &report);
    return status == LS_OK ? report.x : NAN;
}

void ls_dead_by_speed_solve(const ls_prop_study *study, double first_m_s, double step_m_s, int count,
                            ls_dead_by_speed *dead)
{
    const ls_air *air = &study->model.air;
    const ls_propeller_data *propeller = &study->powerplant->data->propeller;
    memset(dead, 0, sizeof *dead);
    dead->count = count < LS_PROP_SPEEDS ? count : LS_PROP_SPEEDS;
    for (int i = 0; i < dead->count; i++) {
        double V_m_s = prop_tas(air, first_m_s + i * step_m_s);
        dead->cas_m_s[i] = first_m_s + i * step_m_s;
        dead->V_m_s[i] = V_m_s;
        dead->forward[i] = dead_at(study, LS_WINDMILLING, V_m_s);
        dead->aft[i] = dead_at(study, LS_LEVER_AFT, V_m_s);
        dead->idle[i] = dead_at(study, LS_IDLE, V_m_s);
        dead->stopped[i] = dead_at(study, LS_STOPPED, V_m_s);
        dead->feathered[i] = dead_at(study, LS_FEATHERED, V_m_s);
    }
    double stops_m_s = stopping_speed(study);
    dead->stops_cas_m_s = prop_cas(air, stops_m_s);
    dead->latched_cas_m_s = prop_cas(air, airspeed_of(study, propeller->feather_latch_rev_s, stops_m_s));
    dead->aft_cas_m_s = prop_cas(air, airspeed_of(study, propeller->lever_aft_rev_s, stops_m_s));
}

/* ---- against the blade angle ---- */

static double coarsest(const ls_propeller_data *propeller)
{
    double coarse_rad = fmax(propeller->coarse_pitch_rad, propeller->feather_pitch_rad); /* fmax passes NaN over */
    return isnan(coarse_rad) ? propeller->fine_pitch_rad : coarse_rad;
}

/* Between two neighbours, where a difference changes sign. */
static double crossing(double x0, double d0, double x1, double d1)
{
    return x0 + (x1 - x0) * d0 / (d0 - d1);
}

static void find_limits(ls_dead_by_pitch *dead)
{
    dead->stops_rad = dead->crossing_rad = NAN;
    for (int i = 0; i + 1 < dead->count; i++) {
        int turns = !(dead->windmilling[i].flags & LS_PROPULSOR_STOPS);
        int turns_next = !(dead->windmilling[i + 1].flags & LS_PROPULSOR_STOPS);
        double d0 = dead->windmilling[i].drag_N - dead->stopped[i].drag_N;
        double d1 = dead->windmilling[i + 1].drag_N - dead->stopped[i + 1].drag_N;
        if (turns && !turns_next && isnan(dead->stops_rad)) {
            dead->stops_rad = dead->pitch_rad[i];
        }
        if (turns && turns_next && d0 > 0.0 && d1 <= 0.0 && isnan(dead->crossing_rad)) {
            dead->crossing_rad = crossing(dead->pitch_rad[i], d0, dead->pitch_rad[i + 1], d1);
        }
    }
}

void ls_dead_by_pitch_solve(const ls_prop_study *study, double V_m_s, int count, ls_dead_by_pitch *dead)
{
    const ls_propeller_data *propeller = &study->powerplant->data->propeller;
    double fine_rad = propeller->fine_pitch_rad, span_rad = coarsest(propeller) - fine_rad;
    ls_shaft shaft = {study->powerplant, &study->model.air, LS_WINDMILLING, 1.0, V_m_s};
    memset(dead, 0, sizeof *dead);
    dead->count = count < LS_PROP_PITCHES ? count : LS_PROP_PITCHES;
    dead->V_m_s = V_m_s;
    for (int i = 0; i < dead->count; i++) {
        ls_governed governed;
        double pitch_rad = fine_rad + span_rad * i / (dead->count - 1);
        dead->pitch_rad[i] = pitch_rad;
        ls_status status = ls_governor_hold(&shaft, pitch_rad, 2.0 * study->rated_rev_s, &governed, NULL);
        from_governed(status, &governed, &dead->windmilling[i]);
        ls_governor_stand(&shaft, pitch_rad, &governed);
        from_governed(LS_OK, &governed, &dead->stopped[i]);
    }
    find_limits(dead);
}
