/* From options to the condition that is flown, and to the line that says it. */
#ifndef LIVESIDE_CLI_CONDITION_H
#define LIVESIDE_CLI_CONDITION_H

#include "cli/options.h"
#include "liveside/model.h"

/* What the options leave to the command: which engines fail in turn, and what is to be searched. */
typedef struct {
    ls_condition condition; /* every engine running; bank 0 until cli_case_fail */
    int sets;               /* failed sets to look at, each in turn */
    unsigned set[LS_MAX_ENGINES];
    int failed_given; /* --failed named the one set */
    int state;        /* ls_engine_state of the failed engines, or -1: as each goes by itself */
    double bank_rad;  /* toward the live side positive; 0 when not given, see bank_given */
    int bank_given;
    int weight_worst, cg_worst; /* to be searched: asked for, or not given */
    int weight_given, cg_given;
} cli_case;

/* Applies the options to the aircraft's take-off condition.
 * Returned: choice. Without --failed: each engine off the centreline in turn.
 * Status: LS_OK; LS_USAGE (no such engine or flap, value outside the file's range, ...). */
ls_status cli_case_make(const cli_options *options, const ls_aircraft *aircraft, cli_case *choice,
                        ls_error *error);

/* The condition with one set failed, banked toward (positive bank_rad) or away from the live side.
 * Given: bank_rad, choice->bank_rad or one of the command's own.
 * Status: LS_OK; LS_USAGE (banked, and no side is the live one). */
ls_status cli_case_fail(const cli_case *choice, const ls_aircraft *aircraft, unsigned failed, double bank_rad,
                        ls_condition *condition, ls_error *error);

enum { CLI_CONDITION_TEXT = 640, CLI_NAMES_TEXT = 256 };

/* "sea level, ISA, take-off power, flap up, gear up, 3803 lb, CG 94.9 in (aft), left failed, windmilling": all but
 * the bank. Weight and CG are left out where choice says that they are searched (choice may be null). */
void cli_condition_text(const ls_aircraft *aircraft, const ls_condition *condition, const cli_options *options,
                        const cli_case *choice, char *text, size_t size);

/* The names of a set's engines, "left" or "left outer and left inner". */
void cli_failed_text(const ls_aircraft *aircraft, unsigned failed, char *text, size_t size);

/* "5.0 deg toward the live engine", "wings level": a signed bank as a pilot reads it; live_side from ls_live_side,
 * engines the number of live ones ("engines" when more than one). */
void cli_bank_text(double bank_rad, int live_side, int live_engines, char *text, size_t size);

#endif
