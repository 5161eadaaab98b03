/* The standard condition of a group, and its answers. */
#include "study/reduce_parts.h"

#include "liveside/airspeed.h"
#include "num/leastsq.h"

#include <math.h>

double ls_reduce_power_law(double eas_m_s, double sigma, double power_W, double standard_sigma,
                           double standard_power_W)
{
    return eas_m_s * cbrt(sqrt(standard_sigma) * standard_power_W / (sqrt(sigma) * power_W));
}

/* The coefficient between two of the standard's speeds, by straight lines; the ends are continued. */
static double coefficient_at(const ls_standard *standard, double V_m_s)
{
    int i = 0;
    while (i + 2 < LS_STANDARD_SPEEDS && standard->V_m_s[i + 1] < V_m_s) {
        i++;
    }
    double part = (V_m_s - standard->V_m_s[i]) / (standard->V_m_s[i + 1] - standard->V_m_s[i]);
    return standard->coefficient[i] + part * (standard->coefficient[i + 1] - standard->coefficient[i]);
}

double ls_standard_speed(const ls_standard *standard, double corrected)
{
    double bank_rad = standard->model.condition.bank_rad * standard->live_side;
    double low = standard->V_m_s[0], high = standard->V_m_s[LS_STANDARD_SPEEDS - 1];
    for (int side = 0; side < 2; side++) {
        double V = side == 0 ? low : high;
        double left = coefficient_at(standard, V) -
                      ls_reduce_bank_part(&standard->model, V, bank_rad, standard->slope) - corrected;
        if (side == 0 ? !(left > 0.0) : !(left < 0.0)) {
            return NAN;
        }
    }
    for (int i = 0; i < 50; i++) { /* what has to be held falls as speed rises */
        double V = (low + high) / 2.0;
        double left = coefficient_at(standard, V) -
                      ls_reduce_bank_part(&standard->model, V, bank_rad, standard->slope) - corrected;
        low = left > 0.0 ? V : low;
        high = left > 0.0 ? high : V;
    }
    return (low + high) / 2.0;
}

double ls_standard_exponent(const ls_standard *standard, double V_m_s, double bank_rad)
{
    double corrected[2];
    for (int i = 0; i < 2; i++) {
        double V = V_m_s * (1.0 + 0.02 * i);
        corrected[i] =
            coefficient_at(standard, V) - ls_reduce_bank_part(&standard->model, V, bank_rad, standard->slope);
    }
    double exponent = log(corrected[1] / corrected[0]) / log(1.02);
    return exponent < -1.0 && exponent > -6.0 ? exponent : -2.6; /* with hardly any rudder in use, the usual one */
}

double ls_standard_cas(const ls_standard *standard, double V_m_s)
{
    ls_airspeed speed;
    return ls_airspeed_from_tas(&standard->model.air, V_m_s, &speed, NULL) == LS_OK ? speed.CAS_m_s : NAN;
}

void ls_interval_of(const double *value, int count, double confidence, ls_interval *interval)
{
    double sum = 0.0, squares = 0.0;
    for (int i = 0; i < count; i++) {
        sum += value[i];
    }
    *interval = (ls_interval){count, NAN, NAN, NAN, NAN};
    if (count < 1) {
        return;
    }
    interval->value = sum / count;
    for (int i = 0; i < count; i++) {
        squares += (value[i] - interval->value) * (value[i] - interval->value);
    }
    if (count > 1) {
        interval->deviation = sqrt(squares / (count - 1));
        double half = ls_student(confidence, count - 1) * interval->deviation / sqrt(count);
        interval->low = interval->value - half;
        interval->high = interval->value + half;
    }
}
