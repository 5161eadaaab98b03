/* A build-up for measuring static minimum control speed and its slope with bank, safe by construction: no step
 * below the stall margin, no altitude below the floor. */
#ifndef LIVESIDE_TESTCARD_H
#define LIVESIDE_TESTCARD_H

#include "liveside/points.h"
#include "liveside/vmc.h"

enum { LS_CARD_BANKS = 3, LS_CARD_SERIES = 8, LS_CARD_POINTS = 64 };

/* Expected heading change and height loss of a sudden failure at a true airspeed, for the dynamic series.
 * Given: context, the caller's. Returned: 0 when they are not known. */
typedef int ls_card_motion(const ls_model *model, double V_m_s, double *heading_change_rad, double *height_loss_m,
                           void *context);

typedef struct {
    const ls_aircraft *aircraft;
    ls_condition condition;  /* engines failed; altitude: the lowest flown */
    double floor_m;          /* lowest pressure altitude allowed */
    double stall_margin_m_s; /* least margin above the stall as trimmed, CAS */
    ls_card_motion *motion;  /* null: the dynamic series is printed without expected values */
    void *context;
} ls_card_request;

/* Points of one bank, altitude and weight. */
typedef struct {
    int first, count; /* in point[] */
    int is_dynamic;
    double bank_rad; /* toward the live side */
    double altitude_m, mass_kg;
    double vmc_cas_m_s, stall_cas_m_s; /* expected; NaN */
    ls_limit limit;                    /* expected at that speed */
    int stops_at_margin;               /* the last step is the stall margin, above the expected speed */
    int has_motion;                    /* dynamic: expected values are there */
} ls_card_series;

typedef struct {
    int series_count, count;
    int live_side;
    ls_card_series series[LS_CARD_SERIES];
    ls_point point[LS_CARD_POINTS];
} ls_card;

/* Plans a card.
 * Status: LS_OK; LS_USAGE (altitude below the floor; no side is the live one); LS_NO_STATE, LS_NOT_CONVERGED from
 * the model. */
LS_API ls_status ls_card_make(const ls_card_request *request, ls_card *card, ls_error *error);

#endif
