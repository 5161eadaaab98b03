/* The polar for callers that hold the Mach number over many angles. */
#ifndef LIVESIDE_PROP_POLAR_H
#define LIVESIDE_PROP_POLAR_H

#include "liveside/section.h"

/* Prandtl and Glauert's 1/sqrt(1 - M^2), M held below 0.8 by a smooth bend from 0.65 on. */
double polar_gain(double mach);

/* As ls_polar_at; gain is polar_gain(mach). */
void polar_at(const ls_polar *polar, double alpha_rad, double mach, double gain, double *cl, double *cd);

#endif
