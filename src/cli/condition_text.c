#include "cli/condition.h"

#include "cli/append.h"
#include "io/format.h"
#include "liveside/air.h"
#include "liveside/parameter.h"
#include "report/phrase.h"
#include "report/table.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { VALUE_TEXT = 64, PATH_TEXT = 128 };

/* The unit that a bare number of an option takes, which is what people read it in. */
static const ls_unit *unit_of(cli_option option, ls_unit_system units)
{
    return ls_unit_find(cli_option_rows[option].dimension, cli_option_rows[option].unit[units]);
}

static void append_value(cli_buffer *to, cli_option option, ls_unit_system units, double si, int decimals)
{
    char value[VALUE_TEXT];
    ls_units_format(si, unit_of(option, units), decimals, value, sizeof value);
    cli_append(to, "%s", value);
}

static void append_air(cli_buffer *to, const ls_condition *condition, const cli_options *options)
{
    if (condition->altitude_m == 0) {
        cli_append(to, "sea level");
    } else {
        append_value(to, CLI_ALTITUDE, options->units, condition->altitude_m, 0);
    }
    cli_append(to, ", ISA");
    if (fabs(condition->isa_offset_K) >= 0.05) {
        cli_append(to, "%s", condition->isa_offset_K > 0 ? " +" : " ");
        append_value(to, CLI_ISA, options->units, condition->isa_offset_K, 1);
    }
    if (cli_given(options, CLI_OAT)) {
        cli_append(to, " (OAT ");
        append_value(to, CLI_OAT, options->units, options->value[CLI_OAT].si, 1);
        cli_append(to, ")");
    }
}

static void append_configuration(cli_buffer *to, const ls_aircraft *aircraft, const ls_condition *condition)
{
    const char *rating = condition->is_continuous ? "maximum continuous" : "take-off";
    if (condition->power == 1.0) {
        cli_append(to, ", %s power", rating);
    } else {
        cli_append(to, ", %.4g %%%s power", 100 * condition->power,
                   condition->is_continuous ? " of maximum continuous" : "");
    }
    cli_append(to, ", flap %s, gear %s", aircraft->flap[condition->flap].name,
               condition->gear > 0 ? "down" : "up");
    cli_append(to, "%s", condition->cowl_flaps > 0 ? ", cowl flaps open" : "");
}

static const char *cg_label(const ls_aircraft *aircraft, double cg_aft_m)
{
    const double close_m = 1e-9;
    return fabs(cg_aft_m - aircraft->cg.aft_m) < close_m         ? " (aft)"
           : fabs(cg_aft_m - aircraft->cg.forward_m) < close_m   ? " (forward)"
           : fabs(cg_aft_m - aircraft->cg.reference_m) < close_m ? " (reference)"
                                                                 : "";
}

static void append_loading(cli_buffer *to, const ls_aircraft *aircraft, const ls_condition *condition,
                           ls_unit_system units, unsigned search)
{
    int decimals = ls_units_decimals(units, LS_DIM_LENGTH, "in", 1);
    int weight = (search & LS_SEARCH_MASS) != 0, cg = (search & LS_SEARCH_CG) != 0;
    if (weight || cg) {
        cli_append(to, ", worst %s%s%s", weight ? "weight" : "", weight && cg ? " and " : "", cg ? "CG" : "");
    }
    if (!(search & LS_SEARCH_MASS)) {
        cli_append(to, ", ");
        append_value(to, CLI_WEIGHT, units, condition->mass_kg, 0);
    }
    if (!(search & LS_SEARCH_CG)) {
        cli_append(to, ", CG ");
        append_value(to, CLI_CG, units, condition->cg_aft_m, decimals);
        cli_append(to, "%s", cg_label(aircraft, condition->cg_aft_m));
    }
    if (condition->cg_right_m != 0) {
        cli_append(to, ", ");
        append_value(to, CLI_CG_LATERAL, units, fabs(condition->cg_right_m), decimals);
        cli_append(to, " %s of the centreline", condition->cg_right_m > 0 ? "right" : "left");
    }
}

static void append_failed(cli_buffer *to, const ls_aircraft *aircraft, const ls_condition *condition)
{
    char names[LS_PHRASE];
    unsigned failed = ls_condition_failed(aircraft, condition);
    if (failed == 0) {
        return; /* the command fails each engine in turn, or none */
    }
    cli_append(to, ", %s failed", ls_phrase_set(aircraft, failed, names));
    unsigned said = 0;
    for (int i = 0; i < aircraft->engines; i++) {
        ls_engine_state state = condition->state[i];
        if (!(failed >> i & 1u) || (said >> state & 1u)) {
            continue;
        }
        said |= 1u << state;
        if (state == LS_PARTIAL) {
            cli_append(to, ", at %.4g %% power", 100 * condition->partial);
        } else {
            cli_append(to, ", %s", ls_engine_state_name(state));
        }
    }
}

static void append_effects(cli_buffer *to, const ls_condition *condition)
{
    static const char *const effect[] = {"P-factor",
                                         "torque",
                                         "propeller normal force",
                                         "drag of the dead propeller",
                                         "losses of the installation",
                                         "cooling drag of the dead engine",
                                         "slipstream on the wing",
                                         "slipstream swirl on the fin"};
    for (unsigned i = 0; i < sizeof effect / sizeof effect[0]; i++) {
        if (condition->effects_off >> i & 1u) {
            cli_append(to, ", without %s", effect[i]);
        }
    }
}

static void append_limits(cli_buffer *to, const cli_options *options)
{
    const cli_value *pedal = &options->value[CLI_PEDAL_LIMIT];
    if (cli_given(options, CLI_BANK_LIMIT)) {
        cli_append(to, ", bank limit ");
        append_value(to, CLI_BANK_LIMIT, options->units, options->value[CLI_BANK_LIMIT].si, 1);
    }
    if (pedal->count > 0 && pedal->word == CLI_PEDAL_NONE) {
        cli_append(to, ", no pedal-force limit");
    } else if (pedal->count > 0) {
        cli_append(to, ", pedal limit ");
        append_value(to, CLI_PEDAL_LIMIT, options->units, pedal->si, 0);
    }
}

/* Numbers changed by --set, with the unit that they were taken in. */
static void append_sets(cli_buffer *to, const ls_aircraft *aircraft, const cli_options *options)
{
    const cli_value *set = &options->value[CLI_SET];
    for (int i = 0; i < set->count; i++) {
        char path[PATH_TEXT];
        int element = 0;
        ls_error ignored = {0};
        snprintf(path, sizeof path, "%.*s", (int)strcspn(set->text[i], "="), set->text[i]);
        const ls_parameter *parameter = ls_parameter_find(aircraft, path, &element, &ignored);
        if (parameter != NULL && parameter->kind == LS_KEY_NUMBER) {
            char value[LS_NUMBER_TEXT];
            double si = *(const double *)ls_parameter_value_const(aircraft, parameter, element);
            cli_append(to, ", %s = %s", path,
                       ls_quantity_text(si, ls_unit_preferred(options->units, parameter->dimension), 6, value));
        } else {
            cli_append(to, ", %s", set->text[i]);
        }
    }
}

void cli_condition_text(const ls_aircraft *aircraft, const ls_condition *condition, const cli_options *options,
                        unsigned search, char *text, size_t size)
{
    cli_buffer to = {text, size, 0};
    append_air(&to, condition, options);
    append_configuration(&to, aircraft, condition);
    append_loading(&to, aircraft, condition, options->units, search);
    append_failed(&to, aircraft, condition);
    if (condition->rotation != LS_ROTATION_FILE) {
        cli_append(&to, ", propellers %s", ls_rotation_name(condition->rotation));
    }
    append_effects(&to, condition);
    append_limits(&to, options);
    append_sets(&to, aircraft, options);
}
