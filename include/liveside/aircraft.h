/* The aeroplane as its file describes it: a flat record in SI units, read once, checked once, then const. */
#ifndef LIVESIDE_AIRCRAFT_H
#define LIVESIDE_AIRCRAFT_H

#include "liveside/curve.h"
#include "liveside/powerplant.h"
#include "liveside/status.h"

enum { LS_MAX_FLAPS = 6, LS_MAX_POWERPLANTS = 4, LS_MAX_ENGINES = 8, LS_NOTE_SIZE = 256 };

/* Signs: body axes x forward, y right, z down; sideslip positive with the wind from the right; rudder positive
 * trailing edge left (so side_rudder > 0, yaw_rudder < 0); aileron positive rolls right. All per radian. */
typedef struct {
    double side_sideslip, side_rudder, side_aileron;
    double roll_sideslip, roll_rudder, roll_aileron;
    double yaw_sideslip, yaw_rudder, yaw_aileron;
} ls_derivatives;

typedef enum { LS_AXES_STABILITY, LS_AXES_BODY } ls_axes;

/* Which propeller loads the file's derivatives already hold; the modelled part is then taken out once. */
typedef enum { LS_INCLUDE_NONE, LS_INCLUDE_WINDMILLING, LS_INCLUDE_POWER } ls_included;

typedef struct {
    char name[LS_NAME_SIZE];
    double deflection_rad;
    double lift_zero;          /* trimmed lift coefficient at zero angle of attack */
    double lift_slope_per_rad; /* trimmed */
    double lift_max;           /* power off */
    double drag_zero;
    double drag_induced; /* CD = drag_zero + drag_induced (CL - drag_least_at)^2 */
    double drag_least_at;
    double delta_side_sideslip, delta_side_rudder; /* added to the clean derivatives at this setting */
    double delta_roll_sideslip, delta_roll_rudder, delta_roll_aileron;
    double delta_yaw_sideslip, delta_yaw_rudder, delta_yaw_aileron;
} ls_flap;

typedef struct {
    char name[LS_NAME_SIZE];
    char powerplant_name[LS_NAME_SIZE];
    int powerplant;   /* index of that powerplant, set by the reader */
    double hub_aft_m; /* of the datum */
    double hub_right_m;
    double hub_down_m; /* of the reference centre of gravity */
    double tilt_rad;   /* thrust line nose up */
    double toe_rad;    /* thrust line nose right */
    int rotation;      /* 0 clockwise, else anticlockwise, seen from behind; see ls_engine_hand */
} ls_engine_mount;

typedef struct {
    char name[LS_NAME_SIZE];
    char note[LS_NOTE_SIZE];
    struct {
        double maximum_kg, minimum_kg;
    } mass;
    struct {
        double reference_m, forward_m, aft_m; /* aft of the datum */
        double lateral_m;                     /* greatest offset to either side from fuel imbalance */
    } cg;
    struct {
        double area_m2, span_m, chord_m;
    } wing;
    int flaps;
    ls_flap flap[LS_MAX_FLAPS];
    struct {
        double drag, lift_max_change;
    } gear;
    struct {
        double cowl_flaps, sideslip_per_rad2, rudder_per_rad2, aileron_per_rad2;
    } drag;
    int axes;     /* ls_axes */
    int included; /* ls_included */
    ls_derivatives derivatives;
    struct {
        double stall_sideslip_rad, arm_m;
        double sidewash; /* local fin sideslip over aeroplane sideslip */
        double pressure; /* local dynamic pressure over free stream */
    } fin;
    struct {
        double left_rad, right_rad; /* travel, both positive; left: trailing edge left */
        ls_curve effect;            /* effective over actual deflection, against deflection */
    } rudder;
    struct {
        double gearing_rad_m, area_m2, chord_m;
        double hinge_zero, hinge_sideslip, hinge_rudder, hinge_tab;
        double tab_rad; /* tab setting as trimmed for take-off */
        double boost;   /* part of the hinge moment carried by a booster */
    } pedal;
    struct {
        double travel_rad, usable;
    } aileron;
    struct {
        double bank_rad, pedal_force_N;
    } limits;
    double swirl_straightened; /* part of the torque reaction that the wing takes out of the slipstream */
    struct {
        double wing_lift;     /* lambda of the slipstream lift: 0.5 narrow slipstream, 1 as wide as the wing */
        double fin_immersion; /* kappa: part of the swirl that the fin feels */
        double upwash;        /* at the discs ahead of the wing, per radian of incidence from zero lift */
    } slipstream;
    /* What only motion needs, not steady flight. */
    struct {
        double roll_radius, pitch_radius, yaw_radius; /* radii of gyration over the span */
        double product;                               /* Ixz over mass and span squared */
    } inertia;
    struct { /* coefficients per p b/2V and r b/2V, axes as the other derivatives'; NaN: estimated */
        double side_roll, side_yaw, roll_roll, roll_yaw, yaw_roll, yaw_yaw;
    } rates;
    struct {
        double rudder_rad_s, aileron_rad_s;                     /* fastest */
        double heading_gain, heading_damping_s, heading_trim_s; /* rudder per heading error, per turn rate */
        double bank_gain, bank_damping_s, bank_trim_s;          /* aileron per bank error, per roll rate */
    } pilot;
    struct {
        double main_aft_m, nose_aft_m; /* wheels aft of the datum; NaN: estimated */
        double rolling;                /* rolling resistance over load */
        double cornering_per_rad;      /* main wheels' side force over load, per slip angle; 0: none */
        double grip;                   /* greatest side force over load */
        double incidence_rad;          /* of the wing's reference line, rolling */
    } ground;
    int powerplants;
    ls_powerplant_data powerplant[LS_MAX_POWERPLANTS];
    int engines;
    ls_engine_mount engine[LS_MAX_ENGINES];
    struct {
        char flap_name[LS_NAME_SIZE];
        int flap; /* index, set by the reader */
    } takeoff;
    ls_curve position_error; /* indicated against calibrated airspeed, m/s; rows 0 when not given */
    struct {
        double vmc_m_s;
        int vmc_kind; /* of every published speed but the stall: 0 KCAS, 1 KIAS */
        double stall_m_s;
        double vyse_m_s, vxse_m_s, vy_m_s, vx_m_s, vsse_m_s;
        double climb_m_s, climb_one_engine_m_s;
        double ceiling_m, ceiling_one_engine_m;
    } published;
} ls_aircraft;

/* True when the file gave the number (an optional number that is absent is held as NaN, and only this asks). */
LS_API int ls_given(double value);

/* True when every pedal-force number is there. */
LS_API int ls_aircraft_has_pedal(const ls_aircraft *aircraft);

/* +1 when the engine's propeller turns clockwise seen from behind, -1 anticlockwise. */
LS_API int ls_engine_hand(const ls_engine_mount *engine);

/* Indicated airspeed from calibrated by the file's position-error curve.
 * Returned: the same speed where the file has no curve; outside is set to 1 beyond the curve's ends (null
 * allowed). */
LS_API double ls_indicated_airspeed(const ls_aircraft *aircraft, double cas_m_s, int *outside);

/* The index of the flap setting with the least deflection; of several the first. */
LS_API int ls_flap_clean(const ls_aircraft *aircraft);

/* The index of a flap setting, powerplant or engine by its name, or -1. */
LS_API int ls_flap_find(const ls_aircraft *aircraft, const char *name);
LS_API int ls_powerplant_find(const ls_aircraft *aircraft, const char *name);
LS_API int ls_engine_find(const ls_aircraft *aircraft, const char *name);

#endif
