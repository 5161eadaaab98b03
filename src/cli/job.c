#include "cli/job.h"

#include <stdlib.h>

ls_status cli_job_run(const cli_run *run, const cli_job *job, ls_error *error)
{
    cli_input *input = calloc(1, job->size); /* large, so it lives on the heap */
    if (input == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    ls_status status = cli_input_read(run, run->options->file[0], input, error);
    status = status == LS_OK ? job->solve(run, input, error) : status;
    status = status == LS_OK ? job->report(run, input, error) : status;
    if (job->release != NULL) {
        job->release(input);
    }
    cli_input_free(input);
    free(input);
    return status;
}
