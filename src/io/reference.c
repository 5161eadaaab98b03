/* docs/aircraft-file.md from the parameter table. */
#include "liveside/reader.h"

#include "io/describe.h"
#include "io/emit.h"
#include "io/reference_data.h"

#include <string.h>

/* Text within a cell of a Markdown table. */
static void put_cell(FILE *out, const char *text)
{
    for (const char *c = text; *c != '\0'; c++) {
        fputs(*c == '|' ? "\\" : "", out);
        fputc(*c, out);
    }
}

static void put_units(FILE *out, ls_dimension dimension)
{
    const ls_unit *unit;
    for (int i = 0; (unit = ls_unit_at(dimension, i)) != NULL; i++) {
        fprintf(out, "%s%s", i > 0 ? ", " : "", unit->name[0] != '\0' ? unit->name : "number");
    }
}

/* What stands for the value: units, the two columns of a table, "word", "name". */
static void put_kind(FILE *out, const ls_parameter *parameter)
{
    switch (parameter->kind) {
    case LS_KEY_NUMBER:
        put_units(out, parameter->dimension);
        break;
    case LS_KEY_TEXT:
        fputs("text", out);
        break;
    case LS_KEY_CHOICE:
        fputs("word", out);
        break;
    case LS_KEY_CURVE:
        fputs("table of rows [", out);
        put_units(out, parameter->argument);
        fputs("; ", out);
        put_units(out, parameter->dimension);
        fputs("]", out);
        break;
    }
}

static void put_row(FILE *out, const ls_parameter *parameter)
{
    char range[LS_DESCRIPTION], presence[LS_DESCRIPTION], applies[LS_DESCRIPTION];
    fprintf(out, "| `%s` | ", parameter->path);
    put_kind(out, parameter);
    fprintf(out, " | %s | %s | ", ls_describe_range(parameter, NULL, range),
            ls_describe_presence(parameter, NULL, presence));
    put_cell(out, parameter->meaning);
    if (ls_describe_applies(parameter, applies)[0] != '\0') {
        fprintf(out, " (for %s)", applies);
    }
    fputs(" |\n", out);
}

static int is_in_group(const ls_parameter *parameter, const char *top)
{
    size_t length = strcspn(parameter->path, ".[");
    int is_alone = parameter->path[length] == '\0';
    return top[0] == '\0' ? is_alone
                          : !is_alone && strlen(top) == length && strncmp(parameter->path, top, length) == 0;
}

static void put_group(FILE *out, const ls_reference_group *group)
{
    int count;
    const ls_parameter *row = ls_parameters(&count);
    fprintf(out, "\n### %s\n\n", group->title);
    if (group->text[0] != '\0') {
        fprintf(out, "%s\n\n", group->text);
    }
    fputs("| key | unit | allowed | when left out | meaning |\n|---|---|---|---|---|\n", out);
    for (int i = 0; i < count; i++) {
        if (is_in_group(&row[i], group->top)) {
            put_row(out, &row[i]);
        }
    }
}

/* Whether some key, or the first column of some table, has the dimension. */
static int is_used(ls_dimension dimension)
{
    int count;
    const ls_parameter *row = ls_parameters(&count);
    for (int i = 0; i < count; i++) {
        int is_quantity = row[i].kind == LS_KEY_NUMBER || row[i].kind == LS_KEY_CURVE;
        if (is_quantity &&
            (row[i].dimension == dimension || (row[i].kind == LS_KEY_CURVE && row[i].argument == dimension))) {
            return 1;
        }
    }
    return 0;
}

static void put_unit_table(FILE *out)
{
    fputs(ls_reference_units, out);
    for (int dimension = LS_DIM_FRACTION; dimension < LS_DIMENSION_COUNT; dimension++) {
        if (is_used((ls_dimension)dimension)) {
            fprintf(out, "| %s | ", ls_dimension_text((ls_dimension)dimension));
            put_units(out, (ls_dimension)dimension);
            fputs(" |\n", out);
        }
    }
}

void ls_aircraft_write_reference(FILE *out)
{
    fputs(ls_reference_opening, out);
    fputs(ls_reference_example, out);
    fputs(ls_reference_rules, out);
    for (int i = 0; i < ls_reference_group_count; i++) {
        put_group(out, &ls_reference_groups[i]);
    }
    put_unit_table(out);
    fputs(ls_reference_checks, out);
    fputs(ls_reference_caution, out);
}
