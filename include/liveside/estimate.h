/* From dimensions to an aeroplane file, by handbook methods. Every number carries its parts, its method and its
 * spread; what a method was not made for is said. */
#ifndef LIVESIDE_ESTIMATE_H
#define LIVESIDE_ESTIMATE_H

#include "liveside/aircraft.h"
#include "liveside/findings.h"
#include "liveside/geometry.h"
#include "liveside/parameter.h"

typedef enum { LS_ON_FIN, LS_ON_BODY, LS_ON_WING, LS_ON_NACELLES, LS_ON_PARTS } ls_estimate_part;

enum { LS_ESTIMATE_LINES = 64 };

/* One number of the aeroplane file. */
typedef struct {
    const char *path; /* as the table of keys writes it */
    int element;
    double part[LS_ON_PARTS]; /* of a derivative; NaN where a part adds nothing by this method */
    double propellers;        /* what the propellers add in flight: worked out from their own keys, not in value */
    double value, spread;     /* SI; spread is a standard deviation */
    ls_source source;         /* estimated, assumed, or given: taken over */
    const char *method;
} ls_estimate_line;

/* What the methods met on the way. */
typedef struct {
    double mass_kg, V_m_s, mach, lift_coefficient,
        alpha_rad; /* the condition of the estimate: 1.2 VS, sea level */
    double wing_aspect, wing_slope_rad;
    double fin_area_m2; /* prolonged to the body's centreline */
    double fin_aspect, fin_slope_rad, fin_sidewash, fin_body_factor;
    double fin_arm_m, fin_up_m;               /* of its centre of pressure from the reference centre of gravity */
    double rudder_bound, rudder_tau;          /* thin aerofoil, and what is used */
    double body_volume[2], body_side_area[2]; /* body, one nacelle */
    double body_yaw[2];                       /* of body and nacelles: volume method, side-area method */
    double inertia_kg_m2[3];                  /* roll, pitch, yaw, at maximum mass */
} ls_estimate_basis;

typedef struct {
    ls_estimate_basis basis;
    int lines;
    ls_estimate_line line[LS_ESTIMATE_LINES];
    ls_findings findings; /* methods outside their range, methods that disagree */
} ls_estimate;

/* Estimates an aeroplane.
 * Given: input, checked; of a handbook the geometry is filled first, from the class of aeroplane where the
 * handbook says nothing.
 * Returned: aircraft and marks, complete and as a reader would leave them; estimate. All untouched on failure.
 * Status: LS_OK; LS_NO_STATE (an aeroplane that cannot be: the message says which number). */
LS_API ls_status ls_estimate_make(ls_geometry_input *input, ls_aircraft *aircraft, ls_marks *marks,
                                  ls_estimate *estimate, ls_error *error);

/* Lift-curve slope of a lifting surface, per radian, on its own area.
 * Given: aspect, effective aspect ratio > 0; sweep_rad of the half-chord line; mach < 1; section_ratio, section
 * slope over 2 pi.
 * Notes: aspect to 0 gives pi aspect / 2, aspect to infinity (unswept, incompressible) 2 pi section_ratio.
 * Source: USAF DATCOM (Hoak, Finck), section 4.1.3.2; Roskam, Airplane Design VI, eq. 8.22. */
LS_API double ls_estimate_lift_slope(double aspect, double sweep_rad, double mach, double section_ratio);

/* Lift of a plain flap over that of the same angle of the whole aerofoil, thin-aerofoil theory: the bound.
 * Given: chord_ratio, flap over whole chord, 0 to 1.
 * Source: H. Glauert, The Elements of Aerofoil and Airscrew Theory (1926); 1 - (th - sin th)/pi,
 * th = acos(2 E - 1). */
LS_API double ls_estimate_flap_bound(double chord_ratio);

/* Dynamic pressure and sidewash at the fin together, eta_v (1 + dsigma/dbeta).
 * Given: area_ratio, fin over wing; sweep_rad of the wing's quarter chord; height_ratio, wing below the body's
 * centreline over the body's depth; aspect of the wing.
 * Source: USAF DATCOM 5.4.1; Roskam, Airplane Design VI, section 10.2.4.1. */
LS_API double ls_estimate_sidewash(double area_ratio, double sweep_rad, double height_ratio, double aspect);

/* Yaw per sideslip of a body, per radian, negative.
 * Given: volume_m3, depth_m and width_m, greatest; S_m2 and b_m of the wing.
 * Source: Raymer, Aircraft Design: A Conceptual Approach, eq. 16.50. */
LS_API double ls_estimate_body_by_volume(double volume_m3, double depth_m, double width_m, double S_m2,
                                         double b_m);

/* The same by the side area.
 * Given: side_area_m2, length_m, depth_m; cg_m, centre of gravity aft of the nose; depths at a quarter and at
 * three quarters of the length. Source: Torenbeek, Synthesis of Subsonic Airplane Design (1976), section 9.4: K =
 * 0.3 l_cg/l + 0.75 h/l - 0.105 (from memory; the term for unlike widths left out). */
LS_API double ls_estimate_body_by_side(double side_area_m2, double length_m, double depth_m, double cg_m,
                                       double depth_quarter_m, double depth_three_quarter_m, double S_m2,
                                       double b_m);

#endif
