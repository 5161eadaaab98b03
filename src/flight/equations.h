/* The equations of steady straight flight and their derivatives. */
#ifndef LS_FLIGHT_EQUATIONS_H
#define LS_FLIGHT_EQUATIONS_H

#include "liveside/trim.h"
#include "num/linear.h"

/* The unknowns, in the order of every vector; the pitch attitude follows from the equation along x. */
enum { ALPHA, BETA, AILERON, RUDDER, UNKNOWNS };
enum { EQUATION_Y, EQUATION_Z, EQUATION_L, EQUATION_N };

typedef struct {
    const ls_model *model;
    const ls_powerplant_point *point;
    double qS_N, sin_phi, cos_phi;
} ls_trim_problem;

ls_trim_problem ls_trim_problem_of(const ls_model *model, const ls_powerplant_point *point, double bank_rad);

/* Residuals of Y, Z over weight and of L, N over weight times span, and their derivatives by the unknowns, with
 * the attitude that balances X. Given: z, the unknowns in rad; jacobian[equation][unknown], or null where it is
 * not wanted. Returned: the sine of the pitch attitude; beyond +-0.99 the attitude is held there and X is not
 * balanced. */
double ls_trim_equations(const ls_trim_problem *p, const double *z, double *r, double jacobian[][LS_LINEAR_MAX]);

enum { LS_ATTITUDE_END = 99 }; /* per cent: the sine beyond which X is not balanced */

/* What the limits are judged by. */
double ls_trim_lift(const ls_trim_problem *p, double alpha_rad);
double ls_trim_pedal_force(const ls_trim_problem *p, double beta_rad, double rudder_rad);

/* The rest of a trim from its unknowns. Given: trim, its stop report filled or to be filled apart. */
void ls_trim_fill(const ls_trim_problem *p, const double *z, double sin_theta, ls_trim *trim);

#endif
