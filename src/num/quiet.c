#include "num/quiet.h"

#include <gsl/gsl_errno.h>

void ls_num_quiet(void)
{
    gsl_set_error_handler_off();
}
