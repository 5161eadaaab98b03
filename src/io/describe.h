/* What the parameter table says of a key, in words: for the starter file and the reference. */
#ifndef LS_IO_DESCRIBE_H
#define LS_IO_DESCRIBE_H

#include "liveside/parameter.h"

enum { LS_DESCRIPTION = 320 };

/* "required", "optional", "default 5 deg", "guessed as 20 deg when left out", ...
 * Given: unit, of the default; null: the one that writes it shortest. Returned: out. */
const char *ls_describe_presence(const ls_parameter *parameter, const ls_unit *unit, char out[LS_DESCRIPTION]);

/* The values that are allowed: a range in a unit (null: the unit that writes it shortest), or the words of a
 * choice; "" for a text. Returned: out. */
const char *ls_describe_range(const ls_parameter *parameter, const ls_unit *unit, char out[LS_DESCRIPTION]);

/* The engine types or propeller kinds that a key is for, "piston", "turboprop, jet"; "" for all. Returned: out. */
const char *ls_describe_applies(const ls_parameter *parameter, char out[LS_DESCRIPTION]);

#endif
