/* What is left to decide at a field, and the published figures. */
#include "num/root.h"
#include "study/performance_parts.h"

#include <math.h>
#include <string.h>

#define MASS_TOL_KG 1e-3
#define FOOT_M      0.3048

/* ---- at a field ---- */

typedef struct {
    const ls_performance_request *request;
    const ls_performance_case *of;
    double near_eas_m_s;
} loading;

static double rate_at_mass(double mass_kg, void *context)
{
    loading *l = context;
    ls_climb_best best;
    ls_condition condition = l->of->condition;
    condition.mass_kg = mass_kg;
    ls_status status = ls_case_best_rate(l->request->aircraft, &condition, l->of->rule, condition.altitude_m,
                                         &l->near_eas_m_s, &best, NULL);
    return status == LS_OK ? best.point.rate_m_s : NAN;
}

/* The greatest mass of the file's range at which level flight is held here. */
static void find_heaviest(const ls_performance_request *request, ls_field_case *field)
{
    const ls_aircraft *aircraft = request->aircraft;
    loading l = {request, &field->solved, 0.0};
    ls_root_options options = {.x_tol = MASS_TOL_KG};
    ls_root_report report;
    field->heaviest_kg = NAN;
    double least = rate_at_mass(aircraft->mass.minimum_kg, &l), most = rate_at_mass(aircraft->mass.maximum_kg, &l);
    field->heaviest = isnan(least) || isnan(most) ? LS_HEAVIEST_FAILED
                      : most >= 0.0               ? LS_HEAVIEST_MAXIMUM
                      : least < 0.0               ? LS_HEAVIEST_NONE
                                                  : LS_HEAVIEST_FOUND;
    if (field->heaviest == LS_HEAVIEST_MAXIMUM) {
        field->heaviest_kg = aircraft->mass.maximum_kg;
    } else if (field->heaviest == LS_HEAVIEST_FOUND) {
        ls_status status = ls_root_find(rate_at_mass, &l, aircraft->mass.minimum_kg, aircraft->mass.maximum_kg,
                                        &options, &report);
        field->heaviest = status == LS_OK ? LS_HEAVIEST_FOUND : LS_HEAVIEST_FAILED;
        field->heaviest_kg = status == LS_OK ? report.x : NAN;
    }
}

static void add_case(const ls_performance_request *request, const ls_performance_case *of, double gear, int flap,
                     ls_engine_state state, ls_field *field)
{
    ls_field_case *out = &field->of[field->cases];
    ls_condition condition = request->condition;
    ls_error error = {0};
    condition.gear = gear;
    condition.flap = flap;
    ls_performance_case *solved = &out->solved;
    ls_performance_case_solve(request, &condition, of->failed, state, NULL, solved);
    if (solved->status == LS_NO_STATE) {
        return; /* no data for that state: no case */
    }
    field->cases++;
    if (solved->status == LS_OK) {
        solved->status = ls_climb_ceiling(request->aircraft, &solved->condition, solved->rule, 0.0, 0.0,
                                          &solved->absolute, &error);
        ls_case_reason(solved->reason, &error);
    }
    if (solved->status == LS_OK) {
        find_heaviest(request, out);
    }
}

static void solve_days(const ls_performance_request *request, const ls_performance_case *of, ls_field *field)
{
    for (int day = 0; day < LS_FIELD_DAYS; day++) {
        ls_condition condition = of->condition;
        double near_eas_m_s = 0.0;
        field->isa_offset_K[day] = condition.isa_offset_K = 10.0 * (day - 1);
        for (int i = 0; i < LS_FIELD_ALTITUDES; i++) {
            ls_climb_best best;
            field->altitude_m[i] = 2000.0 * FOOT_M * i;
            ls_status status = ls_case_best_rate(request->aircraft, &condition, of->rule, field->altitude_m[i],
                                                 &near_eas_m_s, &best, NULL);
            field->rate_m_s[i][day] = status == LS_OK ? best.point.rate_m_s : NAN;
        }
    }
}

void ls_field_solve(const ls_performance_request *request, const ls_performance_case *of, ls_field *field)
{
    static const ls_engine_state states[] = {LS_WINDMILLING, LS_FEATHERED};
    int flap = request->condition.flap, clean = ls_flap_clean(request->aircraft);
    memset(field, 0, sizeof *field);
    for (int gear = 1; gear >= 0; gear--) {
        for (int i = 0; i < 2; i++) {
            add_case(request, of, gear, flap, states[i], field);
        }
    }
    if (flap != clean) {
        for (int i = 0; i < 2; i++) {
            add_case(request, of, 0.0, clean, states[i], field);
        }
    }
    solve_days(request, of, field);
}

/* ---- against published figures ---- */

static double shown_speed(const ls_aircraft *aircraft, const ls_climb_best *best)
{
    return aircraft->published.vmc_kind == 1 ? ls_indicated_airspeed(aircraft, best->point.cas_m_s, NULL)
                                             : best->point.cas_m_s;
}

static double altitude_of(const ls_ceiling *ceiling)
{
    return ceiling->kind == LS_CEILING_FOUND ? ceiling->altitude_m : NAN;
}

void ls_published_climb_solve(const ls_performance_request *request, ls_published_climb *computed)
{
    ls_performance_request clean = *request;
    ls_performance performance;
    const ls_aircraft *aircraft = request->aircraft;
    *computed = (ls_published_climb){NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN};
    ls_condition_takeoff(aircraft, &clean.condition);
    clean.condition.flap = ls_flap_clean(aircraft);
    clean.condition.pedal_limit_N = request->condition.pedal_limit_N;
    clean.condition.effects_off = request->condition.effects_off;
    clean.condition.rotation = request->condition.rotation;
    clean.state = -1;
    clean.bank_given = 0;
    if (ls_performance_solve(&clean, NULL, &performance, NULL) != LS_OK) {
        return;
    }
    const ls_performance_case *all = &performance.all, *one = ls_performance_worst(&performance);
    computed->vy_m_s = shown_speed(aircraft, &all->rate);
    computed->vx_m_s = shown_speed(aircraft, &all->gradient);
    computed->climb_m_s = all->rate.point.rate_m_s;
    computed->ceiling_m = altitude_of(&all->service);
    if (one != NULL) {
        computed->vyse_m_s = shown_speed(aircraft, &one->rate);
        computed->vxse_m_s = shown_speed(aircraft, &one->gradient);
        computed->climb_one_engine_m_s = one->rate.point.rate_m_s;
        computed->ceiling_one_engine_m = altitude_of(&one->service);
    }
}
