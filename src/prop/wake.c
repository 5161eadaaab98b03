#include "prop/wake.h"

#include <math.h>

#define SLOWEST        (1.0 / 9.0) /* of V^2: where momentum theory of a dragging disc ends */
#define FARTHEST_SHARE 0.25        /* of the diameter: beyond this the hub moment over thrust says nothing */

static const double pi = 3.14159265358979323846;

void ls_wake_from_momentum(double diameter_m, const ls_air *air, double V_m_s, ls_propulsor_point *point)
{
    double A_m2 = 0.25 * pi * diameter_m * diameter_m;
    if (!(A_m2 > 0.0)) {
        return;
    }
    double far_square = V_m_s * V_m_s + 2.0 * point->thrust_N / (air->rho_kg_m3 * A_m2);
    double far_m_s = sqrt(fmax(far_square, SLOWEST * V_m_s * V_m_s));
    point->wake_m_s = far_m_s - V_m_s;
    double disc_m_s = 0.5 * (V_m_s + far_m_s);
    if (disc_m_s > 0.0) {
        double radius_m = 0.5 * diameter_m * sqrt(disc_m_s / far_m_s);
        double mass_kg_s = air->rho_kg_m3 * A_m2 * disc_m_s;
        double turn_m_s = 1.5 * point->torque_Nm / (mass_kg_s * radius_m);
        point->swirl_rad = atan(turn_m_s / far_m_s);
    }
    if (point->thrust_N > 0.0) {
        double most_m = FARTHEST_SHARE * diameter_m;
        point->offset_m = fmin(most_m, fmax(-most_m, point->hub_first_Nm / point->thrust_N));
    }
}
