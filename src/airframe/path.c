#include "airframe/path.h"

#include <stdio.h>
#include <string.h>

const ls_parameter *ls_parameter_row(const char *path)
{
    int count;
    const ls_parameter *row = ls_parameters(&count);
    for (int i = 0; i < count; i++) {
        if (strcmp(row[i].path, path) == 0) {
            return &row[i];
        }
    }
    return NULL;
}

const char *ls_parameter_tail(const ls_parameter *parameter)
{
    const char *bracket = strstr(parameter->path, "[].");
    return bracket != NULL ? bracket + strlen("[].") : parameter->path;
}

const char *ls_parameter_path(const ls_parameter *parameter, int element, char *out, size_t size)
{
    ls_list list = ls_parameter_list(parameter);
    if (list == LS_LIST_NONE) {
        snprintf(out, size, "%s", parameter->path);
    } else {
        snprintf(out, size, "%s[%d].%s", ls_list_name(list), element + 1, ls_parameter_tail(parameter));
    }
    return out;
}
