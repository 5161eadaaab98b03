/* One engine with its propeller at a speed: what it does to the aeroplane, independent of incidence and sideslip.
 */
#ifndef LIVESIDE_POWERPLANT_H
#define LIVESIDE_POWERPLANT_H

#include "liveside/air.h"
#include "liveside/curve.h"
#include "liveside/section.h"

enum { LS_NAME_SIZE = 64 };

typedef enum { LS_ENGINE_PISTON, LS_ENGINE_TURBOPROP, LS_ENGINE_ELECTRIC, LS_ENGINE_JET } ls_engine_type;
typedef enum { LS_PROPELLER_COEFFICIENTS, LS_PROPELLER_BLADE_ELEMENT, LS_PROPELLER_NONE } ls_propeller_kind;
typedef enum { LS_FEATHERS_BY_HAND, LS_FEATHERS_AUTOMATICALLY, LS_FEATHERS_NEVER } ls_feathering;

typedef struct {
    int type;                   /* ls_engine_type */
    double power_W;             /* rated take-off shaft power of the engine */
    double n_rev_s;             /* engine speed at that power */
    double gear_ratio;          /* propeller speed over engine speed */
    double map_Pa;              /* piston: manifold pressure at the rating */
    double critical_altitude_m; /* piston: rated manifold pressure is held up to here; 0 is naturally aspirated */
    double friction_share;      /* piston: friction torque at the rating over rated brake torque */
    double flat_to_sigma;       /* turboprop: density ratio down to which the flat rating holds */
    double density_exponent;    /* turboprop below flat_to_sigma; jet thrust */
    double torque_limit_Nm;     /* electric */
    double thrust_N;            /* jet: static, sea level */
    double mach_lapse;          /* jet: thrust falls as 1 - mach_lapse M */
    double dead_area_m2;        /* jet: drag over dynamic pressure when failed */
    double time_limit_s;        /* take-off rating */
    double continuous;          /* maximum continuous power or thrust over that of take-off */
    double cooling_area_m2;     /* failed: cooling drag over dynamic pressure */
    int shaft;                  /* turboprop: 0 free, 1 fixed */
    double motoring_share;  /* turboprop, electric: torque to turn it when failed, over rated torque; NaN: usual */
    double break_out_share; /* torque to start a stopped one, over rated torque */
    double idle_share;      /* piston: indicated torque with the throttle closed, over rated brake torque */
} ls_engine_data;

typedef struct {
    int kind; /* ls_propeller_kind */
    double diameter_m;
    double blades;
    double washed_area_m2; /* friction coefficient times wetted area of what stands in the slipstream */
    int feathering;        /* ls_feathering */
    ls_curve efficiency;   /* coefficients: against advance ratio V/(nD) */
    ls_curve thrust_N; /* coefficients: against true airspeed at rated power, sea level; instead of efficiency */
    double windmilling_area_m2; /* coefficients: drag over dynamic pressure */
    double feathered_area_m2;
    double stopped_area_m2;
    double offset_per_rad; /* coefficients: thrust-centre offset over diameter, per radian of disc incidence */
    double normal_area_m2; /* coefficients: in-plane force over dynamic pressure, per radian, running */
    double root_r_R;       /* blade element, from here on: spinner radius over tip radius */
    ls_curve chord;        /* chord over tip radius, against radius over tip radius */
    ls_curve angle_rad;    /* blade angle at any one setting: only the twist is used */
    ls_curve thickness;    /* thickness over chord */
    ls_section section;
    double fine_pitch_rad, coarse_pitch_rad, feather_pitch_rad; /* at 0.75 R; NaN: no such stop */
    double lever_aft_rev_s;                                     /* governed speed with the lever fully aft */
    double feather_latch_rev_s;  /* below it the blades can no longer feather; NaN: never */
    struct ls_prop_table *table; /* made by ls_aircraft_prepare; shared by copies, owned by none of them */
} ls_propeller_data;

/* How fast a unit changes; NaN: estimated. */
typedef struct {
    double decay_s;         /* time constant of the power after a failure */
    double inertia_kg_m2;   /* of propeller and all that turns with it, at the propeller's speed */
    double pitch_rad_s;     /* fastest, governing */
    double feather_rad_s;   /* toward feather */
    double feather_delay_s; /* from failure until automatic feathering begins */
} ls_transient_data;

typedef struct {
    char name[LS_NAME_SIZE];
    ls_engine_data engine;
    ls_propeller_data propeller;
    ls_transient_data transient;
} ls_powerplant_data;

/* What an engine and its propeller are doing. */
typedef enum {
    LS_RUNNING,
    LS_WINDMILLING,
    LS_FEATHERED,
    LS_STOPPED,     /* not turning, not feathered */
    LS_PARTIAL,     /* running at a fraction of the power */
    LS_LEVER_AFT,   /* windmilling with the propeller lever fully aft */
    LS_IDLE,        /* throttle closed, still firing */
    LS_ZERO_THRUST, /* set so that it neither pulls nor drags */
    LS_ENGINE_STATES
} ls_engine_state;

LS_API const char *ls_engine_state_name(ls_engine_state state);

/* The state an engine goes to by itself when it fails: feathered where feathering is automatic, else windmilling
 * (a jet windmills). */
LS_API ls_engine_state ls_engine_state_after_failure(const ls_powerplant_data *powerplant);

#define LS_TIP_MACH 0.85

enum {
    LS_PROPULSOR_SPEED_OUTSIDE = 1,  /* the advance ratio or speed lies outside the file's curve: extrapolated */
    LS_PROPULSOR_TORQUE_LIMITED = 2, /* an electric motor on its torque limit */
    LS_PROPULSOR_FINE_STOP = 4,      /* the blades are on the fine stop and the speed is below the governed one */
    LS_PROPULSOR_COARSE_STOP = 8,    /* on the coarse stop: above the governed speed */
    LS_PROPULSOR_STOPS = 16,         /* windmilling cannot be kept up at this speed: the propeller stops */
    LS_PROPULSOR_LATCHED = 32,       /* it turns too slowly to be feathered any more */
    LS_PROPULSOR_TIP_MACH = 64,      /* helical tip Mach number above LS_TIP_MACH: the sections' data end there */
    LS_PROPULSOR_TURNS = 128,        /* meant to stand still, but its torque exceeds the break-out torque */
    LS_PROPULSOR_TABLE_EDGE = 256    /* the propeller's table was left: nearest point taken */
};

/* Loads of one unit, mirrored by nothing: the trim applies handedness and direction.
 * With u the unit velocity of the aeroplane in body axes, a the shaft axis forward, p = (u.a) a - u the in-plane
 * air flow over V, h the hand: force = thrust a + normal p + h side (a x p); moment at the hub = h hub_first p
 * + hub_second (a x p) - h torque a. At positive incidence p points up, so the down-going blade's larger load
 * (hub_first > 0) yaws the nose left for h = +1. */
typedef struct {
    double thrust_N;
    double torque_Nm; /* that the propeller takes from the shaft; negative when the flow drives it */
    double normal_N;  /* in-plane force per unit of p, along p */
    double side_N;
    double hub_first_Nm;
    double hub_second_Nm;
    double
        wake_m_s; /* speed that the slipstream has gained far downstream; negative behind a dragging propeller */
    double swirl_rad; /* mean turn of that slipstream in the propeller's own direction, nothing straightened */
    double offset_m;  /* thrust centre from the hub, toward the down-going blade, per radian of disc incidence */
    double shaft_power_W;
    double n_rev_s; /* propeller */
    double efficiency;
    double pitch_rad; /* blade angle at 0.75 R; 0 where the propeller has no blades to speak of */
    unsigned flags;
} ls_propulsor_point;

/* A powerplant ready to be asked: plain data that refers to the file's record, copied by assignment. */
typedef struct {
    const ls_powerplant_data *data;
    double reference_p_Pa, reference_T_K; /* piston: where the rated manifold pressure is full throttle */
    ls_curve_fit performance; /* coefficients: efficiency against advance ratio, or thrust against speed */
} ls_powerplant;

/* Checks and prepares a powerplant.
 * Returned: powerplant; it refers to data, which must outlive it.
 * Status: LS_FILE_REJECTED with the reason (no efficiency or thrust curve, both, an efficiency that is not zero at
 * rest). */
LS_API ls_status ls_powerplant_prepare(const ls_powerplant_data *data, ls_powerplant *powerplant, ls_error *error);

/* Shaft power at full lever and rated speed, W; 0 for a jet.
 * Source: piston: indicated power follows manifold pressure over intake temperature, friction power stays; with
 * the default friction share this is Gagg and Ferrar's P/P0 = 1.132 sigma - 0.132 (from memory; as in Gudmundsson,
 * General Aviation Aircraft Design, eq. 7-16). */
LS_API double ls_powerplant_power(const ls_powerplant *powerplant, const ls_air *air);

/* The unit's loads at true airspeed V.
 * Given: state; power, the fraction of the power available (running and partial), 0 to 1; V_m_s >= 0.
 * Status: LS_NO_STATE when the file has no data for the asked state (the message names the key). */
LS_API ls_status ls_propulsor_at(const ls_powerplant *powerplant, ls_engine_state state, double power,
                                 const ls_air *air, double V_m_s, ls_propulsor_point *point, ls_error *error);

#endif
