/* The propeller tabulated once, for the many points of a study. */
#ifndef LIVESIDE_PROP_TABLE_H
#define LIVESIDE_PROP_TABLE_H

#include "liveside/disc.h"

#include <stddef.h>

typedef struct ls_prop_table ls_prop_table;

/* What the unit can reach. */
typedef struct {
    double pitch_min_rad; /* finest blade angle at 0.75 R */
    double pitch_max_rad; /* coarsest, feather included; equal to pitch_min_rad for a fixed pitch */
    double mach_max;      /* highest helical Mach number at 0.75 R; 0 gives 0.75 */
} ls_prop_range;

/* Bits that ls_prop_table_at returns: the point was outside, and the nearest one inside is given. */
enum { LS_PROP_PITCH_OUTSIDE = 1, LS_PROP_MACH_OUTSIDE = 2 };

/* Tabulates a propeller on pitch, pitch - psi and helical Mach number at 0.75 R,
 * psi = atan2(V_axial, 0.75 pi n D), made dimensionless by rho (V_axial^2 + (0.75 pi n D)^2).
 * Given: disc, prepared, not kept; range, pitches -10 to 95 deg; induction, as for
 *   ls_disc_solve_axial.
 * Returned: table, to be freed with ls_prop_table_free; untouched on failure.
 * Status: LS_NO_STATE for a range out of order; LS_NOT_CONVERGED; LS_MEMORY. */
LS_API ls_status ls_prop_table_build(const ls_disc *disc, const ls_prop_range *range, ls_induction induction,
                                     ls_prop_table **table, ls_error *error);

/* The numbers of a table, to be kept and handed to ls_prop_table_restore. Returned: they belong to the table. */
LS_API const double *ls_prop_table_values(const ls_prop_table *table, size_t *count);

/* A table from numbers that were kept, checked: the layout must be that of disc and range, and nodes all over it
 * must agree with direct solutions. Returned: table, to be freed with ls_prop_table_free; untouched on failure.
 * Status: LS_FILE_REJECTED (another layout, or numbers that are not this propeller's); LS_NO_STATE; LS_MEMORY. */
LS_API ls_status ls_prop_table_restore(const ls_disc *disc, const ls_prop_range *range, ls_induction induction,
                                       const double *values, size_t count, ls_prop_table **table, ls_error *error);

/* Frees a table; null is allowed. */
LS_API void ls_prop_table_free(ls_prop_table *table);

/* The loads at a point, as ls_disc_solve_axial gives them directly; allocates nothing.
 * Given: state within the ranges of ls_disc_solve_axial (not checked); V_inplane_m_s is not used.
 * Returned: axial, and warning bits, 0 for none.
 * Notes: of points within the range, 99 % agree with the direct solution to 0.5 % of the largest
 *   coefficient at that pitch and Mach number, the worst to 2 %, the in-plane loads taken at a given
 *   incidence, that is as slope times V_axial; continuous with its first derivatives. */
LS_API unsigned ls_prop_table_at(const ls_prop_table *table, const ls_disc_state *state, ls_disc_axial *axial);

#endif
