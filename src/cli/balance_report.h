/* The report of `liveside balance`. */
#ifndef LIVESIDE_CLI_BALANCE_REPORT_H
#define LIVESIDE_CLI_BALANCE_REPORT_H

#include "cli/input.h"
#include "liveside/airspeed.h"
#include "liveside/vmca.h"
#include "report/report.h"

typedef struct {
    ls_condition condition;
    unsigned failed;
    int critical; /* the failed engine was chosen as the critical one */
    ls_model model;
    ls_airspeed speed;
    ls_powerplant_point point;
    ls_trim trim;
    ls_margins margins;
    ls_balance balance;
} cli_balance;

int cli_balance_tightest(const cli_balance *it);

void cli_balance_report(ls_report *report, const cli_options *options, const cli_input *input,
                        const cli_balance *it, const char *condition);

#endif
