#include "cli/input.h"

#include "cli/find.h"
#include "cli/page.h"
#include "liveside/prepare.h"

#include "io/format.h"
#include "liveside/reader.h"
#include "liveside/text.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#define CACHE_NAME "/liveside"

enum { KEY_TEXT = 128 };

static ls_status set_number(const ls_parameter *parameter, const char *path, const char *text,
                            ls_unit_system units, double *value, ls_error *error)
{
    double number = 0, si = 0;
    const char *end = NULL;
    ls_error why = {0};
    const ls_unit *unit = ls_unit_preferred(units, parameter->dimension);
    if (ls_units_number(text, &number, &end, &why) == LS_OK && end[strspn(end, " ")] == '\0') {
        si = ls_unit_to_si(unit, number);
    } else if (ls_units_parse(text, parameter->dimension, &si, &why) != LS_OK) {
        return ls_fail(error, LS_USAGE, "--set %s: %s", path, why.text);
    }
    if (si < parameter->low || si > parameter->high) {
        char range[LS_RANGE_TEXT];
        return ls_fail(error, LS_USAGE, "--set %s=%s is outside %s", path, text,
                       ls_range_text(parameter->low, parameter->high, unit, range));
    }
    *value = si;
    return LS_OK;
}

static ls_status set_one(const char *text, ls_unit_system units, ls_aircraft *aircraft, ls_marks *marks,
                         ls_error *error)
{
    char path[KEY_TEXT];
    int element = 0;
    size_t length = strcspn(text, "=");
    if (text[length] != '=' || text[length + 1] == '\0' || length >= sizeof path) {
        return ls_fail(error, LS_USAGE, "--set takes PATH=VALUE, not '%s'", text);
    }
    snprintf(path, sizeof path, "%.*s", (int)length, text);
    text += length + 1;
    const ls_parameter *parameter = ls_parameter_find(aircraft, path, &element, error);
    if (parameter == NULL) {
        return error->status;
    }
    void *value = ls_parameter_value(aircraft, parameter, element);
    ls_status status = LS_OK;
    if (parameter->kind == LS_KEY_NUMBER) {
        status = set_number(parameter, path, text, units, value, error);
    } else if (parameter->kind == LS_KEY_CHOICE) {
        int choice = ls_choice_find(parameter->choices, text);
        if (choice < 0) {
            return ls_fail(error, LS_USAGE, "--set %s: no '%s'; it takes %s", path, text, parameter->choices);
        }
        *(int *)value = choice;
    } else {
        return ls_fail(error, LS_USAGE, "--set %s: only numbers and choices can be set", path);
    }
    if (status == LS_OK) {
        *ls_mark_of(marks, parameter, element) = (ls_mark){.source = LS_SOURCE_GIVEN};
    }
    return status;
}

/* The first rejecting finding of an aircraft that --set has spoilt. */
static ls_status judge(const ls_aircraft *aircraft, const ls_marks *marks, ls_error *error)
{
    ls_findings findings = {0};
    ls_aircraft_check(aircraft, marks, &findings);
    for (int i = 0; i < findings.stored; i++) {
        if (findings.item[i].severity == LS_REJECT) {
            return ls_fail(error, LS_USAGE, "with --set: %s: %s", findings.item[i].key, findings.item[i].text);
        }
    }
    return LS_OK;
}

ls_status cli_aircraft_set(const cli_options *options, ls_aircraft *aircraft, ls_marks *marks, ls_error *error)
{
    const cli_value *set = &options->value[CLI_SET];
    for (int i = 0; i < set->count; i++) {
        ls_status status = set_one(set->text[i], options->units, aircraft, marks, error);
        if (status != LS_OK) {
            return status;
        }
    }
    return set->count > 0 ? judge(aircraft, marks, error) : LS_OK;
}

ls_status cli_input_load(const cli_run *run, const char *name, cli_input *input, ls_error *error)
{
    *input = (cli_input){0};
    ls_status status = cli_input_find(name, run->self, input->path, error);
    if (status != LS_OK) {
        return status;
    }
    return ls_aircraft_read(input->path, &input->aircraft, &input->marks, &input->findings, input->sha256, error);
}

/* The user's cache folder for propeller tables, made if it is missing; null where there is none. Returned: folder.
 */
static const char *cache_folder(char folder[LS_PATH_TEXT])
{
    const char *base = getenv("XDG_CACHE_HOME"), *home = getenv("HOME");
    int length;
    if (base != NULL && base[0] == '/') {
        length = snprintf(folder, LS_PATH_TEXT, "%s", base);
    } else if (home != NULL && home[0] == '/') {
        length = snprintf(folder, LS_PATH_TEXT, "%s/.cache", home);
    } else {
        return NULL;
    }
    if (length >= LS_PATH_TEXT - (int)sizeof CACHE_NAME) {
        return NULL;
    }
    mkdir(folder, 0700); /* whether it was there shows below */
    strcat(folder, CACHE_NAME);
    return mkdir(folder, 0700) == 0 || errno == EEXIST ? folder : NULL;
}

ls_status cli_input_read(const cli_run *run, const char *name, cli_input *input, ls_error *error)
{
    if (run->page != NULL) {
        *input = *run->page->input;
        input->shares = &run->page->input->aircraft;
        return LS_OK;
    }
    ls_status status = cli_input_load(run, name, input, error);
    ls_findings_print(stderr, input->path, &input->findings, LS_WARNING);
    status = status == LS_OK ? cli_aircraft_set(run->options, &input->aircraft, &input->marks, error) : status;
    char folder[LS_PATH_TEXT];
    return status == LS_OK ? ls_aircraft_prepare_kept(&input->aircraft, cache_folder(folder), error) : status;
}

void cli_input_free(cli_input *input)
{
    ls_aircraft_release(&input->aircraft, input->shares);
}
