#include "report/page.h"

#include "report/html.h"
#include "report/page_data.h"

#define POLICY "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"

static void print_between(FILE *stream, const char *before, const char *text, const char *after)
{
    fputs(before, stream);
    ls_html_text(stream, text);
    fputs(after, stream);
}

/* The mark of the page: one wing whole, one broken. */
static void print_wing(FILE *stream)
{
    fputs("<div class=\"wing\" aria-hidden=\"true\"><span></span><span></span></div>\n", stream);
}

static void print_head(const ls_page *page, FILE *stream)
{
    fputs("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
          "<meta http-equiv=\"Content-Security-Policy\" content=\"" POLICY "\">\n"
          "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n",
          stream);
    print_between(stream, "<title>", page->aeroplane, ": flight on less than all engines</title>\n<style>\n");
    for (const char *const *line = ls_page_style; *line != NULL; line++) {
        fprintf(stream, "%s\n", *line);
    }
    fputs("</style>\n</head>\n<body>\n", stream);
}

static void print_contents(const ls_page *page, FILE *stream)
{
    fputs("<nav aria-label=\"Contents\">\n<ol>\n", stream);
    for (int i = 0; i < page->parts; i++) {
        fprintf(stream, "<li><a href=\"#%s\">", page->part[i]->id);
        print_between(stream, "", page->part[i]->heading, "</a></li>\n");
    }
    fputs("</ol>\n</nav>\n", stream);
}

void ls_page_begin(const ls_page *page, FILE *stream)
{
    print_head(page, stream);
    fputs("<div class=\"sheet\">\n<main class=\"leaf\">\n<header>\n", stream);
    print_between(stream, "<h1>", page->aeroplane, "</h1>\n");
    print_wing(stream);
    fputs("<p class=\"lead\">What happens when an engine stops, in the numbers of this aeroplane.</p>\n", stream);
    if (page->note[0] != '\0') {
        print_between(stream, "<p>", page->note, "</p>\n");
    }
    fputs("<p class=\"caution\"><strong>" LS_CAUTION "</strong></p>\n</header>\n", stream);
    print_contents(page, stream);
    for (int i = 0; i < page->run->inputs; i++) {
        print_between(stream, "<p class=\"made\">Made from ", page->run->input[i].name, "");
        fprintf(stream, ", SHA-256 %.12s, ", page->run->input[i].sha256);
        print_between(stream, "by liveside " LS_VERSION ": ", page->run->command_line, "</p>\n");
    }
}

void ls_page_part_begin(const ls_page *page, int index, FILE *stream)
{
    const ls_page_part *part = page->part[index];
    fprintf(stream, "<section id=\"%s\" aria-labelledby=\"%s-heading\">\n", part->id, part->id);
    fprintf(stream, "<h2 id=\"%s-heading\"><span class=\"no\">%d</span>", part->id, index + 1);
    print_between(stream, "", part->heading, "</h2>\n");
    print_wing(stream);
}

void ls_page_part_end(FILE *stream)
{
    fputs("</section>\n", stream);
}

void ls_page_does_not_apply(const char *why, FILE *stream)
{
    print_between(stream, "<p class=\"none\">This does not apply here: ", why, ".</p>\n");
}

void ls_page_questions(const ls_question *question, int count, int with_answers, FILE *stream)
{
    fprintf(stream, "<ol class=\"%s\">\n", with_answers ? "answers" : "questions");
    for (int i = 0; i < count; i++) {
        print_between(stream, "<li><span class=\"level\">", question[i].level, "</span> ");
        ls_html_text(stream, with_answers ? question[i].answer : question[i].ask);
        fputs(with_answers ? "</li>\n" : "<div class=\"room\"></div></li>\n", stream);
    }
    fputs("</ol>\n", stream);
}

void ls_page_end(const ls_page *page, FILE *stream)
{
    print_between(stream, "</main>\n<footer class=\"foot\"><p>", page->aeroplane,
                  ". " LS_CAUTION "</p></footer>\n");
    fputs("</div>\n</body>\n</html>\n", stream);
}
