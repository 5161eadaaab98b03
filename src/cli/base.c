#include "cli/base.h"

#include "cli/condition.h"
#include "report/vmca_report.h"

#include <stdlib.h>

ls_status cli_base_find(const cli_options *options, const ls_aircraft *aircraft, cli_base *base, ls_error *error)
{
    ls_vmca *vmca = malloc(sizeof *vmca);
    if (vmca == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory");
    }
    ls_status status = cli_request_make(options, aircraft, &base->request, error);
    if (status == LS_OK && base->request.set[0] == 0) {
        status = ls_fail(error, LS_USAGE, "--failed none: a minimum control speed needs a failed engine");
    }
    status = status == LS_OK ? ls_vmca_solve(aircraft, &base->request, vmca, error) : status;
    if (status == LS_OK) {
        const ls_vmca_set *set = &vmca->set[ls_vmca_answer_set(vmca)];
        base->condition = set->condition;
        base->failed = set->failed;
        base->bank_rad = set->answer.bank_rad;
    }
    free(vmca);
    return status;
}
