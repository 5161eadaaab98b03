#include "report/chart_text.h"

#include <string.h>

/* The advance widths of the printable ASCII characters of DejaVu Sans, in hundredths of its size, rounded up. */
static const unsigned char ascii_width[95] = {
    32, 41, 46, 84, 64, 96, 78, 28, 40,  40, 50, 84, 32, 37, 32, 34, 64, 64, 64, 64, 64, 64, 64, 64,
    64, 64, 34, 34, 84, 84, 84, 54, 100, 69, 69, 70, 77, 64, 58, 78, 76, 30, 30, 66, 56, 87, 75, 79,
    61, 79, 70, 64, 62, 74, 69, 99, 69,  62, 69, 40, 34, 40, 84, 50, 50, 62, 64, 55, 64, 62, 36, 64,
    64, 28, 28, 58, 28, 98, 64, 62, 64,  64, 42, 53, 40, 64, 60, 82, 60, 60, 53, 64, 34, 64, 84,
};

/* The width of the character that begins with a byte; a continuation byte has none. */
static double width_of(unsigned char c)
{
    if (c >= 0x20 && c < 0x7F) {
        return 0.01 * ascii_width[c - 0x20];
    }
    int continues = c >= 0x80 && c < 0xC0;
    int combines = c == 0xCC || c == 0xCD; /* U+0300 to U+037F, nearly all of them combining marks */
    return continues || combines ? 0.0 : c >= 0xE3 ? 1.0 : c >= 0xD0 && c < 0xE0 ? 0.75 : 0.66;
}

void ls_chart_text_copy(char *out, size_t size, const char *text)
{
    size_t length = strlen(text);
    if (length >= size) {
        length = size - 1;
        while (length > 0 && ((unsigned char)text[length] & 0xC0) == 0x80) {
            length--;
        }
    }
    memcpy(out, text, length);
    out[length] = '\0';
}

double ls_chart_text_width(const char *text)
{
    double width_em = 0.0;
    for (const char *c = text; *c != '\0'; c++) {
        width_em += width_of((unsigned char)*c);
    }
    return width_em;
}

/* The bytes of the text that fit a width: up to a space or the end if there is one, else whole characters. */
static size_t fitting(const char *text, double width_em)
{
    double used_em = 0.0;
    size_t space = 0;
    size_t i = 0;
    while (text[i] != '\0') {
        if (text[i] == ' ' && text[i + 1] != '%') { /* a number keeps its sign */
            space = i;
        }
        used_em += width_of((unsigned char)text[i]);
        if (used_em > width_em) {
            break;
        }
        i++;
    }
    if (text[i] == '\0' || text[i] == ' ') {
        return i;
    }
    if (space > 0) {
        return space;
    }
    while (i > 1 && ((unsigned char)text[i] & 0xC0) == 0x80) {
        i--;
    }
    return i > 0 ? i : 1;
}

static void cut_with_ellipsis(char *line, double width_em)
{
    static const char ellipsis[] = "\xE2\x80\xA6";
    size_t length = strlen(line);
    while (length > 0 &&
           (ls_chart_text_width(line) > width_em - 1.0 || length > LS_CHART_TEXT - sizeof ellipsis)) {
        do {
            length--;
        } while (length > 0 && ((unsigned char)line[length] & 0xC0) == 0x80);
        line[length] = '\0';
    }
    memcpy(line + length, ellipsis, sizeof ellipsis);
}

int ls_chart_text_wrap(const char *text, double width_em, int most, char line[][LS_CHART_TEXT])
{
    int lines = 0;
    text += strspn(text, " ");
    while (*text != '\0' && lines < most) {
        size_t length = fitting(text, width_em);
        size_t next = length + strspn(text + length, " ");
        while (text[length - 1] == ' ') {
            length--;
        }
        int rest = text[next] != '\0' && lines + 1 == most;
        size_t room = rest || length >= LS_CHART_TEXT ? LS_CHART_TEXT : length + 1;
        ls_chart_text_copy(line[lines], room, text);
        if (rest) {
            cut_with_ellipsis(line[lines], width_em);
        }
        lines++;
        text += next;
    }
    return lines;
}

/* Decodes the character at `text`, which may be malformed. Returned: its bytes, at least 1. */
static int decode(const unsigned char *text, unsigned *code)
{
    int more = text[0] < 0xC2 ? 0 : text[0] < 0xE0 ? 1 : text[0] < 0xF0 ? 2 : text[0] < 0xF5 ? 3 : 0;
    unsigned value = more > 0 ? text[0] & (0x3Fu >> more) : text[0];
    for (int i = 1; i <= more; i++) {
        if ((text[i] & 0xC0) != 0x80) {
            *code = 0;
            return 1;
        }
        value = value << 6 | (text[i] & 0x3Fu);
    }
    *code = more == 0 && value >= 0x80 ? 0 : value;
    return more + 1;
}

static int is_common(unsigned code)
{
    static const unsigned range[][2] = {{0x20, 0x7E},     {0xA1, 0x17F},    {0x391, 0x3A1},   {0x3A3, 0x3C9},
                                        {0x400, 0x45F},   {0x2009, 0x2009}, {0x2010, 0x2026}, {0x2030, 0x203A},
                                        {0x20AC, 0x20AC}, {0x2122, 0x2122}, {0x2190, 0x2193}, {0x2202, 0x2202},
                                        {0x2206, 0x2206}, {0x2211, 0x2212}, {0x221A, 0x221A}, {0x221E, 0x221E},
                                        {0x2248, 0x2248}, {0x2260, 0x2260}, {0x2264, 0x2265}};
    for (size_t i = 0; i < sizeof range / sizeof range[0]; i++) {
        if (code >= range[i][0] && code <= range[i][1]) {
            return 1;
        }
    }
    return 0;
}

int ls_chart_text_common(const char *text, char out[LS_CHART_TEXT])
{
    int replaced = 0;
    size_t length = 0;
    while (*text != '\0') {
        unsigned code;
        int bytes = decode((const unsigned char *)text, &code);
        int common = is_common(code);
        if (length + (size_t)bytes >= LS_CHART_TEXT) {
            break;
        }
        memcpy(out + length, common ? text : "?", common ? (size_t)bytes : 1);
        length += common ? (size_t)bytes : 1;
        replaced |= !common;
        text += bytes;
    }
    out[length] = '\0';
    return replaced;
}
