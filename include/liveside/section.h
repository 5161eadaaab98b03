/* A propeller blade section: its lift and drag over the full circle of incidence. */
#ifndef LIVESIDE_SECTION_H
#define LIVESIDE_SECTION_H

#include <stdbool.h>

#include "liveside/status.h"

/* What a file says about the sections of a blade. Angles are measured from the datum of the
 * blade angle, nose up positive; `thickness` is t/c. On a flat-faced blade the datum is the flat
 * face, and zero-lift angle and chord line turn with the thickness; on a blade whose angle is
 * measured to the chord line, both `_thickness_` terms are zero. */
typedef struct {
    double lift_slope_rad;       /* per rad, incompressible: 4 to 8 */
    double alpha0_rad;           /* zero-lift angle of a section without thickness */
    double alpha0_thickness_rad; /* its change per unit of t/c, negative on a flat-faced blade */
    double chord_thickness_rad;  /* nose-up angle of the chord line per unit of t/c */
    double thickness_cap;        /* t/c above which both angles stay as they are */
    double cl_max;               /* highest lift before the stall, > 0 */
    double cl_min;               /* lowest, < 0 */
    double cd_min;               /* drag inside the bucket at t/c <= 0.12 */
    double cd_thickness;         /* drag added per unit of t/c above 0.12 */
    double cl_bucket;            /* lift at the middle of the drag bucket */
    double cl_bucket_half;       /* half width of the bucket, >= 0 */
    double cd_cl2;               /* drag per square of the lift outside the bucket */
    double mach_dd;              /* drag-divergence Mach number at t/c 0.10 and no lift */
    bool unlimited;              /* straight lift line and parabolic drag at any angle */
} ls_section;

/* One side (positive or negative lift) of a prepared polar; angles from the chord line, mirrored
 * so that the side lies at positive angles. */
typedef struct {
    double alpha0, cl_limit;         /* zero lift, and the limit as a positive number */
    double alpha_bend, alpha_peak;   /* the straight line ends; the lift peaks */
    double alpha_plate;              /* from here on the flat-plate law */
    double a1, a2, b1, b2;           /* the flat-plate law */
    double cl_join[6], cd_join[6];   /* quintics in (alpha - alpha_peak) between peak and plate */
    double alpha_back, back1, back3; /* reversed flow: odd cubic in (pi - alpha) */
} ls_polar_side;

/* A section of given thickness, prepared for evaluation; immutable once made. */
typedef struct {
    double slope_rad, chord_rad, alpha0_rad; /* zero-lift angle from the chord line */
    double cd_min, cl_bucket, cl_bucket_half, cd_cl2, mach_dd;
    double cd_back; /* drag of reversed flow at zero incidence */
    bool unlimited;
    ls_polar_side up, down;
} ls_polar;

/* Checks a section's numbers against the ranges that the polar can be built from.
 * Status: LS_FILE_REJECTED with the offending key, its value and the range. */
LS_API ls_status ls_section_check(const ls_section *section, ls_error *error);

/* Prepares the polar of a section.
 * Given: section, checked; thickness t/c >= 0; aspect, blade radius over its chord at 0.75 R, > 0. */
LS_API void ls_polar_prepare(const ls_section *section, double thickness, double aspect, ls_polar *polar);

/* Lift and drag at an incidence and Mach number.
 * Given: alpha_rad from the blade-angle datum, -2 pi to 2 pi; mach >= 0 (0 switches Mach effects off).
 * Returned: cl, cd; continuous in both arguments.
 * Notes: straight lift line to a rounded peak, then the Viterna-Corrigan flat plate to +-180 deg, its
 *   reversed-flow part smoothed; Prandtl-Glauert held below Mach 0.8 and faded out past the stall;
 *   fourth-power drag rise.
 * Source: Viterna and Corrigan, NASA CP-2230 (1982), as used by Ning, AeroDyn and others;
 *   Lock's fourth-power drag rise and Korn's relation, from memory. */
LS_API void ls_polar_at(const ls_polar *polar, double alpha_rad, double mach, double *cl, double *cd);

#endif
