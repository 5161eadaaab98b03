/* What can be settled only when every value has been read. */
#ifndef LS_IO_RESOLVE_H
#define LS_IO_RESOLVE_H

#include "io/value.h"

/* Turns names into indexes, checks that names are unique, that a coefficient propeller has just one table of
 * its own, and folds the two spellings of anticlockwise. */
void ls_resolve(ls_reading *reading);

#endif
