/* Questions about one aeroplane with worked answers, from recall to reasoning. */
#ifndef LIVESIDE_REPORT_QUESTIONS_H
#define LIVESIDE_REPORT_QUESTIONS_H

#include "liveside/lesson.h"
#include "report/report.h"

enum { LS_QUESTIONS = 12, LS_QUESTION_TEXT = 640, LS_ANSWER_TEXT = 1400 };

typedef struct {
    const char *level; /* "recall", "understand", "apply" or "reason" */
    char ask[LS_QUESTION_TEXT];
    char answer[LS_ANSWER_TEXT];
} ls_question;

typedef struct {
    const ls_aircraft *aircraft;
    const ls_lesson *lesson;
    ls_unit_system units;
    int uncertain; /* values that are estimated or assumed */
} ls_questions_view;

/* Puts the questions together that apply to the aeroplane, in order of difficulty. Returned: how many. */
int ls_questions_make(const ls_questions_view *view, ls_question question[LS_QUESTIONS]);

#endif
