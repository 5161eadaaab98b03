/* Calibrated, equivalent and true airspeed and Mach number: full compressible relations, subsonic. */
#ifndef LIVESIDE_AIRSPEED_H
#define LIVESIDE_AIRSPEED_H

#include "liveside/air.h"
#include "liveside/status.h"

typedef struct {
    double CAS_m_s;
    double EAS_m_s;
    double TAS_m_s;
    double mach;
    double q_Pa;  /* dynamic pressure, rho V^2 / 2 */
    double qc_Pa; /* impact pressure, what a pitot-static system senses */
} ls_airspeed;

/* All airspeeds from one of them.
 * Given: air; the speed, m/s (or the Mach number), not negative.
 * Returned: speed; untouched on failure.
 * Status: LS_OK; LS_NO_STATE (negative, NaN, Mach 1 or above, or CAS at or above 340.294 m/s).
 * Notes: exact to round-off both ways, also at walking pace.
 * Source: isentropic pitot relation, qc/p = (1 + 0.2 M^2)^3.5 - 1, and its use at sea-level standard for CAS;
 * e.g. US Naval Test Pilot School FTM 108, Fixed Wing Performance, chapter 2 (from memory). */
LS_API ls_status ls_airspeed_from_cas(const ls_air *air, double CAS_m_s, ls_airspeed *speed, ls_error *error);
LS_API ls_status ls_airspeed_from_eas(const ls_air *air, double EAS_m_s, ls_airspeed *speed, ls_error *error);
LS_API ls_status ls_airspeed_from_tas(const ls_air *air, double TAS_m_s, ls_airspeed *speed, ls_error *error);
LS_API ls_status ls_airspeed_from_mach(const ls_air *air, double mach, ls_airspeed *speed, ls_error *error);

#endif
