#include "cli/condition.h"

#include "cli/words.h"
#include "liveside/air.h"
#include "report/phrase.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)

enum { VALUE_TEXT = 64 };

static ls_status apply_air(const cli_options *options, ls_condition *condition, ls_error *error)
{
    const cli_value *value = options->value;
    if (value[CLI_OAT].count > 0 && value[CLI_ISA].count > 0) {
        return ls_fail(error, LS_USAGE, "--oat and --isa say the same thing: give one of them");
    }
    if (value[CLI_ALTITUDE].count > 0) {
        condition->altitude_m = value[CLI_ALTITUDE].si;
    }
    if (value[CLI_ISA].count > 0) {
        condition->isa_offset_K = value[CLI_ISA].si;
    }
    if (value[CLI_OAT].count > 0) {
        condition->isa_offset_K = value[CLI_OAT].si - ls_air_standard_temperature(condition->altitude_m);
    }
    return LS_OK;
}

/* Refuses a number outside what the file allows. Given: low_key and high_key, the keys that set its limits. */
static ls_status check_file_range(const cli_options *options, cli_option option, double low, double high,
                                  const char *low_key, const char *high_key, ls_error *error)
{
    const cli_option_row *row = &cli_option_rows[option];
    double si = options->value[option].si;
    double slack = 1e-9 * fmax(fabs(low), fabs(high));
    if (si >= low - slack && si <= high + slack) {
        return LS_OK;
    }
    char limit[VALUE_TEXT];
    cli_number_print(row, options->units, si < low ? low : high, limit, sizeof limit);
    return ls_fail(error, LS_USAGE, "--%s %s is %s the file's %s, %s; change that with --set if you mean it",
                   row->name, cli_text(options, option), si < low ? "below" : "above",
                   si < low ? low_key : high_key, limit);
}

static ls_status apply_weight(const cli_options *options, const ls_aircraft *aircraft, ls_vmca_request *request,
                              ls_error *error)
{
    const cli_value *weight = &options->value[CLI_WEIGHT];
    if (weight->count == 0 || weight->word == CLI_WEIGHT_WORST) {
        request->search |= LS_SEARCH_MASS;
        return LS_OK;
    }
    if (weight->word == CLI_WEIGHT_MAX) {
        return LS_OK;
    }
    if (weight->word == CLI_WEIGHT_MIN) {
        request->condition.mass_kg = aircraft->mass.minimum_kg;
        return LS_OK;
    }
    request->condition.mass_kg = weight->si;
    return check_file_range(options, CLI_WEIGHT, aircraft->mass.minimum_kg, aircraft->mass.maximum_kg,
                            "mass.minimum", "mass.maximum", error);
}

static ls_status apply_lateral(const cli_options *options, const ls_aircraft *aircraft, ls_vmca_request *request,
                               ls_error *error)
{
    const cli_value *lateral = &options->value[CLI_CG_LATERAL];
    if (lateral->count == 0) {
        request->search |= LS_SEARCH_LATERAL;
        return LS_OK;
    }
    request->condition.cg_right_m = lateral->word == CLI_SIDE_RIGHT ? lateral->si : -lateral->si;
    return check_file_range(options, CLI_CG_LATERAL, 0, aircraft->cg.lateral_m, "cg.lateral", "cg.lateral", error);
}

static ls_status apply_cg(const cli_options *options, const ls_aircraft *aircraft, ls_vmca_request *request,
                          ls_error *error)
{
    const cli_value *cg = &options->value[CLI_CG];
    double *cg_aft_m = &request->condition.cg_aft_m;
    if (cg->count == 0 || cg->word == CLI_CG_WORST) {
        request->search |= LS_SEARCH_CG;
        return LS_OK;
    }
    if (cg->word == CLI_CG_REFERENCE) {
        return LS_OK;
    }
    if (cg->word >= 0) {
        *cg_aft_m = cg->word == CLI_CG_FORWARD ? aircraft->cg.forward_m : aircraft->cg.aft_m;
        return LS_OK;
    }
    *cg_aft_m = cg->si;
    return check_file_range(options, CLI_CG, aircraft->cg.forward_m, aircraft->cg.aft_m, "cg.forward", "cg.aft",
                            error);
}

static ls_status no_such_flap(const ls_aircraft *aircraft, const char *text, ls_error *error)
{
    char list[LS_PHRASE] = "";
    size_t used = 0;
    for (int i = 0; i < aircraft->flaps && used < sizeof list; i++) {
        used +=
            (size_t)snprintf(list + used, sizeof list - used, "%s%s", i == 0 ? "" : ", ", aircraft->flap[i].name);
    }
    return ls_fail(error, LS_USAGE, "--flap: no '%s'; the file has %s", text, list);
}

static int has_propeller(const ls_aircraft *aircraft)
{
    for (int i = 0; i < aircraft->engines; i++) {
        if (aircraft->powerplant[aircraft->engine[i].powerplant].engine.type != LS_ENGINE_JET) {
            return 1;
        }
    }
    return 0;
}

static ls_status apply_configuration(const cli_options *options, const ls_aircraft *aircraft,
                                     ls_condition *condition, ls_error *error)
{
    const cli_value *value = options->value;
    const char *flap = cli_text(options, CLI_FLAP);
    if (flap != NULL) {
        condition->flap = ls_flap_find(aircraft, flap);
        if (condition->flap < 0) {
            return no_such_flap(aircraft, flap, error);
        }
    }
    condition->gear = value[CLI_GEAR].count > 0 && value[CLI_GEAR].word == 1;
    condition->cowl_flaps = value[CLI_COWL_FLAPS].count > 0 && value[CLI_COWL_FLAPS].word == 0;
    if (value[CLI_ROTATION].count > 0 && !has_propeller(aircraft)) {
        return ls_fail(error, LS_USAGE, "--rotation: no engine of this file has a propeller");
    }
    if (value[CLI_ROTATION].count > 0) {
        condition->rotation = (ls_rotation)value[CLI_ROTATION].word; /* same order */
    }
    if (value[CLI_POWER].count > 0) {
        condition->power = value[CLI_POWER].si;
    }
    if (value[CLI_PARTIAL_POWER].count > 0) {
        condition->partial = value[CLI_PARTIAL_POWER].si;
    }
    if (value[CLI_WITHOUT].count > 0) {
        condition->effects_off = (unsigned)value[CLI_WITHOUT].word; /* same bits */
    }
    return LS_OK;
}

static ls_status apply_limits(const cli_options *options, const ls_aircraft *aircraft, ls_condition *condition,
                              ls_error *error)
{
    const cli_value *pedal = &options->value[CLI_PEDAL_LIMIT];
    if (options->value[CLI_BANK_LIMIT].count > 0) {
        condition->bank_limit_rad = options->value[CLI_BANK_LIMIT].si;
    }
    if (pedal->count > 0 && pedal->word != CLI_PEDAL_NONE && !ls_aircraft_has_pedal(aircraft)) {
        return ls_fail(error, LS_USAGE, "--pedal-limit %s: the file has no pedal data (rudder.pedal)",
                       pedal->text[0]);
    }
    if (pedal->count > 0) {
        condition->pedal_limit_N = pedal->word == CLI_PEDAL_NONE ? INFINITY : pedal->si;
    } else if (!ls_aircraft_has_pedal(aircraft)) {
        condition->pedal_limit_N = INFINITY;
    }
    return LS_OK;
}

/* The engines on one side, a bit each. Given: side, +1 right, -1 left. */
static unsigned engines_on_side(const ls_aircraft *aircraft, int side)
{
    unsigned set = 0;
    for (int i = 0; i < aircraft->engines; i++) {
        set |= side * aircraft->engine[i].hub_right_m > 0 ? 1u << i : 0u;
    }
    return set;
}

/* The engines that one word means: a name, a number from 1, left, right; 0 when none. */
static unsigned find_engines(const ls_aircraft *aircraft, const char *word)
{
    char *end = NULL;
    int engine = ls_engine_find(aircraft, word);
    if (engine >= 0) {
        return 1u << engine;
    }
    long number = strtol(word, &end, 10);
    if (end != word && *end == '\0') {
        return number >= 1 && number <= aircraft->engines ? 1u << (number - 1) : 0u;
    }
    if (strcmp(word, "left") == 0 || strcmp(word, "right") == 0) {
        return engines_on_side(aircraft, strcmp(word, "right") == 0 ? +1 : -1);
    }
    return 0;
}

static ls_status no_such_engine(const ls_aircraft *aircraft, const char *word, ls_error *error)
{
    char list[LS_PHRASE];
    return ls_fail(error, LS_USAGE, "--failed: no engine '%s'; the file has %s", word,
                   ls_phrase_set(aircraft, (1u << aircraft->engines) - 1u, list));
}

static ls_status read_failed(const ls_aircraft *aircraft, const char *text, unsigned *set, ls_error *error)
{
    *set = 0;
    if (strcmp(text, "none") == 0) {
        return LS_OK;
    }
    for (;;) {
        char word[LS_NAME_SIZE];
        size_t length = strcspn(text, ",");
        snprintf(word, sizeof word, "%.*s", (int)(length < sizeof word ? length : sizeof word), text);
        unsigned engines = find_engines(aircraft, word);
        if (engines == 0) {
            return no_such_engine(aircraft, word, error);
        }
        *set |= engines;
        if (text[length] == '\0') {
            return LS_OK;
        }
        text += length + 1;
    }
}

static ls_status choose_failed(const cli_options *options, const ls_aircraft *aircraft, ls_vmca_request *request,
                               ls_error *error)
{
    const char *text = cli_text(options, CLI_FAILED);
    const cli_value *state = &options->value[CLI_PROPELLER];
    request->state = state->count > 0 ? LS_WINDMILLING + state->word : -1; /* same order, automatic past the end */
    request->state = request->state < LS_ENGINE_STATES ? request->state : -1;
    if (options->value[CLI_PARTIAL_POWER].count > 0 && request->state != LS_PARTIAL) {
        return ls_fail(error, LS_USAGE, "--partial-power goes with --propeller partial");
    }
    if (text != NULL) {
        request->sets = 1;
        return read_failed(aircraft, text, &request->set[0], error);
    }
    request->sets = ls_vmca_sets(aircraft, request->set);
    return LS_OK;
}

ls_status cli_request_make(const cli_options *options, const ls_aircraft *aircraft, ls_vmca_request *request,
                           ls_error *error)
{
    *request = (ls_vmca_request){0};
    ls_condition *condition = &request->condition;
    ls_condition_takeoff(aircraft, condition);
    const cli_value *bank = &options->value[CLI_BANK];
    request->bank_given = bank->count > 0;
    request->bank_rad = bank->count == 0 ? 0 : bank->word == CLI_TOWARD_LIVE ? bank->si : -bank->si;
    ls_status status = apply_air(options, condition, error);
    status = status == LS_OK ? apply_weight(options, aircraft, request, error) : status;
    status = status == LS_OK ? apply_cg(options, aircraft, request, error) : status;
    status = status == LS_OK ? apply_lateral(options, aircraft, request, error) : status;
    status = status == LS_OK ? apply_configuration(options, aircraft, condition, error) : status;
    status = status == LS_OK ? apply_limits(options, aircraft, condition, error) : status;
    return status == LS_OK ? choose_failed(options, aircraft, request, error) : status;
}

static ls_status no_live_side(ls_error *error)
{
    return ls_fail(error, LS_USAGE, "--bank: the thrust is symmetric, so no side is the live one; use --bank 0");
}

ls_status cli_request_check_bank(const ls_vmca_request *request, const ls_aircraft *aircraft, ls_error *error)
{
    for (int i = 0; i < request->sets && request->bank_given && request->bank_rad != 0; i++) {
        ls_condition condition = request->condition;
        ls_condition_fail(aircraft, request->set[i], &condition);
        if (ls_live_side(aircraft, &condition) == 0) {
            return no_live_side(error);
        }
    }
    return LS_OK;
}

ls_status cli_request_fail(const ls_vmca_request *request, const ls_aircraft *aircraft, unsigned failed,
                           double bank_rad, ls_condition *condition, ls_error *error)
{
    *condition = request->condition;
    if (request->state < 0) {
        ls_condition_fail(aircraft, failed, condition);
    } else {
        ls_condition_fail_as(aircraft, failed, (ls_engine_state)request->state, condition);
    }
    int live_side = ls_live_side(aircraft, condition);
    if (bank_rad != 0 && live_side == 0) {
        return no_live_side(error);
    }
    condition->bank_rad = bank_rad * live_side;
    return LS_OK;
}

double cli_ball_width(const cli_options *options)
{
    return cli_given(options, CLI_BALL) ? options->value[CLI_BALL].si : 5.0 * DEG;
}
