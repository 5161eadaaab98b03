/* What an estimated aeroplane does, beside what was published of it: compared, never fitted. */
#ifndef LIVESIDE_ESTIMATE_CHECK_H
#define LIVESIDE_ESTIMATE_CHECK_H

#include "liveside/geometry.h"
#include "liveside/vmca.h"

typedef struct {
    ls_status vmca_status;
    char vmca_reason[LS_ERROR_TEXT];
    ls_vmca vmca;
    double climb_m_s, climb_speed_m_s; /* every engine, sea level, clean, maximum mass; CAS */
    double climb_one_m_s,
        climb_one_speed_m_s; /* one engine failed, least drag, bank of the best climb; NaN: no trim */
    double climb_one_bank_rad;
} ls_estimate_check;

/* Flies an estimated aeroplane: minimum control speed as `vmca` finds it, and both climbs at the handbook's speeds
 * (1.3 times the stall speed where it gives none).
 * Returned: check, filled as far as it goes. Status: LS_OK; LS_NO_STATE, LS_FILE_REJECTED from the model. */
LS_API ls_status ls_estimate_fly(const ls_aircraft *aircraft, const ls_geometry_input *input,
                                 ls_estimate_check *check, ls_error *error);

#endif
