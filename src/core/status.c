#include "liveside/status.h"

#include <stdio.h>

static const struct {
    int exit_code;
    const char *text;
} status_table[LS_STATUS_COUNT] = {
#define STATUS_ROW(name, code, text) {code, text},
    LS_STATUS_LIST(STATUS_ROW)
#undef STATUS_ROW
};

static int is_known(ls_status status)
{
    return (unsigned)status < (unsigned)LS_STATUS_COUNT;
}

const char *ls_status_text(ls_status status)
{
    return is_known(status) ? status_table[status].text : "unknown status";
}

int ls_status_exit_code(ls_status status)
{
    return is_known(status) ? status_table[status].exit_code : 1;
}

ls_status ls_fail(ls_error *error, ls_status status, const char *format, ...)
{
    if (error != NULL && error->status == LS_OK) {
        va_list arguments;
        va_start(arguments, format);
        vsnprintf(error->text, sizeof error->text, format, arguments);
        va_end(arguments);
        error->status = status;
    }
    return status;
}
