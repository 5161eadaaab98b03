#include "report/figure.h"

#include "report/chart_words.h"
#include "report/html.h"

#include <ctype.h>
#include <string.h>

enum { BOX = 64 };

/* The length of a whole element without children that begins here, or 0. */
static size_t element_length(const char *at, const char *name)
{
    size_t length = strlen(name);
    char closing[16];
    if (strncmp(at + 1, name, length) != 0 || at[1 + length] != '>') {
        return 0;
    }
    snprintf(closing, sizeof closing, "</%s>", name);
    const char *end = strstr(at, closing);
    return end != NULL ? (size_t)(end - at) + strlen(closing) : 0;
}

/* The length of an attribute's beginning after which a name of the drawing's own stands, or 0. */
static size_t name_follows(const char *at, int after_space)
{
    static const char *const before[] = {"id='", "id=\"", "xlink:href='#", "xlink:href=\"#", "url(#"};
    for (size_t i = 0; i < sizeof before / sizeof before[0]; i++) {
        size_t length = strlen(before[i]);
        if ((after_space || before[i][0] == 'u') && strncmp(at, before[i], length) == 0) {
            return length;
        }
    }
    return 0;
}

/* All inside the root, titles left out, names made the figure's own. */
static void print_inside(const char *svg, int number, FILE *stream)
{
    int in_tag = 0, after_space = 0;
    while (*svg != '\0') {
        size_t skipped = *svg == '<' ? element_length(svg, "title") : 0;
        skipped = skipped == 0 && *svg == '<' ? element_length(svg, "desc") : skipped;
        size_t taken = in_tag ? name_follows(svg, after_space) : 0;
        if (in_tag && strncmp(svg, " = '", 4) == 0) { /* as some of its attributes are written */
            fputs("='", stream);
            svg += 4;
            continue;
        }
        if (skipped > 0) {
            svg += skipped;
            continue;
        }
        in_tag = *svg == '<' || (in_tag && *svg != '>');
        after_space = isspace((unsigned char)*svg);
        if (taken > 0) {
            fprintf(stream, "%.*sf%d-", (int)taken, svg, number);
            svg += taken;
        } else {
            fputc(*svg++, stream);
        }
    }
}

static ls_status print_svg(const ls_figure *figure, const char *words, FILE *stream, ls_error *error)
{
    char box[BOX];
    const char *root = strstr(figure->svg, "<svg"), *view = root != NULL ? strstr(root, "viewBox=\"") : NULL;
    const char *inside = view != NULL ? strchr(view, '>') : NULL;
    if (inside == NULL || strstr(inside, "</svg>") == NULL || strstr(root, "<script") != NULL) {
        return ls_fail(error, LS_IO, "%s.svg: not a drawing as gnuplot makes them", figure->chart->name);
    }
    view += strlen("viewBox=\"");
    snprintf(box, sizeof box, "%.*s", (int)strspn(view, "0123456789. "), view);
    fprintf(stream,
            "<svg viewBox=\"%s\" role=\"img\" aria-labelledby=\"f%d-title f%d-words\" "
            "xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\">\n<title "
            "id=\"f%d-title\">",
            box, figure->number, figure->number, figure->number);
    ls_html_text(stream, figure->chart->title);
    fprintf(stream, "</title>\n<desc id=\"f%d-words\">", figure->number);
    ls_html_text(stream, words);
    fputs("</desc>", stream);
    print_inside(inside + 1, figure->number, stream);
    return LS_OK;
}

ls_status ls_figure_write(const ls_figure *figure, FILE *stream, ls_error *error)
{
    char words[LS_CHART_WORDS];
    ls_status status = LS_OK;
    ls_chart_describe(figure->chart, words);
    fprintf(stream, "<figure id=\"figure-%d\"%s>\n", figure->number,
            figure->chart->kind == LS_CHART_DRAWING ? " class=\"drawing\"" : "");
    if (figure->svg != NULL) {
        status = print_svg(figure, words, stream, error);
    } else {
        fputs("<p>", stream);
        ls_html_text(stream, words);
        fputs("</p>\n", stream);
    }
    fprintf(stream, "<figcaption><span class=\"label\">Figure %d.</span> %c", figure->number,
            toupper((unsigned char)figure->shows[0]));
    ls_html_text(stream, figure->shows + 1);
    fputs(".</figcaption>\n</figure>\n", stream);
    return status;
}
