/* Where a study of one answer starts from. */
#ifndef LIVESIDE_CLI_BASE_H
#define LIVESIDE_CLI_BASE_H

#include "cli/input.h"
#include "liveside/vmca.h"

/* The answer of vmca: its engine, bank, weight and centre of gravity. */
typedef struct {
    ls_vmca_request request;
    ls_condition condition; /* that engine failed */
    unsigned failed;
    double bank_rad; /* toward the live side positive */
} cli_base;

/* Status: that of cli_request_make and ls_vmca_solve; LS_USAGE for --failed none. */
ls_status cli_base_find(const cli_options *options, const ls_aircraft *aircraft, cli_base *base, ls_error *error);

#endif
