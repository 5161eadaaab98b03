/* Every command's entry, each defined in cmd_NAME.c. */
#ifndef LIVESIDE_CLI_COMMANDS_H
#define LIVESIDE_CLI_COMMANDS_H

#include "cli/options.h"

extern const cli_command cli_command_new;
extern const cli_command cli_command_check;
extern const cli_command cli_command_balance;
extern const cli_command cli_command_failure;
extern const cli_command cli_command_runway;
extern const cli_command cli_command_rules;
extern const cli_command cli_command_estimate;
extern const cli_command cli_command_testcard;
extern const cli_command cli_command_reduce;
extern const cli_command cli_command_vmca;
extern const cli_command cli_command_sensitivity;
extern const cli_command cli_command_trend;
extern const cli_command cli_command_uncertainty;
extern const cli_command cli_command_demonstration;
extern const cli_command cli_command_explain;
extern const cli_command cli_command_factors;
extern const cli_command cli_command_climb;
extern const cli_command cli_command_prop;
extern const cli_command cli_command_handout;

#endif
