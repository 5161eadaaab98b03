/* A made-up test flight: points flown by the model with a hidden truth and stated noise. */
#ifndef LIVESIDE_TESTS_FLIGHT_H
#define LIVESIDE_TESTS_FLIGHT_H

#include "liveside/model.h"
#include "liveside/points.h"

#include <stdint.h>
#include <stdio.h>

/* Standard deviations of one reading. */
typedef struct {
    double speed_m_s, bank_rad, rudder_rad, aileron_rad, beta_rad, force_N, map_share, heading_rad, height_m;
} flight_noise;

enum { FLIGHT_POINTS = 42, FLIGHT_DYNAMIC = 7, FLIGHT_ALL = FLIGHT_POINTS + FLIGHT_DYNAMIC };

/* Seconds until the pilot of the dynamic points acts: a slow one, so that they lie above the static speed. */
#define FLIGHT_DELAY_S 2.5

/* The points as they truly are: left engine failed and windmilling, three heights, three weights, two centres of
 * gravity, banks 0, 2.5 and 5 deg toward the live engine; each third one flown to the rudder's limit, the others
 * steady at 1.1 to 1.45 times that speed. */
void flight_truth(const ls_aircraft *truth, ls_point point[FLIGHT_POINTS]);

/* Sudden failures of the left engine as they truly go, at 4000 ft, heavy, centre of gravity aft, 5 deg toward the
 * live engine: from 22 kt above the static speed down to 4 kt above it. */
void flight_sudden(const ls_aircraft *truth, ls_point point[FLIGHT_DYNAMIC]);

/* The readings of true points: 1 kt, 0.4 deg, ... of Gaussian noise. */
void flight_read(const ls_point *truth, int count, const flight_noise *noise, uint64_t *seed, ls_point *reading);

/* The noise of the demo points. */
flight_noise flight_usual_noise(void);

/* The hidden truth of the demo points: the aircraft with its rudder's derivatives times 0.94 and its yaw by
 * sideslip times 1.10. */
void flight_hide(const ls_aircraft *aircraft, ls_aircraft *truth);

/* Points as CSV in the us system's units. */
void flight_write(FILE *out, const ls_point *point, int count);

#endif
