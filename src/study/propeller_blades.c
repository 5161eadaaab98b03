/* The same blade in other numbers, at the same tip speed and power. */
#include "num/root.h"
#include "study/propeller_parts.h"

#include <math.h>
#include <string.h>

static const double turn = 2.0 * 3.14159265358979323846;

typedef struct {
    const ls_disc *disc;
    const ls_air *air;
    double V_m_s, n_rev_s, torque_Nm;
    ls_disc_axial axial; /* of the last pitch tried */
} pitch_search;

static double torque_excess(double pitch_rad, void *context)
{
    pitch_search *it = context;
    ls_disc_state state = {.V_axial_m_s = it->V_m_s,
                           .n_rev_s = it->n_rev_s,
                           .pitch_rad = pitch_rad,
                           .rho_kg_m3 = it->air->rho_kg_m3,
                           .a_m_s = it->air->a_m_s};
    if (ls_disc_solve_axial(it->disc, &state, LS_INDUCTION_LOCAL, &it->axial, NULL) != LS_OK) {
        return NAN;
    }
    return it->axial.Q_N_m - it->torque_Nm;
}

/* The finest pitch that absorbs the torque. */
static ls_status find_pitch(pitch_search *it, double *pitch_rad)
{
    const double deg = 3.14159265358979323846 / 180.0;
    ls_root_options options = {.x_tol = 1e-9};
    ls_root_report report;
    double low, high;
    ls_status status = ls_root_bracket(torque_excess, it, -5.0 * deg, 60.0 * deg, 65, &low, &high);
    status = status == LS_OK ? ls_root_find(torque_excess, it, low, high, &options, &report) : status;
    if (status == LS_OK) {
        *pitch_rad = report.x;
        torque_excess(report.x, it);
    }
    return status;
}

/* At one of the three settings, at its speed of rotation and power. */
static void solve_setting(pitch_search *it, const ls_blade_counts *counts, int setting, ls_blade_count *row)
{
    double n_rev_s = counts->n_rev_s[setting], power_W = counts->power_W[setting];
    it->V_m_s = counts->V_m_s[setting];
    it->n_rev_s = n_rev_s;
    it->torque_Nm = power_W / (turn * n_rev_s);
    row->pitch_rad[setting] = row->thrust_N[setting] = row->efficiency[setting] = NAN;
    if (isfinite(it->torque_Nm) && find_pitch(it, &row->pitch_rad[setting]) == LS_OK) {
        row->thrust_N[setting] = it->axial.T_N;
        row->efficiency[setting] = it->axial.T_N * it->V_m_s / power_W;
    }
}

/* At the blade angle of the file's own propeller in the climb, and feathered at the same speed. */
static void solve_same_pitch(pitch_search *it, const ls_prop_point *climb, double feather_rad, ls_blade_count *row)
{
    row->absorbed_W = row->feathered_N = NAN;
    if (climb->status != LS_OK) {
        return;
    }
    it->V_m_s = climb->V_m_s;
    it->n_rev_s = climb->n_rev_s;
    if (isfinite(torque_excess(climb->pitch_rad, it))) {
        row->absorbed_W = turn * climb->n_rev_s * it->axial.Q_N_m;
    }
    it->n_rev_s = 0.0;
    if (ls_given(feather_rad) && isfinite(torque_excess(feather_rad, it))) {
        row->feathered_N = -it->axial.T_N;
    }
}

static void solve_count(const ls_prop_study *study, const ls_prop_flight *flight, const ls_blade_counts *counts,
                        int blades, ls_blade_count *row)
{
    ls_blade blade = study->blade;
    ls_disc disc;
    const ls_propeller_data *propeller = &study->powerplant->data->propeller;
    pitch_search it = {.disc = &disc, .air = &study->model.air};
    blade.blades = blades;
    memset(row, 0, sizeof *row);
    row->blades = blades;
    row->solidity = ls_blade_solidity(&blade);
    row->status = ls_disc_prepare(&blade, &propeller->section, NULL, &disc, NULL);
    if (row->status != LS_OK) {
        return;
    }
    for (int i = 0; i < LS_BLADE_SETTINGS; i++) {
        solve_setting(&it, counts, i, row);
    }
    solve_same_pitch(&it, &flight->phase[LS_PHASE_CLIMB], propeller->feather_pitch_rad, row);
}

void ls_blade_counts_solve(const ls_prop_study *study, const ls_prop_flight *flight, int low, int high,
                           ls_blade_counts *counts)
{
    static const ls_phase phases[LS_BLADE_SETTINGS] = {LS_PHASE_RUN_UP, LS_PHASE_CLIMB, LS_PHASE_CRUISE};
    memset(counts, 0, sizeof *counts);
    for (int i = 0; i < LS_BLADE_SETTINGS; i++) {
        const ls_prop_point *at = &flight->phase[phases[i]];
        int is_there = at->status == LS_OK;
        counts->V_m_s[i] = is_there ? at->V_m_s : NAN;
        counts->cas_m_s[i] = is_there ? at->cas_m_s : NAN;
        counts->power_W[i] = is_there ? at->power_W : NAN;
        counts->n_rev_s[i] = is_there ? at->n_rev_s : NAN;
    }
    for (int blades = low; blades <= high && blades <= LS_PROP_BLADES_MAX; blades++) {
        solve_count(study, flight, counts, blades, &counts->row[counts->count++]);
    }
}
