#include "cli/append.h"

#include "liveside/text.h"

#include <stdio.h>

void cli_append(cli_buffer *to, const char *format, ...)
{
    if (to->used + 1 >= to->size) {
        return;
    }
    va_list arguments;
    va_start(arguments, format);
    int length = vsnprintf(to->text + to->used, to->size - to->used, format, arguments);
    va_end(arguments);
    to->used += length > 0 ? (size_t)length : 0;
    if (to->used >= to->size) {
        to->used = to->size - 1;
        ls_text_trim_utf8(to->text);
    }
}
