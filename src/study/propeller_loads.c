/* The running propeller: loads in flow from the side, thrust and efficiency against speed. */
#include "study/propeller_parts.h"

#include <math.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

static ls_status loads_at(const ls_prop_study *study, const ls_prop_point *at, double incidence_rad,
                          ls_induction induction, ls_disc_loads *loads)
{
    ls_disc_state state = {.V_axial_m_s = at->V_m_s * cos(incidence_rad),
                           .V_inplane_m_s = at->V_m_s * sin(incidence_rad),
                           .n_rev_s = at->n_rev_s,
                           .pitch_rad = at->pitch_rad,
                           .rho_kg_m3 = study->model.air.rho_kg_m3,
                           .a_m_s = study->model.air.a_m_s};
    return ls_disc_solve(&study->disc, &state, induction, LS_DISC_AZIMUTHS, loads, NULL);
}

/* The offset means nothing where there is hardly any thrust. */
static double offset_of(const ls_disc_loads *loads, double least_N)
{
    return fabs(loads->T_N) > least_N ? loads->m1_N_m / loads->T_N : NAN;
}

void ls_prop_incidence_solve(const ls_prop_study *study, double V_m_s, double step_rad, int count,
                             ls_prop_incidence *incidence)
{
    memset(incidence, 0, sizeof *incidence);
    ls_prop_point_solve(study, LS_RUNNING, study->model.condition.power, V_m_s, &incidence->at);
    incidence->status = incidence->at.status;
    incidence->count = count < LS_PROP_INCIDENCES ? count : LS_PROP_INCIDENCES;
    double least_N = 0.02 * fabs(incidence->at.thrust_N);
    for (int i = 0; i < incidence->count && incidence->status == LS_OK; i++) {
        ls_disc_loads local, frozen;
        incidence->incidence_rad[i] = i * step_rad;
        incidence->status = loads_at(study, &incidence->at, i * step_rad, LS_INDUCTION_LOCAL, &local);
        if (incidence->status == LS_OK) {
            incidence->status = loads_at(study, &incidence->at, i * step_rad, LS_INDUCTION_FROZEN, &frozen);
        }
        if (incidence->status == LS_OK) {
            incidence->offset_m[i] = offset_of(&local, least_N);
            incidence->normal_N[i] = local.N_N;
            incidence->moment_Nm[i] = local.m1_N_m;
            incidence->offset_bound_m[i] = offset_of(&frozen, least_N);
            incidence->normal_bound_N[i] = frozen.N_N;
        }
    }
}

/* P = T (V + v) and T = 2 rho A v (V + v) make P = 2 rho A v (V + v)^2, which rises with v: Newton from above. */
double ls_prop_ideal_thrust(double power_W, double V_m_s, double area_m2, double rho_kg_m3)
{
    double k = power_W / (2.0 * rho_kg_m3 * area_m2), v = cbrt(k);
    if (!(power_W > 0.0)) {
        return 0.0;
    }
    for (int i = 0; i < 60; i++) {
        double U = V_m_s + v, step = (v * U * U - k) / (U * (U + 2.0 * v));
        v -= step;
        if (fabs(step) <= 1e-14 * v) {
            break;
        }
    }
    return 2.0 * rho_kg_m3 * area_m2 * v * (V_m_s + v);
}

/* Efficiency at a fixed pitch and the rated speed of rotation, by direct solution; not a number where it does not
 * pull. */
static double fixed_efficiency(const ls_prop_study *study, double pitch_rad, double V_m_s)
{
    ls_disc_axial axial;
    ls_disc_state state = {.V_axial_m_s = V_m_s,
                           .n_rev_s = study->rated_rev_s,
                           .pitch_rad = pitch_rad,
                           .rho_kg_m3 = study->model.air.rho_kg_m3,
                           .a_m_s = study->model.air.a_m_s};
    if (ls_disc_solve_axial(&study->disc, &state, LS_INDUCTION_LOCAL, &axial, NULL) != LS_OK || axial.T_N <= 0.0 ||
        axial.Q_N_m <= 0.0) {
        return NAN;
    }
    return axial.T_N * V_m_s / (2.0 * pi * study->rated_rev_s * axial.Q_N_m);
}

void ls_prop_by_speed_solve(const ls_prop_study *study, double first_m_s, double step_m_s, int count,
                            ls_prop_by_speed *by_speed)
{
    const double step_rad = 4.0 * pi / 180.0;
    double power = study->model.condition.power, area_m2 = 0.25 * pi * pow(study->disc.diameter_m, 2);
    const ls_powerplant_data *data = study->powerplant->data;
    memset(by_speed, 0, sizeof *by_speed);
    by_speed->count = count < LS_PROP_SPEEDS ? count : LS_PROP_SPEEDS;
    for (int k = 0; k < LS_PROP_FIXED; k++) {
        by_speed->fixed_pitch_rad[k] = data->propeller.fine_pitch_rad + k * step_rad;
    }
    for (int i = 0; i < by_speed->count; i++) {
        double cas_m_s = first_m_s + i * step_m_s, V_m_s = prop_tas(&study->model.air, cas_m_s);
        ls_prop_point *takeoff = &by_speed->takeoff[i];
        by_speed->cas_m_s[i] = cas_m_s;
        by_speed->V_m_s[i] = V_m_s;
        ls_prop_point_solve(study, LS_RUNNING, power, V_m_s, takeoff);
        ls_prop_point_solve(study, LS_RUNNING, power * data->engine.continuous, V_m_s, &by_speed->continuous[i]);
        by_speed->ideal_N[i] = takeoff->status == LS_OK ? ls_prop_ideal_thrust(takeoff->power_W, V_m_s, area_m2,
                                                                               study->model.air.rho_kg_m3)
                                                        : NAN;
        for (int k = 0; k < LS_PROP_FIXED; k++) {
            by_speed->fixed_efficiency[k][i] = fixed_efficiency(study, by_speed->fixed_pitch_rad[k], V_m_s);
        }
    }
}
