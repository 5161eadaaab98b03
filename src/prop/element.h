/* The annulus of a blade-element disc: residual, root and loads. */
#ifndef LIVESIDE_PROP_ELEMENT_H
#define LIVESIDE_PROP_ELEMENT_H

#include "liveside/disc.h"

/* What the annulus sees before induction. Vx > 0 from ahead, Vy against the blade's motion. */
typedef struct {
    double Vx, Vy;
    double theta_rad;
    double mach, gain; /* gain is polar_gain(mach) */
} element_flow;

/* A neighbouring solution to start from; slope 0 for none. */
typedef struct {
    double phi_rad, slope; /* inflow angle, and the residual's slope with it */
} element_start;

typedef struct {
    double phi_rad;
    double thrust, tangential; /* per blade, per unit span and density: N'/rho and T'/rho, m3/s2 */
    double u, v;               /* induced: aft, and in the direction of rotation */
    double loss;               /* Prandtl's factor */
    double residual;           /* what the search left of it, for differences from here */
} element_loads;

/* Slopes of thrust and tangential load with Vy, Mach number moving with it. */
typedef struct {
    double thrust, tangential;
    double residual; /* of the residual with phi */
} element_slopes;

/* Solves the annulus, from a start or, with null, by bracketing; false when there is no root. */
bool element_solve(const ls_element *element, const element_flow *flow, const element_start *start,
                   element_loads *loads);

/* The loads at given induced velocities, no momentum balance. */
void element_loads_frozen(const ls_element *element, const element_flow *flow, double u, double v,
                          element_loads *loads);

/* Differentiates a solution with the momentum balance following, or with induced velocities frozen;
 * dmach_dVy is the rate of the section's Mach number. */
void element_differentiate(const ls_element *element, const element_flow *flow, const element_loads *at,
                           double dmach_dVy, bool frozen, element_slopes *slopes);

#endif
