/* What `estimate` starts from: the dimensions of an aeroplane, or the few numbers of a handbook. */
#ifndef LIVESIDE_GEOMETRY_H
#define LIVESIDE_GEOMETRY_H

#include "liveside/aircraft.h"
#include "liveside/findings.h"
#include "liveside/parameter.h"

typedef enum { LS_LEVEL_GEOMETRY, LS_LEVEL_HANDBOOK } ls_level;

typedef enum { LS_FLAP_NONE, LS_FLAP_PLAIN, LS_FLAP_SPLIT, LS_FLAP_SLOTTED, LS_FLAP_FOWLER } ls_flap_kind;

typedef enum { LS_TURNS_CLOCKWISE, LS_TURNS_ANTICLOCKWISE, LS_TURNS_INBOARD, LS_TURNS_OUTBOARD } ls_turning;

/* Lengths along the body are aft of the datum; heights are measured from the body's centreline. What the file does
 * not give is NaN. */
typedef struct {
    char name[LS_NAME_SIZE];
    char note[LS_NOTE_SIZE];
    int level; /* ls_level */
    struct {
        double maximum_kg, minimum_kg;
    } mass;
    struct {
        double reference_m, forward_m, aft_m, lateral_m;
        double down_m; /* below the body's centreline */
    } cg;
    struct {
        double area_m2, span_m, chord_m;
        double taper;
        double sweep_rad; /* quarter chord */
        double dihedral_rad;
        double down_m; /* root quarter chord below the body's centreline: positive for a low wing */
        double thickness;
        double section_lift_max;
        double zero_lift_rad; /* angle of the body's centreline from the wing's zero lift */
    } wing;
    struct {
        int kind; /* ls_flap_kind */
        double chord;
        double inner, outer; /* of the semispan */
        double takeoff_rad, landing_rad;
    } flap;
    struct {
        double max_up, max_takeoff, max_landing; /* instead of the estimates */
    } lift;
    struct {
        double zero, gear;
    } drag;
    struct {
        double chord, inner, outer;
        double travel_rad;
    } aileron;
    struct {
        double span_m, root_m, tip_m;
        double sweep_rad; /* leading edge */
        double aft_m;     /* leading edge of the root */
        double up_m;      /* root above the body's centreline */
        double body_depth_m;
        double aspect_effective;
        double stall_rad;
    } fin;
    struct {
        double chord;        /* over the fin's */
        double inner, outer; /* of the fin's span */
        double left_rad, right_rad;
        double gearing_rad_m;
    } rudder;
    struct {
        double nose_m; /* aft of the datum */
        double length_m, width_m, depth_m;
        double depth_quarter_m, depth_three_quarter_m; /* at those parts of the length */
        double side_area_m2, volume_m3;
    } body;
    struct {
        double nose_m, length_m, width_m, depth_m;
    } nacelle;
    struct {
        int type; /* ls_engine_type */
        double power_W, n_rev_s, gear_ratio, critical_altitude_m, flat_to_sigma;
        double right_m, outer_right_m; /* thrust lines off the centreline; outer: of a four-engined aeroplane */
        double hub_aft_m, hub_down_m;  /* below the body's centreline */
    } engine;
    struct {
        double diameter_m, blades;
        int feathering; /* ls_feathering */
        int rotation;   /* ls_turning */
        double efficiency;
    } propeller;
    struct {
        double vmc_m_s, stall_m_s;
        int vmc_kind;
    } published;
} ls_geometry;

/* A flight manual, a type-certificate data sheet and a three-view hold these. */
typedef struct {
    char name[LS_NAME_SIZE];
    int level;
    double mass_kg, minimum_kg;
    double span_m, area_m2;
    double stall_clean_m_s, stall_landing_m_s; /* CAS, maximum mass */
    double climb_m_s, climb_speed_m_s;         /* every engine running, sea level, maximum mass, clean */
    double climb_one_m_s, climb_one_speed_m_s;
    int engine_type;
    double power_W, n_rev_s;
    double diameter_m;
    double engine_right_m;
    int rotation; /* ls_turning */
    double fin_area_m2, fin_span_m, fin_arm_m;
    double rudder_chord, rudder_travel_rad;
    double body_length_m;
    double vmc_m_s;
} ls_handbook;

enum { LS_GEOMETRY_KEYS = 96, LS_HANDBOOK_KEYS = 25 };

typedef struct {
    ls_level level;
    ls_geometry geometry; /* of a handbook: filled by ls_estimate */
    ls_handbook handbook;
    ls_mark mark[LS_GEOMETRY_KEYS]; /* of each row of the level's table */
} ls_geometry_input;

/* The table of keys of a level, without lists; offsets are in its record. */
LS_API const ls_parameter *ls_geometry_parameters(ls_level level, int *count);

/* Where the values of input's level go. */
LS_API void *ls_geometry_record(ls_geometry_input *input);

/* Fills the record of input's level with the defaults. */
LS_API void ls_geometry_defaults(ls_geometry_input *input);

/* What does not fit together, with its key and position. */
LS_API void ls_geometry_check(const ls_geometry_input *input, ls_findings *findings);

/* The key's row and its mark. */
LS_API const ls_mark *ls_geometry_mark(const ls_geometry_input *input, const char *path);

#endif
