/* What an aircraft needs besides its file's numbers before it can be flown: the tables of its propellers. */
#ifndef LIVESIDE_PREPARE_H
#define LIVESIDE_PREPARE_H

#include "liveside/aircraft.h"
#include "liveside/blade.h"

/* Makes the tables of an aircraft's blade-element propellers, several at a time; an aircraft without such
 * propellers needs none and costs nothing. Given: like, an aircraft that is prepared already and whose tables are
 * shared where the propellers are the same to the bit, or null. Returned: aircraft, whose earlier tables are
 * overwritten, not freed. On failure it has none. Status: LS_FILE_REJECTED (blade or section, with the reason);
 * LS_NOT_CONVERGED; LS_MEMORY. */
LS_API ls_status ls_aircraft_prepare(ls_aircraft *aircraft, const ls_aircraft *like, ls_error *error);

/* The same, with tables that are kept in a folder from run to run: each under the hash of its propeller, checked
 * against direct solutions when it is read; a folder that cannot be used only costs the time of making them.
 * Given: folder, which exists, or null. */
LS_API ls_status ls_aircraft_prepare_kept(ls_aircraft *aircraft, const char *folder, ls_error *error);

/* The blade of a blade-element propeller: the stations of its chord, with twist and thickness read there.
 * Status: LS_FILE_REJECTED with the reason. */
LS_API ls_status ls_propeller_blade(const ls_propeller_data *propeller, ls_blade *blade, ls_error *error);

/* Frees the tables of an aircraft, but for those that it shares with `like` (null: all of them). Copies of it must
 * not be flown afterwards. */
LS_API void ls_aircraft_release(ls_aircraft *aircraft, const ls_aircraft *like);

#endif
