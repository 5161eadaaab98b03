/* The course of a command on one aeroplane: read, solve, report. */
#ifndef LIVESIDE_CLI_JOB_H
#define LIVESIDE_CLI_JOB_H

#include "cli/input.h"

typedef ls_status cli_job_step(const cli_run *run, void *job, ls_error *error);

typedef struct {
    size_t size; /* of the command's own record, which begins with its cli_input; it starts as zeros */
    cli_job_step *solve, *report;
    void (*release)(void *job); /* frees what solve made; null: nothing. Called whatever happened. */
} cli_job;

/* Runs the steps until one fails. Status: LS_OK; LS_MEMORY; else as cli_input_read and the steps. */
ls_status cli_job_run(const cli_run *run, const cli_job *job, ls_error *error);

#endif
