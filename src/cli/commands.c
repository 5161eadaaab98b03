#include "cli/commands.h"

const cli_command *const cli_commands[] = {
    &cli_command_new,      &cli_command_estimate,      &cli_command_check,       &cli_command_vmca,
    &cli_command_trend,    &cli_command_balance,       &cli_command_explain,     &cli_command_factors,
    &cli_command_climb,    &cli_command_demonstration, &cli_command_prop,        &cli_command_failure,
    &cli_command_runway,   &cli_command_sensitivity,   &cli_command_uncertainty, &cli_command_rules,
    &cli_command_testcard, &cli_command_reduce,        &cli_command_handout,     0,
};
