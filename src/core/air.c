#include "liveside/air.h"

#include <math.h>

/* ISO 2533:1975: the lapse of the lowest layer and the base of the isothermal one. */
static const double lapse_K_m = 0.0065;
static const double h_tropopause_m = 11000.0;

/* How far down the lowest layer is continued for a density altitude (ISO 2533:1975/Add 2:1997 goes so far). */
static const double h_lowest_m = -5000.0;

/* g0/(R L), the exponent of the lowest layer, about 5.2559. */
static const double exponent = LS_G0_M_S2 / (LS_AIR_R_J_KG_K * 0.0065);

double ls_air_standard_temperature(double h_m)
{
    return LS_AIR_T0_K - lapse_K_m * fmin(h_m, h_tropopause_m);
}

static double standard_pressure(double h_m)
{
    double T_K = ls_air_standard_temperature(h_m);
    double p_Pa = LS_AIR_P0_PA * pow(T_K / LS_AIR_T0_K, exponent);
    if (h_m <= h_tropopause_m) {
        return p_Pa;
    }
    return p_Pa * exp(-LS_G0_M_S2 * (h_m - h_tropopause_m) / (LS_AIR_R_J_KG_K * T_K));
}

double ls_air_viscosity(double T_K)
{
    return 1.458e-6 * T_K * sqrt(T_K) / (T_K + 110.4);
}

static void fill(double h_m, double T_K, ls_air *air)
{
    double p_Pa = standard_pressure(h_m);
    double rho_kg_m3 = p_Pa / (LS_AIR_R_J_KG_K * T_K);
    *air = (ls_air){
        .h_m = h_m,
        .T_K = T_K,
        .p_Pa = p_Pa,
        .rho_kg_m3 = rho_kg_m3,
        .a_m_s = sqrt(LS_AIR_KAPPA * LS_AIR_R_J_KG_K * T_K),
        .mu_Pa_s = ls_air_viscosity(T_K),
        .theta = T_K / LS_AIR_T0_K,
        .delta = p_Pa / LS_AIR_P0_PA,
        .sigma = rho_kg_m3 / LS_AIR_RHO0_KG_M3,
    };
}

/* Comparisons are written so that NaN fails them. */
static ls_status check_altitude(double h_m, ls_error *error)
{
    if (h_m >= LS_AIR_H_MIN_M && h_m <= LS_AIR_H_MAX_M) {
        return LS_OK;
    }
    return ls_fail(error, LS_NO_STATE,
                   "a pressure altitude of %.1f m is outside the standard atmosphere used here (%.0f to %.0f m, "
                   "%.0f to %.0f ft)",
                   h_m, LS_AIR_H_MIN_M, LS_AIR_H_MAX_M, LS_AIR_H_MIN_M / 0.3048, LS_AIR_H_MAX_M / 0.3048);
}

static ls_status check_temperature(double T_K, ls_error *error)
{
    if (T_K >= LS_AIR_T_MIN_K && T_K <= LS_AIR_T_MAX_K) {
        return LS_OK;
    }
    return ls_fail(error, LS_NO_STATE,
                   "an air temperature of %.2f K (%.2f degC) is outside %.0f to %.0f K (%.2f to %.2f degC)", T_K,
                   T_K - 273.15, LS_AIR_T_MIN_K, LS_AIR_T_MAX_K, LS_AIR_T_MIN_K - 273.15, LS_AIR_T_MAX_K - 273.15);
}

ls_status ls_air_at_temperature(double h_m, double T_K, ls_air *air, ls_error *error)
{
    ls_status status = check_altitude(h_m, error);
    if (status == LS_OK) {
        status = check_temperature(T_K, error);
    }
    if (status == LS_OK) {
        fill(h_m, T_K, air);
    }
    return status;
}

ls_status ls_air_at(double h_m, double dT_K, ls_air *air, ls_error *error)
{
    return ls_air_at_temperature(h_m, ls_air_standard_temperature(h_m) + dT_K, air, error);
}

ls_status ls_air_density_altitude(const ls_air *air, double *h_m, ls_error *error)
{
    double T_tropopause_K = ls_air_standard_temperature(h_tropopause_m);
    double sigma_tropopause = pow(T_tropopause_K / LS_AIR_T0_K, exponent - 1.0);
    double found_m;
    if (air->sigma >= sigma_tropopause) {
        found_m = LS_AIR_T0_K / lapse_K_m * (1.0 - pow(air->sigma, 1.0 / (exponent - 1.0)));
    } else {
        double scale_m = LS_AIR_R_J_KG_K * T_tropopause_K / LS_G0_M_S2;
        found_m = h_tropopause_m - scale_m * log(air->sigma / sigma_tropopause);
    }
    if (!(found_m >= h_lowest_m && found_m <= LS_AIR_H_MAX_M)) {
        return ls_fail(error, LS_NO_STATE, "a density altitude of %.0f m is outside %.0f to %.0f m", found_m,
                       h_lowest_m, LS_AIR_H_MAX_M);
    }
    *h_m = found_m;
    return LS_OK;
}
