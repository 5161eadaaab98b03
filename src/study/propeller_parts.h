/* What the parts of the propeller study share. */
#ifndef LIVESIDE_STUDY_PROPELLER_PARTS_H
#define LIVESIDE_STUDY_PROPELLER_PARTS_H

#include "liveside/propeller_study.h"
#include "prop/governor.h"

/* A propeller that has settled, as a point with its section at 0.75 R. */
void prop_point_fill(const ls_prop_study *study, const ls_air *air, const ls_shaft *shaft, double lever_rev_s,
                     const ls_governed *governed, ls_prop_point *point);

/* A point that could not be found. */
void prop_point_fail(const ls_error *error, ls_prop_point *point);

/* The true airspeed of a calibrated one, and back; not a number where there is none. */
double prop_tas(const ls_air *air, double cas_m_s);
double prop_cas(const ls_air *air, double V_m_s);

#endif
