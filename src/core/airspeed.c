#include "liveside/airspeed.h"

#include <math.h>

/* Impact pressure over static pressure, (1 + 0.2 M^2)^3.5 - 1; expm1 and log1p keep every digit at low speed. */
static double impact_ratio(double mach)
{
    return expm1(3.5 * log1p(0.2 * mach * mach));
}

/* The inverse of impact_ratio. */
static double mach_of_impact_ratio(double ratio)
{
    return sqrt(5.0 * expm1(log1p(ratio) / 3.5));
}

static double sound_at_sea_level(void)
{
    return sqrt(LS_AIR_KAPPA * LS_AIR_R_J_KG_K * LS_AIR_T0_K);
}

static ls_status check_speed(double V_m_s, const char *name, ls_error *error)
{
    if (V_m_s >= 0.0) {
        return LS_OK;
    }
    return ls_fail(error, LS_NO_STATE, "%s of %.3g m/s is not a speed; it must be 0 or more", name, V_m_s);
}

ls_status ls_airspeed_from_mach(const ls_air *air, double mach, ls_airspeed *speed, ls_error *error)
{
    if (!(mach >= 0.0 && mach < 1.0)) {
        return ls_fail(error, LS_NO_STATE, "Mach %.4g is outside 0 to 1; airspeeds here are subsonic", mach);
    }
    double a0_m_s = sound_at_sea_level();
    double qc_Pa = air->p_Pa * impact_ratio(mach);
    double CAS_m_s = a0_m_s * mach_of_impact_ratio(qc_Pa / LS_AIR_P0_PA);
    if (!(CAS_m_s < a0_m_s)) {
        return ls_fail(error, LS_NO_STATE, "a calibrated airspeed of %.4g m/s is not below the speed of sound",
                       CAS_m_s);
    }
    double TAS_m_s = mach * air->a_m_s;
    *speed = (ls_airspeed){
        .CAS_m_s = CAS_m_s,
        .EAS_m_s = TAS_m_s * sqrt(air->sigma),
        .TAS_m_s = TAS_m_s,
        .mach = mach,
        .q_Pa = 0.5 * air->rho_kg_m3 * TAS_m_s * TAS_m_s,
        .qc_Pa = qc_Pa,
    };
    return LS_OK;
}

ls_status ls_airspeed_from_tas(const ls_air *air, double TAS_m_s, ls_airspeed *speed, ls_error *error)
{
    ls_status status = check_speed(TAS_m_s, "a true airspeed", error);
    return status != LS_OK ? status : ls_airspeed_from_mach(air, TAS_m_s / air->a_m_s, speed, error);
}

ls_status ls_airspeed_from_eas(const ls_air *air, double EAS_m_s, ls_airspeed *speed, ls_error *error)
{
    ls_status status = check_speed(EAS_m_s, "an equivalent airspeed", error);
    return status != LS_OK ? status : ls_airspeed_from_tas(air, EAS_m_s / sqrt(air->sigma), speed, error);
}

ls_status ls_airspeed_from_cas(const ls_air *air, double CAS_m_s, ls_airspeed *speed, ls_error *error)
{
    ls_status status = check_speed(CAS_m_s, "a calibrated airspeed", error);
    if (status != LS_OK) {
        return status;
    }
    double a0_m_s = sound_at_sea_level();
    if (!(CAS_m_s < a0_m_s)) {
        return ls_fail(error, LS_NO_STATE, "a calibrated airspeed of %.4g m/s is not below the speed of sound",
                       CAS_m_s);
    }
    double qc_Pa = LS_AIR_P0_PA * impact_ratio(CAS_m_s / a0_m_s);
    return ls_airspeed_from_mach(air, mach_of_impact_ratio(qc_Pa / air->p_Pa), speed, error);
}
