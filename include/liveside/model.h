/* A condition to fly in, and the aeroplane prepared for it: all that does not change with speed and attitude. */
#ifndef LIVESIDE_MODEL_H
#define LIVESIDE_MODEL_H

#include "liveside/air.h"
#include "liveside/aircraft.h"
#include "liveside/powerplant.h"

typedef enum {
    LS_ROTATION_FILE,
    LS_ROTATION_CLOCKWISE,
    LS_ROTATION_ANTICLOCKWISE,
    LS_ROTATION_TOPS_INBOARD,
    LS_ROTATION_TOPS_OUTBOARD,
    LS_ROTATIONS
} ls_rotation;

LS_API const char *ls_rotation_name(ls_rotation rotation);

/* Effects that can be switched off to see their worth. */
enum {
    LS_EFFECT_P_FACTOR = 1,      /* hub moments of the propeller in inclined flow */
    LS_EFFECT_TORQUE = 2,        /* torque reaction */
    LS_EFFECT_NORMAL_FORCE = 4,  /* in-plane propeller forces */
    LS_EFFECT_DEAD_DRAG = 8,     /* drag of failed units */
    LS_EFFECT_INSTALLATION = 16, /* thrust lost to what stands in the slipstream */
    LS_EFFECT_COOLING = 32,      /* cooling drag of failed engines */
    LS_EFFECT_SLIPSTREAM = 64,   /* lift that the slipstreams add to the wing, and its induced drag */
    LS_EFFECT_SWIRL = 128,       /* slipstream rotation on the fin */
    LS_EFFECT_ALL = 255
};

typedef struct {
    double altitude_m; /* pressure altitude */
    double isa_offset_K;
    double mass_kg;
    double cg_aft_m;   /* of the datum */
    double cg_right_m; /* of the plane of symmetry */
    int flap;
    double gear;       /* 0 up to 1 down */
    double cowl_flaps; /* 0 closed to 1 open */
    double power;      /* fraction of the power available, running engines */
    int is_continuous; /* maximum continuous instead of take-off rating */
    double partial;    /* the same for engines in state LS_PARTIAL */
    ls_engine_state state[LS_MAX_ENGINES];
    ls_rotation rotation;
    double bank_rad;       /* right wing down positive */
    double pedal_limit_N;  /* infinite when no limit is asked or no data are there */
    double bank_limit_rad; /* for searches over bank; positive */
    unsigned effects_off;  /* LS_EFFECT_ bits */
} ls_condition;

/* The file's take-off condition: sea level, standard day, take-off flap, gear up, full power, maximum weight,
 * reference centre of gravity, wings level, every engine running. */
LS_API void ls_condition_takeoff(const ls_aircraft *aircraft, ls_condition *condition);

/* Fails the engines of a set (bit i is engine i), each in the given state, or as it goes by itself. */
LS_API void ls_condition_fail(const ls_aircraft *aircraft, unsigned failed, ls_condition *condition);
LS_API void ls_condition_fail_as(const ls_aircraft *aircraft, unsigned failed, ls_engine_state state,
                                 ls_condition *condition);

/* The set of engines that do not run at full power in a condition. */
LS_API unsigned ls_condition_failed(const ls_aircraft *aircraft, const ls_condition *condition);

/* +1 when the live engines' thrust lies mostly right of the plane of symmetry (so banking right is "toward the
 * live engine"), -1 left, 0 when symmetric. */
LS_API int ls_live_side(const ls_aircraft *aircraft, const ls_condition *condition);

typedef struct {
    double axis[3];  /* shaft axis, forward */
    double hub_m[3]; /* from the condition's centre of gravity, body axes */
    int hand;
    /* Part of the far slipstream's speed gained at the wing, which stands at the reference centre of gravity: 1
     * far behind the disc, 1/2 at it; between, a vortex tube of the disc's radius. */
    double developed;
    double upwash;    /* of the wing at the disc, per radian of incidence from zero lift */
    double immersion; /* slipstream.fin_immersion where this unit's slipstream can reach the fin, else 0 */
    ls_engine_state state;
    double power;
    double installed_share; /* of the thrust, running: lost to what stands in the slipstream */
    double cooling_area_m2; /* failed: cooling drag over dynamic pressure */
    int powerplant;         /* index in the model */
} ls_mounted_engine;

/* The thrust that a running engine loses to what stands in its slipstream; none of a negative thrust. */
LS_API double ls_installation_loss(const ls_mounted_engine *unit, double thrust_N);

/* All propeller and jet loads at a speed, summed: with u the unit velocity in body axes,
 * force = force0 + force_u u, moment about the centre of gravity = moment0 + moment_u u, and what the wing's
 * upwash adds, upwash (alpha + lift_zero/lift_slope). The slipstreams' lift acts along the wing's, wash_lift[0] +
 * wash_lift[1] alpha; its moment about the stability x axis, left wing down, is the polynomial wash_arm in alpha.
 */
typedef struct {
    double V_m_s;
    double force0_N[3], moment0_Nm[3];
    double force_u_N[3][3], moment_u_Nm[3][3];
    double upwash_force_N[3], upwash_moment_Nm[3];
    double wash_lift_N[2], wash_arm_Nm[3];
    double fin_rad; /* sideslip that slipstream rotation adds at the fin, wind from the right positive */
    ls_propulsor_point unit[LS_MAX_ENGINES];
    unsigned flags;
} ls_powerplant_point;

typedef struct ls_model ls_model;

/* Where the trim gets its propulsion loads: ls_powerplant_at, unless a test puts a known source in its place. */
typedef ls_status ls_loads_function(const ls_model *model, double V_m_s, ls_powerplant_point *point,
                                    ls_error *error);

/* Where that gets the loads of one unit: ls_propulsor_at, unless a test puts another solution in its place. */
typedef ls_status ls_propulsor_function(const ls_powerplant *powerplant, ls_engine_state state, double power,
                                        const ls_air *air, double V_m_s, ls_propulsor_point *point,
                                        ls_error *error);

/* Aeroplane and condition compiled together; refers to the aircraft, which must outlive it. */
struct ls_model {
    const ls_aircraft *aircraft;
    ls_condition condition;
    ls_loads_function *loads;
    ls_propulsor_function *propulsor;
    ls_air air;
    double weight_N;
    double S_m2, b_m, chord_m;
    double lift_zero, lift_slope, lift_max;
    double drag_base, drag_induced, drag_least_at; /* base: flap, gear and cowl flaps together */
    ls_derivatives derivatives;
    int stability_axes;          /* whether roll and yaw derivatives turn with incidence */
    double cg_aft_m, cg_right_m; /* of the reference centre of gravity */
    double aileron_rad;          /* usable travel */
    ls_curve_fit rudder_effect;  /* effective against actual deflection; rows 0: equal */
    int powerplants;
    ls_powerplant powerplant[LS_MAX_POWERPLANTS];
    int units;
    ls_mounted_engine unit[LS_MAX_ENGINES];
    double stall_V_m_s; /* 1 g, power off, true */
};

/* Compiles an aircraft and a condition.
 * Status: LS_NO_STATE when the condition lies outside the atmosphere or a value is not finite, LS_FILE_REJECTED
 * from ls_powerplant_prepare; the message names it. */
LS_API ls_status ls_model_make(const ls_aircraft *aircraft, const ls_condition *condition, ls_model *model,
                               ls_error *error);

/* Propulsion loads of every unit. Status: that of ls_propulsor_at. Allocates nothing. */
LS_API ls_status ls_powerplant_at(const ls_model *model, double V_m_s, ls_powerplant_point *point,
                                  ls_error *error);

#endif
