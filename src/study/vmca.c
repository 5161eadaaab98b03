/* The grid of minimum control speeds that `vmca` shows. */
#include "liveside/vmca.h"

#include "num/root.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)
#define KT  (1852.0 / 3600.0)

static const double off_centre_m = 1e-6;
static const double bank_grid_deg[LS_VMCA_BANKS] = {-5, -2, 0, 1, 2, 3, 4, 5, 6, 8, 10};
const ls_engine_state ls_vmca_states[LS_VMCA_STATES] = {LS_WINDMILLING, LS_LEVER_AFT, LS_FEATHERED, LS_STOPPED};

int ls_set_size(unsigned set)
{
    int size = 0;
    for (; set != 0; set &= set - 1) {
        size++;
    }
    return size;
}

/* The engines of one side of the plane of symmetry that lie at least so far out. */
static unsigned side_set(const ls_aircraft *aircraft, int side, double out_m)
{
    unsigned set = 0;
    for (int i = 0; i < aircraft->engines; i++) {
        set |= side * aircraft->engine[i].hub_right_m >= out_m ? 1u << i : 0u;
    }
    return set;
}

/* The two outermost engines of a side, or none where it has not two. */
static unsigned outer_pair(const ls_aircraft *aircraft, int side)
{
    unsigned pair = 0;
    for (int i = 0; i < aircraft->engines; i++) {
        unsigned set = side_set(aircraft, side, fmax(off_centre_m, side * aircraft->engine[i].hub_right_m));
        pair = ls_set_size(set) == 2 ? set : pair;
    }
    return pair;
}

int ls_vmca_sets(const ls_aircraft *aircraft, unsigned set[LS_VMCA_SETS])
{
    unsigned off_centre = side_set(aircraft, -1, off_centre_m) | side_set(aircraft, +1, off_centre_m);
    int sets = 0;
    for (int i = 0; i < aircraft->engines; i++) {
        if (off_centre == 0 || (off_centre >> i & 1u)) {
            set[sets++] = 1u << i;
        }
    }
    for (int side = -1; side <= 1; side += 2) {
        unsigned pair = outer_pair(aircraft, side);
        if (pair != 0) {
            set[sets++] = pair;
        }
    }
    return sets;
}

static void set_states(const ls_aircraft *aircraft, unsigned failed, int state, ls_condition *condition)
{
    if (state < 0) {
        ls_condition_fail(aircraft, failed, condition);
    } else {
        ls_condition_fail_as(aircraft, failed, (ls_engine_state)state, condition);
    }
}

/* The body-axes bank of one that is measured toward the live side; symmetric failures bank to the right. */
static double body_bank(double bank_rad, int live_side)
{
    return live_side < 0 ? -bank_rad : bank_rad;
}

void ls_vmca_point_solve(const ls_aircraft *aircraft, const ls_condition *condition, int live_side,
                         double bank_rad, ls_vmca_point *point)
{
    ls_model model;
    ls_error error = {0};
    memset(point, 0, sizeof *point);
    point->bank_rad = bank_rad;
    point->status = ls_model_make(aircraft, condition, &model, &error);
    if (point->status == LS_OK) {
        point->status = ls_vmc_at(&model, body_bank(bank_rad, live_side), &point->vmc, &error);
    }
    snprintf(point->reason, sizeof point->reason, "%.*s", (int)sizeof point->reason - 1, error.text);
}

/* A bank found by one of the searches over bank, turned toward the live side. */
static void solve_search(const ls_aircraft *aircraft, const ls_condition *condition, int live_side,
                         ls_status (*search)(const ls_model *, double *, ls_vmc *, ls_error *),
                         ls_vmca_point *point)
{
    ls_model model;
    ls_error error = {0};
    memset(point, 0, sizeof *point);
    point->status = ls_model_make(aircraft, condition, &model, &error);
    if (point->status == LS_OK) {
        point->status = search(&model, &point->bank_rad, &point->vmc, &error);
        point->bank_rad = body_bank(point->bank_rad, live_side);
    }
    snprintf(point->reason, sizeof point->reason, "%.*s", (int)sizeof point->reason - 1, error.text);
}

/* The answer at a bank, with the weight and centre of gravity that are most unfavourable there. */
static ls_status solve_at_bank(const ls_aircraft *aircraft, const ls_vmca_request *request,
                               const ls_vmca_set *start, double bank_rad, ls_vmca_set *set, ls_error *error)
{
    ls_vmc vmc;
    double body_rad = body_bank(bank_rad, start->live_side);
    *set = *start;
    ls_status status =
        ls_vmc_worst(aircraft, &start->condition, request->search, body_rad, &set->condition, &vmc, error);
    if (status != LS_OK) {
        return status;
    }
    set->condition.bank_rad = body_rad;
    ls_vmca_point_solve(aircraft, &set->condition, set->live_side, bank_rad, &set->answer);
    return set->answer.status == LS_OK ? LS_OK : ls_fail(error, set->answer.status, "%s", set->answer.reason);
}

static int rank_of(const ls_vmca_point *point)
{
    static const int ranks[] = {[LS_VMC_ABOVE_RANGE] = 4,
                                [LS_VMC_CONTROL] = 3,
                                [LS_VMC_STALLS_FIRST] = 2,
                                [LS_VMC_NO_LIMIT] = 1,
                                [LS_VMC_FAILED] = 0};
    return point->status == LS_OK ? ranks[point->vmc.kind] : 0;
}

double ls_vmca_worse_by(const ls_vmca_point *one, const ls_vmca_point *other)
{
    int by_rank = rank_of(one) - rank_of(other);
    if (by_rank != 0) {
        return copysign(INFINITY, by_rank);
    }
    return isfinite(one->vmc.V_m_s) && isfinite(other->vmc.V_m_s) ? one->vmc.V_m_s - other->vmc.V_m_s : 0.0;
}

/* Whether one answer is better than another by enough to say so. */
static int is_lower(const ls_vmca_point *one, const ls_vmca_point *other)
{
    return ls_vmca_worse_by(other, one) > 0.05 * KT;
}

/* The bank within the limit at which the most unfavourable loading gives the lowest speed. It is nearly always the
 * limit toward the live side; where it is not, the loading depends on the bank and the bank on the loading, so
 * they are found in turn, and what does not lower the speed is not taken. */
static ls_status solve_lowest(const ls_aircraft *aircraft, const ls_vmca_request *request,
                              const ls_vmca_set *start, ls_vmca_set *set, ls_error *error)
{
    double bank_rad = request->condition.bank_limit_rad;
    ls_status status = solve_at_bank(aircraft, request, start, bank_rad, set, error);
    for (int round = 0; round < 3 && status == LS_OK; round++) {
        ls_vmca_point best;
        ls_vmca_set other;
        solve_search(aircraft, &set->condition, set->live_side, ls_vmc_best_bank, &best);
        if (best.status != LS_OK || !is_lower(&best, &set->answer)) {
            break;
        }
        status = solve_at_bank(aircraft, request, start, best.bank_rad, &other, error);
        if (status == LS_OK && !is_lower(&other.answer, &set->answer)) {
            status = solve_at_bank(aircraft, request, start, 0.0, &other, error);
        }
        if (status != LS_OK || !is_lower(&other.answer, &set->answer)) {
            break;
        }
        *set = other;
    }
    return status;
}

static ls_status solve_answer(const ls_aircraft *aircraft, const ls_vmca_request *request, ls_vmca_set *set,
                              ls_error *error)
{
    ls_vmca_set start = *set;
    if (request->bank_given || set->live_side == 0) {
        return solve_at_bank(aircraft, request, &start, request->bank_given ? request->bank_rad : 0.0, set, error);
    }
    return solve_lowest(aircraft, request, &start, set, error);
}

static void solve_banks(const ls_aircraft *aircraft, int bank_given, ls_vmca_set *set)
{
    set->banks = LS_VMCA_BANKS;
    for (int i = 0; i < set->banks; i++) {
        ls_vmca_point_solve(aircraft, &set->condition, set->live_side, bank_grid_deg[i] * DEG, &set->by_bank[i]);
    }
    ls_vmca_point_solve(aircraft, &set->condition, set->live_side, 0.0, &set->level);
    ls_vmca_point_solve(aircraft, &set->condition, set->live_side, 5.0 * DEG, &set->at_5_deg);
    set->lowest = set->answer;
    if (bank_given) {
        solve_search(aircraft, &set->condition, set->live_side, ls_vmc_best_bank, &set->lowest);
    }
    solve_search(aircraft, &set->condition, set->live_side, ls_vmc_zero_sideslip_bank, &set->zero_sideslip);
}

static void solve_variants(const ls_aircraft *aircraft, ls_vmca_set *set)
{
    double bank_rad = set->answer.bank_rad;
    ls_condition variant = set->condition;
    variant.mass_kg = aircraft->mass.maximum_kg;
    ls_vmca_point_solve(aircraft, &variant, set->live_side, bank_rad, &set->heaviest);
    for (int i = 0; i < LS_VMCA_STATES; i++) {
        variant = set->condition;
        ls_condition_fail_as(aircraft, set->failed, ls_vmca_states[i], &variant);
        ls_vmca_point_solve(aircraft, &variant, set->live_side, bank_rad, &set->by_state[i]);
    }
    for (int rotation = 0; rotation < LS_ROTATIONS; rotation++) {
        variant = set->condition;
        variant.rotation = rotation == LS_ROTATION_FILE ? variant.rotation : (ls_rotation)rotation;
        ls_vmca_point_solve(aircraft, &variant, set->live_side, bank_rad, &set->by_rotation[rotation]);
    }
}

/* The same point of another set's record, where `points` stands in the first one. */
static const ls_vmca_point *point_of_set(const ls_vmca_point *points, int set)
{
    return (const ls_vmca_point *)((const char *)points + (size_t)set * sizeof(ls_vmca_set));
}

/* The single failure that is worst, against the worst of the others.
 * Given: points, the first set's; the other sets' stand at the same place in their records. */
static void find_critical(const ls_vmca *vmca, const ls_vmca_point *points, int *critical, double *by_m_s)
{
    const ls_vmca_point *worst = NULL, *second = NULL;
    int at = -1;
    *critical = LS_CRITICAL_UNKNOWN;
    *by_m_s = NAN;
    for (int i = 0; i < vmca->sets; i++) {
        const ls_vmca_point *point = point_of_set(points, i);
        if (ls_set_size(vmca->set[i].failed) != 1) {
            continue;
        }
        if (point->status != LS_OK) {
            return;
        }
        if (worst == NULL || ls_vmca_worse_by(point, worst) > 0.0) {
            second = worst;
            worst = point;
            at = i;
        } else if (second == NULL || ls_vmca_worse_by(point, second) > 0.0) {
            second = point;
        }
    }
    if (second == NULL) {
        return;
    }
    double by = ls_vmca_worse_by(worst, second);
    if (isinf(by) && worst->vmc.kind != LS_VMC_STALLS_FIRST) {
        *by_m_s = by;
        *critical = at;
    } else if (worst->vmc.kind == LS_VMC_CONTROL) {
        *by_m_s = worst->vmc.cas_m_s - second->vmc.cas_m_s;
        *critical = *by_m_s <= 0.1 * KT ? LS_CRITICAL_NEITHER : at;
    } else if (worst->vmc.kind == LS_VMC_STALLS_FIRST) {
        *critical = LS_CRITICAL_STALL;
    }
}

/* A set without an answer has none at any of its points, and all say why. */
static void mark_missing(ls_vmca_set *set, const ls_error *why)
{
    ls_vmca_point *lone[] = {&set->answer,   &set->heaviest, &set->level,
                             &set->at_5_deg, &set->lowest,   &set->zero_sideslip};
    ls_vmca_point missing = {.status = why->status, .vmc = {.cas_m_s = NAN, .V_m_s = NAN}};
    snprintf(missing.reason, sizeof missing.reason, "%.*s", (int)sizeof missing.reason - 1, why->text);
    for (size_t i = 0; i < sizeof lone / sizeof lone[0]; i++) {
        *lone[i] = missing;
    }
    for (int i = 0; i < LS_VMCA_STATES; i++) {
        set->by_state[i] = missing;
    }
    for (int i = 0; i < LS_ROTATIONS; i++) {
        set->by_rotation[i] = missing;
    }
    set->banks = LS_VMCA_BANKS;
    for (int i = 0; i < set->banks; i++) {
        set->by_bank[i] = missing;
        set->by_bank[i].bank_rad = bank_grid_deg[i] * DEG;
    }
}

ls_status ls_vmca_solve(const ls_aircraft *aircraft, const ls_vmca_request *request, ls_vmca *vmca,
                        ls_error *error)
{
    ls_error first = {0};
    int answers = 0;
    memset(vmca, 0, sizeof *vmca);
    vmca->sets = request->sets;
    for (int i = 0; i < request->sets; i++) {
        ls_vmca_set *set = &vmca->set[i];
        set->failed = request->set[i];
        set->condition = request->condition;
        set_states(aircraft, set->failed, request->state, &set->condition);
        set->live_side = ls_live_side(aircraft, &set->condition);
        ls_error why = {0};
        if (solve_answer(aircraft, request, set, &why) != LS_OK) {
            ls_fail(&first, why.status, "%s", why.text);
            mark_missing(set, &why);
            continue;
        }
        answers++;
        solve_banks(aircraft, request->bank_given, set);
        solve_variants(aircraft, set);
    }
    if (answers == 0) {
        return ls_fail(error, first.status, "%s", first.text);
    }
    for (int rotation = 0; rotation < LS_ROTATIONS; rotation++) {
        find_critical(vmca, &vmca->set[0].by_rotation[rotation], &vmca->critical[rotation],
                      &vmca->critical_by_m_s[rotation]);
    }
    for (int i = 0; i < LS_VMCA_STATES; i++) {
        find_critical(vmca, &vmca->set[0].by_state[i], &vmca->critical_state[i], &vmca->critical_state_by_m_s[i]);
    }
    return LS_OK;
}

typedef struct {
    const ls_aircraft *aircraft;
    ls_condition condition;
    double bank_rad;
} altitude_search;

/* How far the control limit lies above the stall, both where the aeroplane is trimmed. */
static double gap_at(double altitude_m, void *context)
{
    altitude_search *search = context;
    ls_model model;
    ls_vmc vmc;
    search->condition.altitude_m = altitude_m;
    if (ls_model_make(search->aircraft, &search->condition, &model, NULL) != LS_OK ||
        ls_vmc_at(&model, search->bank_rad, &vmc, NULL) != LS_OK) {
        return NAN;
    }
    return vmc.control_cas_m_s - vmc.stall_cas_m_s;
}

ls_status ls_vmca_meeting_altitude(const ls_aircraft *aircraft, const ls_condition *condition, double bank_rad,
                                   double top_m, double *altitude_m, ls_error *error)
{
    altitude_search search = {aircraft, *condition, bank_rad};
    ls_root_options options = {.x_tol = 0.01};
    ls_root_report report;
    double low, high;
    if (ls_root_bracket(gap_at, &search, condition->altitude_m, top_m, 24, &low, &high) != LS_OK ||
        ls_root_find(gap_at, &search, low, high, &options, &report) != LS_OK) {
        return ls_fail(error, LS_NO_STATE, "control limit and stall do not meet up to %.0f ft", top_m / 0.3048);
    }
    *altitude_m = report.x;
    return LS_OK;
}
