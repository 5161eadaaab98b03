/* From options to the condition that is flown, and to the line that says it. */
#ifndef LIVESIDE_CLI_CONDITION_H
#define LIVESIDE_CLI_CONDITION_H

#include "cli/options.h"
#include "liveside/vmca.h"

/* Applies the options to the aircraft's take-off condition.
 * Returned: request: without --failed the sets of ls_vmca_sets; `search` has a bit for each of weight, centre of
 * gravity and lateral centre of gravity that was not given (or as `worst`), whose value is then the file's
 * maximum, reference and zero. Status: LS_OK; LS_USAGE (no such engine or flap, value outside the file's range,
 * ...). */
ls_status cli_request_make(const cli_options *options, const ls_aircraft *aircraft, ls_vmca_request *request,
                           ls_error *error);

/* Refuses a bank toward a side where no side is the live one.
 * Given: request, of whose sets each is looked at. Status: LS_OK; LS_USAGE. */
ls_status cli_request_check_bank(const ls_vmca_request *request, const ls_aircraft *aircraft, ls_error *error);

/* The request's condition with one set failed, banked toward (positive bank_rad) or away from the live side.
 * Given: bank_rad, request->bank_rad or one of the command's own.
 * Status: LS_OK; LS_USAGE (banked, and no side is the live one). */
ls_status cli_request_fail(const ls_vmca_request *request, const ls_aircraft *aircraft, unsigned failed,
                           double bank_rad, ls_condition *condition, ls_error *error);

/* The bank that moves the ball by its own width, from --ball-width or 5 deg. */
double cli_ball_width(const cli_options *options);

enum { CLI_CONDITION_TEXT = 640 };

/* "sea level, ISA, take-off power, flap up, gear up, 3803 lb, CG 94.9 in (aft), left failed, windmilling": all but
 * the bank. Given: search, LS_SEARCH_ bits of what is searched ("worst weight and CG"; 0: nothing). */
void cli_condition_text(const ls_aircraft *aircraft, const ls_condition *condition, const cli_options *options,
                        unsigned search, char *text, size_t size);

#endif
