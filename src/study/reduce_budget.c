/* What each instrument's accuracy does to the standard speed of one point. */
#include "study/reduce_parts.h"

#include <math.h>

/* The point that stands for the others: a limit point in the middle of its kind, else a steady one. */
static int typical_point(const ls_reduction *out)
{
    for (int use = LS_USE_LIMIT; use <= LS_USE_STEADY; use++) {
        int seen = 0;
        for (int i = 0; i < out->rows; i++) {
            if ((int)out->row[i].use == use && ++seen > out->uses[use] / 2) {
                return i;
            }
        }
    }
    return -1;
}

/* The rudder that the model needs less the one that was there, at a point with one reading changed. */
static double shortfall(const ls_reducing *r, const ls_point *point, double power_share)
{
    ls_condition condition;
    ls_flown flown;
    ls_trim trim;
    if (ls_reduce_condition(r->request->aircraft, point, &condition) != NULL ||
        ls_reduce_fly(r->request->aircraft, point, &condition, &flown) != NULL) {
        return NAN;
    }
    for (int i = 0; i < flown.model.units; i++) {
        flown.model.unit[i].power *= power_share;
    }
    if (ls_powerplant_at(&flown.model, flown.speed.TAS_m_s, &flown.loads, NULL) != LS_OK) {
        return NAN;
    }
    double measured = isnan(flown.rudder_rad) ? ls_reduce_travel(&flown.model, flown.live_side) : flown.rudder_rad;
    return ls_reduce_rudder(&flown.model, &flown, NULL, &trim) - measured;
}

static void add_line(ls_reduction *out, const char *name, double accuracy, int dimension, double m_s)
{
    out->budget[out->budget_lines++] = (ls_budget_line){name, accuracy, dimension, fabs(m_s)};
    out->budget_m_s = hypot(out->budget_m_s, isnan(m_s) ? 0.0 : m_s);
}

ls_status ls_reduce_budget(ls_reducing *r, ls_error *error)
{
    ls_reduction *out = r->out;
    const ls_accuracies *good = &r->request->accuracies;
    int row = typical_point(out);
    (void)error;
    if (row < 0) {
        return LS_OK;
    }
    const ls_point *point = &r->request->points->point[row];
    double base = shortfall(r, point, 1.0);
    ls_point faster = *point, banked = *point, heavier = *point, warmer = *point, higher = *point;
    faster.cas_m_s += good->speed_m_s;
    banked.bank_rad += good->bank_rad;
    heavier.mass_kg *= 1.0 + good->mass_share;
    warmer.T_K += good->T_K;
    higher.altitude_m += good->altitude_m;
    double per_speed = (shortfall(r, &faster, 1.0) - base) / good->speed_m_s; /* rudder per CAS, negative */
    double to_standard = -1.0 / per_speed;
    const ls_interval *answer = &out->group[out->row[row].group].model;
    if (isfinite(answer->value)) {
        to_standard *= answer->value / point->cas_m_s;
    }
    add_line(out, "airspeed", good->speed_m_s, LS_DIM_SPEED, (shortfall(r, &faster, 1.0) - base) * to_standard);
    add_line(out, "bank", good->bank_rad, LS_DIM_ANGLE, (shortfall(r, &banked, 1.0) - base) * to_standard);
    add_line(out, "rudder", good->rudder_rad, LS_DIM_ANGLE, good->rudder_rad * to_standard);
    add_line(out, "weight", good->mass_share, LS_DIM_FRACTION, (shortfall(r, &heavier, 1.0) - base) * to_standard);
    add_line(out, "temperature", good->T_K, LS_DIM_TEMPERATURE_DIFFERENCE,
             (shortfall(r, &warmer, 1.0) - base) * to_standard);
    add_line(out, "altitude", good->altitude_m, LS_DIM_ALTITUDE,
             (shortfall(r, &higher, 1.0) - base) * to_standard);
    add_line(out, "power", good->power_share, LS_DIM_FRACTION,
             (shortfall(r, point, 1.0 + good->power_share) - base) * to_standard);
    return LS_OK;
}
