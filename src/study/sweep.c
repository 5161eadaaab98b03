#include "liveside/sweep.h"

#include <math.h>
#include <string.h>

static double between(double low, double high, int i)
{
    return low + (high - low) * i / (LS_SWEEP_POINTS - 1);
}

static double speed_of(const ls_vmca_point *point)
{
    return point->status == LS_OK ? point->vmc.cas_m_s : NAN;
}

/* The highest and lowest of the single failures at one bank; NaN counts as missing. */
static void extremes(const ls_aircraft *aircraft, const ls_vmca *vmca, int rotation, double bank_rad,
                     double *highest, double *lowest)
{
    *highest = *lowest = NAN;
    for (int i = 0; i < vmca->sets; i++) {
        const ls_vmca_set *set = &vmca->set[i];
        ls_condition condition = set->condition;
        ls_vmca_point point;
        if (ls_set_size(set->failed) != 1 && vmca->sets > 1) {
            continue;
        }
        if (rotation != LS_ROTATION_FILE) {
            condition.rotation = (ls_rotation)rotation;
        }
        ls_vmca_point_solve(aircraft, &condition, set->live_side, bank_rad, &point);
        *highest = fmax(*highest, speed_of(&point));
        *lowest = fmin(*lowest, speed_of(&point));
    }
}

void ls_bank_sweep_solve(const ls_aircraft *aircraft, const ls_vmca *vmca, double low_rad, double high_rad,
                         ls_bank_sweep *sweep)
{
    memset(sweep, 0, sizeof *sweep);
    for (int i = 0; i < LS_SWEEP_POINTS; i++) {
        double lowest;
        ls_vmca_point point;
        const ls_vmca_set *first = &vmca->set[0];
        sweep->bank_rad[i] = between(low_rad, high_rad, i);
        for (int rotation = 0; rotation < LS_ROTATIONS; rotation++) {
            extremes(aircraft, vmca, rotation, sweep->bank_rad[i], &sweep->cas_m_s[rotation][i], &lowest);
            if (rotation == LS_ROTATION_FILE) {
                sweep->other_cas_m_s[i] = lowest;
            }
        }
        ls_vmca_point_solve(aircraft, &first->condition, first->live_side, sweep->bank_rad[i], &point);
        sweep->stall_cas_m_s[i] = point.status == LS_OK ? point.vmc.stall_cas_m_s : NAN;
    }
}

void ls_altitude_sweep_solve(const ls_aircraft *aircraft, const ls_vmca_set *set, double top_m,
                             ls_altitude_sweep *sweep)
{
    for (int i = 0; i < LS_SWEEP_POINTS; i++) {
        ls_condition condition = set->condition;
        ls_vmca_point banked, level;
        condition.altitude_m = sweep->altitude_m[i] = between(set->condition.altitude_m, top_m, i);
        ls_vmca_point_solve(aircraft, &condition, set->live_side, set->answer.bank_rad, &banked);
        ls_vmca_point_solve(aircraft, &condition, set->live_side, 0.0, &level);
        sweep->control_cas_m_s[i] = banked.status == LS_OK ? banked.vmc.control_cas_m_s : NAN;
        sweep->stall_cas_m_s[i] = banked.status == LS_OK ? banked.vmc.stall_cas_m_s : NAN;
        sweep->level_cas_m_s[i] = level.status == LS_OK ? level.vmc.control_cas_m_s : NAN;
    }
}
