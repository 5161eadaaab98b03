#include "io/listing.h"

#include "liveside/reader.h"
#include "liveside/text.h"

static int comes_after(const ls_finding *a, const ls_finding *b)
{
    return a->line != b->line ? a->line > b->line : a->column > b->column;
}

void ls_findings_sort(ls_findings *findings)
{
    for (int i = 1; i < findings->stored; i++) {
        ls_finding moving = findings->item[i];
        int at = i;
        for (; at > 0 && comes_after(&findings->item[at - 1], &moving); at--) {
            findings->item[at] = findings->item[at - 1];
        }
        findings->item[at] = moving;
    }
}

static void print_one(FILE *out, const char *file, const ls_finding *finding)
{
    char text[LS_FINDING_TEXT], key[LS_FINDING_KEY], name[LS_PATH_TEXT];
    ls_text_for_terminal(file, name, sizeof name);
    ls_text_for_terminal(finding->key, key, sizeof key);
    ls_text_for_terminal(finding->text, text, sizeof text);
    fprintf(out, "%s:", name);
    if (finding->line > 0) {
        fprintf(out, "%d:%d:", finding->line, finding->column);
    }
    fprintf(out, " %s: %s%s%s\n", ls_severity_text(finding->severity), key, key[0] != '\0' ? ": " : "", text);
}

/* "3 more errors and 1 more warning" of those that were not shown. */
static void print_rest(FILE *out, const ls_findings *findings, const int shown[LS_SEVERITY_COUNT], int least)
{
    const char *before = "";
    for (int severity = LS_REJECT; severity >= least; severity--) {
        int more = findings->total[severity] - shown[severity];
        if (more > 0) {
            fprintf(out, "%s%d more %s%s", before, more, ls_severity_text((ls_severity)severity),
                    more > 1 ? "s" : "");
            before = " and ";
        }
    }
    if (before[0] != '\0') {
        fprintf(out, "\n");
    }
}

void ls_findings_print(FILE *out, const char *file, const ls_findings *findings, ls_severity least)
{
    int shown[LS_SEVERITY_COUNT] = {0};
    int count = 0;
    for (int severity = LS_REJECT; severity >= (int)least; severity--) {
        for (int i = 0; i < findings->stored && count < LS_FINDINGS_SHOWN; i++) {
            if ((int)findings->item[i].severity == severity) {
                print_one(out, file, &findings->item[i]);
                shown[severity]++;
                count++;
            }
        }
    }
    print_rest(out, findings, shown, (int)least);
}
