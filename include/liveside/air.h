/* The standard atmosphere and days that differ from it. */
#ifndef LIVESIDE_AIR_H
#define LIVESIDE_AIR_H

#include "liveside/status.h"

/* Source: ISO 2533:1975, section 2 (g0, T0, p0, R, kappa, Sutherland's constants). */
#define LS_G0_M_S2        9.80665
#define LS_AIR_T0_K       288.15
#define LS_AIR_P0_PA      101325.0
#define LS_AIR_R_J_KG_K   287.05287
#define LS_AIR_KAPPA      1.4
#define LS_AIR_RHO0_KG_M3 (LS_AIR_P0_PA / (LS_AIR_R_J_KG_K * LS_AIR_T0_K)) /* 1.2250 */
#define LS_AIR_H_MIN_M    (-2000.0)
#define LS_AIR_H_MAX_M    20000.0
#define LS_AIR_T_MIN_K    150.0
#define LS_AIR_T_MAX_K    350.0

typedef struct {
    double h_m;       /* pressure altitude, geopotential */
    double T_K;       /* temperature */
    double p_Pa;      /* pressure */
    double rho_kg_m3; /* density */
    double a_m_s;     /* speed of sound */
    double mu_Pa_s;   /* dynamic viscosity, Sutherland */
    double theta;     /* T / T0 */
    double delta;     /* p / p0 */
    double sigma;     /* rho / rho0 */
} ls_air;

/* The air at a pressure altitude on a day warmer than standard by an offset.
 * Given: h_m, pressure altitude (geopotential), -2000 to 20000 m; dT_K, temperature less the standard one there.
 * Returned: air; untouched on failure.
 * Status: LS_OK; LS_NO_STATE (altitude outside the range, or temperature outside 150 to 350 K, or NaN).
 * Notes: the offset changes temperature and density at the given pressure, as it does for a pilot who reads
 * 1013.25 hPa on the subscale and a thermometer.
 * Source: ISO 2533:1975, section 2; ICAO Doc 7488/3. */
LS_API ls_status ls_air_at(double h_m, double dT_K, ls_air *air, ls_error *error);

/* The same at a given temperature instead of an offset. Given: T_K, 150 to 350 K. */
LS_API ls_status ls_air_at_temperature(double h_m, double T_K, ls_air *air, ls_error *error);

/* The standard temperature at a geopotential altitude, K; for offsets and messages.
 * Given: h_m; outside -2000 to 20000 m the nearest layer is continued. */
LS_API double ls_air_standard_temperature(double h_m);

/* The altitude of the standard atmosphere that has this air's density.
 * Returned: h_m, geopotential; untouched on failure.
 * Status: LS_OK; LS_NO_STATE (outside -5000 to 20000 m; below -2000 m the lowest layer is continued). */
LS_API ls_status ls_air_density_altitude(const ls_air *air, double *h_m, ls_error *error);

/* Dynamic viscosity of air, Pa s. Given: T_K > 0. Source: ISO 2533:1975, section 2 (Sutherland's law with 1.458e-6
 * and 110.4 K). */
LS_API double ls_air_viscosity(double T_K);

#endif
