#include "liveside/text.h"

#include <stdint.h>
#include <string.h>

/* One character of a text: its bytes and its code point, or one byte that is not UTF-8. */
typedef struct {
    uint32_t code;
    size_t length;
    int valid;
} character;

static int is_continuation(unsigned char byte)
{
    return (byte & 0xC0) == 0x80;
}

/* The number of bytes that a first byte announces, 0 for one that begins nothing. */
static size_t announced_length(unsigned char first)
{
    if (first < 0x80) {
        return 1;
    }
    if (first >= 0xC2 && first < 0xE0) {
        return 2;
    }
    if (first >= 0xE0 && first < 0xF0) {
        return 3;
    }
    return first >= 0xF0 && first < 0xF5 ? 4 : 0;
}

static int is_shortest_and_scalar(uint32_t code, size_t length)
{
    static const uint32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
    return code >= least[length] && code <= 0x10FFFF && !(code >= 0xD800 && code <= 0xDFFF);
}

static character read_character(const char *text, size_t available)
{
    const unsigned char *byte = (const unsigned char *)text;
    character none = {byte[0], 1, 0};
    size_t length = announced_length(byte[0]);
    if (length == 0 || length > available) {
        return none;
    }
    uint32_t code = length == 1 ? byte[0] : byte[0] & (0xFFu >> (length + 1));
    for (size_t i = 1; i < length; i++) {
        if (!is_continuation(byte[i])) {
            return none;
        }
        code = code << 6 | (byte[i] & 0x3Fu);
    }
    return is_shortest_and_scalar(code, length) ? (character){code, length, 1} : none;
}

/* Bidirectional marks, embeddings, overrides and isolates, and the line and paragraph separators. */
static int is_layout_control(uint32_t code)
{
    return code == 0x061C || code == 0x200E || code == 0x200F || (code >= 0x2028 && code <= 0x202E) ||
           (code >= 0x2066 && code <= 0x2069);
}

static int is_unsafe(character c)
{
    return !c.valid || c.code < 0x20 || (c.code >= 0x7F && c.code <= 0x9F) || is_layout_control(c.code);
}

/* Where a result goes; `reserve` bytes are kept free for what closes it. */
typedef struct {
    char *out;
    size_t size;
    size_t reserve;
    size_t stored;
    size_t length; /* of the whole result, stored or not */
} sink;

static void put(sink *to, const char *bytes, size_t count)
{
    int is_cut = to->stored < to->length;
    if (!is_cut && to->stored + count + to->reserve < to->size) {
        memcpy(to->out + to->stored, bytes, count);
        to->stored += count;
    }
    to->length += count;
}

static size_t close_with(sink *to, const char *closing)
{
    size_t count = strlen(closing);
    if (to->stored + count < to->size) {
        memcpy(to->out + to->stored, closing, count);
        to->stored += count;
    }
    if (to->size > 0) {
        to->out[to->stored] = '\0';
    }
    return to->length + count;
}

/* The text that stands for a character, or null for the character itself. */
typedef const char *replacer(uint32_t code);

static void put_text(sink *to, const char *text, const char *allowed_controls, replacer *replace)
{
    size_t left = strlen(text);
    while (left > 0) {
        character c = read_character(text, left);
        int is_allowed = c.valid && c.code < 0x20 && strchr(allowed_controls, (int)c.code) != NULL;
        const char *instead = !is_allowed && is_unsafe(c) ? "?" : replace(c.code);
        put(to, instead != NULL ? instead : text, instead != NULL ? strlen(instead) : c.length);
        text += c.length;
        left -= c.length;
    }
}

static const char *keep(uint32_t code)
{
    (void)code;
    return NULL;
}

static const char *double_single_quote(uint32_t code)
{
    return code == '\'' ? "''" : NULL;
}

static const char *double_double_quote(uint32_t code)
{
    return code == '"' ? "\"\"" : NULL;
}

static const char *html_reference(uint32_t code)
{
    switch (code) {
    case '&':
        return "&amp;";
    case '<':
        return "&lt;";
    case '>':
        return "&gt;";
    case '"':
        return "&quot;";
    case '\'':
        return "&#39;";
    default:
        return NULL;
    }
}

size_t ls_text_for_terminal(const char *text, char *out, size_t size)
{
    sink to = {.out = out, .size = size};
    put_text(&to, text, "", keep);
    return close_with(&to, "");
}

size_t ls_text_for_gnuplot(const char *text, char *out, size_t size)
{
    sink to = {.out = out, .size = size, .reserve = 1};
    put(&to, "'", 1);
    put_text(&to, text, "", double_single_quote);
    return close_with(&to, "'");
}

size_t ls_text_for_html(const char *text, char *out, size_t size)
{
    sink to = {.out = out, .size = size};
    put_text(&to, text, "\t\n", html_reference);
    return close_with(&to, "");
}

/* Spreadsheets take a cell that begins so for a formula, though it is quoted. */
static int looks_like_formula(const char *text)
{
    return text[0] != '\0' && strchr("=+-@\t", text[0]) != NULL;
}

size_t ls_text_for_csv(const char *text, char *out, size_t size)
{
    sink to = {.out = out, .size = size, .reserve = 1};
    put(&to, "\"", 1);
    if (looks_like_formula(text)) {
        put(&to, "'", 1);
    }
    put_text(&to, text, "\t\n", double_double_quote);
    return close_with(&to, "\"");
}

int ls_text_is_utf8(const char *text, size_t size)
{
    for (size_t at = 0; at < size;) {
        character c = read_character(text + at, size - at);
        if (!c.valid) {
            return 0;
        }
        at += c.length;
    }
    return 1;
}

long ls_text_find_unsafe(const char *text, size_t size)
{
    for (size_t at = 0; at < size;) {
        character c = read_character(text + at, size - at);
        if (is_unsafe(c)) {
            return (long)at;
        }
        at += c.length;
    }
    return -1;
}

void ls_text_trim_utf8(char *text)
{
    size_t size = strlen(text);
    size_t start = size;
    while (start > 0 && size - start < 3 && is_continuation((unsigned char)text[start - 1])) {
        start--;
    }
    if (start > 0 && announced_length((unsigned char)text[start - 1]) > size - start + 1) {
        text[start - 1] = '\0';
    }
}

typedef struct {
    uint32_t first, last;
} range;

static int is_in(const range *ranges, size_t count, uint32_t code)
{
    for (size_t i = 0; i < count; i++) {
        if (code >= ranges[i].first && code <= ranges[i].last) {
            return 1;
        }
    }
    return 0;
}

static int columns(character c)
{
    static const range zero[] = {{0x0300, 0x036F}, {0x1AB0, 0x1AFF}, {0x1DC0, 0x1DFF}, {0x200B, 0x200D},
                                 {0x20D0, 0x20FF}, {0xFE00, 0xFE0F}, {0xFE20, 0xFE2F}, {0xFEFF, 0xFEFF}};
    static const range wide[] = {{0x1100, 0x115F},   {0x2E80, 0x303E},   {0x3041, 0xA4CF},  {0xAC00, 0xD7A3},
                                 {0xF900, 0xFAFF},   {0xFE30, 0xFE6F},   {0xFF00, 0xFF60},  {0xFFE0, 0xFFE6},
                                 {0x1F300, 0x1F64F}, {0x1F900, 0x1F9FF}, {0x20000, 0x3FFFD}};
    if (!c.valid) {
        return 1;
    }
    if (is_in(zero, sizeof zero / sizeof zero[0], c.code)) {
        return 0;
    }
    return is_in(wide, sizeof wide / sizeof wide[0], c.code) ? 2 : 1;
}

int ls_text_width(const char *text)
{
    int width = 0;
    size_t left = strlen(text);
    while (left > 0) {
        character c = read_character(text, left);
        width += columns(c);
        text += c.length;
        left -= c.length;
    }
    return width;
}
