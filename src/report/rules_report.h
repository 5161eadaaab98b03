/* The report of `rules`: verdicts in words, the table of conditions, the data. */
#ifndef LIVESIDE_REPORT_RULES_REPORT_H
#define LIVESIDE_REPORT_RULES_REPORT_H

#include "liveside/rules.h"
#include "report/report.h"

enum { LS_RULES_BASES_MAX = 16 };

/* What the report is made from; keep it until the report is written. */
typedef struct {
    const ls_aircraft *aircraft;
    int count;
    const ls_rules_result *result[LS_RULES_BASES_MAX];
    ls_unit_system units;
    int uncertain; /* values that are estimated or assumed: speeds in whole knots */
    int full;      /* also how the analysis was set, what does not apply, and every paragraph in words */
    char title[LS_RULES_BASES_MAX][160];
} ls_rules_view;

/* Adds everything to a report. */
void ls_rules_report(ls_report *report, ls_rules_view *view);

/* What a condition is about, "pedal force at VMCL". Returned: out. */
const char *ls_rules_subject(const ls_rule_basis *basis, const ls_rule_condition *condition, char *out,
                             size_t size);

#endif
