#include "edited.h"

#include "check.h"

#include <stdlib.h>
#include <string.h>

char *edited_text(const char *path)
{
    ls_buffer buffer = {0};
    ls_error error = {0};
    if (ls_file_read(path, LS_READ_BYTES, &buffer, &error) != LS_OK) {
        fail_msg("%s", error.text);
    }
    return buffer.data;
}

void edited_parse(const char *text, size_t size, edited_file *file)
{
    memset(file, 0, sizeof *file);
    file->status =
        ls_aircraft_parse(text, size, "file", &file->aircraft, &file->marks, &file->findings, &file->error);
}

void edited_read(const char *path, const char *old, const char *new, edited_file *file)
{
    char *text = edited_text(path);
    if (old == NULL) {
        edited_parse(text, strlen(text), file);
        free(text);
        return;
    }
    const char *at = strstr(text, old);
    if (at == NULL) {
        fail_msg("%s does not hold '%s'", path, old);
        abort();
    }
    size_t before = (size_t)(at - text);
    size_t size = strlen(text) - strlen(old) + strlen(new);
    char *changed = malloc(size + 1);
    assert_non_null(changed);
    snprintf(changed, size + 1, "%.*s%s%s", (int)before, text, new, at + strlen(old));
    edited_parse(changed, size, file);
    free(changed);
    free(text);
}

char *edited_print(edited_printer *printer, const void *context)
{
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    printer(out, context);
    assert_int_equal(fclose(out), 0);
    return text;
}

typedef struct {
    const char *name;
    const ls_findings *findings;
} named_findings;

static void print_findings(FILE *out, const void *context)
{
    const named_findings *named = context;
    ls_findings_print(out, named->name, named->findings, LS_NOTE);
}

char *edited_findings(const char *name, const ls_findings *findings)
{
    named_findings named = {.name = name, .findings = findings};
    return edited_print(print_findings, &named);
}
