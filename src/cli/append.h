/* Text put together piece by piece in a buffer of fixed size. */
#ifndef LIVESIDE_CLI_APPEND_H
#define LIVESIDE_CLI_APPEND_H

#include "liveside/status.h"

#include <stddef.h>

typedef struct {
    char *text;
    size_t size;
    size_t used;
} cli_buffer;

/* Adds to the end; what does not fit is left off at a whole character. */
void cli_append(cli_buffer *to, const char *format, ...) LS_PRINTF(2, 3);

#endif
