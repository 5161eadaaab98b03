/* What a propeller leaves behind it. */
#ifndef LS_PROP_WAKE_H
#define LS_PROP_WAKE_H

#include "liveside/powerplant.h"

/* Fills wake_m_s, swirl_rad and offset_m of a point from its thrust, torque and hub moment.
 * Given: diameter_m, 0 for a jet: then all three are 0; V_m_s >= 0.
 * Notes: momentum theory, T = rho A (V + w/2) w for the far increment w; a drag beyond 8/9 of q A, where momentum
 * theory ends, leaves the speed it has there, a third of V. Swirl: the torque is the angular momentum that the
 * mass flow carries off, spread evenly over the contracted slipstream (mean radius two thirds of it). Source:
 * actuator-disc theory, Glauert, in Durand, Aerodynamic Theory, vol. IV, div. L (from memory). */
void ls_wake_from_momentum(double diameter_m, const ls_air *air, double V_m_s, ls_propulsor_point *point);

#endif
