#include "prop/governor.h"

#include "num/root.h"
#include "prop/engine.h"
#include "prop/table.h"
#include "prop/turning.h"

#include <math.h>

#define DEG (3.14159265358979323846 / 180.0)

static const double pitch_tol_rad = 1e-12, speed_tol_rev_s = 1e-11;
static const double balanced_Nm = 1e-9; /* torques that differ by less are equal: a search ends there */

/* What the searches share. */
typedef struct {
    const ls_shaft *shaft;
    double pitch_rad, n_rev_s; /* the one that is not searched for */
    double thrust_N;           /* wanted */
    int lookups;
} balance;

static ls_disc_state state_at(const ls_shaft *shaft, double pitch_rad, double n_rev_s)
{
    return (ls_disc_state){.V_axial_m_s = shaft->V_m_s,
                           .n_rev_s = n_rev_s,
                           .pitch_rad = pitch_rad,
                           .rho_kg_m3 = shaft->air->rho_kg_m3,
                           .a_m_s = shaft->air->a_m_s};
}

static const ls_propeller_data *propeller_of(const ls_shaft *shaft)
{
    return &shaft->powerplant->data->propeller;
}

static ls_disc_axial read_loads(balance *b, double pitch_rad, double n_rev_s)
{
    ls_disc_axial axial;
    ls_disc_state state = state_at(b->shaft, pitch_rad, n_rev_s);
    prop_table_thrust_torque(propeller_of(b->shaft)->table, &state, &axial);
    b->lookups++;
    return axial;
}

/* Torque that the propeller takes less torque that the engine gives: positive slows the shaft down. */
static double excess(balance *b, double pitch_rad, double n_rev_s)
{
    const ls_shaft *shaft = b->shaft;
    return read_loads(b, pitch_rad, n_rev_s).Q_N_m -
           ls_engine_torque(shaft->powerplant, shaft->air, shaft->state, shaft->power, n_rev_s);
}

static double to_search(double excess_Nm)
{
    return fabs(excess_Nm) < balanced_Nm ? 0.0 : excess_Nm;
}

static double excess_by_pitch(double pitch_rad, void *context)
{
    balance *b = context;
    return to_search(excess(b, pitch_rad, b->n_rev_s));
}

static double excess_by_speed(double n_rev_s, void *context)
{
    balance *b = context;
    return to_search(excess(b, b->pitch_rad, n_rev_s));
}

/* The full loads of the point that was found. */
static void finish(const balance *b, double pitch_rad, double n_rev_s, double excess_Nm, unsigned flags,
                   ls_governed *governed)
{
    ls_disc_state state = state_at(b->shaft, pitch_rad, n_rev_s);
    unsigned edge = ls_prop_table_at(propeller_of(b->shaft)->table, &state, &governed->axial);
    governed->pitch_rad = pitch_rad;
    governed->n_rev_s = n_rev_s;
    governed->excess_Nm = excess_Nm;
    governed->lookups = b->lookups + 1;
    governed->flags = flags | (edge != 0 ? LS_PROPULSOR_TABLE_EDGE : 0u);
}

static ls_status failed(const balance *b, const char *what, ls_root_stop stop, ls_error *error)
{
    return ls_fail(error, LS_NOT_CONVERGED, "propeller of powerplant '%s' at %.2f m/s: no %s: %s",
                   b->shaft->powerplant->data->name, b->shaft->V_m_s, what, ls_root_stop_text(stop));
}

/* On the coarse stop, where the engine is still too strong: it runs away until the torques meet. */
static ls_status run_away(balance *b, double coarse_rad, double lever_rev_s, double excess_Nm,
                          ls_governed *governed, ls_error *error)
{
    ls_root_options options = {.x_tol = speed_tol_rev_s};
    ls_root_report report = {.low = lever_rev_s, .f_low = excess_Nm, .high = 2.0 * lever_rev_s};
    b->pitch_rad = coarse_rad;
    report.f_high = excess_by_speed(report.high, b);
    if (ls_root_narrow(excess_by_speed, b, &report, &options, &report) != LS_OK) {
        return failed(b, "balance of torque on the coarse stop", report.stop, error);
    }
    finish(b, coarse_rad, report.x, report.residual, LS_PROPULSOR_COARSE_STOP, governed);
    return LS_OK;
}

/* From fine to coarse in steps, for torque against pitch is not monotone past the stall of the blades; the first
 * pitch that takes more than the engine gives is bracketed. A step goes a little past where the last two points
 * say the balance lies. */
static ls_status hold_speed(balance *b, double lever_rev_s, double fine_excess_Nm, ls_governed *governed,
                            ls_error *error)
{
    double coarse_rad = ls_turning_coarse(propeller_of(b->shaft)), step_rad = 1.5 * DEG;
    ls_root_options options = {.x_tol = pitch_tol_rad};
    ls_root_report report = {.low = propeller_of(b->shaft)->fine_pitch_rad, .f_low = fine_excess_Nm};
    b->n_rev_s = lever_rev_s;
    while (report.low < coarse_rad) {
        report.high = fmin(coarse_rad, report.low + step_rad);
        report.f_high = excess_by_pitch(report.high, b);
        if (!(report.f_high < 0.0)) {
            if (ls_root_narrow(excess_by_pitch, b, &report, &options, &report) != LS_OK) {
                return failed(b, "pitch that holds the set speed", report.stop, error);
            }
            finish(b, report.x, lever_rev_s, report.residual, 0, governed);
            return LS_OK;
        }
        double gained = report.f_high - report.f_low;
        double ahead_rad = gained > 0.0 ? -1.02 * report.f_high / gained * (report.high - report.low) : INFINITY;
        step_rad = fmin(fmax(ahead_rad, 0.25 * DEG), 4.0 * DEG);
        report.low = report.high;
        report.f_low = report.f_high;
    }
    return run_away(b, coarse_rad, lever_rev_s, report.f_low, governed, error);
}

/* Three speeds going down, the middle one lowest in excess: whether a narrow dip between them reaches zero. */
static int dips_below(balance *b, const double n_rev_s[3], double *least_rev_s, double *least_Nm)
{
    ls_minimum_report least;
    ls_root_options coarse = {.x_tol = 1e-6 * n_rev_s[0]};
    if (ls_minimum_find(excess_by_speed, b, n_rev_s[2], n_rev_s[0], &coarse, &least) != LS_OK) {
        return 0;
    }
    *least_rev_s = least.x;
    *least_Nm = least.value;
    return least.value <= 0.0;
}

/* Down from a speed at which the shaft slows down: the first speed at which it would speed up brackets the highest
 * stable root. Returned: whether there is one; ends. */
static int bracket_turning(balance *b, double high_rev_s, double high_Nm, ls_root_report *ends)
{
    enum { STEPS = 60 };
    const double ratio = 0.94;
    double n_rev_s[3] = {NAN, NAN, high_rev_s}, excess_Nm[3] = {NAN, NAN, high_Nm};
    for (int i = 0; i < STEPS; i++) {
        n_rev_s[0] = n_rev_s[1], n_rev_s[1] = n_rev_s[2], n_rev_s[2] *= ratio;
        excess_Nm[0] = excess_Nm[1], excess_Nm[1] = excess_Nm[2];
        excess_Nm[2] = excess_by_speed(n_rev_s[2], b);
        *ends =
            (ls_root_report){.low = n_rev_s[2], .f_low = excess_Nm[2], .high = n_rev_s[1], .f_high = excess_Nm[1]};
        if (excess_Nm[2] <= 0.0) {
            return 1;
        }
        if (excess_Nm[1] < excess_Nm[0] && excess_Nm[1] < excess_Nm[2] &&
            dips_below(b, n_rev_s, &ends->low, &ends->f_low)) {
            ends->high = n_rev_s[0];
            ends->f_high = excess_Nm[0];
            return 1;
        }
    }
    return 0;
}

/* Where the search for the turning root begins: a dead engine takes torque at every speed, and so does the
 * propeller down to about its free windmilling speed, so that no root lies above that. */
static void start_lower(balance *b, double *high_rev_s, double *high_Nm)
{
    const ls_shaft *shaft = b->shaft;
    const ls_propeller_data *propeller = propeller_of(shaft);
    double n_rev_s = prop_table_windmill_rev_s(propeller->table, shaft->V_m_s);
    if (b->pitch_rad != propeller->fine_pitch_rad || !(n_rev_s > 0.0 && n_rev_s < *high_rev_s) ||
        ls_engine_torque(shaft->powerplant, shaft->air, shaft->state, shaft->power, n_rev_s) > 0.0) {
        return;
    }
    double excess_Nm = excess_by_speed(n_rev_s, b);
    if (excess_Nm > 0.0) {
        *high_rev_s = n_rev_s;
        *high_Nm = excess_Nm;
    }
}

/* At a pitch, below a speed at which the shaft slows down. */
static ls_status settle_below(balance *b, double pitch_rad, double high_rev_s, double high_Nm, unsigned flags,
                              ls_governed *governed, ls_error *error)
{
    ls_root_options options = {.x_tol = speed_tol_rev_s};
    ls_root_report report;
    b->pitch_rad = pitch_rad;
    start_lower(b, &high_rev_s, &high_Nm);
    if (!bracket_turning(b, high_rev_s, high_Nm, &report)) {
        ls_governor_stand(b->shaft, pitch_rad, governed);
        governed->lookups += b->lookups;
        governed->flags = (governed->flags & ~(unsigned)LS_PROPULSOR_TURNS) | flags | LS_PROPULSOR_STOPS;
        return LS_OK;
    }
    if (ls_root_narrow(excess_by_speed, b, &report, &options, &report) != LS_OK) {
        return failed(b, "speed at which the torques balance", report.stop, error);
    }
    finish(b, pitch_rad, report.x, report.residual, flags, governed);
    return LS_OK;
}

ls_status ls_governor_settle(const ls_shaft *shaft, double lever_rev_s, ls_governed *governed, ls_error *error)
{
    balance b = {.shaft = shaft};
    double fine_rad = propeller_of(shaft)->fine_pitch_rad;
    double excess_Nm = to_search(excess(&b, fine_rad, lever_rev_s));
    if (excess_Nm < 0.0) {
        return hold_speed(&b, lever_rev_s, excess_Nm, governed, error);
    }
    return settle_below(&b, fine_rad, lever_rev_s, excess_Nm, LS_PROPULSOR_FINE_STOP, governed, error);
}

ls_status ls_governor_hold(const ls_shaft *shaft, double pitch_rad, double high_rev_s, ls_governed *governed,
                           ls_error *error)
{
    balance b = {.shaft = shaft};
    double excess_Nm = excess(&b, pitch_rad, high_rev_s);
    if (excess_Nm < 0.0) {
        return ls_fail(error, LS_NOT_CONVERGED, "propeller of powerplant '%s' held at %.1f deg: it overspeeds",
                       shaft->powerplant->data->name, pitch_rad / DEG);
    }
    return settle_below(&b, pitch_rad, high_rev_s, excess_Nm, 0, governed, error);
}

void ls_governor_stand(const ls_shaft *shaft, double pitch_rad, ls_governed *governed)
{
    balance b = {.shaft = shaft};
    finish(&b, pitch_rad, 0.0, 0.0, 0, governed);
    governed->excess_Nm = governed->axial.Q_N_m;
    if (fabs(governed->axial.Q_N_m) > ls_engine_break_out(shaft->powerplant)) {
        governed->flags |= LS_PROPULSOR_TURNS;
    }
}

static double thrust_by_pitch(double pitch_rad, void *context)
{
    balance *b = context;
    return read_loads(b, pitch_rad, b->n_rev_s).T_N - b->thrust_N;
}

static double thrust_by_speed(double n_rev_s, void *context)
{
    balance *b = context;
    return read_loads(b, b->pitch_rad, n_rev_s).T_N - b->thrust_N;
}

/* On the fine stop, below the lever's speed. Thrust turns before torque as the propeller slows down, so that at
 * half the speed of free windmilling it drags. */
static ls_status slow_to_thrust(balance *b, double lever_rev_s, double lever_N, ls_governed *governed,
                                ls_error *error)
{
    ls_root_options options = {.x_tol = speed_tol_rev_s};
    double low_rev_s = 0.5 * prop_table_windmill_rev_s(propeller_of(b->shaft)->table, b->shaft->V_m_s);
    ls_root_report report = {.low = low_rev_s, .high = lever_rev_s, .f_high = lever_N};
    if (low_rev_s == 0.0) {
        ls_governor_stand(b->shaft, b->pitch_rad, governed);
        governed->flags |= LS_PROPULSOR_FINE_STOP;
        return LS_OK;
    }
    report.f_low = thrust_by_speed(low_rev_s, b);
    if (ls_root_narrow(thrust_by_speed, b, &report, &options, &report) != LS_OK) {
        return failed(b, "speed with that thrust on the fine stop", report.stop, error);
    }
    finish(b, b->pitch_rad, report.x, 0.0, LS_PROPULSOR_FINE_STOP, governed);
    return LS_OK;
}

ls_status ls_governor_set_thrust(const ls_shaft *shaft, double lever_rev_s, double thrust_N, ls_governed *governed,
                                 ls_error *error)
{
    const ls_propeller_data *propeller = propeller_of(shaft);
    double fine_rad = propeller->fine_pitch_rad;
    balance b = {.shaft = shaft, .pitch_rad = fine_rad, .n_rev_s = lever_rev_s, .thrust_N = thrust_N};
    ls_root_options options = {.x_tol = pitch_tol_rad};
    ls_root_report report = {.low = fine_rad, .f_low = thrust_by_pitch(fine_rad, &b)};
    if (report.f_low >= 0.0) {
        return slow_to_thrust(&b, lever_rev_s, report.f_low, governed, error);
    }
    report.high = fmin(ls_turning_coarse(propeller), fine_rad + 40.0 * DEG);
    if (report.high > report.low) {
        report.f_high = thrust_by_pitch(report.high, &b);
        if (ls_root_narrow(thrust_by_pitch, &b, &report, &options, &report) == LS_OK) {
            finish(&b, report.x, lever_rev_s, 0.0, 0, governed);
            return LS_OK;
        }
    }
    return ls_fail(error, LS_NO_STATE,
                   "the propeller of powerplant '%s' cannot be set to %s thrust at %.1f m/s: no pitch within its "
                   "stops gives it at %.0f rpm",
                   shaft->powerplant->data->name, thrust_N == 0.0 ? "zero" : "that", shaft->V_m_s,
                   60.0 * lever_rev_s);
}
