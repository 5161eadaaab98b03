/* Demo aeroplanes, and random variations of them, for the tests. */
#ifndef LIVESIDE_TESTS_FLEET_H
#define LIVESIDE_TESTS_FLEET_H

#include "liveside/model.h"

#include <stdint.h>

/* Reads aircraft/NAME.yaml; the running test fails when it is rejected. */
void fleet_read(const char *name, ls_aircraft *aircraft);

/* An aeroplane with derivatives, hubs, tilt, toe and rotation scattered about those of another. */
void fleet_vary(const ls_aircraft *aircraft, uint64_t *seed, ls_aircraft *varied);

/* A random condition of an aeroplane: height, day, weight, centre of gravity, flap, power, one engine failed. */
void fleet_condition(const ls_aircraft *aircraft, uint64_t *seed, ls_condition *condition);

/* The mirror images: left and right exchanged. */
void fleet_mirror_aircraft(const ls_aircraft *aircraft, ls_aircraft *mirrored);
void fleet_mirror_condition(const ls_condition *condition, ls_condition *mirrored);

#endif
