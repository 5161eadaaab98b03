/* The propeller disc by blade-element momentum theory: direct solutions.
 *
 * Axes of the disc: a along the shaft, forward; e the direction in which the air crosses the disc;
 * f = a x e. For a propeller of handedness h (+1 clockwise seen from behind) the propeller puts on
 * the aeroplane the force T a + N e + h S f, the moment h m1 e + m2 f about the hub, and the
 * torque -h Q a. N and m1 are positive at positive incidence, S and m2 zero without a skewed wake. */
#ifndef LIVESIDE_DISC_H
#define LIVESIDE_DISC_H

#include <stdbool.h>

#include "liveside/blade.h"
#include "liveside/section.h"

enum { LS_DISC_ELEMENTS_MAX = 48, LS_DISC_ELEMENTS = 12, LS_DISC_AZIMUTHS = 16 };

/* One annulus, prepared. */
typedef struct {
    double r_m, dr_m, c_m;
    double twist_rad;            /* blade angle less that at 0.75 R */
    double sigma;                /* B c/(2 pi r) */
    double tip_reach, hub_reach; /* Prandtl's exponents times |sin phi|; 0 where a loss is off */
    ls_polar polar;
} ls_element;

typedef struct {
    double diameter_m;
    int blades;
    bool mach_effects;
    int count;
    ls_element element[LS_DISC_ELEMENTS_MAX];
    ls_element at75; /* the section at 0.75 R, for reports */
} ls_disc;

typedef struct {
    bool no_tip_loss, no_hub_loss, no_mach;
    int count;                /* elements; 0 gives LS_DISC_ELEMENTS, spaced for the tip and hub loss */
    const double *r_R, *dr_R; /* elements of the caller's own: radii and weights over the tip radius, or null */
} ls_disc_options;

/* Prepares a disc.
 * Given: blade and section, unchecked; options, null for the usual ones.
 * Status: LS_FILE_REJECTED (blade, section or options), disc then undefined. */
LS_API ls_status ls_disc_prepare(const ls_blade *blade, const ls_section *section, const ls_disc_options *options,
                                 ls_disc *disc, ls_error *error);

typedef struct {
    double V_axial_m_s;   /* along the shaft, from ahead, >= 0 */
    double V_inplane_m_s; /* across the disc, >= 0 */
    double n_rev_s;       /* >= 0 */
    double pitch_rad;     /* blade angle at 0.75 R */
    double rho_kg_m3;
    double a_m_s; /* speed of sound */
} ls_disc_state;

typedef enum {
    LS_INDUCTION_LOCAL,  /* momentum balance at each azimuth by itself: the figures to use */
    LS_INDUCTION_FROZEN, /* induced velocities of the axial solution at all azimuths: the upper bound */
    LS_INDUCTION_SKEWED  /* the same with the fore-and-aft gradient of a skewed wake */
} ls_induction;

/* Axial loads, and the in-plane loads per m/s of velocity across the disc (linear in it). */
typedef struct {
    double T_N, Q_N_m;      /* thrust forward, torque absorbed */
    double N_N_s_m, m1_N_s; /* normal force along e, moment h m1 about e */
} ls_disc_axial;

typedef struct {
    double T_N, Q_N_m, P_W;
    double N_N, S_N, m1_N_m, m2_N_m;
    double alpha75_rad, phi75_rad; /* incidence and inflow angle at 0.75 R, axial flow */
    double u75_m_s, swirl75_m_s;   /* induced velocities there: aft, and in the direction of rotation */
    double u_mean_m_s;             /* mean axial induced velocity over the annulus, axial flow */
    double mach75, mach_tip;       /* helical */
} ls_disc_loads;

/* Solves the disc in axial flow and differentiates the element residual for the in-plane slopes.
 * Given: state; V_inplane_m_s is not used; induction, local or frozen (skewed counts as frozen: to
 *   first order the skew adds to S and m2 only).
 * Status: LS_NO_STATE for a state outside its ranges; LS_NOT_CONVERGED when an element has no
 *   root (loads untouched in both).
 * Source: Ning, Wind Energy 17 (2014) 1327, in propeller form; Buhl, NREL/TP-500-36834 (2005). */
LS_API ls_status ls_disc_solve_axial(const ls_disc *disc, const ls_disc_state *state, ls_induction induction,
                                     ls_disc_axial *axial, ls_error *error);

/* Solves the disc at all azimuths in flow that crosses it at an angle.
 * Given: state; azimuths, 4 to 360, even (LS_DISC_AZIMUTHS serves).
 * Status: as for ls_disc_solve_axial. */
LS_API ls_status ls_disc_solve(const ls_disc *disc, const ls_disc_state *state, ls_induction induction,
                               int azimuths, ls_disc_loads *loads, ls_error *error);

#endif
