/* Derivatives by linear least squares on the equations of steady straight flight, stability axes, body signs:
 *     yaw    q S b (Cn_b beta + Cn_dr dr + Cn_da da) + dx Y + s N = 0
 *     side   q S (CY_b beta + CY_dr dr) + Y_T + W sin phi cos theta = 0,  Y = -(Y_T + W sin phi cos theta)
 *     roll   q S b (Cl_b beta + Cl_dr dr + Cl_da da) + L = 0
 * with N, L and Y_T of the propulsion about the point's own centre of gravity, and dx its distance aft of the
 * file's reference. The yaw equation is homogeneous in its derivatives and s N: s is 1 only if N is vouched for
 * with its uncertainty, and can be found only from points at two centres of gravity. */
#include "study/reduce_parts.h"

#include "airframe/slipstream.h"
#include "num/leastsq.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const double condition_max = 30.0;

enum { SIDESLIP, RUDDER, THIRD };

/* One point's numbers for the three equations. */
typedef struct {
    double beta, rudder, aileron; /* body signs, effective rudder */
    double N, L, Y_T;             /* over q S b, q S b, q S; stability axes */
    double weight;                /* W sin phi cos theta over q S */
    double drag_side;             /* D sin beta over q S */
    double dx_b, lateral_b;       /* over the span */
    double X;                     /* of the airframe over q S */
} observation;

typedef struct {
    const ls_reducing *r;
    observation *point;
    int count;
    int has_aileron;
    double *a, *b;
} gathering;

/* The file's drag coefficient in a trim. */
static double drag_of(const ls_model *model, const ls_trim *trim)
{
    const ls_aircraft *a = model->aircraft;
    double above = trim->lift_coefficient - model->drag_least_at;
    return model->drag_base + model->drag_induced * above * above +
           a->drag.sideslip_per_rad2 * trim->beta_rad * trim->beta_rad +
           a->drag.rudder_per_rad2 * trim->rudder_rad * trim->rudder_rad +
           a->drag.aileron_per_rad2 * trim->aileron_rad * trim->aileron_rad;
}

static int observe(const ls_reducing *r, int row, observation *o)
{
    const ls_point *point = &r->request->points->point[row];
    const ls_reduced *reduced = &r->out->row[row];
    ls_condition condition;
    ls_flown flown;
    ls_trim trim;
    double F[3], M[3];
    if ((reduced->use != LS_USE_LIMIT && reduced->use != LS_USE_STEADY) || isnan(point->beta_rad) ||
        isnan(point->rudder_rad) || ls_reduce_condition(r->request->aircraft, point, &condition) != NULL ||
        ls_reduce_fly(r->request->aircraft, point, &condition, &flown) != NULL ||
        isnan(ls_reduce_rudder(&flown.model, &flown, NULL, &trim))) {
        return 0;
    }
    double bank_rad = flown.bank_rad * flown.live_side;
    const ls_model *model = &flown.model;
    double alpha = trim.alpha_rad; /* incidence and pitch by the model, sideslip as measured */
    ls_reduce_propulsion(model, &flown.loads, alpha, point->beta_rad, F, M);
    double L = M[0] * cos(alpha) + M[2] * sin(alpha), N = M[2] * cos(alpha) - M[0] * sin(alpha);
    double qS = flown.speed.q_Pa * model->S_m2, b = model->b_m, W = model->weight_N;
    double lift_N = trim.lift_coefficient * qS;
    *o = (observation){.beta = point->beta_rad,
                       .rudder = ls_reduce_effective(model, point->rudder_rad) +
                                 ls_fin_as_rudder(&model->derivatives, flown.loads.fin_rad),
                       .aileron = point->aileron_rad,
                       .N = N / (qS * b),
                       .L = (L + lift_N * model->cg_right_m) / (qS * b),
                       .Y_T = F[1] / qS,
                       .weight = W * sin(bank_rad) * cos(trim.theta_rad) / qS,
                       .drag_side = drag_of(model, &trim) * sin(point->beta_rad),
                       .X = (W * sin(trim.theta_rad) - F[0]) / qS,
                       .dx_b = model->cg_aft_m / b,
                       .lateral_b = model->cg_right_m / b};
    return 1;
}

static void gather(gathering *g)
{
    int most = LS_REDUCE_FIT_POINTS;
    int every = (g->r->out->rows + most - 1) / most;
    g->has_aileron = 1;
    for (int i = 0; i < g->r->out->rows; i += every) {
        if (observe(g->r, i, &g->point[g->count])) {
            g->has_aileron = g->has_aileron && !isnan(g->point[g->count].aileron);
            g->count++;
        }
    }
}

/* ---- one equation ---- */

static void add_term(ls_regression *out, const char *path, double file)
{
    out->term[out->terms++] = (ls_term){.path = path, .value = NAN, .error = NAN, .file = file, .is_estimated = 1};
}

static void hold_term(ls_regression *out, const char *path, double file, const char *reason)
{
    add_term(out, path, file);
    ls_term *term = &out->term[out->terms - 1];
    term->is_estimated = 0;
    term->value = file;
    snprintf(term->reason, sizeof term->reason, "%s", reason);
}

/* Solves for the estimated terms, which come first. Returned: 1 with values; 0 with the refusal. */
static int solve(const gathering *g, ls_regression *out, int unknowns, ls_leastsq *fit)
{
    ls_error why = {0};
    out->points = g->count;
    if (ls_leastsq_solve(g->count, unknowns, g->a, g->b, fit, &why) != LS_OK) {
        snprintf(out->refused, sizeof out->refused, "%.150s", why.text);
        return 0;
    }
    out->condition = fit->condition;
    out->deviation = fit->deviation;
    if (fit->condition > condition_max) {
        snprintf(out->refused, sizeof out->refused,
                 "sideslip and rudder move together in these points (condition %.0f, at most %.0f): fly them at "
                 "several "
                 "banks",
                 fit->condition, condition_max);
        return 0;
    }
    for (int i = 0; i < unknowns; i++) {
        out->term[i].value = fit->x[i];
        out->term[i].error = fit->error[i];
        for (int j = 0; j < unknowns; j++) {
            out->correlation[i][j] = fit->correlation[i][j];
        }
    }
    return 1;
}

static void fill(const gathering *g, int unknowns, double (*cell)(const observation *o, int column),
                 double (*right)(const observation *o, double held), double held)
{
    for (int i = 0; i < g->count; i++) {
        for (int k = 0; k < unknowns; k++) {
            g->a[i * unknowns + k] = cell(&g->point[i], k);
        }
        g->b[i] = right(&g->point[i], held);
    }
}

static double plain_cell(const observation *o, int column)
{
    return column == SIDESLIP ? o->beta : column == RUDDER ? o->rudder : o->aileron;
}

/* What is known of yaw without the thrust: the side force at a centre of gravity off the reference, and the
 * ailerons. */
static double yaw_known(const observation *o, double yaw_aileron)
{
    return o->dx_b * (o->weight + o->Y_T) - o->lateral_b * o->X - yaw_aileron * o->aileron;
}

static double yaw_right(const observation *o, double yaw_aileron)
{
    return yaw_known(o, yaw_aileron) - o->N;
}

static double side_right(const observation *o, double held)
{
    (void)held;
    return o->drag_side - o->weight - o->Y_T;
}

static double roll_cell(const observation *o, int column)
{
    return column == SIDESLIP ? o->beta : o->aileron;
}

static double roll_right(const observation *o, double roll_rudder)
{
    return -o->L - roll_rudder * o->rudder;
}

static double spread_of(const gathering *g, size_t offset)
{
    double low = INFINITY, high = -INFINITY;
    for (int i = 0; i < g->count; i++) {
        double value = *(const double *)(const void *)((const char *)&g->point[i] + offset);
        low = fmin(low, value);
        high = fmax(high, value);
    }
    return high - low;
}

/* The ratio of the two yaw derivatives needs no thrust. */
static void find_ratio(ls_reduction *out, const ls_leastsq *fit)
{
    double ratio = fit->x[RUDDER] / fit->x[SIDESLIP];
    double variance = pow(fit->error[RUDDER] / fit->x[RUDDER], 2) +
                      pow(fit->error[SIDESLIP] / fit->x[SIDESLIP], 2) -
                      2.0 * fit->covariance[RUDDER][SIDESLIP] / (fit->x[RUDDER] * fit->x[SIDESLIP]);
    out->yaw_ratio = ratio;
    out->yaw_ratio_error = fabs(ratio) * sqrt(fmax(variance, 0.0));
}

/* With the thrust moment vouched for, its uncertainty is common to both derivatives. */
static void add_thrust_doubt(ls_regression *out, double share)
{
    for (int i = 0; i < 2; i++) {
        out->term[i].error = hypot(out->term[i].error, share * out->term[i].value);
    }
}

static void withhold(ls_regression *out, const char *reason)
{
    for (int i = 0; i < 2; i++) {
        out->term[i].is_estimated = 0;
        out->term[i].value = out->term[i].error = NAN;
        snprintf(out->term[i].reason, sizeof out->term[i].reason, "%s", reason);
    }
}

/* A derivative that is the ratio of an unknown to the third one, by propagation of errors. */
static void set_ratio(ls_term *term, const ls_leastsq *fit, int i)
{
    double p = fit->x[i], t = fit->x[THIRD];
    double variance = fit->covariance[i][i] / (t * t) + p * p / (t * t * t * t) * fit->covariance[THIRD][THIRD] -
                      2.0 * p / (t * t * t) * fit->covariance[i][THIRD];
    term->value = p / t;
    term->error = sqrt(fmax(variance, 0.0));
}

/* From two centres of gravity. The thrust moment, which carries the scatter, is the right-hand side, and the
 * well-known part a column: Cn_b/s beta + Cn_dr/s dr - (1/s) known = -N. The other way about, the scatter of N
 * would draw s to zero. */
static int solve_scaled(gathering *g, ls_regression *out, const ls_derivatives *file)
{
    ls_regression scaled = {.name = out->name};
    ls_leastsq fit = {0};
    ls_error why = {0};
    add_term(&scaled, "derivatives.yaw.sideslip", file->yaw_sideslip);
    add_term(&scaled, "derivatives.yaw.rudder", file->yaw_rudder);
    add_term(&scaled, "thrust moment", 1.0);
    for (int i = 0; i < g->count; i++) {
        const observation *o = &g->point[i];
        g->a[3 * i] = o->beta;
        g->a[3 * i + 1] = o->rudder;
        g->a[3 * i + 2] = -yaw_known(o, file->yaw_aileron);
        g->b[i] = -o->N;
    }
    if (ls_leastsq_solve(g->count, 3, g->a, g->b, &fit, &why) != LS_OK || fit.condition > condition_max ||
        !(fit.error[THIRD] < 0.1 * fit.x[THIRD])) {
        return 0;
    }
    scaled.points = g->count;
    scaled.condition = fit.condition;
    scaled.deviation = fit.deviation;
    set_ratio(&scaled.term[SIDESLIP], &fit, SIDESLIP);
    set_ratio(&scaled.term[RUDDER], &fit, RUDDER);
    scaled.term[THIRD].value = 1.0 / fit.x[THIRD];
    scaled.term[THIRD].error = fit.error[THIRD] / (fit.x[THIRD] * fit.x[THIRD]);
    for (int i = 0; i < 3; i++) {
        memcpy(scaled.correlation[i], fit.correlation[i], 3 * sizeof(double));
    }
    *out = scaled;
    return 1;
}

static void yaw_equation(gathering *g, const ls_derivatives *file, ls_reduction *reduction)
{
    ls_regression *out = &reduction->regression[LS_EQUATION_YAW];
    double share = g->r->request->thrust_share;
    ls_leastsq fit = {0};
    add_term(out, "derivatives.yaw.sideslip", file->yaw_sideslip);
    add_term(out, "derivatives.yaw.rudder", file->yaw_rudder);
    fill(g, 2, plain_cell, yaw_right, file->yaw_aileron);
    if (solve(g, out, 2, &fit)) {
        find_ratio(reduction, &fit);
        int has_two_cgs = spread_of(g, offsetof(observation, dx_b)) > 0.003;
        if (share > 0.0) {
            add_thrust_doubt(out, share);
        } else if (!has_two_cgs || !solve_scaled(g, out, file)) {
            withhold(out,
                     has_two_cgs
                         ? "the two centres of gravity lie too near for these scattered points to give the "
                           "thrust moment to 10 %"
                         : "only their ratio: give the thrust moment's uncertainty (--thrust-uncertainty), or "
                           "fly at two centres of gravity");
        }
    }
    hold_term(out, "derivatives.yaw.aileron", file->yaw_aileron,
              spread_of(g, offsetof(observation, lateral_b)) > 0.002
                  ? "kept at the file's value: lateral loading excites roll, but adds no yaw that is known apart"
                  : "kept at the file's value: nothing excites roll by itself in these points");
}

static void side_equation(gathering *g, const ls_derivatives *file, ls_regression *out)
{
    ls_leastsq fit = {0};
    add_term(out, "derivatives.side.sideslip", file->side_sideslip);
    add_term(out, "derivatives.side.rudder", file->side_rudder);
    fill(g, 2, plain_cell, side_right, 0.0);
    solve(g, out, 2, &fit);
}

static void roll_equation(gathering *g, const ls_derivatives *file, ls_regression *out)
{
    ls_leastsq fit = {0};
    if (!g->has_aileron) {
        snprintf(out->refused, sizeof out->refused, "no aileron angles");
        return;
    }
    add_term(out, "derivatives.roll.sideslip", file->roll_sideslip);
    add_term(out, "derivatives.roll.aileron", file->roll_aileron);
    fill(g, 2, roll_cell, roll_right, file->roll_rudder);
    solve(g, out, 2, &fit);
    hold_term(out, "derivatives.roll.rudder", file->roll_rudder,
              "kept at the file's value: it acts with the rudder");
}

static void regress(gathering *g)
{
    ls_reduction *out = g->r->out;
    const ls_derivatives *file = &g->r->standard[0].model.derivatives;
    gather(g);
    if (g->count < 4) {
        for (int i = 0; i < LS_EQUATIONS; i++) {
            snprintf(out->regression[i].refused, sizeof out->regression[i].refused,
                     "fewer than 4 points have sideslip and rudder angles");
        }
        return;
    }
    if (!g->has_aileron) {
        for (int i = 0; i < g->count; i++) {
            g->point[i].aileron = 0.0;
        }
    }
    yaw_equation(g, file, out);
    side_equation(g, file, &out->regression[LS_EQUATION_SIDE]);
    roll_equation(g, file, &out->regression[LS_EQUATION_ROLL]);
}

ls_status ls_reduce_regress(ls_reducing *r, ls_error *error)
{
    static const char *const names[LS_EQUATIONS] = {"yaw", "side force", "roll"};
    size_t most = LS_REDUCE_FIT_POINTS + 1;
    gathering g = {.r = r,
                   .point = malloc(most * sizeof *g.point),
                   .a = malloc(most * 3 * sizeof *g.a),
                   .b = malloc(most * sizeof *g.b)};
    ls_status status = g.point != NULL && g.a != NULL && g.b != NULL
                           ? LS_OK
                           : ls_fail(error, LS_MEMORY, "out of memory while reducing");
    r->out->yaw_ratio = r->out->yaw_ratio_error = NAN;
    for (int i = 0; i < LS_EQUATIONS; i++) {
        r->out->regression[i].name = names[i];
    }
    if (status == LS_OK) {
        regress(&g);
    }
    free(g.point);
    free(g.a);
    free(g.b);
    return status;
}
