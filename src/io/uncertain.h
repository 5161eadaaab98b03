/* The block `uncertain` of an aeroplane file: how values with spreads go together. */
#ifndef LS_IO_UNCERTAIN_H
#define LS_IO_UNCERTAIN_H

#include "io/value.h"

/* Reads the block where there is one, after every value has been read, and finds fault with it. */
void ls_uncertain_read(ls_reading *reading);

#endif
