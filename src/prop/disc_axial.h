/* The axial solution without checks, for the table, which also needs points just past its edges. */
#ifndef LIVESIDE_PROP_DISC_AXIAL_H
#define LIVESIDE_PROP_DISC_AXIAL_H

#include "element.h"

/* As ls_disc_solve_axial, with negative speeds allowed.
 * Given: start, null or a neighbouring solution for each element (slope 0 for none), renewed.
 * Returned: null, or the element without a root. */
const ls_element *disc_axial(const ls_disc *disc, const ls_disc_state *state, ls_induction induction,
                             element_start *start, ls_disc_axial *axial);

#endif
