/* Sine and cosine of a small angle together, for the innermost loops. */
#ifndef LS_NUM_ANGLE_H
#define LS_NUM_ANGLE_H

#include <math.h>

/* Given: x in rad. Returned: its sine and cosine to round-off.
 * Notes: power series within 0.8 rad, where the next term is below 1e-17; the library's functions outside. */
static inline void ls_sin_cos(double x, double *sine, double *cosine)
{
    double s = x * x;
    if (!(s < 0.64)) {
        *sine = sin(x);
        *cosine = cos(x);
        return;
    }
    double q = s * s; /* two halves of each series, so that they run side by side */
    double odd = -1.0 / 6 + q * (-1.0 / 5040 + q * (-1.0 / 39916800 + q * (-1.0 / 1307674368000.0)));
    double odd_too = 1.0 / 120 + q * (1.0 / 362880 + q * (1.0 / 6227020800.0));
    double even = -0.5 + q * (-1.0 / 720 + q * (-1.0 / 3628800 + q * (-1.0 / 87178291200.0)));
    double even_too = 1.0 / 24 + q * (1.0 / 40320 + q * (1.0 / 479001600.0 + q / 20922789888000.0));
    *sine = x + x * s * (odd + s * odd_too);
    *cosine = 1.0 + s * (even + s * even_too);
}

#endif
