#include "liveside/findings.h"

#include "liveside/text.h"

#include <stdio.h>
#include <string.h>

void ls_findings_add(ls_findings *findings, ls_severity severity, const char *key, int line, int column,
                     const char *format, ...)
{
    if (findings == NULL) {
        return;
    }
    findings->total[severity]++;
    if (findings->stored == LS_FINDINGS_MAX) {
        return;
    }
    ls_finding *finding = &findings->item[findings->stored++];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(finding->text, sizeof finding->text, format, arguments);
    va_end(arguments);
    ls_text_trim_utf8(finding->text);
    snprintf(finding->key, sizeof finding->key, "%s", key != NULL ? key : "");
    ls_text_trim_utf8(finding->key);
    finding->severity = severity;
    finding->line = line;
    finding->column = column;
}

int ls_findings_rejects(const ls_findings *findings)
{
    return findings->total[LS_REJECT];
}

int ls_findings_dropped(const ls_findings *findings)
{
    int came = 0;
    for (int i = 0; i < LS_SEVERITY_COUNT; i++) {
        came += findings->total[i];
    }
    return came - findings->stored;
}

const char *ls_severity_text(ls_severity severity)
{
    static const char *const text[LS_SEVERITY_COUNT] = {"note", "warning", "error"};
    return (unsigned)severity < LS_SEVERITY_COUNT ? text[severity] : "unknown severity";
}
