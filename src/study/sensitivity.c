#include "liveside/sensitivity.h"

#include "liveside/airspeed.h"
#include "liveside/prepare.h"
#include "num/derivative.h"
#include "num/parallel.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { BATCH = 16, HALVINGS = 5, HALVINGS_REBUILT = 1 };

#define FIRST_STEP         0.2 /* of the step that is shown: the first of the differences */
#define FIRST_STEP_REBUILT 0.4 /* a new table scatters by its nodes: larger steps */

const char *ls_result_name(ls_result result)
{
    static const char *const names[LS_RESULTS] = {"VMC", "climb", "bank"};
    return (unsigned)result < LS_RESULTS ? names[result] : "unknown";
}

ls_dimension ls_result_dimension(ls_result result)
{
    static const ls_dimension dimensions[LS_RESULTS] = {LS_DIM_SPEED, LS_DIM_CLIMB_RATE, LS_DIM_ANGLE};
    return (unsigned)result < LS_RESULTS ? dimensions[result] : LS_DIM_NUMBER;
}

/* What one value of one input gives. */
typedef struct {
    const ls_sensitivity_request *request;
    const ls_input *input; /* null: the base */
    double cas_m_s;
    ls_aircraft aircraft;
    ls_vmc_kind kind;
    ls_limit limit;
    char reason[96]; /* the last failure */
} evaluation;

static void keep_reason(evaluation *e, const ls_error *error)
{
    snprintf(e->reason, sizeof e->reason, "%.*s", (int)sizeof e->reason - 1, error->text);
}

static double vmc_of(evaluation *e, const ls_model *model, double bank_rad)
{
    ls_vmc vmc;
    ls_error error = {0};
    if (ls_vmc_first(model, bank_rad, 0, NULL, &vmc, &error) != LS_OK) {
        keep_reason(e, &error);
        return NAN;
    }
    e->kind = vmc.kind;
    e->limit = vmc.limit;
    if (isnan(vmc.cas_m_s)) {
        snprintf(e->reason, sizeof e->reason, "%s",
                 vmc.kind == LS_VMC_NO_LIMIT ? "no limit is met" : "above the range");
    }
    return vmc.cas_m_s;
}

static void climb_of(evaluation *e, const ls_model *model, int side, double *results)
{
    ls_climb_point point;
    ls_airspeed speed;
    ls_error error = {0};
    ls_climb_rule rule = {.bank = LS_CLIMB_BANK_NO_SIDESLIP};
    if (!(e->cas_m_s > 0.0) || ls_airspeed_from_cas(&model->air, e->cas_m_s, &speed, &error) != LS_OK ||
        ls_climb_at(model, rule, speed.TAS_m_s, &point, &error) != LS_OK) {
        keep_reason(e, &error);
        return;
    }
    results[LS_RESULT_CLIMB] = point.rate_m_s;
    results[LS_RESULT_BANK] = side < 0 ? -point.bank_rad : point.bank_rad;
}

static void evaluate(double value, double *results, void *context)
{
    evaluation *e = context;
    const ls_sensitivity_request *request = e->request;
    ls_condition condition = request->condition;
    ls_model model;
    ls_error error = {0};
    double bank_rad = request->bank_rad;
    results[LS_RESULT_VMC] = results[LS_RESULT_CLIMB] = results[LS_RESULT_BANK] = NAN;
    e->aircraft = *request->aircraft;
    if (e->input != NULL) {
        ls_input_apply(e->input, value, request->aircraft, &e->aircraft, &condition, &bank_rad);
    }
    int rebuilt = e->input != NULL && e->input->rebuilds;
    ls_status status = rebuilt ? ls_aircraft_prepare(&e->aircraft, request->aircraft, &error) : LS_OK;
    status = status == LS_OK ? ls_model_make(&e->aircraft, &condition, &model, &error) : status;
    if (status == LS_OK) {
        int side = ls_live_side(&e->aircraft, &condition);
        results[LS_RESULT_VMC] = vmc_of(e, &model, side < 0 ? -bank_rad : bank_rad);
        climb_of(e, &model, side, results);
    } else {
        keep_reason(e, &error);
    }
    if (rebuilt) {
        ls_aircraft_release(&e->aircraft, request->aircraft);
    }
}

static double clamp(double x, const ls_input *input)
{
    return fmin(input->high, fmax(input->low, x));
}

/* The changes that the step makes, each way as far as the value may go. */
static void change(evaluation *e, const double base[LS_RESULTS], ls_sensitivity_row *row)
{
    double down[LS_RESULTS], up[LS_RESULTS];
    ls_vmc_kind kind = e->kind;
    ls_limit limit = e->limit;
    evaluate(clamp(e->input->base - row->step, e->input), down, e);
    row->limit_changes = e->kind != kind || e->limit != limit;
    evaluate(clamp(e->input->base + row->step, e->input), up, e);
    row->limit_changes |= e->kind != kind || e->limit != limit;
    for (int i = 0; i < LS_RESULTS; i++) {
        row->of[i].down = down[i] - base[i];
        row->of[i].up = up[i] - base[i];
    }
}

static void solve_row(const ls_sensitivity_request *request, const ls_sensitivity *sensitivity, evaluation *e,
                      ls_sensitivity_row *row)
{
    ls_derivative derivative[LS_RESULTS];
    const ls_input *input = row->input;
    double range[2] = {input->low, input->high};
    double first = (input->rebuilds ? FIRST_STEP_REBUILT : FIRST_STEP) * row->step;
    e->request = request;
    e->input = input;
    e->cas_m_s = sensitivity->cas_m_s;
    e->kind = sensitivity->kind;
    e->limit = sensitivity->limit;
    e->reason[0] = '\0';
    change(e, sensitivity->base, row);
    ls_derivative_find(evaluate, e, LS_RESULTS, input->base, sensitivity->base, first,
                       input->rebuilds ? HALVINGS_REBUILT : HALVINGS, range, derivative);
    for (int i = 0; i < LS_RESULTS; i++) {
        ls_response *of = &row->of[i];
        of->slope = derivative[i].slope;
        of->error = derivative[i].error;
        of->elasticity = input->base != 0.0 && sensitivity->base[i] != 0.0
                             ? of->slope * input->base / sensitivity->base[i]
                             : NAN;
    }
    snprintf(row->reason, sizeof row->reason, "%s", isnan(row->of[LS_RESULT_VMC].slope) ? e->reason : "");
}

typedef struct {
    const ls_sensitivity_request *request;
    const ls_sensitivity *sensitivity;
    ls_sensitivity_row *row;
    evaluation *own; /* one a row of the batch */
} batch;

static void run_row(int chunk, void *context)
{
    batch *b = context;
    solve_row(b->request, b->sensitivity, &b->own[chunk], &b->row[chunk]);
}

static void set_step(const ls_sensitivity_request *request, ls_sensitivity_row *row)
{
    const ls_input *input = row->input;
    row->is_spread = request->step_share == 0.0 && input->spread > 0.0;
    row->step = row->is_spread ? input->spread
                : request->step_share > 0.0 && input->base != 0.0 && input->kind == LS_AXIS_FILE
                    ? request->step_share * fabs(input->base)
                    : ls_input_usual_step(input);
}

/* The base, and the speed of the climb that is kept. */
static ls_status solve_base(const ls_sensitivity_request *request, evaluation *e, ls_sensitivity *s,
                            ls_error *error)
{
    ls_model model;
    ls_climb_best best;
    ls_error why = {0};
    ls_climb_rule rule = {.bank = LS_CLIMB_BANK_NO_SIDESLIP, .least_stalls = 1.2};
    ls_status status = ls_model_make(request->aircraft, &request->condition, &model, error);
    if (status != LS_OK) {
        return status;
    }
    s->cas_m_s = request->cas_m_s;
    if (s->cas_m_s == 0.0 && ls_climb_best_speed(&model, rule, LS_CLIMB_RATE, 0.0, &best, &why) == LS_OK) {
        s->cas_m_s = best.point.cas_m_s;
    }
    *e = (evaluation){.request = request, .cas_m_s = s->cas_m_s};
    evaluate(0.0, s->base, e);
    s->kind = e->kind;
    s->limit = e->limit;
    snprintf(s->reason, sizeof s->reason, "%.95s",
             !isnan(s->base[LS_RESULT_CLIMB]) ? ""
             : why.status != LS_OK            ? why.text
                                              : e->reason);
    return isnan(s->base[LS_RESULT_VMC])
               ? ls_fail(error, LS_NO_STATE, "there is no minimum control speed to begin with: %s", e->reason)
               : LS_OK;
}

static ls_status run(const ls_sensitivity_request *request, const ls_watch *watch, int total, evaluation *own,
                     ls_sensitivity *s, ls_error *error)
{
    for (s->count = 0; s->count < total;) {
        int rows = total - s->count < BATCH ? total - s->count : BATCH;
        batch b = {request, s, &s->row[s->count], own};
        if (watch != NULL && watch->stop != NULL && watch->stop(watch->context)) {
            return ls_fail(error, LS_INTERRUPTED, "stopped after %d of %d inputs", s->count, total);
        }
        ls_parallel_for(rows, 0, run_row, NULL, &b);
        s->count += rows;
        if (watch != NULL && watch->progress != NULL) {
            watch->progress(watch->context, (double)s->count / total);
        }
    }
    return LS_OK;
}

ls_status ls_sensitivity_solve(const ls_sensitivity_request *request, const ls_inputs *inputs,
                               const ls_watch *watch, ls_sensitivity *sensitivity, ls_error *error)
{
    memset(sensitivity, 0, sizeof *sensitivity);
    evaluation *own = calloc(BATCH, sizeof *own);
    sensitivity->row = calloc((size_t)inputs->count + 1, sizeof *sensitivity->row);
    ls_status status = own == NULL || sensitivity->row == NULL ? ls_fail(error, LS_MEMORY, "out of memory")
                                                               : solve_base(request, own, sensitivity, error);
    for (int i = 0; i < inputs->count && status == LS_OK; i++) {
        sensitivity->row[i].input = &inputs->input[i];
        set_step(request, &sensitivity->row[i]);
    }
    if (status == LS_OK) {
        status = run(request, watch, inputs->count, own, sensitivity, error);
        ls_sensitivity_sort(sensitivity, LS_RESULT_VMC);
    }
    free(own);
    if (status != LS_OK && status != LS_INTERRUPTED) {
        ls_sensitivity_free(sensitivity);
    }
    return status;
}

void ls_sensitivity_free(ls_sensitivity *sensitivity)
{
    free(sensitivity->row);
    sensitivity->row = NULL;
    sensitivity->count = 0;
}

/* A missing change counts as none. */
static double effect(const ls_sensitivity_row *row, ls_result by)
{
    double down = fabs(row->of[by].down), up = fabs(row->of[by].up);
    return fmax(isnan(down) ? 0.0 : down, isnan(up) ? 0.0 : up);
}

/* By insertion, so that rows of the same effect stay in the order of the file. */
void ls_sensitivity_sort(ls_sensitivity *sensitivity, ls_result by)
{
    ls_sensitivity_row *row = sensitivity->row;
    for (int i = 1; i < sensitivity->count; i++) {
        ls_sensitivity_row moved = row[i];
        int k = i;
        for (; k > 0 && effect(&row[k - 1], by) < effect(&moved, by); k--) {
            row[k] = row[k - 1];
        }
        row[k] = moved;
    }
}
