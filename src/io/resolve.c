#include "io/resolve.h"

#include "io/keys.h"

#include "airframe/path.h"
#include "liveside/reader.h"
#include "liveside/text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Adds a rejecting finding about a value that was read. */
static void refuse(ls_reading *reading, const char *path, int element, const char *text)
{
    const ls_parameter *row = ls_parameter_row(path);
    const ls_mark *mark = ls_mark_of_const(&reading->marks, row, element);
    char key[LS_FINDING_KEY];
    ls_findings_add(reading->findings, LS_REJECT, ls_parameter_path(row, element, key, sizeof key), mark->line,
                    mark->column, "%s", text);
}

static const char *text_of(const ls_reading *reading, const char *path, int element)
{
    return ls_parameter_value_const(&reading->aircraft, ls_parameter_row(path), element);
}

/* A name that is a number would be taken for the place in the list, so it may only be that. */
static int is_wrong_number(const char *name, int element)
{
    char own[16];
    snprintf(own, sizeof own, "%d", element + 1);
    return name[strspn(name, "0123456789")] == '\0' && strcmp(name, own) != 0;
}

static void check_name(ls_reading *reading, const char *path, int element)
{
    char message[LS_FINDING_TEXT], shown[LS_SHOWN_TEXT];
    const char *name = text_of(reading, path, element);
    if (name[0] == '\0') {
        return;
    }
    ls_reading_show(name, shown);
    for (int other = 0; other < element; other++) {
        if (strcmp(text_of(reading, path, other), name) == 0) {
            snprintf(message, sizeof message, "'%s' is the name of entry %d already", shown, other + 1);
            refuse(reading, path, element, message);
            return;
        }
    }
    if (is_wrong_number(name, element)) {
        snprintf(message, sizeof message, "'%s' would be taken for entry %s; use its own number, %d, or a word",
                 shown, shown, element + 1);
        refuse(reading, path, element, message);
    }
}

static void check_names(ls_reading *reading, const char *path, int length)
{
    for (int element = 0; element < length; element++) {
        check_name(reading, path, element);
    }
}

/* The names of a list of length entries, for the nearest one. */
static int gather_names(const ls_reading *reading, const char *path, int length, const char *names[LS_MAX_ENGINES])
{
    for (int i = 0; i < length; i++) {
        names[i] = text_of(reading, path, i);
    }
    return length;
}

/* Refuses a reference to a name that is not there. */
static void refuse_reference(ls_reading *reading, const char *path, int element, const char *names_path,
                             int length)
{
    const char *names[LS_MAX_ENGINES];
    char message[LS_FINDING_TEXT], shown[LS_SHOWN_TEXT], near[LS_SHOWN_TEXT];
    int count = gather_names(reading, names_path, length, names);
    const char *wanted = text_of(reading, path, element);
    int nearest = ls_text_nearest(wanted, names, count);
    int used = snprintf(message, sizeof message, "no entry of '%.*s' has the name '%s'",
                        (int)strcspn(names_path, "["), names_path, ls_reading_show(wanted, shown));
    if (nearest >= 0) {
        snprintf(message + used, sizeof message - (size_t)used, "; did you mean '%s'?",
                 ls_reading_show(names[nearest], near));
    }
    refuse(reading, path, element, message);
}

static void resolve_engine(ls_reading *reading, int element)
{
    ls_aircraft *aircraft = &reading->aircraft;
    ls_engine_mount *engine = &aircraft->engine[element];
    engine->rotation = engine->rotation != 0; /* anticlockwise and counterclockwise are one */
    if (engine->powerplant_name[0] == '\0') {
        return;
    }
    engine->powerplant = ls_powerplant_find(aircraft, engine->powerplant_name);
    if (engine->powerplant < 0) {
        refuse_reference(reading, "engines[].powerplant", element, "powerplants[].name", aircraft->powerplants);
        engine->powerplant = 0;
    }
}

/* A key of an engine's place that has no meaning with its powerplant, such as the rotation of a jet. */
static void settle_mount_key(ls_reading *reading, const ls_parameter *row, int element)
{
    ls_mark *mark = ls_mark_of(&reading->marks, row, element);
    if (ls_parameter_applies(&reading->aircraft, row, element)) {
        return;
    }
    if (mark->line > 0) {
        refuse(reading, row->path, element, "does not apply to an engine of this type; leave it out");
    }
    mark->source = LS_SOURCE_ABSENT;
}

static void settle_mount(ls_reading *reading, int element)
{
    int count;
    const ls_parameter *row = ls_parameters(&count);
    for (int i = 0; i < count; i++) {
        if (ls_parameter_list(&row[i]) == LS_LIST_ENGINES) {
            settle_mount_key(reading, &row[i], element);
        }
    }
}

static void resolve_takeoff(ls_reading *reading)
{
    ls_aircraft *aircraft = &reading->aircraft;
    if (aircraft->takeoff.flap_name[0] == '\0') {
        return;
    }
    aircraft->takeoff.flap = ls_flap_find(aircraft, aircraft->takeoff.flap_name);
    if (aircraft->takeoff.flap < 0) {
        refuse_reference(reading, "takeoff.flap", 0, "flaps[].name", aircraft->flaps);
        aircraft->takeoff.flap = 0;
    }
}

/* The kind of a speed that is not there is no default worth telling. */
static void settle_published(ls_reading *reading)
{
    ls_mark *kind = ls_mark_of(&reading->marks, ls_parameter_row("published.vmc_kind"), 0);
    if (!ls_given(reading->aircraft.published.vmc_m_s) && kind->line == 0) {
        kind->source = LS_SOURCE_ABSENT;
    }
}

static void refuse_no_table(ls_reading *reading, int holder)
{
    const ls_node *at = &reading->tree.node[holder];
    char key[LS_FINDING_KEY];
    ls_tree_path(&reading->tree, holder, key, sizeof key);
    ls_findings_add(reading->findings, LS_REJECT, key, at->key_line, at->key_column,
                    "a propeller of kind 'coefficients' needs one table, 'efficiency' or 'thrust'");
}

/* A coefficient propeller has its efficiency or its thrust, not both. A table that was refused counts as there. */
static void check_tables(ls_reading *reading, int element)
{
    const ls_parameter *efficiency = ls_parameter_row("powerplants[].propeller.efficiency");
    const ls_parameter *thrust = ls_parameter_row("powerplants[].propeller.thrust");
    int holder = LS_NO_NODE;
    const char *missing;
    if (ls_keys_applying(reading, efficiency, element) != LS_APPLIES) {
        return;
    }
    int has_efficiency = ls_keys_find(reading, efficiency, element, &holder, &missing) != LS_NO_NODE;
    int has_thrust = ls_keys_find(reading, thrust, element, &holder, &missing) != LS_NO_NODE;
    if (has_efficiency && has_thrust) {
        refuse(reading, thrust->path, element, "'efficiency' is given too; keep one of the two tables");
    }
    int block_is_there = holder != LS_NO_NODE && strcmp(missing, "thrust") == 0;
    if (!has_efficiency && !has_thrust && block_is_there) {
        refuse_no_table(reading, holder);
    }
}

void ls_resolve(ls_reading *reading)
{
    ls_aircraft *aircraft = &reading->aircraft;
    check_names(reading, "flaps[].name", aircraft->flaps);
    check_names(reading, "powerplants[].name", aircraft->powerplants);
    check_names(reading, "engines[].name", aircraft->engines);
    for (int i = 0; i < aircraft->powerplants; i++) {
        check_tables(reading, i);
    }
    for (int i = 0; i < aircraft->engines; i++) {
        resolve_engine(reading, i);
        settle_mount(reading, i);
    }
    resolve_takeoff(reading);
    settle_published(reading);
}
