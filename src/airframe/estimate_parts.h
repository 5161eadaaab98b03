/* The steps of an estimate, each filling lines of the result from the geometry and from earlier steps. */
#ifndef LS_AIRFRAME_ESTIMATE_PARTS_H
#define LS_AIRFRAME_ESTIMATE_PARTS_H

#include "liveside/estimate.h"

typedef struct {
    const ls_geometry_input *input;
    const ls_geometry *g;
    ls_aircraft *aircraft;
    ls_marks *marks;
    ls_estimate *out;
    int is_handbook; /* the geometry was filled from a handbook and the class of aeroplane */
} ls_estimating;

/* Sets a number of the aircraft, its mark, and a line of the result. Returned: the line, for its parts. */
ls_estimate_line *ls_estimate_set(ls_estimating *e, const char *path, int element, double value, double spread,
                                  ls_source source, const char *method);

/* Sets a number that the geometry file gives, with the source and spread that it states there. */
void ls_estimate_take(ls_estimating *e, const char *path, double value, const char *from);

/* Sets a word, or a choice, of the aircraft. */
void ls_estimate_text(ls_estimating *e, const char *path, int element, const char *text);
void ls_estimate_choice(ls_estimating *e, const char *path, int element, int choice);

/* Adds a warning under a key of the geometry file. */
void ls_estimate_warn(ls_estimating *e, const char *key, const char *format, ...) LS_PRINTF(3, 4);

/* Sum of the parts, and root of the sum of the squared shares of them. */
double ls_estimate_sum(const double part[LS_ON_PARTS]);
double ls_estimate_spread(const double part[LS_ON_PARTS], const double share[LS_ON_PARTS]);

/* A trapezoidal surface, from the root outward. */
typedef struct {
    double span_m, root_m, tip_m, sweep_rad; /* of the leading edge */
} ls_trapezoid;

double ls_trapezoid_area(const ls_trapezoid *t);
double ls_trapezoid_chord(const ls_trapezoid *t);           /* mean aerodynamic */
double ls_trapezoid_middle(const ls_trapezoid *t);          /* distance of that chord from the root */
double ls_trapezoid_half_sweep(const ls_trapezoid *t);      /* of the half-chord line */
double ls_trapezoid_quarter_point_m(const ls_trapezoid *t); /* of that chord, aft of the root's leading edge */

/* Fills a geometry, with marks of its own, from a handbook. Status: LS_NO_STATE. */
ls_status ls_estimate_handbook(const ls_geometry_input *from, ls_geometry_input *to, ls_error *error);

void ls_estimate_lift(ls_estimating *e);        /* flaps, and the condition of the estimate */
void ls_estimate_drag(ls_estimating *e);        /* polar */
void ls_estimate_fin(ls_estimating *e);         /* basis of the fin and rudder */
void ls_estimate_bodies(ls_estimating *e);      /* basis of body and nacelles */
void ls_estimate_derivatives(ls_estimating *e); /* the nine */
void ls_estimate_controls(ls_estimating *e);    /* travels, rudder table, pedal */
void ls_estimate_power(ls_estimating *e);       /* engines and propellers */
void ls_estimate_inertia(ls_estimating *e);

#endif
