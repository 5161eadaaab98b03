/* Points above the limits followed down to them: deflection and force over dynamic pressure as straight functions
 * of the yawing-moment coefficient of the propulsion, and of bank and weight where these vary. */
#include "study/reduce_parts.h"

#include "num/leastsq.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { TERMS = 3, STEPS = 16 }; /* of a search, between two of the standard's speeds */

static const double condition_max = 200.0;  /* the first column is constant: it is never far from the others */
static const double same_bank_rad = 0.0105; /* 0.6 deg */

typedef struct {
    const ls_reducing *r;
    int group, which, count, terms;
    double *a, *b;
    double limit, used;
    double low_bank, high_bank;
} following;

/* Value of a control toward its use against the dead engine; NaN when it was not read. */
static double control_of(const following *f, const ls_point *point, const ls_reduced *row)
{
    int live = f->r->standard[f->group].live_side;
    switch (f->which) {
    case LS_EXTRAPOLATE_RUDDER:
        return row->rudder_rad;
    case LS_EXTRAPOLATE_AILERON:
        return live * point->aileron_rad;
    default:
        return live * point->force_N;
    }
}

static double limit_of(const following *f)
{
    const ls_model *model = &f->r->standard[f->group].model;
    switch (f->which) {
    case LS_EXTRAPOLATE_RUDDER:
        return ls_reduce_travel(model, f->r->standard[f->group].live_side);
    case LS_EXTRAPOLATE_AILERON:
        return model->aileron_rad;
    default:
        return model->condition.pedal_limit_N;
    }
}

static void terms_of(double coefficient, double bank_part, double x[TERMS])
{
    x[0] = 1.0;
    x[1] = coefficient;
    x[2] = bank_part;
}

static void gather(following *f)
{
    int every = (f->r->out->rows + LS_REDUCE_FIT_POINTS - 1) / LS_REDUCE_FIT_POINTS;
    f->low_bank = INFINITY;
    f->high_bank = -INFINITY;
    for (int i = 0; i < f->r->out->rows; i += every) {
        const ls_reduced *row = &f->r->out->row[i];
        const ls_point *point = &f->r->request->points->point[i];
        double value = control_of(f, point, row);
        if (row->use != LS_USE_STEADY || row->group != f->group || isnan(value)) {
            continue;
        }
        double bank_rad = point->bank_rad * f->r->standard[f->group].live_side;
        double *x = &f->a[TERMS * f->count];
        terms_of(row->coefficient,
                 point->mass_kg * LS_G0_M_S2 * sin(bank_rad) / (row->q_Pa * f->r->request->aircraft->wing.area_m2),
                 x);
        f->b[f->count++] = f->which == LS_EXTRAPOLATE_FORCE ? value / row->q_Pa : value;
        f->used = fmax(f->used, value / f->limit);
        f->low_bank = fmin(f->low_bank, bank_rad);
        f->high_bank = fmax(f->high_bank, bank_rad);
    }
}

/* Fewer columns where bank does not vary: the third goes. */
static void drop_bank(following *f)
{
    for (int i = 0; i < f->count; i++) {
        f->a[2 * i] = f->a[TERMS * i];
        f->a[2 * i + 1] = f->a[TERMS * i + 1];
    }
    f->terms = 2;
}

/* The control at a speed of the standard condition, and its standard error. */
static double predict(const following *f, const ls_leastsq *fit, double coefficient, double V, double *error)
{
    const ls_standard *standard = &f->r->standard[f->group];
    double bank_rad = standard->model.condition.bank_rad * standard->live_side;
    double x[TERMS], value = 0.0, variance = 0.0;
    double q_Pa = 0.5 * standard->model.air.rho_kg_m3 * V * V;
    double unit = f->which == LS_EXTRAPOLATE_FORCE ? q_Pa : 1.0;
    terms_of(coefficient, ls_reduce_bank_part(&standard->model, V, bank_rad, 1.0), x);
    for (int i = 0; i < f->terms; i++) {
        value += fit->x[i] * x[i];
        for (int j = 0; j < f->terms; j++) {
            variance += fit->covariance[i][j] * x[i] * x[j];
        }
    }
    *error = unit * sqrt(fmax(variance, 0.0));
    return unit * value;
}

/* Goes down in speed to where the control, or an edge of its confidence band, meets the limit. Given: side, 0 or
 * the number of standard errors added. Returned: CAS; NaN when it is not met. */
static double meet(const following *f, const ls_leastsq *fit, double side)
{
    const ls_standard *standard = &f->r->standard[f->group];
    double before = NAN, before_V = NAN;
    for (int i = STEPS * (LS_STANDARD_SPEEDS - 1); i >= 0; i--) {
        int k = i > 0 ? (i - 1) / STEPS : 0; /* the interval */
        double part = (double)i / STEPS - k, error;
        double V = standard->V_m_s[k] + part * (standard->V_m_s[k + 1] - standard->V_m_s[k]);
        double coefficient =
            standard->coefficient[k] + part * (standard->coefficient[k + 1] - standard->coefficient[k]);
        double left = predict(f, fit, coefficient, V, &error);
        left += side * error - f->limit;
        if (left >= 0.0) {
            return isnan(before) ? NAN : ls_standard_cas(standard, V + (before_V - V) * left / (left - before));
        }
        before = left;
        before_V = V;
    }
    return NAN;
}

static void conclude(const following *f, const ls_leastsq *fit, ls_extrapolation *out)
{
    double errors = ls_student(f->r->request->confidence, fit->rows - fit->unknowns);
    out->cas_m_s = meet(f, fit, 0.0);
    out->low = meet(f, fit, -errors);
    out->high = meet(f, fit, errors);
    if (isnan(out->cas_m_s)) {
        snprintf(out->reason, sizeof out->reason, "not met between 0.6 and 3 times the stall speed%s",
                 f->which == LS_EXTRAPOLATE_FORCE ? " (at constant thrust moment it hardly varies with speed)"
                                                  : "");
    } else if (isnan(out->low) || isnan(out->high) || out->high - out->low > 0.3 * out->cas_m_s) {
        snprintf(out->reason, sizeof out->reason, "too far off for these points: %s",
                 f->which == LS_EXTRAPOLATE_FORCE ? "force hardly varies with speed"
                                                  : "fly nearer to the limit, or more of "
                                                    "them");
        out->cas_m_s = out->low = out->high = NAN;
    }
}

static void follow(following *f, ls_extrapolation *out)
{
    ls_leastsq fit = {0};
    ls_error why = {0};
    const ls_standard *standard = &f->r->standard[f->group];
    double bank_rad = standard->model.condition.bank_rad * standard->live_side;
    *out = (ls_extrapolation){.cas_m_s = NAN, .low = NAN, .high = NAN};
    f->limit = limit_of(f);
    if (!isfinite(f->limit)) {
        snprintf(out->reason, sizeof out->reason, "no limit in the aeroplane file");
        return;
    }
    gather(f);
    out->points = f->count;
    out->used = f->used;
    f->terms = TERMS;
    int is_one_bank = f->count > 0 && fabs(f->low_bank - bank_rad) < same_bank_rad &&
                      fabs(f->high_bank - bank_rad) < same_bank_rad;
    if (is_one_bank) {
        drop_bank(f);
    }
    if (f->count < f->terms + 2) {
        snprintf(out->reason, sizeof out->reason, "%d steady points with this reading; %d are needed", f->count,
                 f->terms + 2);
        return;
    }
    if (ls_leastsq_solve(f->count, f->terms, f->a, f->b, &fit, &why) != LS_OK || fit.condition > condition_max) {
        snprintf(out->reason, sizeof out->reason,
                 "these points cannot tell speed from bank: fly several speeds at the standard bank");
        return;
    }
    conclude(f, &fit, out);
}

ls_status ls_reduce_extrapolate(ls_reducing *r, ls_error *error)
{
    size_t most = LS_REDUCE_FIT_POINTS + 1;
    double *a = malloc(most * TERMS * sizeof *a), *b = malloc(most * sizeof *b);
    ls_status status = a != NULL && b != NULL ? LS_OK : ls_fail(error, LS_MEMORY, "out of memory while reducing");
    for (int g = 0; g < r->out->groups && status == LS_OK; g++) {
        for (int which = 0; which < LS_EXTRAPOLATIONS; which++) {
            following f = {.r = r, .group = g, .which = which, .a = a, .b = b};
            follow(&f, &r->out->group[g].extrapolated[which]);
        }
    }
    free(a);
    free(b);
    return status;
}
