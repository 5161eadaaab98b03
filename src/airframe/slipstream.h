/* What the slipstreams do to wing and fin. */
#ifndef LS_AIRFRAME_SLIPSTREAM_H
#define LS_AIRFRAME_SLIPSTREAM_H

#include "liveside/model.h"

/* Lift that one unit's slipstream adds to the wing, and where: at incidence alpha, lift0 + lift1 alpha, acting
 * right0 + right1 alpha to the right of the centre of gravity. */
typedef struct {
    double lift0_N, lift1_N;
    double right0_m, right1_m;
} ls_wash;

/* Given: load, of the unit at V. Returned: all zero without a slipstream, or with LS_EFFECT_SLIPSTREAM off.
 * Notes: dL = q s (lambda CL - 0.6 a0 theta) D_s c, s = (V_s/V)^2 - 1, theta = alpha_d v/(V + v), V_s = V + v at
 * the wing; CL is the power-off lift coefficient at the trimmed incidence, a0 = 2 pi of a thin section, alpha_d
 * the incidence of the disc with tilt and upwash. D_s and v there: momentum theory, developed by the distance from
 * disc to wing. It acts at the thrust centre. Lambda (file) is uncertain by its range of 0.5 to 1, and the effect
 * with it. Source: Smelt and Davies, Estimation of Increase in Lift due to Slipstream, R&M 1788 (1937), form from
 * memory. */
ls_wash ls_wash_of(const ls_model *model, int unit, const ls_propulsor_point *load, double V_m_s);

/* Sideslip that one unit's slipstream rotation adds at the fin; zero with LS_EFFECT_SWIRL off.
 * Notes: -h kappa (1 - r) eps where the upper blades move inboard (h y < 0), for the unit nearest the centreline
 * on its side, r the part that the wing straightens. An allowance, the least certain of all the effects. By hand:
 * left engine, clockwise: the slipstream's top moves right, across the fin; wind from the left, so the sign is
 * negative, and a stable aeroplane turns its nose left: it helps when the right engine is dead. */
double ls_swirl_at_fin(const ls_model *model, int unit, const ls_propulsor_point *load);

/* What sideslip at the fin alone does, in rudder: the fin's yawing moment is taken as the aeroplane's own by
 * sideslip, its side force and roll in proportion to the rudder's, which stands at the same place. */
double ls_fin_as_rudder(const ls_derivatives *derivatives, double fin_rad);

/* The part of a unit's mount that has to do with its slipstream. Given: unit->hand set. */
void ls_slipstream_mount(const ls_aircraft *aircraft, int engine, ls_mounted_engine *unit);

/* Sums the slipstreams of a point whose units are filled. */
void ls_slipstream_at(const ls_model *model, double V_m_s, ls_powerplant_point *point);

#endif
