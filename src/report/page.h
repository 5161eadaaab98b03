/* The frame of the hand-out: one HTML page that needs nothing from outside. */
#ifndef LIVESIDE_REPORT_PAGE_H
#define LIVESIDE_REPORT_PAGE_H

#include "report/questions.h"
#include "report/report.h"

#include <stdio.h>

typedef struct {
    const char *id;      /* "control" */
    const char *heading; /* "How slow it can be held straight" */
} ls_page_part;

typedef struct {
    const char *aeroplane;
    const char *note; /* the file's own words about it; "" for none */
    const ls_run *run;
    int parts;
    const ls_page_part *const *part;
} ls_page;

/* Everything before the first part: title, caution, contents. */
void ls_page_begin(const ls_page *page, FILE *stream);

/* A part. Given: index, of the page's parts. */
void ls_page_part_begin(const ls_page *page, int index, FILE *stream);
void ls_page_part_end(FILE *stream);

/* A sentence in a part that does not apply. */
void ls_page_does_not_apply(const char *why, FILE *stream);

/* The questions; the same with their answers. */
void ls_page_questions(const ls_question *question, int count, int with_answers, FILE *stream);

/* Everything after the last part. */
void ls_page_end(const ls_page *page, FILE *stream);

#endif
