/* The geometry of a propeller: blade stations, solidity, activity factor. */
#ifndef LIVESIDE_BLADE_H
#define LIVESIDE_BLADE_H

#include "liveside/status.h"

enum { LS_BLADE_STATIONS_MAX = 64 };

typedef struct {
    double r_R;       /* radius over tip radius, rising from station to station, last one 1 */
    double c_R;       /* chord over tip radius */
    double angle_rad; /* blade angle at any one setting: only the twist is used */
    double thickness; /* thickness over chord */
} ls_blade_station;

typedef struct {
    int blades;
    double diameter_m;
    double root_r_R; /* where the air meets the blade: hub or spinner radius over tip radius */
    int count;
    ls_blade_station station[LS_BLADE_STATIONS_MAX];
} ls_blade;

/* Checks blade numbers and stations.
 * Status: LS_FILE_REJECTED with the offending value and its range. */
LS_API ls_status ls_blade_check(const ls_blade *blade, ls_error *error);

/* The blade at a radius, by shape-preserving cubics through the stations.
 * Given: blade, checked; r_R, held at the first and last stations beyond them.
 * Returned: the station, its angle as in the blade's own table.
 * Source: Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300: slopes. */
LS_API ls_blade_station ls_blade_at(const ls_blade *blade, double r_R);

/* Blade area over disc area, from the root outward, all blades. */
LS_API double ls_blade_solidity(const ls_blade *blade);

/* Activity factor of one blade, (100000/16) times the integral of (c/D) (r/R)^3 d(r/R).
 * Given: from_r_R, where the integral starts: 0.15 by custom. */
LS_API double ls_blade_activity_factor(const ls_blade *blade, double from_r_R);

#endif
