/* The equations of steady straight flight and their derivatives. */
#ifndef LS_FLIGHT_EQUATIONS_H
#define LS_FLIGHT_EQUATIONS_H

#include "liveside/trim.h"
#include "num/linear.h"

/* The unknowns, in the order of every vector. */
enum { ALPHA, BETA, AILERON, RUDDER, THETA, UNKNOWNS };

typedef struct {
    const ls_model *model;
    const ls_powerplant_point *point;
    double qS_N, sin_phi, cos_phi;
} ls_trim_problem;

/* Residuals of X, Y, Z over weight and of L, N over weight times span, and their derivatives by the unknowns.
 * Given: z, the unknowns in rad. Returned: r, and jacobian[equation][unknown]. */
void ls_trim_equations(const ls_trim_problem *p, const double *z, double *r, double jacobian[][LS_LINEAR_MAX]);

#endif
