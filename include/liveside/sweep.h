/* Runs of minimum control speeds along bank and height, dense enough to be drawn. */
#ifndef LIVESIDE_SWEEP_H
#define LIVESIDE_SWEEP_H

#include "liveside/trend.h"
#include "liveside/vmca.h"

enum { LS_SWEEP_POINTS = 61 };

/* Against bank, toward the live side positive, for each handedness: the highest of the single failures. */
typedef struct {
    double bank_rad[LS_SWEEP_POINTS];
    double cas_m_s[LS_ROTATIONS][LS_SWEEP_POINTS]; /* NaN where there is no answer */
    double other_cas_m_s[LS_SWEEP_POINTS];         /* as asked: the lowest of the single failures */
    double stall_cas_m_s[LS_SWEEP_POINTS];         /* trimmed, of the answer's failure */
} ls_bank_sweep;

/* Given: vmca, solved for the request's aircraft; low_rad < high_rad. */
LS_API void ls_bank_sweep_solve(const ls_aircraft *aircraft, const ls_vmca *vmca, double low_rad, double high_rad,
                                ls_bank_sweep *sweep);

/* Against pressure altitude, from the condition's own up: one failed set, at a bank and wings level. */
typedef struct {
    double altitude_m[LS_SWEEP_POINTS];
    double control_cas_m_s[LS_SWEEP_POINTS]; /* at the bank, also below the stall; NaN where there is none */
    double level_cas_m_s[LS_SWEEP_POINTS];   /* wings level */
    double stall_cas_m_s[LS_SWEEP_POINTS];
} ls_altitude_sweep;

/* Given: set, solved; top_m, the highest altitude. */
LS_API void ls_altitude_sweep_solve(const ls_aircraft *aircraft, const ls_vmca_set *set, double top_m,
                                    ls_altitude_sweep *sweep);

#endif
