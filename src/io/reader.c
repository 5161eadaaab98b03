#include "liveside/reader.h"

#include "io/format.h"
#include "io/keys.h"
#include "io/listing.h"
#include "io/resolve.h"
#include "io/uncertain.h"

#include "airframe/path.h"

#include <stdlib.h>
#include <string.h>

/* Whether the key belongs to a block that may be left out as a whole. */
static int in_optional_block(const ls_reading *reading, const ls_parameter *parameter)
{
    const ls_parameter *row = reading->row;
    for (int i = 0; i < reading->rows; i++) {
        if (row[i].presence == LS_WITH_BLOCK && ls_keys_same_block(&row[i], parameter)) {
            return 1;
        }
    }
    return 0;
}

/* What a key that the file does not give comes from. */
static ls_source absent_source(const ls_reading *reading, const ls_parameter *parameter, ls_applying applying,
                               int block_is_there)
{
    if (applying == LS_APPLIES_NOT || (in_optional_block(reading, parameter) && !block_is_there)) {
        return LS_SOURCE_ABSENT;
    }
    return parameter->presence == LS_NEUTRAL         ? LS_SOURCE_DEFAULT
           : parameter->presence == LS_ASSUMED_VALUE ? LS_SOURCE_GUESS
                                                     : LS_SOURCE_ABSENT;
}

/* "engine.type turboprop" or "propeller.kind coefficients": why a key does not apply. */
static void refuse_inapplicable(ls_reading *reading, const ls_parameter *parameter, int element, int node)
{
    const ls_powerplant_data *powerplant = &reading->aircraft.powerplant[element];
    int by_engine = (parameter->applies & (LS_FOR_SHAFT | LS_FOR_JET)) != 0;
    const ls_parameter *type = ls_parameter_row("powerplants[].engine.type");
    const ls_parameter *kind = ls_parameter_row("powerplants[].propeller.kind");
    char word[LS_NUMBER_TEXT];
    if (by_engine || powerplant->engine.type == LS_ENGINE_JET) {
        ls_reading_reject(reading, node, "does not apply to an engine of type '%s'; leave it out",
                          ls_choice_word(type->choices, powerplant->engine.type, word));
    } else {
        ls_reading_reject(reading, node, "does not apply to a propeller of kind '%s'; leave it out",
                          ls_choice_word(kind->choices, powerplant->propeller.kind, word));
    }
}

static ls_status read_key(ls_reading *reading, const ls_parameter *parameter, int element)
{
    int holder;
    const char *missing = NULL;
    ls_applying applying = ls_keys_applying(reading, parameter, element);
    int node = ls_keys_find(reading, parameter, element, &holder, &missing);
    if (node != LS_NO_NODE && applying != LS_APPLIES_NOT) {
        return ls_value_read(reading, parameter, element, node);
    }
    if (node != LS_NO_NODE) {
        refuse_inapplicable(reading, parameter, element, node);
        return LS_OK;
    }
    int block_is_there = holder != LS_NO_NODE && strchr(missing, '.') == NULL;
    int needed = parameter->presence == LS_REQUIRED || (parameter->presence == LS_WITH_BLOCK && block_is_there);
    if (needed && applying == LS_APPLIES && holder != LS_NO_NODE) {
        ls_keys_missing(reading, parameter, element, holder, missing);
    }
    ls_reading_mark(reading, parameter, element)->source =
        absent_source(reading, parameter, applying, block_is_there);
    return LS_OK;
}

static ls_status read_keys(ls_reading *reading)
{
    const ls_parameter *row = reading->row;
    for (int i = 0; i < reading->rows; i++) {
        int length = ls_list_length(&reading->aircraft, ls_parameter_list(&row[i]));
        for (int element = 0; element < length; element++) {
            ls_status status = read_key(reading, &row[i], element);
            if (status != LS_OK) {
                return status;
            }
        }
    }
    return LS_OK;
}

/* The key `source` at the top speaks for every number and table that states no source of its own. */
static void read_source(ls_reading *reading)
{
    int node = ls_tree_child(&reading->tree, LS_ROOT_NODE, "source", strlen("source"));
    reading->source = LS_SOURCE_GIVEN;
    if (node != LS_NO_NODE) {
        reading->tree.node[node].known = 1;
        ls_source source = ls_value_source(reading, node);
        reading->source = source != LS_SOURCE_ABSENT ? source : LS_SOURCE_GIVEN;
    }
}

static ls_status read_tree(ls_reading *reading)
{
    reading->row = ls_parameters(&reading->rows);
    reading->record = &reading->aircraft;
    reading->mark = reading->marks.mark;
    ls_aircraft_defaults(&reading->aircraft);
    read_source(reading);
    ls_keys_lists(reading);
    ls_status status = read_keys(reading);
    if (status != LS_OK) {
        return status;
    }
    ls_resolve(reading);
    ls_uncertain_read(reading);
    ls_keys_unknown(reading);
    ls_aircraft_check(&reading->aircraft, &reading->marks, reading->findings);
    return LS_OK;
}

typedef ls_status tree_reader(ls_reading *reading);

/* Reads a text with a table's reader of the tree. Returned: LS_OK only when nothing was refused. */
static ls_status parse(ls_reading *reading, const char *data, size_t size, const char *name, tree_reader *read,
                       ls_error *error)
{
    ls_status status = ls_tree_read(data, size, &reading->tree, reading->findings, reading->error);
    if (status == LS_OK) {
        status = read(reading);
    }
    ls_tree_free(&reading->tree);
    ls_findings_sort(reading->findings);
    int rejects = ls_findings_rejects(reading->findings);
    if (status == LS_MEMORY) {
        return ls_fail(error, status, "out of memory while reading %s", name);
    }
    if (status != LS_OK || rejects > 0) {
        return ls_fail(error, LS_FILE_REJECTED, "%s is refused: %d error%s", name, rejects,
                       rejects == 1 ? "" : "s");
    }
    return LS_OK;
}

ls_status ls_aircraft_parse(const char *data, size_t size, const char *name, ls_aircraft *aircraft,
                            ls_marks *marks, ls_findings *findings, ls_error *error)
{
    ls_error own = {0};
    ls_reading *reading = calloc(1, sizeof *reading);
    if (reading == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory while reading %s", name);
    }
    reading->findings = findings;
    reading->error = &own;
    ls_status status = parse(reading, data, size, name, read_tree, error);
    if (status == LS_OK) {
        *aircraft = reading->aircraft;
        *marks = reading->marks;
    }
    free(reading);
    return status;
}

static ls_status load(const char *path, ls_buffer *buffer, char sha256[LS_SHA256_TEXT], ls_error *error)
{
    if (sha256 != NULL) {
        sha256[0] = '\0';
    }
    ls_status status = ls_file_read(path, LS_READ_BYTES, buffer, error);
    if (status == LS_OK && sha256 != NULL) {
        ls_file_sha256(buffer->data, buffer->size, sha256);
    }
    return status;
}

static const char *shown_name(const char *path)
{
    return strcmp(path, "-") == 0 ? "standard input" : path;
}

ls_status ls_aircraft_read(const char *path, ls_aircraft *aircraft, ls_marks *marks, ls_findings *findings,
                           char sha256[LS_SHA256_TEXT], ls_error *error)
{
    ls_buffer buffer = {0};
    ls_status status = load(path, &buffer, sha256, error);
    if (status == LS_OK) {
        status = ls_aircraft_parse(buffer.data, buffer.size, shown_name(path), aircraft, marks, findings, error);
        ls_file_free(&buffer);
    }
    return status;
}

/* The table is chosen by the file's own word, `level`. */
static ls_status read_geometry_tree(ls_reading *reading)
{
    ls_geometry_input *input = reading->record;
    int node = ls_tree_child(&reading->tree, LS_ROOT_NODE, "level", strlen("level"));
    const char *word = node != LS_NO_NODE ? reading->tree.node[node].text : NULL;
    input->level = word != NULL && strcmp(word, "handbook") == 0 ? LS_LEVEL_HANDBOOK : LS_LEVEL_GEOMETRY;
    reading->mark = input->mark;
    reading->row = ls_geometry_parameters(input->level, &reading->rows);
    reading->record = ls_geometry_record(input);
    ls_geometry_defaults(input);
    read_source(reading);
    ls_status status = read_keys(reading);
    if (status == LS_OK) {
        ls_keys_unknown(reading);
        ls_geometry_check(input, reading->findings);
    }
    return status;
}

ls_status ls_geometry_parse(const char *data, size_t size, const char *name, ls_geometry_input *input,
                            ls_findings *findings, ls_error *error)
{
    ls_error own = {0};
    ls_reading *reading = calloc(1, sizeof *reading);
    ls_geometry_input *read = calloc(1, sizeof *read);
    ls_status status = LS_OK;
    if (reading == NULL || read == NULL) {
        status = ls_fail(error, LS_MEMORY, "out of memory while reading %s", name);
    } else {
        reading->findings = findings;
        reading->error = &own;
        reading->record = read;
        status = parse(reading, data, size, name, read_geometry_tree, error);
        *input = status == LS_OK ? *read : *input;
    }
    free(read);
    free(reading);
    return status;
}

ls_status ls_geometry_read(const char *path, ls_geometry_input *input, ls_findings *findings,
                           char sha256[LS_SHA256_TEXT], ls_error *error)
{
    ls_buffer buffer = {0};
    ls_status status = load(path, &buffer, sha256, error);
    if (status == LS_OK) {
        status = ls_geometry_parse(buffer.data, buffer.size, shown_name(path), input, findings, error);
        ls_file_free(&buffer);
    }
    return status;
}
