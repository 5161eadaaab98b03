/* Every factor that pilots are taught about the minimum control speed: what a stated step of it does to this
 * aeroplane, beside what is taught. */
#ifndef LIVESIDE_FACTORS_H
#define LIVESIDE_FACTORS_H

#include "liveside/breakdown.h"
#include "liveside/doubt.h"
#include "liveside/trend.h"

typedef enum {
    LS_FACTOR_POWER,
    LS_FACTOR_ALTITUDE,
    LS_FACTOR_TEMPERATURE,
    LS_FACTOR_WEIGHT_LEVEL,
    LS_FACTOR_WEIGHT_BANKED,
    LS_FACTOR_CG,
    LS_FACTOR_BANK_TOWARD,
    LS_FACTOR_BANK_AWAY,
    LS_FACTOR_FLAP,
    LS_FACTOR_GEAR,
    LS_FACTOR_FEATHERED,
    LS_FACTOR_STOPPED,
    LS_FACTOR_LEVER_AFT,
    LS_FACTOR_GROUND,
    LS_FACTOR_COWL_FLAPS,
    LS_FACTOR_OTHER_ENGINE,
    LS_FACTOR_TURBOCHARGED,
    LS_FACTORS
} ls_factor_kind;

typedef enum { LS_TAUGHT_LOWER, LS_TAUGHT_SAME, LS_TAUGHT_HIGHER, LS_TAUGHT_NOTHING } ls_taught;

/* What is taught of a factor. */
typedef struct {
    const char *name; /* "live engine's power" */
    ls_taught vmc, climb;
    const char *source;  /* of what is taught: a handbook, or "common practice" */
    const char *no_data; /* why the file cannot give the change of speed; null where it can */
} ls_factor_row;

LS_API const ls_factor_row *ls_factor(ls_factor_kind kind);

/* A change of one quantity over a step. */
typedef struct {
    double from, to, change;
    double doubt; /* how far the change moves with what is least well known; NaN where it was not solved */
} ls_change;

typedef enum {
    LS_FACTOR_COMPUTED,
    LS_FACTOR_NO_DATA,       /* the file has no data for it: see reason */
    LS_FACTOR_DOES_NOT_ARISE /* on such an aeroplane: see reason */
} ls_factor_state;

typedef enum {
    LS_AGREES,
    LS_DISAGREES,
    LS_WITHIN_DOUBT, /* smaller than its uncertainty, or than 0.05 kt */
    LS_NOTHING_TAUGHT
} ls_agreement;

typedef struct {
    ls_factor_kind kind;
    ls_factor_state vmc_state, climb_state;
    char step[80]; /* in words where the step is not two numbers: "windmilling to feathered"; else "" */
    ls_dimension dimension;
    double from, to; /* the step in numbers */
    ls_change vmc;   /* CAS of the control limit, also below the stall */
    ls_change climb; /* rate, at the common airspeed */
    ls_agreement agreement;
    char reason[160]; /* why there is no number, or why this aeroplane disagrees */
} ls_factor_result;

typedef struct {
    unsigned failed; /* the critical engine, or the first where none is */
    int live_side;
    ls_condition condition; /* the base: engine failed, weight and centre of gravity, bank */
    double bank_rad;        /* of the base, toward the live side positive */
    double vmc_m_s;         /* of the base, CAS of the control limit; NaN when there is none */
    double climb_cas_m_s;   /* where the climbs are compared: best rate of the base */
    double climb_m_s;       /* rate of the base there */
    double meeting_m;       /* pressure altitude where control limit and stall meet; NaN: nowhere up to 20 km */
    int stalls_first;       /* at the base */
    int rows;
    ls_factor_result row[LS_FACTORS]; /* by size of the change of speed; those without a number last */
} ls_factors;

/* Works out every factor.
 * Given: marks, for the spreads that the file states, or null; request as for ls_breakdown_solve; watch, may be
 * null.
 * Status: LS_OK; LS_NO_STATE (one engine only); LS_INTERRUPTED; LS_MEMORY. */
LS_API ls_status ls_factors_solve(const ls_aircraft *aircraft, const ls_marks *marks,
                                  const ls_vmca_request *request, const ls_watch *watch, ls_factors *factors,
                                  ls_error *error);

#endif
