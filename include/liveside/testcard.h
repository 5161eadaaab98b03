/* A build-up for measuring static minimum control speed and its slope with bank, safe by construction: no step
 * below the stall margin, no altitude below the floor. */
#ifndef LIVESIDE_TESTCARD_H
#define LIVESIDE_TESTCARD_H

#include "liveside/points.h"
#include "liveside/vmc.h"

enum { LS_CARD_BANKS = 3, LS_CARD_SERIES = 8, LS_CARD_POINTS = 64 };

/* What ends a series downward. */
typedef enum {
    LS_CARD_LIMIT,  /* the last step is the control limit expected; dynamic: the static speed is near */
    LS_CARD_STALL,  /* the stall margin comes first */
    LS_CARD_SWING,  /* dynamic: a slower failure is expected to pass 20 deg of heading or not to be held */
    LS_CARD_LOST,   /* dynamic: breaking off a slower one is not expected to regain control */
    LS_CARD_FLOOR,  /* dynamic: breaking off a slower one would cost the height above the floor */
    LS_CARD_UNKNOWN /* dynamic: no motion can be worked out for this propeller state */
} ls_card_end;

typedef struct {
    const ls_aircraft *aircraft;
    ls_condition condition;  /* engines failed; altitude: the lowest flown */
    double floor_m;          /* lowest pressure altitude allowed */
    double stall_margin_m_s; /* least margin above the stall as trimmed, CAS */
    double delay_s;          /* dynamic: until the pilot acts */
} ls_card_request;

/* Points of one bank, altitude and weight. */
typedef struct {
    int first, count; /* in point[]; a dynamic series may have none */
    int is_dynamic;
    double bank_rad; /* toward the live side */
    double altitude_m, mass_kg;
    double vmc_cas_m_s, stall_cas_m_s; /* expected; NaN */
    ls_limit limit;                    /* expected at that speed */
    ls_card_end end;
} ls_card_series;

typedef struct {
    int series_count, count;
    int live_side;
    ls_card_series series[LS_CARD_SERIES];
    ls_point point[LS_CARD_POINTS];
    double break_off_m[LS_CARD_POINTS]; /* dynamic: height that breaking off at 20 deg of heading costs; NaN */
} ls_card;

/* Plans a card.
 * Notes: the dynamic series takes its heading change and height loss from ls_motion_run, airspeed held; what
 * breaking off costs from a pilot who waits until 20 deg of heading or 45 deg of bank, then throttles back, nose
 * down. Status: LS_OK; LS_USAGE (altitude below the floor; no side is the live one); LS_NO_STATE, LS_NOT_CONVERGED
 * from the model. */
LS_API ls_status ls_card_make(const ls_card_request *request, ls_card *card, ls_error *error);

#endif
