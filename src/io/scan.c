#include "io/scan.h"

#include "liveside/text.h"

#include <stdio.h>
#include <string.h>

size_t ls_scan_mark(const char *data, size_t size)
{
    static const char mark[] = "\xEF\xBB\xBF";
    return size >= 3 && memcmp(data, mark, 3) == 0 ? 3 : 0;
}

/* How many bytes a UTF-8 character takes, by its first byte. */
static size_t sequence_length(unsigned char first)
{
    return first < 0x80 ? 1 : first < 0xE0 ? 2 : first < 0xF0 ? 3 : 4;
}

static unsigned code_point(const char *text, size_t length)
{
    static const unsigned char payload[] = {0, 0x7F, 0x1F, 0x0F, 0x07};
    unsigned point = (unsigned char)text[0] & payload[length];
    for (size_t i = 1; i < length; i++) {
        point = point << 6 | ((unsigned char)text[i] & 0x3F);
    }
    return point;
}

const char *ls_scan_name(const char *text, size_t size, char out[LS_CHARACTER_NAME])
{
    size_t length = sequence_length((unsigned char)text[0]);
    if (length > size || !ls_text_is_utf8(text, length)) {
        snprintf(out, LS_CHARACTER_NAME, "the byte 0x%02X (not UTF-8)", (unsigned char)text[0]);
    } else {
        snprintf(out, LS_CHARACTER_NAME, "the control character U+%04X", code_point(text, length));
    }
    return out;
}

int ls_scan_characters(const char *text, size_t size)
{
    int count = 0;
    for (size_t i = 0; i < size; i++) {
        count += ((unsigned char)text[i] & 0xC0) != 0x80;
    }
    return count;
}

static int is_allowed_control(char c)
{
    return c == '\t' || c == '\n' || c == '\r';
}

/* The first character that the file must not hold, or -1. */
static long find_bad(const char *data, size_t size)
{
    size_t at = 0;
    while (at < size) {
        size_t end = at;
        while (end < size && !is_allowed_control(data[end])) {
            end++;
        }
        long bad = ls_text_find_unsafe(data + at, end - at);
        if (bad >= 0) {
            return (long)at + bad;
        }
        at = end + 1;
    }
    return -1;
}

int ls_scan_text(const char *data, size_t size, ls_findings *findings)
{
    char name[LS_CHARACTER_NAME];
    long bad = find_bad(data, size);
    if (bad < 0) {
        return 1;
    }
    int line = 1;
    long start = 0;
    for (long i = 0; i < bad; i++) {
        int ends = data[i] == '\n' || (data[i] == '\r' && data[i + 1] != '\n');
        line += ends;
        start = ends ? i + 1 : start;
    }
    ls_findings_add(findings, LS_REJECT, NULL, line, ls_scan_characters(data + start, (size_t)(bad - start)) + 1,
                    "the file is not plain text in UTF-8: it holds %s",
                    ls_scan_name(data + bad, size - (size_t)bad, name));
    return 0;
}
