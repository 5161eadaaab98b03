#include "liveside/reduce.h"

#include "study/reduce_parts.h"

#include "liveside/airspeed.h"
#include "liveside/parameter.h"
#include "num/parallel.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)
#define KT  (1852.0 / 3600.0)

enum { CHUNK = 256 };

static const double steady_rate_rad_s = 1.0 * DEG; /* a heading that changes faster is not straight flight */

const char *ls_use_text(ls_use use)
{
    static const char *const text[LS_USES] = {"limit", "steady", "dynamic", "rejected"};
    return (unsigned)use < LS_USES ? text[use] : "unknown";
}

void ls_accuracies_usual(ls_accuracies *accuracies)
{
    *accuracies = (ls_accuracies){.speed_m_s = 1.0 * KT,
                                  .bank_rad = 0.5 * DEG,
                                  .rudder_rad = 0.5 * DEG,
                                  .mass_share = 0.01,
                                  .T_K = 1.0,
                                  .altitude_m = 15.0,
                                  .power_share = 0.02};
}

/* ---- groups ---- */

static int same_group(const ls_reduced_group *group, const ls_condition *condition, unsigned failed, int state)
{
    return group->failed == failed && group->state == state && group->flap == condition->flap &&
           group->gear == condition->gear;
}

static int first_state(const ls_condition *condition, unsigned failed)
{
    int i = 0;
    while (!(failed >> i & 1u)) {
        i++;
    }
    return condition->state[i];
}

/* The group of a condition, a new one if there is room; -1 when there is none. */
static int find_group(const ls_reduce_request *request, ls_reduction *out, const ls_condition *condition)
{
    unsigned failed = ls_condition_failed(request->aircraft, condition);
    int state = first_state(condition, failed);
    for (int i = 0; i < out->groups; i++) {
        if (same_group(&out->group[i], condition, failed, state)) {
            return i;
        }
    }
    if (out->groups == LS_REDUCE_GROUPS) {
        return -1;
    }
    ls_reduced_group *group = &out->group[out->groups];
    *group =
        (ls_reduced_group){.failed = failed, .state = state, .flap = condition->flap, .gear = condition->gear};
    group->file_cas_m_s = group->dynamic_cas_m_s = group->dynamic_lost_cas_m_s = group->increment_m_s = NAN;
    group->standard = *condition;
    group->standard.altitude_m = group->standard.isa_offset_K = 0.0;
    group->standard.mass_kg = request->mass_kg;
    group->standard.cg_aft_m = request->aircraft->cg.reference_m;
    group->standard.cg_right_m = 0.0;
    group->standard.bank_rad = request->bank_rad * ls_live_side(request->aircraft, condition);
    if (!ls_aircraft_has_pedal(request->aircraft)) {
        group->standard.pedal_limit_N = INFINITY;
    }
    return out->groups++;
}

static ls_status prepare_standard(ls_reducing *r, int index, ls_error *error)
{
    ls_reduced_group *group = &r->out->group[index];
    ls_standard *standard = &r->standard[index];
    ls_vmc vmc;
    ls_status status = ls_model_make(r->request->aircraft, &group->standard, &standard->model, error);
    if (status != LS_OK) {
        return status;
    }
    const ls_derivatives *d = &standard->model.derivatives;
    standard->live_side = ls_live_side(r->request->aircraft, &group->standard);
    standard->slope = d->yaw_sideslip / fabs(d->side_sideslip);
    for (int i = 0; i < LS_STANDARD_SPEEDS; i++) {
        double V = (0.6 + 2.4 * i / (LS_STANDARD_SPEEDS - 1)) * standard->model.stall_V_m_s;
        ls_powerplant_point loads;
        ls_trim trim;
        status = ls_powerplant_at(&standard->model, V, &loads, error);
        if (status != LS_OK) {
            return status;
        }
        if (ls_trim_at(&standard->model, &loads, group->standard.bank_rad, NULL, &trim) != LS_OK) {
            memset(&trim, 0, sizeof trim);
        }
        standard->V_m_s[i] = V;
        standard->coefficient[i] = ls_reduce_coefficient(&standard->model, &loads, &trim, standard->live_side);
        if (i == LS_STANDARD_SPEEDS / 3) {
            for (int unit = 0; unit < standard->model.units; unit++) {
                standard->power_W +=
                    standard->model.unit[unit].state == LS_RUNNING ? loads.unit[unit].shaft_power_W : 0.0;
            }
        }
    }
    if (ls_vmc_at(&standard->model, group->standard.bank_rad, &vmc, NULL) == LS_OK) {
        group->file_cas_m_s = vmc.control_cas_m_s;
    }
    return LS_OK;
}

/* ---- points one by one ---- */

static int limit_of(const char *ended)
{
    return strcmp(ended, "rudder") == 0    ? LS_LIMIT_RUDDER
           : strcmp(ended, "force") == 0   ? LS_LIMIT_PEDAL
           : strcmp(ended, "aileron") == 0 ? LS_LIMIT_AILERON
           : strcmp(ended, "stall") == 0   ? LS_LIMIT_WING_STALL
                                           : -1;
}

/* What a point is good for by its own words. */
static void judge(const ls_point *point, ls_reduced *row)
{
    int is_dynamic = strcmp(point->test, "dynamic") == 0;
    int has_rudder = !isnan(point->rudder_rad);
    row->limit = limit_of(point->ended);
    row->use = is_dynamic                             ? LS_USE_DYNAMIC
               : row->limit == LS_LIMIT_RUDDER        ? LS_USE_LIMIT
               : has_rudder && point->ended[0] == 's' ? LS_USE_STEADY
               : has_rudder && row->limit >= 0        ? LS_USE_STEADY
                                                      : LS_USE_REJECTED;
    row->reason = "";
    if (isnan(point->cas_m_s) || point->ended[0] == '\0') {
        row->use = LS_USE_REJECTED;
        row->reason = isnan(point->cas_m_s) ? "not flown" : "nothing says what ended it";
    } else if (row->limit == LS_LIMIT_WING_STALL) {
        row->use = LS_USE_REJECTED;
        row->reason =
            "the wing stalled with control left: no minimum control speed, and the derivatives do not hold";
    } else if (strcmp(point->ended, "abort") == 0) {
        row->use = LS_USE_REJECTED;
        row->reason = "broken off";
    } else if (is_dynamic) {
        const char *reason = ls_reduce_judge_dynamic(point, row);
        row->use = reason != NULL ? LS_USE_REJECTED : LS_USE_DYNAMIC;
        row->reason = reason != NULL ? reason : row->reason;
    } else if (strcmp(point->ended, "regained") == 0 || strcmp(point->ended, "lost") == 0) {
        row->use = LS_USE_REJECTED;
        row->reason = "a static point does not end regained or lost";
    } else if (row->use == LS_USE_REJECTED) {
        row->reason = "no rudder angle, and not ended by the rudder";
    } else if (fabs(point->heading_rate_rad_s) > steady_rate_rad_s) {
        row->use = LS_USE_REJECTED;
        row->reason = "the heading changes by more than 1 deg/s: not straight flight";
    } else if (row->use == LS_USE_STEADY && row->limit >= 0) {
        row->reason = row->limit == LS_LIMIT_PEDAL
                          ? "ended by pedal force: counts for extrapolation and derivatives"
                          : "ended by lateral control: counts for extrapolation and derivatives";
    }
}

static void refuse(ls_reduced *row, const char *reason)
{
    row->use = LS_USE_REJECTED;
    row->reason = reason;
}

/* Live engines' shaft power. */
static double live_power(const ls_flown *flown)
{
    double power_W = 0.0;
    for (int i = 0; i < flown->model.units; i++) {
        power_W += flown->model.unit[i].state == LS_RUNNING ? flown->loads.unit[i].shaft_power_W : 0.0;
    }
    return power_W;
}

static double standard_eas_to_cas(const ls_standard *standard, double eas_m_s)
{
    ls_airspeed speed;
    return ls_airspeed_from_eas(&standard->model.air, eas_m_s, &speed, NULL) == LS_OK ? speed.CAS_m_s : NAN;
}

/* Reductions (a) and (b) of a point that has been flown. */
static void reduce_row(const ls_standard *standard, const ls_flown *flown, const ls_trim *trim, ls_reduced *row)
{
    double V = flown->speed.TAS_m_s;
    row->coefficient = ls_reduce_coefficient(&flown->model, &flown->loads, trim, flown->live_side);
    row->corrected = row->coefficient - ls_reduce_bank_part(&flown->model, V, flown->bank_rad, standard->slope);
    row->by_power_m_s =
        standard_eas_to_cas(standard, ls_reduce_power_law(flown->speed.EAS_m_s, flown->model.air.sigma,
                                                          live_power(flown), 1.0, standard->power_W));
    if (row->use != LS_USE_LIMIT) {
        row->by_power_m_s = row->use == LS_USE_DYNAMIC ? row->by_power_m_s : NAN;
        return;
    }
    double travel = ls_reduce_travel(&flown->model, flown->live_side);
    row->rudder_rad = travel;
    row->by_coefficient_m_s = ls_standard_cas(standard, ls_standard_speed(standard, row->corrected));
    ls_standard plain = *standard; /* the same without the two corrections, then with bank's alone */
    plain.model.condition.bank_rad = 0.0;
    double uncorrected_m_s = ls_standard_cas(standard, ls_standard_speed(&plain, row->coefficient));
    double share = standard->model.weight_N / flown->model.weight_N;
    double banked = row->coefficient + share * (row->corrected - row->coefficient);
    double banked_m_s = ls_standard_cas(standard, ls_standard_speed(standard, banked));
    row->bank_m_s = banked_m_s - uncorrected_m_s;
    row->weight_m_s = row->by_coefficient_m_s - banked_m_s;
    if (isnan(row->by_coefficient_m_s)) {
        row->reason = "the standard condition has no such yawing moment between 0.6 and 3 times the stall speed";
    }
}

/* Reduction (c): how far the scaled model's rudder is from the measured one, as a speed. */
static void find_residual(const ls_reducing *r, ls_flown *flown, const ls_trim *start, ls_reduced *row)
{
    ls_trim trim;
    const ls_standard *standard = &r->standard[row->group];
    double V = flown->speed.TAS_m_s, answer_m_s = r->out->group[row->group].model.value;
    if (isnan(answer_m_s)) {
        return;
    }
    ls_reduce_scale(&flown->model, r->scale);
    double rudder = ls_reduce_rudder(&flown->model, flown, start, &trim);
    double slope = row->rudder_rad / V * ls_standard_exponent(standard, V, flown->bank_rad);
    row->residual_m_s = (row->rudder_rad - rudder) / -slope;
    row->by_model_m_s = answer_m_s * (1.0 + row->residual_m_s / V);
}

static void fly_row(ls_reducing *r, int index)
{
    ls_reduced *row = &r->out->row[index];
    const ls_point *point = &r->request->points->point[index];
    ls_condition condition;
    ls_flown flown;
    ls_trim trim;
    if (row->use == LS_USE_REJECTED || ls_reduce_condition(r->request->aircraft, point, &condition) != NULL) {
        return;
    }
    const char *reason = ls_reduce_fly(r->request->aircraft, point, &condition, &flown);
    if (reason != NULL) {
        refuse(row, reason);
        return;
    }
    row->eas_m_s = flown.speed.EAS_m_s;
    row->V_m_s = flown.speed.TAS_m_s;
    row->q_Pa = flown.speed.q_Pa;
    row->power = flown.model.condition.power;
    row->model_rudder_rad = ls_reduce_rudder(&flown.model, &flown, NULL, &trim);
    if (isnan(row->model_rudder_rad)) {
        refuse(row, "the aeroplane file has no trim at this point");
        return;
    }
    row->rudder_rad = flown.rudder_rad;
    row->model_beta_rad = trim.beta_rad;
    row->model_aileron_rad = trim.aileron_rad;
    row->model_force_N = trim.pedal_force_N;
    if (trim.lift_coefficient > flown.model.lift_max) {
        refuse(row, "slower than the stall of the aeroplane file");
        return;
    }
    reduce_row(&r->standard[row->group], &flown, &trim, row);
    if (row->use == LS_USE_DYNAMIC) {
        ls_reduce_increment(r, &flown, row);
    } else {
        find_residual(r, &flown, &trim, row);
    }
}

static void fly_chunk(int chunk, void *context)
{
    ls_reducing *r = context;
    for (int i = chunk * CHUNK; i < (chunk + 1) * CHUNK && i < r->out->rows; i++) {
        fly_row(r, i);
    }
}

static void sort_rows(ls_reducing *r)
{
    ls_reduction *out = r->out;
    int dynamic = 0;
    for (int i = 0; i < out->rows; i++) {
        const ls_point *point = &r->request->points->point[i];
        ls_reduced *row = &out->row[i];
        ls_condition condition;
        *row = (ls_reduced){.group = -1, .cas_m_s = point->cas_m_s};
        row->eas_m_s = row->V_m_s = row->q_Pa = row->power = row->coefficient = row->corrected = NAN;
        row->rudder_rad = row->model_rudder_rad = row->model_beta_rad = row->model_aileron_rad = NAN;
        row->model_force_N = row->by_coefficient_m_s = row->by_power_m_s = row->by_model_m_s = NAN;
        row->bank_m_s = row->weight_m_s = row->residual_m_s = row->increment_m_s = NAN;
        judge(point, row);
        const char *reason = ls_reduce_condition(r->request->aircraft, point, &condition);
        if (reason != NULL && row->use != LS_USE_REJECTED) {
            refuse(row, reason);
        } else if (row->use != LS_USE_REJECTED) {
            row->group = find_group(r->request, out, &condition);
            if (row->group < 0) {
                refuse(row, "more than 8 kinds of points: reduce the others apart");
            } else if (row->use == LS_USE_DYNAMIC && ++dynamic > LS_REDUCE_DYNAMIC_POINTS) {
                refuse(row, "more than 1000 dynamic points: reduce the others apart");
            }
        }
    }
}

/* ---- together ---- */

static void count_rows(ls_reduction *out)
{
    for (int i = 0; i < out->rows; i++) {
        const ls_reduced *row = &out->row[i];
        out->uses[row->use]++;
        if (row->use != LS_USE_REJECTED) {
            ls_reduced_group *group = &out->group[row->group];
            group->points++;
            group->limit_points += row->use == LS_USE_LIMIT;
            group->dynamic_points += row->use == LS_USE_DYNAMIC;
        }
    }
}

/* Mean and confidence interval of (a) and (b) of each group. */
static ls_status summarise(ls_reducing *r, ls_error *error)
{
    double *value = malloc((size_t)r->out->rows * sizeof *value);
    if (value == NULL) {
        return ls_fail(error, LS_MEMORY, "out of memory while reducing");
    }
    for (int g = 0; g < r->out->groups; g++) {
        for (int method = 0; method < 2; method++) {
            int count = 0;
            for (int i = 0; i < r->out->rows; i++) {
                const ls_reduced *row = &r->out->row[i];
                double x = method == 0 ? row->by_coefficient_m_s : row->by_power_m_s;
                if (row->use == LS_USE_LIMIT && row->group == g && !isnan(x)) {
                    value[count++] = x;
                }
            }
            ls_interval_of(value, count, r->request->confidence,
                           method == 0 ? &r->out->group[g].coefficient : &r->out->group[g].power_law);
        }
    }
    free(value);
    return LS_OK;
}

static ls_status reduce(ls_reducing *r, ls_error *error)
{
    ls_status status = LS_OK;
    sort_rows(r);
    for (int g = 0; g < r->out->groups && status == LS_OK; g++) {
        status = prepare_standard(r, g, error);
    }
    if (status != LS_OK) {
        return status;
    }
    status = ls_reduce_fit(r, error);
    if (status != LS_OK) {
        return status;
    }
    ls_parallel_for((r->out->rows + CHUNK - 1) / CHUNK, 0, fly_chunk, NULL, r);
    count_rows(r->out);
    if (r->out->uses[LS_USE_REJECTED] == r->out->rows) {
        return ls_fail(error, LS_NO_STATE, "not one of %d points can be used; the first: %s", r->out->rows,
                       r->out->row[0].reason);
    }
    ls_reduce_dynamic(r);
    status = summarise(r, error);
    status = status == LS_OK ? ls_reduce_regress(r, error) : status;
    status = status == LS_OK ? ls_reduce_extrapolate(r, error) : status;
    return status == LS_OK ? ls_reduce_budget(r, error) : status;
}

ls_status ls_reduce_points(const ls_reduce_request *request, ls_reduction *reduction, ls_error *error)
{
    memset(reduction, 0, sizeof *reduction);
    ls_standard *standard = calloc(LS_REDUCE_GROUPS, sizeof *standard);
    ls_reduced *row = calloc((size_t)request->points->count, sizeof *row);
    ls_reducing r = {.request = request, .out = reduction, .standard = standard};
    ls_status status = LS_MEMORY;
    reduction->row = row;
    reduction->rows = row != NULL ? request->points->count : 0;
    if (standard != NULL && row != NULL) {
        status = reduce(&r, error);
    } else {
        ls_fail(error, status, "out of memory while reducing");
    }
    free(standard);
    return status;
}

void ls_reduce_free(ls_reduction *reduction)
{
    free(reduction->row);
    reduction->row = NULL;
    reduction->rows = 0;
}

void ls_reduce_update(const ls_reduction *reduction, ls_aircraft *aircraft, ls_marks *marks)
{
    static const struct {
        const char *path;
        int scale;
    } scaled[] = {{"derivatives.side.rudder", LS_SCALE_RUDDER},
                  {"derivatives.roll.rudder", LS_SCALE_RUDDER},
                  {"derivatives.yaw.rudder", LS_SCALE_RUDDER},
                  {"derivatives.yaw.sideslip", LS_SCALE_SIDESLIP}};
    for (size_t i = 0; i < sizeof scaled / sizeof scaled[0]; i++) {
        int element;
        const ls_scale *scale = &reduction->fit.scale[scaled[i].scale];
        const ls_parameter *row = ls_parameter_find(aircraft, scaled[i].path, &element, NULL);
        double *value = ls_parameter_value(aircraft, row, element);
        if (scale->is_estimated) {
            double file = *value;
            *value = file * scale->value;
            *ls_mark_of(marks, row, element) =
                (ls_mark){.source = LS_SOURCE_MEASURED, .spread = fabs(file * scale->error)};
        }
    }
}
