#include "prop/governor.h"

#include "num/root.h"
#include "prop/engine.h"
#include "prop/turning.h"

#include <math.h>

#define DEG (3.14159265358979323846 / 180.0)

/* What the searches share: the last point solved stands in `governed`. */
typedef struct {
    const ls_powerplant *powerplant;
    const ls_air *air;
    ls_engine_state state;
    double power, V_m_s;
    double pitch_rad, n_rev_s; /* the one that is not searched for */
    ls_governed *governed;
} balance;

static void loads(balance *b, double pitch_rad, double n_rev_s)
{
    ls_disc_state state = {.V_axial_m_s = b->V_m_s,
                           .n_rev_s = n_rev_s,
                           .pitch_rad = pitch_rad,
                           .rho_kg_m3 = b->air->rho_kg_m3,
                           .a_m_s = b->air->a_m_s};
    unsigned edge = ls_prop_table_at(b->powerplant->data->propeller.table, &state, &b->governed->axial);
    b->governed->pitch_rad = pitch_rad;
    b->governed->n_rev_s = n_rev_s;
    b->governed->flags &= ~(unsigned)LS_PROPULSOR_TABLE_EDGE;
    b->governed->flags |= edge != 0 ? LS_PROPULSOR_TABLE_EDGE : 0u;
}

/* Torque that the propeller takes less torque that the engine gives: positive slows the shaft down. */
static double excess(balance *b, double pitch_rad, double n_rev_s)
{
    loads(b, pitch_rad, n_rev_s);
    return b->governed->axial.Q_N_m - ls_engine_torque(b->powerplant, b->air, b->state, b->power, n_rev_s);
}

static double excess_by_pitch(double pitch_rad, void *context)
{
    balance *b = context;
    return excess(b, pitch_rad, b->n_rev_s);
}

static double excess_by_speed(double n_rev_s, void *context)
{
    balance *b = context;
    return excess(b, b->pitch_rad, n_rev_s);
}

/* From fine to coarse in steps, for torque against pitch is not monotone past the stall of the blades; the first
 * pitch that takes more than the engine gives is bracketed. */
static void hold_speed(balance *b, double lever_rev_s)
{
    const ls_propeller_data *propeller = &b->powerplant->data->propeller;
    double coarse_rad = ls_turning_coarse(propeller), low_rad = propeller->fine_pitch_rad;
    ls_root_options options = {.x_tol = 1e-12};
    ls_root_report report;
    b->n_rev_s = lever_rev_s;
    while (low_rad < coarse_rad) {
        double high_rad = fmin(coarse_rad, low_rad + 4.0 * DEG);
        if (excess(b, high_rad, lever_rev_s) > 0.0) {
            ls_root_find(excess_by_pitch, b, low_rad, high_rad, &options, &report);
            loads(b, report.x, lever_rev_s);
            return;
        }
        low_rad = high_rad;
    }
    b->pitch_rad = coarse_rad; /* the engine is too strong even there: it runs away until the torques meet */
    if (ls_root_find(excess_by_speed, b, lever_rev_s, 2.0 * lever_rev_s, &options, &report) == LS_OK) {
        loads(b, coarse_rad, report.x);
    }
    b->governed->flags |= LS_PROPULSOR_COARSE_STOP;
}

/* On the fine stop, from the lever's speed down: the first speed at which the shaft would speed up brackets the
 * highest stable root. A narrow dip between two steps is looked into. Returned: 0 when there is no such speed. */
static int find_on_stop(balance *b, double lever_rev_s)
{
    enum { STEPS = 60 };
    const double ratio = 0.94;
    double upper[3] = {NAN, NAN, lever_rev_s}, value[3] = {NAN, NAN, excess_by_speed(lever_rev_s, b)};
    ls_root_options options = {.x_tol = 1e-11};
    ls_root_report report;
    for (int i = 0; i < STEPS; i++) {
        double n = upper[2] * ratio, here = excess_by_speed(n, b);
        upper[0] = upper[1], upper[1] = upper[2], upper[2] = n;
        value[0] = value[1], value[1] = value[2], value[2] = here;
        double low = n;
        if (here > 0.0 && value[1] < value[0] && value[1] < here) {
            ls_minimum_report least;
            ls_root_options coarse = {.x_tol = 1e-6 * n};
            ls_minimum_find(excess_by_speed, b, n, upper[0], &coarse, &least);
            here = least.value;
            low = least.x;
        }
        if (here <= 0.0) {
            double high = low < upper[1] ? upper[1] : upper[0];
            ls_root_find(excess_by_speed, b, low, high, &options, &report);
            loads(b, b->pitch_rad, report.x);
            return 1;
        }
    }
    return 0;
}

void ls_governor_settle(const ls_powerplant *powerplant, ls_engine_state state, double power, const ls_air *air,
                        double V_m_s, double lever_rev_s, ls_governed *governed)
{
    double fine_rad = powerplant->data->propeller.fine_pitch_rad;
    balance b = {.powerplant = powerplant,
                 .air = air,
                 .state = state,
                 .power = power,
                 .V_m_s = V_m_s,
                 .pitch_rad = fine_rad,
                 .governed = governed};
    governed->flags = 0;
    if (excess(&b, fine_rad, lever_rev_s) < 0.0) {
        hold_speed(&b, lever_rev_s);
        return;
    }
    governed->flags |= LS_PROPULSOR_FINE_STOP;
    if (!find_on_stop(&b, lever_rev_s)) {
        ls_governor_stand(powerplant, air, V_m_s, fine_rad, governed);
        governed->flags |= LS_PROPULSOR_STOPS | LS_PROPULSOR_FINE_STOP;
    }
}

void ls_governor_stand(const ls_powerplant *powerplant, const ls_air *air, double V_m_s, double pitch_rad,
                       ls_governed *governed)
{
    balance b = {.powerplant = powerplant, .air = air, .V_m_s = V_m_s, .governed = governed};
    governed->flags = 0;
    loads(&b, pitch_rad, 0.0);
    if (fabs(governed->axial.Q_N_m) > ls_engine_break_out(powerplant)) {
        governed->flags |= LS_PROPULSOR_TURNS;
    }
}

static double thrust_by_pitch(double pitch_rad, void *context)
{
    balance *b = context;
    loads(b, pitch_rad, b->n_rev_s);
    return b->governed->axial.T_N;
}

static double thrust_by_speed(double n_rev_s, void *context)
{
    balance *b = context;
    loads(b, b->pitch_rad, n_rev_s);
    return b->governed->axial.T_N;
}

void ls_governor_zero_thrust(const ls_powerplant *powerplant, const ls_air *air, double V_m_s, double lever_rev_s,
                             ls_governed *governed)
{
    double fine_rad = powerplant->data->propeller.fine_pitch_rad;
    balance b = {.powerplant = powerplant,
                 .air = air,
                 .V_m_s = V_m_s,
                 .pitch_rad = fine_rad,
                 .n_rev_s = lever_rev_s,
                 .governed = governed};
    ls_root_options options = {.x_tol = 1e-12};
    ls_root_report report;
    governed->flags = 0;
    if (thrust_by_pitch(fine_rad, &b) < 0.0) {
        ls_root_find(thrust_by_pitch, &b, fine_rad, fine_rad + 40.0 * DEG, &options, &report);
        loads(&b, report.x, lever_rev_s);
    } else {
        ls_root_find(thrust_by_speed, &b, 0.01 * lever_rev_s, lever_rev_s, &options, &report);
        loads(&b, fine_rad, report.x);
        governed->flags |= LS_PROPULSOR_FINE_STOP;
    }
}
