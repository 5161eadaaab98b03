/* Why one engine is critical: the moments of two failures side by side at one condition, and what each effect is
 * worth in minimum control speed. */
#ifndef LIVESIDE_BREAKDOWN_H
#define LIVESIDE_BREAKDOWN_H

#include "liveside/climb.h"
#include "liveside/vmca.h"

#include <stddef.h>

enum { LS_EFFECTS = 6, LS_BREAKDOWN_SIDES = 2 };

/* An effect that can be switched off, and how well it is known. */
typedef struct {
    unsigned bit;       /* LS_EFFECT_ */
    ls_cause cause;     /* its lines of the moment list */
    const char *name;   /* "P-factor" */
    const char *source; /* of the formula */
    const char *known;  /* how well, "local or frozen inflow differ by 25 to 35 %" */
    size_t key_offset;  /* in ls_aircraft: a number whose range bounds the effect; 0: none, see share */
    double low, high;   /* that range */
    double share;       /* without a key: part of the worth that is uncertain either way */
} ls_effect_row;

/* P-factor, slipstream on the wing, swirl on the fin, torque (the four that are taught), then in-plane force and
 * the dead engine's drag. */
LS_API extern const ls_effect_row ls_effect_rows[LS_EFFECTS];

/* Moments of one cause toward the dead side: nose and wing toward the dead engine positive; where neither side is
 * the live one, to the left. About the centre of gravity and the axes of the file's derivatives: stability axes
 * (roll about the flight path), or body axes. */
typedef struct {
    double yaw_Nm, roll_Nm;
    double yaw, roll;       /* over q S b */
    double yaw_rudder_rad;  /* the rudder that yaws as much */
    double roll_rudder_rad; /* the rudder for the yaw of the ailerons that hold this roll */
} ls_moments;

/* What an effect is worth: minimum control speed with it less that without, CAS; NaN where one of them is none. */
typedef struct {
    double m_s;
    double low_m_s, high_m_s; /* at the ends of what is uncertain about it */
} ls_worth;

/* Steady flight at the speed of best one-engine climb without sideslip, the dead propeller at its least drag; at
 * maximum mass and the reference centre of gravity unless others were asked for. */
typedef struct {
    ls_status status;
    char reason[96];
    ls_engine_state state;
    double mass_kg, cg_aft_m;
    ls_climb_best best;
    double no_sideslip_rad; /* bank, toward the live side positive, as the next */
    double
        ailerons_only_rad; /* with the rudder left alone; NaN: not within 30 deg, or more aileron than there is */
} ls_attitudes;

/* One failure. */
typedef struct {
    unsigned failed;
    int live_side;          /* ls_live_side */
    ls_condition condition; /* common to both but for the side of the bank */
    ls_status status;       /* of the trim at the common speed */
    char reason[96];
    ls_trim trim;
    ls_margins margins;
    ls_powerplant_point point;
    ls_balance balance;
    ls_moments cause[LS_CAUSES], sum;
    double arm_m[LS_MAX_ENGINES]; /* of a running engine's thrust with its P-factor, right of the centre of gravity
                                     positive; NaN where there is little thrust */
    ls_vmca_point vmc;            /* at the common condition */
    ls_worth worth[LS_EFFECTS];
    double all_m_s;         /* worth of all effects off together */
    double interaction_m_s; /* that less the sum of the single ones */
    ls_vmca_point by_rotation[LS_ROTATIONS];
    ls_attitudes attitudes;
} ls_breakdown_side;

typedef struct {
    int sides; /* 1 where the failure asked for has no counterpart */
    ls_breakdown_side side[LS_BREAKDOWN_SIDES];
    double cas_m_s; /* the common speed */
    double V_m_s;
    int speed_given;
    int critical[LS_ROTATIONS]; /* index of the side, or LS_CRITICAL_ */
    double critical_by_m_s[LS_ROTATIONS];
} ls_breakdown;

/* Explains a request.
 * Given: request, whose first set (or the outermost engines, where it has more than one) is compared with its
 * counterpart on the other side, or for engines on the centreline with another one; weight and centre of gravity
 * that are to be searched are the worst of the worse failure, for both, with no fuel imbalance; bank: that asked
 * for, else the limit. cas_m_s: the common speed, or 0: the higher of the two minimum control speeds.
 * Returned: breakdown.
 * Status: LS_OK, also when one side has no answer (its status says so); LS_NO_STATE (one engine only; no speed).
 */
LS_API ls_status ls_breakdown_solve(const ls_aircraft *aircraft, const ls_vmca_request *request, double cas_m_s,
                                    ls_breakdown *breakdown, ls_error *error);

#endif
